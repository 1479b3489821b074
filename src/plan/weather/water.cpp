#include "plan/weather/water.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace sillwright::plan {
namespace {

/// A sheet's cover of the line looked at.
struct Span : Cover {
  std::int32_t sheet = -1;
  int order = 0;
  SheetKind kind = SheetKind::MembraneRun;
  bool is_level = false;         ///< Foot and top: they are as high on every line.
  std::int32_t first_over = -1;  ///< The highest top edge of a sheet further out that lies on this one; -1: none.
  std::int32_t next_over = -1;   ///< The next lower one on the sheet that this one's top edge lies on.
};

/// A sheet, and what it covers of the lines between two of its corners.
struct Layer {
  const Sheet* sheet;
  Rect box;
  double from = 0, to = 0;            ///< The lines x that `covers` holds for: from < x <= to.
  std::size_t first = 0, covers = 0;  ///< In Column::covers_.
};

/// The covers of one upright line of a skin, outermost first, and how water gets from one to the next.
class Column {
 public:
  explicit Column(const Skin& skin) : skin_(skin) {}

  /// Finds the covers of a line and joins them, so that water can be followed over them.
  void lookAt(double x) {
    if (outer_first_.empty()) layOut();
    spans_.clear();
    for (Layer& layer : outer_first_) {
      if (!(layer.box.x0 < x && x <= layer.box.x1)) continue;  // as coversAt
      if (!(layer.from < x && x <= layer.to)) cover(layer, x);
      for (std::size_t i = layer.first; i < layer.first + layer.covers; ++i) {
        Span& span = spans_.emplace_back(covers_[i]);
        if (span.is_level) continue;
        span.low = heightOn(*layer.sheet, span.foot_edge, x);
        span.high = heightOn(*layer.sheet, span.top_edge, x);
        if (!(span.high > span.low)) spans_.pop_back();  // beside a corner
      }
    }
    foot_order_ = std::numeric_limits<int>::min();
    // From the innermost outwards, so that foot_order_ ends as the outermost at the foot.
    for (std::int32_t i = count(); i-- > 0;) {
      if (at(i).low <= skin_.bottom && at(i).high > skin_.bottom) foot_order_ = at(i).order;
      hang(i);
    }
  }

  [[nodiscard]] std::int32_t count() const { return static_cast<std::int32_t>(spans_.size()); }
  [[nodiscard]] const Span& at(std::int32_t i) const { return spans_[static_cast<std::size_t>(i)]; }

  /// The outermost cover just below z among those behind `order`; -1: bare timber, or nothing.
  [[nodiscard]] std::int32_t behind(int order, double z) const {
    for (std::int32_t i = 0; i < count(); ++i) {
      if (at(i).order < order && at(i).low < z && at(i).high >= z) return i;  // the first is the outermost
    }
    return -1;
  }

  /// The highest top edge of a sheet further out that lies directly on `on` below z; -1: none.
  [[nodiscard]] std::int32_t nextOver(std::int32_t on, double z) const {
    std::int32_t over = at(on).first_over;
    while (over >= 0 && at(over).high >= z) over = at(over).next_over;
    return over;
  }

  /// Whether anything at the wall's foot lies outside `order`.
  [[nodiscard]] bool coveredAtFoot(int order) const { return foot_order_ > order; }

 private:
  /// Not before a line is looked at: most skins are known to be sound without. Room for what most skins come to, else
  /// half the time of a small one goes into moving what was kept.
  void layOut() {
    spans_.reserve(32);
    covers_.reserve(64);
    around_.covers.reserve(8);
    outer_first_.reserve(skin_.sheets.size());
    for (const Sheet* sheet : outermostFirst(skin_)) outer_first_.push_back({sheet, boxOf(*sheet)});
  }

  /// Finds what a sheet covers of the line at x, and how far to its sides that holds.
  void cover(Layer& layer, double x) {
    const Sheet& sheet = *layer.sheet;
    coversAround(sheet, x, around_);
    layer.from = around_.from;
    layer.to = around_.to;
    layer.first = covers_.size();  // what holds left of here stays: lines go from left to right, but for a few
    layer.covers = around_.covers.size();
    const auto index = static_cast<std::int32_t>(&sheet - skin_.sheets.data());
    for (auto each = around_.covers.rbegin(); each != around_.covers.rend(); ++each) {
      const bool is_level = isLevelEdge(sheet, each->foot_edge) && isLevelEdge(sheet, each->top_edge);
      covers_.push_back({*each, index, sheet.order, sheet.kind, is_level});
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

  const Skin& skin_;
  std::vector<Layer> outer_first_;
  int foot_order_ = 0;
  std::vector<Span> spans_;
  std::vector<Span> covers_;  ///< Of the sheets, as lines take them over.
  CornerToCorner around_;
};

/// Whether it ran down a flashing and then got behind the sill's, which should have brought it out.
bool lostBySill(const Skin& skin, const WaterPath& path) {
  if (!path.lap_ended || path.went_behind < 0 || path.came_from < 0) return false;
  const auto kind = [&](std::int32_t sheet) { return skin.sheets[static_cast<std::size_t>(sheet)].kind; };
  return kind(path.went_behind) == SheetKind::SillFlashing && kind(path.came_from) != SheetKind::MembraneRun;
}

/// The list of faults that a path belongs to; null: it comes to no harm.
std::vector<Leak> WaterFaults::*faultOf(const Skin& skin, const WaterPath& path) {
  if (path.end == WaterEnd::Timber || path.end == WaterEnd::IntoOpening) return &WaterFaults::leaks;
  // Seepage is behind the cladding from the start and may leave there, unless the flashings had it in hand; anything
  // else that ends there has passed a lap it should not have.
  if (path.end == WaterEnd::BehindCladding && (path.source != WaterSource::Seepage || lostBySill(skin, path))) {
    return &WaterFaults::behind_cladding;
  }
  return path.end == WaterEnd::Outside && path.lap_ended ? &WaterFaults::held : nullptr;
}

struct Tracer {
  const Skin& skin;
  Column& column;
  Water& water;
  bool faults_only = false;  ///< Paths that come to no harm are counted, not kept, and no legs are.

  void leg(WaterPath& path, std::int32_t sheet, double from, double to) const {
    if (faults_only) return;
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
    // Each round goes on lower than the one before, so that it ends.
    while (index >= 0) {
      const Span& on = column.at(index);
      const double start = z;
      Behind behind;
      std::int32_t over = column.nextOver(index, z);
      while (over >= 0 && column.at(over).top == EdgeSeal::Open) {
        z = column.at(over).high;
        behind = {column.at(over).sheet, z};
        over = column.at(over).next_over;
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
      if (behind.sheet >= 0) path.lap_ended = true;  // the outer sheet is still before it here
      const std::int32_t next = column.behind(on.order, z);
      if (next < 0 && path.went_behind < 0) {  // no lap is at fault: it names what lets it fall
        path.came_from = on.sheet;
        path.z_behind = z;
      }
      index = next;
    }
    leg(path, -1, z, z);  // of no length: what runs down the timber is not followed
    path.end = endOnNothing(x, z);
  }

  void trace(WaterSource source, double x_low, double x_high, std::int32_t on, double z) const {
    ++water.traced;
    WaterPath path{source, WaterEnd::Outside, x_low, x_high, static_cast<std::uint32_t>(water.legs.size())};
    path.z_behind = z;  // where it starts, until it gets behind something
    run(path, on, (x_low + x_high) / 2, z);
    if (!faults_only || faultOf(skin, path) != nullptr) water.paths.push_back(path);
  }
};

/// Starts a path at the top of each stretch of the strip that is exposed: to seepage what lies behind the cladding.
void traceExposed(const Tracer& tracer, WaterSource source, double x_low, double x_high) {
  const Skin& skin = tracer.skin;
  const Column& column = tracer.column;
  double z = std::min(skin.sheltered_above, skin.top);
  while (z > skin.bottom) {
    std::int32_t face = -1;     // the outermost face just below z
    double next = skin.bottom;  // where that can change
    for (std::int32_t i = 0; i < column.count(); ++i) {
      const Span& span = column.at(i);
      if (source == WaterSource::Seepage && span.kind == SheetKind::Cladding) continue;
      if (span.low < z && span.high >= z) {
        next = std::max(next, span.low);
        face = i;
        break;  // what lies further in can't be seen here, nor change that
      }
      if (span.high < z) next = std::max(next, span.high);
    }
    // Where no sheet is, bare timber is wetted; into the opening itself no rain is let fall: the unit fills it.
    if (face >= 0 || tracer.endOnNothing((x_low + x_high) / 2, z) == WaterEnd::Timber) {
      tracer.trace(source, x_low, x_high, face, z);
    }
    z = next;
  }
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
  if (path.end == WaterEnd::Outside) return said + "; it comes out again below, and is shed outside.";
  if (path.end == WaterEnd::BehindCladding) return said + "; it leaves at the wall's foot, behind the cladding.";
  return said + ", and runs " + (path.end == WaterEnd::IntoOpening ? "into the opening." : "on to bare timber.");
}

void gather(const Skin& skin, const WaterPath& path, std::vector<Leak>& leaks) {
  for (auto& leak : leaks) {
    const bool same = leak.source == path.source && leak.end == path.end && leak.upper == path.came_from &&
                      leak.lower == path.went_behind;
    const bool another_start = leak.x_low <= path.x_low && leak.x_high >= path.x_high;  // in the same strip
    const bool beside = std::abs(leak.x_high - path.x_low) < 1e-9;  // strips share the cut between them
    if (!same || !(another_start || beside)) continue;
    if (!another_start) leak.x_high = path.x_high;
    leak.z = std::max(leak.z, path.z_behind);  // the highest place where it gets in
    return;
  }
  leaks.push_back({path.source, path.end, path.x_low, path.x_high, path.z_behind, path.came_from, path.went_behind,
                   sayLeak(skin, path)});
}

void traceDrips(const Tracer& tracer, const std::vector<double>& cuts, const std::vector<std::size_t>& sound) {
  for (const Drip& drip : dripsOf(tracer.skin)) {
    const auto [x, z] = drip.at;
    const auto strip = static_cast<std::size_t>(std::lower_bound(cuts.begin(), cuts.end(), x) - cuts.begin());
    if (strip < cuts.size() && sound[strip] != kNotSound) continue;
    tracer.column.lookAt(x);
    const auto source = drip.of_frame ? WaterSource::FrameDrainage : WaterSource::Rain;
    tracer.trace(source, x, x, tracer.column.behind(drip.behind, z), z);
  }
}

Water traced(const Skin& skin, bool faults_only) {
  Water water;
  Column column(skin);
  const std::vector<double> cuts = stripsOf(skin);
  const std::vector<std::size_t> sound =
      faults_only ? soundPaths(skin, cuts) : std::vector<std::size_t>(cuts.size(), kNotSound);
  if (!faults_only) {  // what most skins come to
    water.paths.reserve(16 * cuts.size());
    water.legs.reserve(64 * cuts.size());
  }
  const Tracer tracer{skin, column, water, faults_only};
  for (std::size_t i = 1; i < cuts.size(); ++i, ++water.strips) {
    if (sound[i] != kNotSound) {
      water.traced += sound[i];
      continue;
    }
    column.lookAt((cuts[i - 1] + cuts[i]) / 2);
    traceExposed(tracer, WaterSource::Rain, cuts[i - 1], cuts[i]);
    traceExposed(tracer, WaterSource::Seepage, cuts[i - 1], cuts[i]);
  }
  traceDrips(tracer, cuts, sound);
  for (const auto& path : water.paths) {
    if (const auto list = faultOf(skin, path)) gather(skin, path, water.*list);
  }
  return water;
}

}  // namespace

Water traceWater(const Skin& skin) { return traced(skin, false); }
WaterFaults waterFaults(const Skin& skin) { return traced(skin, true); }

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
