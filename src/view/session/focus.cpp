#include "view/session/focus.h"

#include <algorithm>
#include <cstddef>

namespace sillwright::view {

void Focus::step(bool backwards) {
  if (items.empty()) return;
  const auto here = std::find_if(items.begin(), items.end(), [&](const Item& item) { return item.id == at; });
  const auto count = static_cast<std::ptrdiff_t>(items.size());
  // Place −1 is the drawing: one step past either end gives the keys back to it.
  std::ptrdiff_t place = here == items.end() ? -1 : here - items.begin();
  place += backwards ? -1 : 1;
  if (place < -1) place = count - 1;
  at = place < 0 || place >= count ? 0 : items[static_cast<std::size_t>(place)].id;
  arrived = at != 0;
}

void Focus::endFrame() {
  items.swap(now);
  now.clear();
  activate = false;
  arrived = false;
  const bool there = std::any_of(items.begin(), items.end(), [&](const Item& item) { return item.id == at; });
  if (!there) at = 0;
}

}  // namespace sillwright::view
