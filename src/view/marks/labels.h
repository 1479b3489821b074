/// What is written in the drawing itself: the openings' names with their verdict's mark, and the main dimensions of the
/// picked one, drawn as on paper and always facing the reader.
#pragma once

#include <vector>

#include "document/document.h"
#include "view/marks/drawing.h"
#include "view/marks/lettering.h"
#include "view/marks/water_marks.h"
#include "view/session/shown.h"
#include "view/values/flash.h"

namespace sillwright::view {

/// Most names in one picture: more can't be read, and each costs fill on a machine without a graphics card.
inline constexpr int kMostLabels = 32;

/// Draws into `list`. Nothing overlaps: what finds no room is left out, dimensions first served, then the picked
/// opening, then the worse verdicts, then the nearer ones. Names hidden behind another wall, or under a panel, are left
/// out too. While a lesson is on, the water is drawn in their place.
/// What an edit changed lights up under all of it. Where labels are not shown, only a note that deviations are drawn
/// larger is written. `taken`: places that are to be left free. Answers the dimensions, figures and notes that were
/// written.
std::vector<Written> drawLabels(const Ui& ui, ImDrawList& list, const document::Document& document, const Shown& shown,
                                const Canvas& canvas, const WaterShown& water = {}, const Flash* flash = nullptr,
                                std::vector<Rect> taken = {});

}  // namespace sillwright::view
