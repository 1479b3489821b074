#include "sheet/drawing/wall_elevation.h"

#include <array>
#include <numbers>
#include <optional>

#include "plan/frame/frame.h"
#include "scene/describe.h"
#include "sheet/drawing/unit_drawing.h"
#include "sheet/paper/dimension.h"
#include "sheet/paper/marks.h"
#include "words/length.h"

namespace sillwright::sheet {
namespace {

bool reaches(const WallDrawing& drawing, const plan::Member& member) {
  return member.corner[1].x > drawing.x0 && member.corner[0].x < drawing.x1;
}

std::vector<Vec> outline(const WallDrawing& drawing, const plan::Member& member) {
  std::vector<Vec> points;
  for (std::size_t i = 0; i < 4; ++i) {
    points.push_back({member.corner[i].x, member.corner[i].z});
    if (i == 2 && member.apex) points.push_back({member.apex->x, member.apex->z});
  }
  if (!drawing.whole) points = clipped(std::move(points), {drawing.x0, -1e6, drawing.x1, 1e6});
  for (Vec& point : points) point = drawing.view.at(point.x, point.y);
  return points;
}

double topAt(const WallDrawing& drawing, double x) { return plan::heightBelowTop(drawing.planned.spec, 0, x); }

/// The wall's own edge; where a stretch is cut off, a break.
void drawOutline(WallDrawing& drawing) {
  const double from = std::max(drawing.x0, 0.0);
  const double to = std::min(drawing.x1, drawing.wall.length);
  std::vector<Vec> edge{drawing.view.at(from, topAt(drawing, from))};
  for (const auto& point : drawing.wall.top) {
    if (point.x > from && point.x < to) edge.push_back(drawing.view.at(point.x, point.z));
  }
  edge.push_back(drawing.view.at(to, topAt(drawing, to)));
  drawing.painter.path(edge, {pen::kBold});
  for (const double x : {from, to}) {
    const Vec foot = drawing.view.at(x, 0);
    const Vec top = drawing.view.at(x, topAt(drawing, x));
    const bool end = std::abs(x) < 0.5 || std::abs(x - drawing.wall.length) < 0.5;
    if (end) {
      drawing.painter.line(foot, top, {pen::kBold});
    } else {
      drawBreak(drawing.painter, foot, top);
    }
  }
  const Vec left = drawing.view.at(drawing.x0, 0);
  const Vec right = drawing.view.at(drawing.x1, 0);
  drawing.painter.line({left.x - 4, left.y}, {right.x + 4, right.y}, {pen::kHeavy});
}

void drawMembers(WallDrawing& drawing) {
  const Group group = drawing.painter.group(scene::nameOf(scene::Layer::Frame));
  for (const plan::Member& member : drawing.planned.frame.members) {
    if (member.part == plan::MemberPart::Lintel && member.y0 > 0.1) continue;  // plies behind the first
    if (!reaches(drawing, member)) continue;
    const auto points = outline(drawing, member);
    const bool lintel = member.part == plan::MemberPart::Lintel;
    drawing.painter.shape(points,
                          lintel                         ? grey(0.86)
                          : plan::isUpright(member.part) ? grey(0.95)
                                                         : kWhite,
                          {pen::kFine});
  }
  drawOutline(drawing);  // over its members: what is seen first
}

bool crossesSoffit(const WallDrawing& drawing, const Box& box) {
  if (!drawing.wall.eave) return false;
  const double soffit = drawing.view.at(0, drawing.wall.eave->soffit).y;
  return soffit > box.y0 - 0.3 && soffit < box.y1 + 0.3;
}

/// From a member's lower left corner to its upper right one.
Box boxOf(const WallDrawing& drawing, const plan::Member& member) {
  const auto& corner = member.corner;
  return drawing.view.box(corner[0].x, corner[0].z, corner[2].x, corner[2].z);
}

/// Whether no other level piece lies under a mark.
bool clearOfLevels(const WallDrawing& drawing, std::size_t of, const Box& box) {
  const auto& members = drawing.planned.frame.members;
  for (std::size_t i = 0; i < members.size(); ++i) {
    if (i == of || plan::isUpright(members[i].part)) continue;
    if (box.meets(boxOf(drawing, members[i]))) return false;
  }
  return true;
}

/// Marks of the level pieces: in the lintel, under the trimmer, over the noggings; right of the middle, where neither
/// the sill's dimension nor the name stands.
void drawMarks(WallDrawing& drawing) {
  const Group group = drawing.painter.group("notes");
  const auto& members = drawing.planned.frame.members;
  Lettering how{.weight = Weight::Bold, .align = Align::Centre};
  for (std::size_t i = 0; i < members.size(); ++i) {
    const plan::Member& member = members[i];
    const double centre = (member.corner[0].x + member.corner[1].x) / 2;
    if (!drawing.whole && (centre < drawing.x0 || centre >= drawing.x1)) continue;
    const Box box = boxOf(drawing, member);
    // Right of the middle, and in a short piece right of what stands near its opening's left edge.
    const double right = std::max(box.x0 + box.width() * 0.72, std::min(box.x0 + 8, box.x1 - 1.8));
    const double x = member.part == plan::MemberPart::Nogging ? box.middle().x : right;
    how.clear = false;
    const std::string& mark = drawing.marks[i];
    const auto boxAt = [&](Vec at) { return drawing.painter.boxOf(at, mark, how); };
    const auto markAt = [&](Vec at) { drawing.painter.text(at, mark, how); };
    const auto isFree = [&](Vec at) { return drawing.painter.log().isFree(boxAt(at)); };
    if (member.part == plan::MemberPart::Lintel && member.y0 <= 0.1) {
      const bool thin = box.height() < how.capitals + 0.8;
      const Vec at{x, thin ? box.y0 - 0.9 : box.middle().y + how.capitals / 2};
      how.clear = thin || crossesSoffit(drawing, boxAt(at));
      markAt(at);
    } else if (member.part == plan::MemberPart::SillTrimmer) {
      how.clear = true;
      const Vec under{x, box.y1 + how.capitals + 1.0};
      if (isFree(under)) markAt(under);
    } else if (member.part == plan::MemberPart::Nogging && box.width() > drawing.painter.widthOf(mark, how) + 0.6) {
      const Vec over{x, box.y0 - 0.9};
      const Vec under{x, box.y1 + how.capitals + 0.9};
      const Vec at = clearOfLevels(drawing, i, boxAt(over)) && isFree(over) ? over : under;
      if (isFree(at)) markAt(at);
    }
  }
}

/// Where a plate's mark stands along the wall: the middle of the bay nearest to three tenths of its length, so that it
/// is clear of the studs' ticks; nothing where no bay is wide enough.
std::optional<double> plateMarkAt(const WallDrawing& drawing, double from, double to) {
  constexpr double kLeast = 6;  // mm of paper
  const double wanted = from + (to - from) * 0.3;
  std::vector<double> at{from, to};
  for (const auto& member : drawing.planned.frame.members) {
    const double middle = (member.corner[0].x + member.corner[1].x) / 2;
    if (plan::isUpright(member.part) && middle > from && middle < to) at.push_back(middle);
  }
  std::sort(at.begin(), at.end());
  std::optional<double> best;
  for (std::size_t i = 0; i + 1 < at.size(); ++i) {
    if ((at[i + 1] - at[i]) * drawing.view.per_mm < kLeast) continue;
    const double middle = (at[i] + at[i + 1]) / 2;
    if (!best || std::abs(middle - wanted) < std::abs(*best - wanted)) best = middle;
  }
  return best;
}

struct PlateMark {
  double from = 0, to = 0;
  std::string mark;
};

/// Plates over each other have one mark, of all of them.
std::vector<PlateMark> plateMarks(const WallDrawing& drawing, plan::MemberPart part) {
  constexpr double kSame = 100;  // mm by which plates over each other end apart
  std::vector<PlateMark> all;
  const auto& members = drawing.planned.frame.members;
  for (std::size_t i = 0; i < members.size(); ++i) {
    if (members[i].part != part || !reaches(drawing, members[i])) continue;
    const double from = members[i].corner[0].x;
    const double to = members[i].corner[1].x;
    const auto same = std::find_if(all.begin(), all.end(), [&](const PlateMark& one) {
      return std::abs(one.from - from) < kSame && std::abs(one.to - to) < kSame;
    });
    if (same == all.end()) {
      all.push_back({from, to, drawing.marks[i]});
    } else if (same->mark.find(drawing.marks[i]) == std::string::npos) {
      same->mark += "/" + drawing.marks[i];
    }
  }
  return all;
}

/// Marks that would lie on each other made one, "C/D": pieces of plates over each other end at different studs.
std::vector<std::pair<double, std::string>> joinedMarks(const WallDrawing& drawing,
                                                        std::vector<std::pair<double, std::string>> marks,
                                                        const Lettering& how) {
  constexpr double kApart = 1.0;  // mm of paper between two marks
  std::sort(marks.begin(), marks.end());
  std::vector<std::pair<double, std::string>> joined;
  for (const auto& [x, mark] : marks) {
    if (!joined.empty()) {
      auto& [before, name] = joined.back();
      const double needed = (drawing.painter.widthOf(name, how) + drawing.painter.widthOf(mark, how)) / 2 + kApart;
      if ((x - before) * drawing.view.per_mm < needed) {
        if (name != mark) name += "/" + mark;
        continue;
      }
    }
    joined.emplace_back(x, mark);
  }
  return joined;
}

/// Marks of bottom plates under the floor line, of top plates over the wall.
void drawPlateMarks(WallDrawing& drawing) {
  const Group group = drawing.painter.group("notes");
  const Lettering how{.weight = Weight::Bold, .align = Align::Centre};
  for (const auto part : {plan::MemberPart::BottomPlate, plan::MemberPart::TopPlate}) {
    std::vector<std::pair<double, std::string>> marks;
    for (const PlateMark& plate : plateMarks(drawing, part)) {
      const double from = std::max(plate.from, drawing.x0);
      const double to = std::min(plate.to, drawing.x1);
      auto x = plateMarkAt(drawing, from, to);
      // Over the wall no ticks are in the way of a short piece's mark.
      if (!x && part == plan::MemberPart::TopPlate) x = (from + to) / 2;
      if (x) marks.emplace_back(*x, plate.mark);
    }
    for (const auto& [x, mark] : joinedMarks(drawing, std::move(marks), how)) {
      const Vec foot = drawing.view.at(x, 0);
      const Vec top = drawing.view.at(x, topAt(drawing, x));
      drawing.painter.text(
          part == plan::MemberPart::BottomPlate ? Vec{foot.x, foot.y + how.capitals + 0.7} : Vec{top.x, top.y - 1.2},
          mark, how);
    }
  }
}

void drawEave(WallDrawing& drawing) {
  if (!drawing.wall.eave) return;
  const Group group = drawing.painter.group(scene::nameOf(scene::Layer::Eave));
  const Vec left = drawing.view.at(drawing.x0, drawing.wall.eave->soffit);
  const Vec right = drawing.view.at(drawing.x1, drawing.wall.eave->soffit);
  drawing.painter.line({left.x - 2, left.y}, {right.x + 2, right.y}, {pen::kFine, Dash::Dashed});
  drawing.painter.text({right.x + 3, right.y + letter::kSmall / 2},
                       "soffit " + drawing.figure(drawing.wall.eave->soffit));
}

/// The slope of a piece of the top line, over its middle.
void drawSlope(WallDrawing& drawing, const job::TopPoint& from, const job::TopPoint& to) {
  const double rise = to.z - from.z;
  const double left = std::max(from.x, drawing.x0);
  const double right = std::min(to.x, drawing.x1);
  constexpr double kShort = 15;  // mm of paper: no room for words over it
  if (std::abs(rise) < 0.5 || (right - left) * drawing.view.per_mm < kShort) return;
  const double x = (left + right) / 2;
  const Vec middle = drawing.view.at(x, topAt(drawing, x));
  const Lettering how{.align = rise > 0 ? Align::Right : Align::Left};
  const double degrees = std::abs(std::atan2(rise, to.x - from.x)) * 180 / std::numbers::pi;
  drawing.painter.text({middle.x + (rise > 0 ? -2.0 : 2.0), middle.y - 3.0}, "slope " + words::number(degrees, 1) + "°",
                       how);
}

/// Heights at the wall's left end, heights and slopes along its top.
void drawHeights(WallDrawing& drawing) {
  Painter& painter = drawing.painter;
  const auto& top = drawing.wall.top;
  const auto& spec = drawing.planned.spec;
  const double left = drawing.view.at(drawing.x0, 0).x;
  const double from = std::max(drawing.x0, 0.0);
  const double height = topAt(drawing, from);
  const double under = plan::heightBelowTop(spec, spec.plates.top * spec.stud.thickness, from);
  const auto y = [&](double z) { return drawing.view.at(0, z).y; };
  drawChain(painter, {.along = Along::Y,
                      .level = left - 9,
                      .away = -1,
                      .per_mm = drawing.view.per_mm,
                      .stations = {{y(0), left}, {y(under), left}, {y(height), left}},
                      .values = {under, height - under},
                      .texts = {drawing.figure(under), drawing.figure(height - under)},
                      .past_last = true});
  drawDimension(painter, Along::Y, left - 16, -1, drawing.view.per_mm, {y(0), left}, {y(height), left}, height,
                drawing.figure(height));
  const bool sloped =
      std::any_of(top.begin(), top.end(), [&](const auto& point) { return std::abs(point.z - top.front().z) > 0.5; });
  if (!sloped) return;
  const Lettering how{.align = Align::Centre, .clear = true};
  for (std::size_t i = 0; i < top.size(); ++i) {
    if (drawing.whole || (top[i].x >= drawing.x0 && top[i].x <= drawing.x1)) {
      const Vec at = drawing.view.at(top[i].x, top[i].z);
      painter.line({at.x, at.y - 0.8}, {at.x, at.y - 4}, {pen::kHair});
      painter.text({at.x, at.y - 4.8}, drawing.figure(top[i].z), how);
    }
    if (i + 1 < top.size()) drawSlope(drawing, top[i], top[i + 1]);
  }
}

/// Every upright's middle from the wall's left end, with its mark.
double drawSetOut(WallDrawing& drawing, double level) {
  struct Upright {
    double x;
    std::string mark;
  };
  std::vector<Upright> all;
  const auto& members = drawing.planned.frame.members;
  for (std::size_t i = 0; i < members.size(); ++i) {
    if (!plan::isUpright(members[i].part)) continue;
    const double x = (members[i].corner[0].x + members[i].corner[1].x) / 2;
    if (!drawing.whole && (x < drawing.x0 || x >= drawing.x1)) continue;
    const auto same =
        std::find_if(all.begin(), all.end(), [&](const Upright& one) { return std::abs(one.x - x) < 0.5; });
    if (same == all.end()) {
      all.push_back({x, drawing.marks[i]});
    } else if (same->mark != drawing.marks[i]) {
      same->mark += "/" + drawing.marks[i];
    }
  }
  std::sort(all.begin(), all.end(), [](const Upright& a, const Upright& b) { return a.x < b.x; });
  Running running{.along = Along::X,
                  .level = level,
                  .per_mm = drawing.view.per_mm,
                  .origin = drawing.view.at(0, 0).x,
                  .start = drawing.view.at(std::max(drawing.x0, 0.0), 0).x,
                  .low = drawing.view.at(drawing.x0, 0).x - 8,
                  .high = drawing.view.at(drawing.x1, 0).x + 20};
  for (const Upright& one : all) {
    running.marks.push_back({drawing.view.at(one.x, 0).x, drawing.figure(one.x) + "  " + one.mark, one.x});
  }
  return drawRunning(drawing.painter, running);
}

/// Left edge and width of each opening, and what is left at the end; then the whole.
void drawOpeningChain(WallDrawing& drawing, double level) {
  std::vector<std::array<double, 2>> spans;
  for (const std::int32_t i : drawing.planned.openings) {
    const auto& opening = drawing.opening(i);
    if (drawing.shows(opening)) spans.push_back({opening.left, opening.left + opening.width});
  }
  std::vector<double> edges;
  // Of a stretch, the distance to an end that isn't on the page is on the running figures.
  if (drawing.x0 <= 0) edges.push_back(0);
  if (drawing.x1 >= drawing.wall.length) edges.push_back(drawing.wall.length);
  for (const auto& span : spans) edges.insert(edges.end(), span.begin(), span.end());
  std::sort(edges.begin(), edges.end());
  edges.erase(std::unique(edges.begin(), edges.end(), [](double a, double b) { return std::abs(a - b) < 0.5; }),
              edges.end());
  Chain chain{.along = Along::X, .level = level, .away = 1, .per_mm = drawing.view.per_mm};
  for (const double x : edges) chain.stations.push_back({drawing.view.at(x, 0).x, level - 3});
  for (std::size_t i = 0; i + 1 < edges.size(); ++i) {
    chain.values.push_back(edges[i + 1] - edges[i]);
    chain.texts.push_back(drawing.figure(edges[i + 1] - edges[i]));
  }
  const double rows = drawChain(drawing.painter, chain);
  const double overall = level + std::max(rows + 4.8, 6.5);
  if (drawing.whole && edges.size() > 2) {
    drawDimension(drawing.painter, Along::X, overall, 1, drawing.view.per_mm, {drawing.view.at(0, 0).x, overall - 2},
                  {drawing.view.at(drawing.wall.length, 0).x, overall - 2}, drawing.wall.length,
                  drawing.figure(drawing.wall.length));
  }
}

}  // namespace

void measureExtent(WallDrawing& drawing) {
  drawing.x1 = drawing.wall.length;
  for (const auto& point : drawing.wall.top) drawing.z1 = std::max(drawing.z1, point.z);
  for (const std::int32_t i : drawing.planned.openings) {
    const auto& opening = drawing.opening(i);
    drawing.x0 = std::min(drawing.x0, opening.left);
    drawing.x1 = std::max(drawing.x1, opening.left + opening.width);
    drawing.z1 = std::max(drawing.z1, opening.sill + opening.height);
  }
}

void drawElevation(WallDrawing& drawing, const Scale& scale, const Box& room) {
  const double wide = (drawing.x1 - drawing.x0) * scale.per_mm;
  const double spare = room.width() - kLeftDims - kRightDims - wide;
  const double high = drawing.z1 * scale.per_mm;
  const double slack = std::max(0.0, room.height() - kAboveDims - kBelowDims - high);
  drawing.view = {
      scale.per_mm,
      {room.x0 + kLeftDims + spare / 2 - drawing.x0 * scale.per_mm, room.y0 + kAboveDims + slack * 0.4 + high}};
  const Group group = drawing.painter.group("elevation");
  drawMembers(drawing);
  drawEave(drawing);
  std::vector<std::int32_t> unnamed;
  for (const std::int32_t i : drawing.planned.openings) {
    if (drawing.shows(drawing.opening(i)) && !drawOpeningIn(drawing, i)) unnamed.push_back(i);
  }
  drawMarks(drawing);
  drawPlateMarks(drawing);
  drawHeights(drawing);
  const double floor = drawing.view.at(0, 0).y;
  const double reach = drawSetOut(drawing, floor + 4);
  drawOpeningChain(drawing, floor + 4 + reach + 5);
  for (const std::int32_t i : unnamed) drawNameOver(drawing, i);
  drawScaleBar(drawing.painter, {room.x1 - 50, room.y0 + 4}, scale,
               drawing.display() == practice::Display::InchFractions);
}

}  // namespace sillwright::sheet
