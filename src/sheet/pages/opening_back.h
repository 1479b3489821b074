/// Inside the room: the back of an opening's sheet: sections, what is cut of flashing and membrane.
#pragma once

#include "sheet/pages/findings_list.h"
#include "sheet/paper/page.h"
#include "sheet/paper/table.h"

namespace sillwright::sheet {

/// What room is left takes the findings from `next` on, which had none on the front.
void drawBack(Book& book, std::size_t opening, const PageTitle& title, const std::vector<Item>& items,
              std::size_t& next);

/// Flashings and tapes to cut, those alike on one line.
[[nodiscard]] Table piecesTable(const plan::Weather& weather, const practice::Practice& practice, double width);

/// The membrane's cut with its coordinates from the opening's lower left corner.
void drawMembraneCut(Painter& painter, const plan::Weather& weather, const job::Opening& opening,
                     const practice::Practice& practice, const Box& room);

}  // namespace sillwright::sheet
