/// Inside the room: the schedule of a wall's timber, by the marks of its elevation.
#pragma once

#include <vector>

#include "plan/frame/cut_list.h"
#include "practice/practice.h"
#include "sheet/paper/table.h"
#include "sheet/words.h"

namespace sillwright::sheet {

[[nodiscard]] Table scheduleOf(const std::vector<plan::MemberGroup>& groups, const practice::Practice& practice);

}  // namespace sillwright::sheet
