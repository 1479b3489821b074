// Flashings by roll, folded metal, tapes.

#include <algorithm>
#include <map>
#include <utility>

#include "takeoff/gather.h"

namespace sillwright::takeoff {
namespace {

bool isTape(plan::PieceKind kind) {
  return kind == plan::PieceKind::CornerTape || kind == plan::PieceKind::HeadTape;
}

bool isStrip(plan::PieceKind kind) {
  return kind == plan::PieceKind::SillFlashing || kind == plan::PieceKind::SillPan ||
         kind == plan::PieceKind::JambFlashing;
}

void addFolded(const plan::Piece& piece, std::vector<FoldedMetal>& all) {
  FoldedMetal one{toTenth(piece.width), toTenth(piece.length), piece.folds, piece.fall_degrees, piece.stop_end, 1};
  const auto line = std::find_if(all.begin(), all.end(), [&](const FoldedMetal& other) { return other.isLike(one); });
  if (line != all.end()) {
    ++line->count;
  } else {
    all.push_back(std::move(one));
  }
}

void addTape(const plan::Piece& piece, std::vector<Strip>& all) {
  const char* name = piece.kind == plan::PieceKind::CornerTape ? "corner tape" : "head tape";
  const double width = toTenth(piece.width);
  for (Strip& strip : all) {
    if (strip.name != name || strip.width != width) continue;
    strip.length += piece.length;
    return;
  }
  all.push_back({name, width, piece.length});
}

}  // namespace

void gatherWeather(const plan::Plan& plan, Takeoff& takeoff) {
  std::map<std::pair<double, bool>, std::map<double, int>> rolls;
  for (const plan::OpeningPlan& opening : plan.openings) {
    for (const plan::Piece& piece : opening.weather.pieces) {
      if (piece.fitted) {
        ++takeoff.fitted_flashings;
      } else if (isStrip(piece.kind)) {
        rolls[{toTenth(piece.width), piece.too_wide}][toTenth(piece.length)] += 1;
      } else if (piece.kind == plan::PieceKind::HeadFlashing) {
        addFolded(piece, takeoff.folded);
      } else if (isTape(piece.kind)) {
        addTape(piece, takeoff.tapes);
      }
    }
  }
  for (const auto& [key, lengths] : rolls) {
    RollUse roll;
    roll.width = key.first;
    roll.made_up = key.second;
    for (const auto& [length, count] : lengths) roll.pieces.push_back({length, count});
    std::reverse(roll.pieces.begin(), roll.pieces.end());
    takeoff.rolls.push_back(std::move(roll));
  }
  std::sort(takeoff.folded.begin(), takeoff.folded.end(), [](const FoldedMetal& a, const FoldedMetal& b) {
    return a.length != b.length ? a.length > b.length : a.girth > b.girth;
  });
  std::sort(takeoff.tapes.begin(), takeoff.tapes.end(),
            [](const Strip& a, const Strip& b) { return a.name != b.name ? a.name < b.name : a.width < b.width; });
}

}  // namespace sillwright::takeoff
