// A mesh cut by a plane: its triangles leave an outline, and what that encloses is laid out in strips from below up.

#include <algorithm>
#include <cmath>

#include "scene/section/section.h"
#include "scene/section/section_parts.h"

namespace sillwright::scene {
namespace {

constexpr double kLeastStrip = 1e-4;  // mm

/// A piece of the outline, the mesh on its left.
struct Piece {
  glm::dvec2 from{0.0};
  glm::dvec2 to{0.0};

  [[nodiscard]] double low() const { return std::min(from.y, to.y); }
  [[nodiscard]] double high() const { return std::max(from.y, to.y); }
  [[nodiscard]] bool falls() const { return to.y < from.y; }  // as a left side of the mesh does
  [[nodiscard]] double at(double y) const { return from.x + (to.x - from.x) * ((y - from.y) / (to.y - from.y)); }
};

/// Between two pieces of the outline, from `low` to `high`.
struct Strip {
  double low = 0;
  double high = 0;
  std::array<double, 2> left{};  ///< At its bottom and its top.
  std::array<double, 2> right{};

  /// Whether a place of the bottom (0) or the top (1) lies in it.
  [[nodiscard]] bool holds(std::size_t end, double x) const { return x > left[end] && x < right[end]; }
  [[nodiscard]] double middle(std::size_t end) const { return (left[end] + right[end]) / 2; }
};

std::vector<Piece> outlineOf(const Mesh& mesh, const glm::dmat4& place, const Cut& cut, const CutPlane& plane) {
  std::vector<Piece> pieces;
  const glm::dvec3 normal = cut.normal;
  const double turned = glm::determinant(glm::dmat3(place)) < 0 ? -1 : 1;
  for (std::size_t i = 0; i + 2 < mesh.corner.size(); i += 3) {
    std::array<glm::dvec3, 3> corner;
    std::array<double, 3> beyond;
    for (std::size_t k = 0; k < 3; ++k) {
      corner[k] = glm::dvec3(place * glm::dvec4(glm::dvec3(mesh.corner[i + k]), 1.0));
      beyond[k] = glm::dot(normal, corner[k]) - static_cast<double>(cut.at);
    }
    std::array<glm::dvec2, 2> end;
    std::size_t ends = 0;
    for (std::size_t k = 0; k < 3; ++k) {
      const std::size_t next = (k + 1) % 3;
      // Half-open: a corner in the plane belongs to the far side, so that every outline closes.
      if ((beyond[k] < 0) == (beyond[next] < 0)) continue;
      const double t = beyond[k] / (beyond[k] - beyond[next]);
      if (ends < 2) end[ends++] = plane.to(corner[k] + (corner[next] - corner[k]) * t);
    }
    if (ends < 2) continue;
    const glm::dvec3 out = glm::cross(corner[1] - corner[0], corner[2] - corner[0]) * turned;
    const glm::dvec2 onward{-glm::dot(out, plane.up), glm::dot(out, plane.side)};
    if (glm::dot(end[1] - end[0], onward) < 0) std::swap(end[0], end[1]);
    pieces.push_back({end[0], end[1]});
  }
  return pieces;
}

/// The levels at which pieces begin or end.
std::vector<double> levelsOf(const std::vector<Piece>& pieces) {
  std::vector<double> levels;
  levels.reserve(2 * pieces.size());
  for (const Piece& piece : pieces) {
    levels.push_back(piece.low());
    levels.push_back(piece.high());
  }
  std::sort(levels.begin(), levels.end());
  levels.erase(
      std::unique(levels.begin(), levels.end(), [](double a, double b) { return std::abs(a - b) < kLeastStrip; }),
      levels.end());
  return levels;
}

/// What the pieces enclose between two levels, by how often they wind round it. `active` are those that pass.
void addStrips(std::vector<Strip>& strips, std::vector<const Piece*>& active, double low, double high) {
  const double middle = (low + high) / 2;
  std::sort(active.begin(), active.end(),
            [&](const Piece* a, const Piece* b) { return a->at(middle) < b->at(middle); });
  const std::size_t first = strips.size();
  int winds = 0;
  const Piece* left = nullptr;
  for (const Piece* piece : active) {
    const int before = winds;
    winds += piece->falls() ? 1 : -1;
    if (before == 0 && winds != 0) left = piece;
    if (before != 0 && winds == 0) {
      strips.push_back({low, high, {left->at(low), left->at(high)}, {piece->at(low), piece->at(high)}});
    }
  }
  if (winds != 0) strips.resize(first);  // the mesh is open here
}

std::vector<Strip> stripsOf(std::vector<Piece>& pieces) {
  std::erase_if(pieces, [](const Piece& piece) { return piece.high() - piece.low() < kLeastStrip; });
  std::sort(pieces.begin(), pieces.end(), [](const Piece& a, const Piece& b) { return a.low() < b.low(); });
  const std::vector<double> levels = levelsOf(pieces);
  std::vector<Strip> strips;
  std::vector<const Piece*> active;
  std::size_t next = 0;
  for (std::size_t i = 0; i + 1 < levels.size(); ++i) {
    const double middle = (levels[i] + levels[i + 1]) / 2;
    while (next < pieces.size() && pieces[next].low() < middle) active.push_back(&pieces[next++]);
    std::erase_if(active, [&](const Piece* piece) { return piece->high() < middle; });
    addStrips(strips, active, levels[i], levels[i + 1]);
  }
  return strips;
}

/// Whether another strip goes on where the strip at `index` ends; its end is then a seam. Strips lie in rising order,
/// so that its neighbours are near in the list.
bool goesOn(const std::vector<Strip>& strips, std::size_t index, std::size_t end) {
  const Strip& strip = strips[index];
  const auto meets = [&](const Strip& other) {
    const double apart = end == 0 ? strip.low - other.high : other.low - strip.high;
    return std::abs(apart) < kLeastStrip && other.holds(1 - end, strip.middle(end));
  };
  if (end == 0) {
    for (std::size_t i = index; i-- > 0 && strips[i].high > strip.low - kLeastStrip;) {
      if (meets(strips[i])) return true;
    }
    return false;
  }
  for (std::size_t i = index + 1; i < strips.size() && strips[i].low < strip.high + kLeastStrip; ++i) {
    if (meets(strips[i])) return true;
  }
  return false;
}

}  // namespace

void cutThrough(const Mesh& mesh, const glm::mat4& place, const Cut& cut, std::uint32_t part,
                std::vector<CutFace>& faces) {
  const CutPlane plane(cut, glm::dvec3(place[3]));
  std::vector<Piece> pieces = outlineOf(mesh, glm::dmat4(place), cut, plane);
  if (pieces.empty()) return;
  const std::vector<Strip> strips = stripsOf(pieces);
  for (std::size_t i = 0; i < strips.size(); ++i) {
    const Strip& strip = strips[i];
    Outline outline;
    outline.add({strip.left[0], strip.low}, !goesOn(strips, i, 0));
    outline.add({strip.right[0], strip.low}, true);
    outline.add({strip.right[1], strip.high}, !goesOn(strips, i, 1));
    outline.add({strip.left[1], strip.high}, true);
    auto face = faceOf(outline, plane);
    if (!face) continue;
    face->part = part;
    face->thin = glm::vec3(0.0F);  // a strip is only a piece of what is cut
    faces.push_back(*face);
  }
}

}  // namespace sillwright::scene
