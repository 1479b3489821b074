#include "scene/mesh/mesh.h"

#include <tiny_obj_loader.h>

#include <algorithm>
#include <cmath>
#include <sstream>
#include <utility>

#include "base/read_file.h"
#include "scene/mesh/mesh_parts.h"

namespace sillwright::scene {
namespace {

/// What the loader's callbacks fill.
struct Loaded {
  Faces faces;
  std::vector<std::vector<std::uint32_t>> polygons;
};

void onVertex(void* user, tinyobj::real_t x, tinyobj::real_t y, tinyobj::real_t z, tinyobj::real_t /*w*/) {
  static_cast<Loaded*>(user)->faces.vertex.emplace_back(x, y, z);
}

void onFace(void* user, tinyobj::index_t* corners, int count) {
  auto& loaded = *static_cast<Loaded*>(user);
  std::vector<std::uint32_t>& ring = loaded.polygons.emplace_back();
  ring.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    // As written in the file: from 1, or from the last vertex backwards. checkObj has seen to the range.
    const int index = corners[i].vertex_index;
    const auto so_far = static_cast<int>(loaded.faces.vertex.size());
    ring.push_back(static_cast<std::uint32_t>(index > 0 ? index - 1 : so_far + index));
  }
}

/// Whether the loader saw the vertices and corners that checkObj saw: it reads lines and numbers in its own way.
bool isAsChecked(const Loaded& loaded) {
  const auto lies = [](const glm::vec3& vertex) {  // false for what is not a number, too
    return std::abs(vertex.x) <= kFarthestVertex && std::abs(vertex.y) <= kFarthestVertex &&
           std::abs(vertex.z) <= kFarthestVertex;
  };
  const auto all = [](const auto& range, const auto& good) { return std::all_of(range.begin(), range.end(), good); };
  return all(loaded.faces.vertex, lies) && all(loaded.polygons, [&](const auto& ring) {
           return all(ring, [&](std::uint32_t corner) { return corner < loaded.faces.vertex.size(); });
         });
}

template <class T>
base::Result<T> refused(std::vector<base::Error> errors) {
  base::Result<T> result;
  result.errors = std::move(errors);
  return result;
}

}  // namespace

base::Result<Mesh> readMesh(std::string_view text, std::string file) {
  if (std::vector<base::Error> errors = checkObj(text, file); !errors.empty()) {
    return refused<Mesh>(std::move(errors));
  }
  Loaded loaded;
  tinyobj::callback_t callback;
  callback.vertex_cb = onVertex;
  callback.index_cb = onFace;
  std::istringstream stream{std::string(text)};
  std::string warn, error;
  if (!tinyobj::LoadObjWithCallback(stream, callback, &loaded, nullptr, &warn, &error) || !isAsChecked(loaded)) {
    return refused<Mesh>({{std::move(file), {}, "", "the file can't be read as an OBJ"}});
  }
  for (std::vector<std::uint32_t>& ring : loaded.polygons) {
    if (addPolygonTo(loaded.faces, ring)) continue;
    return refused<Mesh>(
        {{std::move(file), {}, "", "too many faces cross themselves; have them cut into triangles first"}});
  }
  if (loaded.faces.corner.empty()) return refused<Mesh>({{std::move(file), {}, "", "none of the faces has any area"}});

  base::Result<Mesh> result;
  Mesh& mesh = result.value.emplace();
  mesh.name = std::move(file);
  mesh.corner.reserve(loaded.faces.corner.size());
  for (const std::uint32_t corner : loaded.faces.corner) mesh.corner.push_back(loaded.faces.vertex[corner]);
  mesh.line = inkedLines(loaded.faces);
  return result;
}

base::Result<Mesh> readMeshFile(const std::filesystem::path& path) {
  const auto text = base::loadText(path, kLargestMeshFile);
  return text.ok() ? readMesh(*text.value, path.generic_string()) : refused<Mesh>(text.errors);
}

std::vector<base::Error> checkMeshFile(const std::filesystem::path& path) {
  const auto text = base::loadText(path, kLargestMeshFile);
  return text.ok() ? checkObj(*text.value, path.generic_string()) : text.errors;
}

Box boundsOf(const Mesh& mesh) {
  return boxRound(mesh.corner);
}

}  // namespace sillwright::scene
