/// Where the unit stands: level and plumb in the as-built opening, with the most to spare, and where it is then put.
///
/// `spare` is the largest m such that every gap is at least its least clearance plus m (a linear programme in x, z
/// and m, solved exactly, bowed edges included: clearing.h). Negative: it does not fit, by that much. The preferred
/// stand is chosen among all that fit: sill packing first, then sideways evenly.
///
/// Gaps are measured along x at the jambs and along z at sill and head, from the opening's edge to the outside of the
/// unit's frame, over the whole of the unit's side.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "plan/settle.h"
#include "plan/shape.h"
#include "plan/survey/survey.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// The least clearances that spare is counted from, mm.
struct LeastGaps {
  double left = 0, right = 0, sill = 0, head = 0;
};

/// Where along an edge a constraint sits. Jambs: foot, middle, head. Sill and head: left, middle, right.
enum class At : std::uint8_t { Start, Middle, End };

/// "foot", "middle", "head" of a jamb, "left", "middle", "right" of sill and head.
[[nodiscard]] constexpr const char* toWord(Side side, At at) {
  constexpr std::array<const char*, 3> kUpright{"foot", "middle", "head"};
  constexpr std::array<const char*, 3> kLevel{"left", "middle", "right"};
  const bool jamb = side == Side::Left || side == Side::Right;
  return (jamb ? kUpright : kLevel)[static_cast<std::size_t>(at)];
}

/// One constraint that governs the largest spare, with its multiplier λ; the weights sum to 1.
struct Governor {
  Side side = Side::Left;
  At at = At::Start;
  double weight = 0;
};

/// Clear gaps at the preferred stand, at the unit's own corners: [foot, head] for jambs, [left, right] for sill/head.
/// `closest` is the least gap over the whole side (a bowed edge may come nearest between the corners), by Side.
struct Gaps {
  std::array<double, 2> left{}, right{}, sill{}, head{};
  std::array<double, 4> closest{};

  [[nodiscard]] double widest(Side side) const { return std::max(bySide(*this, side)[0], bySide(*this, side)[1]); }
  /// Of those that are sealed all round: not the sill's.
  [[nodiscard]] double widestSealed() const {
    return std::max({widest(Side::Left), widest(Side::Right), widest(Side::Head)});
  }
};

enum class RemedyKind : std::uint8_t { TakeOffStud, TakeOffSill, TakeOffHead, NarrowerUnit, LowerUnit, TurnUnit };

struct Remedy {
  RemedyKind kind = RemedyKind::TakeOffStud;
  Side side = Side::Left;
  /// mm to take off, the size to order, or mm out of level over the unit's width (+: right end higher). Not rounded,
  /// but for the size to order, which is rounded down to the practice's step.
  double amount = 0;
  /// 0: cures alone. Remedies with the same number above 0 cure only when done together.
  int together = 0;
};

/// Most that a remedy takes off a stud, sill or head: the thickness of a usual stud. Common practice, no source.
inline constexpr double kMostTakenOff = 45;
/// Steepest turn that is looked at for a unit that fits only when turned, degrees.
inline constexpr double kMostTurnDegrees = 3;

/// A chance of fitting that is good enough to order and lift a unit by. The program's own choice.
inline constexpr double kSureEnough = 0.95;

struct Stand {
  bool fits = false;
  double spare = 0;
  double spare_sigma = 0;  ///< Of the sets of constraints that govern now.
  double chance = 0;       ///< That it fits.
  double unit_tolerance = 0;
  LeastGaps least;
  double x = 0;  ///< Unit's lower left corner, from BL, at the preferred stand.
  double z = 0;
  Gaps gaps;
  /// In the order of Side, then At. An edge that is exactly parallel to the unit governs with both its ends, and
  /// where several sets of constraints govern alike their weights are averaged: a mirrored opening has mirrored
  /// governors.
  std::array<Governor, 12> governed_by{};
  int governors = 0;
  double z_low = 0;  ///< Feasible range of z, for heads in line. Empty where z_low > z_high.
  double z_high = 0;
  double even_low = 0;      ///< The part of that range in which it can stand evenly between the jambs; the whole range
  double even_high = 0;     ///< where it can't at the preferred height.
  double sill_packing = 0;  ///< The practice's usual sill packing that the height was chosen with.
  /// Largest width at the planned height, largest height at the planned width, rounded down to the step. 0: none.
  std::array<double, 2> largest_unit{};
  /// What to order. The planned size where it fits with enough chance, or fits and nothing was read yet. Else the
  /// largest as above but with the usual clearances; where the planned other size leaves less than those, it is the
  /// largest that does leave them.
  std::array<double, 2> order{};
};

struct PlaceRules {
  LeastGaps least, usual;
  double usual_sill_packing = 0;
  double unit_tolerance = 0;
  double size_step = 1;
};

/// The practice's clearances for this opening and unit. A practice that names no value gives 0 and is told by `check`.
[[nodiscard]] PlaceRules placeRules(double opening_width, const UnitSpec& unit, const practice::Clearance& clearance);

/// Places a unit with such a head. No allocation.
///
/// Under a head that follows the roof the largest unit and what to order are not looked for: `largest_unit` is 0 and
/// `order` the planned size.
///
/// Height: the highest point of the sill under the unit plus the usual sill packing, moved the least that keeps the
/// least gaps; sideways, at that height: as much more than its least gap at the left as at the right. Where it
/// doesn't fit, the stand is the one of largest spare (all gaps are then short by no more than that).
///
/// `spare_sigma` follows from the weights λ of the governing constraints: λᵀΣλ with the corners' covariance, the bow's
/// standard error (one reading bows both edges of a pair, so they move together) and half the unit's tolerance as the
/// standard error of its width and of its height. It is of first order. `chance` is not the normal probability of that:
/// it is the probability that every set of constraints leaves something to spare, of which any may come to govern. An
/// edge whose middle was not read is taken as straight there.
[[nodiscard]] Stand place(const AsBuilt& opening, const HeadLine& unit, const PlaceRules& rules);

/// Moves the stand to height z and sets it sideways again for that height. z outside the stand's feasible range is
/// taken as the nearer end of it.
void raiseTo(Stand& stand, const AsBuilt& opening, const HeadLine& unit, double z);

/// What would make it fit: the least of each kind. Empty where it fits.
///
/// Where width and height are both short no one remedy cures; they then come in pairs (Remedy::together), the second
/// the least that is left when the first is done. TurnUnit tells how far out of level a unit stands that goes in only
/// when turned: that is never a fit. Under a head that follows the roof only what to take off one side is told.
[[nodiscard]] std::vector<Remedy> remedies(const AsBuilt& opening, const HeadLine& unit, const PlaceRules& rules,
                                           const Stand& stand);

/// Framed opening for a unit, with the usual clearances: width, height.
[[nodiscard]] std::array<double, 2> openingFor(double unit_width, double unit_height, const PlaceRules& rules);

// Whether a unit that stands out over a cavity has its sill carried across it, and whether the cavity is closed round
// its opening: as the practice asks.

[[nodiscard]] inline bool wantsSillSupport(const UnitSpec& unit, double opening_width, const WallSpec& wall,
                                           const practice::Practice& practice) {
  const practice::Rule& wider = practice.packing.cavity_support_above;
  return wall.cladding.cavity > 0 && wider && !unit.isDoor() && opening_width > wider->value;
}

/// The least thickness of timber that closes it; empty: the practice asks for none, or there is no cavity.
[[nodiscard]] inline practice::Rule cavityCloser(const WallSpec& wall, const practice::Practice& practice) {
  return wall.cladding.cavity > 0 ? practice.weather.cladding.cavity_barrier_least : practice::Rule{};
}

}  // namespace sillwright::plan
