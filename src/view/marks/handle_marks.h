/// Handles in the drawing: small squares and rounds on what can be dragged, and beside the one in hand its figure and
/// what would come of letting it go there.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "document/document.h"
#include "view/marks/drawing.h"
#include "view/session/pull.h"
#include "view/session/shown.h"
#include "view/values/camera_control.h"
#include "view/values/handles.h"

namespace sillwright::view {

struct HandlesShown {
  const document::Document& document;
  const Shown& shown;
  const Canvas& canvas;
  const std::vector<Handle>& handles;
  std::optional<std::size_t> hovered;
  const Pull* pull = nullptr;  ///< What is dragged; null: nothing is.
};

/// What would stop the work at an opening as it now is: the first stop's own words; empty where nothing does.
[[nodiscard]] std::string stopAt(const document::Document& document, std::size_t opening);
/// The same of a wall, else of the first of its openings that something stops, with that one's name.
[[nodiscard]] std::string stopAtWall(const document::Document& document, std::size_t wall);

/// A plate beside the pointer, wholly within the picture.
void drawPlateAt(const Ui& ui, const Canvas& canvas, ImVec2 at, std::vector<PlateLine> lines);

/// One handle where it is; larger, and with the ways it goes, where it is hot.
void drawHandle(const Ui& ui, ImDrawList& list, const Shown& shown, const Canvas& canvas, const Handle& handle,
                bool hot);

void drawHandles(const Ui& ui, ImDrawList& list, const HandlesShown& shown);

}  // namespace sillwright::view
