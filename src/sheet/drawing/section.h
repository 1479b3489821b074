/// Inside the room: sections through head, jamb and sill, with every layer named.
///
/// Timber, unit, lining and packers are cut out of the scene; sheets that are thinner than a line (membrane, flashings,
/// fin) come from the plan's skin and are drawn apart, so that it is seen which lies over which.
#pragma once

#include <string>
#include <vector>

#include "plan/settle.h"
#include "sheet/paper/page.h"

namespace sillwright::sheet {

enum class Detail { Head, Jamb, Sill, Upright, Across };

/// A joint within a unit, in its axes: where two lights or two panels meet.
struct Joint {
  std::string name;  ///< "Transom: louvre over fixed".
  Detail detail = Detail::Upright;
  double at = 0;   ///< Along the unit where it is upright, else up it.
  double cut = 0;  ///< The other way, where it is cut.
};
/// Those that differ, each once.
[[nodiscard]] std::vector<Joint> jointsOf(const plan::UnitSpec& unit);

/// Width of the room that a section with its names has, mm of paper.
inline constexpr double kSectionWide = 88;

/// An opening's sections are drawn at one scale, whatever the practice's units: 1:5, or smaller where the wall is so
/// deep that beside it there is no room for the longest word of a name.
[[nodiscard]] Scale sectionScale(Book& book, std::size_t opening);

/// Draws one section into the room, heading included.
void drawSection(Book& book, std::size_t opening, Detail detail, const Box& room, const Scale& scale);
/// The same of a joint.
void drawSection(Book& book, std::size_t opening, const Joint& joint, const Box& room, const Scale& scale);

}  // namespace sillwright::sheet
