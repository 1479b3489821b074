#include "scene/build/strips.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace sillwright::scene {
namespace {

constexpr double kNear = 1e-6;     // heights and places closer than this are the same
constexpr double kThinnest = 0.5;  // a strip's pointed side is opened by so much: thinner faces can't be drawn steadily

void addCrossing(std::vector<double>& at, const glm::dvec2& a, const glm::dvec2& b, double level) {
  if ((a.y - level) * (b.y - level) < 0) at.push_back(a.x + (level - a.y) / (b.y - a.y) * (b.x - a.x));
}

void sortUnique(std::vector<double>& values) {
  std::sort(values.begin(), values.end());
  values.erase(std::unique(values.begin(), values.end(), [](double a, double b) { return b - a < kNear; }),
               values.end());
}

bool isLevel(const Line& line) {
  return std::all_of(line.begin(), line.end(), [&](const glm::dvec2& p) { return std::abs(p.y - line[0].y) < kNear; });
}

/// Where a sloped edge of a hole crosses the bottom and the top line.
void addSlopedEdge(std::vector<double>& at, const glm::dvec2& a, const glm::dvec2& b, const Line& top, double bottom) {
  if (std::abs(a.y - b.y) < kNear) return;
  addCrossing(at, a, b, bottom);
  for (std::size_t i = 0; i + 1 < top.size(); ++i) {
    const double from = std::max(a.x, top[i].x);
    const double to = std::min(b.x, top[i + 1].x);
    const auto above = [&](double x) { return heightAt({a, b}, x) - heightAt({top[i], top[i + 1]}, x); };
    if (to > from) addCrossing(at, {from, above(from)}, {to, above(to)}, 0);
  }
}

/// Every x at which the make-up of the area changes.
std::vector<double> breaks(const Line& top, double bottom, std::span<const Strip> holes) {
  const double first = top.front().x;
  const double last = top.back().x;
  std::vector<double> at;
  at.reserve(top.size() + 2 * holes.size());
  for (const glm::dvec2& point : top) at.push_back(point.x);
  for (const Strip& hole : holes) {
    at.push_back(std::clamp(hole.x0, first, last));
    at.push_back(std::clamp(hole.x1, first, last));
    addSlopedEdge(at, {hole.x0, hole.left.low}, {hole.x1, hole.right.low}, top, bottom);
    addSlopedEdge(at, {hole.x0, hole.left.high}, {hole.x1, hole.right.high}, top, bottom);
  }
  if (!isLevel(top)) {
    for (std::size_t i = 0; i + 1 < top.size(); ++i) {
      addCrossing(at, top[i], top[i + 1], bottom);
      for (const Strip& hole : holes) {
        addCrossing(at, top[i], top[i + 1], hole.lowest());
        addCrossing(at, top[i], top[i + 1], hole.highest());
      }
    }
  }
  sortUnique(at);
  return at;
}

/// One column between two breaks, being filled.
struct Column {
  double x0 = 0;
  double x1 = 0;
  double top0 = 0;
  double top1 = 0;
  std::vector<Strip> gone;     // what holes take out, sorted
  std::vector<double> levels;  // where holes beside it begin and end
};

/// An edge across a column: its height at both sides.
struct Across {
  double left = 0;
  double right = 0;
  [[nodiscard]] double middle() const { return (left + right) / 2; }
};

void addPiece(std::vector<Strip>& made, const Column& column, Across low, Across high) {
  Strip strip{column.x0, column.x1, {low.left, high.left}, {low.right, high.right}, kAllEdges, false};
  if (strip.left.length() < kNear && strip.right.length() < kNear) return;
  if (strip.left.length() < -kNear || strip.right.length() < -kNear) return;
  strip.left.high = std::max(strip.left.high, strip.left.low + kThinnest);
  strip.right.high = std::max(strip.right.high, strip.right.low + kThinnest);
  made.push_back(strip);
}

/// Fills the free stretch between two edges, split at the levels inside it.
void fill(std::vector<Strip>& made, const Column& column, Across low, Across high) {
  const std::size_t first = made.size();
  const double least_top = std::min(high.left, high.right);
  for (const double level : column.levels) {
    if (level <= std::max(low.left, low.right) + kNear || level >= least_top - kNear) continue;
    addPiece(made, column, low, {level, level});
    low = {level, level};
  }
  addPiece(made, column, low, high);
  for (std::size_t i = first; i < made.size(); ++i) {
    if (i > first) made[i].edges &= static_cast<std::uint16_t>(~kBottomLong);
    if (i + 1 < made.size()) made[i].edges &= static_cast<std::uint16_t>(~kTopLong);
  }
}

void fillColumn(std::vector<Strip>& made, const Column& column, double bottom) {
  const Across top{column.top0, column.top1};
  Across low{bottom, bottom};
  for (const Strip& hole : column.gone) {
    const Across foot{hole.left.low, hole.right.low};
    const Across head{hole.left.high, hole.right.high};
    if (foot.middle() >= top.middle() - kNear) break;
    if (foot.middle() > low.middle() + kNear) fill(made, column, low, foot);
    if (head.middle() > low.middle()) low = head;
  }
  if (low.middle() < top.middle() - kNear / 2) fill(made, column, low, top);
}

/// The holes that touch a column, as the columns go from left to right: no hole is looked at where it isn't near.
class NearHoles {
 public:
  explicit NearHoles(std::span<const Strip> holes) {
    for (const Strip& hole : holes) {
      if (hole.x1 - hole.x0 > kNear && hole.highest() - hole.lowest() > kNear) waiting_.push_back(hole);
    }
    std::sort(waiting_.begin(), waiting_.end(), [](const Strip& a, const Strip& b) { return a.x0 < b.x0; });
  }

  const std::vector<Strip>& at(double x0, double x1) {
    while (next_ < waiting_.size() && waiting_[next_].x0 < x1 + kNear) here_.push_back(waiting_[next_++]);
    std::erase_if(here_, [x0](const Strip& hole) { return hole.x1 < x0 - kNear; });
    return here_;
  }

 private:
  std::vector<Strip> waiting_;
  std::vector<Strip> here_;
  std::size_t next_ = 0;
};

bool overlap(const Range& a, const Range& b) {
  return std::min(a.high, b.high) - std::max(a.low, b.low) > 2 * kThinnest;
}

bool endsAt(const Range& range, double z) {
  return std::abs(range.low - z) < kNear || std::abs(range.high - z) < kNear;
}

/// What a side has beside it: a seam along its whole length, or a corner of a hole at its foot or head.
struct Beside {
  bool seam = false;
  bool corner_low = false;
  bool corner_high = false;
};

Beside look(const Range& side, std::span<const Strip> neighbours, bool at_left) {
  Beside beside;
  for (const Strip& strip : neighbours) {
    const Range& other = at_left ? strip.right : strip.left;
    beside.seam = beside.seam || overlap(side, other);
    beside.corner_low = beside.corner_low || endsAt(other, side.low);
    beside.corner_high = beside.corner_high || endsAt(other, side.high);
  }
  return beside;
}

bool inked(std::uint16_t edges, std::uint16_t bits) { return (edges & bits) == bits; }

/// Takes the ink off seams. An edge through the sheet stays where the outline turns: between two open sides, or at a
/// hole's corner.
void inkSides(Strip& strip, const Beside& left, const Beside& right) {
  const bool bottom = inked(strip.edges, kBottomLong);
  const bool top = inked(strip.edges, kTopLong);
  const auto clear = [&strip](std::uint16_t bits) { strip.edges &= static_cast<std::uint16_t>(~bits); };
  if (left.seam) clear(kLeftHigh);
  if (right.seam) clear(kRightHigh);
  if (left.seam || !(bottom || left.corner_low)) clear(kDeepBottomLeft);
  if (left.seam || !(top || left.corner_high)) clear(kDeepTopLeft);
  if (right.seam || !(bottom || right.corner_low)) clear(kDeepBottomRight);
  if (right.seam || !(top || right.corner_high)) clear(kDeepTopRight);
}

/// First and last strip of each column, one more entry than columns.
void inkSeams(std::vector<Strip>& made, const std::vector<std::size_t>& start) {
  const std::span<const Strip> all(made);
  for (std::size_t column = 0; column + 1 < start.size(); ++column) {
    const auto of = [&](std::size_t c) { return all.subspan(start[c], start[c + 1] - start[c]); };
    const std::span<const Strip> before = column > 0 ? of(column - 1) : std::span<const Strip>{};
    const std::span<const Strip> after = column + 2 < start.size() ? of(column + 1) : std::span<const Strip>{};
    for (std::size_t i = start[column]; i < start[column + 1]; ++i) {
      const Beside left = look(made[i].left, before, true);
      const Beside right = look(made[i].right, after, false);
      inkSides(made[i], left, right);
      made[i].joined = left.seam || i > start[column];
    }
  }
}

}  // namespace

double heightAt(const Line& line, double x) {
  std::size_t i = 1;
  while (i + 1 < line.size() && line[i].x < x) ++i;
  const glm::dvec2& a = line[i - 1];
  const glm::dvec2& b = line[i];
  if (b.x - a.x < kNear) return a.y;
  return a.y + (x - a.x) / (b.x - a.x) * (b.y - a.y);
}

double highest(const Line& line) {
  return std::max_element(line.begin(), line.end(), [](const auto& a, const auto& b) { return a.y < b.y; })->y;
}

Line cappedLine(const Line& line, double x0, double x1, double cap) {
  std::vector<double> at = {x0, x1};
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i].x > x0 && line[i].x < x1) at.push_back(line[i].x);
  }
  sortUnique(at);
  Line capped;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const glm::dvec2 point{at[i], heightAt(line, at[i])};
    if (i > 0) {
      const glm::dvec2 before{at[i - 1], heightAt(line, at[i - 1])};
      if ((before.y - cap) * (point.y - cap) < 0) {
        capped.emplace_back(before.x + (cap - before.y) / (point.y - before.y) * (point.x - before.x), cap);
      }
    }
    capped.emplace_back(point.x, std::min(point.y, cap));
  }
  return capped;
}

std::vector<Strip> stripsOf(const std::vector<plan::Point>& polygon, double x, double z) {
  std::vector<double> at;
  for (const plan::Point& point : polygon) at.push_back(point.x);
  sortUnique(at);
  std::vector<Strip> made;
  std::vector<std::size_t> start = {0};
  const auto rangeAt = [&](double where) {
    Range range{HUGE_VAL, -HUGE_VAL};
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const plan::Point& a = polygon[i];
      const plan::Point& b = polygon[(i + 1) % polygon.size()];
      if (std::min(a.x, b.x) > where + kNear || std::max(a.x, b.x) < where - kNear) continue;
      const bool upright = std::abs(b.x - a.x) < kNear;
      const double from = upright ? a.z : a.z + (b.z - a.z) * (where - a.x) / (b.x - a.x);
      const double to = upright ? b.z : from;
      range = {std::min({range.low, from, to}), std::max({range.high, from, to})};
    }
    return Range{range.low + z, range.high + z};
  };
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const Range left = rangeAt(at[i]);
    const Range right = rangeAt(at[i + 1]);
    addPiece(made, {at[i] + x, at[i + 1] + x, 0, 0, {}, {}}, {left.low, right.low}, {left.high, right.high});
    start.push_back(made.size());
  }
  inkSeams(made, start);
  return made;
}

std::vector<Strip> strips(const Line& top, double bottom, std::span<const Strip> holes) {
  assert(std::is_sorted(top.begin(), top.end(), [](const auto& a, const auto& b) { return a.x < b.x; }));
  std::vector<Strip> made;
  if (top.size() < 2 || top.back().x - top.front().x < kNear) return made;
  const std::vector<double> at = breaks(top, bottom, holes);
  std::vector<std::size_t> start = {0};
  Column column;
  NearHoles near_holes(holes);
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    column.x0 = at[i];
    column.x1 = at[i + 1];
    column.top0 = heightAt(top, column.x0);
    column.top1 = heightAt(top, column.x1);
    column.gone.clear();
    column.levels.clear();
    for (const Strip& hole : near_holes.at(column.x0, column.x1)) {
      if (hole.x0 < column.x0 + kNear && hole.x1 > column.x1 - kNear) {
        column.gone.push_back({column.x0, column.x1, hole.at(column.x0), hole.at(column.x1)});
      }
      const bool right_of_it = std::abs(hole.x1 - column.x0) < kNear;
      if (right_of_it || std::abs(hole.x0 - column.x1) < kNear) {
        column.levels.push_back(right_of_it ? hole.right.low : hole.left.low);
        column.levels.push_back(right_of_it ? hole.right.high : hole.left.high);
      }
    }
    std::sort(column.gone.begin(), column.gone.end(),
              [](const Strip& a, const Strip& b) { return a.left.low + a.right.low < b.left.low + b.right.low; });
    sortUnique(column.levels);
    fillColumn(made, column, bottom);
    start.push_back(made.size());
  }
  inkSeams(made, start);
  return made;
}

void addStrip(const Bench& bench, const Strip& strip, const Face& front, const Face& back, Grain grain) {
  const auto at = [](double x, const Face& face, double z) { return glm::dvec3(x, face.y(z), z); };
  addSolid(
      bench,
      {at(strip.x0, front, strip.left.low), at(strip.x1, front, strip.right.low), at(strip.x0, back, strip.left.low),
       at(strip.x1, back, strip.right.low), at(strip.x0, front, strip.left.high), at(strip.x1, front, strip.right.high),
       at(strip.x0, back, strip.left.high), at(strip.x1, back, strip.right.high)},
      grain, strip.edges);
}

}  // namespace sillwright::scene
