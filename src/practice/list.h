/// The figures of a practice one after another, under the keys of its file.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "practice/practice.h"

namespace sillwright::practice {

/// One figure of a practice, and what has to be so for it to count.
struct Listed {
  std::string key;         ///< "safety.glass.low_below", "wind.class[N3].water_kpa", "clearance.side_most[to 3000]".
  std::string_view about;  ///< What it is, as the description of its table says.
  job::Holds holds;        ///< Its bounds.
  Figure* figure = nullptr;
  std::string_view wind{};              ///< The class of wind that it is of; empty: it is of none.
  std::string_view heat{}, bushfire{};  ///< The limit of heat loss, the bushfire level that it is of.
  const TimberGrade* grade = nullptr;   ///< Likewise.
  const Gauge* gauge = nullptr;
  const SpanEntry* span = nullptr;
};

/// All figures, in the order of the descriptions. They live in `practice`.
[[nodiscard]] std::vector<Listed> figuresOf(Practice& practice);

}  // namespace sillwright::practice
