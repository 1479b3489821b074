#include "plan/weather/skin.h"

#include <algorithm>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <limits>
#include <utility>

namespace sillwright::plan {
namespace {

/// Sheets, a bit each, the outermost lowest.
using Set = std::uint64_t;
std::size_t first(Set sheets) { return static_cast<std::size_t>(std::countr_zero(sheets)); }
Set outermost(Set sheets) { return sheets & (~sheets + 1); }
Set bitOf(std::size_t layer) { return Set{1} << layer; }

// What becomes of water on a sheet. It leaves outside where nothing is said.
constexpr std::uint8_t kLeaks = 1;  ///< Or nearly: only following it tells.
constexpr std::uint8_t kBehindCladding = 2;
constexpr std::uint8_t kLapped = 4;  ///< It has got behind a sheet while the one that it ran down ends there.
constexpr std::uint8_t kDrops = 8;   ///< Off the sheet's lower edge: not carried on to another, nor at the wall's foot.

constexpr Drip kNotTold{{0, std::numeric_limits<double>::quiet_NaN()}};  ///< Of two on a line, or below its foot.
constexpr double kNoDrip = std::numeric_limits<double>::infinity();      ///< As its height.

struct Layer {
  const Sheet* sheet;
  double x1;
  double to;  ///< Its edges hold up to here, its next corner.
  Set further_in = 0;
  std::uint8_t fate = 0;  ///< Of water on it just below the height come to.
};

/// An edge that the line crosses.
struct Edge {
  double z;
  double to;
  std::uint32_t edge;  ///< Of the outline.
  std::uint8_t layer;
  bool is_level, is_top, is_turned;
};

/// Goes up a line's edges once: what becomes of water on a sheet is settled by what lies below.
class Line {
 public:
  explicit Line(const Skin& skin) : bottom_(skin.bottom), top_(std::min(skin.sheltered_above, skin.top)) {
    layers_.reserve(skin.sheets.size());
    edges_.reserve(40);  // of most lines
    for (const Sheet* sheet : outermostFirst(skin)) {
      const Rect box = boxOf(*sheet);
      layers_.push_back({sheet, box.x1, box.x0});  // no edges yet: `read` asks for them from x0 on
    }
    // From the innermost outwards. Sheets of one depth don't lie behind each other: they wait in `as_deep`.
    Set inside = 0, as_deep = 0;
    for (std::size_t i = layers_.size(); i-- > 0; as_deep |= bitOf(i)) {
      const Sheet& sheet = *layers_[i].sheet;
      if (i + 1 < layers_.size() && sheet.order > layers_[i + 1].sheet->order) inside |= std::exchange(as_deep, 0);
      layers_[i].further_in = inside;
      if (sheet.kind == SheetKind::Cladding) cladding_ |= bitOf(i);
    }
  }

  /// As soundPaths, of the line at x and a drip beside it. From left to right.
  std::size_t pathsAt(double x, const Drip& drip) {
    read(x);
    paths_ = 0;
    drip_ = drip;
    return top_ > bottom_ && isSound() ? paths_ : kNotSound;
  }

 private:
  /// Brings the edges to the line at x. Nearly in order they are already, as on the line before it.
  void read(double x) {
    if (x > next_corner_) readCorners(x);
    for (auto each = edges_.begin(); each != edges_.end(); ++each) {
      if (!each->is_level) each->z = heightOn(*layers_[each->layer].sheet, each->edge, x);
      if (each == edges_.begin() || std::prev(each)->z <= each->z) continue;
      const Edge edge = *each;
      auto at = each;
      for (; at != edges_.begin() && std::prev(at)->z > edge.z; --at) *at = *std::prev(at);
      *at = edge;
    }
  }

  void readCorners(double x) {
    const auto hasEnded = [x](const Edge& edge) { return edge.to < x; };
    edges_.erase(std::remove_if(edges_.begin(), edges_.end(), hasEnded), edges_.end());
    next_corner_ = std::numeric_limits<double>::infinity();
    for (Layer& layer : layers_) {
      if (layer.to < x && x <= layer.x1) addEdges(layer, x);
      if (layer.to >= x) next_corner_ = std::min(next_corner_, layer.to);
    }
  }

  void addEdges(Layer& layer, double x) {
    const Sheet& sheet = *layer.sheet;
    coversAround(sheet, x, around_);
    layer.to = around_.to;
    const auto which = static_cast<std::uint8_t>(&layer - layers_.data());
    const auto add = [&](double z, std::uint32_t edge, bool is_top, bool is_turned) {
      edges_.push_back({z, layer.to, edge, which, isLevelEdge(sheet, edge), is_top, is_turned});
    };
    for (const Cover& cover : around_.covers) {
      add(cover.low, cover.foot_edge, false, false);  // a foot lets go of what runs down, whatever its seal
      add(cover.high, cover.top_edge, true, cover.top != EdgeSeal::Open);
    }
  }

  /// Starts a path on the outermost of what lies just below a height, unless it is the outermost above too; false: it
  /// may come to harm.
  bool startOn(Set faces, Set above, bool is_rain) {
    if (outermost(faces) == outermost(above)) return true;
    if (faces == 0) return false;  // bare timber, or the opening: Tracer tells which
    ++paths_;
    // As faultOf: rain must leave outside, past sound laps; seepage may leave behind the cladding.
    const int fate = layers_[first(faces)].fate & ~kDrops;
    return fate == 0 || (!is_rain && (fate & kLeaks) == 0 && (fate & kBehindCladding) != 0);
  }
  bool startBelow(Set above) {
    return startOn(below_, above, true) && startOn(below_ & ~cladding_, above & ~cladding_, false);
  }

  /// The drip lands on the outermost of what it may; false: it may come to harm.
  bool dripOn(Set on) {
    const double z = std::exchange(drip_.at.z, kNoDrip);
    for (const Edge& edge : edges_) {
      const Layer& layer = layers_[edge.layer];
      if (layer.sheet->order >= drip_.behind) on &= layer.further_in;
      if (!edge.is_level && (edge.z < z) != (heightOn(*layer.sheet, edge.edge, drip_.at.x) < z)) return false;
    }
    ++paths_;
    return on != 0 && (layers_[first(on)].fate & ~kDrops) == 0;
  }

  /// Past the foot of a sheet: what drops off it lands on the outermost behind it.
  void begin(Layer& layer) {
    const Set on = layer.further_in & below_;
    layer.fate = kDrops | kLeaks;
    if (on != 0) layer.fate = layers_[first(on)].fate | kDrops;
  }

  /// Past the top of a sheet: what runs down on the outermost behind it meets that.
  void end(const Layer& layer, bool is_turned, Set above) {
    const Set on = layer.further_in & below_ & above;
    if (on == 0) return;  // no sheet behind it goes on: nothing comes down there
    Layer& inner = layers_[first(on)];
    if (is_turned) {
      inner.fate = layer.fate & static_cast<std::uint8_t>(~kDrops);
    } else if ((inner.fate & kDrops) != 0) {
      const bool is_lost = layer.sheet->kind == SheetKind::SillFlashing && inner.sheet->kind != SheetKind::MembraneRun;
      inner.fate |= is_lost ? kLeaks : kLapped;
    }
  }

  bool isSound() {
    auto edge = edges_.begin();
    for (below_ = 0; edge != edges_.end() && edge->z <= bottom_; ++edge) {
      if (edge->is_top) return false;  // a sheet that ends where the wall does: left to be followed
      below_ |= bitOf(edge->layer);
    }
    for (Set foot = below_; foot != 0; foot &= foot - 1) {
      const bool is_behind = (layers_[first(below_)].further_in & outermost(foot)) != 0;  // as Column::coveredAtFoot
      layers_[first(foot)].fate = is_behind ? kBehindCladding : 0;
    }
    while (edge != edges_.end() && edge->z < top_) {
      Set feet = 0, tops = 0, turned = 0;
      const double z = edge->z;
      do {
        const Set sheet = bitOf(edge->layer);
        (edge->is_top ? tops : feet) |= sheet;
        if (edge->is_turned) turned |= sheet;
      } while (++edge != edges_.end() && edge->z == z);
      // Of a sheet that ends as or before it begins, by rounding beside a corner, nothing is told.
      if ((feet & (below_ | tops)) != 0 || (tops & ~below_) != 0) return false;
      const Set above = (below_ | feet) & ~tops;
      if (z >= drip_.at.z && !dripOn(below_)) return false;
      if (!startBelow(above)) return false;  // before the fates change: they are those just below
      // Feet first: what drops lands below, where `end` changed nothing yet.
      for (; feet != 0; feet &= feet - 1) begin(layers_[first(feet)]);
      while (tops != 0) {  // the innermost first: water meets the outermost of those that are as high
        const Set top = std::bit_floor(tops);
        tops &= ~top;
        end(layers_[first(top)], (turned & top) != 0, above);
      }
      below_ = above;
    }
    // Whatever is outermost at the top starts a path.
    return startBelow(~below_) && (drip_.at.z == kNoDrip || (drip_.at.z <= top_ && dripOn(below_)));
  }

  double bottom_, top_;  ///< Of what rain reaches.
  std::vector<Layer> layers_;
  Set cladding_ = 0;
  CornerToCorner around_;
  std::vector<Edge> edges_;                                        ///< Rising.
  double next_corner_ = -std::numeric_limits<double>::infinity();  ///< They are the same up to here.
  Set below_ = 0;  ///< What the line crosses just below the height come to.
  std::size_t paths_ = 0;
  Drip drip_;  ///< Not yet come to.
};

}  // namespace

std::vector<std::size_t> soundPaths(const Skin& skin, const std::vector<double>& cuts) {
  std::vector<std::size_t> paths(cuts.size(), kNotSound);
  if (skin.sheets.size() > std::numeric_limits<Set>::digits) return paths;  // every line is followed then
  Line line(skin);
  const std::vector<Drip> drips = dripsOf(skin);
  for (std::size_t i = 1; i < cuts.size(); ++i) {
    Drip drip{{cuts[i], kNoDrip}};
    for (const Drip& each : drips) {
      if (each.at.x <= cuts[i - 1] || each.at.x > cuts[i]) continue;
      drip = drip.at.z == kNoDrip && each.at.z > skin.bottom ? each : kNotTold;
    }
    paths[i] = line.pathsAt((cuts[i - 1] + cuts[i]) / 2, drip);
  }
  return paths;
}

}  // namespace sillwright::plan
