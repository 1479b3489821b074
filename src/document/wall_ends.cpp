#include "document/wall_ends.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "job/tables.h"

namespace sillwright::document {
namespace {

constexpr double kMeet = 220;      // mm: ends nearer than that meet, at a butt of deep studs too
constexpr double kAside = 0.02;    // sine of the most that a wall is out of line, to give and take length
constexpr double kSameHeight = 1;  // mm
constexpr double kFromCorner =
    50;  // mm that a shortened wall leaves beside its first opening; common practice, no source

struct Way {
  double x = 0, y = 0;
};

Way along(const job::Wall& wall) {
  const double turn = wall.turn_degrees * std::numbers::pi / 180;
  return {std::cos(turn), std::sin(turn)};
}

Way endOf(const job::Wall& wall, bool right) {
  const Way way = along(wall);
  const double at = right ? wall.length : 0;
  return {wall.at_x + way.x * at, wall.at_y + way.y * at};
}

bool meet(Way a, Way b) {
  return std::hypot(a.x - b.x, a.y - b.y) < kMeet;
}

/// Tenths are what a job file says of a wall's place.
double tidy(double mm) {
  return std::round(mm * 10) / 10;
}

/// Makes a wall longer by so much at one end, all that is in it staying in its place. False: there is no room.
bool grow(job::Job& job, std::size_t index, double by, bool right) {
  job::Wall& wall = job.walls[index];
  double from = wall.length;
  double to = 0;
  const auto keep = [&](double low, double high) {
    from = std::min(from, low);
    to = std::max(to, high);
  };
  for (std::size_t i = 1; i + 1 < wall.top.size(); ++i) keep(wall.top[i].x, wall.top[i].x);
  for (const job::Opening& each : job.openings) {
    if (each.wall == index) keep(each.left, each.left + each.width);
  }
  const double room = right ? wall.length - to : from;
  const double least = job::tableOf<job::Wall>().at("length").from;
  if (by < 0 && (-by > room - kFromCorner || wall.length + by < least)) return false;
  wall.length += by;
  wall.top.back().x = wall.length;
  if (right) return true;
  for (std::size_t i = 1; i + 1 < wall.top.size(); ++i) wall.top[i].x += by;
  for (job::Opening& each : job.openings) {
    if (each.wall == index) each.left += by;
  }
  return true;
}

/// Takes along what met `from`, which went by `v`. `moved`: the walls that have had their turn.
void follow(job::Job& job, Way from, Way v, std::vector<bool>& moved) {
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    job::Wall& wall = job.walls[i];
    const bool right = meet(endOf(wall, true), from);
    if (moved[i] || !(right || meet(endOf(wall, false), from))) continue;
    moved[i] = true;
    const Way way = along(wall);
    const double by = v.x * way.x + v.y * way.y;
    if (std::abs(v.x * way.y - v.y * way.x) > kAside * std::hypot(v.x, v.y)) {
      const Way far = endOf(wall, !right);
      wall.at_x = tidy(wall.at_x + v.x);
      wall.at_y = tidy(wall.at_y + v.y);
      follow(job, far, v, moved);
    } else if (grow(job, i, right ? by : -by, right) && !right) {
      wall.at_x = tidy(wall.at_x + v.x);
      wall.at_y = tidy(wall.at_y + v.y);
    }
  }
}

}  // namespace

void lengthenWall(job::Job& job, std::size_t index, double length) {
  job::Wall& wall = job.walls[index];
  const Way from = endOf(wall, true);
  const Way way = along(wall);
  const double by = length - wall.length;
  wall.length = length;
  wall.top.back().x = length;
  std::vector<bool> moved(job.walls.size(), false);
  moved[index] = true;
  if (by != 0) follow(job, from, {way.x * by, way.y * by}, moved);
}

std::string openedAt(const job::Job& before, const job::Job& after, std::size_t index) {
  if (before.walls.size() != after.walls.size()) return {};
  for (const bool end : {false, true}) {
    for (std::size_t i = 0; i < before.walls.size(); ++i) {
      for (const bool other : {false, true}) {
        if (i == index || !meet(endOf(before.walls[index], end), endOf(before.walls[i], other))) continue;
        if (!meet(endOf(after.walls[index], end), endOf(after.walls[i], other)))
          return "the corner with " + after.walls[i].name + " opens";
        const auto step = [&](const job::Job& job) {
          const auto top = [](const job::Wall& wall, bool right) { return right ? wall.top.back().z : wall.top[0].z; };
          return std::abs(top(job.walls[index], end) - top(job.walls[i], other));
        };
        if (step(before) < kSameHeight && step(after) >= kSameHeight)
          return "the top no longer meets that of " + after.walls[i].name;
      }
    }
  }
  return {};
}

}  // namespace sillwright::document
