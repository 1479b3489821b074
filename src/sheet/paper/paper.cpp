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
  cairo_surface_t* pdf = cairo_pdf_surface_create_for_stream(append, &files_.emplace_back(), 1, 1);
  cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATOR, "sillwright");
  cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, kNoDate);
  cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_MOD_DATE, kNoDate);
  surface_.reset(pdf);
}

void Paper::endSurface() {
  cairo_surface_finish(surface_.get());
  require(cairo_surface_status(surface_.get()));
  surface_.reset();
}

void Paper::endPage() {
  if (!cairo_) return;
  require(cairo_status(cairo_.get()));
  if (format_ == Format::Pdf) cairo_show_page(cairo_.get());
  if (svg_) files_.push_back(svg_->finish());
  if (format_ == Format::Png)
    require(cairo_surface_write_to_png_stream(surface_.get(), append, &files_.emplace_back()));
  cairo_.reset();
  if (format_ != Format::Pdf) endSurface();
}

cairo_t* Paper::next(double width, double height, const std::string& bookmark, bool deeper) {
  endPage();
  double scale = 1;
  if (format_ == Format::Svg) svg_.emplace(width, height, bookmark);
  if (format_ == Format::Pdf) {
    cairo_pdf_surface_set_size(surface_.get(), width * kPoint, height * kPoint);
    scale = kPoint;
  } else if (format_ == Format::Png) {
    scale = dots_per_inch_ / 25.4;
    surface_.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(width * scale)),
                                              static_cast<int>(std::lround(height * scale))));
  } else {
    // Cairo skips early what lies outside a surface; a path that is kept alone is fine enough for micrometres.
    surface_.reset(cairo_image_surface_create(CAIRO_FORMAT_A8, 0, 0));
    if (svg_) scale = 64;
  }
  cairo_.reset(cairo_create(surface_.get()));
  cairo_scale(cairo_.get(), scale, scale);
  if (format_ == Format::Png) {
    cairo_set_source_rgb(cairo_.get(), 1, 1, 1);
    cairo_paint(cairo_.get());
  }
  if (format_ == Format::Pdf) {
    const std::string target = "page=" + std::to_string(++page_);
    const int under = deeper && page_ > 1 ? chapter_ : CAIRO_PDF_OUTLINE_ROOT;
    const int made = cairo_pdf_surface_add_outline(surface_.get(), under, bookmark.c_str(), target.c_str(),
                                                   CAIRO_PDF_OUTLINE_FLAG_OPEN);
    if (!deeper) chapter_ = made;
  }
  return cairo_.get();
}

std::vector<std::string> Paper::finish() {
  endPage();
  if (format_ == Format::Pdf) endSurface();
  return std::move(files_);
}

}  // namespace sillwright::sheet
