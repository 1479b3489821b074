#include "takeoff/cutting.h"

#include <Eigen/Core>
#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <map>
#include <numeric>
#include <optional>
#include <utility>

namespace sillwright::takeoff {
namespace {

constexpr double kUnitsPerMm = 10;                // whole tenths: sums and comparisons are exact
constexpr std::size_t kMostTypes = 120;           // of pieces, for the linear programme
constexpr std::int64_t kMostCells = 6'400;        // whole millimetres of a 6 m bar
constexpr double kZero = 1e-9;                    // a figure of the linear programme below this is none
constexpr int kMostToComplete = 400;              // pieces that the search takes on
constexpr int kMostToSearch = 250;                // pieces that it is to prove something about
constexpr std::size_t kMostCandidates = 4'000;    // for one bar; more: the search is no longer a proof
constexpr std::size_t kMostRemembered = 200'000;  // states that failed, for memory's sake
constexpr std::int64_t kVisit = 60;               // elementary steps of one node of the search

std::int64_t units(double mm) { return std::llround(mm * kUnitsPerMm); }
/// The tenth below, as stock is taken: a piece is never longer than what it is cut from. What is off a tenth by
/// arithmetic alone counts as the tenth.
std::int64_t unitsBelow(double mm) { return std::llround(std::floor(mm * kUnitsPerMm + 1e-6)); }
double mm(std::int64_t units) { return static_cast<double>(units) / kUnitsPerMm; }
std::int64_t roundedUp(std::int64_t number, std::int64_t step) { return (number + step - 1) / step * step; }

/// The problem in whole tenths of a millimetre. A piece takes its length and one cut; a bar offers its length and one
/// cut, because the last cut needs no timber, less what is trimmed off its end.
struct Problem {
  std::vector<std::int64_t> size;   ///< Of each type of piece, its cut included; falling, no two alike.
  std::vector<int> demand;          ///< Of each type, above 0.
  std::vector<std::int64_t> stock;  ///< Lengths that are paid for; rising, no two alike.
  std::int64_t kerf = 0;
  std::int64_t trim = 0;  ///< Less than the shortest stock.
  std::int64_t step = 0;  ///< Greatest common divisor of the stock: every total is a multiple of it.

  [[nodiscard]] std::size_t types() const { return size.size(); }
  [[nodiscard]] std::int64_t room(std::size_t s) const { return stock[s] + kerf - trim; }
  /// The shortest stock that holds so much, cuts included.
  [[nodiscard]] std::size_t shortestFor(std::int64_t filled) const {
    return std::lower_bound(stock.begin(), stock.end(), filled - kerf + trim) - stock.begin();
  }
};

/// Of the numbers below `count` the first with the least key.
template <class Key>
std::size_t leastBy(std::size_t count, const Key& key) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < count; ++i) {
    if (key(i) < key(best)) best = i;
  }
  return best;
}

/// One bar's pieces by their types, rising, and how many bars are cut so.
struct Pattern {
  std::size_t stock = 0;  ///< Index.
  std::vector<std::size_t> pieces;
  int times = 1;
};
using Bars = std::vector<Pattern>;

/// The pieces that fit some stock, as a problem; the others are put aside.
Problem problemOf(std::span<const CutPiece> pieces, const CutRules& rules, std::vector<CutPiece>& too_long) {
  Problem problem;
  problem.kerf = std::max<std::int64_t>(0, units(rules.kerf));
  problem.trim = std::max<std::int64_t>(0, units(rules.trim));
  for (const double length : rules.stock) {
    const std::int64_t whole = unitsBelow(length);
    if (whole > problem.trim) problem.stock.push_back(whole);
  }
  std::sort(problem.stock.begin(), problem.stock.end());
  problem.stock.erase(std::unique(problem.stock.begin(), problem.stock.end()), problem.stock.end());
  for (const auto length : problem.stock) problem.step = std::gcd(problem.step, length);
  const std::int64_t longest = problem.stock.empty() ? 0 : problem.stock.back() - problem.trim;  // cuts not included

  std::map<std::int64_t, int, std::greater<>> types;
  for (const CutPiece& piece : pieces) {
    if (piece.count <= 0 || units(piece.length) <= 0) continue;
    if (units(piece.length) > longest) {
      too_long.push_back(piece);
    } else {
      types[units(piece.length) + problem.kerf] += piece.count;
    }
  }
  for (const auto& [size, count] : types) {
    problem.size.push_back(size);
    problem.demand.push_back(count);
  }
  return problem;
}

std::int64_t costOf(const Problem& problem, const Bars& bars) {
  std::int64_t cost = 0;
  for (const Pattern& bar : bars) cost += problem.stock[bar.stock] * bar.times;
  return cost;
}

void keepCheaper(const Problem& problem, Bars& best, Bars other) {
  if (costOf(problem, other) < costOf(problem, best)) best = std::move(other);
}

/// How many bars can be cut like this one.
int repeats(const std::vector<int>& left, const std::vector<std::size_t>& pieces) {
  std::map<std::size_t, int> count;
  for (const std::size_t type : pieces) ++count[type];
  int times = std::numeric_limits<int>::max();
  for (const auto& [type, number] : count) times = std::min(times, left[type] / number);
  return times;
}

void take(std::vector<int>& left, const std::vector<std::size_t>& pieces, int times) {
  for (const std::size_t type : pieces) left[type] -= times;
}

// Where the cutting starts: a decreasing rule, good within a few per cent.

/// Bar by bar: the largest piece left, a second one out of some tried, then the longest that fit; from the stock length
/// that leaves the smallest share of itself unused. `only` one stock length, then shortened, and the longest second
/// piece: first-fit decreasing.
Bars decreasing(const Problem& problem, std::vector<int> left, std::optional<std::size_t> only = {}) {
  constexpr std::size_t kSeconds = 48;
  Bars bars;
  std::vector<std::size_t> there(left.size());  // types with pieces left, rising
  std::iota(there.begin(), there.end(), 0);
  std::erase_if(there, [&](std::size_t t) { return left[t] == 0; });
  const auto longestFor = [&](std::int64_t room) -> std::size_t {
    const auto isLonger = [&](std::size_t t) { return problem.size[t] > room; };
    return std::partition_point(there.begin(), there.end(), isLonger) - there.begin();
  };
  while (!there.empty()) {
    const std::size_t first = there.front(), shortest = problem.shortestFor(problem.size[first]);
    Pattern best;
    double least = std::numeric_limits<double>::infinity();
    const auto tryBar = [&](std::int64_t room, std::size_t second) {
      std::vector<std::size_t> pieces{first};
      std::int64_t free = room - problem.size[first];
      for (std::size_t i = second; i < there.size(); i = std::max(i + 1, longestFor(free))) {
        const std::size_t t = there[i];
        const auto count = std::min<std::int64_t>(left[t] - (t == first ? 1 : 0), free / problem.size[t]);
        pieces.insert(pieces.end(), count, t);
        free -= count * problem.size[t];
      }
      const std::size_t stock = problem.shortestFor(room - free);
      const double waste =
          static_cast<double>(problem.room(stock) - room + free) / static_cast<double>(problem.stock[stock]);
      if (waste < least) least = waste, best = {stock, std::move(pieces), 1};
    };
    if (only) tryBar(problem.room(std::max(*only, shortest)), 0);
    for (std::size_t s = shortest; s < problem.stock.size() && !only; ++s) {
      const std::size_t from = longestFor(problem.room(s) - problem.size[first]);
      const std::size_t step = std::max<std::size_t>(1, (there.size() - from) / kSeconds);  // spread over all lengths
      std::size_t second = from;
      do tryBar(problem.room(s), second);
      while ((second += step) < there.size() && least > 0);
    }
    best.times = repeats(left, best.pieces);  // alike bars at once: many pieces, few patterns
    take(left, best.pieces, best.times);
    std::erase_if(there, [&](std::size_t t) { return left[t] == 0; });
    bars.push_back(std::move(best));
  }
  return bars;
}

Bars decreasingRules(const Problem& problem, const std::vector<int>& demand) {
  Bars best = decreasing(problem, demand, 0);
  for (std::size_t s = 1; s < problem.stock.size(); ++s) keepCheaper(problem, best, decreasing(problem, demand, s));
  keepCheaper(problem, best, decreasing(problem, demand));
  return best;
}

// The bound: the linear programme over cutting patterns, and prices from it that whole numbers prove.

/// Sizes in cells. Rounded up, whatever is cut by them can be cut; rounded down, whatever could be cut still can. Rooms
/// are rounded down, which loses nothing where every size is a whole number of cells.
struct Cells {
  std::vector<std::int64_t> size, room;
  std::int64_t cell = 0;

  Cells(const Problem& problem, bool up) {
    const std::int64_t most = problem.room(problem.stock.size() - 1);
    for (const auto each : problem.size) cell = std::gcd(cell, each);
    if (most / cell > kMostCells) cell = (most + kMostCells - 1) / kMostCells;  // coarser: a knapsack stays cheap
    for (std::size_t s = 0; s < problem.stock.size(); ++s) room.push_back(problem.room(s) / cell);
    // A piece as long as the longest stock can be rounded up past it.
    for (const auto each : problem.size) size.push_back(std::min((each + (up ? cell - 1 : 0)) / cell, room.back()));
  }
};

/// The unbounded knapsack for every room at once: most that pieces in so many cells are worth. `choice`: the last of
/// them; −1: none.
template <class Worth>
std::vector<Worth> knapsack(const Cells& cells, const std::vector<Worth>& worth, std::vector<int>& choice) {
  std::vector<Worth> best(cells.room.back() + 1, 0);
  choice.assign(best.size(), -1);
  for (std::size_t t = 0; t < worth.size(); ++t) {
    const std::size_t size = cells.size[t];
    if (!(worth[t] > 0) || size == 0) continue;  // 0 cells, rounded down: worth without end
    for (std::size_t c = size; c < best.size(); ++c) {
      if (best[c - size] + worth[t] <= best[c]) continue;
      best[c] = best[c - size] + worth[t];
      choice[c] = static_cast<int>(t);
    }
  }
  return best;
}

/// The linear programme's answer.
struct Relaxed {
  std::vector<double> price;  ///< Of a piece of each type; feasible but for rounding.
  Bars bars;                  ///< Times rounded down.
};

/// By column generation, with a basis of as many patterns as types. `steps`: what is left of the budget.
Relaxed relax(const Problem& problem, std::int64_t& steps) {
  const Cells cells(problem, true);
  const auto rows = static_cast<Eigen::Index>(problem.types());
  const auto costOfBar = [&](std::size_t s) { return static_cast<double>(problem.stock[s]); };
  Relaxed relaxed;
  Eigen::MatrixXd inverse = Eigen::MatrixXd::Zero(rows, rows);
  Eigen::VectorXd cost(rows), demand(rows), apart(rows);
  for (Eigen::Index t = 0; t < rows; ++t) {
    const auto times = [&](std::size_t s) { return cells.room[s] / cells.size[t]; };
    const auto costOfOne = [&](std::size_t s) { return costOfBar(s) / static_cast<double>(times(s)); };
    const std::size_t stock = leastBy(problem.stock.size(), costOfOne);
    relaxed.bars.push_back({stock, std::vector<std::size_t>(times(stock), t), 1});
    inverse(t, t) = 1.0 / static_cast<double>(times(stock));
    cost[t] = costOfBar(stock);
    demand[t] = problem.demand[t];
    // Demands are set a hair apart, each by another amount, so that no two rows leave the basis at once for ever.
    apart[t] = demand[t] + 1e-5 * (1 + static_cast<double>(t * 37 % 101) / 101);
  }
  Eigen::VectorXd x = inverse * apart, price(rows);
  double highest = -1;
  std::vector<int> choice;
  const std::int64_t a_round = cells.room.back() * rows + 3 * rows * rows;  // a knapsack and a pivot
  for (;;) {
    price = (inverse.transpose() * cost).cwiseMax(0);
    const auto best = knapsack<double>(cells, {price.begin(), price.end()}, choice);
    const auto ratioOf = [&](std::size_t s) { return best[cells.room[s]] / costOfBar(s); };
    const std::size_t stock = leastBy(problem.stock.size(), [&](std::size_t s) { return -ratioOf(s); });
    const double ratio = ratioOf(stock);  // most that a bar's pieces are worth, in its own cost
    // Prices scaled to be feasible bound the cost at any time (Farley 1990).
    if (const double bound = price.dot(demand) / ratio; bound > highest) {
      highest = bound;
      const Eigen::VectorXd scaled = price / ratio;
      relaxed.price.assign(scaled.begin(), scaled.end());
    }
    if (ratio <= 1 + kZero || (steps -= a_round) <= 0) break;
    Pattern enters{stock, {}, 1};
    Eigen::VectorXd column = Eigen::VectorXd::Zero(rows);
    for (std::int64_t c = cells.room[stock]; choice[c] >= 0; c -= cells.size[enters.pieces.back()]) {
      enters.pieces.push_back(choice[c]);
      ++column[choice[c]];
    }
    const Eigen::VectorXd change = inverse * column;
    const auto stepOf = [&](std::size_t i) { return change[i] > kZero ? x[i] / change[i] : HUGE_VAL; };
    const std::size_t leaves = leastBy(problem.types(), stepOf);
    const double step = stepOf(leaves);
    if (step == HUGE_VAL) break;  // which only rounding can bring about
    const Eigen::RowVectorXd row = inverse.row(leaves) / change[leaves];
    inverse -= change * row;
    inverse.row(leaves) = row;
    x = (x - step * change).cwiseMax(0);  // below 0 by rounding alone
    x[leaves] = step;
    cost[leaves] = costOfBar(stock);
    relaxed.bars[leaves] = std::move(enters);
  }
  x = inverse * demand;  // the true demand, not the one set apart
  for (Eigen::Index i = 0; i < rows; ++i) {
    relaxed.bars[i].times = static_cast<int>(std::floor(x[i] + 1e-6));  // what is whole but for rounding is whole
    std::sort(relaxed.bars[i].pieces.begin(), relaxed.bars[i].pieces.end());
  }
  return relaxed;
}

/// Prices of the pieces: no bar's pieces are worth more than the bar costs, so that the worth of all pieces is a lower
/// bound of the cost, and what a bar costs above its pieces' worth is lost for good.
struct Prices {
  static constexpr std::int64_t kScale = std::int64_t{1} << 16;  ///< Of worth, per unit of cost.
  std::vector<std::int64_t> worth;                               ///< Of one piece of each type.
  std::vector<std::int64_t> most;                                ///< That any pieces in so many cells are worth.
  std::int64_t cell = 1;
};

/// The linear programme's prices for sizes rounded down, lowered until no bar's pieces are worth more than it costs.
Prices wholePrices(const Problem& problem, std::vector<double> price) {
  const Cells cells(problem, false);  // rounded down: no bar that can be cut escapes the check
  Prices prices{std::vector<std::int64_t>(price.size()), {}, cells.cell};
  std::vector<int> choice;
  for (double ratio = 2; ratio > 1;) {
    for (std::size_t t = 0; t < price.size(); ++t)
      prices.worth[t] = cells.size[t] == 0 ? 0 : static_cast<std::int64_t>(price[t] * double(Prices::kScale));
    prices.most = knapsack(cells, prices.worth, choice);
    ratio = 1;
    for (std::size_t s = 0; s < problem.stock.size(); ++s) {
      const std::int64_t cost = problem.stock[s] * Prices::kScale, most = prices.most[cells.room[s]];
      if (most > cost) ratio = std::max(ratio, double(most) / double(cost) * (1 + 1e-10));  // and a hair, for rounding
    }
    for (double& each : price) each /= ratio;
  }
  return prices;
}

/// The bound of length alone, and of the longest piece.
std::int64_t lengthBound(const Problem& problem) {
  const auto length =
      std::inner_product(problem.size.begin(), problem.size.end(), problem.demand.begin(), std::int64_t{0});
  // A bar that costs S has room for S and a cut less the trim.
  const auto costBy = [&](std::size_t s) { return (length * problem.stock[s] - 1) / problem.room(s) + 1; };
  const std::int64_t least = costBy(leastBy(problem.stock.size(), costBy));
  return std::max(roundedUp(least, problem.step), problem.stock[problem.shortestFor(problem.size[0])]);
}

// The exact part.

/// Cuts pieces bar by bar so that no more is lost than there is to lose (bin completion): each bar holds the largest
/// piece left.
struct Completion {
  const Problem& problem;
  const Prices& prices;
  std::vector<int> left;
  std::int64_t& steps;
  Bars bars{};
  bool open = false;  ///< Something was not looked at, although there are steps left.
  std::map<std::vector<int>, std::int64_t> failed{};
  Pattern bar{};  ///< That is being filled.

  struct Candidate {
    std::int64_t loss, filled;
    Pattern bar;
  };
  std::vector<Candidate> found{};  ///< For one bar.

  /// True: the bars lose no more than that, in worth.
  bool find(std::int64_t loss) {
    const auto first = std::find_if(left.begin(), left.end(), [](int count) { return count > 0; });
    if (first == left.end()) return loss >= 0;
    const auto known = failed.find(left);
    if (loss < 0 || (known != failed.end() && known->second >= loss)) return false;
    for (Candidate& candidate : candidatesFor(first - left.begin(), loss)) {
      if ((steps -= kVisit) <= 0) return false;
      take(left, candidate.bar.pieces, 1);
      const bool done = find(loss - candidate.loss);
      take(left, candidate.bar.pieces, -1);
      if (!done) continue;
      bars.push_back(std::move(candidate.bar));
      return true;
    }
    // What failed with a cut-off search may still be cut: it is remembered all the same, for this search only, which is
    // no proof any more.
    if (failed.size() < kMostRemembered) failed[left] = loss;
    return false;
  }

  std::vector<Candidate> candidatesFor(std::size_t first, std::int64_t loss) {
    found.clear();
    for (std::size_t s = problem.shortestFor(problem.size[first]); s < problem.stock.size(); ++s) {
      bar = {s, {first}, 1};
      --left[first];  // the largest is in; further ones of its type are taken as any other
      const std::int64_t lost = problem.stock[s] * Prices::kScale - prices.worth[first];
      extend(first, problem.room(s) - problem.size[first], lost, loss);
      ++left[first];
    }
    std::sort(found.begin(), found.end(), [](const Candidate& a, const Candidate& b) {
      return std::pair(a.loss, -a.filled) < std::pair(b.loss, -b.filled);
    });
    return std::move(found);
  }

  /// Adds pieces of type `t` and smaller in every number that may still lose little enough. `lost`: should no more be
  /// added.
  void extend(std::size_t t, std::int64_t room, std::int64_t lost, std::int64_t loss) {
    if (found.size() >= kMostCandidates) open = true;
    if (found.size() >= kMostCandidates || (steps -= kVisit) <= 0) return;
    while (t < left.size() && (left[t] == 0 || problem.size[t] > room)) ++t;
    const bool ended = t == left.size();
    if (lost - (ended ? 0 : prices.most[room / prices.cell]) > loss) return;
    if (ended) return keep(room, lost);
    const auto most = static_cast<int>(std::min<std::int64_t>(left[t], room / problem.size[t]));
    bar.pieces.insert(bar.pieces.end(), most, t);
    left[t] -= most;
    for (int n = most; n >= 0; --n) {
      extend(t + 1, room - n * problem.size[t], lost - n * prices.worth[t], loss);
      if (n == 0) break;
      bar.pieces.pop_back();
      ++left[t];
    }
  }

  /// Keeps a bar, unless a shorter stock holds its pieces or a piece that is left would still go in: then another
  /// candidate is at least as good.
  void keep(std::int64_t room, std::int64_t lost) {
    const std::int64_t filled = problem.room(bar.stock) - room;
    if (problem.shortestFor(filled) != bar.stock) return;
    for (std::size_t t = left.size(); t-- > 0 && problem.size[t] <= room;) {
      if (left[t] > 0) return;
    }
    found.push_back({lost, filled, bar});
  }
};

/// A plan, and what no plan costs less than.
struct Solution {
  Bars bars;
  std::int64_t bound = 0;
};

/// Completes bars that are cut already, total by total from the bound, until a plan is found or the budget is spent.
/// Where none is cut, a total that can't be reached lifts the bound.
void search(const Problem& problem, const Prices& prices, const Bars& cut, Solution& best, std::int64_t& steps) {
  constexpr std::int64_t kBegin = 2'000;  // steps of a search that finds nothing to do
  std::vector<int> left = problem.demand;
  for (const Pattern& bar : cut) take(left, bar.pieces, bar.times);
  const int pieces = std::accumulate(left.begin(), left.end(), 0);
  if (pieces > (cut.empty() ? kMostToSearch : kMostToComplete)) return;
  const std::int64_t spent =
      std::inner_product(left.begin(), left.end(), prices.worth.begin(), costOf(problem, cut) * Prices::kScale);
  // Stock of odd lengths has steps of a tenth of a millimetre: totals that are spent already are not walked one by one.
  const std::int64_t least = roundedUp((spent + Prices::kScale - 1) / Prices::kScale, problem.step);
  for (std::int64_t cost = std::max(best.bound, least); cost < costOf(problem, best.bars); cost += problem.step) {
    const std::int64_t given = cut.empty() ? steps : steps / 3 + 1;
    std::int64_t share = given;
    Completion completion{problem, prices, left, share};
    const bool found = completion.find(cost * Prices::kScale - spent);
    steps -= given - share + kBegin;
    if (found) {
      completion.bars.insert(completion.bars.end(), cut.begin(), cut.end());
      return keepCheaper(problem, best.bars, std::move(completion.bars));
    }
    if (steps <= 0 || (cut.empty() && completion.open)) return;
    if (cut.empty()) best.bound = cost + problem.step;
  }
}

/// Lifts the bound to the linear programme's, and looks for bars that reach it.
void improve(const Problem& problem, Solution& best, std::int64_t steps) {
  std::int64_t to_relax = steps * 2 / 3;  // what it leaves goes to the search
  Relaxed relaxed = relax(problem, to_relax);
  steps = steps / 3 + std::max<std::int64_t>(0, to_relax);
  const Prices prices = wholePrices(problem, std::move(relaxed.price));
  std::vector<int> left = problem.demand;
  const std::int64_t worth = std::inner_product(left.begin(), left.end(), prices.worth.begin(), Prices::kScale - 1);
  best.bound = std::max(best.bound, roundedUp(worth / Prices::kScale, problem.step));
  Bars cut;
  for (Pattern& bar : relaxed.bars) {
    bar.times = std::min(bar.times, repeats(left, bar.pieces));
    if (bar.times <= 0) continue;
    take(left, bar.pieces, bar.times);
    cut.push_back(std::move(bar));
  }
  Bars rounded = decreasingRules(problem, left);
  rounded.insert(rounded.end(), cut.begin(), cut.end());
  keepCheaper(problem, best.bars, std::move(rounded));
  // First the few pieces that rounding left, a plan soon; then all of them, which alone can lift the bound.
  search(problem, prices, cut, best, steps);
  search(problem, prices, {}, best, steps);
}

/// Bars of a kind put together, in the order they are cut in.
std::vector<CutBar> barsOf(const Problem& problem, const Bars& patterns) {
  std::map<std::pair<double, std::vector<double>>, CutBar, std::greater<>> bars;
  for (const Pattern& pattern : patterns) {
    CutBar bar{mm(problem.stock[pattern.stock]), {}, 0, 0};
    std::int64_t free = problem.stock[pattern.stock] - problem.trim;
    for (const std::size_t type : pattern.pieces) {
      free -= problem.size[type];
      bar.pieces.push_back(mm(problem.size[type] - problem.kerf));
    }
    bar.offcut = mm(std::max<std::int64_t>(0, free));
    bars.try_emplace({bar.stock, bar.pieces}, bar).first->second.times += pattern.times;
  }
  std::vector<CutBar> all;
  for (auto& [how, bar] : bars) all.push_back(std::move(bar));
  return all;
}

}  // namespace

CutPlan cut(std::span<const CutPiece> pieces, const CutRules& rules) {
  CutPlan plan;
  const Problem problem = problemOf(pieces, rules, plan.too_long);
  if (problem.types() == 0) return plan;
  Solution best{decreasingRules(problem, problem.demand), lengthBound(problem)};
  if (best.bound < costOf(problem, best.bars) && problem.types() <= kMostTypes) improve(problem, best, rules.steps);
  plan.bars = barsOf(problem, best.bars);
  plan.bought = mm(costOf(problem, best.bars));
  plan.bound = mm(best.bound);
  for (std::size_t t = 0; t < problem.types(); ++t) plan.used += mm(problem.size[t] - problem.kerf) * problem.demand[t];
  return plan;
}

}  // namespace sillwright::takeoff
