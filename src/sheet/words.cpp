#include "sheet/words.h"

#include <array>
#include <cstdio>
#include <string_view>

#include "check/say.h"
#include "job/rules.h"

namespace sillwright::sheet {

std::string figure(double mm, practice::Display display) {
  std::string text = check::length(mm, display);
  for (const std::string_view unit : {" mm", " in"}) {
    if (text.ends_with(unit)) text.resize(text.size() - unit.size());
  }
  return text;
}

std::string signedFigure(double mm, practice::Display display) {
  std::string text = figure(mm, display);
  return !text.empty() && text.front() != '-' && text != "0" ? "+" + text : text;
}

std::string figures(double width, double height, practice::Display display) {
  return figure(width, display) + " × " + figure(height, display);
}

std::string nameOf(job::UnitKind kind) {
  return std::string(job::kKindWords[static_cast<std::size_t>(kind)]);
}

const char* nameOf(plan::Side side) {
  static constexpr std::array<const char*, 4> kWords{"left", "right", "sill", "head"};
  return kWords[static_cast<std::size_t>(side)];
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string stackOf(const plan::PackingPoint& point, practice::Display display) {
  std::string said = point.backing > 0 ? "timber " + figure(point.backing, display) : std::string{};
  for (int i = 0; i < point.stack.pieces; ++i) {
    if (!said.empty()) said += " + ";
    said += figure(point.stack.piece[static_cast<std::size_t>(i)], display);
  }
  return said.empty() ? "none" : said;
}

std::string readBy(const job::Opening& opening) {
  if (!opening.measured) return "not read";
  if (!opening.measured->by) return "by tape";
  if (const auto* tool = std::get_if<job::Instrument>(&*opening.measured->by)) {
    return *tool == job::Instrument::Tape ? "by tape" : "by laser";
  }
  return "own errors";
}

std::string readingsDate(const job::Opening& opening) {
  if (!opening.installed || !opening.installed->date) return readBy(opening);
  const job::Date& date = *opening.installed->date;
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "set %04d-%02d-%02d", date.year, date.month, date.day);
  return text.data();
}

std::string windWords(const job::Job& job, const practice::Practice& practice) {
  if (!job.wind) return "none named: wind is not judged";
  const auto* name = std::get_if<std::string>(&*job.wind);
  if (name == nullptr) return check::number(std::get<double>(*job.wind), 2) + " kPa, given";
  std::string said = "class " + *name;
  const auto& wind = practice.strength.wind;
  const auto* found = wind.find(*name);
  if (found == nullptr) return said;
  if (found->ultimate_speed) said += ", gust " + check::number(found->ultimate_speed->value, 1) + " m/s";
  const auto kpa = practice::pressures(wind, *found, false);
  if (kpa.ultimate) said += ", " + check::number(*kpa.ultimate, 2) + " kPa on a unit (ultimate)";
  if (kpa.water) said += ", water test " + check::number(*kpa.water, 2) + " kPa";
  return said;
}

}  // namespace sillwright::sheet
