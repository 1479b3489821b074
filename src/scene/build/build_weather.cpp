// Flashings, head flap and tapes of one opening, from its skin.
#include <climits>
#include <cmath>
#include <numbers>

#include "plan/frame/top_line.h"
#include "scene/build/wall_parts.h"

namespace sillwright::scene {
namespace {

// Room between membrane and fin or boards: five sheets can lie on each other there (sill, jamb, head flashing, flap,
// tape). Flashings are drawn thinner than the membrane for it.
constexpr double kLevel = (kFinBack - kMembraneFace) / 5;
constexpr double kThin = 0.33;
constexpr double kMetal = 0.6;        // folded, where it stands free. From memory: the usual gauge.
constexpr double kFinClear = 5.0;     // between battens and the fin. Common practice, no source.
constexpr double kLeastStrip = 0.01;  // narrower is nothing

using plan::Sheet;
using plan::SheetKind;

/// Whether a sheet is drawn here: the others are drawn with the parts that they are the faces of.
bool isFlashing(SheetKind kind) { return kind >= SheetKind::HeadFlap && kind <= SheetKind::HeadTape; }

/// Every x of these sheets' corners between low and high, those included.
std::vector<double> columnsOf(const std::vector<const Sheet*>& sheets, double low, double high) {
  std::vector<double> at{low, high};
  for (const Sheet* sheet : sheets) {
    for (const plan::Point point : sheet->outline) {
      if (point.x > low && point.x < high) at.push_back(point.x);
    }
  }
  sortUnique(at, kLeastStrip);
  return at;
}

/// What any of these sheets covers at x, sorted and joined.
std::vector<Range> coveredAt(const std::vector<const Sheet*>& sheets, double x) {
  std::vector<Range> all;
  for (const Sheet* sheet : sheets) {
    for (const plan::Cover& cover : plan::coversAt(*sheet, x)) all.push_back({cover.low, cover.high});
  }
  std::sort(all.begin(), all.end(), [](const Range& a, const Range& b) { return a.low < b.low; });
  std::vector<Range> joined;
  for (const Range& range : all) {
    if (joined.empty() || range.low > joined.back().high) joined.push_back(range);
    joined.back().high = std::max(joined.back().high, range.high);
  }
  return joined;
}

/// What is left of a stretch between the ranges.
std::vector<Range> between(const std::vector<Range>& ranges, Range stretch) {
  std::vector<Range> free;
  for (const Range& range : ranges) {
    if (range.low - stretch.low > kLeastStrip) free.push_back({stretch.low, std::min(range.low, stretch.high)});
    stretch.low = std::max(stretch.low, range.high);
    if (stretch.low >= stretch.high) return free;
  }
  if (stretch.high - stretch.low > kLeastStrip) free.push_back(stretch);
  return free;
}

/// The sheets of a kind that are put on before a place in the order.
std::vector<const Sheet*> sheetsOf(const plan::Skin& skin, SheetKind kind, int before = INT_MAX) {
  std::vector<const Sheet*> sheets;
  for (const Sheet& sheet : skin.sheets) {
    if (sheet.kind == kind && sheet.order < before) sheets.push_back(&sheet);
  }
  return sheets;
}

/// The parts of a sheet that lie on any of `on` (or on none of them), gathered column by column: a rectangle that goes
/// on from the column before grows.
std::vector<Rect> areaOf(const Sheet& sheet, const std::vector<const Sheet*>& on, bool lying) {
  std::vector<Rect> area;
  const auto add = [&](double x0, double x1, const Range& z) {
    const auto before = std::find_if(area.begin(), area.end(), [&](const Rect& rect) {
      return std::abs(rect.x1 - x0) < kLeastStrip && rect.z0 == z.low && rect.z1 == z.high;
    });
    if (before == area.end()) return area.push_back({x0, z.low, x1, z.high});
    before->x1 = x1;
  };
  std::vector<const Sheet*> all = on;
  all.push_back(&sheet);
  const plan::Rect box = plan::boxOf(sheet);
  const std::vector<double> at = columnsOf(all, box.x0, box.x1);
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    // One line tells a column: sheets are level here, for followHead brings them into the roof's slope afterwards.
    const double x = (at[i] + at[i + 1]) / 2;
    const std::vector<Range> under = coveredAt(on, x);
    for (const Range& own : coveredAt({&sheet}, x)) {
      const std::vector<Range> bare = between(under, own);
      // What lies on them is what is left of the whole between its bare stretches.
      for (const Range& z : lying ? between(bare, own) : bare) add(at[i], at[i + 1], z);
    }
  }
  return area;
}

/// One opening's sheets being drawn.
struct WeatherStage {
  Bench bench;
  const job::Opening& opening;
  const plan::OpeningPlan& planned;
  const plan::Skin& skin;  ///< The plan's; under a head that follows the roof as it was before it did.
  const plan::WallSpec& wall;
  const practice::Practice& practice;
  std::vector<int> level;     ///< By sheet: how many flashings it lies on.
  double highest = HUGE_VAL;  ///< z of the wall's edge over a head that follows it, as if that were level.
};

/// How many flashings lie under each, one on the other.
std::vector<int> levelsOf(const plan::Skin& skin) {
  std::vector<int> level(skin.sheets.size(), 0);
  for (std::size_t i = 0; i < skin.sheets.size(); ++i) {
    if (!isFlashing(skin.sheets[i].kind)) continue;
    for (std::size_t k = 0; k < i; ++k) {  // sheets rise: what lies under it has its level already
      if (!isFlashing(skin.sheets[k].kind) || skin.sheets[k].order >= skin.sheets[i].order) continue;
      if (level[k] >= level[i] && plan::overlapOf(skin.sheets[k], skin.sheets[i]).any) level[i] = level[k] + 1;
    }
  }
  return level;
}

Part specOf(const Sheet& sheet) {
  const DrawnSheet& drawn = drawnAs(sheet.kind);
  return {drawn.kind, drawn.material, drawn.layer, partStep(sheet.step)};
}

/// Where a flashing lies: over the membrane, or further out over what it is put on.
struct Zone {
  std::vector<Rect> rects;
  double back = 0;  ///< y of the sheet's back.
};
using Zones = std::array<Zone, 3>;  ///< On the wall, on the fin, on the boards.

Zones zonesOf(const WeatherStage& stage, std::size_t index) {
  const Sheet& sheet = stage.skin.sheets[index];
  const std::vector<const Sheet*> fins = sheetsOf(stage.skin, SheetKind::Fin, sheet.order);
  std::vector<const Sheet*> boards = sheetsOf(stage.skin, SheetKind::Cladding, sheet.order);
  std::vector<const Sheet*> either = fins;
  either.insert(either.end(), boards.begin(), boards.end());
  if (stage.wall.cladding.thickness <= 0) boards.clear();  // none is drawn
  const double own = stage.level[index] * kLevel;
  Zones zones{{{areaOf(sheet, either, false), -kMembraneFace - own},
               {areaOf(sheet, fins, true), -kFinBack - kFinThickness - own},
               {areaOf(sheet, boards, true), -claddingDepth(stage.wall).front - own}}};
  // Where it lies on boards that lie on the fin, it is out on the boards.
  std::erase_if(zones[1].rects, [&](const Rect& rect) {
    return std::any_of(zones[2].rects.begin(), zones[2].rects.end(), [&](const Rect& board) {
      return std::min(board.x1, rect.x1) > std::max(board.x0, rect.x0) &&
             std::min(board.z1, rect.z1) > std::max(board.z0, rect.z0);
    });
  });
  return zones;
}

/// The sheet in each zone, and the ledge on which it comes out over the upper edge of a fin or of boards.
void addZones(const WeatherStage& stage, const Zones& zones) {
  for (const bool ledge : {false, true}) {
    for (std::size_t i = ledge ? 1 : 0; i < zones.size(); ++i) {
      const Range y{zones[i].back - kThin, zones[ledge ? 0 : i].back};  // a ledge reaches back to the wall
      for (const Rect& rect : zones[i].rects) {
        const Rect at = rect.moved(stage.opening.left, stage.opening.sill);
        addBox(stage.bench, {at.x0, at.x1}, y, {ledge ? at.z1 : at.z0, ledge ? at.z1 + kThin : at.z1}, Grain::AlongX);
      }
    }
  }
}

const plan::Piece* pieceOf(const plan::Weather& weather, plan::PieceKind kind) {
  const auto found = std::find_if(weather.pieces.begin(), weather.pieces.end(),
                                  [&](const plan::Piece& piece) { return piece.kind == kind; });
  return found == weather.pieces.end() ? nullptr : &*found;
}

/// Height of a head flashing's upstand; 0 where there is none.
double upstandOf(const plan::Piece* piece) { return piece != nullptr && !piece->folds.empty() ? piece->folds[0] : 0; }

/// Under a unit flat on the floor a pan is seen at its turned-up edges alone: up the studs and behind the unit.
void addPanEdges(const WeatherStage& stage, const Range& x) {
  const plan::Piece* pan = pieceOf(stage.planned.weather, plan::PieceKind::SillPan);
  if (pan == nullptr) return;
  const double up = (pan->length - stage.opening.width) / 2;  // at each end what it is longer than the opening
  const double back = std::max(stage.wall.stud.depth, plan::insideFace(stage.planned.unit));
  const Range z{stage.opening.sill, stage.opening.sill + up};
  const double gap =
      std::min(stage.planned.stand.x, stage.opening.width - stage.planned.stand.x - stage.planned.unit.width);
  if (up <= 0 || gap < kSheet + 2 * kThin) return;  // no room beside the unit
  addBox(stage.bench, {x.low, x.low + kThin}, {0, back + kThin}, z, Grain::AlongX);
  addBox(stage.bench, {x.high - kThin, x.high}, {0, back + kThin}, z, Grain::AlongX);
  addBox(stage.bench, {x.low + kThin, x.high - kThin}, {back, back + kThin}, z, Grain::AlongX);
}

/// The strip in under the unit. On the sill its inner edge is turned up, as far as there is room below the unit; what
/// goes in with the unit hangs from its foot, above the packers.
void addUnderUnit(const WeatherStage& stage, bool on_unit, double back) {
  const double unit = stage.planned.stand.z;
  const double deep = stage.wall.stud.depth;
  const Range x{stage.opening.left + kSheet, stage.opening.left + stage.opening.width - kSheet};
  if (unit < kSheet + 2 * kThin) return addPanEdges(stage, x);  // no room under it
  const double foot = stage.opening.sill + unit;
  const double low = on_unit ? foot - kThin : stage.opening.sill + kSheet;
  addBox(stage.bench, x, {-kMembraneFace, deep}, {low, low + kThin}, Grain::AlongX);
  const double upright = on_unit ? back : deep;
  addBox(stage.bench, x, {upright - kThin, upright}, {on_unit ? stage.opening.sill : low + kThin, foot}, Grain::AlongX);
}

void addSill(WeatherStage& stage, std::size_t index) {
  Sheet on_face = stage.skin.sheets[index];
  // The part of the outline inside the opening is the strip that runs in under the unit.
  for (plan::Point& point : on_face.outline) point.z = std::min(point.z, 0.0);
  const bool pan = on_face.name == plan::kPanName;
  const bool runs_in = plan::boxOf(stage.skin.sheets[index]).z1 > 0;
  const plan::Piece* piece =
      pieceOf(stage.planned.weather, pan ? plan::PieceKind::SillPan : plan::PieceKind::SillFlashing);
  const plan::Rect box = plan::boxOf(on_face);
  addPart(stage.bench, specOf(on_face), {box.x1 - box.x0, kThin, piece != nullptr ? piece->width : -box.z0});
  Zones zones = zonesOf(stage, index);
  for (Zone& zone : zones) {
    for (Rect& rect : zone.rects) rect.z1 = std::min(rect.z1, 0.0);
    std::erase_if(zone.rects, [](const Rect& rect) { return rect.height() < kLeastStrip; });
  }
  addZones(stage, zones);
  if (runs_in) addUnderUnit(stage, on_face.step == plan::StepKind::LiftIn, zones[0].back);
}

/// Stop ends stand on the fall as far out as the back of the cladding where it has a cavity, else as far as the fall;
/// under the boards above they are cut down to the gap left for them.
void addStopEnds(const WeatherStage& stage, const Range& x, double back, double reach, double fold, double drop,
                 double height, double gap) {
  const double out = stage.wall.cladding.cavity > 0 ? std::min(stage.wall.cladding.cavity, reach) : reach;
  const auto fallAt = [&](double y) { return fold - drop * (y / reach); };
  const auto topAt = [&](double y) {
    const double wanted = fallAt(y) + height;
    return stage.wall.cladding.cavity > 0 ? wanted : std::min(wanted, fold + gap - kThin);
  };
  if (out <= -back + kMetal || topAt(-back) <= fallAt(-back) || height <= 0) return;  // no room
  for (const double at : {x.low, x.high - kMetal}) {
    const Range plate{at, at + kMetal};
    addPrism(stage.bench, quadOf(plate, {fallAt(out), topAt(out)}), quadOf(plate, {fallAt(-back), topAt(-back)}),
             {-out, back}, Grain::AlongX);
  }
}

/// Gap between the boards above and the head flashing, as the skin has it; generous where no boards are above.
double gapAbove(const plan::Skin& skin, const Sheet& flashing, double fold) {
  double gap = 1000;
  const plan::Rect box = plan::boxOf(flashing);
  for (const Sheet* boards : sheetsOf(skin, SheetKind::Cladding)) {
    for (const plan::Cover& cover : plan::coversAt(*boards, (box.x0 + box.x1) / 2)) {
      if (cover.low >= fold) gap = std::min(gap, cover.low - fold);
    }
  }
  return gap;
}

/// Folded metal: upstand on the wall, fall outwards, turn-down over the fin, stop ends. Behind a fin or boards that
/// were put on over it there is no room for its fall, and it lies flat.
void addHeadFlashing(WeatherStage& stage, std::size_t index) {
  const Sheet& sheet = stage.skin.sheets[index];
  const plan::Piece* piece = pieceOf(stage.planned.weather, plan::PieceKind::HeadFlashing);
  const plan::Rect box = plan::boxOf(sheet);
  const double girth = piece != nullptr ? piece->width : box.z1 - box.z0;
  addPart(stage.bench, specOf(sheet), {box.x1 - box.x0, kMetal, girth});
  const auto covers = [&](const Sheet* fin) { return fin->order > sheet.order && plan::overlapOf(*fin, sheet).any; };
  const std::vector<const Sheet*> fins = sheetsOf(stage.skin, SheetKind::Fin);
  const bool flat = piece == nullptr || piece->folds.size() != 3 || std::any_of(fins.begin(), fins.end(), covers);
  if (flat) return addZones(stage, zonesOf(stage, index));
  const double fall = piece->fall_degrees * std::numbers::pi / 180;
  const double reach = piece->folds[1] * std::cos(fall), drop = piece->folds[1] * std::sin(fall);
  const Rect at = box.moved(stage.opening.left, stage.opening.sill);
  const Range x{at.x0, at.x1};
  const double back = -kMembraneFace - stage.level[index] * kLevel;
  const double fold = at.z1 - piece->folds[0];  // between upstand and fall
  const double outer = fold - drop;
  const double face = back - kThin;                   // the fall starts at the upstand's face
  const double start = fold + drop * (face / reach);  // its y is below 0: the fall is lower there than at the fold
  // Upstand, fall and turn-down, one over the other's edge; then what stands on the fall.
  addBox(stage.bench, x, {face, back}, {start - kMetal, std::min(at.z1, stage.highest + stage.opening.sill)},
         Grain::AlongX);
  addPrism(stage.bench, quadOf(x, {outer - kMetal, outer}), quadOf(x, {start - kMetal, start}), {-reach, face},
           Grain::AlongX);
  addBox(stage.bench, x, {-reach - kMetal, -reach}, {at.z0, outer}, Grain::AlongX);
  addStopEnds(stage, x, back - kThin, reach, fold, drop, piece->stop_end,
              gapAbove(stage.skin, sheet, box.z1 - piece->folds[0]));
}

/// A jamb flashing or a tape in each of its zones; the flap, a strip of membrane with slits at 45° at its ends, whole.
void addStrip(WeatherStage& stage, std::size_t index) {
  const Sheet& sheet = stage.skin.sheets[index];
  const plan::Rect box = plan::boxOf(sheet);
  const bool upright = sheet.kind == SheetKind::JambFlashing;
  addPart(stage.bench, specOf(sheet),
          {upright ? box.height() : box.width(), kThin, upright ? box.width() : box.height()});
  if (sheet.kind != SheetKind::HeadFlap) return addZones(stage, zonesOf(stage, index));
  if (sheet.outline.size() != 4) return;
  Quad quad;
  for (std::size_t i = 0; i < 4; ++i) {
    quad[i] = {sheet.outline[i].x + stage.opening.left, sheet.outline[i].z + stage.opening.sill};
  }
  const double back = -kMembraneFace - stage.level[index] * kLevel;
  addPrism(stage.bench, quad, {back - kThin, back}, Grain::AlongX);
}

/// A tape on a corner of the opening, over the folds of the membrane: along the jamb and along the sill or head.
void addCornerTape(const WeatherStage& stage, const plan::Piece& piece) {
  const double deep = stage.wall.stud.depth;
  const double arm = std::min({piece.width, stage.opening.width / 2, stage.opening.height / 2});  // arms don't meet
  if (deep <= 0 || arm <= kSheet) return;
  const bool left = piece.name.find("left") != std::string::npos;  // a piece has no more to tell its corner by
  const bool lower = piece.side == plan::Side::Sill;
  const double jamb = left ? stage.opening.left : stage.opening.left + stage.opening.width;
  const double level = lower ? stage.opening.sill : stage.opening.sill + stage.opening.height;
  const double in_x = left ? 1 : -1, in_z = lower ? 1 : -1;
  const auto range = [](double a, double b) { return Range{std::min(a, b), std::max(a, b)}; };
  addPart(stage.bench, {PartKind::Tape, Material::FlexibleFlashing, Layer::Flashing, partStep(piece.step)},
          {piece.length, kThin, deep});
  addBox(stage.bench, range(jamb + in_x * kSheet, jamb + in_x * (kSheet + kThin)), {0, deep},
         range(level + in_z * kSheet, level + in_z * arm), Grain::AlongZ);
  addBox(stage.bench, range(jamb + in_x * (kSheet + kThin), jamb + in_x * arm), {0, deep},
         range(level + in_z * kSheet, level + in_z * (kSheet + kThin)), Grain::AlongX);
}

/// The sealant between the cladding's edge and the frame of a unit without a fin, at the frame's face.
void addFaceSeal(const WeatherStage& stage, const Sheet& sheet) {
  const double face = stage.planned.unit.stands;
  constexpr double kDeep = 8.0;  // of the line. From memory: as deep as a joint of that width wants.
  const bool left = sheet.side == static_cast<std::int32_t>(plan::Side::Left);
  const double reveal = stage.planned.unit.reveal ? stage.planned.unit.reveal->thickness : 0;
  const plan::Rect box = plan::boxOf(sheet);
  double top = box.z1;
  for (const Sheet* head : sheetsOf(stage.skin, SheetKind::HeadFlashing)) top = std::min(top, plan::boxOf(*head).z0);
  const double edge = stage.opening.left + (left ? box.x1 : box.x0);
  const double gap = box.x1 - box.x0 - plan::kSealLap;  // without its lap over the cladding
  const Range x = left ? Range{edge - gap, edge + reveal} : Range{edge - reveal, edge + gap};
  addBoxPart(stage.bench, specOf(sheet), x, {face, face + kDeep},
             {stage.opening.sill + box.z0, stage.opening.sill + top}, Grain::AlongZ);
}

/// The bricks on edge under the unit, from the joint beside it on the left to that on the right, sloping outwards.
void addSillBricks(const WeatherStage& stage) {
  const job::Cladding& cladding = stage.wall.cladding;
  if (!plan::isBrick(cladding) || stage.opening.sill <= 0) return;
  const Rect unit = unitOutside(stage.opening, stage.planned);
  const plan::SillBricks sill = plan::sillBricks(stage.wall, stage.planned.stand, stage.practice.weather.cladding);
  const double top = stage.opening.sill + sill.top;
  const Range y{-cladding.cavity - cladding.thickness - plan::kSillBrickProud, -cladding.cavity};
  const Range x{unit.x0 - plan::kBrickGap, unit.x1 + plan::kBrickGap};
  // A whole number of them, each with its joint as wide as it takes.
  const double pitch = x.length() / std::max(1.0, std::round(x.length() / (plan::kBrickHeight + plan::kBrickJoint)));
  addPart(stage.bench,
          {PartKind::SillBrick, Material::Brick, Layer::Cladding,
           stage.planned.existing ? PartStep::FromTheStart : partStep(plan::StepKind::Cladding)},
          {x.length(), y.length(), sill.high});
  for (double at = x.low; at < x.high - pitch / 2; at += pitch) {
    const Range brick{at, at + pitch};
    addPrism(stage.bench, quadOf(brick, {top - sill.high - sill.fall, top - sill.fall}),
             quadOf(brick, {top - sill.high, top}), y, Grain::AlongX);
  }
}

/// The wall's edge over a head that follows the roof, from the opening's sill, as if the head were level.
double edgeOver(const job::Opening& opening, const plan::WallSpec& wall) {
  const plan::TopLine top = plan::topLineBelow(wall, 0);
  const plan::HeadLine head = plan::headLineOf(opening);
  double least = HUGE_VAL;
  for (const double x : {0.0, head.middle().x, opening.width})
    least = std::min(least, top.height(opening.left + x) - opening.sill - head.at(x));
  return opening.height + least;
}

/// The skin as it was before its sheets followed the roof: of those that did, in the order that they have now. Over
/// plates that are the head there is no room for flap and tape: the roof's edge covers the flashing's upstand there.
plan::Skin levelled(plan::Skin skin, double highest) {
  for (Sheet& sheet : skin.sheets) {
    sheet.outline = std::move(sheet.level);
    if (sheet.kind != SheetKind::HeadFlap && sheet.kind != SheetKind::HeadTape) continue;
    for (plan::Point& point : sheet.outline) point.z = std::min(point.z, highest);
  }
  std::erase_if(skin.sheets, [](const Sheet& sheet) {
    return sheet.outline.empty() || plan::boxOf(sheet).z1 - plan::boxOf(sheet).z0 < kLeastStrip;
  });
  return skin;
}

}  // namespace

std::vector<Strip> bareOf(SheetKind kind, const job::Opening& opening, const plan::Skin& skin) {
  const std::vector<const Sheet*> sheets = sheetsOf(skin, kind);
  const std::vector<double> at = columnsOf(sheets, skin.left, skin.right);
  std::vector<Strip> bare;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    // At a quarter and three quarters: at the ends themselves sheets begin and end.
    const double in = (at[i + 1] - at[i]) / 4;
    const auto bareAt = [&](double x) { return between(coveredAt(sheets, x), {skin.bottom, skin.top}); };
    const std::vector<Range> left = bareAt(at[i] + in);
    const std::vector<Range> right = bareAt(at[i + 1] - in);
    for (std::size_t k = 0; k < std::min(left.size(), right.size()); ++k) {
      const Range& a = left[k];
      const Range& b = right[k];
      // Edges are straight between two columns' ends: half as steep again beyond the places looked at.
      const double low = (b.low - a.low) / 2;
      const double high = (b.high - a.high) / 2;
      const auto goes_on = std::find_if(bare.begin(), bare.end(), [&](const Strip& before) {
        return std::abs(before.x1 - at[i]) < kLeastStrip && before.left.low == b.low && before.right.low == a.low &&
               before.left.high == b.high && before.right.high == a.high;
      });
      if (goes_on != bare.end()) {
        goes_on->x1 = at[i + 1];
      } else {
        bare.push_back({at[i], at[i + 1], {a.low - low, a.high - high}, {b.low + low, b.high + high}});
      }
    }
  }
  for (Strip& strip : bare) {
    strip.x0 += opening.left;
    strip.x1 += opening.left;
    for (Range* range : {&strip.left, &strip.right}) *range = {range->low + opening.sill, range->high + opening.sill};
  }
  return bare;
}

std::vector<Rect> weepholes(const job::Opening& opening, const plan::OpeningPlan& planned, const plan::WallSpec& wall,
                            const practice::CladdingRules& rules) {
  std::vector<Rect> holes;
  const plan::Piece* piece = pieceOf(planned.weather, plan::PieceKind::HeadFlashing);
  if (!plan::isBrick(wall.cladding) || piece == nullptr || !rules.weep_spacing_most) return holes;
  for (const Sheet* sheet : sheetsOf(planned.weather.skin, SheetKind::HeadFlashing)) {
    const plan::Rect box = plan::boxOf(*sheet);
    const double count = std::max(2.0, std::ceil((box.x1 - box.x0) / rules.weep_spacing_most->value));
    for (double i = 0.5; i < count; ++i) {
      const double x = box.x0 + (box.x1 - box.x0) * i / count;
      const double fold = plan::coversAt(*sheet, x).back().high - upstandOf(piece);
      holes.push_back(
          Rect{x, fold, x + plan::kBrickJoint, fold + plan::kBrickHeight}.moved(opening.left, opening.sill));
    }
  }
  return holes;
}

std::vector<Strip> battenCuts(const job::Opening& opening, const plan::OpeningPlan& planned) {
  const plan::Skin& skin = planned.weather.skin;
  std::vector<Strip> cuts = bareOf(SheetKind::Cladding, opening, skin);
  const Rect unit = unitOutside(opening, planned);
  const double clear = planned.unit.fin + kFinClear;
  const plan::HeadLine fin = plan::headLineOf(planned.unit).inset(-clear);
  const std::vector<Strip> round = stripsOf(fin.under(unit.moved(-unit.x0, -unit.z0).inset(-clear)), unit.x0, unit.z0);
  cuts.insert(cuts.end(), round.begin(), round.end());
  for (const Sheet& sheet : skin.sheets) {
    const plan::Rect box = plan::boxOf(sheet);
    // Where a flashing crosses the cavity it crosses the battens' line too.
    if (sheet.kind == SheetKind::SillFlashing)
      cuts.push_back(stripOf(Rect{box.x0, box.z0, box.x1, 0}.moved(opening.left, opening.sill)));
    if (sheet.kind != SheetKind::HeadFlashing) continue;
    const plan::Piece* piece = pieceOf(planned.weather, plan::PieceKind::HeadFlashing);
    // An upstand lies behind battens; what stands out under them is the fall with its stop ends.
    const double off = upstandOf(piece) - (piece != nullptr ? piece->stop_end : 0);
    for (Strip strip : stripsOf(sheet.outline, opening.left, opening.sill)) {
      strip.left.high -= off;
      strip.right.high -= off;
      cuts.push_back(strip);
    }
  }
  return cuts;
}

void addWeather(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned,
                const plan::WallSpec& wall, const practice::Practice& practice) {
  const bool follows = !plan::headLineOf(planned.unit).level();
  const double highest = follows ? edgeOver(opening, wall) : HUGE_VAL;
  const plan::Skin skin = follows ? levelled(planned.weather.skin, highest) : planned.weather.skin;
  WeatherStage stage{bench, opening, planned, skin, wall, practice, levelsOf(skin), highest};
  for (std::size_t i = 0; i < skin.sheets.size(); ++i) {
    const SheetKind kind = skin.sheets[i].kind;
    if (kind == SheetKind::SillFlashing) addSill(stage, i);
    if (kind == SheetKind::HeadFlashing) addHeadFlashing(stage, i);
    if (kind == SheetKind::FaceSeal) addFaceSeal(stage, skin.sheets[i]);
    const bool strip = kind == SheetKind::HeadFlap || kind == SheetKind::JambFlashing || kind == SheetKind::HeadTape;
    if (strip) addStrip(stage, i);
  }
  addSillBricks(stage);
  for (const plan::Piece& piece : planned.weather.pieces) {
    if (piece.kind == plan::PieceKind::CornerTape) addCornerTape(stage, piece);
  }
}

}  // namespace sillwright::scene
