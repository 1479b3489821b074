// The walls on plan, from above: where each opening is, and what its verdict is.
#include <array>
#include <limits>
#include <numbers>

#include "sheet/paper/dimension.h"
#include "sheet/paper/marks.h"
#include "sheet/paper/page.h"
#include "sheet/paper/table.h"

namespace sillwright::sheet {
namespace {

constexpr double kAround = 13;  // room for the names outside the walls, mm of paper

/// A wall's own axes on the floor plan: along it, and into the building.
struct PlanWall {
  Vec at;
  Vec along;
  Vec inward;

  [[nodiscard]] Vec place(double x, double y) const { return at + along * x + inward * y; }
};

PlanWall planWall(const job::Wall& wall) {
  const double turn = wall.turn_degrees * std::numbers::pi / 180;
  const Vec along{std::cos(turn), std::sin(turn)};
  return {{wall.at_x, wall.at_y}, along, {-along.y, along.x}};
}

struct Extent {
  double x0 = std::numeric_limits<double>::infinity(), y0 = x0, x1 = -x0, y1 = -x0;
  void take(Vec p) {
    x0 = std::min(x0, p.x);
    y0 = std::min(y0, p.y);
    x1 = std::max(x1, p.x);
    y1 = std::max(y1, p.y);
  }
};

/// An opening's name and sign outside its wall, far enough to clear it whichever way it is turned; further out where
/// another name stands there. `out` is on the page, y down.
void drawNameOutside(Book& book, Vec edge, Vec out, std::size_t opening) {
  Painter& painter = book.painter();
  const std::string& name = book.subject.job.openings[opening].name;
  constexpr double kSign = 2.6, kOff = 2.5, kRow = 4;
  constexpr int kRows = 3;
  const double wide = kSign + 1 + painter.widthOf(name, kBoldLetters);
  const double away = kOff + std::abs(out.x) * wide / 2 + std::abs(out.y) * kBoldLetters.capitals / 2;
  const auto free = [&](Vec at) {
    const Box box = Box{at.x - wide / 2, at.y - kSign / 2, at.x + wide / 2, at.y + kSign / 2}.grown(0.5);
    return painter.log().frame.holds(box) && painter.log().isFree(box);
  };
  const Vec usual = edge + out * away;
  Vec at = usual;
  for (int row = 1; row < kRows && !free(at); ++row) at = at + out * kRow;
  if (!free(at)) at = usual;
  drawVerdict(painter, {at.x - wide / 2, at.y}, kSign, book.subject.findings.verdicts[opening],
              book.subject.findings.bases[opening]);
  painter.text({at.x - wide / 2 + kSign + 1, at.y + kBoldLetters.capitals / 2}, name, kBoldLetters);
}

void drawWallOnPlan(Book& book, const View& view, std::size_t index) {
  Painter& painter = book.painter();
  const Subject& subject = book.subject;
  const auto& wall = subject.job.walls[index];
  const PlanWall plan = planWall(wall);
  const double deep = std::max(subject.plan.walls[index].spec.stud.depth, 1.2 / view.per_mm);
  const auto quad = [&](double from, double to) {
    std::array<Vec, 4> corners{plan.place(from, 0), plan.place(to, 0), plan.place(to, deep), plan.place(from, deep)};
    for (Vec& corner : corners) corner = view.at(corner.x, corner.y);
    return corners;
  };
  const auto body = quad(0, wall.length);
  painter.shape(body, grey(0.55), {pen::kFine});
  for (const std::int32_t i : subject.plan.walls[index].openings) {
    const auto& opening = subject.job.openings[static_cast<std::size_t>(i)];
    const auto gap =
        quad(std::clamp(opening.left, 0.0, wall.length), std::clamp(opening.left + opening.width, 0.0, wall.length));
    painter.shape(gap, kWhite, {pen::kMedium});
    const Vec middle = plan.place(opening.left + opening.width / 2, 0);
    drawNameOutside(book, view.at(middle.x, middle.y), {-plan.inward.x, plan.inward.y}, static_cast<std::size_t>(i));
  }
  // The wall's own name inside.
  const Vec middle = plan.place(wall.length / 2, deep);
  const Vec in{plan.inward.x, -plan.inward.y};
  const Lettering how{.align = Align::Centre, .upright = std::abs(in.x) > std::abs(in.y), .ink = grey(0.25)};
  const Vec at = view.at(middle.x, middle.y) + in * 3.2;
  painter.text(how.upright ? Vec{at.x + how.capitals / 2, at.y} : Vec{at.x, at.y + how.capitals / 2}, wall.name, how);
}

/// Walls that all stand at the same place have no plan: the job never said where they are.
bool placed(const job::Job& job) {
  for (std::size_t i = 1; i < job.walls.size(); ++i) {
    const auto& a = job.walls[i - 1];
    const auto& b = job.walls[i];
    if (a.at_x == b.at_x && a.at_y == b.at_y && a.turn_degrees == b.turn_degrees) return false;
  }
  return job.walls.size() > 1;
}

}  // namespace

void drawHousePlan(Book& book, const Box& room) {
  const Subject& subject = book.subject;
  if (!placed(subject.job)) return;
  Extent extent;
  for (const auto& wall : subject.job.walls) {
    const PlanWall plan = planWall(wall);
    extent.take(plan.place(0, 0));
    extent.take(plan.place(wall.length, 0));
  }
  const bool inches = subject.practice.display == practice::Display::InchFractions;
  const double top = drawHeading(book.painter(), {room.x0, room.y0}, room.width(), "Floor plan");
  const Scale scale = scaleFor(extent.x1 - extent.x0, extent.y1 - extent.y0, room.width() - 2 * kAround,
                               room.y1 - top - 2 * kAround, inches);
  const Vec middle{(extent.x0 + extent.x1) / 2, (extent.y0 + extent.y1) / 2};
  const Vec centre{room.middle().x, (top + room.y1) / 2};
  const View view{scale.per_mm, {centre.x - middle.x * scale.per_mm, centre.y + middle.y * scale.per_mm}};
  for (std::size_t i = 0; i < subject.job.walls.size(); ++i) drawWallOnPlan(book, view, i);
  drawScaleBar(book.painter(), {room.x0, room.y1 - 2}, scale, inches);
}

}  // namespace sillwright::sheet
