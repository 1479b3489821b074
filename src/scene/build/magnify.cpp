#include "scene/build/magnify.h"

#include <algorithm>
#include <utility>

namespace sillwright::scene {
namespace {

constexpr double kLeastDrawn = 0.4;  // of a unit's size

/// The largest factor at which what all gaps take from a size leaves enough of it: drawn size is
/// framed − times · (framed − unit).
double mostFor(double framed, double unit) {
  const double gaps = framed - unit;
  if (gaps <= 0) return kMostDeviation;  // it doesn't fit: drawn larger, it never gets small
  return (framed - kLeastDrawn * unit) / gaps;
}

void magnifyPackers(plan::Packing& packing, double times, double across, double up) {
  for (plan::PackingPoint& point : packing.points) {
    point.at *= plan::isLevel(point.side) ? across : up;  // along the side: with the unit; all else with the gap
    point.gap *= times;
    point.left_over *= times;
    point.backing *= times;
    point.stack.total *= times;
    for (double& piece : point.stack.piece) piece *= times;
  }
}

/// A screw that crosses a wider gap is drawn longer by what the gap has grown, so that its point stays in its stud.
void stretchScrews(plan::Fixings& fixings, const plan::Gaps& gaps, double times) {
  for (plan::Fixing& fixing : fixings.points) {
    if (fixing.screw < 0 || fixing.kind == plan::FixingKind::ThroughFin) continue;
    const double gap = std::max(gaps.closest[static_cast<std::size_t>(fixing.side)], 0.0);
    plan::ChosenScrew longer = fixings.screws[static_cast<std::size_t>(fixing.screw)];
    longer.length += (times - 1) * gap;
    fixing.screw = static_cast<std::int32_t>(fixings.screws.size());  // one of its own: gaps differ by side
    fixings.screws.push_back(std::move(longer));
  }
}

}  // namespace

double mostDeviation(const job::Job& job, const plan::Plan& plan) {
  double most = kMostDeviation;
  for (std::size_t i = 0; i < std::min(job.openings.size(), plan.openings.size()); ++i) {
    const plan::UnitSpec& unit = plan.openings[i].unit;
    most = std::min({most, mostFor(job.openings[i].width, unit.width), mostFor(job.openings[i].height, unit.height)});
  }
  return std::max(most, 1.0);
}

plan::Point magnified(plan::Point point, plan::Point planned, double times) {
  return {planned.x + times * (point.x - planned.x), planned.z + times * (point.z - planned.z)};
}

plan::Edge magnifiedEdge(const plan::OpeningShape& shape, plan::Side side, const job::Opening& opening, double times) {
  const plan::Edge planned = plan::plannedShape(plan::headLineOf(opening)).edge(side);
  plan::Edge edge = shape.edge(side);
  for (std::size_t i = 0; i < edge.size(); ++i) edge[i] = magnified(edge[i], planned[i], times);
  return edge;
}

DrawnUnit drawnUnit(const plan::OpeningPlan& planned, const job::Opening& opening, double times) {
  const plan::Point low{planned.stand.x, planned.stand.z};
  const plan::Point high{low.x + planned.unit.width, low.z + planned.unit.height};
  return {magnified(low, {}, times), magnified(high, {opening.width, opening.height}, times)};
}

plan::OpeningPlan magnified(const plan::OpeningPlan& planned, const job::Opening& opening, double times) {
  plan::OpeningPlan drawn = planned;
  if (times == 1) return drawn;
  const auto [low, high] = drawnUnit(planned, opening, times);
  drawn.stand.x = low.x;
  drawn.stand.z = low.z;
  drawn.unit.width = high.x - low.x;
  drawn.unit.height = high.z - low.z;
  if (drawn.unit.head) {
    const double up = drawn.unit.height - planned.unit.height;
    // The head rises with the unit; a triangle's corner stays at its foot.
    for (double* z : {&drawn.unit.head->left, &drawn.unit.head->right}) *z += *z > 0 ? up : 0;
    if (drawn.unit.head->peaked()) drawn.unit.head->peak_z += up;
    drawn.unit.head->peak_x *= drawn.unit.width / planned.unit.width;
  }
  const double across = drawn.unit.width / planned.unit.width, up = drawn.unit.height / planned.unit.height;
  for (const plan::Side side : plan::kEverySide) {
    for (double& gap : plan::bySide(drawn.stand.gaps, side)) gap *= times;
  }
  for (double& gap : drawn.stand.gaps.closest) gap *= times;
  magnifyPackers(drawn.packing, times, across, up);
  for (plan::Fixing& fixing : drawn.fixings.points) fixing.at *= plan::isLevel(fixing.side) ? across : up;
  stretchScrews(drawn.fixings, planned.stand.gaps, times);  // by the true gaps: those drawn have grown already
  return drawn;
}

}  // namespace sillwright::scene
