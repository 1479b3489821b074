/// Inside the room: sections through head, jamb and sill, with every layer named.
///
/// Timber, unit, lining and packers are cut out of the scene; sheets that are thinner than a line (membrane, flashings,
/// fin) come from the plan's skin and are drawn apart, so that it is seen which lies over which.
#pragma once

#include "sheet/page.h"

namespace sillwright::sheet {

enum class Detail { Head, Jamb, Sill };

/// Draws one section into the room, heading included.
void drawSection(Book& book, std::size_t opening, Detail detail, const Box& room);

/// All sections are drawn at 1:5, whatever the practice's units.
inline constexpr double kSectionScale = 0.2;

}  // namespace sillwright::sheet
