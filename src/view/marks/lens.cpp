#include "view/marks/lens.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "scene/build/magnify.h"
#include "view/values/readings.h"

namespace sillwright::view {
namespace {

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
scene::Scene about(const scene::Scene& whole, std::int32_t wall, glm::vec3 point, float reach) {
  const scene::WallFrame& frame = whole.walls[static_cast<std::size_t>(wall)];
  scene::Scene some;
  some.parts = whole.parts;
  some.meshes = whole.meshes;
  some.walls = whole.walls;
  some.openings = whole.openings;
  some.bounds.low = point - glm::vec3(reach + 600.0F);
  some.bounds.high = point + glm::vec3(reach + 600.0F);
  for (const scene::Solid& solid : whole.solids) {
    if (whole.parts[solid.part].wall == wall && isNear(solid, frame, point, reach)) some.solids.push_back(solid);
  }
  for (const scene::MeshUse& use : whole.uses) {
    if (whole.parts[use.part].wall == wall && glm::distance(use.place[3], point) < reach + 200.0F) {
      some.uses.push_back(use);
    }
  }
  return some;
}

struct CornerWords {
  const char* word;
  const char* across;
  const char* upright;
};
const CornerWords& wordsOf(Corner corner) {
  static constexpr std::array<CornerWords, 4> kWords{{{"bottom left", "left", "sill"},
                                                      {"bottom right", "right", "sill"},
                                                      {"top right", "right", "head"},
                                                      {"top left", "left", "head"}}};
  return kWords[static_cast<std::size_t>(corner)];
}

}  // namespace

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
  const auto reach = static_cast<float>(mm);
  if (document.drawn_deviation == 1) {
    lens.scene = about(document.scene, wall, point, reach);
  } else {
    const scene::Scene whole = scene::build(document.job, *document.practice, document.plan, document.meshes);
    lens.scene = about(whole, wall, point, reach);
  }
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

std::string lensTitle(const document::Document& document, std::size_t opening, Corner corner) {
  return std::string(wordsOf(corner).word) + " corner of " + document.job.openings[opening].name + ", true size";
}

std::string lensFigures(const document::Document& document, std::size_t opening, Corner corner) {
  const plan::Gaps& gaps = document.plan.openings[opening].stand.gaps;
  const std::size_t right = plan::isRight(corner) ? 1 : 0;
  const std::size_t top = plan::isTop(corner) ? 1 : 0;
  const double across = (right != 0 ? gaps.right : gaps.left)[top];
  const double upright = (top != 0 ? gaps.head : gaps.sill)[right];
  const practice::Display display = document.practice->display;
  const CornerWords& words = wordsOf(corner);
  return "gap " + figure(across, display) + " " + words.across + ", " + figure(upright, display) + " " + words.upright;
}

LensPlace placeLens(const Ui& ui, const Canvas& canvas, const std::vector<Rect>& panels) {
  const float margin = ui.px(12.0F);
  const float side = std::round(std::min({ui.px(250.0F), canvas.freeWidth() * 0.5F, canvas.freeHeight() * 0.5F}));
  LensPlace place{{std::round(canvas.left + margin), std::round(canvas.height - canvas.bottom - margin - side)}, side};
  for (const Rect& panel : panels) {
    const float beside = std::round(panel.high.x + margin);
    const bool covered = overlap(panel, {place.at, place.at + ImVec2{side, side}});
    if (covered && beside + side <= canvas.width - canvas.right) place.at.x = beside;
  }
  return place;
}

void drawLensFrame(const Ui& ui, ImDrawList& list, ImTextureID picture, const LensPlace& place, float pixels_per_mm,
                   const std::string& title, const std::string& figures) {
  const ImVec2 high = place.at + ImVec2{place.side, place.side};
  const float line = std::max(1.5F, ui.px(1.6F));
  list.AddImage(picture, place.at, high, {0.0F, 1.0F}, {1.0F, 0.0F});
  list.AddRect(place.at, high, toU32(ui.colours->ink), 0.0F, 0, line);
  const ImVec2 pad{ui.px(6.0F), ui.px(3.0F)};
  const float wrap = place.side - 2.0F * pad.x;
  const float words = textSize(ui.fonts.small, title, wrap).y + textSize(ui.fonts.strong, figures, wrap).y;
  const ImVec2 plate{high.x, place.at.y + words + 2.0F * pad.y};
  list.AddRectFilled(place.at, plate, toU32(ui.colours->paper));
  list.AddRect(place.at, plate, toU32(ui.colours->ink), 0.0F, 0, line);
  drawText(list, ui.fonts.small, place.at + pad, ui.colours->quiet, title, wrap);
  drawText(list, ui.fonts.strong, {place.at.x + pad.x, place.at.y + pad.y + textSize(ui.fonts.small, title, wrap).y},
           ui.colours->ink, figures, wrap);

  constexpr float kBar = 10.0F;  // mm
  const float y = high.y - ui.px(10.0F);
  const ImVec2 from{place.at.x + ui.px(10.0F), y};
  const ImVec2 to{from.x + kBar * pixels_per_mm, y};
  const std::string bar = "10 mm";
  const ImVec2 size = textSize(ui.fonts.small, bar);
  list.AddRectFilled({from.x - pad.x, y - size.y * 0.7F}, {to.x + size.x + 3.0F * pad.x, y + ui.px(7.0F)},
                     toU32(ui.colours->paper));
  list.AddLine(from, to, toU32(ui.colours->ink), line);
  for (const ImVec2 end : {from, to}) {
    list.AddLine({end.x, y - ui.px(4.0F)}, {end.x, y + ui.px(2.0F)}, toU32(ui.colours->ink), line);
  }
  drawText(list, ui.fonts.small, {to.x + pad.x, y - size.y * 0.6F}, ui.colours->ink, bar);
}

}  // namespace sillwright::view
