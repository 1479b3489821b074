#include "view/values/measure.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include "scene/section/section.h"
#include "view/values/readings.h"

namespace sillwright::view {

namespace {

/// The nearest of what has been offered so far, in pixels from the pointer.
struct Nearest {
  const render::Camera& camera;
  glm::vec2 pointer;
  glm::vec2 size;
  float least;
  const std::optional<scene::Cut>& cut;
  std::optional<glm::vec3> place;

  void offer(glm::vec3 world) {
    if (cut && cut->beyond(world) > 0.01F) return;  // it isn't there
    const glm::vec3 seen = render::project(camera, world, size.x, size.y);
    if (seen.z <= 0.0F) return;
    const float away = glm::distance(glm::vec2(seen), pointer);
    if (away >= least) return;
    least = away;
    place = world;
  }
};

/// The place of an edge that is nearest to a place in space.
glm::vec3 onEdge(glm::vec3 a, glm::vec3 b, glm::vec3 near) {
  const glm::vec3 along = b - a;
  const float square = glm::dot(along, along);
  const float t = square > 0.0F ? std::clamp(glm::dot(near - a, along) / square, 0.0F, 1.0F) : 0.0F;
  return a + along * t;
}

}  // namespace

glm::vec3 snappedPlace(const scene::Scene& scene, const scene::Hit& hit, const render::Camera& camera,
                       const render::Look& look, glm::vec2 pointer, glm::vec2 size, float reach) {
  const scene::Part& part = scene.parts[hit.part];
  const glm::vec3 shift = render::shownUnder(look).shiftOf(scene, part);
  Nearest corner{camera, pointer, size, reach, look.cut, {}};
  Nearest edge{camera, pointer, size, reach, look.cut, {}};
  for (const scene::Solid& solid : scene.solids) {
    if (solid.part != hit.part) continue;
    for (const glm::vec3& each : solid.corner) corner.offer(each + shift);
    for (std::size_t i = 0; i < scene::kEdges.size(); ++i) {
      if ((solid.edges >> i & 1U) == 0) continue;  // a seam is no edge
      const auto& ends = scene::kEdges[i];
      edge.offer(onEdge(solid.corner[ends[0]] + shift, solid.corner[ends[1]] + shift, hit.point));
    }
    const auto face = look.cut ? scene::cutThrough(solid, *look.cut, shift) : std::nullopt;
    for (std::size_t i = 0; face && i < face->count; ++i) {
      corner.offer(face->corner[i]);
      edge.offer(onEdge(face->corner[i], face->corner[(i + 1) % face->count], hit.point));
    }
  }
  if (corner.place) return *corner.place;
  return edge.place.value_or(hit.point);
}

Lengths lengthsBetween(glm::vec3 a, glm::vec3 b, const scene::WallFrame& wall) {
  const glm::dvec3 d = glm::dvec3(b) - glm::dvec3(a);
  return {glm::length(d), std::abs(glm::dot(d, glm::dvec3(wall.along))), std::abs(glm::dot(d, glm::dvec3(wall.inward))),
          std::abs(d.z)};
}

std::string wordsFor(const Lengths& lengths, practice::Display display) {
  constexpr double kNothing = 0.05;
  std::string words = figure(std::round(lengths.straight * 10) / 10, display);
  const auto add = [&](const char* way, double mm) {
    if (mm >= kNothing && std::abs(mm - lengths.straight) >= kNothing) {
      words += std::string(", ") + way + " " + figure(std::round(mm * 10) / 10, display);
    }
  };
  add("along", lengths.along);
  add("through", lengths.through);
  add("up", lengths.up);
  return words;
}

namespace {

constexpr float kSameSize = 0.05F;  // mm

bool sameSize(const scene::Part& a, const scene::Part& b) {
  const glm::vec3 off = glm::abs(a.size - b.size);
  return std::max({off.x, off.y, off.z}) < kSameSize && a.material == b.material;
}

}  // namespace

std::vector<scene::Part> partsOf(const scene::Scene& scene, std::int32_t opening) {
  std::vector<scene::Part> parts;
  if (opening < 0) return parts;
  std::copy_if(scene.parts.begin(), scene.parts.end(), std::back_inserter(parts),
               [&](const scene::Part& part) { return part.opening == opening; });
  return parts;
}

std::vector<std::uint32_t> changedParts(const std::vector<scene::Part>& before, const scene::Scene& after,
                                        std::int32_t opening) {
  std::map<scene::PartKind, std::vector<const scene::Part*>> known;
  for (const scene::Part& part : before) known[part.kind].push_back(&part);
  std::map<scene::PartKind, std::size_t> next;
  std::vector<std::uint32_t> changed;
  for (std::uint32_t i = 0; i < after.parts.size(); ++i) {
    const scene::Part& part = after.parts[i];
    if (part.opening != opening) continue;
    const auto& same_kind = known[part.kind];
    const std::size_t place = next[part.kind]++;
    if (place >= same_kind.size() || !sameSize(*same_kind[place], part)) changed.push_back(i);
  }
  return changed;
}

}  // namespace sillwright::view
