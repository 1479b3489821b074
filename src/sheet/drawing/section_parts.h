/// Inside the room: what a section is drawn from, and its two halves: what is cut of the scene, and the thin sheets.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "plan/weather/weather_skin.h"
#include "sheet/drawing/section.h"

namespace sillwright::sheet {

/// A name on a leader. `side` -1 or +1 puts it left or right whatever its place.
struct Named {
  std::string words;
  Vec at;  ///< On the page.
  std::optional<int> side{};
  bool minor = false;  ///< Left out where there is no room for every name.
};

/// A section being drawn. Its two axes, in millimetres from the framed opening's lower left corner: through the wall
/// and up (head, sill), or along the wall and through it (jamb); the window is what of it is shown.
struct Section {
  Painter& painter;
  const Subject& subject;
  std::size_t index;
  Detail detail;
  const job::Opening& opening;
  const plan::OpeningPlan& planned;
  const plan::WallSpec& wall;
  plan::SkinSizes size;
  View view{};
  Box window{};
  double cut_at = 0;  ///< Along the wall (head, sill) or up (jamb), from the framed opening's corner.
  std::vector<Named> names{};
  std::vector<std::array<Vec, 2>> broken{};  ///< Edges cut off by the window, on the page.

  /// It is cut level and seen from above.
  [[nodiscard]] bool level() const { return detail == Detail::Jamb || detail == Detail::Upright; }
  /// The window on the page.
  [[nodiscard]] Box shown() const { return view.box(window.x0, window.y0, window.x1, window.y1); }
  [[nodiscard]] const practice::Words& words() const { return subject.practice.words; }
  [[nodiscard]] practice::Display display() const { return subject.practice.display; }
};

/// What is cut of the scene: the packers, which lie over the sheets that run under them, or all else.
void drawFromScene(Section& section, bool packers);
void drawThinSheets(Section& section);
void drawSealing(Section& section);  ///< The seal inside and, at the jamb, the screw: over the packers.
void drawBreaks(Section& section);   ///< Where what is drawn goes on past the window.

}  // namespace sillwright::sheet
