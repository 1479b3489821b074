#include "sheet/words.h"

#include "words/length.h"

namespace sillwright::sheet {

std::string readBy(const job::Opening& opening) {
  if (!opening.measured) return "not measured";
  if (!opening.measured->by) return "measured by tape";
  if (const auto* tool = std::get_if<job::Instrument>(&*opening.measured->by)) {
    return *tool == job::Instrument::Tape ? "measured by tape" : "measured by laser";
  }
  return "measured, own standard errors";
}

std::string readingsDate(const job::Opening& opening) {
  if (!opening.installed || !opening.installed->date) return readBy(opening);
  return "set " + dateWords(*opening.installed->date);
}

std::string windWords(const job::Job& job, const practice::Practice& practice) {
  if (!job.wind) return "not given: wind is not judged";
  const auto* name = std::get_if<std::string>(&*job.wind);
  if (name == nullptr) return words::number(std::get<job::StatedPressure>(*job.wind).kpa, 2) + " kPa, given";
  std::string said = "class " + *name;
  const auto& wind = practice.strength.wind;
  const auto* found = wind.find(*name);
  if (found == nullptr) return said;
  if (found->ultimate_speed) said += ", gust " + words::number(found->ultimate_speed->value, 1) + " m/s";
  const auto kpa = practice::pressures(wind, *found, false);
  if (kpa.ultimate) said += ", " + words::number(*kpa.ultimate, 2) + " kPa on a unit (ultimate)";
  if (kpa.water) said += ", water test " + words::number(*kpa.water, 2) + " kPa";
  return said;
}

}  // namespace sillwright::sheet
