/// The colour that each material's faces have wherever the scene is shown: in the viewer, and in other programs.
#pragma once

#include <array>

#include "scene/scene.h"

namespace sillwright::scene {

/// 0xRRGGBB as it goes to the screen.
[[nodiscard]] constexpr unsigned faceColour(Material material) {
  constexpr std::array<unsigned, kMaterials> kColours{0xF0D6A8, 0xE6BF86, 0xF6E7C8, 0xD1DDDE, 0x303337, 0xA6AFB4,
                                                      0xDCDFE0, 0xC2DDD9, 0xF3F1EC, 0xE2E4DB, 0xE6CFA6, 0x8F77B4,
                                                      0x6A7178, 0xE7E2D6, 0xE9E3D6, 0x3A3D41, 0xCB9077, 0xDCD6C9};
  return kColours[static_cast<std::size_t>(material)];
}

/// 0 … 1.
[[nodiscard]] constexpr float opacityOf(Material material) {
  return material == Material::Glass ? 0.36F : 1.0F;
}

}  // namespace sillwright::scene
