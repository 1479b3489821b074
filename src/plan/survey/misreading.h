/// How a length is misread or miswritten: what a reading becomes when one usual slip is undone.
#pragma once

#include <optional>

namespace sillwright::plan {

/// The length that was probably meant by `read`, where undoing one slip brings it near `expected`: two neighbouring
/// digits changed places, 10, 100 or 1000 too much or too little, or a digit taken for one that looks like it. "Near"
/// is within `within` of what is expected and at least three times nearer than as read. Of several the nearest, slips
/// in the order above being preferred. mm. Empty where no slip explains it.
///
/// Which slips are usual is common practice, no source.
[[nodiscard]] std::optional<double> lengthMeant(double read, double expected, double within);

}  // namespace sillwright::plan
