#include <algorithm>
#include <cmath>
#include <numbers>

#include "plan/frame/frame_layout.h"

namespace sillwright::plan::framing {

namespace {

double degrees(double slope) {
  return std::atan(slope) * 180 / std::numbers::pi;
}

/// Where the top plates leave room for the bottom plates: everywhere, except in a wall that comes down to its floor.
std::vector<Span> underTopPlates(const Layout& layout) {
  std::vector<Span> spans;
  const TopLine& under = layout.under;
  for (std::size_t i = 0; i < under.run.size(); ++i) {
    Span x{under.corner[i].x, under.corner[i + 1].x};
    const double slope = under.run[i].slope;
    const double low = std::min(under.corner[i].z, under.corner[i + 1].z);
    if (low < layout.floor) {
      if (std::max(under.corner[i].z, under.corner[i + 1].z) <= layout.floor) continue;
      const double crossing = x.lo + (layout.floor - under.corner[i].z) / slope;
      (slope > 0 ? x.lo : x.hi) = crossing;
    }
    if (!spans.empty() && spans.back().hi > x.lo - kTouching) {
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
      begin = hole.clear.hi;
    }
    if (span.hi - begin >= kShortest) left.push_back({begin, span.hi});
  }
  return left;
}

void addBottomPlates(const Layout& layout, std::vector<Member>& members) {
  const double t = layout.thickness;
  for (const Span x : withoutDoors(underTopPlates(layout), layout)) {
    for (int n = 0; n < layout.wall->plates.bottom; ++n) {
      Member& plate = members.emplace_back();
      plate.part = MemberPart::BottomPlate;
      plate.corner = {Point{x.lo, n * t}, Point{x.hi, n * t}, Point{x.hi, (n + 1) * t}, Point{x.lo, (n + 1) * t}};
      plate.y1 = layout.wall->stud.depth;
      plate.length = x.length();
      plate.width = t;
      plate.depth = layout.wall->stud.depth;
    }
  }
}

/// Length along the slope between the outermost corners.
double longPoint(const std::array<Point, 4>& corner, double slope) {
  const double run = std::hypot(1, slope);
  double least = std::numeric_limits<double>::infinity();
  double most = -least;
  for (const Point& p : corner) {
    const double along = (p.x + p.z * slope) / run;
    least = std::min(least, along);
    most = std::max(most, along);
  }
  return most - least;
}

/// How far off square the cut at one end is: half the turn at a mitre, the whole slope where it is cut plumb.
double endCut(const TopLine& line, std::size_t run, End end) {
  const double own = degrees(line.run[run].slope);
  const bool last = end == End::Left ? run == 0 : run + 1 == line.run.size();
  if (last) return std::abs(own);
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

void addTopPlates(const Layout& layout, std::vector<Member>& members) {
  const WallSpec& wall = *layout.wall;
  TopLine upper = topLineBelow(wall, 0);
  for (int n = 0; n < wall.plates.top; ++n) {
    TopLine lower = topLineBelow(wall, (n + 1) * layout.thickness);
    std::size_t below = 0;
    for (std::size_t i = 0; i < upper.run.size(); ++i) {
      // Too short a slope for its plate's thickness has no plate of its own.
      while (below < lower.run.size() && lower.run[below].source < upper.run[i].source) ++below;
      if (below == lower.run.size() || lower.run[below].source != upper.run[i].source) continue;
      std::array<Point, 4> corner{lower.corner[below], lower.corner[below + 1], upper.corner[i + 1], upper.corner[i]};
      const double slope = upper.run[i].slope;
      const bool above_ground = endAtGround(corner[0], corner[1], slope) && endAtGround(corner[3], corner[2], slope);
      if (slope != 0 && !above_ground) continue;
      Member& plate = members.emplace_back();
      plate.part = MemberPart::TopPlate;
      plate.corner = corner;
      plate.y1 = wall.stud.depth;
      plate.length = longPoint(plate.corner, slope);
      plate.width = layout.thickness;
      plate.depth = wall.stud.depth;
      plate.slope_degrees = degrees(slope);
      plate.cut_degrees = std::max(endCut(upper, i, End::Left), endCut(upper, i, End::Right));
    }
    upper = std::move(lower);
  }
}

}  // namespace

void addPlates(const Layout& layout, std::vector<Member>& members) {
  addBottomPlates(layout, members);
  addTopPlates(layout, members);
}

}  // namespace sillwright::plan::framing
