#include "invariants/mirror.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>

#include "plan/settle.h"

namespace sillwright::testing {
namespace {

void negate(std::optional<double>& value) {
  if (value) *value = -*value;
}

template <class Pair>
void swapLean(Pair& lean) {
  std::swap(lean[0], lean[1]);
  negate(lean[0]);
  negate(lean[1]);
}

void mirror(job::Wall& wall) {
  const double angle = wall.turn_degrees * std::numbers::pi / 180;
  const double end_x = wall.at_x + wall.length * std::cos(angle);
  wall.at_y += wall.length * std::sin(angle);
  wall.at_x = -end_x;
  wall.turn_degrees = -wall.turn_degrees;
  std::reverse(wall.top.begin(), wall.top.end());
  for (auto& point : wall.top) point.x = wall.length - point.x;
}

void mirror(job::Measured& read) {
  std::swap(read.heights[0], read.heights[2]);
  std::swap(read.diagonals[0], read.diagonals[1]);
  negate(read.out_of_level);
  swapLean(read.out_of_plumb);
  std::swap(read.out_of_plumb_in[0], read.out_of_plumb_in[1]);
  std::swap(read.wall_depth[0], read.wall_depth[1]);
}

void mirror(job::Installed& read) {
  std::swap(read.diagonals[0], read.diagonals[1]);
  negate(read.out_of_level);
  swapLean(read.out_of_plumb);
}

}  // namespace

/// The lights of each row from the other end; what is joined stays with the light it is one with.
void mirror(job::Unit& unit) {
  const std::size_t rows = std::max<std::size_t>(unit.rows.size(), 1);
  const auto columns = static_cast<std::ptrdiff_t>(unit.lights.size() / rows);
  for (auto row = unit.lights.begin(); row != unit.lights.end(); row += columns) {
    std::vector<job::Light> turned;
    for (auto end = row + columns; end != row;) {
      auto first = end - 1;
      while (*first == job::Light::Joined) --first;
      turned.insert(turned.end(), first, end);
      end = first;
    }
    std::copy(turned.begin(), turned.end(), row);
  }
  std::reverse(unit.columns.begin(), unit.columns.end());
}

job::Job mirrored(const job::Job& job, const practice::Practice& practice) {
  job::Job other = job;
  for (auto& wall : other.walls) mirror(wall);
  for (auto& opening : other.openings) {
    opening.left = job.walls[opening.wall].length - opening.left - opening.width;
    const bool left = plan::settleUnit(opening.unit, practice).hand == job::Hand::Left;
    opening.unit.hand = left ? job::Hand::Right : job::Hand::Left;
    mirror(opening.unit);
    if (opening.measured) mirror(*opening.measured);
    if (opening.installed) mirror(*opening.installed);
  }
  return other;
}

job::Job inWholeBays(job::Job job, const practice::Practice& practice) {
  for (auto& wall : job.walls) {
    const double bay = plan::settleWall(wall, practice).spacing;
    const double length = bay * std::ceil(wall.length / bay - 1e-9);
    for (auto& point : wall.top) point.x *= length / wall.length;
    wall.top.back().x = length;
    wall.length = length;
  }
  return job;
}

plan::Point mirrored(const plan::OpeningShape& shape, plan::Point point) {
  return {shape.corner[1].x - point.x, point.z - shape.corner[1].z};
}

plan::Side mirrored(plan::Side side) {
  if (side == plan::Side::Left) return plan::Side::Right;
  return side == plan::Side::Right ? plan::Side::Left : side;
}

}  // namespace sillwright::testing
