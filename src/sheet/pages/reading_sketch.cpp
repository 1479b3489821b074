// Where each reading is taken: the framed opening seen from outside, and a stud seen from its side.
#include <array>

#include "sheet/pages/readings.h"
#include "sheet/paper/dimension.h"
#include "sheet/paper/marks.h"

namespace sillwright::sheet {
namespace {

constexpr double kStud = 4.5;  // drawn width of the timber, mm of paper: a sketch, not to scale

struct Sketch {
  Painter& painter;
  Box hole;  // the opening on paper

  [[nodiscard]] Vec at(double x, double z) const { return {hole.x0 + x * hole.width(), hole.y1 - z * hole.height()}; }
  void number(Vec middle, int reading) const { drawBalloon(painter, middle, std::to_string(reading)); }
};

void drawTimber(const Sketch& sketch, bool on_floor) {
  Painter& painter = sketch.painter;
  const Box& hole = sketch.hole;
  const double top = hole.y0 - 2 * kStud;
  const double foot = hole.y1 + (on_floor ? 0.0 : 2 * kStud);
  for (const double x : {hole.x0 - kStud, hole.x1}) {
    const Box stud{x, top, x + kStud, foot};
    painter.shape(stud, grey(0.95), {pen::kMedium});
    drawBreak(painter, {x, top}, {x + kStud, top});
    if (!on_floor) drawBreak(painter, {x, foot}, {x + kStud, foot});
  }
  const Box lintel{hole.x0, hole.y0 - 1.6 * kStud, hole.x1, hole.y0};
  painter.shape(lintel, grey(0.86), {pen::kMedium});
  if (on_floor) {
    painter.line({hole.x0 - kStud - 6, hole.y1}, {hole.x1 + kStud + 6, hole.y1}, {pen::kHeavy});
  } else {
    const Box trimmer{hole.x0, hole.y1, hole.x1, hole.y1 + kStud};
    painter.shape(trimmer, grey(0.95), {pen::kMedium});
  }
}

void drawLines(const Sketch& sketch) {
  Painter& painter = sketch.painter;
  constexpr double kIn = 0.07;
  const std::array<double, 3> rows{kIn, 0.5, 1 - kIn};
  // Diagonals first, so that the numbers of the others lie over them.
  drawDoubleArrow(painter, sketch.at(0, 0), sketch.at(1, 1), {pen::kFine, Dash::Chain});
  drawDoubleArrow(painter, sketch.at(0, 1), sketch.at(1, 0), {pen::kFine, Dash::Chain});
  for (const double row : rows) {
    drawDoubleArrow(painter, sketch.at(0, row), sketch.at(1, row));
    drawDoubleArrow(painter, sketch.at(row, 0), sketch.at(row, 1));
  }
  const std::array<double, 3> width_at{0.40, 0.30, 0.40};
  for (std::size_t i = 0; i < 3; ++i) sketch.number(sketch.at(width_at[i], rows[i]), static_cast<int>(i) + 1);
  const std::array<double, 3> height_at{0.33, 0.66, 0.33};
  for (std::size_t i = 0; i < 3; ++i) sketch.number(sketch.at(rows[i], height_at[i]), static_cast<int>(i) + 4);
  sketch.number(sketch.at(0.75, 0.75), 7);
  sketch.number(sketch.at(0.25, 0.75), 8);
}

/// The level on the sill, and the plumb lines beside the studs.
void drawLevels(const Sketch& sketch) {
  Painter& painter = sketch.painter;
  const Box& hole = sketch.hole;
  const double y = hole.y1 + 2 * kStud + 3;
  const Box level{hole.middle().x - 12, y, hole.middle().x + 12, y + 4};
  painter.box(level, {pen::kMedium});
  painter.circle(level.middle(), 1.2, {pen::kFine});
  sketch.number({level.x1 + 4.5, level.middle().y}, 9);
  for (int side = 0; side < 2; ++side) {
    const double way = side == 0 ? -1 : 1;
    const double x = (side == 0 ? hole.x0 - kStud : hole.x1 + kStud) + way * 5;
    painter.line({x, hole.y0 - kStud}, {x, hole.y1 - 3}, {pen::kFine, Dash::Dashed});
    const std::array<Vec, 3> bob{Vec{x - 1, hole.y1 - 4}, Vec{x + 1, hole.y1 - 4}, Vec{x, hole.y1 - 0.5}};
    painter.fill(bob, kBlack);
    drawDoubleArrow(painter, {x - way * 5, hole.y0 + 3}, {x, hole.y0 + 3});
    sketch.number({x + way * 4, hole.y0 + 3}, 10 + side);
  }
}

/// A stud from its side, outside at the left: its tilt, and the wall's depth with its lining.
void drawSide(Painter& painter, const Box& room) {
  const double stud = 13;
  const double lining = 2.5;
  const double x = room.middle().x - (stud + lining) / 2;
  const Box timber{x, room.y0 + 8, x + stud, room.y1 - 9};
  painter.shape(timber, grey(0.95), {pen::kMedium});
  const Box board{timber.x1, timber.y0, timber.x1 + lining, timber.y1};
  painter.hatch(board.corners(), 60, 1.2);
  painter.box(board, {pen::kFine});
  drawBreak(painter, {timber.x0, timber.y0}, {board.x1, timber.y0});
  drawBreak(painter, {timber.x0, timber.y1}, {board.x1, timber.y1});
  const double line = timber.x0 - 4;
  painter.line({line, timber.y0 + 2}, {line, timber.y1 - 4}, {pen::kFine, Dash::Dashed});
  drawDoubleArrow(painter, {line, timber.y0 + 6}, {timber.x0, timber.y0 + 6});
  drawBalloon(painter, {line - 4, timber.y0 + 3.2}, "12");
  drawBalloon(painter, {line - 4, timber.y0 + 8.8}, "13");
  const double depth = timber.y0 + timber.height() * 0.62;
  drawDoubleArrow(painter, {timber.x0, depth}, {board.x1, depth});
  drawBalloon(painter, {board.x1 + 4, depth - 2.8}, "14");
  drawBalloon(painter, {board.x1 + 4, depth + 2.8}, "15");
  painter.text({timber.x0 - 1, room.y1 - 4}, "outside", {.align = Align::Right});
  painter.text({timber.x1 - 4, room.y1 - 4}, "inside");
}

}  // namespace

void drawReadingSketch(Painter& painter, const Box& room, double width, double height, bool on_floor) {
  constexpr double kSide = 40;
  const Box left{room.x0 + 16, room.y0 + 2.2 * kStud, room.x1 - kSide - 16, room.y1 - 2 * kStud - 9};
  const double shape = width / height;
  double wide = left.width();
  double high = wide / shape;
  if (high > left.height()) {
    high = left.height();
    wide = high * shape;
  }
  const Vec middle = left.middle();
  const Sketch sketch{painter, {middle.x - wide / 2, left.y1 - high, middle.x + wide / 2, left.y1}};
  drawTimber(sketch, on_floor);
  drawLines(sketch);
  drawLevels(sketch);
  drawSide(painter, {room.x1 - kSide, room.y0, room.x1, room.y1});
}

}  // namespace sillwright::sheet
