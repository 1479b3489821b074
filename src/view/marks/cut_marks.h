/// The cutting plane in the drawing: its outline, its handle, and the figure of the one in hand.
#pragma once

#include "document/document.h"
#include "view/marks/drawing.h"
#include "view/session/cut_hand.h"
#include "view/session/shown.h"

namespace sillwright::view {

void drawCut(const Ui& ui, const document::Document& document, const Shown& shown, const Layout& layout,
             const CutHand& hand);

}  // namespace sillwright::view
