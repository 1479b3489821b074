/// The quiet patterns on the materials, painted once into small repeating tiles.
///
/// Painted rather than worked out a pixel at a time, so that the card can shrink them smoothly with distance: no
/// shimmer, and one lookup a pixel. Inside this room only; no OpenGL here.
#pragma once

#include <cstdint>
#include <vector>

#include "render/palette.h"

namespace sillwright::render {

inline constexpr int kTile = 256;   ///< Pixels each way.
inline constexpr int kStrokes = 8;  ///< Strokes across a tile of Strokes or Crossed, at 45°.

/// kTile × kTile bytes, 0 the material's colour and 255 its streak's; x along the grain, y across. Repeats seamlessly,
/// but for EndGrain, of which a part shows a piece. The same on every machine but
/// for the last bit of its sines.
[[nodiscard]] std::vector<std::uint8_t> paintTile(Pattern pattern);

}  // namespace sillwright::render
