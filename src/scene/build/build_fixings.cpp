// Screws: where the plan puts them, turned the way they are driven, scaled from the one mesh of a screw.
#include <algorithm>

#include "scene/build/unit_parts.h"

namespace sillwright::scene {
namespace {

constexpr double kMeshLength = 75.0;  // of the mesh of a screw: 8 gauge × 75
constexpr float kMeshShank = 4.17F;

/// Turn of the mesh, which runs along +y, and the face of its head.
struct Driven {
  glm::dvec3 head{0.0};
  glm::mat4 turn{1.0F};
};

glm::mat4 turned(const glm::vec3& x, const glm::vec3& y, const glm::vec3& z) {
  return {glm::vec4(x, 0.0F), glm::vec4(y, 0.0F), glm::vec4(z, 0.0F), glm::vec4(0.0F, 0.0F, 0.0F, 1.0F)};
}

const glm::vec3 kX{1.0F, 0.0F, 0.0F};
const glm::vec3 kY{0.0F, 1.0F, 0.0F};
const glm::vec3 kZ{0.0F, 0.0F, 1.0F};

/// How far inside the unit's outside the head's face lies.
double headDepth(const plan::Fixing& fixing, const plan::OpeningPlan& planned) {
  return fixing.kind == plan::FixingKind::ThroughReveal ? planned.fixings.under_head : planned.unit.frame.face;
}

/// Into the studs at the sides, or down into the sill.
Driven driveSideways(const plan::Fixing& fixing, const plan::OpeningPlan& planned, const Rect& unit) {
  const double depth = headDepth(fixing, planned);
  const double y = planned.fixings.line;
  switch (fixing.side) {
    case plan::Side::Left:
      return {{unit.x0 + depth, y, unit.z0 + fixing.at}, turned(kY, -kX, kZ)};
    case plan::Side::Right:
      return {{unit.x1 - depth, y, unit.z0 + fixing.at}, turned(-kY, kX, kZ)};
    case plan::Side::Sill:
      return {{unit.x0 + fixing.at, y, unit.z0 + depth}, turned(kX, -kZ, kY)};
    case plan::Side::Head:
      return {{unit.x0 + fixing.at, y, unit.z1 - depth}, turned(kX, kZ, -kY)};
  }
  return {};
}

/// From outside through the fin, in the middle of what it laps of the framing.
Driven driveInwards(const plan::Fixing& fixing, const plan::OpeningPlan& planned, const Rect& unit) {
  const plan::Gaps& gaps = planned.stand.gaps;
  const auto out = [&](const std::array<double, 2>& gap) {
    const double widest = std::max(gap[0], gap[1]);
    return (std::clamp(widest, 0.0, planned.unit.fin) + planned.unit.fin) / 2;
  };
  const double y = -kFinBack - kFinThickness;
  switch (fixing.side) {
    case plan::Side::Left:
      return {{unit.x0 - out(gaps.left), y, unit.z0 + fixing.at}, glm::mat4{1.0F}};
    case plan::Side::Right:
      return {{unit.x1 + out(gaps.right), y, unit.z0 + fixing.at}, glm::mat4{1.0F}};
    case plan::Side::Sill:
      return {{unit.x0 + fixing.at, y, unit.z0 - out(gaps.sill)}, glm::mat4{1.0F}};
    case plan::Side::Head:
      return {{unit.x0 + fixing.at, y, unit.z1 + out(gaps.head)}, glm::mat4{1.0F}};
  }
  return {};
}

glm::mat4 scaled(const plan::ChosenScrew& screw) {
  const float thick = static_cast<float>(screw.shank) / kMeshShank;
  glm::mat4 scale{1.0F};
  scale[0][0] = thick;
  scale[1][1] = static_cast<float>(screw.length / kMeshLength);
  scale[2][2] = thick;
  return scale;
}

}  // namespace

void addFixings(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned, MeshShelf& shelf) {
  Scene& scene = *bench.scene;
  const plan::Fixings& fixings = planned.fixings;
  if (fixings.points.empty()) return;
  const std::optional<std::uint32_t> mesh = useMesh(scene, shelf, kScrewMesh);
  if (!mesh) return;
  const Rect unit = unitOutside(opening, planned);
  for (std::size_t i = 0; i < fixings.points.size(); ++i) {
    const plan::Fixing& fixing = fixings.points[i];
    if (fixing.screw < 0) continue;
    const plan::ChosenScrew& screw = fixings.screws[static_cast<std::size_t>(fixing.screw)];
    const bool first = fixing.side == planned.packing.first_jamb;
    const PartStep step = partStep(first ? plan::StepKind::FixFirstJamb : plan::StepKind::FixOtherJamb);
    const std::uint32_t part = addPart(bench, {PartKind::Screw, Material::Screw, Layer::Fixing, step},
                                       {screw.length, screw.head, screw.shank});
    scene.parts[part].item = static_cast<std::int32_t>(i);
    scene.parts[part].breaks_out = fixing.past_stud > 0;
    const Driven driven = fixing.kind == plan::FixingKind::ThroughFin ? driveInwards(fixing, planned, unit)
                                                                      : driveSideways(fixing, planned, unit);
    scene.uses.push_back({*mesh, part, glm::mat4x3(bench.place(driven.head) * driven.turn * scaled(screw))});
  }
}

}  // namespace sillwright::scene
