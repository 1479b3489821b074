// The cover: the verdicts of the job, and the list of its sheets. And the handbook's pages.

#include <algorithm>

#include "base/words.h"
#include "sheet/handbook.h"
#include "sheet/paper/page.h"

namespace sillwright::sheet {

namespace {

/// A finding in one line: "plumb of a stud: 3.1 mm, limit 2.1", or its first sentence if it has no figures.
std::string inShort(const check::Finding& finding, const Subject& subject) {
  if (!finding.measured || !finding.limit) {
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
  if (first == nullptr) return "nothing against setting it";
  const auto all = findings.size() - std::ranges::count(findings, check::Severity::Note, &check::Finding::severity);
  return inShort(*first, subject) + (all > 1 ? " (+" + std::to_string(all - 1) + ")" : std::string{});
}

Table verdicts(const Book& book, double width) {
  const Subject& subject = book.subject;
  const double size = subject.inches() ? 32 : 24;
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
    const std::string spare =
        verdict.basis == check::Basis::Disputed ? std::string{} : subject.figure(planned.stand.spare);
    const int page = book.pageOf(opening.name);
    table.rows.push_back({bold(opening.name), subject.job.walls[opening.wall].name,
                          words::unitName(opening.unit.kind, opening.unit.lights), subject.figures(planned.unit),
                          verdict, spare, why(subject, i), page > 0 ? std::to_string(page) : std::string{}});
  }
  return table;
}

double drawFacts(Painter& painter, const Subject& subject, Vec at, double width) {
  const auto row = [&](const std::string& caption, const std::string& text) {
    painter.text({at.x, at.y + kBoldLetters.capitals}, caption, kBoldLetters);
    at.y = painter.paragraph({at.x + 24, at.y}, width - 24, text) + 0.6;
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

Table contents(const Book& book, double width) {
  Table table(width, {left("sheet"), right("page", 14)});
  table.under_heading = true;
  for (const Entry& entry : book.known().entries) table.rows.push_back({entry.title, std::to_string(entry.page)});
  return table;
}

constexpr double kLeastPlan = 55;  // height under which a plan of the house tells nothing

/// The list of pages in two columns; what has no room continues on further pages. Returns the y below it.
double drawContents(Book& book, Box room) {
  const double column = (room.width() - kColumnGap) / 2;
  const Table table = contents(book, column);
  TableEnd end;
  std::string heading = "Sheets";
  while (true) {
    end.y = drawHeading(book.painter(), {room.x0, room.y0}, room.width(), heading);
    end = drawColumns(book.painter(), {room.x0, end.y}, room.y1, table, 2, end.next);
    if (end.next >= table.rows.size()) return end.y;
    room = book.begin({.drawing = "cover, list of sheets", .deeper = true});
    heading = "Sheets, continued";
  }
}

double cautionsHeight(Painter& painter, const check::Findings& findings, double width) {
  double high = 8;
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

constexpr double kGap = 5;     // between the two columns
constexpr double kRowGap = 3;  // between rows
constexpr double kIndent = 5;  // of the words beside the box to tick
constexpr std::size_t kMostRows = 3;

void drawPicture(Painter& painter, const Box& room, const Pixels& picture) {
  painter.picture(room, picture.rgb, picture.width, picture.height);
  painter.box(room, {pen::kFine});
}

/// The words under a step's picture, a paragraph each.
std::vector<std::string> wordsOf(const HandbookStep& each) {
  std::vector<std::string> words;
  if (!each.where.empty()) words.push_back(each.where);
  if (!each.step.before_going_on.empty()) words.push_back("Check: " + each.step.before_going_on);
  if (!each.step.caution.empty()) words.push_back("! " + each.step.caution);
  if (!each.step.tools.empty()) words.push_back("Tools: " + base::joined(each.step.tools, ", "));
  words.insert(words.end(), each.differs.begin(), each.differs.end());
  return words;
}

std::string titleOf(const HandbookStep& each, std::size_t number) {
  return std::to_string(number) + "  " + each.step.title;
}

/// Answers where it ends.
double drawStep(Painter& painter, const HandbookStep& each, std::size_t number, Vec at, double width) {
  const double high = width / kStepShape;
  drawPicture(painter, {at.x, at.y, at.x + width, at.y + high}, each.picture);
  double y = at.y + high + 1.5;
  drawTickBox(painter, {at.x, y - 0.3});
  y = painter.paragraph({at.x + kIndent, y}, width - kIndent, titleOf(each, number), kHeadingLetters);
  for (const auto& words : wordsOf(each)) y = painter.paragraph({at.x + kIndent, y}, width - kIndent, words);
  return y;
}

PageTitle pageTitle(const Handbook& of) {
  return {.drawing = "order of work", .wall = of.wall, .opening = of.wall.empty() ? std::string{} : of.title};
}

/// The parts, laid out and counted; what is held is told first.
void drawParts(Book& book, const Handbook& of) {
  const Box room = book.begin(pageTitle(of));
  Painter& painter = book.painter();
  double y = painter.paragraph({room.x0, room.y0}, room.width(), of.title, {.capitals = letter::kHead}) + 2;
  for (const auto& words : of.hold) y = painter.paragraph({room.x0, y}, room.width(), words, kBoldLetters) + 1;
  if (of.laid_out.width > 0) {
    const double high = room.width() / of.laid_out.width * of.laid_out.height;
    drawPicture(painter, {room.x0, y, room.x1, y + high}, of.laid_out);
    y += high + 4;
  }
  y = drawHeading(painter, {room.x0, y}, room.width(), "Parts");
  Table table(room.width(), {right("", 14), left("what is laid ready")});
  for (const CountedPart& part : of.parts) table.rows.push_back({std::to_string(part.count) + " ×", part.words});
  drawOnPages(book, table, {room.x0, y, room.x1, room.y1}, pageTitle(of));
}

/// Steps in two columns, a row as high as the higher of its two.
void drawSteps(Book& book, const Handbook& of) {
  if (of.steps.empty()) return;
  Box room = book.begin(pageTitle(of));
  const double width = (room.width() - kGap) / 2;
  for (std::size_t i = 0, rows = 0; i < of.steps.size(); i += 2, ++rows) {
    const std::size_t end = std::min(i + 2, of.steps.size());
    double high = 0;
    for (std::size_t k = i; k < end; ++k) high = std::max(high, drawStep(book.scrap(), of.steps[k], k + 1, {}, width));
    if (rows == kMostRows || room.y0 + high > room.y1) {
      room = book.begin(pageTitle(of));
      rows = 0;
    }
    for (std::size_t k = i; k < end; ++k) {
      const double x = room.x0 + static_cast<double>(k - i) * (width + kGap);
      drawStep(book.painter(), of.steps[k], k + 1, {x, room.y0}, width);
    }
    room.y0 += high + kRowGap;
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
  const auto needRoom = [&](double high, const char* drawing) {
    if (y + high <= room.y1) return;
    title.drawing = drawing;
    title.deeper = true;
    room = book.begin(title);
    y = room.y0;
  };
  needRoom(cautions, "cover, cautions");
  drawCautions(book.painter(), subject.findings, {room.x0, y}, room.width());
  y += cautions + 4;
  needRoom(25, "cover, list of sheets");
  y = drawContents(book, {room.x0, y, room.x1, room.y1}) + 4;
  if (room.y1 - y > kLeastPlan) drawHousePlan(book, {room.x0, y, room.x1, room.y1});
}

void drawHandbook(Book& book, const Handbook& of) {
  drawParts(book, of);
  drawSteps(book, of);
}

}  // namespace sillwright::sheet
