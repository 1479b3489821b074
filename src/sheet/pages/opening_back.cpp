#include "sheet/pages/opening_back.h"

#include <algorithm>
#include <cmath>

#include "base/words.h"
#include "plan/work/order_of_work.h"
#include "sheet/drawing/section.h"
#include "sheet/paper/dimension.h"
#include "sheet/paper/marks.h"
#include "sheet/words.h"
#include "words/length.h"

namespace sillwright::sheet {
namespace {

constexpr double kGap = 5;
constexpr double kSectionHigh = 56;

struct StepText {
  std::string title;
  std::vector<std::string> lines;  // paragraphs under it
};

/// Checks and cautions always; how a thing is done where there is room for it.
std::vector<StepText> stepTexts(const std::vector<plan::Step>& steps, bool with_how) {
  std::vector<StepText> texts;
  for (const auto& step : steps) {
    StepText text{std::to_string(texts.size() + 1) + "  " + step.title, {}};
    if (with_how) text.lines.push_back(step.what);
    if (!step.before_going_on.empty()) {
      text.lines.push_back((with_how ? "Check: " : "") + step.before_going_on);
    }
    if (!step.caution.empty()) text.lines.push_back("! " + step.caution);
    texts.push_back(std::move(text));
  }
  return texts;
}

constexpr double kIndent = 5;
constexpr double kStepGap = 0.8;

double heightOf(Painter& painter, const StepText& step, double width) {
  double high = painter.heightOf(step.title, width - kIndent, kBoldLetters);
  for (const auto& line : step.lines) high += painter.heightOf(line, width - kIndent);
  return high + kStepGap;
}

/// Number of steps from `from` on in the first column, and in both columns.
struct Columns {
  std::size_t first = 0;
  std::size_t both = 0;
};

/// If all remaining steps fit, both columns end as near to each other as possible; else each is as full as possible.
Columns columnsOf(Painter& painter, const std::vector<StepText>& steps, std::size_t from, double width, double high) {
  std::vector<double> heights;
  double all = 0;
  for (std::size_t i = from; i < steps.size(); ++i) {
    heights.push_back(heightOf(painter, steps[i], width));
    all += heights.back();
  }
  double left = 0;
  std::size_t split = 0;
  while (split < heights.size() && left + heights[split] / 2 < all / 2) left += heights[split++];
  if (std::max(left, all - left) <= high) return {split, heights.size()};
  Columns columns;
  for (left = 0; columns.first < heights.size() && left + heights[columns.first] <= high; ++columns.first) {
    left += heights[columns.first];
  }
  columns.both = columns.first;
  for (left = 0; columns.both < heights.size() && left + heights[columns.both] <= high; ++columns.both) {
    left += heights[columns.both];
  }
  return columns;
}

void drawStep(Painter& painter, const StepText& step, double x, double& y, double width) {
  drawTickBox(painter, {x, y - 0.4}, 3.0);
  y = painter.paragraph({x + kIndent, y}, width - kIndent, step.title, kBoldLetters);
  for (const auto& line : step.lines) y = painter.paragraph({x + kIndent, y}, width - kIndent, line);
  y += kStepGap;
}

/// Draws the steps from `from` on. Returns the y below them.
double drawColumns(Painter& painter, const std::vector<StepText>& steps, std::size_t from, const Columns& columns,
                   const Box& room) {
  const double width = (room.width() - kGap) / 2;
  double left = room.y0;
  double right = room.y0;
  for (std::size_t i = 0; i < columns.both; ++i) {
    if (i < columns.first) {
      drawStep(painter, steps[from + i], room.x0, left, width);
    } else {
      drawStep(painter, steps[from + i], room.x0 + width + kGap, right, width);
    }
  }
  return std::max(left, right);
}

/// Draws the steps if all of them fit; else returns false.
bool drawStepsHere(Painter& painter, const std::vector<plan::Step>& steps, const Box& room) {
  constexpr double kHeading = 5.2;
  for (const bool with_how : {true, false}) {
    const auto texts = stepTexts(steps, with_how);
    const Columns columns = columnsOf(painter, texts, 0, (room.width() - kGap) / 2, room.height() - kHeading);
    if (columns.both < texts.size()) continue;
    const double top =
        drawHeading(painter, {room.x0, room.y0}, room.width(), "Steps, each ticked when its check holds");
    drawColumns(painter, texts, 0, columns, {room.x0, top, room.x1, room.y1});
    return true;
  }
  return false;
}

/// Draws the steps with all their words on pages of their own. Returns the room left on the last page.
Box drawStepPages(Book& book, const std::vector<plan::Step>& steps, const PageTitle& title) {
  PageTitle page = title;
  page.drawing = "steps";
  page.scale.clear();
  const auto texts = stepTexts(steps, true);
  Box room{};
  for (std::size_t next = 0; next < texts.size();) {
    room = book.begin(page);
    const std::string heading =
        title.opening + ": " + (next == 0 ? "steps, each ticked when its check holds" : "steps, continued");
    const std::string shown = book.painter().fitted(heading, room.width(), kHeadingLetters);
    room.y0 = drawHeading(book.painter(), {room.x0, room.y0}, room.width(), shown);
    const Columns columns = columnsOf(book.painter(), texts, next, (room.width() - kGap) / 2, room.height());
    room.y0 = drawColumns(book.painter(), texts, next, columns, room);
    if (columns.both == 0) break;  // one that is longer than a column
    next += columns.both;
  }
  return room;
}

/// Draws the findings that had no room before. Returns the y below them.
double drawRest(Painter& painter, const std::vector<Item>& items, std::size_t& next, const Box& room) {
  const double end = drawItemsUnder(painter, "Findings, continued", items, next, room);
  return end > room.y0 ? end + 3 : end;
}

std::string noteOf(const plan::Piece& piece, const practice::Practice& practice) {
  const auto display = practice.display;
  std::string note;
  const auto add = [&](const std::string& words) { note += (note.empty() ? "" : "; ") + words; };
  if (piece.folds.size() == 3) {
    add("folds " + figure(piece.folds[0], display) + " up, " + figure(piece.folds[1], display) + " out, " +
        figure(piece.folds[2], display) + " down, fall " + words::number(piece.fall_degrees, 0) + "°");
  }
  if (piece.stop_end > 0) add("stop ends " + figure(piece.stop_end, display));
  if (piece.fitted) add("came on the unit: check it");
  if (piece.too_wide) add("no roll is as wide: two strips");
  return note;
}

/// "left jamb flashing" and "right jamb flashing" are cut alike, so the side is left out.
std::string plainName(std::string name) {
  for (const std::string word : {"lower left ", "lower right ", "upper left ", "upper right ", "left ", "right "}) {
    if (name.starts_with(word)) return name.substr(word.size());
  }
  return name;
}

struct PieceLine {
  std::string name;
  const plan::Piece* piece;
  int count = 1;
};

std::string weatherWords(const plan::Weather& weather, const practice::Practice& practice) {
  std::string said = weather.head.why;
  if (!weather.bare_corners.empty()) {
    said += " Bare timber is left at the corners (" + base::joined(weather.bare_corners) +
            "): the rule set requires no tape there.";
  }
  if (weather.laps.empty()) return said;
  const auto lapWords = [&](const plan::Lap& lap) {
    return lap.upper + " over " + lap.lower + " " + figure(lap.lap, practice.display);
  };
  return said + " Laps: " + base::joined(weather.laps, "; ", lapWords) +
         ". In the sections membrane, flashings and fin are drawn apart to show which lies over which; frames are "
         "outlines.";
}

}  // namespace

Table piecesTable(const plan::Weather& weather, const practice::Practice& practice, double width) {
  Table table(width, {{"", 8, Align::Right},
                      {"piece to cut"},
                      {"width", 17, Align::Right},
                      {"length", 17, Align::Right},
                      {"note", 84}});
  table.least_row = 4.2;
  std::vector<PieceLine> lines;
  for (const auto& piece : weather.pieces) {
    // Folds are flaps of the membrane itself: the drawing of its cut shows them.
    if (piece.kind == plan::PieceKind::MembraneFold) continue;
    PieceLine line{plainName(piece.name), &piece};
    const auto same = std::find_if(lines.begin(), lines.end(), [&](const PieceLine& other) {
      return other.name == line.name && std::abs(other.piece->length - piece.length) < 0.5 &&
             std::abs(other.piece->width - piece.width) < 0.5;
    });
    if (same == lines.end()) {
      lines.push_back(line);
    } else {
      ++same->count;
    }
  }
  for (const auto& line : lines) {
    table.rows.push_back({std::to_string(line.count) + " ×", line.name, figure(line.piece->width, practice.display),
                          bold(figure(line.piece->length, practice.display)), noteOf(*line.piece, practice)});
  }
  return table;
}

void drawMembraneCut(Painter& painter, const plan::Weather& weather, const job::Opening& opening,
                     const practice::Practice& practice, const Box& room) {
  if (weather.cut.cuts.empty()) return;
  const std::string what = "Cut of the " + practice.words.membrane;
  const std::string kept = weather.cut.head_flap_kept ? "head flap kept up" : "";
  const bool one_line = painter.widthOf(what + ", " + kept, kHeadingLetters) < room.width() - 14;
  painter.text(
      {room.x0, room.y0 + kHeadingLetters.capitals},
      painter.fitted(one_line && !kept.empty() ? what + ", " + kept : what, room.width() - 14, kHeadingLetters),
      kHeadingLetters);
  if (!one_line) painter.text({room.x0, room.y0 + kHeadingLetters.capitals + 4}, kept);
  constexpr double kAside = 14, kBelow = 15, kTop = 8;
  const bool inches = practice.display == practice::Display::InchFractions;
  const Scale scale =
      scaleFor(opening.width, opening.height, room.width() - kAside - 22, room.height() - kBelow - kTop, inches);
  const Lettering small{.align = Align::Right};
  painter.text({room.x1, room.y0 + kHeadingLetters.capitals}, "1:" + std::to_string(std::lround(1 / scale.per_mm)),
               small);
  const double wide = opening.width * scale.per_mm;
  const double high = opening.height * scale.per_mm;
  const double left = room.x0 + kAside + (room.width() - kAside - 22 - wide) / 2;
  const View view{scale.per_mm, {left, room.y0 + kTop + high}};
  painter.box({left, room.y0 + kTop, left + wide, room.y0 + kTop + high}, {pen::kFine, Dash::Dashed});
  std::vector<double> xs{0, opening.width}, zs{0, opening.height};
  for (const auto& [from, to] : weather.cut.cuts) {
    painter.line(view.at(from.x, from.z), view.at(to.x, to.z), {pen::kBold});
    for (const auto& point : {from, to}) {
      xs.push_back(point.x);
      zs.push_back(point.z);
    }
  }
  const auto tidy = [](std::vector<double>& values) {
    std::sort(values.begin(), values.end());
    values.erase(std::unique(values.begin(), values.end(), [](double a, double b) { return std::abs(a - b) < 0.5; }),
                 values.end());
  };
  tidy(xs);
  tidy(zs);
  Running across{.along = Along::X,
                 .level = view.origin.y + 2.5,
                 .per_mm = scale.per_mm,
                 .origin = left,
                 .low = left - 4,
                 .high = left + wide + 4};
  for (const double x : xs) {
    if (x > 0.5) across.marks.push_back({view.at(x, 0).x, figure(x, practice.display), x});
  }
  drawRunning(painter, across);
  Running up{.along = Along::Y,
             .level = left + wide + 2.5,
             .away = 1,
             .per_mm = scale.per_mm,
             .origin = view.origin.y,
             .low = view.origin.y - high - 4,
             .high = view.origin.y + 4};
  for (auto z = zs.rbegin(); z != zs.rend(); ++z) {
    if (*z > 0.5) up.marks.push_back({view.at(0, *z).y, figure(*z, practice.display), *z});
  }
  drawRunning(painter, up);
  const Lettering inside{.align = Align::Centre};
  const double across_inside = (opening.width - 2 * weather.cut.flap) * scale.per_mm - 2;
  const double up_inside = (opening.height - 2 * weather.cut.flap) * scale.per_mm - 2;
  if (painter.widthOf("cut out", inside) < across_inside && inside.capitals * kLeading < up_inside) {
    painter.text({left + wide / 2, view.origin.y - high / 2 + inside.capitals / 2}, "cut out", inside);
  }
}

void drawBack(Book& book, std::size_t index, const PageTitle& title, const std::vector<Item>& items,
              std::size_t& next) {
  const Subject& subject = book.subject;
  const auto& planned = subject.plan.openings[index];
  const auto& opening = subject.job.openings[index];
  const Box room = book.begin(title);
  Painter& painter = book.painter();
  const double half = (room.width() - kGap) / 2;
  const double second = room.x0 + half + kGap;
  double y = room.y0;
  const Scale scale = sectionScale(book, index);
  drawSection(book, index, Detail::Head, {room.x0, y, room.x0 + half, y + kSectionHigh}, scale);
  drawSection(book, index, Detail::Jamb, {second, y, room.x1, y + kSectionHigh}, scale);
  y += kSectionHigh + 3;
  drawSection(book, index, Detail::Sill, {room.x0, y, room.x0 + half, y + kSectionHigh}, scale);
  drawMembraneCut(painter, planned.weather, opening, subject.practice, {second, y, room.x1, y + kSectionHigh});
  y += kSectionHigh + 4.5;
  const Table pieces = piecesTable(planned.weather, subject.practice, room.width());
  y = drawTable(painter, {room.x0, y}, room.y1, pieces).y + 1.2;
  y = painter.paragraph({room.x0, y}, room.width(), weatherWords(planned.weather, subject.practice)) + 2;
  const auto steps = plan::orderOfWork(subject.job, subject.plan, index, subject.practice);
  // Findings that are left over need a further page anyhow, so the steps go there too.
  if (next == items.size() && drawStepsHere(painter, steps, {room.x0, y, room.x1, room.y1})) return;
  y = painter.paragraph({room.x0, y}, room.width(), "Steps: on the next page.") + 2;
  y = drawRest(painter, items, next, {room.x0, y, room.x1, room.y1});
  drawRemarks(painter, {room.x0, y, room.x1, room.y1});
  const Box left = drawStepPages(book, steps, title);
  drawRest(book.painter(), items, next, {left.x0, left.y0 + 3, left.x1, left.y1});
}

}  // namespace sillwright::sheet
