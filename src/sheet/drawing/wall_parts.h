/// Inside the room: a wall's timber as marked pieces, for its elevation and its schedule.
#pragma once

#include <string>
#include <vector>

#include "plan/plan.h"
#include "sheet/paper/table.h"
#include "sheet/words.h"

namespace sillwright::sheet {

/// Members that are cut alike.
struct MemberGroup {
  std::string mark;  ///< "A", "B" … "Z", "AA".
  plan::MemberPart part = plan::MemberPart::CommonStud;
  double length = 0;
  double width = 0;
  double depth = 0;
  double cut_degrees = 0;
  std::vector<std::size_t> members;  ///< Indices in the frame.
};

/// Alike: part, section, length to the nearest millimetre and cut to the tenth of a degree. In the order of the parts,
/// longest first.
[[nodiscard]] std::vector<MemberGroup> groupsOf(const plan::Frame& frame);

/// Mark of each member, by its index in the frame.
[[nodiscard]] std::vector<std::string> marksOf(const std::vector<MemberGroup>& groups, std::size_t members);

[[nodiscard]] Table scheduleOf(const std::vector<MemberGroup>& groups, const practice::Practice& practice);

/// "A" … "Z" without I and O (they read as 1 and 0), then "AA" …
[[nodiscard]] std::string markFor(std::size_t number);

}  // namespace sillwright::sheet
