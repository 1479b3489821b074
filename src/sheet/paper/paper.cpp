#include "sheet/paper/paper.h"

#include <cairo-pdf.h>

#include <cmath>
#include <stdexcept>

namespace sillwright::sheet {
namespace {

constexpr double kPoint = 72.0 / 25.4;  // points a millimetre
/// The date of every PDF, so that the same job gives the same bytes.
constexpr const char* kNoDate = "2000-01-01T00:00:00Z";

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void require(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error(std::string("the sheet could not be drawn: ") + cairo_status_to_string(status));
  }
}

}  // namespace

Paper::Paper(std::optional<Format> format, const std::string& title, double dots_per_inch)
    : format_(format), dots_per_inch_(dots_per_inch) {
  if (format_ != Format::Pdf) return;
  files_.push_back(std::make_unique<std::string>());
  surface_ = cairo_pdf_surface_create_for_stream(append, files_.back().get(), 1, 1);
  cairo_pdf_surface_set_metadata(surface_, CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(surface_, CAIRO_PDF_METADATA_CREATOR, "sillwright");
  cairo_pdf_surface_set_metadata(surface_, CAIRO_PDF_METADATA_CREATE_DATE, kNoDate);
  cairo_pdf_surface_set_metadata(surface_, CAIRO_PDF_METADATA_MOD_DATE, kNoDate);
}

Paper::~Paper() {
  if (cairo_ != nullptr) cairo_destroy(cairo_);
  if (surface_ != nullptr) cairo_surface_destroy(surface_);
}

void Paper::endPage() {
  if (cairo_ == nullptr) return;
  require(cairo_status(cairo_));
  if (format_ == Format::Pdf) {
    cairo_show_page(cairo_);
    cairo_destroy(cairo_);
    cairo_ = nullptr;
    return;
  }
  cairo_destroy(cairo_);
  cairo_ = nullptr;
  if (svg_) *files_.back() = svg_->finish();
  if (format_ == Format::Png) require(cairo_surface_write_to_png_stream(surface_, append, files_.back().get()));
  cairo_surface_finish(surface_);
  require(cairo_surface_status(surface_));
  cairo_surface_destroy(surface_);
  surface_ = nullptr;
}

cairo_t* Paper::next(double width, double height, const std::string& bookmark, bool deeper) {
  endPage();
  double scale = 1;
  if (format_ == Format::Svg) {
    files_.push_back(std::make_unique<std::string>());
    svg_.emplace(width, height, bookmark);
  }
  if (!format_ || svg_) {
    // Where a context keeps a path alone it is fine enough for a thousandth of a millimetre.
    if (svg_) scale = 64;
    surface_ = cairo_image_surface_create(CAIRO_FORMAT_A8, 0, 0);  // cairo skips early what lies outside a surface
  } else if (*format_ == Format::Pdf) {
    cairo_pdf_surface_set_size(surface_, width * kPoint, height * kPoint);
    scale = kPoint;
  } else {
    files_.push_back(std::make_unique<std::string>());
    scale = dots_per_inch_ / 25.4;
    surface_ = cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(width * scale)),
                                          static_cast<int>(std::lround(height * scale)));
  }
  cairo_ = cairo_create(surface_);
  cairo_scale(cairo_, scale, scale);
  if (format_ == Format::Png) {
    cairo_set_source_rgb(cairo_, 1, 1, 1);
    cairo_paint(cairo_);
  }
  if (format_ == Format::Pdf) {
    const std::string target = "page=" + std::to_string(++page_);
    const int made = cairo_pdf_surface_add_outline(surface_, deeper && !first_ ? chapter_ : CAIRO_PDF_OUTLINE_ROOT,
                                                   bookmark.c_str(), target.c_str(), CAIRO_PDF_OUTLINE_FLAG_OPEN);
    if (!deeper) chapter_ = made;
  }
  first_ = false;
  return cairo_;
}

std::vector<std::string> Paper::finish() {
  endPage();
  if (format_ == Format::Pdf) {
    cairo_surface_finish(surface_);
    require(cairo_surface_status(surface_));
  }
  std::vector<std::string> files;
  for (auto& file : files_) files.push_back(std::move(*file));
  return files;
}

}  // namespace sillwright::sheet
