/// Inside the room: a page's frame and title block, and the book that pages are put into.
#pragma once

#include <string>
#include <vector>

#include "sheet/paper/painter.h"
#include "sheet/paper/paper.h"
#include "sheet/paper/table.h"
#include "sheet/sheets.h"

namespace sillwright::sheet {

/// The contents of a page's title block. Its drawing is named after its opening or its wall in the list of pages.
struct PageTitle {
  std::string drawing{};  ///< "elevation from outside".
  std::string wall{};
  std::string opening{};
  std::string scale{};  ///< "1:20"; empty: not to scale.
  std::string read{};   ///< When or how it was read.
  bool landscape = false;
  bool deeper = false;  ///< In the PDF's outline under the page before, and not in the list of pages.
};

/// A line of the list of pages.
struct Entry {
  std::string title;
  int page = 0;
  std::string opening{};  ///< Whose sheet it is.
};

struct Contents {
  std::vector<Entry> entries;
  std::size_t pages = 0;
  bool final = false;  ///< Nothing is still to be found out.
};

/// Thrown to cancel the drawing.
struct LeftOff {};

/// The pages of one run of drawing. A first run, which keeps nothing, finds out what later ones need to know
/// beforehand: the number of pages, and the page of each opening.
class Book {
 public:
  /// Where `progress` returns false, `begin` throws LeftOff, since a page function has no other short way out.
  Book(Paper& paper, Typesetter& typesetter, const Subject& subject, Contents known, PaperSize size,
       const Progress& progress);

  /// Begins a page, draws its frame and title block. Returns the room that is left for the drawing.
  Box begin(const PageTitle& title);

  /// The pen on the current page; before the first page that on the scrap.
  [[nodiscard]] Painter& painter() { return painter_; }
  /// What is drawn on it is nowhere to be seen: it tells how much room something takes.
  [[nodiscard]] Painter& scrap() { return scrap_pen_; }
  [[nodiscard]] const Contents& known() const { return known_; }
  /// Pages are only counted: a drawing that takes the same room whatever it shows is left out.
  [[nodiscard]] bool counting() const { return !known_.final; }
  /// The first page of an opening, as the previous run found it; 0 if there is none.
  [[nodiscard]] int pageOf(const std::string& opening) const;

  [[nodiscard]] Contents contents() const { return {entries_, logs_.size()}; }
  /// Ends the last page.
  [[nodiscard]] std::vector<PageLog> takeLogs();

  const Subject& subject;

 private:
  void drawTitleBlock(const Box& frame, const PageTitle& title);
  [[nodiscard]] double blockTop(const Box& frame) const;
  /// Says on the page which letters are missing on it.
  void endPage();

  PaperSize size_;
  Paper& paper_;
  Typesetter& typesetter_;
  Paper scrap_{std::nullopt, {}, kDotsPerInch};
  PageLog scrap_log_;
  Painter scrap_pen_;
  std::string job_words_;  // whose the job is
  Contents known_;
  std::vector<Entry> entries_;
  std::vector<std::unique_ptr<PageLog>> logs_;
  Painter painter_;
  const Progress& progress_;
};

/// The largest usual scale at which width × height of the thing fits the room; the smallest one if none fits.
[[nodiscard]] Scale scaleFor(double width, double height, double room_width, double room_height, bool in_inches);

/// Draws a table in the room, and what has none under a heading, if any, on more pages of this title. Returns what room
/// is left below it.
Box drawOnPages(Book& book, Table table, Box room, PageTitle title, const std::string& heading = {});

// The pages, a kind a file.
void drawCover(Book& book);
/// A floor plan of the lowest storey with its openings named, as large as fits.
void drawHousePlan(Book& book, const Box& room);
/// A page for each storey: its floor plan, dimensioned along each wall that runs along the page's axes.
void drawFloorPlans(Book& book);
void drawWall(Book& book, std::size_t wall);
void drawOpening(Book& book, std::size_t opening);
void drawMeasureSheet(Book& book);
void drawRecord(Book& book, std::size_t opening);
void drawHandbook(Book& book, const Handbook& of);

}  // namespace sillwright::sheet
