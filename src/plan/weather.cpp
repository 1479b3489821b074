#include "plan/weather.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "plan/order_of_work.h"
#include "plan/weather_skin.h"

namespace sillwright::plan {
namespace {

std::uint8_t stepOf(StepKind kind) {
  return static_cast<std::uint8_t>(kind);
}

/// The narrowest roll at hand that is wide enough; where none is, the width asked for.
double rollFor(double width, const std::vector<double>& rolls) {
  double best = std::numeric_limits<double>::infinity();
  for (const double roll : rolls) {
    if (roll >= width) best = std::min(best, roll);
  }
  return std::isfinite(best) ? best : width;
}

const std::vector<double>& rollsAtHand(const job::Job& job, const practice::Practice& practice) {
  return job.stock && !job.stock->rolls.empty() ? job.stock->rolls : practice.stock.rolls;
}

void addFlashings(Weather& weather, const SkinSizes& size, const UnitSpec& unit, const job::Opening& opening,
                  const WallSpec& wall, const practice::Practice& practice, const std::vector<double>& rolls) {
  // Flashings come fitted on a reveal only; a bare frame's strips are always put on the wall first.
  const bool fitted = opening.unit.flashing == job::Flashing::Fitted && unit.reveal.has_value();
  const auto& word = practice.words.flashing;
  if (size.sill_flashing) {
    // Down the face and, under the unit, across the sill to its inner edge, turned up there.
    const double girth = size.sill_down + wall.stud.depth + practice.weather.flashing.sill_upstand.usual.value;
    weather.pieces.push_back({PieceKind::SillFlashing,
                              Side::Sill,
                              rollFor(girth, rolls),
                              opening.width + 2 * size.sill_past,
                              stepOf(StepKind::SillFlashing),
                              {},
                              0,
                              0,
                              fitted,
                              "sill " + word});
  }
  const double jamb_length = opening.height + size.jamb_past + (size.sill_flashing ? size.jamb_foot : 0);
  for (const auto side : {Side::Left, Side::Right}) {
    weather.pieces.push_back({PieceKind::JambFlashing,
                              side,
                              rollFor(size.jamb_out, rolls),
                              jamb_length,
                              stepOf(StepKind::JambFlashings),
                              {},
                              0,
                              0,
                              fitted,
                              std::string(side == Side::Left ? "left" : "right") + " jamb " + word});
  }
}

void addHead(Weather& weather, const SkinSizes& size, const job::Opening& opening, const practice::Practice& practice) {
  if (!weather.head.needed) return;
  const auto& rules = practice.weather.flashing;
  Piece piece;
  piece.kind = PieceKind::HeadFlashing;
  piece.side = Side::Head;
  piece.fall_degrees = rules.head_slope.usual.value;
  const double across = rules.head_reach.usual.value;
  const double along_fall = across / std::cos(piece.fall_degrees * std::numbers::pi / 180);
  piece.folds = {size.head_upstand, along_fall, size.head_turn_down};
  piece.width = size.head_upstand + along_fall + size.head_turn_down;
  piece.length = opening.width + 2 * size.head_past;
  piece.stop_end = rules.head_stop_end.usual.value;
  piece.step = stepOf(StepKind::HeadFlashing);
  piece.name = "head " + practice.words.flashing;
  weather.pieces.push_back(piece);
  const double tape = 2 * size.head_lap;
  weather.pieces.push_back({PieceKind::HeadTape,
                            Side::Head,
                            tape,
                            piece.length + tape,
                            stepOf(StepKind::HeadFlap),
                            {},
                            0,
                            0,
                            false,
                            "head tape"});
}

void addFolds(Weather& weather, const SkinSizes& size, const job::Opening& opening,
              const practice::Practice& practice) {
  const auto& word = practice.words.membrane;
  const auto fold = [&](Side side, double length, const char* name) {
    weather.pieces.push_back({PieceKind::MembraneFold,
                              side,
                              weather.cut.flap,
                              length,
                              stepOf(StepKind::Membrane),
                              {},
                              0,
                              0,
                              false,
                              word + " fold, " + name});
  };
  fold(Side::Left, opening.height, "left");
  fold(Side::Right, opening.height, "right");
  if (size.sill_flashing) fold(Side::Sill, opening.width, "sill");
  fold(Side::Head, opening.width, "head");
}

void addTapes(Weather& weather, const job::Opening& opening, const SkinSizes& size,
              const practice::Practice& practice) {
  const auto& rules = practice.weather.membrane;
  static constexpr std::array<const char*, 4> kCorner{"lower left", "lower right", "upper right", "upper left"};
  const bool taped = rules.corners_taped && rules.corners_taped->value > 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const bool lower = i < 2;
    if (opening.sill <= 0 && lower) continue;  // on the floor: there is no cut corner below
    if (taped) {
      weather.pieces.push_back({PieceKind::CornerTape,
                                lower ? Side::Sill : Side::Head,
                                size.corner_tape,
                                2 * size.corner_tape,
                                stepOf(StepKind::Membrane),
                                {},
                                0,
                                0,
                                false,
                                std::string(kCorner[i]) + " corner tape"});
    } else if (!lower) {
      weather.bare_corners.emplace_back(kCorner[i]);  // the sill piece covers the lower ones
    }
  }
}

/// The inner rectangle's four sides, and the four 45° cuts into the corners.
MembraneCut membraneCut(const job::Opening& opening, const WallSpec& wall, bool head_flap_kept) {
  MembraneCut cut;
  cut.head_flap_kept = head_flap_kept;
  const double w = opening.width;
  const double h = opening.height;
  // Flaps as wide as the wall is deep, but never past the middle of a small opening.
  const double f = std::min({wall.stud.depth, w / 2, h / 2});
  cut.flap = f;
  const bool floor = opening.sill <= 0;
  const double low = floor ? 0 : f;
  const Point bl{f, low};
  const Point br{w - f, low};
  const Point tr{w - f, h - f};
  const Point tl{f, h - f};
  cut.cuts.push_back({bl, br});
  cut.cuts.push_back({br, tr});
  cut.cuts.push_back({tr, tl});
  cut.cuts.push_back({tl, bl});
  if (!floor) {
    cut.cuts.push_back({bl, Point{0, 0}});
    cut.cuts.push_back({br, Point{w, 0}});
  }
  cut.cuts.push_back({tr, Point{w, h}});
  cut.cuts.push_back({tl, Point{0, h}});
  return cut;
}

void addLap(Weather& weather, std::string upper, std::string lower, double lap, const practice::Rule& least) {
  Lap entry{std::move(upper), std::move(lower), lap, std::nullopt, nullptr};
  if (least) {
    entry.least = least->value;
    entry.source = &*least;
  }
  weather.laps.push_back(std::move(entry));
}

void addLaps(Weather& weather, const SkinSizes& size, const practice::Practice& practice) {
  const auto& word = practice.words;
  const auto& flashing = practice.weather.flashing;
  if (size.sill_flashing) {
    addLap(weather, "jamb " + word.flashing, "sill " + word.flashing, size.jamb_foot, flashing.jamb_over_sill.least);
    addLap(weather, "sill " + word.flashing, word.cladding + " below", size.sill_over_cladding,
           practice.weather.cladding.under_sill_least);
  }
  if (weather.head.needed) {
    addLap(weather, word.membrane + " head flap", "head " + word.flashing, size.head_lap,
           practice.weather.membrane.flap_over_head.least);
    addLap(weather, "head " + word.flashing, word.fin, size.head_turn_down, flashing.head_turn_down.least);
  }
  addLap(weather, "upper run of " + word.membrane, "lower run", size.run_lap, practice.weather.membrane.lap.least);
}

std::string millimetres(double value) {
  return std::to_string(std::lround(value));
}

}  // namespace

HeadNeed headNeed(const std::optional<job::Eave>& eave, double head_z, const practice::EaveRule& rule) {
  if (!eave) return {true, "No eave shelters the head: it is open to the weather.", nullptr};
  if (!rule.ratio) return {true, "The practice names no eave rule, so every head is flashed.", nullptr};
  const double drop = eave->soffit - head_z;
  const double wanted = rule.ratio->value * drop;
  const bool sheltered = rule.shelters(eave->reach, drop);
  const std::string numbers = "the eave reaches " + millimetres(eave->reach) + " and " +
                              millimetres(rule.ratio->value) + " × its drop of " + millimetres(drop) +
                              " to the head is " + millimetres(wanted);
  return {!sheltered, (sheltered ? "None is needed: " : "It is needed: ") + numbers + ".", &*rule.ratio};
}

double rainFrom(const std::optional<job::Eave>& eave, const practice::EaveRule& rule) {
  if (!eave || !rule.ratio || rule.ratio->value <= 0) return std::numeric_limits<double>::infinity();
  return eave->soffit - eave->reach / rule.ratio->value;
}

Weather weatherproof(const job::Job& job, std::size_t index, const WallSpec& wall, const UnitSpec& unit,
                     const Stand& stand, const practice::Practice& practice) {
  const auto& opening = job.openings[index];
  const auto& eave = job.walls[opening.wall].eave;
  Weather weather;
  weather.head = headNeed(eave, opening.sill + opening.height, practice.weather.flashing.eave);
  const auto* wind = job.wind ? std::get_if<std::string>(&*job.wind) : nullptr;
  const SkinSizes size = skinSizes(opening, wall, unit, stand, wind != nullptr ? *wind : std::string{}, practice);
  weather.cut = membraneCut(opening, wall, weather.head.needed);
  addFolds(weather, size, opening, practice);
  addTapes(weather, opening, size, practice);
  addFlashings(weather, size, unit, opening, wall, practice, rollsAtHand(job, practice));
  addHead(weather, size, opening, practice);
  addLaps(weather, size, practice);
  weather.skin =
      makeSkin(size, weather.head.needed, rainFrom(eave, practice.weather.flashing.eave) - opening.sill, practice);
  return weather;
}

}  // namespace sillwright::plan
