#include "exchange/model_parts.h"

#include <algorithm>
#include <cmath>

#include "scene/describe.h"
#include "scene/water_lines.h"

namespace sillwright::exchange {

namespace {

constexpr std::array<Look, scene::kMaterials> kLooks{{
    // name; roughness: 0 is polished, 1 is matt
    {"pine", 0.8},
    {"lintel timber", 0.8},
    {"reveal timber", 0.6},
    {"membrane", 0.9},
    {"flexible flashing", 0.7},
    {"folded metal", 0.4},
    {"aluminium", 0.35},
    {"glass", 0.05},
    {"lining", 0.95},
    {"cladding", 0.7},
    {"batten", 0.85},
    {"packer", 0.5},
    {"screw", 0.3},
    {"soffit", 0.9},
    {"floor", 0.95},
    {"rubber", 0.8},
    {"brick", 0.9},
    {"mortar", 0.95},
}};

/// Corners of a solid may fall together, as at a wedge's edge: such a face has three.
void addCorner(Polygon& polygon, glm::vec3 corner) {
  if (std::find(polygon.begin(), polygon.end(), corner) == polygon.end()) polygon.push_back(corner);
}

/// Twice the area squared, in doubles: thin faces would vanish in floats.
bool hasArea(const Polygon& polygon) {
  glm::dvec3 sum{0.0};
  for (std::size_t i = 2; i < polygon.size(); ++i)
    sum += glm::cross(glm::dvec3(polygon[i - 1] - polygon[0]), glm::dvec3(polygon[i] - polygon[0]));
  return glm::dot(sum, sum) > 1e-12;  // mm⁴: rounding leaves less of a face that has none
}

}  // namespace

Look lookOf(scene::Material material) {
  Look look = kLooks[static_cast<std::size_t>(material)];
  for (unsigned i = 0; i < 3; ++i) look.colour[i] = (scene::faceColour(material) >> (16 - 8 * i) & 255U) / 255.0;
  look.colour[3] = scene::opacityOf(material);
  return look;
}

std::string stepName(const scene::Part& part) {
  const auto kind = scene::stepKind(part.step);
  return kind ? plan::toWord(*kind) : "from the start";  // no step brings these
}

std::string wallName(const scene::Part& part, const job::Job& job) {
  return part.wall < 0 ? "site" : job.walls[static_cast<std::size_t>(part.wall)].name;
}

std::vector<std::string> partNames(const scene::Scene& scene, const job::Job& job, const practice::Practice& practice,
                                   UniqueNames& names) {
  std::vector<std::string> all;
  for (const scene::Part& part : scene.parts) {  // in this order, which gives the numbers behind names
    const std::string of =
        part.opening < 0 ? wallName(part, job) : job.openings[static_cast<std::size_t>(part.opening)].name;
    all.push_back(names.take(partName(of, scene::nameOf(part.kind, practice.words))));
  }
  return all;
}

glm::dvec3 Axes::toLocal(glm::dvec3 world) const {
  const glm::dvec3 off = world - origin;
  const double c = std::cos(turn), s = std::sin(turn);  // toLocal turns the other way than the wall was turned
  return {c * off.x + s * off.y, c * off.y - s * off.x, off.z};
}

Axes axesOf(const scene::Scene& scene, std::int32_t wall) {
  if (wall < 0) return {};  // what is of no wall has the world's axes
  const scene::WallFrame& frame = scene.walls[static_cast<std::size_t>(wall)];
  return {glm::dvec3(frame.origin), std::atan2(double{frame.along.y}, double{frame.along.x})};
}

PartIndex::PartIndex(const scene::Scene& scene) : scene_(scene), uses_of_(scene.parts.size()) {
  std::size_t solid = 0;
  for (std::size_t part = 0; part <= scene.parts.size(); ++part) {  // solids stand in the order of their parts
    while (solid < scene.solids.size() && scene.solids[solid].part < part) ++solid;
    first_solid_.push_back(solid);
  }
  for (std::size_t i = 0; i < scene.uses.size(); ++i) uses_of_[scene.uses[i].part].push_back(i);
}

std::vector<Polygons> PartIndex::shellsOf(std::size_t part) const {
  std::vector<Polygons> shells;
  const auto add = [&](const Polygon& polygon) {
    if (hasArea(polygon)) shells.back().push_back(polygon);
  };
  for (std::size_t s = first_solid_[part]; s < first_solid_[part + 1]; ++s) {
    shells.emplace_back();
    for (const auto& face : scene::kFaces) {
      Polygon polygon;
      for (const auto corner : face) addCorner(polygon, scene_.solids[s].corner[corner]);
      add(polygon);
    }
  }
  for (const std::size_t use : uses_of_[part]) {  // each use is a shell of its own, behind the solids
    shells.emplace_back();
    const scene::MeshUse& placed = scene_.uses[use];
    const auto& corners = scene_.meshes[placed.mesh].corner;
    // A mirrored mesh is turned round again, so that its faces look outwards.
    const bool mirrored = glm::determinant(glm::mat3(placed.place)) < 0;
    for (std::size_t i = 0; i + 2 < corners.size(); i += 3) {  // three corners make a triangle
      const std::array<std::size_t, 3> order{i, mirrored ? i + 2 : i + 1, mirrored ? i + 1 : i + 2};
      Polygon polygon;
      for (const std::size_t k : order) addCorner(polygon, placed.place * glm::vec4(corners[k], 1.0F));
      add(polygon);
    }
  }
  return shells;
}

Polygons PartIndex::surfaceOf(std::size_t part) const {
  Polygons all;
  for (const Polygons& shell : shellsOf(part)) all.insert(all.end(), shell.begin(), shell.end());
  return all;
}

}  // namespace sillwright::exchange
