#include "plan/water.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

namespace sillwright::plan {
namespace {

/// A sheet's cover of one vertical line: between two of its edges.
struct Span {
  std::int32_t sheet = -1;
  int order = 0;
  double low = 0;
  double high = 0;
  EdgeSeal top = EdgeSeal::Open;
  SheetKind kind = SheetKind::MembraneRun;
};

bool outermostFirst(const Span& a, const Span& b) {
  return a.order > b.order || (a.order == b.order && a.high > b.high);
}

double heightOn(Point a, Point b, double x) {
  return a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x);
}

/// Where two edges cross strictly inside both, the x of it.
std::optional<double> crossing(Point a, Point b, Point c, Point d) {
  const double r_x = b.x - a.x;
  const double r_z = b.z - a.z;
  const double s_x = d.x - c.x;
  const double s_z = d.z - c.z;
  const double cross = r_x * s_z - r_z * s_x;
  if (cross == 0) return std::nullopt;  // parallel: their order does not change, or changes at a vertex
  const double t = ((c.x - a.x) * s_z - (c.z - a.z) * s_x) / cross;
  const double u = ((c.x - a.x) * r_z - (c.z - a.z) * r_x) / cross;
  if (t <= 0 || t >= 1 || u <= 0 || u >= 1) return std::nullopt;
  return a.x + t * r_x;
}

struct Line {
  Point a, b;
};

/// Every x at which the order of surfaces can change, sorted, within the wall looked at.
std::vector<double> cutLines(const Skin& skin) {
  std::vector<double> cuts{skin.left, skin.right, 0, skin.opening_width};  // where a fall ends differs in the opening
  std::vector<Line> sloped;
  std::vector<Line> level;
  for (const auto& sheet : skin.sheets) {
    const std::size_t n = sheet.outline.size();
    for (std::size_t i = 0; i < n; ++i) {
      const Point a = sheet.outline[i];
      const Point b = sheet.outline[(i + 1) % n];
      cuts.push_back(a.x);
      if (a.x == b.x) continue;
      (a.z == b.z ? level : sloped).push_back({a, b});
    }
  }
  for (std::size_t i = 0; i < sloped.size(); ++i) {
    for (std::size_t j = i + 1; j < sloped.size(); ++j) {
      if (const auto x = crossing(sloped[i].a, sloped[i].b, sloped[j].a, sloped[j].b)) cuts.push_back(*x);
    }
    for (const auto& other : level) {
      if (const auto x = crossing(sloped[i].a, sloped[i].b, other.a, other.b)) cuts.push_back(*x);
    }
  }
  for (const Point drain : skin.frame_drains) cuts.push_back(drain.x);
  std::erase_if(cuts, [&](double x) { return !(x >= skin.left && x <= skin.right); });
  std::sort(cuts.begin(), cuts.end());
  cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
  return cuts;
}

/// All covers of the line at x, outermost first.
void spansAt(const Skin& skin, double x, std::vector<Span>& spans) {
  struct Hit {
    double z;
    EdgeSeal seal;
  };
  std::array<Hit, 64> hits{};
  spans.clear();
  for (std::size_t s = 0; s < skin.sheets.size(); ++s) {
    const auto& sheet = skin.sheets[s];
    const std::size_t n = sheet.outline.size();
    std::size_t found = 0;
    for (std::size_t i = 0; i < n && found < hits.size(); ++i) {
      const Point a = sheet.outline[i];
      const Point b = sheet.outline[(i + 1) % n];
      if ((a.x < x) == (b.x < x)) continue;
      hits[found++] = {heightOn(a, b, x), i < sheet.seal.size() ? sheet.seal[i] : EdgeSeal::Open};
    }
    std::sort(hits.begin(), hits.begin() + static_cast<std::ptrdiff_t>(found),
              [](const Hit& a, const Hit& b) { return a.z < b.z; });
    for (std::size_t i = 0; i + 1 < found; i += 2) {
      if (hits[i + 1].z <= hits[i].z) continue;
      spans.push_back(
          {static_cast<std::int32_t>(s), sheet.order, hits[i].z, hits[i + 1].z, hits[i + 1].seal, sheet.kind});
    }
  }
  std::sort(spans.begin(), spans.end(), outermostFirst);
}

/// The outermost cover just below z among those behind `order`; nullptr: bare timber, or nothing.
const Span* behind(const std::vector<Span>& spans, int order, double z) {
  for (const auto& span : spans) {
    if (span.order < order && span.low < z && span.high >= z) return &span;
  }
  return nullptr;
}

/// The same at z itself from above: what a top edge at z lies against.
const Span* against(const std::vector<Span>& spans, int order, double z) {
  for (const auto& span : spans) {
    if (span.order < order && span.low < z && span.high > z) return &span;
  }
  return nullptr;
}

struct Tracer {
  const Skin& skin;
  const std::vector<Span>& spans;
  Water& water;

  /// The highest top edge of a sheet further out that lies directly on `on` below z.
  [[nodiscard]] const Span* nextOver(const Span& on, double z) const {
    const Span* next = nullptr;
    for (const auto& span : spans) {
      if (span.order <= on.order || span.high >= z || span.high <= on.low) continue;
      if (against(spans, span.order, span.high) != &on) continue;
      if (next == nullptr || span.high > next->high) next = &span;
    }
    return next;
  }

  void leg(WaterPath& path, std::int32_t sheet, double from, double to) const {
    water.legs.push_back({sheet, from, to});
    ++path.legs;
  }

  [[nodiscard]] WaterEnd endOnNothing(double x, double z) const {
    const bool inside = x > 0 && x < skin.opening_width && z > 0 && z < skin.opening_height;
    return inside ? WaterEnd::IntoOpening : WaterEnd::Timber;
  }

  /// At the foot of the wall: outside if nothing covers the sheet there.
  [[nodiscard]] WaterEnd endAtFoot(const Span& on) const {
    for (const auto& span : spans) {
      if (span.order > on.order && span.low <= skin.bottom && span.high > skin.bottom) return WaterEnd::BehindCladding;
    }
    return WaterEnd::Outside;
  }

  void run(WaterPath& path, const Span* on, double x, double z) const {
    while (on != nullptr) {
      double start = z;
      const Span* over = nextOver(*on, z);
      while (over != nullptr && over->top == EdgeSeal::Open) {
        path.went_behind = over->sheet;
        path.came_from = on->sheet;
        path.z_behind = over->high;
        z = over->high;
        over = nextOver(*on, z);
      }
      if (over != nullptr) {  // carried on to the outer sheet's face
        leg(path, on->sheet, start, over->high);
        z = over->high;
        on = over;
        continue;
      }
      leg(path, on->sheet, start, std::max(on->low, skin.bottom));
      if (on->low <= skin.bottom) {
        path.end = endAtFoot(*on);
        return;
      }
      z = on->low;
      const int order = on->order;
      if (behind(spans, order, z) == nullptr && path.went_behind < 0) {
        path.came_from = on->sheet;
        path.z_behind = z;
      }
      on = behind(spans, order, z);
    }
    leg(path, -1, z, z);
    path.end = endOnNothing(x, z);
  }

  void trace(WaterSource source, double x_low, double x_high, const Span* on, double z) const {
    WaterPath path;
    path.source = source;
    path.x_low = x_low;
    path.x_high = x_high;
    path.first_leg = static_cast<std::uint32_t>(water.legs.size());
    run(path, on, (x_low + x_high) / 2, z);
    water.paths.push_back(path);
  }
};

/// Starts a path at the top of each stretch of the strip that is exposed: where `skip` is false for the sheets in
/// front.
template <class Skip>
void traceExposed(const Tracer& tracer, WaterSource source, double x_low, double x_high, Skip skip) {
  const Skin& skin = tracer.skin;
  double z = std::min(skin.sheltered_above, skin.top);
  while (z > skin.bottom) {
    const Span* face = nullptr;  // the outermost face just below z
    double next = skin.bottom;   // where that can change
    for (const auto& span : tracer.spans) {
      if (skip(span)) continue;
      if (span.low < z && span.high >= z) {
        if (face == nullptr) {
          face = &span;
          next = std::max(next, span.low);
        }
      } else if (span.high < z && (face == nullptr || span.order > face->order)) {
        next = std::max(next, span.high);
      }
    }
    // A later, further-in span can't change what is seen; a further-out one below ends this stretch.
    if (face != nullptr || tracer.endOnNothing((x_low + x_high) / 2, z) == WaterEnd::Timber) {
      tracer.trace(source, x_low, x_high, face, z);
    }
    z = next;
  }
}

void traceStrip(const Skin& skin, double x_low, double x_high, const std::vector<Span>& spans, Water& water) {
  const Tracer tracer{skin, spans, water};
  traceExposed(tracer, WaterSource::Rain, x_low, x_high, [](const Span&) { return false; });
  traceExposed(tracer, WaterSource::Seepage, x_low, x_high,
               [](const Span& span) { return span.kind == SheetKind::Cladding; });
}

const char* endWords(WaterEnd end) {
  return end == WaterEnd::IntoOpening ? "into the opening" : "on to bare timber";
}

std::string sheetName(const Skin& skin, std::int32_t sheet) {
  return sheet < 0 ? std::string("the timber") : "the " + skin.sheets[static_cast<std::size_t>(sheet)].name;
}

std::string sourceWords(WaterSource source) {
  switch (source) {
    case WaterSource::Rain:
      return "Rain";
    case WaterSource::Seepage:
      return "Water behind the cladding";
    case WaterSource::FrameDrainage:
      return "What the frame drains";
  }
  return {};
}

std::string sayLeak(const Skin& skin, const WaterPath& path) {
  std::string said = sourceWords(path.source);
  if (path.went_behind >= 0) {
    said += " running down " + sheetName(skin, path.came_from) + " gets behind " + sheetName(skin, path.went_behind) +
            ", whose top edge stands open to it";
  } else if (path.came_from >= 0) {
    said += " leaves the lower edge of " + sheetName(skin, path.came_from) + " with no sheet behind it";
  } else {
    said += " meets no sheet at all";
  }
  if (path.end == WaterEnd::BehindCladding) return said + "; it leaves at the wall's foot, behind the cladding.";
  return said + ", and runs " + endWords(path.end) + ".";
}

bool sameFault(const Leak& leak, const WaterPath& path) {
  return leak.source == path.source && leak.end == path.end && leak.upper == path.came_from &&
         leak.lower == path.went_behind && std::abs(leak.x_high - path.x_low) < 1e-9;
}

void gather(const Skin& skin, const WaterPath& path, std::vector<Leak>& leaks) {
  for (auto& leak : leaks) {
    if (leak.source == path.source && leak.end == path.end && leak.upper == path.came_from &&
        leak.lower == path.went_behind && leak.x_low == path.x_low && leak.x_high >= path.x_high) {
      return;  // another start in the same strip
    }
    if (sameFault(leak, path)) {
      leak.x_high = path.x_high;
      leak.z = std::max(leak.z, path.z_behind);
      return;
    }
  }
  leaks.push_back({path.source, path.end, path.x_low, path.x_high, path.z_behind, path.came_from, path.went_behind,
                   sayLeak(skin, path)});
}

void gatherLeaks(const Skin& skin, Water& water) {
  for (const auto& path : water.paths) {
    if (path.end == WaterEnd::Timber || path.end == WaterEnd::IntoOpening) gather(skin, path, water.leaks);
    // Seepage is behind the cladding from the start; rain that ends there has passed a lap it should not have.
    if (path.end == WaterEnd::BehindCladding && path.source != WaterSource::Seepage) {
      gather(skin, path, water.behind_cladding);
    }
  }
}

/// The frame's own water falls on whatever lies outermost behind the unit there.
void traceDrains(const Skin& skin, std::vector<Span>& spans, Water& water) {
  for (const Point drain : skin.frame_drains) {
    if (drain.z <= skin.bottom) continue;  // a door on the floor drains off its threshold, past the wall's foot
    spansAt(skin, drain.x, spans);
    int unit_order = std::numeric_limits<int>::max();
    for (const auto& span : spans) {
      if (span.kind == SheetKind::Fin || span.kind == SheetKind::UnitFace)
        unit_order = std::min(unit_order, span.order);
    }
    const Tracer tracer{skin, spans, water};
    tracer.trace(WaterSource::FrameDrainage, drain.x, drain.x, behind(spans, unit_order, drain.z), drain.z);
  }
}

}  // namespace

Water traceWater(const Skin& skin) {
  Water water;
  const auto cuts = cutLines(skin);
  std::vector<Span> spans;
  spans.reserve(2 * skin.sheets.size());
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    spansAt(skin, (cuts[i] + cuts[i + 1]) / 2, spans);
    traceStrip(skin, cuts[i], cuts[i + 1], spans, water);
    ++water.strips;
  }
  traceDrains(skin, spans, water);
  gatherLeaks(skin, water);
  return water;
}

double headOfWater(double pressure_kpa) {
  constexpr double kDensity = 1000;  // kg/m³
  constexpr double kGravity = 9.81;  // m/s²
  return pressure_kpa * 1000 / (kDensity * kGravity) * 1000;
}

const char* toWord(WaterSource source) {
  switch (source) {
    case WaterSource::Rain:
      return "rain";
    case WaterSource::Seepage:
      return "seepage";
    case WaterSource::FrameDrainage:
      return "frame drainage";
  }
  return "";
}

}  // namespace sillwright::plan
