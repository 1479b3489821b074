/// Inside the room: dimension lines, with oblique ticks, and labels in a row moved apart.
///
/// A chain has a figure between each two ticks; a running dimension counts every tick from its nought. What they
/// dimension is given in the drawing's own millimetres, where they stand in the page's; the page's log keeps the
/// figures with the places of their ticks.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "practice/practice.h"
#include "sheet/paper/painter.h"

namespace sillwright::sheet {

enum class Along { X, Y };

struct Chain {
  Along along = Along::X;
  double level = 0;  ///< y of a level dimension line, x of an upright one.
  double from = 0;   ///< Where its extension lines begin, on the same axis.
  double away = 1;   ///< +1 or -1: the way from the drawing to the dimension line, on that axis.
  View view{};       ///< Of a drawing that runs from right to left or from the top down its scale is below 0.
  practice::Display display{};
  std::vector<double> at{};  ///< Its ticks along the drawing's axis, in any order; those at one place are one.
  bool past_last = false;    ///< There is room past its last tick: a figure that has none before it stands there.
};

/// Draws a chain. Figures stand over their line (upright ones to its left). A figure without room between its ticks
/// stands past the chain's end where that is free, else in a row on the other side of the line. Returns how far those
/// rows reach; 0 if there are none. With less than two ticks it draws nothing.
double drawChain(Painter& painter, Chain chain);

struct RunningMark {
  double at = 0;  ///< Along the drawing's axis.
  std::string text;
};

struct Running {
  Along along = Along::X;
  double level = 0;
  double away = 1;
  View view{};
  std::vector<RunningMark> marks{};
  double start = 0;          ///< Where its line begins: its nought, or if that is off the page the drawing's edge.
  double low = 0, high = 0;  ///< Room for the figures along the line, on the page.
};

/// Draws a running dimension. The figures stand across the line, spread so that none overlaps another; where there is
/// no room for all of them, only every second, third … is drawn. Returns how far they reach from the line.
double drawRunning(Painter& painter, Running running);

/// An oblique tick across a dimension line.
void drawTick(Painter& painter, Vec at);

/// A leader from a dot at `point`, through an elbow, to the place where its text begins.
void drawLeader(Painter& painter, Vec point, Vec elbow, Vec end);

/// A scale bar of round lengths, which stays true when the print is scaled.
void drawScaleBar(Painter& painter, Vec left, const Scale& scale, practice::Display display);

/// Moves labels in a row apart, only as far as needed so that none overlaps another. Returns the middles of labels of
/// the given sizes. They keep the order of `wanted` (rising), don't overlap, and have the least sum of squared
/// distances from `wanted`. All lie within low … high if they fit there, else they are packed from `low` on.
[[nodiscard]] std::vector<double> spread(std::span<const double> wanted, std::span<const double> sizes, double low,
                                         double high);

}  // namespace sillwright::sheet
