/// Inside the room: one opening as built, with the unit in it, seen from outside with its fin and cladding off.
///
/// The unit is to scale. Everything off it (gaps, packers, out of true, bow) is drawn larger by a whole number, which
/// the drawing states; the figures are true.
#pragma once

#include "sheet/paper/page.h"

namespace sillwright::sheet {

/// Draws it into the room from its top on. Answers where it ends.
double drawAsBuilt(Book& book, std::size_t opening, const Box& room, const Scale& scale);

/// The largest scale for the room, and how high it then is.
struct AsBuiltSize {
  Scale scale;
  double height = 0;
};
[[nodiscard]] AsBuiltSize asBuiltSize(const Subject& subject, std::size_t opening, const Box& room);

/// The lines of a unit's frame and leaves, its outside corner at the view's (0, 0), with how it opens.
void drawUnit(Painter& painter, const View& view, const plan::UnitSpec& unit);

}  // namespace sillwright::sheet
