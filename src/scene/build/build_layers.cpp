// The layers of a wall that are sheets and boards: lining, membrane, battens, cladding.
#include <cmath>

#include "plan/stand/place.h"
#include "scene/build/wall_parts.h"

namespace sillwright::scene {
namespace {

constexpr double kBattenWidth = 45.0;
constexpr double kBoardTaper = 0.6;     // thickness of a board's upper edge by that of its lower edge
constexpr double kSheetWidth = 1200.0;  // of cladding in sheets, stood on end. Common practice, no source.
constexpr double kLeastPiece = 5.0;     // narrower slips of batten are not nailed on

std::vector<Strip> holesOf(const WallStage& stage, std::vector<Strip> CutOut::*which) {
  std::vector<Strip> holes;
  for (const CutOut& cut : stage.cuts) holes.insert(holes.end(), (cut.*which).begin(), (cut.*which).end());
  return holes;
}

const plan::WallSpec& spec(const WallStage& stage) { return stage.planned->spec; }

/// The step that brings a layer; where the wall is finished it is there from the start.
PartStep stepOf(const WallStage& stage, plan::StepKind kind) {
  return stage.finished ? PartStep::FromTheStart : partStep(kind);
}

/// A layer's stretch along x, by how far it runs past an end of the frame: `past(end, the wall met there)`.
template <class Past>
Range stretch(const WallStage& stage, const Past& past) {
  const auto at = [&](std::size_t side) {
    return stage.other[side] != nullptr ? past(stage.ends[side], *stage.other[side]) : 0.0;
  };
  const double length = spec(stage).length;
  const Range range{-at(0), length + at(1)};
  return range.length() > 0 ? range : Range{0, length};  // a wall shorter than what its corners take
}

/// Whether an opening has no sill of timber under it.
bool isOnFloor(const plan::WallSpec& wall, const Rect& opening) {
  return opening.z0 < wall.stud.thickness * wall.plates.bottom + kSheet;
}

/// The four flaps folded from the sheet into the opening. The sheet was cut at 45° from the corners, so that each flap
/// narrows from the wall's face to its back edge; at the sill and head they lie outside the jambs'.
void addFlaps(const WallStage& stage, const CutOut& cut) {
  const plan::WallSpec& wall = spec(stage);
  const Rect& r = cut.framed;
  // Flaps from opposite sides of a small opening stop short of each other.
  const double deep = std::min({wall.stud.depth, r.width() / 2 - kSheet, r.height() / 2 - kSheet});
  if (deep <= kSheet) return;
  Bench bench = stage.bench;
  bench.opening = cut.opening;
  const Part fold{PartKind::MembraneFold, Material::Membrane, Layer::Membrane, partStep(plan::StepKind::Membrane)};
  const auto level = [&](double z0, double z1) {
    addPart(bench, fold, {r.width(), deep, kSheet});
    addSlab(bench, {{{r.x0, 0}, {r.x1, 0}, {r.x1 - deep, deep}, {r.x0 + deep, deep}}}, {z0, z1}, Grain::AlongX);
  };
  const std::size_t before = bench.scene->solids.size();
  const bool on_floor = isOnFloor(wall, r);  // no flap is folded over a sill there
  if (!on_floor) level(r.z0, r.z0 + kSheet);
  level(r.z1 - kSheet, r.z1);
  const double foot = on_floor ? r.z0 : r.z0 + kSheet;
  const double foot_back = on_floor ? r.z0 : foot + deep;
  const double head = r.z1 - kSheet;
  const auto upright = [&](double x0, double x1, double height) {
    if (height < 2 * deep) return;  // a triangle's corner
    addPart(bench, fold, {kSheet, deep, head - foot});
    addPrism(bench, quadOf({x0, x1}, {foot, head}), quadOf({x0, x1}, {foot_back, head - deep}), {0, deep},
             Grain::AlongZ);
  };
  upright(r.x0, r.x0 + kSheet, cut.head.left());
  upright(r.x1 - kSheet, r.x1, cut.head.right());
  followHead(bench, before, cut.head, {r.x0, r.z0});
}

/// Timber that closes the cavity round an opening where the practice asks for it; a door stands on the floor.
void addClosers(const WallStage& stage, const CutOut& cut) {
  const plan::WallSpec& wall = spec(stage);
  const practice::Rule least = plan::cavityCloser(wall, *stage.practice);
  const Range y{-wall.cladding.cavity, -kFinBack - kFinThickness};
  if (!least || !cut.flashed || y.length() <= 0) return;  // no rule, an old opening, or no room
  Bench bench = stage.bench;
  bench.opening = cut.opening;
  const Rect& r = cut.framed;
  const std::size_t before = bench.scene->solids.size();
  const std::array<Quad, 4> ring = buttedRing(r.inset(-least->value), r, true);
  for (std::size_t i = isOnFloor(wall, r) ? 1 : 0; i < ring.size(); ++i) {  // 0: the sill
    const bool level = i % 2 == 0;
    addPart(bench, {PartKind::CavityCloser, Material::Batten, Layer::Battens, stepOf(stage, plan::StepKind::Cladding)},
            {level ? r.width() : r.height() + 2 * least->value, y.length(), least->value});
    addPrism(bench, ring[i], y, level ? Grain::AlongX : Grain::AlongZ);
  }
  followHead(bench, before, cut.head, {r.x0, r.z0});
}

/// The part of a strip between two of its x.
Strip part(const Strip& strip, double x0, double x1) {
  Strip cut = strip;
  cut.x0 = x0;
  cut.x1 = x1;
  cut.left = strip.at(x0);
  cut.right = strip.at(x1);
  if (x0 > strip.x0) cut.edges &= static_cast<std::uint16_t>(~kLeftFace);
  if (x1 < strip.x1) cut.edges &= static_cast<std::uint16_t>(~kRightFace);
  return cut;
}

/// Adds a strip of a board; over a fin its back makes room for it.
void addRebated(const Bench& bench, const Strip& strip, const Face& front, const Face& back,
                const std::vector<Rect>& fins) {
  constexpr double kLeast = 0.1;  // thinner slivers are not cut off
  double x = strip.x0;
  for (const Rect& fin : fins) {  // left to right
    if (fin.width() <= kLeast || fin.z0 >= strip.highest() || fin.z1 <= strip.lowest())
      continue;  // a unit may be as narrow as that
    if (fin.x1 <= x + kLeast || std::max(fin.x0, x) >= strip.x1 - kLeast) continue;
    const double from = std::max(fin.x0, x);
    const double to = fin.x1 >= strip.x1 - kLeast ? strip.x1 : fin.x1;
    if (from > x + kLeast) addStrip(bench, part(strip, x, from), front, back, Grain::AlongX);
    const Face over{std::min(back.at, -kFinBack - kFinThickness - 0.1), 0};  // 0.1 clear of the fin
    addStrip(bench, part(strip, from > x + kLeast ? from : x, to), front, over, Grain::AlongX);
    x = to;
  }
  if (x < strip.x1) addStrip(bench, part(strip, x, strip.x1), front, back, Grain::AlongX);
}

/// Adds an area as one part a piece: a new part begins where the area is cut right through.
void addPieces(const Bench& bench, const Part& what, const std::vector<Strip>& pieces, const Face& front,
               const Face& back, const glm::dvec3& size, const std::vector<Rect>& fins) {
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (!pieces[i].joined) {
      std::size_t last = i;
      while (last + 1 < pieces.size() && pieces[last + 1].joined) ++last;
      addPart(bench, what, {pieces[last].x1 - pieces[i].x0, size.y, size.z});
    }
    addRebated(bench, pieces[i], front, back, fins);
  }
}

/// Strips cut into pieces of one length, from `from` on: bricks, sheets. Every end is inked.
std::vector<Strip> cutToLength(const std::vector<Strip>& whole, double from, double length) {
  constexpr double kLeast = 1.0;
  std::vector<Strip> cut;
  for (const Strip& strip : whole) {
    double x = strip.x0;
    while (x < strip.x1) {
      // The first end past x of those a whole number of lengths from `from`; a sliver goes to the piece before it.
      const double next = from + length * (std::floor((x - from + kLeast) / length) + 1);
      const double end = next > strip.x1 - kLeast ? strip.x1 : next;
      Strip piece = part(strip, x, end);
      if (x > strip.x0) piece.edges |= kLeftFace;
      if (end < strip.x1) piece.edges |= kRightFace;
      piece.joined = strip.joined || x > strip.x0;
      cut.push_back(piece);
      x = end;
    }
  }
  return cut;
}

/// What cladding is made of: rows of so much cover, each of a part `high`, cut to a length.
struct Rows {
  Part what;
  double cover = 0;
  double high = 0;
  double taper = 0;   ///< By which the upper edge is thinner.
  double length = 0;  ///< Of a piece along the wall; 0: as long as the wall.
  double recess = 0;  ///< Of the face behind the cladding's.
  double bond = 0;    ///< By which every other row is moved.
};

void addRows(const WallStage& stage, const Rows& rows, double from, const std::vector<Strip>& holes,
             const std::vector<Rect>& rebates) {
  const CladdingDepth depth = claddingDepth(spec(stage));
  const Range x = stretch(stage, [](const WallEnd& end, const plan::WallSpec& other) {
    return outsideEnd(end, claddingDepth(other).back, claddingDepth(other).front);
  });
  const double top = highest(stage.top);
  const double lean = rows.taper / rows.cover;
  std::vector<Strip> near;
  bool odd = false;
  for (double foot = from; foot < top; foot += rows.cover, odd = !odd) {
    const Line edge = cappedLine(stage.top, x.low, x.high, foot + rows.high);
    near.clear();
    std::copy_if(holes.begin(), holes.end(), std::back_inserter(near),
                 [&](const Strip& hole) { return hole.highest() > foot && hole.lowest() < foot + rows.high; });
    std::vector<Strip> row = strips(edge, foot, near);
    if (rows.length > 0) row = cutToLength(row, x.low + (odd ? rows.bond : 0), rows.length);
    addPieces(stage.bench, rows.what, row, {-depth.front + rows.recess - lean * foot, lean}, {-depth.back, 0},
              {0, spec(stage).cladding.thickness, rows.high}, rebates);
  }
}

/// The rows of each kind of cladding, the last of them filling what the others leave.
std::vector<Rows> rowsOf(const WallStage& stage) {
  const job::Cladding& cladding = spec(stage).cladding;
  const double whole = highest(stage.top) + plan::kSkirt;
  const auto rows = [&](PartKind kind, Material material, double cover, double high, double length = 0) {
    const Part what{kind, material, Layer::Cladding, stepOf(stage, plan::StepKind::Cladding)};
    return Rows{.what = what, .cover = cover, .high = high, .length = length};
  };
  const job::CladdingKind kind = plan::kindOf(cladding);
  if (kind == job::CladdingKind::Render) return {rows(PartKind::Render, Material::Mortar, whole, whole)};
  if (kind == job::CladdingKind::Sheet)
    return {rows(PartKind::CladdingSheet, Material::Cladding, whole, whole, kSheetWidth)};
  if (kind == job::CladdingKind::BrickVeneer) {
    const practice::CladdingRules& rules = stage.practice->weather.cladding;
    const double high = rules.brick_height ? rules.brick_height->value : plan::kBrickHeight;
    const double length = (rules.brick_length ? rules.brick_length->value : plan::kBrickLength) + plan::kBrickJoint;
    const double course = high + plan::kBrickJoint;
    Rows bricks = rows(PartKind::BrickCourse, Material::Brick, course, high, length);
    bricks.bond = length / 2;  // stretcher bond
    Rows beds = rows(PartKind::MortarBed, Material::Mortar, course, plan::kBrickJoint);
    beds.recess = std::min(5.0, cladding.thickness / 4);
    return {bricks, beds};
  }
  const CladdingDepth depth = claddingDepth(spec(stage));
  Rows boards = rows(PartKind::CladdingBoard, Material::Cladding, kBoardCover, kBoardCover);
  boards.taper = std::min(cladding.thickness * (1 - kBoardTaper), depth.front - depth.back - kSheet);
  return {boards};
}

}  // namespace

CladdingDepth claddingDepth(const plan::WallSpec& wall) {
  // Fixed direct, the boards' backs make room for membrane and flashings; very thin sheets keep most of their
  // thickness.
  const double room = std::min(kFinBack, 0.45 * wall.cladding.thickness);
  return {std::max(wall.cladding.cavity, room), wall.cladding.cavity + wall.cladding.thickness};
}

Rect unitOutside(const job::Opening& opening, const plan::OpeningPlan& planned) {
  const Rect unit{0, 0, planned.unit.width, planned.unit.height};
  return unit.moved(opening.left + planned.stand.x, opening.sill + planned.stand.z);
}

void addLining(const WallStage& stage) {
  const plan::WallSpec& wall = spec(stage);
  if (wall.lining <= 0) return;
  const Range x = stretch(stage, liningEnd);
  const double top = highest(stage.top);
  const std::vector<Strip> sheet =
      strips(cappedLine(stage.top, x.low, x.high, top), 0.0, holesOf(stage, &CutOut::lining));
  if (sheet.empty()) return;
  addPart(stage.bench, {PartKind::Lining, Material::Lining, Layer::Lining, stepOf(stage, plan::StepKind::Cladding)},
          {x.length(), wall.lining, top});
  for (const Strip& strip : sheet) {
    addStrip(stage.bench, strip, {wall.frameDepth(), 0}, {wall.depth(), 0}, Grain::AlongX);
    if (stage.wall->isInside()) addStrip(stage.bench, strip, {-wall.lining, 0}, {0, 0}, Grain::AlongX);  // both sides
  }
}

void addMembrane(const WallStage& stage) {
  const Range x = stretch(stage, [](const WallEnd& end, const auto&) { return outsideEnd(end, 0.0, kMembraneFace); });
  const double top = highest(stage.top);
  const std::vector<Strip> holes = holesOf(stage, &CutOut::membrane);
  const double lap = std::clamp(stage.practice->weather.membrane.lap.usual.value, 0.0, plan::kMostRunLap);
  const double cover = plan::kMembraneRun - lap;  // of a run, as far as the one above it
  for (double foot = -plan::kSkirt; foot < top; foot += cover) {
    const Line edge = cappedLine(stage.top, x.low, x.high, foot + plan::kMembraneRun);
    const std::vector<Strip> run = strips(edge, foot, holes);
    if (run.empty()) continue;
    addPart(stage.bench,
            {PartKind::Membrane, Material::Membrane, Layer::Membrane, stepOf(stage, plan::StepKind::Membrane)},
            {x.length(), kSheet, highest(edge) - foot});
    // A run leans out at its foot just so far that it lies on the one below it over the whole lap.
    const double lean = kSheet / cover;
    const Face back{-lean * (plan::kMembraneRun + foot), lean};
    const Face front{back.at - kSheet, lean};
    for (const Strip& strip : run) addStrip(stage.bench, strip, front, back, Grain::AlongX);
  }
  for (const CutOut& cut : stage.cuts) {
    if (cut.flashed) addFlaps(stage, cut);
  }
}

void addCladding(const WallStage& stage) {
  const plan::WallSpec& wall = spec(stage);
  if (wall.cladding.thickness <= 0) return;
  const std::vector<Strip> holes = holesOf(stage, &CutOut::clad);
  std::vector<Rect> rebates;
  if (plan::boardsCoverFin(wall.cladding)) {
    for (const CutOut& cut : stage.cuts) rebates.push_back(cut.fin);
  }
  double from = -plan::kSkirt;
  for (const Rows& rows : rowsOf(stage)) {
    addRows(stage, rows, from, holes, rebates);
    from += rows.high;
  }
}

void addBattens(const WallStage& stage) {
  const plan::WallSpec& wall = spec(stage);
  for (const CutOut& cut : stage.cuts) addClosers(stage, cut);
  if (wall.cladding.cavity <= kFinBack || plan::isBrick(wall.cladding)) return;
  const std::vector<Strip> holes = holesOf(stage, &CutOut::battens);
  std::vector<Strip> near;
  for (const plan::Member& member : stage.planned->frame.members) {
    // On every stud but a bearing stud, which stands against a jamb stud that has one.
    const bool below = member.part == plan::MemberPart::JackStudBelow;
    const bool above = member.part == plan::MemberPart::JackStudAbove;
    const bool full = member.part == plan::MemberPart::CommonStud || member.part == plan::MemberPart::JambStud;
    if (!below && !above && !full) continue;
    const double middle = (member.corner[0].x + member.corner[1].x) / 2;
    const double half = std::min(kBattenWidth, member.width) / 2;
    const double foot = above ? std::max(member.corner[0].z, member.corner[1].z) : -plan::kSkirt;
    const double head = below ? std::min(member.corner[2].z, member.corner[3].z) : highest(stage.top);
    if (half <= 0 || head <= foot) continue;
    near.clear();
    std::copy_if(holes.begin(), holes.end(), std::back_inserter(near),
                 [&](const Strip& hole) { return hole.x1 > middle - half && hole.x0 < middle + half; });
    for (const Strip& strip : strips(cappedLine(stage.top, middle - half, middle + half, head), foot, near)) {
      if (strip.x1 - strip.x0 < kLeastPiece) continue;
      addPart(stage.bench,
              {PartKind::Batten, Material::Batten, Layer::Battens, stepOf(stage, plan::StepKind::Cladding)},
              {strip.left.length(), wall.cladding.cavity, strip.x1 - strip.x0});
      addStrip(stage.bench, strip, {-wall.cladding.cavity, 0}, {-kFinBack, 0}, Grain::AlongZ);
    }
  }
}

}  // namespace sillwright::scene
