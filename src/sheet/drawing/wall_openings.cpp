// Openings in a wall's elevation: their heights, their names.
#include <algorithm>

#include "sheet/drawing/wall_elevation.h"
#include "sheet/paper/dimension.h"
#include "sheet/paper/marks.h"

namespace sillwright::sheet {
namespace {

/// Where the heights of an opening are drawn up: near its left edge, off the jack studs under it.
double heightsAt(const WallDrawing& drawing, std::int32_t index, const Box& box) {
  constexpr double kUsual = 5.5, kLeast = 3.9, kStep = 0.4;
  constexpr double kNarrow = 12;  // mm of paper, where the name needs what is left
  if (box.width() < kNarrow) return box.x0 + kLeast;
  const double most = std::min(11.0, 0.4 * box.width());
  constexpr double kFigure = 3.4, kBeside = 0.6;  // left of its line the figures stand
  const auto free = [&](double x) {
    for (const plan::Member& member : drawing.planned.frame.members) {
      if (member.part != plan::MemberPart::JackStudBelow || member.opening != index) continue;
      const double low = drawing.view.at(member.corner[0].x, 0).x;
      const double high = drawing.view.at(member.corner[1].x, 0).x;
      if (low < x + kBeside && high > x - kFigure) return false;
    }
    return true;
  };
  for (double off = 0; off < std::max(most - kUsual, kUsual - kLeast); off += kStep) {
    if (kUsual + off <= most && free(box.x0 + kUsual + off)) return box.x0 + kUsual + off;
    if (kUsual - off >= kLeast && free(box.x0 + kUsual - off)) return box.x0 + kUsual - off;
  }
  return box.x0 + kUsual;
}

/// Height of the head of the nearest opening that stands under this one; 0: none does.
double headBelow(const WallDrawing& drawing, const job::Opening& above) {
  double highest = 0;
  for (const std::int32_t i : drawing.planned.openings) {
    const job::Opening& below = drawing.opening(i);
    const double head = below.sill + below.height;
    const bool under = below.left < above.left + above.width && above.left < below.left + below.width;
    if (under && head <= above.sill) highest = std::max(highest, head);
  }
  return highest;
}

/// Sill, from the floor or from the head of an opening below, and height, one over the other, just inside the left
/// edge. Answers how far right their figures reach.
double drawOpeningHeights(WallDrawing& drawing, std::int32_t index, const Box& box) {
  const job::Opening& opening = drawing.opening(index);
  const double column = heightsAt(drawing, index, box);
  Chain heights{.along = Along::Y,
                .level = column,
                .per_mm = drawing.view.per_mm,
                .stations = {{box.y1, column}},
                .past_last = true};
  if (!opening.head) {  // under one that follows the roof each corner has its height
    heights.stations.push_back({box.y0, column});
    heights.values.push_back(opening.height);
    heights.texts.push_back(drawing.figure(opening.height));
  }
  if (opening.sill > 0) {
    const double from = headBelow(drawing, opening);
    heights.stations.insert(heights.stations.begin(), {drawing.view.at(0, from).y, column});
    heights.values.insert(heights.values.begin(), opening.sill - from);
    heights.texts.insert(heights.texts.begin(), drawing.figure(opening.sill - from));
  }
  if (heights.values.empty()) return column;
  const double reach = drawChain(drawing.painter, heights);
  return column + (reach > 0 ? reach + 0.8 : 0.0);
}

/// An opening's name and sign in the room right of its heights, as large as there is room for, up the page where it is
/// narrow. Under it, where they have room, the unit's kind and size. False where not even the name has room.
bool drawOpeningName(WallDrawing& drawing, std::int32_t index, const Box& room) {
  Painter& painter = drawing.painter;
  const std::string& words = drawing.opening(index).name;
  const auto& unit = drawing.book.subject.plan.openings[static_cast<std::size_t>(index)].unit;
  const auto verdict = drawing.book.subject.findings.verdicts[static_cast<std::size_t>(index)];
  const auto basis = drawing.book.subject.findings.bases[static_cast<std::size_t>(index)];
  Lettering name{.weight = Weight::Bold};
  const auto wide = [&](double capitals) {
    return painter.widthOf(words, {capitals, Weight::Bold}) + capitals * 0.8 + 1.0;
  };
  for (const double capitals : {letter::kHead, letter::kLarge}) {
    if (wide(capitals) > room.width() || capitals * 2 > room.height()) continue;
    name.capitals = capitals;
    break;
  }
  const double sign = name.capitals * 0.8;
  const Vec middle = room.middle();
  if (wide(name.capitals) > room.width() && room.height() > room.width()) {
    name.upright = true;
    const double length = painter.widthOf(words, name);
    if (length + sign + 2 > room.height() || name.capitals > room.width()) return false;
    const Vec at{middle.x + name.capitals / 2, middle.y + (length - sign) / 2 - 0.5};
    const Box box = painter.boxOf(at, words, name);
    painter.fillBox(Box{box.x0, box.y0, box.x1, box.y1 + sign + 1}.grown(0.3), kWhite);
    painter.text(at, words, name);
    drawVerdict(painter, {middle.x - sign / 2, at.y + 1 + sign / 2}, sign, verdict, basis);
    return true;
  }
  const double length = painter.widthOf(words, name) + sign + 1.0;
  if (length > room.width() || name.capitals > room.height()) return false;
  constexpr double kLine = 3.9;
  std::vector<std::string> under;
  for (const std::string& line :
       {words::unitName(unit.kind, unit.lights), "unit " + figures(unit, drawing.display())}) {
    const double high = name.capitals + static_cast<double>(under.size() + 1) * kLine;
    if (painter.widthOf(line) <= room.width() && high + 2 < room.height()) under.push_back(line);
  }
  double widest = length;
  for (const auto& line : under) widest = std::max(widest, painter.widthOf(line));
  const double high = name.capitals + static_cast<double>(under.size()) * kLine;
  double y = middle.y - high / 2 + name.capitals;
  painter.fillBox(
      Box{middle.x - widest / 2, y - name.capitals, middle.x + widest / 2, middle.y + high / 2 + 0.6}.grown(0.5),
      kWhite);
  drawVerdict(painter, {middle.x - length / 2, y - name.capitals / 2}, sign, verdict, basis);
  painter.text({middle.x - length / 2 + sign + 1.0, y}, words, name);
  const Lettering small{.align = Align::Centre};
  for (const auto& line : under) painter.text({middle.x, y += kLine}, line, small);
  return true;
}

/// The outline of an opening that follows the roof, and the height of each corner that its own dimensions don't tell.
void drawRakedOutline(WallDrawing& drawing, const job::Opening& opening) {
  const plan::HeadLine head = plan::headLineOf(opening);
  std::vector<Vec> outline;
  for (const plan::Point& point : head.under({0, 0, opening.width, opening.height})) {
    outline.push_back(drawing.view.at(opening.left + point.x, opening.sill + point.z));
  }
  drawing.painter.shape(outline, kWhite, {pen::kBold});
  const Lettering how{.align = Align::Centre, .clear = true};
  for (const plan::Point& corner : head.corners()) {
    if (corner.z <= 0) continue;
    const Vec at = drawing.view.at(opening.left + corner.x, opening.sill + corner.z);
    const double aside = corner.x <= 0 ? 5.5 : corner.x >= opening.width ? -5.5 : 0;
    drawing.painter.text({at.x + aside, at.y + 4.5}, drawing.figure(corner.z), how);
  }
}

Box boxOf(const WallDrawing& drawing, std::int32_t index) {
  const job::Opening& opening = drawing.opening(index);
  return drawing.view.box(opening.left, opening.sill, opening.left + opening.width, opening.sill + opening.height);
}

}  // namespace

void drawNameOver(WallDrawing& drawing, std::int32_t index) {
  const Group group = drawing.painter.group("notes");
  Painter& painter = drawing.painter;
  const Box box = boxOf(drawing, index);
  const auto verdict = drawing.book.subject.findings.verdicts[static_cast<std::size_t>(index)];
  const auto basis = drawing.book.subject.findings.bases[static_cast<std::size_t>(index)];
  constexpr double kSign = 2.0, kWidest = 70, kOver = 4.5, kRow = 3.8, kStep = 3;
  constexpr int kSteps = 30, kRows = 2;
  const std::string words = painter.fitted(drawing.opening(index).name, kWidest, kBoldLetters);
  const Vec point{box.x1 - std::min(1.2, box.width() / 4), box.middle().y};
  const double over = drawing.view.at(0, drawing.z1).y - kOver;
  const auto placeAt = [&](int step, int row) {
    const double way = step % 2 == 0 ? 1 : -1;
    return Vec{point.x + way * kStep * (step + 1) / 2, over - kRow * row};
  };
  const auto taken = [&](Vec at) {
    const Box text = painter.boxOf({at.x + kSign + 1, at.y}, words, kBoldLetters);
    const Box all{at.x - 0.5, text.y0, text.x1, text.y1};
    return !painter.log().frame.grown(-1).holds(all) || !painter.log().isFree(all);
  };
  Vec at = placeAt(0, 0);
  for (int i = 0; i < kSteps * kRows && taken(at); ++i) at = placeAt(i % kSteps, i / kSteps);
  const Vec end{at.x + kSign / 2, at.y + 0.8};
  drawLeader(painter, point, end, end);
  drawVerdict(painter, {at.x, at.y - kBoldLetters.capitals / 2}, kSign, verdict, basis);
  painter.text({at.x + kSign + 1, at.y}, words, kBoldLetters);
}

bool drawOpeningIn(WallDrawing& drawing, std::int32_t index) {
  const Group group = drawing.painter.group("openings");
  Painter& painter = drawing.painter;
  const Box box = boxOf(drawing, index);
  const job::Opening& opening = drawing.opening(index);
  if (opening.head) {
    drawRakedOutline(drawing, opening);
  } else {
    painter.fillBox(box, kWhite);
    painter.line({box.x0, box.y0}, {box.x1, box.y1}, {pen::kHair, Dash::Chain});
    painter.line({box.x0, box.y1}, {box.x1, box.y0}, {pen::kHair, Dash::Chain});
    painter.box(box, {pen::kBold});
  }
  const double heights = drawOpeningHeights(drawing, index, box);
  Box room{heights + 1.6, box.y0 + 0.8, box.x1 - 0.8, box.y1 - 0.8};
  if (opening.head) {  // where it is high enough for the whole name: in its higher two thirds
    const plan::HeadLine head = plan::headLineOf(opening);
    const double third = opening.width / 3;
    if (!head.peaked() && head.left() > head.right()) room.x1 = drawing.view.at(opening.left + 2 * third, 0).x;
    if (!head.peaked() && head.left() < head.right()) {
      room.x0 = std::max(room.x0, drawing.view.at(opening.left + third, 0).x);
    }
    const double from = (room.x0 - box.x0) / drawing.view.per_mm;
    const double to = (room.x1 - box.x0) / drawing.view.per_mm;
    room.y0 = drawing.view.at(0, opening.sill + head.lowest(from, to)).y + 0.8;
  }
  return drawOpeningName(drawing, index, room);
}

}  // namespace sillwright::sheet
