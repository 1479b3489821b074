#include <algorithm>
#include <cmath>

#include "view/panels/panels.h"
#include "words/text.h"

namespace sillwright::view {
namespace {

/// Maps a wall's x and z to the small elevation's pixels.
struct Elevation {
  ImVec2 origin;  ///< Of x = 0, z = 0.
  float scale;    ///< Pixels a millimetre.

  [[nodiscard]] ImVec2 at(double x, double z) const {
    return {origin.x + static_cast<float>(x) * scale, origin.y - static_cast<float>(z) * scale};
  }
};

double highest(const job::Wall& wall) {
  double top = 0.0;
  for (const job::TopPoint& point : wall.top) top = std::max(top, point.z);
  return top;
}

/// The wall's face: under each stretch of the plate a quadrilateral, then its outline.
void drawWall(ImDrawList& list, const job::Wall& wall, const Elevation& elevation, const Palette& colours) {
  const ImU32 fill = toU32(colours.timber, 0.45F);
  for (std::size_t i = 0; i + 1 < wall.top.size(); ++i) {
    const job::TopPoint& a = wall.top[i];
    const job::TopPoint& b = wall.top[i + 1];
    list.AddQuadFilled(elevation.at(a.x, 0.0), elevation.at(a.x, a.z), elevation.at(b.x, b.z), elevation.at(b.x, 0.0),
                       fill);
  }
  list.PathLineTo(elevation.at(0.0, 0.0));
  for (const job::TopPoint& point : wall.top) list.PathLineTo(elevation.at(point.x, point.z));
  list.PathLineTo(elevation.at(wall.length, 0.0));
  list.PathStroke(toU32(colours.ink), ImDrawFlags_Closed, 1.0F);
}

void drawOpening(const Panel& panel, const Elevation& elevation, std::int32_t index) {
  const job::Opening& opening = panel.document.job.openings[static_cast<std::size_t>(index)];
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const ImVec2 low = elevation.at(opening.left, opening.sill + opening.height);
  const ImVec2 high = elevation.at(opening.left + opening.width, opening.sill);
  const ImVec2 least{std::max(high.x - low.x, 6.0F), std::max(high.y - low.y, 6.0F)};

  ImGui::SetCursorScreenPos(low);
  ImGui::PushID(index);
  if (ImGui::InvisibleButton("in elevation", least)) panel.wishes.push_back(PickOpening{index});
  const bool hovered = ImGui::IsItemHovered();
  ImGui::PopID();
  const bool picked = panel.shown.opening == index;
  std::vector<ImVec2> outline;
  for (const plan::Point& point : plan::headLineOf(opening).under({0, 0, opening.width, opening.height})) {
    outline.push_back(elevation.at(opening.left + point.x, opening.sill + point.z));
  }
  const int corners = static_cast<int>(outline.size());
  list.AddConvexPolyFilled(outline.data(), corners,
                           toU32(hovered || picked ? panel.colours->picked : panel.colours->unit));
  list.AddPolyline(outline.data(), corners, toU32(panel.colours->ink), ImDrawFlags_Closed, picked ? 2.0F : 1.0F);
  const float radius = std::clamp(std::min(least.x, least.y) * 0.28F, 2.5F, panel.px(6.0F));
  const check::Verdict verdict = panel.document.findings.verdicts[static_cast<std::size_t>(index)];
  drawMark(list, {(low.x + high.x) * 0.5F, (low.y + high.y) * 0.5F}, radius, verdict, *panel.colours,
           panel.document.findings.bases[static_cast<std::size_t>(index)]);
}

/// "● N1   ready": the same openings once more, in words.
void openingRow(const Panel& panel, std::int32_t index, float width) {
  const job::Opening& opening = panel.document.job.openings[static_cast<std::size_t>(index)];
  const check::Verdict verdict = panel.document.findings.verdicts[static_cast<std::size_t>(index)];
  ImGui::PushID(index);
  const Response row = item(panel, "opening " + opening.name, {width, panel.fonts.body->FontSize + panel.px(1.0F)},
                            panel.shown.opening == index);
  ImGui::PopID();
  if (row.pressed) panel.wishes.push_back(PickOpening{index});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float radius = panel.fonts.body->FontSize * 0.32F;
  drawMark(list, {row.low.x + radius * 1.2F, (row.low.y + row.high.y) * 0.5F}, radius, verdict, *panel.colours,
           panel.document.findings.bases[static_cast<std::size_t>(index)]);
  const std::string word = check::wordsFor(verdict);
  const float word_left = row.high.x - textSize(panel.fonts.body, word).x;
  const float name_left = row.low.x + radius * 2.4F + panel.px(8.0F);
  list.PushClipRect({name_left, row.low.y}, {word_left - panel.px(6.0F), row.high.y + panel.px(2.0F)}, true);
  drawText(list, panel.fonts.body, {name_left, row.low.y}, panel.colours->ink, opening.name);
  list.PopClipRect();
  drawText(list, panel.fonts.body, {word_left, row.low.y}, panel.colours->quiet, word);
}

/// Room that one wall takes in the strip.
float heightOf(const Ui& ui, const Panel& panel, std::size_t wall, float scale) {
  const float spacing = ImGui::GetStyle().ItemSpacing.y;
  const float row = ui.fonts.body->FontSize + ui.px(1.0F) + spacing;
  const float rows = static_cast<float>(panel.document.plan.walls[wall].openings.size() + 1) * row;
  const float drawing = static_cast<float>(highest(panel.document.job.walls[wall])) * scale + ui.px(2.0F) + spacing;
  return rows + drawing + ui.px(5.0F) + spacing;
}

void wall(const Panel& panel, std::size_t index, float width, float scale) {
  const job::Wall& wall = panel.document.job.walls[index];
  const auto number = static_cast<std::int32_t>(index);
  ImGui::PushID(number);
  const Response heading = item(panel, "wall " + wall.name, {width, panel.fonts.body->FontSize + panel.px(1.0F)},
                                panel.shown.wall == number && panel.shown.opening < 0);
  ImGui::PopID();
  if (heading.pressed) panel.wishes.push_back(PickWall{number});
  ImDrawList& list = *ImGui::GetWindowDrawList();
  drawText(list, panel.fonts.strong, heading.low, panel.colours->ink, wall.name);

  const ImVec2 top = ImGui::GetCursorScreenPos();
  const float height = static_cast<float>(highest(wall)) * scale;
  const Elevation elevation{{std::round(top.x) + 0.5F, std::round(top.y + height) + 0.5F}, scale};
  drawWall(list, wall, elevation, *panel.colours);
  for (const std::int32_t opening : panel.document.plan.walls[index].openings) {
    drawOpening(panel, elevation, opening);
  }
  ImGui::SetCursorScreenPos(top);
  ImGui::Dummy({width, height + panel.px(2.0F)});
  for (const std::int32_t opening : panel.document.plan.walls[index].openings) openingRow(panel, opening, width);
  room(panel, 5.0F);
}

void jobHeading(const Panel& panel) {
  const job::Job& job = panel.document.job;
  const std::string title = job.title.empty() ? job.file : job.title;
  const float width = ImGui::GetContentRegionAvail().x;
  const Response heading = item(panel, "this job", textSize(panel.fonts.strong, title, width));
  if (heading.pressed) panel.wishes.push_back(Toggle{&Shown::job_open});
  drawText(*ImGui::GetWindowDrawList(), panel.fonts.strong, heading.low, panel.colours->ink, title, width);
  const check::Findings& all = panel.document.findings;
  markedText(panel, all.verdict, panel.fonts.body,
             std::string(check::wordsFor(all.verdict)) + ", " + check::wordsFor(all.basis), all.basis);
  const std::string counts = words::count(static_cast<long>(job.walls.size()), "wall") + ", " +
                             words::count(static_cast<long>(job.openings.size()), "opening");
  text(panel.fonts.small, panel.colours->quiet, counts);
  if (panel.typing.anyNotInFile(job) && wordItem(panel, "not saved", "Ctrl S")) panel.wishes.push_back(Save{});
  rule(panel);
}

}  // namespace

void wallStrip(const Panel& panel, const Layout& layout) {
  beginFittedPanel(panel, "walls", layout.strip_at, layout.strip_width, layout.most_height);
  jobHeading(panel);
  double longest = 1.0;
  for (const job::Wall& each : panel.document.job.walls) longest = std::max(longest, each.length);
  // One scale for all walls, and room for the scroll bar whether or not it shows: drawings don't jump.
  const float width =
      layout.strip_width - 2.0F * ImGui::GetStyle().WindowPadding.x - ImGui::GetStyle().ScrollbarSize * 0.5F;
  const float scale = (width - 2.0F) / static_cast<float>(longest);
  const float see_from = -layout.most_height;  // a panel's height above and below is kept, so that Tab can go on
  const float see_to = 2.0F * layout.most_height;
  for (std::size_t i = 0; i < panel.document.job.walls.size(); ++i) {
    const float y = ImGui::GetCursorScreenPos().y;
    const float height = heightOf(panel, panel, i, scale);
    if (y + height < see_from || y > see_to) {
      ImGui::Dummy({width, height - ImGui::GetStyle().ItemSpacing.y});
    } else {
      wall(panel, i, width, scale);
    }
  }
  ImGui::End();
}

}  // namespace sillwright::view
