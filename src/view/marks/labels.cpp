#include "view/marks/marks.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "scene/scene.h"
#include "view/values/readings.h"
#include "words/length.h"

namespace sillwright::view {
namespace {

/// Most names in one picture: more can't be read, and each costs fill on a machine without a graphics card.
constexpr int kMostLabels = 32;
constexpr float kLeastNamed = 10.0F;  // pixels that an opening takes up, to be named unpicked

/// Width below, height at the right, sill height at the left of the picked opening.
void drawPickedDimensions(Lettering& on, std::size_t index) {
  const job::Opening& opening = on.document.job.openings[index];
  const scene::OpeningFrame& frame = on.document.scene.openings[index];
  const scene::WallFrame& wall = on.document.scene.walls[frame.wall];
  const practice::Display display = on.document.practice->display;
  const glm::vec3 side = wall.along * (frame.width * 0.5F);
  const glm::vec3 up{0.0F, 0.0F, 1.0F};
  const glm::vec3 rise = up * (frame.height * 0.5F);
  const glm::vec3 bl = frame.centre - side - rise;
  const glm::vec3 br = frame.centre + side - rise;
  const double right = plan::headLineOf(opening).right();
  const glm::vec3 tr = br + up * static_cast<float>(right);
  drawWallDimension(on, wall, bl, br, -up, figure(opening.width, display));
  if (right > 0) drawWallDimension(on, wall, br, tr, wall.along, figure(right, display));
  if (opening.sill > 1.0) {
    const glm::vec3 foot = bl - up * static_cast<float>(opening.sill);
    drawWallDimension(on, wall, foot, bl, -wall.along, figure(opening.sill, display));
  }
}

struct Name {
  std::size_t opening = 0;
  ImVec2 at;
  float depth = 0.0F;
  float seen_width = 0.0F;
};

float heightOf(const Lettering& on, const scene::OpeningFrame& opening) {
  const glm::vec3 rise{0.0F, 0.0F, opening.height * 0.5F};
  const auto foot = on.project(opening.centre - rise);
  const auto head = on.project(opening.centre + rise);
  return foot && head ? length(*head - *foot) : 0.0F;
}

/// Openings whose middle is in the picture, the ones that matter most first.
std::vector<Name> namesInSight(const Lettering& on) {
  std::vector<Name> names;
  const auto& openings = on.document.scene.openings;
  for (std::size_t i = 0; i < openings.size(); ++i) {
    if (on.isCutAway(openings[i].centre)) continue;
    const auto at = on.project(openings[i].centre);
    if (!at || !on.isInPicture(*at)) continue;
    const glm::vec3 side = on.document.scene.walls[openings[i].wall].along * (openings[i].width * 0.5F);
    const auto left = on.project(openings[i].centre - side);
    const auto right = on.project(openings[i].centre + side);
    const float seen = left && right ? length(*right - *left) : 0.0F;
    const bool picked = on.shown.opening == static_cast<std::int32_t>(i);
    if (!picked && seen < on.ui.px(kLeastNamed) && heightOf(on, openings[i]) < on.ui.px(kLeastNamed)) continue;
    names.push_back({i, *at, glm::distance(on.shown.camera.eye(), openings[i].centre), seen});
  }
  const auto before = [&](const Name& a, const Name& b) {
    const bool a_picked = on.shown.opening == static_cast<std::int32_t>(a.opening);
    const bool b_picked = on.shown.opening == static_cast<std::int32_t>(b.opening);
    if (a_picked != b_picked) return a_picked;
    const check::Verdict a_verdict = on.document.findings.verdicts[a.opening];
    const check::Verdict b_verdict = on.document.findings.verdicts[b.opening];
    if (a_verdict != b_verdict) return a_verdict > b_verdict;
    return a.depth < b.depth;
  };
  std::stable_sort(names.begin(), names.end(), before);
  return names;
}

/// "● N1" and, where there is room for it, the framed size below. False where it is hidden or has no place.
bool drawName(Lettering& on, const Name& name) {
  const Ui& ui = on.ui;
  const job::Opening& opening = on.document.job.openings[name.opening];
  const std::string size_words = words::figures(opening, on.document.practice->display);
  const float radius = ui.fonts.body->FontSize * 0.32F;
  const ImVec2 name_size = textSize(ui.fonts.strong, opening.name);
  const ImVec2 figures_size = textSize(ui.fonts.small, size_words);
  const float mark_width = radius * 2.4F + ui.px(6.0F);
  const bool picked = on.shown.opening == static_cast<std::int32_t>(name.opening);
  const bool with_size = !picked && name.seen_width > figures_size.x * 1.6F;  // a picked one has its dimensions
  const ImVec2 pad{ui.px(7.0F), ui.px(3.0F)};
  const float inner_width = std::max(mark_width + name_size.x, with_size ? figures_size.x : 0.0F);
  const float inner_height = name_size.y + (with_size ? figures_size.y : 0.0F);
  const ImVec2 outer{std::ceil(inner_width) + 2.0F * pad.x, std::ceil(inner_height) + 2.0F * pad.y};
  const ImVec2 low{std::round(name.at.x - outer.x * 0.5F), std::round(name.at.y - outer.y * 0.5F)};
  // What stands before it is looked for last: that is a ray through the whole scene.
  const scene::OpeningFrame& frame = on.document.scene.openings[name.opening];
  if (!on.isFree({low, low + outer}) || on.isBehindOther(frame.wall, frame.centre, name.at)) return false;
  on.write("name", opening.name, {low, low + outer});

  drawGround(ui, on.list, low, low + outer, picked ? ui.colours->ink : ui.colours->rule,
             picked ? std::max(1.5F, ui.px(1.5F)) : 1.0F);
  const float first_left = low.x + (outer.x - mark_width - name_size.x) * 0.5F;
  drawMark(on.list, {first_left + radius * 1.2F, low.y + pad.y + name_size.y * 0.52F}, radius,
           on.document.findings.verdicts[name.opening], *ui.colours, on.document.findings.bases[name.opening]);
  drawText(on.list, ui.fonts.strong, {first_left + mark_width, low.y + pad.y}, ui.colours->ink, opening.name);
  if (with_size) {
    drawText(on.list, ui.fonts.small, {low.x + (outer.x - figures_size.x) * 0.5F, low.y + pad.y + name_size.y},
             ui.colours->quiet, size_words);
  }
  return true;
}

void drawCross(Lettering& on, ImVec2 at) {
  const float r = on.ui.px(6.0F);
  drawInkLine(on, {at.x - r, at.y - r}, {at.x + r, at.y + r});
  drawInkLine(on, {at.x - r, at.y + r}, {at.x + r, at.y - r});
}

/// The picked places, the line between them and how long it is; before the second is picked, to where the pointer is.
void drawMeasuring(Lettering& on) {
  const Measuring& measuring = on.shown.measuring;
  std::vector<glm::vec3> places = measuring.points;
  if (places.size() < 2 && measuring.hovered) places.push_back(*measuring.hovered);
  std::vector<ImVec2> seen;
  for (const glm::vec3& place : places) {
    const auto at = on.project(place);
    if (!at) return;
    drawCross(on, *at);
    seen.push_back(*at);
  }
  if (seen.size() < 2) return;
  drawInkLine(on, seen[0], seen[1]);
  scene::WallFrame plan;
  const scene::WallFrame& wall =
      measuring.wall >= 0 ? on.document.scene.walls[static_cast<std::size_t>(measuring.wall)] : plan;
  const std::string words = wordsFor(lengthsBetween(places[0], places[1], wall), on.document.practice->display);
  const Ui& ui = on.ui;
  const Plate plate{{ui.px(6.0F), ui.px(3.0F)}, 0.0F, ui.colours->ink, {{ui.fonts.strong, ui.colours->ink, words}}};
  const ImVec2 size = sizeOf(ui, plate);
  const ImVec2 inner = size - plate.pad - plate.pad;
  const ImVec2 middle = times(seen[0] + seen[1], 0.5F);
  const ImVec2 low =
      ImVec2{std::round(middle.x - inner.x * 0.5F), std::round(middle.y - inner.y - ui.px(10.0F))} - plate.pad;
  drawPlate(ui, on.list, low, plate);
  on.write("distance", words, {low, low + size});
}

}  // namespace

std::vector<Written> drawLabels(const Ui& ui, ImDrawList& list, const document::Document& document, const Shown& shown,
                                const Canvas& canvas, const WaterShown& water, const Flash* flash,
                                std::vector<Rect> taken) {
  Lettering on{ui, list, document, shown, canvas, std::move(taken), {}};
  drawChangedNote(on);
  if (flash != nullptr && flash->on()) drawFlash(on, *flash);
  if (water.taught != nullptr) {
    if (water.step != nullptr) drawStepMarks(on, *water.step);
    if (water.step == nullptr || !water.step->unit_out) drawWater(on, water);
    return std::move(on.written);
  }
  if (shown.measuring.on) drawMeasuring(on);
  if (!shown.labels) return std::move(on.written);
  if (shown.opening >= 0) {
    drawShapeLines(on, static_cast<std::size_t>(shown.opening));
    drawPickedDimensions(on, static_cast<std::size_t>(shown.opening));
    drawOpeningMarks(on, static_cast<std::size_t>(shown.opening));
  } else if (shown.wall >= 0) {
    drawWallDimensions(on, static_cast<std::size_t>(shown.wall));
  }
  int drawn = 0;
  int looked_at = 0;
  for (const Name& name : namesInSight(on)) {
    if (drawn >= kMostLabels || ++looked_at > 3 * kMostLabels) break;
    if (drawName(on, name)) ++drawn;
  }
  return std::move(on.written);
}

}  // namespace sillwright::view
