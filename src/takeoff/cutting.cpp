#include "takeoff/cutting.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numeric>
#include <utility>

#include "takeoff/cut_problem.h"

namespace sillwright::takeoff {
namespace {

constexpr double kUnitsPerMm = 10;
constexpr int kMostToComplete = 400;  ///< Pieces that the search takes on.
constexpr int kMostToSearch = 250;    ///< Pieces that it is to prove something about.

std::int64_t units(double mm) { return static_cast<std::int64_t>(std::llround(mm * kUnitsPerMm)); }
double mm(std::int64_t units) { return static_cast<double>(units) / kUnitsPerMm; }

/// The pieces that fit some stock, as a problem; the others are put aside.
Problem problemOf(std::span<const CutPiece> pieces, const CutRules& rules, std::vector<CutPiece>& too_long) {
  Problem problem;
  problem.kerf = std::max<std::int64_t>(0, units(rules.kerf));
  problem.trim = std::max<std::int64_t>(0, units(rules.trim));
  for (const double length : rules.stock) {
    const std::int64_t whole = units(tenthBelow(length));
    if (whole > problem.trim) problem.stock.push_back(whole);
  }
  std::sort(problem.stock.begin(), problem.stock.end());
  problem.stock.erase(std::unique(problem.stock.begin(), problem.stock.end()), problem.stock.end());
  problem.step = 0;
  for (const auto length : problem.stock) problem.step = std::gcd(problem.step, length);
  const std::int64_t longest = problem.stock.empty() ? 0 : problem.stock.back() - problem.trim;

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

void keepCheaper(Solution& best, Solution other) {
  if (other.cost < best.cost) best = std::move(other);
}

/// What is left to cut when the linear programme's patterns are cut as often as they go in whole, and their loss.
struct Rest {
  std::vector<int> demand;
  std::vector<Pattern> cut;
  std::int64_t loss = 0;
  int pieces = 0;
};

std::int64_t worthOf(const Prices& prices, const std::vector<Part>& parts) {
  std::int64_t worth = 0;
  for (const Part& part : parts) worth += prices.worth[part.type] * part.count;
  return worth;
}

Rest restAfter(const Problem& problem, const Bound& bound) {
  Rest rest{problem.demand, {}, 0, 0};
  for (Pattern pattern : bound.patterns) {
    for (const Part& part : pattern.parts) pattern.times = std::min(pattern.times, rest.demand[part.type] / part.count);
    if (pattern.times <= 0) continue;
    for (const Part& part : pattern.parts) rest.demand[part.type] -= part.count * pattern.times;
    rest.loss += pattern.times * (problem.stock[pattern.stock] * Prices::kScale - worthOf(bound.prices, pattern.parts));
    rest.cut.push_back(std::move(pattern));
  }
  rest.pieces = std::accumulate(rest.demand.begin(), rest.demand.end(), 0);
  return rest;
}

/// Rounds the linear programme's answer to whole bars.
void roundPatterns(const Problem& problem, const Bound& bound, Solution& best, Budget& budget) {
  const Rest rest = restAfter(problem, bound);
  Solution quick = firstFit(problem, rest.demand);
  keepCheaper(quick, leastWaste(problem, rest.demand));
  quick.bars.insert(quick.bars.end(), rest.cut.begin(), rest.cut.end());
  quick.cost = costOf(problem, quick.bars);
  keepCheaper(best, std::move(quick));
  if (rest.pieces == 0 || rest.pieces > kMostToComplete) return;
  const std::int64_t worth = bound.prices.worthOf(problem.demand);
  // Below this total the patterns that are cut already lose more than there is to lose. Stock of odd lengths has steps
  // of a tenth of a millimetre: they are not walked one by one.
  const std::int64_t least = (worth + rest.loss + Prices::kScale - 1) / Prices::kScale;
  const std::int64_t skipped = std::max<std::int64_t>(0, (least - bound.cost + problem.step - 1) / problem.step);
  for (std::int64_t cost = bound.cost + skipped * problem.step; cost < best.cost && budget.steps > 0;
       cost += problem.step) {
    Budget share{budget.steps / 3 + 1};
    const std::int64_t given = share.steps;
    Completion done = complete(problem, bound.prices, rest.demand, cost * Prices::kScale - worth - rest.loss, share);
    budget.spend(given - share.steps);
    if (done.found != Found::Yes) continue;
    done.bars.insert(done.bars.end(), rest.cut.begin(), rest.cut.end());
    const std::int64_t reached = costOf(problem, done.bars);
    keepCheaper(best, {std::move(done.bars), reached});
    return;
  }
}

/// Proves the bound higher, total by total, until a plan is found that meets it or the budget is spent.
void search(const Problem& problem, Bound& bound, Solution& best, Budget& budget) {
  if (std::accumulate(problem.demand.begin(), problem.demand.end(), std::int64_t{0}) > kMostToSearch) return;
  const std::int64_t worth = bound.prices.worthOf(problem.demand);
  while (bound.cost < best.cost && budget.steps > 0) {
    Completion done = complete(problem, bound.prices, problem.demand, bound.cost * Prices::kScale - worth, budget);
    if (done.found == Found::Unknown) return;
    if (done.found == Found::Yes) {
      const std::int64_t reached = costOf(problem, done.bars);
      keepCheaper(best, {std::move(done.bars), reached});
      return;
    }
    bound.cost += problem.step;
  }
}

CutBar barOf(const Problem& problem, const Pattern& pattern) {
  CutBar bar;
  std::int64_t filled = 0;
  for (const Part& part : pattern.parts) {
    filled += problem.size[part.type] * part.count;
    bar.pieces.insert(bar.pieces.end(), static_cast<std::size_t>(part.count),
                      mm(problem.size[part.type] - problem.kerf));
  }
  bar.stock = mm(problem.stock[pattern.stock]);
  bar.offcut = mm(std::max<std::int64_t>(0, problem.stock[pattern.stock] - problem.trim - filled));
  bar.times = pattern.times;
  return bar;
}

/// Bars of a kind put together, in the order they are cut in.
std::vector<CutBar> barsOf(const Problem& problem, const Solution& solution) {
  std::vector<CutBar> bars;
  for (const Pattern& pattern : solution.bars) bars.push_back(barOf(problem, pattern));
  std::sort(bars.begin(), bars.end(), [](const CutBar& a, const CutBar& b) {
    return a.stock != b.stock ? a.stock > b.stock : a.pieces > b.pieces;
  });
  std::vector<CutBar> merged;
  for (CutBar& bar : bars) {
    if (!merged.empty() && merged.back().stock == bar.stock && merged.back().pieces == bar.pieces) {
      merged.back().times += bar.times;
    } else {
      merged.push_back(std::move(bar));
    }
  }
  return merged;
}

}  // namespace

double tenthBelow(double mm) { return std::floor(mm * kUnitsPerMm + 1e-6) / kUnitsPerMm; }

CutPlan cut(std::span<const CutPiece> pieces, const CutRules& rules) {
  CutPlan plan;
  const Problem problem = problemOf(pieces, rules, plan.too_long);
  if (problem.types() == 0) return plan;
  Solution best = firstFit(problem, problem.demand);
  keepCheaper(best, leastWaste(problem, problem.demand));

  Budget for_bound{rules.steps * 2 / 3};
  Bound bound = patternBound(problem, for_bound);
  Budget budget{rules.steps / 3 + std::max<std::int64_t>(0, for_bound.steps)};
  if (bound.cost < best.cost) roundPatterns(problem, bound, best, budget);
  if (bound.cost < best.cost) search(problem, bound, best, budget);

  plan.bars = barsOf(problem, best);
  plan.bought = mm(best.cost);
  plan.bound = mm(bound.cost);
  for (std::size_t t = 0; t < problem.types(); ++t) {
    plan.used += mm(problem.size[t] - problem.kerf) * problem.demand[t];
  }
  return plan;
}

}  // namespace sillwright::takeoff
