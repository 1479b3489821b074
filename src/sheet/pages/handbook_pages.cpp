// The handbook's pages: the parts laid out, then the steps.

#include <algorithm>

#include "base/words.h"
#include "sheet/handbook.h"
#include "sheet/paper/page.h"

namespace sillwright::sheet {
namespace {

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

/// Answers where it ends.
double drawStep(Painter& painter, const HandbookStep& each, std::size_t number, Vec at, double width) {
  const double high = width / kStepShape;
  drawPicture(painter, {at.x, at.y, at.x + width, at.y + high}, each.picture);
  double y = at.y + high + 1.5;
  drawTickBox(painter, {at.x, y - 0.3});
  y = painter.paragraph({at.x + kIndent, y}, width - kIndent, std::to_string(number) + "  " + each.step.title,
                        kHeadingLetters);
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
  if (of.laid_out.width > 0) {                                                  // only a book of one opening has it
    const double high = room.width() / of.laid_out.width * of.laid_out.height;  // keeps its proportions
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
    double high = 0;  // the row is drawn out of sight first, to find it
    for (std::size_t k = i; k < end; ++k) high = std::max(high, drawStep(book.scrap(), of.steps[k], k + 1, {}, width));
    if (rows == kMostRows || room.y0 + high > room.y1) {
      room = book.begin(pageTitle(of));
      rows = 0;  // the loop counts the row that begins the page
    }
    for (std::size_t k = i; k < end; ++k) {
      const double x = room.x0 + static_cast<double>(k - i) * (width + kGap);
      drawStep(book.painter(), of.steps[k], k + 1, {x, room.y0}, width);
    }
    room.y0 += high + kRowGap;
  }
}

}  // namespace

void drawHandbook(Book& book, const Handbook& of) {
  drawParts(book, of);
  drawSteps(book, of);
}

}  // namespace sillwright::sheet
