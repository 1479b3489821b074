/// What the renderer has of a scene's solids, and which of them have changed since.
///
/// While an opening is dragged in a large job nearly all solids stay what they were: only the others are worked out and
/// sent again. They are told by comparing, so that nothing has to be announced. Inside this room only.
#pragma once

#include <cstddef>
#include <vector>

#include "scene/scene.h"

namespace sillwright::render {

/// Solids from one number to before another.
struct Span {
  std::size_t first = 0;
  std::size_t last = 0;
};

class Sent {
 public:
  /// The solids that differ in anything that is drawn, in rising spans; all of them where their number or a wall's
  /// place has changed.
  [[nodiscard]] std::vector<Span> changed(const scene::Scene& scene) const;
  /// They are sent.
  void keep(const scene::Scene& scene, const std::vector<Span>& spans);

 private:
  std::vector<scene::Solid> solids_;
  std::vector<scene::Part> parts_;
  std::vector<scene::WallFrame> walls_;
};

}  // namespace sillwright::render
