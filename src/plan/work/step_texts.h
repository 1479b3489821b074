/// What the words of a step are put together from, for one opening: lengths, and packers, screws and pieces as they are
/// told.
///
/// Inside the room: for step_texts.cpp. Sizes come from the plan, limits from the practice, names from the practice's
/// words; where the practice names no limit the text says what is looked at and no figure.
#pragma once

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <string>
#include <utility>
#include <vector>

#include "base/words.h"
#include "plan/panes.h"
#include "plan/weather/weather_skin.h"
#include "plan/work/order_of_work.h"
#include "words/text.h"

namespace sillwright::plan {

struct StepTexts {
  const job::Job& job;
  const job::Opening& opening;
  const OpeningPlan& planned;
  const WallSpec& wall;
  const practice::Practice& practice;
  const practice::Words& words = practice.words;

  [[nodiscard]] std::string len(double mm) const { return words::length(mm, practice.display); }
  template <class Sized>
  [[nodiscard]] std::string size(const Sized& of) const {
    return words::size(of, practice.display);
  }
  /// ", at most 4 mm in 2000 mm" where both figures are named; else nothing.
  [[nodiscard]] std::string within(const practice::Rule& most, const practice::Rule& over = {}) const {
    return most ? ", at most " + len(most->value) + (over ? " in " + len(over->value) : std::string{}) : std::string{};
  }

  /// Whether the flashings at sill and jambs go in with the unit.
  [[nodiscard]] bool flashingsGoIn() const { return hasPiece(planned, PieceKind::JambFlashing, StepKind::LiftIn); }
  /// Whether the screws go through the fin, and not at the packers.
  [[nodiscard]] bool throughFin() const {
    const auto& points = planned.fixings.points;
    return !points.empty() && points.front().kind == FixingKind::ThroughFin;
  }
  /// What of the unit a head flashing turns down over: its fin, or the frame where it has none.
  [[nodiscard]] std::string outermost() const { return planned.unit.fin > 0 ? words.fin : "frame"; }

  /// What closes the opening above.
  [[nodiscard]] std::string overHead() const {
    if (opening.head)
      return !planned.lintel ? "the plates, which are its head" : words.lintel + " in the slope of the roof";
    const double under = heightBelowTop(wall, wall.plates.top * wall.stud.thickness, opening.left);
    const double room = under - opening.sill - opening.height;
    const bool tight = planned.lintel && std::abs(room - planned.lintel->depth) < 1;
    return words.lintel + (tight ? " tight under the " + words.top_plate + ", nothing above it" : std::string{});
  }

  [[nodiscard]] std::string courses() const {
    const auto& rules = practice.weather.cladding;
    switch (kindOf(wall.cladding)) {
      case job::CladdingKind::Sheet:
        return "Sheets from the bottom up, every edge on a stud or batten, joints covered or sealed as their maker has "
               "it";
      case job::CladdingKind::Render:
        return "Board first, its joints set; render on mesh, in coats as its maker has them, with a bead where it ends";
      case job::CladdingKind::BrickVeneer: {
        const SillBricks sill = sillBricks(wall, planned.stand, rules);
        std::string said =
            "Course by course, tied to the frame, the cavity of " + len(wall.cladding.cavity) + " kept clean";
        if (opening.sill > 0) {
          said += "; sill bricks sloped outwards, " + len(planned.stand.z - sill.top) +
                  " clear of the unit: the frame shrinks, and a closed gap lifts it";
        }
        if (planned.weather.head.needed && rules.weep_spacing_most) {
          said += "; weepholes over the head " + words.flashing + " no more than " +
                  len(rules.weep_spacing_most->value) + " apart";
        }
        return said + "; lintel and damp-proof courses as the bricklayer's drawings have them";
      }
      case job::CladdingKind::Boards:
        break;
    }
    return "From the bottom up, each board over the one below" +
           (rules.board_lap_least ? " by " + len(rules.board_lap_least->value) : std::string{});
  }

  /// What comes out for lifting: "leaf", "sliding panels".
  [[nodiscard]] std::string panelWord() const {
    return (planned.mass.leaves_out ? "" : "sliding ") + std::string(planned.mass.outWord());
  }
  /// "sliding panel, about 32 kg", "2 leaves, up to 40 kg each".
  [[nodiscard]] std::string panelsPart() const {
    const auto& mass = planned.mass;
    const std::string each = mass.panels_out > 1 ? "up to " : "about ";
    return (mass.panels_out > 1 ? std::to_string(mass.panels_out) + " " : std::string{}) + panelWord() + ", " + each +
           words::mass(mass.panel_kg, practice.display) + (mass.panels_out > 1 ? " each" : "");
  }

  /// The jamb on the other side.
  [[nodiscard]] static Side across(Side jamb) { return jamb == Side::Left ? Side::Right : Side::Left; }
  [[nodiscard]] const char* first() const { return toWord(planned.packing.first_jamb); }
  [[nodiscard]] const char* other() const { return toWord(across(planned.packing.first_jamb)); }
  [[nodiscard]] static std::string alongWords(Side side) {
    return isLevel(side) ? std::string(" along the ") + toWord(side) + " from the unit's left"
                         : std::string(" up the ") + toWord(side) + " jamb";
  }

  /// One line a stack, stacks that are alike on one line: "packers 10 thick at 22.5 mm, 755 mm from the unit's left".
  [[nodiscard]] std::vector<std::string> packersOn(Side side) const {
    std::vector<std::pair<std::string, std::string>> lines;
    for (const auto& point : planned.packing.points) {
      if (point.side != side || (point.backing <= 0 && point.stack.pieces == 0))
        continue;  // an empty place has no line
      const std::string thick = stackWords(point, practice.display);
      const auto same = std::find_if(lines.begin(), lines.end(), [&](const auto& line) { return line.first == thick; });
      if (same == lines.end()) {
        lines.emplace_back(thick, len(point.at));
      } else {
        same->second += ", " + len(point.at);
      }
    }
    std::vector<std::string> said;
    for (const auto& [thick, at] : lines) {
      said.push_back(words.packer + "s " + thick + " thick at " + at + alongWords(side));
    }
    return said;
  }

  /// Screws and where they go on a side: "3 screws 8g x 75 at 150, 520, 890 mm up the left jamb".
  [[nodiscard]] std::vector<std::string> screwsOn(Side side) const {
    const auto& fixings = planned.fixings;
    std::vector<std::string> said;
    for (std::size_t i = 0; i < fixings.screws.size(); ++i) {
      std::vector<std::string> at;
      for (const auto& point : fixings.points) {
        if (point.side == side && point.screw == static_cast<std::int32_t>(i)) at.push_back(len(point.at));
      }
      if (at.empty()) continue;
      said.push_back(words::count(static_cast<long>(at.size()), "screw") + " " + fixings.screws[i].name + " at " +
                     base::joined(at) + alongWords(side));
    }
    return said;
  }

  [[nodiscard]] std::vector<std::string> piecesOf(std::initializer_list<PieceKind> kinds) const {
    std::vector<std::string> said;
    for (const PieceKind kind : kinds) {
      for (const auto& piece : planned.weather.pieces) {
        if (piece.kind != kind) continue;
        if (kind != PieceKind::HeadFlashing || piece.folds.size() != 3) {
          said.push_back(piece.name + " " + len(piece.width) + " wide, " + len(piece.length) + " long");
          continue;
        }
        said.push_back(piece.name + " " + len(piece.length) + " long, folded: upstand " + len(piece.folds[0]) +
                       ", slope " + len(piece.folds[1]) + " at " + words::number(piece.fall_degrees) + "°, turn-down " +
                       len(piece.folds[2]) +
                       (piece.stop_end > 0 ? ", stop ends " + len(piece.stop_end) : std::string{}));
      }
    }
    return said;
  }
};

/// The whole step in words.
[[nodiscard]] Step stepOf(const StepTexts& texts, StepKind kind);

}  // namespace sillwright::plan
