#include "plan/shape.h"

namespace sillwright::plan {

namespace {

Point corner(const OpeningShape& shape, Corner which) {
  return shape.corner[static_cast<std::size_t>(which)];
}

Edge throughMiddle(Point from, Point to, double dx, double dz) {
  return {from, Point{(from.x + to.x) / 2 + dx, (from.z + to.z) / 2 + dz}, to};
}

}  // namespace

Edge OpeningShape::edge(Side side) const {
  switch (side) {
    case Side::Left:
      return throughMiddle(plan::corner(*this, Corner::BL), plan::corner(*this, Corner::TL), bow.left, 0);
    case Side::Right:
      return throughMiddle(plan::corner(*this, Corner::BR), plan::corner(*this, Corner::TR), -bow.right, 0);
    case Side::Sill:
      return throughMiddle(plan::corner(*this, Corner::BL), plan::corner(*this, Corner::BR), 0, bow.sill);
    case Side::Head:
      break;
  }
  return throughMiddle(plan::corner(*this, Corner::TL), plan::corner(*this, Corner::TR), 0, -bow.head);
}

OpeningShape plannedShape(double width, double height) {
  OpeningShape shape;
  shape.corner = {Point{0, 0}, Point{width, 0}, Point{width, height}, Point{0, height}};
  return shape;
}

}  // namespace sillwright::plan
