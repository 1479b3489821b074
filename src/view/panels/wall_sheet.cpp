#include <string>

#include "view/panels/fields.h"
#include "view/panels/sheet_parts.h"
#include "view/values/words.h"

namespace sillwright::view {
namespace {

void topRows(const Panel& panel, std::size_t index) {
  const job::Wall& wall = panel.document.job.walls[index];
  if (isLevel(wall)) {
    dimensionRow(panel, "top of the plate", {DimensionKind::WallTop, index});
    return;
  }
  for (std::size_t i = 0; i < wall.top.size(); ++i) {
    const std::string corner = "top corner " + std::to_string(i + 1);
    const bool end = i == 0 || i + 1 == wall.top.size();
    if (!end) dimensionRow(panel, corner + ", from the left", {DimensionKind::TopX, index, i});
    dimensionRow(panel, corner + ", height", {DimensionKind::TopZ, index, i});
  }
}

}  // namespace

void wallSheet(const Panel& panel, const Layout& layout) {
  if (panel.shown.opening >= 0 || panel.shown.wall < 0) return;
  const Ui& ui = panel.ui;
  const auto index = static_cast<std::size_t>(panel.shown.wall);
  const job::Wall& wall = panel.document.job.walls[index];
  beginFittedPanel(ui, "wall", layout.sheet_at, layout.sheet_width, layout.most_height);
  text(ui.fonts.heading, ui.colours->ink, wall.name);
  text(ui.fonts.body, ui.colours->quiet, "wall, seen from outside");
  groupHeading(ui, "Set-out");
  typedRow(panel, "name", wall.name, NameOf{true, index});
  dimensionRow(panel, "length", {DimensionKind::WallLength, index});
  topRows(panel, index);
  keyRows(panel, job::TableKind::Wall, index, {"name", "length", "top"}, true);
  groupHeading(ui, "Change");
  if (wordItem(ui, "add an opening", "")) panel.wishes.push_back(EditWish{.act = EditAct::AddOpening, .of = index});
  if (wordItem(ui, "add a wall after it", "")) panel.wishes.push_back(EditWish{.act = EditAct::AddWall, .of = index});
  if (panel.document.job.walls.size() > 1 && wordItem(ui, "remove it with its openings", "")) {
    panel.wishes.push_back(EditWish{.act = EditAct::RemoveWall, .of = index});
  }
  ImGui::End();
}

}  // namespace sillwright::view
