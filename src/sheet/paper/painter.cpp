#include "sheet/paper/painter.h"

#include <algorithm>
#include <cmath>
#include <numbers>

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

// The colour-blind-safe set of Okabe and Ito; each sign is told apart by its shape alone.
constexpr Ink kReady{0.0, 0.62, 0.45}, kAttend{0.90, 0.62, 0.0}, kStop{0.84, 0.37, 0.0}, kPlanned{0.34, 0.71, 0.91};

void drawHead(Painter& painter, Vec from, Vec to) {
  constexpr double kLong = 2.0, kHalf = 0.55;  // mm: a point of some 30°
  if (distance(from, to) < 1e-9) return;       // it would have no direction
  const Vec along = normalize(to - from);
  const Vec across{-along.y, along.x};
  const Vec back = to - along * kLong;
  painter.fill(std::array{to, back + across * kHalf, back - across * kHalf}, kBlack);
}

}  // namespace

Group Painter::group(const char* name) {
  if (svg_ == nullptr) return {};  // other formats have no groups
  svg_->groups.emplace_back(name);
  return {svg_, [](SvgPage* page) { page->groups.pop_back(); }};  // the page outlives it: only its group ends
}

Painter::Painter(cairo_t* cairo, Typesetter& typesetter, PageLog& log, SvgPage* svg)
    : cairo_(cairo), typesetter_(&typesetter), log_(&log), svg_(svg) {
  // Lines end where they are drawn to, and corners are sharp: a dimension is read off its ends.
  cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_MITER);
  cairo_set_miter_limit(cairo_, 4);  // a corner sharper than 29° is cut off, not drawn out to a spike
}

void Painter::trace(std::span<const Vec> points, bool closed) {
  cairo_new_path(cairo_);  // an SVG's stroke leaves the last path in the context
  for (const Vec& point : points) cairo_line_to(cairo_, point.x, point.y);
  if (closed) cairo_close_path(cairo_);
}

void Painter::stroke(const Stroke& stroke) {
  static const std::array<std::vector<double>, 4> kDashes{{{}, {2.0, 1.0}, {5.0, 1.0, 0.8, 1.0}, {0.5, 0.8}}};
  const auto& dashes = kDashes[static_cast<std::size_t>(stroke.dash)];  // mm drawn and left out by turns, as Dash
  if (svg_ != nullptr) return svg_->stroke(cairo_, stroke, dashes);
  cairo_set_dash(cairo_, dashes.data(), static_cast<int>(dashes.size()), 0);
  setInk(cairo_, stroke.ink);
  cairo_set_line_width(cairo_, stroke.width);
  cairo_stroke(cairo_);
}

void Painter::line(Vec from, Vec to, const Stroke& how) { path(std::array{from, to}, how); }

void Painter::path(std::span<const Vec> points, const Stroke& how, bool closed) {
  if (points.empty()) return;  // it would be an empty element of an SVG
  trace(points, closed);
  stroke(how);
}

void Painter::picture(const Box& box, std::span<const std::uint8_t> rgb, int width, int height) {  // not into SVG
  std::vector<std::uint32_t> pixels;  // whole numbers: the same whatever order of bytes the machine has
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

void Painter::shape(std::span<const Vec> points, const Ink& ink, const Stroke& outline) {
  fill(points, ink);
  path(points, outline, true);
}

void Painter::round(Vec middle, double radius) {
  cairo_new_path(cairo_);  // else a line leads to it from where the last path ended
  cairo_arc(cairo_, middle.x, middle.y, radius, 0, 2 * std::numbers::pi);
  cairo_close_path(cairo_);
}

void Painter::circle(Vec middle, double radius, const Stroke& how) {
  round(middle, radius);
  stroke(how);
}

void Painter::disc(Vec middle, double radius, const Ink& ink) {
  round(middle, radius);
  fill(ink);
}

void Painter::hatch(std::span<const Vec> points, double degrees, double spacing) {
  const auto lines = hatchLines(points, degrees, spacing);
  if (lines.empty()) return;  // they would be an empty element of an SVG
  cairo_new_path(cairo_);     // all lines are one path: one element of an SVG
  for (const auto& [from, to] : lines) {
    cairo_move_to(cairo_, from.x, from.y);
    cairo_line_to(cairo_, to.x, to.y);
  }
  stroke({pen::kHair});
}

double Painter::widthOf(std::string_view words, const Lettering& how) {
  const SetText& text = typesetter_->set(words, how.capitals, how.weight);
  return text.lines.empty() ? 0 : text.lines.front().width;  // empty words are set in no line
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
  if (how.clear) fillBox(box.grown(kClear), kWhite);                      // before the letters, which stand on it
  const Vec start = how.upright ? Vec{at.x, box.y1} : Vec{box.x0, at.y};  // where the base line begins
  if (svg_ != nullptr) {
    svg_->text(start, line.width, line.text, how);
  } else {
    cairo_save(cairo_);
    cairo_translate(cairo_, start.x, start.y);
    if (how.upright) cairo_rotate(cairo_, -std::numbers::pi / 2);  // so that it is read from the right
    setInk(cairo_, how.ink);
    cairo_move_to(cairo_, 0, 0);
    pango_cairo_show_layout_line(cairo_, line.letters);
    cairo_restore(cairo_);
  }
  log_->labels.push_back({line.text, box, how.capitals});
  log_->missing.insert(text.missing.begin(), text.missing.end());  // endPage names them at the page's foot
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
    letter({x, y + how.capitals}, text, line, how);  // the base line is below the capitals' top
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
  constexpr const char* kCut = "…";  // stands after as many letters as have room, in whatever word
  const double room = std::max(width - widthOf(kCut, how), 0.0);  // a width below 0 would mean one line
  return typesetter_->set(words, how.capitals, how.weight, room, PANGO_WRAP_CHAR).lines.front().text + kCut;
}

void drawVerdict(Painter& painter, Vec left, double size, check::Verdict verdict, check::Basis basis) {
  const Vec middle{left.x + size / 2, left.y};
  if (basis == check::Basis::Planned) {
    painter.circle(middle, size / 2, {size / 8, Dash::Solid, kPlanned});
    const double inner = size * 0.55;  // white shows between it and the ring
    drawVerdict(painter, {middle.x - inner / 2, left.y}, inner, verdict);
    return;
  }
  const Box square{left.x, left.y - size / 2, left.x + size, left.y + size / 2};
  if (verdict == check::Verdict::Ready) {
    painter.disc(middle, size / 2, kReady);
    painter.circle(middle, size / 2, {pen::kMedium});
  } else if (verdict == check::Verdict::Stop) {
    painter.shape(square.corners(), kStop, {pen::kMedium});
  } else {
    painter.shape(std::array{Vec{square.x0, square.y1}, Vec{square.x1, square.y1}, Vec{middle.x, square.y0}}, kAttend,
                  {pen::kMedium});
  }
}

void drawVerdict(Painter& painter, Vec left, double size, const check::Findings& findings, std::size_t opening) {
  drawVerdict(painter, left, size, findings.verdicts[opening], findings.bases[opening]);
}

void drawSeverity(Painter& painter, Vec left, double size, check::Severity severity) {
  if (severity == check::Severity::Note) return painter.disc({left.x + size / 2, left.y}, size / 6, kBlack);
  const bool stop = severity == check::Severity::Stop;
  drawVerdict(painter, left, size, stop ? check::Verdict::Stop : check::Verdict::Attend);
}

void drawTickBox(Painter& painter, Vec upper_left) {
  constexpr double kSize = 3.2;
  painter.box({upper_left.x, upper_left.y, upper_left.x + kSize, upper_left.y + kSize}, {pen::kMedium});
}

void drawBalloon(Painter& painter, Vec middle, const std::string& text) {
  constexpr double kRadius = 2.4;  // two digits have room
  painter.disc(middle, kRadius, kWhite);
  painter.circle(middle, kRadius, {pen::kFine});
  const Lettering how{.weight = Weight::Bold, .align = Align::Centre};
  painter.text({middle.x, middle.y + how.capitals / 2}, text, how);  // digits are as high as capitals
}

void drawBreak(Painter& painter, Vec from, Vec to) {
  if (distance(from, to) < 1e-9) return;  // it would have no direction
  const Vec along = normalize(to - from);
  const Vec across{-along.y, along.x};
  const Vec middle = (from + to) * 0.5;  // of the zigzag; the line runs 1 mm past both ends
  painter.path(std::array{from - along, middle - along * 0.9, middle - along * 0.4 + across * 1.2,
                          middle + along * 0.4 - across * 1.2, middle + along * 0.9, to + along},
               {pen::kFine});
}

void drawArrow(Painter& painter, Vec from, Vec to, const Stroke& stroke) {
  painter.line(from, to, stroke);
  drawHead(painter, from, to);
}

void drawDoubleArrow(Painter& painter, Vec from, Vec to, const Stroke& stroke) {
  drawArrow(painter, from, to, stroke);
  drawHead(painter, to, from);
}

std::vector<std::array<Vec, 2>> hatchLines(std::span<const Vec> polygon, double degrees, double spacing) {
  std::vector<std::array<Vec, 2>> lines;
  if (polygon.size() < 3 || !(spacing > 0)) return lines;
  const double angle = degrees * std::numbers::pi / 180;
  const Vec along{std::cos(angle), -std::sin(angle)};  // the page's y runs down: minus turns it anticlockwise as seen
  const Vec across{-along.y, along.x};
  const auto off = [across](Vec corner) { return dot(corner, across); };  // the k-th line lies at k · spacing
  const double high = off(std::ranges::max(polygon, {}, off));
  for (double k = std::ceil(off(std::ranges::min(polygon, {}, off)) / spacing); k * spacing < high; ++k) {
    const double at = k * spacing;
    std::vector<double> crossings;
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Vec a = polygon[i], b = polygon[(i + 1) % polygon.size()];
      const double da = off(a) - at, db = off(b) - at;
      // Half-open: a corner that lies on the line counts for one of its two edges only.
      if ((da < 0) == (db < 0)) continue;
      const double t = da / (da - db);  // their signs differ: nothing is divided by 0
      crossings.push_back(dot(a + (b - a) * t, along));
    }
    std::ranges::sort(crossings);  // inside lies between the first and the second, the third and the fourth
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
      if (crossings[i + 1] - crossings[i] < 1e-9) continue;  // it only touches a corner
      lines.push_back({along * crossings[i] + across * at, along * crossings[i + 1] + across * at});
    }
  }
  return lines;
}

}  // namespace sillwright::sheet
