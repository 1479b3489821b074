#include "view/marks/marks.h"

#include <algorithm>

namespace sillwright::view {
namespace {

constexpr Colour kLight{0x00, 0x72, 0xB2};  // of Okabe and Ito's set, and no verdict's
constexpr std::size_t kMostShown = 400;

/// Twice the area to the left of a→b that c makes.
float turn(ImVec2 a, ImVec2 b, ImVec2 c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Convex hull of a few points, by Andrew's monotone chain (A. M. Andrew, Another efficient algorithm for convex hulls
/// in two dimensions, 1979).
std::vector<ImVec2> hullOf(std::vector<ImVec2> points) {
  std::sort(points.begin(), points.end(), [](ImVec2 a, ImVec2 b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  std::vector<ImVec2> hull;
  const auto run = [&](auto first, auto last) {
    const std::size_t start = hull.size();
    for (auto at = first; at != last; ++at) {
      while (hull.size() >= start + 2 && turn(hull[hull.size() - 2], hull.back(), *at) <= 0.0F) hull.pop_back();
      hull.push_back(*at);
    }
    if (!hull.empty()) hull.pop_back();
  };
  run(points.begin(), points.end());
  run(points.rbegin(), points.rend());
  return hull;
}

/// Whether the part is what a ray to a place of it meets first.
bool isSeen(const Lettering& on, glm::vec3 place, std::uint32_t part) {
  const auto at = on.project(place);
  if (!at || !on.isInPicture(*at)) return false;
  const auto hit = on.hitAt(*at);
  return hit && hit->part == part;
}

void lightUp(Lettering& on, const scene::Solid& solid, float strength) {
  const scene::Part& part = on.document.scene.parts[solid.part];
  const glm::vec3 shift = render::spreadShift(on.document.scene, part, on.shown.look.spread);
  std::vector<ImVec2> seen;
  glm::vec3 middle{0.0F};
  for (const glm::vec3& corner : solid.corner) {
    middle += (corner + shift) / 8.0F;
    const auto at = on.project(corner + shift);
    if (!at) return;
    seen.push_back(*at);
  }
  if (!isSeen(on, middle, solid.part)) return;
  const std::vector<ImVec2> hull = hullOf(std::move(seen));
  if (hull.size() < 3) return;
  on.list.AddConvexPolyFilled(hull.data(), static_cast<int>(hull.size()), toU32(kLight, 0.38F * strength));
  on.list.AddPolyline(hull.data(), static_cast<int>(hull.size()), toU32(kLight, strength), ImDrawFlags_Closed,
                      std::max(1.5F, on.ui.px(1.8F)));
}

}  // namespace

void drawFlash(Lettering& on, const Flash& flash) {
  const float strength = std::clamp(flash.left / kFlashSeconds, 0.0F, 1.0F);
  std::size_t drawn = 0;
  for (const scene::Solid& solid : on.document.scene.solids) {
    if (!std::binary_search(flash.parts.begin(), flash.parts.end(), solid.part)) continue;
    if (!on.isShown(on.document.scene.parts[solid.part])) continue;
    if (++drawn > kMostShown) return;
    lightUp(on, solid, strength);
  }
}

}  // namespace sillwright::view
