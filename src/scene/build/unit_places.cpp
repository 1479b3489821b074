#include "scene/build/unit_places.h"

#include "scene/build/wall_parts.h"

namespace sillwright::scene {
namespace {

/// How far inside the unit's outside the head's face of a screw through reveal or frame lies; outside it, on the
/// framing, of one through a bracket.
double headDepth(const plan::Fixing& fixing, const plan::OpeningPlan& planned) {
  if (fixing.kind == plan::FixingKind::ThroughBracket) return -fixing.gap;
  return fixing.kind == plan::FixingKind::ThroughReveal ? planned.fixings.under_head
                                                        : planned.unit.frameAt(fixing.side);
}

/// How far outside the unit a screw through the fin goes in: in the middle of what the fin laps of the framing.
double offUnit(plan::Side side, const plan::OpeningPlan& planned) {
  const std::array<double, 2>& gap = plan::bySide(planned.stand.gaps, side);
  const double fin = planned.unit.fin;
  return (std::clamp(std::max(gap[0], gap[1]), 0.0, fin) + fin) / 2;
}

}  // namespace

Rect besideUnit(plan::Side side, const Range& along, const Range& off, double width, double height) {
  if (side == plan::Side::Left) return {-off.high, along.low, -off.low, along.high};
  if (side == plan::Side::Right) return {width + off.low, along.low, width + off.high, along.high};
  if (side == plan::Side::Sill) return {along.low, -off.high, along.high, -off.low};
  return {along.low, height + off.low, along.high, height + off.high};
}

std::vector<PackerPiece> packerPieces(const plan::PackingPoint& point) {
  constexpr double kHalf = plan::kPackerLength / 2;
  std::vector<PackerPiece> pieces;
  double off = point.gap;  // at the framing
  const auto add = [&](double thick, bool timber) {
    pieces.push_back({{point.at - kHalf, point.at + kHalf}, {off - thick, off}, timber});
    off -= thick;
  };
  if (point.backing > 0) add(point.backing, true);
  for (int i = 0; i < std::min(point.stack.pieces, static_cast<int>(plan::kMostPieces)); ++i) {
    add(static_cast<double>(point.stack.piece[static_cast<std::size_t>(i)]), false);
  }
  return pieces;
}

Range packerDepth(plan::Side side, const plan::OpeningPlan& planned, double stud_depth) {
  const double deep = std::min(plan::insideFace(planned.unit), stud_depth);
  if (deep <= 1) return {};  // mm: nothing stands in the wall
  const double middle = !plan::isLevel(side) && planned.fixings.line > 0 ? planned.fixings.line : deep / 2;
  const double wide = std::min(kPackerWidth, deep);
  const double front = std::clamp(middle - wide / 2, 0.0, deep - wide);
  return {front, front + wide};
}

DrivenScrew drivenScrew(const plan::Fixing& fixing, const plan::OpeningPlan& planned) {
  const bool inwards = fixing.kind == plan::FixingKind::ThroughFin;
  const double off = inwards ? offUnit(fixing.side, planned) : -headDepth(fixing, planned);
  const double y = inwards ? -kFinBack - kFinThickness : planned.fixings.line;
  const double height =
      fixing.side == plan::Side::Head ? plan::headLineOf(planned.unit).at(fixing.at) : planned.unit.height;
  const Rect at = besideUnit(fixing.side, {fixing.at, fixing.at}, {off, off}, planned.unit.width, height);
  const Rect out = besideUnit(fixing.side, {0, 0}, {1, 1}, 0, 0);  // 1 mm out of a unit of no size: the way
  return {{at.x0, y, at.z0}, inwards ? glm::dvec3{0.0, 1.0, 0.0} : glm::dvec3{out.x0, 0.0, out.z0}};
}

}  // namespace sillwright::scene
