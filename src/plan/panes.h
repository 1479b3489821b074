/// A unit's division: its frame, mullions and transoms, and each light between them with the sashes, leaves and panes
/// of glass that fill it, from the unit's sizes alone.
///
/// Weight, packing under mullions, glass rules, scene and sheets all take it from here. Sections that a job doesn't ask
/// for (a sash's, a leaf's stile) are usual ones: common practice, no source. Measured from the unit's lower left
/// outside corner, as seen from outside, mm; y as the wall's.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "plan/settle.h"
#include "plan/shape.h"

namespace sillwright::plan {

/// In a unit's own axes: (0, 0) is its lower left outside corner.
using UnitRect = Rect;

/// How a sash or a leaf moves. A fixed pane has no sash, but the one of a slider that stands still has.
enum class Motion : std::uint8_t {
  Stays,
  SlidesLeft,
  SlidesRight,
  SlidesUp,
  SlidesDown,
  HungAbove,
  HungBelow,
  HungAside,
  TiltsAndTurns,
  Folds
};

[[nodiscard]] constexpr bool slidesAside(Motion motion) {
  return motion == Motion::SlidesLeft || motion == Motion::SlidesRight;
}
/// Its hinges are at its left or its right.
[[nodiscard]] constexpr bool hangsAside(Motion motion) {
  return motion == Motion::HungAside || motion == Motion::TiltsAndTurns || motion == Motion::Folds;
}

/// A sash, or a door's leaf.
struct Sash {
  UnitRect outside;
  double depth = 0;  ///< Of its section, through the wall.
  std::size_t pane = 0;
  Motion motion = Motion::Stays;
  bool left = false;     ///< Hung at its left, seen from outside; of one that folds: it goes to the left.
  int track = 0;         ///< Of one that slides: 0 the outermost.
  bool inwards = false;  ///< The way it opens.
  bool turned = false;   ///< Of one that folds: its far edge runs in the track, and its hinges come out.

  /// The edge that stays in the frame when it opens is its left.
  [[nodiscard]] bool heldLeft() const { return left != turned; }
};

/// One light: what lies between mullions, transoms and the frame.
struct LightParts {
  job::UnitKind kind = job::UnitKind::FixedWindow;
  job::Hand hand = job::Hand::Left;
  UnitRect clear;
  std::size_t first_sash = 0, sashes = 0;  ///< Of UnitParts::sash.
  std::size_t first_pane = 0, panes = 0;   ///< Of UnitParts::pane.
  std::size_t row = 1, column = 1;         ///< From the top left, as the job counts them.
};

struct UnitParts {
  HeadLine head{0, 0};            ///< Of the unit's outside: all below is as if it were level at its highest.
  UnitRect in_reveal;             ///< Inside of the reveal: the frame, and the sub-sill that it stands on.
  UnitRect frame;                 ///< Outside of the aluminium frame.
  UnitRect clear;                 ///< Inside of the aluminium frame.
  std::vector<UnitRect> made;     ///< Outside of the frame of each part that is made apart; one: it is whole.
  std::vector<UnitRect> bar;      ///< Mullions, then transoms.
  std::size_t mullions = 0;       ///< How many of `bar` are mullions.
  std::vector<LightParts> light;  ///< Row by row from the top left.
  std::vector<Sash> sash;
  std::vector<UnitRect> pane;     ///< Sight size: the glass that is seen. The lowest edge is the sight line.
  std::vector<job::Glass> glass;  ///< Of each pane.
  std::optional<double> restrictor;

  /// Whether a bar is of a frame beside a joint of coupled parts.
  [[nodiscard]] bool isOfJoint(const UnitRect& one) const {
    return made.size() > 1 && std::any_of(made.begin(), made.end(), [&](const UnitRect& part) {
             return one.x0 == part.x0 || one.x1 == part.x1 || one.z0 == part.z0 || one.z1 == part.z1;
           });
  }
  /// What of a rectangle lies in the unit, so far inside its outside: the rectangle but for what the head cuts off.
  [[nodiscard]] std::vector<Point> within(const UnitRect& rect, double inside) const {
    return head.inset(inside).under(rect);
  }
  [[nodiscard]] double areaWithin(const UnitRect& rect, double inside) const {
    return head.level() ? rect.area() : areaOf(within(rect, inside));
  }
  [[nodiscard]] std::span<const Sash> sashesOf(const LightParts& of) const {
    return std::span(sash).subspan(of.first_sash, of.sashes);
  }
  [[nodiscard]] std::span<const UnitRect> panesOf(const LightParts& of) const {
    return std::span(pane).subspan(of.first_pane, of.panes);
  }
};

/// A face of a section that leaves at least three fifths of the rectangle clear.
[[nodiscard]] double faceWithin(double face, const UnitRect& rect);

[[nodiscard]] UnitParts partsOf(const UnitSpec& unit);

/// Whether a light of that kind opens.
[[nodiscard]] constexpr bool opens(job::UnitKind kind) { return kind != job::UnitKind::FixedWindow; }

/// Whether any of its lights does.
[[nodiscard]] bool anyOpens(const UnitSpec& unit);

/// Whether panels slide past each other, their stiles meeting over the sill.
[[nodiscard]] constexpr bool panelsMeet(job::UnitKind kind) {
  return kind == job::UnitKind::SlidingWindow || kind == job::UnitKind::SlidingDoor ||
         kind == job::UnitKind::StackingDoor;
}

/// Whether its leaves hang at the side that the unit's hand names.
[[nodiscard]] constexpr bool hangsAtHand(job::UnitKind kind) {
  return kind == job::UnitKind::CasementWindow || kind == job::UnitKind::TiltTurnWindow ||
         kind == job::UnitKind::HingedDoor || kind == job::UnitKind::FoldingDoor;
}

/// Whether a sash is taken out of the frame where the whole is too heavy to be lifted: a panel that slides, a door's
/// leaf.
[[nodiscard]] inline bool comesOut(const UnitSpec& unit, const Sash& sash) {
  return slidesAside(sash.motion) || (unit.isDoor() && hangsAside(sash.motion));
}

/// What is clear when a light stands open as far as its kind, or its restrictor, lets it: a casement nearly all, a
/// slider what its sash leaves. Empty: it doesn't open, or its sash or its blades hang in the way.
[[nodiscard]] std::optional<UnitRect> clearOpening(const UnitParts& parts, const LightParts& light);
/// The largest of its lights'.
[[nodiscard]] std::optional<UnitRect> clearOpening(const UnitParts& parts);

/// How a light opens, for a person: "slides X O, seen from outside", "hung at the left, opens out". Empty: it doesn't.
[[nodiscard]] std::string opensWords(const UnitParts& parts, const LightParts& light);
/// What air passes through when it stands open so far, mm²: of a sash that a restrictor holds the gap at its free edge
/// and beside it, between level blades what they leave. Empty: it doesn't open, or how far isn't known.
[[nodiscard]] std::optional<double> airOpening(const UnitParts& parts, const LightParts& light);

/// Of each light what is clear when it stands open, and what lets air through: "row 1, light 2: 700 × 1100 mm, 0.77 m²
/// for air". Empty: of none it is known.
[[nodiscard]] std::string clearWords(const UnitParts& parts, practice::Display display);

/// The outlines of the parts that it is made in: the unit itself first, then those coupled to it. One: it is whole.
[[nodiscard]] std::vector<UnitRect> madeParts(const UnitSpec& unit);
/// The same as units of their own: what is ordered.
[[nodiscard]] std::vector<UnitSpec> madeSpecs(const UnitSpec& unit);
/// "sliding window 1200 × 1040 mm + fixed window 600 × 1040 mm". Empty: it is whole.
[[nodiscard]] std::string partsWords(const UnitSpec& unit, practice::Display display);

/// The middle line of a mullion, a transom or where two panels meet: at x from z to z, or at z from x to x.
struct BarLine {
  bool upright = false;
  double at = 0, from = 0, to = 0;
};

/// What the wind on a unit is brought on by: its bars, and the glass between their middles, which fills its outline.
struct BarLines {
  std::vector<UnitRect> light;
  std::vector<BarLine> bar;
};
[[nodiscard]] BarLines barLines(const UnitSpec& unit);
/// Where bars end at a side of the unit, rising; none past the end of a jamb that is lower than the other.
[[nodiscard]] std::vector<double> endsOn(Side side, const BarLines& lines, const UnitSpec& unit);

/// Where its weight comes down on the sill between its ends: under mullions, and where panels meet; rising.
[[nodiscard]] std::vector<double> bearings(const UnitSpec& unit);

inline constexpr double kLeastLight = 100;  ///< mm, between the middles of mullions.
/// How a unit is divided: the middles of its mullions and transoms, its outside first and last.
struct Grid {
  std::vector<double> x;  ///< From the left.
  std::vector<double> z;  ///< From the top, falling.
};
[[nodiscard]] Grid linesOf(const job::Unit& unit);

/// Why its lights can't be laid out, empty where they can: their number, or their sizes.
[[nodiscard]] std::string lightsFault(const job::Unit& unit);

/// Widths of its columns and heights of its rows of lights, as they come out.
[[nodiscard]] std::vector<double> lightWidths(const UnitSpec& unit);
[[nodiscard]] std::vector<double> lightHeights(const UnitSpec& unit);

/// Its lights in rows from the top, each from the left: "fixed | awning over fixed | fixed"; of panels that stack or
/// fold how many: "4 panels". Empty: one light.
[[nodiscard]] std::string lightsWords(const UnitSpec& unit);

// How the lights lie between their mullions and transoms, for this folder.

[[nodiscard]] Grid gridOf(const UnitSpec& unit);

/// Whether two parts made apart meet on a line: the last lines between columns, the first between rows.
[[nodiscard]] bool isJoint(const UnitSpec& unit, std::size_t line, std::size_t lines, bool of_rows);

/// A rectangle of cells that are one light.
struct Cell {
  std::size_t row = 0, column = 0, columns = 1;
  job::UnitKind kind = job::UnitKind::FixedWindow;
};

[[nodiscard]] std::vector<Cell> cellsOf(const UnitSpec& unit);

/// A mullion or a transom by the lines between columns and rows that it lies on and ends at, rows from the top.
struct BarSpan {
  bool upright = false;
  std::size_t line = 0, from = 0, to = 0;
};

/// Mullions run past transoms but where a light lies across their line; transoms from mullion to mullion, and one that
/// ends at the transom stands on it. Mullions first.
[[nodiscard]] std::vector<BarSpan> spansOf(std::size_t columns, std::size_t rows, const std::vector<Cell>& cells);

/// y of a unit's inside face: of its reveal, or of a bare frame.
[[nodiscard]] inline double insideFace(const UnitSpec& unit) {
  return unit.reveal ? unit.reveal->depth : unit.stands + unit.frame.depth;
}

}  // namespace sillwright::plan
