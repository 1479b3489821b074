// The walls on plan, from above: where each opening is, and what its verdict is.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>

#include "sheet/paper/dimension.h"
#include "sheet/paper/page.h"

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

PlanWall planWall(const job::Wall& wall) {  // in the house's axes, mm, y up the page
  const double turn = wall.turn_degrees * std::numbers::pi / 180;
  const Vec along{std::cos(turn), std::sin(turn)};
  return {{wall.at_x, wall.at_y}, along, {-along.y, along.x}};  // inwards is a quarter turn to the left
}

/// An opening's name and sign outside its wall, far enough to clear it whichever way it is turned; further out where
/// another name stands there. `out` is on the page, y down.
void drawNameOutside(Book& book, Vec edge, Vec out, std::size_t opening) {
  Painter& painter = book.painter();
  const std::string& name = book.subject.job.openings[opening].name;
  constexpr double kSign = 2.6, kOff = 2.5, kRow = 4;  // mm of paper
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
  if (!free(at)) at = usual;  // no place is free: the nearest does
  drawVerdict(painter, {at.x - wide / 2, at.y}, kSign, book.subject.findings, opening);
  painter.text({at.x - wide / 2 + kSign + 1, at.y + kBoldLetters.capitals / 2}, name, kBoldLetters);
}

void drawWallOnPlan(Book& book, const View& view, std::size_t index) {
  Painter& painter = book.painter();
  const Subject& subject = book.subject;
  const auto& wall = subject.job.walls[index];
  const PlanWall plan = planWall(wall);
  const double deep = std::max(subject.plan.walls[index].spec.frameDepth(), 1.2 / view.per_mm);
  const auto quad = [&](double from, double to) {
    std::array<Vec, 4> corners{plan.place(from, 0), plan.place(to, 0), plan.place(to, deep), plan.place(from, deep)};
    for (Vec& corner : corners) corner = view.at(corner.x, corner.y);
    return corners;
  };
  painter.shape(quad(0, wall.length), grey(0.55), {pen::kFine});
  for (const std::int32_t i : subject.plan.walls[index].openings) {
    const auto& opening = subject.job.openings[static_cast<std::size_t>(i)];
    const auto gap =  // an opening may run past the wall's end
        quad(std::clamp(opening.left, 0.0, wall.length), std::clamp(opening.left + opening.width, 0.0, wall.length));
    painter.shape(gap, kWhite, {pen::kMedium});
    const Vec middle = plan.place(opening.left + opening.width / 2, 0);
    drawNameOutside(book, view.at(middle.x, middle.y), {-plan.inward.x, plan.inward.y}, static_cast<std::size_t>(i));
  }
  // The wall's own name inside.
  const Vec middle = plan.place(wall.length / 2, deep);
  const Vec in{plan.inward.x, -plan.inward.y};  // the page's y runs down
  const Lettering how{.align = Align::Centre, .upright = std::abs(in.x) > std::abs(in.y), .ink = grey(0.25)};
  const Vec at = view.at(middle.x, middle.y) + in * 3.2;
  painter.text(how.upright ? Vec{at.x + how.capitals / 2, at.y} : Vec{at.x, at.y + how.capitals / 2}, wall.name, how);
}

/// Walls that all stand at the same place have no plan: the job never said where they are.
bool placed(const job::Job& job) {
  const auto same = [](const job::Wall& a, const job::Wall& b) {
    return a.at_x == b.at_x && a.at_y == b.at_y && a.turn_degrees == b.turn_degrees;
  };
  return job.walls.size() > 1 && std::ranges::adjacent_find(job.walls, same) == job.walls.end();
}

/// A storey's walls, and the ends of them all on the floor plan.
struct Storey {
  std::vector<std::size_t> walls;
  std::vector<Vec> ends;
};

/// By their levels, the lowest first.
std::map<double, Storey> storeysOf(const job::Job& job) {
  std::map<double, Storey> storeys;
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    const job::Wall& wall = job.walls[i];
    Storey& storey = storeys[wall.level.value_or(0)];  // a wall without a level is on the ground's
    storey.walls.push_back(i);
    for (const double x : {0.0, wall.length}) storey.ends.push_back(planWall(wall).place(x, 0));
  }
  return storeys;
}

Scale scaleOf(const Book& book, const Storey& storey, double wide, double high) {
  const Box all = boxRound(storey.ends);
  return scaleFor(all.width(), all.height(), wide, high, book.subject.inches());
}

/// Draws the walls in the middle of the room, and a scale bar. Returns their view.
View drawStorey(Book& book, const Storey& storey, const Scale& scale, const Box& room) {
  const Vec middle = boxRound(storey.ends).middle() * scale.per_mm;
  const View view{scale.per_mm, room.middle() + Vec{-middle.x, middle.y}};  // so that both middles meet
  for (const std::size_t wall : storey.walls) drawWallOnPlan(book, view, wall);
  drawScaleBar(book.painter(), {room.x0, room.y1 - 2}, scale, book.subject.display());
  return view;
}

/// Two chains outside a wall that runs along the page: its openings, and its length. Each goes as far out as it takes
/// to stand clear of names and of other walls' figures; where there is no such place it is left out.
void dimensionWall(Book& book, const View& view, std::size_t index) {
  constexpr double kNearest = 15, kFarthest = 32, kStep = 2.5;  // mm of paper from the wall, past the names
  constexpr double kApart = 8;                                  // of the two chains
  const Subject& subject = book.subject;
  const job::Wall& wall = subject.job.walls[index];
  const PlanWall plan = planWall(wall);
  const bool level = std::abs(plan.along.y) < 1e-6;
  if (!level && std::abs(plan.along.x) > 1e-6) return;  // a wall that stands askew has no chain
  // Along the wall, and out of the house; the page's y runs down.
  const Vec from = view.at(plan.at.x, plan.at.y);
  const Vec out{-plan.inward.x, plan.inward.y};
  Chain chain{.along = level ? Along::X : Along::Y,
              .away = level ? out.y : out.x,
              .view = {view.per_mm * (level ? plan.along.x : plan.along.y), from},
              .display = subject.display()};
  chain.from = level ? from.y : from.x;
  double off = kNearest;
  const auto isFree = [&] {
    const Vec end = plan.place(wall.length, 0);
    const Box box = boxRound(std::array{from + out * off, view.at(end.x, end.y) + out * off}).grown(8);
    return book.painter().log().frame.holds(box) && book.painter().log().isFree(box);
  };
  const auto draw = [&](std::vector<double> at) {
    while (off <= kFarthest && !isFree()) off += kStep;
    if (off > kFarthest) return;
    chain.at = std::move(at);
    chain.level = chain.from + chain.away * off;
    drawChain(book.painter(), chain);
    off += kApart;
  };
  std::vector<double> edges{0, wall.length};
  for (const std::int32_t i : subject.plan.walls[index].openings) {
    const job::Opening& opening = subject.job.openings[static_cast<std::size_t>(i)];
    for (const double x : {opening.left, opening.left + opening.width}) {
      if (x > 0 && x < wall.length) edges.push_back(x);  // only edges that lie on the wall
    }
  }
  if (edges.size() > 2) draw(std::move(edges));  // without openings the length tells it all
  draw({0, wall.length});
}

}  // namespace

void drawHousePlan(Book& book, const Box& room) {
  if (!placed(book.subject.job)) return;
  const Group group = book.painter().group("floor plan");
  const Storey storey = storeysOf(book.subject.job).begin()->second;
  const double top = drawHeading(book.painter(), {room.x0, room.y0}, room.width(), "Floor plan");
  drawStorey(book, storey, scaleOf(book, storey, room.width() - 2 * kAround, room.y1 - top - 2 * kAround),
             {room.x0, top, room.x1, room.y1});
}

void drawFloorPlans(Book& book) {
  if (!placed(book.subject.job)) return;
  constexpr double kWide = 267, kHigh = 160, kDimensions = 30;  // A4 on its side, within margins and title block
  const auto storeys = storeysOf(book.subject.job);
  for (const auto& [floor, storey] : storeys) {
    const Scale scale = scaleOf(book, storey, kWide - 2 * kDimensions, kHigh - 2 * kDimensions);
    PageTitle title{.drawing = "floor plan", .scale = scale.name, .landscape = true};
    if (storeys.size() > 1) title.drawing += ", floor at " + book.subject.figure(floor);
    const Box room = book.begin(title);
    const Group group = book.painter().group("floor plan");
    const View view = drawStorey(book, storey, scale, room);
    for (const std::size_t wall : storey.walls) dimensionWall(book, view, wall);
  }
}

}  // namespace sillwright::sheet
