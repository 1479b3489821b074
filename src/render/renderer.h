/// Drawing a Scene with OpenGL 3.3 core, the same way into a window's target and off-screen.
///
/// The look is a carpenter's drawing: off-white ground, ink edges, flat soft light, grain along the timber, a soft
/// contact shadow, glass last. A cut plane takes one side away and shows what it cuts as a section does: patterned by
/// material, with a heavy line round it. Solids are hexahedra that the vertex shader reads by number from one buffer:
/// the number of draw calls does not grow with openings. The ink lies inside the faces it belongs to (see visible.h).
/// Knows scenes only; never a job. Everything here needs a current OpenGL context of 3.3 or later.
#pragma once

#include <cstdint>
#include <glm/glm.hpp>
#include <memory>
#include <optional>
#include <vector>

#include "render/camera.h"
#include "scene/scene.h"
#include "scene/section/section.h"

namespace sillwright::render {

/// How the scene is shown. A value; part of what decides whether a new picture is needed.
struct Look {
  bool dark = false;
  std::uint32_t hidden_layers = 0;          ///< Bit per scene::Layer.
  std::uint32_t hidden_steps = 0;           ///< scene::bitOf each step whose parts aren't there yet.
  std::optional<scene::PartStep> lit_step;  ///< Parts of exactly this step are lit.
  float spread = 0.0F;                      ///< mm that each layer is pulled from the next, along its wall's y.
  std::int64_t hovered_part = -1;
  std::int64_t picked_part = -1;
  float edge_px = 1.2F;
  bool shadow = true;
  std::optional<scene::Cut> cut;  ///< What is beyond it isn't drawn; Renderer::cut fills its faces.
  bool operator==(const Look&) const = default;
};

/// An off-screen picture: multisampled colour and depth, resolved into a texture.
class Target {
 public:
  Target(int width, int height, int samples);
  ~Target();

  void resize(int width, int height, int samples);
  [[nodiscard]] int width() const;
  [[nodiscard]] int height() const;
  [[nodiscard]] int samples() const;
  /// Makes the multisampled buffer current for drawing. `straight`: with one sample, what is drawn needs no copy, and
  /// is gone once something is drawn over the resolved picture.
  void begin(bool straight = false);
  /// Resolves into the single-sampled buffer and leaves that bound, for labels and panels to be drawn on.
  void resolve() { resolve({0.0F, 0.0F, width(), height()}); }
  /// The same for a box of it: left, bottom, right and top in pixels.
  void resolve(glm::ivec4 box);
  /// OpenGL's name of the texture that holds the resolved picture, its lowest row first.
  [[nodiscard]] unsigned texture() const;
  /// Copies the resolved picture to the window's own buffer.
  void blitToWindow(int window_width, int window_height);
  /// The resolved picture, RGB, top row first.
  [[nodiscard]] std::vector<std::uint8_t> read();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// A box of a picture, pixels: left, top, right and bottom. kNowhere holds nothing, and grows; kEverywhere is any
/// whole.
using PixelBox = glm::vec4;
inline constexpr PixelBox kNowhere{1e6F, 1e6F, -1e6F, -1e6F};
inline constexpr PixelBox kEverywhere = -kNowhere;
[[nodiscard]] PixelBox joined(const PixelBox& a, const PixelBox& b);
[[nodiscard]] PixelBox common(const PixelBox& a, const PixelBox& b);
[[nodiscard]] float areaOf(const PixelBox& box);
/// Puts a box to others: two that are hardly larger as one become one.
void addBox(std::vector<PixelBox>& boxes, PixelBox box);
/// The same pixels in whole boxes of a picture of this size, none of which lies over another.
[[nodiscard]] std::vector<PixelBox> apart(const std::vector<PixelBox>& boxes, glm::vec2 size);

struct DrawCounts {
  int draw_calls = 0;
  std::size_t solids = 0;
  std::vector<PixelBox> boxes;  ///< What was drawn of the picture.
};

class Renderer {
 public:
  /// Must be destroyed while its context is current.
  Renderer();  ///< Throws std::runtime_error with one sentence where the context can't run the programs.
  ~Renderer();

  /// Sends a scene to the card. Must be called again when the scene has changed.
  void upload(const scene::Scene& scene);
  /// Works out the faces that the look's cut makes in the scene, which must be the one uploaded last; nothing to do
  /// where there is no cut, or nothing that decides them has changed. To be called before `draw`.
  void cut(const scene::Scene& scene, const Look& look);
  /// Draws the uploaded scene into the buffer that is bound (Target::begin). `kept`: that still holds what this
  /// renderer drew last, and only boxes round what has changed are drawn. The picture is the same.
  DrawCounts draw(const Camera& camera, const Look& look, int width, int height, bool kept = false);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// Where a part of `layer` is moved by `look.spread`, in mm along its wall's y (− is outwards).
[[nodiscard]] float spreadOffset(scene::Layer layer, float spread);

/// What of a scene is there under a look, for picking and for a section.
[[nodiscard]] scene::PickFilter shownUnder(const Look& look);

/// Background colour of a look, RGB 0…1.
[[nodiscard]] glm::vec3 groundColour(bool dark);

// Where the soft shadows of the walls' feet lie: on the floor, cut to its edges, and on the ground around it.
//
// A wall's shadow is a rectangle wider than the wall by kShadowReach, shaded by how far each point is from the wall's
// own foot. Laid out once a scene as triangles; no OpenGL here; inside this room only.

/// How far the soft shadow reaches from a wall's foot, mm.
inline constexpr float kShadowReach = 620.0F;

struct ShadowCorner {
  glm::vec3 place{0.0F};  ///< World.
  glm::vec2 spot{0.0F};   ///< From the wall's origin along it and inwards, mm.
  glm::vec2 size{0.0F};   ///< The wall's length and thickness.
  glm::vec4 run{0.0F};    ///< Along x, y; inward x, y.
};

/// Three corners a triangle.
struct Shadows {
  std::vector<ShadowCorner> laid;  ///< On the floor and on the ground below it.
  std::vector<ShadowCorner> bare;  ///< At the walls' feet, for when no floor is drawn.
};

[[nodiscard]] Shadows layShadows(const scene::Scene& scene);

/// The part of one convex polygon (anticlockwise on plan) that lies within another. May be empty.
[[nodiscard]] std::vector<glm::vec2> clipTo(std::vector<glm::vec2> polygon, const std::vector<glm::vec2>& within);

}  // namespace sillwright::render
