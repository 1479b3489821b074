#include "plan/stand/reach.h"

#include <algorithm>
#include <cmath>

#include "plan/stand/clearing.h"

namespace sillwright::plan {

namespace {

// Slopes below this are rounding: a thousandth of a nanometre over a metre. Snapping them keeps the exact ties of
// planned rectangles exact.
constexpr double kLevelSlope = 1e-12;

double snapped(double slope) { return std::abs(slope) < kLevelSlope ? 0.0 : slope; }

Profile profileOf(const OpeningShape& opening, Side side) {
  const std::array<Corner, 2> ends = endsOf(side);
  const Point& first = opening.corner[static_cast<std::size_t>(ends[0])];
  const Point& second = opening.corner[static_cast<std::size_t>(ends[1])];
  const double sign = inwardSign(side);  // v grows into the opening
  const double bow = bySide(opening.bow, side);
  Profile edge;
  edge.side = side;
  edge.t = isJamb(side) ? std::array{first.z, 0.0, second.z} : std::array{first.x, 0.0, second.x};
  edge.v = isJamb(side) ? std::array{sign * first.x, 0.0, sign * second.x}
                        : std::array{sign * first.z, 0.0, sign * second.z};
  edge.t[1] = (edge.t[0] + edge.t[2]) / 2;
  edge.v[1] = (edge.v[0] + edge.v[2]) / 2 + bow;
  edge.straight = bow == 0;
  constexpr double kNoSide = 1;  // mm: a triangle's corner
  if (isJamb(side) && std::abs(edge.t[2] - edge.t[0]) < kNoSide) {
    edge.t[2] = edge.t[0] + kNoSide;  // long enough to have a slope
    edge.t[1] = edge.t[0] + kNoSide / 2;
    edge.v[2] = edge.v[1] = edge.v[0];
    edge.straight = true;
    return edge;
  }
  if (side == Side::Head && opening.peak) {
    edge.peaked = true;
    edge.straight = false;
    edge.t[1] = opening.peak->x;
    edge.v[1] = -opening.peak->z;  // a head's inward is down
    edge.slope = {snapped((edge.v[1] - edge.v[0]) / (edge.t[1] - edge.t[0])),
                  snapped((edge.v[2] - edge.v[1]) / (edge.t[2] - edge.t[1]))};
    return edge;
  }
  const double per_length = 1 / (edge.t[2] - edge.t[0]);
  const double whole = (edge.v[2] - edge.v[0]) * per_length;
  const double bend = 2 * bow * per_length;  // the bow over half the length
  edge.slope = {snapped(whole + bend), snapped(whole - bend)};
  return edge;
}

/// A triangle's corner stands for the jamb that it hasn't got: plumb, and as far from the unit as the other jamb where
/// that has this gap, for the unit is set by that jamb, the sill and the head. Common practice, no source.
constexpr double kBesideCorner = 10;

void standAside(Profiles& edges, Side side, const HeadLine& unit) {
  const Profile& other = edges[indexOf(side == Side::Left ? Side::Right : Side::Left)];
  Profile& edge = edges[indexOf(side)];
  const double v = -(other.v[1] + unit.width() + 2 * kBesideCorner);
  edge.t = {0, 0.5, 1};
  edge.v = {v, v, v};
  edge.slope = {0, 0};
}

bool standable(const Profile& edge) {  // below 45° on both halves, as clearing.h asks
  return edge.t[2] > edge.t[0] && std::abs(edge.slope[0]) < 1 && std::abs(edge.slope[1]) < 1;
}

// The line of one segment, met by the unit's side at its start or its end.
ReachLine cornerLine(const Profile& edge, int segment, At at, double size) {
  const double slope = edge.slope[static_cast<std::size_t>(segment)];
  // Both segments pass through the middle; a straight edge is anchored there too.
  const double shift = at == At::End ? size : at == At::Middle ? edge.peak_at : 0.0;
  const double drop = edge.drop[static_cast<std::size_t>(at)];
  return {edge.v[1] + slope * (shift - edge.t[1]) - drop, slope, at, segment};
}

// A head that follows the roof, over a unit whose head does: each slope is met by the corner of the unit that comes
// nearest to it, or by all that do alike.
Reach followingReach(const Profile& edge, double size) {
  constexpr double kAlike = 1e-9;
  Reach reach;
  const int segments = edge.peaked ? 2 : 1;
  for (int segment = 0; segment < segments; ++segment) {
    ReachLine nearest = cornerLine(edge, segment, At::Start, size);
    for (const At at : {At::Middle, At::End}) {
      if (at == At::Middle && !(edge.peak_at > 0)) continue;  // only a peaked unit has a corner there
      const ReachLine other = cornerLine(edge, segment, at, size);
      if (other.at_zero > nearest.at_zero + (segment == 1 ? -kAlike : kAlike)) nearest = other;
    }
    reach.line[static_cast<std::size_t>(reach.lines++)] = nearest;
  }
  if (edge.peaked) return reach;
  const ReachLine end = cornerLine(edge, 0, At::End, size);  // where parallel, both ends are named
  if (reach.line[0].at == At::Start && end.at_zero > reach.line[0].at_zero - kAlike) reach.line[reach.lines++] = end;
  return reach;
}

Reach straightReach(const Profile& edge, double size) {
  Reach reach;
  const double slope = edge.slope[0];
  // Level or plumb: foot and head govern alike, and both are named.
  if (slope <= 0) reach.line[static_cast<std::size_t>(reach.lines++)] = cornerLine(edge, 0, At::Start, size);
  if (slope >= 0) reach.line[static_cast<std::size_t>(reach.lines++)] = cornerLine(edge, 1, At::End, size);
  return reach;
}

Reach outwardReach(const Profile& edge, double size) {
  // Slopes rise along the edge. Of the four lines (two segments, two corners of the unit) the others are never
  // greatest.
  return {.line = {cornerLine(edge, 0, edge.slope[0] < 0 ? At::Start : At::End, size),
                   cornerLine(edge, 1, edge.slope[1] > 0 ? At::End : At::Start, size)},
          .lines = 2};
}

Reach inwardReach(const Profile& edge, double size) {
  // Slopes fall along the edge. The unit is wholly before the middle up to t = middle − size, wholly past it from
  // t = middle on.
  const double before = edge.t[1] - size;
  const double past = edge.t[1];
  ReachLine wholly_before = cornerLine(edge, 0, At::End, size);
  wholly_before.to = before;
  ReachLine wholly_past = cornerLine(edge, 1, At::Start, size);
  wholly_past.from = past;

  if (edge.slope[0] > 0 && edge.slope[1] < 0) {  // its middle is innermost
    const ReachLine middle{edge.v[1], 0.0, At::Middle, 0, before, past};
    return {.line = {wholly_before, middle, wholly_past}, .lines = 3, .central = 1, .least = true};
  }
  if (edge.slope[1] >= 0) {  // its end is innermost, and the unit's end meets it
    ReachLine opposite = cornerLine(edge, 1, At::End, size);
    opposite.from = before;
    return {.line = {wholly_before, opposite}, .lines = 2, .central = 1, .least = true};
  }
  ReachLine opposite = cornerLine(edge, 0, At::Start, size);  // its start is innermost
  opposite.to = past;
  return {.line = {opposite, wholly_past}, .lines = 2, .central = 0, .least = true};
}

Reach reachOf(const Profile& edge, double size) {
  if (edge.follows) return followingReach(edge, size);
  if (edge.straight) return straightReach(edge, size);
  return edge.slope[0] > edge.slope[1] ? inwardReach(edge, size) : outwardReach(edge, size);
}

// Plumb and level through the innermost point.
Profile flattened(const Profile& edge) {
  const double innermost = std::max({edge.v[0], edge.v[1], edge.v[2]});
  return {edge.t, {innermost, innermost, innermost}, {0.0, 0.0}, edge.side, true};
}

bool takesPart(const HeadRange& range) { return range.low <= range.high + kTouch; }

/// The level that lies in the most ranges; the lowest of those.
double mostSuited(std::span<const HeadRange> ranges) {
  std::vector<double> lows;
  std::vector<double> highs;
  for (const HeadRange& range : ranges) {
    if (!takesPart(range)) continue;
    lows.push_back(range.low);
    highs.push_back(std::max(range.low, range.high));  // one that is empty by rounding still takes part
  }
  std::sort(lows.begin(), lows.end());
  std::sort(highs.begin(), highs.end());
  double level = 0;
  std::size_t most = 0;
  for (std::size_t i = 0; i < lows.size(); ++i) {  // most ranges overlap where one of them begins
    const auto ended =
        static_cast<std::size_t>(std::lower_bound(highs.begin(), highs.end(), lows[i] - kTouch) - highs.begin());
    if (i + 1 - ended > most) {  // so many have begun and not yet ended
      most = i + 1 - ended;
      level = lows[i];
    }
  }
  return level;
}

}  // namespace

Profiles profilesOf(const OpeningShape& opening) {
  Profiles edges;
  bool stands = true;
  for (const Side side : kEverySide) {
    edges[indexOf(side)] = profileOf(opening, side);
    stands = stands && standable(edges[indexOf(side)]);
  }
  if (!stands) {  // nothing stands in it, but the solver must answer
    for (Profile& edge : edges) edge = flattened(edge);
  }
  return edges;
}

Profiles profilesOf(const OpeningShape& opening, const HeadLine& unit) {
  Profiles edges = profilesOf(opening);
  if (unit.level()) return edges;
  if (unit.left() == 0) standAside(edges, Side::Left, unit);
  if (unit.right() == 0) standAside(edges, Side::Right, unit);
  Profile& head = edges[indexOf(Side::Head)];
  head.follows = true;
  edges[indexOf(Side::Sill)].rigid = head.peaked;  // the doubt of its bow is then the peak's
  head.drop = {unit.top() - unit.left(), unit.top() - unit.middle().z, unit.top() - unit.right()};
  head.peak_at = unit.peaked() ? unit.middle().x : 0;
  edges[indexOf(Side::Left)].shorter = head.drop[0];
  edges[indexOf(Side::Right)].shorter = head.drop[2];
  return edges;
}

Reaches reachesOf(const Profiles& edges, double width, double height) {
  Reaches reaches;
  for (const Side side : kEverySide) {
    const Profile& edge = edges[indexOf(side)];
    reaches[indexOf(side)] = reachOf(edge, isJamb(side) ? height - edge.shorter : width);
  }
  return reaches;
}

std::array<ReachLine, 4> linesByPoint(const Profile& edge, double size) {
  if (edge.peaked) {
    return {cornerLine(edge, 0, At::Start, size), cornerLine(edge, 0, At::Middle, size),
            cornerLine(edge, 1, At::Middle, size), cornerLine(edge, 1, At::End, size)};
  }
  const ReachLine middle{edge.v[1], 0.0, At::Middle, 0};
  return {cornerLine(edge, 0, At::Start, size), middle, middle, cornerLine(edge, 1, At::End, size)};
}

ReachGradient gradientOf(const Profile& edge, const ReachLine& line, double t, double size) {
  ReachGradient gradient;
  if (!(edge.t[2] > edge.t[0])) return gradient;  // no edge: nothing moves it
  const Side side = edge.side;

  double met = line.at != At::Middle ? t : edge.peaked ? t + edge.peak_at : edge.t[1];
  if (line.at == At::End) met += size;
  const bool second = edge.straight ? met > edge.t[1] : line.segment == 1;
  // v = v_end + (v_middle − v_end)·w, and the middle moves with half of each end.
  const std::size_t near_end = second ? 2 : 0;
  const double w = (met - edge.t[near_end]) / (edge.t[1] - edge.t[near_end]);
  const double own = edge.peaked ? 1 - w : 1 - w + w / 2;  // a peak stays when an end moves
  const double other = edge.peaked ? 0 : w / 2;
  const double by_first = second ? other : own;
  const double by_second = second ? own : other;

  const std::array<Corner, 2> ends = endsOf(side);
  const auto first = 2 * static_cast<std::size_t>(ends[0]);
  const auto last = 2 * static_cast<std::size_t>(ends[1]);
  const std::size_t across = isJamb(side) ? 0 : 1;  // x of a jamb, z of sill and head
  const std::size_t along = 1 - across;
  const double sign = inwardSign(side);
  gradient.corner[first + across] = sign * by_first;
  gradient.corner[last + across] = sign * by_second;
  // Sliding a vertex along a sloping edge moves the edge under a fixed point by −slope.
  gradient.corner[first + along] = -line.slope * by_first;
  gradient.corner[last + along] = -line.slope * by_second;
  gradient.bow = edge.rigid ? 0 : w;
  return gradient;
}

CommonHead commonHead(std::span<const HeadRange> ranges) {
  constexpr double kFar = std::numeric_limits<double>::infinity();
  HeadRange all{-kFar, kFar, 0};
  double lowest = kFar;
  double highest = -kFar;
  for (const HeadRange& range : ranges) {
    if (!takesPart(range)) continue;
    all.low = std::max(all.low, range.low);
    all.high = std::min(all.high, range.high);
    lowest = std::min(lowest, range.preferred);
    highest = std::max(highest, range.preferred);
  }
  CommonHead common;
  if (lowest <= highest && takesPart(all)) {  // halfway, so that the greatest move is least
    common.level = std::clamp((lowest + highest) / 2, all.low, std::max(all.low, all.high));
  }
  const double level = common.level ? *common.level : mostSuited(ranges);
  for (std::size_t i = 0; i < ranges.size(); ++i) {
    const bool suits = level >= ranges[i].low - kTouch && level <= ranges[i].high + kTouch;
    if (!takesPart(ranges[i]) || !suits) common.apart.push_back(i);
  }
  return common;
}

}  // namespace sillwright::plan
