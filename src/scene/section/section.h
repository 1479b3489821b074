/// What a plane cuts of a scene: flat faces, each with the part that it belongs to.
///
/// Solids are cut exactly, as convex polygons: the plane's square clipped by the solid's own faces. Meshes are cut a
/// triangle at a time and what their outlines enclose is laid out in strips, so that hollows stay hollow. Parts may lie
/// in one another (a screw in a stud, a sheet on a reveal): the faces come in an order in which the first one has the
/// place, the same in every picture. World axes, mm.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <vector>

#include "scene/scene.h"

namespace sillwright::scene {

// A plane that a scene is cut by, and the side of it that is taken away.
//
// World axes, mm. One value decides what is drawn, what is picked and what a section shows (section.h).

/// What is nearer to the plane than this counts as touching it: neither cut nor taken away for the touch.
inline constexpr float kCutTouch = 0.005F;

struct Cut {
  glm::vec3 normal{1.0F, 0.0F, 0.0F};  ///< Unit; points to the side that is taken away.
  float at = 0.0F;                     ///< Of the plane along it, mm.

  /// How far a place stands on the side that is taken away; below 0: it stays.
  [[nodiscard]] float beyond(glm::vec3 place) const { return glm::dot(normal, place) - at; }
  /// Whether the plane is seen from its free side, from where cut faces are seen.
  [[nodiscard]] bool faces(glm::vec3 eye) const { return beyond(eye) > 0.0F; }
  bool operator==(const Cut&) const = default;
};

/// What of a scene is there to be picked, as it is shown.
struct PickFilter {
  std::uint32_t hidden_layers = 0;     ///< Bit per Layer.
  std::uint32_t hidden_steps = 0;      ///< The bitOf each step.
  std::array<float, kLayers> shift{};  ///< By which each layer is pulled along its wall's y.
  std::optional<Cut> cut;              ///< What is beyond it isn't there; its faces are their parts'.
  [[nodiscard]] bool shows(const Part& part) const {
    return isShown(part.layer, part.step, hidden_layers, hidden_steps);
  }
  /// By which a part of the scene is moved, in the world.
  [[nodiscard]] glm::vec3 shiftOf(const Scene& scene, const Part& part) const {
    if (part.wall < 0) return glm::vec3(0.0F);
    return scene.walls[static_cast<std::size_t>(part.wall)].inward * shift[static_cast<std::size_t>(part.layer)];
  }
  /// The most that any layer is moved, mm.
  [[nodiscard]] float furthest() const {
    float most = 0.0F;
    for (const float by : shift) most = std::max(most, std::abs(by));
    return most;
  }
  bool operator==(const PickFilter&) const = default;
};

/// Two directions in the plane: `side` level, `up` steep (or, of a level plane, X and Y). With the normal right-handed.
struct CutAxes {
  glm::vec3 side{1.0F, 0.0F, 0.0F};
  glm::vec3 up{0.0F, 0.0F, 1.0F};
};
[[nodiscard]] CutAxes axesOf(const Cut& cut);

/// A convex polygon in the plane of the cut.
struct CutFace {
  static constexpr std::size_t kMostCorners = 8;

  std::uint32_t part = 0;
  std::uint8_t count = 0;  ///< Of corners.
  std::uint8_t inked = 0;  ///< Bit i: the edge from corner i to the next is an outline; seams inside a part are not.
  bool across_grain = false;
  glm::vec3 grain{0.0F};  ///< Unit, in the world; zero for a mesh.
  glm::vec3 thin{0.0F};   ///< Unit, in the plane: the direction in which the face is narrowest; zero for a mesh …
  float narrow = 0.0F;    ///< … and how wide it is there, mm.
  std::array<glm::vec3, kMostCorners> corner{};  ///< Anticlockwise seen from the free side; the first is lower left.
};

/// What the plane cuts of a solid moved by `shift`; empty where it passes by or touches.
[[nodiscard]] std::optional<CutFace> cutThrough(const Solid& solid, const Cut& cut, glm::vec3 shift = glm::vec3(0.0F));

/// What it cuts of a mesh placed by `place`, added to `faces` as strips of part `part`. A mesh whose outline doesn't
/// close is filled only where it does.
void cutThrough(const Mesh& mesh, const glm::mat4& place, const Cut& cut, std::uint32_t part,
                std::vector<CutFace>& faces);

/// Which of two materials has the place where they lie in one another: the lower one. Fixings before sheets before the
/// unit before what is packed, lined and framed.
[[nodiscard]] int rankOf(Material material);

/// Every cut face of what is shown, in the order in which they have the place. `shown.cut` is not looked at.
[[nodiscard]] std::vector<CutFace> sectionOf(const Scene& scene, const Cut& cut, const PickFilter& shown);

/// The cut faces of one opening's parts and of its wall's, in the same order; nothing else of the scene is looked at.
/// The scene must be one that `build` made.
[[nodiscard]] std::vector<CutFace> sectionOf(const Scene& scene, const Cut& cut, std::size_t opening);

}  // namespace sillwright::scene
