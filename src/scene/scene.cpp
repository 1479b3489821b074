#include "scene/scene.h"

namespace sillwright::scene {

// Bits 0–3 of Solid::edges run along u, 4–7 along v, 8–11 along w.
const std::array<std::array<std::uint8_t, 2>, 12> kEdges = {
    {{0, 1}, {2, 3}, {4, 5}, {6, 7}, {0, 2}, {1, 3}, {4, 6}, {5, 7}, {0, 4}, {1, 5}, {2, 6}, {3, 7}}};

const std::array<std::array<std::uint8_t, 4>, 6> kFaces = {
    {{0, 4, 6, 2}, {1, 3, 7, 5}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 2, 3, 1}, {4, 5, 7, 6}}};

}  // namespace sillwright::scene
