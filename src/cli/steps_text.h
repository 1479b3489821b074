/// The order of work in words, for a terminal or a printer: each opening's steps, and a crew's list of the whole job.
#pragma once

#include <cstddef>
#include <string>

#include "job/job.h"
#include "plan/plan.h"
#include "plan/work/order_of_work.h"
#include "practice/practice.h"

namespace sillwright::cli {

/// The steps of one opening, numbered, each with what is done, parts, tools, check and caution. Lines no wider than
/// `columns` characters.
[[nodiscard]] std::string stepsText(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                                    std::size_t opening, int columns);
/// plan::crewOrder, a task a line with the openings it is done at.
[[nodiscard]] std::string crewText(const job::Job& job, const plan::Plan& plan, int columns);

}  // namespace sillwright::cli
