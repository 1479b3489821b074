/// Where a unit is fixed: by its maker's schedule where the job gives one; else by the practice's rule of ends and
/// spacing, and by the customary count; the stricter holds.
///
/// A fixing goes through a packer. Where the packers already stand as the stricter rule asks, each of them is fixed
/// through; else fixings are spread evenly from end to end, and packers are wanted there (`packAt` in pack.h).
/// Jambs always; sill and head where the practice names a least number for them, or where the jambs alone don't do
/// (MoreFixings); a door's sill never, it stands on the floor; a fin along jambs and sill. At the head nothing is
/// packed: the lintel must be free to sag.
///
/// A mullion or a meeting stile that ends at sill or head brings wind there: a fixing stands each side of its end, as
/// far from it as the practice asks, else through the packer that it stands on. Others keep clear of it, and on the
/// jambs of transoms.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "plan/panes.h"
#include "plan/stand/pack.h"
#include "practice/practice.h"

namespace sillwright::plan {

enum class FixingKind : std::uint8_t {
  ThroughReveal,  ///< Through the timber reveal and its packer into the stud.
  ThroughFrame,   ///< Through a bare frame's jamb.
  ThroughFin,     ///< Through the fin into the framing, for bare frames that have one.
  ThroughBracket  ///< Through a bracket of the maker's into the framing beside the unit; no packer in between.
};

enum class FixingRule : std::uint8_t { Practice, Customary, Schedule };

struct FixingSpot {
  Side side = Side::Left;
  double at = 0;  ///< From the unit's lower left: jambs upwards, sill along x.
};

/// What is fixed beyond the practice's rule, because the wind asks for it.
struct MoreFixings {
  bool all_round = false;  ///< Sill and head too; of a door the head, its sill is fixed to the floor as its maker says.
  double spacing = 0;      ///< Largest distance between fixings, mm; 0: as the rule has it.
  int beside = 1;          ///< How many fixings stand each side of a mullion's end.
  int beside_transoms = 0;  ///< The same of a transom's end at a jamb; 0: those of the jamb take what it brings.
  bool operator==(const MoreFixings&) const = default;
};

/// By what their number is.
struct FixingNumber {
  FixingRule governs = FixingRule::Practice;  ///< Which of the two rules asked for more.
  int by_practice = 0;                        ///< On a jamb; 0: the practice names no spacing and no least number.
  int by_custom = 0;                          ///< On a jamb; 0: no custom is named.
  MoreFixings more;                           ///< Beyond the rule, because what it asks for doesn't hold.
};

struct FixingSpots : FixingNumber {
  FixingKind kind = FixingKind::ThroughReveal;
  std::vector<FixingSpot> spots;    ///< Left jamb upwards, right jamb upwards, sill left to right, head likewise.
  bool sill = false, head = false;  ///< Fixed along its length, not beside mullions alone.
  BarLines lines;                   ///< The bars whose ends are held, and the glass between them.
};

/// A fixing this near to a packer goes through it, mm: a packer's half length, and a hair for rounding.
inline constexpr double kAtPacker = kPackerLength / 2 + 1e-6;

/// The packers of a side, in their order along it.
[[nodiscard]] std::span<const PackingPoint> onSide(const Packing& packing, Side side);

[[nodiscard]] FixingSpots fixingSpots(const UnitSpec& unit, const Packing& packing, const practice::Practice& practice,
                                      const MoreFixings& more = {});

/// How many fixings a length needs: n = max(fewest, ⌈(length − 2·end) / most⌉ + 1).
[[nodiscard]] int fixingsNeeded(double length, double end, double most, int fewest);

}  // namespace sillwright::plan
