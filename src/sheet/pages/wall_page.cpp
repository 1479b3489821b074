// A wall's pages: its elevation from outside, in stretches where it is long, and the schedule of its timber.

#include "sheet/drawing/elevation.h"

namespace sillwright::sheet {
namespace {

/// Widens the extent from the wall itself to openings that run past it.
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

/// The wall's timber by the marks of its elevation; lengths to the long point.
Table scheduleOf(const std::vector<plan::MemberGroup>& groups, const Subject& subject) {
  const bool inches = subject.inches();
  const double width = inches ? 112.5 : 101.5;
  Table table(width, {left("mark", 9.5), left("piece", 38), left("section"), right("length", inches ? 19 : 15),
                      right("cut", 12), right("no.", 8)});
  table.least_row = 4.2;
  table.under_heading = true;
  for (const plan::MemberGroup& group : groups) {
    const std::string to = group.short_length > 0 ? ", short point " + subject.figure(group.short_length) : "";
    table.rows.push_back({bold(group.mark), std::string(plan::nameOf(group.part, subject.practice.words)) + to,
                          subject.figures(group.depth, group.width), bold(subject.figure(group.length)),
                          group.cut_degrees > 0.05 ? words::number(group.cut_degrees, 1) + "°" : std::string{},
                          std::to_string(group.members.size())});
  }
  return table;
}

std::string wallWords(const WallDrawing& drawing) {
  const auto& spec = drawing.planned.spec;
  const auto& words = drawing.subject.practice.words;
  std::string said = capital(words.stud) + "s " + drawing.subject.figures(spec.stud.depth, spec.stud.thickness) +
                     " at " + drawing.figure(spec.spacing) +
                     " centres, first and last flush with the ends; top plates " + std::to_string(spec.plates.top) +
                     ", bottom " + std::to_string(spec.plates.bottom);
  if (const auto& second = spec.second_row) {
    said += "; inside it, " + drawing.figure(second->gap) + " clear, a second row framed alike of " +
            drawing.subject.figures(second->depth, spec.stud.thickness) + ", its pieces marked the same and not " +
            "counted here";
  }
  if (drawing.wall.timber) said += "; timber " + *drawing.wall.timber;
  said += ". Figures under the wall: the middle of each upright from the left end, with its mark. " +
          capital(words.lintel) + "s are drawn, not designed: span tables or an engineer say what is put in.";
  if (drawing.planned.head_line)
    said += " Units' heads in one line at " + drawing.figure(*drawing.planned.head_line) + ".";
  return said;
}

/// Answers where they end.
double drawNotes(Painter& painter, const WallDrawing& drawing, Vec at, double width) {
  double y = drawHeading(painter, at, width, "Notes");
  y = painter.paragraph({at.x, y}, width, wallWords(drawing)) + 1;
  for (const auto& finding : drawing.subject.findings.walls[drawing.index]) {
    if (finding.severity == check::Severity::Note) continue;
    drawSeverity(painter, {at.x, y + 1.2}, 2.6, finding.severity);
    y = painter.paragraph({at.x + 4, y}, width - 4, finding.say) + 0.6;
  }
  return y;
}

/// Where schedule and notes stand: under the elevation, beside it or, where they take no room there, on their own page.
struct Arrangement {
  Scale scale;
  double foot = 0;   // height under the elevation that they take
  double aside = 0;  // width beside it
  int columns = 2;   // of the schedule under it
};

/// With the gap beside it.
double widthOf(const Table& schedule, int columns) { return columns * (schedule.width() + kColumnGap); }

/// Room on A4 within margins and title block. Needed before the page begins, since the title block states the scale.
constexpr double kRoomWidth = 268, kRoomHeight = 174;
/// The smallest readable scale; a longer wall is drawn in stretches.
constexpr double kLeastPerMm = 1.0 / 64;

/// The elevation as large as possible, with the schedule beside or under it unless that makes it much smaller.
Arrangement arrange(WallDrawing& drawing, const Table& schedule) {
  constexpr double kHeading = 5.3;  // mm: what drawHeading takes, and a little
  const auto scaleIn = [&](double aside, double foot) {
    return scaleFor(drawing.x1 - drawing.x0, drawing.z1, kRoomWidth - kLeftDims - kRightDims - aside,
                    kRoomHeight - kAboveDims - kBelowDims - foot, drawing.subject.inches());
  };
  const auto tableIn = [&](int columns) {
    return kHeading + drawColumns(drawing.book.scrap(), {}, HUGE_VAL, schedule, columns).y;
  };
  // Under their last line they need less than they leave.
  const auto notesIn = [&](double width) { return drawNotes(drawing.book.scrap(), drawing, {}, width) - 0.2; };
  // Under the elevation, with the notes beside the schedule, or both beside it: only where they have room.
  std::vector<Arrangement> candidates;
  for (const int columns : {2, 1}) {
    const double notes = kRoomWidth - widthOf(schedule, columns);
    if (notes < 40) continue;  // mm: the notes would be too narrow
    const double table = tableIn(columns);
    const double foot = std::max(table, notesIn(notes)) + 1;
    if (foot < 0.5 * kRoomHeight) candidates.push_back({scaleIn(0, foot), foot, 0, columns});
  }
  const double aside = widthOf(schedule, 1);
  if (tableIn(1) + notesIn(schedule.width()) + 13 < kRoomHeight) {  // 13 mm: down from the title, and between the two
    candidates.push_back({scaleIn(aside, 0), 0, aside, 1});
  }
  const Arrangement alone{scaleIn(0, 0)};
  const auto scaleOf = [](const Arrangement& one) { return one.scale.per_mm; };
  const auto best = std::ranges::max_element(candidates, {}, scaleOf);  // of equals the first: under it, in two columns
  constexpr double kWorthIt = 0.75;  // of the scale that it has alone; just that, as 1:20 for 1:15, is enough
  const bool worth = best != candidates.end() && scaleOf(*best) >= scaleOf(alone) * kWorthIt * (1 - 1e-9);
  return worth ? *best : alone;
}

/// Where a wall is cut: stretches of at most `most` mm, each end clear of openings and their studs where it can be.
std::vector<double> stretchEnds(const WallDrawing& drawing, double most) {
  constexpr double kStuds = 150;  // mm beside an opening, for its studs
  std::vector<double> ends{drawing.x0};
  while (ends.back() + most < drawing.x1) {
    double end = ends.back() + most;
    for (const std::int32_t i : drawing.planned.openings) {
      const auto& opening = drawing.opening(i);
      const double clear = opening.left - kStuds;  // before the studs, unless little of the stretch were left
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

void drawStretches(WallDrawing& drawing, PageTitle title) {
  const bool inches = drawing.subject.inches();
  const double width = kRoomWidth - kLeftDims - kRightDims;
  const double most = std::min(drawing.x1 - drawing.x0, width * (inches ? 48 : 50));  // mm of wall a mm of paper
  const Scale scale = scaleFor(most, drawing.z1, width, kRoomHeight - kAboveDims - kBelowDims, inches);
  const auto ends = stretchEnds(drawing, most);
  title.scale = scale.name;
  for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
    WallDrawing part = drawing;
    part.x0 = ends[i];
    part.x1 = ends[i + 1];
    part.whole = false;
    title.deeper = i > 0;  // only the first page is in the list of pages
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
    const int columns = room.width() - widthOf(schedule, 2) > 30 ? 2 : 1;  // mm that the notes want
    const double width = widthOf(schedule, columns);
    const std::string words =
        book.painter().fitted("Timber of wall " + title.wall, width - kColumnGap, kHeadingLetters);
    const double y = drawHeading(book.painter(), {room.x0, room.y0}, width - kColumnGap, words);
    next = drawColumns(book.painter(), {room.x0, y}, room.y1, schedule, columns, next).next;
    if (notes) drawNotes(drawing.painter, drawing, {room.x0 + width, room.y0}, room.width() - width);
    notes = false;  // they stand on the first page only
  }
}

}  // namespace

void drawWall(Book& book, std::size_t index) {
  const Subject& subject = book.subject;
  PageTitle title{.drawing = "elevation from outside", .wall = subject.job.walls[index].name, .landscape = true};

  WallDrawing drawing{book, subject, book.painter(), index, subject.job.walls[index], subject.plan.walls[index]};
  drawing.groups = plan::groupsOf(drawing.planned.frame, subject.display());
  drawing.marks = plan::marksOf(drawing.groups, drawing.planned.frame.members.size());
  measureExtent(drawing);
  const Table schedule = scheduleOf(drawing.groups, subject);
  const Arrangement arranged = arrange(drawing, schedule);
  if (arranged.scale.per_mm < kLeastPerMm) {
    drawStretches(drawing, title);
    drawScheduleAlone(drawing, title, schedule, 0, true);
    return;
  }
  title.scale = arranged.scale.name;
  const Box room = book.begin(title);
  drawTitle(drawing, room, {});
  drawElevation(drawing, arranged.scale, {room.x0, room.y0, room.x1 - arranged.aside, room.y1 - arranged.foot});
  std::size_t next = 0;
  if (arranged.foot > 0) {
    const double top = room.y1 - arranged.foot;
    const double width = widthOf(schedule, arranged.columns);
    const double y = drawHeading(drawing.painter, {room.x0, top}, width - kColumnGap, "Timber");
    next = drawColumns(drawing.painter, {room.x0, y}, room.y1, schedule, arranged.columns).next;
    drawNotes(drawing.painter, drawing, {room.x0 + width, top}, room.width() - width);
  } else if (arranged.aside > 0) {
    const double x = room.x1 - schedule.width();
    const double y = drawHeading(drawing.painter, {x, room.y0 + 9}, schedule.width(), "Timber");
    const TableEnd end = drawTable(drawing.painter, {x, y}, room.y1, schedule);
    next = end.next;
    drawNotes(drawing.painter, drawing, {x, end.y + 4}, schedule.width());
  }
  drawScheduleAlone(drawing, title, schedule, next, arranged.foot + arranged.aside == 0);
}

}  // namespace sillwright::sheet
