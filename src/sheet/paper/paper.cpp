#include "sheet/paper/paper.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <cmath>
#include <map>
#include <stdexcept>
#include <string_view>

namespace sillwright::sheet {
namespace {

constexpr double kPoint = 72.0 / 25.4;  // points a millimetre
/// The date of every PDF, so that the same job gives the same bytes.
constexpr const char* kNoDate = "2000-01-01T00:00:00Z";

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

/// Cairo numbers surfaces through the whole process and writes that number into an SVG. Here they are numbered from 1
/// in each file, so that the same page gives the same bytes. An SVG holds text as outlines, so no words are changed.
std::string withOwnNumbers(const std::string& svg) {
  static constexpr std::string_view kWord = "surface";
  std::map<std::string, std::size_t> own;
  std::string out;
  std::size_t at = 0;
  for (auto found = svg.find(kWord); found != std::string::npos; found = svg.find(kWord, at)) {
    std::size_t end = found + kWord.size();
    out.append(svg, at, end - at);
    const std::size_t digits = end;
    while (end < svg.size() && svg[end] >= '0' && svg[end] <= '9') ++end;
    const std::string number = svg.substr(digits, end - digits);
    if (!number.empty()) out += std::to_string(own.emplace(number, own.size() + 1).first->second);
    at = end;
  }
  out.append(svg, at, std::string::npos);
  return out;
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
  if (format_ == Format::Png) require(cairo_surface_write_to_png_stream(surface_, append, files_.back().get()));
  cairo_surface_finish(surface_);
  require(cairo_surface_status(surface_));
  cairo_surface_destroy(surface_);
  surface_ = nullptr;
}

cairo_t* Paper::next(double width, double height, const std::string& bookmark, bool deeper) {
  endPage();
  double scale = 1;
  if (!format_) {
    surface_ = cairo_image_surface_create(CAIRO_FORMAT_A8, 0, 0);  // cairo skips early what lies outside a surface
  } else if (*format_ == Format::Pdf) {
    cairo_pdf_surface_set_size(surface_, width * kPoint, height * kPoint);
    scale = kPoint;
  } else if (*format_ == Format::Svg) {
    files_.push_back(std::make_unique<std::string>());
    surface_ = cairo_svg_surface_create_for_stream(append, files_.back().get(), width, height);
    cairo_svg_surface_set_document_unit(surface_, CAIRO_SVG_UNIT_MM);
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
  for (auto& file : files_) {
    files.push_back(format_ == Format::Svg ? withOwnNumbers(*file) : std::move(*file));
  }
  return files;
}

}  // namespace sillwright::sheet
