/// How far the edges of an opening reach towards a unit that stands level and plumb in it.
///
/// Every side is looked at in its own inward direction: left +x, right −x, sill +z, head −z. The *reach* of an edge is
/// the inward coordinate of its innermost point opposite the unit, as a function of the unit's lower left corner
/// along that edge (z for jambs, x for sill and head). An edge is two straight segments that meet in its middle, so:
///
/// - bowed outward, or straight, the innermost point lies opposite a corner of the unit: the reach is the *greatest*
///   of at most two lines;
/// - bowed inward, it may also be the middle: the reach is the *least* of at most three lines. Each of them alone is
///   never less than the reach, so a stand is clear of the edge exactly where it is clear of one of its lines.
///
/// That last fact is what makes the largest spare exact for bowed openings: it is the best of a few linear programmes,
/// one for each choice of a line on every edge that is bowed inward, with no cell boundaries to respect. The first
/// choice (each inward-bowed middle opposite the unit) is the only one that matters unless the unit is small.
///
/// Beyond its ends an edge runs on straight. An opening with an edge that leans 45° or more, or whose corners are out
/// of order, is not one that a unit can stand in: its edges are then taken as plumb and level through their innermost
/// points, which errs on the safe side.
#pragma once

#include <array>
#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <vector>

#include "plan/shape.h"
#include "plan/stand/place.h"

namespace sillwright::plan {

[[nodiscard]] constexpr std::size_t indexOf(Side side) { return static_cast<std::size_t>(side); }
[[nodiscard]] constexpr bool isJamb(Side side) { return side == Side::Left || side == Side::Right; }
/// Sign of the inward direction in the wall's axes.
[[nodiscard]] constexpr double inwardSign(Side side) { return side == Side::Left || side == Side::Sill ? 1.0 : -1.0; }

/// An edge in its own terms: t runs along it (z of jambs, x of sill and head), v is the inward coordinate. First end
/// (foot, left), middle, second end.
struct Profile {
  std::array<double, 3> t{}, v{};
  std::array<double, 2> slope{};  ///< dv/dt of each half.
  Side side = Side::Left;
  bool straight = true;
  bool rigid = false;    ///< Its bow is not read: what would be it belongs to the peak.
  bool follows = false;  ///< A head that follows the roof, over a unit whose head does.
  bool peaked = false;   ///< The middle is a corner of its own: a head's peak.
  /// Under a head that follows the roof: by how much the unit's side is shorter than the unit is high (of a jamb), or
  /// how far the unit's head lies below its highest point at its start, its peak and its end.
  double shorter = 0;
  std::array<double, 3> drop{};
  double peak_at = 0;  ///< Of the unit's peak, from its start; 0: it has none.

  /// The edge at t in the wall's axes (x of a jamb, z of sill and head), running on beyond its ends.
  [[nodiscard]] double edgeAt(double at) const {
    return inwardSign(side) * (v[1] + slope[at < t[1] ? 0 : 1] * (at - t[1]));
  }
};

/// The four edges as a unit can stand among them: those of an opening that no unit can stand in are plumb and level
/// through their innermost points.
using Profiles = std::array<Profile, kSides>;

[[nodiscard]] Profiles profilesOf(const OpeningShape& opening);
/// As a unit with such a head meets them.
[[nodiscard]] Profiles profilesOf(const OpeningShape& opening, const HeadLine& unit);

struct ReachLine {
  double at_zero = 0;  ///< Reach where the unit's coordinate along the edge is 0.
  double slope = 0;
  At at = At::Start;  ///< Which point of the unit's side (or the edge's own middle) it belongs to.
  int segment = 0;    ///< 0: the edge's first half, 1: its second.
  /// Where along the edge this line is the reach; only kept for edges bowed inward.
  double from = -std::numeric_limits<double>::infinity();
  double to = std::numeric_limits<double>::infinity();

  [[nodiscard]] double operator()(double t) const { return at_zero + slope * t; }
};

struct Reach {
  std::array<ReachLine, 3> line{};
  int lines = 0;
  int central = 0;     ///< The line that holds where the edge's middle is opposite the unit.
  bool least = false;  ///< Bowed inward: the least of its lines counts. Else the greatest.

  /// The line that is the reach at t.
  [[nodiscard]] const ReachLine& lineAt(double t) const {
    std::size_t chosen = 0;
    double reach = line[0](t);
    for (std::size_t i = 1; i < static_cast<std::size_t>(lines); ++i) {
      const double other = line[i](t);
      if (least ? other < reach : other > reach) {
        chosen = i;
        reach = other;
      }
    }
    return line[chosen];
  }
  [[nodiscard]] double operator()(double t) const { return lineAt(t)(t); }
};

using Reaches = std::array<Reach, kSides>;

/// Reaches towards a unit of `width` × `height`.
[[nodiscard]] Reaches reachesOf(const Profiles& edges, double width, double height);

/// The lines that all hold where the edge's middle is opposite the unit: of the unit's start, of the edge's middle (of
/// a peak two, one for each slope; else twice the same), of the unit's end.
[[nodiscard]] std::array<ReachLine, 4> linesByPoint(const Profile& edge, double size);

/// How the reach of one line moves with what the opening was measured to be: derivatives by the corners' coordinates
/// (BL.x, BL.z, BR.x, BR.z, TR.x, TR.z, TL.x, TL.z) and by the bow of the line's own edge.
struct ReachGradient {
  std::array<double, 8> corner{};
  double bow = 0;
};

/// `t`: the unit's coordinate along the edge; `size`: the unit's own size along it.
[[nodiscard]] ReachGradient gradientOf(const Profile& edge, const ReachLine& line, double t, double size);

// Heads in line: one common level for the heads of the units along a wall.
//
// Each unit may stand anywhere in its own feasible range of heights. The common level lies in all ranges, where there
// is such a level, and moves the unit that is moved furthest the least: the middle of the lowest and the highest
// preferred height, brought into the common range. Where no level suits all, those are named that keep the most others
// from standing in line: the fewest that would have to be left out.

/// Where one unit's head may be, in the wall's z. mm.
struct HeadRange {
  double low = 0;
  double high = 0;  ///< Below `low`: the unit doesn't fit and takes no part.
  double preferred = 0;
};

struct CommonHead {
  std::optional<double> level;     ///< Empty: no level suits all that take part, or none takes part.
  std::vector<std::size_t> apart;  ///< Indices of the ranges that prevent it, and of those that take no part, rising.
};

/// O(n log n).
[[nodiscard]] CommonHead commonHead(std::span<const HeadRange> ranges);

}  // namespace sillwright::plan
