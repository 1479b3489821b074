/// Inside the room: the pen. Lines of the five standard weights, hatching and lettering, in millimetres of paper.
///
/// Every text and dimension is noted in the page's log.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "check/finding.h"
#include "sheet/paper/flat.h"
#include "sheet/paper/typesetter.h"

namespace sillwright::sheet {

/// Line weights, mm: hair for hatching and leaders, fine for dimensions, medium for what is seen, bold for what is cut,
/// heavy for the ground and sheets of metal.
namespace pen {
inline constexpr double kHair = 0.18, kFine = 0.25, kMedium = 0.35, kBold = 0.5, kHeavy = 0.7;
}

enum class Dash { Solid, Dashed, Chain, Dotted };

struct Ink {
  double red = 0;
  double green = 0;
  double blue = 0;
  bool operator==(const Ink&) const = default;
};
inline constexpr Ink kBlack{};
inline constexpr Ink kWhite{1, 1, 1};
inline constexpr Ink grey(double lightness) { return {lightness, lightness, lightness}; }

struct Stroke {
  double width = pen::kMedium;
  Dash dash = Dash::Solid;
  Ink ink = kBlack;
};

/// Heights of capitals, mm (2.5, 3.5, 5 and 7 are the standard's; 2.2 is the least that is read at arm's length).
namespace letter {
inline constexpr double kSmall = 2.2, kBody = 2.5, kLarge = 3.5, kHead = 5.0, kTitle = 7.0;
}

enum class Align { Left, Centre, Right };

struct Lettering {
  double capitals = letter::kSmall;
  Weight weight = Weight::Regular;
  Align align = Align::Left;
  bool upright = false;  ///< Turned to be read from the right: it runs up the page.
  bool clear = false;    ///< On a white ground, so that lines don't run through it.
  Ink ink = kBlack;
};

inline constexpr Lettering kBoldLetters{.weight = Weight::Bold};
/// Of a heading with a line under it.
inline constexpr Lettering kHeadingLetters{.capitals = letter::kBody, .weight = Weight::Bold};

/// Distance between the base lines of a paragraph, in heights of its capitals.
inline constexpr double kLeading = 1.62;

/// The words with each space replaced by kNoBreak.
[[nodiscard]] std::string keptTogether(std::string words);

class SvgPage;
using Group = std::shared_ptr<void>;

class Painter {
 public:
  /// With `svg` it draws there; the context then only keeps the path.
  Painter(cairo_t* cairo, Typesetter& typesetter, PageLog& log, SvgPage* svg = nullptr);

  void line(Vec from, Vec to, const Stroke& stroke = {});
  void path(std::span<const Vec> points, const Stroke& stroke = {}, bool closed = false);
  void fill(std::span<const Vec> points, const Ink& ink);
  void box(const Box& box, const Stroke& stroke = {}) { path(box.corners(), stroke, true); }
  void fillBox(const Box& box, const Ink& ink) { fill(box.corners(), ink); }
  /// Filled, and its outline over that.
  void shape(std::span<const Vec> points, const Ink& ink, const Stroke& outline);
  void circle(Vec middle, double radius, const Stroke& stroke = {});
  void disc(Vec middle, double radius, const Ink& ink);
  /// A picture of so many pixels, red, green, blue, its top row first, stretched over the box.
  void picture(const Box& box, std::span<const std::uint8_t> rgb, int width, int height);
  void hatch(std::span<const Vec> points, double degrees, double spacing);

  /// Letters a line of text whose base line begins, is centred or ends at `at`.
  Box text(Vec at, std::string_view words, const Lettering& how = {});
  /// The box that `text` would cover.
  [[nodiscard]] Box boxOf(Vec at, std::string_view words, const Lettering& how = {});
  [[nodiscard]] double widthOf(std::string_view words, const Lettering& how = {});
  /// The lines of a text broken to the width, as Typesetter breaks them.
  [[nodiscard]] std::vector<std::string> wrap(std::string_view words, double width, const Lettering& how = {});
  /// Letters a paragraph whose first line's capitals begin at `top_left`. Returns the y at which the next paragraph
  /// would begin.
  double paragraph(Vec top_left, double width, std::string_view words, const Lettering& how = {});
  [[nodiscard]] double heightOf(std::string_view words, double width, const Lettering& how = {});
  /// The text, cut and ended with "…" if it is wider than `width`.
  [[nodiscard]] std::string fitted(std::string_view words, double width, const Lettering& how = {});

  PageLog& log() { return *log_; }
  /// While the answer is there, what is drawn stands in a group of this name, where the format has groups.
  [[nodiscard]] Group group(const char* name);

 private:
  void trace(std::span<const Vec> points, bool closed);
  void round(Vec middle, double radius);
  void stroke(const Stroke& stroke);
  void fill(const Ink& ink);
  Box letter(Vec at, const SetText& text, const SetLine& line, const Lettering& how);

  cairo_t* cairo_;
  Typesetter* typesetter_;
  PageLog* log_;
  SvgPage* svg_;
};

// Small signs that mean the same on every sheet, in black and white as well.

/// Ready a filled disc, needs attention a triangle, stop a square, in a ring where nothing is measured; `size` mm
/// across. `left` is the middle of its left side.
void drawVerdict(Painter& painter, Vec left, double size, check::Verdict verdict,
                 check::Basis basis = check::Basis::Measured);

/// That of an opening.
void drawVerdict(Painter& painter, Vec left, double size, const check::Findings& findings, std::size_t opening);

/// Stop a square, needs attention a triangle, note a dot.
void drawSeverity(Painter& painter, Vec left, double size, check::Severity severity);

/// A box to tick.
void drawTickBox(Painter& painter, Vec upper_left);

/// A number in a circle.
void drawBalloon(Painter& painter, Vec middle, const std::string& text);

/// A cut-off edge: a line with a zigzag in its middle.
void drawBreak(Painter& painter, Vec from, Vec to);

/// An arrow with a filled head at `to`.
void drawArrow(Painter& painter, Vec from, Vec to, const Stroke& stroke = {pen::kFine});

/// Heads at both ends.
void drawDoubleArrow(Painter& painter, Vec from, Vec to, const Stroke& stroke = {pen::kFine});

// Hatching: the lines that fill a shape, as values.

/// Parallel lines across a simple polygon, `spacing` mm of paper apart, at `degrees` anticlockwise from the page's x as
/// seen on paper. They lie on one grid through the page's corner, so that shapes beside each other hatch alike. Empty
/// where the polygon has less than three corners or `spacing` is not above 0.
[[nodiscard]] std::vector<std::array<Vec, 2>> hatchLines(std::span<const Vec> polygon, double degrees, double spacing);

}  // namespace sillwright::sheet
