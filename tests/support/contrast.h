/// How well colours stand out from each other, by WCAG 2.1 ("relative luminance" and "contrast ratio"); 0…1 a channel.
#pragma once

#include <algorithm>
#include <cmath>
#include <glm/vec3.hpp>

namespace sillwright::testing {

/// Relative luminance.
inline double luminance(glm::vec3 rgb) {
  const auto linear = [](float v) {
    const double c = std::clamp(static_cast<double>(v), 0.0, 1.0);
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(rgb.r) + 0.7152 * linear(rgb.g) + 0.0722 * linear(rgb.b);
}

/// The ratio of contrast, 1 to 21.
inline double contrast(glm::vec3 a, glm::vec3 b) {
  const double light = std::max(luminance(a), luminance(b));
  const double dark = std::min(luminance(a), luminance(b));
  return (light + 0.05) / (dark + 0.05);
}

}  // namespace sillwright::testing
