#include "exchange/ifc_units.h"

#include <algorithm>
#include <map>
#include <string>
#include <string_view>

namespace sillwright::exchange {
namespace {

/// Words for which a job has one kind with another: read, never written.
constexpr std::array<std::string_view, 2> kLike[] = {
    {"DOUBLE_DOOR_SLIDING", "SLIDING_TO_RIGHT"},
    {"DOUBLE_DOOR_FOLDING", "FOLDING_TO_LEFT"},
    {"DOUBLE_DOOR_SINGLE_SWING_OPPOSITE_LEFT", "DOUBLE_DOOR_SINGLE_SWING"},
    {"DOUBLE_DOOR_SINGLE_SWING_OPPOSITE_RIGHT", "DOUBLE_DOOR_SINGLE_SWING"},
    {"DOUBLE_DOOR_DOUBLE_SWING", "DOUBLE_DOOR_SINGLE_SWING"},
    {"DOUBLE_SWING_LEFT", "SINGLE_SWING_LEFT"},
    {"DOUBLE_SWING_RIGHT", "SINGLE_SWING_RIGHT"}};

Working ofWord(std::string_view operation, bool door) {
  Working working;
  for (const auto& [word, like] : kLike) {
    if (operation == word) operation = like;
  }
  for (std::size_t i = 0; i < std::size(kOperations) && !working.kind; ++i) {
    const auto kind = static_cast<job::UnitKind>(i);
    const auto& words = kOperations[i];
    const auto* word = std::find(words.begin(), words.end(), operation);
    // A louvre is written as another way to work; of another program that word says nothing.
    if (job::isDoor(kind) != door || word == words.end() || kind == job::UnitKind::LouvreWindow) continue;
    working.kind = kind, working.hand = static_cast<job::Hand>(word - words.begin());
  }
  return working;
}

constexpr std::string_view kPlaces[] = {"LEFT", "MIDDLE", "RIGHT", "TOP", "BOTTOM"};  // of panels
constexpr std::ptrdiff_t kTop = 3;

/// Of a window's panels, by the number of their place.
Working ofPanels(const std::map<std::ptrdiff_t, Working>& panels, std::size_t count, bool from_inside) {
  Working whole = panels.begin()->second;
  if (count == 1) return whole;
  const std::ptrdiff_t first = panels.begin()->first, last = panels.rbegin()->first;
  whole.over = first >= kTop;
  for (const auto& [place, panel] : panels) {
    if (panel.kind) whole.lights.push_back(static_cast<job::Light>(*panel.kind));
  }
  whole.unclear = whole.lights.size() < count || last >= std::ssize(kPlaces) || (first < kTop) != (last < kTop);
  if (whole.unclear) whole.lights.clear();
  if (from_inside && !whole.over) std::reverse(whole.lights.begin(), whole.lights.end());
  return whole;
}

}  // namespace

/// A door's word stands on itself (IFC 4) or its type; a window's in sets of its panels' properties.
Working workingOf(StepFile& file, const StepInstance& unit, const StepInstance& type,
                  std::vector<std::uint32_t> property_sets, bool from_inside) {
  Working working;
  if (unit.type.starts_with("IFCDOOR")) {
    const bool own = unit[11].kind == StepValue::Kind::Word && unit[10].kind == StepValue::Kind::Word;
    working = ofWord(own ? unit[11].text : type[type.type == "IFCDOORTYPE" ? 10 : 8].text, true);
  } else {
    for (const StepValue& set : type[5].items) property_sets.push_back(set.reference);
    std::map<std::ptrdiff_t, Working> panels;
    std::size_t count = 0;
    for (const std::uint32_t set : property_sets) {
      const StepInstance properties = file.at(set);
      if (properties.type != "IFCWINDOWPANELPROPERTIES") continue;
      const auto* place = std::find(std::begin(kPlaces), std::end(kPlaces), properties[5].text);
      panels.try_emplace(place - std::begin(kPlaces), ofWord(properties[4].text, false));
      ++count;
    }
    if (count > 0) working = ofPanels(panels, count, from_inside);
  }
  if (from_inside) working.hand = working.hand == job::Hand::Left ? job::Hand::Right : job::Hand::Left;
  return working;
}

}  // namespace sillwright::exchange
