#include <algorithm>
#include <cmath>

#include "view/panels/panels.h"
#include "view/values/words.h"

namespace sillwright::view {
namespace {

/// A tick box and a word: the box is drawn as a carpenter ticks a list.
void layerRow(const Panel& panel, scene::Layer layer, float width) {
  const Ui& ui = panel.ui;
  const bool hidden = (panel.shown.look.hidden_layers >> static_cast<unsigned>(layer) & 1U) != 0;
  const std::string word = wordFor(layer, panel.document.practice->words);
  const Response row = item(ui, "layer " + word, {width, ui.fonts.body->FontSize + ui.px(3.0F)});
  if (row.pressed) panel.wishes.push_back(ToggleLayer{layer});

  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float side = std::round(ui.fonts.body->FontSize * 0.72F);
  const ImVec2 box{std::round(row.low.x), std::round((row.low.y + row.high.y - side) * 0.5F)};
  list.AddRect(box, {box.x + side, box.y + side}, toU32(ui.colours->ink));
  if (!hidden) {
    const float line = std::max(1.5F, ui.px(1.8F));
    const ImVec2 low{box.x + side * 0.42F, box.y + side * 0.78F};
    list.AddLine({box.x + side * 0.18F, box.y + side * 0.5F}, low, toU32(ui.colours->ink), line);
    list.AddLine(low, {box.x + side * 1.02F, box.y + side * 0.02F}, toU32(ui.colours->ink), line);
  }
  drawText(list, ui.fonts.body, {box.x + side + ui.px(9.0F), row.low.y + ui.px(1.0F)},
           hidden ? ui.colours->quiet : ui.colours->ink, word);
  const std::string key(1, keyFor(layer));
  drawText(list, ui.fonts.small, {row.high.x - textSize(ui.fonts.small, key).x, row.low.y + ui.px(3.0F)},
           ui.colours->quiet, key);
}

}  // namespace

void layersPanel(const Panel& panel, const Layout& layout) {
  const Ui& ui = panel.ui;
  const float width = std::round(ui.px(206.0F));
  const float row = ui.fonts.body->FontSize + ui.px(3.0F) + ImGui::GetStyle().ItemSpacing.y;
  const float wanted = static_cast<float>(scene::kLayers + 2) * row + ui.px(30.0F);
  const float height = std::min(wanted, layout.most_height);
  const float left = layout.strip_at.x + layout.strip_width + ui.px(10.0F);
  beginPanel(ui, "layers", {left, layout.foot_at.y - ui.px(10.0F) - height}, {width, height});
  text(ui.fonts.strong, ui.colours->ink, "From outside inwards");
  const float inner = ImGui::GetContentRegionAvail().x;
  for (std::size_t i = 0; i < scene::kLayers; ++i) layerRow(panel, static_cast<scene::Layer>(i), inner);
  if (wordItem(ui, "show all", "")) panel.wishes.push_back(ShowAllLayers{});
  ImGui::End();
}

}  // namespace sillwright::view
