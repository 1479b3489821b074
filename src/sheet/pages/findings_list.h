/// Inside the room: an opening's findings as a list, each with its sign, that goes on where there is room.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "check/finding.h"
#include "sheet/paper/painter.h"
#include "sheet/sheets.h"

namespace sillwright::sheet {

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

}  // namespace sillwright::sheet
