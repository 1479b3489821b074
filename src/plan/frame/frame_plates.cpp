#include <cmath>
#include <numbers>
#include <optional>

#include "plan/frame/frame_layout.h"

namespace sillwright::plan::framing {

namespace {

double degrees(double slope) { return std::atan(slope) * 180 / std::numbers::pi; }

/// The stretches where the top plates leave room for bottom plates: all, except in a wall that comes down to its floor.
std::vector<Span> underTopPlates(const Layout& layout) {
  std::vector<Span> spans;
  const TopLine& under = layout.under;
  for (std::size_t i = 0; i < under.run.size(); ++i) {
    Span x{under.corner[i].x, under.corner[i + 1].x};
    const double slope = under.run[i].slope;
    const double low = std::min(under.corner[i].z, under.corner[i + 1].z);
    if (low < layout.floor) {
      if (std::max(under.corner[i].z, under.corner[i + 1].z) <= layout.floor) continue;  // the whole run lies too low
      const double crossing = x.lo + (layout.floor - under.corner[i].z) / slope;
      (slope > 0 ? x.lo : x.hi) = crossing;  // the bottom plate ends where the top plates come down on it
    }
    if (!spans.empty() && spans.back().hi > x.lo - kTouching) {  // one plate goes on under several slopes
      spans.back().hi = x.hi;
    } else {
      spans.push_back(x);
    }
  }
  return spans;
}

/// Cuts out what openings down to the floor take away.
std::vector<Span> withoutDoors(const std::vector<Span>& spans, const Layout& layout) {
  std::vector<Span> left;
  for (const Span span : spans) {
    double begin = span.lo;
    for (const Hole& hole : layout.holes) {
      if (hole.sill > layout.floor - kTouching || hole.clear.hi <= begin || hole.clear.lo >= span.hi) continue;
      if (hole.clear.lo - begin >= kShortest) left.push_back({begin, hole.clear.lo});
      begin = hole.clear.hi;  // holes are sorted by their left edges
    }
    if (span.hi - begin >= kShortest) left.push_back({begin, span.hi});
  }
  return left;
}

/// Length along the slope between the outermost corners.
double longPoint(const std::array<Point, 4>& corner, double slope) {
  const double run = std::hypot(1, slope);
  const auto along = [&](const Point& p) { return (p.x + p.z * slope) / run; };  // the distance along the slope
  const auto [least, most] = std::minmax({along(corner[0]), along(corner[1]), along(corner[2]), along(corner[3])});
  return most - least;
}

/// Timber so short makes no plate: such stock is a slip of the job's, and no plate is cut into hundreds of pieces.
constexpr double kLeastStock = 200;
/// A piece over fewer bays than this is no plate to build on. Common practice, no source.
constexpr double kShortBays = 2;
constexpr double kSawStep = 2;  ///< More than what a saw rounds to, mm.

/// Middles of the common studs that stand clear of the wall's ends, left to right: what plates may be joined over.
std::vector<double> jointPlaces(const Layout& layout, std::span<const Upright> uprights) {
  std::vector<double> middles;
  for (const Upright& stud : uprights) {
    const bool at_end = stud.x.lo < kTouching || stud.x.hi > layout.wall->length - kTouching;
    if (stud.part == MemberPart::CommonStud && !at_end) middles.push_back((stud.x.lo + stud.x.hi) / 2);
  }
  std::sort(middles.begin(), middles.end());
  return middles;
}

/// Cuts plates that are longer than any piece that stock gives: as long as can be, meeting square over the middle of a
/// common stud, plates above each other over different ones, no piece over less than two bays where studs allow it.
/// Where a piece reaches no stud it is as long as can be and leaves no short one.
class PlateJoints {
 public:
  PlateJoints(const Layout& layout, std::span<const Upright> uprights, double longest) {
    if (longest < kLeastStock) return;  // every plate then stays whole
    longest_ = longest - kSawStep;      // a piece rounded up must still come out of stock
    short_ = kShortBays * layout.wall->spacing;
    studs_ = jointPlaces(layout, uprights);
  }

  /// `end_cuts`: how far off square the plate is cut at its left and right end, degrees.
  void addInPieces(const Member& plate, const std::array<double, 2>& end_cuts, std::vector<Member>& members) {
    if (longest_ <= 0 || plate.length <= longest_) {
      members.push_back(plate);
      return;
    }
    const double slope = std::tan(plate.slope_degrees * std::numbers::pi / 180);
    const double along = std::hypot(1, slope);  // mm of plate a mm of x
    // What mitred and plumb ends add to the longer edge.
    const double over = std::max(0.0, plate.length - (plate.corner[1].x - plate.corner[0].x) * along);
    const double reach = std::max(longest_ - over, longest_ / 2) / along;  // steep ends may take half of it
    Member rest = plate;                                                   // what lies right of the joints made so far
    double cut = end_cuts[0];                                              // the angle at the piece's left end
    while (longPoint(rest.corner, slope) > longest_) {
      const double x = jointFrom(plate.part, {rest.corner[0].x, rest.corner[1].x}, reach);
      if (x >= rest.corner[1].x - kTouching) break;  // no stud divides what is left
      const Point low{x, rest.corner[0].z + slope * (x - rest.corner[0].x)};
      const Point high{low.x - plate.width * slope / along, low.z + plate.width / along};  // square to the slope
      Member piece = rest;
      piece.corner[1] = low;
      piece.corner[2] = high;
      rest.corner[0] = low;
      rest.corner[3] = high;
      addPiece(piece, slope, cut, members);
      cut = 0;  // joints are square
    }
    addPiece(rest, slope, std::max(cut, end_cuts[1]), members);
  }

 private:
  static void addPiece(Member piece, double slope, double cut_degrees, std::vector<Member>& members) {
    piece.length = longPoint(piece.corner, slope);
    piece.cut_degrees = cut_degrees;
    members.push_back(piece);
  }

  /// The last stud within reach, of those the last that is neither taken nor leaves a short piece at either side.
  [[nodiscard]] double jointFrom(MemberPart part, Span plate, double reach) {
    std::vector<double>& taken = taken_[static_cast<std::size_t>(part)];  // plates are parts 0 and 1
    std::optional<double> best;
    int least_wrong = std::numeric_limits<int>::max();
    for (auto stud = studs_.rbegin(); stud != studs_.rend() && *stud > plate.lo + kTouching; ++stud) {
      if (*stud > plate.lo + reach) continue;  // no stock is so long
      const bool is_taken = std::find(taken.begin(), taken.end(), *stud) != taken.end();
      const bool is_short = std::min(*stud - plate.lo, plate.hi - *stud) < short_;
      const int wrong = (is_taken ? 2 : 0) + (is_short ? 1 : 0);  // a joint above a joint is the worse of the two
      if (wrong >= least_wrong) continue;                         // at a tie the furthest right: fewest pieces
      best = *stud;
      least_wrong = wrong;
    }
    if (best) taken.push_back(*best);
    return best.value_or(std::min(plate.lo + reach, plate.hi - std::min(short_, plate.length() / 2)));
  }

  double longest_ = 0;
  double short_ = 0;
  std::vector<double> studs_;
  std::array<std::vector<double>, 2> taken_;  ///< Joints made so far in bottom and in top plates, x.
};

void addBottomPlates(const Layout& layout, PlateJoints& joints, std::vector<Member>& members) {
  const double t = layout.thickness;
  for (const Span x : withoutDoors(underTopPlates(layout), layout)) {
    for (int n = 0; n < layout.wall->plates.bottom; ++n) {
      joints.addInPieces(rectangle(layout, MemberPart::BottomPlate, x, {n * t, (n + 1) * t}), {}, members);
    }
  }
}

/// How far off square the cut at one end is: half the turn at a mitre, the whole slope where it is cut plumb.
double endCut(const TopLine& line, std::size_t run, End end) {
  const double own = degrees(line.run[run].slope);
  const bool last = end == End::Left ? run == 0 : run + 1 == line.run.size();
  if (last) return std::abs(own);  // the wall's ends are plumb
  const std::size_t next = end == End::Left ? run - 1 : run + 1;
  return std::abs(own - degrees(line.run[next].slope)) / 2;
}

/// Ends an edge of a sloping plate at the ground; false where it lies below it altogether. A run that is steeper than
/// its plate is thick would otherwise reach down without end.
bool endAtGround(Point& left, Point& right, double slope) {
  if (left.z < 0 && right.z < 0) return false;
  Point& low = left.z < right.z ? left : right;
  if (low.z < 0) low = {low.x - low.z / slope, 0};
  return true;
}

void addTopPlates(const Layout& layout, PlateJoints& joints, std::vector<Member>& members) {
  const WallSpec& wall = *layout.wall;
  TopLine upper = topLineBelow(wall, 0);  // the wall's own top line; the plates go down from it
  for (int n = 0; n < wall.plates.top; ++n) {
    TopLine lower = topLineBelow(wall, (n + 1) * layout.thickness);  // this plate's underside
    std::size_t below = 0;                                           // the run of `lower` that is parallel to run i
    for (std::size_t i = 0; i < upper.run.size(); ++i) {
      // Too short a slope for its plate's thickness has no plate of its own.
      while (below < lower.run.size() && lower.run[below].source < upper.run[i].source) ++below;
      if (below == lower.run.size() || lower.run[below].source != upper.run[i].source) continue;
      std::array<Point, 4> corner{lower.corner[below], lower.corner[below + 1], upper.corner[i + 1], upper.corner[i]};
      const double slope = upper.run[i].slope;
      const bool above_ground = endAtGround(corner[0], corner[1], slope) && endAtGround(corner[3], corner[2], slope);
      if (slope != 0 && !above_ground) continue;  // a level plate never crosses the ground
      Member plate;
      plate.part = MemberPart::TopPlate;
      plate.corner = corner;
      plate.y1 = wall.stud.depth;
      plate.length = longPoint(plate.corner, slope);
      plate.width = layout.thickness;
      plate.depth = wall.stud.depth;
      plate.slope_degrees = degrees(slope);
      const std::array<double, 2> end_cuts{endCut(upper, i, End::Left), endCut(upper, i, End::Right)};
      plate.cut_degrees = std::max(end_cuts[0], end_cuts[1]);
      joints.addInPieces(plate, end_cuts, members);
    }
    upper = std::move(lower);
  }
}

}  // namespace

void addPlates(const Layout& layout, std::span<const Upright> uprights, double longest, std::vector<Member>& members) {
  PlateJoints joints(layout, uprights, longest);
  addBottomPlates(layout, joints, members);
  addTopPlates(layout, joints, members);
}

}  // namespace sillwright::plan::framing
