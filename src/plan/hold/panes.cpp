#include "plan/hold/panes.h"

#include <algorithm>

namespace sillwright::plan {
namespace {

constexpr double kSashFace = 40;
constexpr double kSashDepth = 30;
constexpr double kLeafDepth = 40;
constexpr double kLeafClearance = 3;  // round a hung sash or leaf
constexpr double kStileFace = 90;     // of a hinged door's leaf
constexpr double kBottomRail = 200;

void addSash(UnitParts& parts, const UnitRect& outside, double depth, double face, double bottom_rail) {
  UnitRect pane = outside.inset(faceWithin(face, outside));
  if (bottom_rail > face) pane.z0 = outside.z0 + std::min(bottom_rail, outside.height() / 3);
  parts.sash[static_cast<std::size_t>(parts.sashes++)] = {outside, depth};
  parts.pane[static_cast<std::size_t>(parts.panes++)] = pane;
}

/// Two sashes that meet in the middle, their stiles behind each other.
void slide(UnitParts& parts) {
  const UnitRect& clear = parts.clear;
  const double face = faceWithin(kSashFace, {0, 0, clear.width() / 2, clear.height()});
  const double width = (clear.width() + face) / 2;
  addSash(parts, {clear.x0, clear.z0, clear.x0 + width, clear.z1}, kSashDepth, face, 0);
  addSash(parts, {clear.x1 - width, clear.z0, clear.x1, clear.z1}, kSashDepth, face, 0);
}

}  // namespace

double faceWithin(double face, const UnitRect& rect) {
  return std::min(face, 0.2 * std::min(rect.width(), rect.height()));
}

UnitParts partsOf(const UnitSpec& unit) {
  UnitParts parts;
  const UnitRect outside{0, 0, unit.width, unit.height};
  parts.frame = outside.inset(faceWithin(unit.reveal ? unit.reveal->thickness : 0, outside));
  parts.clear = parts.frame.inset(faceWithin(unit.frame.face, parts.frame));
  const UnitRect hung = parts.clear.inset(faceWithin(kLeafClearance, parts.clear));
  switch (unit.kind) {
    case job::UnitKind::SlidingWindow:
    case job::UnitKind::SlidingDoor:
      slide(parts);
      break;
    case job::UnitKind::AwningWindow:
    case job::UnitKind::CasementWindow:
      addSash(parts, hung, kLeafDepth, kSashFace, 0);
      break;
    case job::UnitKind::HingedDoor:
      addSash(parts, hung, kLeafDepth, kStileFace, kBottomRail);
      break;
    case job::UnitKind::FixedWindow:
      parts.pane[0] = parts.clear;
      parts.panes = 1;
      break;
  }
  return parts;
}

std::optional<UnitRect> clearOpening(const UnitSpec& unit, const UnitParts& parts) {
  switch (unit.kind) {
    case job::UnitKind::CasementWindow:
    case job::UnitKind::HingedDoor:
      return parts.clear;
    case job::UnitKind::SlidingWindow:
    case job::UnitKind::SlidingDoor: {
      UnitRect open = parts.clear;
      open.x1 = std::max(open.x0, open.x1 - parts.sash[0].outside.width());
      return open;
    }
    case job::UnitKind::AwningWindow:
    case job::UnitKind::FixedWindow:
      return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace sillwright::plan
