/// Names of framing members in the practice's words, alike on paper and in lists.
#pragma once

#include <string>

#include "plan/frame/frame.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// "jack stud below", "lintel": in lower case, without a number.
[[nodiscard]] std::string nameOf(MemberPart part, const practice::Words& words);

}  // namespace sillwright::plan
