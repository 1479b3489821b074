#include "fuzz/promises.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string_view>

#include "check/judge.h"
#include "exchange/check_json.h"
#include "fuzz/hold.h"
#include "fuzz/lists.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "plan/work/order_of_work.h"
#include "practice/read.h"
#include "scene/build/build.h"
#include "scene/describe.h"
#include "support/check_json.h"

namespace sillwright::fuzz {
namespace {

constexpr double kRounding = 1e-6;  // mm, of sums that the plan makes in another order

/// Takes in JSON without making a document of it; a null stops it.
struct NoNull : nlohmann::json_sax<nlohmann::json> {
  bool null() override { return false; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t value, const string_t&) override { return std::isfinite(value); }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_object(std::size_t) override { return true; }
  bool key(string_t&) override { return true; }
  bool end_object() override { return true; }
  bool start_array(std::size_t) override { return true; }
  bool end_array() override { return true; }
  bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception&) override { return false; }
};

void holdFrame(const plan::WallPlan& wall) {
  for (const plan::Member& member : wall.frame.members) {
    for (const plan::Point& corner : member.corner) {
      hold(std::isfinite(corner.x) && std::isfinite(corner.z), "a member's corners are finite");
    }
    hold(member.y0 < member.y1, "a member has a depth");
    hold(member.length >= 20 - kRounding || member.part == plan::MemberPart::TopPlate,
         "pieces shorter than 20 mm are left out, but for top plates");
  }
  for (const plan::FrameFault& fault : wall.frame.faults) hold(std::isfinite(fault.by), "a fault's size is finite");
}

void holdStand(const plan::OpeningPlan& opening) {
  const plan::Stand& stand = opening.stand;
  hold(std::isfinite(stand.x) && std::isfinite(stand.z) && std::isfinite(stand.spare), "a unit stands somewhere");
  hold(stand.spare_sigma >= 0 && stand.chance >= 0 && stand.chance <= 1, "a chance is from 0 to 1");
  hold(stand.fits == (stand.spare >= 0) || std::abs(stand.spare) < kRounding, "it fits where there is spare");
  hold(stand.governors >= 1 && stand.governors <= 12, "something governs");
  double weights = 0;
  for (int i = 0; i < stand.governors; ++i) weights += stand.governed_by[static_cast<std::size_t>(i)].weight;
  hold(std::abs(weights - 1) < kRounding, "the governors' weights sum to 1");
  if (!stand.fits) return;
  hold(opening.remedies.empty(), "what fits has no remedies");
  const std::array<double, 4> least{stand.least.left, stand.least.right, stand.least.sill, stand.least.head};
  for (std::size_t side = 0; side < least.size(); ++side) {
    hold(stand.gaps.closest[side] >= least[side] - 1e-4, "where it fits every gap is at least its least");
  }
}

void holdOpening(const plan::OpeningPlan& opening) {
  holdStand(opening);
  for (const plan::PackingPoint& point : opening.packing.points) {
    hold(std::isfinite(point.gap), "a gap is finite");
    hold(point.stack.pieces == 0 || point.stack.total <= point.gap - point.backing + plan::kTimberGives + 1e-4,
         "a stack is above its gap by no more than the timber gives");
  }
  for (const plan::Fixing& point : opening.fixings.points) {
    hold(point.screw < static_cast<std::int32_t>(opening.fixings.screws.size()), "a fixing's screw was chosen");
    hold(!point.capacity_n || (std::isfinite(*point.capacity_n) && *point.capacity_n >= 0), "a capacity is a force");
  }
  for (const plan::AdjustedReading& reading : opening.as_built.readings) {
    hold(reading.redundancy >= 0 && reading.redundancy <= 1 + kRounding, "a redundancy number is from 0 to 1");
  }
  const plan::Water water = plan::traceWater(opening.weather.skin);
  if (opening.isFlashed()) {
    const auto same = [](const std::vector<plan::Leak>& one, const std::vector<plan::Leak>& two) {
      return std::equal(one.begin(), one.end(), two.begin(), two.end(), [](const auto& x, const auto& y) {
        return x.say == y.say && x.x_low == y.x_low && x.x_high == y.x_high && x.z == y.z && x.end == y.end;
      });
    };
    hold(same(opening.water.leaks, water.leaks) && same(opening.water.behind_cladding, water.behind_cladding) &&
             opening.water.strips == water.strips && opening.water.traced == water.traced,
         "a plan's water is that of the whole trace");
  }
  for (const plan::WaterPath& path : water.paths) {
    hold(path.x_low <= path.x_high, "water runs in a strip, or from a drain hole");
    hold(path.first_leg + path.legs <= water.legs.size(), "a path's legs are there");
  }
}

void holdSteps(const job::Job& job, const plan::Plan& plan, const practice::Practice& practice) {
  std::vector<std::size_t> wanted(job.openings.size());
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const auto steps = plan::orderOfWork(job, plan, i, practice);
    wanted[i] = plan::stepsAt(plan.openings[i]).size();
    hold(!steps.empty() && steps.size() == wanted[i], "an opening has its steps");
    for (const plan::Step& step : steps) {
      hold(!step.title.empty() && !step.what.empty(), "a step says what is done");
      hold(step.what.find("nan") == std::string::npos, "a step's figures are numbers");
    }
  }
  std::vector<std::size_t> told(job.openings.size());
  for (const plan::CrewTask& task : plan::crewOrder(plan)) {
    for (const std::size_t opening : task.openings) {
      const auto its = plan::stepsAt(plan.openings[opening]);
      for (const plan::StepKind kind : task.steps) {
        told[opening] += static_cast<std::size_t>(std::count(its.begin(), its.end(), kind));
      }
    }
  }
  hold(told == wanted, "each step of each opening stands once in the crew's order");
}

void holdScene(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan) {
  const scene::Scene scene = scene::build(job, practice, plan, {});
  std::uint32_t last = 0;
  for (const scene::Solid& solid : scene.solids) {
    hold(solid.part >= last && solid.part < scene.parts.size(), "solids are grouped by part, rising");
    last = solid.part;
    for (const glm::vec3& corner : solid.corner) {
      hold(std::isfinite(corner.x) && std::isfinite(corner.y) && std::isfinite(corner.z), "a solid is somewhere");
    }
  }
  for (const scene::Part& part : scene.parts) {
    hold(!scene::describe(part, practice).empty(), "a part is called something");
    static_cast<void>(scene::reason(part, job, practice, plan));
  }
}

}  // namespace

const std::vector<practice::Practice>& shippedPractices() {
  static const std::vector<practice::Practice> all = [] {
    std::vector<practice::Practice> read;
    for (const std::string& name : practice::names(SILLWRIGHT_ASSETS_DIR)) {
      auto loaded = practice::load(name, SILLWRIGHT_ASSETS_DIR, SILLWRIGHT_ASSETS_DIR);
      hold(loaded.ok(), "a practice that comes with the program is read");
      read.push_back(std::move(*loaded.value));
    }
    return read;
  }();
  return all;
}

const practice::Practice* shippedPractice(const std::string& name) {
  for (const practice::Practice& practice : shippedPractices()) {
    if (practice.name == name) return &practice;
  }
  return nullptr;
}

void holdJson(const std::string& text) {
  NoNull reader;
  hold(nlohmann::json::sax_parse(text, &reader), "the report is JSON without a null");
}

void holdWriting(const job::Job& job) {
  const std::string text = job::write(job);
  const auto again = job::read(text, job.file);
  holdAnswer(again);
  hold(again.ok() && job::sameValues(*again.value, job), "a written job reads as the same job");
  const auto same = job::rewrite(text, *again.value, *again.value);
  hold(same.ok() && *same.value == text, "nothing changed, and the text is the same");
}

void holdPlan(const job::Job& job, const practice::Practice& practice) {
  if (const auto errors = plan::disagreements(job, practice); !errors.empty()) {
    holdAnswer(base::Result<int>{{}, errors});
    holdJson(exchange::errorsJson(errors));
    return;
  }
  const plan::Plan plan = plan::makePlan(job, practice);
  hold(plan.walls.size() == job.walls.size() && plan.openings.size() == job.openings.size(), "the plan is of the job");
  for (const plan::WallPlan& wall : plan.walls) holdFrame(wall);
  for (const plan::OpeningPlan& opening : plan.openings) holdOpening(opening);
  const check::Findings findings = check::judge(job, practice, plan);
  auto worst = check::Verdict::Ready;
  for (std::size_t i = 0; i < plan.openings.size(); ++i) {
    hold(findings.verdicts[i] == check::verdictOf(findings.openings[i]), "a verdict is its findings'");
    worst = std::max(worst, findings.verdicts[i]);
  }
  hold(findings.verdict >= worst, "a job's verdict is its worst opening's");
  const std::string report = testing::checkJson(job, practice, plan, findings);
  holdJson(report);
  holdSteps(job, plan, practice);
  holdLists(job, practice, plan, findings);
  holdScene(job, practice, plan);
}

}  // namespace sillwright::fuzz
