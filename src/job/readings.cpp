#include "job/readings.h"

#include "job/tables.h"

namespace sillwright::job {
namespace {

constexpr std::array<TapeReadingInfo, kTapeReadings> kReadings{{
    {"bottom width", "width", "bottom", "between the studs, along the sill", "widths"},
    {"middle width", "width", "middle", "between the studs, halfway up", "widths"},
    {"top width", "width", "top", "between the studs, under the head", "widths"},
    {"left height", "height", "left", "from sill to head, along the left stud", "heights"},
    {"middle height", "height", "middle", "from sill to head, halfway across", "heights"},
    {"right height", "height", "right", "from sill to head, along the right stud", "heights"},
    {"diagonal from bottom left", "diagonal", "bottom left", "from bottom left to top right, seen from outside",
     "diagonals"},
    {"diagonal from top left", "diagonal", "top left", "from top left to bottom right, seen from outside", "diagonals"},
    {"level of the sill", "level", "",
     "right end of the sill against the left end, by level: + where the right is higher", "out_of_level"},
    {"plumb of the left stud", "plumb", "left",
     "top of the left stud against its foot, by plumb: + to the right, seen from outside", "out_of_plumb"},
    {"plumb of the right stud", "plumb", "right",
     "top of the right stud against its foot, by plumb: + to the right, seen from outside", "out_of_plumb"},
    {"plumb in or out of the left stud", "in or out", "left",
     "top of the left stud against its foot, by plumb: + inwards", "out_of_plumb_in"},
    {"plumb in or out of the right stud", "in or out", "right",
     "top of the right stud against its foot, by plumb: + inwards", "out_of_plumb_in"},
    {"left wall depth", "wall depth", "left", "frame and lining together, at the left", "wall_depth"},
    {"right wall depth", "wall depth", "right", "frame and lining together, at the right", "wall_depth"},
}};

}  // namespace

const TapeReadingInfo& infoOf(TapeReading reading) { return kReadings[static_cast<std::size_t>(reading)]; }

const Holds& boundsOf(TapeReading reading) { return tableOf<Measured>().at(infoOf(reading).key); }

std::optional<double>& placeOf(Measured& measured, TapeReading reading) {
  auto& [widths, heights, diagonals, between, out_of_level, out_of_plumb, out_of_plumb_in, wall_depth, by] = measured;
  const std::array<std::optional<double>*, kTapeReadings> places{
      &widths[0],       &widths[1],          &widths[2],          &heights[0],    &heights[1],
      &heights[2],      &diagonals[0],       &diagonals[1],       &out_of_level,  &out_of_plumb[0],
      &out_of_plumb[1], &out_of_plumb_in[0], &out_of_plumb_in[1], &wall_depth[0], &wall_depth[1]};
  return *places[static_cast<std::size_t>(reading)];
}

std::optional<double> valueOf(const std::optional<Measured>& measured, TapeReading reading) {
  if (!measured) return std::nullopt;
  Measured copy = *measured;  // placeOf gives a place to write at
  return placeOf(copy, reading);
}

void setValue(std::optional<Measured>& measured, TapeReading reading, std::optional<double> value) {
  if (!measured) measured.emplace();
  placeOf(*measured, reading) = value;
  if (*measured == Measured{}) measured.reset();  // a table without readings is none
}

}  // namespace sillwright::job
