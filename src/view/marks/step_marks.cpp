#include <algorithm>
#include <array>
#include <numeric>

#include "document/edits.h"
#include "view/marks/marks.h"
#include "view/values/readings.h"

namespace sillwright::view {

namespace {

void drawStepLine(Lettering& on, const document::StepLine& line) {
  const auto ends = on.projectLine(line.from, line.to);
  if (!ends) return;
  const auto [from, to] = *ends;
  const Ui& ui = on.ui;
  const ImU32 ink = toU32(ui.colours->ink);
  if (line.words.empty())
    return drawDashes(on.list, from, to, ui.px(7.0F), ui.px(5.0F), ink, std::max(1.0F, ui.px(1.3F)));
  drawInkLine(on, from, to);
  for (const ImVec2 end : {from, to}) on.list.AddCircleFilled(end, ui.px(3.0F), ink, 12);
  const Plate plate{
      {ui.px(4.0F), ui.px(1.0F)}, 0.0F, ui.colours->rule, {{ui.fonts.strong, ui.colours->ink, line.words}}};
  on.write("tape", plate, from + times(to - from, line.words_at) - times(sizeOf(ui, plate), 0.5F));
}

/// A plate of a size with a line to each of its places.
void drawNote(Lettering& on, const Plate& plate, const std::vector<ImVec2>& at, ImVec2 low, ImVec2 size) {
  const Ui& ui = on.ui;
  for (const ImVec2 place : at) {
    drawInkLine(on, {std::clamp(place.x, low.x, low.x + size.x), low.y + size.y * 0.5F}, place);
    on.list.AddCircleFilled(place, ui.px(4.5F), toU32(ui.colours->paper), 16);
    on.list.AddCircleFilled(place, ui.px(3.0F), toU32(ui.colours->ink), 16);
  }
  on.write("note", plate, low);
}

/// Everything that stops or starts along the wall, from its left end.
std::vector<double> edgesAlong(const job::Job& job, std::size_t wall) {
  std::vector<double> edges{0, job.walls[wall].length};
  for (const job::Opening& opening : job.openings) {
    if (opening.wall != wall) continue;
    edges.push_back(opening.left);
    edges.push_back(opening.left + opening.width);
  }
  std::sort(edges.begin(), edges.end());  // from the left, whatever order the job has
  return edges;
}

/// Where a place of the world is seen in the free part of the picture; empty where it isn't.
std::optional<ImVec2> freePlace(const Lettering& on, glm::vec3 world) {
  const auto seen = on.project(world);
  return seen && on.canvas.isFree(seen->x, seen->y) ? seen : std::nullopt;
}

/// A small arrowhead each way that the handle goes.
void drawWays(const Lettering& on, const Handle& handle, ImVec2 at) {
  for (const glm::vec3 way : {handle.along, -handle.along, handle.across, -handle.across}) {
    const auto to = freePlace(on, handle.at + way * 60.0F);  // mm, for its direction on the picture
    const float size = to ? length(*to - at) : 0.0F;
    if (size < 1.0F) continue;  // a way straight to the eye, or none
    const ImVec2 u = times(*to - at, 1.0F / size);
    const ImVec2 side = times({-u.y, u.x}, on.ui.px(3.5F));
    const ImVec2 base = at + times(u, on.ui.px(8.0F));
    on.list.AddTriangleFilled(base + times(u, on.ui.px(5.0F)), base + side, base - side, toU32(on.ui.colours->ink));
  }
}

/// One handle where it is; larger, and with the ways it goes, where it is hot.
void drawHandle(const Lettering& on, const Handle& handle, bool hot) {
  const auto at = freePlace(on, handle.at);
  if (!at) return;
  const float r = on.ui.px(hot ? 6.0F : 4.5F);
  const ImU32 ground = toU32(hot ? on.ui.colours->picked : on.ui.colours->paper);
  const ImU32 ink = toU32(on.ui.colours->ink);
  const float line = std::max(1.2F, on.ui.px(1.5F));
  if (handle.corner || handle.of_unit) {
    on.list.AddCircleFilled(*at, r, ground, 20);
    on.list.AddCircle(*at, r, ink, 20, line);
    if (handle.corner) on.list.AddCircleFilled(*at, r * 0.35F, ink, 12);
  } else {  // a square; of the cut on its tip, and larger
    const float turned = handle.of_cut ? 0.0F : r;
    const float tip = handle.of_cut ? r * 1.35F : r;
    const ImVec2 corners[] = {*at + ImVec2{-turned, -tip}, *at + ImVec2{tip, -turned}, *at + ImVec2{turned, tip},
                              *at + ImVec2{-tip, turned}};
    on.list.AddConvexPolyFilled(corners, 4, ground);
    on.list.AddPolyline(corners, 4, ink, ImDrawFlags_Closed, line);
  }
  if (hot) drawWays(on, handle, *at);
}

/// A plate beside a place, wholly within the picture: a handle's name and its figure, or what is typed in its place,
/// then why that isn't taken, and what else is told.
void drawFigure(const Lettering& on, ImVec2 at, const std::string& name, const std::string& now, const Pull* pull,
                const std::vector<PlateLine>& more = {}) {
  const Ui& ui = on.ui;
  const Colour ink = ui.colours->ink;
  const bool typing = pull != nullptr && !pull->typed.empty();
  Plate plate{{ui.px(8.0F), ui.px(5.0F)}, ui.px(280.0F), ink};
  plate.lines = {{ui.fonts.small, ink, name}, {ui.fonts.strong, ink, typing ? pull->typed + "|" : now}};
  if (pull != nullptr) plate.lines.push_back({ui.fonts.body, ink, pull->refusal, true});
  plate.lines.insert(plate.lines.end(), more.begin(), more.end());
  std::erase_if(plate.lines, [](const PlateLine& line) { return line.words.empty(); });
  const ImVec2 size = sizeOf(ui, plate);
  const ImVec2 low{std::max(0.0F, std::min(at.x + ui.px(18.0F), on.canvas.width - size.x)),
                   std::max(0.0F, std::min(at.y + ui.px(14.0F), on.canvas.height - size.y))};
  drawPlate(ui, *ImGui::GetForegroundDrawList(), low, plate);  // over panels too: the pointer may be beside one
}

/// The words of the first stop; empty: there is none.
std::string stopIn(const std::vector<check::Finding>& findings) {
  const check::Finding* worst = check::worstOf(findings);
  return worst != nullptr && worst->severity == check::Severity::Stop ? worst->say : std::string{};
}

/// What stands in the way of what is pulled, and what it opens.
std::vector<PlateLine> toldOf(const Lettering& on, const Pull& pull) {
  ImFont* const font = on.ui.fonts.body;
  const Colour ink = on.ui.colours->ink;
  if (const auto opening = pull.handle.opening()) return {{font, ink, stopAt(on.document, *opening), true}};
  const std::size_t wall = pull.handle.dimensions.front().of;
  return {{font, ink, stopAtWall(on.document, wall), true},
          {font, ink, document::openedAt(pull.before, on.document.job, wall)}};
}

}  // namespace

std::vector<ImVec2> placeNotes(const std::vector<ImVec2>& about, const std::vector<ImVec2>& sizes, const Rect& room) {
  constexpr float kGap = 0.35F;  // of a note's height, to the next
  std::vector<std::size_t> order(about.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return about[i].y; });  // so that their lines don't cross
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
  for (const document::StepLine& line : step.lines) drawStepLine(on, line);
  drawNotes(on, step.notes);
}

void drawNotes(Lettering& on, const std::vector<document::StepNote>& notes) {
  const Ui& ui = on.ui;
  const ImVec2 margin{ui.px(12.0F), ui.px(12.0F)};
  Rect room{ImVec2{on.canvas.left, on.canvas.top} + margin,
            ImVec2{on.canvas.width - on.canvas.right, on.canvas.height - on.canvas.bottom} - margin};
  const float middle = (room.low.y + room.high.y) * 0.5F;
  for (const Rect& other : on.taken) {  // the corner's detail, at the left one's foot; the cut's panel, over the right
    const auto holds = [&other](float x) { return other.low.x < x && x < other.high.x; };
    if (holds(room.low.x + 1.0F) && other.low.y > middle) room.high.y = std::min(room.high.y, other.low.y - margin.y);
    if (holds(room.high.x - 1.0F) && other.high.y < middle) room.low.y = std::max(room.low.y, other.high.y + margin.y);
  }
  const float widest = (room.high.x - room.low.x) * 0.3F;  // the work keeps the middle
  const Colour ink = ui.colours->ink;
  // Each note's plate, and the middle of the places that it is about: that decides its column and its height there.
  std::vector<Plate> plates;
  std::vector<std::vector<ImVec2>> at;
  std::vector<ImVec2> about;
  std::vector<ImVec2> sizes;
  for (const document::StepNote& note : notes) {
    plates.push_back({{ui.px(6.0F), ui.px(3.0F)}, widest, ink, {{ui.fonts.strong, ink, note.words}}});
    sizes.push_back(sizeOf(ui, plates.back()));
    std::vector<ImVec2>& places = at.emplace_back();
    for (const glm::vec3& place : note.at) {
      if (const auto seen = on.project(place)) places.push_back(*seen);
    }
    ImVec2 sum{0.0F, 0.0F};
    for (const ImVec2 place : places) sum = sum + place;
    about.push_back(places.empty() ? ImVec2{room.low.x, room.high.y}  // behind the eye: in the corner
                                   : times(sum, 1.0F / static_cast<float>(places.size())));
  }
  const std::vector<ImVec2> places = placeNotes(about, sizes, room);
  for (std::size_t i = 0; i < plates.size(); ++i) drawNote(on, plates[i], at[i], places[i], sizes[i]);
}

void drawWallDimension(Lettering& on, const scene::WallFrame& wall, glm::vec3 a, glm::vec3 b, glm::vec3 aside,
                       const std::string& words, int row) {
  const auto& cut = on.shown.look.cut;
  if (isGone(cut, wall, a) || isGone(cut, wall, b)) return;
  drawDimension(on, a, b, aside, words, row);
}

void drawWallDimensions(Lettering& on, std::size_t index) {
  const job::Wall& wall = on.document.job.walls[index];
  const scene::WallFrame& frame = on.document.scene.walls[index];
  // On the face that is nearer to the eye, points x along the wall and z up.
  const float y = isOutside(frame, on.shown.camera) ? 0.0F : frame.depth;
  const auto at = [&](double x, double z) { return frame.toWorld({static_cast<float>(x), y, static_cast<float>(z)}); };
  const auto along = [&](double from, double to, int row) {
    const std::string words = figure(to - from, on.display);
    drawWallDimension(on, frame, at(from, 0), at(to, 0), {0.0F, 0.0F, -1.0F}, words, row);
  };
  const auto height = [&](double x, double z, glm::vec3 aside, int row) {
    drawWallDimension(on, frame, at(x, 0), at(x, z), aside, figure(z, on.display), row);
  };
  const std::vector<double> edges = edgesAlong(on.document.job, index);
  along(0, wall.length, edges.size() > 2 ? 1 : 0);  // beyond the openings' row
  for (std::size_t i = 0; edges.size() > 2 && i + 1 < edges.size(); ++i) along(edges[i], edges[i + 1], 0);
  const double first = wall.top.front().z;
  const double last = wall.top.back().z;
  const double highest = std::ranges::max(wall.top, {}, &job::TopPoint::z).z;
  height(0, first, -frame.along, 0);
  if (!isLevel(wall)) height(wall.length, last, frame.along, 0);                      // else it is the first's
  if (highest > std::max(first, last)) height(wall.length, highest, frame.along, 1);  // a peak
}

std::string stopAt(const document::Document& document, std::size_t opening) {
  return opening < document.findings.openings.size() ? stopIn(document.findings.openings[opening]) : std::string{};
}

std::string stopAtWall(const document::Document& document, std::size_t wall) {
  std::string stop = stopIn(document.findings.walls[wall]);  // its own goes before its openings'
  for (std::size_t i = 0; stop.empty() && i < document.job.openings.size(); ++i) {
    const job::Opening& opening = document.job.openings[i];
    if (opening.wall != wall) continue;
    stop = stopAt(document, i);
    if (!stop.empty()) stop = opening.name + ": " + stop;
  }
  return stop;
}

void drawFlash(const Lettering& on, const std::vector<std::uint32_t>& parts, float strength) {
  constexpr Colour kLight{0x00, 0x72, 0xB2};  // of Okabe and Ito's set, and no verdict's
  for (const std::uint32_t number : parts) {
    const scene::Part& part = on.document.scene.parts[number];
    if (!on.isShown(part)) continue;
    const glm::vec3 shift = on.shiftOf(part);
    const auto& solids = on.document.scene.solids;
    for (auto solid = std::ranges::lower_bound(solids, number, {}, &scene::Solid::part);
         solid != solids.end() && solid->part == number; ++solid) {
      const scene::Box box = scene::boxRound(solid->corner);
      const auto middle = on.project((box.low + box.high) * 0.5F + shift);
      const auto hit = middle && on.isInPicture(*middle) ? on.hitAt(*middle) : std::nullopt;
      if (!hit || hit->part != number) continue;  // only what is seen lights up
      for (const auto& ends : scene::kEdges) {
        const auto line = on.projectLine(solid->corner[ends[0]] + shift, solid->corner[ends[1]] + shift);
        if (line) on.list.AddLine((*line)[0], (*line)[1], toU32(kLight, strength), on.ui.px(2.5F));
      }
    }
  }
}

void drawHandles(const Lettering& on, const std::vector<Handle>& handles, std::optional<std::size_t> hovered,
                 const Pull* pull) {
  for (std::size_t i = 0; i < handles.size(); ++i) {
    drawHandle(on, handles[i], pull != nullptr ? pull->handle.same(handles[i]) : hovered == i);  // they are made anew
  }
  const Handle* hot = pull != nullptr ? &pull->handle : nullptr;
  if (hot == nullptr && hovered && *hovered < handles.size()) hot = &handles[*hovered];
  if (hot == nullptr) return;
  drawFigure(on, ImGui::GetIO().MousePos, hot->name, figuresOf(on.document, *hot), pull,
             pull != nullptr ? toldOf(on, *pull) : std::vector<PlateLine>{});
}

void drawCut(const Lettering& on, const CutHandle& cut, const Pull* pull) {
  const Cutting& cutting = on.shown.cutting;
  if (!on.shown.look.cut) return;
  const std::vector<glm::vec3> corner = outlineOf(on.document.scene, cutting, on.shown.opening);
  for (std::size_t i = 0; i < corner.size(); ++i) {
    const auto from = on.project(corner[i]);
    const auto to = on.project(corner[(i + 1) % corner.size()]);
    if (from && to) drawInkLine(on, *from, *to);
  }
  if (!cut.handle) return;
  Handle handle = *cut.handle;
  if (pull != nullptr) handle.at += handle.along * static_cast<float>(cutting.at - pull->cut.at);
  const bool hot = cut.hovered || pull != nullptr;
  drawHandle(on, handle, hot);
  if (!hot) return;
  const glm::vec3 seen = on.projection(handle.at);
  const bool by_keys = pull != nullptr && pull->by_keys;  // then the pointer is anywhere
  drawFigure(on, by_keys ? ImVec2{seen.x, seen.y} : ImGui::GetIO().MousePos, nameOfCut(cutting),
             figure(cutting.at, on.display), pull);
}

}  // namespace sillwright::view
