/// Drops moved down a skin in small steps: slow, with nothing but point-in-polygon, to hold the exact tracing against.
#pragma once

#include <cstddef>

#include "plan/weather/skin.h"
#include "plan/weather/water.h"

namespace sillwright::testing {

using plan::EdgeSeal;
using plan::Point;
using plan::Sheet;
using plan::Skin;
using plan::WaterEnd;

inline bool covers(const Sheet& sheet, double x, double z) {
  bool inside = false;
  for (std::size_t i = 0, j = sheet.outline.size() - 1; i < sheet.outline.size(); j = i++) {
    const Point a = sheet.outline[i];
    const Point b = sheet.outline[j];
    if ((a.z > z) != (b.z > z) && x < (b.x - a.x) * (z - a.z) / (b.z - a.z) + a.x) inside = !inside;
  }
  return inside;
}

/// Seal of the highest edge of the sheet just above (x, z).
inline EdgeSeal sealAbove(const Sheet& sheet, double x, double z) {
  EdgeSeal seal = EdgeSeal::Open;
  double best = 1e18;
  for (std::size_t i = 0; i < sheet.outline.size(); ++i) {
    const Point a = sheet.outline[i];
    const Point b = sheet.outline[(i + 1) % sheet.outline.size()];
    if ((a.x < x) == (b.x < x)) continue;
    const double on = a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x);
    if (on >= z && on < best) {
      best = on;
      seal = sheet.sealOf(i);
    }
  }
  return seal;
}

/// Outermost sheet with an order below `order` that covers (x, z); −1: none.
inline int outermostBehind(const Skin& skin, int order, double x, double z) {
  int best = -1;
  for (std::size_t i = 0; i < skin.sheets.size(); ++i) {
    const auto& sheet = skin.sheets[i];
    if (sheet.order >= order || !covers(sheet, x, z)) continue;
    if (best < 0 || sheet.order > skin.sheets[static_cast<std::size_t>(best)].order) best = static_cast<int>(i);
  }
  return best;
}

/// Innermost sheet with an order above `order` that covers (x, z); −1: none.
inline int nextOutside(const Skin& skin, int order, double x, double z) {
  int best = -1;
  for (std::size_t i = 0; i < skin.sheets.size(); ++i) {
    const auto& sheet = skin.sheets[i];
    if (sheet.order <= order || !covers(sheet, x, z)) continue;
    if (best < 0 || sheet.order < skin.sheets[static_cast<std::size_t>(best)].order) best = static_cast<int>(i);
  }
  return best;
}

inline constexpr int kOutermost = 1 << 20;

/// A drop moved down step by step: slow, and nothing but point-in-polygon.
inline WaterEnd stepDown(const Skin& skin, double x, double z, double step) {
  int on = outermostBehind(skin, kOutermost, x, z);
  while (true) {
    if (on < 0) {
      const bool inside = x > 0 && x < skin.opening_width && z > 0 && z <= skin.opening_height;
      return inside ? WaterEnd::IntoOpening : WaterEnd::Timber;
    }
    const double next = z - step;
    const auto& sheet = skin.sheets[static_cast<std::size_t>(on)];
    if (next <= skin.bottom) {
      return nextOutside(skin, sheet.order, x, z) < 0 ? WaterEnd::Outside : WaterEnd::BehindCladding;
    }
    if (!covers(sheet, x, next)) {
      on = outermostBehind(skin, sheet.order, x, next);
      z = next;
      continue;
    }
    const int over = nextOutside(skin, sheet.order, x, next);
    if (over >= 0) {
      const auto& outer = skin.sheets[static_cast<std::size_t>(over)];
      if (!covers(outer, x, z) && sealAbove(outer, x, next) != EdgeSeal::Open) on = over;
    }
    z = next;
  }
}

}  // namespace sillwright::testing
