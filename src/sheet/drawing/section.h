/// Inside the room: sections through head, jamb and sill, with every layer named.
///
/// Timber, unit, lining and packers are cut out of the scene; sheets that are thinner than a line (membrane, flashings,
/// fin) come from the plan's skin and are drawn apart, so that it is seen which lies over which.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "plan/settle.h"
#include "plan/weather/weather_skin.h"
#include "sheet/paper/page.h"

namespace sillwright::sheet {

enum class Detail { Head, Jamb, Sill, Upright, Across };

/// A joint within a unit, in its axes: where two lights or two panels meet.
struct Joint {
  std::string name;  ///< "Transom: louvre over fixed".
  Detail detail = Detail::Upright;
  double at = 0;   ///< Along the unit where it is upright, else up it.
  double cut = 0;  ///< The other way, where it is cut.
};
/// Those that differ, each once.
[[nodiscard]] std::vector<Joint> jointsOf(const plan::UnitSpec& unit);

/// Width of the room that a section with its names has, mm of paper.
inline constexpr double kSectionWide = 88;

/// An opening's sections are drawn at one scale, whatever the practice's units: 1:5, or smaller where the wall is so
/// deep that beside it there is no room for the longest word of a name.
[[nodiscard]] Scale sectionScale(Book& book, std::size_t opening);

/// Draws one section into the room, heading included.
void drawSection(Book& book, std::size_t opening, Detail detail, const Box& room, const Scale& scale);
/// The same of a joint.
void drawSection(Book& book, std::size_t opening, const Joint& joint, const Box& room, const Scale& scale);

// : what a section is drawn from, and its two halves: what is cut of the scene, and the thin sheets.

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
