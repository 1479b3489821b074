#include "plan/weather/water.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace sillwright::plan {
namespace {

constexpr std::int32_t kNotLooked = -2;

/// A sheet's cover of one vertical line: between two of its edges.
struct Span {
  std::int32_t sheet = -1;
  int order = 0;
  double low = 0;
  double high = 0;
  EdgeSeal top = EdgeSeal::Open;
  SheetKind kind = SheetKind::MembraneRun;
  std::int32_t first_over = -1;  ///< The highest top edge of a sheet further out that lies on this one; -1: none.
  std::int32_t next_over = -1;   ///< The next lower one on the sheet that this one's top edge lies on.
  std::int32_t falls_to = kNotLooked;
};

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

/// An edge that crosses upright lines, from left to right.
struct SkinEdge {
  Point a, b;
  EdgeSeal seal = EdgeSeal::Open;
};

/// A sheet as the strips ask for it.
struct Layer {
  std::int32_t sheet = -1;
  int order = 0;
  SheetKind kind = SheetKind::MembraneRun;
  double left = 0, right = 0;
  std::size_t first_edge = 0, edges = 0;  ///< In Layers::edges.
};

/// All sheets outermost first, their edges in one row: laid out once, looked through at every strip.
struct Layers {
  std::vector<Layer> layer;
  std::vector<SkinEdge> edges;
};

Layers layersOf(const Skin& skin) {
  Layers all;
  all.layer.reserve(skin.sheets.size());
  all.edges.reserve(4 * skin.sheets.size());
  for (std::size_t s = 0; s < skin.sheets.size(); ++s) {
    const Sheet& sheet = skin.sheets[s];
    Layer layer{static_cast<std::int32_t>(s), sheet.order, sheet.kind, 0, 0, all.edges.size(), 0};
    const std::size_t n = sheet.outline.size();
    for (std::size_t i = 0; i < n; ++i) {
      Point a = sheet.outline[i];
      Point b = sheet.outline[i + 1 < n ? i + 1 : 0];
      if (a.x == b.x) continue;
      if (a.x > b.x) std::swap(a, b);
      layer.left = layer.edges == 0 ? a.x : std::min(layer.left, a.x);
      layer.right = layer.edges == 0 ? b.x : std::max(layer.right, b.x);
      all.edges.push_back({a, b, i < sheet.seal.size() ? sheet.seal[i] : EdgeSeal::Open});
      ++layer.edges;
    }
    all.layer.push_back(layer);
  }
  std::stable_sort(all.layer.begin(), all.layer.end(),
                   [](const Layer& a, const Layer& b) { return a.order > b.order; });
  return all;
}

/// Every x at which the order of surfaces can change, sorted, within the wall looked at.
std::vector<double> cutLines(const Skin& skin, const Layers& layers) {
  std::vector<double> cuts;
  cuts.reserve(2 * layers.edges.size() + 8);
  cuts.insert(cuts.end(), {skin.left, skin.right, 0, skin.opening_width});  // where a fall ends differs in the opening
  for (const SkinEdge& edge : layers.edges) {
    cuts.insert(cuts.end(), {edge.a.x, edge.b.x});
    if (edge.a.z == edge.b.z) continue;
    for (const SkinEdge& other : layers.edges) {
      if (const auto x = crossing(edge.a, edge.b, other.a, other.b)) cuts.push_back(*x);
    }
  }
  for (const Point drain : skin.frame_drains) cuts.push_back(drain.x);
  std::erase_if(cuts, [&](double x) { return !(x >= skin.left && x <= skin.right); });
  std::sort(cuts.begin(), cuts.end());
  cuts.erase(std::unique(cuts.begin(), cuts.end()), cuts.end());
  return cuts;
}

/// All covers of one upright line, outermost first, and how water gets from one to the next.
class Column {
 public:
  Column(const Layers& layers, std::size_t sheets, double bottom) : layers_(layers), bottom_(bottom) {
    spans_.reserve(2 * sheets);
  }

  void lookAt(double x) {
    spans_.clear();
    for (const Layer& layer : layers_.layer) {
      if (x < layer.left || x > layer.right) continue;
      hits_.clear();
      for (std::size_t i = layer.first_edge; i < layer.first_edge + layer.edges; ++i) {
        const SkinEdge& edge = layers_.edges[i];
        if ((edge.a.x < x) != (edge.b.x < x)) addHit({heightOn(edge.a, edge.b, x), edge.seal});
      }
      addSpans(layer);
    }
    foot_order_ = std::numeric_limits<int>::min();
    for (std::int32_t i = count(); i-- > 0;) {
      if (at(i).low <= bottom_ && at(i).high > bottom_) foot_order_ = at(i).order;
      hang(i);
    }
  }

  [[nodiscard]] std::int32_t count() const { return static_cast<std::int32_t>(spans_.size()); }
  [[nodiscard]] const Span& at(std::int32_t i) const { return spans_[static_cast<std::size_t>(i)]; }
  [[nodiscard]] const std::vector<Span>& spans() const { return spans_; }

  /// The outermost cover just below z among those behind `order`; -1: bare timber, or nothing.
  [[nodiscard]] std::int32_t behind(int order, double z) const {
    for (std::int32_t i = 0; i < count(); ++i) {
      if (at(i).order < order && at(i).low < z && at(i).high >= z) return i;
    }
    return -1;
  }

  /// The highest top edge of a sheet further out that lies directly on `on` below z; -1: none.
  [[nodiscard]] std::int32_t nextOver(std::int32_t on, double z) const {
    std::int32_t over = at(on).first_over;
    while (over >= 0 && at(over).high >= z) over = at(over).next_over;
    return over;
  }

  /// The next one below on the same cover.
  [[nodiscard]] std::int32_t nextBelow(std::int32_t over) const { return at(over).next_over; }

  /// Where what runs off the lower edge of a cover lands; -1: on nothing.
  [[nodiscard]] std::int32_t fallsTo(std::int32_t from) {
    Span& span = spans_[static_cast<std::size_t>(from)];
    if (span.falls_to == kNotLooked) span.falls_to = behind(span.order, span.low);
    return span.falls_to;
  }

  /// Whether anything at the wall's foot lies outside `order`.
  [[nodiscard]] bool coveredAtFoot(int order) const { return foot_order_ > order; }

 private:
  struct Hit {
    double z;
    EdgeSeal seal;
  };

  /// Keeps the few hits of a sheet from the top down.
  void addHit(const Hit& hit) {
    hits_.push_back(hit);
    for (std::size_t i = hits_.size() - 1; i > 0 && hits_[i - 1].z < hits_[i].z; --i) std::swap(hits_[i - 1], hits_[i]);
  }

  void addSpans(const Layer& layer) {
    for (std::size_t i = 0; i + 1 < hits_.size(); i += 2) {
      if (hits_[i].z <= hits_[i + 1].z) continue;
      spans_.push_back({layer.sheet, layer.order, hits_[i + 1].z, hits_[i].z, hits_[i].seal, layer.kind});
    }
  }

  /// Hangs a cover's top edge on what it lies against: the outermost cover behind it there. The edges on one cover are
  /// kept from the top down.
  void hang(std::int32_t which) {
    Span& span = spans_[static_cast<std::size_t>(which)];
    for (std::int32_t i = which + 1; i < count(); ++i) {
      Span& on = spans_[static_cast<std::size_t>(i)];
      if (on.order >= span.order || on.low >= span.high || on.high <= span.high) continue;
      std::int32_t* link = &on.first_over;
      while (*link >= 0 && at(*link).high > span.high) link = &spans_[static_cast<std::size_t>(*link)].next_over;
      span.next_over = *link;
      *link = which;
      return;
    }
  }

  const Layers& layers_;
  double bottom_;
  int foot_order_ = 0;
  std::vector<Span> spans_;
  std::vector<Hit> hits_;
};

struct Tracer {
  const Skin& skin;
  Column& column;
  Water& water;

  void leg(WaterPath& path, std::int32_t sheet, double from, double to) const {
    water.legs.push_back({sheet, from, to});
    ++path.legs;
  }

  /// Of what falls from z: off the membrane's edge at the head it falls into the opening.
  [[nodiscard]] WaterEnd endOnNothing(double x, double z) const {
    const bool inside = x > 0 && x < skin.opening_width && z > 0 && z <= skin.opening_height;
    return inside ? WaterEnd::IntoOpening : WaterEnd::Timber;
  }

  /// Got behind on the sheet it runs down now, and not yet come out again.
  struct Behind {
    std::int32_t sheet = -1;
    double z = 0;
  };

  /// A lap is at fault where the inner sheet ends behind the outer one; else the last open edge that was passed is.
  static void blame(WaterPath& path, const Span& on, const Behind& behind) {
    if (behind.sheet < 0) return;
    if (path.lap_ended) {
      path.then_behind = behind.sheet;
      return;
    }
    path.went_behind = behind.sheet;
    path.came_from = on.sheet;
    path.z_behind = behind.z;
  }

  void run(WaterPath& path, std::int32_t index, double x, double z) const {
    while (index >= 0) {
      const Span& on = column.at(index);
      const double start = z;
      Behind behind;
      std::int32_t over = column.nextOver(index, z);
      while (over >= 0 && column.at(over).top == EdgeSeal::Open) {
        z = column.at(over).high;
        behind = {column.at(over).sheet, z};
        over = column.nextBelow(over);
      }
      blame(path, on, behind);
      if (over >= 0) {  // carried on to the outer sheet's face
        z = column.at(over).high;
        leg(path, on.sheet, start, z);
        index = over;
        continue;
      }
      leg(path, on.sheet, start, std::max(on.low, skin.bottom));
      if (on.low <= skin.bottom) {
        path.end = column.coveredAtFoot(on.order) ? WaterEnd::BehindCladding : WaterEnd::Outside;
        return;
      }
      z = on.low;
      if (behind.sheet >= 0) path.lap_ended = true;
      const std::int32_t next = column.fallsTo(index);
      if (next < 0 && path.went_behind < 0) {
        path.came_from = on.sheet;
        path.z_behind = z;
      }
      index = next;
    }
    leg(path, -1, z, z);
    path.end = endOnNothing(x, z);
  }

  void trace(WaterSource source, double x_low, double x_high, std::int32_t on, double z) const {
    WaterPath& path = water.paths.emplace_back();
    path = {source, WaterEnd::Outside, x_low, x_high, static_cast<std::uint32_t>(water.legs.size())};
    path.z_behind = z;  // where it starts, until it gets behind something
    run(path, on, (x_low + x_high) / 2, z);
  }
};

/// Starts a path at the top of each stretch of the strip that is exposed: where `skip` is false for the sheets in
/// front.
template <class Skip>
void traceExposed(const Tracer& tracer, WaterSource source, double x_low, double x_high, Skip skip) {
  const Skin& skin = tracer.skin;
  const Column& column = tracer.column;
  double z = std::min(skin.sheltered_above, skin.top);
  while (z > skin.bottom) {
    std::int32_t face = -1;     // the outermost face just below z
    double next = skin.bottom;  // where that can change
    for (std::int32_t i = 0; i < column.count(); ++i) {
      const Span& span = column.at(i);
      if (skip(span)) continue;
      if (span.low < z && span.high >= z) {
        next = std::max(next, span.low);
        face = i;
        break;  // what lies further in can't be seen here, nor change that
      }
      if (span.high < z) next = std::max(next, span.high);
    }
    if (face >= 0 || tracer.endOnNothing((x_low + x_high) / 2, z) == WaterEnd::Timber) {
      tracer.trace(source, x_low, x_high, face, z);
    }
    z = next;
  }
}

void traceStrip(const Skin& skin, double x_low, double x_high, Column& column, Water& water) {
  const Tracer tracer{skin, column, water};
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

/// As WaterSource.
constexpr std::array<const char*, 3> kSourceWords{"Rain", "Water behind the cladding",
                                                  "Water from the frame's drainage"};

std::string sayLeak(const Skin& skin, const WaterPath& path) {
  std::string said = kSourceWords[static_cast<std::size_t>(path.source)];
  if (path.went_behind >= 0) {
    said += " running down " + sheetName(skin, path.came_from) + " gets behind " + sheetName(skin, path.went_behind) +
            ", whose top edge is open to it";
    if (path.then_behind >= 0 && path.then_behind != path.went_behind) {
      said += ", then behind " + sheetName(skin, path.then_behind);
    }
  } else if (path.came_from >= 0) {
    said += " leaves the lower edge of " + sheetName(skin, path.came_from) + " with no sheet behind it";
  } else {
    said += path.source == WaterSource::FrameDrainage ? " falls behind the unit's foot where no sheet catches it"
                                                      : " meets no sheet at all";
  }
  if (path.end == WaterEnd::BehindCladding) return said + "; it leaves at the wall's foot, behind the cladding.";
  return said + ", and runs " + endWords(path.end) + ".";
}

void gather(const Skin& skin, const WaterPath& path, std::vector<Leak>& leaks) {
  for (auto& leak : leaks) {
    const bool same = leak.source == path.source && leak.end == path.end && leak.upper == path.came_from &&
                      leak.lower == path.went_behind;
    const bool another_start = leak.x_low <= path.x_low && leak.x_high >= path.x_high;  // in the same strip
    const bool beside = std::abs(leak.x_high - path.x_low) < 1e-9;
    if (!same || !(another_start || beside)) continue;
    if (!another_start) leak.x_high = path.x_high;
    leak.z = std::max(leak.z, path.z_behind);
    return;
  }
  leaks.push_back({path.source, path.end, path.x_low, path.x_high, path.z_behind, path.came_from, path.went_behind,
                   sayLeak(skin, path)});
}

/// Whether it ran down a flashing and then got behind the sill's, which should have brought it out.
bool lostBySill(const Skin& skin, const WaterPath& path) {
  if (!path.lap_ended || path.went_behind < 0 || path.came_from < 0) return false;
  const auto kind = [&](std::int32_t sheet) { return skin.sheets[static_cast<std::size_t>(sheet)].kind; };
  return kind(path.went_behind) == SheetKind::SillFlashing && kind(path.came_from) != SheetKind::MembraneRun;
}

void gatherLeaks(const Skin& skin, Water& water) {
  for (const auto& path : water.paths) {
    if (path.end == WaterEnd::Timber || path.end == WaterEnd::IntoOpening) gather(skin, path, water.leaks);
    // Seepage is behind the cladding from the start and may leave there, unless the flashings had it in hand; anything
    // else that ends there has passed a lap it should not have.
    if (path.end == WaterEnd::BehindCladding && (path.source != WaterSource::Seepage || lostBySill(skin, path))) {
      gather(skin, path, water.behind_cladding);
    }
  }
}

/// The frame's own water falls on whatever lies outermost behind the unit there.
void traceDrains(const Skin& skin, Column& column, Water& water) {
  for (const Point drain : skin.frame_drains) {
    if (drain.z <= skin.bottom) continue;
    column.lookAt(drain.x);
    int unit_order = std::numeric_limits<int>::max();
    for (const auto& span : column.spans()) {
      if (span.kind == SheetKind::Fin || span.kind == SheetKind::UnitFace)
        unit_order = std::min(unit_order, span.order);
    }
    const Tracer tracer{skin, column, water};
    tracer.trace(WaterSource::FrameDrainage, drain.x, drain.x, column.behind(unit_order, drain.z), drain.z);
  }
}

/// What runs down along a head flashing in a slope leaves its low end: over its face inside a stop end, else on to what
/// lies outermost behind it beyond that end.
void traceSlopeEnds(const Skin& skin, Column& column, Water& water) {
  constexpr double kBeside = 0.5;  // mm from the end, on the one side or the other
  for (const Point end : skin.slope_ends) {
    const bool inwards = (end.x < skin.opening_width / 2) == skin.stop_ends;
    const double x = end.x + (inwards ? kBeside : -kBeside);
    column.lookAt(x);
    int flashing = std::numeric_limits<int>::max();
    for (const Sheet& sheet : skin.sheets) {
      if (sheet.kind == SheetKind::HeadFlashing) flashing = sheet.order;
    }
    const std::int32_t on = column.behind(skin.stop_ends ? flashing + 1 : flashing, end.z);
    const Tracer tracer{skin, column, water};
    tracer.trace(WaterSource::Rain, x, x, on, end.z);
  }
}

}  // namespace

Water traceWater(const Skin& skin) {
  Water water;
  const Layers layers = layersOf(skin);
  const auto cuts = cutLines(skin, layers);
  // About a dozen paths a strip, of some four legs: measured on the demo jobs.
  water.paths.reserve(14 * cuts.size());
  water.legs.reserve(56 * cuts.size());
  Column column(layers, skin.sheets.size(), skin.bottom);
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    column.lookAt((cuts[i] + cuts[i + 1]) / 2);
    traceStrip(skin, cuts[i], cuts[i + 1], column, water);
    ++water.strips;
  }
  traceDrains(skin, column, water);
  traceSlopeEnds(skin, column, water);
  gatherLeaks(skin, water);
  return water;
}

double headOfWater(double pressure_kpa) {
  constexpr double kDensity = 1000;  // kg/m³
  constexpr double kGravity = 9.81;  // m/s²
  return pressure_kpa * 1000 / (kDensity * kGravity) * 1000;
}

const char* toWord(WaterSource source) {
  static constexpr std::array<const char*, 3> kWords{"rain", "seepage", "frame drainage"};
  return kWords[static_cast<std::size_t>(source)];
}

}  // namespace sillwright::plan
