/// Jobs by chance, within the reader's own bounds, for the tests' round trips.
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "job/job.h"
#include "job/rules.h"
#include "write_toml.h"

namespace sillwright::job::test {

/// Makes jobs by chance, within the reader's own bounds. `Luck` is asked as Chance is.
template <class Luck = Chance>
class JobMaker {
 public:
  explicit JobMaker(Luck& chance) : chance_(chance) {}

  Job job() {
    Job made;
    made.file = "made.toml";
    made.title = text();
    made.practice = text();
    if (chance_.even()) made.wind = chance_.even() ? Wind(text()) : Wind(number(kWindRule, "pressure_kpa"));
    for (std::size_t i = chance_.below(4); i < 4; ++i) made.walls.push_back(wall("w" + std::to_string(i) + text()));
    for (std::size_t i = chance_.below(5); i < 4; ++i) {
      made.openings.push_back(opening("o" + std::to_string(i) + text()));
      made.openings.back().wall = chance_.below(made.walls.size());
    }
    if (chance_.even()) made.stock = stock();
    return made;
  }

  // Parts of it, for changing a job by chance.
  Wall wall(std::string name) {
    Wall made;
    made.name = std::move(name);
    made.length = number(kWallRule, "length");
    made.top = top(made.length);
    if (chance_.even()) made.stud = {number(kStudRule, "depth"), number(kStudRule, "thickness")};
    made.spacing = maybe(kWallRule, "spacing");
    if (chance_.even()) made.plates = {whole(kPlatesRule, "top"), whole(kPlatesRule, "bottom")};
    made.lining = maybe(kWallRule, "lining");
    if (chance_.even()) made.cladding = {number(kCladdingRule, "thickness"), number(kCladdingRule, "cavity")};
    if (chance_.even()) made.eave = {number(kEaveRule, "soffit"), number(kEaveRule, "reach")};
    if (chance_.even()) made.timber = text();
    if (chance_.even()) {
      made.at_x = number(kWallRule, "at");
      made.at_y = number(kWallRule, "at");
    }
    if (chance_.even()) made.turn_degrees = number(kWallRule, "turn");
    made.align_heads = chance_.even();
    if (chance_.even()) made.supports = {number(kSupportsRule, "width"), number(kSupportsRule, "load_kpa")};
    made.drop = maybe(kWallRule, "drop");
    return made;
  }

  Opening opening(std::string name) {
    Opening made;
    made.name = std::move(name);
    made.left = number(kOpeningRule, "left");
    made.sill = number(kOpeningRule, "sill");
    made.width = number(kOpeningRule, "width");
    made.height = number(kOpeningRule, "height");
    if (chance_.even()) made.room = one<Room>(kRoomWords);
    if (chance_.even()) {
      made.lintel = {number(kLintelRule, "depth"), number(kLintelRule, "thickness"), whole(kLintelRule, "plies")};
    }
    made.unit = unit();
    if (chance_.even()) made.measured = measured();
    if (chance_.even()) made.installed = installed();
    return made;
  }

  Stock stock() {
    Stock made;
    made.packers = list("packers");
    for (std::size_t i = chance_.below(4); i > 0; --i) made.screws.push_back(text());
    made.rolls = list("rolls");
    made.roll_length = maybe(kStockRule, "roll_length");
    made.timber = list("timber");
    return made;
  }

  std::string text() {
    static const std::vector<std::string> kPieces = {"a", "Z", "0",    " ", "\"", "\\", "#",
                                                     "é", "×", "🪟", "'", "=",  "]"};
    std::string made = "x";  // never all blank
    for (std::size_t i = chance_.below(12); i > 0; --i) made += kPieces[chance_.below(kPieces.size())];
    return made;
  }

 private:
  double number(const TableRule& rule, const char* key) {
    const auto& holds = rule.find(key)->holds;
    return chance_.within(holds.from, holds.to);
  }
  std::optional<double> maybe(const TableRule& rule, const char* key) {
    return chance_.even() ? std::optional(number(rule, key)) : std::nullopt;
  }
  int whole(const TableRule& rule, const char* key) {
    const auto& holds = rule.find(key)->holds;
    const int from = static_cast<int>(holds.from);
    return from +
           static_cast<int>(chance_.below(static_cast<std::size_t>(holds.to) - static_cast<std::size_t>(from) + 1));
  }
  std::optional<bool> maybeTruth() { return chance_.even() ? std::optional(chance_.even()) : std::nullopt; }

  template <class Enumeration>
  Enumeration one(std::span<const std::string_view> words) {
    return static_cast<Enumeration>(chance_.below(words.size()));
  }

  template <std::size_t N>
  std::array<std::optional<double>, N> readings(const TableRule& rule) {
    std::array<std::optional<double>, N> made;
    for (auto& value : made) {
      if (chance_.often()) value = chance_.within(rule.keys[0].holds.from, rule.keys[0].holds.to);
    }
    return made;
  }

  std::vector<double> list(const char* key) {
    std::vector<double> made;
    for (std::size_t i = chance_.below(6); i > 0; --i) made.push_back(number(kStockRule, key));
    return made;
  }

  std::vector<TopPoint> top(double length) {
    const auto height = [this] { return number(kWallRule, "top"); };
    if (chance_.even()) {
      const double z = height();
      return {{0, z}, {length, z}};
    }
    std::vector<TopPoint> made = {{0, height()}};
    const std::size_t between = chance_.below(5);
    for (std::size_t i = 1; i <= between; ++i) {
      made.push_back({length * static_cast<double>(i) / static_cast<double>(between + 1), height()});
    }
    made.push_back({length, height()});
    return made;
  }

  Unit unit() {
    Unit made;
    made.kind = one<UnitKind>(kKindWords);
    made.width = number(kUnitRule, "width");
    made.height = number(kUnitRule, "height");
    if (chance_.even()) made.frame = {number(kFrameRule, "depth"), number(kFrameRule, "face")};
    if (chance_.even()) made.reveal = {number(kRevealRule, "thickness"), number(kRevealRule, "depth")};
    made.fin = maybe(kUnitRule, "fin");
    if (chance_.even()) made.glass = {number(kGlassRule, "thickness"), whole(kGlassRule, "panes"), maybeTruth()};
    made.mass_kg = maybe(kUnitRule, "mass");
    if (chance_.even()) made.flashing = one<Flashing>(kFlashingWords);
    if (chance_.even()) made.hand = one<Hand>(kHandWords);
    if (chance_.even()) made.mesh = text();
    return made;
  }

  Measured measured() {
    Measured made;
    made.widths = readings<3>(kWidthsRule);
    made.heights = readings<3>(kHeightsRule);
    made.diagonals = readings<2>(kDiagonalsRule);
    made.sill_fall = maybe(kMeasuredRule, "sill_fall");
    made.lean = readings<2>(kLeanRule);
    made.tilt = readings<2>(kTiltRule);
    made.wall_depth = readings<2>(kWallDepthRule);
    if (chance_.even()) {
      made.by = StandardErrors{number(kByRule, "distance"), number(kByRule, "diagonal"), number(kByRule, "level")};
    } else if (chance_.even()) {
      made.by = one<Instrument>(kInstrumentWords);
    }
    return made;
  }

  Installed installed() {
    Installed made;
    const auto& years = kInstalledRule.find("date")->holds;
    if (chance_.even()) {
      made.date = {static_cast<int>(chance_.within(years.from, years.to)), 1 + static_cast<int>(chance_.below(12)),
                   1 + static_cast<int>(chance_.below(28))};
    }
    made.diagonals = readings<2>(kDiagonalsRule);
    made.sill_fall = maybe(kInstalledRule, "sill_fall");
    made.lean = readings<2>(kLeanRule);
    made.opens = maybeTruth();
    made.locks = maybeTruth();
    return made;
  }

  Luck& chance_;
};

}  // namespace sillwright::job::test
