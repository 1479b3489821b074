/// What each figure of a practice is used by, found out and not kept by hand: a house with openings of every kind is
/// planned and judged, then again with the figure changed, and what then differs uses it.
#pragma once

#include <string>
#include <vector>

#include "practice/practice.h"

namespace sillwright::cli {

/// Where a figure counts. Unused where both are empty.
struct Use {
  std::vector<std::string> findings;  ///< What the findings that change are about, sorted.
  std::string elsewhere;  ///< Where no finding changes: "the plan", "the sheets", "the order of work", "the drawing".

  [[nodiscard]] bool unused() const { return findings.empty() && elsewhere.empty(); }
};

/// As practice::figuresOf.
[[nodiscard]] std::vector<Use> usesOf(const practice::Practice& practice);

}  // namespace sillwright::cli
