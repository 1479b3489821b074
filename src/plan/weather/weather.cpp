#include "plan/weather/weather.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "plan/weather/weather_skin.h"
#include "words/text.h"

namespace sillwright::plan {
namespace {

// What comes back holds until the next piece is added.
Piece& addPiece(Weather& weather, PieceKind kind, Side side, StepKind step, double width, double length,
                std::string name) {
  return weather.pieces.emplace_back(Piece{kind, side, width, length, step, {}, 0, 0, false, std::move(name), false});
}

/// Gives a piece the narrowest roll at hand that is wide enough; where none is, it keeps the width asked for.
void takeFromRoll(Piece& piece, const std::vector<double>& rolls) {
  double best = std::numeric_limits<double>::infinity();
  for (const double roll : rolls) {
    if (roll >= piece.width) best = std::min(best, roll);
  }
  piece.too_wide = !std::isfinite(best) && !rolls.empty() && !piece.fitted;  // what came on the unit is cut already
  if (std::isfinite(best)) piece.width = best;
}

bool reaches(const std::vector<double>& rolls, double width) {
  return std::any_of(rolls.begin(), rolls.end(), [&](double roll) { return roll >= width; });
}

/// Down the face and, under the unit, across the sill to its inner edge, turned up there.
double sillGirth(const SkinSizes& size, const WallSpec& wall, const practice::Practice& practice) {
  return size.sill_down + wall.stud.depth + practice.weather.flashing.sill_upstand.value;
}

/// Of the pan alone: its front turned down over the strip on the face, or over the floor's edge.
double panGirth(const SkinSizes& size, const practice::Practice& practice) {
  return (size.sill_flashing ? kPanLap : kSkirt) + size.pan_back + practice.weather.flashing.sill_upstand.value;
}

/// Whether the sill is flashed in two pieces: no roll reaches over the whole, and one does over each.
bool wantsPan(const SkinSizes& size, const WallSpec& wall, const practice::Practice& practice,
              const std::vector<double>& rolls) {
  return size.sill_flashing && !size.on_unit && !reaches(rolls, sillGirth(size, wall, practice)) &&
         reaches(rolls, size.sill_down) && reaches(rolls, panGirth(size, practice)) && size.sill_down > kPanLap;
}

void addFlashings(Weather& weather, const SkinSizes& size, const job::Opening& opening, const WallSpec& wall,
                  const practice::Practice& practice, const std::vector<double>& rolls) {
  const auto& word = practice.words.flashing;
  const auto add = [&](PieceKind kind, Side side, StepKind step, double width, double length, std::string name) {
    const bool on_unit = size.on_unit && kind != PieceKind::SillPan;  // the packers stand on a pan: it goes in first
    Piece& piece = addPiece(weather, kind, side, on_unit ? StepKind::LiftIn : step, width, length, std::move(name));
    piece.fitted = on_unit && opening.unit.flashing == job::Flashing::Fitted;
    takeFromRoll(piece, rolls);
  };
  if (size.sill_flashing) {
    const double girth = size.sill_pan ? size.sill_down : sillGirth(size, wall, practice);
    add(PieceKind::SillFlashing, Side::Sill, StepKind::SillFlashing, girth, opening.width + 2 * size.sill_past,
        "sill " + word);
  }
  if (size.sill_pan || !size.sill_flashing) {
    const double up_the_studs = practice.weather.flashing.sill_end_upstand.value;
    add(PieceKind::SillPan, Side::Sill, StepKind::SillFlashing, panGirth(size, practice),
        opening.width + 2 * up_the_studs, kPanName);
  }
  for (const auto side : {Side::Left, Side::Right}) {
    const double jamb_length = size.head.sideHeight(side) + size.jamb_past + (size.sill_flashing ? size.jamb_foot : 0);
    add(PieceKind::JambFlashing, side, StepKind::JambFlashings, size.jamb_out, jamb_length,
        std::string(side == Side::Left ? "left" : "right") + " jamb " + word);
  }
}

void addHead(Weather& weather, const SkinSizes& size, const job::Opening& opening, const practice::Practice& practice) {
  if (!weather.head.needed) return;
  const auto& rules = practice.weather.flashing;
  const double along_fall = std::hypot(size.head_reach, size.head_drop);
  const auto add = [&](double length, const std::string& where) {
    Piece& piece = addPiece(weather, PieceKind::HeadFlashing, Side::Head, StepKind::HeadFlashing,
                            size.head_upstand + along_fall + size.head_turn_down, length,
                            "head " + practice.words.flashing + where);
    piece.folds = {size.head_upstand, along_fall, size.head_turn_down};
    piece.fall_degrees = rules.head_slope.value;
    piece.stop_end = rules.head_stop_end.value;
    addPiece(weather, PieceKind::HeadTape, Side::Head, StepKind::HeadFlap, 2 * kTapePast, length + 2 * kTapePast,
             "head tape" + where);
  };
  const auto& slopes = size.head.slopes();
  const double peak = size.head.middle().x;
  // Past the opening is measured along the wall, the metal along its slope; a peak parts it in two.
  if (!size.head.peaked()) return add((opening.width + 2 * size.head_past) * std::hypot(1, slopes[0]), "");
  add((peak + size.head_past) * std::hypot(1, slopes[0]), ", left of the peak");
  add((opening.width - peak + size.head_past) * std::hypot(1, slopes[1]), ", right of the peak");
}

void addFolds(Weather& weather, const SkinSizes& size, const job::Opening& opening,
              const practice::Practice& practice) {
  const auto fold = [&](Side side, double length, const char* name) {
    addPiece(weather, PieceKind::MembraneFold, side, StepKind::Membrane, weather.cut.flap, length,
             practice.words.membrane + " fold, " + name);
  };
  // A triangle has no jamb at its corner; on the floor there is no sill to fold over.
  if (size.head.left() > 0) fold(Side::Left, size.head.left(), "left");
  if (size.head.right() > 0) fold(Side::Right, size.head.right(), "right");
  if (size.sill_flashing) fold(Side::Sill, opening.width, "sill");
  const std::vector<Point> corners = size.head.corners();
  for (std::size_t i = 1; i < corners.size(); ++i) {
    fold(Side::Head, std::hypot(corners[i].x - corners[i - 1].x, corners[i].z - corners[i - 1].z), "head");
  }
}

void addTapes(Weather& weather, const SkinSizes& size, const job::Opening& opening,
              const practice::Practice& practice) {
  const auto& rules = practice.weather.membrane;
  static constexpr std::array<const char*, 4> kCorner{"lower left", "lower right", "upper right", "upper left"};
  for (std::size_t i = 0; i < 4; ++i) {
    const bool lower = i < 2, left = i == 0 || i == 3;
    if (!lower && size.head.sideHeight(left ? Side::Left : Side::Right) == 0) continue;  // one with the lower corner
    if (opening.sill <= 0 && lower) continue;  // on the floor: there is no cut corner below
    if (rules.corner_tape) {
      addPiece(weather, PieceKind::CornerTape, lower ? Side::Sill : Side::Head, StepKind::Membrane,
               rules.corner_tape->value, 2 * rules.corner_tape->value, std::string(kCorner[i]) + " corner tape");
    } else if (!lower) {
      weather.bare_corners.emplace_back(kCorner[i]);  // the sill piece covers the lower ones
    }
  }
}

/// The outline drawn in by the flaps' width, and the cuts from it into the corners.
MembraneCut membraneCut(const job::Opening& opening, const WallSpec& wall, bool head_flap_kept) {
  MembraneCut cut;
  cut.head_flap_kept = head_flap_kept;
  const HeadLine head = headLineOf(opening);
  const Rect whole{0, 0, opening.width, opening.height};
  const std::vector<Point> outside = head.under(whole);
  // Flaps as wide as the wall is deep, but never past the middle of a small opening.
  cut.flap = std::min({wall.stud.depth, opening.width / 2, opening.height / 2});
  if (opening.head) {  // a triangle's area by its perimeter: half its inscribed circle's radius
    double round = 0;
    for (std::size_t i = 0; i < outside.size(); ++i) {
      const Point& next = outside[(i + 1) % outside.size()];
      round += std::hypot(next.x - outside[i].x, next.z - outside[i].z);
    }
    cut.flap = std::min(cut.flap, areaOf(outside) / round);
  }
  const bool floor = opening.sill <= 0;
  Rect inner = whole.inset(cut.flap);
  if (floor) inner.z0 = 0;  // a door's cuts run down to the floor: no flap is folded there
  const std::vector<Point> inside = head.inset(cut.flap).under(inner);
  cut.cuts.reserve(2 * inside.size());
  for (std::size_t i = 0; i < inside.size(); ++i) cut.cuts.push_back({inside[i], inside[(i + 1) % inside.size()]});
  // Where flaps leave nothing of a corner the corners don't pair, and no cut is drawn into any.
  for (std::size_t i = 0; i < inside.size() && inside.size() == outside.size(); ++i) {
    if (!floor || outside[i].z != 0) cut.cuts.push_back({inside[i], outside[i]});
  }
  return cut;
}

void addLap(Weather& weather, std::string upper, std::string lower, double lap, const practice::Rule& least) {
  weather.laps.push_back({std::move(upper), std::move(lower), lap, least ? std::optional(least->value) : std::nullopt,
                          least ? &*least : nullptr});
}

void addLaps(Weather& weather, const SkinSizes& size, const practice::Practice& practice) {
  static const practice::Rule kNoLeast;  // with a cavity the practice asks for no lap there
  const auto& word = practice.words;
  const auto& flashing = practice.weather.flashing;
  if (size.sill_flashing) {
    addLap(weather, "jamb " + word.flashing, "sill " + word.flashing, size.jamb_foot, flashing.jamb_over_sill.least);
    addLap(weather, "sill " + word.flashing, (size.brick ? "brickwork" : word.cladding) + " below",
           size.sill_over_cladding, size.direct_fix ? practice.weather.cladding.under_sill_least : kNoLeast);
  }
  if (size.sill_pan) addLap(weather, kPanName, "sill " + word.flashing, kPanLap, {});
  if (weather.head.needed) {
    addLap(weather, word.membrane + " head flap", "head " + word.flashing, size.head_lap,
           practice.weather.membrane.flap_over_head.least);
    addLap(weather, "head " + word.flashing, size.fin > 0 ? word.fin : "frame", size.head_turn_down,
           flashing.head_turn_down.least);
  }
  addLap(weather, "upper run of " + word.membrane, "lower run", size.run_lap, practice.weather.membrane.lap.least);
}

}  // namespace

HeadNeed headNeed(const std::optional<job::Eave>& eave, double head_z, const practice::EaveRule& rule,
                  practice::Display display) {
  if (!eave) return {true, "A head flashing is needed: no eave shelters the head.", nullptr};
  if (!rule.ratio)
    return {true, "A head flashing is needed: the rule set has no rule for heads under an eave.", nullptr};
  const double drop = eave->soffit - head_z;
  const double wanted = rule.ratio->value * drop;
  const bool sheltered = rule.shelters(eave->overhang, drop);
  std::string why = sheltered ? "No head flashing is needed: the eave overhangs by "
                              : "A head flashing is needed: the eave overhangs by ";
  why.reserve(160);
  why.append(words::length(eave->overhang, display)).append(", and ").append(words::number(rule.ratio->value, 2));
  why.append(" × the ").append(words::length(drop, display)).append(" from head to soffit is ");
  why.append(words::length(wanted, display)).append(".");
  return {!sheltered, std::move(why), &*rule.ratio};
}

double jambOverSill(const Weather& weather) {
  const auto& sheets = weather.skin.sheets;
  const auto isJamb = [](const Sheet& sheet) { return sheet.kind == SheetKind::JambFlashing; };
  const auto jamb = std::find_if(sheets.begin(), sheets.end(), isJamb);
  return jamb == sheets.end() ? 0 : std::max(-boxOf(*jamb).z0, 0.0);
}

double rainFrom(const std::optional<job::Eave>& eave, const practice::EaveRule& rule) {
  if (!eave || !rule.ratio || rule.ratio->value <= 0) return std::numeric_limits<double>::infinity();
  return eave->soffit - eave->overhang / rule.ratio->value;
}

Weather weatherproof(const job::Job& job, std::size_t index, const WallSpec& wall, const UnitSpec& unit,
                     const Stand& stand, const practice::Practice& practice) {
  const auto& opening = job.openings[index];
  const auto& eave = job.walls[opening.wall].eave;
  Weather weather;
  if (job.walls[opening.wall].isInside()) return weather;  // no rain there
  // The lowest corner of a head is the least sheltered.
  const double low = opening.head ? std::min(opening.head->left, opening.head->right) : opening.height;
  weather.head = headNeed(eave, opening.sill + low, practice.weather.flashing.eave, practice.display);
  const auto& rolls = job.stock && !job.stock->rolls.empty() ? job.stock->rolls : practice.stock.rolls;
  SkinSizes size = skinSizes(job, opening, wall, unit, stand, practice);
  const double rain = rainFrom(eave, practice.weather.flashing.eave) - opening.sill;  // z of the opening, as the skin's
  if (size.existing) {
    weather.head = {false, "What stands over the old head can't be seen: whether it sheds water is not judged.",
                    nullptr};
    weather.skin = makeSkin(size, false, rain, practice);
    return weather;
  }
  weather.pieces.reserve(16);  // of most openings, as are the laps
  weather.laps.reserve(8);
  size.sill_pan = wantsPan(size, wall, practice, rolls);          // before what it parts in two
  weather.cut = membraneCut(opening, wall, weather.head.needed);  // first: the folds are as wide as its flaps
  addFolds(weather, size, opening, practice);
  addTapes(weather, size, opening, practice);
  addFlashings(weather, size, opening, wall, practice, rolls);
  addHead(weather, size, opening, practice);
  addLaps(weather, size, practice);
  weather.skin = makeSkin(size, weather.head.needed, rain, practice);
  return weather;
}

}  // namespace sillwright::plan
