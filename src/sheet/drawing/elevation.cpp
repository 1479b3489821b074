#include "sheet/drawing/elevation.h"

#include <algorithm>
#include <array>
#include <utility>

#include "scene/build/unit_places.h"
#include "scene/describe.h"
#include "sheet/paper/dimension.h"

namespace sillwright::sheet {
namespace {

constexpr double kMostGap = 7.0;     // largest gap as drawn, mm of paper
constexpr double kRunningDeep = 14;  // of a running dimension with its figures
constexpr double kLabelWide = 21;    // of a packer's label
constexpr double kLintelHigh = 8;    // drawn of the lintel, at least
constexpr double kTextLine = 3.7;    // from one base line to the next

/// What is drawn round the unit, in the opening's own millimetres.
struct AsBuilt {
  const Subject& subject;
  Painter& painter;
  const plan::OpeningPlan& planned;
  const job::Opening& opening;
  View view;    // its (0, 0) is the unit's lower left corner
  double stud;  // as thick as the timber round the opening, mm of paper
  int times;    // by which everything off the unit is drawn larger

  [[nodiscard]] practice::Display display() const { return subject.display(); }
  [[nodiscard]] std::string figure(double mm) const { return subject.figure(mm); }
  [[nodiscard]] double width() const { return planned.unit.width; }
  [[nodiscard]] double height() const { return planned.unit.height; }
  [[nodiscard]] Vec at(double x, double z) const { return view.at(x, z); }
};

double largestGap(const plan::OpeningPlan& planned) {  // mm, 1 at least: what doesn't fit has gaps below 0
  const auto& gaps = planned.stand.gaps;
  double most = 1;
  for (const auto& side : {gaps.left, gaps.right, gaps.sill, gaps.head}) most = std::max({most, side[0], side[1]});
  for (const auto& point : planned.packing.points) most = std::max(most, point.gap);
  return most;
}

bool isPacked(const plan::OpeningPlan& planned, plan::Side side) {
  return std::ranges::count(planned.packing.points, side, &plan::PackingPoint::side) > 0;
}

int timesFor(double largest_gap, double per_mm) {  // `per_mm`: mm of paper a mm of the unit
  // The largest at which no gap leaves its room.
  for (const int times : {20, 15, 12, 10, 8, 5, 4, 3, 2}) {
    if (largest_gap * times * per_mm <= kMostGap) return times;
  }
  return 1;
}

/// Room round the unit, mm of paper.
struct Around {
  double left, right, above, below;
};

Around around(const Subject& subject, std::size_t index) {
  const auto& opening = subject.job.openings[index];
  const double stud = 5;  // as it is drawn, mm of paper: the scale isn't known yet
  const double side = kMostGap + stud + 2 + kRunningDeep + kLabelWide;
  const bool packed = isPacked(subject.plan.openings[index], plan::Side::Sill);
  const double sill = opening.sill > 0 ? stud : 1;  // a floor is drawn as a line
  return {side, side, kMostGap + kLintelHigh + 9,
          kMostGap + sill + (packed ? kRunningDeep + 2 + 2 * kTextLine : 3) + 2};
}

/// A corner or middle of the opening's edge as drawn: off the unit by so many times as far.
Vec larger(const AsBuilt& drawing, const plan::Point& point, plan::Side side, bool corner) {
  const double x = point.x - drawing.planned.stand.x;
  const double z = point.z - drawing.planned.stand.z;
  const double k = drawing.times;  // counted off the nearer edge of the unit
  const auto off = [&](double value, double size) { return value < size / 2 ? value * k : size + (value - size) * k; };
  const bool level = plan::isLevel(side);
  const double px = corner || !level ? off(x, drawing.width()) : x;  // a middle keeps its place along its side
  if (drawing.opening.head && side != plan::Side::Sill && (level || corner) && z > 1) {  // off the head over it
    const double head = plan::headLineOf(drawing.planned.unit).at(std::clamp(x, 0.0, drawing.width()));
    return drawing.at(px, head + (z - head) * k);
  }
  const double pz = corner || level ? off(z, drawing.height()) : z;
  return drawing.at(px, pz);
}

std::array<Vec, 3> edgeOf(const AsBuilt& drawing, plan::Side side) {  // on the page: corner, middle, corner
  const plan::Edge edge = drawing.planned.as_built.shape.edge(side);
  return {larger(drawing, edge[0], side, true), larger(drawing, edge[1], side, false),
          larger(drawing, edge[2], side, true)};
}

void drawBand(AsBuilt& drawing, std::span<const Vec> edge, Vec out, const Ink& ink) {  // `out`: across it
  std::vector<Vec> band(edge.begin(), edge.end());
  for (std::size_t i = edge.size(); i-- > 0;) band.push_back(edge[i] + out);
  drawing.painter.shape(band, ink, {pen::kFine});
}

/// The timber round the opening, its edges as read.
void drawTimber(AsBuilt& drawing) {
  const Group group = drawing.painter.group(scene::nameOf(scene::Layer::Frame));
  const double stud = drawing.stud;
  const auto sill = edgeOf(drawing, plan::Side::Sill);
  const auto head = edgeOf(drawing, plan::Side::Head);
  drawBand(drawing, head, {0, -kLintelHigh}, grey(0.86));
  const bool floor = drawing.opening.sill <= 0;
  if (const auto& lintel = drawing.planned.lintel) {
    const Lettering how{.align = Align::Centre};
    drawing.painter.text({(head[0].x + head[2].x) / 2, boxRound(head).y0 - kLintelHigh - 1.4},
                         drawing.subject.practice.words.lintel + " " + std::to_string(lintel->plies) + " / " +
                             drawing.subject.figures(lintel->depth, lintel->thickness),
                         how);
  }
  if (!floor) drawBand(drawing, sill, {0, stud}, grey(0.95));
  const double foot = floor ? 0.0 : stud;  // the studs go on beside the sill
  for (const auto side : {plan::Side::Left, plan::Side::Right}) {
    const auto edge = edgeOf(drawing, side);
    drawBand(drawing, std::array{edge[0] + Vec{0, foot}, edge[0], edge[1], edge[2], edge[2] - Vec{0, kLintelHigh}},
             {side == plan::Side::Left ? -stud : stud, 0}, grey(0.95));
  }
  if (floor) drawing.painter.line(sill[0] + Vec{-stud - 3, 0}, sill[2] + Vec{stud + 3, 0}, {pen::kHeavy});
  for (const auto side : plan::kEverySide) drawing.painter.path(edgeOf(drawing, side), {pen::kBold});
}

/// A stack in its gap, piece by piece from the timber, with what it leaves open.
void drawPacker(AsBuilt& drawing, const plan::PackingPoint& point) {
  if (point.gap <= 0) return;  // it touches the timber: nothing stands between
  const Group group = drawing.painter.group(scene::nameOf(scene::Layer::Packing));
  for (const scene::PackerPiece& piece : scene::packerPieces(point)) {
    const scene::Range off{piece.off.low * drawing.times, piece.off.high * drawing.times};  // along it to scale
    const scene::Rect at = scene::besideUnit(point.side, piece.along, off, drawing.width(), drawing.height());
    const auto corners = drawing.view.box(at.x0, at.z0, at.x1, at.z1).corners();
    drawing.painter.fill(corners, piece.timber ? grey(0.95) : kWhite);
    drawing.painter.hatch(corners, 45, piece.timber ? 2.5 : 0.9);
    drawing.painter.path(corners, {pen::kMedium}, true);
  }
}

/// Where the unit stands in the timber, the timber's edges over it.
void drawShortOfRoom(AsBuilt& drawing) {
  const Group group = drawing.painter.group(scene::nameOf(scene::Layer::Frame));
  const auto& closest = drawing.planned.stand.gaps.closest;
  for (const plan::Side side : plan::kEverySide) {
    if (closest[static_cast<std::size_t>(side)] >= 0) continue;  // there is room on this side
    drawing.painter.path(edgeOf(drawing, side), {pen::kBold, Dash::Dashed});
  }
}

/// A screw from its head into the timber, the gap that it crosses drawn larger; through a fin seen from its head.
void drawScrew(AsBuilt& drawing, const plan::Fixing& fixing) {
  if (fixing.screw < 0) return;  // no screw is long enough, and none is drawn
  const Group group = drawing.painter.group(scene::nameOf(scene::Layer::Fixing));
  const scene::DrivenScrew driven = scene::drivenScrew(fixing, drawing.planned);
  const bool inwards = fixing.kind == plan::FixingKind::ThroughFin;
  const double gap = inwards ? drawing.planned.stand.gaps.closest[static_cast<std::size_t>(fixing.side)] : fixing.gap;
  const double wider = std::max(gap, 0.0) * (drawing.times - 1);  // the gap is drawn so much wider than it is
  if (inwards) {
    const scene::Rect out = scene::besideUnit(fixing.side, {0, 0}, {wider, wider}, 0, 0);
    const Vec at = drawing.at(driven.head.x + out.x0, driven.head.z + out.z0);
    drawing.painter.disc(at, 0.7, kWhite);
    drawing.painter.circle(at, 0.7, {pen::kMedium});
    return;
  }
  const double length = drawing.planned.fixings.screws[static_cast<std::size_t>(fixing.screw)].length + wider;
  const glm::dvec3 end = driven.head + driven.way * length;
  const Vec head = drawing.at(driven.head.x, driven.head.z);
  const Vec tip = drawing.at(end.x, end.z);
  const Vec across = driven.way.x != 0 ? Vec{0, 0.9} : Vec{0.9, 0};  // its head lies across the way it goes in
  drawing.painter.line(head, tip, {pen::kBold});
  drawing.painter.line(head - across, head + across, {pen::kHeavy});
}

/// Screws that go in along a side, where all are of one kind; else empty.
std::string oneScrew(const plan::Fixings& fixings) {
  const auto& all = fixings.points;
  if (all.empty() || all.front().screw < 0) return {};
  const bool alike = std::ranges::count(all, all.front().screw, &plan::Fixing::screw) == std::ssize(all);
  return alike ? fixings.screws[static_cast<std::size_t>(all.front().screw)].name : std::string{};
}

std::string screwAt(const plan::Fixings& fixings, plan::Side side, double at) {  // empty: nothing is fixed there
  for (const auto& point : fixings.points) {
    if (point.side != side || std::abs(point.at - at) > plan::kAtPacker) continue;
    return point.screw >= 0 ? fixings.screws[static_cast<std::size_t>(point.screw)].name : "no screw";
  }
  return {};
}

struct PackerLabel {
  double along;                    // the side, on paper
  std::vector<std::string> lines;  // the first is the stack

  [[nodiscard]] double height() const { return static_cast<double>(lines.size()) * kTextLine + 1.5; }
  /// Letters the lines under each other, the first one's base line at `at`.
  void draw(Painter& painter, Vec at, Align align) const {
    for (std::size_t i = 0; i < lines.size(); ++i, at.y += kTextLine) {
      painter.text(at, lines[i], {.weight = i == 0 ? Weight::Bold : Weight::Regular, .align = align});
    }
  }
};

/// In their order down or along the page.
std::vector<PackerLabel> labelsOf(const AsBuilt& drawing, plan::Side side) {
  const bool each_screw = oneScrew(drawing.planned.fixings).empty();
  const bool level = plan::isLevel(side);
  std::vector<PackerLabel> labels;
  for (const auto& point : drawing.planned.packing.points) {
    if (point.side != side) continue;
    // Under the sill the rows are named once, at their left.
    const std::string gap = (level ? "" : "gap ") + drawing.figure(point.gap);
    const Vec place = drawing.at(point.at, point.at);  // one of the two is along the side
    PackerLabel label{level ? place.x : place.y, {plan::stackWords(point, drawing.display()), gap}};
    const std::string screw = each_screw && !level ? screwAt(drawing.planned.fixings, side, point.at) : "";
    if (!screw.empty()) label.lines.push_back(screw);
    labels.push_back(std::move(label));
  }
  std::ranges::sort(labels, {}, &PackerLabel::along);
  return labels;
}

/// Where a label each has no room, one for each run of packers that are alike, at its middle: "4 × 10 + 1".
void joinAlike(std::vector<PackerLabel>& labels, double room) {
  double wanted = 0;
  for (const auto& label : labels) wanted += label.height();
  if (wanted <= room) return;
  std::vector<PackerLabel> joined;
  for (std::size_t i = 0; i < labels.size();) {
    std::size_t end = i + 1;
    while (end < labels.size() && labels[end].lines == labels[i].lines) ++end;
    PackerLabel& one = joined.emplace_back(labels[i]);
    one.along = (labels[i].along + labels[end - 1].along) / 2;
    if (end - i > 1) one.lines[0] = std::to_string(end - i) + " × " + one.lines[0];
    i = end;
  }
  labels = std::move(joined);
}

/// The places of the packers along a side, counted from the unit's lower left corner.
Running packersAlong(const AsBuilt& drawing, plan::Side side, double level, double away) {
  Running running{
      .along = plan::isLevel(side) ? Along::X : Along::Y, .level = level, .away = away, .view = drawing.view};
  const bool whole = drawing.display() == practice::Display::Millimetres;  // in inches they are as any length
  for (const auto& point : drawing.planned.packing.points) {
    if (point.side != side) continue;
    running.marks.push_back({point.at, drawing.figure(whole ? std::round(point.at) : point.at)});
  }
  return running;
}

/// Heights of the packers on a jamb, and a label for each beyond them.
void drawJamb(AsBuilt& drawing, plan::Side side, double edge) {
  Painter& painter = drawing.painter;
  auto labels = labelsOf(drawing, side);
  if (labels.empty()) return;
  const double way = side == plan::Side::Left ? -1 : 1;
  Running running = packersAlong(drawing, side, edge + way * 2, way);
  running.low = drawing.at(0, drawing.height()).y - 4;  // the page's y runs down: the head is the low end
  running.high = drawing.at(0, 0).y + 4;
  const double column = edge + way * (2 + drawRunning(painter, running) + 2.5);

  joinAlike(labels, running.high - running.low);
  std::vector<double> wanted, sizes;
  for (const auto& label : labels) {
    wanted.push_back(label.along);
    sizes.push_back(label.height());
  }
  const auto places = spread(wanted, sizes, running.low - 8, running.high + 12);  // labels need more room than figures
  const Group group = painter.group("notes");
  for (std::size_t i = 0; i < labels.size(); ++i) {
    labels[i].draw(painter, {column, places[i] - labels[i].height() / 2 + 0.75 + letter::kSmall + 0.6},
                   side == plan::Side::Left ? Align::Right : Align::Left);
  }
}

/// Places of the sill's packers from the unit's left, and a label for each below them.
void drawSill(AsBuilt& drawing, double edge, double page_left, double page_right) {
  Painter& painter = drawing.painter;
  const auto labels = labelsOf(drawing, plan::Side::Sill);
  if (labels.empty()) return;
  Running running = packersAlong(drawing, plan::Side::Sill, edge + 2, 1);
  running.low = drawing.at(0, 0).x - 6;
  running.high = drawing.at(drawing.width(), 0).x + 6;
  const double reach = drawRunning(painter, running);
  std::vector<double> wanted, sizes;
  for (const auto& label : labels) {
    wanted.push_back(label.along);
    sizes.push_back(std::max(painter.widthOf(label.lines[0], kBoldLetters), painter.widthOf(label.lines[1])) + 2.2);
  }
  const auto places = spread(wanted, sizes, page_left, page_right);
  const double top = edge + 2 + reach + 1.5 + letter::kSmall;
  const Group group = painter.group("notes");
  PackerLabel{0, {drawing.subject.practice.words.packer + "s", "gap"}}.draw(
      painter, {places.front() - sizes.front() / 2 - 1, top}, Align::Right);
  for (std::size_t i = 0; i < labels.size(); ++i) labels[i].draw(painter, {places[i], top}, Align::Centre);
}

/// The gap at one place of the head: a small dimension, its figure in the lintel.
void drawHeadGap(AsBuilt& drawing, double x, double gap, const std::string& text, Align align) {
  const double along = (x - drawing.at(0, 0).x) / drawing.view.per_mm;  // of the drawing, as the head's line is given
  const double unit = drawing.at(0, plan::headLineOf(drawing.planned.unit).at(along)).y;
  const double timber = unit - gap * drawing.times * drawing.view.per_mm;
  Painter& painter = drawing.painter;
  painter.line({x, unit}, {x, timber}, {pen::kFine});
  drawTick(painter, {x, unit});
  drawTick(painter, {x, timber});
  const double aside = align == Align::Left ? -2.5 : align == Align::Right ? 2.5 : 0.0;  // the figure clear of its tick
  painter.text({x + aside, std::min(timber, unit) - 2.2}, text, {.align = align});
}

/// At both ends, or where the unit is narrow in its middle for both.
void drawHeadGaps(AsBuilt& drawing) {
  const Group group = drawing.painter.group("dimensions");
  const auto& gaps = drawing.planned.stand.gaps.head;
  const std::string left = "gap " + drawing.figure(gaps[0]);
  const std::string right = "gap " + drawing.figure(gaps[1]);
  const double x0 = drawing.at(0, 0).x, x1 = drawing.at(drawing.width(), 0).x;
  if (drawing.painter.widthOf(left) + drawing.painter.widthOf(right) + 7 < x1 - x0) {
    drawHeadGap(drawing, x0 + 4, gaps[0], left, Align::Left);
    drawHeadGap(drawing, x1 - 4, gaps[1], right, Align::Right);
    return;
  }
  const std::string both = left == right ? left : left + " / " + drawing.figure(gaps[1]);
  drawHeadGap(drawing, (x0 + x1) / 2, (gaps[0] + gaps[1]) / 2, both, Align::Centre);
}

/// How high over the unit's foot its width is dimensioned: between the lowest packers of a jamb, off their screws.
double widthLevel(const AsBuilt& drawing, double inset) {
  std::vector<double> at;
  for (const auto& point : drawing.planned.packing.points) {
    if (point.side == plan::Side::Left) at.push_back(point.at);
  }
  std::ranges::sort(at);
  constexpr double kClear = 6;  // between packers, so that a tick touches neither
  const double per_mm = drawing.view.per_mm;
  const bool between = at.size() >= 2 && (at[1] - at[0]) * per_mm >= kClear;
  const double level = between ? (at[0] + at[1]) / 2 * per_mm : inset;
  // In a small unit the figure of its height, half way up at the right, may stand there already.
  const double beside = drawing.width() * per_mm / 2 - inset - 4;
  const double middle = drawing.height() * per_mm / 2;
  const double half = drawing.painter.widthOf(drawing.figure(drawing.height())) / 2 + 4.2;
  const bool taken =
      drawing.painter.widthOf(drawing.figure(drawing.width())) / 2 + 1 > beside && std::abs(level - middle) < half;
  return taken ? std::max(3.5, middle - half) : level;  // under the other figure, and over the foot
}

/// The unit's own size, inside its glass.
void drawUnitSize(AsBuilt& drawing) {
  const Vec foot = drawing.at(drawing.width(), 0);
  const double inset = std::max(70 * drawing.view.per_mm + 5.0, 8.0);  // past frame and sash, some 70 mm of the unit
  Chain size{.level = foot.y - widthLevel(drawing, inset),
             .from = foot.y,
             .view = drawing.view,
             .display = drawing.display(),
             .at = {0, drawing.width()}};
  drawChain(drawing.painter, size);
  if (!drawing.planned.unit.head) {
    size.along = Along::Y;
    size.level = foot.x - inset;
    size.from = foot.x;
    size.at = {0, drawing.height()};
    drawChain(drawing.painter, size);
    return;
  }
  // Of a head that follows the roof each corner's height over the unit's foot, inside it.
  for (const plan::Point& corner : plan::headLineOf(drawing.planned.unit).corners()) {
    if (corner.z * drawing.view.per_mm < 8) continue;  // no room for its figure
    const std::string words = drawing.figure(corner.z) + " high";
    const double wide = drawing.painter.widthOf(words) / drawing.view.per_mm;
    const double in = inset / drawing.view.per_mm;
    const double from = std::clamp(corner.x - wide / 2, in, std::max(drawing.width() - in - wide, in));
    const double z = plan::headLineOf(drawing.planned.unit).lowest(from, from + wide) - in;  // under all of it
    drawing.painter.text(drawing.at(from, z), words, {.clear = true});
  }
}

std::string underneath(const AsBuilt& drawing) {
  const auto& words = drawing.subject.practice.words;
  const auto& fixings = drawing.planned.fixings;
  std::string said = "Unit to scale; gaps, " + words.packer + "s and out of true drawn × " +
                     std::to_string(drawing.times) + ", figures true. ";
  const std::string screw = oneScrew(fixings);
  if (!screw.empty()) {
    const bool all_jamb = std::ranges::none_of(fixings.points, plan::isLevel, &plan::Fixing::side);
    said += "Screws: " + std::to_string(fixings.points.size()) + " of " + screw +
            (all_jamb ? ", one at each jamb " + words.packer : ", where they are drawn") +
            (drawing.planned.unit.reveal ? ", heads sunk in the " + words.reveal : std::string{}) + ". ";
  } else if (fixings.length_wanted > 0) {
    said += "No screw at hand is long enough where marked: it takes " + drawing.figure(fixings.length_wanted) + ". ";
  }
  said += capital(plan::toWord(drawing.planned.packing.first_jamb)) + " jamb packed plumb first. ";
  if (!isPacked(drawing.planned, plan::Side::Head)) said += "Nothing between head and " + words.lintel + ".";
  if (drawing.planned.packing.sill_full_bearing) said += " Sill bedded on its whole length.";
  return said;
}

}  // namespace

Scale asBuiltScale(const Subject& subject, std::size_t index, const Box& room) {
  const auto& unit = subject.plan.openings[index].unit;
  const Around space = around(subject, index);
  return scaleFor(unit.width, unit.height, room.width() - space.left - space.right,
                  room.height() - space.above - space.below - 2 * kTextLine, subject.inches());
}

double drawAsBuilt(Book& book, std::size_t index, const Box& room, const Scale& scale) {
  const Subject& subject = book.subject;
  const Around space = around(subject, index);
  const auto& planned = subject.plan.openings[index];
  const double stud = subject.plan.walls[planned.wall].spec.stud.thickness;
  const double high = planned.unit.height * scale.per_mm;
  AsBuilt drawing{
      .subject = subject,
      .painter = book.painter(),
      .planned = planned,
      .opening = subject.job.openings[index],
      .view = {scale.per_mm, {room.middle().x - planned.unit.width * scale.per_mm / 2, room.y0 + space.above + high}},
      .stud = std::max(stud * scale.per_mm, 2.0),  // a thinner one would be a line
      .times = timesFor(largestGap(planned), scale.per_mm)};

  const Group group = drawing.painter.group("as built");
  // What lies further back is drawn first; the edges that a unit has no room for go over it.
  drawTimber(drawing);
  drawing.painter.fill(drawing.view.at(plan::headLineOf(planned.unit).under({0, 0, drawing.width(), drawing.height()})),
                       kWhite);
  drawUnit(drawing.painter, drawing.view, planned.unit);
  for (const auto& point : planned.packing.points) drawPacker(drawing, point);
  for (const auto& fixing : planned.fixings.points) drawScrew(drawing, fixing);
  drawShortOfRoom(drawing);
  drawUnitSize(drawing);
  drawHeadGaps(drawing);

  // Dimensions and labels stand off the timber as it is drawn, wherever its edges are bowed to.
  const double left = boxRound(edgeOf(drawing, plan::Side::Left)).x0 - drawing.stud;
  const double right = boxRound(edgeOf(drawing, plan::Side::Right)).x1 + drawing.stud;
  const double lowest = boxRound(edgeOf(drawing, plan::Side::Sill)).y1 + (drawing.opening.sill > 0 ? drawing.stud : 1);
  drawJamb(drawing, plan::Side::Left, left);
  drawJamb(drawing, plan::Side::Right, right);
  drawSill(drawing, lowest, left - 2, right + 2);
  const double foot = room.y0 + space.above + high + space.below;
  return drawing.painter.paragraph({room.x0, foot}, room.width(), underneath(drawing)) + 1;
}

}  // namespace sillwright::sheet
