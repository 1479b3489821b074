// Where the cutting starts: the decreasing rules, good within a few per cent.

#include <algorithm>
#include <functional>
#include <limits>
#include <utility>

#include "takeoff/cut_problem.h"

namespace sillwright::takeoff {
namespace {

/// Fills one bar with the longest of what is left that still fit. Returns what is filled.
std::int64_t fill(const Problem& problem, const std::vector<int>& left, std::int64_t room, std::size_t from,
                  std::vector<Part>& parts) {
  std::int64_t filled = 0;
  for (std::size_t t = from; t < problem.types() && filled + problem.size.back() <= room; ++t) {
    const auto fits = static_cast<int>(std::min<std::int64_t>(left[t], (room - filled) / problem.size[t]));
    if (fits <= 0) continue;
    filled += fits * problem.size[t];
    parts.push_back({static_cast<std::uint32_t>(t), fits});
  }
  return filled;
}

/// How many bars can be cut like this one.
int repeats(const std::vector<int>& left, const std::vector<Part>& parts) {
  int times = std::numeric_limits<int>::max();
  for (const Part& part : parts) times = std::min(times, left[part.type] / part.count);
  return times;
}

void take(std::vector<int>& left, const std::vector<Part>& parts, int times) {
  for (const Part& part : parts) left[part.type] -= part.count * times;
}

/// Adds all bars that can be cut like this one: while each type has as many pieces left, first-fit gives the same bar.
void addBars(std::vector<int>& left, Pattern bar, Solution& solution, const Problem& problem) {
  bar.times = repeats(left, bar.parts);
  take(left, bar.parts, bar.times);
  solution.cost += problem.stock[bar.stock] * bar.times;
  solution.bars.push_back(std::move(bar));
}

void skipEmpty(const std::vector<int>& left, std::size_t& first) {
  while (first < left.size() && left[first] == 0) ++first;
}

Solution firstFitInto(const Problem& problem, std::vector<int> left, std::size_t stock) {
  Solution solution;
  for (std::size_t first = 0;;) {
    skipEmpty(left, first);
    if (first == left.size()) return solution;
    Pattern bar;
    const std::int64_t room = std::max(problem.room(stock), problem.room(problem.shortestFor(problem.size[first])));
    bar.stock = problem.shortestFor(fill(problem, left, room, first, bar.parts));
    addBars(left, std::move(bar), solution, problem);
  }
}

/// The rule of least waste. Types that are used up are skipped over by links to the next one, shortened as they are
/// followed.
class WasteRule {
 public:
  WasteRule(const Problem& problem, std::vector<int> left) : problem_(problem), left_(std::move(left)) {
    for (std::size_t t = 0; t <= left_.size(); ++t) next_.push_back(t);
  }

  Solution run() {
    Solution solution;
    for (std::size_t first = nextLeft(0); first < left_.size(); first = nextLeft(first)) {
      best_ = {};
      least_ = std::numeric_limits<double>::infinity();
      const std::size_t shortest = problem_.shortestFor(problem_.size[first]);
      for (std::size_t s = shortest; s < problem_.stock.size(); ++s) trySeconds(first, problem_.room(s));
      addBars(left_, std::move(best_), solution, problem_);
    }
    return solution;
  }

 private:
  static constexpr std::size_t kSeconds = 48;

  std::size_t nextLeft(std::size_t t) {
    while (t < left_.size() && left_[t] == 0) {
      const std::size_t next = std::max(next_[t], t + 1);
      next_[t] = next < left_.size() && left_[next] == 0 ? std::max(next_[next], next + 1) : next;
      t = next;
    }
    return t;
  }

  [[nodiscard]] std::size_t longestFor(std::int64_t room) const {
    const auto at = std::lower_bound(problem_.size.begin(), problem_.size.end(), room, std::greater<>());
    return static_cast<std::size_t>(at - problem_.size.begin());
  }

  void trySeconds(std::size_t first, std::int64_t room) {
    parts_.assign(1, {static_cast<std::uint32_t>(first), 1});
    const std::int64_t after = room - problem_.size[first];
    const std::size_t from = std::max(first, longestFor(after));
    const std::size_t step = std::max<std::size_t>(1, (left_.size() - std::min(from, left_.size())) / kSeconds);
    for (std::size_t second = nextLeft(from); second < left_.size(); second = nextLeft(second + step)) {
      parts_.resize(1);
      parts_[0].count = 1;
      fillUp(second, room, after);
      if (least_ == 0) return;
    }
    if (from >= left_.size() || nextLeft(from) >= left_.size()) judge(room - after);
  }

  /// The longest pieces from `t` on that fit, as often as they fit.
  void fillUp(std::size_t t, std::int64_t room, std::int64_t free) {
    while (t < left_.size()) {
      const int taken = parts_.back().type == t ? parts_.back().count : 0;
      const auto fits = static_cast<int>(std::min<std::int64_t>(left_[t] - taken, free / problem_.size[t]));
      if (fits > 0) {
        free -= fits * problem_.size[t];
        if (taken > 0) {
          parts_.back().count += fits;
        } else {
          parts_.push_back({static_cast<std::uint32_t>(t), fits});
        }
      }
      t = nextLeft(std::max(t + 1, longestFor(free)));
    }
    judge(room - free);
  }

  void judge(std::int64_t filled) {
    const std::size_t stock = problem_.shortestFor(filled);
    const double waste =
        static_cast<double>(problem_.room(stock) - filled) / static_cast<double>(problem_.stock[stock]);
    if (waste >= least_) return;
    least_ = waste;
    best_ = {stock, parts_, 1};
  }

  const Problem& problem_;
  std::vector<int> left_;
  std::vector<std::size_t> next_;
  std::vector<Part> parts_;
  Pattern best_;
  double least_ = 0;
};

}  // namespace

std::size_t Problem::shortestFor(std::int64_t filled) const {
  const auto at = std::lower_bound(stock.begin(), stock.end(), filled - kerf + trim);
  return static_cast<std::size_t>(at - stock.begin());
}

std::int64_t costOf(const Problem& problem, const std::vector<Pattern>& bars) {
  std::int64_t cost = 0;
  for (const Pattern& bar : bars) cost += problem.stock[bar.stock] * bar.times;
  return cost;
}

Solution firstFit(const Problem& problem, const std::vector<int>& demand) {
  Solution best;
  for (std::size_t s = 0; s < problem.stock.size(); ++s) {
    Solution one = firstFitInto(problem, demand, s);
    if (s == 0 || one.cost < best.cost) best = std::move(one);
  }
  return best;
}

Solution leastWaste(const Problem& problem, std::vector<int> demand) {
  return WasteRule(problem, std::move(demand)).run();
}

}  // namespace sillwright::takeoff
