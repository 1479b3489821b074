/// Inside the room: the boxes of a scene's meshes, each worked out when it is first asked for. The list may grow.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "scene/mesh/mesh.h"
#include "scene/scene.h"

namespace sillwright::scene {

class MeshBoxes {
 public:
  explicit MeshBoxes(const std::vector<Mesh>& meshes) : meshes_(meshes) {}
  const Box& operator[](std::size_t mesh) {
    if (boxes_.size() < meshes_.size()) boxes_.resize(meshes_.size());
    std::optional<Box>& box = boxes_[mesh];
    if (!box) box = boundsOf(meshes_[mesh]);
    return *box;
  }

 private:
  const std::vector<Mesh>& meshes_;
  std::vector<std::optional<Box>> boxes_;
};

}  // namespace sillwright::scene
