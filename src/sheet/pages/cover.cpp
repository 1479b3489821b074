// The cover: the verdicts of the job, and the list of its sheets.

#include <algorithm>

#include "sheet/paper/page.h"

namespace sillwright::sheet {

namespace {

/// A finding in one line: "plumb of a stud: 3.1 mm, limit 2.1", or its first sentence if it has no figures.
std::string inShort(const check::Finding& finding, const Subject& subject) {
  if (!finding.measured || !finding.limit) {  // it has no figures: the first sentence has to do
    const auto end = finding.say.find(". ");
    return end == std::string::npos ? finding.say : finding.say.substr(0, end + 1);
  }
  const auto show = [&](double value) {
    return finding.unit == "mm" ? subject.figure(value)
                                : words::amount(value, finding.unit, finding.unit == "N" ? 0 : 2, subject.display());
  };
  return finding.about + ": " + show(*finding.measured) + ", limit " + show(*finding.limit);
}

/// The finding that decides the verdict, and the number of further findings.
std::string why(const Subject& subject, std::size_t opening) {
  const auto& findings = subject.findings.openings[opening];
  const check::Finding* first = check::worstOf(findings);
  if (first == nullptr) return "nothing against setting it";  // notes don't count
  const auto all = findings.size() - std::ranges::count(findings, check::Severity::Note, &check::Finding::severity);
  return inShort(*first, subject) + (all > 1 ? " (+" + std::to_string(all - 1) + ")" : std::string{});
}

Table verdicts(const Book& book, double width) {
  const Subject& subject = book.subject;
  const double size = subject.inches() ? 32 : 24;  // mm: fractions of an inch are long
  Table table(width, {left("", 13), left("wall", 17), left("unit", 30), left("width × height", size),
                      left("verdict", 27), right("to spare", 13), left("why"), right("page", 11)});
  table.least_row = 5.6;
  table.under_heading = true;
  for (std::size_t i = 0; i < subject.job.openings.size(); ++i) {
    const auto& opening = subject.job.openings[i];
    const auto& planned = subject.plan.openings[i];
    Cell verdict = bold(check::wordsFor(subject.findings.verdicts[i]));
    verdict.verdict = subject.findings.verdicts[i];
    verdict.basis = subject.findings.bases[i];
    const std::string spare =  // none where the measurements contradict each other
        verdict.basis == check::Basis::Disputed ? std::string{} : subject.figure(planned.stand.spare);
    const int page = book.pageOf(opening.name);  // not known in the first of the counting runs
    table.rows.push_back({bold(opening.name), subject.job.walls[opening.wall].name,
                          words::unitName(opening.unit.kind, opening.unit.lights), subject.figures(planned.unit),
                          verdict, spare, why(subject, i), page > 0 ? std::to_string(page) : std::string{}});
  }
  return table;
}

double drawFacts(Painter& painter, const Subject& subject, Vec at, double width) {  // answers where they end
  const auto row = [&](const std::string& caption, const std::string& text) {
    painter.text({at.x, at.y + kBoldLetters.capitals}, caption, kBoldLetters);
    at.y = painter.paragraph({at.x + 24, at.y}, width - 24, text) + 0.6;  // 24 mm are the captions'
  };
  row("rule set", subject.practice.title);
  row("wind", windWords(subject.job, subject.practice));
  row("units", std::string(subject.inches() ? "Inches, to the sixteenth" : "Millimetres") +
                   ". Each drawing has a scale bar to check the print by.");
  row("seen from", "Outside: left and right are as seen by someone facing the wall from outside.");
  row("signs",
      "Disc: ready. Triangle: needs attention. Square: stop. A ring round it: as planned, not measured. To spare: "
      "clearance.");
  return at.y;
}

constexpr double kLeastPlan = 55;  // height under which a plan of the house tells nothing

/// The list of pages in two columns; what has no room continues on further pages. Returns the y below it.
double drawContents(Book& book, Box room) {
  Table table((room.width() - kColumnGap) / 2, {left("sheet"), right("page", 14)});
  table.under_heading = true;
  for (const Entry& entry : book.known().entries) table.rows.push_back({entry.title, std::to_string(entry.page)});
  TableEnd end;
  std::string heading = "Sheets";
  while (true) {  // each page takes as many entries as have room
    end.y = drawHeading(book.painter(), {room.x0, room.y0}, room.width(), heading);
    end = drawColumns(book.painter(), {room.x0, end.y}, room.y1, table, 2, end.next);
    if (end.next >= table.rows.size()) return end.y;
    room = book.begin({.drawing = "cover, list of sheets", .deeper = true});
    heading = "Sheets, continued";
  }
}

double cautionsHeight(Painter& painter, const check::Findings& findings, double width) {  // as drawCautions takes
  double high = 8;  // mm of the heading, with room round it
  for (const auto& caution : findings.cautions) high += painter.heightOf(caution, width - 5) + 0.8;
  return high;
}

void drawCautions(Painter& painter, const check::Findings& findings, Vec at, double width) {
  double y = drawHeading(painter, at, width, "Cautions");
  for (const auto& caution : findings.cautions) {
    painter.text({at.x + 1, y + kBoldLetters.capitals}, "!", kBoldLetters);
    y = painter.paragraph({at.x + 5, y}, width - 5, caution) + 0.8;
  }
}

}  // namespace

void drawCover(Book& book) {
  const Subject& subject = book.subject;
  PageTitle title{.drawing = "cover"};
  Box room = book.begin(title);
  const Lettering head{.capitals = letter::kTitle, .weight = Weight::Bold};
  double y = book.painter().paragraph({room.x0, room.y0 + 2}, room.width(), subject.job.title, head) + 1;
  const Lettering large{.capitals = letter::kLarge, .weight = Weight::Bold};
  drawVerdict(book.painter(), {room.x0, y + 2.5}, 5.0, subject.findings.verdict, subject.findings.basis);
  book.painter().text({room.x0 + 7, y + 2.5 + large.capitals / 2},
                      std::string(check::wordsFor(subject.findings.verdict)) + ", " +
                          check::wordsFor(subject.findings.basis) + ".  " + check::summaryOf(subject.findings.verdicts),
                      large);
  y = drawFacts(book.painter(), subject, {room.x0, y + 9}, room.width()) + 3;

  const Table table = verdicts(book, room.width());
  if (!table.rows.empty()) {
    room.y0 = drawHeading(book.painter(), {room.x0, y}, room.width(), "Openings");
    title.drawing = "cover, openings";
    room = drawOnPages(book, table, room, title, "Openings, continued");
    y = room.y0 + 3;
  }
  y += 2;
  const double cautions = cautionsHeight(book.painter(), subject.findings, room.width());
  const auto needRoom = [&](double high, const char* drawing) {  // a block without room goes to a new page whole
    if (y + high <= room.y1) return;
    title.drawing = drawing;
    title.deeper = true;
    room = book.begin(title);
    y = room.y0;
  };
  needRoom(cautions, "cover, cautions");
  drawCautions(book.painter(), subject.findings, {room.x0, y}, room.width());
  y += cautions + 4;
  needRoom(25, "cover, list of sheets");  // mm of the heading and a few entries
  y = drawContents(book, {room.x0, y, room.x1, room.y1}) + 4;
  if (room.y1 - y > kLeastPlan) drawHousePlan(book, {room.x0, y, room.x1, room.y1});
}

}  // namespace sillwright::sheet
