/// Inside the room: the surface that pages are drawn on: one PDF of all pages, an SVG or a PNG a page, or nothing for
/// measuring.
#pragma once

#include <cairo.h>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sheet/paper/painter.h"
#include "sheet/sheets.h"

namespace sillwright::sheet {

// A page as SVG. Lines are paths in millimetres, text is text, and what belongs together is a group.

class SvgPage {
 public:
  SvgPage(double width, double height, const std::string& title);

  /// The context's path, in the axes that it is drawn in.
  void stroke(cairo_t* cairo, const Stroke& how, const std::vector<double>& dashes);
  void fill(cairo_t* cairo, const Ink& ink);
  /// A line of text that begins at `start` and takes `width`, whatever typefaces the reader has.
  void text(Vec start, double width, const std::string& words, const Lettering& how);

  /// The whole page; nothing is drawn on it afterwards.
  [[nodiscard]] std::string finish();

  /// Names of the groups that what is drawn next stands in, the outermost first. Outside all of them are notes.
  std::vector<std::string> groups;

 private:
  void add(const std::string& element);
  void regroup(const std::vector<std::string>& wanted);

  std::string page_;
  std::vector<std::string> open_;
  std::map<std::string, int> taken_;  ///< How often each id was wanted: they are unique on a page.
};

class Paper {
 public:
  /// `title` is the PDF's; `dots_per_inch` the PNG's. Without a format nothing is kept.
  Paper(std::optional<Format> format, const std::string& title, double dots_per_inch);
  Paper(const Paper&) = delete;
  Paper& operator=(const Paper&) = delete;

  /// Ends the current page and begins one of this size, mm. The returned context draws in mm and is valid until the
  /// next page. `bookmark` is the page's entry in the PDF's outline; `deeper` puts it under the previous entry.
  cairo_t* next(double width, double height, const std::string& bookmark, bool deeper);
  /// The page as SVG, which is drawn on in the context's place; null in other formats.
  [[nodiscard]] SvgPage* svg() { return svg_ ? &*svg_ : nullptr; }

  /// Ends the last page and returns the files: one for PDF, else one a page. Throws std::runtime_error if the drawing
  /// failed.
  [[nodiscard]] std::vector<std::string> finish();

 private:
  void endPage();
  void endSurface();

  std::optional<Format> format_;
  double dots_per_inch_;
  std::vector<std::string> files_;  // above the surface, which writes into a PDF's until it goes
  std::unique_ptr<cairo_surface_t, Release<cairo_surface_destroy>> surface_;
  std::unique_ptr<cairo_t, Release<cairo_destroy>> cairo_;
  std::optional<SvgPage> svg_;
  int chapter_ = 0;
  int page_ = 0;
};

}  // namespace sillwright::sheet
