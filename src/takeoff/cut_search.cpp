// The exact part: bars one by one, each holding the largest piece left, none losing more than there is to lose.

#include <algorithm>
#include <string>
#include <unordered_map>

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

}  // namespace sillwright::takeoff
