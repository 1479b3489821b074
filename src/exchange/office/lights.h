/// How a unit is divided and what its panels do, in an office's words: "fixed over awning", "F | A", "OXXO", "3L1R",
/// "4 panel stacker".
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.h"

namespace sillwright::exchange {

struct LightsSaid {
  std::optional<job::UnitKind> kind;  ///< Of the unit: of its first light that opens. Empty: letters or panels alone.
  std::vector<job::Light> lights;     ///< Empty: one.
  std::size_t rows = 1;
  std::string configuration;
  std::optional<int> panels;
  std::string asks;  ///< What is to be told before it is understood; the rest is empty then.
};

[[nodiscard]] LightsSaid lightsIn(std::string_view said);

}  // namespace sillwright::exchange
