#include "scene/build/build.h"

#include <algorithm>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

namespace sillwright::scene {
namespace {

using plan::Motion;

constexpr double kSlides = 0.6;                                   // of the way that it can go
constexpr float kSwings = 50.0F, kTilts = 25.0F, kFolds = 55.0F;  // degrees

glm::mat4 slid(double x, double z) {
  return glm::translate(glm::mat4(1.0F), {static_cast<float>(x), 0.0F, static_cast<float>(z)});
}

/// Turned about a line through a place.
glm::mat4 turned(const glm::vec3& about, float degrees, const glm::vec3& line) {
  return glm::translate(glm::mat4(1.0F), about) * glm::rotate(glm::mat4(1.0F), glm::radians(degrees), line) *
         glm::translate(glm::mat4(1.0F), -about);
}

/// Where a sash goes from where it is shut, in its wall's axes; `box` is round it there.
glm::mat4 moveOf(const plan::UnitParts& parts, const plan::LightParts& light, std::size_t number, const Box& box) {
  const plan::Sash& sash = parts.sash[number];
  const plan::UnitRect& at = sash.outside;
  const auto track = static_cast<std::size_t>(sash.track);  // so many panels away stands the one that it slides to
  const float y = sash.inwards ? box.high.y : box.low.y;    // of the face that its hinges are on
  const float out = sash.inwards ? -1.0F : 1.0F;
  const float aside = sash.heldLeft() ? -out : out;
  const glm::vec3 edge{sash.heldLeft() ? box.low.x : box.high.x, y, 0.0F};
  const glm::vec3 along{1.0F, 0.0F, 0.0F}, up{0.0F, 0.0F, 1.0F};
  // No further than a restrictor lets it: what it lets through is a way, or the chord of a turn.
  const double most = parts.restrictor.value_or(HUGE_VAL);
  const auto way = [&](double all) { return std::clamp(kSlides * all, -most, most); };
  const auto turn = [&](float degrees, float across) {
    const double sine = std::min(1.0, most / (2.0 * static_cast<double>(across)));  // half the chord by the radius
    return std::min(degrees, static_cast<float>(glm::degrees(2.0 * std::asin(sine))));
  };
  const float wide = box.high.x - box.low.x, high = box.high.z - box.low.z;
  switch (sash.motion) {
    case Motion::SlidesLeft:
      return slid(way(parts.sash[number - track].outside.x0 - at.x0), 0);
    case Motion::SlidesRight:
      return slid(way(parts.sash[number + track].outside.x0 - at.x0), 0);
    case Motion::SlidesUp:
      return slid(0, way(light.clear.z1 - at.z1));
    case Motion::SlidesDown:
      return slid(0, way((light.clear.z0 - at.z0) / 2));
    case Motion::HungAbove:
      return turned({0.0F, y, box.high.z}, -out * turn(kTilts, high), along);
    case Motion::HungBelow:
    case Motion::TiltsAndTurns:
      return turned({0.0F, y, box.low.z}, out * turn(kTilts, high), along);
    case Motion::HungAside:
      return turned(edge, aside * turn(kSwings, wide), up);
    case Motion::Folds: {  // the edge in the track comes nearer to the jamb, the other one goes out
      const double from_jamb = (sash.heldLeft() ? at.x0 : at.x1) - (sash.left ? light.clear.x0 : light.clear.x1);
      const float folds = turn(kFolds, wide);
      return slid(from_jamb * (std::cos(glm::radians(static_cast<double>(folds))) - 1), 0) *
             turned({edge.x, (box.low.y + box.high.y) / 2, 0.0F}, aside * folds, up);
    }
    default:
      return glm::mat4(1.0F);
  }
}

}  // namespace

void openSashes(Scene& scene, const plan::UnitParts& parts, std::size_t opening) {
  const WallFrame& wall = scene.walls[scene.openings[opening].wall];
  const glm::mat4 to_world{glm::vec4(wall.along, 0.0F), glm::vec4(wall.inward, 0.0F), glm::vec4(0.0F, 0.0F, 1.0F, 0.0F),
                           glm::vec4(wall.origin, 1.0F)};
  for (const plan::LightParts& light : parts.light) {
    for (std::size_t i = light.first_sash; i < light.first_sash + light.sashes; ++i) {
      const auto isOf = [&](std::uint32_t number) {
        const Part& part = scene.parts[number];
        return part.layer == Layer::Unit && part.opening == static_cast<std::int32_t>(opening) &&
               part.item == static_cast<std::int32_t>(i);
      };
      std::vector<glm::vec3> shut;
      for (const Solid& solid : scene.solids) {
        if (!isOf(solid.part)) continue;
        for (const glm::vec3& corner : solid.corner) shut.push_back(wall.toLocal(corner));
      }
      // Made in the wall's axes; what is moved lies in the world.
      const glm::mat4 move = to_world * moveOf(parts, light, i, boxRound(shut)) * glm::inverse(to_world);
      for (Solid& solid : scene.solids) {
        if (!isOf(solid.part)) continue;
        for (glm::vec3& corner : solid.corner) corner = glm::vec3(move * glm::vec4(corner, 1.0F));
      }
      for (MeshUse& use : scene.uses) {
        if (isOf(use.part)) use.place = glm::mat4x3(move * glm::mat4(use.place));
      }
    }
  }
}

}  // namespace sillwright::scene
