#include "view/marks/marks.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include "scene/build/magnify.h"
#include "scene/scene.h"
#include "view/values/readings.h"
#include "words/text.h"

namespace sillwright::view {
namespace {

constexpr float kNearOpening = 260.0F;  // pixels at scale 1 of its width or height, for its gaps to be figured
constexpr float kNearPacker = 0.6F;     // pixels a millimetre, for packers to be figured

constexpr std::string_view kGoverns = " governs";

using plan::At;
using plan::kEverySide;
using plan::outOf;
using plan::Point;
using plan::Side;

/// One opening's plane in the picture. Points are from its planned lower left corner.
struct Plane {
  const Lettering& on;
  const job::Opening& opening;
  const plan::OpeningPlan& planned;
  const scene::WallFrame& wall;
  scene::DrawnUnit unit;
  double times;
  double face;  ///< y of the studs' face that is nearer to the eye; of a cut in the wall's plane where that is gone.

  [[nodiscard]] glm::vec3 world(Point point, double y) const {
    return wall.toWorld({static_cast<float>(opening.left + point.x), static_cast<float>(y),
                         static_cast<float>(opening.sill + point.z)});
  }
  /// Empty, too, where the place is cut away.
  [[nodiscard]] std::optional<ImVec2> at(Point point) const {
    const glm::vec3 place = world(point, face);
    return on.isCutAway(place) ? std::nullopt : on.project(place);
  }
};

/// The y of what is shown where the face at `y` is: that, or the cut that has taken it away.
double shownFace(const std::optional<scene::Cut>& cut, const scene::WallFrame& wall, double y) {
  if (!cut) return y;
  const float through = glm::dot(cut->normal, wall.inward);
  const float beyond = cut->beyond(wall.toWorld({0.0F, static_cast<float>(y), 0.0F}));
  if (std::abs(through) < 0.99F || beyond <= 0.0F) return y;  // no cut in the wall's plane, or the face stays
  return y - static_cast<double>(beyond / through);
}

Plane planeOf(const Lettering& on, std::size_t index) {
  const job::Opening& opening = on.document.job.openings[index];
  const plan::OpeningPlan& planned = on.document.plan.openings[index];
  const scene::WallFrame& wall = on.document.scene.walls[opening.wall];
  const double times = on.document.drawn_deviation;
  const double face = isOutside(wall, on.shown.camera) ? 0.0 : static_cast<double>(wall.depth);
  const scene::DrawnUnit unit = scene::drawnUnit(planned, opening, times);
  return {on, opening, planned, wall, unit, times, shownFace(on.shown.look.cut, wall, face)};
}

void drawPlanned(Lettering& on, const Plane& plane) {
  constexpr float kLongest = 40'000.0F;  // pixels: one that runs past the eye is no line of dashes
  const float dash = on.ui.px(6.0F);
  const std::vector<Point> corner =
      plan::headLineOf(plane.opening).under({0, 0, plane.opening.width, plane.opening.height});
  for (std::size_t i = 0; i < corner.size(); ++i) {
    const auto line =
        on.projectLine(plane.world(corner[i], plane.face), plane.world(corner[(i + 1) % corner.size()], plane.face));
    if (!line || length((*line)[1] - (*line)[0]) > kLongest) continue;
    drawDashes(on.list, (*line)[0], (*line)[1], dash, dash * 0.8F, toU32(on.ui.colours->ink),
               std::max(1.0F, on.ui.px(1.0F)));
  }
}

void drawAsBuilt(Lettering& on, const Plane& plane, double y, float alpha, float thick) {  // at `y` of the wall
  for (const Side side : kEverySide) {
    const plan::Edge edge = scene::magnifiedEdge(plane.planned.as_built.shape, side, plane.opening, plane.times);
    for (std::size_t i = 0; i + 1 < edge.size(); ++i) {
      const auto line = on.projectLine(plane.world(edge[i], y), plane.world(edge[i + 1], y));
      if (!line) continue;
      on.list.AddLine((*line)[0], (*line)[1], toU32(on.ui.colours->paper, 0.7F * alpha), thick + on.ui.px(2.5F));
      on.list.AddLine((*line)[0], (*line)[1], toU32(on.ui.colours->ink, alpha), thick);
    }
  }
}

/// Pixels that a millimetre takes at a point, in the plane's own face.
float pixelsPerMm(const Plane& plane, Point point) {
  constexpr double kStep = 50.0;  // mm: far enough for whole pixels, near enough not to leave the picture
  const auto at = [&](Point place) { return plane.on.project(plane.world(place, plane.face)); };
  const auto from = at(point);
  const auto across = at({point.x + kStep, point.z});
  const auto up = at({point.x, point.z + kStep});
  if (!from || !across || !up) return 0.0F;
  return std::max(length(*across - *from), length(*up - *from)) / static_cast<float>(kStep);  // the less foreshortened
}

/// Whether the opening takes up enough of the picture, and isn't seen end on.
bool isNear(const Plane& plane) {
  const glm::vec3 view = glm::normalize(plane.world({plane.opening.width / 2, plane.opening.height / 2}, plane.face) -
                                        plane.on.shown.camera.eye());
  if (std::abs(glm::dot(view, plane.wall.inward)) < 0.3F) return false;  // within 17° of the wall's plane
  const float scale = pixelsPerMm(plane, {plane.opening.width / 2, plane.opening.height / 2});
  const auto larger = static_cast<float>(std::max(plane.opening.width, plane.opening.height));
  return scale * larger >= plane.on.ui.px(kNearOpening);
}

/// A figure that is led to a gap or a packer by a thin line.
struct Figure {
  std::string about;
  std::string words;
  ImVec2 from;       ///< Where the leader starts.
  ImVec2 direction;  ///< Of the leader, any length.
  float reach = 0;   ///< Length of the leader, pixels.
  bool governs = false;
  bool heavy = false;
};

bool drawFigure(Lettering& on, const Figure& figure) {  // false: it has no room
  const Ui& ui = on.ui;
  if (length(figure.direction) < 1e-3F || !on.isInPicture(figure.from)) return false;
  const ImVec2 out = times(figure.direction, 1.0F / length(figure.direction));
  ImFont* font = figure.governs || figure.heavy ? ui.fonts.strong : ui.fonts.small;
  const ImVec2 words = textSize(font, figure.words);
  const float radius = ui.px(4.5F);
  const float mark = figure.governs ? radius * 2.0F + ui.px(5.0F) : 0.0F;
  const ImVec2 pad{ui.px(4.0F), ui.px(1.0F)};
  const ImVec2 size = ImVec2{words.x + mark, words.y} + times(pad, 2.0F);
  // The plate begins where the leader ends, whichever way that runs.
  const float half = std::abs(out.x) * size.x * 0.5F + std::abs(out.y) * size.y * 0.5F;
  const ImVec2 middle = figure.from + times(out, figure.reach + half);
  const ImVec2 low = rounded(middle - times(size, 0.5F));
  if (!on.isFree({low, low + size})) return false;
  on.write(figure.about, figure.words, {low, low + size});
  drawInkLine(on, figure.from, middle);  // before the plate, which covers its end
  on.list.AddRectFilled(low, low + size, toU32(ui.colours->paper), ui.px(2.0F));
  if (figure.governs) {
    on.list.AddRect(low, low + size, toU32(ui.colours->ink), ui.px(2.0F), 0, std::max(1.0F, ui.px(1.2F)));
    drawGoverningMark(on.list, {low.x + pad.x + radius, low.y + size.y * 0.5F}, radius, *ui.colours);
  }
  drawText(on.list, font, {low.x + pad.x + mark, low.y + pad.y}, ui.colours->ink, figure.words);
  return true;
}

/// A gap's two ends on the picture, some way in from the unit's corner.
struct SeenGap {
  ImVec2 edge;
  ImVec2 unit;
  ImVec2 inwards;
};

/// The unit's side at an end or in its middle, as if its head were level.
Point unitPoint(const scene::DrawnUnit& unit, Side side, At at) {
  const double t = at == At::Start ? 0.0 : at == At::Middle ? 0.5 : 1.0;
  Point point{unit.low.x + t * (unit.high.x - unit.low.x), unit.low.z + t * (unit.high.z - unit.low.z)};
  if (side == Side::Left) point.x = unit.low.x;
  if (side == Side::Right) point.x = unit.high.x;
  if (side == Side::Sill) point.z = unit.low.z;
  if (side == Side::Head) point.z = unit.high.z;
  return point;
}

std::optional<SeenGap> seenGap(const Plane& plane, Side side, At at, double gap) {  // empty where it can't be seen
  Point unit = unitPoint(plane.unit, side, at);
  const float scale = pixelsPerMm(plane, unit);
  if (scale <= 0.0F) return std::nullopt;
  if (at != At::Middle) {  // in from the corner, so that two sides' figures don't meet there
    const double size = isLevel(side) ? plane.unit.high.x - plane.unit.low.x : plane.unit.high.z - plane.unit.low.z;
    const float wanted = plane.on.ui.px(isLevel(side) ? 64.0F : 40.0F);
    const double in = std::min(static_cast<double>(wanted / scale), size * 0.25) * (at == At::Start ? 1 : -1);
    (isLevel(side) ? unit.x : unit.z) += in;
  }
  const plan::HeadLine head = plan::headLineOf(plane.planned.unit);
  if (!isLevel(side) && head.sideHeight(side) <= 0) return std::nullopt;  // a triangle's corner
  if (side == Side::Head || at == At::End) {  // as far below the head as below the highest corner
    unit.z -= head.top() - (isLevel(side) ? head.at(unit.x - plane.unit.low.x) : head.sideHeight(side));
    unit.z = std::max(unit.z, plane.unit.low.z);
  }
  const Point out = outOf(side);
  const double drawn = plane.times * gap;
  const auto unit_at = plane.at(unit);
  const auto edge_at = plane.at({unit.x + out.x * drawn, unit.z + out.z * drawn});
  const auto in_at = plane.at({unit.x - out.x * 50, unit.z - out.z * 50});  // mm: only for its direction
  if (!unit_at || !edge_at || !in_at) return std::nullopt;
  return SeenGap{*edge_at, *unit_at, *in_at - *unit_at};
}

/// "left gap at its foot", for tests and for nothing else.
std::string gapName(Side side, At at) {
  const char* end = isLevel(side) ? (at == At::Start ? "left" : "right") : (at == At::Start ? "foot" : "head");
  return std::string("gap ") + plan::toWord(side) + " " + (at == At::Middle ? "middle" : end);
}

/// The gap at one end of a side, with the mark and the word where it governs.
void drawGap(Lettering& on, const Plane& plane, Side side, At at, double gap) {
  const bool governing = governs(plane.planned.stand, side, at);
  const auto seen = seenGap(plane, side, at, gap);
  if (!seen) return;
  std::string words = figure(gap, on.display);
  const bool told = std::ranges::any_of(on.written, [](const auto& each) { return each.words.ends_with(kGoverns); });
  if (governing && !told) words += kGoverns;  // the others have its mark alone
  const Figure led{gapName(side, at), words, seen->unit, seen->inwards, on.ui.px(9.0F), governing, gap < 0.0};
  if (!drawFigure(on, led)) return;
  drawInkLine(on, seen->edge, seen->unit);  // the gap itself, as it is drawn
  drawTick(on.ui, on.list, seen->edge, 3.0F);
  if (length(seen->edge - seen->unit) > on.ui.px(5.0F)) drawTick(on.ui, on.list, seen->unit, 3.0F);
  if (governing) drawGoverningMark(on.list, seen->edge, on.ui.px(5.5F), *on.ui.colours);
}

void drawGaps(Lettering& on, const Plane& plane) {
  const plan::Stand& stand = plane.planned.stand;
  // What governs comes first: it must find its room.
  for (const bool first : {true, false}) {
    for (const Side side : kEverySide) {
      const auto& gaps = plan::bySide(stand.gaps, side);
      if (governs(stand, side, At::Start) == first) drawGap(on, plane, side, At::Start, gaps[0]);
      if (governs(stand, side, At::End) == first) drawGap(on, plane, side, At::End, gaps[1]);
      if (first && governs(stand, side, At::Middle))
        drawGap(on, plane, side, At::Middle, stand.gaps.closest[static_cast<std::size_t>(side)]);
    }
  }
}

/// An opening's packers, in the order in which the scene has them: of each point a backing first, then the stack's
/// pieces.
std::vector<std::uint32_t> packersOf(const scene::Scene& scene, std::size_t index) {
  std::vector<std::uint32_t> packers;
  for (std::uint32_t i = 0; i < scene.parts.size(); ++i) {
    const bool own = scene.parts[i].opening == static_cast<std::int32_t>(index);
    if (own && scene.parts[i].kind == scene::PartKind::Packer) packers.push_back(i);
  }
  return packers;
}

/// Middle of the parts' solids, as drawn.
std::optional<glm::vec3> middleOf(const scene::Scene& scene, std::span<const std::uint32_t> parts) {
  if (parts.empty()) return std::nullopt;
  const auto first = std::ranges::lower_bound(scene.solids, parts.front(), {}, &scene::Solid::part);
  const auto last = std::ranges::upper_bound(scene.solids, parts.back(), {}, &scene::Solid::part);
  glm::vec3 sum{0.0F};
  for (auto solid = first; solid != last; ++solid) {
    for (const glm::vec3& corner : solid->corner) sum += corner;
  }
  return first == last ? std::nullopt : std::optional(sum / (8.0F * static_cast<float>(last - first)));
}

void drawPackers(Lettering& on, const Plane& plane, std::size_t index) {
  const std::vector<std::uint32_t> packers = packersOf(on.document.scene, index);
  std::span<const std::uint32_t> left = packers;
  const auto& points = plane.planned.packing.points;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const std::size_t pieces = static_cast<std::size_t>(points[i].stack.pieces) + (points[i].backing > 0 ? 1 : 0);
    const auto stack = left.first(std::min(pieces, left.size()));  // never past what the scene has
    left = left.subspan(stack.size());
    auto middle = middleOf(on.document.scene, stack);
    if (!middle) continue;
    *middle += on.shiftOf(on.document.scene.parts[stack.front()]);
    const auto at = on.project(*middle);
    const Point out = outOf(points[i].side);
    const glm::vec3 outwards =
        plane.wall.along * static_cast<float>(out.x) + glm::vec3{0.0F, 0.0F, static_cast<float>(out.z)};
    const auto aside = on.project(*middle + outwards * 50.0F);
    if (!at || !aside || !on.isInPicture(*at)) continue;
    const float scale = length(*aside - *at) / 50.0F;  // pixels a millimetre, outwards
    if (scale < on.ui.px(kNearPacker)) continue;
    const auto hit = on.hitAt(*at);
    if (!hit || std::ranges::find(stack, hit->part) == stack.end()) continue;  // something stands before it
    const auto thick = static_cast<float>((points[i].stack.total + points[i].backing) * plane.times);
    drawFigure(on, {"packer " + std::to_string(i), plan::stackWords(points[i], on.display), *at, *aside - *at,
                    thick * 0.5F * scale + on.ui.px(12.0F), false, true});
  }
}

/// A stop mark where a screw's point comes out behind the studs, and by how much: through whatever hides it, since what
/// it may meet there is hidden too.
void drawBreakOuts(Lettering& on, const Plane& plane, std::size_t index) {
  const scene::Scene& scene = on.document.scene;
  for (const scene::MeshUse& use : scene.uses) {
    const scene::Part& part = scene.parts[use.part];
    if (!part.breaks_out || part.opening != static_cast<std::int32_t>(index) || !on.isShown(part)) continue;
    const glm::vec3 along = glm::normalize(use.place[1]);  // a screw's mesh lies along its own y
    const glm::vec3 point = use.place[3] + along * part.size.x + on.shiftOf(part);
    if (on.isCutAway(point)) continue;
    const auto at = on.project(point);
    const auto further = on.project(point + along * 50.0F);
    if (!at || !further || !on.isInPicture(*at)) continue;
    const plan::Fixing& fixing = plane.planned.fixings.points[static_cast<std::size_t>(part.item)];
    if (plan::isLevel(fixing.side)) continue;  // into the space below the sill: a note, no mark
    drawFigure(on, {"screw " + std::to_string(part.item), "comes out " + figure(fixing.past_stud, on.display), *at,
                    *further - *at, on.ui.px(14.0F), false, true});
    drawMark(on.list, *at, on.ui.px(5.0F), check::Verdict::Stop, *on.ui.colours);
  }
}

}  // namespace

bool governs(const plan::Stand& stand, Side side, At at) {
  constexpr double kLeastWeight = 0.05;  // smaller ones are only just touched
  const auto all = std::span(stand.governed_by).first(static_cast<std::size_t>(stand.governors));
  return std::ranges::any_of(
      all, [&](const auto& each) { return each.side == side && each.at == at && each.weight >= kLeastWeight; });
}

void drawGoverningMark(ImDrawList& list, ImVec2 centre, float radius, const Palette& colours) {
  const auto diamond = [&](float size, Colour colour) {
    list.AddQuadFilled({centre.x, centre.y - size}, {centre.x + size, centre.y}, {centre.x, centre.y + size},
                       {centre.x - size, centre.y}, toU32(colour));
  };
  diamond(radius * 1.35F, colours.paper);  // an edge of paper parts it from what it lies on
  diamond(radius, colours.ink);
}

void drawShapeLines(Lettering& on, std::size_t opening) {
  const Plane plane = planeOf(on, opening);
  if (!isNear(plane)) return;
  const double far = plane.face > 0.0 ? 0.0 : static_cast<double>(plane.wall.depth);
  if (plane.planned.as_built.trust != plan::Trust::Planned) {
    drawAsBuilt(on, plane, far, 0.45F, std::max(1.0F, on.ui.px(1.0F)));  // first: the near face lies over it
    drawAsBuilt(on, plane, plane.face, 1.0F, std::max(1.5F, on.ui.px(1.8F)));
  }
  drawPlanned(on, plane);
}

void drawOpeningMarks(Lettering& on, std::size_t opening) {
  const Plane plane = planeOf(on, opening);
  if (!isNear(plane)) return;
  drawGaps(on, plane);  // what is written first keeps its room: gaps before packers
  drawBreakOuts(on, plane, opening);
  drawPackers(on, plane, opening);
}

void drawChangedNote(Lettering& on) {
  const Ui& ui = on.ui;
  Plate plate{{ui.px(9.0F), ui.px(4.0F)}, std::max(1.0F, on.canvas.freeWidth() - ui.px(40.0F)), ui.colours->ink};
  const auto add = [&](std::string words, std::string more) {
    plate.lines.push_back({ui.fonts.strong, ui.colours->ink, std::move(words)});
    plate.lines.push_back({ui.fonts.small, ui.colours->quiet, std::move(more)});
  };
  const double drawn = on.document.drawn_deviation;
  if (drawn > 1.0) {
    const bool limited = drawn < on.document.deviation - 0.05;  // what a figure of one decimal tells
    add("deviation ×" + words::number(drawn, 1) + (limited ? ", the most there is room for" : ""),
        "gaps, packers, out-of-square drawn larger; figures true");
  }
  const auto spread = static_cast<double>(on.shown.look.spread);
  if (spread > 0) {
    add("layers pulled apart by " + figure(spread, on.display), "each from the next, to be told apart; figures true");
  }
  if (plate.lines.empty()) return;
  const float middle = (on.canvas.left + on.canvas.width - on.canvas.right) * 0.5F;
  on.write("deviation", plate, {middle - sizeOf(ui, plate).x * 0.5F, on.canvas.top + ui.px(12.0F)});
}

}  // namespace sillwright::view
