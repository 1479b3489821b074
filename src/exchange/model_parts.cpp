#include "exchange/model_parts.h"

#include <algorithm>

#include "scene/describe.h"
#include "scene/part_step.h"

namespace sillwright::exchange {
namespace {

constexpr std::array<Look, scene::kMaterials> kLooks{{
    {"pine", {0.71, 0.50, 0.27, 1}, 0, 0.8},
    {"lintel timber", {0.60, 0.38, 0.18, 1}, 0, 0.8},
    {"reveal timber", {0.78, 0.60, 0.38, 1}, 0, 0.6},
    {"membrane", {0.20, 0.42, 0.55, 1}, 0, 0.9},
    {"flexible flashing", {0.06, 0.06, 0.07, 1}, 0, 0.7},
    {"folded metal", {0.45, 0.48, 0.50, 1}, 1, 0.4},
    {"aluminium", {0.30, 0.31, 0.33, 1}, 1, 0.35},
    {"glass", {0.65, 0.80, 0.82, 0.3}, 0, 0.05},
    {"lining", {0.86, 0.85, 0.82, 1}, 0, 0.95},
    {"cladding", {0.55, 0.60, 0.58, 1}, 0, 0.7},
    {"batten", {0.55, 0.42, 0.26, 1}, 0, 0.85},
    {"packer", {0.05, 0.20, 0.65, 1}, 0, 0.5},
    {"screw", {0.55, 0.55, 0.50, 1}, 1, 0.3},
    {"soffit", {0.80, 0.80, 0.78, 1}, 0, 0.9},
    {"floor", {0.40, 0.38, 0.36, 1}, 0, 0.95},
    {"rubber", {0.02, 0.02, 0.02, 1}, 0, 0.8},
}};

void addCorner(Polygon& polygon, glm::vec3 corner) {
  const auto* begin = polygon.corner.data();
  const auto* end = begin + polygon.corners;
  if (std::find(begin, end, corner) == end) polygon.corner[polygon.corners++] = corner;
}

/// Twice the area squared, in doubles: thin faces would vanish in floats.
bool hasArea(const Polygon& polygon) {
  glm::dvec3 sum{0.0};
  for (std::size_t i = 2; i < polygon.corners; ++i) {
    sum += glm::cross(glm::dvec3(polygon.corner[i - 1] - polygon.corner[0]),
                      glm::dvec3(polygon.corner[i] - polygon.corner[0]));
  }
  return polygon.corners >= 3 && glm::dot(sum, sum) > 1e-12;
}

}  // namespace

const Look& lookOf(scene::Material material) {
  return kLooks[static_cast<std::size_t>(material)];
}

std::string stepName(const scene::Part& part) {
  const auto kind = scene::stepKind(part.step);
  return kind ? plan::toWord(*kind) : "from the start";
}

std::string partName(const scene::Part& part, const job::Job& job, const practice::Practice& practice) {
  const std::string name = scene::nameOf(part.kind, practice.words);
  return part.opening < 0 ? name : job.openings[static_cast<std::size_t>(part.opening)].name + " " + name;
}

PartIndex::PartIndex(const scene::Scene& scene) : scene_(scene), uses_of_(scene.parts.size()) {
  std::size_t solid = 0;
  for (std::size_t part = 0; part <= scene.parts.size(); ++part) {
    while (solid < scene.solids.size() && scene.solids[solid].part < part) ++solid;
    first_solid_.push_back(solid);
  }
  for (std::size_t i = 0; i < scene.uses.size(); ++i) uses_of_[scene.uses[i].part].push_back(i);
}

std::vector<Polygon> PartIndex::surfaceOf(std::size_t part) const {
  std::vector<Polygon> surface;
  const auto add = [&](const Polygon& polygon) {
    if (hasArea(polygon)) surface.push_back(polygon);
  };
  for (std::size_t s = first_solid_[part]; s < first_solid_[part + 1]; ++s) {
    for (const auto& face : scene::kFaces) {
      Polygon polygon;
      for (const auto corner : face) addCorner(polygon, scene_.solids[s].corner[corner]);
      add(polygon);
    }
  }
  for (const std::size_t use : uses_of_[part]) {
    const scene::MeshUse& placed = scene_.uses[use];
    const auto& corners = scene_.meshes[placed.mesh].corner;
    // A mirrored mesh is turned round again, so that its faces look outwards.
    const bool mirrored = glm::determinant(glm::mat3(placed.place)) < 0;
    for (std::size_t i = 0; i + 2 < corners.size(); i += 3) {
      const std::array<std::size_t, 3> order{i, mirrored ? i + 2 : i + 1, mirrored ? i + 1 : i + 2};
      Polygon polygon;
      for (const std::size_t k : order) addCorner(polygon, placed.place * glm::vec4(corners[k], 1.0F));
      add(polygon);
    }
  }
  return surface;
}

}  // namespace sillwright::exchange
