/// Which faces of which solids the eye can see: worked out here, before the card sees anything.
///
/// Of each solid only the faces turned to the eye are drawn, each with two bits an edge: whether it is inked at all,
/// and whether it is an outline (the face beyond it is turned away), which gets the whole width of the pen; an edge
/// with both its faces in view gets half from each. So lines lie exactly in the faces they belong to: none shows
/// through a sheet of a millimetre, none flickers. No OpenGL here; inside this room only.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "render/camera.h"
#include "render/renderer.h"
#include "scene/scene.h"

namespace sillwright::render {

/// What is kept of a solid for the asking.
struct Seen {
  std::array<glm::vec4, 6> plane{};  ///< Outward normal and distance: dot(n, p) + w > 0 is outside. Zero: no face.
  std::array<glm::vec3, 8> corner{};
  glm::vec3 centre{0.0F};
  float radius = 0.0F;
  glm::vec3 inward{0.0F};  ///< Of its wall; zero without one.
  scene::Layer layer = scene::Layer::Frame;
  std::uint8_t step = 0;
  std::uint16_t edges = 0;
  bool glass = false;
};

/// Plane of a solid's face (corner numbers in `face`); zero where the face has shrunk to a line.
[[nodiscard]] glm::vec4 planeOf(const scene::Solid& solid, const std::array<std::uint8_t, 4>& face);

[[nodiscard]] std::vector<Seen> makeSeen(const scene::Scene& scene);

/// A face to draw, in one number: solid << 11 | face << 8 | inked edges << 4 | outlines. Edge k of a face runs from its
/// corner k to the next.
[[nodiscard]] constexpr std::uint32_t packFace(std::size_t solid, std::size_t face, std::uint32_t inked,
                                               std::uint32_t outline) {
  return static_cast<std::uint32_t>(solid) << 11U | static_cast<std::uint32_t>(face) << 8U | inked << 4U | outline;
}
inline constexpr std::size_t kMostSolids = std::size_t{1} << 21U;

struct Visible {
  std::vector<std::uint32_t> opaque;  ///< Nearest solids first, to spare the card what is covered.
  std::vector<std::uint32_t> glass;   ///< Farthest first, for blending.
  std::size_t solids = 0;
  float near_depth = 0.0F;  ///< Of what is listed, along the camera's forward.
  float far_depth = 0.0F;
};

/// Fills `out` (reusing its memory) with what `camera` sees of `seen` under `look`.
void listVisible(Visible& out, const std::vector<Seen>& seen, const Camera& camera, const Look& look, float aspect);

/// Whether a part of this layer and step is drawn at all.
[[nodiscard]] bool isShown(scene::Layer layer, std::uint8_t step, const Look& look);

}  // namespace sillwright::render
