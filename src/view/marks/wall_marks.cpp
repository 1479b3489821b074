#include "view/marks/marks.h"

#include <algorithm>
#include <string>
#include <vector>

#include "view/values/words.h"

namespace sillwright::view {
namespace {

/// Everything that stops or starts along the wall, from its left end.
std::vector<double> edgesAlong(const job::Job& job, std::size_t wall) {
  std::vector<double> edges{0, job.walls[wall].length};
  for (const job::Opening& opening : job.openings) {
    if (opening.wall != wall) continue;
    edges.push_back(opening.left);
    edges.push_back(opening.left + opening.width);
  }
  std::sort(edges.begin(), edges.end());
  return edges;
}

/// The wall's face that is nearer to the eye, for points x along it and z up.
struct Face {
  const scene::WallFrame& wall;
  float y;
  [[nodiscard]] glm::vec3 at(double x, double z) const {
    return wall.toWorld({static_cast<float>(x), y, static_cast<float>(z)});
  }
};

void drawHeight(Lettering& on, const Face& face, double x, double z, glm::vec3 aside, int row) {
  drawWallDimension(on, face.wall, face.at(x, 0), face.at(x, z), aside, figure(z, on.document.practice->display), row);
}

}  // namespace

void drawWallDimension(Lettering& on, const scene::WallFrame& wall, glm::vec3 a, glm::vec3 b, glm::vec3 aside,
                       const std::string& words, int row) {
  const auto& cut = on.shown.look.cut;
  if (isGone(cut, wall, a) || isGone(cut, wall, b)) return;
  drawDimension(on, a, b, aside, words, row);
}

void drawWallDimensions(Lettering& on, std::size_t index) {
  const job::Wall& wall = on.document.job.walls[index];
  const scene::WallFrame& frame = on.document.scene.walls[index];
  const practice::Display display = on.document.practice->display;
  const bool outside = glm::dot(on.shown.camera.eye() - frame.origin, frame.inward) < frame.depth * 0.5F;
  const Face face{frame, outside ? 0.0F : frame.depth};
  const glm::vec3 down{0.0F, 0.0F, -1.0F};
  const std::vector<double> edges = edgesAlong(on.document.job, index);
  drawWallDimension(on, face.wall, face.at(0, 0), face.at(wall.length, 0), down, figure(wall.length, display),
                    edges.size() > 2 ? 1 : 0);
  for (std::size_t i = 0; edges.size() > 2 && i + 1 < edges.size(); ++i) {
    const double between = edges[i + 1] - edges[i];
    drawWallDimension(on, face.wall, face.at(edges[i], 0), face.at(edges[i + 1], 0), down, figure(between, display));
  }
  if (wall.top.empty()) return;
  const auto& first = wall.top.front();
  const auto& last = wall.top.back();
  drawHeight(on, face, 0, first.z, -frame.along, 0);
  if (!isLevel(wall)) drawHeight(on, face, wall.length, last.z, frame.along, 0);
  const auto highest =
      std::max_element(wall.top.begin(), wall.top.end(), [](const auto& a, const auto& b) { return a.z < b.z; });
  if (highest->z > std::max(first.z, last.z)) drawHeight(on, face, wall.length, highest->z, frame.along, 1);
}

}  // namespace sillwright::view
