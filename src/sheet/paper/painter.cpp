#include "sheet/paper/painter.h"

#include <array>
#include <numbers>

#include "sheet/paper/marks.h"
#include "sheet/paper/paper.h"

namespace sillwright::sheet {
namespace {

/// Depth of the typeface's descenders, in heights of its capitals.
constexpr double kDescent = 0.30;
/// Margin of the white ground around text, mm.
constexpr double kClear = 0.5;

void setInk(cairo_t* cairo, const Ink& ink) { cairo_set_source_rgb(cairo, ink.red, ink.green, ink.blue); }

/// The box of a line of text whose base line begins, is centred or ends at `at`.
Box boxOf(Vec at, double width, const Lettering& how) {
  const double before = how.align == Align::Left ? 0 : how.align == Align::Centre ? width / 2 : width;
  const double below = how.capitals * kDescent;
  if (how.upright) return {at.x - how.capitals, at.y + before - width, at.x + below, at.y + before};
  return {at.x - before, at.y - how.capitals, at.x - before + width, at.y + below};
}

}  // namespace

Group Painter::group(const char* name) {
  if (svg_ == nullptr) return {};
  svg_->groups.emplace_back(name);
  return {svg_, [](SvgPage* page) { page->groups.pop_back(); }};
}

Painter::Painter(cairo_t* cairo, Typesetter& typesetter, PageLog& log, SvgPage* svg)
    : cairo_(cairo), typesetter_(&typesetter), log_(&log), svg_(svg) {
  cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_MITER);
  cairo_set_miter_limit(cairo_, 4);
}

void Painter::trace(std::span<const Vec> points, bool closed) {
  cairo_new_path(cairo_);
  for (const Vec& point : points) cairo_line_to(cairo_, point.x, point.y);
  if (closed) cairo_close_path(cairo_);
}

void Painter::stroke(const Stroke& stroke) {
  static const std::array<std::vector<double>, 4> kDashes{{{}, {2.0, 1.0}, {5.0, 1.0, 0.8, 1.0}, {0.5, 0.8}}};
  const auto& dashes = kDashes[static_cast<std::size_t>(stroke.dash)];
  if (svg_ != nullptr) return svg_->stroke(cairo_, stroke, dashes);
  cairo_set_dash(cairo_, dashes.data(), static_cast<int>(dashes.size()), 0);
  setInk(cairo_, stroke.ink);
  cairo_set_line_width(cairo_, stroke.width);
  cairo_stroke(cairo_);
}

void Painter::line(Vec from, Vec to, const Stroke& how) { path(std::array{from, to}, how); }

void Painter::path(std::span<const Vec> points, const Stroke& how, bool closed) {
  if (points.empty()) return;
  trace(points, closed);
  stroke(how);
}

void Painter::picture(const Box& box, std::span<const std::uint8_t> rgb, int width, int height) {
  std::vector<std::uint32_t> pixels;
  for (std::size_t i = 0; i + 2 < rgb.size(); i += 3)
    pixels.push_back(std::uint32_t{rgb[i]} << 16U | std::uint32_t{rgb[i + 1]} << 8U | rgb[i + 2]);
  cairo_surface_t* image = cairo_image_surface_create_for_data(reinterpret_cast<unsigned char*>(pixels.data()),
                                                               CAIRO_FORMAT_RGB24, width, height, 4 * width);
  cairo_save(cairo_);
  cairo_translate(cairo_, box.x0, box.y0);
  cairo_scale(cairo_, box.width() / width, box.height() / height);
  cairo_set_source_surface(cairo_, image, 0, 0);
  cairo_paint(cairo_);
  cairo_restore(cairo_);
  cairo_surface_destroy(image);  // a page that is drawn later has a copy of it by then
}

void Painter::fill(const Ink& ink) {
  if (svg_ != nullptr) return svg_->fill(cairo_, ink);
  setInk(cairo_, ink);
  cairo_fill(cairo_);
}

void Painter::fill(std::span<const Vec> points, const Ink& ink) {
  if (points.size() < 3) return;
  trace(points, true);
  fill(ink);
}

void Painter::box(const Box& box, const Stroke& how) {
  cairo_new_path(cairo_);
  cairo_rectangle(cairo_, box.x0, box.y0, box.width(), box.height());
  stroke(how);
}

void Painter::fillBox(const Box& box, const Ink& ink) {
  cairo_new_path(cairo_);
  cairo_rectangle(cairo_, box.x0, box.y0, box.width(), box.height());
  fill(ink);
}

void Painter::shape(std::span<const Vec> points, const Ink& ink, const Stroke& outline) {
  fill(points, ink);
  path(points, outline, true);
}

void Painter::shape(const Box& box, const Ink& ink, const Stroke& outline) {
  fillBox(box, ink);
  this->box(box, outline);
}

void Painter::circle(Vec middle, double radius, const Stroke& how) {
  cairo_new_path(cairo_);
  cairo_arc(cairo_, middle.x, middle.y, radius, 0, 2 * std::numbers::pi);
  cairo_close_path(cairo_);
  stroke(how);
}

void Painter::disc(Vec middle, double radius, const Ink& ink) {
  cairo_new_path(cairo_);
  cairo_arc(cairo_, middle.x, middle.y, radius, 0, 2 * std::numbers::pi);
  fill(ink);
}

void Painter::hatch(std::span<const Vec> points, double degrees, double spacing, const Stroke& how) {
  const auto lines = hatchLines(points, degrees, spacing);
  if (lines.empty()) return;
  cairo_new_path(cairo_);
  for (const auto& [from, to] : lines) {
    cairo_move_to(cairo_, from.x, from.y);
    cairo_line_to(cairo_, to.x, to.y);
  }
  stroke(how);
}

double Painter::widthOf(std::string_view words, const Lettering& how) {
  const SetText& text = typesetter_->set(words, how.capitals, how.weight);
  return text.lines.empty() ? 0 : text.lines.front().width;
}

Box Painter::boxOf(Vec at, std::string_view words, const Lettering& how) {
  return sheet::boxOf(at, widthOf(words, how), how);
}

Box Painter::text(Vec at, std::string_view words, const Lettering& how) {
  const SetText& text = typesetter_->set(words, how.capitals, how.weight);
  return text.lines.empty() ? sheet::boxOf(at, 0.0, how) : letter(at, text, text.lines.front(), how);
}

Box Painter::letter(Vec at, const SetText& text, const SetLine& line, const Lettering& how) {
  const Box box = sheet::boxOf(at, line.width, how);
  if (how.clear) fillBox(box.grown(kClear), kWhite);
  const Vec start = how.upright ? Vec{at.x, box.y1} : Vec{box.x0, at.y};
  if (svg_ != nullptr) {
    svg_->text(start, line.width, line.text, how);
  } else {
    cairo_save(cairo_);
    cairo_translate(cairo_, start.x, start.y);
    if (how.upright) cairo_rotate(cairo_, -std::numbers::pi / 2);
    setInk(cairo_, how.ink);
    cairo_move_to(cairo_, 0, 0);
    pango_cairo_show_layout_line(cairo_, line.letters);
    cairo_restore(cairo_);
  }
  log_->labels.push_back({line.text, box, how.capitals});
  log_->missing.insert(text.missing.begin(), text.missing.end());
  return box;
}

std::string keptTogether(std::string words) {
  for (auto at = words.find(' '); at != std::string::npos; at = words.find(' ', at)) words.replace(at, 1, kNoBreak);
  return words;
}

std::vector<std::string> Painter::wrap(std::string_view words, double width, const Lettering& how) {
  std::vector<std::string> lines;
  for (const SetLine& line : typesetter_->set(words, how.capitals, how.weight, width).lines) lines.push_back(line.text);
  return lines;
}

double Painter::paragraph(Vec top_left, double width, std::string_view words, const Lettering& how) {
  const double x = how.align == Align::Left     ? top_left.x
                   : how.align == Align::Centre ? top_left.x + width / 2
                                                : top_left.x + width;
  const SetText& text = typesetter_->set(words, how.capitals, how.weight, width);
  double y = top_left.y;
  for (const SetLine& line : text.lines) {
    letter({x, y + how.capitals}, text, line, how);
    y += how.capitals * kLeading;
  }
  return y;
}

double Painter::heightOf(std::string_view words, double width, const Lettering& how) {
  const auto& lines = typesetter_->set(words, how.capitals, how.weight, width).lines;
  return static_cast<double>(lines.size()) * how.capitals * kLeading;
}

std::string Painter::fitted(std::string_view words, double width, const Lettering& how) {
  if (widthOf(words, how) <= width) return std::string{words};
  constexpr const char* kCut = "…";
  const double room = std::max(width - widthOf(kCut, how), 0.0);
  return typesetter_->set(words, how.capitals, how.weight, room, PANGO_WRAP_CHAR).lines.front().text + kCut;
}

}  // namespace sillwright::sheet
