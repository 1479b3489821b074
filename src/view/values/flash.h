/// What an edit changed, shown for a moment: parts that came, went to another size or another kind light up softly.
///
/// A part that only moved along with what was dragged does not count: the hand knows that. Parts are known again by
/// their kind and their order within their opening.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/scene.h"

namespace sillwright::view {

inline constexpr float kFlashSeconds = 0.7F;

struct Flash {
  std::vector<std::uint32_t> parts;  ///< Indices in Scene::parts.
  float left = 0.0F;                 ///< Seconds that it still shows.

  [[nodiscard]] bool on() const { return left > 0.0F && !parts.empty(); }
};

/// The parts of an opening as they are before an edit.
[[nodiscard]] std::vector<scene::Part> partsOf(const scene::Scene& scene, std::int32_t opening);

/// Indices of the parts of an opening that are not among those of before, or are of another size. mm, to a tenth.
[[nodiscard]] std::vector<std::uint32_t> changedParts(const std::vector<scene::Part>& before, const scene::Scene& after,
                                                      std::int32_t opening);

}  // namespace sillwright::view
