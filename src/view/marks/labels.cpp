#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <span>
#include <tuple>
#include <utility>

#include "scene/build/magnify.h"
#include "scene/describe.h"
#include "scene/scene.h"
#include "view/marks/marks.h"
#include "view/values/readings.h"
#include "words/text.h"

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
  const glm::vec3 side = wall.along * (frame.width * 0.5F);
  const glm::vec3 up{0.0F, 0.0F, 1.0F};
  const glm::vec3 rise = up * (frame.height * 0.5F);
  const glm::vec3 bl = frame.centre - side - rise;
  const glm::vec3 br = frame.centre + side - rise;
  const double right = plan::headLineOf(opening).right();  // a head that follows the roof is told at its right side
  const glm::vec3 tr = br + up * static_cast<float>(right);
  drawWallDimension(on, wall, bl, br, -up, figure(opening.width, on.display));
  if (right > 0) drawWallDimension(on, wall, br, tr, wall.along, figure(right, on.display));  // a triangle has none
  if (opening.sill > 1.0) {  // mm: a door has no sill height to tell
    const glm::vec3 foot = bl - up * static_cast<float>(opening.sill);
    drawWallDimension(on, wall, foot, bl, -wall.along, figure(opening.sill, on.display));
  }
}

struct Name {
  std::size_t opening = 0;
  ImVec2 at;
  float depth = 0.0F;
  float seen_width = 0.0F;
  bool picked = false;
};

/// Pixels across an opening, `half` being the way from its middle to an edge; 0: an end isn't seen.
float seenAcross(const Lettering& on, const scene::OpeningFrame& opening, glm::vec3 half) {
  const auto from = on.project(opening.centre - half);
  const auto to = on.project(opening.centre + half);
  return from && to ? length(*to - *from) : 0.0F;
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
    const glm::vec3 rise{0.0F, 0.0F, openings[i].height * 0.5F};
    const float seen = seenAcross(on, openings[i], side);
    const bool picked = on.shown.opening == static_cast<std::int32_t>(i);
    if (!picked && std::max(seen, seenAcross(on, openings[i], rise)) < on.ui.px(kLeastNamed)) continue;
    names.push_back({i, *at, glm::distance(on.shown.camera.eye(), openings[i].centre), seen, picked});
  }
  std::ranges::stable_sort(names, {}, [&](const Name& name) {
    return std::tuple(!name.picked, -static_cast<int>(on.document.findings.verdicts[name.opening]), name.depth);
  });
  return names;
}

/// "● N1" and, where there is room for it, the framed size below. False where it is hidden or has no place.
bool drawName(Lettering& on, const Name& name) {
  const Ui& ui = on.ui;
  const job::Opening& opening = on.document.job.openings[name.opening];
  const std::string size_words = words::figures(opening, on.display);
  const float radius = ui.fonts.body->FontSize * 0.32F;
  const ImVec2 name_size = textSize(ui.fonts.strong, opening.name);
  const ImVec2 figures_size = textSize(ui.fonts.small, size_words);
  const float mark_width = radius * 2.4F + ui.px(6.0F);
  const bool with_size = !name.picked && name.seen_width > figures_size.x * 1.6F;  // a picked one has its dimensions
  const ImVec2 pad{ui.px(7.0F), ui.px(3.0F)};
  const float inner_width = std::max(mark_width + name_size.x, with_size ? figures_size.x : 0.0F);
  const float inner_height = name_size.y + (with_size ? figures_size.y : 0.0F);
  const ImVec2 outer{std::ceil(inner_width) + 2.0F * pad.x, std::ceil(inner_height) + 2.0F * pad.y};
  const ImVec2 low = rounded(name.at - times(outer, 0.5F));
  // What stands before it is looked for last: that is a ray through the whole scene.
  const scene::OpeningFrame& frame = on.document.scene.openings[name.opening];
  if (!on.isFree({low, low + outer}) || on.isBehindOther(frame.wall, frame.centre, name.at)) return false;
  on.write("name", opening.name, {low, low + outer});  // before it is drawn: what is written keeps its room

  drawGround(ui, on.list, low, low + outer, name.picked ? ui.colours->ink : ui.colours->rule,
             name.picked ? std::max(1.5F, ui.px(1.5F)) : 1.0F);
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

/// Names of what the cut goes through at an opening, each with a line to the largest of its faces that are in sight.
void drawCutNames(Lettering& on, std::size_t opening) {
  const scene::Scene& scene = on.document.scene;
  std::map<std::string, std::pair<float, glm::vec3>> named;  // how large, and where
  for (const scene::CutFace& face : scene::sectionOf(scene, *on.shown.look.cut, opening)) {
    const scene::Part& part = scene.parts[face.part];
    const auto corners = std::span(face.corner).first(face.count);
    const scene::Box box = scene::boxRound(corners);
    const glm::vec3 middle = (box.low + box.high) * 0.5F + on.shiftOf(part);
    const float wide = glm::distance(corners.front(), corners[corners.size() / 2]);  // across it, for an area
    auto& most = named[scene::nameOf(part.kind, on.document.practice->words)];
    const auto at = on.project(middle);
    if (wide <= most.first || !on.isShown(part) || !at || !on.canvas.isFree(at->x, at->y)) continue;
    const auto hit = on.hitAt(*at);
    if (hit && hit->part == face.part) most = {wide, middle};  // else something stands before it
  }
  std::vector<document::StepNote> notes;
  for (const auto& [words, most] : named) {
    if (most.first > 0.0F) notes.push_back({words, {most.second}});
  }
  drawNotes(on, notes);
}

/// The picked places, the line between them and how long it is; before the second is picked, to where the pointer is.
void drawMeasuring(Lettering& on) {
  const Measuring& measuring = on.shown.measuring;
  std::vector<glm::vec3> places = measuring.points;
  if (places.size() < 2 && measuring.hovered) places.push_back(*measuring.hovered);
  std::vector<ImVec2> seen;
  for (const glm::vec3& place : places) {
    const auto at = on.project(place);
    if (!at) return;                                    // a place behind the eye has no cross
    const ImVec2 down{on.ui.px(6.0F), on.ui.px(6.0F)};  // half a cross
    const ImVec2 up{down.x, -down.y};
    for (const ImVec2 half : {down, up}) drawInkLine(on, *at - half, *at + half);
    seen.push_back(*at);
  }
  if (seen.size() < 2) return;
  drawInkLine(on, seen[0], seen[1]);
  scene::WallFrame plan;  // of no wall: the plan's axes, which are the world's
  const scene::WallFrame& wall =
      measuring.wall >= 0 ? on.document.scene.walls[static_cast<std::size_t>(measuring.wall)] : plan;
  const std::string words = wordsFor(lengthsBetween(places[0], places[1], wall), on.display);
  const Ui& ui = on.ui;
  const Plate plate{{ui.px(6.0F), ui.px(3.0F)}, 0.0F, ui.colours->ink, {{ui.fonts.strong, ui.colours->ink, words}}};
  const ImVec2 size = sizeOf(ui, plate);
  on.write("distance", plate, times(seen[0] + seen[1], 0.5F) - ImVec2{size.x * 0.5F, size.y + ui.px(7.0F)});
}

using plan::Corner;

constexpr std::uint32_t bit(scene::Layer layer) { return 1U << static_cast<unsigned>(layer); }
/// What lies before and behind the frame: the lens looks at what stands in it.
constexpr std::uint32_t kLookedPast =
    bit(scene::Layer::Eave) | bit(scene::Layer::Cladding) | bit(scene::Layer::Battens) | bit(scene::Layer::Flashing) |
    bit(scene::Layer::Membrane) | bit(scene::Layer::Lining) | bit(scene::Layer::Ground);

/// Between the as-built corner and the unit's, from the planned opening's lower left corner.
plan::Point middleOf(const document::Document& document, std::size_t index, Corner corner) {
  const job::Opening& opening = document.job.openings[index];
  const plan::OpeningPlan& planned = document.plan.openings[index];
  const plan::Point built = planned.as_built.shape.corner[static_cast<std::size_t>(corner)];
  const scene::DrawnUnit unit = scene::drawnUnit(planned, opening, 1.0);
  return {(built.x + (plan::isRight(corner) ? unit.high.x : unit.low.x)) / 2,
          (built.z + (plan::isTop(corner) ? unit.high.z : unit.low.z)) / 2};
}

/// Whether a solid comes near the point: within `reach` along the wall and up.
bool isNear(const scene::Solid& solid, const scene::WallFrame& wall, glm::vec3 point, float reach) {
  const glm::vec3 here = wall.toLocal(point);
  std::array<glm::vec3, 8> off;
  for (std::size_t i = 0; i < off.size(); ++i) off[i] = wall.toLocal(solid.corner[i]) - here;
  const scene::Box box = scene::boxRound(off);
  return box.low.x <= reach && box.high.x >= -reach && box.low.z <= reach && box.high.z >= -reach;
}

/// What of a wall lies about a point of it. Parts keep their numbers.
scene::Scene about(scene::Scene scene, std::int32_t wall, glm::vec3 point, float reach) {
  const scene::WallFrame& frame = scene.walls[static_cast<std::size_t>(wall)];
  scene.bounds = {point - glm::vec3(reach + 600.0F), point + glm::vec3(reach + 600.0F)};
  scene.groups.clear();  // they count the solids of the whole
  std::erase_if(scene.solids, [&](const scene::Solid& solid) {
    return scene.parts[solid.part].wall != wall || !isNear(solid, frame, point, reach);
  });
  std::erase_if(scene.uses, [&](const scene::MeshUse& use) {
    return scene.parts[use.part].wall != wall || glm::distance(use.place[3], point) > reach + 200.0F;
  });
  return scene;
}

/// The gaps at a corner: beside it, then below or above it.
std::array<double, 2> gapsAt(const document::Document& document, std::size_t opening, Corner corner) {
  const plan::Gaps& gaps = document.plan.openings[opening].stand.gaps;
  const std::size_t right = plan::isRight(corner) ? 1 : 0;
  const std::size_t top = plan::isTop(corner) ? 1 : 0;
  return {(right != 0 ? gaps.right : gaps.left)[top], (top != 0 ? gaps.head : gaps.sill)[right]};
}

}  // namespace

std::vector<Written> drawLabels(const Ui& ui, ImDrawList& list, const document::Document& document, const Shown& shown,
                                const Canvas& canvas, const WaterShown& water, std::vector<Rect> taken) {
  Lettering on{ui, list, document, shown, canvas, std::move(taken), {}};
  drawChangedNote(on);  // first: what is written first keeps its room
  if (water.taught != nullptr) {
    if (water.step != nullptr) drawStepMarks(on, *water.step);
    if (water.step == nullptr || !water.step->unit_out) drawWater(on, water);  // the unit isn't in yet
    return std::move(on.written);                                              // a lesson has the picture to itself
  }
  if (shown.measuring.on) drawMeasuring(on);
  if (!shown.labels) return std::move(on.written);
  if (shown.opening >= 0) {
    drawShapeLines(on, static_cast<std::size_t>(shown.opening));
    drawPickedDimensions(on, static_cast<std::size_t>(shown.opening));
    drawOpeningMarks(on, static_cast<std::size_t>(shown.opening));
    if (shown.look.cut) drawCutNames(on, static_cast<std::size_t>(shown.opening));
  } else if (shown.wall >= 0) {
    drawWallDimensions(on, static_cast<std::size_t>(shown.wall));
  }
  int drawn = 0;
  int looked_at = 0;
  for (const Name& name : namesInSight(on)) {
    if (drawn >= kMostLabels || ++looked_at > 3 * kMostLabels) break;  // a hidden one costs a ray too
    if (drawName(on, name)) ++drawn;
  }
  return std::move(on.written);
}

float pixelsPerMm(float screen_scale) { return 96.0F / 25.4F * screen_scale; }

LensView lensOn(const document::Document& document, std::size_t opening, Corner corner, bool inside, bool dark,
                double mm) {
  LensView lens;
  const auto wall = static_cast<std::int32_t>(document.job.openings[opening].wall);
  const scene::WallFrame& frame = document.scene.walls[static_cast<std::size_t>(wall)];
  const plan::Point middle = middleOf(document, opening, corner);
  const job::Opening& of = document.job.openings[opening];
  const glm::vec3 point = frame.toWorld(
      {static_cast<float>(of.left + middle.x), frame.depth * 0.5F, static_cast<float>(of.sill + middle.z)});
  const auto built = [&] { return scene::build(document.job, *document.practice, document.plan, document.meshes); };
  lens.scene = about(document.drawn_deviation == 1 ? document.scene : built(), wall, point, static_cast<float>(mm));
  const glm::vec3 look = inside ? -frame.inward : frame.inward;
  lens.camera.target = point;
  lens.camera.yaw_degrees = glm::degrees(std::atan2(-look.x, look.y));
  lens.camera.pitch_degrees = 0.0F;
  lens.camera.parallel = true;
  lens.camera.distance = static_cast<float>(mm) * 0.5F / std::tan(glm::radians(lens.camera.fov_degrees) * 0.5F);
  lens.look.dark = dark;
  lens.look.hidden_layers = kLookedPast;
  lens.look.shadow = false;
  return lens;
}

std::string lensFigures(const document::Document& document, std::size_t opening, Corner corner) {
  const auto [beside, upright] = gapsAt(document, opening, corner);
  const practice::Display display = document.practice->display;
  return "gap " + figure(beside, display) + (plan::isRight(corner) ? " right, " : " left, ") +
         figure(upright, display) + (plan::isTop(corner) ? " head" : " sill");
}

void drawLensGaps(const Ui& ui, ImDrawList& list, const Rect& place, float pixels_per_mm,
                  const document::Document& document, std::size_t opening, Corner corner, bool inside) {
  constexpr double kIn = 24;  // mm from the unit's corner
  const auto scale = static_cast<double>(pixels_per_mm);
  const scene::DrawnUnit unit = scene::drawnUnit(document.plan.openings[opening], document.job.openings[opening], 1.0);
  const plan::Point middle = middleOf(document, opening, corner);
  const plan::Point at{plan::isRight(corner) ? unit.high.x : unit.low.x,
                       plan::isTop(corner) ? unit.high.z : unit.low.z};
  const plan::Point out{plan::isRight(corner) ? 1.0 : -1.0, plan::isTop(corner) ? 1.0 : -1.0};
  const auto seen = [&](double x, double z) {
    const ImVec2 off{static_cast<float>((x - middle.x) * (inside ? -scale : scale)),  // from inside left is right
                     static_cast<float>((middle.z - z) * scale)};
    return times(place.low + place.high, 0.5F) + off;
  };
  const auto draw = [&](ImVec2 from, ImVec2 to, double gap) {
    list.AddLine(from, to, toU32(ui.colours->ink), std::max(1.0F, ui.px(1.0F)));
    for (const ImVec2 end : {from, to}) drawTick(ui, list, end, 3.0F);
    const std::string words = figure(gap, document.practice->display);
    const Plate plate{{ui.px(3.0F), 0.0F}, 0.0F, ui.colours->rule, {{ui.fonts.small, ui.colours->ink, words}}};
    const ImVec2 size = sizeOf(ui, plate);
    const ImVec2 way = times(from - to, 1.0F / std::max(length(from - to), 1.0F));  // away from the unit's corner
    const ImVec2 beside = times({way.x * size.x, way.y * size.y}, 0.5F) + times(way, ui.px(6.0F));
    drawPlate(ui, list, rounded(from + beside - times(size, 0.5F)), plate);
  };
  const auto [beside, upright] = gapsAt(document, opening, corner);
  draw(seen(at.x, at.z - out.z * kIn), seen(at.x + out.x * beside, at.z - out.z * kIn), beside);
  draw(seen(at.x - out.x * kIn, at.z), seen(at.x - out.x * kIn, at.z + out.z * upright), upright);
}

Rect placeLens(const Ui& ui, const Canvas& canvas, const std::vector<Rect>& panels) {
  const float margin = ui.px(12.0F);
  const float side = std::round(std::min({ui.px(250.0F), canvas.freeWidth() * 0.5F, canvas.freeHeight() * 0.5F}));
  const ImVec2 size{side, side};
  ImVec2 at{std::round(canvas.left + margin), std::round(canvas.height - canvas.bottom - margin - side)};
  for (const Rect& panel : panels) {
    const float beside = std::round(panel.high.x + margin);
    const bool covered = overlap(panel, {at, at + size});
    if (covered && beside + side <= canvas.width - canvas.right) at.x = beside;
  }
  return {at, at + size};
}

void drawLensFrame(const Ui& ui, ImDrawList& list, ImTextureID picture, const Rect& place,
                   const document::Document& document, std::size_t opening, Corner corner) {
  const std::string title = std::string(plan::isTop(corner) ? "top " : "bottom ") +
                            (plan::isRight(corner) ? "right" : "left") + " corner of " +
                            document.job.openings[opening].name + ", true size";
  const float line = std::max(1.5F, ui.px(1.6F));
  list.AddImage(picture, place.low, place.high, {0.0F, 1.0F}, {1.0F, 0.0F});  // its lowest row comes first
  list.AddRect(place.low, place.high, toU32(ui.colours->ink), 0.0F, 0, line);
  const ImVec2 pad{ui.px(6.0F), ui.px(3.0F)};
  const Plate words{pad,
                    place.high.x - place.low.x - 2.0F * pad.x,
                    ui.colours->ink,
                    {{ui.fonts.small, ui.colours->quiet, title},
                     {ui.fonts.strong, ui.colours->ink, lensFigures(document, opening, corner)}}};
  drawPlate(ui, list, place.low, words);
}

}  // namespace sillwright::view
