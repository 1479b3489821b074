#include "invariants/random_job.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>
#include <string>

#include "invariants/draw.h"
#include "support/simple_job.h"

namespace sillwright::testing {
namespace {

using job::UnitKind;

// --- the wall

double highest(const job::Wall& wall) {
  return std::max_element(wall.top.begin(), wall.top.end(), [](const auto& a, const auto& b) { return a.z < b.z; })->z;
}

std::vector<job::TopPoint> randomTop(Draw& draw, double length) {
  const int shape = draw.upTo(3);
  const double low = draw.between(2400, 3300, 50);
  const double rise = draw.between(0, 1500, 25);
  const double ridge = length * draw.between(0.3, 0.7, 0.1);
  switch (shape) {
    case 1:
      return {{0, low}, {length, low + rise}};
    case 2:
      return {{0, low}, {ridge, low + rise}, {length, low}};
    case 3:
      return {{0, low}, {ridge, low}, {length, low + rise}};
    default:
      return {{0, low}, {length, low}};
  }
}

void randomLayers(Draw& draw, const practice::Practice& practice, job::Wall& wall) {
  if (draw.oneIn(2)) wall.stud = draw.oneOf<job::StudSection>({{90, 45}, {90, 35}, {140, 45}, {70, 45}});
  if (draw.oneIn(3)) wall.spacing = draw.oneOf<double>({450, 600, 400});
  if (draw.oneIn(3)) wall.plates = job::PlateCount{1 + draw.upTo(1), 1 + draw.upTo(1)};
  if (draw.oneIn(3)) wall.lining = draw.between(0, 16);
  if (draw.oneIn(2)) wall.cladding = job::Cladding{draw.between(0, 25), draw.oneOf<double>({0, 20, 10})};
  if (draw.oneIn(2)) wall.eave = job::Eave{draw.between(2100, 2700, 25), draw.between(0, 900, 25)};
  const auto& grades = practice.strength.timber.grades;
  if (draw.oneIn(3) && !grades.empty()) {
    wall.timber = grades[static_cast<std::size_t>(draw.upTo(static_cast<int>(grades.size()) - 1))].name;
  }
  wall.align_heads = draw.oneIn(4);
  if (draw.oneIn(3)) wall.supports = job::Supports{draw.between(100, 6000, 100), draw.between(0, 2, 0.1)};
  if (draw.oneIn(3)) wall.above_ground = draw.between(0, 5000, 100);
}

job::Wall randomWall(Draw draw, const practice::Practice& practice, std::size_t number) {
  job::Wall wall;
  wall.name = "wall " + std::to_string(number + 1);
  wall.length = draw.between(2400, 12000, 150) + (draw.oneIn(3) ? draw.between(0, 149, 0.5) : 0);
  wall.top = randomTop(draw, wall.length);
  randomLayers(draw, practice, wall);
  return wall;
}

/// From the right end of the wall before, round an outer corner, an inner one or straight on; or by itself.
void putOnPlan(Draw& draw, const job::Wall* before, job::Wall& wall) {
  const double turned = draw.oneOf<double>({90, -90, 0, 45});
  const bool alone = draw.oneIn(4);
  if (before == nullptr) return;
  if (alone) {
    wall.at_x = draw.off(50'000, 100);
    wall.at_y = draw.off(50'000, 100);
    wall.turn_degrees = draw.off(360, 15);
    return;
  }
  const double angle = before->turn_degrees * std::numbers::pi / 180;
  wall.at_x = std::round(before->at_x + before->length * std::cos(angle));
  wall.at_y = std::round(before->at_y + before->length * std::sin(angle));
  wall.turn_degrees = before->turn_degrees + turned;
  if (wall.turn_degrees > 360 || wall.turn_degrees < -360) wall.turn_degrees = 0;
}

// --- the unit

/// One or two rows of one to three lights each, two at least: one light is the unit.
void divide(Draw& draw, job::Unit& unit) {
  const int columns = 1 + draw.upTo(2);
  const int rows = 1 + draw.upTo(1);
  if (rows * columns == 1 || unit.width < 150.0 * columns || unit.height < 150.0 * rows) return;
  for (int i = 0; i < rows * columns; ++i) unit.lights.push_back(static_cast<job::Light>(draw.upTo(13)));
  if (columns > 1 && draw.oneIn(3)) unit.lights[1] = job::Light::Joined;
  unit.rows.assign(static_cast<std::size_t>(rows), 0.0);
  if (rows == 2 && unit.height > 800 && draw.oneIn(2)) unit.rows[0] = draw.between(200, 500, 10);
}

job::Unit randomUnit(Draw& draw, double width, double height) {
  job::Unit unit;
  unit.kind = static_cast<UnitKind>(draw.upTo(static_cast<int>(std::size(job::kKindWords)) - 1));
  unit.width = std::max(100.0, width - draw.oneOf<double>({20, 20, 20, 15, 30, 10, 55, 2, -12}));
  unit.height = std::max(100.0, height - draw.oneOf<double>({20, 20, 20, 15, 25, 10, 60, 3, -12}));
  if (draw.oneIn(3)) unit.frame = job::FrameSection{draw.between(50, 150, 5), draw.between(30, 70, 5)};
  if (!draw.oneIn(4)) unit.reveal = job::Reveal{draw.between(12, 30), draw.between(80, 160)};
  if (draw.oneIn(3)) unit.fin = draw.between(0, 45, 5);
  if (draw.oneIn(2)) {
    unit.glass = job::Glass{draw.between(4, 12), 1 + draw.upTo(2), std::nullopt};
    if (draw.oneIn(2)) unit.glass->safety = draw.oneIn(2);
  }
  if (draw.oneIn(4)) unit.mass_kg = draw.between(5, 250);
  if (draw.oneIn(3)) unit.flashing = draw.oneOf({job::Flashing::OnWall, job::Flashing::Fitted});
  if (draw.oneIn(2)) unit.hand = draw.oneOf({job::Hand::Left, job::Hand::Right});
  if (draw.oneIn(4)) divide(draw, unit);
  return unit;
}

// --- readings

/// The opening as it stands: BL at the origin.
struct True {
  double br_x, br_z, tr_x, tr_z, tl_x, tl_z;
};

True framed(Draw& draw, const job::Opening& opening, double most) {
  return {opening.width + draw.off(most),  draw.off(most), opening.width + draw.off(most),
          opening.height + draw.off(most), draw.off(most), opening.height + draw.off(most)};
}

double toHalves(double value) { return std::round(2 * value) / 2; }

/// What a tape shows of a true figure: to half a millimetre, a little off, and now and then far off.
std::optional<double> reading(Draw& draw, double value, bool complete) {
  const bool taken = complete || draw.oneIn(2);
  const double slip = draw.oneIn(60) ? draw.between(10, 100) : 0;
  const double noise = draw.off(1);
  if (!taken) return std::nullopt;
  return toHalves(value) + noise + slip;
}

void readSizes(Draw& draw, const True& at, bool complete, job::Measured& m) {
  const double bottom = std::hypot(at.br_x, at.br_z);
  const double top = std::hypot(at.tr_x - at.tl_x, at.tr_z - at.tl_z);
  const double left = std::hypot(at.tl_x, at.tl_z);
  const double right = std::hypot(at.tr_x - at.br_x, at.tr_z - at.br_z);
  m.widths[0] = reading(draw, bottom, complete);
  m.widths[2] = reading(draw, top, complete);
  m.heights[0] = reading(draw, left, complete);
  m.heights[2] = reading(draw, right, complete);
  m.widths[1] = reading(draw, (bottom + top) / 2 + draw.off(6), false);
  m.heights[1] = reading(draw, (left + right) / 2 + draw.off(6), false);
}

job::Measured randomMeasured(Draw& draw, const job::Opening& opening) {
  job::Measured m;
  const bool complete = draw.oneIn(2);
  const True at = framed(draw, opening, draw.oneOf<double>({2, 5, 12}));
  readSizes(draw, at, complete, m);
  m.diagonals[0] = reading(draw, std::hypot(at.tr_x, at.tr_z), complete);
  m.diagonals[1] = reading(draw, std::hypot(at.br_x - at.tl_x, at.br_z - at.tl_z), complete);
  m.out_of_level = reading(draw, at.br_z, complete);
  m.out_of_plumb[0] = reading(draw, at.tl_x, complete);
  m.out_of_plumb[1] = reading(draw, at.tr_x - at.br_x, complete);
  for (auto& off : m.out_of_plumb_in) off = reading(draw, draw.off(8), false);
  for (auto& depth : m.wall_depth) depth = reading(draw, draw.between(90, 120), false);
  if (draw.oneIn(3)) m.by = draw.oneOf({job::Instrument::Tape, job::Instrument::Laser});
  if (draw.oneIn(6)) m.by = job::StandardErrors{draw.between(0.5, 3, 0.5), draw.between(0.5, 4, 0.5), 0.5};
  return m;
}

job::Installed randomInstalled(Draw& draw, const job::Unit& unit) {
  job::Installed read;
  if (draw.oneIn(2)) read.date = job::Date{2026, 1 + draw.upTo(11), 1 + draw.upTo(27)};
  for (auto& diagonal : read.diagonals) diagonal = reading(draw, std::hypot(unit.width, unit.height), false);
  read.out_of_level = reading(draw, draw.off(3), false);
  for (auto& off : read.out_of_plumb) off = reading(draw, draw.off(4), false);
  if (draw.oneIn(2)) read.opens = draw.oneIn(2);
  if (draw.oneIn(2)) read.locks = draw.oneIn(2);
  return read;
}

// --- the opening

/// Beside the one before on its wall; now and then anywhere, in another opening or past the wall's end.
void setOut(Draw& draw, const job::Wall& wall, double free_from, job::Opening& opening) {
  opening.width = draw.between(500, 3000, 50) + draw.oneOf<double>({0, 0, 0.5, 7});
  opening.height = draw.between(500, 2200, 50) + draw.oneOf<double>({0, 0, 0.5, 7});
  opening.left = free_from + draw.between(150, 900, 10);
  if (draw.oneIn(8)) opening.left = draw.between(-200, wall.length, 10);
  const double head = draw.between(2050, 2250, 50);
  opening.sill = std::max(0.0, head - opening.height);
  if (draw.oneIn(6)) opening.sill = draw.between(0, std::max(1.0, highest(wall) - 400), 10);
}

/// Empty: this one is not there.
std::optional<job::Opening> randomOpening(Draw draw, const job::Job& job, std::size_t number,
                                          std::vector<double>& free_from) {
  if (draw.upTo(2) == 0) return std::nullopt;
  job::Opening opening;
  opening.name = "O" + std::to_string(number + 1);
  opening.wall = static_cast<std::size_t>(draw.upTo(static_cast<int>(job.walls.size()) - 1));
  const job::Wall& wall = job.walls[opening.wall];
  setOut(draw, wall, free_from[opening.wall], opening);
  opening.unit = randomUnit(draw, opening.width, opening.height);
  if (job::isDoor(opening.unit.kind) && !draw.oneIn(8)) opening.sill = 0;
  free_from[opening.wall] = std::max(free_from[opening.wall], opening.left + opening.width);
  if (draw.oneIn(2)) opening.room = static_cast<job::Room>(draw.upTo(5));
  if (draw.oneIn(4)) opening.lintel = job::Lintel{draw.between(90, 300, 10), 45, 1 + draw.upTo(2)};
  const bool measured = !draw.oneIn(3);
  const bool installed = draw.oneIn(4);
  if (measured) opening.measured = randomMeasured(draw, opening);
  if (installed) opening.installed = randomInstalled(draw, opening.unit);
  return opening;
}

// --- the house

void randomWind(Draw& draw, const practice::Practice& practice, job::Job& job) {
  const auto& classes = practice.strength.wind.classes;
  const int named = draw.upTo(static_cast<int>(classes.size()) - 1);
  const double pressure = draw.between(0.1, 5, 0.1);
  switch (draw.upTo(3)) {
    case 0:
      return;
    case 1:
      job.wind = job::StatedPressure{pressure};
      return;
    default:
      job.wind = classes[static_cast<std::size_t>(named)].name;
  }
}

job::Stock randomStock(Draw& draw, const practice::Practice& practice) {
  job::Stock stock;
  if (draw.oneIn(2)) stock.packers = draw.oneOf<std::vector<double>>({{1, 2, 5, 10}, {3}, {1.5, 3.2, 6.4}, {1, 20}});
  if (draw.oneIn(2)) stock.rolls = draw.oneOf<std::vector<double>>({{150}, {110, 230}, {300, 75}});
  if (draw.oneIn(3)) stock.roll_length = draw.between(3000, 25000, 500);
  if (draw.oneIn(2)) stock.timber = draw.oneOf<std::vector<double>>({{2400, 6000}, {3600}, {2700, 4800, 5400}});
  if (draw.oneIn(2)) stock.screws = {practice.stock.screws.front()};
  return stock;
}

std::span<const std::uint32_t> partOf(const std::vector<std::uint32_t>& numbers, std::size_t from, std::size_t count) {
  return std::span<const std::uint32_t>{numbers}.subspan(from, count);
}

}  // namespace

job::Job jobFrom(const std::vector<std::uint32_t>& numbers) {
  Draw house(partOf(numbers, 0, kHouseNumbers));
  job::Job job;
  job.file = "random.toml";
  job.title = "random";
  job.practice = house.oneOf({"nz", "au", "us", "uk"});
  const auto& practice = shipped(job.practice);
  const std::size_t walls = 1 + static_cast<std::size_t>(house.upTo(kMostRandomWalls - 1));
  std::size_t at = kHouseNumbers;
  for (std::size_t i = 0; i < walls; ++i) {
    job.walls.push_back(randomWall(Draw(partOf(numbers, at + i * kWallNumbers, kWallNumbers)), practice, i));
    putOnPlan(house, i == 0 ? nullptr : &job.walls[i - 1], job.walls[i]);
  }
  randomWind(house, practice, job);
  if (house.oneIn(3)) job.stock = randomStock(house, practice);
  at += kMostRandomWalls * kWallNumbers;
  std::vector<double> free_from(walls, 0);
  for (std::size_t i = 0; i < kMostRandomOpenings; ++i) {
    auto opening = randomOpening(Draw(partOf(numbers, at + i * kOpeningNumbers, kOpeningNumbers)), job, i, free_from);
    if (opening) job.openings.push_back(std::move(*opening));
  }
  return job;
}

}  // namespace sillwright::testing
