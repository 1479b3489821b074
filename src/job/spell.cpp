#include "job/spell.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdio>
#include <optional>
#include <span>
#include <type_traits>
#include <utility>
#include <variant>

#include "job/rules.h"

namespace sillwright::job {

// Written out: clang 14 doesn't survive two types whose defaulted comparisons need each other.
bool operator==(const Part& a, const Part& b) {
  return a.key == b.key && a.value == b.value;
}
bool operator==(const Spelling& a, const Spelling& b) {
  return a.shape == b.shape && a.text == b.text && a.parts == b.parts;
}

namespace {

std::string inQuotes(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

Spelling scalar(std::string text) {
  return {Shape::Scalar, std::move(text), {}};
}
Spelling of(double value) {
  return scalar(toText(value == 0 ? 0.0 : value));  // no minus before a zero
}
Spelling of(int value) {
  return scalar(std::to_string(value));
}
Spelling of(bool value) {
  return scalar(value ? "true" : "false");
}
Spelling of(const std::string& value) {
  return scalar(inQuotes(value));
}
Spelling of(const Date& date) {
  std::array<char, 40> buffer{};
  std::snprintf(buffer.data(), buffer.size(), "%04d-%02d-%02d", date.year, date.month, date.day);
  return scalar(buffer.data());
}
// All before the template of optionals, which would not find those that come after it.
Spelling of(const StudSection& value);
Spelling of(const PlateCount& value);
Spelling of(const Cladding& value);
Spelling of(const Eave& value);
Spelling of(const Supports& value);
Spelling of(const Lintel& value);
Spelling of(const FrameSection& value);
Spelling of(const Reveal& value);
Spelling of(const Glass& value);
Spelling of(const ReadBy& value);
Spelling of(const Wind& value);
Spelling of(const Measured& value);
Spelling of(const Installed& value);
template <class T>
Spelling of(const std::optional<T>& value) {
  return value ? of(*value) : Spelling{};
}
template <class T>
Spelling of(const std::vector<T>& values) {
  if (values.empty()) return {};
  Spelling list{Shape::List, {}, {}};
  for (const T& value : values) list.parts.push_back({{}, of(value)});
  return list;
}

Spelling word(std::span<const std::string_view> words, std::size_t index) {
  return scalar(inQuotes(words[index]));
}
template <class Enumeration>
Spelling word(std::span<const std::string_view> words, const std::optional<Enumeration>& value) {
  return value ? word(words, static_cast<std::size_t>(*value)) : Spelling{};
}

Spelling table(std::vector<Part> parts) {
  return {Shape::Table, {}, std::move(parts)};
}

template <std::size_t N>
Spelling readings(const TableRule& rule, const std::array<std::optional<double>, N>& values) {
  Spelling all{Shape::Readings, {}, {}};
  bool any = false;
  for (std::size_t i = 0; i < N; ++i) {
    all.parts.push_back({rule.keys[i].name, of(values[i])});
    any = any || values[i].has_value();
  }
  return any ? all : Spelling{};
}

Spelling of(const StudSection& stud) {
  return table({{"depth", of(stud.depth)}, {"thickness", of(stud.thickness)}});
}
Spelling of(const PlateCount& plates) {
  return table({{"top", of(plates.top)}, {"bottom", of(plates.bottom)}});
}
Spelling of(const Cladding& cladding) {
  return table({{"thickness", of(cladding.thickness)}, {"cavity", of(cladding.cavity)}});
}
Spelling of(const Eave& eave) {
  return table({{"soffit", of(eave.soffit)}, {"reach", of(eave.reach)}});
}
Spelling of(const Supports& supports) {
  return table({{"width", of(supports.width)}, {"load_kpa", of(supports.load_kpa)}});
}
Spelling of(const Lintel& lintel) {
  return table({{"depth", of(lintel.depth)}, {"thickness", of(lintel.thickness)}, {"plies", of(lintel.plies)}});
}
Spelling of(const FrameSection& frame) {
  return table({{"depth", of(frame.depth)}, {"face", of(frame.face)}});
}
Spelling of(const Reveal& reveal) {
  return table({{"thickness", of(reveal.thickness)}, {"depth", of(reveal.depth)}});
}
Spelling of(const Glass& glass) {
  return table({{"thickness", of(glass.thickness)}, {"panes", of(glass.panes)}, {"safety", of(glass.safety)}});
}
Spelling of(const StandardErrors& errors) {
  return table({{"distance", of(errors.distance)}, {"diagonal", of(errors.diagonal)}, {"level", of(errors.level)}});
}

Spelling of(const ReadBy& by) {
  if (const auto* errors = std::get_if<StandardErrors>(&by)) return of(*errors);
  return word(kInstrumentWords, static_cast<std::size_t>(std::get<Instrument>(by)));
}

Spelling of(const Wind& wind) {
  if (const auto* name = std::get_if<std::string>(&wind)) return of(*name);
  return table({{"pressure_kpa", of(std::get<double>(wind))}});
}

Spelling outlineOf(const std::vector<TopPoint>& top) {
  Spelling outline{Shape::Outline, {}, {}};
  for (const TopPoint& point : top) outline.parts.push_back({{}, of(std::vector{point.x, point.z})});
  return outline;
}

Spelling of(const Unit& unit) {
  Spelling all = table({
      {"kind", word(kKindWords, static_cast<std::size_t>(unit.kind))},
      {"width", of(unit.width)},
      {"height", of(unit.height)},
      {"frame", of(unit.frame)},
      {"reveal", of(unit.reveal)},
      {"fin", of(unit.fin)},
      {"glass", of(unit.glass)},
      {"mass", of(unit.mass_kg)},
      {"flashing", word(kFlashingWords, unit.flashing)},
      {"hand", word(kHandWords, unit.hand)},
      {"mesh", of(unit.mesh)},
  });
  all.shape = Shape::Section;
  return all;
}

Spelling of(const Measured& measured) {
  Spelling all = table({
      {"widths", readings(kWidthsRule, measured.widths)},
      {"heights", readings(kHeightsRule, measured.heights)},
      {"diagonals", readings(kDiagonalsRule, measured.diagonals)},
      {"sill_fall", of(measured.sill_fall)},
      {"lean", readings(kLeanRule, measured.lean)},
      {"tilt", readings(kTiltRule, measured.tilt)},
      {"wall_depth", readings(kWallDepthRule, measured.wall_depth)},
      {"by", of(measured.by)},
  });
  all.shape = Shape::Section;
  return all;
}

Spelling of(const Installed& installed) {
  Spelling all = table({
      {"date", of(installed.date)},
      {"diagonals", readings(kInstalledDiagonalsRule, installed.diagonals)},
      {"sill_fall", of(installed.sill_fall)},
      {"lean", readings(kInstalledLeanRule, installed.lean)},
      {"opens", of(installed.opens)},
      {"locks", of(installed.locks)},
  });
  all.shape = Shape::Section;
  return all;
}

bool isLevel(const Spelling& outline) {
  return outline.parts.size() == 2 && outline.parts[0].value.parts[1] == outline.parts[1].value.parts[1];
}

bool isWhole(const Spelling& readings) {
  return std::none_of(readings.parts.begin(), readings.parts.end(),
                      [](const Part& part) { return part.value.shape == Shape::Absent; });
}

std::string listText(const Spelling& list) {
  std::string out;
  for (const Part& part : list.parts) out += (out.empty() ? "" : ", ") + inlineText(part.value);
  return "[" + out + "]";
}

std::string tableText(const Spelling& value) {
  std::string out;
  for (const auto& [key, inner] : value.parts) {
    if (inner.shape == Shape::Absent) continue;
    out.append(out.empty() ? " " : ", ").append(key).append(" = ").append(inlineText(inner));
  }
  return out.empty() ? "{}" : "{" + out + " }";
}

}  // namespace

Spelling spellHead(const Job& job) {
  Spelling all = table({{"title", of(job.title)}, {"practice", of(job.practice)}, {"wind", of(job.wind)}});
  all.shape = Shape::Section;
  return all;
}

Spelling spell(const Wall& wall) {
  const bool stands = wall.at_x != 0 || wall.at_y != 0;
  return table({
      {"name", of(wall.name)},
      {"length", of(wall.length)},
      {"top", outlineOf(wall.top)},
      {"stud", of(wall.stud)},
      {"spacing", of(wall.spacing)},
      {"plates", of(wall.plates)},
      {"lining", of(wall.lining)},
      {"cladding", of(wall.cladding)},
      {"eave", of(wall.eave)},
      {"timber", of(wall.timber)},
      {"at", stands ? of(std::vector{wall.at_x, wall.at_y}) : Spelling{}},
      {"turn", wall.turn_degrees != 0 ? of(wall.turn_degrees) : Spelling{}},
      {"align", wall.align_heads ? word(kAlignWords, std::size_t{0}) : Spelling{}},
      {"supports", of(wall.supports)},
      {"drop", of(wall.drop)},
  });
}

Spelling spell(const Opening& opening, const std::string& wall) {
  return table({
      {"name", of(opening.name)},
      {"wall", of(wall)},
      {"left", of(opening.left)},
      {"sill", of(opening.sill)},
      {"width", of(opening.width)},
      {"height", of(opening.height)},
      {"room", word(kRoomWords, opening.room)},
      {"lintel", of(opening.lintel)},
      {"unit", of(opening.unit)},
      {"measured", of(opening.measured)},
      {"installed", of(opening.installed)},
  });
}

Spelling spell(const Stock& stock) {
  Spelling all = table({
      {"packers", of(stock.packers)},
      {"screws", of(stock.screws)},
      {"rolls", of(stock.rolls)},
      {"roll_length", of(stock.roll_length)},
      {"timber", of(stock.timber)},
  });
  all.shape = Shape::Section;
  return all;
}

std::string inlineText(const Spelling& value) {
  switch (value.shape) {
    case Shape::Absent:
      break;
    case Shape::Scalar:
      return value.text;
    case Shape::List:
      return listText(value);
    case Shape::Outline:
      return isLevel(value) ? value.parts[0].value.parts[1].value.text : listText(value);
    case Shape::Readings:
      return isWhole(value) ? listText(value) : tableText(value);
    case Shape::Table:
    case Shape::Section:
      return tableText(value);
  }
  return {};
}

std::string sectionText(const std::string& name, bool one_of_many, const Spelling& table, std::string_view line_end) {
  std::string out = (one_of_many ? "[[" + name + "]]" : "[" + name + "]").append(line_end);
  std::size_t widest = 0;
  for (const auto& [key, value] : table.parts) {
    const bool is_line = value.shape != Shape::Absent && value.shape != Shape::Section;
    if (is_line) widest = std::max(widest, key.size());
  }
  for (const auto& [key, value] : table.parts) {
    if (value.shape == Shape::Absent || value.shape == Shape::Section) continue;
    out.append(key).append(widest - key.size(), ' ').append(" = ").append(inlineText(value)).append(line_end);
  }
  for (const auto& [key, value] : table.parts) {
    if (value.shape != Shape::Section) continue;
    out.append(line_end).append(sectionText(name + "." + std::string(key), false, value, line_end));
  }
  return out;
}

}  // namespace sillwright::job
