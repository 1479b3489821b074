// Jobs that strain a page: long names, long walls, many openings, very small and very large ones.

#include <random>

#include "drawn.h"

using namespace sillwright;

namespace {

double between(std::mt19937_64& random, double low, double high) {
  return std::round(low + (high - low) * static_cast<double>(random() >> 11U) * 0x1p-53);
}

job::Wall levelWall(const std::string& name, double length, double height) {
  job::Wall wall;
  wall.name = name;
  wall.length = length;
  wall.top = {{0, height}, {length, height}};
  return wall;
}

job::Opening openingAt(const std::string& name, double left, double sill, double width, double height) {
  job::Opening opening;
  opening.name = name;
  opening.left = left;
  opening.sill = sill;
  opening.width = width;
  opening.height = height;
  opening.unit.width = width - 20;
  opening.unit.height = height - 20;
  opening.unit.reveal = job::Reveal{18, 100};
  return opening;
}

/// Names that are longer than this may be cut.
constexpr std::size_t kShort = 24;

void checkPages(const job::Job& job) {
  const auto made = testing::drawnJob(job);
  sheet::Wanted wanted;
  wanted.blank_records = true;
  const auto pages = sheet::layOut(made.subject(), wanted);
  testing::checkAllIsSaid(made, pages);
  for (const auto& opening : job.openings) {
    CAPTURE(job.title, opening.name);
    const bool on_elevation = std::any_of(pages.begin(), pages.end(), [&](const auto& page) {
      return page.title.find("elevation") != std::string::npos && testing::says(page, opening.name);
    });
    if (opening.name.size() <= kShort) CHECK(on_elevation);
  }
  for (const auto& page : pages) {
    for (const auto& fault : testing::faultsOf(page)) {
      UNSCOPED_INFO(job.title << ", " << fault);
      CHECK(false);
    }
  }
}

}  // namespace

TEST_CASE("long names and titles keep to their places") {
  job::Job job;
  job.title =
      "The second extension to the old boathouse beyond the upper weir, east side, with its covered landing stage";
  job.practice = "uk";
  job.address =
      "The landing, upper weir, east bank, by the old toll house, beyond the second bridge, in the meadow of "
      "the ferrymen and their heirs";
  job.date = job::Date{2026, 3, 14};
  job.revision = "B";
  job.by = "The boatbuilders' drawing office";
  job.walls = {levelWall("the long wall towards the upper weir and the meadow", 4200, 2440)};
  job.openings = {openingAt("Window-over-the-workbench-1", 900, 900, 1200, 1050),
                  openingAt("Ωμέγα № 2 – façade", 2900, 900, 600, 600)};
  checkPages(job);
}

TEST_CASE("openings too narrow for their names have them over the wall") {
  for (const char* practice : {"au", "us"}) {
    job::Job job;
    job.title = "Narrow";
    job.practice = practice;
    job.walls = {levelWall("w", 9600, 2440)};
    job.openings = {openingAt("T1", 600, 1500, 350, 350), openingAt("Bath window 2", 1500, 1000, 380, 1150),
                    openingAt("Pantry 17", 2300, 1500, 350, 350), openingAt("D", 3400, 0, 1760, 2000)};
    checkPages(job);
  }
}

TEST_CASE("a wall of a hundred metres with openings all along it") {
  job::Job job;
  job.title = "Shed";
  job.practice = "au";
  job.walls = {levelWall("long", 100000, 2700)};
  for (int i = 0; i < 40; ++i) {
    job.openings.push_back(openingAt("A" + std::to_string(i + 1), 600 + i * 2450.0, 900, 1200, 1000));
  }
  checkPages(job);
}

TEST_CASE("openings from the smallest to the largest, in every practice and kind") {
  std::mt19937_64 random(29);
  const std::array<const char*, 4> practices{"au", "nz", "uk", "us"};
  for (int round = 0; round < 24; ++round) {
    job::Job job;
    job.title = "Round " + std::to_string(round);
    job.practice = practices[static_cast<std::size_t>(round) % practices.size()];
    const double length = between(random, 1500, 9000);
    auto wall = levelWall("w", length, between(random, 2300, 3200));
    if (round % 3 == 0) wall.top[1].z += between(random, 100, 900);
    if (round % 2 == 0) wall.eave = job::Eave{between(random, 2100, 2400), between(random, 100, 900)};
    if (round % 5 == 0) wall.cladding = job::Cladding{16, 20};
    job.walls = {wall};
    auto opening = openingAt("N" + std::to_string(round), between(random, 100, length / 2), 0,
                             between(random, 350, length / 2), between(random, 350, 2100));
    opening.sill = round % 4 == 0 ? 0 : between(random, 200, 1100);
    opening.unit.kind = static_cast<job::UnitKind>(round % static_cast<int>(std::size(job::kKindWords)));
    if (round % 7 == 0) opening.unit.reveal.reset();
    if (round % 2 == 1) {
      job::Measured read;
      read.widths = {opening.width + between(random, -4, 4), opening.width, opening.width + between(random, -4, 4)};
      read.heights = {opening.height, opening.height + between(random, -4, 4), opening.height};
      read.out_of_level = between(random, -5, 5);
      read.out_of_plumb = {between(random, -6, 6), between(random, -6, 6)};
      opening.measured = read;
    }
    job.openings = {opening};
    checkPages(job);
  }
}

TEST_CASE("a job without openings, and one without walls but in name") {
  job::Job job;
  job.title = "Bare";
  job.practice = "au";
  job.walls = {levelWall("only", 3000, 2400)};
  checkPages(job);
}

TEST_CASE("a job of many openings has its lists over several pages") {
  job::Job job;
  job.title = "Terrace";
  job.practice = "nz";
  for (int i = 0; i < 60; ++i) {
    job.walls.push_back(levelWall("wall " + std::to_string(i + 1), 3000, 2400));
    auto opening = openingAt("T" + std::to_string(i + 1), 900, 900, 1200, 1000);
    opening.wall = static_cast<std::size_t>(i);
    job.openings.push_back(opening);
  }
  const auto made = testing::drawnJob(job);
  const auto pages = sheet::layOut(made.subject());
  CHECK(pages.size() > 180);
  for (const auto& page : pages) {
    for (const auto& fault : testing::faultsOf(page)) FAIL_CHECK(fault);
  }
}
