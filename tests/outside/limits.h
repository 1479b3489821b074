/// How a published limit is tried: just at its figure and just past it. The figure stands in the test as it is printed,
/// with its source, and goes nowhere but into a job; what answers is the program with its own practice.
#pragma once

#include <string>

#include "check/safety_support.h"
#include "words/text.h"

namespace sillwright::testing {

inline constexpr double kFromInches = 25.4;
inline constexpr double kFromSquareFeet = 0.3048 * 0.3048;

/// `says(value)` holds past the printed figure, by `step`, and not at it.
template <class Says>
void holdsPast(double printed, double step, const Says& says) {
  CAPTURE(printed, step);
  CHECK_FALSE(says(printed));
  CHECK(says(printed + step));
}

/// `says(value)` holds at the printed figure, and no more at a step below it.
template <class Says>
void holdsFrom(double printed, double step, const Says& says) {
  CAPTURE(printed, step);
  CHECK(says(printed));
  CHECK_FALSE(says(printed - step));
}

/// Whether what is said about something names the length, as the practice shows it.
inline bool names(const job::Job& job, const char* what, double mm) {
  const auto findings = judged(job);
  const auto* finding = about(findings, what);
  const std::string length = words::length(mm, shipped(job.practice).display);
  return finding != nullptr && (finding->say + finding->remedy).find(length) != std::string::npos;
}

}  // namespace sillwright::testing
