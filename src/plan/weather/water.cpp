#include "plan/weather/water.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace sillwright::plan {
namespace {

constexpr std::int32_t kNotLooked = -2;

/// A sheet's cover of the line looked at.
struct Span : Cover {
  std::int32_t sheet = -1;
  int order = 0;
  SheetKind kind = SheetKind::MembraneRun;
  std::int32_t first_over = -1;  ///< The highest top edge of a sheet further out that lies on this one; -1: none.
  std::int32_t next_over = -1;   ///< The next lower one on the sheet that this one's top edge lies on.
  std::int32_t falls_to = kNotLooked;
};

/// A sheet, its box, and what it covers of the lines between two of its corners.
struct Layer {
  const Sheet* sheet;
  Rect box;
  bool is_square = true;
  double from = 0, to = 0;            ///< The lines x that `covers` holds for: from < x <= to.
  std::size_t first = 0, covers = 0;  ///< In Column::covers_.
};

Layer layerOf(const Sheet& sheet) {
  Layer layer{&sheet, boxOf(sheet)};
  for (std::size_t i = 0; i < sheet.outline.size(); ++i) {
    const Point a = sheet.outline[i], b = sheet.outline[i + 1 < sheet.outline.size() ? i + 1 : 0];
    layer.is_square = layer.is_square && (a.x == b.x || a.z == b.z);
  }
  return layer;
}

/// The covers of one upright line of a skin, outermost first, and how water gets from one to the next.
class Column {
 public:
  explicit Column(const Skin& skin) : skin_(skin) {
    // Room for what most skins come to: else half the time of a small one goes into moving what was kept.
    outer_first_.reserve(skin.sheets.size());
    spans_.reserve(32);
    sound_spans_.reserve(256);
    sound_.reserve(32);
    covers_.reserve(64);
    at_.reserve(8);
    rising_.reserve(256);
    heights_.reserve(64);
    for (std::size_t i = skin.sheets.size(); i-- > 0;) {
      outer_first_.push_back(layerOf(skin.sheets[i]));
      is_sloped_ = is_sloped_ || !skin.sheets[i].level.empty();
    }
    const auto isOver = [](const Layer& a, const Layer& b) { return a.sheet->order > b.sheet->order; };
    if (!std::is_sorted(outer_first_.begin(), outer_first_.end(), isOver)) {  // a tried order of work's
      std::stable_sort(outer_first_.begin(), outer_first_.end(), isOver);
    }
  }

  /// Finds the covers of a line.
  void lookAt(double x) {
    spans_.clear();
    for (Layer& layer : outer_first_) {
      if (!(layer.box.x0 < x && x <= layer.box.x1)) continue;  // a line along an upright edge is beside it
      if (!(layer.from < x && x <= layer.to)) cover(layer, x);
      for (std::size_t i = layer.first; i < layer.first + layer.covers; ++i) {
        Span& span = spans_.emplace_back(covers_[i]);
        if (layer.is_square) continue;
        span.low = heightOn(*layer.sheet, span.foot_edge, x);
        span.high = heightOn(*layer.sheet, span.top_edge, x);
      }
    }
  }

  /// How many paths a line with the same covers had, none of which came to harm; empty: there was none. Under a
  /// slope the same are those whose edges come one over the other as here, however far apart: nothing else decides
  /// where water runs. Most lines on the right of an opening are like one on its left, most under a slope like their
  /// neighbours.
  [[nodiscard]] std::optional<std::size_t> soundAlike(bool beside) {
    if (is_sloped_) readHeights();
    const auto isAlike = [this](const Span& a, const Span& b) {
      return a.order == b.order && a.top == b.top && a.kind == b.kind &&
             (is_sloped_ || (a.low == b.low && a.high == b.high));
    };
    for (auto line = sound_.rbegin(); line != sound_.rend(); ++line) {  // the neighbour first
      const auto first = sound_spans_.begin() + static_cast<std::ptrdiff_t>(line->first);
      const bool comparable = line->beside == beside && line->spans == spans_.size();
      if (comparable && std::equal(spans_.begin(), spans_.end(), first, isAlike) && isInOrder(*line))
        return line->traced;
    }
    return std::nullopt;
  }
  void keepSound(bool beside, std::size_t traced) {
    sound_.push_back({beside, sound_spans_.size(), spans_.size(), rising_.size(), traced});
    sound_spans_.insert(sound_spans_.end(), spans_.begin(), spans_.end());
    const auto first = static_cast<std::ptrdiff_t>(rising_.size());
    for (std::size_t i = 0; i < heights_.size(); ++i) rising_.push_back({i, false});
    std::sort(rising_.begin() + first, rising_.end(),
              [this](Height a, Height b) { return heights_[a.which] < heights_[b.which]; });
    for (auto at = rising_.begin() + first; at != rising_.end(); ++at) {
      at->is_level = at != rising_.begin() + first && heights_[at->which] == heights_[std::prev(at)->which];
    }
  }

  /// Joins the covers of the line looked at, so that water can be followed over them.
  void join() {
    foot_order_ = std::numeric_limits<int>::min();
    for (std::int32_t i = count(); i-- > 0;) {
      if (at(i).low <= skin_.bottom && at(i).high > skin_.bottom) foot_order_ = at(i).order;
      hang(i);
    }
  }

  [[nodiscard]] std::int32_t count() const { return static_cast<std::int32_t>(spans_.size()); }
  [[nodiscard]] const Span& at(std::int32_t i) const { return spans_[static_cast<std::size_t>(i)]; }
  [[nodiscard]] const std::vector<Span>& spans() const { return spans_; }

  /// Where what runs off the lower edge of a cover lands; -1: on nothing.
  [[nodiscard]] std::int32_t fallsTo(std::int32_t from) {
    Span& span = spans_[static_cast<std::size_t>(from)];
    if (span.falls_to == kNotLooked) span.falls_to = behind(span.order, span.low);
    return span.falls_to;
  }

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

  /// Whether anything at the wall's foot lies outside `order`.
  [[nodiscard]] bool coveredAtFoot(int order) const { return foot_order_ > order; }

 private:
  /// A line whose water came to no harm.
  struct Sound {
    bool beside = false;               ///< Of the opening.
    std::size_t first = 0, spans = 0;  ///< In sound_spans_.
    std::size_t rising = 0;            ///< In rising_.
    std::size_t traced = 0;
  };
  /// One of a line's heights, and whether it is as high as the one before it.
  struct Height {
    std::size_t which = 0;
    bool is_level = false;
  };

  void readHeights() {
    heights_ = {skin_.bottom, 0, skin_.opening_height, std::min(skin_.sheltered_above, skin_.top)};
    for (const Span& span : spans_) heights_.insert(heights_.end(), {span.low, span.high});
  }

  /// Whether the heights of the line looked at come in the order of that one's.
  [[nodiscard]] bool isInOrder(const Sound& line) const {
    double below = -std::numeric_limits<double>::infinity();
    for (std::size_t i = line.rising; i < line.rising + heights_.size(); ++i) {
      const double z = heights_[rising_[i].which];
      if (rising_[i].is_level ? z != below : !(z > below)) return false;
      below = z;
    }
    return true;
  }

  /// Finds what a sheet covers of the line at x, and how far to its sides that holds.
  void cover(Layer& layer, double x) {
    coversAt(*layer.sheet, x, at_);
    layer.first = covers_.size();
    layer.covers = at_.size();
    const auto index = static_cast<std::int32_t>(layer.sheet - skin_.sheets.data());
    for (auto each = at_.rbegin(); each != at_.rend(); ++each) {
      covers_.push_back({*each, index, layer.sheet->order, layer.sheet->kind});
    }
    layer.from = layer.box.x0;
    layer.to = layer.box.x1;
    for (const Point corner : layer.sheet->outline) {
      if (corner.x < x) layer.from = std::max(layer.from, corner.x);
      if (corner.x >= x) layer.to = std::min(layer.to, corner.x);
    }
    if (layer.to == x && !layer.is_square) layer.from = x;  // at a corner, where two sloped edges may meet
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
  bool is_sloped_ = false;  ///< It follows the roof.
  int foot_order_ = 0;
  std::vector<Span> spans_, sound_spans_;
  std::vector<Sound> sound_;
  std::vector<Height> rising_;  ///< The heights of each sound line, from the lowest.
  std::vector<double>
      heights_;               ///< Under a slope, of the line looked at: what all have, then foot and top of each cover.
  std::vector<Span> covers_;  ///< Of the sheets, as lines take them over.
  std::vector<Cover> at_;
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
    ++water.traced;
    WaterPath& path = water.paths.emplace_back();
    path = {source, WaterEnd::Outside, x_low, x_high, static_cast<std::uint32_t>(water.legs.size())};
    path.z_behind = z;  // where it starts, until it gets behind something
    run(path, on, (x_low + x_high) / 2, z);
    if (faults_only && faultOf(skin, path) == nullptr) water.paths.pop_back();
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
    const bool beside = std::abs(leak.x_high - path.x_low) < 1e-9;
    if (!same || !(another_start || beside)) continue;
    if (!another_start) leak.x_high = path.x_high;
    leak.z = std::max(leak.z, path.z_behind);
    return;
  }
  leaks.push_back({path.source, path.end, path.x_low, path.x_high, path.z_behind, path.came_from, path.went_behind,
                   sayLeak(skin, path)});
}

void gatherLeaks(const Skin& skin, Water& water) {
  for (const auto& path : water.paths) {
    if (const auto list = faultOf(skin, path)) gather(skin, path, water.*list);
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

/// Follows all that falls on a strip, or counts it where a line like it came to no harm.
void traceStrip(const Tracer& tracer, double x_low, double x_high) {
  Water& water = tracer.water;
  const double x = (x_low + x_high) / 2;
  const bool beside = x < 0 || x > tracer.skin.opening_width;
  tracer.column.lookAt(x);
  if (const auto alike = tracer.faults_only ? tracer.column.soundAlike(beside) : std::nullopt) {
    water.traced += *alike;
    return;
  }
  tracer.column.join();
  const std::size_t traced = water.traced, kept = water.paths.size();
  traceExposed(tracer, WaterSource::Rain, x_low, x_high);
  traceExposed(tracer, WaterSource::Seepage, x_low, x_high);
  if (tracer.faults_only && water.paths.size() == kept) tracer.column.keepSound(beside, water.traced - traced);
}

Water traced(const Skin& skin, bool faults_only) {
  Water water;
  Column column(skin);
  const std::vector<double> cuts = stripsOf(skin);
  if (!faults_only) {  // what most skins come to
    water.paths.reserve(16 * cuts.size());
    water.legs.reserve(64 * cuts.size());
  }
  const Tracer tracer{skin, column, water, faults_only};
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i, ++water.strips) traceStrip(tracer, cuts[i], cuts[i + 1]);
  traceDrains(tracer);
  traceSlopeEnds(tracer);
  gatherLeaks(skin, water);
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
