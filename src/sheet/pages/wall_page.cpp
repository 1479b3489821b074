// A wall's pages: its elevation from outside, in stretches where it is long, and the schedule of its timber.
#include "plan/frame/frame.h"
#include "sheet/drawing/wall_elevation.h"
#include "sheet/paper/marks.h"
#include "sheet/paper/table.h"
#include "words/length.h"

namespace sillwright::sheet {
namespace {

/// The wall's timber by the marks of its elevation; lengths to the long point.
Table scheduleOf(const std::vector<plan::MemberGroup>& groups, const practice::Practice& practice) {
  const bool inches = practice.display == practice::Display::InchFractions;
  const double width = inches ? 112.5 : 101.5;
  Table table(width, {{"mark", 9.5},
                      {"piece", 38},
                      {"section"},
                      {"length", inches ? 19.0 : 15.0, Align::Right},
                      {"cut", 12, Align::Right},
                      {"no.", 8, Align::Right}});
  table.least_row = 4.2;
  for (const plan::MemberGroup& group : groups) {
    const std::string to =
        group.short_length > 0 ? ", short point " + figure(group.short_length, practice.display) : "";
    table.rows.push_back({bold(group.mark), std::string(plan::nameOf(group.part, practice.words)) + to,
                          figures(group.depth, group.width, practice.display),
                          bold(figure(group.length, practice.display)),
                          group.cut_degrees > 0.05 ? words::number(group.cut_degrees, 1) + "°" : std::string{},
                          std::to_string(group.members.size())});
  }
  return table;
}

std::string wallWords(const WallDrawing& drawing) {
  const auto& spec = drawing.planned.spec;
  const auto& words = drawing.book.subject.practice.words;
  std::string said = capital(words.stud) + "s " + figures(spec.stud.depth, spec.stud.thickness, drawing.display()) +
                     " at " + drawing.figure(spec.spacing) +
                     " centres, first and last flush with the ends; top plates " + std::to_string(spec.plates.top) +
                     ", bottom " + std::to_string(spec.plates.bottom);
  if (const auto& second = spec.second_row) {
    said += "; inside it, " + drawing.figure(second->gap) + " clear, a second row framed alike of " +
            figures(second->depth, spec.stud.thickness, drawing.display()) + ", its pieces marked the same and not " +
            "counted here";
  }
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

/// The rows from `next` on that go into one of `columns` columns.
Table shareOf(const Table& schedule, std::size_t next, int columns) {
  Table part = schedule;
  const std::size_t rest = schedule.rows.size() - next;
  const auto left = static_cast<std::size_t>(columns);
  part.rows.resize(next + (rest + left - 1) / left);
  return part;
}

/// The height of the schedule in so many columns, with its heading.
double scheduleHeight(Painter& painter, const Table& schedule, int columns) {
  constexpr double kHeading = 5.3;
  double high = 0;
  std::size_t next = 0;
  for (int column = 0; column < columns && next < schedule.rows.size(); ++column) {
    Table part = shareOf(schedule, next, columns - column);
    const std::size_t end = part.rows.size();
    part.rows.erase(part.rows.begin(), part.rows.begin() + static_cast<std::ptrdiff_t>(next));
    high = std::max(high, heightOf(painter, part));
    next = end;
  }
  return high + kHeading;
}

/// Draws the elevation as large as possible, with the schedule beside or under it unless that makes it much smaller.
Arrangement arrange(WallDrawing& drawing, const Table& schedule, double width, double height, bool inches) {
  const double drawn = drawing.x1 - drawing.x0;
  const auto scaleIn = [&](double less_wide, double less_high) {
    return scaleFor(drawn, drawing.z1, width - kLeftDims - kRightDims - less_wide,
                    height - kAboveDims - kBelowDims - less_high, inches);
  };
  const double table = scheduleHeight(drawing.painter, schedule, 1);
  std::vector<Arrangement> candidates;
  for (const int columns : {2, 1}) {
    const double notes = width - columns * (schedule.width() + kGap);
    if (notes < 40) continue;
    const double foot = std::max(scheduleHeight(drawing.painter, schedule, columns), notesHeight(drawing, notes)) + 1;
    if (foot < 0.5 * height) candidates.push_back({Layout::Under, scaleIn(0, foot), foot, 0, columns});
  }
  const double aside = schedule.width() + kGap;
  if (table + notesHeight(drawing, schedule.width()) + 13 < height) {
    candidates.push_back({Layout::Beside, scaleIn(aside, 0), 0, aside, 1});
  }
  Arrangement best{Layout::OwnPage, scaleIn(0, 0), 0, 0, 2};
  constexpr double kWorthIt = 0.75;
  const double enough = best.scale.per_mm * kWorthIt * (1 - 1e-9);
  for (const Arrangement& candidate : candidates) {
    const bool first = best.layout == Layout::OwnPage;
    if (candidate.scale.per_mm >= enough && (first || candidate.scale.per_mm > best.scale.per_mm)) best = candidate;
  }
  return best;
}

/// The schedule in as many columns as are given, each of the table's width. Returns the first row left over.
std::size_t drawSchedule(Painter& painter, const Table& schedule, Vec at, double bottom, int columns,
                         std::size_t next) {
  for (int column = 0; column < columns && next < schedule.rows.size(); ++column) {
    const Table part = shareOf(schedule, next, columns - column);
    next = drawTable(painter, {at.x + column * (schedule.width() + kGap), at.y}, bottom, part, next).next;
  }
  return next;
}

/// Room on A4 within margins and title block. Needed before the page begins, since the title block states the scale.
constexpr double kRoomWidth = 268, kRoomHeight = 174;
/// The smallest readable scale; a longer wall is drawn in stretches.
constexpr double kLeastPerMm = 1.0 / 64;

/// Where a wall is cut: stretches of at most `most` mm, each end clear of openings and their studs where it can be.
std::vector<double> stretchEnds(const WallDrawing& drawing, double most) {
  constexpr double kStuds = 150;
  std::vector<double> ends{drawing.x0};
  while (ends.back() + most < drawing.x1) {
    double end = ends.back() + most;
    for (const std::int32_t i : drawing.planned.openings) {
      const auto& opening = drawing.opening(i);
      const double clear = opening.left - kStuds;
      if (end > clear && end < opening.left + opening.width + kStuds && clear > ends.back() + most / 3) end = clear;
    }
    ends.push_back(end);
  }
  ends.push_back(drawing.x1);
  return ends;
}

void drawTitle(WallDrawing& drawing, const Box& room, const std::string& part) {
  const Lettering head{.capitals = letter::kLarge, .weight = Weight::Bold};
  const std::string words = drawing.painter.fitted("Wall " + drawing.wall.name, 130, head);
  const Box name = drawing.painter.text({room.x0, room.y0 + head.capitals}, words, head);
  drawing.painter.text({name.x1 + 3, room.y0 + head.capitals}, "seen from outside" + part, {});
}

void drawStretches(WallDrawing& drawing, PageTitle title, bool inches) {
  const double width = kRoomWidth - kLeftDims - kRightDims;
  const double most = std::min(drawing.x1 - drawing.x0, width * (inches ? 48 : 50));
  const Scale scale = scaleFor(most, drawing.z1, width, kRoomHeight - kAboveDims - kBelowDims, inches);
  const auto ends = stretchEnds(drawing, most);
  title.scale = scale.name;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    WallDrawing part = drawing;
    part.x0 = ends[i];
    part.x1 = ends[i + 1];
    part.whole = false;
    title.deeper = i > 0;
    const Box room = drawing.book.begin(title);
    drawTitle(
        part, room,
        ", from " + part.figure(part.x0) + " to " + part.figure(part.x1) + " of " + part.figure(part.wall.length));
    drawElevation(part, scale, room);
  }
}

/// Draws the part of schedule and notes that has no room beside the elevation.
void drawScheduleAlone(WallDrawing& drawing, PageTitle title, const Table& schedule, std::size_t next, bool notes) {
  Book& book = drawing.book;
  title.drawing = "timber schedule";
  title.scale.clear();
  title.deeper = true;
  while (next < schedule.rows.size() || notes) {
    const Box room = book.begin(title);
    const bool two = room.width() - 2 * (schedule.width() + kGap) > 30;
    const int columns = two ? 2 : 1;
    const double width = columns * (schedule.width() + kGap) - kGap;
    const std::string words = book.painter().fitted("Timber of wall " + title.wall, width, kHeadingLetters);
    const double y = drawHeading(book.painter(), {room.x0, room.y0}, width, words);
    next = drawSchedule(book.painter(), schedule, {room.x0, y}, room.y1, columns, next);
    if (notes) drawNotes(drawing, {room.x0 + width + kGap, room.y0}, room.width() - width - kGap);
    notes = false;
  }
}

}  // namespace

void drawWall(Book& book, std::size_t index) {
  const Subject& subject = book.subject;
  const bool inches = subject.practice.display == practice::Display::InchFractions;
  PageTitle title{.kind = PageKind::Wall,
                  .subject = index,
                  .drawing = "elevation from outside",
                  .wall = subject.job.walls[index].name,
                  .landscape = true};

  WallDrawing drawing{book, book.painter(), index, subject.job.walls[index], subject.plan.walls[index]};
  drawing.groups = plan::groupsOf(drawing.planned.frame, drawing.display());
  drawing.marks = plan::marksOf(drawing.groups, drawing.planned.frame.members.size());
  measureExtent(drawing);
  Table schedule = scheduleOf(drawing.groups, subject.practice);
  schedule.under_heading = true;
  const Arrangement arranged = arrange(drawing, schedule, kRoomWidth, kRoomHeight, inches);
  if (arranged.scale.per_mm < kLeastPerMm) {
    drawStretches(drawing, title, inches);
    drawScheduleAlone(drawing, title, schedule, 0, true);
    return;
  }
  title.scale = arranged.scale.name;
  const Box room = book.begin(title);
  drawTitle(drawing, room, {});
  drawElevation(drawing, arranged.scale, {room.x0, room.y0, room.x1 - arranged.aside, room.y1 - arranged.foot});
  std::size_t next = 0;
  if (arranged.layout == Layout::Under) {
    const double top = room.y1 - arranged.foot;
    const double width = arranged.columns * (schedule.width() + kGap) - kGap;
    const double y = drawHeading(drawing.painter, {room.x0, top}, width, "Timber");
    next = drawSchedule(drawing.painter, schedule, {room.x0, y}, room.y1, arranged.columns, 0);
    drawNotes(drawing, {room.x0 + width + kGap, top}, room.x1 - room.x0 - width - kGap);
  } else if (arranged.layout == Layout::Beside) {
    const double x = room.x1 - schedule.width();
    const double y = drawHeading(drawing.painter, {x, room.y0 + 9}, schedule.width(), "Timber");
    const TableEnd end = drawTable(drawing.painter, {x, y}, room.y1, schedule);
    next = end.next;
    drawNotes(drawing, {x, end.y + 4}, schedule.width());
  }
  drawScheduleAlone(drawing, title, schedule, next, arranged.layout == Layout::OwnPage);
}

}  // namespace sillwright::sheet
