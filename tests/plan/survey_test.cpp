#include "plan/survey/survey.h"

#include <bit>
#include <cmath>
#include <limits>
#include <string>

#include "plan/survey/asked_readings.h"
#include "support/catch.h"
#include "support/survey_rig.h"

using namespace sillwright;
using namespace sillwright::plan;
using Catch::Matchers::WithinAbs;
using rig::bit;

namespace {

constexpr double kWidth = 1530;
constexpr double kHeight = 1060;

AsBuilt read(const job::Measured& measured, double width = kWidth, double height = kHeight) {
  return survey({width, height}, measured, rig::tapeErrors());
}

const AdjustedReading& of(const AsBuilt& built, Reading reading) {
  return built.readings[static_cast<std::size_t>(reading)];
}

double adjustedValue(const AsBuilt& built, Reading reading) {
  return of(built, reading).value + of(built, reading).residual;
}

void checkCorners(const AsBuilt& built, const rig::Quad& quad, double within) {
  const auto& corner = built.shape.corner;
  CHECK(corner[0] == Point{0, 0});
  CHECK_THAT(corner[1].x, WithinAbs(quad.br.x, within));
  CHECK_THAT(corner[1].z, WithinAbs(quad.br.z, within));
  CHECK_THAT(corner[2].x, WithinAbs(quad.tr.x, within));
  CHECK_THAT(corner[2].z, WithinAbs(quad.tr.z, within));
  CHECK_THAT(corner[3].x, WithinAbs(quad.tl.x, within));
  CHECK_THAT(corner[3].z, WithinAbs(quad.tl.z, within));
}

}  // namespace

TEST_CASE("an opening of which nothing was read is as planned, and known as well as planned sizes are") {
  for (const auto& measured : {std::optional<job::Measured>{}, std::optional<job::Measured>{job::Measured{}}}) {
    const AsBuilt built = survey({kWidth, kHeight}, measured, rig::tapeErrors());
    checkCorners(built, rig::rectangle(kWidth, kHeight), 0);
    CHECK(built.covariance[0][0] == Approx(25));  // 5 mm
    CHECK(built.covariance[5][5] == Approx(25));
    CHECK(built.trust == Trust::Planned);
    CHECK(built.from == ShapeFrom::Planned);
    CHECK(built.read_count == 0);
    CHECK(built.freedom == 0);
    CHECK_FALSE(built.turned_free);
    CHECK(of(built, Reading::DiagonalFromBottomLeft).value == Approx(std::hypot(kWidth, kHeight)));
  }
}

TEST_CASE("readings equal to the plan give the planned shape, and agree") {
  const AsBuilt built = read(rig::measured(rig::exactReadings(rig::rectangle(kWidth, kHeight))));
  checkCorners(built, rig::rectangle(kWidth, kHeight), 1e-9);
  CHECK(built.trust == Trust::Sound);
  CHECK(built.from == ShapeFrom::Measured);
  CHECK(built.read_count == 9);
  CHECK(built.freedom == 3);  // nine readings, six unknowns
  CHECK_THAT(built.chi_square, WithinAbs(0, 1e-12));
  CHECK_THAT(built.out_of_square, WithinAbs(0, 1e-9));
}

TEST_CASE("exact readings of any opening give back its corners") {
  rig::Chance chance(11);
  for (int trial = 0; trial < 200; ++trial) {
    const rig::Quad quad = rig::framed(chance, kWidth, kHeight, 8);
    const AsBuilt built = read(rig::measured(rig::exactReadings(quad)));
    checkCorners(built, quad, 1e-7);
    CHECK(built.trust == Trust::Sound);
    CHECK_THAT(
        built.out_of_square,
        WithinAbs(std::hypot(quad.tr.x, quad.tr.z) - std::hypot(quad.br.x - quad.tl.x, quad.br.z - quad.tl.z), 1e-7));
  }
}

// Without diagonals the widths and leans of a level opening close one loop, and the adjustment can be done by hand:
// c = bottom + right lean − top − left lean, of variance 1 + 0.25 + 1 + 0.25 = 2.5. Each gives way by its own share
// of the variance: v = ∓ σ² c / 2.5, r = σ² / 2.5, and every w is c / √2.5.
TEST_CASE("one closed loop is adjusted as by hand") {
  const std::uint32_t all_but_diagonals =
      rig::kAllNine & ~bit(Reading::DiagonalFromBottomLeft) & ~bit(Reading::DiagonalFromTopLeft);
  auto value = rig::exactReadings(rig::rectangle(kWidth, kHeight));
  value[0] += 2.5;
  const AsBuilt built = read(rig::measured(value, all_but_diagonals));

  CHECK(built.freedom == 1);
  CHECK(built.from == ShapeFrom::Measured);  // nothing is left open by these seven
  CHECK_THAT(built.chi_square, WithinAbs(2.5, 1e-6));
  CHECK_THAT(of(built, Reading::WidthBottom).residual, WithinAbs(-1.0, 1e-6));
  CHECK_THAT(of(built, Reading::WidthTop).residual, WithinAbs(1.0, 1e-6));
  CHECK_THAT(of(built, Reading::OutOfPlumbLeft).residual, WithinAbs(0.25, 1e-6));
  CHECK_THAT(of(built, Reading::OutOfPlumbRight).residual, WithinAbs(-0.25, 1e-6));
  CHECK_THAT(of(built, Reading::WidthBottom).redundancy, WithinAbs(0.4, 1e-6));
  CHECK_THAT(of(built, Reading::OutOfPlumbLeft).redundancy, WithinAbs(0.1, 1e-6));
  CHECK_THAT(of(built, Reading::HeightLeft).redundancy, WithinAbs(0, 1e-6));
  CHECK_THAT(of(built, Reading::WidthTop).standardised, WithinAbs(2.5 / std::sqrt(2.5), 1e-6));
  CHECK_THAT(*mistakeIn(of(built, Reading::WidthBottom)), WithinAbs(2.5, 1e-5));
  CHECK_FALSE(mistakeIn(of(built, Reading::HeightLeft)));
  CHECK_THAT(*rig::smallestMistakeSeen(of(built, Reading::WidthBottom)), WithinAbs(4.13 / std::sqrt(0.4), 1e-5));
}

TEST_CASE("standard errors come from the instrument, or from whoever read") {
  auto measured = rig::measured(rig::exactReadings(rig::rectangle(kWidth, kHeight)));
  CHECK(of(read(measured), Reading::DiagonalFromBottomLeft).sigma == 1.5);
  measured.by = job::Instrument::Tape;
  CHECK(of(read(measured), Reading::WidthTop).sigma == 1);
  measured.by = job::Instrument::Laser;
  CHECK(of(read(measured), Reading::WidthTop).sigma == 0.8);
  CHECK(of(read(measured), Reading::OutOfPlumbRight).sigma == 0.3);
  measured.by = job::StandardErrors{2, 3, 4};
  CHECK(of(read(measured), Reading::HeightLeft).sigma == 2);
  CHECK(of(read(measured), Reading::DiagonalFromTopLeft).sigma == 3);
  CHECK(of(read(measured), Reading::OutOfLevel).sigma == 4);
  measured.by = job::StandardErrors{0, 0, 0};  // refused by the reader of jobs; must not be the end of the world here
  CHECK(read(measured).converged);
}

TEST_CASE("without level or plumb the sill is taken as level, and that is said") {
  const std::uint32_t distances = 0x3f;
  rig::Quad quad = rig::rectangle(kWidth, kHeight);
  quad.br.z = -6;  // can't be seen by distances
  quad.tr.z -= 6;
  const AsBuilt built = read(rig::measured(rig::exactReadings(quad), distances));
  CHECK(built.turned_free);
  CHECK_THAT(built.shape.corner[1].z, WithinAbs(0, 1e-9));
  CHECK(of(built, Reading::OutOfLevel).stands_in);
  CHECK(built.from == ShapeFrom::Mixed);
  CHECK(built.freedom == 1);
  CHECK(std::sqrt(built.covariance[1][1]) == Approx(5));  // the sill's fall is as sure as the plan, no more
  CHECK_THAT(
      built.out_of_square,
      WithinAbs(std::hypot(quad.tr.x, quad.tr.z) - std::hypot(quad.br.x - quad.tl.x, quad.br.z - quad.tl.z), 1e-7));
  CHECK_FALSE(read(rig::measured(rig::exactReadings(quad), distances | bit(Reading::OutOfPlumbLeft))).turned_free);
}

TEST_CASE("what was not read is the plan's, with the plan's standard error, and what was read stays as read") {
  auto value = rig::exactReadings(rig::rectangle(kWidth, kHeight));
  value[0] = 1522;
  value[2] = 1055;
  const AsBuilt built = read(rig::measured(value, bit(Reading::WidthBottom) | bit(Reading::HeightLeft)));
  CHECK(built.trust == Trust::Unchecked);
  CHECK(built.from == ShapeFrom::Mixed);
  CHECK(built.freedom == 0);
  CHECK_THAT(adjustedValue(built, Reading::WidthBottom), WithinAbs(1522, 1e-7));
  CHECK_THAT(adjustedValue(built, Reading::HeightLeft), WithinAbs(1055, 1e-7));
  CHECK_THAT(adjustedValue(built, Reading::WidthTop), WithinAbs(kWidth, 1e-7));
  CHECK_THAT(adjustedValue(built, Reading::HeightRight), WithinAbs(kHeight, 1e-7));
  // The top is 8 wider than the bottom: neither stud is favoured.
  CHECK_THAT(adjustedValue(built, Reading::OutOfPlumbLeft), WithinAbs(-4, 0.02));
  CHECK_THAT(adjustedValue(built, Reading::OutOfPlumbRight), WithinAbs(4, 0.02));
  CHECK_FALSE(of(built, Reading::WidthBottom).stands_in);
  CHECK(of(built, Reading::WidthTop).stands_in);
  CHECK(of(built, Reading::OutOfPlumbLeft).stands_in);
  CHECK_FALSE(of(built, Reading::DiagonalFromBottomLeft).stands_in);
  CHECK(of(built, Reading::WidthTop).sigma == 5);
  CHECK(std::sqrt(built.covariance[0][0]) == Approx(1).epsilon(1e-4));
}

TEST_CASE("diagonals alone share what they tell between width and height") {
  const double diagonal = std::hypot(kWidth, kHeight);
  const double longer = diagonal + 10;
  job::Measured measured;
  measured.diagonals = {longer, longer};
  const AsBuilt built = read(measured);
  CHECK_THAT(adjustedValue(built, Reading::DiagonalFromBottomLeft), WithinAbs(longer, 1e-6));
  // Least movement of W and H with W dW + H dH = D dD: both grow, in the ratio of W to H (to first order).
  const double grown = adjustedValue(built, Reading::WidthTop) - kWidth;
  const double raised = adjustedValue(built, Reading::HeightLeft) - kHeight;
  CHECK_THAT(grown, WithinAbs(10 * kWidth / diagonal, 0.05));
  CHECK_THAT(raised, WithinAbs(10 * kHeight / diagonal, 0.05));
  CHECK_THAT(built.shape.corner[3].x, WithinAbs(0, 1e-6));
}

TEST_CASE("a middle reading beside its ends tells the bow, shared and inward positive") {
  auto measured = rig::measured(rig::exactReadings(rig::rectangle(kWidth, kHeight)));
  measured.widths[1] = kWidth - 6;
  const AsBuilt built = read(measured);
  CHECK_THAT(built.shape.bow.left, WithinAbs(3, 1e-9));
  CHECK_THAT(built.shape.bow.right, WithinAbs(3, 1e-9));
  CHECK(built.shape.bow.sill == 0);
  CHECK(built.middles[0] == MiddleUse::Bow);
  CHECK(built.middles[1] == MiddleUse::NotRead);
  measured.heights[1] = kHeight + 4;
  const AsBuilt both = read(measured);
  CHECK_THAT(both.shape.bow.sill, WithinAbs(-2, 1e-9));
  CHECK_THAT(both.shape.bow.head, WithinAbs(-2, 1e-9));
}

TEST_CASE("the middle of the as-built shape is as wide as was read, whatever the ends are adjusted to") {
  auto value = rig::exactReadings(rig::rectangle(kWidth, kHeight));
  value[0] += 2;
  value[4] -= 1;
  auto measured = rig::measured(value);
  measured.widths[1] = kWidth - 3;
  const AsBuilt built = read(measured);
  CHECK(std::abs(of(built, Reading::WidthBottom).residual) > 0.1);
  const double middle = built.shape.edge(Side::Right)[1].x - built.shape.edge(Side::Left)[1].x;
  CHECK_THAT(middle, WithinAbs(kWidth - 3, 0.01));
}

// Of readings that nothing checks: Var(bow) = (σ² + (σ² + σ²) / 4) / 4 = 0.375 σ².
TEST_CASE("the bow's standard error carries the three widths it is told from") {
  job::Measured measured;
  measured.widths = {kWidth, kWidth - 2, kWidth};
  CHECK_THAT(read(measured).bow_doubt[0].sigma, WithinAbs(std::sqrt(0.375), 1e-6));
  job::Measured none;
  none.widths = {kWidth, std::nullopt, kWidth};
  CHECK(read(none).bow_doubt[0].sigma == 0);
}

TEST_CASE("a middle reading without its ends stands in for them, and no bow is told") {
  job::Measured measured;
  measured.widths[1] = 1520;
  const AsBuilt alone = read(measured);
  CHECK(alone.middles[0] == MiddleUse::StandsIn);
  CHECK(alone.trust == Trust::Unchecked);
  CHECK(alone.from == ShapeFrom::Mixed);
  CHECK(alone.shape.bow == Bow{});
  CHECK(alone.bow_doubt[0].sigma == 0);
  CHECK_THAT(adjustedValue(alone, Reading::WidthBottom), WithinAbs(1520, 1e-6));
  CHECK_THAT(adjustedValue(alone, Reading::WidthTop), WithinAbs(1520, 1e-6));

  measured.widths[0] = 1522;  // straight edges: the top is as much narrower than the middle as the bottom is wider
  const AsBuilt one_end = read(measured);
  CHECK(one_end.middles[0] == MiddleUse::StandsIn);
  CHECK_THAT(adjustedValue(one_end, Reading::WidthTop), WithinAbs(1518, 1e-6));
}

TEST_CASE("where leans tell the missing end, the middle tells the bow after all") {
  job::Measured measured;
  measured.widths = {1530, 1524, std::nullopt};
  measured.heights = {kHeight, std::nullopt, kHeight};
  measured.out_of_plumb = {2, 4};  // the top is 2 wider than the bottom
  measured.out_of_level = 0;
  const AsBuilt built = read(measured);
  CHECK(built.middles[0] == MiddleUse::Bow);
  CHECK_THAT(built.shape.bow.left, WithinAbs((1531 - 1524) / 2.0, 1e-4));
}

TEST_CASE("twist is right tilt less left tilt: one tilt alone tells none, and that is said") {
  job::Measured measured;
  measured.out_of_plumb_in = {1, 4};
  const AsBuilt both = read(measured);
  REQUIRE(both.twist);
  CHECK(*both.twist == 3);
  CHECK_FALSE(both.tilt_alone);
  CHECK(both.trust == Trust::Planned);  // tilt says nothing of the shape in its plane
  measured.out_of_plumb_in[0].reset();
  CHECK_FALSE(read(measured).twist);
  CHECK(read(measured).tilt_alone);
}

TEST_CASE("out of square by the diagonals of a parallelogram, and of any four corners") {
  // A rectangle of 1200 × 2100 sheared by 9 over its height, studs kept in length: e = 9 to second order.
  const double rise = std::sqrt(2100.0 * 2100 - 81);
  OpeningShape shape;
  shape.corner = {Point{0, 0}, Point{1200, 0}, Point{1209, rise}, Point{9, rise}};
  const auto square = outOfSquare(shape);
  CHECK_THAT(square.lean, WithinAbs(9, 1e-9));
  CHECK_THAT(square.degrees, WithinAbs(std::asin(9.0 / 2100) * 180 / 3.14159265358979324, 1e-9));
  CHECK_THAT(outOfSquare(shape).lean, WithinAbs(9, 1e-9));
  const auto by_diagonals = outOfSquare(1200, 2100, std::hypot(1209, rise), std::hypot(1191, rise));
  CHECK_THAT(by_diagonals.lean, WithinAbs(9, 1e-9));
  CHECK(outOfSquare(100, 100, 1000, 10).degrees == Approx(90));  // no parallelogram at all
  CHECK(outOfSquare(OpeningShape{}).lean == 0);

  // Turned as a whole it is no more out of square.
  const double c = std::cos(0.01);
  const double s = std::sin(0.01);
  for (Point& p : shape.corner) p = {c * p.x - s * p.z, s * p.x + c * p.z};
  CHECK_THAT(outOfSquare(shape).lean, WithinAbs(9, 1e-9));
}

TEST_CASE("readings that make no opening are told, not made up") {
  auto value = rig::exactReadings(rig::rectangle(kWidth, kHeight));
  value[0] = std::numeric_limits<double>::quiet_NaN();
  const AsBuilt built = read(rig::measured(value));
  CHECK_FALSE(built.converged);
  CHECK(built.trust == Trust::Disputed);
  CHECK(built.suspects == 0);
  checkCorners(built, rig::rectangle(kWidth, kHeight), 0);
  CHECK(built.covariance[0][0] == 25);
}

TEST_CASE("small and large openings, and readings off by half a metre, converge") {
  rig::Chance chance(3);
  for (const auto& [width, height] :
       {std::pair(100.0, 100.0), std::pair(100.0, 20000.0), std::pair(20000.0, 100.0), std::pair(20000.0, 20000.0)}) {
    const rig::Quad quad = rig::framed(chance, width, height, 3);
    CAPTURE(width, height);
    const AsBuilt exact = read(rig::measured(rig::exactReadings(quad)), width, height);
    REQUIRE(exact.converged);
    checkCorners(exact, quad, 1e-6);
    for (const std::uint32_t which : {0x3fU, 0x7fU, 0x1cfU, 0x1fU}) {
      const AsBuilt some = read(rig::measured(rig::exactReadings(quad), which), width, height);
      CAPTURE(which);
      CHECK(some.converged);
      CHECK_THAT(some.chi_square, WithinAbs(0, 1e-3));
    }
  }
  for (std::size_t k = 0; k < kReadings; ++k) {
    for (const double off : {-500.0, 500.0}) {
      CAPTURE(k, off);
      auto value = rig::exactReadings(rig::framed(chance, kWidth, kHeight));
      value[k] += off;
      const AsBuilt built = read(rig::measured(value));
      CHECK(built.converged);
      CHECK((built.trust == Trust::Suspect || built.trust == Trust::Disputed));
      CHECK((built.suspects >> k & 1U) == 1);
    }
  }
}

TEST_CASE("each reading has its key in the job file and its words") {
  CHECK(std::string(keyOf(Reading::WidthBottom)) == "widths[0]");
  CHECK(std::string(keyOf(Reading::WidthTop)) == "widths[2]");
  CHECK(std::string(keyOf(Reading::HeightRight)) == "heights[2]");
  CHECK(std::string(keyOf(Reading::DiagonalFromTopLeft)) == "diagonals[1]");
  CHECK(std::string(keyOf(Reading::OutOfLevel)) == "out_of_level");
  CHECK(std::string(keyOf(Reading::OutOfPlumbRight)) == "out_of_plumb[1]");
  CHECK(std::string(wordsFor(Reading::WidthBottom)) == "bottom width");
  CHECK(std::string(wordsFor(Reading::DiagonalFromBottomLeft)) == "diagonal from bottom left");
}

TEST_CASE("of the readings that are asked for one that is misread shows, of four corners and of five") {
  const practice::Survey errors = rig::tapeErrors();
  std::optional<job::Head> level, raked, peaked;
  raked.emplace();
  raked->left = 1000;
  raked->right = 1600;
  peaked.emplace();
  peaked->left = peaked->right = 900;
  peaked->peak_x = 700;
  peaked->peak_z = 1350;
  for (const auto& head : {level, raked, peaked}) {
    job::Opening opening;
    opening.width = 1400;
    opening.height = head ? head->top() : 1200;
    opening.head = head;
    const AskedReadings asked = askedReadings(opening, errors);
    CAPTURE(asked.readings, asked.least, opening.height);
    // Low and wide, the diagonals are checked by little: all are asked for, and a centimetre just doesn't show.
    const bool all = std::popcount(asked.readings) == static_cast<int>(kReadings);
    CHECK(all == (asked.shows > kLeastSlip));
    CHECK(all == (head && head->peaked()));
    const auto planned = plannedReadings(opening);
    for (std::size_t wrong = 0; wrong < kReadings; ++wrong) {
      if ((asked.readings >> wrong & 1U) == 0) continue;
      std::optional<job::Measured> measured;
      for (std::size_t i = 0; i < kReadings; ++i) {
        if ((asked.readings >> i & 1U) == 0) continue;
        const job::TapeReading reading = tapeReadingOf(static_cast<Reading>(i));
        const double off = i == wrong ? 1.3 * asked.shows : 0;
        job::setValue(measured, reading, *planned[static_cast<std::size_t>(reading)] + off);
      }
      const AsBuilt built = survey(headLineOf(opening), measured, errors);
      CAPTURE(wrong);
      CHECK((built.trust == Trust::Suspect || built.trust == Trust::Disputed));
    }
  }
}
