/// Inside the room: dimension lines, with oblique ticks.
///
/// A chain has a figure between each two ticks; a running dimension counts every tick from the first. All places are
/// in page millimetres; the caller gives the figures, and the page's log keeps them with the places of their ticks.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/paper/painter.h"

namespace sillwright::sheet {

enum class Along { X, Y };

/// A tick: where it stands along its dimension line, and where its extension line begins, on the other axis.
struct Station {
  double at = 0;
  double from = 0;
};

struct Chain {
  Along along = Along::X;
  double level = 0;   ///< y of a level dimension line, x of an upright one.
  double away = 1;    ///< +1 or -1: the way from the drawing to the dimension line, along the other axis.
  double per_mm = 0;  ///< Paper by thing.
  std::vector<Station> stations{};
  std::vector<double> values{};      ///< One fewer than stations.
  std::vector<std::string> texts{};  ///< As values. Empty texts are not lettered.
  bool past_last = false;  ///< There is room past its last tick: a figure that has none before it stands there.
};

/// Draws a chain. Figures stand over their line (upright ones to its left). A figure without room between its ticks
/// stands past the chain's end where that is free, else in a row on the other side of the line. Returns how far those
/// rows reach; 0 if there are none.
double drawChain(Painter& painter, const Chain& chain);

/// One dimension between two stations.
void drawDimension(Painter& painter, Along along, double level, double away, double per_mm, Station from, Station to,
                   double value, const std::string& text);

struct RunningMark {
  double at = 0;
  std::string text;
  double value = 0;
};

struct Running {
  Along along = Along::X;
  double level = 0;
  double away = 1;
  double per_mm = 0;
  std::vector<RunningMark> marks{};  ///< Rising in `at`, counted from `origin`.
  double origin = 0;                 ///< Where its nought stands.
  /// Where its line begins if its zero is off the page.
  std::optional<double> start{};
  double low = 0, high = 0;  ///< Room for the figures along the line.
};

/// Draws a running dimension. The figures stand across the line, spread so that none overlaps another; where there is
/// no room for all of them, only every second, third … is drawn. Returns how far they reach from the line.
double drawRunning(Painter& painter, const Running& running);

/// An oblique tick across a dimension line.
void drawTick(Painter& painter, Vec at);

/// A leader from a dot at `point`, through an elbow, to the place where its text begins.
void drawLeader(Painter& painter, Vec point, Vec elbow, Vec end);

/// A scale bar of round lengths, which stays true when the print is scaled.
void drawScaleBar(Painter& painter, Vec left, const Scale& scale, bool in_feet);

}  // namespace sillwright::sheet
