#include "plan/shape.h"

namespace sillwright::plan {

Edge OpeningShape::edge(Side side) const {
  const auto [first, last] = endsOf(side);
  const Point from = corner[static_cast<std::size_t>(first)];
  const Point to = corner[static_cast<std::size_t>(last)];
  const Point out = outOf(side);
  const double in = bySide(bow, side);
  return {from, Point{(from.x + to.x) / 2 - out.x * in, (from.z + to.z) / 2 - out.z * in}, to};
}

OpeningShape plannedShape(double width, double height) {
  OpeningShape shape;
  shape.corner = {Point{0, 0}, Point{width, 0}, Point{width, height}, Point{0, height}};
  return shape;
}

}  // namespace sillwright::plan
