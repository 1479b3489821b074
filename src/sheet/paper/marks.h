/// Inside the room: small signs that mean the same on every sheet, in black and white as well.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "check/finding.h"
#include "sheet/paper/flat.h"
#include "sheet/paper/painter.h"

namespace sillwright::sheet {

/// Ready a filled disc, needs attention a triangle, stop a square, in a ring where nothing is measured; `size` mm
/// across. `left` is the middle of its left side.
void drawVerdict(Painter& painter, Vec left, double size, check::Verdict verdict,
                 check::Basis basis = check::Basis::Measured);

/// Stop a square, needs attention a triangle, note a dot.
void drawSeverity(Painter& painter, Vec left, double size, check::Severity severity);

/// A box to tick.
void drawTickBox(Painter& painter, Vec upper_left, double size = 3.2);

/// A number in a circle.
void drawBalloon(Painter& painter, Vec middle, const std::string& text, double radius = 2.4);

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
