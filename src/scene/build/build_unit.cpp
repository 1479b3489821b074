// One unit's parts, from the outside in: fin, reveal, frame, then what its kind fills the frame with.

#include "plan/stand/place.h"
#include "scene/build/unit_places.h"
#include "scene/build/wall_parts.h"

namespace sillwright::scene {
namespace {

constexpr double kTrackGap = 4.0;  // between the two tracks of a sliding unit
constexpr double kBead = 12.0;
constexpr double kSpacer = 12.0;          // between two panes
constexpr double kHandleHeight = 1000.0;  // of a door's lever above the unit's foot
constexpr double kHingeFromEnd = 180.0;
constexpr double kHingeOff = 1.5;    // from the leaf's edge, in the gap to the frame
constexpr double kSashCatch = 20.0;  // below the meeting rail's top
constexpr double kBladeLap = 15.0;   // of one louvre blade over the next
constexpr int kMostPanes = 4;        // more are drawn as so many

constexpr Part unitPart(PartKind kind, Material material, plan::StepKind step = plan::StepKind::LiftIn) {
  return {kind, material, Layer::Unit, partStep(step)};
}

/// A unit being put together. Places along the wall and up are from its lower left outside corner.
struct UnitStage {
  Bench bench;
  const plan::UnitSpec* unit = nullptr;
  const MeshLibrary* library = nullptr;
  Rect outside;  // of the whole unit, from (0, 0)
  plan::UnitParts parts;
  Range y;                                        // of the aluminium frame, through the wall
  plan::StepKind panel = plan::StepKind::LiftIn;  // brings the panel or leaf that opens

  /// Whether the head follows the roof.
  [[nodiscard]] bool follows() const { return !parts.head.level(); }
  /// From the unit's outside to its frame's, and to the frame's inside.
  [[nodiscard]] double toFrame() const { return parts.frame.x0; }
  [[nodiscard]] double toClear() const { return parts.clear.x0; }
  [[nodiscard]] const Rect& paneOf(const plan::Sash& sash) const { return parts.pane[sash.pane]; }
};

/// The parts that a ring's lengths become.
struct RingParts {
  Part sill, jamb, head;
};

/// Adds a ring of lengths between two outlines of as many corners, mitred, one part each.
void addRing(const Bench& bench, const std::vector<plan::Point>& outer, const std::vector<plan::Point>& inner,
             const Range& y, const RingParts& what) {
  if (outer.size() != inner.size()) return;  // the inset has lost a corner: there is no ring
  for (std::size_t i = 0; i < outer.size(); ++i) {
    const std::size_t next = (i + 1) % outer.size();
    const auto at = [](const plan::Point& p) { return glm::dvec2{p.x, p.z}; };
    const glm::dvec2 a = at(outer[i]), b = at(outer[next]), in_a = at(inner[i]), in_b = at(inner[next]);
    const bool sill = i == 0;
    const bool upright = std::abs(a.x - b.x) < 1e-6;
    // Each walked as Quad has it, from its own lower left corner: the outline goes round, so the sides differ.
    const Quad quad = sill        ? Quad{a, b, in_b, in_a}
                      : !upright  ? Quad{in_b, in_a, a, b}
                      : b.y > a.y ? Quad{in_a, a, b, in_b}
                                  : Quad{b, in_b, in_a, a};
    const double length = glm::distance(a, b);
    const glm::dvec2 way = (b - a) / length;
    const double face = std::abs(way.x * (in_a.y - a.y) - way.y * (in_a.x - a.x));  // square to its length
    addPart(bench, sill ? what.sill : upright ? what.jamb : what.head, {length, y.length(), face});
    addPrism(bench, quad, y, upright ? Grain::AlongZ : Grain::AlongX);
  }
}

/// The same of a rectangle, given as four prisms: sill, right, head, left.
void addRing(const Bench& bench, const std::array<Quad, 4>& ring, const Range& y, const std::array<Part, 4>& what) {
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
  const Part sill = unitPart(PartKind::RevealSill, Material::RevealTimber);
  const Part side = unitPart(PartKind::RevealSide, Material::RevealTimber);
  const Part head = unitPart(PartKind::RevealHead, Material::RevealTimber);
  const Range y{0, stage.unit->reveal->depth};
  if (stage.follows()) {
    return addRing(stage.bench, stage.parts.within(stage.outside, 0),
                   stage.parts.within(stage.parts.in_reveal, stage.toFrame()), y, {sill, side, head});
  }
  addRing(stage.bench, buttedRing(stage.outside, stage.parts.in_reveal, false), y, {sill, side, head, side});
}

/// Parts that are made apart have each its own: two stand beside each other at the joint.
void addFrame(const UnitStage& stage) {
  const RingParts what{unitPart(PartKind::FrameSill, Material::Aluminium),
                       unitPart(PartKind::FrameJamb, Material::Aluminium),
                       unitPart(PartKind::FrameHead, Material::Aluminium)};
  for (const Rect& part : stage.parts.made) {
    addRing(stage.bench, stage.parts.within(part, stage.toFrame()),
            stage.parts.within(part.inset(stage.toClear() - stage.toFrame()), stage.toClear()), stage.y, what);
  }
}

void addFin(const UnitStage& stage) {
  const double fin = stage.unit->fin;
  if (fin <= 0) return;
  const Rect outer = stage.outside.inset(-fin);
  const Range y{-kFinBack - kFinThickness, -kFinBack};
  const Part what = unitPart(PartKind::Fin, Material::Aluminium);
  if (stage.follows()) {  // in its lengths
    return addRing(stage.bench, stage.parts.within(outer, -fin),
                   stage.parts.within(stage.parts.in_reveal, stage.toFrame()), y, {what, what, what});
  }
  addPart(stage.bench, what, {outer.width(), kFinThickness, outer.height()});
  const std::array<Quad, 4> ring = mitredRing(outer, stage.parts.in_reveal);
  for (std::size_t i = 0; i < ring.size(); ++i) {
    addPrism(stage.bench, ring[i], y, i % 2 == 0 ? Grain::AlongX : Grain::AlongZ);
  }
}

/// The part of a rectangle that lies in the frame's inside.
void addWithin(const UnitStage& stage, const Rect& rect, const Range& y, Grain grain) {
  if (!stage.follows()) return addBox(stage.bench, {rect.x0, rect.x1}, y, {rect.z0, rect.z1}, grain);
  for (const Strip& strip : stripsOf(stage.parts.within(rect, stage.toClear()), 0, 0)) {
    addStrip(stage.bench, strip, {y.low, 0}, {y.high, 0}, grain);
  }
}

/// Panes side by side in the middle of `y`, with the space between them that there is room for.
void addGlass(const UnitStage& stage, std::size_t pane, const Range& y,
              Part like = unitPart(PartKind::GlassPane, Material::Glass)) {
  const Rect& rect = stage.parts.pane[pane];
  const job::Glass& glass = stage.parts.glass[pane];
  const int panes = std::clamp(glass.panes, 0, kMostPanes);
  like.kind = PartKind::GlassPane;
  like.material = Material::Glass;
  if (panes == 0 || glass.thickness <= 0) return;
  const double thickness = std::min(glass.thickness, y.length() / panes);  // as drawn: panes never leave the sash
  const double room = panes > 1 ? (y.length() - panes * thickness) / (panes - 1) : 0.0;
  const double step = thickness + std::min(kSpacer, room);
  double front = y.middle() - (step * (panes - 1) + thickness) / 2;
  for (int i = 0; i < panes; ++i, front += step) {
    addPart(stage.bench, like, {rect.width(), glass.thickness, rect.height()});
    addWithin(stage, rect, {front, front + thickness}, Grain::AlongX);
  }
}

/// A part of a sash, which comes with the unit, or after it where it is taken out to be lifted.
Part sashPart(const UnitStage& stage, const plan::Sash& sash, PartKind kind) {
  const plan::StepKind step = plan::comesOut(*stage.unit, sash) ? stage.panel : plan::StepKind::LiftIn;
  Part part = unitPart(kind, Material::Aluminium, step);
  part.item = static_cast<std::int32_t>(&sash - stage.parts.sash.data());
  return part;
}

/// Stiles and rails round a pane. The rails are butted between the stiles where the bottom rail is deeper.
void addSash(const UnitStage& stage, const plan::Sash& sash, const Range& y) {
  const Rect& outer = sash.outside;
  const Rect& pane = stage.paneOf(sash);
  constexpr double kAlike = 1e-6;
  const bool alike = pane.z0 - outer.z0 <= pane.x0 - outer.x0 + kAlike;
  const Part rail = sashPart(stage, sash, PartKind::SashRail);
  const Part stile = sashPart(stage, sash, PartKind::SashStile);
  addRing(stage.bench, alike ? mitredRing(outer, pane) : buttedRing(outer, pane, true), y, {rail, stile, rail, stile});
  addGlass(stage, sash.pane, y, stile);
}

/// The middle of the stile that a sash is worked at.
double stileMiddle(const UnitStage& stage, const plan::Sash& sash, bool left) {
  const Rect& outer = sash.outside;
  const Rect& pane = stage.paneOf(sash);
  return left ? (outer.x0 + pane.x0) / 2 : (outer.x1 + pane.x1) / 2;
}

/// Turns of half a circle that put a mesh made for an inside face, its lever to the right, where it is wanted.
enum class Facing { Inside, InsideTurned, Outside, OutsideTurned };

glm::mat4 turnOf(Facing facing) {
  static constexpr float kSigns[4][3] = {{1, 1, 1}, {-1, 1, -1}, {1, -1, -1}, {-1, -1, 1}};  // as Facing
  glm::mat4 turn{1.0F};
  for (int i = 0; i < 3; ++i) turn[i][i] = kSigns[static_cast<std::size_t>(facing)][i];
  return turn;
}

/// A mesh with its origin, or its low corner, at a place. False: the library hasn't got it.
bool addMesh(const UnitStage& stage, const Part& part, std::string_view mesh, glm::dvec3 at, Facing facing,
             bool by_corner = false) {
  const std::optional<std::uint32_t> index = stage.library->indexOf(mesh);
  if (!index) return false;
  const Box& box = stage.library->mesh.find(mesh)->second.box;
  if (by_corner) at -= glm::dvec3(box.low);
  const std::uint32_t number = addPart(stage.bench, part, glm::dvec3(box.high) - glm::dvec3(box.low));
  stage.bench.scene->uses.push_back({*index, number, glm::mat4x3(stage.bench.place(at) * turnOf(facing))});
  return true;
}

/// Sashes in tracks, the first the outermost; the one that is worked has a catch.
void fillSliding(const UnitStage& stage, const plan::LightParts& light) {
  const auto sashes = stage.parts.sashesOf(light);
  int tracks = 1;
  for (const plan::Sash& sash : sashes) tracks = std::max(tracks, sash.track + 1);
  // All tracks with the gaps between them in the middle of the frame, a fifth of whose depth stays free.
  const double room = std::max(stage.y.length() - (tracks - 1) * kTrackGap, 0.0);
  const double depth = std::min(sashes[0].depth, 0.8 * room / tracks);
  const double front = stage.y.middle() - (tracks * depth + (tracks - 1) * kTrackGap) / 2;
  for (const plan::Sash& sash : sashes) {
    const double y = front + sash.track * (depth + kTrackGap);
    addSash(stage, sash, {y, y + depth});
    // The one furthest from the panel that it slides to is worked, and takes the others with it.
    const auto farther = [&](const plan::Sash& other) {
      return other.motion == sash.motion && other.track > sash.track;
    };
    if (sash.track == 0 || std::any_of(sashes.begin(), sashes.end(), farther)) continue;
    const double middle = (light.clear.z0 + light.clear.z1) / 2;
    const bool up = sash.motion == plan::Motion::SlidesUp;
    const double high = up                        ? sash.outside.z1 - plan::faceWithin(kSashCatch, sash.outside)
                        : job::isDoor(light.kind) ? std::min(kHandleHeight, middle)
                                                  : middle;
    const bool left = sash.motion == plan::Motion::SlidesRight;  // the stile at the jamb that it leaves
    const double x = up ? (sash.outside.x0 + sash.outside.x1) / 2 : stileMiddle(stage, sash, left);
    addMesh(stage, sashPart(stage, sash, PartKind::Handle), kCatchMesh, {x, y + depth, high}, Facing::Inside);
  }
}

/// A pane set in the frame with beads on both sides; the blades of a louvre have none.
void fillFixed(const UnitStage& stage, const plan::LightParts& light) {
  const double deep = std::min(kBead, 0.2 * stage.y.length());
  const double middle = stage.y.middle();
  const job::Glass& of = stage.parts.glass[light.first_pane];
  const double glazing =
      std::min(of.thickness * of.panes + kSpacer * std::max(of.panes - 1, 0), 0.5 * stage.y.length());
  const Range glass{middle - glazing / 2, middle + glazing / 2};
  const Part what = unitPart(PartKind::Bead, Material::Aluminium);
  for (std::size_t i = light.first_pane; i < light.first_pane + light.panes; ++i) {
    addGlass(stage, i, glass);
    const Rect& pane = stage.parts.pane[i];
    const double bead = plan::faceWithin(kBead, pane);
    for (const Range& y : {Range{glass.low - deep, glass.low}, Range{glass.high, glass.high + deep}}) {
      addRing(stage.bench, stage.parts.within(pane, stage.toClear()),
              stage.parts.within(pane.inset(bead), stage.toClear() + bead), y, {what, what, what});
    }
  }
}

/// Blades that lean outwards at their foot, each lapping the one below.
void fillLouvre(const UnitStage& stage, const plan::LightParts& light) {
  const double lean = std::min(0.25 * stage.y.length(), 20.0);  // either way from the frame's middle
  const double thick = std::max(stage.parts.glass[light.first_pane].thickness, 1.0);
  for (const Rect& pane : stage.parts.panesOf(light)) {
    const double top = std::min(pane.z1 + kBladeLap, light.clear.z1);
    addPart(stage.bench, unitPart(PartKind::GlassPane, Material::Glass), {pane.width(), thick, top - pane.z0});
    const double slope = 2 * lean / (top - pane.z0);
    const Face front{stage.y.middle() - lean - thick / 2 - slope * pane.z0, slope};
    addStrip(stage.bench, stripOf({pane.x0, pane.z0, pane.x1, top}), front, {front.at + thick, slope}, Grain::AlongX);
  }
}

/// Hinges evenly up the hung side, in the gap between leaf and frame; the ends a hand's breadth from the corners.
void addHinges(const UnitStage& stage, const plan::Sash& sash, const Range& y, int count) {
  const Rect& leaf = sash.outside;
  const double x = sash.left ? leaf.x0 - kHingeOff : leaf.x1 + kHingeOff;
  const double from_end = std::min(kHingeFromEnd, leaf.height() / 4);
  const double step = (leaf.height() - 2 * from_end) / (count - 1);
  const bool inside = sash.inwards != sash.turned;  // on the face towards which it turns about them
  for (int i = 0; i < count; ++i) {
    addMesh(stage, sashPart(stage, sash, PartKind::Hinge), kHingeMesh,
            {x, inside ? y.high : y.low, leaf.z0 + from_end + i * step}, inside ? Facing::Inside : Facing::Outside);
  }
}

/// A sash or a leaf flush with the frame's outside face where it opens outwards, with its inside face where inwards.
Range flush(const UnitStage& stage, const plan::Sash& sash) {
  const double depth = std::min(sash.depth, 0.8 * stage.y.length());
  return sash.inwards ? Range{stage.y.high - depth, stage.y.high} : Range{stage.y.low, stage.y.low + depth};
}

/// A sash hung in the frame.
void fillHung(const UnitStage& stage, const plan::LightParts& light) {
  const plan::Sash& sash = stage.parts.sash[light.first_sash];
  const Rect& pane = stage.paneOf(sash);
  const Range y = flush(stage, sash);
  addSash(stage, sash, y);
  const bool aside = plan::hangsAside(sash.motion);
  if (aside) addHinges(stage, sash, y, 2);
  const double x = aside ? stileMiddle(stage, sash, !sash.left) : (sash.outside.x0 + sash.outside.x1) / 2;
  const double z = aside                                    ? (sash.outside.z0 + sash.outside.z1) / 2
                   : sash.motion == plan::Motion::HungBelow ? (sash.outside.z1 + pane.z1) / 2
                                                            : (sash.outside.z0 + pane.z0) / 2;
  addMesh(stage, sashPart(stage, sash, PartKind::Handle), kCatchMesh, {x, y.high, z}, Facing::Inside);
}

/// A door's leaves; on the one that is worked a lever on both faces that points to its hinges.
void fillLeaves(const UnitStage& stage, const plan::LightParts& light) {
  const auto leaves = stage.parts.sashesOf(light);
  const plan::Sash& worked = leaves[leaves.size() > 1 && leaves[0].left ? leaves.size() - 1 : 0];
  for (const plan::Sash& leaf : leaves) {
    const Range y = flush(stage, leaf);
    addSash(stage, leaf, y);
    addHinges(stage, leaf, y, 3);
    if (&leaf != &worked) continue;
    const double x = stileMiddle(stage, leaf, !leaf.left);
    const double z = std::min(kHandleHeight, (leaf.outside.z0 + leaf.outside.z1) / 2);
    const Part handle = sashPart(stage, leaf, PartKind::Handle);
    addMesh(stage, handle, kHandleMesh, {x, y.high, z}, leaf.left ? Facing::InsideTurned : Facing::Inside);
    addMesh(stage, handle, kHandleMesh, {x, y.low, z}, leaf.left ? Facing::OutsideTurned : Facing::Outside);
  }
}

/// Mullions and transoms, of the frame's own section.
void addBars(const UnitStage& stage) {
  for (std::size_t i = 0; i < stage.parts.bar.size(); ++i) {
    const Rect& bar = stage.parts.bar[i];
    const bool mullion = i < stage.parts.mullions;
    if (stage.parts.isOfJoint(bar)) continue;  // it is of that part's frame
    addPart(stage.bench, unitPart(mullion ? PartKind::Mullion : PartKind::Transom, Material::Aluminium),
            {mullion ? bar.height() : bar.width(), stage.y.length(), mullion ? bar.width() : bar.height()});
    addWithin(stage, bar, stage.y, mullion ? Grain::AlongZ : Grain::AlongX);
  }
}

/// Under the frame, flush with its inside; its front slopes where it stands out before the frame.
void addSubSill(const UnitStage& stage) {
  if (!stage.unit->sub_sill) return;
  const Rect& inside = stage.parts.in_reveal;
  const Rect rect{inside.x0, inside.z0, inside.x1, stage.parts.frame.z0};
  const Range y{stage.y.high - stage.unit->sub_sill->depth, stage.y.high};
  addPart(stage.bench, unitPart(PartKind::SubSill, Material::Aluminium, plan::StepKind::PackSill),
          {rect.width(), y.length(), rect.height()});
  const double lean = std::max(stage.y.low - y.low, 0.0) / rect.height();
  for (const Strip& strip : stripsOf(stage.parts.within(rect, stage.toFrame()), 0, 0)) {
    addStrip(stage.bench, strip, {y.low - lean * rect.z0, lean}, {y.high, 0}, Grain::AlongX);
  }
}

/// A ramp before a door's frame, its top falling outwards.
void addThreshold(const UnitStage& stage) {
  constexpr double kReach = 60.0, kBackHeight = 20.0, kFrontHeight = 8.0;
  const Rect& frame = stage.parts.frame;
  const Range x{frame.x0, frame.x1};
  addPart(stage.bench, unitPart(PartKind::Threshold, Material::Aluminium), {frame.width(), kReach, kBackHeight});
  addPrism(stage.bench, quadOf(x, {frame.z0, frame.z0 + kFrontHeight}), quadOf(x, {frame.z0, frame.z0 + kBackHeight}),
           {stage.y.low - kReach, stage.y.low}, Grain::AlongX);
}

void fill(const UnitStage& stage, const plan::LightParts& light) {
  if (light.clear.width() <= 1 || light.clear.height() <= 1) return;  // mm: nothing fits
  using Kind = job::UnitKind;
  if (light.kind == Kind::LouvreWindow) return fillLouvre(stage, light);
  if (light.sashes == 0) return fillFixed(stage, light);
  const bool slides_up = light.kind == Kind::SingleHungWindow || light.kind == Kind::DoubleHungWindow;
  if (slides_up || plan::panelsMeet(light.kind)) return fillSliding(stage, light);
  return job::isDoor(light.kind) ? fillLeaves(stage, light) : fillHung(stage, light);
}

}  // namespace

void addUnit(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned,
             const MeshLibrary& library) {
  const Rect at = unitOutside(opening, planned);
  Bench own = bench;
  own.origin += bench.along * at.x0 + glm::dvec3{0.0, 0.0, at.z0};  // the unit's corner: all parts are put from there
  const Range y{planned.unit.stands, planned.unit.stands + planned.unit.frame.depth};
  const Rect outside{0, 0, planned.unit.width, planned.unit.height};
  UnitStage stage{own, &planned.unit, &library, outside, plan::partsOf(planned.unit), y};
  if (planned.mass.panel_kg > 0) stage.panel = plan::StepKind::PanelsIn;  // taken out to be lifted
  const Rect& clear = stage.parts.clear;
  if (clear.width() <= 1 || clear.height() <= 1 || stage.y.length() <= 1) return;
  addFin(stage);
  const Part drawn = unitPart(PartKind::UnitMesh, Material::Aluminium);
  // A mesh of the job's own is in wall axes and millimetres, its low corner at the unit's lower left outside corner.
  const glm::dvec3 corner{0.0, y.low, 0.0};
  if (opening.unit.mesh && addMesh(stage, drawn, *opening.unit.mesh, corner, Facing::Inside, true)) return;
  addReveal(stage);
  addSubSill(stage);
  addFrame(stage);
  addBars(stage);
  for (const plan::LightParts& light : stage.parts.light) fill(stage, light);
  if (stage.unit->isDoor()) addThreshold(stage);
}

void addPackers(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned, double stud_depth) {
  const Rect unit = unitOutside(opening, planned);
  for (const plan::PackingPoint& point : planned.packing.points) {
    const Range y = packerDepth(point.side, planned, stud_depth);
    if (y.length() <= 0) continue;  // no depth in the wall
    const bool first = point.side == planned.packing.first_jamb;
    const PartStep step = point.side == plan::Side::Sill ? partStep(plan::StepKind::PackSill)
                          : first                        ? partStep(plan::StepKind::FirstJamb)
                                                         : partStep(plan::StepKind::FixOtherJamb);
    for (const PackerPiece& piece : packerPieces(point)) {
      const Rect at =
          besideUnit(point.side, piece.along, piece.off, unit.width(), unit.height()).moved(unit.x0, unit.z0);
      addPart(bench, {PartKind::Packer, piece.timber ? Material::Pine : Material::Packer, Layer::Packing, step},
              {piece.along.length(), y.length(), piece.off.length()});
      addBox(bench, {at.x0, at.x1}, y, {at.z0, at.z1}, plan::isLevel(point.side) ? Grain::AlongX : Grain::AlongZ);
    }
  }
}

void addSillSupport(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned,
                    const plan::WallSpec& wall, const practice::Practice& practice) {
  constexpr double kBar = 6;  // of its section. From memory: a bar or angle of about that.
  const Range y{-wall.cladding.cavity, -kFinBack - kFinThickness};
  const double thick = std::min(kBar, planned.stand.z);  // what fits under the unit
  const bool wanted = planned.isFlashed() && plan::wantsSillSupport(planned.unit, opening.width, wall, practice);
  if (!wanted || thick <= 0 || y.length() <= 0) return;
  const double top = opening.sill + planned.stand.z;
  addBoxPart(bench, {PartKind::SillSupport, Material::Aluminium, Layer::Packing, partStep(plan::StepKind::PackSill)},
             {opening.left, opening.left + opening.width}, y, {top - thick, top}, Grain::AlongX);
}

}  // namespace sillwright::scene
