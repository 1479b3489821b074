#include <algorithm>
#include <array>
#include <cmath>

#include "scene/build/unit_places.h"
#include "view/marks/marks.h"
#include "view/panels/panels.h"
#include "view/values/readings.h"
#include "words/text.h"

namespace sillwright::view {
namespace {

/// The unit on screen, and how many pixels a millimetre of gap is drawn as.
struct Sketch {
  ImVec2 low;                ///< Top left of the rectangle round the unit.
  ImVec2 high;               ///< Bottom right.
  float scale;               ///< Pixels a millimetre of the unit.
  float gap;                 ///< Pixels a millimetre of gap.
  std::vector<ImVec2> head;  ///< The head's corners from the left: two, or three with a peak.

  /// The head so many pixels higher, from a place further left to one further right.
  [[nodiscard]] std::vector<ImVec2> headOver(float up, float left, float right) const {
    std::vector<ImVec2> line = head;
    for (ImVec2& corner : line) corner.y -= up;
    line.front().x -= left;
    line.back().x += right;
    return line;
  }
};

/// How far the planned opening stands off the unit, mm: left, right, sill, head.
std::array<double, 4> plannedGaps(const job::Opening& opening, const plan::OpeningPlan& planned) {
  const plan::Stand& stand = planned.stand;
  return {stand.x, opening.width - stand.x - planned.unit.width, stand.z,
          opening.height - stand.z - planned.unit.height};
}

/// The furthest that anything drawn stands off the unit, mm: what has no room would run over the sheet's title.
float largestGap(const job::Opening& opening, const plan::OpeningPlan& planned) {
  double largest = 1.0;  // mm: it is divided by
  double bowed = 0.0;
  for (const double gap : plannedGaps(opening, planned)) largest = std::max(largest, std::abs(gap));
  for (const plan::Side side : plan::kEverySide) {
    for (const double gap : plan::bySide(planned.stand.gaps, side)) largest = std::max(largest, std::abs(gap));
    bowed = std::max(bowed, std::abs(plan::bySide(planned.as_built.shape.bow, side)));
  }
  return static_cast<float>(largest + bowed);
}

/// Corners of the framed opening on screen, from the gaps at the unit's corners: BL, BR, TR, TL.
std::array<ImVec2, 4> openingCorners(const Sketch& sketch, const plan::Gaps& gaps) {
  const auto px = [&](double gap) { return static_cast<float>(gap) * sketch.gap; };
  return {ImVec2{sketch.low.x - px(gaps.left[0]), sketch.high.y + px(gaps.sill[0])},
          ImVec2{sketch.high.x + px(gaps.right[0]), sketch.high.y + px(gaps.sill[1])},
          ImVec2{sketch.high.x + px(gaps.right[1]), sketch.head.back().y - px(gaps.head[1])},
          ImVec2{sketch.low.x - px(gaps.left[1]), sketch.head.front().y - px(gaps.head[0])}};
}

/// A place on a head's line, as a share of its width.
ImVec2 onHead(const std::vector<ImVec2>& head, float share) {
  const float x = head.front().x + share * (head.back().x - head.front().x);
  const std::size_t i = head.size() > 2 && x > head[1].x ? 1 : 0;  // right of the peak
  const float run = std::max(head[i + 1].x - head[i].x, 1.0F);     // a peak over a corner has no run
  return {x, head[i].y + (x - head[i].x) / run * (head[i + 1].y - head[i].y)};
}

void drawTimber(ImDrawList& list, const std::array<ImVec2, 4>& corners, const std::vector<ImVec2>& head, float thick,
                bool sill, const Palette& colours) {
  const ImU32 timber = toU32(colours.timber);
  const auto& [bl, br, tr, tl] = corners;
  const float left = std::min(bl.x, tl.x) - thick;
  const float right = std::max(br.x, tr.x) + thick;
  const float bottom = std::max(bl.y, br.y) + thick;
  std::vector<ImVec2> outside = head;
  for (ImVec2& corner : outside) corner.y -= thick;
  outside.front().x = left;
  outside.back().x = right;
  for (std::size_t i = 0; i + 1 < head.size(); ++i)
    list.AddQuadFilled(outside[i], outside[i + 1], head[i + 1], head[i], timber);
  list.AddQuadFilled({left, bottom}, outside.front(), tl, bl, timber);
  list.AddQuadFilled(br, tr, outside.back(), {right, bottom}, timber);
  if (sill) list.AddQuadFilled(bl, br, {right, bottom}, {left, bottom}, timber);
}

/// The packers, each stack as deep as it is beside its gap.
void drawPackers(ImDrawList& list, const Sketch& sketch, const plan::Packing& packing, const Palette& colours) {
  const double half = std::max(2.5, plan::kPackerLength / 2 * static_cast<double>(sketch.scale));  // pixels, to be seen
  for (const plan::PackingPoint& point : packing.points) {
    const double along = point.at * static_cast<double>(sketch.scale);
    const double deep = std::max(point.stack.total * static_cast<double>(sketch.gap), 1.0);  // one pixel at least
    const scene::Rect at = scene::besideUnit(point.side, {along - half, along + half}, {0, deep},
                                             static_cast<double>(sketch.high.x - sketch.low.x),
                                             static_cast<double>(sketch.high.y - sketch.low.y));
    const auto place = [&](double x, double z) {
      return ImVec2{sketch.low.x + static_cast<float>(x), sketch.high.y - static_cast<float>(z)};
    };
    list.AddRectFilled(place(at.x0, at.z1), place(at.x1, at.z0), toU32(colours.packer));
  }
}

/// A figure whose middle is at a place; heavier and with the mark of stop where the gap is negative.
void drawFigure(const Ui& ui, ImVec2 middle, double gap, practice::Display display) {
  const std::string words = figure(gap, display);
  ImFont* font = gap < 0.0 ? ui.fonts.strong : ui.fonts.small;
  const ImVec2 size = textSize(font, words);
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const ImVec2 low{middle.x - size.x * 0.5F, middle.y - size.y * 0.5F};
  drawText(list, font, low, ui.colours->ink, words);
  if (gap < 0.0) drawMark(list, {low.x - ui.px(7.0F), middle.y}, ui.px(3.5F), check::Verdict::Stop, *ui.colours);
}

/// The as-built opening with its bow, edge by edge, over the planned one, dashed: both stand off the unit by their
/// gaps.
void drawShapes(const Panel& panel, const Sketch& sketch, const std::array<ImVec2, 4>& corners,
                const std::vector<ImVec2>& head_line, std::size_t index) {
  const plan::OpeningPlan& planned = panel.document.plan.openings[index];
  const job::Opening& opening = panel.document.job.openings[index];
  const plan::Bow& bow = planned.as_built.shape.bow;
  ImDrawList& list = *ImGui::GetWindowDrawList();
  const ImU32 ink = toU32(panel.colours->ink);
  const auto px = [&](double gap) { return static_cast<float>(gap) * sketch.gap; };
  const auto [left, right, sill, head] = plannedGaps(opening, planned);
  std::vector<ImVec2> ring = sketch.headOver(px(head), px(left), px(right));
  const float foot = sketch.high.y + px(sill);
  ring.insert(ring.end(), {{ring.back().x, foot}, {ring.front().x, foot}, ring.front()});
  const float dash = panel.px(3.0F);
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) drawDashes(list, ring[i], ring[i + 1], dash, dash, ink);
  const auto between = [](ImVec2 a, ImVec2 b, ImVec2 aside) { return times(a + b, 0.5F) + aside; };
  const ImVec2 middle = head_line.size() > 2 ? head_line[1] : between(corners[2], corners[3], {0.0F, px(bow.head)});
  const std::array<ImVec2, 8> outline{corners[0], between(corners[0], corners[1], {0.0F, -px(bow.sill)}),
                                      corners[1], between(corners[1], corners[2], {-px(bow.right), 0.0F}),
                                      corners[2], middle,
                                      corners[3], between(corners[3], corners[0], {px(bow.left), 0.0F})};
  list.AddPolyline(outline.data(), static_cast<int>(outline.size()), ink, ImDrawFlags_Closed, 1.3F);
}

/// A diamond on each end of an edge that governs the fit.
void drawGovernors(const Panel& panel, const std::array<ImVec2, 4>& corners, const std::vector<ImVec2>& head,
                   const plan::Stand& stand) {
  for (const plan::Side side : plan::kEverySide) {
    const auto [first, last] = plan::endsOf(side);
    const ImVec2 from = corners[static_cast<std::size_t>(first)];
    const ImVec2 to = corners[static_cast<std::size_t>(last)];
    for (const plan::At at : {plan::At::Start, plan::At::Middle, plan::At::End}) {
      if (!governs(stand, side, at)) continue;
      const float t = at == plan::At::Start ? 0.08F : at == plan::At::Middle ? 0.5F : 0.92F;  // clear of corners
      ImVec2 place = from + times(to - from, t);
      if (side == plan::Side::Head) place = at == plan::At::Middle && head.size() > 2 ? head[1] : onHead(head, t);
      drawGoverningMark(*ImGui::GetWindowDrawList(), place, panel.px(4.0F), *panel.colours);
    }
  }
}

/// The gaps at both ends of each side, `out` pixels from a jamb, somewhat nearer to sill and head.
void drawGapFigures(const Ui& ui, const Sketch& sketch, const plan::Gaps& gaps, float out, practice::Display display) {
  const float line = ui.fonts.small->FontSize;
  const ImVec2 in{line * 1.44F, line * 0.9F};                        // from the unit's corners
  const float off = out - ui.px(18.0F) + line * 0.5F + ui.px(1.0F);  // a line's height is less than a figure's width
  for (const plan::Side side : plan::kEverySide) {
    const plan::Point way = plan::outOf(side);
    for (const std::size_t end : {0U, 1U}) {
      const bool left = way.x != 0 ? way.x < 0 : end == 0;  // a jamb's at its side, sill's and head's at both ends
      const float top = left ? sketch.head.front().y : sketch.head.back().y;
      ImVec2 at{left ? sketch.low.x + in.x : sketch.high.x - in.x, end == 0 ? sketch.high.y - in.y : top + in.y};
      if (way.x != 0) at.x = left ? sketch.low.x - out : sketch.high.x + out;
      // Clear of a slope that rises from there.
      const float share = 2.0F * in.x / std::max(sketch.high.x - sketch.low.x, 1.0F);
      const float clear = std::min(top, onHead(sketch.head, left ? share : 1.0F - share).y);
      if (way.z != 0) at.y = way.z < 0 ? sketch.high.y + off : clear - off;
      drawFigure(ui, at, plan::bySide(gaps, side)[end], display);
    }
  }
}

}  // namespace

void openingDrawing(const Panel& panel, std::size_t opening, float slope) {
  const Ui& ui = panel;
  const plan::OpeningPlan& planned = panel.document.plan.openings[opening];
  const plan::Gaps& gaps = planned.stand.gaps;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x;

  // From the unit outwards: the largest gap, the timber's edge, then the figures.
  const float most_gap = ui.px(20.0F);
  const float timber = ui.px(9.0F);
  const float figures_out = most_gap + timber + ui.px(18.0F);
  const float room_width = width - 2.0F * (figures_out + ui.px(20.0F));
  const float room_height = std::round(std::min(ui.px(170.0F), room_width * slope));
  const float scale = std::min(room_width / static_cast<float>(planned.unit.width),
                               room_height / static_cast<float>(planned.unit.height));
  const ImVec2 unit_size{static_cast<float>(planned.unit.width) * scale,
                         static_cast<float>(planned.unit.height) * scale};
  const ImVec2 low{std::round(at.x + (width - unit_size.x) * 0.5F),
                   std::round(at.y + figures_out + (room_height - unit_size.y) * 0.5F)};
  const float gap_scale = most_gap / largestGap(panel.document.job.openings[opening], planned);
  Sketch sketch{low, low + ImVec2{std::round(unit_size.x), std::round(unit_size.y)}, scale, gap_scale, {}};
  for (const plan::Point& corner : plan::headLineOf(planned.unit).corners()) {
    sketch.head.emplace_back(low.x + std::round(static_cast<float>(corner.x) * scale),
                             sketch.high.y - std::round(static_cast<float>(corner.z) * scale));
  }

  ImDrawList& list = *ImGui::GetWindowDrawList();
  const float foot = at.y + room_height + 2.0F * figures_out;
  list.PushClipRect({at.x - ui.px(12.0F), at.y}, {at.x + width + ui.px(12.0F), foot}, true);  // not over a title
  const std::array<ImVec2, 4> corners = openingCorners(sketch, gaps);
  const double over = (gaps.head[0] + gaps.head[1]) / 2;  // the gap at a peak, between those at its ends
  std::vector<ImVec2> head = sketch.headOver(static_cast<float>(over) * sketch.gap, 0.0F, 0.0F);
  head.front() = corners[3];  // its ends are the corners as built, whose gaps differ
  head.back() = corners[2];
  drawTimber(list, corners, head, timber, !planned.unit.isDoor(), *ui.colours);
  drawPackers(list, sketch, planned.packing, *ui.colours);
  std::vector<ImVec2> unit = sketch.head;
  unit.insert(unit.end(), {sketch.high, {sketch.low.x, sketch.high.y}});
  list.AddConvexPolyFilled(unit.data(), static_cast<int>(unit.size()), toU32(ui.colours->unit));
  list.AddPolyline(unit.data(), static_cast<int>(unit.size()), toU32(ui.colours->ink), ImDrawFlags_Closed, 1.5F);
  drawShapes(panel, sketch, corners, head, opening);  // over the unit: it may not fit
  drawGovernors(panel, corners, head, planned.stand);
  drawGapFigures(ui, sketch, gaps, figures_out, panel.display);

  const std::string size = words::figures(planned.unit, panel.display);
  const ImVec2 middle = times(sketch.low + sketch.high - textSize(ui.fonts.small, size), 0.5F);
  drawText(list, ui.fonts.small, middle, ui.colours->ink, size);
  list.PopClipRect();
  ImGui::SetCursorScreenPos({at.x, foot + ui.px(2.0F)});
  saySmall(panel, "from outside; gaps " + std::to_string(std::lround(gap_scale / scale)) +
                      " times as wide as the rest; dashed: as planned; diamond: what governs the fit");
}

}  // namespace sillwright::view
