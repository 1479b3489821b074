/// What the steps of framing a wall hand to each other. Private to plan/frame.
///
/// 1. frame_openings: the openings as holes, which side studs they get, how high lintels reach, which sills have a
///    trimmer; the faults.
/// 2. frame_studs: every upright, as a rectangle with a flat top or cut under the top plates.
/// 3. frame_noggings: the rows between uprights.
/// 4. frame_plates, and frame: members from all of that.
///
/// Holes stand in the order of their left edges and never share area: an opening that overlaps another isn't framed.
#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "plan/frame/frame.h"
#include "plan/frame/top_line.h"
#include "plan/shape.h"

namespace sillwright::plan::framing {

inline constexpr double kShortest = 20;  ///< Shorter pieces are left out: nobody cuts and nails them.
inline constexpr double kUnderPlate =
    std::numeric_limits<double>::infinity();  ///< Top of an upright cut to the plates.

/// An interval of x or z.
struct Span {
  double lo = 0, hi = 0;

  [[nodiscard]] double length() const { return hi - lo; }
  /// Shares more than a touch.
  [[nodiscard]] bool overlaps(Span other) const { return lo < other.hi - kTouching && other.lo < hi - kTouching; }
  [[nodiscard]] bool holds(Span other) const { return other.lo > lo - kTouching && other.hi < hi + kTouching; }
};

enum class End : std::uint8_t { Left, Right };
inline constexpr std::array<End, 2> kEnds{End::Left, End::Right};
[[nodiscard]] constexpr std::size_t at(End end) { return static_cast<std::size_t>(end); }
[[nodiscard]] constexpr End opposite(End end) { return end == End::Left ? End::Right : End::Left; }

/// Why an opening got fewer side studs than it should have.
inline constexpr std::int32_t kNobody = -1;
inline constexpr std::int32_t kWallEnd = -2;

/// An opening as a hole in the frame.
struct Hole {
  const FramedOpening* opening = nullptr;
  Span clear;  ///< In x, inside the wall.
  double sill = 0, head = 0;
  int bearing = 0;           ///< Studs wanted at each end: those under the lintel, nearest the opening,
  int full = 0;              ///< and full-height ones outside them.
  std::array<int, 2> got{};  ///< How many of both there are at each end.
  std::array<std::int32_t, 2> denied_by{kNobody, kNobody};  ///< The hole that was in the way, or kWallEnd.
  std::array<std::int32_t, 2> stands_in{kNobody, kNobody};  ///< The hole that a side stud crosses.
  Span lintel;                                              ///< In x; its underside is at `head`.
  double lintel_top = 0;                                    ///< Its highest point.
  double lintel_depth = 0;                                  ///< Square to its slope.
  bool has_lintel = false;
  HeadLine line{0, 0};  ///< Of the opening, from its own left edge and sill.
  double trimmer_bottom = 0;
  bool has_trimmer = false;
  /// z down to which nothing else may stand under the opening where it has no trimmer: the lintel below that leaves no
  /// room for one; else all the way down.
  double clear_down_to = -std::numeric_limits<double>::infinity();

  [[nodiscard]] bool follows_roof() const { return !line.level(); }
  /// The undersides of the lintel over x, or its tops: the lowest and the highest point.
  [[nodiscard]] Span headOver(Span x) const { return over(line, x); }
  [[nodiscard]] Span lintelTopOver(Span x) const {
    return follows_roof() ? over(line.inset(-lintel_depth), x) : Span{lintel_top, lintel_top};
  }
  [[nodiscard]] int wanted() const { return bearing + full; }
  /// The n-th side stud outwards from the opening.
  [[nodiscard]] Span column(End end, int n, double thickness) const {
    if (end == End::Left) return {clear.lo - (n + 1) * thickness, clear.lo - n * thickness};
    return {clear.hi + n * thickness, clear.hi + (n + 1) * thickness};
  }
  /// All side studs at an end that there are.
  [[nodiscard]] Span columns(End end, double thickness) const {
    const double reach = got[at(end)] * thickness;
    return end == End::Left ? Span{clear.lo - reach, clear.lo} : Span{clear.hi, clear.hi + reach};
  }
  /// The opening with its side studs.
  [[nodiscard]] Span whole(double thickness) const {
    return {columns(End::Left, thickness).lo, columns(End::Right, thickness).hi};
  }
  /// What nothing else may stand in at x: the opening with its trimmer, or with what is cleared under it.
  [[nodiscard]] Span kept_clear(Span x) const { return {has_trimmer ? trimmer_bottom : clear_down_to, headOver(x).hi}; }

 private:
  [[nodiscard]] Span over(const HeadLine& of, Span x) const {
    if (of.level()) return {head, head};
    const double left = opening->left;
    return {opening->sill + of.lowest(x.lo - left, x.hi - left), opening->sill + of.highest(x.lo - left, x.hi - left)};
  }
};

/// The holes of a wall, and what is common to all steps.
struct Layout {
  const WallSpec* wall = nullptr;
  TopLine under;         ///< Underside of the top plates.
  double floor = 0;      ///< Top of the bottom plates.
  double thickness = 0;  ///< Of a stud along the wall.
  std::vector<Hole> holes;
  std::vector<double> furthest_right;  ///< furthest_right[i]: the largest clear.hi of holes 0 … i.
  double reach = 0;                    ///< No side stud stands further than this from its opening.
  bool stacked = false;                ///< Some opening stands above or below another, or into its side studs.

  /// Calls visit(i) for every hole whose clear width, with side studs, may touch x0 … x1.
  template <class Visit>
  void near(Span x, Visit visit) const {
    const auto after = std::upper_bound(holes.begin(), holes.end(), x.hi + reach,
                                        [](double edge, const Hole& hole) { return edge < hole.clear.lo; });
    for (std::size_t i = static_cast<std::size_t>(after - holes.begin()); i-- > 0;) {
      if (furthest_right[i] + reach < x.lo) break;
      if (holes[i].clear.hi + reach >= x.lo) visit(i);
    }
  }
};

/// A stud or part of one.
struct Upright {
  Span x;
  Span z;  ///< z.hi is kUnderPlate where it is cut to the underside of the top plates.
  MemberPart part = MemberPart::CommonStud;
  std::int32_t opening = -1;
  const Hole* cut_to = nullptr;  ///< The top of a bearing stud, the foot of a jack stud above is cut to its slope.
};

/// Jack studs and noggings shorter than this are left out and told of, mm.
[[nodiscard]] inline double shortestNailed(const practice::Framing& rules) {
  return rules.shortest_piece ? std::max(kShortest, rules.shortest_piece->value) : kShortest;
}

[[nodiscard]] Layout layOut(const WallSpec& wall, std::span<const FramedOpening> openings,
                            const practice::Framing& rules, std::vector<FrameFault>& faults);
/// Uprights in the order of their left faces. What is too short to be nailed goes to `left_out`, as with noggings.
[[nodiscard]] std::vector<Upright> placeUprights(const Layout& layout, const practice::Framing& rules,
                                                 std::vector<LeftOut>& left_out);
[[nodiscard]] std::vector<Member> placeNoggings(const Layout& layout, std::span<const Upright> uprights,
                                                const practice::Framing& rules, std::vector<LeftOut>& left_out);
/// A level piece of the studs' section.
[[nodiscard]] Member rectangle(const Layout& layout, MemberPart part, Span x, Span z);
/// Plates in pieces no longer than `longest`; 0: whole.
void addPlates(const Layout& layout, std::span<const Upright> uprights, double longest, std::vector<Member>& members);
/// Takes away what hangs on nothing. Only faulty and stacked openings can leave such pieces.
void dropFloating(const Layout& layout, std::vector<Member>& members);

}  // namespace sillwright::plan::framing
