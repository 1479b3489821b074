#include "scene/open_sashes.h"

#include <glm/gtc/matrix_transform.hpp>
#include <cmath>
#include <map>

namespace sillwright::scene {
namespace {

using plan::Motion;

constexpr float kSlides = 0.6F;                                     // of the way that it can go
constexpr float kSwings = 50.0F, kTilts = 25.0F, kFolds = 55.0F;  // degrees

/// A sash as it is shut, in its wall's axes.
struct Shut {
  const plan::Sash& sash;
  Box box;
};

/// To the panel that one slides to: so far that it stands behind it.
float wayAside(const plan::UnitParts& parts, const plan::LightParts& light, const plan::Sash& sash) {
  const bool right = sash.motion == Motion::SlidesRight;
  double way = 0;
  for (const plan::Sash& other : parts.sashesOf(light)) {
    const double to = other.outside.x0 - sash.outside.x0;
    if (other.motion == Motion::Stays && (to > 0) == right && (way == 0 || std::abs(to) < std::abs(way))) way = to;
  }
  return static_cast<float>(way);
}

/// Turned about an upright line or one along the wall.
glm::mat4 turned(const glm::vec3& about, float degrees, const glm::vec3& axis) {
  return glm::translate(glm::mat4(1.0F), about) * glm::rotate(glm::mat4(1.0F), glm::radians(degrees), axis) *
         glm::translate(glm::mat4(1.0F), -about);
}

/// Where a sash goes, in its wall's axes.
glm::mat4 moveOf(const plan::UnitParts& parts, const plan::LightParts& light, const Shut& shut) {
  const plan::Sash& sash = shut.sash;
  const Box& box = shut.box;
  const float y = sash.inwards != sash.turned ? box.high.y : box.low.y;  // of its hinges
  const float out = sash.inwards ? -1.0F : 1.0F;
  const auto slid = [](float x, float z) { return glm::translate(glm::mat4(1.0F), {x * kSlides, 0.0F, z * kSlides}); };
  const glm::vec3 along{1.0F, 0.0F, 0.0F}, up{0.0F, 0.0F, 1.0F};
  switch (sash.motion) {
    case Motion::SlidesLeft:
    case Motion::SlidesRight:
      return slid(wayAside(parts, light, sash), 0.0F);
    case Motion::SlidesUp:
      return slid(0.0F, static_cast<float>(light.clear.z1 - sash.outside.z1));
    case Motion::SlidesDown:
      return slid(0.0F, static_cast<float>(light.clear.z0 - sash.outside.z0) / 2);
    case Motion::HungAbove:
      return turned({0.0F, y, box.high.z}, -out * kTilts, along);
    case Motion::HungBelow:
    case Motion::TiltsAndTurns:
      return turned({0.0F, y, box.low.z}, out * kTilts, along);
    case Motion::HungAside:
      return turned({sash.left ? box.low.x : box.high.x, y, 0.0F}, (sash.left ? -out : out) * kSwings, up);
    case Motion::Folds: {
      // The edge in the track comes nearer to the jamb, the other one goes out.
      const float edge = sash.heldLeft() ? box.low.x : box.high.x;
      const double jamb = sash.left ? light.clear.x0 : light.clear.x1;
      const double own = sash.heldLeft() ? sash.outside.x0 : sash.outside.x1;
      const auto off = static_cast<float>((own - jamb) * (std::cos(glm::radians(static_cast<double>(kFolds))) - 1));
      return glm::translate(glm::mat4(1.0F), {off, 0.0F, 0.0F}) *
             turned({edge, (box.low.y + box.high.y) / 2, 0.0F}, (sash.heldLeft() ? -out : out) * kFolds, up);
    }
    default:
      return glm::mat4(1.0F);
  }
}

}  // namespace

void openSashes(Scene& scene, const plan::UnitParts& parts, std::size_t opening) {
  const WallFrame& wall = scene.walls[scene.openings[opening].wall];
  const auto sashOf = [&](std::uint32_t number) {
    const Part& part = scene.parts[number];
    const bool own = part.layer == Layer::Unit && part.opening == static_cast<std::int32_t>(opening);
    return own ? part.item : -1;
  };
  std::map<std::int32_t, std::vector<glm::vec3>> corners;
  for (const Solid& solid : scene.solids) {
    if (sashOf(solid.part) < 0) continue;
    for (const glm::vec3& corner : solid.corner) corners[sashOf(solid.part)].push_back(wall.toLocal(corner));
  }
  // From the world to the wall's axes and back.
  const glm::mat4 to_world{glm::vec4(wall.along, 0.0F), glm::vec4(wall.inward, 0.0F), {0.0F, 0.0F, 1.0F, 0.0F},
                           glm::vec4(wall.origin, 1.0F)};
  std::map<std::int32_t, glm::mat4> moves;
  for (const plan::LightParts& light : parts.light) {
    for (std::size_t i = light.first_sash; i < light.first_sash + light.sashes; ++i) {
      const auto number = static_cast<std::int32_t>(i);
      const Shut shut{parts.sash[i], boxRound(corners[number])};
      moves.emplace(number, to_world * moveOf(parts, light, shut) * glm::inverse(to_world));
    }
  }
  for (Solid& solid : scene.solids) {
    const auto move = moves.find(sashOf(solid.part));
    if (move == moves.end()) continue;
    for (glm::vec3& corner : solid.corner) scene.bounds.hold(corner = glm::vec3(move->second * glm::vec4(corner, 1.0F)));
  }
  for (MeshUse& use : scene.uses) {
    const auto move = moves.find(sashOf(use.part));
    if (move != moves.end()) use.place = glm::mat4x3(move->second * glm::mat4(use.place));
  }
}

}  // namespace sillwright::scene
