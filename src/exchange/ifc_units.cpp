#include "exchange/ifc_units.h"

#include <algorithm>
#include <map>
#include <string>
#include <string_view>

namespace sillwright::exchange {
namespace {

/// The word for what a job has one kind with: doors that swing both ways, and two leaves of any kind.
std::string usualWord(const std::string& operation) {
  if (operation.starts_with("DOUBLE_SWING")) return "SINGLE" + operation.substr(6);
  if (operation == "DOUBLE_DOOR_SLIDING") return "SLIDING_TO_RIGHT";  // it slides both ways: the first hand is taken
  if (operation == "DOUBLE_DOOR_FOLDING") return "FOLDING_TO_LEFT";
  return operation.starts_with("DOUBLE_DOOR") ? "DOUBLE_DOOR_SINGLE_SWING" : operation;
}

Working ofWord(const std::string& operation, bool door) {
  Working working;
  for (std::size_t i = 0; i < std::size(kOperations) && !working.kind; ++i) {
    const auto kind = static_cast<job::UnitKind>(i);
    const auto& words = kOperations[i];
    const auto* word = std::find(words.begin(), words.end(), usualWord(operation));  // the left's word, the right's
    // A louvre is written as another way to work; of another program that word says nothing.
    if (job::isDoor(kind) != door || word == words.end() || kind == job::UnitKind::LouvreWindow) continue;
    working.kind = kind, working.hand = static_cast<job::Hand>(word - words.begin());
  }
  return working;
}

constexpr std::string_view kPlaces[] = {"LEFT", "MIDDLE", "RIGHT", "TOP", "BOTTOM"};  // of panels
constexpr std::ptrdiff_t kTop = 3;  // the places from here on lie over each other

/// Of a window's panels, by the number of their place.
Working ofPanels(const std::map<std::ptrdiff_t, Working>& panels, std::size_t count, bool from_inside) {
  Working whole = panels.begin()->second;
  if (count == 1) return whole;                                                       // wherever it is said to lie
  const std::ptrdiff_t first = panels.begin()->first, last = panels.rbegin()->first;  // past the last place: unknown
  whole.over = first >= kTop;  // the map gives panels from the left, or from the top
  for (const auto& [place, panel] : panels) {
    if (panel.kind) whole.lights.push_back(static_cast<job::Light>(*panel.kind));  // lights have the numbers of kinds
  }
  // Unclear: a panel says no kind, two say one place, a place isn't known, or they lie beside and over each other.
  whole.unclear = whole.lights.size() < count || last >= std::ssize(kPlaces) || (first < kTop) != (last < kTop);
  if (whole.unclear) whole.lights.clear();  // it is taken as one light, and told
  if (from_inside && !whole.over) std::reverse(whole.lights.begin(), whole.lights.end());
  return whole;
}

}  // namespace

/// A door's word stands on itself (IFC 4) or its type; a window's in sets of its panels' properties.
Working workingOf(StepFile& file, const StepInstance& unit, const StepInstance& type,
                  std::vector<std::uint32_t> property_sets, bool from_inside) {
  Working working;
  if (unit.type.starts_with("IFCDOOR")) {  // 11: OperationType, in IFC 4 behind 10, PredefinedType
    const bool own = unit[11].kind == StepValue::Kind::Word && unit[10].kind == StepValue::Kind::Word;
    working = ofWord(own ? unit[11].text : type[type.type == "IFCDOORTYPE" ? 10 : 8].text, true);
  } else {
    for (const StepValue& set : type[5].items) property_sets.push_back(set.reference);  // 5: HasPropertySets
    std::map<std::ptrdiff_t, Working> panels;  // of two at one place it keeps the first: `count` tells
    std::size_t count = 0;
    for (const std::uint32_t set : property_sets) {
      const StepInstance properties = file.at(set);
      if (properties.type != "IFCWINDOWPANELPROPERTIES") continue;  // 4: OperationType, 5: PanelPosition
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
