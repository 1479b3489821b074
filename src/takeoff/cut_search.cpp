// The exact part: bars one by one, each holding the largest piece left, none losing more than there is to lose.

#include <algorithm>
#include <functional>
#include <limits>
#include <string>
#include <unordered_map>
#include <utility>

#include "takeoff/cut_problem.h"

namespace sillwright::takeoff {

namespace {

constexpr std::size_t kMostCandidates = 4'000;  // for one bar; more: the search is no longer a proof
constexpr std::size_t kMostRemembered = 200'000;
constexpr std::size_t kMostTable = 2'000'000;  // entries of the table of worth
constexpr std::int64_t kVisit = 60;            // elementary steps of one node
constexpr std::int64_t kBegin = 2'000;         // of a search that finds nothing to do

class Completer {
 public:
  Completer(const Problem& problem, const Prices& prices, std::vector<int> left, Budget& budget)
      : problem_(problem), prices_(prices), left_(std::move(left)), budget_(budget) {
    budget_.spend(kBegin);
    tabulate();
  }

  Completion run(std::int64_t loss) {
    Completion completion;
    if (loss >= 0 && fillFrom(0, loss)) {
      completion.found = Found::Yes;
      completion.bars = std::move(bars_);
    } else {
      completion.found = open_ ? Found::Unknown : Found::No;
    }
    return completion;
  }

 private:
  struct Candidate {
    std::int64_t loss;
    std::int64_t filled;
    std::size_t stock;
    std::vector<Part> parts;
  };

  /// Most that the pieces of type t and smaller that there are can be worth in so many cells, for each t: a bounded
  /// knapsack, type by type from the smallest.
  void tabulate() {
    const std::size_t cells = prices_.best.size();
    if ((left_.size() + 1) * cells > kMostTable) return;  // the prices' own table, without bounds, has to do
    table_.assign(left_.size() + 1, {});
    table_.back().assign(cells, 0);
    for (std::size_t t = left_.size(); t-- > 0;) {
      table_[t] = table_[t + 1];
      budget_.spend(static_cast<std::int64_t>(cells / 4));
      const auto size = static_cast<std::size_t>(problem_.size[t] / prices_.cell);
      // So many pieces as single ones, pairs, fours … and a remainder make up every number there is.
      for (int rest = left_[t], some = 1; rest > 0; rest -= some, some = std::min(2 * some, rest)) {
        some = std::min(some, rest);
        const std::size_t wide = size * static_cast<std::size_t>(some);
        const std::int64_t worth = prices_.worth[t] * some;
        for (std::size_t c = cells; c-- > wide;) table_[t][c] = std::max(table_[t][c], table_[t][c - wide] + worth);
        budget_.spend(static_cast<std::int64_t>(cells));
      }
    }
  }

  [[nodiscard]] std::int64_t mostFrom(std::size_t t, std::int64_t room) const {
    return table_.empty() ? prices_.mostIn(room) : table_[t][static_cast<std::size_t>(room / prices_.cell)];
  }

  bool fillFrom(std::size_t first, std::int64_t loss) {
    while (first < left_.size() && left_[first] == 0) ++first;
    if (first == left_.size()) return true;
    const std::string key = keyFrom(first);
    const auto known = failed_.find(key);
    if (known != failed_.end() && known->second >= loss) return false;
    for (const Candidate& candidate : candidatesFor(first, loss)) {
      if (!budget_.spend(kVisit)) open_ = true;
      if (open_ && budget_.steps <= 0) return false;
      for (const Part& part : candidate.parts) left_[part.type] -= part.count;
      const bool done = fillFrom(first, loss - candidate.loss);
      for (const Part& part : candidate.parts) left_[part.type] += part.count;
      if (done) {
        bars_.push_back({candidate.stock, candidate.parts, 1});
        return true;
      }
    }
    // What failed with a cut-off search may still be cut: it is remembered all the same, for this search only, which is
    // no proof any more.
    if (failed_.size() < kMostRemembered) failed_[key] = loss;
    return false;
  }

  [[nodiscard]] std::string keyFrom(std::size_t first) const {
    std::string key;
    key.reserve(2 * (left_.size() - first) + 2);
    const auto put = [&](std::size_t n) {
      key += static_cast<char>(n & 0xFF);
      key += static_cast<char>(n >> 8 & 0xFF);
    };
    put(first);
    for (std::size_t t = first; t < left_.size(); ++t) put(static_cast<std::size_t>(left_[t]));
    return key;
  }

  std::vector<Candidate> candidatesFor(std::size_t first, std::int64_t loss) {
    std::vector<Candidate> found;
    for (std::size_t s = problem_.shortestFor(problem_.size[first]); s < problem_.stock.size(); ++s) {
      stock_ = s;
      need_ = problem_.stock[s] * Prices::kScale - loss;
      parts_.assign(1, {static_cast<std::uint32_t>(first), 1});
      --left_[first];  // the largest is in; further ones of its type are taken as any other
      extend(first, problem_.room(s) - problem_.size[first], prices_.worth[first], found);
      ++left_[first];
    }
    std::sort(found.begin(), found.end(), [](const Candidate& a, const Candidate& b) {
      return a.loss != b.loss ? a.loss < b.loss : a.filled > b.filled;
    });
    return found;
  }

  /// Adds pieces of type `t` and smaller in every number that may still be worth enough.
  void extend(std::size_t t, std::int64_t room, std::int64_t worth, std::vector<Candidate>& found) {
    if (found.size() >= kMostCandidates || !budget_.spend(kVisit)) {
      open_ = true;
      return;
    }
    while (t < left_.size() && (left_[t] == 0 || problem_.size[t] > room)) ++t;
    if (worth + mostFrom(t, room) < need_) return;
    if (t == left_.size()) return keep(room, worth, found);
    const auto most = static_cast<int>(std::min<std::int64_t>(left_[t], room / problem_.size[t]));
    for (int n = most; n >= 0; --n) {
      const bool same = n > 0 && parts_.back().type == t;
      if (same) {
        parts_.back().count += n;
      } else if (n > 0) {
        parts_.push_back({static_cast<std::uint32_t>(t), n});
      }
      left_[t] -= n;
      extend(t + 1, room - n * problem_.size[t], worth + n * prices_.worth[t], found);
      left_[t] += n;
      if (same) {
        parts_.back().count -= n;
      } else if (n > 0) {
        parts_.pop_back();
      }
    }
  }

  /// Keeps a bar's pieces, unless a shorter stock holds them or a piece that is left would still go in: then another
  /// candidate is at least as good.
  void keep(std::int64_t room, std::int64_t worth, std::vector<Candidate>& found) {
    const std::int64_t filled = problem_.room(stock_) - room;
    if (problem_.shortestFor(filled) != stock_) return;
    for (std::size_t t = left_.size(); t-- > 0 && problem_.size[t] <= room;) {
      if (left_[t] > 0) return;
    }
    found.push_back({problem_.stock[stock_] * Prices::kScale - worth, filled, stock_, parts_});
  }

  const Problem& problem_;
  const Prices& prices_;
  std::vector<int> left_;
  Budget& budget_;
  std::vector<std::vector<std::int64_t>> table_;
  std::vector<Pattern> bars_;
  std::unordered_map<std::string, std::int64_t> failed_;
  bool open_ = false;  // something was not looked at
  // Of the bar being filled:
  std::size_t stock_ = 0;
  std::int64_t need_ = 0;
  std::vector<Part> parts_;
};

}  // namespace

Completion complete(const Problem& problem, const Prices& prices, std::vector<int> demand, std::int64_t loss,
                    Budget& budget) {
  return Completer(problem, prices, std::move(demand), budget).run(loss);
}

// Where the cutting starts: the decreasing rules, good within a few per cent.

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
