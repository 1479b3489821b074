#include <string_view>
#include <tuple>
#include <utility>
#include <variant>

#include "base/words.h"
#include "plan/panes.h"
#include "plan/plan.h"

namespace sillwright::plan {

namespace {

/// "is no wind class of the practice "au" (N1, N2, N3); did you mean "N3"?"
std::string notOneOf(std::string_view name, std::string_view what, const practice::Practice& practice,
                     const std::vector<std::string_view>& known) {
  std::string say = base::quote(name);
  say.append(" is no ").append(what).append(" of the practice ").append(base::quote(practice.name));
  if (known.empty()) return say.append(", which names none");
  say += ": use " + base::joined(known, ", ", [](std::string_view each) { return base::oneLine(each); });
  if (const std::string_view meant = base::nearest(name, known); !meant.empty()) {
    say.append("; did you mean ").append(base::quote(meant)).append("?");
  }
  return say;
}

template <class Named>
std::vector<std::string_view> namesOf(const std::vector<Named>& all) {
  std::vector<std::string_view> names;
  names.reserve(all.size());
  for (const Named& each : all) names.push_back(each.name);
  return names;
}

/// A job under its practice, and what is wrong with it.
struct Judged {
  const job::Job& job;
  const practice::Practice& practice;
  std::vector<base::Error> errors{};

  void tell(const base::Place& at, std::string key, std::string say) {
    if (!say.empty()) errors.push_back({job.file, at, std::move(key), std::move(say)});  // empty: there is no fault
  }
  void tell(const base::Place& at, std::size_t opening, const char* key, std::string say) {
    tell(at, "opening[" + std::to_string(opening) + "]." + key, std::move(say));
  }
  /// A name that is none of those known.
  template <class Named>
  void tellUnknown(const base::Place& at, std::string key, const std::optional<std::string>& wanted,
                   const std::vector<Named>& known, const char* what) {
    if (!wanted || practice::findNamed(known, *wanted) != nullptr) return;
    tell(at, std::move(key), notOneOf(*wanted, what, practice, namesOf(known)));
  }
};

/// Why a name is no screw: it is a gauge of the practice and a length, "8g x 75". Empty where it is one.
std::string screwFault(const std::string& name, const practice::Practice& practice) {
  if (practice::findScrew(practice.strength, name)) return {};
  const std::size_t by = name.find(" x ");
  const std::vector<std::string_view> gauges = namesOf(practice.strength.gauges);
  const std::string gauge = name.substr(0, by);
  if (by != std::string::npos && std::find(gauges.begin(), gauges.end(), gauge) == gauges.end()) {
    return notOneOf(gauge, "gauge of screw", practice, gauges);
  }
  std::string say = base::quote(name) + " is no screw: name it with its gauge and length";
  if (!gauges.empty()) say.append(", like ").append(base::quote(std::string(gauges.front()) + " x 75"));
  return say;
}

void judgeNames(Judged& judged) {
  const auto& [job, practice, errors] = judged;
  const auto& strength = practice.strength;
  if (job.wind && std::holds_alternative<std::string>(*job.wind)) {
    judged.tellUnknown(job.wind_place, "job.wind", std::get<std::string>(*job.wind), strength.wind.classes,
                       "wind class");
  }
  // A practice that lists none of these judges no name of them.
  const auto& [bushfire, heat] = std::tie(practice.unit.bushfire, practice.unit.heat);
  if (!bushfire.empty())
    judged.tellUnknown(job.bushfire_place, "job.bushfire", job.bushfire, bushfire, "bushfire level");
  if (!heat.empty()) judged.tellUnknown(job.heat_place, "job.heat", job.heat, heat, "limit of heat loss");
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    judged.tellUnknown(job.walls[i].timber_place, "wall[" + std::to_string(i) + "].timber", job.walls[i].timber,
                       strength.timber.grades, "timber grade");
  }
  for (std::size_t i = 0; job.stock && i < job.stock->screws.size(); ++i) {
    judged.tell(job.stock->screws_place, "stock.screws[" + std::to_string(i) + "]",
                screwFault(job.stock->screws[i], practice));
  }
}

/// A schedule that goes through what the unit hasn't got.
std::string throughFault(const job::Unit& unit) {
  if (!unit.fixing || !unit.fixing->through) return {};
  const bool reveal = *unit.fixing->through == job::FixedThrough::Reveal && !unit.reveal;
  const bool fin = *unit.fixing->through == job::FixedThrough::Fin && unit.fin == 0.0;
  if (!reveal && !fin) return {};
  return std::string("goes through the ") + (reveal ? "reveal" : "fin") + ", and the unit has none";
}

constexpr const char* kNoPeak = "has a distance to a peak that there isn't";

/// Why no unit can be planned under a head; empty where one can.
std::string headFault(const job::Head& head, double width) {
  const HeadLine line(width, head.top(), head);
  if (head.top() < 100) return "must be at least 100 mm at its highest";  // Opening::height has the same least
  if (head.peaked() && (head.peak_x < 1 || head.peak_x > width - 1)) {    // the slopes divide by this distance
    return "has its peak at " + job::toText(head.peak_x) + " mm, not between 0 and the width of " + job::toText(width) +
           " mm";
  }
  const bool rises = line.slopes()[0] > line.slopes()[1];
  if (head.peaked() && !rises) return "has its peak below the line from its left to its right corner";
  const double steepest = std::max(std::abs(line.slopes()[0]), std::abs(line.slopes()[1]));
  return steepest < 1 ? "" : "is as steep as 45 degrees or steeper, which isn't planned";  // clearing.h relies on this
}

/// What was measured that an opening with such a head hasn't got.
std::string readingFault(const job::Head& head, const job::Measured& measured) {
  if (measured.heights[1]) return "has a middle height, which is not measured under a head that follows the roof";
  if ((head.left == 0 && measured.heights[0]) || (head.right == 0 && measured.heights[2])) {
    return "has a height at a side where the opening has none";
  }
  return !head.peaked() && measured.between != decltype(measured.between){} ? kNoPeak : "";
}

void judgeHeads(Judged& judged, std::size_t i) {
  const job::Opening& opening = judged.job.openings[i];
  const std::optional<job::Head>& own = opening.head;
  const std::optional<job::Head>& units = opening.unit.head;
  if (!own && !units) {
    const bool to_peak = opening.measured && opening.measured->between != decltype(opening.measured->between){};
    if (to_peak) judged.tell(opening.place, i, "measured.between", kNoPeak);
  } else if (!own || !units || own->peaked() != units->peaked()) {
    judged.tell(units ? units->place : opening.place, i, "unit.head",
                "must follow the roof as the opening's head does");
  } else {
    judged.tell(own->place, i, "head", headFault(*own, opening.width));
    judged.tell(units->place, i, "unit.head", headFault(*units, opening.unit.width));
    if (opening.measured) judged.tell(opening.place, i, "measured", readingFault(*own, *opening.measured));
  }
}

void judgeOpening(Judged& judged, std::size_t i) {
  const job::Opening& opening = judged.job.openings[i];
  const job::Unit& unit = opening.unit;
  judged.tell(opening.place, i, "unit.fixing.through", throughFault(unit));
  if (unit.fixing && unit.fixing->screw) {
    judged.tell(unit.fixing->screw_place, i, "unit.fixing.screw", screwFault(*unit.fixing->screw, judged.practice));
  }
  judgeHeads(judged, i);
  judged.tell(unit.lights.empty() ? opening.place : unit.lights_place, i, "unit.lights", lightsFault(unit));
}

}  // namespace

std::vector<base::Error> disagreements(const job::Job& job, const practice::Practice& practice) {
  Judged judged{job, practice};
  judgeNames(judged);
  for (std::size_t i = 0; i < job.openings.size(); ++i) judgeOpening(judged, i);
  std::stable_sort(judged.errors.begin(), judged.errors.end(), [](const base::Error& a, const base::Error& b) {
    return std::tie(a.at.line, a.at.column) < std::tie(b.at.line, b.at.column);
  });
  return std::move(judged.errors);
}

}  // namespace sillwright::plan
