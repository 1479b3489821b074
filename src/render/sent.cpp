#include "render/sent.h"

#include <algorithm>

namespace sillwright::render {
namespace {

constexpr std::size_t kWorthParting = 64;  // solids that stay between two spans; fewer are sent along

bool same(const scene::WallFrame& a, const scene::WallFrame& b) {
  return a.origin == b.origin && a.along == b.along && a.inward == b.inward && a.depth == b.depth;
}

/// As far as it is drawn.
bool same(const scene::Part& a, const scene::Part& b) {
  return a.material == b.material && a.layer == b.layer && a.step == b.step && a.wall == b.wall &&
         a.opening == b.opening;
}

bool same(const scene::Solid& a, const scene::Solid& b) {
  return a.corner == b.corner && a.edges == b.edges && a.grain == b.grain && a.part == b.part;
}

}  // namespace

std::vector<Span> Sent::changed(const scene::Scene& scene) const {
  const bool same_walls = std::equal(walls_.begin(), walls_.end(), scene.walls.begin(), scene.walls.end(),
                                     [](const auto& a, const auto& b) { return same(a, b); });
  std::vector<Span> spans;
  if (!same_walls || solids_.size() != scene.solids.size() || parts_.size() != scene.parts.size()) {
    spans.push_back({0, scene.solids.size()});
  } else {
    for (std::size_t i = 0; i < solids_.size(); ++i) {
      const scene::Solid& solid = scene.solids[i];
      if (same(solids_[i], solid) && same(parts_[solid.part], scene.parts[solid.part])) continue;
      if (spans.empty() || i > spans.back().last + kWorthParting) spans.push_back({i, i});
      spans.back().last = i + 1;
    }
  }
  return spans;
}

void Sent::keep(const scene::Scene& scene, const std::vector<Span>& spans) {
  for (const Span& span : spans) {
    solids_.resize(scene.solids.size());
    const auto first = static_cast<std::ptrdiff_t>(span.first);
    const auto last = static_cast<std::ptrdiff_t>(span.last);
    std::copy(scene.solids.begin() + first, scene.solids.begin() + last, solids_.begin() + first);
  }
  if (!spans.empty()) {
    parts_ = scene.parts;
    walls_ = scene.walls;
  }
}

}  // namespace sillwright::render
