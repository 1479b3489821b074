/// A job of one wall and one opening, made in code, and the practices that come with the program.
#pragma once

#include <map>
#include <string>

#include "job/job.h"
#include "plan/plan.h"
#include "practice/read.h"
#include "support/catch.h"

namespace sillwright::testing {

/// Read once; a copy is made where a test changes it.
inline const practice::Practice& shipped(const std::string& name) {
  static std::map<std::string, practice::Practice> read;
  const auto found = read.find(name);
  if (found != read.end()) return found->second;
  auto result = practice::load(name, SILLWRIGHT_ASSETS_DIR, SILLWRIGHT_SOURCE_DIR);
  REQUIRE(result.ok());
  return read.emplace(name, std::move(*result.value)).first->second;
}

/// An opening 20 larger each way than its unit, 3000 from the left end of a wall of 9000.
inline job::Job simpleJob(job::UnitKind kind, double unit_width, double unit_height, const std::string& practice) {
  job::Job job;
  job.file = "simple.toml";
  job.practice = practice;
  job::Wall wall;
  wall.name = "front";
  wall.length = 9000;
  wall.top = {{0, 3000}, {9000, 3000}};
  wall.stud = job::StudSection{90, 45};
  wall.lining = 10;
  job.walls.push_back(wall);
  job::Opening opening;
  opening.name = "W1";
  opening.left = 3000;
  const bool door = kind == job::UnitKind::SlidingDoor || kind == job::UnitKind::HingedDoor;
  opening.sill = door ? 0 : 900;
  opening.width = unit_width + 20;
  opening.height = unit_height + 20;
  opening.unit.kind = kind;
  opening.unit.width = unit_width;
  opening.unit.height = unit_height;
  opening.unit.frame = job::FrameSection{100, 45};
  opening.unit.reveal = job::Reveal{18, 100};
  opening.unit.fin = 30;
  opening.unit.glass = job::Glass{5, 1, std::nullopt};
  job.openings.push_back(opening);
  return job;
}

/// The plan of one opening in its wall, with no other opening and no heads to line up with.
inline plan::OpeningPlan planAlone(job::Job job, std::size_t opening, const practice::Practice& practice) {
  job.openings = {job.openings[opening]};
  job.walls[job.openings.front().wall].align_heads = false;
  return plan::makePlan(job, practice, {1}).openings.front();
}

}  // namespace sillwright::testing
