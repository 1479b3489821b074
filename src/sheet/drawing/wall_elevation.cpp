#include "sheet/drawing/elevation.h"

#include <functional>
#include <numbers>
#include <optional>

#include "scene/describe.h"
#include "sheet/paper/dimension.h"
#include "words/text.h"

namespace sillwright::sheet {
namespace {

double middleOf(const plan::Member& member) { return (member.corner[0].x + member.corner[1].x) / 2; }  // along the wall

bool reaches(const WallDrawing& drawing, const plan::Member& member) {  // into what is drawn of the wall
  return member.corner[1].x > drawing.x0 && member.corner[0].x < drawing.x1;
}

std::vector<Vec> outline(const WallDrawing& drawing, const plan::Member& member) {  // on the page
  std::vector<Vec> points;
  for (std::size_t i = 0; i < 4; ++i) {
    points.push_back({member.corner[i].x, member.corner[i].z});
    if (i == 2 && member.apex) points.push_back({member.apex->x, member.apex->z});  // under a ridge
  }
  if (!drawing.whole) points = clipped(std::move(points), {drawing.x0, -1e6, drawing.x1, 1e6});  // off the stretch
  for (Vec& point : points) point = drawing.at(point.x, point.y);
  return points;
}

double topAt(const WallDrawing& drawing, double x) { return plan::heightBelowTop(drawing.planned.spec, 0, x); }

/// The wall's own edge; where a stretch is cut off, a break.
void drawOutline(WallDrawing& drawing) {
  const double from = std::max(drawing.x0, 0.0);
  const double to = std::min(drawing.x1, drawing.wall.length);
  std::vector<Vec> edge{drawing.at(from, topAt(drawing, from))};
  for (const auto& point : drawing.wall.top) {
    if (point.x > from && point.x < to) edge.push_back(drawing.at(point.x, point.z));
  }
  edge.push_back(drawing.at(to, topAt(drawing, to)));
  drawing.painter.path(edge, {pen::kBold});
  for (const double x : {from, to}) {
    const Vec foot = drawing.at(x, 0);
    const Vec top = drawing.at(x, topAt(drawing, x));
    if (std::abs(x) < 0.5 || std::abs(x - drawing.wall.length) < 0.5) {  // the wall itself ends here
      drawing.painter.line(foot, top, {pen::kBold});
    } else {
      drawBreak(drawing.painter, foot, top);
    }
  }
  const Vec left = drawing.at(drawing.x0, 0);
  const Vec right = drawing.at(drawing.x1, 0);
  drawing.painter.line({left.x - 4, left.y}, {right.x + 4, right.y}, {pen::kHeavy});
}

void drawMembers(WallDrawing& drawing) {
  const Group group = drawing.painter.group(scene::nameOf(scene::Layer::Frame));
  for (const plan::Member& member : drawing.planned.frame.members) {
    if (member.part == plan::MemberPart::Lintel && member.y0 > 0.1) continue;  // plies behind the first
    if (!reaches(drawing, member)) continue;
    const bool lintel = member.part == plan::MemberPart::Lintel;
    const Ink ink = lintel ? grey(0.86) : plan::isUpright(member.part) ? grey(0.95) : kWhite;
    drawing.painter.shape(outline(drawing, member), ink, {pen::kFine});
  }
  drawOutline(drawing);  // over its members: what is seen first
}

bool crossesSoffit(const WallDrawing& drawing, const Box& box) {  // whose dashed line would run through a text
  if (!drawing.wall.eave) return false;
  const double soffit = drawing.at(0, drawing.wall.eave->soffit).y;
  return soffit > box.y0 - 0.3 && soffit < box.y1 + 0.3;
}

/// From a member's lower left corner to its upper right one.
Box boxOf(const WallDrawing& drawing, const plan::Member& member) {
  const auto& corner = member.corner;
  return drawing.view.box(corner[0].x, corner[0].z, corner[2].x, corner[2].z);
}

/// Whether no other level piece lies under a mark.
bool clearOfLevels(const WallDrawing& drawing, const plan::Member& of, const Box& box) {
  return std::ranges::none_of(drawing.planned.frame.members, [&](const plan::Member& member) {
    return &member != &of && !plan::isUpright(member.part) && box.meets(boxOf(drawing, member));
  });
}

/// Marks of the level pieces: in the lintel, under the trimmer, over the noggings; right of the middle, where neither
/// the sill's dimension nor the name stands.
void drawMarks(WallDrawing& drawing) {
  const Group group = drawing.painter.group("notes");
  const auto& members = drawing.planned.frame.members;
  Lettering how{.weight = Weight::Bold, .align = Align::Centre};
  for (std::size_t i = 0; i < members.size(); ++i) {
    const plan::Member& member = members[i];
    if (!drawing.shows(middleOf(member))) continue;
    const Box box = boxOf(drawing, member);
    // Right of the middle, and in a short piece right of what stands near its opening's left edge.
    const double right = std::max(box.x0 + box.width() * 0.72, std::min(box.x0 + 8, box.x1 - 1.8));
    const double x = member.part == plan::MemberPart::Nogging ? box.middle().x : right;
    how.clear = false;  // the piece before may have set it
    const std::string& mark = drawing.marks[i];
    const auto boxAt = [&](Vec at) { return drawing.painter.boxOf(at, mark, how); };
    const auto markAt = [&](Vec at) { drawing.painter.text(at, mark, how); };
    const auto isFree = [&](Vec at) { return drawing.painter.log().isFree(boxAt(at)); };
    if (member.part == plan::MemberPart::Lintel && member.y0 <= 0.1) {  // its first ply
      const bool thin = box.height() < how.capitals + 0.8;              // a mark has no room in it
      const Vec at{x, thin ? box.y0 - 0.9 : box.middle().y + how.capitals / 2};
      how.clear = thin || crossesSoffit(drawing, boxAt(at));
      markAt(at);
    } else if (member.part == plan::MemberPart::SillTrimmer) {
      how.clear = true;
      const Vec under{x, box.y1 + how.capitals + 1.0};
      if (isFree(under)) markAt(under);  // a mark is left out sooner than drawn over a text
    } else if (member.part == plan::MemberPart::Nogging && box.width() > drawing.painter.widthOf(mark, how) + 0.6) {
      const Vec over{x, box.y0 - 0.9};
      const Vec under{x, box.y1 + how.capitals + 0.9};
      const Vec at = clearOfLevels(drawing, member, boxAt(over)) && isFree(over) ? over : under;
      if (isFree(at)) markAt(at);  // else it goes without
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
    const double middle = middleOf(member);
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

/// A mark, and where it stands along the wall.
using Mark = std::pair<double, std::string>;

/// Marks nearer to each other than `apart` says made one, "C/D": of pieces over each other, of pieces side by side.
std::vector<Mark> joinedMarks(std::vector<Mark> marks,
                              const std::function<double(const std::string&, const std::string&)>& apart) {
  std::ranges::sort(marks);
  std::vector<Mark> joined;
  for (auto& [x, mark] : marks) {
    if (joined.empty() || x - joined.back().first >= apart(joined.back().second, mark)) {
      joined.emplace_back(x, std::move(mark));
    } else if (joined.back().second.find(mark) == std::string::npos) {  // said once, however often it stands there
      joined.back().second += "/" + mark;
    }
  }
  return joined;
}

/// Marks of bottom plates under the floor line, of top plates over the wall.
void drawPlateMarks(WallDrawing& drawing) {
  constexpr double kApart = 1.0;  // mm of paper between two marks
  const Group group = drawing.painter.group("notes");
  const Lettering how{.weight = Weight::Bold, .align = Align::Centre};
  const auto apart = [&](const std::string& a, const std::string& b) {
    return ((drawing.painter.widthOf(a, how) + drawing.painter.widthOf(b, how)) / 2 + kApart) / drawing.view.per_mm;
  };
  const auto& members = drawing.planned.frame.members;
  for (const auto part : {plan::MemberPart::BottomPlate, plan::MemberPart::TopPlate}) {
    std::vector<Mark> marks;
    for (std::size_t i = 0; i < members.size(); ++i) {
      if (members[i].part != part || !reaches(drawing, members[i])) continue;
      const double from = std::max<double>(members[i].corner[0].x, drawing.x0);
      const double to = std::min<double>(members[i].corner[1].x, drawing.x1);
      auto x = plateMarkAt(drawing, from, to);
      // Over the wall no ticks are in the way of a short piece's mark.
      if (!x && part == plan::MemberPart::TopPlate) x = (from + to) / 2;
      if (x) marks.emplace_back(*x, drawing.marks[i]);
    }
    for (const auto& [x, mark] : joinedMarks(std::move(marks), apart)) {
      const bool top = part == plan::MemberPart::TopPlate;
      drawing.painter.text(
          top ? drawing.at(x, topAt(drawing, x)) - Vec{0, 1.2} : drawing.at(x, 0) + Vec{0, how.capitals + 0.7}, mark,
          how);
    }
  }
}

void drawEave(WallDrawing& drawing) {
  if (!drawing.wall.eave) return;
  const Group group = drawing.painter.group(scene::nameOf(scene::Layer::Eave));
  const Vec left = drawing.at(drawing.x0, drawing.wall.eave->soffit);
  const Vec right = drawing.at(drawing.x1, drawing.wall.eave->soffit);
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
  if (std::abs(rise) < 0.5 || (right - left) * drawing.view.per_mm < kShort) return;  // it is level, or too short
  const double x = (left + right) / 2;
  const Vec middle = drawing.at(x, topAt(drawing, x));
  const Lettering how{.align = rise > 0 ? Align::Right : Align::Left};  // over the lower part, clear of the line
  const double degrees = std::abs(std::atan2(rise, to.x - from.x)) * 180 / std::numbers::pi;
  drawing.painter.text({middle.x + (rise > 0 ? -2.0 : 2.0), middle.y - 3.0}, "slope " + words::number(degrees, 1) + "°",
                       how);
}

/// Heights at the wall's left end, heights and slopes along its top.
void drawHeights(WallDrawing& drawing) {
  Painter& painter = drawing.painter;
  const auto& top = drawing.wall.top;
  const auto& spec = drawing.planned.spec;
  const double left = drawing.at(drawing.x0, 0).x;
  const double from = std::max(drawing.x0, 0.0);
  const double height = topAt(drawing, from);
  const double under = plan::heightBelowTop(spec, spec.plates.top * spec.stud.thickness, from);
  Chain heights{.along = Along::Y,
                .level = left - 9,
                .from = left,
                .away = -1,
                .view = drawing.view,
                .display = drawing.subject.display(),
                .at = {0, under, height},
                .past_last = true};
  drawChain(painter, heights);
  heights.level = left - 16;  // the whole height stands further out
  heights.at = {0, height};
  drawChain(painter, heights);
  if (std::ranges::all_of(top, [&](const auto& point) { return std::abs(point.z - top.front().z) <= 0.5; })) return;
  const Lettering how{.align = Align::Centre, .clear = true};
  for (std::size_t i = 0; i < top.size(); ++i) {
    if (drawing.whole || (top[i].x >= drawing.x0 && top[i].x <= drawing.x1)) {
      const Vec at = drawing.at(top[i].x, top[i].z);
      painter.line({at.x, at.y - 0.8}, {at.x, at.y - 4}, {pen::kHair});
      painter.text({at.x, at.y - 4.8}, drawing.figure(top[i].z), how);
    }
    if (i + 1 < top.size()) drawSlope(drawing, top[i], top[i + 1]);
  }
}

/// Every upright's middle from the wall's left end, with its mark.
double drawSetOut(WallDrawing& drawing, double level) {
  std::vector<Mark> uprights;
  const auto& members = drawing.planned.frame.members;
  for (std::size_t i = 0; i < members.size(); ++i) {
    const double x = middleOf(members[i]);
    if (plan::isUpright(members[i].part) && drawing.shows(x)) uprights.emplace_back(x, drawing.marks[i]);
  }
  Running running{.level = level,
                  .view = drawing.view,
                  .start = std::max(drawing.x0, 0.0),
                  .low = drawing.at(drawing.x0, 0).x - 8,
                  .high = drawing.at(drawing.x1, 0).x + 20};
  for (const auto& [x, mark] : joinedMarks(std::move(uprights), [](const auto&, const auto&) { return 0.5; })) {
    running.marks.push_back({x, drawing.figure(x) + "  " + mark});
  }
  return drawRunning(drawing.painter, running);
}

/// Left edge and width of each opening, and what is left at the end; then the whole.
void drawOpeningChain(WallDrawing& drawing, double level) {
  Chain chain{.level = level, .from = level - 3, .view = drawing.view, .display = drawing.subject.display()};
  for (const std::int32_t i : drawing.planned.openings) {
    const auto& opening = drawing.opening(i);
    if (drawing.shows(opening)) chain.at.insert(chain.at.end(), {opening.left, opening.left + opening.width});
  }
  const bool any = !chain.at.empty();
  // Of a stretch, the distance to an end that isn't on the page is on the running figures.
  if (drawing.x0 <= 0) chain.at.push_back(0);
  if (drawing.x1 >= drawing.wall.length) chain.at.push_back(drawing.wall.length);
  const double rows = drawChain(drawing.painter, chain);
  if (!drawing.whole || !any) return;
  chain.level = level + std::max(rows + 4.8, 6.5);  // past the first chain's rows of figures
  chain.from = chain.level - 2;
  chain.at = {0, drawing.wall.length};
  drawChain(drawing.painter, chain);
}

// Openings in the elevation: their heights, their names.

Box boxOf(const WallDrawing& drawing, std::int32_t index) {  // on the page, as planned
  const job::Opening& opening = drawing.opening(index);
  return drawing.view.box(opening.left, opening.sill, opening.left + opening.width, opening.sill + opening.height);
}

/// Where the heights of an opening are drawn up: near its left edge, off the jack studs under it.
double heightsAt(const WallDrawing& drawing, std::int32_t index, const Box& box) {
  constexpr double kUsual = 5.5, kLeast = 3.9;  // mm of paper in from the edge
  constexpr double kNarrow = 12;                // mm of paper, where the name needs what is left
  if (box.width() < kNarrow) return box.x0 + kLeast;
  constexpr double kFigure = 3.4, kBeside = 0.6;  // left of its line the figures stand
  const auto isFree = [&](double x) {
    return std::ranges::none_of(drawing.planned.frame.members, [&](const plan::Member& member) {
      return member.part == plan::MemberPart::JackStudBelow && member.opening == index &&
             drawing.at(member.corner[0].x, 0).x < x + kBeside && drawing.at(member.corner[1].x, 0).x > x - kFigure;
    });
  };
  // Nearest to the usual place first.
  for (const double off : {kUsual, 5.1, 5.9, 4.7, 6.3, 4.3, 6.7, kLeast, 7.1, 7.5, 7.9, 8.3, 8.7, 9.1, 9.5}) {
    if (off <= std::max(0.4 * box.width(), kUsual) && isFree(box.x0 + off)) return box.x0 + off;
  }
  return box.x0 + kUsual;
}

/// Height of the head of the nearest opening that stands under this one; 0: none does.
double headBelow(const WallDrawing& drawing, const job::Opening& above) {
  double highest = 0;
  for (const std::int32_t i : drawing.planned.openings) {
    const job::Opening& below = drawing.opening(i);
    const double head = below.sill + below.height;
    const bool under = below.left < above.left + above.width && above.left < below.left + below.width;
    if (under && head <= above.sill) highest = std::max(highest, head);
  }
  return highest;
}

/// Sill, from the floor or from the head of an opening below, and height, one over the other, just inside the left
/// edge. Answers how far right their figures reach.
double drawOpeningHeights(WallDrawing& drawing, std::int32_t index, const Box& box) {
  const job::Opening& opening = drawing.opening(index);
  const double column = heightsAt(drawing, index, box);
  Chain heights{.along = Along::Y,
                .level = column,
                .from = column,
                .view = drawing.view,
                .display = drawing.subject.display(),
                .at = {opening.sill},
                .past_last = true};
  if (!opening.head) heights.at.push_back(opening.sill + opening.height);   // a raked one has each corner's height
  if (opening.sill > 0) heights.at.push_back(headBelow(drawing, opening));  // 0 is the floor
  const double reach = drawChain(drawing.painter, heights);
  return column + (reach > 0 ? reach + 0.8 : 0.0);
}

/// An opening's name and sign in the room right of its heights, as large as there is room for, up the page where it is
/// narrow. Under it, where they have room, the unit's kind and size. False where not even the name has room.
bool drawOpeningName(WallDrawing& drawing, std::int32_t index, const Box& room) {
  Painter& painter = drawing.painter;
  const std::string& words = drawing.opening(index).name;
  const auto& unit = drawing.subject.plan.openings[static_cast<std::size_t>(index)].unit;
  const auto drawSign = [&](Vec left, double size) {
    drawVerdict(painter, left, size, drawing.subject.findings, static_cast<std::size_t>(index));
  };
  Lettering name{.weight = Weight::Bold};
  const auto wide = [&](double capitals) {
    return painter.widthOf(words, {capitals, Weight::Bold}) + capitals * 0.8 + 1.0;
  };
  for (const double capitals : {letter::kLarge, letter::kHead}) {  // rising: the largest that has room stays
    if (wide(capitals) <= room.width() && capitals * 2 <= room.height()) name.capitals = capitals;
  }
  const double sign = name.capitals * 0.8;
  const Vec middle = room.middle();
  if (wide(name.capitals) > room.width() && room.height() > room.width()) {  // it goes up the page
    name.upright = true;
    const double length = painter.widthOf(words, name);
    if (length + sign + 2 > room.height() || name.capitals > room.width()) return false;
    const Vec at{middle.x + name.capitals / 2, middle.y + (length - sign) / 2 - 0.5};
    const Box box = painter.boxOf(at, words, name);
    painter.fillBox(Box{box.x0, box.y0, box.x1, box.y1 + sign + 1}.grown(0.3), kWhite);
    painter.text(at, words, name);
    drawSign({middle.x - sign / 2, at.y + 1 + sign / 2}, sign);  // the sign stands where the name begins
    return true;
  }
  const double length = painter.widthOf(words, name) + sign + 1.0;
  if (length > room.width() || name.capitals > room.height()) return false;  // its caller names it over the wall
  constexpr double kLine = 3.9;                                              // from one base line to the next
  std::vector<std::string> under;
  for (const std::string& line : {words::unitName(unit.kind, unit.lights), "unit " + drawing.subject.figures(unit)}) {
    const double high = name.capitals + static_cast<double>(under.size() + 1) * kLine;
    if (painter.widthOf(line) <= room.width() && high + 2 < room.height()) under.push_back(line);
  }
  double widest = length;
  for (const auto& line : under) widest = std::max(widest, painter.widthOf(line));
  const double high = name.capitals + static_cast<double>(under.size()) * kLine;
  double y = middle.y - high / 2 + name.capitals;
  painter.fillBox(
      Box{middle.x - widest / 2, y - name.capitals, middle.x + widest / 2, middle.y + high / 2 + 0.6}.grown(0.5),
      kWhite);
  drawSign({middle.x - length / 2, y - name.capitals / 2}, sign);
  painter.text({middle.x - length / 2 + sign + 1.0, y}, words, name);
  const Lettering small{.align = Align::Centre};
  for (const auto& line : under) painter.text({middle.x, y += kLine}, line, small);
  return true;
}

/// The outline of an opening that follows the roof, and the height of each corner that its own dimensions don't tell.
void drawRakedOutline(WallDrawing& drawing, const job::Opening& opening) {
  const plan::HeadLine head = plan::headLineOf(opening);
  const View own{drawing.view.per_mm, drawing.at(opening.left, opening.sill)};
  drawing.painter.shape(own.at(head.under({0, 0, opening.width, opening.height})), kWhite, {pen::kBold});
  const Lettering how{.align = Align::Centre, .clear = true};
  for (const plan::Point& corner : head.corners()) {
    if (corner.z <= 0) continue;  // there is no height to tell
    const Vec at = own.at(corner.x, corner.z);
    const double aside = corner.x <= 0 ? 5.5 : corner.x >= opening.width ? -5.5 : 0;  // inside the opening
    drawing.painter.text({at.x + aside, at.y + 4.5}, drawing.figure(corner.z), how);
  }
}

/// The name of an opening that is too small for it, over the wall on a leader, where no other text stands yet.
void drawNameOver(WallDrawing& drawing, std::int32_t index) {
  const Group group = drawing.painter.group("notes");
  Painter& painter = drawing.painter;
  const Box box = boxOf(drawing, index);
  constexpr double kSign = 2.0, kWidest = 70, kOver = 4.5, kRow = 3.8, kStep = 3;  // mm of paper
  constexpr int kSteps = 30, kRows = 2;
  const std::string words = painter.fitted(drawing.opening(index).name, kWidest, kBoldLetters);
  const Vec point{box.x1 - std::min(1.2, box.width() / 4), box.middle().y};  // on the right, clear of the heights
  const double over = drawing.at(0, drawing.z1).y - kOver;
  const auto placeAt = [&](int step, int row) {
    const double way = step % 2 == 0 ? 1 : -1;  // right and left by turns, ever further off
    return Vec{point.x + way * kStep * (step + 1) / 2, over - kRow * row};
  };
  const auto taken = [&](Vec at) {
    const Box text = painter.boxOf({at.x + kSign + 1, at.y}, words, kBoldLetters);
    const Box all{at.x - 0.5, text.y0, text.x1, text.y1};
    return !painter.log().frame.grown(-1).holds(all) || !painter.log().isFree(all);
  };
  Vec at = placeAt(0, 0);
  for (int i = 0; i < kSteps * kRows && taken(at); ++i) at = placeAt(i % kSteps, i / kSteps);
  const Vec end{at.x + kSign / 2, at.y + 0.8};
  drawLeader(painter, point, end, end);
  drawVerdict(painter, {at.x, at.y - kBoldLetters.capitals / 2}, kSign, drawing.subject.findings,
              static_cast<std::size_t>(index));
  painter.text({at.x + kSign + 1, at.y}, words, kBoldLetters);
}

/// Draws an opening with its heights; false where its name had no room in it.
bool drawOpeningIn(WallDrawing& drawing, std::int32_t index) {
  const Group group = drawing.painter.group("openings");
  Painter& painter = drawing.painter;
  const Box box = boxOf(drawing, index);
  const job::Opening& opening = drawing.opening(index);
  if (opening.head) {
    drawRakedOutline(drawing, opening);
  } else {
    painter.fillBox(box, kWhite);
    painter.line({box.x0, box.y0}, {box.x1, box.y1}, {pen::kHair, Dash::Chain});
    painter.line({box.x0, box.y1}, {box.x1, box.y0}, {pen::kHair, Dash::Chain});
    painter.box(box, {pen::kBold});
  }
  const double heights = drawOpeningHeights(drawing, index, box);
  Box room{heights + 1.6, box.y0 + 0.8, box.x1 - 0.8, box.y1 - 0.8};
  if (opening.head) {  // where it is high enough for the whole name: in its higher two thirds
    const plan::HeadLine head = plan::headLineOf(opening);
    const double third = opening.width / 3;
    const double rise = head.peaked() ? 0 : head.right() - head.left();
    if (rise < 0) room.x1 = drawing.at(opening.left + 2 * third, 0).x;
    if (rise > 0) room.x0 = std::max(room.x0, drawing.at(opening.left + third, 0).x);
    const double from = (room.x0 - box.x0) / drawing.view.per_mm;
    const double to = (room.x1 - box.x0) / drawing.view.per_mm;
    room.y0 = drawing.at(0, opening.sill + head.lowest(from, to)).y + 0.8;
  }
  return drawOpeningName(drawing, index, room);
}

}  // namespace

void drawElevation(WallDrawing& drawing, const Scale& scale, const Box& room) {
  if (drawing.book.counting()) return;  // it has its page whatever it shows
  const double wide = (drawing.x1 - drawing.x0) * scale.per_mm;
  const double spare = room.width() - kLeftDims - kRightDims - wide;
  const double high = drawing.z1 * scale.per_mm;
  const double slack = std::max(0.0, room.height() - kAboveDims - kBelowDims - high);  // two fifths of it go above
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
  drawMarks(drawing);  // after the names, which marks keep clear of
  drawPlateMarks(drawing);
  drawHeights(drawing);
  const double floor = drawing.at(0, 0).y;
  const double reach = drawSetOut(drawing, floor + 4);
  drawOpeningChain(drawing, floor + 4 + reach + 5);
  for (const std::int32_t i : unnamed) drawNameOver(drawing, i);  // last of all: where no text stands yet
  drawScaleBar(drawing.painter, {room.x1 - 50, room.y0 + 4}, scale, drawing.subject.display());
}

}  // namespace sillwright::sheet
