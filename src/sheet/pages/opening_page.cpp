// An opening's sheet. Front: the opening as built, the unit in it, its packers and screws, readings and findings. Back:
// sections, what is cut of flashing and membrane.
#include <algorithm>
#include <cmath>

#include "base/words.h"
#include "plan/panes.h"
#include "sheet/drawing/elevation.h"
#include "sheet/drawing/section.h"
#include "sheet/pages/readings.h"
#include "sheet/paper/dimension.h"

namespace sillwright::sheet {
namespace {

constexpr double kHeader = 14;       // mm, with the line under it
constexpr double kGap = 5;           // between two columns
constexpr double kLeftColumn = 100;  // that of the readings
constexpr double kSectionHigh = 56;  // mm, with heading and captions
constexpr double kIndent = 5;        // of a finding's words beside its sign

/// A finding or a caution, of a list that goes on where there is room.
struct Item {
  std::optional<check::Severity> severity;  // empty: a caution
  std::string text;
};

/// Stops and attentions with their cautions first, then notes. Never empty.
std::vector<Item> itemsOf(const std::vector<check::Finding>& findings) {
  std::vector<Item> items;
  for (const auto& finding : findings) {
    if (finding.severity == check::Severity::Note) continue;
    items.push_back({finding.severity, finding.say + (finding.remedy.empty() ? "" : " → " + finding.remedy)});
    if (!finding.caution.empty()) items.push_back({std::nullopt, finding.caution});
  }
  if (items.empty()) items.push_back({check::Severity::Note, "Nothing against setting it."});
  for (const auto& finding : findings) {
    if (finding.severity == check::Severity::Note) items.push_back({finding.severity, finding.say});
  }
  return items;
}

struct Sheet {
  Book& book;
  const Subject& subject;
  std::size_t index;
  const job::Opening& opening;
  const plan::OpeningPlan& planned;
  std::span<const Item> items;  // those not yet drawn

  [[nodiscard]] std::string figure(double mm) const { return subject.figure(mm); }
};

/// Draws items as many as fit. Returns the y below them.
double drawItems(Sheet& sheet, const Box& room) {
  Painter& painter = sheet.book.painter();
  double y = room.y0;
  for (; !sheet.items.empty(); sheet.items = sheet.items.subspan(1)) {
    const auto& [severity, text] = sheet.items.front();
    if (y + painter.heightOf(text, room.width() - kIndent) > room.y1) break;  // an item isn't broken over two places
    if (severity) {
      drawSeverity(painter, {room.x0, y + 1.2}, 2.8, *severity);
    } else {
      painter.text({room.x0 + 1, y + kBoldLetters.capitals}, "!", kBoldLetters);
    }
    y = painter.paragraph({room.x0 + kIndent, y}, room.width() - kIndent, text) + 0.8;
  }
  return y;
}

/// The same under a heading; nothing if not even the first fits.
double drawItemsUnder(Sheet& sheet, const std::string& heading, const Box& room) {
  constexpr double kHeading = 5.3;  // mm: what drawHeading takes, and a little
  if (sheet.items.empty()) return room.y0;
  const double first = sheet.book.painter().heightOf(sheet.items.front().text, room.width() - kIndent);
  if (room.y0 + kHeading + first > room.y1) return room.y0;
  const double y = drawHeading(sheet.book.painter(), {room.x0, room.y0}, room.width(), heading);
  return drawItems(sheet, {room.x0, y, room.x1, room.y1});
}

/// Size and place of the opening.
std::string whereWords(const Sheet& sheet, bool shortly) {
  return sheet.subject.practice.words.opening + " " + sheet.subject.figures(sheet.opening) +
         (sheet.opening.sill > 0 ? ", sill " + sheet.figure(sheet.opening.sill) : ", on the floor") + ", left edge " +
         sheet.figure(sheet.opening.left) + (shortly ? "" : " from the wall's left end");
}

void drawHeader(const Sheet& sheet, const Box& room) {
  Painter& painter = sheet.book.painter();
  const std::string kind = words::unitName(sheet.planned.unit.kind, sheet.planned.unit.lights) + " " +
                           sheet.subject.figures(sheet.planned.unit);
  const std::string where = whereWords(sheet, false);
  Lettering strong{.capitals = letter::kBody, .weight = Weight::Bold};
  Lettering name{.capitals = letter::kTitle, .weight = Weight::Bold};
  const double second = room.y0 + name.capitals;
  const auto& findings = sheet.subject.findings;
  const auto basis = findings.bases[sheet.index];
  const Lettering large{.capitals = letter::kLarge, .weight = Weight::Bold, .align = Align::Right};
  const std::string verdict = check::wordsFor(findings.verdicts[sheet.index]);
  const Box word = painter.text({room.x1, room.y0 + large.capitals}, verdict + ", " + check::wordsFor(basis), large);
  const Vec sign{word.x0 - 5.8, room.y0 + large.capitals / 2};
  drawVerdict(painter, sign, 4.2, findings, sheet.index);
  const double to_spare = sheet.planned.stand.spare;
  const std::string clearance =  // none where the measurements contradict each other
      basis == check::Basis::Disputed
          ? std::string{}
          : (to_spare < 0 ? "does not fit by " : "clearance to spare ") + sheet.figure(std::abs(to_spare));
  // As far as the two lines go beside those.
  const double second_end = painter.text({room.x1, second}, clearance, {.align = Align::Right}).x0 - 3;
  const double first_end = sign.x - 3;
  if (room.x0 + painter.widthOf(sheet.opening.name, name) + 4 + painter.widthOf(where) <= second_end) {
    const double x = painter.text({room.x0, second}, sheet.opening.name, name).x1 + 4;
    painter.text({x, room.y0 + strong.capitals + 0.4}, painter.fitted(kind, first_end - x, strong), strong);
    painter.text({x, second}, where);
  } else {
    // A long name gets the first line to itself.
    name.capitals = letter::kLarge;
    painter.text({room.x0, room.y0 + name.capitals}, painter.fitted(sheet.opening.name, first_end - room.x0, name),
                 name);
    const double x = painter.text({room.x0, second + 0.6}, kind, kBoldLetters).x1 + 3;
    painter.text({x, second + 0.6}, painter.fitted(whereWords(sheet, true), second_end - x));
  }
  painter.line({room.x0, room.y0 + kHeader - 4}, {room.x1, room.y0 + kHeader - 4}, {pen::kBold});
}

Table unitFacts(const Sheet& sheet, double width) {
  const auto& unit = sheet.planned.unit;
  const auto& mass = sheet.planned.mass;
  const auto& words = sheet.subject.practice.words;
  const auto display = sheet.subject.display();
  Table table(width, {left("unit", 17), left("")});
  table.least_row = 4.0;
  const auto add = [&](const char* what, const std::string& value) {  // a row without a value would say nothing
    if (!value.empty()) table.rows.push_back({what, value});
  };
  add("to lift", words::mass(mass.total_kg, display) + (mass.stated ? "" : ", calculated from sizes") +
                     (mass.people ? ": " + plan::liftedBy(mass) : ""));
  const plan::UnitParts parts = plan::partsOf(unit);
  add("lights", plan::lightsWords(unit));
  std::vector<std::string> ways;
  for (const plan::LightParts& light : parts.light) {
    const std::string way = plan::opensWords(parts, light);
    if (!way.empty() && std::ranges::count(ways, way) == 0) ways.push_back(way);
  }
  if (!ways.empty()) add("opens", base::joined(ways, "; ") + ", seen from outside");
  add("clear", plan::clearWords(parts, display));
  if (!mass.leaf_kg.empty()) add("leaves", plan::leavesWords(mass, display));
  add("glass", plan::glassWords(unit.glass, display));
  if (unit.coupled > 0) {
    add("parts",
        plan::partsWords(unit, display) + ", made apart and coupled on site: " + plan::partsLifted(mass, display));
  }
  if (!unit.glass_of.empty()) add("glass by light", plan::glassByLight(unit, display));
  add("reveal", unit.reveal ? words.reveal + " " + sheet.figure(unit.reveal->thickness) + ", " +
                                  sheet.figure(unit.reveal->depth) + " deep"
                            : "none: bare frame");
  add("stands", sheet.figure(sheet.planned.stand.x) + " from the left stud's foot, " +
                    sheet.figure(sheet.planned.stand.z) + " over the sill's left end");
  add("wind", sheet.planned.wind.how);
  return table;
}

Table gapsTable(const Sheet& sheet, double width) {
  const auto& gaps = sheet.planned.stand.gaps;
  const auto& least = sheet.planned.stand.least;
  Table table(width, {left("gap"), right("foot, left", 17), right("head, right", 19), right("least", 14)});
  table.least_row = 4.0;
  for (const plan::Side side : plan::kEverySide) {
    const auto& [first, last] = plan::bySide(gaps, side);
    table.rows.push_back({toWord(side) + std::string(plan::isLevel(side) ? "" : " jamb"), sheet.figure(first),
                          sheet.figure(last), sheet.figure(plan::bySide(least, side))});
  }
  return table;
}

/// The distances to a peak. All four are asked for: with three a wrong one shows, with four it shows which.
void addPeakRows(Table& table, const job::Opening& opening, practice::Display display) {
  if (!opening.head || !opening.head->peaked()) return;
  constexpr std::array<const char*, 4> kNames{"bottom left to peak", "bottom right to peak", "top right to peak",
                                              "top left to peak"};
  const plan::OpeningShape planned = plan::plannedShape(plan::headLineOf(opening));
  for (std::size_t i = 0; i < kNames.size(); ++i) {
    const double length = std::hypot(planned.peak->x - planned.corner[i].x, planned.peak->z - planned.corner[i].z);
    const auto read = opening.measured ? opening.measured->between[i] : std::nullopt;  // from each corner to the peak
    table.rows.push_back({std::to_string(table.rows.size() + 1), kNames[i], figure(length, display),
                          bold(read ? figure(*read, display) : "–"), std::string{}, written({})});
  }
}

/// The readings with room to write each again.
Table readingsTable(const job::Opening& opening, const plan::OpeningPlan& planned, practice::Display display,
                    double width) {
  Table table(width, {left("", 6), left("measurement"), right("planned", 14), right("measured", 17),
                      right("off by", 12.5), left("again", 12.5)});
  table.under_heading = true;
  const auto lines = readingsOf(opening, planned);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const ReadingLine& line = lines[i];
    Cell off_by{line.off ? signedFigure(*line.off, display) : std::string{}};
    if (line.suspect) off_by.text += off_by.text.empty() ? "?" : " ?";
    off_by.bold = line.suspect;
    table.rows.push_back({std::to_string(i + 1), line.name, shown(line, line.planned, display),
                          bold(line.read ? shown(line, line.read, display) : "–"), off_by, written({})});
  }
  addPeakRows(table, opening, display);
  return table;
}

/// Draws readings with room to write them again, facts of the unit, and the first findings.
void drawLower(Sheet& sheet, const Box& room) {
  Painter& painter = sheet.book.painter();
  const auto& opening = sheet.opening;
  double y = drawHeading(painter, {room.x0, room.y0}, kLeftColumn, "Opening, " + readBy(opening));
  const Table readings = readingsTable(opening, sheet.planned, sheet.subject.display(), kLeftColumn);
  y = drawTable(painter, {room.x0, y}, room.y1, readings).y + 1.2;
  y = painter.paragraph({room.x0, y}, kLeftColumn,
                        opening.measured
                            ? "off by: from what all the measurements together give; ?: measure it again."
                            : "Not measured: all sizes here are as planned. Measure before the unit is lifted.");

  const double x = room.x0 + kLeftColumn + kGap;
  double right = drawTable(painter, {x, room.y0}, room.y1, unitFacts(sheet, room.x1 - x)).y + 2;
  right = drawTable(painter, {x, right}, room.y1, gapsTable(sheet, room.x1 - x)).y + 3;
  const std::size_t all = sheet.items.size();  // tells below whether any had room here
  drawItemsUnder(sheet, "Findings", {x, right, room.x1, room.y1});
  // Remaining findings go under the readings.
  drawItemsUnder(sheet, sheet.items.size() == all ? "Findings" : "Findings, continued",
                 {room.x0, y + 1.5, room.x0 + kLeftColumn, room.y1});
}

/// What the drawing shows: measurements that disagree make no opening, and the planned one is drawn.
std::string drawnWords(const check::Findings& findings, std::size_t index) {
  const bool measured = findings.bases[index] == check::Basis::Measured;
  const std::string drawn = measured ? "As built" : "As planned";
  return findings.verdicts[index] == check::Verdict::Stop ? "HOLD. " + drawn : drawn;
}

// The back.

std::string noteOf(const plan::Piece& piece, const Subject& subject) {
  std::vector<std::string> notes;
  if (piece.folds.size() == 3) {  // it is a head flashing
    notes.push_back("folds " + subject.figure(piece.folds[0]) + " up, " + subject.figure(piece.folds[1]) + " out, " +
                    subject.figure(piece.folds[2]) + " down, fall " + words::number(piece.fall_degrees, 0) + "°");
  }
  if (piece.stop_end > 0) notes.push_back("stop ends " + subject.figure(piece.stop_end));
  if (piece.fitted) notes.push_back("came on the unit: check it");
  if (piece.too_wide) notes.push_back("no roll is as wide: two strips");
  return base::joined(notes, "; ");
}

/// "left jamb flashing" and "right jamb flashing" are cut alike, so the side is left out.
std::string plainName(const std::string& name) {
  for (const std::string word : {"lower left ", "lower right ", "upper left ", "upper right ", "left ", "right "}) {
    if (name.starts_with(word)) return name.substr(word.size());
  }
  return name;
}

/// Flashings and tapes to cut, those alike on one line.
Table piecesTable(const plan::Weather& weather, const Subject& subject, double width) {
  struct Line {
    std::string name;
    const plan::Piece& piece;
    int count = 1;
  };
  std::vector<Line> lines;
  for (const auto& piece : weather.pieces) {
    // Folds are flaps of the membrane itself: the drawing of its cut shows them.
    if (piece.kind == plan::PieceKind::MembraneFold) continue;
    const std::string name = plainName(piece.name);
    const auto same = std::ranges::find_if(lines, [&](const Line& other) {
      return other.name == name && std::abs(other.piece.length - piece.length) < 0.5 &&
             std::abs(other.piece.width - piece.width) < 0.5;
    });
    if (same == lines.end()) {
      lines.push_back({name, piece});
    } else {
      ++same->count;
    }
  }
  Table table(width, {right("", 8), left("piece to cut"), right("width", 17), right("length", 17), left("note", 84)});
  table.least_row = 4.2;
  for (const auto& [name, piece, count] : lines) {
    table.rows.push_back({std::to_string(count) + " ×", name, subject.figure(piece.width),
                          bold(subject.figure(piece.length)), noteOf(piece, subject)});
  }
  return table;
}

std::string weatherWords(const plan::Weather& weather, const Subject& subject) {
  std::string said = weather.head.why;
  if (!weather.bare_corners.empty()) {
    said += " Bare timber is left at the corners (" + base::joined(weather.bare_corners) +
            "): the rule set requires no tape there.";
  }
  if (weather.laps.empty()) return said;
  const auto lapWords = [&](const plan::Lap& lap) {
    return lap.upper + " over " + lap.lower + " " + subject.figure(lap.lap);
  };
  return said + " Laps: " + base::joined(weather.laps, "; ", lapWords) +
         ". In the sections membrane, flashings and fin are drawn apart to show which lies over which; frames are "
         "outlines.";
}

/// The membrane's cut with its coordinates from the opening's lower left corner.
void drawMembraneCut(const Sheet& sheet, const Box& room) {
  const plan::MembraneCut& cut = sheet.planned.weather.cut;
  const job::Opening& opening = sheet.opening;
  if (cut.cuts.empty()) return;
  Painter& painter = sheet.book.painter();
  const std::string what = "Cut of the " + sheet.subject.practice.words.membrane;
  const std::string kept = cut.head_flap_kept ? ", head flap kept up" : "";
  const double width = room.width() - 14;  // beside its scale
  const double y = room.y0 + kHeadingLetters.capitals;
  const bool one_line = painter.widthOf(what + kept, kHeadingLetters) < width;
  painter.text({room.x0, y}, one_line ? what + kept : painter.fitted(what, width, kHeadingLetters), kHeadingLetters);
  if (!one_line && !kept.empty()) painter.text({room.x0, y + 4}, kept.substr(2));
  constexpr double kAside = 14, kRight = 22, kBelow = 15, kTop = 8;  // mm of paper round it, for figures and heading
  const Scale scale = scaleFor(opening.width, opening.height, room.width() - kAside - kRight,
                               room.height() - kBelow - kTop, sheet.subject.inches());
  painter.text({room.x1, y}, "1:" + std::to_string(std::lround(1 / scale.per_mm)), {.align = Align::Right});
  const double wide = opening.width * scale.per_mm;
  const double high = opening.height * scale.per_mm;
  const double left = room.x0 + kAside + (room.width() - kAside - kRight - wide) / 2;
  const View view{scale.per_mm, {left, room.y0 + kTop + high}};
  // The planned outline is dashed, with the cuts over it; their ends are counted from its lower left corner.
  const auto outline = view.at(plan::headLineOf(opening).under({0, 0, opening.width, opening.height}));
  painter.path(outline, {pen::kFine, Dash::Dashed}, true);
  std::vector<double> xs{0, opening.width}, zs{0, opening.height};
  for (const auto& [from, to] : cut.cuts) {
    painter.line(view.at(from.x, from.z), view.at(to.x, to.z), {pen::kBold});
    xs.insert(xs.end(), {from.x, to.x});
    zs.insert(zs.end(), {from.z, to.z});
  }
  const auto drawPlaces = [&](Running running, std::vector<double>& places) {
    std::ranges::sort(places);
    for (double before = 0; const double place : places) {  // nought itself has no mark
      if (place - before >= 0.5) running.marks.push_back({place, sheet.figure(place)});
      before = place;
    }
    drawRunning(painter, running);
  };
  drawPlaces({.level = view.origin.y + 2.5, .view = view, .low = left - 4, .high = left + wide + 4}, xs);
  drawPlaces({.along = Along::Y,
              .level = left + wide + 2.5,
              .view = view,
              .low = view.origin.y - high - 4,
              .high = view.origin.y + 4},
             zs);
  const Lettering inside{.align = Align::Centre};
  const double across = (opening.width - 2 * cut.flap) * scale.per_mm - 2;  // between the flaps, 1 mm off each
  const double up = (opening.height - 2 * cut.flap) * scale.per_mm - 2;
  if (painter.widthOf("cut out", inside) < across && inside.capitals * kLeading < up) {
    Vec middle{0, inside.capitals / 2};
    for (const Vec& corner : outline) middle += corner / static_cast<double>(outline.size());
    painter.text(middle, "cut out", inside);
  }
}

/// Sections two beside each other, on more pages where there is no room. Returns the y below them.
double drawSections(Sheet& sheet, std::span<const CutAt> cuts, const PageTitle& title, const Box& room,
                    const Scale& scale) {
  const double half = (room.width() - kGap) / 2;
  double y = room.y0;
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    if (i % 2 == 0 && y + kSectionHigh > room.y1) y = sheet.book.begin(title).y0;  // a row of two stays together
    const double x = i % 2 == 0 ? room.x0 : room.x0 + half + kGap;
    drawSection(sheet.book, sheet.index, cuts[i], {x, y, x + half, y + kSectionHigh}, scale);
    if (i % 2 == 1 || i + 1 == cuts.size()) y += kSectionHigh + 3;  // the row is full, or the last
  }
  return y;
}

/// What room is left takes the findings that had none on the front.
void drawBack(Sheet& sheet, PageTitle title) {
  constexpr std::size_t kFirst = 3;  // head, jamb and sill, beside the membrane's cut
  const Scale scale = sectionScale(sheet.book, sheet.index);
  title.drawing = "sections and weathering, back";
  title.scale = scale.name;
  const Box room = sheet.book.begin(title);
  Painter& painter = sheet.book.painter();
  const auto& weather = sheet.planned.weather;
  const std::vector<CutAt> cuts = sectionsOf(sheet.subject, sheet.index);
  double y = drawSections(sheet, std::span(cuts).first(kFirst), title, room, scale);
  drawMembraneCut(sheet, {room.middle().x + kGap / 2, y - kSectionHigh - 3, room.x1, y - 3});  // at its right
  const Table pieces = piecesTable(weather, sheet.subject, room.width());
  y = drawTable(painter, {room.x0, y + 1.5}, room.y1, pieces).y + 1.2;
  y = painter.paragraph({room.x0, y}, room.width(), weatherWords(weather, sheet.subject)) + 2;
  y = painter.paragraph({room.x0, y}, room.width(), "The order of work, step by step to tick: the handbook.") + 2;
  y = drawSections(sheet, std::span(cuts).subspan(kFirst), title, {room.x0, y, room.x1, room.y1}, scale);
  const double end = drawItemsUnder(sheet, "Findings, continued", {room.x0, y, room.x1, room.y1});
  drawRemarks(painter, {room.x0, end > y ? end + 3 : end, room.x1, room.y1});
}

}  // namespace

void drawOpening(Book& book, std::size_t index) {
  const Subject& subject = book.subject;
  const std::vector<Item> items = itemsOf(subject.findings.openings[index]);
  Sheet sheet{book, subject, index, subject.job.openings[index], subject.plan.openings[index], items};
  constexpr double kRoomWidth = 181, kMostElevation = 132;  // mm of A4; the title needs the scale beforehand
  const Scale scale = asBuiltScale(subject, index, {0, 0, kRoomWidth, kMostElevation});
  PageTitle title{.drawing = "set-out and packing, front",
                  .wall = subject.job.walls[sheet.opening.wall].name,
                  .opening = sheet.opening.name,
                  .scale = scale.name,
                  .read = readingsDate(sheet.opening)};
  const Box room = book.begin(title);
  drawHeader(sheet, room);
  Painter& painter = book.painter();
  const double top = room.y0 + kHeader - 2.5;
  const double end = drawAsBuilt(book, index, {room.x0, top, room.x1, top + kMostElevation}, scale);
  drawScaleBar(painter, {room.x1 - 48, top + 3.6}, scale, subject.display());
  painter.text({room.x0, top + 2.6}, drawnWords(subject.findings, index) + ", seen from outside, fin and cladding off");
  drawLower(sheet, {room.x0, end + 1, room.x1, room.y1});

  title.deeper = true;
  drawBack(sheet, title);
  title.drawing = "findings, continued";
  title.scale.clear();
  while (!sheet.items.empty()) {  // what neither side had room for
    const Box rest = book.begin(title);
    const double y = drawHeading(painter, {rest.x0, rest.y0}, rest.width(), "Findings of " + title.opening);
    const std::size_t before = sheet.items.size();
    const double low = drawItems(sheet, {rest.x0, y, rest.x1, rest.y1});
    if (sheet.items.size() == before) break;  // one that is longer than a page
    drawRemarks(painter, {rest.x0, low + 4, rest.x1, rest.y1});
  }
}

}  // namespace sillwright::sheet
