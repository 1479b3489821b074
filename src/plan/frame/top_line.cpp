#include "plan/frame/top_line.h"

#include <cmath>

namespace sillwright::plan {

namespace {

constexpr double kSameSlope = 1e-12;  // below it rounding would set the crossing far off

/// One run of the top line, and how it sinks: square to itself by `down` is plumb by `down` × drop.
struct Sinking {
  double x = 0;
  double z = 0;
  double slope = 0;
  double drop = 1;
  std::size_t source = 0;  // index of its run in the top line, kept when others fall out

  [[nodiscard]] double at(double where, double down) const { return z + slope * (where - x) - drop * down; }
};

/// Where two neighbouring runs meet, `down` below: at x + speed × down.
struct Corner {
  double x = 0;
  double speed = 0;

  [[nodiscard]] double at(double down) const { return x + speed * down; }
};

/// Runs of one slope have no crossing: they meet square below the corner that they share.
Corner cornerOf(const Sinking& a, const Sinking& b) {
  const double turn = a.slope - b.slope;
  if (std::abs(turn) < kSameSlope) return {b.x, b.slope / b.drop};  // slope / drop is the sine: along the normal
  const bool neighbours = b.source == a.source + 1;  // the job gives their corner, so it isn't worked out
  return {neighbours ? b.x : b.x + (b.z - a.at(b.x, 0)) / turn, (a.drop - b.drop) / turn};
}

/// The runs as they sink, with the corners between them (corner[i] is run i's left end) and the plumb ends.
class Sink {
 public:
  explicit Sink(const std::vector<job::TopPoint>& top) : left_{top.front().x, 0}, right_{top.back().x, 0} {
    runs_.reserve(top.size() - 1);
    for (std::size_t i = 0; i + 1 < top.size(); ++i) {
      const double run = top[i + 1].x - top[i].x;
      if (!(run > 0)) continue;  // a plumb step has no run
      const double slope = (top[i + 1].z - top[i].z) / run;
      runs_.push_back({top[i].x, top[i].z, slope, std::hypot(1, slope), i});
    }
  }

  /// Lets the runs sink; those that shrink to nothing on the way fall out in the order in which that happens.
  void to(double down) {
    while (runs_.size() > 1) {  // the last one, between two plumb ends, can't shrink
      std::size_t first = 0;
      double soonest = down;  // a run that is gone only after `down` still has length there
      for (std::size_t i = 0; i < runs_.size(); ++i) {
        const double shrinks = cornerAt(i).speed - cornerAt(i + 1).speed;  // mm of its length a mm down
        if (shrinks <= 0) continue;                                        // it keeps its length, or grows
        const double gone_at = (cornerAt(i + 1).x - cornerAt(i).x) / shrinks;
        if (gone_at >= soonest) continue;  // of several at once the leftmost goes first
        soonest = gone_at;
        first = i;
      }
      if (soonest >= down) return;                                      // none is gone on the way
      runs_.erase(runs_.begin() + static_cast<std::ptrdiff_t>(first));  // its neighbours meet instead
    }
  }

  [[nodiscard]] const std::vector<Sinking>& runs() const { return runs_; }

  [[nodiscard]] Point point(std::size_t i, double down) const {
    const double x = cornerAt(i).at(down);
    if (i == 0) return {x, runs_.front().at(x, down)};  // the ends are plumb: x stays the wall's
    if (i == runs_.size()) return {x, runs_.back().at(x, down)};
    // By the flatter run: a level one keeps its height exactly.
    const bool left = std::abs(runs_[i - 1].slope) < std::abs(runs_[i].slope);
    return {x, (left ? runs_[i - 1] : runs_[i]).at(x, down)};
  }

 private:
  [[nodiscard]] Corner cornerAt(std::size_t i) const {
    if (i == 0) return left_;
    return i == runs_.size() ? right_ : cornerOf(runs_[i - 1], runs_[i]);
  }

  std::vector<Sinking> runs_;  // left to right, as at down = 0
  Corner left_;
  Corner right_;
};

}  // namespace

TopLine topLineBelow(const WallSpec& wall, double down) {
  TopLine line;
  const auto& top = wall.top;
  if (top.size() < 2 || !(wall.length > 0)) return line;
  Sink sink(top);
  if (sink.runs().empty()) return line;  // every run was a plumb step
  sink.to(down);
  line.corner.reserve(sink.runs().size() + 1);
  line.run.reserve(sink.runs().size());
  for (const Sinking& run : sink.runs()) line.run.push_back({run.slope, run.source});
  for (std::size_t i = 0; i <= sink.runs().size(); ++i) line.corner.push_back(sink.point(i, down));
  return line;
}

}  // namespace sillwright::plan
