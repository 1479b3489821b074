#include "cli/uses.h"

#include <algorithm>
#include <array>
#include <map>
#include <tuple>

#include "base/in_parallel.h"
#include "check/judge.h"
#include "cli/files.h"
#include "cli/text.h"
#include "document/assets.h"
#include "exchange/check_json.h"
#include "job/read.h"
#include "plan/plan.h"
#include "scene/build/build.h"
#include "sheet/sheets.h"

namespace sillwright::cli {

namespace {

using practice::Listed;

/// The house that figures are tried on, or its first walls with their openings: small, as all of it is planned again
/// for each figure. It comes with the practices.
job::Job probe(std::size_t walls) {
  const std::filesystem::path file = document::assetsFolder() / "trial" / "house.toml";
  job::Job job = taken(job::read(taken(base::loadText(file)), file.string()));
  job.walls.resize(std::min(walls, job.walls.size()));
  std::erase_if(job.openings, [&](const job::Opening& each) { return each.wall >= job.walls.size(); });
  return job;
}

/// What of a practice the probe has to name for a figure to count: a class, a grade, a gauge, a header.
auto focusOf(const Listed& listed) {
  return std::tuple(listed.wind, listed.heat, listed.bushfire, listed.grade, listed.gauge, listed.span);
}

job::Job focused(job::Job job, const practice::Practice& practice, const Listed& listed) {
  const auto named = [](std::string_view name) {
    return name.empty() ? std::nullopt : std::optional(std::string(name));
  };
  const auto& classes = practice.strength.wind.classes;
  if (!classes.empty()) job.wind = classes[classes.size() / 2].name;  // without a wind much isn't judged
  if (!listed.wind.empty()) job.wind = std::string(listed.wind);
  job.heat = named(listed.heat);
  job.bushfire = named(listed.bushfire);
  for (auto& wall : job.walls) {
    if (listed.grade != nullptr) wall.timber = listed.grade->name;
  }
  if (listed.gauge != nullptr) {
    auto& screws = job.stock.emplace().screws;
    for (const double length : listed.gauge->lengths)  // the stock is of that gauge alone
      screws.push_back(listed.gauge->name + " x " + job::toText(length));
  }
  for (auto& opening : job.openings) {
    if (const auto* span = listed.span) opening.lintel = job::Lintel{span->depth, span->thickness, span->plies};
  }
  return job;
}

/// What else a figure may be.
std::vector<double> otherValues(const Listed& listed) {
  const double is = listed.figure->value;
  const bool whole = listed.holds.form == job::Form::WholeFigure;
  const std::vector<double> wished =  // a limit shows only where it is passed: by more, less, much, little
      whole ? std::vector{is + 1, is - 1, 4 * is, 1.0}
            : std::vector{0.5 * is, 2 * is, 1.04 * is, 10 * is, 0.1 * is, is + 5, is + 5000};
  std::vector<double> other;
  for (const double wish : wished) {
    const double value = std::clamp(wish, listed.holds.from, listed.holds.to);  // a value out of bounds isn't tried
    if (value != is) other.push_back(value);  // at its bound it may be the value itself
  }
  return other;
}

// --- what comes of it

using Said = std::map<std::string, std::string>;

/// All that the findings say, by what they are about. What isn't judged and what is filled in uses no figure.
Said saidBy(const check::Findings& findings) {
  Said said;
  for (const auto* lists : {&findings.walls, &findings.openings}) {
    for (const auto& list : *lists) {
      for (const auto& finding : list) {
        if (finding.about == "not judged" || finding.about == "taken from the rule set") continue;
        said[finding.about] += finding.say + finding.remedy + job::toText(finding.measured.value_or(0)) + "|" +
                               job::toText(finding.limit.value_or(0)) + "\n";
      }
      for (auto& [about, text] : said) text += "\n";  // which opening says it counts too
    }
  }
  return said;
}

/// What those findings are about that only one of the two has as they are.
std::vector<std::string> differing(const Said& before, const Said& after) {
  std::vector<Said::value_type> all;
  std::set_symmetric_difference(before.begin(), before.end(), after.begin(), after.end(), std::back_inserter(all));
  std::vector<std::string> abouts;
  for (const auto& [about, text] : all) {
    if (abouts.empty() || abouts.back() != about) abouts.push_back(about);
  }
  return abouts;
}

constexpr std::array<const char*, 4> kElsewhere{"the plan", "the sheets", "the order of work", "the drawing"};

/// All that is made of the job in one of kElsewhere.
std::string madeIn(std::size_t place, const job::Job& job, const practice::Practice& practice) {
  std::string text;
  if (place == 0) {
    exchange::reportJob(job, practice, [&](std::string_view piece) { text += piece; }, {1});
    return text;
  }
  if (place == 1) return sheet::windWords(job, practice);  // the only figure that a sheet says and the plan doesn't
  if (place == 2) {
    const plan::Plan plan = plan::makePlan(job, practice, {1});
    for (std::size_t i = 0; i < job.openings.size(); ++i) text += stepsText(job, practice, plan, i, 1000);
    return text;
  }
  job::Job drawn = job;
  drawn.walls.front().cladding = job::Cladding{110, 45};  // of brick, which is drawn with sizes of its own
  for (const auto& solid : scene::build(drawn, practice, plan::makePlan(drawn, practice, {1}), {}).solids) {
    const auto* bytes = reinterpret_cast<const char*>(solid.corner.data());
    text.append(bytes, sizeof solid.corner);
  }
  return text;
}

/// What `make` gives where the figure has another value.
template <class Make>
auto with(const Listed& listed, double value, const Make& make) {  // the figure is put back: others are tried on it
  const double is = std::exchange(listed.figure->value, value);
  auto made = make();
  listed.figure->value = is;
  return made;
}

/// Tries figures on a practice of its own.
class Trial {
 public:
  explicit Trial(const practice::Practice& practice) : practice_(practice), figures_(practice::figuresOf(practice_)) {}

  Use of(std::size_t index) {
    const Listed& listed = figures_[index];
    if (!focus_ || *focus_ != focusOf(listed)) {  // figures that follow each other mostly want the same house
      focus_ = focusOf(listed);
      job_ = focused(house_, practice_, listed);
      less_ = focused(half_, practice_, listed);
      said_ = judged();
      made_ = {};
    }
    // Most figures show in the findings; the rest is looked for in all that is made of half the house, which is dearer.
    const auto values = otherValues(listed);
    for (const double value : values) {
      auto abouts = differing(said_, with(listed, value, [&] { return judged(); }));
      if (!abouts.empty()) return {std::move(abouts), {}};  // one that makes a difference is enough
    }
    for (std::size_t place = 0; place < kElsewhere.size(); ++place) {
      auto& made = made_[place];  // made when it is first compared: few figures come so far
      if (!made) made = madeIn(place, less_, practice_);
      const auto differs = [&](double value) {
        return with(listed, value, [&] { return madeIn(place, less_, practice_); }) != *made;
      };
      if (std::any_of(values.begin(), values.end(), differs)) return {{}, kElsewhere[place]};
    }
    return {};
  }

 private:
  [[nodiscard]] Said judged() const {
    return saidBy(check::judge(job_, practice_, plan::makePlan(job_, practice_, {1}), {1}));
  }

  practice::Practice practice_;
  std::vector<Listed> figures_;
  const job::Job house_ = probe(4), half_ = probe(2);
  job::Job job_;   ///< The house as the figure needs it, and half of it:
  job::Job less_;  ///< what isn't judged is in every opening's plan.
  std::optional<decltype(focusOf({}))> focus_;
  Said said_;
  std::array<std::optional<std::string>, kElsewhere.size()> made_;
};

}  // namespace

std::vector<Use> usesOf(const practice::Practice& practice) {
  practice::Practice copy = practice;  // only to count its figures
  std::vector<Use> uses(practice::figuresOf(copy).size());
  constexpr std::size_t kWorthATrial = 40;  // what they are compared with is made once a stretch
  base::inParallel(uses.size(), kWorthATrial, {}, [&](std::size_t first, std::size_t last) {
    Trial trial(practice);
    for (std::size_t i = first; i < last; ++i) uses[i] = trial.of(i);
  });
  return uses;
}

}  // namespace sillwright::cli
