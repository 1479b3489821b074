/// Inside the room: a page's frame and title block, and the book that pages are put into.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/paper/painter.h"
#include "sheet/paper/paper.h"
#include "sheet/sheets.h"

namespace sillwright::sheet {

enum class PageKind { Cover, Wall, Opening, Measure, Record };

/// What stands in a page's title block, and what it is found by.
struct PageTitle {
  PageKind kind = PageKind::Cover;
  std::size_t subject = 0;  ///< Wall or opening.
  std::string drawing{};    ///< "elevation from outside".
  std::string wall{};
  std::string opening{};
  std::string scale{};  ///< "1:20"; empty: not to scale.
  std::string read{};   ///< When or how it was read.
  bool landscape = false;
  bool deeper = false;  ///< In the PDF's outline, under the page before.
};

/// A line of the list of pages.
struct Entry {
  PageKind kind = PageKind::Cover;
  std::size_t subject = 0;
  std::string title;
  int page = 0;
};

struct Contents {
  std::vector<Entry> entries;
  std::size_t pages = 0;
};

/// The person wants no more of it.
struct LeftOff {};

/// The pages of one run of drawing. What is known of the pages to come (their number, and on which page an opening is)
/// is told by a first run that keeps nothing.
class Book {
 public:
  Book(Paper& paper, Typesetter& typesetter, const Subject& subject, Contents known);

  /// Who is told of each page that begins. Where the answer is no, `begin` throws LeftOff: from amid a page there is no
  /// other short way out.
  void tell(const Progress& progress) { progress_ = progress; }

  /// Begins a page, draws its frame and title block. Answers the room that is left for the drawing.
  Box begin(const PageTitle& title);

  /// The pen on the page begun last; before the first one it only measures.
  [[nodiscard]] Painter& painter() { return *painter_; }
  [[nodiscard]] const Contents& known() const { return known_; }
  /// First page of a kind and subject by the run before; 0: none.
  [[nodiscard]] int pageOf(PageKind kind, std::size_t subject) const;

  [[nodiscard]] Contents contents() const { return {entries_, logs_.size()}; }
  /// Ends the last page.
  [[nodiscard]] std::vector<PageLog> takeLogs();

  const Subject& subject;

 private:
  void drawTitleBlock(const Box& frame, const PageTitle& title);
  /// Says on the page which letters are missing on it.
  void endPage();

  Paper& paper_;
  Typesetter& typesetter_;
  Paper scrap_{std::nullopt, {}, kDotsPerInch};  // to measure lettering on before the first page
  PageLog scrap_log_;
  Contents known_;
  std::vector<Entry> entries_;
  std::vector<std::unique_ptr<PageLog>> logs_;
  std::optional<Painter> painter_;
  Progress progress_;
};

/// The largest of the usual scales at which width × height of the thing lies in the room. Where none does: the
/// smallest.
[[nodiscard]] Scale scaleFor(double width, double height, double room_width, double room_height, bool in_inches);

// The pages, a kind a file.
void drawCover(Book& book);
/// The walls on plan with their openings named, as large as the room lets.
void drawHousePlan(Book& book, const Box& room);
void drawWall(Book& book, std::size_t wall);
void drawOpening(Book& book, std::size_t opening);
void drawMeasureSheet(Book& book);
void drawRecord(Book& book, std::size_t opening);

}  // namespace sillwright::sheet
