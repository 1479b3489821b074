/// Finds the faces of solids that the camera can see, before anything is sent to the graphics card.
///
/// Of each solid only the faces turned to the eye are drawn, each with two bits an edge: whether it is inked at all,
/// and whether it is an outline (the face beyond it is turned away), which gets the whole width of the pen; an edge
/// with both its faces in view gets half from each. So lines lie exactly in the faces they belong to: none shows
/// through a sheet of a millimetre, none flickers. No OpenGL here; inside this room only.
#pragma once

#include <array>
#include <cstdint>
#include <limits>
#include <vector>

#include "render/camera.h"
#include "render/renderer.h"
#include "render/sent.h"
#include "scene/scene.h"

namespace sillwright::render {

/// A solid's place and size: enough to reject most of the solids that can't be seen.
struct Whereabouts {
  glm::vec3 centre{0.0F};
  float radius = -1.0F;    ///< Below 0: this place on the card is empty.
  glm::vec3 inward{0.0F};  ///< Of its wall; zero without one.
  glm::vec3 narrow{0.0F};  ///< Narrower side of the faces across its u, v and w, mm; a mesh's width.
  scene::Layer layer = scene::Layer::Frame;
  scene::PartStep step{};
  bool glass = false;
  bool operator==(const Whereabouts&) const = default;
};

/// The geometry that decides which faces are drawn; read only where Whereabouts doesn't reject the solid.
struct Shape {
  std::array<glm::vec4, 6> plane{};  ///< Outward normal and distance: dot(n, p) + w > 0 is outside. Zero: no face.
  std::uint32_t inked = 0;           ///< Four bits a face, from the first: whether its edge k is inked.
};

/// A scene's solids as listVisible reads them, indexed by their places on the card.
struct Seen {
  std::vector<Whereabouts> where;
  std::vector<Shape> shape;
  std::vector<std::array<glm::vec3, 8>> corner;
};

/// Updates `seen` for the changed solids; it was made from a scene that differs in no others. `places`: how many
/// places the card has now.
void renew(Seen& seen, const scene::Scene& scene, std::size_t places, const std::vector<Stretch>& changed);

/// A face to draw, in one number: solid << 11 | face << 8 | inked edges << 4 | outlines. Edge k of a face runs from its
/// corner k to the next.
[[nodiscard]] constexpr std::uint32_t packFace(std::size_t solid, std::size_t face, std::uint32_t inked,
                                               std::uint32_t outline) {
  return static_cast<std::uint32_t>(solid) << 11U | static_cast<std::uint32_t>(face) << 8U | inked << 4U | outline;
}
inline constexpr unsigned kSolidBits = 21;
inline constexpr std::size_t kMostSolids = std::size_t{1} << kSolidBits;

/// The size below which things are left out of a picture of a given height in pixels.
struct Smallness {
  static constexpr float kLeastRadius = 0.3F;  ///< Pixels; below it a thing only flickers, if it is met at all.
  float least_mm = 0.0F;                       ///< In the plane through the target.
  float distance = 1.0F;
  bool parallel = false;
  Smallness(const Camera& camera, float height);
  [[nodiscard]] bool isTooSmall(float radius, float depth) const {
    return parallel ? radius < least_mm : radius * distance < least_mm * depth;
  }
  static constexpr float kLeastWidth = 0.15F;  ///< Pixels, of a face.
  /// Whether a face of this width shows only as a line of stray samples at this depth: the edge of a membrane, the top
  /// of a board far away.
  [[nodiscard]] bool isTooNarrow(float width, float depth) const {
    return isTooSmall(width * (kLeastRadius / kLeastWidth), depth);
  }
};

/// A solid to draw; `depth` holds the bits of a positive float, which rise with it.
struct Ranked {
  std::uint32_t depth = 0;
  std::uint32_t solid = 0;  ///< In kSolidBits; above those, a bit an axis whose faces are too narrow to be drawn.
  std::uint32_t faces = 0;  ///< A bit a face that is turned to the eye; above those, Shape::inked. 0: not seen.
};

/// Depths are sorted into so many steps, each the same ratio, from the nearest to the farthest of the list.
inline constexpr std::size_t kDepthSteps = std::size_t{1} << 14U;
/// Sorts by depth; entries within one step keep their order. In a house a step is less than a millimetre, and a wrong
/// order costs only some overdraw. Linear time (distribution counting: Knuth, The Art of Computer Programming 3, 5.2).
/// `spare` is scratch memory.
void sortByDepth(std::vector<Ranked>& list, std::vector<Ranked>& spare);

/// A depth range along the camera's forward that grows with what is put in it; empty at first.
struct DepthRange {
  float near_depth = std::numeric_limits<float>::max();
  float far_depth = std::numeric_limits<float>::lowest();
  void hold(float depth, float radius = 0.0F);
  void join(const DepthRange& other);
  bool operator==(const DepthRange&) const = default;
};

/// A box of what is seen with the layers so far apart.
struct Within {
  Projection seen;
  float spread = 0.0F;
  PixelBox box = kEverywhere;
  /// Round the picture of a thing, with a pixel to spare: of a ball, and of corners; without bounds where it reaches
  /// behind the eye.
  [[nodiscard]] PixelBox round(const Whereabouts& where) const;
  [[nodiscard]] PixelBox round(const Whereabouts& where, const std::array<glm::vec3, 8>& corners) const;
  [[nodiscard]] bool touches(const PixelBox& other) const { return areaOf(common(box, other)) > 0.0F; }
};

/// Solids in the order in which they are drawn, with their faces.
struct Listed {
  std::vector<Ranked> solids;
  std::vector<std::uint32_t> faces;
  std::vector<PixelBox> boxes;  ///< Round the solids; empty until they are asked for.
  PixelBox around = kNowhere;   ///< Round all of those.
  void listFaces();
  /// `all`, and the faces behind it; `within`: of solids that touch it.
  [[nodiscard]] std::vector<std::uint32_t> facesIn(const Seen& seen, const Within* within,
                                                   std::vector<std::uint32_t> all = {});
};

/// A run of neighbouring solids of the scene, listed by one thread.
struct Patch {
  bool listed = false;  ///< Under this camera and look, with the solids as they are.
  Listed opaque;        ///< Nearest first.
  std::vector<Ranked> glass;
  std::vector<Ranked> spare;
  DepthRange depths;
};
inline constexpr std::size_t kPatch = 2048;  ///< Solids. A house is one.

struct Visible {
  Listed glass;  ///< Farthest first, for blending.
  std::size_t solids = 0;
  DepthRange depths;           ///< Of what is listed.
  std::vector<Patch> patches;  ///< What the lists are made from.
  std::vector<Ranked> spare;

  /// The opaque faces (`within`: of solids that touch it), nearest first to spare the card what is covered: patch by
  /// patch, and within each.
  [[nodiscard]] std::vector<std::uint32_t> opaqueFaces(const Seen& seen, const Within* within);
  /// Has these places listed again.
  void forget(const std::vector<std::size_t>& places);
};

/// Fills `out` (reusing its memory) with what `camera` sees of `seen` under `look` in a picture of `size` pixels.
/// Solids much smaller than a pixel are left out: in a view of a whole large site, most of them. `again`: but for what
/// was forgotten all is as it was for the last list.
void listVisible(Visible& out, const Seen& seen, const Camera& camera, const Look& look, glm::vec2 size, bool again);

/// Whether a part of this layer and step is drawn at all.
[[nodiscard]] bool isShown(scene::Layer layer, scene::PartStep step, const Look& look);

}  // namespace sillwright::render
