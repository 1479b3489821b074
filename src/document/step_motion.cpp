#include "document/step_motion.h"

#include <algorithm>
#include <cmath>
#include <glm/ext/matrix_transform.hpp>
#include <limits>
#include <map>

namespace sillwright::document {
namespace {

using scene::Layer;
using scene::PartKind;

constexpr float kOneAfterTheOther = 0.6F;  // of the time, until the last part of many begins to come
constexpr float kFoldFrom = 0.6F;          // of the time: the membrane hangs, and its flaps are folded in

float eased(float t) {
  t = std::clamp(t, 0.0F, 1.0F);
  return t * t * (3.0F - 2.0F * t);
}

bool comesOn(const scene::Part& part, const StepView& view) {
  if (!view.lit || part.step != *view.lit) return false;
  const bool laid = part.layer == Layer::Membrane || part.layer == Layer::Flashing || part.layer == Layer::Packing ||
                    part.layer == Layer::Cladding || part.layer == Layer::Battens;
  return laid || view.unit_comes;
}

/// Lowest and highest of the feet of the parts that come.
struct Feet {
  std::map<std::uint32_t, float> of;
  float low = std::numeric_limits<float>::max();
  float high = std::numeric_limits<float>::lowest();

  explicit Feet(const StepView& view) {
    for (const scene::Solid& solid : view.scene.solids) {
      if (!comesOn(view.scene.parts[solid.part], view)) continue;
      float& foot = of.try_emplace(solid.part, std::numeric_limits<float>::max()).first->second;
      for (const glm::vec3& corner : solid.corner) foot = std::min(foot, corner.z);
    }
    for (const auto& [part, foot] : of) {
      low = std::min(low, foot);
      high = std::max(high, foot);
    }
  }
};

/// When a part that is put on from the bottom up begins to come.
float beginOf(const scene::Part& part, std::uint32_t number, const Feet& feet) {
  const bool stacked = part.layer == Layer::Membrane || part.layer == Layer::Cladding || part.layer == Layer::Battens;
  const auto foot = feet.of.find(number);
  if (!stacked || foot == feet.of.end() || feet.high <= feet.low) return 0.0F;
  return kOneAfterTheOther * (foot->second - feet.low) / (feet.high - feet.low);
}

/// A flap about its edge of the opening: flat in the wall's face at 0, folded in at 1.
void fold(scene::Solid& flap, const StepView& view, const scene::WallFrame& wall, float folded) {
  const scene::OpeningFrame& hole = view.scene.openings[static_cast<std::size_t>(view.scene.parts[flap.part].opening)];
  // The edge lies at the face; the flap runs in from there.
  glm::vec3 a(0.0F), b(0.0F);
  float length = 0.0F;
  for (const auto& edge : scene::kEdges) {
    const glm::vec3 p = wall.toLocal(flap.corner[edge[0]]), q = wall.toLocal(flap.corner[edge[1]]);
    if (std::abs(p.y) > 1.0F || std::abs(q.y) > 1.0F || glm::distance(p, q) <= length) continue;
    a = flap.corner[edge[0]], b = flap.corner[edge[1]];
    length = glm::distance(p, q);
  }
  if (length <= 0.0F) return;
  const glm::vec3 axis = glm::normalize(b - a);
  const float quarter = glm::radians(90.0F) * (1.0F - folded);
  // Turned the way that brings its back edge towards the opening's middle.
  const glm::vec3 turned = glm::cross(axis, wall.inward);
  const float side = glm::dot(turned, hole.centre - a) < 0.0F ? -quarter : quarter;
  const glm::mat4 turn = glm::rotate(glm::mat4(1.0F), side, axis);
  for (glm::vec3& corner : flap.corner) corner = a + glm::vec3(turn * glm::vec4(corner - a, 0.0F));
}

}  // namespace

bool comes(const StepView& view) {
  const auto on = [&](const auto& each) { return comesOn(view.scene.parts[each.part], view); };
  return std::any_of(view.scene.solids.begin(), view.scene.solids.end(), on);
}

scene::Scene onTheWay(const StepView& view, const scene::WallFrame& wall, float way) {
  scene::Scene scene = view.scene;
  const Feet feet(view);
  const float turn = glm::radians(view.yaw_degrees);
  const bool inside = glm::dot(wall.inward, {-std::sin(turn), std::cos(turn), 0.0F}) < 0.0F;
  const glm::vec3 out = wall.inward * (inside ? view.comes_from : -view.comes_from);
  const auto aside = [&](std::uint32_t number) {
    const float begin = beginOf(scene.parts[number], number, feet);
    return out * (1.0F - eased((way - begin) / (1.0F - kOneAfterTheOther)));
  };
  for (scene::Solid& solid : scene.solids) {
    const scene::Part& part = scene.parts[solid.part];
    if (!comesOn(part, view)) continue;
    if (part.kind == PartKind::MembraneFold) fold(solid, view, wall, eased((way - kFoldFrom) / (1.0F - kFoldFrom)));
    const glm::vec3 by = aside(solid.part);
    for (glm::vec3& corner : solid.corner) corner += by;
  }
  for (scene::MeshUse& use : scene.uses) {
    if (comesOn(scene.parts[use.part], view)) use.place[3] += aside(use.part);
  }
  return scene;
}

}  // namespace sillwright::document
