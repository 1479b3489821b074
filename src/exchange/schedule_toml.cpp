// Openings of a schedule as the text of a job file.

#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>

#include "exchange/schedule.h"
#include "job/rules.h"

namespace sillwright::exchange {
namespace {

/// A basic string of TOML. Control characters don't come this far (the reader refuses them in names).
std::string tomlString(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

/// "key = value", the equals signs in line.
void line(std::string& out, std::string_view key, const std::string& value) {
  out.append(key).append(key.size() < 8 ? 8 - key.size() : 0, ' ').append(" = ").append(value).append("\n");
}

/// An inline table of the keys that have a value.
std::string table(std::initializer_list<std::pair<const char*, std::string>> keys) {
  std::string out = "{ ";
  for (const auto& [key, value] : keys) {
    if (value.empty()) continue;
    if (out.size() > 2) out += ", ";
    out.append(key).append(" = ").append(value);
  }
  return out + " }";
}

void unitToml(std::string& out, const job::Unit& unit) {
  using job::toText;
  out += "\n[opening.unit]\n";
  line(out, "kind", tomlString(job::kKindWords[static_cast<std::size_t>(unit.kind)]));
  line(out, "width", toText(unit.width));
  line(out, "height", toText(unit.height));
  if (unit.frame) line(out, "frame", table({{"depth", toText(unit.frame->depth)}, {"face", toText(unit.frame->face)}}));
  if (unit.reveal) {
    line(out, "reveal", table({{"thickness", toText(unit.reveal->thickness)}, {"depth", toText(unit.reveal->depth)}}));
  }
  if (unit.fin) line(out, "fin", toText(*unit.fin));
  if (unit.glass) {
    const auto& safety = unit.glass->safety;
    line(out, "glass",
         table({{"thickness", toText(unit.glass->thickness)},
                {"panes", std::to_string(unit.glass->panes)},
                {"safety", !safety ? "" : (*safety ? "true" : "false")}}));
  }
  if (unit.mass_kg) line(out, "mass", toText(*unit.mass_kg));
  if (unit.hand) line(out, "hand", tomlString(job::kHandWords[static_cast<std::size_t>(*unit.hand)]));
  if (unit.flashing) line(out, "flashing", tomlString(job::kFlashingWords[static_cast<std::size_t>(*unit.flashing)]));
}

}  // namespace

std::string openingsToml(const Schedule& schedule) {
  using job::toText;
  std::string out;
  for (const job::Opening& opening : schedule.openings) {
    if (!out.empty()) out += "\n";
    out += "[[opening]]\n";
    line(out, "name", tomlString(opening.name));
    line(out, "wall", tomlString(schedule.walls[opening.wall]));
    line(out, "left", toText(opening.left));
    line(out, "sill", toText(opening.sill));
    line(out, "width", toText(opening.width));
    line(out, "height", toText(opening.height));
    if (opening.room) line(out, "room", tomlString(job::kRoomWords[static_cast<std::size_t>(*opening.room)]));
    unitToml(out, opening.unit);
  }
  return out;
}

}  // namespace sillwright::exchange
