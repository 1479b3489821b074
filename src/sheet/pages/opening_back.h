/// Inside the room: the back of an opening's sheet: sections, what is cut of flashing and membrane.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "check/finding.h"
#include "sheet/paper/page.h"
#include "sheet/paper/painter.h"
#include "sheet/paper/table.h"
#include "sheet/sheets.h"

namespace sillwright::sheet {

// : an opening's findings as a list, each with its sign, that goes on where there is room.

struct Item {
  std::optional<check::Severity> severity;  ///< Empty: a caution.
  std::string text;
};

/// Stops and attentions with their cautions first, then notes. Never empty.
[[nodiscard]] std::vector<Item> itemsOf(const Subject& subject, std::size_t opening);

/// Draws items from `next` on under a heading, as many as fit; nothing if not even the first fits. Returns the y below
/// them.
double drawItemsUnder(Painter& painter, const std::string& heading, const std::vector<Item>& items, std::size_t& next,
                      const Box& room);

/// Draws items from `next` on, as many as fit. Returns the y below them.
double drawItems(Painter& painter, const std::vector<Item>& items, std::size_t& next, const Box& room);

/// What room is left takes the findings from `next` on, which had none on the front.
void drawBack(Book& book, std::size_t opening, const PageTitle& title, const std::vector<Item>& items,
              std::size_t& next);

/// Flashings and tapes to cut, those alike on one line.
[[nodiscard]] Table piecesTable(const plan::Weather& weather, const practice::Practice& practice, double width);

/// The membrane's cut with its coordinates from the opening's lower left corner.
void drawMembraneCut(Painter& painter, const plan::Weather& weather, const job::Opening& opening,
                     const practice::Practice& practice, const Box& room);

}  // namespace sillwright::sheet
