/// The best stack for any gap, looked up: a table made once from the packers at hand.
///
/// Best is: the largest total not above the gap, then the fewest pieces, then the thickest pieces. The table is the
/// classical change-making recurrence (fewest coins for every sum) on a fine grid of thickness. The grid's step of
/// 1/80 mm holds tenths of a millimetre and sixteenths of an inch exactly, so that stock in either is treated exactly;
/// any other thickness counts as the next step up, which can only make a stack thinner than its gap.
#pragma once

#include <array>
#include <cstdint>
#include <span>

namespace sillwright::plan {

/// Most pieces of one stack that are kept track of; practices allow fewer.
inline constexpr std::size_t kMostPieces = 6;

struct Stack {
  std::array<double, kMostPieces> piece{};  ///< Thicknesses, thickest first.
  int pieces = 0;
  double total = 0;
};

/// Stacks of packers are made up to this; deeper gaps want timber behind the packers whatever the practice says.
inline constexpr double kDeepestStack = 100;

/// A plain value of fixed size; making one doesn't allocate.
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

}  // namespace sillwright::plan
