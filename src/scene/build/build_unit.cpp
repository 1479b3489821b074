// One unit's parts, from the outside in: fin, reveal, frame, then what its kind fills the frame with.
#include <algorithm>
#include <utility>

#include "scene/build/unit_parts.h"

namespace sillwright::scene {
namespace {

constexpr double kProud = 35.0;     // the aluminium frame's outside face before the studs
constexpr double kSashFace = 40.0;  // usual sections where the job gives none: common practice, no source
constexpr double kSashDepth = 30.0;
constexpr double kTrackGap = 4.0;       // between the two tracks of a sliding unit
constexpr double kLeafClearance = 3.0;  // round a hung sash or leaf
constexpr double kLeafDepth = 40.0;
constexpr double kStileFace = 90.0;  // of a hinged door's leaf
constexpr double kBottomRail = 200.0;
constexpr double kBead = 12.0;
constexpr double kSpacer = 12.0;          // between two panes
constexpr double kHandleHeight = 1000.0;  // of a door's lever above the unit's foot
constexpr double kHingeFromEnd = 180.0;
constexpr int kMostPanes = 4;  // more are drawn as so many

constexpr PartSpec unitPart(PartKind kind, Material material) {
  return {kind, material, Layer::Unit, partStep(plan::StepKind::LiftIn)};
}

/// A unit being put together.
struct UnitStage {
  Bench bench;
  const plan::UnitSpec* unit = nullptr;
  MeshShelf* shelf = nullptr;
  Rect outside;  // of the whole unit
  Rect frame;    // outside of the aluminium frame
  Rect clear;    // inside of the aluminium frame
  Range y;       // of the aluminium frame, through the wall

  [[nodiscard]] bool hungLeft() const { return unit->hand == job::Hand::Left; }
};

/// A face that leaves at least three fifths of the rectangle clear.
double faceWithin(double face, const Rect& rect) {
  return std::min(face, 0.2 * std::min(rect.width(), rect.height()));
}

/// Adds a ring of four members, one part each: sill, right, head, left.
void addRing(const Bench& bench, const std::array<Quad, 4>& ring, const Range& y, const std::array<PartSpec, 4>& what) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Rect box{std::min(ring[i][0].x, ring[i][3].x), std::min(ring[i][0].y, ring[i][1].y),
                   std::max(ring[i][1].x, ring[i][2].x), std::max(ring[i][2].y, ring[i][3].y)};
    const bool level = i % 2 == 0;
    const double length = level ? box.width() : box.height();
    addPart(bench, what[i], {length, y.length(), level ? box.height() : box.width()});
    addPrism(bench, ring[i], y, level ? Grain::AlongX : Grain::AlongZ);
  }
}

void addReveal(const UnitStage& stage) {
  if (!stage.unit->reveal || stage.unit->reveal->depth <= 0 || stage.unit->reveal->thickness <= 0) return;
  const PartSpec side = unitPart(PartKind::RevealSide, Material::RevealTimber);
  addRing(stage.bench, buttedRing(stage.outside, stage.frame, false), {0, stage.unit->reveal->depth},
          {unitPart(PartKind::RevealSill, Material::RevealTimber), side,
           unitPart(PartKind::RevealHead, Material::RevealTimber), side});
}

void addFrame(const UnitStage& stage) {
  const PartSpec jamb = unitPart(PartKind::FrameJamb, Material::Aluminium);
  addRing(stage.bench, mitredRing(stage.frame, stage.clear), stage.y,
          {unitPart(PartKind::FrameSill, Material::Aluminium), jamb, unitPart(PartKind::FrameHead, Material::Aluminium),
           jamb});
}

void addFin(const UnitStage& stage) {
  const double fin = stage.unit->fin;
  if (fin <= 0) return;
  const Rect outer = stage.outside.inset(-fin);
  addPart(stage.bench, unitPart(PartKind::Fin, Material::Aluminium), {outer.width(), kFinThickness, outer.height()});
  const std::array<Quad, 4> ring = mitredRing(outer, stage.frame);
  for (std::size_t i = 0; i < ring.size(); ++i) {
    addPrism(stage.bench, ring[i], {-kFinBack - kFinThickness, -kFinBack}, i % 2 == 0 ? Grain::AlongX : Grain::AlongZ);
  }
}

/// Panes side by side in the middle of `y`, with the space between them that there is room for.
void addGlass(const UnitStage& stage, const Rect& rect, const Range& y) {
  const int panes = std::clamp(stage.unit->glass.panes, 0, kMostPanes);
  if (panes == 0 || stage.unit->glass.thickness <= 0) return;
  const double thickness = std::min(stage.unit->glass.thickness, y.length() / panes);
  const double room = panes > 1 ? (y.length() - panes * thickness) / (panes - 1) : 0.0;
  const double step = thickness + std::min(kSpacer, room);
  double front = y.middle() - (step * (panes - 1) + thickness) / 2;
  for (int i = 0; i < panes; ++i, front += step) {
    addPart(stage.bench, unitPart(PartKind::GlassPane, Material::Glass),
            {rect.width(), stage.unit->glass.thickness, rect.height()});
    addBox(stage.bench, {rect.x0, rect.x1}, {front, front + thickness}, {rect.z0, rect.z1}, Grain::AlongX);
  }
}

/// Stiles and rails round a piece of glass. The rails are butted between the stiles where the bottom rail is deeper.
void addSash(const UnitStage& stage, const Rect& outer, const Range& y, double face, double bottom_rail) {
  const double all = faceWithin(face, outer);
  const double bottom = std::min(bottom_rail, outer.height() / 3);
  Rect inner = outer.inset(all);
  const bool alike = bottom <= all;
  if (!alike) inner.z0 = outer.z0 + bottom;
  const PartSpec rail = unitPart(PartKind::SashRail, Material::Aluminium);
  const PartSpec stile = unitPart(PartKind::SashStile, Material::Aluminium);
  addRing(stage.bench, alike ? mitredRing(outer, inner) : buttedRing(outer, inner, true), y,
          {rail, stile, rail, stile});
  addGlass(stage, inner, y);
}

/// Turns of half a circle that put a mesh made for an inside face, its lever to the right, where it is wanted.
enum class Facing { Inside, InsideTurned, Outside, OutsideTurned };

glm::mat4 turnOf(Facing facing) {
  const auto diagonal = [](float x, float y, float z) {
    glm::mat4 m{1.0F};
    m[0][0] = x;
    m[1][1] = y;
    m[2][2] = z;
    return m;
  };
  switch (facing) {
    case Facing::Inside:
      return glm::mat4{1.0F};
    case Facing::InsideTurned:
      return diagonal(-1, 1, -1);
    case Facing::Outside:
      return diagonal(1, -1, -1);
    case Facing::OutsideTurned:
      return diagonal(-1, -1, 1);
  }
  return glm::mat4{1.0F};
}

/// A mesh of the program's own; left out where the library hasn't got it.
void addHardware(const UnitStage& stage, PartKind kind, const char* mesh, const glm::dvec3& at, Facing facing) {
  Scene& scene = *stage.bench.scene;
  const std::optional<std::uint32_t> index = useMesh(scene, *stage.shelf, mesh);
  if (!index) return;
  const Box box = boundsOf(scene.meshes[*index]);
  const std::uint32_t part =
      addPart(stage.bench, unitPart(kind, Material::Aluminium), glm::dvec3(box.high) - glm::dvec3(box.low));
  scene.uses.push_back({*index, part, glm::mat4x3(stage.bench.place(at) * turnOf(facing))});
}

/// Two sashes in two tracks. The one on the hand's side slides, and runs in the inner track.
void fillSliding(const UnitStage& stage) {
  const double depth = std::min(kSashDepth, 0.4 * std::max(stage.y.length() - kTrackGap, 0.0));
  const double front = stage.y.middle() - depth - kTrackGap / 2;
  const Range outer_track{front, front + depth};
  const Range inner_track{front + depth + kTrackGap, front + 2 * depth + kTrackGap};
  const Rect& clear = stage.clear;
  const double face = faceWithin(kSashFace, {0, 0, clear.width() / 2, clear.height()});
  const double width = (clear.width() + face) / 2;
  const Rect left{clear.x0, clear.z0, clear.x0 + width, clear.z1};
  const Rect right{clear.x1 - width, clear.z0, clear.x1, clear.z1};
  const bool slides_left = stage.hungLeft();
  addSash(stage, left, slides_left ? inner_track : outer_track, face, face);
  addSash(stage, right, slides_left ? outer_track : inner_track, face, face);
  const double x = slides_left ? left.x0 + face / 2 : right.x1 - face / 2;
  const double z = stage.unit->isDoor() ? std::min(stage.outside.z0 + kHandleHeight, (clear.z0 + clear.z1) / 2)
                                        : (clear.z0 + clear.z1) / 2;
  addHardware(stage, PartKind::Handle, kCatchMesh, {x, inner_track.high, z}, Facing::Inside);
}

void fillFixed(const UnitStage& stage) {
  const double bead = faceWithin(kBead, stage.clear);
  const double deep = std::min(kBead, 0.2 * stage.y.length());
  const double middle = stage.y.middle();
  const double glazing = std::min(
      stage.unit->glass.thickness * stage.unit->glass.panes + kSpacer * std::max(stage.unit->glass.panes - 1, 0),
      0.5 * stage.y.length());
  const Range glass{middle - glazing / 2, middle + glazing / 2};
  addGlass(stage, stage.clear, glass);
  const PartSpec what = unitPart(PartKind::Bead, Material::Aluminium);
  const std::array<Quad, 4> ring = mitredRing(stage.clear, stage.clear.inset(bead));
  addRing(stage.bench, ring, {glass.low - deep, glass.low}, {what, what, what, what});
  addRing(stage.bench, ring, {glass.high, glass.high + deep}, {what, what, what, what});
}

/// A sash hung in the frame, flush with its outside face and opening outwards.
Rect fillHung(const UnitStage& stage) {
  const double clearance = faceWithin(kLeafClearance, stage.clear);
  const Rect sash = stage.clear.inset(clearance);
  const double depth = std::min(kLeafDepth, 0.8 * stage.y.length());
  addSash(stage, sash, {stage.y.low, stage.y.low + depth}, kSashFace, 0);
  return sash;
}

void fillAwning(const UnitStage& stage) {
  const Rect sash = fillHung(stage);
  const double depth = std::min(kLeafDepth, 0.8 * stage.y.length());
  addHardware(stage, PartKind::Handle, kCatchMesh,
              {(sash.x0 + sash.x1) / 2, stage.y.low + depth, sash.z0 + faceWithin(kSashFace, sash) / 2},
              Facing::Inside);
}

/// Hinges evenly up the hung side, the ends a hand's breadth from the corners.
void addHinges(const UnitStage& stage, const Rect& leaf, double x, double y, int count, Facing facing) {
  const double from_end = std::min(kHingeFromEnd, leaf.height() / 4);
  const double step = (leaf.height() - 2 * from_end) / (count - 1);
  for (int i = 0; i < count; ++i) {
    addHardware(stage, PartKind::Hinge, kHingeMesh, {x, y, leaf.z0 + from_end + i * step}, facing);
  }
}

void fillCasement(const UnitStage& stage) {
  const Rect sash = fillHung(stage);
  const double gap = sash.x0 - stage.clear.x0;
  const double stile = faceWithin(kSashFace, sash) / 2;
  const double depth = std::min(kLeafDepth, 0.8 * stage.y.length());
  const double hinge = stage.hungLeft() ? sash.x0 - gap / 2 : sash.x1 + gap / 2;
  addHinges(stage, sash, hinge, stage.y.low, 2, Facing::Outside);
  const double catch_x = stage.hungLeft() ? sash.x1 - stile : sash.x0 + stile;
  addHardware(stage, PartKind::Handle, kCatchMesh, {catch_x, stage.y.low + depth, (sash.z0 + sash.z1) / 2},
              Facing::Inside);
}

/// A leaf flush with the frame's inside face, opening inwards; a lever on both faces pointing to the hinges.
void fillHingedDoor(const UnitStage& stage) {
  const double clearance = faceWithin(kLeafClearance, stage.clear);
  const Rect leaf = stage.clear.inset(clearance);
  const double depth = std::min(kLeafDepth, 0.8 * stage.y.length());
  const Range y{stage.y.high - depth, stage.y.high};
  addSash(stage, leaf, y, kStileFace, kBottomRail);
  const bool left = stage.hungLeft();
  addHinges(stage, leaf, left ? leaf.x0 - clearance / 2 : leaf.x1 + clearance / 2, y.high, 3, Facing::Inside);
  const double stile = faceWithin(kStileFace, leaf) / 2;
  const double x = left ? leaf.x1 - stile : leaf.x0 + stile;
  const double z = std::min(stage.outside.z0 + kHandleHeight, (leaf.z0 + leaf.z1) / 2);
  addHardware(stage, PartKind::Handle, kHandleMesh, {x, y.high, z}, left ? Facing::InsideTurned : Facing::Inside);
  addHardware(stage, PartKind::Handle, kHandleMesh, {x, y.low, z}, left ? Facing::OutsideTurned : Facing::Outside);
}

/// A ramp before a door's frame, its top falling outwards.
void addThreshold(const UnitStage& stage) {
  constexpr double kReach = 60.0, kBackHeight = 20.0, kFrontHeight = 8.0;
  const Rect& frame = stage.frame;
  const double out = stage.y.low - kReach;
  const double foot = frame.z0;
  addPart(stage.bench, unitPart(PartKind::Threshold, Material::Aluminium), {frame.width(), kReach, kBackHeight});
  std::array<glm::dvec3, 8> corner;
  for (std::size_t i = 0; i < corner.size(); ++i) {
    const bool back = (i & 2U) != 0;
    const double top = foot + (back ? kBackHeight : kFrontHeight);
    corner[i] = {(i & 1U) != 0 ? frame.x1 : frame.x0, back ? stage.y.low : out, (i & 4U) != 0 ? top : foot};
  }
  addSolid(stage.bench, corner, Grain::AlongX, kAllEdges);
}

void fill(const UnitStage& stage) {
  switch (stage.unit->kind) {
    case job::UnitKind::SlidingWindow:
    case job::UnitKind::SlidingDoor:
      fillSliding(stage);
      break;
    case job::UnitKind::AwningWindow:
      fillAwning(stage);
      break;
    case job::UnitKind::CasementWindow:
      fillCasement(stage);
      break;
    case job::UnitKind::FixedWindow:
      fillFixed(stage);
      break;
    case job::UnitKind::HingedDoor:
      fillHingedDoor(stage);
      break;
  }
  if (stage.unit->isDoor()) addThreshold(stage);
}

/// A mesh of the job's own, in wall axes and millimetres, with its low corner at the unit's lower left outside corner.
bool addUnitMesh(const UnitStage& stage, const std::string& key) {
  Scene& scene = *stage.bench.scene;
  const std::optional<std::uint32_t> index = useMesh(scene, *stage.shelf, key);
  if (!index) return false;
  const Box box = boundsOf(scene.meshes[*index]);
  const std::uint32_t part = addPart(stage.bench, unitPart(PartKind::UnitMesh, Material::Aluminium),
                                     glm::dvec3(box.high) - glm::dvec3(box.low));
  const glm::dvec3 at = glm::dvec3{stage.outside.x0, stage.y.low, stage.outside.z0} - glm::dvec3(box.low);
  scene.uses.push_back({*index, part, glm::mat4x3(stage.bench.place(at))});
  return true;
}

}  // namespace

std::optional<std::uint32_t> useMesh(Scene& scene, MeshShelf& shelf, std::string_view key) {
  const auto ask = [&](std::uint32_t index) {
    if (std::find(shelf.asked.begin(), shelf.asked.end(), index) == shelf.asked.end()) shelf.asked.push_back(index);
    return index;
  };
  if (const auto known = shelf.index.find(key); known != shelf.index.end()) return ask(known->second);
  if (shelf.library == nullptr) return std::nullopt;
  const auto found = shelf.library->mesh.find(key);
  if (found == shelf.library->mesh.end() || found->second.corner.empty()) return std::nullopt;
  const auto index = static_cast<std::uint32_t>(scene.meshes.size());
  scene.meshes.push_back(found->second);
  shelf.index.emplace(key, index);
  return ask(index);
}

void addUnit(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned, MeshShelf& shelf) {
  UnitStage stage;
  stage.bench = bench;
  stage.unit = &planned.unit;
  stage.shelf = &shelf;
  stage.outside = unitOutside(opening, planned);
  const double box = planned.unit.reveal ? planned.unit.reveal->thickness : 0.0;
  stage.frame = stage.outside.inset(faceWithin(box, stage.outside));
  stage.clear = stage.frame.inset(faceWithin(planned.unit.frame.face, stage.frame));
  stage.y = {-kProud, -kProud + planned.unit.frame.depth};
  if (stage.clear.width() <= 1 || stage.clear.height() <= 1 || stage.y.length() <= 1) return;
  addFin(stage);
  if (opening.unit.mesh && addUnitMesh(stage, *opening.unit.mesh)) return;
  addReveal(stage);
  addFrame(stage);
  fill(stage);
}

void addPackers(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned) {
  constexpr double kAlong = 45.0;    // along the side
  constexpr double kThrough = 75.0;  // through the wall. Both from memory: the usual plate is 75 × 32 and more.
  const Rect unit = unitOutside(opening, planned);
  const double deep = planned.unit.reveal ? planned.unit.reveal->depth : planned.unit.frame.depth - kProud;
  if (deep <= 1) return;
  const double front = std::max((deep - kThrough) / 2, 0.0);
  const Range y{front, std::min(front + kThrough, deep)};
  // A layer of the stack from `from` to `to`, both measured from the framing towards the unit.
  const auto add = [&](const plan::PackingPoint& point, double from, double to, Material material, PartStep step) {
    const double along =
        point.side == plan::Side::Sill || point.side == plan::Side::Head ? unit.x0 + point.at : unit.z0 + point.at;
    const Range side{along - kAlong / 2, along + kAlong / 2};
    Range out;
    switch (point.side) {
      case plan::Side::Sill:
        out = {unit.z0 - point.gap + from, unit.z0 - point.gap + to};
        break;
      case plan::Side::Left:
        out = {unit.x0 - point.gap + from, unit.x0 - point.gap + to};
        break;
      case plan::Side::Right:
        out = {unit.x1 + point.gap - to, unit.x1 + point.gap - from};
        break;
      case plan::Side::Head:
        out = {unit.z1 + point.gap - to, unit.z1 + point.gap - from};
        break;
    }
    const bool level = point.side == plan::Side::Sill || point.side == plan::Side::Head;
    addPart(bench, {PartKind::Packer, material, Layer::Packing, step}, {kAlong, y.length(), to - from});
    addBox(bench, level ? side : out, y, level ? out : side, level ? Grain::AlongX : Grain::AlongZ);
  };
  for (const plan::PackingPoint& point : planned.packing.points) {
    const bool first = point.side == planned.packing.first_jamb;
    const PartStep step = point.side == plan::Side::Sill ? partStep(plan::StepKind::PackSill)
                          : first                        ? partStep(plan::StepKind::FirstJamb)
                                                         : partStep(plan::StepKind::FixOtherJamb);
    double from = 0;
    if (point.backing > 0) {
      add(point, 0, point.backing, Material::Pine, step);
      from = point.backing;
    }
    for (int i = 0; i < std::min(point.stack.pieces, static_cast<int>(plan::kMostPieces)); ++i) {
      const double thick = static_cast<double>(point.stack.piece[static_cast<std::size_t>(i)]);
      add(point, from, from + thick, Material::Packer, step);
      from += thick;
    }
  }
}

}  // namespace sillwright::scene
