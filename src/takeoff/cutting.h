/// Cutting pieces from stock lengths so that the least total length is bought: the one-dimensional cutting-stock
/// problem with several stock lengths, saw cuts counted.
///
/// The answer always carries a proven lower bound. It starts from first-fit decreasing and the least waste; the bound
/// is that of the linear programme over cutting patterns (Gilmore and Gomory 1961), rounded up to a sum that stock
/// lengths can make, and made safe against rounding by an exact integer check of its prices. It is never below the
/// bounds of Martello and Toth, which follow from particular prices. Patterns of the linear programme, rounded down and
/// completed by a search, mostly reach it; what is left open is searched bin by bin (bin completion), with the prices
/// cutting the tree. All of it runs within a budget of elementary steps, so that the same job gives the same answer on
/// every machine.
///
/// Millimetres. Pieces are taken to the nearest tenth, stock to the tenth below. A bar of length S yields pieces whose
/// sum and whose cuts between them are not above S less the trim; the cut behind the last piece may run out of the bar.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace sillwright::takeoff {

struct CutPiece {
  double length = 0;
  int count = 1;
};

struct CutRules {
  std::vector<double> stock;         ///< Lengths that can be bought, any number of each. Up to `trim` they are no use.
  double kerf = 0;                   ///< Width of a cut.
  std::int64_t steps = 200'000'000;  ///< Budget, about a nanosecond each; an answer without proof when it is spent.
  double trim = 0;                   ///< Taken off each stock length before the first piece.
};

/// A way of cutting one bar, and how many bars are cut so.
struct CutBar {
  double stock = 0;
  std::vector<double> pieces;  ///< Longest first.
  double offcut = 0;           ///< Left of one bar when it is trimmed and all cuts are made.
  int times = 1;
};

struct CutPlan {
  std::vector<CutBar> bars;        ///< Longest stock first, then longest piece first.
  double bought = 0;               ///< Sum of the bars' stock lengths.
  double used = 0;                 ///< Sum of the pieces.
  double bound = 0;                ///< No plan buys less than this. Equal to `bought`: the plan is proven best.
  std::vector<CutPiece> too_long;  ///< Longer than any stock: not in the bars.

  [[nodiscard]] bool proven() const { return bound >= bought; }
};

[[nodiscard]] CutPlan cut(std::span<const CutPiece> pieces, const CutRules& rules);

}  // namespace sillwright::takeoff
