/// Packers: where they stand, how deep the gap is there, and which thicknesses fill it.
///
/// Points come from the practice and the unit's kind; a stack is the largest total not above its gap made from the
/// stock, with the fewest pieces (PackerTable). A stack is above its gap by no more than the timber gives: more
/// would bow the frame.
///
/// Sill: under each jamb, under the meeting stile of a sliding unit, and between them no further apart than the
/// practice allows. Jambs: from foot to head, no further apart than the practice allows. Head: nothing, unless the
/// practice says that it is packed. Where the practice names no spacing there are the end points only.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "plan/settle.h"
#include "plan/shape.h"
#include "plan/stand/place.h"
#include "practice/practice.h"

namespace sillwright::plan {

// The best stack for any gap, looked up: a table made once from the packers at hand.
//
// Best is: the largest total not above the gap, then the fewest pieces, then the thickest pieces. The table is the
// classical change-making recurrence (fewest coins for every sum) on a fine grid of thickness. The grid's step of
// 1/80 mm holds tenths of a millimetre and sixteenths of an inch exactly, so that stock in either is treated exactly;
// any other thickness counts as the next step up, which can only make a stack thinner than its gap.

/// Most pieces of one stack that are kept track of; practices allow fewer.
inline constexpr std::size_t kMostPieces = 6;

struct Stack {
  std::array<double, kMostPieces> piece{};  ///< Thicknesses, thickest first.
  int pieces = 0;
  double total = 0;
};

/// Stacks of packers are made up to this; deeper gaps want timber behind the packers whatever the practice says.
inline constexpr double kDeepestStack = 100;

/// A plain value of fixed size.
class PackerTable {
 public:
  /// `stock`: thicknesses in any order, repeats and sizes that aren't above 0 left aside; the 64 thinnest count.
  /// `most_pieces` is held to 0 … kMostPieces, `most_total` to kDeepestStack.
  PackerTable(std::span<const double> stock, int most_pieces, double most_total = kDeepestStack);

  /// The best stack for a gap. A gap that misses a stack's total by less than a thousandth of a grid step, which is
  /// rounding, still takes it.
  [[nodiscard]] Stack best(double gap) const;

 private:
  static constexpr int kStepsPerMm = 80;
  static constexpr std::size_t kSteps = static_cast<std::size_t>(kDeepestStack) * kStepsPerMm;
  static constexpr std::size_t kMostSizes = 64;

  void fill(int most_pieces);

  std::array<double, kMostSizes> size_{};          // thinnest first
  std::array<std::uint16_t, kMostSizes> steps_{};  // each in grid steps, rounded up
  std::size_t sizes_ = 0;
  std::size_t top_ = 0;                              // the grid's last step in use
  std::array<std::uint16_t, kSteps + 1> total_{};    // for each gap: the total of its best stack
  std::array<std::uint8_t, kSteps + 1> thickest_{};  // for each total: its thickest piece
};

/// Length of a packer on plan. From memory; it sets where a packer stands that is flush with the unit's corner.
inline constexpr double kPackerLength = 75;
/// What the timber yields, so that a gap of 9.99 takes a packer of 10, mm. Common practice, no source.
inline constexpr double kTimberGives = 0.2;
/// Thinnest timber backing that is worth fixing: thinner splits. Common practice, no source.
inline constexpr double kLeastBacking = 10;

struct PackingPoint {
  Side side = Side::Sill;
  double at = 0;   ///< Along the side, from the unit's lower left (sill and head: along x; jambs: up).
  double gap = 0;  ///< Clear gap there at the preferred stand. Negative: the unit stands in the timber.
  Stack stack;
  double left_over = 0;  ///< Gap less backing and stack.
  /// Timber backing wanted behind the stack where the gap is deeper than packers may fill, whole mm; 0: none.
  double backing = 0;
};

struct Packing {
  std::vector<PackingPoint> points;  ///< Sill left to right, left jamb upwards, right jamb upwards, head left to right.
  /// The jamb packed plumb before the unit goes in: the hinge side of a leaf hung at a side, else the jamb of the
  /// opening that is straighter and plumber over the unit's height, else the unit's hand.
  Side first_jamb = Side::Left;
  bool sill_full_bearing = false;  ///< A door whose practice packs no sill: it is bedded on its whole length.
};

/// The table of a stock under a practice's rules on stacks.
[[nodiscard]] PackerTable packerTable(std::span<const double> stock, const practice::Packing& rules);

/// `table` as made by packerTable with the same rules.
[[nodiscard]] Packing pack(const AsBuilt& opening, const UnitSpec& unit, const Stand& stand,
                           const practice::Packing& rules, const PackerTable& table);

/// Adds a packing point on a side, in its place among the others: where a fixing goes that meets no packer.
void packAt(Packing& packing, Side side, double at, const AsBuilt& opening, const UnitSpec& unit, const Stand& stand,
            const practice::Packing& rules, const PackerTable& table);

/// "10 + 5", with "timber 20 + " before it where a backing is wanted; "none" where nothing fills the gap.
[[nodiscard]] std::string stackWords(const PackingPoint& point, practice::Display display);

struct PackerCount {
  double thickness = 0;
  int count = 0;
  bool operator==(const PackerCount&) const = default;
};

/// How many packers of each thickness all these openings take, thinnest first.
[[nodiscard]] std::vector<PackerCount> packerTotals(std::span<const Packing> packings);

}  // namespace sillwright::plan
