// Rows for the keys of the job: each a field to type in, and a list that opens where there is something to choose from.

#include <algorithm>

#include "view/panels/panels.h"
#include "view/values/settings.h"

namespace sillwright::view {
namespace {

bool isAmong(std::initializer_list<std::string_view> names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// The source of what the rule set gives where the job says nothing; empty: it isn't a figure of the rule set.
std::string sourceOf(const Panel& panel, const job::KeyPlace& place) {
  const plan::Plan& plan = panel.document.plan;
  const bool unit = place.table == job::TableKind::Unit;
  if (!unit && place.table != job::TableKind::Opening && place.table != job::TableKind::Wall) return {};
  const std::string key = (unit ? "unit." : "") + place.key + (place.inner.empty() ? "" : "." + place.inner);
  const auto& assumed = unit                                     ? plan.openings[place.of].unit.assumed
                        : place.table == job::TableKind::Opening ? plan.openings[place.of].assumed
                                                                 : plan.walls[place.of].spec.assumed;
  const auto found = std::find_if(assumed.begin(), assumed.end(), [&](const auto& one) { return key == one.key; });
  return found == assumed.end() ? std::string{} : ": " + practice::cite(*found->figure);
}

void keyRow(const Panel& panel, const job::KeyText& key, const job::KeyText& settled) {
  const bool said = !key.text.empty();
  const std::string label = labelOf(key.place, panel.document.practice->words);
  const bool pressed = typedRow(panel, panel.typing, label,
                                shownText(said ? key : settled, panel.document.practice->display), key.place, !said);
  if (pressed && !choicesOf(panel.document, key).empty()) panel.wishes.push_back(OpenList{.key = key.place});
  const Item& own = panel.focus->now.back();
  if (!ImGui::IsItemHovered()) return;
  const std::string source = said ? ""
                             : settled.text.empty()
                                 ? "left out"
                                 : "not in the job: what the rule set has" + sourceOf(panel, key.place);
  panel.cards.push_back({own.low, own.high, label, std::string(key.rule->about), source});
}

}  // namespace

void keyRows(const Panel& panel, job::TableKind table, std::size_t of, std::initializer_list<std::string_view> keys,
             bool all_but) {
  const std::vector<job::KeyText> now = job::keysOf(panel.document.job, table, of);
  const std::vector<job::KeyText> settled = job::keysOf(settledAt(panel.document, table, of), table, of);
  for (std::size_t i = 0; i < now.size(); ++i) {
    if (isAmong(keys, now[i].place.key) != all_but) keyRow(panel, now[i], settled[i]);
  }
}

void menuList(const Panel& panel, const Menu& menu, ImVec2 size) {
  const float line = panel.fonts.body->FontSize + panel.px(5.0F);
  float width = std::max(menu.least_width, textSize(panel.fonts.strong, menu.title).x + panel.px(30.0F));
  for (const Offer& each : menu.offers) {
    width = std::max(width, wordItemSize(panel, each.word, each.key).x + panel.px(30.0F));
  }
  const float most = size.y - panel.px(24.0F);
  const float lines = static_cast<float>(menu.offers.size() + (menu.title.empty() ? 0 : 1));
  const float height = std::min(lines * line + panel.px(24.0F), most);
  const float edge = panel.px(8.0F);
  const float top = menu.upwards ? menu.at.y - height : menu.at.y;
  ImGui::SetNextWindowFocus();
  beginFittedPanel(panel, "list",
                   {std::max(edge, std::min(menu.at.x, size.x - width - edge)),
                    std::max(edge, std::min(top, size.y - height - edge))},
                   width, most);
  if (!menu.title.empty()) text(panel.fonts.strong, panel.colours->ink, menu.title);
  const std::size_t first = panel.focus->now.size();
  for (const Offer& each : menu.offers) {
    if (!wordItem(panel, each.word, each.key)) continue;
    panel.wishes.insert(panel.wishes.end(), each.wishes.begin(), each.wishes.end());
  }
  const bool over = ImGui::IsWindowHovered(ImGuiHoveredFlags_AllowWhenBlockedByActiveItem);
  if (ImGui::IsMouseClicked(ImGuiMouseButton_Left) && !over) panel.wishes.push_back(Stay{});
  // The keys go from the item into its list.
  if (panel.focus->at == menu.from && !panel.typing.field) panel.focus->at = panel.focus->now[first].id;
  ImGui::End();
}

void jobPage(const Panel& panel, ImVec2 size) {
  beginPage(panel, "job page", size, 560.0F);
  text(panel.fonts.heading, panel.colours->ink, "This job");
  text(panel.fonts.body, panel.colours->quiet, panel.document.path.string());
  keyRows(panel, job::TableKind::Job, 0, {}, true);
  groupHeading(panel, "Stock");
  text(panel.fonts.small, panel.colours->quiet,
       "What the crew has at hand, with commas between; empty: the rule set's usual.");
  keyRows(panel, job::TableKind::Stock, 0, {}, true);
  rule(panel);
  endPage(panel, panel.wishes, Toggle{&Shown::job_open});
}

}  // namespace sillwright::view
