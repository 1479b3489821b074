/// Where the unit stands: level and plumb in the as-built opening, with the most to spare, and where it is then put.
///
/// `spare` is the largest m such that every gap is at least its least clearance plus m (a linear programme in x, z
/// and m, solved exactly). Negative: it does not fit, by that much. The preferred stand is chosen among all that fit:
/// sill packing first, then sideways evenly.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "plan/settle.h"
#include "plan/shape.h"
#include "plan/survey.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// The least clearances that spare is counted from, mm.
struct LeastGaps {
  double left = 0;
  double right = 0;
  double sill = 0;
  double head = 0;
};

/// Where along an edge a constraint sits.
enum class At : std::uint8_t { Start, Middle, End };  ///< Jambs: foot, middle, head. Sill and head: left, middle, right.

/// One constraint that governs the largest spare, with its multiplier λ; the weights sum to 1.
struct Governor {
  Side side = Side::Left;
  At at = At::Start;
  double weight = 0;
};

/// Clear gaps at the preferred stand, at the unit's own corners: [foot, head] for jambs, [left, right] for sill/head.
struct Gaps {
  std::array<double, 2> left{}, right{}, sill{}, head{};
};

enum class RemedyKind : std::uint8_t { TakeOffStud, TakeOffSill, TakeOffHead, NarrowerUnit, LowerUnit, TurnUnit };

struct Remedy {
  RemedyKind kind = RemedyKind::TakeOffStud;
  Side side = Side::Left;
  double amount = 0;  ///< mm to take off, the size to order, or mm out of level over the unit's width.
};

struct Stand {
  bool fits = false;
  double spare = 0;
  double spare_sigma = 0;
  double chance = 0;                    ///< That spare is above 0.
  double unit_tolerance = 0;
  LeastGaps least;
  double x = 0;                         ///< Unit's lower left corner, from BL, at the preferred stand.
  double z = 0;
  Gaps gaps;
  std::array<Governor, 4> governed_by{};
  int governors = 0;
  double z_low = 0;                     ///< Feasible range of z, for heads in line. Empty where z_low > z_high.
  double z_high = 0;
  std::array<double, 2> largest_unit{}; ///< Largest width at the planned height, largest height at the planned width.
  std::array<double, 2> order{};        ///< The same with the usual clearances.
};

struct PlaceRules {
  LeastGaps least;
  LeastGaps usual;
  double usual_sill_packing = 0;
  double unit_tolerance = 0;
  double size_step = 1;
};

/// The practice's clearances for this opening and unit. A practice that names no value gives 0 and is told by `check`.
[[nodiscard]] PlaceRules placeRules(double opening_width, const UnitSpec& unit, const practice::Clearance& clearance);

/// Places a unit of `width` × `height`. No allocation.
[[nodiscard]] Stand place(const AsBuilt& opening, double width, double height, const PlaceRules& rules);

/// Moves the stand to height z (inside its feasible range) and sets it sideways again for that height.
void raiseTo(Stand& stand, const AsBuilt& opening, double width, double height, double z);

/// What would make it fit: the least of each kind. Empty where it fits.
[[nodiscard]] std::vector<Remedy> remedies(const AsBuilt& opening, double width, double height, const PlaceRules& rules,
                                           const Stand& stand);

/// Framed opening for a unit, with the usual clearances: width, height.
[[nodiscard]] std::array<double, 2> openingFor(double unit_width, double unit_height, const PlaceRules& rules);

}  // namespace sillwright::plan
