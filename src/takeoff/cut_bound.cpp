// The linear programme over cutting patterns, and prices from it that whole numbers prove.

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "takeoff/cut_problem.h"

namespace sillwright::takeoff {
namespace {

constexpr std::int64_t kMostCells = 6'400;  // whole millimetres of a 6 m bar
constexpr std::size_t kMostGroups = 120;
constexpr double kZero = 1e-9;  // a figure of the linear programme below this is none

enum class Round : std::uint8_t { Up, Down };

/// The problem with sizes in cells and types in groups, all of a group as long as its longest (Up: whatever is cut from
/// it can be cut) or its shortest (Down: whatever could be cut still can).
struct Relaxed {
  std::vector<std::int64_t> size;  // falling; no two alike when there is one type a group
  std::vector<double> demand;
  std::vector<std::int64_t> room;
  std::vector<double> cost;
  std::vector<std::size_t> first;  // type of each group; one past the last at the end
  std::int64_t cell = 1;
};

Relaxed relax(const Problem& problem, Round round) {
  Relaxed relaxed;
  std::int64_t common = 0;
  for (const auto size : problem.size) common = std::gcd(common, size);
  const std::int64_t most = problem.room(problem.stock.size() - 1);
  // Rooms are rounded down to cells, which loses nothing where every size is a whole number of them.
  relaxed.cell = most / common <= kMostCells ? common : (most + kMostCells - 1) / kMostCells;
  for (std::size_t s = 0; s < problem.stock.size(); ++s) {
    relaxed.room.push_back(problem.room(s) / relaxed.cell);
    relaxed.cost.push_back(static_cast<double>(problem.stock[s]));
  }
  const std::size_t types = problem.types();
  const std::size_t a_group = (types + kMostGroups - 1) / kMostGroups;
  for (std::size_t t = 0; t < types; t += a_group) {
    const std::size_t end = std::min(t + a_group, types);
    const std::int64_t size = problem.size[round == Round::Up ? t : end - 1];
    relaxed.size.push_back(round == Round::Up ? (size + relaxed.cell - 1) / relaxed.cell : size / relaxed.cell);
    relaxed.first.push_back(t);
    relaxed.demand.push_back(std::accumulate(problem.demand.begin() + static_cast<std::ptrdiff_t>(t),
                                             problem.demand.begin() + static_cast<std::ptrdiff_t>(end), 0.0));
  }
  relaxed.first.push_back(types);
  // A piece as long as the longest stock can be rounded up past it.
  for (auto& size : relaxed.size)
    size = std::clamp<std::int64_t>(size, round == Round::Up ? 1 : 0, relaxed.room.back());
  return relaxed;
}

/// The unbounded knapsack for every room at once: most that pieces in so many cells are worth.
template <class Worth>
void knapsack(const Relaxed& relaxed, const std::vector<Worth>& worth, std::vector<Worth>& best,
              std::vector<int>* choice) {
  const auto cells = static_cast<std::size_t>(relaxed.room.back()) + 1;
  best.assign(cells, 0);
  if (choice != nullptr) choice->assign(cells, -1);
  for (std::size_t g = 0; g < relaxed.size.size(); ++g) {
    const auto size = static_cast<std::size_t>(relaxed.size[g]);
    if (!(worth[g] > 0) || size == 0) continue;
    for (std::size_t c = size; c < cells; ++c) {
      const Worth with = best[c - size] + worth[g];
      if (with <= best[c]) continue;
      best[c] = with;
      if (choice != nullptr) (*choice)[c] = static_cast<int>(g);
    }
  }
}

/// The restricted master programme: a basis of as many patterns as groups, and its inverse.
class Master {
 public:
  explicit Master(const Relaxed& relaxed) : relaxed_(relaxed), rows_(relaxed.size.size()) {
    inverse_.assign(rows_ * rows_, 0);
    for (std::size_t g = 0; g < rows_; ++g) {
      std::size_t stock = 0;
      double best = std::numeric_limits<double>::infinity();
      for (std::size_t s = 0; s < relaxed.room.size(); ++s) {
        const auto times = static_cast<double>(relaxed.room[s] / relaxed.size[g]);
        if (times < 1 || relaxed.cost[s] / times >= best) continue;
        best = relaxed.cost[s] / times;
        stock = s;
      }
      const int times = static_cast<int>(relaxed.room[stock] / relaxed.size[g]);
      columns_.push_back({stock, std::vector<int>(rows_, 0)});
      columns_.back().count[g] = times;
      inverse_[g * rows_ + g] = 1.0 / times;
      // Demands are set a hair apart, each by another amount, so that no two rows leave the basis at once for ever.
      demand_.push_back(relaxed.demand[g] + 1e-5 * (1 + static_cast<double>(g * 37 % 101) / 101));
      x_.push_back(demand_[g] / times);
    }
  }

  [[nodiscard]] std::vector<double> prices() const {
    std::vector<double> price(rows_, 0);
    for (std::size_t i = 0; i < rows_; ++i) {
      const double cost = relaxed_.cost[columns_[i].stock];
      for (std::size_t g = 0; g < rows_; ++g) price[g] += cost * inverse_[i * rows_ + g];
    }
    for (double& p : price) p = std::max(p, 0.0);
    return price;
  }

  /// Takes the pattern into the basis. False: nothing would leave it, which only rounding can bring about.
  bool enter(std::size_t stock, std::vector<int> count) {
    std::vector<double> change(rows_, 0);
    for (std::size_t i = 0; i < rows_; ++i) {
      for (std::size_t g = 0; g < rows_; ++g) {
        if (count[g] != 0) change[i] += inverse_[i * rows_ + g] * count[g];
      }
    }
    std::size_t leaves = rows_;
    double step = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < rows_; ++i) {
      if (change[i] > kZero && x_[i] / change[i] < step) {
        step = x_[i] / change[i];
        leaves = i;
      }
    }
    if (leaves == rows_) return false;
    pivot(leaves, change);
    for (std::size_t i = 0; i < rows_; ++i) x_[i] = i == leaves ? step : std::max(0.0, x_[i] - step * change[i]);
    columns_[leaves] = {stock, std::move(count)};
    return true;
  }

  /// The basis's patterns, as often as a whole number of times.
  [[nodiscard]] std::vector<Pattern> patterns() const {
    std::vector<Pattern> all;
    for (std::size_t i = 0; i < rows_; ++i) {
      double x = 0;
      for (std::size_t g = 0; g < rows_; ++g) x += inverse_[i * rows_ + g] * relaxed_.demand[g];
      const int times = static_cast<int>(std::floor(x + 1e-6));
      if (times <= 0) continue;
      Pattern pattern{columns_[i].stock, {}, times};
      for (std::size_t g = 0; g < rows_; ++g) {
        if (columns_[i].count[g] > 0) pattern.parts.push_back({static_cast<std::uint32_t>(g), columns_[i].count[g]});
      }
      all.push_back(std::move(pattern));
    }
    return all;
  }

 private:
  struct Column {
    std::size_t stock;
    std::vector<int> count;
  };

  void pivot(std::size_t row, const std::vector<double>& change) {
    double* at = &inverse_[row * rows_];
    for (std::size_t g = 0; g < rows_; ++g) at[g] /= change[row];
    for (std::size_t i = 0; i < rows_; ++i) {
      if (i == row || change[i] == 0) continue;
      double* other = &inverse_[i * rows_];
      for (std::size_t g = 0; g < rows_; ++g) other[g] -= change[i] * at[g];
    }
  }

  const Relaxed& relaxed_;
  std::size_t rows_;
  std::vector<double> inverse_, demand_, x_;
  std::vector<Column> columns_;
};

struct Answer {
  std::vector<double> price;  // feasible but for rounding
  std::vector<Pattern> patterns;
};

Answer solve(const Relaxed& relaxed, Budget& budget) {
  Master master(relaxed);
  Answer answer;
  double highest = -1;
  std::vector<double> best;
  std::vector<int> choice;
  const std::size_t groups = relaxed.size.size();
  const std::int64_t a_round =
      relaxed.room.back() * static_cast<std::int64_t>(groups) + 3 * static_cast<std::int64_t>(groups * groups);
  for (;;) {
    std::vector<double> price = master.prices();
    knapsack(relaxed, price, best, &choice);
    std::size_t stock = 0;
    double ratio = 0;  // most that a bar's pieces are worth, in its own cost
    for (std::size_t s = 0; s < relaxed.room.size(); ++s) {
      const double worth = best[static_cast<std::size_t>(relaxed.room[s])] / relaxed.cost[s];
      if (worth > ratio) ratio = worth, stock = s;
    }
    // Prices scaled to be feasible bound the cost at any time (Farley 1990).
    double bound = 0;
    for (std::size_t g = 0; g < groups; ++g) bound += price[g] * relaxed.demand[g] / ratio;
    if (bound > highest) {
      highest = bound;
      for (double& p : price) p /= ratio;
      answer.price = std::move(price);
    }
    if (ratio <= 1 + kZero || !budget.spend(a_round)) break;
    std::vector<int> count(groups, 0);
    for (auto c = static_cast<std::size_t>(relaxed.room[stock]); choice[c] >= 0;) {
      const auto g = static_cast<std::size_t>(choice[c]);
      ++count[g];
      c -= static_cast<std::size_t>(relaxed.size[g]);
    }
    if (!master.enter(stock, std::move(count))) break;
  }
  answer.patterns = master.patterns();
  return answer;
}

/// Prices in whole numbers for sizes rounded down, lowered until no bar's pieces are worth more than it costs.
Prices wholePrices(const Relaxed& relaxed, std::vector<double> price) {
  Prices prices;
  prices.cell = relaxed.cell;
  for (std::size_t g = 0; g < price.size(); ++g) {
    if (relaxed.size[g] == 0) price[g] = 0;
  }
  std::vector<std::int64_t> worth(price.size());
  for (double ratio = 2; ratio > 1;) {
    for (std::size_t g = 0; g < price.size(); ++g) {
      worth[g] = static_cast<std::int64_t>(std::floor(price[g] * static_cast<double>(Prices::kScale)));
    }
    knapsack(relaxed, worth, prices.best, nullptr);
    ratio = 1;
    for (std::size_t s = 0; s < relaxed.room.size(); ++s) {
      const auto cost = static_cast<std::int64_t>(relaxed.cost[s]) * Prices::kScale;
      const auto most = prices.best[static_cast<std::size_t>(relaxed.room[s])];
      if (most > cost) ratio = std::max(ratio, static_cast<double>(most) / static_cast<double>(cost) * (1 + 1e-10));
    }
    for (double& p : price) p /= ratio;
  }
  for (std::size_t g = 0; g < price.size(); ++g) {
    prices.worth.insert(prices.worth.end(), relaxed.first[g + 1] - relaxed.first[g], worth[g]);
  }
  return prices;
}

/// Worth of all pieces, up to the next total that stock lengths can make.
std::int64_t leastCost(const Problem& problem, const Prices& prices) {
  const std::int64_t worth = prices.worthOf(problem.demand);
  const std::int64_t unit = Prices::kScale * problem.step;
  return std::max((worth + unit - 1) / unit * problem.step, problem.stock[problem.shortestFor(problem.size[0])]);
}

/// Patterns of groups as patterns of types: each group gives its pieces in their order.
std::vector<Pattern> ungrouped(const Problem& problem, const Relaxed& relaxed, const std::vector<Pattern>& patterns) {
  std::vector<int> left = problem.demand;
  std::vector<std::size_t> at(relaxed.first.begin(), relaxed.first.end() - 1);
  std::vector<Pattern> all;
  for (const Pattern& pattern : patterns) {
    for (int times = pattern.times; times > 0;) {
      Pattern bar{pattern.stock, {}, times};
      bool enough = true;
      for (const Part& part : pattern.parts) {
        for (int count = part.count; count > 0 && enough;) {
          auto& t = at[part.type];
          while (t < relaxed.first[part.type + 1] && left[t] == 0) ++t;
          enough = t < relaxed.first[part.type + 1];
          if (!enough) break;
          const int some = std::min(count, left[t]);
          bar.parts.push_back({static_cast<std::uint32_t>(t), some});
          left[t] -= some;
          count -= some;
        }
      }
      if (!enough) break;
      for (const Part& part : bar.parts) bar.times = std::min(bar.times, 1 + left[part.type] / part.count);
      for (const Part& part : bar.parts) left[part.type] -= part.count * (bar.times - 1);
      times -= bar.times;
      all.push_back(std::move(bar));
    }
  }
  return all;
}

/// The bound of length alone: the pieces and their cuts.
Bound materialBound(const Problem& problem) {
  // A bar that costs S has room for S and a cut less the trim, so a piece is worth at least its length times the least
  // S / room: that of the shortest stock where a cut is more than the trim, else of the longest.
  double least = HUGE_VAL;
  for (std::size_t s = 0; s < problem.stock.size(); ++s) {
    least = std::min(least, static_cast<double>(problem.stock[s]) / static_cast<double>(problem.room(s)));
  }
  const double share = std::nextafter(least, 0.0) * static_cast<double>(Prices::kScale);
  Bound bound;
  for (const auto size : problem.size) {
    bound.prices.worth.push_back(static_cast<std::int64_t>(static_cast<double>(size) * share));
  }
  const std::int64_t most = problem.room(problem.stock.size() - 1);
  bound.prices.cell = most / kMostCells + 1;
  for (std::int64_t c = 0; c <= most / bound.prices.cell; ++c) {
    const auto room = static_cast<double>((c + 1) * bound.prices.cell - 1);
    bound.prices.best.push_back(static_cast<std::int64_t>(room * share) + 1);
  }
  bound.cost = leastCost(problem, bound.prices);
  return bound;
}

}  // namespace

Bound patternBound(const Problem& problem, Budget& budget) {
  const Relaxed up = relax(problem, Round::Up);
  Answer answer = solve(up, budget);
  Bound bound;
  bound.prices = wholePrices(relax(problem, Round::Down), std::move(answer.price));
  bound.patterns = ungrouped(problem, up, answer.patterns);
  bound.cost = leastCost(problem, bound.prices);
  if (Bound other = materialBound(problem); other.cost > bound.cost) {
    bound.prices = std::move(other.prices);
    bound.cost = other.cost;
  }
  return bound;
}

}  // namespace sillwright::takeoff
