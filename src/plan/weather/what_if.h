/// What if: a change to a skin as a value, and where the water then goes.
///
/// Two sheets put the wrong way round, a piece or a whole step left out, a lap cut short. A change is told in a few
/// words ("swap sill flashing, left jamb flashing"), applied to a skin and answered by tracing the water again. Sheets
/// are called by their names, or by a part of it that may mean several ("jamb flashing" is both).
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/error.h"
#include "plan/weather/skin.h"
#include "plan/weather/water.h"
#include "plan/work/step_kind.h"

namespace sillwright::plan {

/// Two sheets lie the other way round; of the two, the one is moved in the pile whose move turns fewer other laps. A
/// tape goes with the flap that it holds. Sheets that don't lie on each other may be swapped: nothing comes of it.
struct SwapSheets {
  std::string first, second;
  bool operator==(const SwapSheets&) const = default;
};
struct LeaveOutSheet {
  std::string sheet;
  bool operator==(const LeaveOutSheet&) const = default;
};
struct LeaveOutStep {
  StepKind step = StepKind::Membrane;
  bool operator==(const LeaveOutStep&) const = default;
};
/// Moves a sheet's lower edge up.
struct ShortenLap {
  std::string sheet;
  double by = 0;  ///< mm
  bool operator==(const ShortenLap&) const = default;
};

using WhatIf = std::variant<SwapSheets, LeaveOutSheet, LeaveOutStep, ShortenLap>;

/// "swap A, B", "without A", "without step membrane" (a word of plan::toWord), "shorten A 40".
[[nodiscard]] std::string toText(const WhatIf& what_if);
/// Reads what toText writes; "mm" after the figure is allowed. Names are only looked up when the change is applied.
[[nodiscard]] base::Result<WhatIf> parseWhatIf(std::string_view text);
/// Several changes, with ';' between them. An empty text is no change.
[[nodiscard]] base::Result<std::vector<WhatIf>> parseWhatIfs(std::string_view text);

/// The skin with the change made. Names that no sheet has, and laps shorter than what is to be cut off, are errors.
[[nodiscard]] base::Result<Skin> applyWhatIf(const Skin& skin, const WhatIf& what_if);
[[nodiscard]] base::Result<Skin> applyWhatIf(const Skin& skin, std::span<const WhatIf> what_ifs);

/// One sentence or two: where the water of this skin gets in, or behind, and why, or that every drop is shed. Of a door
/// on the floor what runs in over its threshold isn't traced, and that is said.
[[nodiscard]] std::string explain(const WaterFaults& water, const Skin& skin);

/// The skin as it comes out when the steps are done in another order, or some not at all: what is put on later lies
/// further out, but for boards that tuck up under a flashing. For the lesson's exercise; `order` of kinds that put
/// nothing on is ignored. In the right order it is the skin as it was.
[[nodiscard]] Skin skinInOrder(const Skin& skin, std::span<const StepKind> order);

/// A swap of two neighbouring sheets that the trade forbids, and where it lets the water in.
struct ForbiddenSwap {
  SwapSheets swap;   ///< `first` is the one that has to lie further in.
  std::string why;   ///< The rule, in a sentence.
  double x_low = 0;  ///< The lap.
  double x_high = 0;
  double z = 0;  ///< The upper edge of the one further in: where water gets behind it once it lies outside.
};
/// All of them on this skin, from the innermost outwards. A lap above Skin::sheltered_above stays dry either way.
[[nodiscard]] std::vector<ForbiddenSwap> forbiddenSwaps(const Skin& skin);

}  // namespace sillwright::plan
