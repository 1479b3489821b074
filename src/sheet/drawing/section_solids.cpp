// What a section cuts of the scene: timber, unit, lining, packers; and the cladding, which the plan's skin places.
#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "scene/build/build.h"
#include "sheet/drawing/section_parts.h"
#include "sheet/drawing/slice.h"
#include "sheet/paper/marks.h"
#include "sheet/words.h"

namespace sillwright::sheet {
namespace {

/// How a material is drawn where it is cut.
enum class Manner { RoughTimber, FineTimber, Metal, Glass, Board, Packer, Skip };

Manner mannerOf(const scene::Part& part) {
  switch (part.material) {
    case scene::Material::Pine:
    case scene::Material::LintelTimber:
    case scene::Material::Batten:
      return Manner::RoughTimber;
    case scene::Material::RevealTimber:
      return Manner::FineTimber;
    case scene::Material::Aluminium:
      return part.kind == scene::PartKind::Fin ? Manner::Skip : Manner::Metal;
    case scene::Material::Glass:
      return Manner::Glass;
    case scene::Material::Lining:
      return Manner::Board;
    case scene::Material::Packer:
      return Manner::Packer;
    default:
      return Manner::Skip;
  }
}

std::string wordsFor(const Section& section, const scene::Part& part) {
  const auto& words = section.words();
  const auto& unit = section.planned.unit;
  const auto display = section.display();
  switch (part.kind) {
    case scene::PartKind::RevealHead:
    case scene::PartKind::RevealSill:
    case scene::PartKind::RevealSide:
      return words.reveal + " " + figure(unit.reveal ? unit.reveal->thickness : 0, display);
    case scene::PartKind::FrameHead:
    case scene::PartKind::FrameSill:
    case scene::PartKind::FrameJamb:
      return "frame";
    case scene::PartKind::SashRail:
    case scene::PartKind::SashStile:
      return "sash";
    case scene::PartKind::GlassPane:
      return "glass " + keptTogether((unit.glass.panes > 1 ? std::to_string(unit.glass.panes) + " × " : std::string{}) +
                                     figure(unit.glass.thickness, display));
    case scene::PartKind::Lining:
      return words.lining + " " + figure(section.wall.lining, display);
    case scene::PartKind::Packer:
      return part.material == scene::Material::Packer ? words.packer + "s" : "timber backing";
    case scene::PartKind::Bead:
      return "bead";
    default:
      return scene::nameOf(part.kind, words);
  }
}

void drawCross(Painter& painter, const std::vector<Vec>& points) {
  if (points.size() != 4) {
    painter.hatch(points, 45, 2.0);
    return;
  }
  painter.line(points[0], points[2], {pen::kHair});
  painter.line(points[1], points[3], {pen::kHair});
}

/// A smaller polygon inside, for hollow sections.
std::vector<Vec> shrunk(const std::vector<Vec>& points, double by) {
  const Vec middle = centroidOf(points);
  std::vector<Vec> inner;
  for (const Vec& point : points) {
    const auto toward = [by](double value, double centre) {
      return value < centre ? std::min(value + by, centre) : std::max(value - by, centre);
    };
    inner.push_back({toward(point.x, middle.x), toward(point.y, middle.y)});
  }
  return inner;
}

void drawCut(Painter& painter, Manner manner, bool end_grain, const std::vector<Vec>& points) {
  switch (manner) {
    case Manner::RoughTimber:
      painter.fill(points, end_grain ? kWhite : grey(0.95));
      if (end_grain) drawCross(painter, points);
      painter.path(points, {pen::kBold}, true);
      break;
    case Manner::FineTimber:
      painter.fill(points, kWhite);
      painter.hatch(points, 45, 1.1);
      painter.path(points, {pen::kBold}, true);
      break;
    case Manner::Metal: {
      painter.fill(points, grey(0.80));
      const auto inner = shrunk(points, 0.6);
      painter.fill(inner, kWhite);
      painter.path(inner, {pen::kHair}, true);
      painter.path(points, {pen::kBold}, true);
      break;
    }
    case Manner::Glass:
      painter.fill(points, grey(0.88));
      painter.path(points, {pen::kFine}, true);
      break;
    case Manner::Board:
      painter.fill(points, kWhite);
      painter.hatch(points, 60, 0.9);
      painter.hatch(points, 120, 0.9);
      painter.path(points, {pen::kMedium}, true);
      break;
    case Manner::Packer:
      painter.fill(points, grey(0.75));
      painter.hatch(points, 135, 0.7);
      painter.path(points, {pen::kMedium}, true);
      break;
    case Manner::Skip:
      break;
  }
}

/// Notes an edge that lies on the window's own: the piece goes on there.
void noteBroken(Section& section, const std::vector<Vec>& outline) {
  const Box& window = section.window;
  const auto on = [](double value, double edge) { return std::abs(value - edge) < 1e-6; };
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const Vec a = outline[i];
    const Vec b = outline[(i + 1) % outline.size()];
    const bool level = section.detail != Detail::Jamb && on(a.y, b.y) && (on(a.y, window.y0) || on(a.y, window.y1));
    const bool plumb = section.detail == Detail::Jamb && on(a.x, b.x) && (on(a.x, window.x0) || on(a.x, window.x1));
    if (level || plumb) section.broken.push_back({section.view.at(a.x, a.y), section.view.at(b.x, b.y)});
  }
}

void drawCladding(Section& section) {
  const auto& cladding = section.wall.cladding;
  if (cladding.thickness <= 0) return;
  const auto& size = section.size;
  const double back = -cladding.cavity;
  const double front = back - cladding.thickness;
  const bool flashed = section.planned.weather.head.needed;
  Box board{};
  switch (section.detail) {
    case Detail::Head:
      board = {front, (flashed ? size.headFold() : size.unit_top) + size.cladding_gap, back, section.window.y1};
      break;
    case Detail::Sill:
      if (!size.sill_flashing) return;
      board = {front, section.window.y0, back, -size.sill_down + size.sill_over_cladding};
      break;
    case Detail::Jamb:
      board = {section.window.x0, front, size.unit_left - 3, back};
      break;
  }
  if (board.x1 <= board.x0 || board.y1 <= board.y0) return;
  const std::vector<Vec> outline{
      {board.x0, board.y0}, {board.x1, board.y0}, {board.x1, board.y1}, {board.x0, board.y1}};
  noteBroken(section, outline);
  std::vector<Vec> points;
  for (const Vec& corner : outline) points.push_back(section.view.at(corner.x, corner.y));
  section.painter.fill(points, kWhite);
  section.painter.hatch(points, 150, 1.6);
  section.painter.path(points, {pen::kMedium}, true);
  const Vec at = section.detail == Detail::Jamb
                     ? section.view.at(board.x0 + board.width() * 0.35, (board.y0 + board.y1) / 2)
                     : section.view.at((board.x0 + board.x1) / 2, board.y0 + board.height() * 0.6);
  section.names.push_back({section.words().cladding + " " + figure(cladding.thickness, section.display()), at, -1});
  if (cladding.cavity > 5) {
    const Vec cavity = section.detail == Detail::Jamb ? section.view.at(board.x0 + board.width() * 0.15, back / 2)
                                                      : section.view.at(back / 2, board.y0 + board.height() * 0.85);
    section.names.push_back({"cavity " + figure(cladding.cavity, section.display()), cavity, -1});
  }
}

/// Draws a polygon of the section's axes as far as the window shows it. Answers it on the page.
std::vector<Vec> drawPiece(Section& section, Manner manner, bool end_grain, std::vector<Vec> outline) {
  outline = clipped(std::move(outline), section.window);
  std::vector<Vec> points;
  if (outline.empty()) return points;
  noteBroken(section, outline);
  for (const Vec& point : outline) points.push_back(section.view.at(point.x, point.y));
  drawCut(section.painter, manner, end_grain, points);
  return points;
}

/// Lintels ply by ply, from the frame.
void drawLintel(Section& section) {
  const double at = section.cut_at + section.opening.left;
  std::vector<Vec> last;
  for (const auto& member : section.subject.plan.walls[section.planned.wall].frame.members) {
    if (member.part != plan::MemberPart::Lintel || member.opening != static_cast<std::int32_t>(section.index)) continue;
    if (at < member.corner[0].x || at > member.corner[1].x) continue;
    const double low = member.corner[0].z - section.opening.sill;
    const double high = member.corner[3].z - section.opening.sill;
    last = drawPiece(section, Manner::RoughTimber, true,
                     {{member.y0, low}, {member.y1, low}, {member.y1, high}, {member.y0, high}});
  }
  if (last.empty()) return;
  std::string words = section.words().lintel;
  if (section.planned.lintel) {
    const auto& lintel = *section.planned.lintel;
    const bool inches = section.display() == practice::Display::InchFractions;
    words += " " + keptTogether(std::to_string(lintel.plies) + " / " + figure(lintel.depth, section.display()));
    // Inches are long: they may break before the thickness.
    words += (inches ? " " : std::string(kNoBreak)) + keptTogether("× " + figure(lintel.thickness, section.display()));
  }
  section.names.push_back({words, centroidOf(last), 1});
}

/// The side of the drawing a name stands at: what is nearer the inside on the right.
std::optional<int> sideOf(const Section& section, scene::PartKind kind) {
  if (section.detail != Detail::Jamb) {
    if (kind == scene::PartKind::Batten) return -1;
    // The unit's parts by their place: both sides then have about as many names.
    const bool of_unit = kind == scene::PartKind::FrameHead || kind == scene::PartKind::FrameSill ||
                         kind == scene::PartKind::SashRail || kind == scene::PartKind::GlassPane ||
                         kind == scene::PartKind::Bead;
    return of_unit ? std::nullopt : std::optional<int>(1);
  }
  switch (kind) {
    case scene::PartKind::CommonStud:
    case scene::PartKind::JambStud:
    case scene::PartKind::BearingStud:
    case scene::PartKind::JackStudAbove:
    case scene::PartKind::JackStudBelow:
    case scene::PartKind::Nogging:
    case scene::PartKind::Lining:
    case scene::PartKind::Batten:
      return -1;
    default:
      return 1;
  }
}

struct Anchored {
  double area = 0;
  Vec at;
  std::optional<int> side;
};

/// Draws what the scene cut gives of some manners, and names each kind once.
void drawFromScene(Section& section, bool packers) {
  const bool level = section.detail == Detail::Jamb;
  const Vec corner = level ? Vec{section.opening.left, 0} : Vec{0, section.opening.sill};
  const double at = section.cut_at + (level ? section.opening.sill : section.opening.left);
  const auto cuts = slice(section.subject.scene, section.planned.wall, static_cast<std::int32_t>(section.index),
                          level ? Cut::Level : Cut::AcrossWall, at);
  std::map<std::string, Anchored> anchors;
  bool framed = false;
  for (const CutSolid& cut : cuts) {
    const scene::Part& part = section.subject.scene.parts[cut.part];
    const Manner manner = mannerOf(part);
    const bool packer = part.kind == scene::PartKind::Packer;
    if (manner == Manner::Skip || packer != packers || part.kind == scene::PartKind::Lintel) continue;
    std::vector<Vec> outline;
    for (const Vec& point : cut.outline) outline.push_back(point - corner);
    const auto points = drawPiece(section, manner, cut.end_grain, std::move(outline));
    if (points.empty()) continue;
    framed = framed || manner == Manner::RoughTimber;
    const double area = areaOf(points);
    Anchored& anchor = anchors[wordsFor(section, part)];
    if (area > anchor.area) anchor = {area, centroidOf(points), sideOf(section, part.kind)};
  }
  if (level && !packers && !framed) {
    const Vec bare = section.view.at(section.wall.stud.thickness * -0.5, section.wall.stud.depth / 2);
    anchors["no " + section.words().stud + " framed here"] = {1, bare, -1};
  }
  // Leaders to pieces side by side at one height would run through each other.
  double down = 0;
  for (auto& [name, anchor] : anchors) {
    const bool beside = std::any_of(section.names.begin(), section.names.end(), [&anchor = anchor](const Named& other) {
      return other.side == anchor.side && std::abs(other.at.y - anchor.at.y) < 1.5;
    });
    if (beside && anchor.side == -1) anchor.at.y += down += 2.8;
    const bool minor = name == "sash" || name == "bead";
    section.names.push_back({name, anchor.at, anchor.side, minor});
  }
}

}  // namespace

void drawSolids(Section& section) {
  drawFromScene(section, false);
  if (section.detail != Detail::Jamb) drawLintel(section);
  drawCladding(section);
}

void drawPackers(Section& section) {
  drawFromScene(section, true);
}

void drawBreaks(Section& section) {
  // One line over pieces that touch.
  auto& edges = section.broken;
  const bool level = section.detail != Detail::Jamb;
  const auto along = [level](Vec p) { return level ? p.x : p.y; };
  const auto across = [level](Vec p) { return level ? p.y : p.x; };
  for (auto& edge : edges) {
    if (along(edge[0]) > along(edge[1])) std::swap(edge[0], edge[1]);
  }
  std::sort(edges.begin(), edges.end(), [&](const auto& a, const auto& b) {
    return std::make_pair(std::round(across(a[0])), along(a[0])) <
           std::make_pair(std::round(across(b[0])), along(b[0]));
  });
  for (std::size_t i = 0; i < edges.size();) {
    Vec end = edges[i][1];
    std::size_t next = i + 1;
    while (next < edges.size() && std::abs(across(edges[next][0]) - across(end)) < 0.5 &&
           along(edges[next][0]) < along(end) + 0.6) {
      if (along(edges[next][1]) > along(end)) end = edges[next][1];
      ++next;
    }
    drawBreak(section.painter, edges[i][0], end);
    i = next;
  }
}

}  // namespace sillwright::sheet
