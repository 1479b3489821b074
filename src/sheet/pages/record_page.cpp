// The record of what was set: readings before and after, against their limits; blank where nothing was measured again.
#include <cmath>

#include "sheet/pages/readings.h"
#include "sheet/paper/marks.h"
#include "sheet/words.h"

namespace sillwright::sheet {
namespace {

/// Within its limit or not; empty where one of the two is missing.
std::string holds(const std::optional<double>& value, const std::optional<double>& limit) {
  if (!value || !limit) return {};
  return std::abs(*value) <= *limit + 1e-9 ? "within" : "over";
}

std::string shown(const std::optional<double>& value, practice::Display display) {
  return value ? figure(*value, display) : std::string{};
}

Table limitsTable(const std::vector<LimitLine>& lines, practice::Display display, double width) {
  Table table(width, {{"judged"},
                      {"no.", 17},
                      {"before", 15, Align::Right},
                      {"limit", 13, Align::Right},
                      {"", 14},
                      {"after", 17, Align::Right},
                      {"limit", 13, Align::Right},
                      {"", 14}});
  table.least_row = 6.0;
  table.under_heading = true;
  const auto limitWord = [&](bool judged, const std::optional<double>& limit) {
    if (!judged) return std::string{"–"};
    return limit ? figure(*limit, display) : std::string{"none"};
  };
  for (const LimitLine& line : lines) {
    Cell after = bold(shown(line.after, display));
    after.blank = line.judged_after && !line.after;
    table.rows.push_back({line.name, line.readings, shown(line.before, display),
                          limitWord(line.judged_before, line.limit_before), holds(line.before, line.limit_before),
                          after, limitWord(line.judged_after, line.limit_after),
                          bold(holds(line.after, line.limit_after))});
  }
  return table;
}

Table readingsRecord(const job::Opening& opening, const plan::OpeningPlan& planned, practice::Display display,
                     double width) {
  Table table(width, {{"", 9},
                      {"measurement"},
                      {"opening, planned", 30, Align::Right},
                      {"opening, measured", 28, Align::Right},
                      {"unit, re-checked", 28, Align::Right}});
  table.least_row = 5.2;
  const auto lines = readingsOf(opening, planned);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto show = [&](const std::optional<double>& value) { return shown(lines[i], value, display); };
    const bool again = i >= 6 && i <= 10;
    Cell after = bold(again ? show(lines[i].after) : "–");
    after.blank = again && !lines[i].after;
    table.rows.push_back(
        {std::to_string(i + 1), lines[i].name, show(lines[i].planned), written(show(lines[i].read)), after});
  }
  return table;
}

double drawYesNo(Painter& painter, Vec at, const std::string& question, const std::optional<bool>& answer) {
  painter.text({at.x, at.y + letter::kSmall}, question, {});
  double x = at.x + 40;
  for (const bool yes : {true, false}) {
    drawTickBox(painter, {x, at.y - 0.4}, 3.2);
    if (answer && *answer == yes) {
      painter.line({x + 0.5, at.y + 1.2}, {x + 1.4, at.y + 2.3}, {pen::kHeavy});
      painter.line({x + 1.4, at.y + 2.3}, {x + 3.4, at.y - 1.0}, {pen::kHeavy});
    }
    painter.text({x + 4.5, at.y + letter::kSmall}, yes ? "yes" : "no", {});
    x += 16;
  }
  return at.y + 6;
}

void drawSignatures(Painter& painter, Vec at, double width, const std::string& date) {
  const double part = (width - 10) / 3;
  const std::array<std::string, 3> captions{"measured by", "date", "seen by"};
  for (std::size_t i = 0; i < captions.size(); ++i) {
    const double x = at.x + static_cast<double>(i) * (part + 5);
    painter.line({x, at.y + 9}, {x + part, at.y + 9}, {pen::kFine});
    painter.text({x, at.y + 13}, captions[i], {});
    if (i == 1 && !date.empty()) painter.text({x + 1, at.y + 8}, date, kHeadingLetters);
  }
}

}  // namespace

void drawRecord(Book& book, std::size_t index) {
  const Subject& subject = book.subject;
  const auto& opening = subject.job.openings[index];
  const auto& planned = subject.plan.openings[index];
  const auto display = subject.practice.display;
  const PageTitle title{.kind = PageKind::Record,
                        .subject = index,
                        .drawing = "installation record",
                        .wall = subject.job.walls[opening.wall].name,
                        .opening = opening.name,
                        .read = readingsDate(opening)};
  const Box room = book.begin(title);
  Painter& painter = book.painter();
  const Lettering head{.capitals = letter::kTitle, .weight = Weight::Bold};
  painter.text({room.x0, room.y0 + head.capitals},
               painter.fitted(opening.name, room.width() - 88, head) + ": installation record", head);
  double y = room.y0 + head.capitals + 4;
  y = painter.paragraph({room.x0, y}, room.width(),
                        words::unitName(planned.unit.kind, planned.unit.lights) + " " + figures(planned.unit, display) +
                            " in the " + subject.practice.words.opening + " " + figures(opening, display) + ", wall " +
                            title.wall + ". Opening " + readBy(opening) + ".") +
      2;
  y = drawTable(painter, {room.x0, y}, room.y1, readingsRecord(opening, planned, display, room.width())).y + 5;
  y = drawHeading(painter, {room.x0, y}, room.width(), "Against the limits of the rule set");
  const auto limits = limitsOf(opening, planned, subject.practice);
  y = drawTable(painter, {room.x0, y}, room.y1, limitsTable(limits, display, room.width())).y + 1.5;
  std::string sources = "Limits: ";
  for (const LimitLine& line : limits) {
    if (!line.source.empty() && sources.find(line.source) == std::string::npos) {
      sources += (sources.size() > 8 ? "; " : "") + line.source;
    }
  }
  y = painter.paragraph(
          {room.x0, y}, room.width(),
          sources.size() > 8 ? sources + ". none: the rule set has no limit." : "The rule set has no limits.") +
      4;
  const job::Installed set = opening.installed.value_or(job::Installed{});
  y = drawYesNo(painter, {room.x0, y}, "opens and shuts freely", set.opens);
  y = drawYesNo(painter, {room.x0, y}, "locks", set.locks);
  const double foot = room.y1 - 18;
  drawRemarks(painter, {room.x0, y + 2, room.x1, foot - 4});
  const std::string date = set.date ? dateWords(*set.date) : std::string{};
  drawSignatures(painter, {room.x0, foot}, room.width(), date);
}

}  // namespace sillwright::sheet
