#include "plan/shape.h"

namespace sillwright::plan {
namespace {

/// The part of a convex polygon on or below (`sign` 1), or on or above (−1), the line of `slope` through `on`.
template <class Polygon>
std::vector<Point> cutAlong(const Polygon& polygon, Point on, double slope, double sign) {
  const auto over = [&](const Point& p) { return sign * (p.z - on.z - slope * (p.x - on.x)); };  // > 0: it goes
  std::vector<Point> kept;
  kept.reserve(polygon.size() + 1);
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point& a = polygon[i];
    const Point& b = polygon[i + 1 < polygon.size() ? i + 1 : 0];
    const double from = over(a);
    const double to = over(b);
    if (from <= kTouching) kept.push_back(a);  // one on the line stays, with no crossing beside it
    if ((from < -kTouching && to > kTouching) || (from > kTouching && to < -kTouching)) {
      const double share = from / (from - to);
      kept.push_back({a.x + share * (b.x - a.x), a.z + share * (b.z - a.z)});
    }
  }
  return kept;
}

std::array<Point, 4> cornersOf(const Rect& rect) {
  return {{{rect.x0, rect.z0}, {rect.x1, rect.z0}, {rect.x1, rect.z1}, {rect.x0, rect.z1}}};
}

}  // namespace

std::vector<Point> HeadLine::corners() const {
  return peaked_ ? std::vector<Point>(corner_.begin(), corner_.end()) : std::vector<Point>{corner_[0], corner_[2]};
}

HeadLine HeadLine::inset(double by) const {
  HeadLine line = *this;  // lowered plumb by what is `by` square to each slope
  const std::array<double, 2> down{by * std::hypot(1, slope_[0]), by * std::hypot(1, slope_[1])};
  line.corner_[0].z -= down[0];
  line.corner_[2].z -= down[1];
  line.corner_[1].z -= down[0];  // of a straight head both slopes are one
  if (!peaked_) return line;
  const double along = (down[0] - down[1]) / (slope_[0] - slope_[1]);  // where the lowered slopes cross
  line.corner_[1] = {corner_[1].x + along, corner_[1].z + slope_[0] * along - down[0]};
  return line;
}

std::vector<Point> HeadLine::under(const Rect& rect) const {
  const auto corners = cornersOf(rect);
  if (level() && rect.z1 - corner_[0].z <= kTouching) return {corners.begin(), corners.end()};  // most are
  const std::vector<Point> polygon = cutAlong(corners, corner_[0], slope_[0], 1);
  return peaked_ ? cutAlong(polygon, corner_[2], slope_[1], 1) : polygon;
}

std::vector<std::vector<Point>> HeadLine::over(const Rect& rect) const {
  if (!peaked_) return {cutAlong(cornersOf(rect), corner_[0], slope_[0], -1)};
  const double peak = std::clamp(corner_[1].x, rect.x0, rect.x1);  // both sides together aren't convex: cut there
  std::vector<std::vector<Point>> sides(2);
  sides[0] = cutAlong(cornersOf({rect.x0, rect.z0, peak, rect.z1}), corner_[0], slope_[0], -1);
  sides[1] = cutAlong(cornersOf({peak, rect.z0, rect.x1, rect.z1}), corner_[2], slope_[1], -1);
  return sides;
}

double areaOf(const std::vector<Point>& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Point& a = polygon[i];
    const Point& b = polygon[(i + 1) % polygon.size()];
    twice += a.x * b.z - b.x * a.z;
  }
  return twice / 2;  // positive where the polygon runs anticlockwise
}

Edge OpeningShape::edge(Side side) const {
  const auto [first, last] = endsOf(side);
  const Point from = corner[static_cast<std::size_t>(first)];
  const Point to = corner[static_cast<std::size_t>(last)];
  const Point out = outOf(side);
  const double in = bySide(bow, side);
  if (side == Side::Head && peak) return {from, *peak, to};  // no middle is read under a peak, so no bow
  return {from, Point{(from.x + to.x) / 2 - out.x * in, (from.z + to.z) / 2 - out.z * in}, to};
}

OpeningShape plannedShape(const HeadLine& line) {
  OpeningShape shape;
  shape.corner = {Point{0, 0}, Point{line.width(), 0}, Point{line.width(), line.right()}, Point{0, line.left()}};
  if (line.peaked()) shape.peak = line.middle();
  return shape;
}

}  // namespace sillwright::plan
