// The thin sheets of a section: membrane, flashings, fin, the seal inside, the screw. Drawn apart by so much paper that
// each is seen; their lengths are the plan's.

#include <algorithm>

#include "plan/panes.h"
#include "scene/build/unit_places.h"
#include "scene/describe.h"
#include "sheet/drawing/section.h"

namespace sillwright::sheet {

namespace {

// Off the face they lie on, mm of paper.
constexpr double kMembraneOff = 0.5, kFlashingOff = 1.15, kFinOff = 1.9, kPanOff = 0.6;
constexpr Stroke kMembrane{pen::kMedium, Dash::Dashed};
constexpr Stroke kFlashing{pen::kHeavy};

/// A line given in the section's axes, each point moved by some paper: x to the right, y up.
struct Bent {
  double u, v;
  double right, up;
};

/// The line on the page, as far as the window shows it: it comes in and goes out once at most.
std::vector<Vec> onPaper(const Section& section, const std::vector<Bent>& points) {
  const Box shown = section.shown();
  std::vector<Vec> whole;
  for (const Bent& point : points) {
    const Vec at = section.view.at(point.u, point.v);
    whole.push_back({at.x + point.right, at.y - point.up});
  }
  std::vector<Vec> line;
  for (std::size_t i = 0; i + 1 < whole.size(); ++i) {
    Vec from = whole[i];
    Vec to = whole[i + 1];
    if (!clip(shown, from, to) || length(to - from) < 1e-9) continue;  // outside the window, or a point
    if (line.empty()) line.push_back(from);                            // what follows goes on from there
    line.push_back(to);
  }
  return line;
}

/// Names a line on one of its segments, or on its last where the window ends before that.
void name(Section& section, const std::string& words, const std::vector<Vec>& line, std::size_t segment, double share,
          int side) {
  if (line.size() < 2) return;
  const std::size_t on = std::min(segment, line.size() - 2);
  section.names.push_back({words, line[on] + (line[on + 1] - line[on]) * share, side});
}

/// Draws a sheet and names it so far along one of its segments.
void drawSheet(Section& section, const Stroke& stroke, const std::vector<Bent>& points, const std::string& words,
               std::size_t segment, double share, int side = -1) {
  const auto line = onPaper(section, points);
  const bool membrane = stroke.dash == kMembrane.dash;
  const Group group = section.painter.group(scene::nameOf(membrane ? scene::Layer::Membrane : scene::Layer::Flashing));
  section.painter.path(line, stroke);
  name(section, words, line, segment, share, side);
}

void drawFin(Section& section, const Bent& from, const Bent& to) {
  const auto line = onPaper(section, {from, to});
  if (section.size.fin <= 0 || line.size() < 2) return;
  const Group group = section.painter.group(scene::nameOf(scene::Layer::Unit));
  section.painter.path(line, {0.8, Dash::Solid, grey(0.35)});
  name(section, section.words().fin, line, 0, 0.6, section.is(Detail::Jamb) ? 1 : -1);
}

double reveal(const Section& section) {  // its thickness, mm; 0: there is none
  return section.planned.unit.reveal ? section.planned.unit.reveal->thickness : 0.0;
}

/// Backing rod and sealant in a gap, between two places across it, near its inner end.
void drawSeal(Section& section, Vec timber, Vec unit, Vec inward) {
  const double gap = length(unit - timber);
  if (gap < 0.25) return;  // mm of paper: it is too thin to draw
  Painter& painter = section.painter;
  const double deep = std::min(gap, 2.0);  // mm of paper: wide gaps have no deeper bead
  const std::array<Vec, 4> bead{timber, unit, unit - inward * (deep * 0.6), timber - inward * (deep * 0.6)};
  painter.fill(bead, grey(0.15));
  const Vec rod = (timber + unit) * 0.5 - inward * (deep * 0.6 + gap / 2 + 0.15);
  painter.disc(rod, gap / 2, kWhite);
  painter.circle(rod, gap / 2, {pen::kFine});
  section.names.push_back({"sealant, rod", (timber + unit) * 0.5 - inward * (deep * 0.3), 1});
}

void drawHead(Section& section) {
  const auto& size = section.size;
  const auto& weather = section.planned.weather;
  const double head = size.opening_height;
  const double fin_top = size.unit_top + size.fin;
  if (weather.head.needed) {  // the membrane's flap comes down over the flashing's upstand
    const double top = size.headFold() + size.head_upstand;
    drawSheet(section, kMembrane,
              {{0, section.window.y1, -kMembraneOff, 0},
               {0, top + 6, -kMembraneOff, 0},
               {0, top, -kFlashingOff - 0.65, 0},
               {0, top - size.head_lap, -kFlashingOff - 0.65, 0}},
              section.words().membrane + " flap", 2, 0.6);
    drawSheet(section, kFlashing,
              {{0, top, -kFlashingOff, 0},
               {0, size.headFold(), -kFlashingOff, 0},
               {-size.head_reach, size.headFold() - size.head_drop, 0, 0},
               {-size.head_reach, fin_top - size.head_turn_down, 0, 0}},
              "head " + section.words().flashing, 1, 0.75);
  } else {
    drawSheet(section, kMembrane,
              {{0, section.window.y1, -kMembraneOff, 0},
               {0, head, -kMembraneOff, -kMembraneOff},
               {weather.cut.flap, head, 0, -kMembraneOff}},
              section.words().membrane, 0, 0.3);
  }
  drawFin(section, {0, fin_top, -kFinOff, 0}, {0, size.unit_top - reveal(section), -kFinOff, 0});
}

bool hasPan(const Section& section) {
  return std::ranges::count(section.planned.weather.pieces, plan::PieceKind::SillPan, &plan::Piece::kind) > 0;
}

/// On the floor: over its edge, under the unit, and up behind it.
void drawFloorPan(Section& section) {
  const double in = section.size.pan_back;
  const double upstand = section.subject.practice.weather.flashing.sill_upstand.value;
  drawSheet(section, kFlashing,
            {{in, upstand, 0.4, 0},
             {in, 0, 0.4, -kPanOff},
             {0, 0, -kFlashingOff, -kPanOff},
             {0, -plan::kSkirt, -kFlashingOff, 0}},
            plan::kPanName, 1, 0.25, 1);
}

/// Across the sill and out over the board below; in one piece, or as a pan whose front lies over a strip on the face.
/// One that goes in on the unit hangs from its foot, above the packers.
void drawSillFlashing(Section& section) {
  const auto& size = section.size;
  const double board = section.wall.cladding.cavity + section.wall.cladding.thickness;
  const double over = -size.sill_down + size.sill_over_cladding;
  // Turned up at its inner edge, as far as there is room under the unit.
  const double room = std::max(size.unit_bottom, 0.0) * section.view.per_mm - 0.3;
  const double upstand = std::min(section.subject.practice.weather.flashing.sill_upstand.value * section.view.per_mm,
                                  std::max(room, kFlashingOff));
  const double depth = section.wall.stud.depth;
  const std::string strip_name = "sill " + section.words().flashing;
  // From its inner edge to the wall's face, and on down over the board.
  const auto drawStrip = [&](std::vector<Bent> line, double off, const std::string& words, std::size_t segment,
                             double share) {
    // Out between the boards over it and the one below.
    line.insert(line.end(), {{0, over + 1, -off, 0}, {-board, over + 1, -0.7, 0}, {-board, -size.sill_down, -0.7, 0}});
    drawSheet(section, kFlashing, line, words, segment, share);
  };
  if (size.on_unit) {
    return drawStrip({{depth, size.unit_bottom, 0, -0.2}, {0, size.unit_bottom, -kFlashingOff, -0.2}}, kFlashingOff,
                     strip_name + ", on the unit", 2, 0.5);
  }
  std::vector<Bent> on_sill{{depth, 0, 0, upstand}, {depth, 0, 0, kFlashingOff}, {0, 0, -kFlashingOff, kFlashingOff}};
  if (!hasPan(section)) return drawStrip(on_sill, kFlashingOff, strip_name, 3, 0.5);
  constexpr double kStripOff = (kMembraneOff + kFlashingOff) / 2;  // it lies between those two
  drawStrip({{0, 0, -kStripOff, 0}}, kStripOff, strip_name, 0, 0.7);
  on_sill.push_back({0, -plan::kPanLap, -kFlashingOff - 0.2, 0});
  drawSheet(section, kFlashing, on_sill, std::string(plan::kPanName) + ", over it", 1, 0.4);
}

void drawSill(Section& section) {
  const auto& size = section.size;
  // On the floor there is no room for the fin below the sill.
  const double foot = size.unit_bottom - size.fin;
  drawFin(section, {0, size.sill_flashing ? foot : std::max(foot, 0.0), -kFinOff, 0},
          {0, size.unit_bottom + reveal(section), -kFinOff, 0});
  if (!size.sill_flashing) {
    // Off the pan, which lies on it.
    const Vec left = section.view.at(section.window.x0, 0) + Vec{0, 2 * kPanOff};  // the page's y runs down
    const Vec right = section.view.at(section.window.x1, 0) + Vec{0, 2 * kPanOff};
    section.painter.line(left, right, {pen::kHeavy});
    if (hasPan(section)) drawFloorPan(section);
    section.names.push_back({"floor", left + (right - left) * 0.9, 1});
    return;
  }
  drawSheet(section, kMembrane,
            {{0, section.window.y0, -kMembraneOff, 0},
             {0, 0, -kMembraneOff, kMembraneOff},
             {section.planned.weather.cut.flap, 0, 0, kMembraneOff}},
            section.words().membrane, 0, 0.25);
  drawSillFlashing(section);
}

void drawJamb(Section& section) {
  const auto& size = section.size;
  const double flap = section.planned.weather.cut.flap;
  drawSheet(section, kMembrane,
            {{section.window.x0, 0, 0, -kMembraneOff}, {0, 0, kMembraneOff, -kMembraneOff}, {0, flap, kMembraneOff, 0}},
            section.words().membrane, 0, 0.2);
  // One that goes in on the unit reaches in to it.
  const double inner = size.on_unit ? size.unit_left : 0;
  drawSheet(section, kFlashing, {{-size.jamb_out, 0, 0, -kFlashingOff}, {inner, 0, 0, -kFlashingOff}},
            "jamb " + section.words().flashing + (size.on_unit ? ", on the unit" : ""), 0, 0.45);
  drawFin(section, {size.unit_left - size.fin, 0, 0, -kFinOff}, {size.unit_left + reveal(section), 0, 0, -kFinOff});
}

/// A screw as the section cuts it, named.
void drawScrew(Section& section, const plan::Fixing& fixing) {
  const Group group = section.painter.group(scene::nameOf(scene::Layer::Fixing));
  Painter& painter = section.painter;
  const auto& size = section.size;
  const auto& screw = section.planned.fixings.screws[static_cast<std::size_t>(fixing.screw)];
  const scene::DrivenScrew driven = scene::drivenScrew(fixing, section.planned);
  const glm::dvec3 tip = driven.head + driven.way * screw.length;
  const bool above = section.is(Detail::Jamb);  // seen from above
  const auto place = [&](const glm::dvec3& at) {
    return above ? Bent{size.unit_left + at.x, at.y, 0, 0} : Bent{at.y, size.unit_bottom + at.z, 0, 0};
  };
  const auto shank = onPaper(section, {place(driven.head), place(tip)});
  if (shank.size() < 2) return;  // the window doesn't show it
  painter.path(shank, {pen::kHeavy});
  const Vec along = (shank[1] - shank[0]) * (1 / length(shank[1] - shank[0]));
  const Vec half = Vec{-along.y, along.x} * 0.9;
  painter.line(shank[0] - half, shank[0] + half, {pen::kHeavy});
  section.names.push_back({"screw " + keptTogether(screw.name), shank[0] + along * 1.2, 1});
}

/// The screw that the section shows, if there is one: on a jamb at the height of the cut, else any along the side.
void drawScrewOn(Section& section, plan::Side side) {
  for (const auto& fixing : section.planned.fixings.points) {
    if (fixing.side != side || fixing.screw < 0) continue;
    const bool off = std::abs(fixing.at + section.planned.stand.z - section.cut.cut) > plan::kAtPacker;
    if (!plan::isLevel(side) && off) continue;
    drawScrew(section, fixing);
    return;
  }
}

using plan::LightParts;

/// In what two stretches have in common, clear of what meets in its middle. Empty: they have nothing.
std::optional<double> inBoth(double a0, double a1, double b0, double b1) {
  const double low = std::max(a0, b0), high = std::min(a1, b1);
  return low < high ? std::optional(low + 0.3 * (high - low)) : std::nullopt;
}

std::string word(const LightParts& light) {
  return std::string(job::kLightWords[static_cast<std::size_t>(light.kind)]);
}

/// "Mullion: ", or where parts made apart meet "Coupling: ".
std::string barName(const plan::UnitParts& parts, double at, double plan::UnitRect::*edge, const char* name) {
  const bool joint = parts.made.size() > 1 && std::any_of(parts.made.begin(), parts.made.end(), [&](const auto& part) {
                       return std::abs(part.*edge - at) < 0.1;
                     });
  return joint ? "Coupling: " : name;
}

/// Between two lights, `b` at the right of `a` or below it, what stands there no wider than `widest`.
std::optional<CutAt> between(const plan::UnitParts& parts, const LightParts& a, const LightParts& b, double widest) {
  const double aside = b.clear.x0 - a.clear.x1, below = a.clear.z0 - b.clear.z1;
  const plan::HeadLine head = parts.head.inset(parts.clear.x0);
  const double top = head.at(a.clear.x1 + aside / 2);  // of the glass, where the head follows the roof
  const auto z = inBoth(a.clear.z0, std::min(a.clear.z1, top), b.clear.z0, std::min(b.clear.z1, top));
  const auto x = inBoth(a.clear.x0, a.clear.x1, b.clear.x0, b.clear.x1);
  const double right = a.clear.x1 + aside / 2, foot = b.clear.z1 + below / 2;
  if (aside > 0 && aside <= widest && z) {
    return CutAt{barName(parts, right, &plan::UnitRect::x0, "Mullion: ") + word(a) + " | " + word(b), Detail::Upright,
                 right, *z};
  }
  if (!(below > 0 && below <= widest && x) || head.at(*x) <= foot) return std::nullopt;
  return CutAt{barName(parts, foot, &plan::UnitRect::z0, "Transom: ") + word(a) + " over " + word(b), Detail::Across,
               foot, *x};
}

/// Between two sashes of a light.
CutAt within(const LightParts& light, const plan::Sash& a, const plan::Sash& b) {
  const plan::UnitRect& clear = light.clear;
  if (a.motion == plan::Motion::SlidesUp) {
    return {"Meeting rails: " + word(light), Detail::Across, (a.outside.z1 + b.outside.z0) / 2,
            clear.x0 + 0.3 * clear.width()};
  }
  const char* stiles = a.motion == plan::Motion::Folds ? "Stiles of leaves: "
                       : a.track == b.track            ? "Meeting edges: "
                                                       : "Meeting stiles: ";
  return {stiles + word(light), Detail::Upright, (a.outside.x1 + b.outside.x0) / 2, clear.z0 + 0.6 * clear.height()};
}

}  // namespace

void drawThinSheets(Section& section) {
  const bool on_floor = section.is(Detail::Sill) && !section.size.sill_flashing;
  if (!section.planned.isFlashed() && !on_floor) return;  // what is behind an old hole can't be seen
  if (section.is(Detail::Head)) drawHead(section);
  if (section.is(Detail::Sill)) drawSill(section);
  if (section.is(Detail::Jamb)) drawJamb(section);
}

void drawSealing(Section& section) {
  // Where the inside seal stands.
  const double in = std::min(section.wall.stud.depth, plan::insideFace(section.planned.unit));
  const double head = section.size.opening_height, top = section.size.unit_top;
  if (section.is(Detail::Head)) {
    drawSeal(section, section.view.at(in, head), section.view.at(in, top), {1, 0});
    section.names.push_back(
        {"gap " + section.figure(head - top) + ", open", section.view.at(in * 0.3, (head + top) / 2), 1});
    drawScrewOn(section, plan::Side::Head);
  }
  if (section.is(Detail::Sill)) drawScrewOn(section, plan::Side::Sill);
  if (section.is(Detail::Jamb)) {
    drawSeal(section, section.view.at(0, in), section.view.at(section.size.unit_left, in), {0, -1});
    drawScrewOn(section, plan::Side::Left);
  }
}

// Where lights and panels of a unit meet: mullions, transoms, couplings, meeting stiles and rails.

std::vector<CutAt> jointsOf(const plan::UnitSpec& unit) {
  const plan::UnitParts parts = plan::partsOf(unit);
  std::vector<CutAt> joints;
  const auto add = [&](CutAt joint) {
    const auto same = [&](const CutAt& one) { return one.name == joint.name; };
    if (std::none_of(joints.begin(), joints.end(), same)) joints.push_back(std::move(joint));  // each kind once
  };
  for (const LightParts& a : parts.light) {
    for (const LightParts& b : parts.light) {  // both ways round: `b` has to be right of `a` or below it
      if (auto joint = between(parts, a, b, std::max({unit.mullion, unit.transom, 2 * unit.frame.face}) + 1))
        add(*joint);
    }
    const auto sashes = parts.sashesOf(a);
    for (std::size_t i = 1; i < sashes.size(); ++i) add(within(a, sashes[i - 1], sashes[i]));
  }
  return joints;
}

}  // namespace sillwright::sheet
