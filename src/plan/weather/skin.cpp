#include "plan/weather/skin.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace sillwright::plan {

namespace {

/// Lines that see every stretch of the common width: just inside both ends of each stretch between two corners, and
/// its middle, so that sloped edges are seen at their ends.
std::vector<double> looks(const Sheet& first, const Sheet& second, double low, double high) {
  std::vector<double> at{low, high};
  for (const Sheet* sheet : {&first, &second}) {
    for (const Point point : sheet->outline) {
      if (point.x > low && point.x < high) at.push_back(point.x);
    }
  }
  std::sort(at.begin(), at.end());
  std::vector<double> lines;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const double width = at[i + 1] - at[i];
    if (width < kTouching) continue;
    const double in = std::min(width / 4, 1e-3);
    lines.insert(lines.end(), {at[i] + in, at[i] + width / 2, at[i + 1] - in});
  }
  return lines;
}

void grow(Overlap& overlap, double x, double low, double high) {
  if (!overlap.any) overlap.box = {x, low, x, high};
  overlap.any = true;
  overlap.box.hold({x, low});
  overlap.box.hold({x, high});
}

}  // namespace

Rect boxOf(const Sheet& sheet) {
  if (sheet.outline.empty()) return {};
  const Point first = sheet.outline.front();
  Rect box{first.x, first.z, first.x, first.z};
  for (const Point point : sheet.outline) box.hold(point);
  return box;
}

void coversAt(const Sheet& sheet, double x, std::vector<Cover>& covers) {
  covers.clear();  // first each height at which the outline crosses, with its edge's seal, rising; then pairs of them
  const std::size_t n = sheet.outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = sheet.outline[i];
    const Point b = sheet.outline[i + 1 < n ? i + 1 : 0];
    if ((a.x < x) == (b.x < x)) continue;
    const double z = heightOn(sheet, i, x);
    auto at = covers.end();
    while (at != covers.begin() && std::prev(at)->low > z) --at;
    const auto edge = static_cast<std::uint32_t>(i);
    covers.insert(at, {z, z, sheet.seal.empty() ? EdgeSeal::Open : sheet.seal[i], edge, edge});
  }
  auto kept = covers.begin();
  for (std::size_t i = 0; i + 1 < covers.size(); i += 2) {
    const Cover foot = covers[i], top = covers[i + 1];
    if (top.low > foot.low) *kept++ = {foot.low, top.low, top.top, foot.foot_edge, top.top_edge};
  }
  covers.erase(kept, covers.end());
}

std::vector<Cover> coversAt(const Sheet& sheet, double x) {
  std::vector<Cover> covers;
  coversAt(sheet, x, covers);
  return covers;
}

Overlap overlapOf(const Sheet& first, const Sheet& second) {
  Overlap overlap;
  const Rect a = boxOf(first);
  const Rect b = boxOf(second);
  const double low = std::max(a.x0, b.x0);
  const double high = std::min(a.x1, b.x1);
  if (high - low < kTouching || std::min(a.z1, b.z1) - std::max(a.z0, b.z0) < kTouching) return overlap;
  for (const double x : looks(first, second, low, high)) {
    const auto others = coversAt(second, x);
    for (const Cover& one : coversAt(first, x)) {
      for (const Cover& other : others) {
        const double from = std::max(one.low, other.low);
        const double to = std::min(one.high, other.high);
        if (to - from < kTouching) continue;
        grow(overlap, x, from, to);
        if (one.high > other.high - kTouching) continue;
        overlap.top = overlap.has_top ? std::max(overlap.top, one.high) : one.high;
        overlap.has_top = true;
      }
    }
  }
  return overlap;
}

}  // namespace sillwright::plan
