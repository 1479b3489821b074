// Screws: where the plan puts them, turned the way they are driven, scaled from the one mesh of a screw.
#include "scene/build/unit_parts.h"
#include "scene/build/unit_places.h"

namespace sillwright::scene {
namespace {

constexpr double kMeshLength = 75.0;  // of the mesh of a screw: 8 gauge × 75
constexpr float kMeshShank = 4.17F;

/// Turns the mesh, which runs along +y, the way a screw is driven; a quarter turn about one axis, or none.
glm::mat4 turned(const glm::vec3& way) {
  const glm::vec3 up{0.0F, 0.0F, 1.0F};
  const bool level = way.z == 0.0F;
  const glm::vec3 x = level ? glm::cross(way, up) : glm::vec3{1.0F, 0.0F, 0.0F};
  const glm::vec3 z = level ? up : glm::cross(x, way);
  return {glm::vec4(x, 0.0F), glm::vec4(way, 0.0F), glm::vec4(z, 0.0F), glm::vec4(0.0F, 0.0F, 0.0F, 1.0F)};
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
    const DrivenScrew driven = drivenScrew(fixing, planned);
    const glm::dvec3 head = driven.head + glm::dvec3{unit.x0, 0.0, unit.z0};
    scene.uses.push_back({*mesh, part, glm::mat4x3(bench.place(head) * turned(glm::vec3(driven.way)) * scaled(screw))});
  }
}

}  // namespace sillwright::scene
