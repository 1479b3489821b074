#include "sheet/sheets.h"

#include "sheet/paper/page.h"

namespace sillwright::sheet {

namespace {

void drawRecords(Book& book, const Wanted& wanted) {
  const auto& openings = book.subject.job.openings;
  for (std::size_t i = 0; i < openings.size(); ++i) {
    if (wanted.opening && *wanted.opening != i) continue;
    if (openings[i].installed || wanted.blank_records) drawRecord(book, i);  // else there is nothing to record
  }
}

void drawPages(Book& book, const Wanted& wanted) {
  const Subject& subject = book.subject;
  if (wanted.handbook != nullptr) return drawHandbook(book, *wanted.handbook);  // the book has pages of its own only
  if (wanted.wall) return drawWall(book, *wanted.wall);
  if (wanted.opening) {
    drawOpening(book, *wanted.opening);
    return drawRecords(book, wanted);
  }
  drawCover(book);
  drawFloorPlans(book);
  for (std::size_t wall = 0; wall < subject.job.walls.size(); ++wall) {
    drawWall(book, wall);
    for (const std::int32_t opening : subject.plan.walls[wall].openings) {
      drawOpening(book, static_cast<std::size_t>(opening));
    }
  }
  drawMeasureSheet(book);
  drawRecords(book, wanted);
}

std::string titleOf(const Subject& subject, const Wanted& wanted) {  // of the PDF
  std::string title = subject.job.title;
  if (wanted.opening) title += ": " + subject.job.openings[*wanted.opening].name;
  if (wanted.wall) title += ": wall " + subject.job.walls[*wanted.wall].name;
  return title;
}

/// Draws all pages once. `contents` is what the previous run found out, and afterwards what this one did.
std::vector<PageLog> run(Paper& paper, Typesetter& typesetter, const Subject& subject, const Wanted& wanted,
                         Contents& contents, const Progress& progress) {
  Book book(paper, typesetter, subject, contents, wanted.paper, progress);
  drawPages(book, wanted);
  contents = book.contents();
  return book.takeLogs();
}

/// The page of each sheet and their number. The list of pages is itself on the cover, so that its length is known only
/// after it was drawn with all its entries: hence two runs.
Contents contentsOf(Typesetter& typesetter, const Subject& subject, const Wanted& wanted, const Progress& progress) {
  const Progress counting = [&](std::size_t, std::size_t) { return !progress || progress(0, 0); };
  Contents contents;
  for (int i = 0; i < 2; ++i) {
    Paper nothing(std::nullopt, {}, kDotsPerInch);
    run(nothing, typesetter, subject, wanted, contents, counting);
  }
  contents.final = true;
  return contents;
}

}  // namespace

std::vector<std::string> draw(const Subject& subject, const Wanted& wanted, Format format, double dots_per_inch,
                              const Progress& progress) {
  Typesetter typesetter;
  try {
    Contents contents = contentsOf(typesetter, subject, wanted, progress);
    Paper paper(format, titleOf(subject, wanted), dots_per_inch);
    run(paper, typesetter, subject, wanted, contents, progress);
    return paper.finish();
  } catch (const LeftOff&) {
    return {};  // the person cancelled, and wants no file
  }
}

std::vector<PageLog> layOut(const Subject& subject, const Wanted& wanted) {
  Typesetter typesetter;
  Contents contents = contentsOf(typesetter, subject, wanted, {});
  Paper nothing(std::nullopt, {}, kDotsPerInch);
  return run(nothing, typesetter, subject, wanted, contents, {});
}

std::string readBy(const job::Opening& opening) {
  if (!opening.measured) return "not measured";
  if (!opening.measured->by) return "measured by tape";
  if (const auto* tool = std::get_if<job::Instrument>(&*opening.measured->by)) {
    return *tool == job::Instrument::Tape ? "measured by tape" : "measured by laser";
  }
  return "measured, own standard errors";  // the job describes the tool itself
}

std::string readingsDate(const job::Opening& opening) {
  if (!opening.installed || !opening.installed->date) return readBy(opening);
  return "set " + dateWords(*opening.installed->date);
}

std::string windWords(const job::Job& job, const practice::Practice& practice) {
  if (!job.wind) return "not given: wind is not judged";
  const auto* name = std::get_if<std::string>(&*job.wind);
  if (name == nullptr) return words::number(std::get<job::StatedPressure>(*job.wind).kpa, 2) + " kPa, given";
  std::string said = "class " + *name;
  const auto& wind = practice.strength.wind;
  const auto* found = wind.find(*name);
  if (found == nullptr) return said;  // the practice doesn't know the class, so only its name is told
  if (found->ultimate_speed) said += ", gust " + words::number(found->ultimate_speed->value, 1) + " m/s";
  const auto kpa = practice::pressures(wind, *found, false);
  if (kpa.ultimate) said += ", " + words::number(*kpa.ultimate, 2) + " kPa on a unit (ultimate)";
  if (kpa.water) said += ", water test " + words::number(*kpa.water, 2) + " kPa";
  return said;
}

}  // namespace sillwright::sheet
