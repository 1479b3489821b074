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
#include "scene/section/section.h"
#include "sheet/paper/page.h"

namespace sillwright::sheet {

enum class Detail { Head, Jamb, Sill, Upright, Across };

/// Where a section is cut.
struct CutAt {
  std::string name{};  ///< "Transom: louvre over fixed".
  Detail detail = Detail::Upright;
  double joint = 0;  ///< Where two lights or two panels of the unit meet: up the unit, of a level one along it.
  double cut = 0;    ///< Along the opening, of a level one up it; of a joint along or up the unit.
};
/// The joints of a unit that differ, each once.
[[nodiscard]] std::vector<CutAt> jointsOf(const plan::UnitSpec& unit);
/// Head, jamb and sill; then of a head that follows the roof its other end, and the unit's joints.
[[nodiscard]] std::vector<CutAt> sectionsOf(const Subject& subject, std::size_t opening);

/// An opening's sections are drawn at one scale, whatever the practice's units: 1:5, or smaller where the wall is so
/// deep that beside it there is no room for the longest word of a name.
[[nodiscard]] Scale sectionScale(Book& book, std::size_t opening);

/// Draws one section into the room, heading included.
void drawSection(Book& book, std::size_t opening, const CutAt& at, const Box& room, const Scale& scale);

// What a section is drawn from, and its two halves: what is cut of the scene, and the thin sheets.

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
  CutAt cut;
  const job::Opening& opening;
  const plan::OpeningPlan& planned;
  const plan::WallSpec& wall;
  plan::SkinSizes size;
  View view{};
  Box window{};
  std::vector<Named> names{};
  std::array<std::vector<Vec>, 2>
      broken{};  ///< Corners of what goes on past the window's lower or left edge, its other.

  /// It is cut level and seen from above.
  [[nodiscard]] bool level() const { return is(Detail::Jamb) || is(Detail::Upright); }
  [[nodiscard]] bool is(Detail detail) const { return cut.detail == detail; }
  /// The window on the page.
  [[nodiscard]] Box shown() const { return view.box(window.x0, window.y0, window.x1, window.y1); }
  [[nodiscard]] const practice::Words& words() const { return subject.practice.words; }
  [[nodiscard]] std::string figure(double mm) const { return subject.figure(mm); }
};

/// What is cut of the scene.
[[nodiscard]] std::vector<scene::CutFace> cutFaces(const Section& section);
/// Of that the packers, which lie over the sheets that run under them, or all else.
void drawFromScene(Section& section, const std::vector<scene::CutFace>& faces, bool packers);
void drawThinSheets(Section& section);
void drawSealing(Section& section);  ///< The seal inside and, at the jamb, the screw: over the packers.
void drawBreaks(Section& section);   ///< Where what is drawn goes on past the window.

}  // namespace sillwright::sheet
