/// Inside the room: the surface that pages are drawn on: one PDF of all pages, an SVG or a PNG a page, or nothing for
/// measuring.
#pragma once

#include <cairo.h>

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sheet/paper/svg.h"
#include "sheet/sheets.h"

namespace sillwright::sheet {

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

  struct Free {
    void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  };
  std::optional<Format> format_;
  double dots_per_inch_;
  std::vector<std::string> files_;  // above the surface, which writes into a PDF's until it goes
  std::unique_ptr<cairo_surface_t, Free> surface_;
  std::unique_ptr<cairo_t, Free> cairo_;
  std::optional<SvgPage> svg_;
  int chapter_ = 0;
  int page_ = 0;
};

}  // namespace sillwright::sheet
