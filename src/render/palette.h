/// The colours of the drawing and how each material's pattern lies on it: our own, tuned by eye on paper and at night.
///
/// RGB 0…1 as they go to the screen (no linear light: a drawing is mixed like paint). Inside this room only.
#pragma once

#include <array>
#include <cstdint>
#include <glm/glm.hpp>
#include <vector>

#include "scene/scene.h"

namespace sillwright::render {

/// Which painted tile a face wears: layers of the pattern texture, see paintTile.
/// The last three are section patterns: parallel strokes, crossed ones, and a builder's stipple.
enum class Pattern : std::uint8_t { Timber, EndGrain, Weave, Mottle, Brushed, Sheen, Strokes, Crossed, Stipple };
inline constexpr std::size_t kPatterns = 9;

struct Finish {
  glm::vec3 colour{1.0F};  ///< Where the pattern is 0.
  glm::vec3 streak{1.0F};  ///< Where the pattern is 1.
  Pattern pattern = Pattern::Mottle;
  glm::vec2 tile_mm{1000.0F};  ///< Size of one tile along and across the grain; below 0 mirrored.
  float vary = 0.0F;           ///< How much one part's tone may differ from the next's, 0…1.
};

/// A material's long faces and its faces across the grain, and what it shows where it is cut: along the grain or as a
/// whole, and across the grain. Of cut aluminium the streak is the hollow of the profile.
struct Paint {
  Finish face;
  Finish end;
  Finish cut{};
  Finish cut_across{};
  float alpha = 1.0F;
};

struct Palette {
  glm::vec3 ground{1.0F};
  glm::vec3 ink{0.0F};
  glm::vec3 accent{0.0F};  ///< Outlines and tint of what is picked.
  glm::vec3 glow{1.0F};    ///< Tint of what the pointer is over.
  glm::vec3 light{1.0F};   ///< Multiplies a face turned to the light.
  glm::vec3 shade{0.7F};   ///< Multiplies a face turned from it.
  glm::vec4 shadow{0.0F};  ///< Colour and most opacity of the contact shadow.
  std::array<Paint, scene::kMaterials> paint;
};

[[nodiscard]] Palette palette(bool dark);

// The quiet patterns on the materials, painted once into small repeating tiles.
//
// Painted rather than worked out a pixel at a time, so that the card can shrink them smoothly with distance: no
// shimmer, and one lookup a pixel. Inside this room only; no OpenGL here.

inline constexpr int kTile = 256;   ///< Pixels each way.
inline constexpr int kStrokes = 8;  ///< Strokes across a tile of Strokes or Crossed, at 45°.

/// kTile × kTile bytes, 0 the material's colour and 255 its streak's; x along the grain, y across. Repeats seamlessly,
/// but for EndGrain, of which a part shows a piece. The same on every machine but
/// for the last bit of its sines.
[[nodiscard]] std::vector<std::uint8_t> paintTile(Pattern pattern);

}  // namespace sillwright::render
