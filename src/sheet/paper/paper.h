/// Inside the room: what pages are drawn on. One PDF of all pages, an SVG or a PNG a page, or nothing at all for
/// measuring.
#pragma once

#include <cairo.h>

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sheet/sheets.h"

namespace sillwright::sheet {

class Paper {
 public:
  /// `title` is the PDF's; `dots_per_inch` the PNG's. Without a format nothing is kept.
  Paper(std::optional<Format> format, const std::string& title, double dots_per_inch);
  Paper(const Paper&) = delete;
  Paper& operator=(const Paper&) = delete;
  ~Paper();

  /// Ends the page before and begins one of this size, mm. The answer is drawn on in mm until the next page. `bookmark`
  /// is its entry in the PDF's outline; `deeper` puts it under the one before.
  cairo_t* next(double width, double height, const std::string& bookmark, bool deeper);

  /// Ends the last page. What was drawn: one file for PDF, else one a page. Throws std::runtime_error where the drawing
  /// went wrong.
  [[nodiscard]] std::vector<std::string> finish();

 private:
  void endPage();

  std::optional<Format> format_;
  double dots_per_inch_;
  cairo_surface_t* surface_ = nullptr;
  cairo_t* cairo_ = nullptr;
  int chapter_ = 0;
  int page_ = 0;
  bool first_ = true;
  std::vector<std::unique_ptr<std::string>> files_;
};

}  // namespace sillwright::sheet
