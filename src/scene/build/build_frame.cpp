// The parts of a wall that are timber and boards of their own: frame members, eave, floor.

#include <glm/ext/matrix_transform.hpp>

#include "plan/frame/frame.h"
#include "scene/build/unit_places.h"
#include "scene/build/wall_parts.h"

namespace sillwright::scene {

namespace {

constexpr double kSoffit = 6.0;  // sheet thickness. Common practice, no source.
constexpr double kFascia = 18.0;
constexpr double kFasciaDepth = 180.0;
constexpr double kFasciaDrop = 10.0;  // the fascia hides the soffit's edge
constexpr double kSlab = 100.0;
constexpr double kFloorStrip = 600.0;  // how much floor is shown behind a wall that closes no ring

/// Members are the first kinds of part, in the same order.
PartKind kindOf(plan::MemberPart part) {
  static_assert(static_cast<int>(PartKind::Nogging) == static_cast<int>(plan::MemberPart::Nogging));
  return static_cast<PartKind>(part);
}

glm::dvec2 at(const plan::Point& point) { return {point.x, point.z}; }

/// A stud under a ridge or valley is two solids of one part, with the seam between them not inked.
void addMember(const Bench& bench, const plan::Member& member, const Range& y) {
  const Quad quad = {at(member.corner[0]), at(member.corner[1]), at(member.corner[2]), at(member.corner[3])};
  const Grain grain = plan::isUpright(member.part) ? Grain::AlongZ : Grain::AlongX;
  const bool split = member.apex && member.apex->x > quad[3].x && member.apex->x < quad[2].x;
  if (!split) return addPrism(bench, quad, y, grain);
  const glm::dvec2 apex = at(*member.apex);
  const double share = (apex.x - quad[0].x) / (quad[1].x - quad[0].x);
  const glm::dvec2 foot{apex.x, quad[0].y + share * (quad[1].y - quad[0].y)};
  const auto without = [](std::uint16_t bits) { return static_cast<std::uint16_t>(kAllEdges & ~bits); };
  addPrism(bench, {quad[0], foot, apex, quad[3]}, y, grain, without(kRightHigh | kDeepBottomRight));
  addPrism(bench, {foot, quad[1], quad[2], apex}, y, grain, without(kLeftFace));
}

/// How far an eave runs past each end, at `out` before the studs: mitred against the next wall's eave, else flush with
/// the next wall's cladding, else with the frame.
double eaveEnd(const WallStage& stage, std::size_t side, double out) {
  const WallEnd& end = stage.ends[side];
  if (stage.other[side] == nullptr) return 0;
  const job::Eave& own = *stage.wall->eave;
  const job::Eave* next = stage.other_eave[side];
  if (next != nullptr && own.overhang > 0) {
    const double along = out * next->overhang / own.overhang;  // a line from the studs' corner to the fascias'
    return end.to_corner + (end.outer ? along : -along);
  }
  const double front = claddingDepth(*stage.other[side]).front;
  return end.to_corner + (end.outer ? front : -front);
}

/// A level board of the eave between two distances before the studs, mitred where eaves meet.
void addEaveBoard(const WallStage& stage, const Part& what, double outer, double inner, const Range& z) {
  const double length = stage.planned->spec.length;
  const auto left = [&](double out) { return -eaveEnd(stage, 0, out); };
  const auto right = [&](double out) { return length + eaveEnd(stage, 1, out); };
  if (outer - inner < 1 || right(outer) - left(outer) < 1 || right(inner) - left(inner) < 1) return;  // nothing to see
  const double longest = std::max(right(outer) - left(outer), right(inner) - left(inner));
  addPart(stage.bench, what, {longest, outer - inner, z.length()});
  addSlab(stage.bench, {{{left(outer), -outer}, {right(outer), -outer}, {right(inner), -inner}, {left(inner), -inner}}},
          z, Grain::AlongX);
}

/// A level polygon of the floor, its corners by X and Y.
void addPolygon(const Bench& bench, const std::vector<plan::Point>& ring, const Range& z) {
  for (const Strip& strip : stripsOf(ring, 0, 0)) {
    std::uint16_t ink = kAllEdges;
    if ((strip.edges & kLeftHigh) == 0) ink = static_cast<std::uint16_t>(ink & ~kLeftFace);
    if ((strip.edges & kRightHigh) == 0) ink = static_cast<std::uint16_t>(ink & ~kRightFace);
    addSlab(bench,
            {{{strip.x0, strip.left.low},
              {strip.x1, strip.right.low},
              {strip.x1, strip.right.high},
              {strip.x0, strip.left.high}}},
            z, Grain::AlongX, ink);
  }
}

/// The walls from `first` on, each joined at its right end to the next one's left end; empty unless they come back.
std::vector<std::size_t> ringFrom(const std::vector<WallStage>& stages, std::size_t first,
                                  const std::vector<bool>& used) {
  std::vector<std::size_t> ring;
  std::size_t wall = first;
  do {
    if (used[wall] || ring.size() > stages.size()) return {};  // a ring has no more walls than there are
    ring.push_back(wall);
    const std::int32_t next = stages[wall].ends[1].other;
    if (next < 0 || stages[static_cast<std::size_t>(next)].ends[0].other != static_cast<std::int32_t>(wall)) return {};
    wall = static_cast<std::size_t>(next);
  } while (wall != first);
  return ring.size() >= 3 ? ring : std::vector<std::size_t>{};  // two walls enclose nothing
}

constexpr Part kFloor{PartKind::FloorSlab, Material::Floor, Layer::Ground, PartStep::FromTheStart};

/// A storey's floor is as deep as the tops of the walls below leave it.
double floorDepth(const std::vector<WallStage>& stages, double level) {
  constexpr double kDeepest = 600;
  double depth = kDeepest;
  for (const WallStage& stage : stages) {
    const double room = level - stage.bench.origin.z - std::max(highest(stage.top), 0.0);
    if (room > 0) depth = std::min(depth, room);  // else it stands no lower
  }
  return depth < kDeepest ? depth : kSlab;
}

void addRing(Scene& scene, const std::vector<WallStage>& stages, const std::vector<std::size_t>& walls) {
  std::vector<plan::Point> ring;
  glm::dvec2 low{HUGE_VAL}, high{-HUGE_VAL};
  for (const std::size_t wall : walls) {
    const WallStage& stage = stages[wall];
    // Where its outside face meets the next wall's: the floor reaches as far as the studs do.
    const glm::dvec3 corner =
        stage.bench.origin + stage.bench.along * (stage.planned->spec.length + stage.ends[1].to_corner);
    ring.push_back({corner.x, corner.y});
    low = glm::min(low, glm::dvec2(corner));
    high = glm::max(high, glm::dvec2(corner));
  }
  Bench bench = makeBench(scene, 0, 0, 0, -1);  // in the world's axes: a floor is of no one wall
  const double level = stages[walls.front()].bench.origin.z;
  const double thick = floorDepth(stages, level);
  addPart(bench, kFloor, {high.x - low.x, high.y - low.y, thick});
  addPolygon(bench, ring, {level - thick, level});
}

bool isSteel(const std::optional<job::Lintel>& lintel) {
  return lintel && lintel->material && lintel->material->find("steel") != std::string::npos;
}

/// One row of the frame, so far in from its face. `deep`: of a second one, whose lintels have the plies that there is
/// room for.
void addRow(const WallStage& stage, double in, const std::optional<double>& deep) {
  for (const plan::Member& member : stage.planned->frame.members) {
    Bench bench = stage.bench;
    bench.opening = member.opening;
    const bool lintel = member.part == plan::MemberPart::Lintel;
    const double inner = deep && !lintel ? *deep : member.y1;
    if (deep && inner > *deep) continue;  // a ply of a lintel that the second row has no room for
    const Material timber = lintel ? Material::LintelTimber : Material::Pine;
    const bool steel = stage.wall->isSteel() ||
                       (lintel && isSteel(stage.plan->openings[static_cast<std::size_t>(member.opening)].lintel));
    addPart(bench, {kindOf(member.part), steel ? Material::FoldedMetal : timber, Layer::Frame, PartStep::FromTheStart},
            {member.length, inner - member.y0, member.width});
    addMember(bench, member, {in + member.y0, in + inner});
  }
}

// Screws: where the plan puts them, turned the way they are driven, scaled from the one mesh of a screw.

constexpr double kMeshLength = 75.0;  // of the mesh of a screw: 8 gauge × 75
constexpr float kMeshShank = 4.17F;

/// Turns the mesh, which runs along +y, the way a screw is driven; a quarter turn about one axis, or none.
glm::mat4 turned(const glm::vec3& way) {
  const glm::vec3 up{0.0F, 0.0F, 1.0F};
  // Screws are driven along an axis of the wall; x is any square to that, a screw being round.
  const bool level = way.z == 0.0F;
  const glm::vec3 x = level ? glm::cross(way, up) : glm::vec3{1.0F, 0.0F, 0.0F};
  const glm::vec3 z = level ? up : glm::cross(x, way);
  return {glm::vec4(x, 0.0F), glm::vec4(way, 0.0F), glm::vec4(z, 0.0F), glm::vec4(0.0F, 0.0F, 0.0F, 1.0F)};
}

}  // namespace

void addMembers(const WallStage& stage) {
  const plan::WallSpec& spec = stage.planned->spec;
  addRow(stage, 0, std::nullopt);
  if (spec.second_row) addRow(stage, spec.frameDepth() - spec.second_row->depth, spec.second_row->depth);
}

void addEave(const WallStage& stage) {
  if (!stage.wall->eave) return;
  const job::Eave& eave = *stage.wall->eave;
  const double face = claddingDepth(stage.planned->spec).front;
  const double fascia = std::min(kFascia, (eave.overhang - face) / 2);  // thinner where the eave hardly clears it
  if (fascia <= 0) return;
  addEaveBoard(stage, {PartKind::EaveSoffit, Material::Soffit, Layer::Eave, PartStep::FromTheStart},
               eave.overhang - fascia, face, {eave.soffit, eave.soffit + kSoffit});
  addEaveBoard(stage, {PartKind::EaveFascia, Material::Pine, Layer::Eave, PartStep::FromTheStart}, eave.overhang,
               eave.overhang - fascia, {eave.soffit - kFasciaDrop, eave.soffit - kFasciaDrop + kFasciaDepth});
}

void addFloors(Scene& scene, const std::vector<WallStage>& stages) {
  std::vector<bool> used(stages.size(), false);
  for (std::size_t i = 0; i < stages.size(); ++i) {
    if (used[i]) continue;
    const std::vector<std::size_t> ring = ringFrom(stages, i, used);
    if (!ring.empty()) {
      addRing(scene, stages, ring);
      for (const std::size_t wall : ring) used[wall] = true;
      continue;
    }
    used[i] = true;
    if (stages[i].wall->isInside()) continue;  // it has no floor of its own
    const plan::WallSpec& spec = stages[i].planned->spec;
    const double thick = floorDepth(stages, stages[i].bench.origin.z);
    addBoxPart(stages[i].bench, kFloor, {0, spec.length}, {0, spec.depth() + kFloorStrip}, {-thick, 0}, Grain::AlongX);
  }
}

void addFixings(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned,
                const MeshLibrary& library) {
  const plan::Fixings& fixings = planned.fixings;
  const std::optional<std::uint32_t> mesh = library.indexOf(kScrewMesh);
  if (!mesh) return;
  const Rect unit = unitOutside(opening, planned);
  for (std::size_t i = 0; i < fixings.points.size(); ++i) {
    const plan::Fixing& fixing = fixings.points[i];
    if (fixing.screw < 0) continue;  // nothing in stock is long enough
    const plan::ChosenScrew& screw = fixings.screws[static_cast<std::size_t>(fixing.screw)];
    const bool first = fixing.side == planned.packing.first_jamb;
    const PartStep step = partStep(first ? plan::StepKind::FixFirstJamb : plan::StepKind::FixOtherJamb);
    Part like{PartKind::Screw, Material::Screw, Layer::Fixing, step};
    like.item = static_cast<std::int32_t>(i);
    like.breaks_out = fixing.past_stud > 0;
    const std::uint32_t part = addPart(bench, like, {screw.length, screw.head, screw.shank});
    const DrivenScrew driven = drivenScrew(fixing, planned);
    const glm::dvec3 head = driven.head + glm::dvec3{unit.x0, 0.0, unit.z0};
    const float thick = static_cast<float>(screw.shank) / kMeshShank;
    const glm::vec3 size{thick, static_cast<float>(screw.length / kMeshLength), thick};
    const glm::mat4 place = bench.place(head) * turned(glm::vec3(driven.way)) * glm::scale(glm::mat4{1.0F}, size);
    bench.scene->uses.push_back({*mesh, part, glm::mat4x3(place)});
  }
}

}  // namespace sillwright::scene
