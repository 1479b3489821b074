/// The order of work as a book for the site and the class room: four to six steps a page, each with its picture, what
/// is checked and what to take care of; before them the parts, laid out and counted.
///
/// Pictures come from outside: nothing here draws in three dimensions.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "plan/work/order_of_work.h"
#include "sheet/sheets.h"

namespace sillwright::sheet {

/// A drawing from outside this room.
struct Pixels {
  int width = 0;
  int height = 0;
  std::vector<std::uint8_t> rgb;  ///< Top row first.
};

struct HandbookStep {
  plan::Step step;
  std::string where;                 ///< "at J1, J2"; empty: there is one opening only.
  std::vector<std::string> differs;  ///< What is not the same at all of those.
  Pixels picture;
};

/// A line of the parts: how many, of what.
struct CountedPart {
  int count = 0;
  std::string words;
};

struct Handbook {
  std::string title;              ///< "J2", "All openings".
  std::string wall;               ///< Of one opening.
  std::vector<std::string> hold;  ///< Openings that say stop, and why: nothing is done there.
  Pixels laid_out;
  std::vector<CountedPart> parts;
  std::vector<HandbookStep> steps;
};

/// Width over height of the pictures that have room beside each other.
inline constexpr double kStepShape = 1.5;

}  // namespace sillwright::sheet
