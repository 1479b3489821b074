/// Kinds of framing members, and their names: in the practice's words on paper and in lists, and the fixed ones of the
/// JSON.
#pragma once

#include <string>

#include "plan/frame/frame.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// "jack stud below", "lintel": in lower case, without a number.
[[nodiscard]] std::string nameOf(MemberPart part, const practice::Words& words);

/// The same in any practice: "bottom plate", "common stud".
[[nodiscard]] const char* toWord(MemberPart part);

/// A stud of any kind.
[[nodiscard]] constexpr bool isUpright(MemberPart part) {
  return part >= MemberPart::CommonStud && part <= MemberPart::JackStudAbove;
}

}  // namespace sillwright::plan
