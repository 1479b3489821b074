#include "write_toml.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <initializer_list>
#include <optional>
#include <span>
#include <utility>
#include <vector>

namespace sillwright::job::test {
namespace {

std::string number(double value) {
  std::array<char, 40> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value).ptr;
  return {buffer.data(), end};
}

std::string quoted(const std::string& text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string truth(bool value) {
  return value ? "true" : "false";
}

/// A table's keys with their values, each ready to be written.
using Keys = std::vector<std::pair<std::string, std::string>>;

std::string inlineTable(const Keys& keys) {
  std::string out = "{";
  for (const auto& [key, value] : keys) out += (out.size() == 1 ? " " : ", ") + key + " = " + value;
  return out + " }";
}

template <class List, class Write>
std::string array(const List& list, Write&& write) {
  std::string out = "[";
  for (const auto& value : list) out += (out.size() == 1 ? "" : ", ") + write(value);
  return out + "]";
}

class Writer {
 public:
  explicit Writer(Chance& chance) : chance_(chance) {}

  std::string text;

  void line(const std::string& key, const std::string& value) { text += key + " = " + value + "\n"; }
  void line(const std::string& key, const std::optional<double>& value) {
    if (value) line(key, number(*value));
  }
  void line(const std::string& key, const std::optional<bool>& value) {
    if (value) line(key, truth(*value));
  }
  void line(const std::string& key, const std::optional<std::string>& value) {
    if (value) line(key, quoted(*value));
  }

  void table(const std::string& key, const Keys& keys) {
    if (chance_.even()) return line(key, inlineTable(keys));
    for (const auto& [inner, value] : keys) line(key + "." + inner, value);
  }

  /// As an array where all were read and chance will have it, else as a table of those that were. None at all:
  /// left out.
  template <std::size_t N>
  void readings(const std::string& key, const std::array<std::optional<double>, N>& values,
                const std::array<const char*, N>& names) {
    Keys keys;
    for (std::size_t i = 0; i < N; ++i) {
      if (values[i]) keys.emplace_back(names[i], number(*values[i]));
    }
    if (keys.empty()) return;
    if (keys.size() < N || chance_.even()) return line(key, inlineTable(keys));
    line(key, array(values, [](const auto& value) { return number(*value); }));
  }

  void head(const Job& job) {
    text += "[job]\n";
    line("title", quoted(job.title));
    line("practice", quoted(job.practice));
    if (!job.wind) return;
    if (const auto* name = std::get_if<std::string>(&*job.wind)) return line("wind", quoted(*name));
    table("wind", {{"pressure_kpa", number(std::get<StatedPressure>(*job.wind).kpa)}});
  }

  void wall(const Wall& wall) {
    text += "\n[[wall]]\n";
    line("name", quoted(wall.name));
    line("length", wall.length);
    top(wall);
    if (wall.stud) table("stud", {{"depth", number(wall.stud->depth)}, {"thickness", number(wall.stud->thickness)}});
    line("spacing", wall.spacing);
    if (wall.plates) table("plates", {{"top", number(wall.plates->top)}, {"bottom", number(wall.plates->bottom)}});
    line("lining", wall.lining);
    if (wall.cladding) {
      table("cladding", {{"thickness", number(wall.cladding->thickness)}, {"cavity", number(wall.cladding->cavity)}});
    }
    if (wall.eave) table("eave", {{"soffit", number(wall.eave->soffit)}, {"reach", number(wall.eave->reach)}});
    line("timber", wall.timber);
    if (wall.at_x != 0 || wall.at_y != 0) line("at", "[" + number(wall.at_x) + ", " + number(wall.at_y) + "]");
    if (wall.turn_degrees != 0) line("turn", wall.turn_degrees);
    if (wall.align_heads) line("align", quoted("heads"));
    if (wall.supports) {
      table("supports", {{"width", number(wall.supports->width)}, {"load_kpa", number(wall.supports->load_kpa)}});
    }
    line("drop", wall.drop);
  }

  void opening(const Opening& opening, const std::vector<Wall>& walls) {
    text += "\n[[opening]]\n";
    line("name", quoted(opening.name));
    line("wall", quoted(walls[opening.wall].name));
    line("left", opening.left);
    line("sill", opening.sill);
    line("width", opening.width);
    line("height", opening.height);
    constexpr std::array kRooms = {"sleeping", "living", "wet", "shower", "stair", "utility"};
    if (opening.room) line("room", quoted(kRooms[static_cast<std::size_t>(*opening.room)]));
    if (const auto& lintel = opening.lintel) {
      table("lintel", {{"depth", number(lintel->depth)},
                       {"thickness", number(lintel->thickness)},
                       {"plies", number(lintel->plies)}});
    }
    unit(opening.unit);
    if (opening.measured) measured(*opening.measured);
    if (opening.installed) installed(*opening.installed);
  }

  void stock(const Stock& stock) {
    text += "\n[stock]\n";
    const auto list = [this](const char* key, const std::vector<double>& values) {
      if (!values.empty()) line(key, array(values, number));
    };
    list("packers", stock.packers);
    if (!stock.screws.empty()) line("screws", array(stock.screws, quoted));
    list("rolls", stock.rolls);
    line("roll_length", stock.roll_length);
    list("timber", stock.timber);
  }

 private:
  void line(const std::string& key, double value) { line(key, number(value)); }

  void top(const Wall& wall) {
    if (wall.top.size() == 2 && wall.top[0].z == wall.top[1].z && chance_.even()) return line("top", wall.top[0].z);
    line("top", array(wall.top, [](TopPoint point) { return "[" + number(point.x) + ", " + number(point.z) + "]"; }));
  }

  void unit(const Unit& unit) {
    text += "[opening.unit]\n";
    constexpr std::array kKinds = {"sliding window", "awning window", "casement window",
                                   "fixed window",   "sliding door",  "hinged door"};
    line("kind", quoted(kKinds[static_cast<std::size_t>(unit.kind)]));
    line("width", unit.width);
    line("height", unit.height);
    if (unit.frame) table("frame", {{"depth", number(unit.frame->depth)}, {"face", number(unit.frame->face)}});
    if (unit.reveal) {
      table("reveal", {{"thickness", number(unit.reveal->thickness)}, {"depth", number(unit.reveal->depth)}});
    }
    line("fin", unit.fin);
    if (unit.glass) {
      Keys keys = {{"thickness", number(unit.glass->thickness)}, {"panes", number(unit.glass->panes)}};
      if (unit.glass->safety) keys.emplace_back("safety", truth(*unit.glass->safety));
      table("glass", keys);
    }
    line("mass", unit.mass_kg);
    if (unit.flashing) line("flashing", quoted(*unit.flashing == Flashing::Fitted ? "fitted" : "on site"));
    if (unit.hand) line("hand", quoted(*unit.hand == Hand::Left ? "left" : "right"));
    line("mesh", unit.mesh);
  }

  void measured(const Measured& measured) {
    text += "[opening.measured]\n";
    readings<3>("widths", measured.widths, {"bottom", "middle", "top"});
    readings<3>("heights", measured.heights, {"left", "middle", "right"});
    readings<2>("diagonals", measured.diagonals, {"rising", "falling"});
    line("sill_fall", measured.sill_fall);
    readings<2>("lean", measured.lean, {"left", "right"});
    readings<2>("tilt", measured.tilt, {"left", "right"});
    readings<2>("wall_depth", measured.wall_depth, {"left", "right"});
    if (!measured.by) return;
    if (const auto* errors = std::get_if<StandardErrors>(&*measured.by)) {
      return table("by", {{"distance", number(errors->distance)},
                          {"diagonal", number(errors->diagonal)},
                          {"level", number(errors->level)}});
    }
    line("by", quoted(*measured.by == ReadBy(Instrument::Tape) ? "tape" : "laser"));
  }

  void installed(const Installed& installed) {
    text += "[opening.installed]\n";
    if (installed.date) {
      std::array<char, 40> buffer{};
      const auto& [year, month, day] = *installed.date;
      std::snprintf(buffer.data(), buffer.size(), "%04d-%02d-%02d", year, month, day);
      line("date", std::string(buffer.data()));
    }
    readings<2>("diagonals", installed.diagonals, {"rising", "falling"});
    line("sill_fall", installed.sill_fall);
    readings<2>("lean", installed.lean, {"left", "right"});
    line("opens", installed.opens);
    line("locks", installed.locks);
  }

  Chance& chance_;
};

}  // namespace

double Chance::within(double from, double to) {
  const auto roll = engine_() % 16;
  if (roll == 0) return from;
  if (roll == 1) return to;
  const double share = static_cast<double>(engine_() >> 11U) / 9007199254740992.0;  // 53 bits: [0, 1)
  const double value = from + share * (to - from);
  const double rounded = std::round(value);
  return even() && rounded >= from && rounded <= to ? rounded : value;
}

std::string writeToml(const Job& job, Chance& chance) {
  Writer writer(chance);
  writer.head(job);
  for (const auto& wall : job.walls) writer.wall(wall);
  for (const auto& opening : job.openings) writer.opening(opening, job.walls);
  if (job.stock) writer.stock(*job.stock);
  return writer.text;
}

}  // namespace sillwright::job::test
