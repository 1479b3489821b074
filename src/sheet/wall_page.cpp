// A wall's elevation, seen from outside: timber, openings and set-out to scale, and the schedule of its pieces.
#include <array>
#include <numbers>

#include "check/say.h"
#include "sheet/dimension.h"
#include "sheet/marks.h"
#include "sheet/page.h"
#include "sheet/table.h"
#include "sheet/wall_parts.h"
#include "sheet/words.h"

namespace sillwright::sheet {
namespace {

constexpr double kLeftDims = 21, kRightDims = 27, kAbove = 13, kBelow = 37;  // room round the elevation, mm of paper

struct WallDrawing {
  Book& book;
  Painter& painter;
  std::size_t index;
  const job::Wall& wall;
  const plan::WallPlan& planned;
  std::vector<MemberGroup> groups;
  std::vector<std::string> marks;
  double x0 = 0, x1 = 0, z1 = 0;  // extent of what is drawn, mm of the wall
  View view{};

  [[nodiscard]] practice::Display display() const { return book.subject.practice.display; }
  [[nodiscard]] std::string figure(double mm) const { return sheet::figure(mm, display()); }
  [[nodiscard]] const job::Opening& opening(std::int32_t i) const {
    return book.subject.job.openings[static_cast<std::size_t>(i)];
  }
};

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

std::vector<Vec> outline(const View& view, const plan::Member& member) {
  std::vector<Vec> points;
  for (std::size_t i = 0; i < 4; ++i) {
    points.push_back(view.at(member.corner[i].x, member.corner[i].z));
    if (i == 2 && member.apex) points.push_back(view.at(member.apex->x, member.apex->z));
  }
  return points;
}

void drawMembers(WallDrawing& drawing) {
  for (const plan::Member& member : drawing.planned.frame.members) {
    if (member.part == plan::MemberPart::Lintel && member.y0 > 0.1) continue;  // plies behind the first
    const auto points = outline(drawing.view, member);
    const bool lintel = member.part == plan::MemberPart::Lintel;
    drawing.painter.fill(points, lintel ? grey(0.86) : upright(member.part) ? grey(0.95) : kWhite);
    drawing.painter.path(points, {pen::kFine}, true);
  }
  // The wall's outline over its members: what is seen first.
  std::vector<Vec> edge{drawing.view.at(0, 0)};
  for (const auto& point : drawing.wall.top) edge.push_back(drawing.view.at(point.x, point.z));
  edge.push_back(drawing.view.at(drawing.wall.length, 0));
  drawing.painter.path(edge, {pen::kBold}, true);
  const Vec left = drawing.view.at(drawing.x0, 0);
  const Vec right = drawing.view.at(drawing.x1, 0);
  drawing.painter.line({left.x - 4, left.y}, {right.x + 4, right.y}, {pen::kHeavy});
}

void drawOpeningIn(WallDrawing& drawing, std::int32_t index) {
  Painter& painter = drawing.painter;
  const job::Opening& opening = drawing.opening(index);
  const auto& planned = drawing.book.subject.plan.openings[static_cast<std::size_t>(index)];
  const Vec low = drawing.view.at(opening.left, opening.sill);
  const Vec high = drawing.view.at(opening.left + opening.width, opening.sill + opening.height);
  const Box box{low.x, high.y, high.x, low.y};
  painter.fillBox(box, kWhite);
  painter.line({box.x0, box.y0}, {box.x1, box.y1}, {pen::kHair, Dash::Chain});
  painter.line({box.x0, box.y1}, {box.x1, box.y0}, {pen::kHair, Dash::Chain});
  painter.box(box, {pen::kBold});

  // Sill and height, one over the other, just inside the left edge.
  const double column = box.x0 + 5.5;
  Chain heights;
  heights.along = Along::Y;
  heights.level = column;
  heights.away = 1;
  heights.per_mm = drawing.view.per_mm;
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
  drawChain(painter, heights);

  const double room = box.x1 - column - 4;
  const double middle = column + 2.5 + room / 2;
  Lettering name;
  name.align = Align::Centre;
  name.weight = Weight::Bold;
  name.clear = true;
  name.capitals =
      painter.widthOf(opening.name, {letter::kHead, Weight::Bold}) < room - 7 ? letter::kHead : letter::kBody;
  const double y = box.middle().y;
  const auto verdict = drawing.book.subject.findings.verdicts[static_cast<std::size_t>(index)];
  const double wide = painter.widthOf(opening.name, name);
  const double sign = name.capitals * 0.8;
  painter.text({middle + sign / 2 + 0.8, y - 1}, opening.name, name);
  drawVerdict(painter, {middle - wide / 2 - sign / 2 - 1.0, y - 1 - name.capitals / 2}, sign, verdict);
  Lettering small;
  small.align = Align::Centre;
  small.clear = true;
  double line = y + 4.0;
  for (const std::string& words :
       {nameOf(planned.unit.kind), "unit " + figures(planned.unit.width, planned.unit.height, drawing.display())}) {
    if (painter.widthOf(words, small) > room || line > box.y1 - 2) continue;
    painter.text({middle, line}, words, small);
    line += 3.9;
  }
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
    const Vec low = drawing.view.at(member.corner[0].x, member.corner[0].z);
    const Vec high = drawing.view.at(member.corner[2].x, member.corner[2].z);
    const double x = low.x + (high.x - low.x) * (member.part == plan::MemberPart::Nogging ? 0.5 : 0.72);
    how.clear = member.part == plan::MemberPart::SillTrimmer;
    if (member.part == plan::MemberPart::Lintel && member.y0 <= 0.1) {
      drawing.painter.text({x, (low.y + high.y) / 2 + how.capitals / 2}, drawing.marks[i], how);
    } else if (member.part == plan::MemberPart::SillTrimmer) {
      drawing.painter.text({x, low.y + how.capitals + 1.0}, drawing.marks[i], how);
    } else if (member.part == plan::MemberPart::Nogging && high.x - low.x > 7) {
      drawing.painter.text({x, high.y - 0.9}, drawing.marks[i], how);
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

/// Heights at the wall's left end, heights and slopes along its top.
void drawHeights(WallDrawing& drawing) {
  Painter& painter = drawing.painter;
  const auto& top = drawing.wall.top;
  const auto& spec = drawing.planned.spec;
  const double left = drawing.view.at(drawing.x0, 0).x;
  const double under = plan::heightBelowTop(spec, spec.plates.top * spec.stud.thickness, 0);
  const auto y = [&](double z) { return drawing.view.at(0, z).y; };
  Chain chain;
  chain.along = Along::Y;
  chain.away = -1;
  chain.per_mm = drawing.view.per_mm;
  chain.level = left - 9;
  chain.stations = {{y(0), left}, {y(under), left}, {y(top.front().z), left}};
  chain.values = {under, top.front().z - under};
  chain.texts = {drawing.figure(under), drawing.figure(top.front().z - under)};
  drawChain(painter, chain);
  drawDimension(painter, Along::Y, left - 16, -1, drawing.view.per_mm, {y(0), left}, {y(top.front().z), left},
                top.front().z, drawing.figure(top.front().z));
  const bool sloped =
      std::any_of(top.begin(), top.end(), [&](const auto& point) { return std::abs(point.z - top.front().z) > 0.5; });
  if (!sloped) return;
  Lettering how;
  how.align = Align::Centre;
  how.clear = true;
  for (std::size_t i = 0; i < top.size(); ++i) {
    const Vec at = drawing.view.at(top[i].x, top[i].z);
    painter.line({at.x, at.y - 0.8}, {at.x, at.y - 4}, {pen::kHair});
    painter.text({at.x, at.y - 4.8}, drawing.figure(top[i].z), how);
    if (i + 1 == top.size()) break;
    const double rise = top[i + 1].z - top[i].z;
    const double run = top[i + 1].x - top[i].x;
    if (std::abs(rise) < 0.5) continue;
    const Vec middle = drawing.view.at((top[i].x + top[i + 1].x) / 2, (top[i].z + top[i + 1].z) / 2);
    Lettering slope;
    slope.align = rise > 0 ? Align::Right : Align::Left;
    painter.text({middle.x + (rise > 0 ? -2.0 : 2.0), middle.y - 3.0},
                 "slope " + check::number(std::abs(std::atan2(rise, run)) * 180 / std::numbers::pi, 1) + "°", slope);
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
    spans.push_back({opening.left, opening.left + opening.width});
  }
  std::vector<double> edges{0, drawing.wall.length};
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
  const double overall = level + std::max(rows + 2.5, 6.5);
  if (edges.size() > 2) {
    drawDimension(drawing.painter, Along::X, overall, 1, drawing.view.per_mm, {drawing.view.at(0, 0).x, overall - 2},
                  {drawing.view.at(drawing.wall.length, 0).x, overall - 2}, drawing.wall.length,
                  drawing.figure(drawing.wall.length));
  }
}

std::string wallWords(const WallDrawing& drawing) {
  const auto& spec = drawing.planned.spec;
  const auto& words = drawing.book.subject.practice.words;
  std::string said = words.stud + "s " + figures(spec.stud.depth, spec.stud.thickness, drawing.display()) + " at " +
                     drawing.figure(spec.spacing) + " centres, first and last flush with the ends; top plates " +
                     std::to_string(spec.plates.top) + ", bottom " + std::to_string(spec.plates.bottom);
  if (drawing.wall.timber) said += "; timber " + *drawing.wall.timber;
  said += ". Figures under the wall: the middle of each upright from the left end, with its mark. " +
          capital(words.lintel) + "s are drawn, not designed: span tables or an engineer say what is put in.";
  if (drawing.planned.head_line)
    said += " Units' heads in one line at " + drawing.figure(*drawing.planned.head_line) + ".";
  return said;
}

double drawNotes(WallDrawing& drawing, Vec at, double width) {
  Painter& painter = drawing.painter;
  double y = drawHeading(painter, at, width, "Notes");
  y = painter.paragraph({at.x, y}, width, wallWords(drawing)) + 1;
  for (const auto& finding : drawing.book.subject.findings.walls[drawing.index]) {
    if (finding.severity == check::Severity::Note) continue;
    drawSeverity(painter, {at.x, y + 1.2}, 2.6, finding.severity);
    y = painter.paragraph({at.x + 4, y}, width - 4, finding.say) + 0.6;
  }
  return y;
}

double notesHeight(WallDrawing& drawing, double width) {
  double high = 6 + drawing.painter.heightOf(wallWords(drawing), width);
  for (const auto& finding : drawing.book.subject.findings.walls[drawing.index]) {
    if (finding.severity != check::Severity::Note) high += drawing.painter.heightOf(finding.say, width - 4) + 0.6;
  }
  return high;
}

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

/// Where the schedule stands.
enum class Layout { Under, Beside, OwnPage };

struct Arrangement {
  Layout layout = Layout::Under;
  Scale scale;
  double foot = 0;   // height under the elevation that schedule and notes take
  double aside = 0;  // width beside it
  int columns = 2;   // of the schedule under it
};

constexpr double kGap = 6;

/// The elevation as large as can be; beside or under it its schedule, unless that makes it much smaller.
Arrangement arrange(WallDrawing& drawing, const Table& schedule, double width, double height, bool inches) {
  const double drawn = drawing.x1 - drawing.x0;
  const auto scaleIn = [&](double less_wide, double less_high) {
    return scaleFor(drawn, drawing.z1, width - kLeftDims - kRightDims - less_wide, height - kAbove - kBelow - less_high,
                    inches);
  };
  const double table = heightOf(drawing.painter, schedule) + 8;
  std::vector<Arrangement> candidates;
  for (const int columns : {2, 1}) {
    const double notes = width - columns * (schedule.width() + kGap);
    if (notes < 40) continue;
    const double foot = std::max(table / columns + 5, notesHeight(drawing, notes) + 3);
    if (foot < 0.5 * height) candidates.push_back({Layout::Under, scaleIn(0, foot), foot, 0, columns});
  }
  const double aside = schedule.width() + kGap;
  if (table + notesHeight(drawing, schedule.width()) + 8 < height) {
    candidates.push_back({Layout::Beside, scaleIn(aside, 0), 0, aside, 1});
  }
  Arrangement best{Layout::OwnPage, scaleIn(0, 0), 0, 0, 2};
  constexpr double kWorthIt = 0.75;
  const double enough = best.scale.per_mm * kWorthIt;
  for (const Arrangement& candidate : candidates) {
    const bool first = best.layout == Layout::OwnPage;
    if (candidate.scale.per_mm >= enough && (first || candidate.scale.per_mm > best.scale.per_mm)) best = candidate;
  }
  return best;
}

/// The schedule in as many columns as are given, each of the table's width. Answers the first row left over.
std::size_t drawSchedule(Painter& painter, const Table& schedule, Vec at, double bottom, int columns,
                         std::size_t next) {
  for (int column = 0; column < columns && next < schedule.rows.size(); ++column) {
    Table part = schedule;
    const std::size_t rest = schedule.rows.size() - next;
    const auto left = static_cast<std::size_t>(columns - column);
    part.rows.resize(next + (rest + left - 1) / left);
    next = drawTable(painter, {at.x + column * (schedule.width() + kGap), at.y}, bottom, part, next).next;
  }
  return next;
}

void drawElevation(WallDrawing& drawing, const Scale& scale, const Box& room, bool inches) {
  const double wide = (drawing.x1 - drawing.x0) * scale.per_mm;
  const double spare = room.width() - kLeftDims - kRightDims - wide;
  const double high = drawing.z1 * scale.per_mm;
  const double slack = std::max(0.0, room.height() - kAbove - kBelow - high);
  drawing.view = {scale.per_mm,
                  {room.x0 + kLeftDims + spare / 2 - drawing.x0 * scale.per_mm, room.y0 + kAbove + slack * 0.4 + high}};
  drawMembers(drawing);
  drawEave(drawing);
  for (const std::int32_t i : drawing.planned.openings) drawOpeningIn(drawing, i);
  drawMarks(drawing);
  drawHeights(drawing);
  const double floor = drawing.view.at(0, 0).y;
  const double reach = drawSetOut(drawing, floor + 4);
  drawOpeningChain(drawing, floor + 4 + reach + 5);
  drawScaleBar(drawing.painter, {room.x1 - 50, room.y0 + 4}, scale, inches);
}

}  // namespace

void drawWall(Book& book, std::size_t index) {
  const Subject& subject = book.subject;
  const bool inches = subject.practice.display == practice::Display::InchFractions;
  PageTitle title;
  title.kind = PageKind::Wall;
  title.subject = index;
  title.drawing = "elevation from outside";
  title.wall = subject.job.walls[index].name;
  title.landscape = true;

  WallDrawing drawing{book, book.painter(), index, subject.job.walls[index], subject.plan.walls[index], {}, {}};
  drawing.groups = groupsOf(drawing.planned.frame);
  drawing.marks = marksOf(drawing.groups, drawing.planned.frame.members.size());
  measureExtent(drawing);
  Table schedule = scheduleOf(drawing.groups, subject.practice);
  schedule.under_heading = true;
  // The scale stands in the title block, so the room is looked at before the page begins: A4's less its margins.
  constexpr double kRoomWidth = 268, kRoomHeight = 174;
  const Arrangement arranged = arrange(drawing, schedule, kRoomWidth, kRoomHeight, inches);
  title.scale = arranged.scale.name;
  Box room = book.begin(title);

  Lettering head;
  head.capitals = letter::kLarge;
  head.weight = Weight::Bold;
  const Box name = drawing.painter.text({room.x0, room.y0 + head.capitals}, "Wall " + drawing.wall.name, head);
  drawing.painter.text({name.x1 + 3, room.y0 + head.capitals}, "seen from outside", {});
  drawElevation(drawing, arranged.scale, {room.x0, room.y0, room.x1 - arranged.aside, room.y1 - arranged.foot}, inches);

  std::size_t next = 0;
  if (arranged.layout == Layout::Under) {
    const double top = room.y1 - arranged.foot;
    const double width = arranged.columns * (schedule.width() + kGap) - kGap;
    const double y = drawHeading(drawing.painter, {room.x0, top}, width, "Timber");
    next = drawSchedule(drawing.painter, schedule, {room.x0, y}, room.y1, arranged.columns, 0);
    drawNotes(drawing, {room.x0 + width + kGap, top}, room.x1 - room.x0 - width - kGap);
  } else if (arranged.layout == Layout::Beside) {
    const double x = room.x1 - schedule.width();
    double y = drawHeading(drawing.painter, {x, room.y0 + 9}, schedule.width(), "Timber");
    const TableEnd end = drawTable(drawing.painter, {x, y}, room.y1, schedule);
    next = end.next;
    drawNotes(drawing, {x, end.y + 4}, schedule.width());
  }
  bool noted = arranged.layout != Layout::OwnPage;
  while (next < schedule.rows.size() || !noted) {
    title.drawing = "timber schedule";
    title.scale.clear();
    title.deeper = true;
    room = book.begin(title);
    const double width = 2 * schedule.width() + kGap;
    const double y = drawHeading(book.painter(), {room.x0, room.y0}, width, "Timber of wall " + title.wall);
    next = drawSchedule(book.painter(), schedule, {room.x0, y}, room.y1, 2, next);
    if (!noted && room.width() - width - kGap > 30) {
      drawNotes(drawing, {room.x0 + width + kGap, room.y0}, room.width() - width - kGap);
    }
    noted = true;
  }
}

}  // namespace sillwright::sheet
