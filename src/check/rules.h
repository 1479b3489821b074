/// Inside the room: what every group of rules is given, and the few ways a finding is made.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/words.h"
#include "check/judge.h"
#include "job/job.h"
#include "plan/panes.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "words/text.h"

namespace sillwright::check {

using words::count;
using words::number;

/// What a finding on the measurements themselves is about; the only ones where they disagree.
inline constexpr const char* kMeasurements = "measurements";

/// Names the figure that a finding rests on.
inline void restsOn(Finding& finding, const practice::Figure& figure) {
  finding.source = practice::cite(figure);
  finding.status = figure.status;
}

inline const practice::Figure kCommonPractice{
    0, "", "common practice, no source", "", "", practice::Status::CommonPractice, ""};

/// The numbers that a finding rests on. Without a unit: none.
struct Against {
  double measured = 0, limit = 0;
  const char* unit = nullptr;
  const practice::Figure* figure = nullptr;
};

/// Adds a finding and gives it back to be filled in further.
inline Finding& add(std::vector<Finding>& findings, Severity severity, const char* about, std::string say,
                    const Against& against = {}, std::string remedy = {}, std::optional<plan::Side> side = {},
                    std::string caution = {}) {
  Finding& finding = findings.emplace_back();
  finding.about = about;
  finding.severity = severity;
  finding.say = std::move(say);
  if (against.unit != nullptr) {
    finding.measured = against.measured;
    finding.limit = against.limit;
    finding.unit = against.unit;
  }
  if (against.figure != nullptr) restsOn(finding, *against.figure);
  finding.remedy = std::move(remedy);
  finding.caution = std::move(caution);
  finding.spot.side = side;
  return finding;
}

/// One opening under judgement, and where its findings go.
struct Bench {
  const job::Job& job;
  const practice::Practice& practice;
  const plan::Plan& plan;
  std::size_t index;
  std::vector<Finding>& findings;
  std::string not_judged{}, not_told{};  ///< Lists, in words.

  /// What a rule would look at but the practice names no value for, or the job doesn't say.
  void notJudged(std::string_view what) { not_judged.append(not_judged.empty() ? "" : ", ").append(what); }
  void notTold(std::string_view what) { not_told.append(not_told.empty() ? "" : ", ").append(what); }
  [[nodiscard]] const job::Opening& opening() const { return job.openings[index]; }
  [[nodiscard]] const plan::OpeningPlan& planned() const { return plan.openings[index]; }
  [[nodiscard]] const plan::WallPlan& wall() const { return plan.walls[planned().wall]; }
  [[nodiscard]] const practice::Words& words() const { return practice.words; }
  [[nodiscard]] std::string len(double mm) const { return words::length(mm, practice.display); }
  [[nodiscard]] std::array<std::string, 2> apart(double mm, double limit) const {
    return words::toldApart(mm, limit, practice.display);
  }
  [[nodiscard]] std::string mass(double kg, int decimals = 0) const {
    return words::mass(kg, practice.display, decimals);
  }

  Finding& add(Severity severity, const char* about, std::string say, const Against& against = {},
               std::string remedy = {}, std::optional<plan::Side> side = {}, std::string caution = {}) const {
    return check::add(findings, severity, about, std::move(say), against, std::move(remedy), side, std::move(caution));
  }
  Finding& attend(const char* about, std::string say, const Against& against = {}, std::string remedy = {},
                  std::optional<plan::Side> side = {}, std::string caution = {}) const {
    return add(Severity::Attend, about, std::move(say), against, std::move(remedy), side, std::move(caution));
  }
  Finding& note(const char* about, std::string say, const Against& against = {}, std::string remedy = {},
                std::optional<plan::Side> side = {}, std::string caution = {}) const {
    return add(Severity::Note, about, std::move(say), against, std::move(remedy), side, std::move(caution));
  }
};

/// Where a packer or a fixing is: "on the sill, 300 mm from the unit's left", "at the left jamb, 150 mm up".
template <class Point>
[[nodiscard]] std::string placeOf(const Bench& bench, const Point& point) {
  if (plan::isLevel(point.side)) {
    return std::string(point.side == plan::Side::Sill ? "on the sill, " : "at the head, ") + bench.len(point.at) +
           " from the unit's left";
  }
  return std::string("at the ") + toWord(point.side) + " jamb, " + bench.len(point.at) + " up";
}

/// As kLengthHair, of ratios, areas, masses and loads, as a share of the limit: what computing leaves over.
inline constexpr double kShareHair = 1e-6;

/// Whether a length is below its limit, both in mm. Every limit of this room is asked through one of these, or `above`.
[[nodiscard]] inline bool below(double mm, double limit) { return mm < limit - kLengthHair; }
[[nodiscard]] inline bool aboveShare(double value, double limit) {
  return value > limit + kShareHair * std::max(1.0, std::abs(limit));
}
[[nodiscard]] inline bool belowShare(double value, double limit) {
  return value < limit - kShareHair * std::max(1.0, std::abs(limit));
}

/// The rule's figure, or nullptr after noting under `name` that it could not be judged.
inline const practice::Figure* ruleOrNote(Bench& bench, const practice::Rule& rule, const char* name) {
  if (rule) return &*rule;
  bench.notJudged(name);
  return nullptr;
}

/// The wind class that the job names; empty where it gives a pressure or nothing.
[[nodiscard]] inline std::string_view windClass(const Bench& bench) {
  const auto* name = bench.job.wind ? std::get_if<std::string>(&*bench.job.wind) : nullptr;
  return name != nullptr ? std::string_view{*name} : std::string_view{};
}

/// Whether a list of wind classes has the name.
[[nodiscard]] inline bool listed(const std::vector<std::string>& classes, std::string_view name) {
  return std::find(classes.begin(), classes.end(), name) != classes.end();
}

/// Whether a gap was told as too wide already, at this side where one is named: what comes of it has that cause.
[[nodiscard]] inline bool wideGapSaid(const Bench& bench, std::optional<plan::Side> side = {}) {
  return std::any_of(bench.findings.begin(), bench.findings.end(), [&](const Finding& finding) {
    return finding.about.ends_with(" clearance") && finding.severity == Severity::Attend &&
           (!side || finding.spot.side == side);
  });
}

void judgeSetOut(Bench& bench);
void judgeFit(Bench& bench);
void judgeReadings(Bench& bench);
void judgePacking(Bench& bench);
void judgeFixing(Bench& bench);
void judgeStrength(Bench& bench);
void judgeClimate(Bench& bench);
void judgeSafety(Bench& bench);
void judgeWeather(Bench& bench);
void judgeCladding(Bench& bench);
void judgeInstalled(Bench& bench);

/// Faults of the frame, sorted to the openings they belong to.
void judgeFrame(const job::Job& job, const practice::Practice& practice, const plan::WallPlan& wall,
                std::vector<std::vector<Finding>>& openings, std::vector<Finding>& of_wall);

/// Cladding covers the bottom plate, so it ends no higher than the floor. `cladding`: its thickness.
void judgeGroundClearance(const job::Wall& wall, const practice::Practice& practice, double cladding,
                          std::vector<Finding>& findings);

// A unit where it stands, measured from the floor and along its wall: what the rules about people getting hurt ask.

struct Standing {
  plan::UnitParts parts;
  double x = 0;  ///< Of the unit's lower left corner, in the wall's axes.
  double z = 0;

  [[nodiscard]] double sightLine(const plan::UnitRect& pane) const { return z + pane.z0; }
  /// Height above the floor of the lowest place that opens; empty: none does.
  [[nodiscard]] std::optional<double> lowest() const {
    std::optional<double> foot;
    for (const plan::LightParts& light : parts.light) {
      if (!plan::opens(light.kind) || job::isDoor(light.kind)) continue;
      foot = std::min(foot.value_or(HUGE_VAL), z + light.clear.z0);
    }
    return foot;
  }
};

[[nodiscard]] inline Standing standing(const Bench& bench) {
  const auto& planned = bench.planned();
  return {plan::partsOf(planned.unit), bench.opening().left + planned.stand.x, bench.opening().sill + planned.stand.z};
}

[[nodiscard]] inline bool isWet(const std::optional<job::Room>& room) {
  return room == job::Room::WetArea || room == job::Room::Shower;
}

void judgeGlass(Bench& bench, const Standing& at);
void judgeFalls(Bench& bench, const Standing& at);
void judgeEscape(Bench& bench, const Standing& at);

}  // namespace sillwright::check
