/// Jobs of any size for the benchmarks: walls of ten openings each, no two openings alike, as a site has them.
///
/// Windows of every kind with all their readings, a door now and then, most of them fitting. The same job for the same
/// number on every run.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

#include "job/job.h"
#include "support/assets.h"
#include "support/read_job.h"

namespace sillwright::bench {

inline constexpr std::size_t kOpeningsAWall = 10;
inline constexpr std::size_t kInAColumn =
    160;                                ///< Walls behind each other; the most that a job may have fill a square.
inline constexpr double kApart = 2400;  ///< From opening to opening along a wall, mm.

/// A whole number of millimetres from 0 to `most`, the same for the same opening and use.
inline double some(std::size_t opening, std::uint32_t use, std::uint32_t most) {
  std::uint64_t mixed = (opening + 1) * 0x9E3779B97F4A7C15U + use * 0xBF58476D1CE4E5B9U;
  mixed ^= mixed >> 29U;
  mixed *= 0x94D049BB133111EBU;
  return static_cast<double>((mixed >> 33U) % (most + 1));
}

/// Readings a little off what is planned, about as far as framing and a tape are.
inline void vary(job::Opening& opening, std::size_t index) {
  std::uint32_t use = 0;
  const auto off = [&] { return some(index, use++, 4) - 2; };
  opening.width += some(index, 90, 6) * 10;
  opening.unit.width = opening.width - 20;
  if (!opening.measured) return;
  for (auto& width : opening.measured->widths) width = opening.width + off() / 2;
  for (auto& height : opening.measured->heights) height = opening.height + off() / 2;
  opening.measured->diagonals = {};
  opening.measured->out_of_level = off() / 2;
  opening.measured->out_of_plumb = {off(), off()};
  opening.measured->out_of_plumb_in = {off() / 2, off() / 2};
}

inline job::Opening oneOf(const job::Opening& pattern, std::size_t index) {
  job::Opening opening = pattern;
  const std::size_t place = index % kOpeningsAWall;
  opening.name = "o" + std::to_string(index + 1);
  opening.wall = index / kOpeningsAWall;
  opening.left = 500 + kApart * static_cast<double>(place);
  opening.unit.kind = static_cast<job::UnitKind>(static_cast<int>(some(index, 91, 3)));
  if (place == kOpeningsAWall - 1) {
    opening.unit.kind = job::UnitKind::HingedDoor;
    opening.sill = 0;
    opening.height = 2100;
    opening.unit.height = 2080;
  }
  vary(opening, index);
  return opening;
}

/// Made from the first wall and the first opening of a job in assets/jobs.
inline job::Job manyOpenings(const job::Job& pattern, std::size_t openings) {
  job::Job job = pattern;
  job.walls.clear();
  job.openings.clear();
  const std::size_t walls = (openings + kOpeningsAWall - 1) / kOpeningsAWall;
  for (std::size_t i = 0; i < walls; ++i) {
    job::Wall wall = pattern.walls.front();
    wall.name = "w" + std::to_string(i + 1);
    wall.length = 600 + kApart * static_cast<double>(kOpeningsAWall);
    wall.top = {{0, 2700}, {wall.length, 2700}};
    wall.at_y = 6000 * static_cast<double>(i % kInAColumn);
    const std::size_t column = i / kInAColumn;  // to the right and to the left in turns
    wall.at_x = 30'000 * static_cast<double>((column + 1) / 2) * (column % 2 == 0 ? -1 : 1);
    job.walls.push_back(wall);
  }
  for (std::size_t i = 0; i < openings; ++i) job.openings.push_back(oneOf(pattern.openings.front(), i));
  return job;
}

inline job::Job manyOpenings(std::size_t openings) {
  return manyOpenings(*testing::readJob(tests::assets() + "/jobs/workshop-window.toml").value, openings);
}

}  // namespace sillwright::bench
