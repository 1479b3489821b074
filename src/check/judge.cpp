#include "check/judge.h"

#include <cassert>
#include <mutex>
#include <tuple>
#include <utility>

#include "check/rules.h"
#include "plan/work/order_of_work.h"

namespace sillwright::check {
namespace {

/// Judging an opening takes some 6 µs, starting a thread and waiting for it more.
constexpr std::size_t kOpeningsWorthAThread = 32;

void sayNotJudged(Bench& bench) {  // one note of both lists: each rule adds a few words
  std::string said, remedy;
  const auto tell = [&](const char* why, const std::string& list, const char* cure) {
    if (list.empty()) return;
    said.append(said.empty() ? "" : " ").append(why).append(list).append(".");
    remedy.append(remedy.empty() ? "" : " ").append(cure);
  };
  tell("Not judged, the rule set has no value: ", bench.not_judged,
       "Put the value that you work by, with its source, into the practice file.");
  tell("Not judged, the job doesn't say: ", bench.not_told, "Say in the job what it doesn't.");
  if (!said.empty()) bench.note("not judged", std::move(said), {}, std::move(remedy));
}

/// How much a finding matters among those of its severity, by what it is about: danger, doesn't fit, leaks, doesn't
/// hold; all else is finish.
int rankOf(std::string_view about) {
  static const std::array<std::vector<std::string_view>, 4> kRanked{
      {{kMeasurements, "old paint and board", "falls", "escape", "safety glass", "lifting", "lifting height", "lintel",
        "lintel span", "side studs"},
       {"set-out", "unit size", "fit", "lintel room", "sill trimmer", "heads in line"},
       {"water", "lap", "flashing", "flashing width", "head flashing", "head of water", "waterproofing", "wet area",
        "door sill", "sealing", "fin cover", "wind rating"},
       {"label", "fixing load", "fixing length", "fixing breaks out", "fixing spacing", "countersink", "packing",
        "sill support", "side clearance", "sill clearance", "head clearance"}}};
  const auto names = [&](const auto& abouts) { return std::find(abouts.begin(), abouts.end(), about) != abouts.end(); };
  return static_cast<int>(std::find_if(kRanked.begin(), kRanked.end(), names) - kRanked.begin());
}

/// Stops first, then what needs attention, then notes; in each what matters most first, then the order of the rules.
void rank(std::vector<Finding>& findings) {
  using Key = std::tuple<Severity, int, std::size_t>;  // findings are large: each is moved once
  std::vector<Key> keys;
  keys.reserve(findings.size());
  for (const Finding& each : findings) keys.emplace_back(each.severity, rankOf(each.about), keys.size());
  std::sort(keys.begin(), keys.end());
  std::vector<Finding> ranked;
  ranked.reserve(findings.size());
  for (const Key& key : keys) ranked.push_back(std::move(findings[std::get<std::size_t>(key)]));
  findings = std::move(ranked);
}

constexpr std::array kUsualCautions{
    "Units are heavy and glass breaks: enough people, gloves and shoes, carried upright and never flat.",
    "At height, work from a proper platform and never leave an opening unguarded.",
    "Cutting blades, wood dust and silica dust: guards on, eyes, ears and lungs protected.",
    "Before a screw goes in, know what runs behind it: cables and pipes hide in walls.",
    "Lintels, studs and plates are altered only under span tables or an engineer.",
    "Everything here is indicative: local codes, the unit maker's instructions and licensed trades come first.",
};

/// Those of old houses first, where the job has a replacement.
std::vector<std::string> cautionsOf(const job::Job& job, const practice::Practice& practice) {
  std::vector<std::string> all;
  const auto& openings = job.openings;
  if (std::any_of(openings.begin(), openings.end(), [](const job::Opening& each) { return each.isExisting(); })) {
    all = plan::oldHouseCautions(job, practice);
  }
  for (const char* usual : kUsualCautions) all.emplace_back(usual);
  return all;
}

/// A corner of the house that stands open.
void judgeCorners(const practice::Practice& practice, const plan::HouseEnds& ends, std::vector<Finding>& findings) {
  for (const std::size_t side : {0U, 1U}) {
    if (ends[side].apart <= 0) continue;  // it meets one, or no wall would make a corner with it
    add(findings, Severity::Attend, "house corner",
        "The " + std::string(side == 0 ? "left" : "right") + " end stands " +
            words::length(ends[side].apart, practice.display) + " off the wall next to it: the house's corner is open.",
        {}, "Move or lengthen one of them until they meet.");
  }
}

/// The openings of the walls that are marked.
std::vector<std::size_t> openingsOf(const job::Job& job, const plan::Flags& walls) {
  std::vector<std::size_t> openings;
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    if (walls[job.openings[i].wall] != 0) openings.push_back(i);
  }
  return openings;
}

/// Adds to the findings that the frame has already made of the opening.
Verdict judgeOpening(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, std::size_t index,
                     std::vector<Finding>& findings) {
  constexpr std::size_t kUsually = 16;  // findings of an opening: room for them is made once
  findings.reserve(kUsually);
  Bench bench{job, practice, plan, index, findings};
  judgeReadings(bench);
  if (!shapeIsTrusted(plan.openings[index].as_built)) {
    // Nothing else is sure until the measurements agree.
    std::erase_if(findings, [](const Finding& finding) { return finding.about != kMeasurements; });
    return Verdict::Stop;
  }
  judgeSetOut(bench);
  judgeFit(bench);  // before packing and fixing, which leave out what a wide gap explains
  judgePacking(bench);
  judgeFixing(bench);
  judgeStrength(bench);
  judgeClimate(bench);
  judgeSafety(bench);
  judgeWeather(bench);
  judgeCladding(bench);
  judgeInstalled(bench);
  sayNotJudged(bench);  // what all rules before it listed
  rank(findings);
  return verdictOf(findings);
}

/// The worst of the openings, and of the walls' own findings.
Verdict worst(const Findings& findings) {
  Verdict verdict = Verdict::Ready;
  for (const auto& of_wall : findings.walls) verdict = std::max(verdict, verdictOf(of_wall));
  for (const Verdict of_opening : findings.verdicts) verdict = std::max(verdict, of_opening);
  return verdict;
}

Findings judgeMarked(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, Findings before,
                     const plan::Changes& changes, const std::vector<plan::HouseEnds>& corners, base::Threads threads) {
  assert(plan.openings.size() == job.openings.size() && plan.walls.size() == job.walls.size());
  Findings result = changes.all ? Findings{} : std::move(before);  // where all changed nothing is kept
  result.walls.resize(plan.walls.size());
  result.openings.resize(plan.openings.size());
  result.verdicts.resize(plan.openings.size());
  result.bases.resize(plan.openings.size());
  const std::vector<std::size_t> openings = openingsOf(job, changes.frames);
  for (const std::size_t i : openings) {  // judgeFrame writes into them below
    result.openings[i].clear();
    result.bases[i] = basisOf(plan.openings[i].as_built);
  }
  for (std::size_t i = 0; i < plan.walls.size(); ++i) {
    if (changes.frames[i] == 0) continue;
    result.walls[i].clear();
    judgeFrame(job, practice, plan.walls[i], result.openings, result.walls[i]);
    judgeCorners(practice, corners[i], result.walls[i]);
    judgeGroundClearance(job.walls[i], practice, plan.walls[i].spec.cladding.thickness, result.walls[i]);
    rank(result.walls[i]);
  }
  base::inParallel(openings.size(), kOpeningsWorthAThread, threads, [&](std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i) {
      result.verdicts[openings[i]] = judgeOpening(job, practice, plan, openings[i], result.openings[openings[i]]);
    }
  });
  result.verdict = worst(result);
  result.basis = result.bases.empty() ? Basis::Measured : *std::max_element(result.bases.begin(), result.bases.end());
  result.cautions = cautionsOf(job, practice);
  return result;
}

/// Openings that are worked out together: enough that what they share is looked up seldom, and few enough that their
/// plans stay in the processor's nearest memory.
constexpr std::size_t kOpeningsTogether = 32;

/// Which walls and openings are worked out together.
std::vector<Part> partsOf(const job::Job& job) {
  std::vector<std::vector<std::size_t>> of_wall(job.walls.size());
  for (std::size_t i = 0; i < job.openings.size(); ++i) of_wall[job.openings[i].wall].push_back(i);
  std::vector<Part> parts(1);
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    if (parts.back().openings.size() >= kOpeningsTogether) parts.emplace_back();  // a wall's openings share its frame
    Part& part = parts.back();
    part.walls.push_back(i);
    part.openings.insert(part.openings.end(), of_wall[i].begin(), of_wall[i].end());
  }
  return parts;
}

/// Copies what [job] says: openings can be too many to be copied and thrown away.
struct HeadCopy {
  const job::Job& from;
  job::Job& to;

  void header(std::string_view) {}
  void place(std::string_view, base::Place job::Job::*) {}
  void operator()(std::string_view, auto member, const job::Holds&, std::string_view) { to.*member = from.*member; }
};

/// `shell`: the job without its walls and openings.
Part workedOut(const job::Job& job, const job::Job& shell, const practice::Practice& practice,
               const std::vector<plan::HouseEnds>& corners, Part part) {
  part.job = shell;
  std::vector<plan::HouseEnds> ends;
  for (const std::size_t wall : part.walls) {
    part.job.walls.push_back(job.walls[wall]);
    ends.push_back(corners[wall]);
  }
  for (const std::size_t opening : part.openings) {
    part.job.openings.push_back(job.openings[opening]);
    part.job.openings.back().wall -= part.walls.front();  // the walls of a part follow each other
  }
  part.plan = plan::makePlanOfPart(part.job, practice, ends);  // walls that meet at a corner may be in other parts
  part.findings = judgeMarked(part.job, practice, part.plan, {}, plan::everything(part.job), ends, {1});
  return part;
}

void sayAll(const Part& part, const std::vector<std::size_t>& which, const Say& say, std::vector<std::string>& texts) {
  std::string text;  // written in, so that what is kept has no room to spare
  for (std::size_t i = 0; i < which.size(); ++i, text.clear()) {
    say(text, part, i);
    texts[which[i]] = text;
  }
}

}  // namespace

bool shapeIsTrusted(const plan::AsBuilt& built) {
  return built.trust != plan::Trust::Suspect && built.trust != plan::Trust::Disputed;
}

Verdict verdictOf(const std::vector<Finding>& findings) {
  const Finding* worst = worstOf(findings);
  if (worst == nullptr) return Verdict::Ready;
  return worst->severity == Severity::Stop ? Verdict::Stop : Verdict::Attend;
}

Basis basisOf(const plan::AsBuilt& built) {
  if (!shapeIsTrusted(built)) return Basis::Disputed;
  return built.trust == plan::Trust::Planned ? Basis::Planned : Basis::Measured;
}

Findings judge(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, base::Threads threads) {
  return rejudge(job, practice, plan, {}, plan::everything(job), threads);
}

Findings rejudge(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, Findings before,
                 const plan::Changes& changes, base::Threads threads) {
  return judgeMarked(job, practice, plan, std::move(before), changes, plan::houseCorners(job, practice), threads);
}

Said sayInParts(const job::Job& job, const practice::Practice& practice, const Say& wall, const Say& opening,
                base::Threads threads) {
  const std::vector<plan::HouseEnds> corners = plan::houseCorners(job, practice);  // before they are parted
  const std::vector<Part> parts = partsOf(job);
  job::Job shell;
  HeadCopy head{job, shell};
  job::Job::describe(head);
  shell.stock = job.stock;
  Said said{std::vector<std::string>(job.walls.size()), std::vector<std::string>(job.openings.size()), {}};
  said.whole.verdicts.resize(job.openings.size());  // threads write into them, each its own
  said.whole.bases.resize(job.openings.size());
  said.whole.cautions = cautionsOf(job, practice);
  std::mutex summing;  // guards the worst of all; the rest has places of its own
  base::inParallel(parts.size(), 1, threads, [&](std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i) {
      const Part part = workedOut(job, shell, practice, corners, parts[i]);
      sayAll(part, part.walls, wall, said.walls);
      sayAll(part, part.openings, opening, said.openings);
      for (std::size_t k = 0; k < part.openings.size(); ++k) {
        said.whole.verdicts[part.openings[k]] = part.findings.verdicts[k];
        said.whole.bases[part.openings[k]] = part.findings.bases[k];
      }
      const std::lock_guard lock(summing);
      said.whole.verdict = std::max(said.whole.verdict, part.findings.verdict);
      said.whole.basis = std::max(said.whole.basis, part.findings.basis);
    }
  });
  return said;
}

}  // namespace sillwright::check
