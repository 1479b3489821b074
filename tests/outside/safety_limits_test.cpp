// Falls, ways out and wet rooms against published limits: each is tried at its figure and just past it. Where only a
// text that quotes the source was seen the case says so.

#include "outside/limits.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::testing;

namespace {

/// A sliding window in a room, its lowest part that opens this high above the floor, the floor above the ground.
job::Job windowOver(const char* practice, job::Room room, double lowest, double above_ground) {
  job::Job job = simpleJob(job::UnitKind::SlidingWindow, 900, 900, practice);
  job.openings[0].room = room;
  setLowestOpening(job, lowest);
  job.walls[0].above_ground = above_ground;
  return job;
}

job::Job doorOver(const char* practice, double above_ground, std::optional<job::Outside> outside = std::nullopt) {
  job::Job job = simpleJob(job::UnitKind::SlidingDoor, 1810, 2095, practice);
  job.openings[0].outside = outside;
  job.walls[0].above_ground = above_ground;
  return job;
}

/// A casement that opens this wide and high, its foot this high above the floor.
job::Job wayOut(const char* practice, double width, double height, double foot) {
  job::Job job = simpleJob(job::UnitKind::CasementWindow, width + 2 * (18 + 45), height + 2 * (18 + 45), practice);
  job.openings[0].room = job::Room::Bedroom;
  setLowestOpening(job, foot);
  return job;
}

}  // namespace

TEST_CASE("ABCB Housing Provisions 2025, 11.3.7, as quoted: windows of bedrooms") {
  const auto bed = job::Room::Bedroom;
  holdsFrom(2000, 1, [&](double drop) { return has(windowOver("au", bed, 900, drop), "falls"); });
  holdsPast(1700, -1, [&](double lowest) { return has(windowOver("au", bed, lowest, 2600), "falls"); });
  const job::Job job = windowOver("au", bed, 900, 2600);
  for (const double figure : {125.0, 865.0, 150.0, 760.0}) CHECK(names(job, "falls", figure));
  const auto findings = judged(job);
  CHECK(about(findings, "falls")->remedy.find("250 N") != std::string::npos);
}

TEST_CASE("ABCB Housing Provisions 11.3.8, as summarised in trade texts: windows of other rooms, from 4 m") {
  holdsFrom(4000, 1, [](double drop) { return has(windowOver("au", job::Room::Living, 800, drop), "falls"); });
  CHECK(names(windowOver("au", job::Room::Living, 800, 4500), "falls", 865));
}

TEST_CASE("ABCB Housing Provisions 2025, 11.3.3 and 11.3.4, as quoted: a floor's edge over a fall of 1 m") {
  holdsFrom(1000, 1, [](double drop) { return has(doorOver("au", drop), "falls"); });
  const job::Job job = doorOver("au", 1200, job::Outside::Balcony);
  CHECK(names(job, "falls", 1000));
  CHECK(names(job, "falls", 125));
}

TEST_CASE("NZBC F4 and F4/AS1 table 1 and 1.2, as quoted: falls of 1 m, barriers of 1000 that stop 100") {
  holdsFrom(1000, 1, [](double drop) { return has(windowOver("nz", job::Room::Living, 700, drop), "falls"); });
  holdsPast(1000, -1, [](double lowest) { return has(windowOver("nz", job::Room::Living, lowest, 2600), "falls"); });
  holdsFrom(1000, 1, [](double drop) { return has(doorOver("nz", drop), "falls"); });
  const job::Job job = doorOver("nz", 1200, job::Outside::Deck);
  CHECK(names(job, "falls", 1000));
  CHECK(names(job, "falls", 100));
}

TEST_CASE("IRC R312.2.1 (2012 to 2021), as quoted: openings more than 72 in above grade and below 24 in, 4 in sphere") {
  const auto living = job::Room::Living;
  holdsPast(72 * kFromInches, 1, [&](double opening) {
    return has(windowOver("us", living, 20 * kFromInches, opening - 20 * kFromInches), "falls");
  });
  holdsPast(24 * kFromInches, -1, [&](double lowest) { return has(windowOver("us", living, lowest, 2600), "falls"); });
  CHECK(names(windowOver("us", living, 500, 2600), "falls", 4 * kFromInches));
}

TEST_CASE("IRC 2015 R312.1, as quoted: guards from 30 in, 36 in high, that stop 4 in") {
  holdsFrom(30 * kFromInches, 1, [](double drop) { return has(doorOver("us", drop), "falls"); });
  const job::Job job = doorOver("us", 1200, job::Outside::Deck);
  CHECK(names(job, "falls", 36 * kFromInches));
  CHECK(names(job, "falls", 4 * kFromInches));
}

TEST_CASE("Approved Document K 2013, diagrams 3.1 and 3.3: windows below 800, balconies 1100, 100 sphere, from 600") {
  // The drop of 600 is from a text that quotes section 3.
  const auto living = job::Room::Living;
  holdsPast(800, -1, [&](double lowest) { return has(windowOver("uk", living, lowest, 2600), "falls"); });
  holdsFrom(600, 1, [&](double drop) { return has(windowOver("uk", living, 700, drop), "falls"); });
  CHECK(names(windowOver("uk", living, 700, 2600), "falls", 800));
  holdsFrom(600, 1, [](double drop) { return has(doorOver("uk", drop), "falls"); });
  const job::Job job = doorOver("uk", 1200, job::Outside::Balcony);
  CHECK(names(job, "falls", 1100));
  CHECK(names(job, "falls", 100));
}

TEST_CASE("IRC 2015 R310, as quoted: 5.7 sq ft, 20 in wide, 24 in high, from no more than 44 in up") {
  const double inch = kFromInches;
  holdsPast(5.7, -0.02, [&](double square_feet) {
    return has(wayOut("us", 24 * inch, square_feet * kFromSquareFeet * 1e6 / (24 * inch), 900), "escape");
  });
  holdsPast(20 * inch, -1, [&](double width) { return has(wayOut("us", width, 50 * inch, 900), "escape"); });
  holdsPast(24 * inch, -1, [&](double height) { return has(wayOut("us", 40 * inch, height, 900), "escape"); });
  holdsPast(44 * inch, 1, [&](double foot) { return has(wayOut("us", 24 * inch, 40 * inch, foot), "escape"); });
}

TEST_CASE("Approved Document B volume 1 2019, as quoted: 0.33 m2, 450 by 450, from 1100 up at most, floors to 4.5 m") {
  holdsPast(0.33, -0.001, [](double area) { return has(wayOut("uk", 450, area * 1e6 / 450, 900), "escape"); });
  holdsPast(450, -1, [](double width) { return has(wayOut("uk", width, 900, 900), "escape"); });
  holdsPast(450, -1, [](double height) { return has(wayOut("uk", 900, height, 900), "escape"); });
  holdsPast(1100, 1, [](double foot) { return has(wayOut("uk", 600, 900, foot), "escape"); });
  holdsPast(4500, 1, [](double floor) {
    job::Job job = wayOut("uk", 600, 900, 900);
    job.walls[0].above_ground = floor;
    return has(job, "escape");
  });
}

TEST_CASE("ABCB Housing Provisions 10.2 (2025, the junction 2022), as quoted: 1800 up, 1500 about, 40 past") {
  job::Job job = simpleJob(job::UnitKind::AwningWindow, 600, 800, "au");
  job.openings[0].room = job::Room::Shower;
  const double offset = planAlone(job, 0, shipped("au")).stand.z;
  holdsPast(1800, -1, [&](double foot) {
    job.openings[0].sill = foot - offset;
    return has(job, "waterproofing");
  });
  job.openings[0].sill = 900;
  CHECK(names(job, "waterproofing", 40));
  job.openings[0].room = job::Room::WetArea;
  CHECK(names(job, "waterproofing", 1500));
}
