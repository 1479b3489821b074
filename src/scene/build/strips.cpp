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

/// Every x at which the make-up of the area changes.
std::vector<double> breaks(const Line& top, double bottom, std::span<const Rect> holes) {
  const double first = top.front().x;
  const double last = top.back().x;
  std::vector<double> at;
  at.reserve(top.size() + 2 * holes.size());
  for (const glm::dvec2& point : top) at.push_back(point.x);
  for (const Rect& hole : holes) {
    at.push_back(std::clamp(hole.x0, first, last));
    at.push_back(std::clamp(hole.x1, first, last));
  }
  if (!isLevel(top)) {
    for (std::size_t i = 0; i + 1 < top.size(); ++i) {
      addCrossing(at, top[i], top[i + 1], bottom);
      for (const Rect& hole : holes) {
        addCrossing(at, top[i], top[i + 1], hole.z0);
        addCrossing(at, top[i], top[i + 1], hole.z1);
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
  std::vector<Range> gone;     // what holes take out, sorted
  std::vector<double> levels;  // where holes beside it begin and end
};

void addPiece(std::vector<Strip>& made, const Column& column, const Range& z, bool under_top) {
  Strip strip{column.x0, column.x1, z, z, kAllEdges, false};
  if (under_top) {
    strip.left.high = column.top0;
    strip.right.high = column.top1;
  }
  if (strip.left.length() < kNear && strip.right.length() < kNear) return;
  if (strip.left.length() < -kNear || strip.right.length() < -kNear) return;
  strip.left.high = std::max(strip.left.high, strip.left.low + kThinnest);
  strip.right.high = std::max(strip.right.high, strip.right.low + kThinnest);
  made.push_back(strip);
}

/// Fills the free stretch from `low` to `high` (`under_top`: to the top line), split at the levels inside it.
void fill(std::vector<Strip>& made, const Column& column, double low, double high, bool under_top) {
  const std::size_t first = made.size();
  const double least_top = under_top ? std::min(column.top0, column.top1) : high;
  for (const double level : column.levels) {
    if (level <= low + kNear || level >= least_top - kNear) continue;
    addPiece(made, column, {low, level}, false);
    low = level;
  }
  addPiece(made, column, {low, high}, under_top);
  for (std::size_t i = first; i < made.size(); ++i) {
    if (i > first) made[i].edges &= static_cast<std::uint16_t>(~kBottomLong);
    if (i + 1 < made.size()) made[i].edges &= static_cast<std::uint16_t>(~kTopLong);
  }
}

void fillColumn(std::vector<Strip>& made, const Column& column, double bottom) {
  const double most_top = std::max(column.top0, column.top1);
  double low = bottom;
  for (const Range& hole : column.gone) {
    if (hole.low >= most_top - kNear) break;
    if (hole.low > low + kNear) fill(made, column, low, hole.low, false);
    low = std::max(low, hole.high);
  }
  if (low < most_top - kNear) fill(made, column, low, most_top, true);
}

/// The holes that touch a column, as the columns go from left to right: no hole is looked at where it isn't near.
class NearHoles {
 public:
  explicit NearHoles(std::span<const Rect> holes) {
    for (const Rect& hole : holes) {
      if (hole.width() > kNear && hole.height() > kNear) waiting_.push_back(hole);
    }
    std::sort(waiting_.begin(), waiting_.end(), [](const Rect& a, const Rect& b) { return a.x0 < b.x0; });
  }

  const std::vector<Rect>& at(double x0, double x1) {
    while (next_ < waiting_.size() && waiting_[next_].x0 < x1 + kNear) here_.push_back(waiting_[next_++]);
    std::erase_if(here_, [x0](const Rect& hole) { return hole.x1 < x0 - kNear; });
    return here_;
  }

 private:
  std::vector<Rect> waiting_;
  std::vector<Rect> here_;
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

bool inked(std::uint16_t edges, std::uint16_t bits) {
  return (edges & bits) == bits;
}

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

std::vector<Strip> strips(const Line& top, double bottom, std::span<const Rect> holes) {
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
    for (const Rect& hole : near_holes.at(column.x0, column.x1)) {
      if (hole.x0 < column.x0 + kNear && hole.x1 > column.x1 - kNear) column.gone.push_back({hole.z0, hole.z1});
      if (std::abs(hole.x0 - column.x1) < kNear || std::abs(hole.x1 - column.x0) < kNear) {
        column.levels.push_back(hole.z0);
        column.levels.push_back(hole.z1);
      }
    }
    std::sort(column.gone.begin(), column.gone.end(), [](const Range& a, const Range& b) { return a.low < b.low; });
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
