#include "scene/build/strips.h"

#include <cassert>
#include <cmath>

namespace sillwright::scene {
namespace {

constexpr double kNear = 1e-6;  // heights and places closer than this are the same

/// Strictly between the ends: a break stands at each end anyway.
void addCrossing(std::vector<double>& at, const glm::dvec2& a, const glm::dvec2& b, double level) {
  if ((a.y - level) * (b.y - level) < 0) at.push_back(a.x + (level - a.y) / (b.y - a.y) * (b.x - a.x));
}

/// Where a sloped edge of a hole crosses the bottom and the top line.
void addSlopedEdge(std::vector<double>& at, const glm::dvec2& a, const glm::dvec2& b, const Line& top, double bottom) {
  if (std::abs(a.y - b.y) < kNear) return;  // level: `breaks` looks where the top crosses it
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
  const double first = top.front().x, last = top.back().x;
  std::vector<double> at;
  at.reserve(top.size() + 2 * holes.size());
  for (const glm::dvec2& point : top) at.push_back(point.x);
  for (const Strip& hole : holes) {
    at.insert(at.end(), {std::clamp(hole.x0, first, last), std::clamp(hole.x1, first, last)});
    addSlopedEdge(at, {hole.x0, hole.left.low}, {hole.x1, hole.right.low}, top, bottom);
    addSlopedEdge(at, {hole.x0, hole.left.high}, {hole.x1, hole.right.high}, top, bottom);
  }
  for (std::size_t i = 0; i + 1 < top.size(); ++i) {
    addCrossing(at, top[i], top[i + 1], bottom);
    for (const Strip& hole : holes) {
      addCrossing(at, top[i], top[i + 1], hole.lowest());
      addCrossing(at, top[i], top[i + 1], hole.highest());
    }
  }
  sortUnique(at, kNear);
  return at;
}

/// An edge across a column: its height at both sides.
struct Across {
  double left = 0, right = 0;
  [[nodiscard]] double middle() const { return (left + right) / 2; }
};

/// One column between two breaks, being filled.
struct Column {
  Range x;
  Across top;
  std::vector<Strip> gone;     // what holes take out, sorted
  std::vector<double> levels;  // where holes beside it begin and end
};

void addPiece(std::vector<Strip>& made, const Range& x, Across low, Across high, double thinnest) {
  Strip strip{x.low, x.high, {low.left, high.left}, {low.right, high.right}, kAllEdges, false};
  if (strip.left.length() < kNear && strip.right.length() < kNear) return;
  if (strip.left.length() < -kNear || strip.right.length() < -kNear) return;
  strip.left.high = std::max(strip.left.high, strip.left.low + thinnest);
  strip.right.high = std::max(strip.right.high, strip.right.low + thinnest);
  made.push_back(strip);
}

/// Fills the free stretch between two edges, split at the levels inside it.
void fill(std::vector<Strip>& made, const Column& column, Across low, Across high) {
  const std::size_t first = made.size();
  const double least_top = std::min(high.left, high.right);
  // A hole beside ends the seam with the next column there: split, each side is all seam or all outline.
  for (const double level : column.levels) {
    if (level <= std::max(low.left, low.right) + kNear || level >= least_top - kNear) continue;
    addPiece(made, column.x, low, {level, level}, kThinnest);
    low = {level, level};
  }
  addPiece(made, column.x, low, high, kThinnest);
  for (std::size_t i = first; i < made.size(); ++i) {
    if (i > first) made[i].edges &= static_cast<std::uint16_t>(~kBottomLong);  // a split is no edge of the area
    if (i + 1 < made.size()) made[i].edges &= static_cast<std::uint16_t>(~kTopLong);
  }
}

void fillColumn(std::vector<Strip>& made, const Column& column, double bottom) {
  const Across& top = column.top;
  Across low{bottom, bottom};
  for (const Strip& hole : column.gone) {
    const Across foot{hole.left.low, hole.right.low}, head{hole.left.high, hole.right.high};
    if (foot.middle() >= top.middle() - kNear) break;  // holes rise: the rest lies above it too
    if (foot.middle() > low.middle() + kNear) fill(made, column, low, foot);
    if (head.middle() > low.middle()) low = head;  // holes may overlap
  }
  if (low.middle() < top.middle() - kNear / 2) fill(made, column, low, top);  // half: the middle of a wedge
}

/// The things that touch a column, as the columns go from left to right: nothing is looked at where it isn't near.
template <class Thing>
class Near {
 public:
  explicit Near(std::vector<Thing> all) : waiting_(std::move(all)) {
    std::sort(waiting_.begin(), waiting_.end(), [](const Thing& a, const Thing& b) { return a.x0 < b.x0; });
  }

  const std::vector<Thing>& at(const Range& x) {
    while (next_ < waiting_.size() && waiting_[next_].x0 < x.high + kNear) here_.push_back(waiting_[next_++]);
    std::erase_if(here_, [&](const Thing& thing) { return thing.x1 < x.low - kNear; });  // columns don't come back
    return here_;
  }

 private:
  std::vector<Thing> waiting_;
  std::vector<Thing> here_;
  std::size_t next_ = 0;
};

/// An edge of an outline from left to right; `back`: it is walked the other way.
struct Edge {
  double x0 = 0, x1 = 0;
  double z0 = 0, z1 = 0;
  bool back = false;

  [[nodiscard]] double at(double x) const { return z0 + (z1 - z0) * (x - x0) / (x1 - x0); }
};

bool endsAt(const Range& range, double z) {
  return std::abs(range.low - z) < kNear || std::abs(range.high - z) < kNear;
}

/// What a side has beside it: a seam along its whole length, or a corner of a hole at its foot or head.
struct Beside {
  bool seam = false;
  bool corner_low = false, corner_high = false;
};

Beside look(const Range& side, std::span<const Strip> neighbours, bool at_left, double least) {
  Beside beside;
  for (const Strip& strip : neighbours) {
    const Range& other = at_left ? strip.right : strip.left;
    const double shared = std::min(side.high, other.high) - std::max(side.low, other.low);
    beside.seam = beside.seam || shared > least;
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
void inkSeams(std::vector<Strip>& made, const std::vector<std::size_t>& start, double thinnest) {
  // Points are opened by `thinnest`: what two of them share by that is no seam.
  const double least = std::max(2 * thinnest, kNear);
  const std::span<const Strip> all(made);
  for (std::size_t column = 0; column + 1 < start.size(); ++column) {
    const auto of = [&](std::size_t c) { return all.subspan(start[c], start[c + 1] - start[c]); };
    const std::span<const Strip> before = column > 0 ? of(column - 1) : std::span<const Strip>{};
    const std::span<const Strip> after = column + 2 < start.size() ? of(column + 1) : std::span<const Strip>{};
    for (std::size_t i = start[column]; i < start[column + 1]; ++i) {
      const Beside left = look(made[i].left, before, true, least);
      const Beside right = look(made[i].right, after, false, least);
      inkSides(made[i], left, right);
      made[i].joined = left.seam || i > start[column];
    }
  }
}

}  // namespace

void sortUnique(std::vector<double>& values, double apart) {
  std::sort(values.begin(), values.end());
  const auto same = [apart](double a, double b) { return b - a < apart; };
  values.erase(std::unique(values.begin(), values.end(), same), values.end());
}

double heightAt(const Line& line, double x) {
  std::size_t i = 1;
  while (i + 1 < line.size() && line[i].x < x) ++i;
  const glm::dvec2& a = line[i - 1];
  const glm::dvec2& b = line[i];
  if (b.x - a.x < kNear) return a.y;  // an upright piece of the line has no one height
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
  sortUnique(at, kNear);
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

std::vector<Strip> stripsWithin(const std::vector<std::array<glm::dvec2, 2>>& outline, double thinnest) {
  std::vector<Edge> edges;
  std::vector<double> at;
  for (const auto& [from, to] : outline) {
    if (std::abs(to.x - from.x) < kNear) continue;  // it lies between columns
    const bool back = to.x < from.x;
    const glm::dvec2& left = back ? to : from;
    const glm::dvec2& right = back ? from : to;
    edges.push_back({left.x, right.x, left.y, right.y, back});
    at.insert(at.end(), {left.x, right.x});
  }
  sortUnique(at, kNear);
  std::vector<Strip> made;
  std::vector<std::size_t> start = {0};
  Near<Edge> near_edges(std::move(edges));
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const Range x{at[i], at[i + 1]};
    std::vector<Edge> here = near_edges.at(x);  // those that only touch the column, too
    std::erase_if(here, [&](const Edge& edge) { return edge.x0 > x.middle() || edge.x1 < x.middle(); });
    std::sort(here.begin(), here.end(),
              [&](const Edge& a, const Edge& b) { return a.at(x.middle()) < b.at(x.middle()); });
    int winds = 0;
    const Edge* low = nullptr;
    for (const Edge& edge : here) {
      if (winds == 0) low = &edge;  // from outside to inside
      winds += edge.back ? -1 : 1;
      if (winds != 0) continue;  // inside still
      addPiece(made, x, {low->at(x.low), low->at(x.high)}, {edge.at(x.low), edge.at(x.high)}, thinnest);
    }
    if (winds != 0) made.resize(start.back());  // the outline has a gap: nothing of this column
    start.push_back(made.size());
  }
  inkSeams(made, start, thinnest);
  return made;
}

std::vector<Strip> stripsOf(const std::vector<plan::Point>& polygon, double x, double z) {
  std::vector<std::array<glm::dvec2, 2>> edges;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const plan::Point& to = polygon[(i + 1) % polygon.size()];
    edges.push_back({{{polygon[i].x + x, polygon[i].z + z}, {to.x + x, to.z + z}}});
  }
  return stripsWithin(edges);
}

std::vector<Strip> strips(const Line& top, double bottom, std::span<const Strip> holes) {
  assert(std::is_sorted(top.begin(), top.end(), [](const auto& a, const auto& b) { return a.x < b.x; }));
  std::vector<Strip> made;
  if (top.size() < 2 || top.back().x - top.front().x < kNear) return made;
  const std::vector<double> at = breaks(top, bottom, holes);
  std::vector<std::size_t> start = {0};
  Column column;
  std::vector<Strip> some(holes.begin(), holes.end());
  std::erase_if(
      some, [](const Strip& hole) { return hole.x1 - hole.x0 <= kNear || hole.highest() - hole.lowest() <= kNear; });
  Near<Strip> near_holes(std::move(some));
  // Column by column: what holes take out of it, and the heights at which those beside it begin and end.
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    const Range x = column.x = {at[i], at[i + 1]};
    column.top = {heightAt(top, x.low), heightAt(top, x.high)};
    column.gone.clear();
    column.levels.clear();
    for (const Strip& hole : near_holes.at(x)) {
      if (hole.x0 < x.low + kNear && hole.x1 > x.high - kNear) {  // across the column: breaks stand at holes' sides
        column.gone.push_back({x.low, x.high, hole.at(x.low), hole.at(x.high)});
      }
      const bool right_of_it = std::abs(hole.x1 - x.low) < kNear;
      if (right_of_it || std::abs(hole.x0 - x.high) < kNear) {
        column.levels.push_back(right_of_it ? hole.right.low : hole.left.low);
        column.levels.push_back(right_of_it ? hole.right.high : hole.left.high);
      }
    }
    std::sort(column.gone.begin(), column.gone.end(),
              [](const Strip& a, const Strip& b) { return a.left.low + a.right.low < b.left.low + b.right.low; });
    sortUnique(column.levels, kNear);
    fillColumn(made, column, bottom);
    start.push_back(made.size());
  }
  inkSeams(made, start, kThinnest);
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
