/// What a part is and why it is there, in words.
#pragma once

#include <string>

#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "scene/scene.h"

namespace sillwright::scene {

/// What a part is, in one line with its sizes, in the practice's words: "jamb stud 90 × 45, 2350 long".
[[nodiscard]] std::string describe(const Part& part, const practice::Practice& practice);

/// Why it is there, and where the rule comes from; may be empty.
[[nodiscard]] std::string reason(const Part& part, const job::Job& job, const practice::Practice& practice,
                                 const plan::Plan& plan);

/// Plain name of a part's kind in the practice's words: "jamb stud".
[[nodiscard]] std::string nameOf(PartKind kind, const practice::Words& words);

/// Plain name of a layer, the same in every practice: "eave", "cladding".
[[nodiscard]] const char* nameOf(Layer layer);

}  // namespace sillwright::scene
