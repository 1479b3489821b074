/// The skin of one opening as a value: sheets in the wall plane, each with its outline, its depth in the stack and the
/// edges that are sealed.
///
/// One source of truth: the 3D parts are drawn from it and the water is traced over it. Axes of the wall plane with the
/// framed opening's lower left corner as origin (x right as seen from outside, z up), millimetres. Depth counts
/// outwards from the studs: a sheet with a larger order lies outside one with a smaller.
#pragma once

#include <cstdint>
#include <limits>
#include <string>
#include <vector>

#include "plan/shape.h"
#include "plan/work/step_kind.h"

namespace sillwright::plan {

enum class SheetKind : std::uint8_t {
  MembraneRun,  ///< A run of the wall's membrane, cut at the opening.
  HeadFlap,     ///< The membrane's flap kept up over the head flashing and brought down again.
  SillFlashing,
  JambFlashing,
  HeadFlashing,
  HeadTape,
  Fin,
  FaceSeal,  ///< The sealant line between cladding and frame, at the face of a unit without a fin.
  UnitFace,  ///< The unit's fin and the outer face of its frame and glass.
  Cladding
};

/// What an edge does with water that comes down to it from above, or runs off it.
enum class EdgeSeal : std::uint8_t {
  Open,    ///< Water that reaches it from above goes behind.
  Sealed,  ///< Taped, bonded or hard against the sheet behind: water is carried on to the outer face.
  Turned   ///< Turned out, as a head flashing's fall: the same.
};

struct Sheet {
  SheetKind kind = SheetKind::MembraneRun;
  std::vector<Point> outline;          ///< Simple polygon, counter-clockwise as seen from outside.
  std::vector<EdgeSeal> seal;          ///< One an edge of `outline` (edge i: from point i to i + 1); none: all open.
  int order = 0;                       ///< Depth: outermost is largest. No two overlapping sheets share one.
  std::int32_t side = -1;              ///< plan::Side it belongs to, −1: none.
  StepKind step = StepKind::Membrane;  ///< Puts it on.
  std::string name;                    ///< "left jamb flashing", in the practice's words.
  std::vector<Point> level;            ///< Of one that follows the roof: its outline before it did.

  [[nodiscard]] EdgeSeal sealOf(std::size_t edge) const { return seal.empty() ? EdgeSeal::Open : seal[edge]; }
};

struct Skin {
  std::vector<Sheet> sheets;   ///< In rising order.
  double left = 0, right = 0;  ///< Extent of the wall looked at, mm from the opening's left.
  double bottom = 0, top = 0;
  double opening_width = 0;
  double opening_height = 0;
  double sheltered_above = 0;       ///< z above which rain does not reach the face; `top` where nothing shelters.
  std::vector<Point> frame_drains;  ///< Where the unit's frame lets its water out.
  /// Low ends of a head flashing that lies in a slope: what runs down along it leaves there, over its face where it has
  /// a stop end, else past its end.
  std::vector<Point> slope_ends;
  bool stop_ends = true;
};

// Where the sheets of a skin cover the wall plane and each other.

/// As they lie; sheets of one depth from the last to the first.
[[nodiscard]] std::vector<const Sheet*> outermostFirst(const Skin& skin);

/// The box round an outline.
[[nodiscard]] Rect boxOf(const Sheet& sheet);

/// Every x at which the order of surfaces can change, sorted, within the wall looked at.
[[nodiscard]] std::vector<double> stripsOf(const Skin& skin);

/// Water that leaves a part for what lies outermost behind it there: out of the unit's frame, or at a slope's end.
struct Drip {
  Point at;
  int behind = 0;  ///< It lands on a sheet of a lower order.
  bool of_frame = false;
};
[[nodiscard]] std::vector<Drip> dripsOf(const Skin& skin);

/// Of a line on which water may come to harm.
inline constexpr std::size_t kNotSound = std::numeric_limits<std::size_t>::max();
/// How many paths start in the strip that ends at each cut (from stripsOf) and of a drip in it, where all of them come
/// to no harm: told without following them, as on most lines of most skins. Else kNotSound.
[[nodiscard]] std::vector<std::size_t> soundPaths(const Skin& skin, const std::vector<double>& cuts);

/// A stretch of a vertical line that a sheet covers.
struct Cover {
  double low = 0;
  double high = 0;
  EdgeSeal top = EdgeSeal::Open;              ///< Of its upper edge.
  std::uint32_t foot_edge = 0, top_edge = 0;  ///< Of the outline.
};
/// Where a sheet's edge crosses the upright line at x.
[[nodiscard]] inline double heightOn(const Sheet& sheet, std::size_t edge, double x) {
  const Point a = sheet.outline[edge];
  const Point b = sheet.outline[edge + 1 < sheet.outline.size() ? edge + 1 : 0];
  return a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x);
}
[[nodiscard]] inline bool isLevelEdge(const Sheet& sheet, std::size_t edge) {
  return sheet.outline[edge].z == sheet.outline[edge + 1 < sheet.outline.size() ? edge + 1 : 0].z;
}
/// What a sheet covers of the line at x, from the bottom up. A line on a left edge is beside it, on a right one in it.
[[nodiscard]] std::vector<Cover> coversAt(const Sheet& sheet, double x);
/// What a sheet covers of all lines between two of its corners, at the middle between them. Edges that meet in a corner
/// are told apart there, which they may not be on a line beside it.
struct CornerToCorner {
  double from = 0, to = 0;  ///< It holds for lines at from < x <= to.
  std::vector<Cover> covers;
};
void coversAround(const Sheet& sheet, double x, CornerToCorner& around);

/// Whether two sheets cover a common area, and the highest z at which the first one's top edge lies on the second.
struct Overlap {
  bool any = false;
  bool has_top = false;
  Rect box;        ///< Round the common area, as far as lines between the outlines' corners tell it.
  double top = 0;  ///< Where `has_top`.
};
[[nodiscard]] Overlap overlapOf(const Sheet& first, const Sheet& second);

}  // namespace sillwright::plan
