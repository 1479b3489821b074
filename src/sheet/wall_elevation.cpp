#include "sheet/wall_elevation.h"

#include <array>
#include <numbers>

#include "check/say.h"
#include "sheet/dimension.h"
#include "sheet/marks.h"
#include "sheet/slice.h"

namespace sillwright::sheet {
namespace {

bool upright(plan::MemberPart part) {
  switch (part) {
    case plan::MemberPart::CommonStud:
    case plan::MemberPart::JambStud:
    case plan::MemberPart::BearingStud:
    case plan::MemberPart::JackStudBelow:
    case plan::MemberPart::JackStudAbove:
      return true;
    default:
      return false;
  }
}

bool reaches(const WallDrawing& drawing, const plan::Member& member) {
  return member.corner[1].x > drawing.x0 && member.corner[0].x < drawing.x1;
}

std::vector<Vec> outline(const WallDrawing& drawing, const plan::Member& member) {
  std::vector<Vec> points;
  for (std::size_t i = 0; i < 4; ++i) {
    points.push_back({member.corner[i].x, member.corner[i].z});
    if (i == 2 && member.apex) points.push_back({member.apex->x, member.apex->z});
  }
  if (!drawing.whole) points = clipped(std::move(points), {drawing.x0, -1e6, drawing.x1, 1e6});
  for (Vec& point : points) point = drawing.view.at(point.x, point.y);
  return points;
}

double topAt(const WallDrawing& drawing, double x) {
  return plan::heightBelowTop(drawing.planned.spec, 0, x);
}

/// The wall's own edge; where a stretch is cut off, a break.
void drawOutline(WallDrawing& drawing) {
  const double from = std::max(drawing.x0, 0.0);
  const double to = std::min(drawing.x1, drawing.wall.length);
  std::vector<Vec> edge{drawing.view.at(from, topAt(drawing, from))};
  for (const auto& point : drawing.wall.top) {
    if (point.x > from && point.x < to) edge.push_back(drawing.view.at(point.x, point.z));
  }
  edge.push_back(drawing.view.at(to, topAt(drawing, to)));
  drawing.painter.path(edge, {pen::kBold});
  for (const double x : {from, to}) {
    const Vec foot = drawing.view.at(x, 0);
    const Vec top = drawing.view.at(x, topAt(drawing, x));
    const bool end = std::abs(x) < 0.5 || std::abs(x - drawing.wall.length) < 0.5;
    if (end) {
      drawing.painter.line(foot, top, {pen::kBold});
    } else {
      drawBreak(drawing.painter, foot, top);
    }
  }
  const Vec left = drawing.view.at(drawing.x0, 0);
  const Vec right = drawing.view.at(drawing.x1, 0);
  drawing.painter.line({left.x - 4, left.y}, {right.x + 4, right.y}, {pen::kHeavy});
}

void drawMembers(WallDrawing& drawing) {
  for (const plan::Member& member : drawing.planned.frame.members) {
    if (member.part == plan::MemberPart::Lintel && member.y0 > 0.1) continue;  // plies behind the first
    if (!reaches(drawing, member)) continue;
    const auto points = outline(drawing, member);
    const bool lintel = member.part == plan::MemberPart::Lintel;
    drawing.painter.fill(points, lintel ? grey(0.86) : upright(member.part) ? grey(0.95) : kWhite);
    drawing.painter.path(points, {pen::kFine}, true);
  }
  drawOutline(drawing);  // over its members: what is seen first
}

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

/// Sill and height, one over the other, just inside the left edge. Answers how far right their figures reach.
double drawOpeningHeights(WallDrawing& drawing, std::int32_t index, const Box& box) {
  const job::Opening& opening = drawing.opening(index);
  const double column = heightsAt(drawing, index, box);
  Chain heights;
  heights.along = Along::Y;
  heights.level = column;
  heights.away = 1;
  heights.per_mm = drawing.view.per_mm;
  heights.past_last = true;
  const double floor = drawing.view.at(0, 0).y;
  if (opening.sill > 0) {
    heights.stations = {{floor, column}, {box.y1, column}, {box.y0, column}};
    heights.values = {opening.sill, opening.height};
    heights.texts = {drawing.figure(opening.sill), drawing.figure(opening.height)};
  } else {
    heights.stations = {{box.y1, column}, {box.y0, column}};
    heights.values = {opening.height};
    heights.texts = {drawing.figure(opening.height)};
  }
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
  Lettering name;
  name.weight = Weight::Bold;
  name.capitals = letter::kSmall;
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
    drawVerdict(painter, {middle.x - sign / 2, at.y + 1 + sign / 2}, sign, verdict);
    return true;
  }
  const double length = painter.widthOf(words, name) + sign + 1.0;
  if (length > room.width() || name.capitals > room.height()) return false;
  constexpr double kLine = 3.9;
  std::vector<std::string> under;
  for (const std::string& line : {nameOf(unit.kind), "unit " + figures(unit.width, unit.height, drawing.display())}) {
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
  drawVerdict(painter, {middle.x - length / 2, y - name.capitals / 2}, sign, verdict);
  painter.text({middle.x - length / 2 + sign + 1.0, y}, words, name);
  Lettering small;
  small.align = Align::Centre;
  for (const auto& line : under) painter.text({middle.x, y += kLine}, line, small);
  return true;
}

Box boxOf(const WallDrawing& drawing, std::int32_t index) {
  const job::Opening& opening = drawing.opening(index);
  const Vec low = drawing.view.at(opening.left, opening.sill);
  const Vec high = drawing.view.at(opening.left + opening.width, opening.sill + opening.height);
  return {low.x, high.y, high.x, low.y};
}

/// The name of an opening that is too small for it, over the wall on a leader, where no other text stands yet.
void drawNameOver(WallDrawing& drawing, std::int32_t index) {
  Painter& painter = drawing.painter;
  const Box box = boxOf(drawing, index);
  const auto verdict = drawing.book.subject.findings.verdicts[static_cast<std::size_t>(index)];
  Lettering name;
  name.weight = Weight::Bold;
  constexpr double kSign = 2.0, kWidest = 70, kOver = 4.5, kRow = 3.8, kStep = 3;
  constexpr int kSteps = 30, kRows = 2;
  const std::string words = painter.fitted(drawing.opening(index).name, kWidest, name);
  const Vec point{box.x1 - std::min(1.2, box.width() / 4), box.middle().y};
  const double over = drawing.view.at(0, drawing.z1).y - kOver;
  const auto placeAt = [&](int step, int row) {
    const double way = step % 2 == 0 ? 1 : -1;
    return Vec{point.x + way * kStep * (step + 1) / 2, over - kRow * row};
  };
  const auto taken = [&](Vec at) {
    const Box text = painter.boxOf({at.x + kSign + 1, at.y}, words, name);
    const Box all{at.x - 0.5, text.y0, text.x1, text.y1};
    const auto& labels = painter.log().labels;
    return !painter.log().frame.grown(-1).holds(all) ||
           std::any_of(labels.begin(), labels.end(), [&](const Label& label) { return label.box.meets(all); });
  };
  Vec at = placeAt(0, 0);
  for (int i = 0; i < kSteps * kRows && taken(at); ++i) at = placeAt(i % kSteps, i / kSteps);
  const Vec end{at.x + kSign / 2, at.y + 0.8};
  drawLeader(painter, point, end, end);
  drawVerdict(painter, {at.x, at.y - name.capitals / 2}, kSign, verdict);
  painter.text({at.x + kSign + 1, at.y}, words, name);
}

/// Draws an opening; false where its name had no room in it.
bool drawOpeningIn(WallDrawing& drawing, std::int32_t index) {
  Painter& painter = drawing.painter;
  const Box box = boxOf(drawing, index);
  painter.fillBox(box, kWhite);
  painter.line({box.x0, box.y0}, {box.x1, box.y1}, {pen::kHair, Dash::Chain});
  painter.line({box.x0, box.y1}, {box.x1, box.y0}, {pen::kHair, Dash::Chain});
  painter.box(box, {pen::kBold});
  const double heights = drawOpeningHeights(drawing, index, box);
  return drawOpeningName(drawing, index, {heights + 1.6, box.y0 + 0.8, box.x1 - 0.8, box.y1 - 0.8});
}

bool crossesSoffit(const WallDrawing& drawing, const Box& box) {
  if (!drawing.wall.eave) return false;
  const double soffit = drawing.view.at(0, drawing.wall.eave->soffit).y;
  return soffit > box.y0 - 0.3 && soffit < box.y1 + 0.3;
}

/// Whether no other level piece lies under a mark.
bool clearOfLevels(const WallDrawing& drawing, std::size_t of, const Box& box) {
  const auto& members = drawing.planned.frame.members;
  for (std::size_t i = 0; i < members.size(); ++i) {
    if (i == of || upright(members[i].part)) continue;
    const Vec low = drawing.view.at(members[i].corner[0].x, members[i].corner[0].z);
    const Vec high = drawing.view.at(members[i].corner[2].x, members[i].corner[2].z);
    if (box.meets({low.x, high.y, high.x, low.y})) return false;
  }
  return true;
}

/// Marks of the level pieces: in the lintel, under the trimmer, over the noggings; right of the middle, where neither
/// the sill's dimension nor the name stands.
void drawMarks(WallDrawing& drawing) {
  const auto& members = drawing.planned.frame.members;
  Lettering how;
  how.align = Align::Centre;
  how.weight = Weight::Bold;
  for (std::size_t i = 0; i < members.size(); ++i) {
    const plan::Member& member = members[i];
    const double centre = (member.corner[0].x + member.corner[1].x) / 2;
    if (!drawing.whole && (centre < drawing.x0 || centre >= drawing.x1)) continue;
    const Vec low = drawing.view.at(member.corner[0].x, member.corner[0].z);
    const Vec high = drawing.view.at(member.corner[2].x, member.corner[2].z);
    // Right of the middle, and in a short piece right of what stands near its opening's left edge.
    const double right = std::max(low.x + (high.x - low.x) * 0.72, std::min(low.x + 8, high.x - 1.8));
    const double x = member.part == plan::MemberPart::Nogging ? (low.x + high.x) / 2 : right;
    how.clear = false;
    if (member.part == plan::MemberPart::Lintel && member.y0 <= 0.1) {
      const bool thin = low.y - high.y < how.capitals + 0.8;
      const Vec at{x, thin ? high.y - 0.9 : (low.y + high.y) / 2 + how.capitals / 2};
      how.clear = thin || crossesSoffit(drawing, drawing.painter.boxOf(at, drawing.marks[i], how));
      drawing.painter.text(at, drawing.marks[i], how);
    } else if (member.part == plan::MemberPart::SillTrimmer && high.x - low.x > 16) {
      how.clear = true;
      drawing.painter.text({x, low.y + how.capitals + 1.0}, drawing.marks[i], how);
    } else if (member.part == plan::MemberPart::Nogging &&
               high.x - low.x > drawing.painter.widthOf(drawing.marks[i], how) + 0.6) {
      const Vec over{x, high.y - 0.9};
      const bool free = clearOfLevels(drawing, i, drawing.painter.boxOf(over, drawing.marks[i], how));
      drawing.painter.text(free ? over : Vec{x, low.y + how.capitals + 0.9}, drawing.marks[i], how);
    }
  }
}

void drawEave(WallDrawing& drawing) {
  if (!drawing.wall.eave) return;
  const Vec left = drawing.view.at(drawing.x0, drawing.wall.eave->soffit);
  const Vec right = drawing.view.at(drawing.x1, drawing.wall.eave->soffit);
  drawing.painter.line({left.x - 2, left.y}, {right.x + 2, right.y}, {pen::kFine, Dash::Dashed});
  drawing.painter.text({right.x + 3, right.y + letter::kSmall / 2},
                       "soffit " + drawing.figure(drawing.wall.eave->soffit));
}

/// The slope of a piece of the top line, over its middle.
void drawSlope(WallDrawing& drawing, const job::TopPoint& from, const job::TopPoint& to) {
  const double rise = to.z - from.z;
  const double left = std::max(from.x, drawing.x0);
  const double right = std::min(to.x, drawing.x1);
  constexpr double kShort = 15;  // mm of paper: no room for words over it
  if (std::abs(rise) < 0.5 || (right - left) * drawing.view.per_mm < kShort) return;
  const double x = (left + right) / 2;
  const Vec middle = drawing.view.at(x, topAt(drawing, x));
  Lettering how;
  how.align = rise > 0 ? Align::Right : Align::Left;
  const double degrees = std::abs(std::atan2(rise, to.x - from.x)) * 180 / std::numbers::pi;
  drawing.painter.text({middle.x + (rise > 0 ? -2.0 : 2.0), middle.y - 3.0}, "slope " + check::number(degrees, 1) + "°",
                       how);
}

/// Heights at the wall's left end, heights and slopes along its top.
void drawHeights(WallDrawing& drawing) {
  Painter& painter = drawing.painter;
  const auto& top = drawing.wall.top;
  const auto& spec = drawing.planned.spec;
  const double left = drawing.view.at(drawing.x0, 0).x;
  const double from = std::max(drawing.x0, 0.0);
  const double height = topAt(drawing, from);
  const double under = plan::heightBelowTop(spec, spec.plates.top * spec.stud.thickness, from);
  const auto y = [&](double z) { return drawing.view.at(0, z).y; };
  Chain chain;
  chain.along = Along::Y;
  chain.away = -1;
  chain.per_mm = drawing.view.per_mm;
  chain.level = left - 9;
  chain.past_last = true;
  chain.stations = {{y(0), left}, {y(under), left}, {y(height), left}};
  chain.values = {under, height - under};
  chain.texts = {drawing.figure(under), drawing.figure(height - under)};
  drawChain(painter, chain);
  drawDimension(painter, Along::Y, left - 16, -1, drawing.view.per_mm, {y(0), left}, {y(height), left}, height,
                drawing.figure(height));
  const bool sloped =
      std::any_of(top.begin(), top.end(), [&](const auto& point) { return std::abs(point.z - top.front().z) > 0.5; });
  if (!sloped) return;
  Lettering how;
  how.align = Align::Centre;
  how.clear = true;
  for (std::size_t i = 0; i < top.size(); ++i) {
    if (drawing.whole || (top[i].x >= drawing.x0 && top[i].x <= drawing.x1)) {
      const Vec at = drawing.view.at(top[i].x, top[i].z);
      painter.line({at.x, at.y - 0.8}, {at.x, at.y - 4}, {pen::kHair});
      painter.text({at.x, at.y - 4.8}, drawing.figure(top[i].z), how);
    }
    if (i + 1 < top.size()) drawSlope(drawing, top[i], top[i + 1]);
  }
}

/// Every upright's middle from the wall's left end, with its mark.
double drawSetOut(WallDrawing& drawing, double level) {
  struct Upright {
    double x;
    std::string mark;
  };
  std::vector<Upright> all;
  const auto& members = drawing.planned.frame.members;
  for (std::size_t i = 0; i < members.size(); ++i) {
    if (!upright(members[i].part)) continue;
    const double middle = (members[i].corner[0].x + members[i].corner[1].x) / 2;
    if (!drawing.whole && (middle < drawing.x0 || middle >= drawing.x1)) continue;
    const double x = (members[i].corner[0].x + members[i].corner[1].x) / 2;
    const auto same =
        std::find_if(all.begin(), all.end(), [&](const Upright& one) { return std::abs(one.x - x) < 0.5; });
    if (same == all.end()) {
      all.push_back({x, drawing.marks[i]});
    } else if (same->mark != drawing.marks[i]) {
      same->mark += "/" + drawing.marks[i];
    }
  }
  std::sort(all.begin(), all.end(), [](const Upright& a, const Upright& b) { return a.x < b.x; });
  Running running;
  running.along = Along::X;
  running.level = level;
  running.away = 1;
  running.per_mm = drawing.view.per_mm;
  running.origin = drawing.view.at(0, 0).x;
  running.start = drawing.view.at(std::max(drawing.x0, 0.0), 0).x;
  running.low = drawing.view.at(drawing.x0, 0).x - 8;
  running.high = drawing.view.at(drawing.x1, 0).x + 20;
  for (const Upright& one : all) {
    running.marks.push_back({drawing.view.at(one.x, 0).x, drawing.figure(one.x) + "  " + one.mark, one.x});
  }
  return drawRunning(drawing.painter, running);
}

/// Left edge and width of each opening, and what is left at the end; then the whole.
void drawOpeningChain(WallDrawing& drawing, double level) {
  std::vector<std::array<double, 2>> spans;
  for (const std::int32_t i : drawing.planned.openings) {
    const auto& opening = drawing.opening(i);
    if (drawing.shows(opening)) spans.push_back({opening.left, opening.left + opening.width});
  }
  std::vector<double> edges;
  // Of a stretch, the distance to an end that isn't on the page is on the running figures.
  if (drawing.x0 <= 0) edges.push_back(0);
  if (drawing.x1 >= drawing.wall.length) edges.push_back(drawing.wall.length);
  for (const auto& span : spans) edges.insert(edges.end(), span.begin(), span.end());
  std::sort(edges.begin(), edges.end());
  edges.erase(std::unique(edges.begin(), edges.end(), [](double a, double b) { return std::abs(a - b) < 0.5; }),
              edges.end());
  Chain chain;
  chain.along = Along::X;
  chain.away = 1;
  chain.level = level;
  chain.per_mm = drawing.view.per_mm;
  for (const double x : edges) chain.stations.push_back({drawing.view.at(x, 0).x, level - 3});
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    chain.values.push_back(edges[i + 1] - edges[i]);
    chain.texts.push_back(drawing.figure(edges[i + 1] - edges[i]));
  }
  const double rows = drawChain(drawing.painter, chain);
  const double overall = level + std::max(rows + 4.8, 6.5);
  if (drawing.whole && edges.size() > 2) {
    drawDimension(drawing.painter, Along::X, overall, 1, drawing.view.per_mm, {drawing.view.at(0, 0).x, overall - 2},
                  {drawing.view.at(drawing.wall.length, 0).x, overall - 2}, drawing.wall.length,
                  drawing.figure(drawing.wall.length));
  }
}

}  // namespace

void measureExtent(WallDrawing& drawing) {
  drawing.x1 = drawing.wall.length;
  for (const auto& point : drawing.wall.top) drawing.z1 = std::max(drawing.z1, point.z);
  for (const std::int32_t i : drawing.planned.openings) {
    const auto& opening = drawing.opening(i);
    drawing.x0 = std::min(drawing.x0, opening.left);
    drawing.x1 = std::max(drawing.x1, opening.left + opening.width);
    drawing.z1 = std::max(drawing.z1, opening.sill + opening.height);
  }
}

void drawElevation(WallDrawing& drawing, const Scale& scale, const Box& room) {
  const double wide = (drawing.x1 - drawing.x0) * scale.per_mm;
  const double spare = room.width() - kLeftDims - kRightDims - wide;
  const double high = drawing.z1 * scale.per_mm;
  const double slack = std::max(0.0, room.height() - kAboveDims - kBelowDims - high);
  drawing.view = {
      scale.per_mm,
      {room.x0 + kLeftDims + spare / 2 - drawing.x0 * scale.per_mm, room.y0 + kAboveDims + slack * 0.4 + high}};
  drawMembers(drawing);
  drawEave(drawing);
  std::vector<std::int32_t> unnamed;
  for (const std::int32_t i : drawing.planned.openings) {
    if (drawing.shows(drawing.opening(i)) && !drawOpeningIn(drawing, i)) unnamed.push_back(i);
  }
  drawMarks(drawing);
  drawHeights(drawing);
  const double floor = drawing.view.at(0, 0).y;
  const double reach = drawSetOut(drawing, floor + 4);
  drawOpeningChain(drawing, floor + 4 + reach + 5);
  for (const std::int32_t i : unnamed) drawNameOver(drawing, i);
  drawScaleBar(drawing.painter, {room.x1 - 50, room.y0 + 4}, scale,
               drawing.display() == practice::Display::InchFractions);
}

}  // namespace sillwright::sheet
