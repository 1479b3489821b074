#include "sheet/paper/painter.h"

#include <array>
#include <numbers>

#include "sheet/paper/hatch.h"

namespace sillwright::sheet {
namespace {

/// Below the base line, by the capitals' height: the descenders of the typeface.
constexpr double kDescent = 0.30;
/// White round lettering on a white ground, mm.
constexpr double kClear = 0.5;

/// With plain spaces for those that kept words together while lines were broken.
std::string loosened(std::string line) {
  for (auto at = line.find(kNoBreak); at != std::string::npos; at = line.find(kNoBreak, at)) {
    line.replace(at, kNoBreak.size(), " ");
  }
  return line;
}

void setInk(cairo_t* cairo, const Ink& ink) {
  cairo_set_source_rgb(cairo, ink.red, ink.green, ink.blue);
}

}  // namespace

Painter::Painter(cairo_t* cairo, Fonts& fonts, PageLog& log) : cairo_(cairo), fonts_(&fonts), log_(&log) {
  cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_MITER);
  cairo_set_miter_limit(cairo_, 4);
  cairo_font_options_t* options = cairo_font_options_create();
  // Lettering takes the same room whatever it is drawn on.
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_set_font_options(cairo_, options);
  cairo_font_options_destroy(options);
}

void Painter::trace(std::span<const Vec> points, bool closed) {
  cairo_new_path(cairo_);
  for (const Vec& point : points) cairo_line_to(cairo_, point.x, point.y);
  if (closed) cairo_close_path(cairo_);
}

void Painter::stroke(const Stroke& stroke) {
  static constexpr std::array<double, 2> kDashed{2.0, 1.0};
  static constexpr std::array<double, 4> kChain{5.0, 1.0, 0.8, 1.0};
  static constexpr std::array<double, 2> kDotted{0.5, 0.8};
  switch (stroke.dash) {
    case Dash::Solid:
      cairo_set_dash(cairo_, nullptr, 0, 0);
      break;
    case Dash::Dashed:
      cairo_set_dash(cairo_, kDashed.data(), static_cast<int>(kDashed.size()), 0);
      break;
    case Dash::Chain:
      cairo_set_dash(cairo_, kChain.data(), static_cast<int>(kChain.size()), 0);
      break;
    case Dash::Dotted:
      cairo_set_dash(cairo_, kDotted.data(), static_cast<int>(kDotted.size()), 0);
      break;
  }
  setInk(cairo_, stroke.ink);
  cairo_set_line_width(cairo_, stroke.width);
  cairo_stroke(cairo_);
}

void Painter::line(Vec from, Vec to, const Stroke& how) {
  const std::array<Vec, 2> points{from, to};
  path(points, how);
}

void Painter::path(std::span<const Vec> points, const Stroke& how, bool closed) {
  if (points.empty()) return;
  trace(points, closed);
  stroke(how);
}

void Painter::fill(std::span<const Vec> points, const Ink& ink) {
  if (points.size() < 3) return;
  trace(points, true);
  setInk(cairo_, ink);
  cairo_fill(cairo_);
}

void Painter::box(const Box& box, const Stroke& how) {
  cairo_new_path(cairo_);
  cairo_rectangle(cairo_, box.x0, box.y0, box.width(), box.height());
  stroke(how);
}

void Painter::fillBox(const Box& box, const Ink& ink) {
  cairo_new_path(cairo_);
  cairo_rectangle(cairo_, box.x0, box.y0, box.width(), box.height());
  setInk(cairo_, ink);
  cairo_fill(cairo_);
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
  setInk(cairo_, ink);
  cairo_fill(cairo_);
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
  double width = 0;
  cairo_set_font_size(cairo_, how.capitals / kCapitals);
  for (const FontRun& run : fonts_->runs(words, how.weight)) {
    cairo_set_font_face(cairo_, run.face);
    cairo_text_extents_t extents;
    cairo_text_extents(cairo_, run.text.c_str(), &extents);
    width += extents.x_advance;
  }
  return width;
}

Box Painter::boxOf(Vec at, std::string_view words, const Lettering& how) {
  const double width = widthOf(words, how);
  const double before = how.align == Align::Left ? 0 : how.align == Align::Centre ? width / 2 : width;
  const double below = how.capitals * kDescent;
  if (how.upright) return {at.x - how.capitals, at.y + before - width, at.x + below, at.y + before};
  return {at.x - before, at.y - how.capitals, at.x - before + width, at.y + below};
}

Box Painter::text(Vec at, std::string_view words, const Lettering& how) {
  const Box box = boxOf(at, words, how);
  if (words.empty()) return box;
  if (how.clear) fillBox(box.grown(kClear), kWhite);
  cairo_save(cairo_);
  if (how.upright) {
    cairo_translate(cairo_, at.x, box.y1);
    cairo_rotate(cairo_, -std::numbers::pi / 2);
  } else {
    cairo_translate(cairo_, box.x0, at.y);
  }
  setInk(cairo_, how.ink);
  cairo_set_font_size(cairo_, how.capitals / kCapitals);
  cairo_move_to(cairo_, 0, 0);
  for (const FontRun& run : fonts_->runs(words, how.weight)) {
    cairo_set_font_face(cairo_, run.face);
    cairo_show_text(cairo_, run.text.c_str());
  }
  cairo_restore(cairo_);
  log_->labels.push_back({std::string(words), box, how.capitals});
  return box;
}

std::string keptTogether(std::string words) {
  for (auto at = words.find(' '); at != std::string::npos; at = words.find(' ', at)) words.replace(at, 1, kNoBreak);
  return words;
}

std::vector<std::string> Painter::wrap(std::string_view words, double width, const Lettering& how) {
  std::vector<std::string> lines;
  std::string line;
  const auto put = [&] {
    if (!line.empty()) lines.push_back(loosened(std::move(line)));
    line.clear();
  };
  for (std::size_t from = 0; from < words.size();) {
    const std::size_t end = std::min(words.find_first_of(" \n", from), words.size());
    std::string word{words.substr(from, end - from)};
    const bool breaks = end < words.size() && words[end] == '\n';
    from = end + 1;
    std::string longer = line;
    if (!longer.empty()) longer += ' ';
    longer += word;
    if (widthOf(longer, how) <= width) {
      line = std::move(longer);
    } else {
      put();
      while (widthOf(word, how) > width) {
        std::size_t cut = word.size();
        while (cut > 1 && widthOf(word.substr(0, cut), how) > width) {
          do --cut;
          while (cut > 1 && (static_cast<unsigned char>(word[cut]) & 0xC0U) == 0x80U);
        }
        if (cut == word.size() || cut <= 1) break;
        // Rather between words that were to be kept together than within one.
        const auto joint = word.rfind(kNoBreak, cut);
        const bool apart = joint != std::string::npos && joint > 0;
        lines.push_back(loosened(word.substr(0, apart ? joint : cut)));
        word.erase(0, apart ? joint + kNoBreak.size() : cut);
      }
      line = std::move(word);
    }
    if (breaks) put();
  }
  put();
  return lines;
}

double Painter::paragraph(Vec top_left, double width, std::string_view words, const Lettering& how) {
  double y = top_left.y;
  for (const std::string& line : wrap(words, width, how)) {
    const double x = how.align == Align::Left     ? top_left.x
                     : how.align == Align::Centre ? top_left.x + width / 2
                                                  : top_left.x + width;
    text({x, y + how.capitals}, line, how);
    y += how.capitals * kLeading;
  }
  return y;
}

double Painter::heightOf(std::string_view words, double width, const Lettering& how) {
  return static_cast<double>(wrap(words, width, how).size()) * how.capitals * kLeading;
}

std::string Painter::fitted(std::string_view words, double width, const Lettering& how) {
  std::string text{words};
  if (widthOf(text, how) <= width) return text;
  while (!text.empty()) {
    do text.pop_back();
    while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0U) == 0x80U);
    // A lead byte whose followers are gone is no letter.
    if (!text.empty() && static_cast<unsigned char>(text.back()) >= 0xC0U) text.pop_back();
    while (!text.empty() && text.back() == ' ') text.pop_back();
    if (widthOf(text + "…", how) <= width) return text + "…";
  }
  return text;
}

}  // namespace sillwright::sheet
