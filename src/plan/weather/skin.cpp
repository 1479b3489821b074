#include "plan/weather/skin.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <optional>

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
    if (width < kTouching) continue;              // two corners over each other, but for rounding
    const double in = std::min(width / 4, 1e-3);  // mm; a quarter keeps the three in order in a narrow stretch
    lines.insert(lines.end(), {at[i] + in, at[i] + width / 2, at[i + 1] - in});
  }
  return lines;
}

/// An edge of an outline that is not upright, from left to right.
struct Line {
  Point from, to;
};

/// Where two sloped edges cross strictly inside both, the x of it.
std::optional<double> crossing(const Line& one, const Line& other) {
  const auto& [a, b] = one;
  const auto& [c, d] = other;
  if (a.x >= d.x || c.x >= b.x) return std::nullopt;  // they have no x in common
  const double r_x = b.x - a.x, r_z = b.z - a.z;
  const double s_x = d.x - c.x, s_z = d.z - c.z;
  const double cross = r_x * s_z - r_z * s_x;
  if (cross == 0) return std::nullopt;  // parallel: their order does not change, or changes at a vertex
  const double size = std::abs(cross);  // t and u are shares of this: most pairs are told apart undivided
  const double t = std::copysign(1, cross) * ((c.x - a.x) * s_z - (c.z - a.z) * s_x);
  const double u = std::copysign(1, cross) * ((c.x - a.x) * r_z - (c.z - a.z) * r_x);
  if (t <= 0 || t >= size || u <= 0 || u >= size) return std::nullopt;  // an end that touches is a corner: cut anyway
  return a.x + t / size * r_x;
}

/// Where a sloped edge crosses level ones, which rise, strictly inside both.
template <class CutAt>
void addCrossings(const Line& sloped, const std::vector<Line>& level, const CutAt& cutAt) {
  const auto [low, high] = std::minmax(sloped.from.z, sloped.to.z);  // references into `sloped`
  auto each =
      std::upper_bound(level.begin(), level.end(), low, [](double z, const Line& edge) { return z < edge.from.z; });
  for (; each != level.end() && each->from.z < high; ++each) {
    const double share = (each->from.z - sloped.from.z) / (sloped.to.z - sloped.from.z);
    const double x = sloped.from.x + share * (sloped.to.x - sloped.from.x);
    if (x > each->from.x && x < each->to.x) cutAt(x);
  }
}

/// To an empty list. A corner at x counts to its right, once, so that crossings come in pairs.
void addCovers(const Sheet& sheet, double x, std::vector<Cover>& covers) {
  // First each height at which the outline crosses, with its edge's seal, rising; then pairs of them.
  const std::size_t n = sheet.outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Point a = sheet.outline[i];
    const Point b = sheet.outline[i + 1 < n ? i + 1 : 0];
    if ((a.x < x) == (b.x < x)) continue;
    const double z = a.z == b.z ? a.z : heightOn(sheet, i, x);
    const auto edge = static_cast<std::uint32_t>(i);
    covers.push_back({z, z, sheet.sealOf(i), edge, edge});
    for (auto at = std::prev(covers.end()); at != covers.begin() && std::prev(at)->low > z; --at) {
      std::iter_swap(at, std::prev(at));
    }
  }
  auto kept = covers.begin();
  for (std::size_t i = 0; i + 1 < covers.size(); i += 2) {
    const Cover foot = covers[i], top = covers[i + 1];  // as high as each other where they meet at x
    if (top.low > foot.low) *kept++ = {foot.low, top.low, top.top, foot.foot_edge, top.top_edge};
  }
  covers.erase(kept, covers.end());
}

void grow(Overlap& overlap, double x, double low, double high) {
  if (!overlap.any) overlap.box = {x, low, x, high};
  overlap.any = true;
  overlap.box.hold({x, low});
  overlap.box.hold({x, high});
}

}  // namespace

std::vector<const Sheet*> outermostFirst(const Skin& skin) {
  std::vector<const Sheet*> sheets;
  sheets.reserve(skin.sheets.size());
  for (auto sheet = skin.sheets.rbegin(); sheet != skin.sheets.rend(); ++sheet) sheets.push_back(&*sheet);
  const auto isOver = [](const Sheet* a, const Sheet* b) { return a->order > b->order; };
  if (!std::is_sorted(sheets.begin(), sheets.end(), isOver)) {  // a tried order of work's
    std::stable_sort(sheets.begin(), sheets.end(), isOver);
  }
  return sheets;
}

Rect boxOf(const Sheet& sheet) {
  if (sheet.outline.empty()) return {};
  const Point first = sheet.outline.front();
  Rect box{first.x, first.z, first.x, first.z};
  for (const Point point : sheet.outline) box.hold(point);
  return box;
}

std::vector<double> stripsOf(const Skin& skin) {
  std::vector<double> cuts;
  cuts.reserve(48);
  cuts.insert(cuts.end(), {skin.left, skin.right});
  const auto cutAt = [&](double x) {
    if (!(x > skin.left && x < skin.right)) return;
    const auto at = std::lower_bound(cuts.begin(), cuts.end(), x);
    if (*at != x) cuts.insert(at, x);
  };
  cutAt(0);  // where a fall ends differs in the opening
  cutAt(skin.opening_width);
  std::vector<Line> level, sloped;
  level.reserve(64);
  for (const Sheet& sheet : skin.sheets) {
    const std::vector<Point>& outline = sheet.outline;
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const Point a = outline[i], b = outline[i + 1 < outline.size() ? i + 1 : 0];
      if (a.x == b.x) continue;  // the next edge that isn't upright begins at the same x
      cutAt(a.x);
      (a.z == b.z ? level : sloped).push_back(a.x < b.x ? Line{a, b} : Line{b, a});
    }
  }
  if (!sloped.empty()) {  // only sloped edges cross others where no corner is
    std::sort(level.begin(), level.end(), [](const Line& a, const Line& b) { return a.from.z < b.from.z; });
  }
  for (auto edge = sloped.begin(); edge != sloped.end(); ++edge) {
    addCrossings(*edge, level, cutAt);
    for (auto other = std::next(edge); other != sloped.end(); ++other) {
      if (const auto x = crossing(*edge, *other)) cutAt(*x);
    }
  }
  for (const Point drain : skin.frame_drains) cutAt(drain.x);
  return cuts;
}

std::vector<Drip> dripsOf(const Skin& skin) {
  constexpr double kBeside = 0.5;  // mm from a slope's end, on the one side or the other
  int unit = std::numeric_limits<int>::max(), flashing = unit;
  for (const Sheet& sheet : skin.sheets) {
    if (sheet.kind == SheetKind::Fin || sheet.kind == SheetKind::UnitFace) unit = std::min(unit, sheet.order);
    if (sheet.kind == SheetKind::HeadFlashing) flashing = sheet.order;
  }
  std::vector<Drip> drips;
  for (const Point drain : skin.frame_drains) {
    if (drain.z > skin.bottom) drips.push_back({drain, unit, true});
  }
  if (flashing == std::numeric_limits<int>::max()) return drips;  // a what-if has left it out: nothing runs along it
  // Over its face inside a stop end, else on to what lies behind it beyond that end.
  for (const Point end : skin.slope_ends) {
    const bool inwards = (end.x < skin.opening_width / 2) == skin.stop_ends;
    drips.push_back({{end.x + (inwards ? kBeside : -kBeside), end.z}, flashing + (skin.stop_ends ? 1 : 0)});
  }
  return drips;
}

std::vector<Cover> coversAt(const Sheet& sheet, double x) {
  std::vector<Cover> covers;
  addCovers(sheet, x, covers);
  return covers;
}

void coversAround(const Sheet& sheet, double x, CornerToCorner& around) {
  around.from = -std::numeric_limits<double>::infinity();
  around.to = -around.from;
  for (const Point corner : sheet.outline) {
    if (corner.x < x) around.from = std::max(around.from, corner.x);
    if (corner.x >= x) around.to = std::min(around.to, corner.x);
  }
  // Beside the outline an end is infinite, and nothing is crossed there. Neighbouring numbers have no middle.
  const double middle = around.from + (around.to - around.from) / 2;
  around.covers.clear();
  addCovers(sheet, middle > around.from ? middle : around.to, around.covers);
}

Overlap overlapOf(const Sheet& first, const Sheet& second) {
  Overlap overlap;
  const Rect a = boxOf(first), b = boxOf(second);
  const double low = std::max(a.x0, b.x0), high = std::min(a.x1, b.x1);
  if (high - low < kTouching || std::min(a.z1, b.z1) - std::max(a.z0, b.z0) < kTouching) return overlap;
  for (const double x : looks(first, second, low, high)) {
    const auto others = coversAt(second, x);
    for (const Cover& one : coversAt(first, x)) {
      for (const Cover& other : others) {
        const double from = std::max(one.low, other.low);
        const double to = std::min(one.high, other.high);
        if (to - from < kTouching) continue;
        grow(overlap, x, from, to);
        if (one.high > other.high - kTouching) continue;  // the first one's top edge is not on the second
        overlap.top = overlap.has_top ? std::max(overlap.top, one.high) : one.high;
        overlap.has_top = true;
      }
    }
  }
  return overlap;
}

}  // namespace sillwright::plan
