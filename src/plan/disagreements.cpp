#include <algorithm>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

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
  std::string_view separator = ": use ";
  for (const std::string_view each : known) {
    say.append(separator).append(base::oneLine(each));
    separator = ", ";
  }
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

void judgeWind(const job::Job& job, const practice::Practice& practice, std::vector<base::Error>& errors) {
  const std::string* wanted = job.wind ? std::get_if<std::string>(&*job.wind) : nullptr;
  if (wanted == nullptr || practice.strength.wind.find(*wanted) != nullptr) return;
  errors.push_back({job.file, job.wind_place, "job.wind",
                    notOneOf(*wanted, "wind class", practice, namesOf(practice.strength.wind.classes))});
}

/// A level of bushfire attack or a limit of heat loss that the practice doesn't know, though it knows others.
template <class Named>
void judgeNamed(const job::Job& job, const std::optional<std::string>& wanted, const std::vector<Named>& known,
                const char* key, const char* what, const base::Place& place, const practice::Practice& practice,
                std::vector<base::Error>& errors) {
  if (!wanted || known.empty() || practice::findNamed(known, *wanted) != nullptr) return;
  errors.push_back({job.file, place, std::string("job.") + key, notOneOf(*wanted, what, practice, namesOf(known))});
}

void judgeTimber(const job::Job& job, const practice::Practice& practice, std::vector<base::Error>& errors) {
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    const job::Wall& wall = job.walls[i];
    if (!wall.timber || practice.strength.timber.find(*wall.timber) != nullptr) continue;
    errors.push_back({job.file, wall.timber_place, "wall[" + std::to_string(i) + "].timber",
                      notOneOf(*wall.timber, "timber grade", practice, namesOf(practice.strength.timber.grades))});
  }
}

/// Why a name is no screw: it is a gauge of the practice and a length, "8g x 75".
std::string notAScrew(const std::string& name, const practice::Practice& practice) {
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

/// A schedule that goes through what the unit hasn't got.
void judgeThrough(const job::Job& job, std::size_t index, std::vector<base::Error>& errors) {
  const job::Unit& unit = job.openings[index].unit;
  if (!unit.fixing || !unit.fixing->through) return;
  const bool reveal = *unit.fixing->through == job::FixedThrough::Reveal && !unit.reveal;
  const bool fin = *unit.fixing->through == job::FixedThrough::Fin && unit.fin == 0.0;
  if (!reveal && !fin) return;
  errors.push_back({job.file, job.openings[index].place, "opening[" + std::to_string(index) + "].unit.fixing.through",
                    std::string("goes through the ") + (reveal ? "reveal" : "fin") + ", and the unit has none"});
}

void judgeScrews(const job::Job& job, const practice::Practice& practice, std::vector<base::Error>& errors) {
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const std::optional<job::FixingSchedule>& fixing = job.openings[i].unit.fixing;
    judgeThrough(job, i, errors);
    if (!fixing || !fixing->screw || practice::findScrew(practice.strength, *fixing->screw)) continue;
    errors.push_back({job.file, fixing->screw_place, "opening[" + std::to_string(i) + "].unit.fixing.screw",
                      notAScrew(*fixing->screw, practice)});
  }
  if (!job.stock) return;
  for (std::size_t i = 0; i < job.stock->screws.size(); ++i) {
    const std::string& screw = job.stock->screws[i];
    if (practice::findScrew(practice.strength, screw)) continue;
    errors.push_back(
        {job.file, job.stock->screws_place, "stock.screws[" + std::to_string(i) + "]", notAScrew(screw, practice)});
  }
}

void judgeLights(const job::Job& job, std::vector<base::Error>& errors) {
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const job::Opening& opening = job.openings[i];
    std::string fault = lightsFault(opening.unit);
    if (fault.empty()) continue;
    const bool named = !opening.unit.lights.empty();
    errors.push_back({job.file, named ? opening.unit.lights_place : opening.place,
                      "opening[" + std::to_string(i) + "].unit.lights", std::move(fault)});
  }
}

constexpr const char* kNoPeak = "has a distance to a peak that there isn't";

/// Why no unit can be planned under a head; empty where one can.
std::string headFault(const job::Head& head, double width) {
  const HeadLine line(width, head.top(), head);
  if (head.top() < 100) return "must be at least 100 mm at its highest";
  if (head.peaked() && (head.peak_x < 1 || head.peak_x > width - 1)) {
    return "has its peak at " + job::toText(head.peak_x) + " mm, not between 0 and the width of " + job::toText(width) +
           " mm";
  }
  const bool rises = line.slopes()[0] > line.slopes()[1];
  if (head.peaked() && !rises) return "has its peak below the line from its left to its right corner";
  const double steepest = std::max(std::abs(line.slopes()[0]), std::abs(line.slopes()[1]));
  return steepest < 1 ? "" : "is as steep as 45 degrees or steeper, which isn't planned";
}

/// What was measured that an opening with such a head hasn't got.
std::string readingFault(const job::Head& head, const job::Measured& measured) {
  if (measured.heights[1]) return "has a middle height, which is not measured under a head that follows the roof";
  if ((head.left == 0 && measured.heights[0]) || (head.right == 0 && measured.heights[2])) {
    return "has a height at a side where the opening has none";
  }
  return !head.peaked() && measured.between != decltype(measured.between){} ? kNoPeak : "";
}

void judgeHeads(const job::Job& job, std::vector<base::Error>& errors) {
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const job::Opening& opening = job.openings[i];
    const std::optional<job::Head>& own = opening.head;
    const std::optional<job::Head>& units = opening.unit.head;
    const auto tell = [&](const char* key, base::Place at, std::string say) {
      if (say.empty()) return;
      errors.push_back({job.file, at, "opening[" + std::to_string(i) + "]." + key, std::move(say)});
    };
    if (!own && !units) {
      const bool to_peak = opening.measured && opening.measured->between != decltype(opening.measured->between){};
      if (to_peak) tell("measured.between", opening.place, kNoPeak);
      continue;
    }
    if (!own || !units || own->peaked() != units->peaked()) {
      tell("unit.head", units ? units->place : opening.place, "must follow the roof as the opening's head does");
      continue;
    }
    tell("head", own->place, headFault(*own, opening.width));
    tell("unit.head", units->place, headFault(*units, opening.unit.width));
    if (opening.measured) tell("measured", opening.place, readingFault(*own, *opening.measured));
  }
}

}  // namespace

std::vector<base::Error> disagreements(const job::Job& job, const practice::Practice& practice) {
  std::vector<base::Error> errors;
  judgeWind(job, practice, errors);
  judgeNamed(job, job.bushfire, practice.unit.bushfire, "bushfire", "bushfire level", job.bushfire_place, practice,
             errors);
  judgeNamed(job, job.heat, practice.unit.heat, "heat", "limit of heat loss", job.heat_place, practice, errors);
  judgeTimber(job, practice, errors);
  judgeScrews(job, practice, errors);
  judgeHeads(job, errors);
  judgeLights(job, errors);
  std::stable_sort(errors.begin(), errors.end(), [](const base::Error& a, const base::Error& b) {
    return a.at.line != b.at.line ? a.at.line < b.at.line : a.at.column < b.at.column;
  });
  return errors;
}

}  // namespace sillwright::plan
