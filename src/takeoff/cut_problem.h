/// Inside the room: the cutting problem in whole numbers, and the steps of its solution.
///
/// A piece takes its length and one cut; a bar offers its length and one cut, because the last cut needs no timber,
/// less what is trimmed off its end. Unit: a tenth of a millimetre.
#pragma once

#include <cstdint>
#include <numeric>
#include <vector>

namespace sillwright::takeoff {

struct Problem {
  std::vector<std::int64_t> size;   ///< Of each type of piece, its cut included; falling, no two alike.
  std::vector<int> demand;          ///< Of each type, above 0.
  std::vector<std::int64_t> stock;  ///< Lengths that are paid for; rising, no two alike.
  std::int64_t kerf = 0;
  std::int64_t trim = 0;  ///< Less than the shortest stock.
  std::int64_t step = 1;  ///< Greatest common divisor of the stock: every total is a multiple of it.

  [[nodiscard]] std::size_t types() const { return size.size(); }
  [[nodiscard]] std::int64_t room(std::size_t s) const { return stock[s] + kerf - trim; }
  /// The shortest stock that holds so much, cuts included.
  [[nodiscard]] std::size_t shortestFor(std::int64_t filled) const;
};

struct Part {
  std::uint32_t type = 0;
  int count = 0;
  bool operator==(const Part&) const = default;
};

/// One bar's pieces, in rising type (falling size), and how many bars are cut so.
struct Pattern {
  std::size_t stock = 0;  ///< Index.
  std::vector<Part> parts;
  int times = 1;
};

struct Solution {
  std::vector<Pattern> bars;
  std::int64_t cost = 0;
};

[[nodiscard]] std::int64_t costOf(const Problem& problem, const std::vector<Pattern>& bars);

/// What is left of a budget.
struct Budget {
  std::int64_t steps = 0;
  bool spend(std::int64_t some) {
    steps -= some;
    return steps > 0;
  }
};

/// First-fit decreasing with each stock length in turn, bars then shortened; the cheapest. Bars filled one after the
/// other with the longest that still fits are first-fit decreasing's own.
[[nodiscard]] Solution firstFit(const Problem& problem, const std::vector<int>& demand);
/// Bar by bar: the largest piece left, a second one out of some tried, then the longest that fit; from the stock length
/// that leaves the smallest share of itself unused. Good where there are many different pieces.
[[nodiscard]] Solution leastWaste(const Problem& problem, std::vector<int> demand);

/// Prices of the pieces: no bar's pieces are worth more than the bar costs, so that the worth of all pieces is a lower
/// bound of the cost, and what a bar costs above its pieces' worth is lost for good.
struct Prices {
  static constexpr std::int64_t kScale = std::int64_t{1} << 16;  ///< Of worth, per unit of cost.
  std::vector<std::int64_t> worth;                               ///< Of one piece of each type.
  std::vector<std::int64_t> best;  ///< Most that any pieces in `cell` units are worth, by cells.
  std::int64_t cell = 1;

  [[nodiscard]] std::int64_t mostIn(std::int64_t room) const { return best[static_cast<std::size_t>(room / cell)]; }
  /// Of so many pieces of each type.
  [[nodiscard]] std::int64_t worthOf(const std::vector<int>& demand) const {
    return std::inner_product(worth.begin(), worth.end(), demand.begin(), std::int64_t{0});
  }
};

struct Bound {
  Prices prices;
  std::int64_t cost = 0;          ///< Least cost, a multiple of Problem::step.
  std::vector<Pattern> patterns;  ///< Of the linear programme's answer, times rounded down.
};

/// The linear programme over patterns by column generation. Where there are too many types or too fine lengths it is
/// solved with sizes rounded up, so that its patterns can be cut; its prices are then lowered until they hold for sizes
/// rounded down, so that the bound holds.
[[nodiscard]] Bound patternBound(const Problem& problem, Budget& budget);

enum class Found : std::uint8_t { Yes, No, Unknown };

struct Completion {
  Found found = Found::Unknown;
  std::vector<Pattern> bars;
};

/// Cuts `demand` so that no more than `loss` (in worth) is lost, bar by bar: each bar holds the largest piece left.
[[nodiscard]] Completion complete(const Problem& problem, const Prices& prices, std::vector<int> demand,
                                  std::int64_t loss, Budget& budget);

}  // namespace sillwright::takeoff
