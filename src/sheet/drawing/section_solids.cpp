// What a section cuts of the scene: timber, cladding, unit, lining, packers.
#include <algorithm>
#include <cmath>
#include <map>

#include "base/words.h"
#include "scene/describe.h"
#include "sheet/drawing/section.h"

namespace sillwright::sheet {
namespace {

/// How a material is drawn where it is cut.
enum class Manner { RoughTimber, FineTimber, Metal, Mesh, Glass, Lining, Cladding, Packer, Brick, Skip };

Manner mannerOf(const scene::Part& part) {
  using M = Manner;
  // As scene::Material. Sheets that are thinner than a line are drawn apart, from the skin.
  constexpr std::array<Manner, scene::kMaterials> kManners{
      M::RoughTimber, M::RoughTimber, M::FineTimber, M::Skip, M::Skip, M::Skip, M::Metal, M::Glass, M::Lining,
      M::Cladding,    M::RoughTimber, M::Packer,     M::Skip, M::Skip, M::Skip, M::Skip,  M::Brick, M::Brick};
  if (part.kind == scene::PartKind::UnitMesh) return M::Mesh;
  // The fin is drawn with the sheets that it lies over; a handle or hinge that is met by chance says nothing.
  const bool left_out =
      part.kind == scene::PartKind::Fin || part.kind == scene::PartKind::Handle || part.kind == scene::PartKind::Hinge;
  return left_out ? M::Skip : kManners[static_cast<std::size_t>(part.material)];
}

std::string lintelWords(const Section& section) {
  std::string words = section.words().lintel;
  if (!section.planned.lintel) return words;
  const auto& lintel = *section.planned.lintel;
  words += " " + keptTogether(std::to_string(lintel.plies) + " / " + section.figure(lintel.depth));
  // Inches are long: they may break before the thickness.
  return words + (section.subject.inches() ? " " : std::string(kNoBreak)) +
         keptTogether("× " + section.figure(lintel.thickness));
}

/// Shorter than the scene's, and with the thickness of what has one.
std::string wordsFor(const Section& section, const scene::Part& part) {
  using K = scene::PartKind;
  const auto& words = section.words();
  const auto& unit = section.planned.unit;
  const auto isOf = [&](K first, K last) { return part.kind >= first && part.kind <= last; };
  if (isOf(K::RevealSide, K::RevealHead)) {
    return words.reveal + " " + section.figure(unit.reveal ? unit.reveal->thickness : 0);
  }
  if (isOf(K::FrameSill, K::FrameJamb)) return "frame";
  if (isOf(K::SashStile, K::SashRail)) return "sash";
  if (part.kind == K::Bead) return "bead";
  if (const auto& each = unit.glass.each; part.kind == K::GlassPane && !each.empty()) {
    return "glass " + keptTogether(base::joined(each, " + ", [&](double mm) { return section.figure(mm); }));
  }
  if (part.kind == K::GlassPane) {
    return "glass " + keptTogether((unit.glass.panes > 1 ? std::to_string(unit.glass.panes) + " × " : std::string{}) +
                                   section.figure(static_cast<double>(part.size.y)));
  }
  if (part.kind == K::Lining) return words.lining + " " + section.figure(section.wall.lining);
  if (part.kind == K::Packer) return part.material == scene::Material::Packer ? words.packer + "s" : "timber backing";
  if (scene::isCladding(part.kind)) {
    return plan::wordFor(section.wall.cladding, words) + " " + section.figure(section.wall.cladding.thickness);
  }
  return part.kind == K::Lintel ? lintelWords(section) : scene::nameOf(part.kind, words);
}

/// A smaller polygon inside, for hollow sections.
std::vector<Vec> shrunk(std::vector<Vec> points, double by) {
  const Vec middle = areaOf(points).middle;
  for (Vec& point : points) point += glm::clamp(middle - point, -by, by);  // along each axis, to the middle at most
  return points;
}

/// How a cut piece is filled and outlined.
struct Style {
  double lightness = 1;             ///< Of its ground.
  double spacing = 0;               ///< Of its hatching; 0: it has none.
  std::array<double, 2> degrees{};  ///< Of the hatching, which is crossed where the two differ.
  double outline = 0;               ///< 0: it has none.
};

void drawCut(Painter& painter, Manner manner, bool end_grain, const std::vector<Vec>& points) {
  // As Manner.
  constexpr std::array<Style, 9> kStyles{{{0.95, 0, {}, pen::kBold},
                                          {1, 1.1, {45, 45}, pen::kBold},
                                          {0.80, 0, {}, pen::kBold},
                                          {0.35, 0, {}, 0},
                                          {0.88, 0, {}, pen::kFine},
                                          {1, 0.9, {60, 120}, pen::kMedium},
                                          {1, 1.6, {150, 150}, 0},
                                          {0.75, 0.7, {135, 135}, pen::kMedium},
                                          {1, 2.2, {45, 45}, pen::kFine}}};
  if (manner == Manner::Skip) return;
  const Style& style = kStyles[static_cast<std::size_t>(manner)];
  const bool crossed = manner == Manner::RoughTimber && end_grain;
  painter.fill(points, grey(crossed ? 1 : style.lightness));
  if (crossed && points.size() != 4) painter.hatch(points, 45, 2.0);  // only a rectangle has diagonals to draw
  for (std::size_t i = 0; crossed && points.size() == 4 && i < 2; ++i) {
    painter.line(points[i], points[i + 2], {pen::kHair});
  }
  if (manner == Manner::Metal) painter.shape(shrunk(points, 0.6), kWhite, {pen::kHair});
  const auto [first, second] = style.degrees;
  if (style.spacing > 0) painter.hatch(points, first, style.spacing);
  if (second != first) painter.hatch(points, second, style.spacing);
  if (style.outline > 0) painter.path(points, {style.outline}, true);
}

/// Notes corners on the edges of the window that the wall goes on past.
void noteBroken(Section& section, const std::vector<Vec>& outline) {
  const Box& window = section.window;
  const auto& edges = section.level() ? std::array{window.x0, window.x1} : std::array{window.y0, window.y1};
  for (const Vec& corner : outline) {
    for (std::size_t i = 0; i < edges.size(); ++i) {
      const bool on = std::abs((section.level() ? corner.x : corner.y) - edges[i]) < 1e-6;  // clipped, they lie on it
      if (on) section.broken[i].push_back(section.view.at(corner.x, corner.y));
    }
  }
}

/// A board's outline, without the seams between the pieces that it is made of.
void drawInked(const Section& section, const std::vector<Vec>& outline, unsigned inked) {
  for (std::size_t i = 0; i < outline.size(); ++i) {
    Vec from = outline[i];
    Vec to = outline[(i + 1) % outline.size()];
    if ((inked >> i & 1U) == 0 || !clip(section.window, from, to)) continue;
    section.painter.line(section.view.at(from.x, from.y), section.view.at(to.x, to.y), {pen::kMedium});
  }
}

/// Draws a polygon of the section's axes as far as the window shows it. Answers it on the page.
std::vector<Vec> drawPiece(Section& section, Manner manner, const scene::CutFace& face,
                           const std::vector<Vec>& outline) {
  const std::vector<Vec> shown = clipped(outline, section.window);
  std::vector<Vec> points;
  if (shown.size() < 3) return points;
  noteBroken(section, shown);
  for (const Vec& point : shown) points.push_back(section.view.at(point.x, point.y));
  drawCut(section.painter, manner, face.across_grain, points);
  if (manner == Manner::Cladding) drawInked(section, outline, face.inked);
  return points;
}

/// The side of the drawing a name stands at: what is nearer the inside on the right.
std::optional<int> sideOf(const Section& section, scene::PartKind kind) {
  using K = scene::PartKind;
  const auto among = [kind](std::initializer_list<K> kinds) {
    return std::find(kinds.begin(), kinds.end(), kind) != kinds.end();
  };
  const bool outside = kind == K::Batten || kind == K::SillBrick || scene::isCladding(kind);
  if (section.is(Detail::Upright) || section.is(Detail::Across)) return std::nullopt;  // names stand by place
  if (!section.is(Detail::Jamb)) {
    if (outside) return -1;
    // The unit's parts by their place: both sides then have about as many names.
    const bool of_unit = among({K::FrameHead, K::FrameSill, K::SashRail, K::GlassPane, K::Bead});
    return of_unit ? std::nullopt : std::optional<int>(1);
  }
  return outside || among({K::CommonStud, K::JambStud, K::BearingStud, K::JackStudAbove, K::JackStudBelow, K::Nogging,
                           K::Lining})
             ? -1
             : 1;
}

struct Anchored {
  double area = 0;
  Vec at;
  double lowest = 0;  ///< Of the largest piece on the page: its name may be moved down to there.
  std::optional<int> side;
};

/// A face in the section's axes.
std::vector<Vec> outlineOf(const Section& section, const scene::WallFrame& wall, const scene::CutFace& face) {
  const bool level = section.level();
  std::vector<Vec> outline;
  for (std::size_t i = 0; i < face.count; ++i) {
    const glm::dvec3 at = wall.toLocal(face.corner[i]);
    outline.push_back(level ? Vec{at.x - section.opening.left, at.y} : Vec{at.y, at.z - section.opening.sill});
  }
  return outline;
}

/// The cavity's name, in it beside its cladding's.
void nameCavity(Section& section, const Anchored& cladding) {
  const job::Cladding& layers = section.wall.cladding;
  constexpr double kWide = 5;  // enough to be pointed at
  if (layers.cavity <= kWide) return;
  const double in = (layers.cavity + layers.thickness) / 2 * section.view.per_mm;  // from the boards' middle to its own
  const Vec aside = section.is(Detail::Jamb) ? Vec{-4.0, -in} : Vec{in, -4.0};
  section.names.push_back({"cavity " + section.figure(layers.cavity), cladding.at + aside, -1});
}

}  // namespace

std::vector<scene::CutFace> cutFaces(const Section& section) {
  // Across the wall it is seen from the opening's right, level it is seen from above.
  const scene::WallFrame& wall = section.subject.scene.walls[section.planned.wall];
  const bool level = section.level();
  const auto x = static_cast<float>(section.opening.left + (level ? 0 : section.cut.cut));
  const auto z = static_cast<float>(section.opening.sill + (level ? section.cut.cut : 0));
  scene::Cut cut;
  cut.normal = level ? glm::vec3(0.0F, 0.0F, 1.0F) : wall.along;
  cut.at = glm::dot(cut.normal, wall.toWorld({x, 0.0F, z}));
  return scene::sectionOf(section.subject.scene, cut, section.index);
}

void drawFromScene(Section& section, const std::vector<scene::CutFace>& faces, bool packers) {
  const scene::Scene& scene = section.subject.scene;
  const scene::WallFrame& wall = scene.walls[section.planned.wall];
  std::map<std::string, Anchored> anchors;  // each kind is named once
  Anchored cladding;
  bool framed = false;
  // What has the place is drawn last.
  for (auto face = faces.rbegin(); face != faces.rend(); ++face) {
    const scene::Part& part = scene.parts[face->part];
    const Manner manner = mannerOf(part);
    const bool packer = part.kind == scene::PartKind::Packer;
    if (manner == Manner::Skip || packer != packers) continue;
    const Group group = section.painter.group(scene::nameOf(part.layer));
    const auto points = drawPiece(section, manner, *face, outlineOf(section, wall, *face));
    if (points.empty()) continue;
    framed = framed || manner == Manner::RoughTimber;
    const Area area = areaOf(points);
    Anchored& anchor = anchors[wordsFor(section, part)];
    if (area.size > anchor.area) anchor = {area.size, area.middle, boxRound(points).y1, sideOf(section, part.kind)};
    if (scene::isCladding(part.kind)) cladding = anchor;
  }
  if (cladding.area > 0) nameCavity(section, cladding);
  if (section.is(Detail::Jamb) && !packers && !framed) {
    const Vec bare = section.view.at(section.wall.stud.thickness * -0.5, section.wall.stud.depth / 2);
    anchors["no " + section.words().stud + " framed here"] = {1, bare, bare.y, -1};
  }
  // Leaders to pieces side by side at one height would run through each other.
  double down = 0;
  for (auto& [name, anchor] : anchors) {
    const bool beside = std::any_of(section.names.begin(), section.names.end(), [&anchor = anchor](const Named& other) {
      return other.side == anchor.side && std::abs(other.at.y - anchor.at.y) < 1.5;
    });
    if (beside && anchor.side == -1) {
      down += 2.8;
      anchor.at.y = std::clamp(anchor.at.y + down, anchor.at.y, std::max(anchor.at.y, anchor.lowest - 0.8));
    }
    section.names.push_back({name, anchor.at, anchor.side, name == "sash" || name == "bead"});
  }
}

void drawBreaks(Section& section) {
  for (const std::vector<Vec>& corners : section.broken) {
    if (corners.empty()) continue;
    const Box edge = boxRound(corners);
    drawBreak(section.painter, {edge.x0, edge.y0}, {edge.x1, edge.y1});
  }
}

}  // namespace sillwright::sheet
