/// Pictures of tests: read back, and compared.
#pragma once

#include <png.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "render/offscreen.h"
#include "support/catch.h"

namespace sillwright::testing {

inline render::Image readPng(const std::filesystem::path& path) {
  png_image png{};
  png.version = PNG_IMAGE_VERSION;
  INFO(path.string());
  REQUIRE(png_image_begin_read_from_file(&png, path.c_str()) != 0);
  png.format = PNG_FORMAT_RGB;
  render::Image picture{static_cast<int>(png.width), static_cast<int>(png.height), {}};
  picture.rgb.resize(PNG_IMAGE_SIZE(png));
  REQUIRE(png_image_finish_read(&png, nullptr, picture.rgb.data(), 0, nullptr) != 0);
  return picture;
}

/// How two pictures differ: share of pixels whose largest channel difference is above `threshold` (0…255). Pictures of
/// unlike sizes differ everywhere: 1.
inline double differingShare(const render::Image& a, const render::Image& b, int threshold) {
  if (a.width != b.width || a.height != b.height || a.rgb.size() != b.rgb.size()) return 1.0;
  const std::size_t pixels = a.rgb.size() / 3;
  if (pixels == 0) return 0.0;
  std::size_t differing = 0;
  for (std::size_t i = 0; i < pixels; ++i) {
    int most = 0;
    for (std::size_t channel = 0; channel < 3; ++channel) {
      most = std::max(most, std::abs(int{a.rgb[3 * i + channel]} - int{b.rgb[3 * i + channel]}));
    }
    if (most > threshold) ++differing;
  }
  return static_cast<double>(differing) / static_cast<double>(pixels);
}

}  // namespace sillwright::testing
