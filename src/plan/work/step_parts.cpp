// What the steps' words are put together from: lengths, and packers, screws and pieces as they are told.
#include <algorithm>
#include <cmath>

#include "base/words.h"
#include "plan/panes.h"
#include "plan/work/step_texts.h"
#include "words/length.h"
#include "words/text.h"

namespace sillwright::plan {

Side StepTexts::across(Side jamb) {
  return jamb == Side::Left ? Side::Right : Side::Left;
}

bool StepTexts::flashingsGoIn() const {
  return std::any_of(planned.weather.pieces.begin(), planned.weather.pieces.end(), [](const Piece& piece) {
    return piece.kind == PieceKind::JambFlashing && piece.step == StepKind::LiftIn;
  });
}

std::string StepTexts::len(double mm) const {
  return words::length(mm, practice.display);
}

std::string StepTexts::within(const practice::Rule& most) const {
  return most ? ", at most " + len(most->value) : std::string{};
}

std::string StepTexts::within(const practice::Rule& most, const practice::Rule& over) const {
  return most && over ? within(most) + " in " + len(over->value) : within(most);
}

const char* StepTexts::unitWord() const {
  return planned.unit.isDoor() ? words.door.c_str() : words.window.c_str();
}

bool StepTexts::throughFin() const {
  const auto& points = planned.fixings.points;
  return !points.empty() && points.front().kind == FixingKind::ThroughFin;
}

std::string StepTexts::outermost() const {
  return planned.unit.fin > 0 ? words.fin : "frame";
}

std::string StepTexts::panelWord() const {
  return (planned.mass.leaves_out ? "" : "sliding ") + std::string(planned.mass.outWord());
}

std::string StepTexts::panelsPart() const {
  const auto& mass = planned.mass;
  const std::string each = mass.panels_out > 1 ? "up to " : "about ";
  return (mass.panels_out > 1 ? std::to_string(mass.panels_out) + " " : std::string{}) + panelWord() + ", " + each +
         words::number(std::round(mass.panel_kg)) + " kg" + (mass.panels_out > 1 ? " each" : "");
}

const char* StepTexts::first() const {
  return toWord(planned.packing.first_jamb);
}

const char* StepTexts::other() const {
  return toWord(across(planned.packing.first_jamb));
}

/// One line a stack, stacks that are alike on one line: "packers 10 at 22.5 mm, 755 mm from the unit's left".
std::vector<std::string> StepTexts::packersOn(Side side) const {
  const bool level = isLevel(side);
  std::vector<std::pair<std::string, std::string>> lines;
  for (const auto& point : planned.packing.points) {
    if (point.side != side || (point.backing <= 0 && point.stack.pieces == 0)) continue;
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
    said.push_back(words.packer + "s " + thick + " at " + at +
                   (level ? std::string(" along the ") + toWord(side) + " from the unit's left"
                          : std::string(" up the ") + toWord(side) + " jamb"));
  }
  return said;
}

std::vector<std::string> StepTexts::screwsOn(Side side) const {
  const auto& fixings = planned.fixings;
  const bool level = isLevel(side);
  std::vector<std::string> said;
  for (std::size_t i = 0; i < fixings.screws.size(); ++i) {
    std::vector<std::string> at;
    for (const auto& point : fixings.points) {
      if (point.side == side && point.screw == static_cast<std::int32_t>(i)) at.push_back(len(point.at));
    }
    if (at.empty()) continue;
    said.push_back(words::count(static_cast<long>(at.size()), "screw") + " " + fixings.screws[i].name + " at " +
                   base::joined(at) +
                   (level ? std::string(" along the ") + toWord(side) + " from the unit's left"
                          : std::string(" up the ") + toWord(side) + " jamb"));
  }
  return said;
}

std::string StepTexts::pieceWords(const Piece& piece) const {
  if (piece.kind == PieceKind::HeadFlashing && piece.folds.size() == 3) {
    return piece.name + " " + len(piece.length) + " long, folded: upstand " + len(piece.folds[0]) + ", slope " +
           len(piece.folds[1]) + " at " + words::number(piece.fall_degrees) + "°, turn-down " + len(piece.folds[2]) +
           (piece.stop_end > 0 ? ", stop ends " + len(piece.stop_end) : std::string{});
  }
  return piece.name + " " + len(piece.width) + " wide, " + len(piece.length) + " long";
}

std::vector<std::string> StepTexts::piecesOf(std::initializer_list<PieceKind> kinds) const {
  std::vector<std::string> said;
  for (const PieceKind kind : kinds) {
    for (const auto& piece : planned.weather.pieces) {
      if (piece.kind == kind) said.push_back(pieceWords(piece));
    }
  }
  return said;
}

}  // namespace sillwright::plan
