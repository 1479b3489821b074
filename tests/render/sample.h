/// Scenes made by hand for the renderer's tests: single boxes, rows of boxes, and one framed wall with a window.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <glm/glm.hpp>

#include "scene/scene.h"

namespace sillwright::sample {

using scene::Layer;
using scene::Material;
using scene::Scene;

inline void growBounds(Scene& scene, glm::vec3 p) {
  const bool first =
      scene.solids.empty() && scene.bounds.low == glm::vec3(0.0F) && scene.bounds.high == glm::vec3(0.0F);
  scene.bounds.low = first ? p : glm::min(scene.bounds.low, p);
  scene.bounds.high = first ? p : glm::max(scene.bounds.high, p);
}

inline std::uint32_t addPart(Scene& scene, Material material, Layer layer, int wall = -1, int opening = -1,
                             std::uint8_t step = 0) {
  scene::Part part;
  part.material = material;
  part.layer = layer;
  part.wall = wall;
  part.opening = opening;
  part.step = scene::PartStep{step};
  scene.parts.push_back(part);
  return static_cast<std::uint32_t>(scene.parts.size() - 1);
}

inline scene::Solid boxSolid(glm::vec3 low, glm::vec3 high, std::uint8_t grain, std::uint32_t part) {
  scene::Solid solid;
  for (std::size_t i = 0; i < 8; ++i) {
    solid.corner[i] = {(i & 1U) != 0 ? high.x : low.x, (i & 2U) != 0 ? high.y : low.y, (i & 4U) != 0 ? high.z : low.z};
  }
  solid.grain = grain;
  solid.part = part;
  return solid;
}

/// A box of its own part; the grain runs along its longest side.
inline std::uint32_t addBox(Scene& scene, Material material, Layer layer, glm::vec3 low, glm::vec3 high, int wall = -1,
                            int opening = -1, std::uint8_t step = 0) {
  const std::uint32_t part = addPart(scene, material, layer, wall, opening, step);
  const glm::vec3 size = high - low;
  std::uint8_t grain = 0;
  if (size.y > size.x && size.y > size.z) grain = 1;
  if (size.z > size.x && size.z >= size.y) grain = 2;
  growBounds(scene, low);
  growBounds(scene, high);
  scene.solids.push_back(boxSolid(low, high, grain, part));
  return part;
}

/// One stick of a mitred frame in the plane y: from corner to corner along x or z, with 45° ends.
inline void addMitred(Scene& scene, Material material, Layer layer, glm::vec3 outer_low, glm::vec3 outer_high,
                      float face, int wall, int opening, std::uint8_t step) {
  const float y0 = outer_low.y;
  const float y1 = outer_high.y;
  const float x0 = outer_low.x;
  const float x1 = outer_high.x;
  const float z0 = outer_low.z;
  const float z1 = outer_high.z;
  const auto add = [&](std::array<glm::vec3, 8> corner, std::uint8_t grain) {
    scene::Solid solid;
    solid.corner = corner;
    solid.grain = grain;
    solid.part = addPart(scene, material, layer, wall, opening, step);
    scene.solids.push_back(solid);
  };
  const auto horizontal = [&](float outer, float inner) {
    const float low = std::min(outer, inner);
    const float high = std::max(outer, inner);
    const float a = low == outer ? 0.0F : face;
    const float b = face - a;
    add({{{x0 + a, y0, low},
          {x1 - a, y0, low},
          {x0 + a, y1, low},
          {x1 - a, y1, low},
          {x0 + b, y0, high},
          {x1 - b, y0, high},
          {x0 + b, y1, high},
          {x1 - b, y1, high}}},
        0);
  };
  const auto upright = [&](float outer, float inner) {
    const float low = std::min(outer, inner);
    const float high = std::max(outer, inner);
    const float a = low == outer ? 0.0F : face;
    const float b = face - a;
    add({{{low, y0, z0 + a},
          {high, y0, z0 + b},
          {low, y1, z0 + a},
          {high, y1, z0 + b},
          {low, y0, z1 - a},
          {high, y0, z1 - b},
          {low, y1, z1 - a},
          {high, y1, z1 - b}}},
        2);
  };
  horizontal(z0, z0 + face);
  horizontal(z1, z1 - face);
  upright(x0, x0 + face);
  upright(x1, x1 - face);
  growBounds(scene, outer_low);
  growBounds(scene, outer_high);
}

/// A framed wall 3600 long and 2400 high along +X with one window 1200 × 900, laid in layers, on a slab.
inline Scene framedWall() {
  Scene s;
  scene::WallFrame wall;
  wall.length = 3600.0F;
  wall.height = 2400.0F;
  wall.depth = 90.0F;
  s.walls.push_back(wall);
  const auto pine = [&](glm::vec3 low, glm::vec3 high, int opening = -1) {
    addBox(s, Material::Pine, Layer::Frame, low, high, 0, opening);
  };
  constexpr float d = 90.0F;
  constexpr float t = 45.0F;
  constexpr float left = 1190.0F;  // Framed opening.
  constexpr float right = 2410.0F;
  constexpr float sill = 900.0F;
  constexpr float head = 1820.0F;
  // Plates.
  pine({0, 0, 0}, {3600, d, t});
  pine({0, 0, 2400 - t}, {3600, d, 2400});
  // Studs, whole and cut.
  for (float x = 0.0F; x < 3600.0F; x += 450.0F) {
    const float a = std::min(x, 3600.0F - t);
    if (a + t <= left - t || a >= right + t) {
      pine({a, 0, t}, {a + t, d, 2400 - t});
    } else if (a >= left && a + t <= right) {
      pine({a, 0, t}, {a + t, d, sill - t}, 0);
      pine({a, 0, head + 190}, {a + t, d, 2400 - t}, 0);
    }
  }
  pine({3600 - t, 0, t}, {3600, d, 2400 - t});
  pine({left - t, 0, t}, {left, d, 2400 - t}, 0);
  pine({right, 0, t}, {right + t, d, 2400 - t}, 0);
  pine({left, 0, sill - t}, {right, d, sill}, 0);
  addBox(s, Material::LintelTimber, Layer::Frame, {left, 0, head}, {right, d, head + 190}, 0, 0);
  // Noggings.
  for (const float x : {45.0F, 495.0F, 2745.0F}) pine({x, 0, 1178}, {x + 405, d, 1178 + t});
  pine({3195, 0, 1178}, {3555, d, 1178 + t});
  // Membrane with the opening cut out, on the left two thirds; cladding on the left third.
  const auto sheet = [&](glm::vec3 low, glm::vec3 high) {
    addBox(s, Material::Membrane, Layer::Membrane, low, high, 0, -1, 1);
  };
  sheet({0, -1, 0}, {left, 0, 1300});
  sheet({0, -2, 1150}, {left, -1, 2400});
  sheet({left, -1, 0}, {right, 0, sill});
  sheet({left, -1, head}, {right, 0, 2400});
  sheet({right, -1, 0}, {2900, 0, 2400});
  for (float z = 0.0F; z < 2350.0F; z += 180.0F) {
    scene::Solid board;
    board.part = addPart(s, Material::Cladding, Layer::Cladding, 0, -1, 6);
    const float top = std::min(z + 200.0F, 2400.0F);
    board.corner = {{{0, -38, z},
                     {800, -38, z},
                     {0, -20, z},
                     {800, -20, z},
                     {0, -27, top},
                     {800, -27, top},
                     {0, -20, top},
                     {800, -20, top}}};
    s.solids.push_back(board);
  }
  for (const float x : {0.0F, 450.0F, 755.0F}) {
    addBox(s, Material::Batten, Layer::Battens, {x, -20, 0}, {x + t, -2, 2400}, 0, -1, 5);
  }
  // Flashings: sill under jambs; head metal.
  addBox(s, Material::FlexibleFlashing, Layer::Flashing, {left - 150, -2, sill - 130}, {right + 150, -1, sill}, 0, 0,
         2);
  addBox(s, Material::FlexibleFlashing, Layer::Flashing, {left - 110, -3, sill - 60}, {left, -2, head + 60}, 0, 0, 2);
  addBox(s, Material::FlexibleFlashing, Layer::Flashing, {right, -3, sill - 60}, {right + 110, -2, head + 60}, 0, 0, 2);
  addBox(s, Material::FoldedMetal, Layer::Flashing, {left - 60, -4, head - 5}, {right + 60, -3, head + 70}, 0, 0, 4);
  addBox(s, Material::FoldedMetal, Layer::Flashing, {left - 60, -50, head + 12}, {right + 60, -4, head + 14}, 0, 0, 4);
  addBox(s, Material::FoldedMetal, Layer::Flashing, {left - 60, -52, head - 12}, {right + 60, -50, head + 14}, 0, 0, 4);
  // Packers.
  for (const float x : {left + 10, (left + right) * 0.5F, right - 85}) {
    addBox(s, Material::Packer, Layer::Packing, {x, 10, sill}, {x + 75, 80, sill + 10}, 0, 0, 2);
  }
  for (const float z : {sill + 150, (sill + head) * 0.5F, head - 180}) {
    addBox(s, Material::Packer, Layer::Packing, {left, 10, z}, {left + 10, 80, z + 32}, 0, 0, 2);
    addBox(s, Material::Packer, Layer::Packing, {right - 10, 10, z}, {right, 80, z + 32}, 0, 0, 2);
  }
  // Reveal, aluminium frame, two sashes, glass, fin.
  addMitred(s, Material::RevealTimber, Layer::Unit, {left + 10, 0, sill + 10}, {right - 10, 100, head - 10}, 18, 0, 0,
            3);
  addMitred(s, Material::Aluminium, Layer::Unit, {left + 28, -35, sill + 28}, {right - 28, 30, head - 28}, 34, 0, 0, 3);
  addMitred(s, Material::Aluminium, Layer::Unit, {left - 20, -6, sill - 20}, {right + 20, -3, head + 20}, 48, 0, 0, 3);
  const float middle = (left + right) * 0.5F;
  addMitred(s, Material::Aluminium, Layer::Unit, {left + 62, -26, sill + 62}, {middle + 20, -4, head - 62}, 38, 0, 0,
            3);
  addMitred(s, Material::Aluminium, Layer::Unit, {middle - 20, 0, sill + 62}, {right - 62, 22, head - 62}, 38, 0, 0, 3);
  addBox(s, Material::Glass, Layer::Unit, {left + 95, -18, sill + 95}, {middle - 14, -12, head - 95}, 0, 0, 3);
  addBox(s, Material::Glass, Layer::Unit, {middle + 14, 8, sill + 95}, {right - 95, 14, head - 95}, 0, 0, 3);
  // Lining inside, on the right.
  addBox(s, Material::Lining, Layer::Lining, {2410, 90, 0}, {3600, 100, 2400}, 0, -1, 7);
  // Slab: of the ground, so outside the bounds.
  const scene::Box bounds = s.bounds;
  addBox(s, Material::Floor, Layer::Ground, {-600, -900, -100}, {4200, 1500, 0});
  s.bounds = bounds;
  scene::OpeningFrame opening;
  opening.centre = {middle, 0, (sill + head) * 0.5F};
  opening.width = right - left;
  opening.height = head - sill;
  s.openings.push_back(opening);
  return s;
}

}  // namespace sillwright::sample
