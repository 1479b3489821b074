/// The picked opening's own marks in the drawing: its as-built shape over the planned one, the gap at each side's ends,
/// what governs the fit, the packers' thicknesses, and a note where deviations are drawn larger.
///
/// Figures are always the true ones, at whatever size the deviations are drawn.
#pragma once

#include <cstddef>

#include "plan/stand/place.h"
#include "view/marks/lettering.h"

namespace sillwright::view {

/// The opening is seen near enough for its gaps to be figured from this width or height of it on, pixels at scale 1.
inline constexpr float kNearOpening = 260.0F;
/// Packers are figured where a millimetre is at least so many pixels.
inline constexpr float kNearPacker = 0.6F;
/// A constraint governs in a drawing's sense where its weight is at least this: smaller ones are only just touched.
inline constexpr double kLeastWeight = 0.05;

/// Whether the end of an edge is one of those that govern.
[[nodiscard]] bool governs(const plan::Stand& stand, plan::Side side, plan::At at);

/// As-built edges with their bow, solid, at the studs' outside and inside faces; the planned opening thin and dashed.
/// The as-built shape only where something was read.
void drawShapeLines(Lettering& on, std::size_t opening);
/// Gaps, what governs, packers, screws whose points come out behind the studs.
void drawOpeningMarks(Lettering& on, std::size_t opening);
/// "deviation ×10 …", where that is so.
void drawDeviationNote(Lettering& on);

/// A filled diamond: the mark of what governs.
void drawGoverningMark(ImDrawList& list, ImVec2 centre, float radius, const Palette& colours);

}  // namespace sillwright::view
