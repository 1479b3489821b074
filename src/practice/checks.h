/// Inside the room: what the figures of a practice owe to one another. Each by itself is right.
#pragma once

#include <toml++/toml.h>

#include "job/mistakes.h"
#include "practice/practice.h"

namespace sillwright::practice {

/// `file` is what the practice was read from; mistakes are noted at its lines.
void check(const Practice& practice, const toml::table& file, job::Mistakes& mistakes);

}  // namespace sillwright::practice
