/// What was drawn on a page, as values: tests read it.
#pragma once

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "sheet/paper/flat.h"

namespace sillwright::sheet {

/// A line of text on the page; its box reaches from the top of the capitals to below the descenders.
struct Label {
  std::string text;
  Box box;
  double capitals = 0;  ///< Height of its capitals, mm.
};

/// A dimension drawn to scale: the places of its two ticks, and the length that it states.
struct Measure {
  std::string text;
  Vec from;
  Vec to;
  double value = 0;   ///< mm of the thing.
  double per_mm = 0;  ///< Paper by thing.
};

struct PageLog {
  std::string title;
  double width = 0;
  double height = 0;
  Box frame;  ///< Nothing is drawn outside it.
  std::vector<Label> labels;
  std::vector<Measure> measures;
  /// Whether no text stands in a box yet.
  [[nodiscard]] bool isFree(const Box& box) const {
    return std::none_of(labels.begin(), labels.end(), [&](const Label& label) { return label.box.meets(box); });
  }

  std::set<char32_t> missing;  ///< Letters that no typeface of this machine has: boxes stand in their places.
};

}  // namespace sillwright::sheet
