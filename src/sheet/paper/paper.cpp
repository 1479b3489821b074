#include "sheet/paper/paper.h"

#include <cairo-pdf.h>
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/words.h"
#include "words/text.h"

namespace sillwright::sheet {

namespace {

constexpr double kPoint = 72.0 / 25.4;  // points a millimetre
/// The date of every PDF, so that the same job gives the same bytes.
constexpr const char* kNoDate = "2000-01-01T00:00:00Z";

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {  // `closure` is the file
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void require(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) {
    throw std::runtime_error(std::string("the sheet could not be drawn: ") + cairo_status_to_string(status));
  }
}

std::string number(double value) { return words::number(value, 3); }  // finer than any printer draws

std::string colour(const Ink& ink) {  // in per cent: finer than 255ths
  const auto part = [](double share) { return number(100 * share) + "%"; };
  return "rgb(" + part(ink.red) + "," + part(ink.green) + "," + part(ink.blue) + ")";
}

std::string escaped(const std::string& words) {
  std::string out;  // XML allows '>' as it is; attributes stand in double quotes
  for (const char c : words) out += c == '&' ? "&amp;" : c == '<' ? "&lt;" : c == '"' ? "&quot;" : std::string(1, c);
  return out;
}

std::string attribute(const char* name, const std::string& value) {
  return std::string(" ") + name + "=\"" + escaped(value) + "\"";
}

std::string path(cairo_t* cairo) {  // in millimetres: cairo answers in the axes that it is drawn in
  const std::unique_ptr<cairo_path_t, void (*)(cairo_path_t*)> path{cairo_copy_path(cairo), cairo_path_destroy};
  std::string steps;
  for (int i = 0; i < path->num_data; i += path->data[i].header.length) {  // a step has a header, then its points
    const cairo_path_data_t* step = &path->data[i];
    steps += "MLCZ"[step->header.type];  // in cairo's order: move, line, curve, close
    for (int k = 1; k < step->header.length; ++k)
      steps += (k > 1 ? " " : "") + number(step[k].point.x) + " " + number(step[k].point.y);
  }
  return "<path" + attribute("d", steps);
}

}  // namespace

Paper::Paper(std::optional<Format> format, const std::string& title, double dots_per_inch)
    : format_(format), dots_per_inch_(dots_per_inch) {
  if (format_ != Format::Pdf) return;  // other formats begin a file with each page
  cairo_surface_t* pdf =
      cairo_pdf_surface_create_for_stream(append, &files_.emplace_back(), 1, 1);  // each page sets its size
  cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, title.c_str());
  cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATOR, "sillwright");
  cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATE_DATE, kNoDate);
  cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_MOD_DATE, kNoDate);
  surface_.reset(pdf);  // it writes into files_[0], which stays where it is: a PDF is one file
}

void Paper::endSurface() {
  cairo_surface_finish(surface_.get());
  require(cairo_surface_status(surface_.get()));
  surface_.reset();
}

void Paper::endPage() {
  if (!cairo_) return;
  require(cairo_status(cairo_.get()));                        // cairo keeps the first error of a page
  if (format_ == Format::Pdf) cairo_show_page(cairo_.get());  // in other formats each page has a surface
  if (svg_) files_.push_back(svg_->finish());
  if (format_ == Format::Png)
    require(cairo_surface_write_to_png_stream(surface_.get(), append, &files_.emplace_back()));
  cairo_.reset();  // it holds on to its surface: it goes first
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
    scale = dots_per_inch_ / 25.4;  // dots a mm
    surface_.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(width * scale)),
                                              static_cast<int>(std::lround(height * scale))));
  } else {
    // Cairo skips early what lies outside a surface; a path that is kept alone is fine enough for micrometres.
    surface_.reset(cairo_image_surface_create(CAIRO_FORMAT_A8, 0, 0));
    if (svg_) scale = 64;  // cairo keeps places to 1/256 of a dot
  }
  cairo_.reset(cairo_create(surface_.get()));
  cairo_scale(cairo_.get(), scale, scale);
  if (format_ == Format::Png) {
    cairo_set_source_rgb(cairo_.get(), 1, 1, 1);  // a new picture is black
    cairo_paint(cairo_.get());
  }
  if (format_ == Format::Pdf) {
    const std::string target = "page=" + std::to_string(++page_);               // pages count from 1
    const int under = deeper && page_ > 1 ? chapter_ : CAIRO_PDF_OUTLINE_ROOT;  // the first page is under none
    const int made = cairo_pdf_surface_add_outline(surface_.get(), under, bookmark.c_str(), target.c_str(),
                                                   CAIRO_PDF_OUTLINE_FLAG_OPEN);
    if (!deeper) chapter_ = made;
  }
  return cairo_.get();
}

std::vector<std::string> Paper::finish() {
  endPage();
  if (format_ == Format::Pdf) endSurface();  // only now are its bytes whole
  return std::move(files_);
}

SvgPage::SvgPage(double width, double height, const std::string& title) {
  page_ = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"" +
          attribute("width", number(width) + "mm") + attribute("height", number(height) + "mm") +
          attribute("viewBox", "0 0 " + number(width) + " " + number(height)) +
          attribute("font-family", std::string(kTypefaces) + ", sans-serif") +
          " xml:space=\"preserve\" style=\"white-space:pre;font-feature-settings:'calt' 0\">\n<title>" +
          escaped(title) + "</title>\n";
}

void SvgPage::regroup(const std::vector<std::string>& wanted) {
  const auto same = std::mismatch(open_.begin(), open_.end(), wanted.begin(), wanted.end()).first;  // these stay open
  for (auto left = open_.end() - same; left > 0; --left) page_ += "</g>\n", open_.pop_back();
  while (open_.size() < wanted.size()) {
    open_.push_back(wanted[open_.size()]);
    std::string id = base::joined(open_, "-");
    std::replace(id.begin(), id.end(), ' ', '-');  // an id has no spaces
    const int count = ++taken_[id];
    page_ += "<g" + attribute("id", count > 1 ? id + "-" + std::to_string(count) : id) +
             attribute("class", open_.back()) + ">\n";
  }
}

void SvgPage::add(const std::string& element) {
  regroup(groups.empty() ? std::vector<std::string>{"notes"} : groups);
  page_ += element + "\n";
}

void SvgPage::stroke(cairo_t* cairo, const Stroke& how, const std::vector<double>& dashes) {
  add(path(cairo) + " fill=\"none\"" + attribute("stroke", colour(how.ink)) +
      attribute("stroke-width", number(how.width)) +
      (dashes.empty() ? "" : attribute("stroke-dasharray", base::joined(dashes, " ", number))) + "/>");
}

void SvgPage::fill(cairo_t* cairo, const Ink& ink) { add(path(cairo) + attribute("fill", colour(ink)) + "/>"); }

void SvgPage::text(Vec start, double width, const std::string& words, const Lettering& how) {
  const std::string x = number(start.x), y = number(start.y);
  add("<text" + attribute("x", x) + attribute("y", y) +
      (how.upright ? attribute("transform", "rotate(-90 " + x + " " + y + ")") : "") +
      attribute("font-size", number(how.capitals / kCapitals)) +
      (how.weight == Weight::Bold ? " font-weight=\"600\"" : "") + attribute("textLength", number(width)) +
      " lengthAdjust=\"spacingAndGlyphs\"" + attribute("fill", colour(how.ink)) + ">" + escaped(words) + "</text>");
}

std::string SvgPage::finish() {
  regroup({});  // all groups are closed
  return std::move(page_) + "</svg>\n";
}

}  // namespace sillwright::sheet
