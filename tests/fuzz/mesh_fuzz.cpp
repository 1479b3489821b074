// Any bytes as an OBJ: a mesh of whole triangles that lie where the reader allows, or errors at their lines.
#include <cmath>

#include "fuzz/hold.h"
#include "scene/mesh/mesh.h"

using namespace sillwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const fuzz::InTime in_time;
  const auto bytes = fuzz::exactly(data, size);
  const auto read = scene::readMesh(fuzz::textOf(bytes), "fuzz.obj");
  fuzz::holdAnswer(read);
  if (!read.ok()) return 0;
  const scene::Mesh& mesh = *read.value;
  fuzz::hold(!mesh.corner.empty() && mesh.corner.size() % 3 == 0, "a mesh is of whole triangles");
  fuzz::hold(mesh.line.size() % 2 == 0, "a line has two ends");
  for (const auto& points : {mesh.corner, mesh.line}) {
    for (const auto& point : points) {
      for (int axis = 0; axis < 3; ++axis) {
        fuzz::hold(std::abs(point[axis]) <= scene::kFarthestVertex, "a mesh lies within its bounds");
      }
    }
  }
  return 0;
}
