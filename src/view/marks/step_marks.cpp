#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "view/marks/marks.h"
#include "view/values/readings.h"

namespace sillwright::view {

namespace {

void drawStepLine(Lettering& on, const document::StepLine& line) {
  const auto ends = on.projectLine(line.from, line.to);
  if (!ends) return;
  const auto [from, to] = *ends;
  const Ui& ui = on.ui;
  if (line.words.empty()) {
    drawDashes(on.list, from, to, ui.px(7.0F), ui.px(5.0F), toU32(ui.colours->ink), std::max(1.0F, ui.px(1.3F)));
    return;
  }
  drawInkLine(on, from, to);
  for (const ImVec2 end : {from, to}) on.list.AddCircleFilled(end, ui.px(3.0F), toU32(ui.colours->ink), 12);
  const Plate plate{
      {ui.px(4.0F), ui.px(1.0F)}, 0.0F, ui.colours->rule, {{ui.fonts.strong, ui.colours->ink, line.words}}};
  const ImVec2 size = sizeOf(ui, plate);
  const ImVec2 low = from + times(to - from, line.words_at) - times(size, 0.5F);
  drawPlate(ui, on.list, {std::round(low.x), std::round(low.y)}, plate);
  on.write("tape", line.words, {low, low + size});
}

/// A plate with a line to each of its places.
void drawNote(Lettering& on, const Plate& plate, const std::vector<ImVec2>& at, const Rect& room) {
  const Ui& ui = on.ui;
  for (const ImVec2 place : at) {
    drawInkLine(on, {std::clamp(place.x, room.low.x, room.high.x), (room.low.y + room.high.y) * 0.5F}, place);
    on.list.AddCircleFilled(place, ui.px(4.5F), toU32(ui.colours->paper), 16);
    on.list.AddCircleFilled(place, ui.px(3.0F), toU32(ui.colours->ink), 16);
  }
  drawPlate(ui, on.list, room.low, plate);
  on.write("note", plate.lines.front().words, room);
}

}  // namespace

std::vector<ImVec2> placeNotes(const std::vector<ImVec2>& about, const std::vector<ImVec2>& sizes, const Rect& room) {
  constexpr float kGap = 0.35F;  // of a note's height, to the next
  std::vector<std::size_t> order(about.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return about[a].y < about[b].y; });
  const auto isRight = [&](std::size_t i) { return about[i].x > (room.low.x + room.high.x) * 0.5F; };
  std::vector<ImVec2> places(about.size());
  std::array<float, 2> next{room.low.y, room.low.y};
  for (const std::size_t i : order) {
    float& y = next[isRight(i) ? 1 : 0];
    places[i] = {isRight(i) ? room.high.x - sizes[i].x : room.low.x, std::max(y, about[i].y - sizes[i].y * 0.5F)};
    y = places[i].y + sizes[i].y * (1.0F + kGap);
  }
  next = {room.high.y, room.high.y};  // a column that is too long moves up
  for (auto i = order.rbegin(); i != order.rend(); ++i) {
    float& foot = next[isRight(*i) ? 1 : 0];
    places[*i].y = std::min(places[*i].y, foot - sizes[*i].y);
    foot = places[*i].y - sizes[*i].y * kGap;
  }
  return places;
}

void drawStepMarks(Lettering& on, const document::StepView& step) {
  const Ui& ui = on.ui;
  for (const document::StepLine& line : step.lines) drawStepLine(on, line);
  const ImVec2 margin{ui.px(12.0F), ui.px(12.0F)};
  const Rect room{ImVec2{on.canvas.left, on.canvas.top} + margin,
                  ImVec2{on.canvas.width - on.canvas.right, on.canvas.height - on.canvas.bottom} - margin};
  std::vector<Plate> plates;
  std::vector<std::vector<ImVec2>> at;
  std::vector<ImVec2> about;
  std::vector<ImVec2> sizes;
  for (const document::StepNote& note : step.notes) {
    plates.push_back({{ui.px(6.0F), ui.px(3.0F)},
                      (room.high.x - room.low.x) * 0.3F,
                      ui.colours->ink,
                      {{ui.fonts.strong, ui.colours->ink, note.words}}});
    sizes.push_back(sizeOf(ui, plates.back()));
    std::vector<ImVec2>& places = at.emplace_back();
    for (const glm::vec3& place : note.at) {
      if (const auto seen = on.project(place)) places.push_back(*seen);
    }
    ImVec2 sum{0.0F, 0.0F};
    for (const ImVec2 place : places) sum = sum + place;
    about.push_back(places.empty() ? ImVec2{room.low.x, room.high.y}
                                   : times(sum, 1.0F / static_cast<float>(places.size())));
  }
  const std::vector<ImVec2> places = placeNotes(about, sizes, room);
  for (std::size_t i = 0; i < plates.size(); ++i) {
    drawNote(on, plates[i], at[i], {places[i], places[i] + sizes[i]});
  }
}

namespace {

constexpr Colour kLight{0x00, 0x72, 0xB2};  // of Okabe and Ito's set, and no verdict's
constexpr std::size_t kMostShown = 400;

/// Twice the area to the left of a→b that c makes.
float turn(ImVec2 a, ImVec2 b, ImVec2 c) { return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x); }

/// Convex hull of a few points, by Andrew's monotone chain (A. M. Andrew, Another efficient algorithm for convex hulls
/// in two dimensions, 1979).
std::vector<ImVec2> hullOf(std::vector<ImVec2> points) {
  std::sort(points.begin(), points.end(), [](ImVec2 a, ImVec2 b) { return a.x < b.x || (a.x == b.x && a.y < b.y); });
  std::vector<ImVec2> hull;
  const auto run = [&](auto first, auto last) {
    const std::size_t start = hull.size();
    for (auto at = first; at != last; ++at) {
      while (hull.size() >= start + 2 && turn(hull[hull.size() - 2], hull.back(), *at) <= 0.0F) hull.pop_back();
      hull.push_back(*at);
    }
    if (!hull.empty()) hull.pop_back();
  };
  run(points.begin(), points.end());
  run(points.rbegin(), points.rend());
  return hull;
}

/// Whether the part is what a ray to a place of it meets first.
bool isSeen(const Lettering& on, glm::vec3 place, std::uint32_t part) {
  const auto at = on.project(place);
  if (!at || !on.isInPicture(*at)) return false;
  const auto hit = on.hitAt(*at);
  return hit && hit->part == part;
}

void lightUp(Lettering& on, const scene::Solid& solid, float strength) {
  const scene::Part& part = on.document.scene.parts[solid.part];
  const glm::vec3 shift = render::shownUnder(on.shown.look).shiftOf(on.document.scene, part);
  std::vector<ImVec2> seen;
  glm::vec3 middle{0.0F};
  for (const glm::vec3& corner : solid.corner) {
    middle += (corner + shift) / 8.0F;
    const auto at = on.project(corner + shift);
    if (!at) return;
    seen.push_back(*at);
  }
  if (!isSeen(on, middle, solid.part)) return;
  const std::vector<ImVec2> hull = hullOf(std::move(seen));
  if (hull.size() < 3) return;
  on.list.AddConvexPolyFilled(hull.data(), static_cast<int>(hull.size()), toU32(kLight, 0.38F * strength));
  on.list.AddPolyline(hull.data(), static_cast<int>(hull.size()), toU32(kLight, strength), ImDrawFlags_Closed,
                      std::max(1.5F, on.ui.px(1.8F)));
}

}  // namespace

void drawFlash(Lettering& on, const Flash& flash) {
  const float strength = std::clamp(flash.left / kFlashSeconds, 0.0F, 1.0F);
  std::size_t drawn = 0;
  for (const scene::Solid& solid : on.document.scene.solids) {
    if (!std::binary_search(flash.parts.begin(), flash.parts.end(), solid.part)) continue;
    if (!on.isShown(on.document.scene.parts[solid.part])) continue;
    if (++drawn > kMostShown) return;
    lightUp(on, solid, strength);
  }
}

namespace {

/// Everything that stops or starts along the wall, from its left end.
std::vector<double> edgesAlong(const job::Job& job, std::size_t wall) {
  std::vector<double> edges{0, job.walls[wall].length};
  for (const job::Opening& opening : job.openings) {
    if (opening.wall != wall) continue;
    edges.push_back(opening.left);
    edges.push_back(opening.left + opening.width);
  }
  std::sort(edges.begin(), edges.end());
  return edges;
}

/// The wall's face that is nearer to the eye, for points x along it and z up.
struct Face {
  const scene::WallFrame& wall;
  float y;
  [[nodiscard]] glm::vec3 at(double x, double z) const {
    return wall.toWorld({static_cast<float>(x), y, static_cast<float>(z)});
  }
};

void drawHeight(Lettering& on, const Face& face, double x, double z, glm::vec3 aside, int row) {
  drawWallDimension(on, face.wall, face.at(x, 0), face.at(x, z), aside, figure(z, on.document.practice->display), row);
}

}  // namespace

void drawWallDimension(Lettering& on, const scene::WallFrame& wall, glm::vec3 a, glm::vec3 b, glm::vec3 aside,
                       const std::string& words, int row) {
  const auto& cut = on.shown.look.cut;
  if (isGone(cut, wall, a) || isGone(cut, wall, b)) return;
  drawDimension(on, a, b, aside, words, row);
}

void drawWallDimensions(Lettering& on, std::size_t index) {
  const job::Wall& wall = on.document.job.walls[index];
  const scene::WallFrame& frame = on.document.scene.walls[index];
  const practice::Display display = on.document.practice->display;
  const bool outside = glm::dot(on.shown.camera.eye() - frame.origin, frame.inward) < frame.depth * 0.5F;
  const Face face{frame, outside ? 0.0F : frame.depth};
  const glm::vec3 down{0.0F, 0.0F, -1.0F};
  const std::vector<double> edges = edgesAlong(on.document.job, index);
  drawWallDimension(on, face.wall, face.at(0, 0), face.at(wall.length, 0), down, figure(wall.length, display),
                    edges.size() > 2 ? 1 : 0);
  for (std::size_t i = 0; edges.size() > 2 && i + 1 < edges.size(); ++i) {
    const double between = edges[i + 1] - edges[i];
    drawWallDimension(on, face.wall, face.at(edges[i], 0), face.at(edges[i + 1], 0), down, figure(between, display));
  }
  if (wall.top.empty()) return;
  const auto& first = wall.top.front();
  const auto& last = wall.top.back();
  drawHeight(on, face, 0, first.z, -frame.along, 0);
  if (!isLevel(wall)) drawHeight(on, face, wall.length, last.z, frame.along, 0);
  const auto highest =
      std::max_element(wall.top.begin(), wall.top.end(), [](const auto& a, const auto& b) { return a.z < b.z; });
  if (highest->z > std::max(first.z, last.z)) drawHeight(on, face, wall.length, highest->z, frame.along, 1);
}

}  // namespace sillwright::view
