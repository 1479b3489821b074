#include "sheet/sheets.h"

#include "sheet/paper/page.h"

namespace sillwright::sheet {
namespace {

void drawRecords(Book& book, const Wanted& wanted) {
  const auto& openings = book.subject.job.openings;
  for (std::size_t i = 0; i < openings.size(); ++i) {
    if (wanted.opening && *wanted.opening != i) continue;
    if (openings[i].installed || wanted.blank_records) drawRecord(book, i);
  }
}

void drawPages(Book& book, const Wanted& wanted) {
  const Subject& subject = book.subject;
  if (wanted.handbook != nullptr) {
    drawHandbook(book, *wanted.handbook);
    return;
  }
  if (wanted.wall) {
    drawWall(book, *wanted.wall);
    return;
  }
  if (wanted.opening) {
    drawOpening(book, *wanted.opening);
    drawRecords(book, wanted);
    return;
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

std::string titleOf(const Subject& subject, const Wanted& wanted) {
  std::string title = subject.job.title;
  if (wanted.opening) title += ": " + subject.job.openings[*wanted.opening].name;
  if (wanted.wall) title += ": wall " + subject.job.walls[*wanted.wall].name;
  return title;
}

/// Draws all pages once. `contents` is what the previous run found out, and afterwards what this one did.
std::vector<PageLog> run(Paper& paper, Typesetter& typesetter, const Subject& subject, const Wanted& wanted,
                         Contents& contents, const Progress& progress) {
  Book book(paper, typesetter, subject, contents, wanted.paper);
  book.tell(progress);
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
    (void)nothing.finish();
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
    return {};
  }
}

std::vector<PageLog> layOut(const Subject& subject, const Wanted& wanted) {
  Typesetter typesetter;
  Contents contents = contentsOf(typesetter, subject, wanted, {});
  Paper nothing(std::nullopt, {}, kDotsPerInch);
  auto logs = run(nothing, typesetter, subject, wanted, contents, {});
  (void)nothing.finish();
  return logs;
}

}  // namespace sillwright::sheet
