// What an opening and a set unit may be off by, against published limits, through what is said of readings. All were
// seen second-hand: each case names the text.

#include <cmath>

#include "check/judge_support.h"
#include "outside/limits.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::testing;

namespace {

/// An opening of this size read with a shape that `change` bends.
template <class Change>
bool says(const char* practice, double width, double height, const char* what, const Change& change) {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, width - 20, height - 20, practice);
  plan::OpeningShape shape = plan::plannedShape({width, height});
  change(shape);
  job.openings[0].measured = readingsOf(shape);
  return has(job, what);
}

/// A unit set with these readings.
bool saysOfSet(double width, double height, const char* what, const job::Installed& read) {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, width, height, "us");
  job.openings[0].installed = read;
  return has(job, what);
}

bool setOutOfSquare(double width, double height, double by) {
  const double diagonal = std::hypot(width, height);
  job::Installed read;
  read.diagonals = {diagonal, diagonal + by};
  return saysOfSet(width, height, "set square", read);
}

}  // namespace

TEST_CASE("QBCC Standards and Tolerances, as quoted by an inspection practice: 4 mm in 2 m out of plumb") {
  holdsPast(4, 1, [](double lean) {
    return says("au", 1220, 2000, "studs plumb", [&](auto& shape) {
      shape.corner[2].x += lean;
      shape.corner[3].x += lean;
    });
  });
}

TEST_CASE("Handbook of Construction Tolerances, as quoted in a trade journal: 1/4 in in 10 ft out of plumb") {
  holdsPast(0.25, 0.01, [](double lean) {
    return says("us", 1220, 5 * 12 * kFromInches, "studs plumb", [&](auto& shape) {
      shape.corner[2].x += lean * kFromInches / 2;
      shape.corner[3].x += lean * kFromInches / 2;
    });
  });
}

TEST_CASE("a trade measuring guide, as given on its page: 1/8 in of level, and over three widths or heights") {
  const double eighth = kFromInches / 8;
  holdsPast(eighth, 0.2, [](double fall) {
    return says("us", 1220, 1220, "sill level", [&](auto& shape) {
      shape.corner[1].z += fall;
      shape.corner[2].z += fall;
    });
  });
  holdsPast(eighth, 0.2, [](double spread) {
    return says("us", 1220, 1220, "widths", [&](auto& shape) { shape.corner[2].x += spread; });
  });
  holdsPast(eighth, 0.2, [](double spread) {
    return says("us", 1220, 1220, "heights", [&](auto& shape) { shape.corner[2].z += spread; });
  });
}

TEST_CASE("a trade rule, as given in guidance on sizing: diagonals of an opening within 1/8 in") {
  holdsPast(kFromInches / 8, 0.2, [](double difference) {
    const double racked = difference * std::hypot(1220, 1220) / (2 * 1220);
    return says("us", 1220, 1220, "square", [&](auto& shape) {
      shape.corner[2].x += racked;
      shape.corner[3].x += racked;
    });
  });
}

TEST_CASE("a trade manual on window installation, as given on its page: 1/8 in of level and plumb in 4 ft") {
  const double four_feet = 48 * kFromInches;
  holdsPast(kFromInches / 8, 0.2, [&](double off) {
    job::Installed read;
    read.out_of_level = off;
    return saysOfSet(four_feet, 900, "set level", read);
  });
  holdsPast(kFromInches / 8, 0.2, [&](double off) {
    job::Installed read;
    read.out_of_plumb = {off, 0};
    return saysOfSet(900, four_feet, "set plumb", read);
  });
}

TEST_CASE("the same manual: diagonals of a set unit within 1/8 in to 20 sq ft, within 1/4 in above") {
  holdsPast(kFromInches / 8, 0.2, [](double by) { return setOutOfSquare(1200, 1200, by); });
  holdsPast(kFromInches / 4, 0.2, [](double by) { return setOutOfSquare(1800, 1200, by); });
  holdsPast(20, 0.5, [](double square_feet) {
    return !setOutOfSquare(1200, square_feet * kFromSquareFeet * 1e6 / 1200, kFromInches / 6);
  });
}
