#include "plan/house_corners.h"

#include <Eigen/Core>
#include <cmath>
#include <numbers>
#include <tuple>

#include "plan/panes.h"

namespace sillwright::plan {
namespace {

constexpr double kSlack = 10;       // mm that hand-set walls may be off where they meet
constexpr double kNeighbour = 500;  // mm: walls further apart are not meant to meet
constexpr double kInLine = 0.05;    // sine of the most that two walls in line may turn

using Vector = Eigen::Vector2d;

double cross(const Vector& a, const Vector& b) { return a.x() * b.y() - a.y() * b.x(); }

/// A wall on plan: the line of its studs' outside faces.
struct FaceLine {
  Vector origin;
  Vector along;
  double length = 0;
  double depth = 0;
  double level = 0;

  [[nodiscard]] Vector inward() const { return {-along.y(), along.x()}; }
  [[nodiscard]] Vector end(int side) const { return origin + (side == 0 ? 0 : length) * along; }  // 0: left, 1: right
  /// From an end towards the other.
  [[nodiscard]] Vector fromEnd(int side) const { return side == 0 ? along : Vector(-along); }
};

struct EndPoint {
  Vector at;
  std::size_t wall = 0;
  int side = 0;
};

FaceLine lineOf(const job::Wall& wall, double depth) {
  const double turn = wall.turn_degrees * std::numbers::pi / 180;
  return {{wall.at_x, wall.at_y}, {std::cos(turn), std::sin(turn)}, wall.length, depth, wall.level.value_or(0)};
}

/// What becomes of end `side` of `wall` where it meets end `other_side` of `other`; false: they don't meet there.
bool meets(const FaceLine& wall, int side, const FaceLine& other, int other_side, HouseEnd& end) {
  const Vector away = other.end(other_side) - wall.end(side);
  const double reach = std::max(wall.depth, other.depth) + kSlack;
  if (away.squaredNorm() > 2 * reach * reach) return false;  // a corner's ends may be off along both walls
  const Vector runs = other.fromEnd(other_side);
  const double turn = cross(wall.along, other.along);
  if (std::abs(turn) <= kInLine) {
    // In line and going on from here: no corner. One lying over the other says nothing about this end.
    if (runs.dot(wall.fromEnd(side)) > 0) return false;
    end.corner = false;
    return true;
  }
  end.corner = runs.dot(wall.inward()) > 0;  // the other wall goes on inwards: an outer corner
  // Where the two outside faces cross, along this wall from its end.
  const double at = cross(away, other.along) / turn;
  end.past_end = std::clamp(side == 0 ? -at : at, -reach, reach);  // faces nearly in line cross far away
  return true;
}

/// By how much end `side` of `wall`, butting `other` at its end, is off a closed square corner; empty: it makes none.
std::optional<double> openBy(const FaceLine& wall, int side, const FaceLine& other, int other_side) {
  constexpr double kSquare = 0.02;  // cosine of the most that a corner may be off a right angle
  constexpr double kHandSet = 5;    // mm that hand-set walls may be off
  if (std::abs(wall.along.dot(other.along)) > kSquare) return std::nullopt;
  const auto off = [](double value, double low, double high) { return std::max({0.0, low - value, value - high}); };
  const Vector away = wall.end(side) - other.end(other_side);
  const double past = -away.dot(other.fromEnd(other_side));  // along the other wall, out past its end
  const double into = away.dot(other.inward());              // from the other's outside face inwards
  const bool faces_out = wall.inward().dot(other.fromEnd(other_side)) > 0;
  const bool points_in = wall.fromEnd(side).dot(other.inward()) < 0;
  if (faces_out == points_in) return std::nullopt;  // an inside face would go on as an outside one
  const double open = faces_out ? std::hypot(off(past, 0, 0), off(into, 0, other.depth))
                                : std::hypot(off(into, 0, 0), off(past, -wall.depth, 0));
  return open <= kHandSet ? 0 : open <= kNeighbour ? std::optional(open) : std::nullopt;
}

/// Notes at both ends how far they are from a corner; an end that has a closed one is not open to another.
void noteOpen(const std::vector<FaceLine>& lines, const EndPoint& a, const EndPoint& b, std::vector<HouseEnds>& ends,
              std::vector<std::array<bool, 2>>& closed) {
  const auto one = openBy(lines[a.wall], a.side, lines[b.wall], b.side);
  const auto two = openBy(lines[b.wall], b.side, lines[a.wall], a.side);
  if (!one && !two) return;  // either may be the one that butts
  const double open = std::min(one.value_or(HUGE_VAL), two.value_or(HUGE_VAL));
  for (const EndPoint* point : {&a, &b}) {
    const auto side = static_cast<std::size_t>(point->side);
    double& apart = ends[point->wall][side].apart;
    bool& shut = closed[point->wall][side];
    shut = shut || open == 0;
    if (shut || apart == 0 || open < apart) apart = shut ? 0 : open;  // 0: none noted yet
  }
}

}  // namespace

std::vector<HouseEnds> houseCorners(const job::Job& job, const practice::Practice& practice) {
  std::vector<FaceLine> lines;
  std::vector<EndPoint> points;
  lines.reserve(job.walls.size());
  points.reserve(2 * job.walls.size());
  double deepest = 0;
  for (const job::Wall& wall : job.walls) {
    lines.push_back(lineOf(wall, (wall.stud ? wall.stud->depth : practice.framing.stud_depth.value) +
                                     (wall.second_row ? wall.second_row->gap + wall.second_row->depth : 0)));
    deepest = std::max(deepest, lines.back().depth);
    if (wall.isInside()) continue;  // it makes no corner of the house
    for (const int side : {0, 1}) points.push_back({lines.back().end(side), lines.size() - 1, side});
  }
  // Ends that meet are no further apart than a wall is deep: sorted along x, only near ones are compared.
  std::sort(points.begin(), points.end(), [](const EndPoint& a, const EndPoint& b) {
    return std::tie(a.at.x(), a.wall, a.side) < std::tie(b.at.x(), b.wall, b.side);
  });
  std::vector<HouseEnds> ends(job.walls.size());
  std::vector<std::array<bool, 2>> closed(job.walls.size());
  const double reach = std::max(2 * (deepest + kSlack), kNeighbour);
  for (std::size_t i = 0; i < points.size(); ++i) {
    for (std::size_t j = i + 1; j < points.size() && points[j].at.x() - points[i].at.x() <= reach; ++j) {
      const EndPoint& a = points[i];
      const EndPoint& b = points[j];
      if (a.wall == b.wall || lines[a.wall].level != lines[b.wall].level) continue;  // storeys don't meet
      noteOpen(lines, a, b, ends, closed);
      meets(lines[a.wall], a.side, lines[b.wall], b.side, ends[a.wall][static_cast<std::size_t>(a.side)]);
      meets(lines[b.wall], b.side, lines[a.wall], a.side, ends[b.wall][static_cast<std::size_t>(b.side)]);
    }
  }
  return ends;
}

bool isNearCorner(const job::Wall& wall, const HouseEnds& ends, const job::Opening& opening,
                  const practice::Wind& rules) {
  if (!rules.corner_zone) return false;
  const job::UnitKind kind = opening.unit.kind;
  const bool slides = panelsMeet(kind);
  const double width = opening.unit.width;
  const double left = opening.left + (opening.width - width) / 2;
  const auto& said = opening.unit.configuration;
  const double panels = said                                  ? static_cast<double>(said->size())
                        : kind == job::UnitKind::StackingDoor ? opening.unit.panels.value_or(3)
                                                              : 2;
  const double panel = slides ? width / panels : width;
  const double share = rules.corner_share ? rules.corner_share->value * panel : 0;  // none named: any part will do
  // From each corner to the unit's nearer jamb, and how much of the panel there lies in the zone.
  const std::array<double, 2> to_jamb{left + ends[0].past_end, wall.length - left - width + ends[1].past_end};
  for (std::size_t side = 0; side < 2; ++side) {
    const double within = std::min(rules.corner_zone->value - to_jamb[side], panel);
    if (ends[side].corner && within > 0 && within >= share - kTouching) return true;
  }
  return false;
}

}  // namespace sillwright::plan
