/// The chi-square distribution for whole degrees of freedom, in closed form.
///
/// Used by the adjustments to ask whether readings disagree by more than their standard errors explain.
#pragma once

namespace sillwright::plan {

/// The chance that a chi-square variable of `freedom` degrees exceeds `x`.
///
/// Abramowitz & Stegun, Handbook of Mathematical Functions, 26.4.4 (odd) and 26.4.5 (even). 1 for x ≤ 0; `freedom` ≥ 1.
[[nodiscard]] double chiSquareTail(double x, int freedom);

}  // namespace sillwright::plan
