/// What keeps the water out of one opening: membrane and its cut, flashings with lengths, laps and folds, and the skin
/// they make.
///
/// Lengths and laps are the practice's (practice/weather.h); whether a head flashing is needed follows from the eave
/// rule.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/settle.h"
#include "plan/stand/place.h"
#include "plan/weather/skin.h"
#include "practice/practice.h"

namespace sillwright::plan {

enum class PieceKind : std::uint8_t {
  SillFlashing,
  JambFlashing,
  HeadFlashing,
  HeadFlap,
  CornerTape,
  HeadTape,
  MembraneFold,
  SillPan  ///< Where no roll is as wide as a sill flashing in one piece: the part under the unit, by itself.
};

/// One piece to cut.
struct Piece {
  PieceKind kind = PieceKind::SillFlashing;
  Side side = Side::Sill;
  double width = 0;  ///< Of the roll, or girth of folded metal.
  double length = 0;
  StepKind step = StepKind::SillFlashing;
  std::vector<double> folds;  ///< Folded metal: widths from fold to fold, from the wall outwards and down.
  double fall_degrees = 0;    ///< Of a head flashing.
  double stop_end = 0;        ///< Height of its stop ends.
  bool fitted = false;        ///< Came on the unit.
  std::string name;
  bool too_wide = false;  ///< No roll at hand is as wide: `width` is what is wanted, to be made up of two strips.
};

struct Lap {
  std::string upper, lower;  ///< Names of the sheets.
  double lap = 0;
  std::optional<double> least;
  const practice::Figure* source = nullptr;
};

/// Lines to mark on the membrane before it is cut: from the opening's lower left corner, mm.
struct MembraneCut {
  std::vector<std::array<Point, 2>> cuts;  ///< The inner rectangle's sides and the 45° cuts from its corners.
  double flap = 0;                         ///< Width of the flaps: as deep as they fold in.
  bool head_flap_kept = false;
};

/// Whether the head needs a flashing, and why.
struct HeadNeed {
  bool needed = false;
  std::string why;  ///< A sentence, with the figures that decide it.
  const practice::Figure* source = nullptr;
};

struct Weather {
  std::vector<Piece> pieces;
  std::vector<Lap> laps;
  MembraneCut cut;
  HeadNeed head;
  Skin skin;
  std::vector<std::string> bare_corners;  ///< Triangles of bare timber that the 45° cuts leave, untaped and uncovered.
};

/// Weatherproofs one opening of the job, whose unit stands in it.
[[nodiscard]] Weather weatherproof(const job::Job& job, std::size_t opening, const WallSpec& wall, const UnitSpec& unit,
                                   const Stand& stand, const practice::Practice& practice);

/// By which the jambs' flashings, as they are cut, lie over the sill's; 0: there is none at the sill.
[[nodiscard]] double jambOverSill(const Weather& weather);

/// Whether the head of an opening needs a flashing: by the practice's eave rule; always where the wall has no eave.
[[nodiscard]] HeadNeed headNeed(const std::optional<job::Eave>& eave, double head_z, const practice::EaveRule& rule,
                                practice::Display display);

/// z below which rain reaches the wall's face: an eave keeps a band of its reach over the rule's ratio dry. Without an
/// eave or a rule: infinity.
[[nodiscard]] double rainFrom(const std::optional<job::Eave>& eave, const practice::EaveRule& rule);

}  // namespace sillwright::plan
