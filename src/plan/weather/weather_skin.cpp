#include "plan/weather/weather_skin.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <utility>

#include "plan/panes.h"

namespace sillwright::plan {
namespace {

/// Depth of each sheet, from the studs outwards. Runs of membrane count from kFirstRun upwards: 109 fit, over 100 m.
enum Depth : int {
  kFirstRun = 1,
  kCladdingBelow = 110,  // the board below the sill tucks up under the sill flashing
  kSillFlashing = 120,
  kSillPan = 125,       // its front lies over the strip on the face
  kJambFlashing = 130,  // its foot lies over the sill flashing
  kFin = 140,
  kCladdingAtSill = 141,  // under the unit's foot, which throws its water over it
  kUnitFace = 142,
  kCladdingBeside = 150,  // covers fin and jamb flashing, stops at the frame
  kFaceSeal = 155,        // bridges from the cladding to the frame of a unit without a fin
  kHeadFlashing = 160,    // its turn-down lies over the fin and the boards' tops
  kHeadFlap = 170,        // the membrane's flap comes down over the upstand
  kHeadTape = 171,
  kCladdingAbove = 180
};

/// How far around the opening the wall is looked at. Enough for every flashing; the wall goes on the same beyond.
constexpr double kAround = 500;
/// Between the boards over the ends of a sill's flashing and the board below, for the flashing to come out. Common
/// practice, no source.
constexpr double kSlit = 2;
/// A lower strip of cladding isn't put in under a unit, mm. Common practice, no source.
constexpr double kLeastAtSill = 10;
/// A head flashing's turn-down stands so far outside the boards under it. Common practice, no source.
constexpr double kClearOfBoards = 5;

std::vector<Point> rectangle(double x0, double z0, double x1, double z1) {
  return {{x0, z0}, {x1, z0}, {x1, z1}, {x0, z1}};
}
/// The seals of four edges: bottom, right, top, left.
std::vector<EdgeSeal> onTop(EdgeSeal seal) { return {EdgeSeal::Open, EdgeSeal::Open, seal, EdgeSeal::Open}; }

/// All its edges are open.
Sheet& add(Skin& skin, SheetKind kind, int order, StepKind step, std::string name, std::vector<Point> outline,
           std::int32_t side = -1) {
  return skin.sheets.emplace_back(Sheet{kind, std::move(outline), {}, order, side, step, std::move(name), {}});
}

/// A run with the opening cut out of it: a ring opened by an upright bridge, so that the outline stays one polygon.
std::vector<Point> runAround(const SkinSizes& size, double left, double right, double low, double high) {
  const double w = size.opening_width;
  const double hole_low = std::max(0.0, low);
  const double hole_high = std::min(size.opening_height, high);
  if (hole_high <= hole_low) return rectangle(left, low, right, high);
  std::vector<Point> outline;
  outline.reserve(12);
  outline.push_back({left, low});
  if (hole_low > low && hole_high < high) {  // the hole lies inside the run
    outline.insert(outline.end(), {{0, low}, {0, hole_high}, {w, hole_high}, {w, hole_low}, {0, hole_low}, {0, low}});
  } else if (hole_low <= low) {                                   // it opens downwards
    if (hole_high >= high) return rectangle(left, low, 0, high);  // the right part is a sheet of its own
    outline.insert(outline.end(), {{0, low}, {0, hole_high}, {w, hole_high}, {w, low}});
  }
  outline.insert(outline.end(), {{right, low}, {right, high}});
  if (hole_high >= high && hole_low > low) {  // it opens upwards
    outline.insert(outline.end(), {{w, high}, {w, hole_low}, {0, hole_low}, {0, high}});
  }
  outline.push_back({left, high});
  return outline;
}

/// The same under a head that follows the roof: what lies beside, below and above the opening as sheets of one run.
template <class AddRun>
void addUnderRoof(const Skin& skin, const SkinSizes& size, double low, double high, const AddRun& addRun) {
  const double w = size.opening_width;
  addRun(rectangle(skin.left, low, 0, high));
  addRun(rectangle(w, low, skin.right, high));
  if (low < 0) addRun(rectangle(0, low, w, std::min(high, 0.0)));
  if (high <= size.head.lowest(0, w)) return;  // nothing of it lies above
  for (std::vector<Point>& outline : size.head.over({0, std::max(low, 0.0), w, std::max(high, 0.0)})) {
    if (outline.size() >= 3) addRun(std::move(outline));
  }
}

void addMembrane(Skin& skin, const SkinSizes& size, const practice::Words& words) {
  const double rise = kMembraneRun - size.run_lap;
  int order = kFirstRun;
  // Counted from the wall's foot, where laying begins: a run has one number at every opening of the wall.
  for (double low = size.foot - kSkirt; low < skin.top; low += rise, ++order) {
    const double high = std::min(low + kMembraneRun, skin.top);
    if (high <= skin.bottom) continue;
    const std::string name = "run " + std::to_string(order) + " of " + words.membrane;
    const auto addRun = [&](std::vector<Point> outline) {
      add(skin, SheetKind::MembraneRun, order, StepKind::Membrane, name, std::move(outline));
    };
    if (!size.head.level()) {
      addUnderRoof(skin, size, low, high, addRun);
      continue;
    }
    addRun(runAround(size, skin.left, skin.right, low, high));
    if (low >= 0 && high <= size.opening_height) addRun(rectangle(size.opening_width, low, skin.right, high));
  }
}

void addSill(Skin& skin, const SkinSizes& size, const practice::Words& words) {
  const double w = size.opening_width;
  const double inside = std::max(size.unit_bottom, 0.0) + 1;  // laps the unit's foot, so that no drop passes between
  const double left = -size.sill_past, right = w + size.sill_past;
  constexpr auto kSide = static_cast<std::int32_t>(Side::Sill);
  const StepKind step = size.on_unit ? StepKind::LiftIn : StepKind::SillFlashing;
  const auto addStrip = [&](std::vector<Point> outline) -> Sheet& {
    return add(skin, SheetKind::SillFlashing, kSillFlashing, step, "sill " + words.flashing, std::move(outline), kSide);
  };
  if (size.sill_pan) {  // the strip on the face by itself: the pan covers its upper edge in the opening's width
    addStrip(rectangle(left, -size.sill_down, right, 0));
  } else if (size.sill_flashing) {
    // In one piece: in the opening's width the strip runs on under the unit and is turned up behind it; beside, it ends
    // at the sill.
    addStrip({{left, -size.sill_down},
              {right, -size.sill_down},
              {right, 0},
              {w, 0},
              {w, inside},
              {0, inside},
              {0, 0},
              {left, 0}})
        .seal = {EdgeSeal::Open,   EdgeSeal::Open, EdgeSeal::Open, EdgeSeal::Open,
                 EdgeSeal::Turned, EdgeSeal::Open, EdgeSeal::Open, EdgeSeal::Open};
  }
  if (!size.sill_pan && size.sill_flashing) return;
  add(skin, SheetKind::SillFlashing, kSillPan, StepKind::SillFlashing, kPanName,
      rectangle(0, size.sill_flashing ? -kPanLap : -kSkirt, w, inside), kSide)
      .seal = onTop(EdgeSeal::Turned);
}

void addJambs(Skin& skin, const SkinSizes& size, const practice::Words& words) {
  const double w = size.opening_width;
  const double foot = size.sill_flashing ? -size.jamb_foot : std::max(skin.bottom, 0.0);
  for (const auto side : {Side::Left, Side::Right}) {
    const bool left = side == Side::Left;
    add(skin, SheetKind::JambFlashing, kJambFlashing, size.on_unit ? StepKind::LiftIn : StepKind::JambFlashings,
        std::string(toWord(side)) + " jamb " + words.flashing,
        rectangle(left ? -size.jamb_out : w, foot, left ? 0 : w + size.jamb_out, size.opening_height + size.jamb_past),
        static_cast<std::int32_t>(side));
  }
}

void addUnit(Skin& skin, const SkinSizes& size, const practice::Words& words) {
  const Rect unit{size.unit_left, size.unit_bottom, size.unit_right, size.unit_top};
  if (size.fin > 0) {
    const Rect fin = unit.inset(-size.fin);
    add(skin, SheetKind::Fin, kFin, StepKind::LiftIn, words.fin, rectangle(fin.x0, fin.z0, fin.x1, fin.z1));
  }
  // The frame and glass are one face: the frame's own section carries what runs down the glass out at its sill.
  add(skin, SheetKind::UnitFace, kUnitFace, StepKind::LiftIn, "unit", rectangle(unit.x0, unit.z0, unit.x1, unit.z1))
      .seal = onTop(EdgeSeal::Sealed);
  if (!size.sill_flashing) return;  // on the floor: it drains off its threshold
  constexpr double kDrain = 40;     // frames drain near their lower corners
  skin.frame_drains = {{unit.x0 + kDrain, unit.z0}, {unit.x1 - kDrain, unit.z0}};
}

/// A unit without a fin relies on the sealant at its face: one line up each jamb. Its sill drains, and its head stands
/// under the flashing or in the shelter that spares one.
void addFaceSeal(Skin& skin, const SkinSizes& size) {
  if (size.fin > 0) return;
  for (const auto side : {Side::Left, Side::Right}) {
    const bool left = side == Side::Left;
    const double inner = left ? size.unit_left : size.unit_right;
    const double outer = inner + (left ? -1 : 1) * (size.frame_gap + kSealLap);
    add(skin, SheetKind::FaceSeal, kFaceSeal, StepKind::Cladding, std::string("sealant on the ") + toWord(side),
        rectangle(std::min(inner, outer), size.unit_bottom, std::max(inner, outer), size.unit_top),
        static_cast<std::int32_t>(side))
        .seal = {EdgeSeal::Open, EdgeSeal::Sealed, EdgeSeal::Sealed, EdgeSeal::Sealed};
  }
}

void addHead(Skin& skin, const SkinSizes& size, const practice::Words& words) {
  const double top = size.headFold() + size.head_upstand;
  const double x0 = -size.head_past, x1 = size.opening_width + size.head_past;
  add(skin, SheetKind::HeadFlashing, kHeadFlashing, StepKind::HeadFlashing, "head " + words.flashing,
      rectangle(x0, size.unit_top + size.fin - size.head_turn_down, x1, top), static_cast<std::int32_t>(Side::Head));
  // The flap is the membrane itself, slit at 45° from the opening's corners and laid back down: its top is whole.
  const double rise = std::max(top + size.head_lap - size.opening_height, 0.0);
  const double lip = top - size.head_lap;
  const double spread = std::max(lip - size.opening_height, 0.0);  // of the slits, at the flap's lower edge
  add(skin, SheetKind::HeadFlap, kHeadFlap, StepKind::HeadFlap, words.membrane + " head flap",
      {{-spread, lip},
       {size.opening_width + spread, lip},
       {size.opening_width + rise, top + size.head_lap},
       {-rise, top + size.head_lap}})
      .seal = onTop(EdgeSeal::Sealed);
  add(skin, SheetKind::HeadTape, kHeadTape, StepKind::HeadFlap, "head tape",
      rectangle(x0 - kTapePast, top - kTapePast, x1 + kTapePast, top + kTapePast))
      .seal = onTop(EdgeSeal::Sealed);
}

/// The boards on one side of the unit, from `outer` to `inner` (the edge beside the unit). Past the sill's flashing
/// they lap the board below; over it they end just above that board, so that the flashing comes out between the two.
std::vector<Point> boardsBeside(const SkinSizes& size, double outer, double inner, double below, double lap_foot,
                                double top) {
  const bool left = outer < inner;
  const double flashing = left ? -size.sill_past : size.opening_width + size.sill_past;
  std::vector<Point> outline;
  if (!size.sill_flashing || below <= lap_foot) {
    outline = rectangle(outer, lap_foot, inner, top);
  } else {
    const double foot = below + kSlit;
    outline = {{outer, lap_foot}, {flashing, lap_foot}, {flashing, foot}, {inner, foot}, {inner, top}, {outer, top}};
  }
  if (!left) std::reverse(outline.begin(), outline.end());  // counter-clockwise either way
  return outline;
}

void addCladding(Skin& skin, const SkinSizes& size, bool head_flashing, const practice::Words& words) {
  const double clear = size.frame_gap + (size.over_fin ? 0 : size.fin);
  const double beside_left = size.unit_left - clear, beside_right = size.unit_right + clear;
  const double below = -size.sill_down + size.sill_over_cladding;
  const auto addBoards = [&](int order, const char* where, std::vector<Point> outline) {
    add(skin, SheetKind::Cladding, order, StepKind::Cladding, words.cladding + where, std::move(outline));
  };
  double side_foot = skin.bottom;
  if (size.sill_flashing) {
    side_foot = std::max(below - size.board_lap, skin.bottom);
    if (below > skin.bottom) {
      addBoards(kCladdingBelow, " below", rectangle(skin.left, skin.bottom, skin.right, below));
    }
    // Over the flashing's leg, which comes out between it and the board below; not where sill bricks stand.
    const double foot = size.unit_bottom - (size.over_fin ? 0 : size.fin);
    if (!size.brick && below > skin.bottom && foot - below - kSlit > kLeastAtSill) {
      addBoards(size.over_fin ? kCladdingAtSill : kJambFlashing + 1, " at the sill",
                rectangle(size.unit_left - clear + size.frame_gap, below + kSlit,
                          size.unit_right + clear - size.frame_gap, foot));
    }
  }
  // Boards beside the unit stop 2 mm under the flashing's outer edge; without one they run up past the unit's top.
  const double side_top = head_flashing ? size.unit_top + size.fin - 2 : size.unit_top + size.board_lap;
  addBoards(kCladdingBeside, " on the left", boardsBeside(size, skin.left, beside_left, below, side_foot, side_top));
  addBoards(kCladdingBeside, " on the right", boardsBeside(size, skin.right, beside_right, below, side_foot, side_top));
  const double over = side_top - size.board_lap;  // the boards above lap those beside
  const double notch_left = head_flashing ? -size.head_past : beside_left;
  const double notch_right = head_flashing ? size.opening_width + size.head_past : beside_right;
  const double unit_top = size.unit_top + (size.over_fin ? 0 : size.fin);
  const double notch = (head_flashing ? size.headFold() : unit_top) + size.cladding_gap;
  if (notch >= skin.top) return;  // nothing of it is looked at
  addBoards(kCladdingAbove, " above",
            {{skin.left, over},
             {notch_left, over},
             {notch_left, notch},
             {notch_right, notch},
             {notch_right, over},
             {skin.right, over},
             {skin.right, skin.top},
             {skin.left, skin.top}});
}

/// Sill bricks stand between the unit and the bricks below it, with the frame's shrinkage as their gap; the sill's
/// flashing comes down behind them and out on the course below.
void sizeBrick(SkinSizes& size, const SillBricks& sill) {
  constexpr double kTurnedDown = 10;  // of the flashing, before the face of the bricks
  size.brick = true;
  size.frame_gap = kBrickGap;
  size.sill_over_cladding = kTurnedDown;
  size.sill_down = std::max(size.sill_down, sill.high + sill.fall - sill.top + kTurnedDown);
}

/// Lets a sheet that was made for a level head follow the unit's: what lies above its middle, but for the wall looked
/// at. Past the head flashing's ends it goes on level; edges have a corner more there and at the peak.
void followRoof(Sheet& sheet, const SkinSizes& size, double wall_top) {
  const HeadLine& head = size.unit_head;
  const double left = -size.head_past;
  const double right = size.opening_width + size.head_past;
  // From the left. No edge comes by what is no number.
  const std::array turns{left, head.peaked() ? head.middle().x + size.unit_left : std::nan(""), right};
  const double middle = size.unit_bottom + head.top() / 2;  // as HeadLine::followed parts what follows from what stays
  const auto isHigh = [&](const Point& p) { return p.z > middle && p.z < wall_top; };
  double low = -std::numeric_limits<double>::infinity();  // of what stays: a triangle's corner has no height over it
  for (const Point& point : sheet.outline) low = point.z > middle ? low : std::max(low, point.z);
  std::vector<Point> outline;
  std::vector<EdgeSeal> seal;
  outline.reserve(sheet.outline.size() + 2 * turns.size());
  seal.reserve(outline.capacity());
  const auto add = [&](const Point& at, EdgeSeal sealed) {
    outline.push_back(at);
    seal.push_back(sealed);
    if (!isHigh(at)) return;
    const double x = std::clamp(at.x, left, right) - size.unit_left;
    outline.back().z = std::max(head.followed({x, at.z - size.unit_bottom}).z + size.unit_bottom, low + 1);
  };
  for (std::size_t i = 0; i < sheet.outline.size(); ++i) {
    const Point& a = sheet.outline[i];
    const Point& b = sheet.outline[i + 1 < sheet.outline.size() ? i + 1 : 0];
    add(a, sheet.sealOf(i));
    if (!isHigh(a) || !isHigh(b)) continue;
    for (std::size_t turn = 0; turn < turns.size(); ++turn) {  // in the order in which this edge comes by them
      const double x = turns[a.x < b.x ? turn : turns.size() - 1 - turn];
      if ((x - a.x) * (x - b.x) < 0) add({x, a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x)}, sheet.sealOf(i));
    }
  }
  sheet.level = std::exchange(sheet.outline, std::move(outline));
  sheet.seal = std::move(seal);
}

/// Where what runs down along a head flashing in a slope leaves it.
void setSlopeEnds(Skin& skin, const SkinSizes& size) {
  for (const Sheet& sheet : skin.sheets) {
    if (sheet.kind != SheetKind::HeadFlashing) continue;
    const HeadLine fall = size.unit_head.inset(-size.fin - size.head_drop / 2);  // halfway down the fall
    const auto leaves = [&](double x) {
      skin.slope_ends.push_back({x, size.unit_bottom + fall.at(x - size.unit_left)});
    };
    if (fall.slopes()[0] > 0) leaves(-size.head_past);  // the head rises from its left end: that is a low one
    if (fall.slopes()[1] < 0) leaves(size.opening_width + size.head_past);
  }
  skin.stop_ends = size.stop_ends;
}

}  // namespace

SillBricks sillBricks(const WallSpec& wall, const Stand& stand, const practice::CladdingRules& rules) {
  const practice::Rule& least = rules.movementGap(wall.level);
  const double gap = least ? least->value : kSillBrickGap;
  const double slope = kSillBrickSlope * std::numbers::pi / 180;
  return {stand.z - gap, kSillBrickHigh / std::cos(slope),
          (wall.cladding.thickness + kSillBrickProud) * std::tan(slope)};
}

SkinSizes skinSizes(const job::Job& job, const job::Opening& opening, const WallSpec& wall, const UnitSpec& unit,
                    const Stand& stand, const practice::Practice& practice) {
  const auto& flashing = practice.weather.flashing;
  SkinSizes size;
  size.head = headLineOf(opening);
  size.unit_head = headLineOf(unit);
  size.stop_ends = flashing.head_stop_end.value > 0;
  size.opening_width = opening.width;
  size.opening_height = opening.height;
  size.foot = -opening.sill;
  size.unit_left = stand.x;
  size.unit_right = stand.x + unit.width;
  // A door that stands on the floor but for rounding stands on it: no water runs in under it.
  size.unit_bottom = std::abs(stand.z) < kTouching ? 0 : stand.z;
  size.unit_top = stand.z + unit.height;
  size.fin = unit.fin;
  size.sill_flashing = opening.sill > 0;
  size.pan_back = size.sill_flashing ? wall.stud.depth : std::max(wall.stud.depth, insideFace(unit));
  size.sill_past = flashing.sill_past.usual.value;
  size.sill_down = flashing.sill_down.value;
  size.jamb_out = flashing.jamb_out.value;
  size.jamb_past = flashing.jamb_past.value;
  size.head_past = flashing.head_past.usual.value;
  const auto* wind = job.wind ? std::get_if<std::string>(&*job.wind) : nullptr;  // a wind in kPa has no class
  const auto* extra = flashing.head_upstand_extra.at(wind != nullptr ? *wind : std::string{});
  size.head_upstand = flashing.head_upstand.value + (extra != nullptr ? extra->value : 0);
  size.head_turn_down = flashing.head_turn_down.usual.value;
  size.direct_fix = wall.cladding.cavity <= 0;
  const double boards = wall.cladding.cavity + wall.cladding.thickness;
  size.head_reach = std::max(flashing.head_reach.value, boards > 0 ? boards + kClearOfBoards : 0.0);
  size.head_drop = size.head_reach * std::tan(flashing.head_slope.value * std::numbers::pi / 180);
  // Flashings go in on a reveal only; a bare frame's strips are always put on the wall first.
  size.on_unit = opening.unit.flashing.value_or(job::Flashing::OnWall) != job::Flashing::OnWall && unit.reveal;
  size.head_lap = practice.weather.membrane.flap_over_head.usual.value;
  const auto& under = practice.weather.cladding.under_sill_least;
  const auto& board = practice.weather.cladding.board_lap_least;
  // Where the practice is silent: laps as boards usually have. Common practice, no source.
  constexpr double kUsualLap = 30;
  size.sill_over_cladding = under ? under->value : kUsualLap;
  if (isBrick(wall.cladding)) sizeBrick(size, sillBricks(wall, stand, practice.weather.cladding));
  if (opening.isExisting()) {
    size.existing = true;
    size.sill_past = 0;
    if (!size.brick) size.sill_down = 0;
    if (!size.brick) size.sill_over_cladding = std::max(size.unit_bottom - kFrameGap, 0.0);
  }
  // A jamb's foot ends clear above the board that tucks up under the sill's flashing: over that board it would lap
  // nothing, and under a flashing put on the wrong way it would only seem to drain.
  constexpr double kClearOfBoard = 5;
  size.jamb_foot =
      std::clamp(size.sill_down - size.sill_over_cladding - kClearOfBoard, 0.0, flashing.jamb_over_sill.usual.value);
  size.board_lap = board ? board->value : kUsualLap;
  size.over_fin = boardsCoverFin(wall.cladding);
  size.cladding_gap = practice.weather.cladding.head_gap.value;
  size.run_lap = std::clamp(practice.weather.membrane.lap.usual.value, 0.0, kMostRunLap);
  return size;
}

Skin makeSkin(const SkinSizes& size, bool head_flashing, double rain_from, const practice::Practice& practice) {
  Skin skin;
  skin.sheets.reserve(24);  // more than most openings have: none is moved while they are made
  skin.left = -kAround;
  skin.right = size.opening_width + kAround;
  skin.bottom = std::max(size.foot, -kAround);
  skin.top = size.opening_height + kAround;
  skin.opening_width = size.opening_width;
  skin.opening_height = size.opening_height;
  skin.sheltered_above = std::min(rain_from, skin.top);
  practice::Words of_brick;
  if (size.brick) {
    of_brick = practice.words;
    of_brick.cladding = "brickwork";
  }
  const auto& words = size.brick ? of_brick : practice.words;
  addMembrane(skin, size, words);
  if (!size.existing) {
    addSill(skin, size, words);
    addJambs(skin, size, words);
  }
  addUnit(skin, size, words);
  addFaceSeal(skin, size);
  if (head_flashing) addHead(skin, size, words);
  addCladding(skin, size, head_flashing, words);
  if (!size.unit_head.level()) {
    for (Sheet& sheet : skin.sheets) {
      if (sheet.kind != SheetKind::MembraneRun) followRoof(sheet, size, skin.top);
    }
    setSlopeEnds(skin, size);
  }
  // Nearly in order already: only what was made too late is moved.
  for (auto each = skin.sheets.begin(); each != skin.sheets.end(); ++each) {
    const auto isUnder = [](const Sheet& a, const Sheet& b) { return a.order < b.order; };
    std::rotate(std::upper_bound(skin.sheets.begin(), each, *each, isUnder), each, each + 1);
  }
  return skin;
}

}  // namespace sillwright::plan
