#include "plan/weather/water.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace sillwright::plan {
namespace {

constexpr std::int32_t kNotLooked = -2;

/// Where water ends that never gets behind a lap.
enum class Course : std::uint8_t {
  NotLooked,
  Outside,
  BehindCladding,
  Fault  ///< It does get behind one, or falls on nothing.
};

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
  Course over_top = Course::NotLooked;   ///< Of what is carried over its top edge on to its face.
  Course off_below = Course::NotLooked;  ///< Of what runs off its lower edge.
};

double heightOn(Point a, Point b, double x) { return a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x); }

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
  std::optional<Span> whole;              ///< Of a rectangle: its cover of every line that it crosses.
};

/// All sheets outermost first, their edges in one row: laid out once, looked through at every strip.
struct Layers {
  std::vector<Layer> layer;
  std::vector<SkinEdge> edges;
};

/// Two level edges as wide as the sheet are a rectangle.
std::optional<Span> wholeCover(const Layer& layer, const SkinEdge& a, const SkinEdge& b) {
  const bool level = layer.edges == 2 && a.a.z == a.b.z && b.a.z == b.b.z && a.a.z != b.a.z;
  if (!level || a.a.x != b.a.x || a.b.x != b.b.x) return std::nullopt;
  const SkinEdge& top = a.a.z > b.a.z ? a : b;
  return Span{layer.sheet, layer.order, std::min(a.a.z, b.a.z), top.a.z, top.seal, layer.kind};
}

void layOut(const Skin& skin, Layers& all) {
  all.layer.clear();
  all.edges.clear();
  for (std::size_t s = skin.sheets.size(); s-- > 0;) {
    const Sheet& sheet = skin.sheets[s];
    Layer layer{static_cast<std::int32_t>(s), sheet.order, sheet.kind, 0, 0, all.edges.size(), 0, {}};
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
    if (layer.edges == 2) layer.whole = wholeCover(layer, all.edges.end()[-2], all.edges.back());
    all.layer.push_back(layer);
  }
  const auto isOver = [](const Layer& a, const Layer& b) { return a.order > b.order; };
  if (!std::is_sorted(all.layer.begin(), all.layer.end(), isOver)) {  // a tried order of work's
    std::stable_sort(all.layer.begin(), all.layer.end(), isOver);
  }
}

/// Every x at which the order of surfaces can change, sorted, within the wall looked at.
void cutIntoStrips(const Skin& skin, const Layers& layers, std::vector<double>& cuts) {
  cuts = {skin.left, skin.right, 0, skin.opening_width};  // where a fall ends differs in the opening
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
}

/// A skin laid out, the covers of one upright line of it, outermost first, and how water gets from one to the next.
class Column {
 public:
  void use(const Skin& skin) {
    layOut(skin, layers_);
    cutIntoStrips(skin, layers_, cuts_);
    bottom_ = skin.bottom;
    sound_.clear();
    sound_spans_.clear();
  }

  /// From edge to edge of the strips.
  [[nodiscard]] const std::vector<double>& cuts() const { return cuts_; }

  void lookAt(double x) {
    spans_.clear();
    for (const Layer& layer : layers_.layer) {
      if (layer.whole) {
        if (layer.left < x && x <= layer.right) spans_.push_back(*layer.whole);
        continue;
      }
      if (x < layer.left || x > layer.right) continue;
      hits_.clear();
      for (std::size_t i = layer.first_edge; i < layer.first_edge + layer.edges; ++i) {
        const SkinEdge& edge = layers_.edges[i];
        if ((edge.a.x < x) != (edge.b.x < x)) addHit({heightOn(edge.a, edge.b, x), edge.seal});
      }
      addSpans(layer);
    }
  }

  /// Joins the covers of the line looked at, so that water can be followed over them.
  void join() {
    foot_order_ = std::numeric_limits<int>::min();
    for (std::int32_t i = count(); i-- > 0;) {
      if (at(i).low <= bottom_ && at(i).high > bottom_) foot_order_ = at(i).order;
      hang(i);
    }
  }

  /// How many paths a line with the same covers had, all of which ended well; empty: none had. Most lines on the right
  /// of an opening are like one on its left.
  [[nodiscard]] std::optional<std::size_t> tracedAlike(bool beside) const {
    for (const Sound& line : sound_) {
      const auto first = sound_spans_.begin() + static_cast<std::ptrdiff_t>(line.first);
      if (line.beside == beside && line.spans == spans_.size() &&
          std::equal(spans_.begin(), spans_.end(), first, coverAlike)) {
        return line.traced;
      }
    }
    return std::nullopt;
  }

  void keepSound(bool beside, std::size_t traced) {
    sound_.push_back({beside, sound_spans_.size(), spans_.size(), traced});
    sound_spans_.insert(sound_spans_.end(), spans_.begin(), spans_.end());
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

  /// Of what runs down a cover from z. All that reaches an edge goes on alike, so each edge is looked at once.
  [[nodiscard]] Course courseFrom(std::int32_t index, double z) {
    const std::int32_t over = nextOver(index, z);
    if (over >= 0) return at(over).top == EdgeSeal::Open ? Course::Fault : courseOver(over);
    if (at(index).low <= bottom_) {
      return coveredAtFoot(at(index).order) ? Course::BehindCladding : Course::Outside;
    }
    Course& off = spans_[static_cast<std::size_t>(index)].off_below;
    if (off != Course::NotLooked) return off;
    const std::int32_t next = fallsTo(index);
    return off = next < 0 ? Course::Fault : courseFrom(next, at(index).low);
  }

  /// Whether anything at the wall's foot lies outside `order`.
  [[nodiscard]] bool coveredAtFoot(int order) const { return foot_order_ > order; }

 private:
  struct Hit {
    double z;
    EdgeSeal seal;
  };

  [[nodiscard]] Course courseOver(std::int32_t index) {
    Course& over = spans_[static_cast<std::size_t>(index)].over_top;
    if (over == Course::NotLooked) over = courseFrom(index, at(index).high);
    return over;
  }

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

  static bool coverAlike(const Span& a, const Span& b) {
    return a.low == b.low && a.high == b.high && a.order == b.order && a.top == b.top && a.kind == b.kind;
  }

  /// A line whose water all ended well.
  struct Sound {
    bool beside = false;               ///< Of the opening.
    std::size_t first = 0, spans = 0;  ///< In sound_spans_.
    std::size_t traced = 0;
  };

  Layers layers_;
  std::vector<double> cuts_;
  std::vector<Sound> sound_;
  std::vector<Span> sound_spans_;
  double bottom_ = 0;
  int foot_order_ = 0;
  std::vector<Span> spans_;
  std::vector<Hit> hits_;
};

struct Tracer {
  const Skin& skin;
  Column& column;
  Water& water;
  bool faults_only = false;  ///< Paths that come to no harm are counted, not kept.

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

  /// Water that was behind the cladding from its start may leave there.
  [[nodiscard]] bool endsWell(WaterSource source, std::int32_t on, double z) const {
    const Course course = on < 0 ? Course::Fault : column.courseFrom(on, z);
    return course == Course::Outside || (course == Course::BehindCladding && source == WaterSource::Seepage);
  }

  void trace(WaterSource source, double x_low, double x_high, std::int32_t on, double z) const {
    ++water.traced;
    if (faults_only && endsWell(source, on, z)) return;
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

void traceStrip(const Tracer& tracer, double x_low, double x_high) {
  traceExposed(tracer, WaterSource::Rain, x_low, x_high, [](const Span&) { return false; });
  traceExposed(tracer, WaterSource::Seepage, x_low, x_high,
               [](const Span& span) { return span.kind == SheetKind::Cladding; });
}

const char* endWords(WaterEnd end) { return end == WaterEnd::IntoOpening ? "into the opening" : "on to bare timber"; }

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
  if (path.end == WaterEnd::Outside) return said + "; it comes out again below, and is shed outside.";
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
void traceDrains(const Tracer& tracer) {
  const Skin& skin = tracer.skin;
  Column& column = tracer.column;
  for (const Point drain : skin.frame_drains) {
    if (drain.z <= skin.bottom) continue;
    column.lookAt(drain.x);
    column.join();
    int unit_order = std::numeric_limits<int>::max();
    for (const auto& span : column.spans()) {
      if (span.kind == SheetKind::Fin || span.kind == SheetKind::UnitFace)
        unit_order = std::min(unit_order, span.order);
    }
    tracer.trace(WaterSource::FrameDrainage, drain.x, drain.x, column.behind(unit_order, drain.z), drain.z);
  }
}

/// What runs down along a head flashing in a slope leaves its low end: over its face inside a stop end, else on to what
/// lies outermost behind it beyond that end.
void traceSlopeEnds(const Tracer& tracer) {
  const Skin& skin = tracer.skin;
  Column& column = tracer.column;
  constexpr double kBeside = 0.5;  // mm from the end, on the one side or the other
  for (const Point end : skin.slope_ends) {
    const bool inwards = (end.x < skin.opening_width / 2) == skin.stop_ends;
    const double x = end.x + (inwards ? kBeside : -kBeside);
    column.lookAt(x);
    column.join();
    int flashing = std::numeric_limits<int>::max();
    for (const Sheet& sheet : skin.sheets) {
      if (sheet.kind == SheetKind::HeadFlashing) flashing = sheet.order;
    }
    const std::int32_t on = column.behind(skin.stop_ends ? flashing + 1 : flashing, end.z);
    tracer.trace(WaterSource::Rain, x, x, on, end.z);
  }
}

void traceInto(const Skin& skin, bool faults_only, Water& water) {
  Column column;
  column.use(skin);
  const std::vector<double>& cuts = column.cuts();
  const Tracer tracer{skin, column, water, faults_only};
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i, ++water.strips) {
    const double x = (cuts[i] + cuts[i + 1]) / 2;
    const bool beside = x <= 0 || x >= skin.opening_width;
    column.lookAt(x);
    if (const auto alike = faults_only ? column.tracedAlike(beside) : std::nullopt) {
      water.traced += *alike;
      continue;
    }
    column.join();
    const std::size_t kept = water.paths.size();
    const std::size_t traced = water.traced;
    traceStrip(tracer, cuts[i], cuts[i + 1]);
    if (faults_only && water.paths.size() == kept) column.keepSound(beside, water.traced - traced);
  }
  traceDrains(tracer);
  traceSlopeEnds(tracer);
  gatherLeaks(skin, water);
}

}  // namespace

Water traceWater(const Skin& skin) {
  Water water;
  traceInto(skin, false, water);
  for (const WaterPath& path : water.paths) {
    if (path.end == WaterEnd::Outside && path.lap_ended) gather(skin, path, water.held);
  }
  return water;
}

WaterFaults waterFaults(const Skin& skin) {
  Water water;
  traceInto(skin, true, water);
  return std::move(static_cast<WaterFaults&>(water));
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
