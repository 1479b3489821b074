#include "sheet/pages/opening_back.h"

#include <algorithm>
#include <cmath>

#include "base/words.h"
#include "sheet/drawing/section.h"
#include "sheet/paper/dimension.h"
#include "sheet/paper/marks.h"
#include "sheet/paper/table.h"
#include "sheet/words.h"
#include "words/length.h"

namespace sillwright::sheet {

namespace {

constexpr double kGap = 5;
constexpr double kSectionHigh = 56;

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
  std::vector<Vec> outline;
  for (const plan::Point& point : plan::headLineOf(opening).under({0, 0, opening.width, opening.height})) {
    outline.push_back(view.at(point.x, point.z));
  }
  painter.path(outline, {pen::kFine, Dash::Dashed}, true);
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
    Vec middle{0, inside.capitals / 2};
    for (const Vec& corner : outline) {
      middle = {middle.x + corner.x / static_cast<double>(outline.size()),
                middle.y + corner.y / static_cast<double>(outline.size())};
    }
    painter.text(middle, "cut out", inside);
  }
}

/// Sections through each of the unit's joints that differs, two beside each other, on more pages where there is no
/// room. Returns the y below them.
static double drawJoints(Book& book, std::size_t index, const PageTitle& title, const Box& room, const Scale& scale) {
  const std::vector<Joint> joints = jointsOf(book.subject.plan.openings[index].unit);
  const double half = (room.width() - kGap) / 2;
  double y = room.y0;
  for (std::size_t i = 0; i < joints.size(); i += 2) {
    if (y + kSectionHigh > room.y1) y = book.begin(title).y0;
    for (std::size_t k = i; k < std::min(i + 2, joints.size()); ++k) {
      const double x = k == i ? room.x0 : room.x0 + half + kGap;
      drawSection(book, index, joints[k], {x, y, x + half, y + kSectionHigh}, scale);
    }
    y += kSectionHigh + 3;
  }
  return y;
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
  y = painter.paragraph({room.x0, y}, room.width(), "The order of work, step by step to tick: the handbook.") + 2;
  y = drawJoints(book, index, title, {room.x0, y, room.x1, room.y1}, scale);
  y = drawRest(painter, items, next, {room.x0, y, room.x1, room.y1});
  drawRemarks(painter, {room.x0, y, room.x1, room.y1});
}

namespace {

constexpr double kIndent = 5;

}  // namespace

std::vector<Item> itemsOf(const Subject& subject, std::size_t opening) {
  std::vector<Item> items;
  const auto& findings = subject.findings.openings[opening];
  for (const auto& finding : findings) {
    if (finding.severity == check::Severity::Note) continue;
    std::string text = finding.say;
    if (!finding.remedy.empty()) text += " → " + finding.remedy;
    items.push_back({finding.severity, text});
    if (!finding.caution.empty()) items.push_back({std::nullopt, finding.caution});
  }
  if (items.empty()) items.push_back({check::Severity::Note, "Nothing against setting it."});
  for (const auto& finding : findings) {
    if (finding.severity == check::Severity::Note) items.push_back({finding.severity, finding.say});
  }
  return items;
}

double drawItemsUnder(Painter& painter, const std::string& heading, const std::vector<Item>& items, std::size_t& next,
                      const Box& room) {
  constexpr double kHeading = 5.3;
  if (next >= items.size()) return room.y0;
  const double first = painter.heightOf(items[next].text, room.width() - kIndent);
  if (room.y0 + kHeading + first > room.y1) return room.y0;
  const double y = drawHeading(painter, {room.x0, room.y0}, room.width(), heading);
  return drawItems(painter, items, next, {room.x0, y, room.x1, room.y1});
}

double drawItems(Painter& painter, const std::vector<Item>& items, std::size_t& next, const Box& room) {
  double y = room.y0;
  for (; next < items.size(); ++next) {
    const double high = painter.heightOf(items[next].text, room.width() - kIndent);
    if (y + high > room.y1) break;
    if (items[next].severity) {
      drawSeverity(painter, {room.x0, y + 1.2}, 2.8, *items[next].severity);
    } else {
      painter.text({room.x0 + 1, y + kBoldLetters.capitals}, "!", kBoldLetters);
    }
    y = painter.paragraph({room.x0 + kIndent, y}, room.width() - kIndent, items[next].text) + 0.8;
  }
  return y;
}

}  // namespace sillwright::sheet
