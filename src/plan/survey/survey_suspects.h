/// The chi-square distribution for whole degrees of freedom, in closed form.
///
/// Used by the adjustments to ask whether readings disagree by more than their standard errors explain.
#pragma once

#include <optional>

namespace sillwright::plan {

/// The chance that a chi-square variable of `freedom` degrees exceeds `x`.
///
/// Abramowitz & Stegun, Handbook of Mathematical Functions, 26.4.4 (odd) and 26.4.5 (even). 1 for x ≤ 0; `freedom` ≥ 1.
[[nodiscard]] double chiSquareTail(double x, int freedom);

// How a length is misread or miswritten: what a reading becomes when one usual slip is undone.

/// The length that was probably meant by `read`, where undoing one slip brings it near `expected`: two neighbouring
/// digits changed places, 10, 100 or 1000 too much or too little, or a digit taken for one that looks like it. "Near"
/// is within `within` of what is expected and at least three times nearer than as read. Of several the nearest, slips
/// in the order above being preferred. mm. Empty where no slip explains it.
///
/// Which slips are usual is common practice, no source.
[[nodiscard]] std::optional<double> lengthMeant(double read, double expected, double within);

}  // namespace sillwright::plan
