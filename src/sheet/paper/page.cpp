#include "sheet/paper/page.h"

#include <array>
#include <cstdio>

namespace sillwright::sheet {
namespace {

constexpr Vec kSizes[] = {{210, 297}, {215.9, 279.4}};  // mm, as PaperSize (ISO 216; ANSI/ASME Y14.1)
constexpr double kBinding = 15;                         // left, to be punched
constexpr double kMargin = 8;                           // on the other sides
constexpr double kBlock = 13;                           // height of the title block
constexpr double kJobRow = 4;                           // of the row over it, where the job says whose it is
constexpr double kInset = 3;                            // from the frame to the drawing's room

std::string entryTitle(const PageTitle& title) {
  if (!title.opening.empty()) return title.opening + ": " + title.drawing;
  return title.wall.empty() ? title.drawing : "Wall " + title.wall + ": " + title.drawing;
}

}  // namespace

Book::Book(Paper& paper, Typesetter& typesetter, const Subject& of, Contents known, PaperSize size,
           const Progress& progress)
    : subject(of),
      size_(size),
      paper_(paper),
      typesetter_(typesetter),
      scrap_pen_(scrap_.next(kSizes[0].x, kSizes[0].y, {}, false), typesetter, scrap_log_),
      job_words_(jobWords(of.job)),
      known_(std::move(known)),
      painter_(scrap_pen_),  // until the first page there is no other
      progress_(progress) {}

void Book::endPage() {
  if (logs_.empty() || logs_.back()->missing.empty()) return;
  const Box& frame = logs_.back()->frame;
  std::string words = "No typeface on this machine has the letters that are drawn as boxes:";
  for (const char32_t letter : logs_.back()->missing) {
    std::array<char, 16> number{};
    std::snprintf(number.data(), number.size(), " U+%04X", static_cast<unsigned>(letter));
    words += number.data();
  }
  const Vec at{frame.x0 + kInset, blockTop(frame) - 0.8};  // it lies in the inset, which no drawing reaches
  painter_.text(at, painter_.fitted(words, frame.width() - 2 * kInset));
}

double Book::blockTop(const Box& frame) const { return frame.y1 - kBlock - (job_words_.empty() ? 0 : kJobRow); }

Box Book::begin(const PageTitle& title) {
  endPage();  // only now is it known which letters were missing on it
  if (progress_ && !progress_(logs_.size(), known_.pages)) throw LeftOff{};
  const Vec upright = kSizes[static_cast<std::size_t>(size_)];
  const double width = title.landscape ? upright.y : upright.x;
  const double height = title.landscape ? upright.x : upright.y;
  auto& log = *logs_.emplace_back(std::make_unique<PageLog>());  // its painter keeps the address
  log.title = entryTitle(title);
  log.width = width;
  log.height = height;
  log.frame = {kBinding, kMargin, width - kMargin, height - kMargin};
  const int page = static_cast<int>(logs_.size());
  if (!title.deeper) entries_.push_back({log.title, page, title.opening});
  cairo_t* cairo = paper_.next(width, height, log.title, title.deeper);
  painter_ = Painter(cairo, typesetter_, log, paper_.svg());
  const Group group = painter_.group("title");
  painter_.box(log.frame, {pen::kHeavy});
  drawTitleBlock(log.frame, title);
  return Box{log.frame.x0, log.frame.y0, log.frame.x1, blockTop(log.frame)}.grown(-kInset);
}

void Book::drawTitleBlock(const Box& frame, const PageTitle& title) {
  Painter& painter = painter_;
  const double top = frame.y1 - kBlock;
  const std::size_t pages = std::max(logs_.size(), known_.pages);  // while they are counted: those so far
  const std::string where = title.opening.empty() ? title.wall : title.wall + " · " + title.opening;
  struct Field {
    double share;  // of the frame's width
    std::string caption, value;
  };
  const std::array<Field, 6> cells{
      {{0.28, "job", subject.job.title},
       {0.17, title.opening.empty() ? "wall" : "wall · opening", where.empty() ? "all" : where},
       {0.19, "drawing", title.drawing},
       {0.13, subject.inches() ? "scale · in" : "scale · mm", title.scale.empty() ? "none" : title.scale},
       {0.13, "measured", title.read.empty() ? "–" : title.read},
       {0.10, "page", std::to_string(logs_.size()) + " of " + std::to_string(pages)}}};
  painter.line({frame.x0, top}, {frame.x1, top}, {pen::kBold});
  double x = frame.x0;
  const Lettering caption{.ink = grey(0.3)};
  if (!job_words_.empty()) {
    painter.line({frame.x0, top - kJobRow}, {frame.x1, top - kJobRow}, {pen::kFine});
    painter.text({x + 1.5, top - 1}, painter.fitted(job_words_, frame.width() - 3));
  }
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const double width = cells[i].share * frame.width();
    if (i > 0) painter.line({x, top}, {x, frame.y1}, {pen::kFine});
    const double room = width - 3;  // 1.5 mm off each side
    painter.text({x + 1.5, top + 1.2 + caption.capitals}, painter.fitted(cells[i].caption, room, caption), caption);
    auto lines = painter.wrap(cells[i].value, room, kBoldLetters);
    double y = top + 5.2 + kBoldLetters.capitals;
    if (lines.size() == 1) y += 1.6;  // in the middle of the room for two
    for (std::size_t k = 0; k < std::min<std::size_t>(lines.size(), 2); ++k, y += 3.7) {
      const bool cut = k == 1 && lines.size() > 2;  // two lines have room
      painter.text({x + 1.5, y}, cut ? painter.fitted(lines[k] + "…", room, kBoldLetters) : lines[k], kBoldLetters);
    }
    x += width;
  }
}

int Book::pageOf(const std::string& opening) const {
  const auto found = std::ranges::find(known_.entries, opening, &Entry::opening);
  return found == known_.entries.end() ? 0 : found->page;  // the first counting run knows none
}

std::vector<PageLog> Book::takeLogs() {
  endPage();
  std::vector<PageLog> logs;
  for (auto& log : logs_) logs.push_back(std::move(*log));
  logs_.clear();
  return logs;
}

Box drawOnPages(Book& book, Table table, Box room, PageTitle title, const std::string& heading) {
  title.deeper = true;  // pages that follow aren't in the list of pages
  TableEnd end = drawTable(book.painter(), {room.x0, room.y0}, room.y1, table);
  table.under_heading = !heading.empty();  // on the pages that follow; the first one's is its caller's
  while (end.next < table.rows.size()) {   // it ends: a name of 100 wide letters has room on a page
    room = book.begin(title);
    if (!heading.empty()) room.y0 = drawHeading(book.painter(), {room.x0, room.y0}, room.width(), heading);
    end = drawTable(book.painter(), {room.x0, room.y0}, room.y1, table, end.next);
  }
  room.y0 = end.y;
  return room;
}

Scale scaleFor(double width, double height, double room_width, double room_height, bool in_inches) {
  // Those on scale rules and round ones between them, so that a drawing fills its room. Common practice, no source.
  static constexpr std::array<int, 15> kMetric{5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 125, 200, 250, 500, 1000};
  static constexpr std::array<int, 9> kInches{8, 12, 16, 24, 32, 48, 64, 96, 192};
  static constexpr std::array<const char*, 9> kOfAFoot{"1 1/2", "1", "3/4", "1/2", "3/8", "1/4", "3/16", "1/8", "1/16"};
  const double least = std::max(width / room_width, height / room_height);  // mm of the thing a mm of paper, at least
  const auto pick = [&](const auto& ratios) {
    const auto found = std::find_if(ratios.begin(), ratios.end(), [&](int ratio) { return ratio >= least; });
    return std::min<std::size_t>(static_cast<std::size_t>(found - ratios.begin()), ratios.size() - 1);
  };
  if (!in_inches) {
    const int ratio = kMetric[pick(kMetric)];
    return {1.0 / ratio, "1:" + std::to_string(ratio)};
  }
  const std::size_t at = pick(kInches);
  return {1.0 / kInches[at],
          "1:" + std::to_string(kInches[at]) + " " + keptTogether("(" + std::string(kOfAFoot[at]) + "\" = 1')")};
}

}  // namespace sillwright::sheet
