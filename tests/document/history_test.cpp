#include "document/edits.h"

#include "support/catch.h"

using namespace sillwright;

namespace {

job::Job house() {
  job::Job job;
  job.title = "One";
  job.practice = "au";
  job.wind = "N3";
  job.walls.resize(2);
  job.openings.resize(3);
  return job;
}

}  // namespace

TEST_CASE("a step holds every part of the job that it changed") {
  const job::Job before = house();
  job::Job after = before;
  after.title = "Two";
  after.practice = "nz";
  after.wind = job::StatedPressure{1.2};
  after.stock = job::Stock{};
  after.stock->packers = {3, 6};
  after.practice_place = {7, 12};
  after.walls[1].length = 3000;
  after.openings.pop_back();
  document::History history;
  REQUIRE(history.record("all of it", before, after));
  job::Job job = after;
  REQUIRE(history.undo(job));
  CHECK(job == before);
  REQUIRE(history.redo(job));
  CHECK(job == after);
  CHECK_FALSE(history.redo(job));
}

TEST_CASE("a change of the wind alone is a step, no change is none") {
  const job::Job before = house();
  job::Job after = before;
  document::History history;
  CHECK_FALSE(history.record("nothing", before, after));
  after.wind = job::StatedPressure{0.9};
  REQUIRE(history.record("wind", before, after));
  job::Job job = after;
  history.go(job, 0);
  CHECK(job == before);
}
