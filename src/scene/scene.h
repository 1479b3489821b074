/// The scene: the plan as solid parts with material, layer, step and owner. No OpenGL here.
///
/// World axes: millimetres; X and Y on the floor plan as the job places its walls, Z up. Each wall's own axes are
/// turned and moved into them by its WallFrame. Everything the renderer, the exports and picking need is in this value.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <vector>

namespace sillwright::scene {

enum class Material : std::uint8_t {
  Pine,
  LintelTimber,
  RevealTimber,
  Membrane,
  FlexibleFlashing,
  FoldedMetal,
  Aluminium,
  Glass,
  Lining,
  Cladding,
  Batten,
  Packer,
  Screw,
  Soffit,
  Floor,
  Rubber,
  Brick,
  Mortar
};
inline constexpr std::size_t kMaterials = 18;

/// Layers can be shown and hidden, and are pulled apart along y by `spread`, in this order from outside to inside.
enum class Layer : std::uint8_t {
  Eave,
  Cladding,
  Battens,
  Unit,
  Flashing,
  Membrane,
  Fixing,
  Packing,
  Frame,
  Lining,
  Ground
};
inline constexpr std::size_t kLayers = 11;

/// What a part is, in the trade's sense; names and reasons come from `describe`.
enum class PartKind : std::uint8_t {
  BottomPlate,
  TopPlate,
  CommonStud,
  JambStud,
  BearingStud,
  JackStudBelow,
  JackStudAbove,
  Lintel,
  SillTrimmer,
  Nogging,
  Membrane,
  MembraneFold,
  CladdingBoard,
  Batten,
  Lining,
  EaveSoffit,
  EaveFascia,
  FloorSlab,
  RevealSide,
  RevealSill,
  RevealHead,
  FrameSill,
  FrameHead,
  FrameJamb,
  Mullion,
  Transom,
  SashStile,
  SashRail,
  GlassPane,
  Fin,
  Threshold,
  Handle,
  Hinge,
  UnitMesh,
  Packer,
  Screw,
  SillFlashing,
  JambFlashing,
  HeadFlashing,
  Tape,
  FaceSeal,
  Bead,
  CladdingSheet,
  Render,
  BrickCourse,
  MortarBed,
  SillBrick,
  CavityCloser,
  SillSupport,
  SubSill
};

[[nodiscard]] constexpr bool isCladding(PartKind kind) {
  return kind == PartKind::CladdingBoard || kind == PartKind::CladdingSheet || kind == PartKind::Render ||
         kind == PartKind::BrickCourse;
}

/// A convex hexahedron. Corner i: bit 0 set = far end in u, bit 1 = v, bit 2 = w, where u, v, w are the solid's own
/// long, deep and high directions; right-handed. Faces may be cut at any slope but stay plane.
struct Solid {
  std::array<glm::vec3, 8> corner{};
  std::uint16_t edges = 0x0fff;  ///< Which of the 12 edges are inked; seams inside a part are not. Order: kEdges.
  std::uint8_t grain = 0;        ///< Axis (0 u, 1 v, 2 w) that the grain runs along; faces across it are end grain.
  std::uint32_t part = 0;        ///< Index in Scene::parts.
  bool operator==(const Solid&) const = default;
};

/// Corner pairs of the 12 edges, and corners of the 6 faces counter-clockwise from outside (−u, +u, −v, +v, −w, +w).
/// Bits 0–3 of Solid::edges run along u, 4–7 along v, 8–11 along w.
inline constexpr std::array<std::array<std::uint8_t, 2>, 12> kEdges = {
    {{0, 1}, {2, 3}, {4, 5}, {6, 7}, {0, 2}, {1, 3}, {4, 6}, {5, 7}, {0, 4}, {1, 5}, {2, 6}, {3, 7}}};
inline constexpr std::array<std::array<std::uint8_t, 4>, 6> kFaces = {
    {{0, 4, 6, 2}, {1, 3, 7, 5}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 2, 3, 1}, {4, 5, 7, 6}}};

/// Number of each face's edge k, which runs from its corner k to the next; every edge is of two faces.
inline constexpr std::array<std::array<std::uint8_t, 4>, 6> kFaceEdges = {
    {{8, 6, 10, 4}, {5, 11, 7, 9}, {0, 9, 2, 8}, {10, 3, 11, 1}, {4, 1, 5, 0}, {2, 7, 3, 6}}};

/// Plane of a solid's face: its outward normal and distance, dot(n, p) + w > 0 is outside; zero where the face has
/// shrunk to a line. From its diagonals, so that a corner pulled onto its neighbour still leaves a plane.
[[nodiscard]] inline glm::vec4 planeOf(const std::array<glm::vec3, 8>& corner,
                                       const std::array<std::uint8_t, 4>& face) {
  const glm::vec3& a = corner[face[0]];
  const glm::vec3& b = corner[face[1]];
  const glm::vec3& c = corner[face[2]];
  const glm::vec3& d = corner[face[3]];
  const glm::vec3 normal = glm::cross(c - a, d - b);
  const float length = glm::length(normal);
  constexpr float kLeastArea = 1e-4F;  // mm²; below it a face is a seam and has no direction
  if (length < kLeastArea) return glm::vec4(0.0F);
  const glm::vec3 unit = normal / length;
  return {unit, -glm::dot(unit, (a + b + c + d) * 0.25F)};
}

struct MeshUse {
  std::uint32_t mesh = 0;  ///< Index in Scene::meshes.
  std::uint32_t part = 0;
  glm::mat4x3 place{1.0F};  ///< From mesh to world.
};

/// When a part comes into being: FromTheStart, or at a step of the order of work, which has a number from 1 to 31 here
/// so that a renderer need not know the steps. `partStep` (water_lines.h) makes it from a plan::StepKind.
enum class PartStep : std::uint8_t { FromTheStart = 0 };

/// Its bit in a mask of hidden steps.
[[nodiscard]] constexpr std::uint32_t bitOf(PartStep step) { return 1U << static_cast<unsigned>(step); }

struct Part {
  PartKind kind = PartKind::CommonStud;
  Material material = Material::Pine;
  Layer layer = Layer::Frame;
  PartStep step = PartStep::FromTheStart;
  std::int32_t wall = -1;
  std::int32_t opening = -1;
  std::int32_t item = -1;   ///< Of a screw its index in the opening's plan::Fixings::points, of what opens its sash's.
  glm::vec3 size{0.0F};     ///< True size in its wall's x, y, z, for the hover text; length first for timber, screws.
  bool breaks_out = false;  ///< Of a screw: its point comes out behind the studs.
};

/// Whether things of a layer and a step are shown where these are hidden: a bit per Layer, the bitOf each step.
[[nodiscard]] constexpr bool isShown(Layer layer, PartStep step, std::uint32_t hidden_layers,
                                     std::uint32_t hidden_steps) {
  return (hidden_layers >> static_cast<unsigned>(layer) & 1U) == 0 && (hidden_steps & bitOf(step)) == 0;
}

/// Places a wall in the world: world = origin + x·along + y·inward + z·up.
struct WallFrame {
  glm::vec3 origin{0.0F};
  glm::vec3 along{1.0F, 0.0F, 0.0F};
  glm::vec3 inward{0.0F, 1.0F, 0.0F};
  float length = 0.0F;
  float height = 0.0F;  ///< Highest point of the plate.
  float depth = 0.0F;   ///< Of the studs.

  [[nodiscard]] glm::vec3 toWorld(glm::vec3 local) const {
    return origin + along * local.x + inward * local.y + glm::vec3{0.0F, 0.0F, local.z};
  }
  [[nodiscard]] glm::vec3 toLocal(glm::vec3 world) const {
    const glm::vec3 off = world - origin;
    return {glm::dot(off, along), glm::dot(off, inward), off.z};
  }
  bool operator==(const WallFrame&) const = default;
};

/// An opening in the world, for flying to and for labels.
struct OpeningFrame {
  std::uint32_t wall = 0;
  glm::vec3 centre{0.0F};
  float width = 0.0F;
  float height = 0.0F;
};

struct Box {
  glm::vec3 low{0.0F};
  glm::vec3 high{0.0F};

  /// Grows as far as the point.
  void hold(const glm::vec3& point) {
    low = glm::min(low, point);
    high = glm::max(high, point);
  }
  /// Of number 0 to 7: bit 0 set = the higher x, bit 1 = y, bit 2 = z.
  [[nodiscard]] std::array<glm::vec3, 8> corners() const {
    std::array<glm::vec3, 8> all{};
    for (unsigned i = 0; i < 8; ++i) {
      all[i] = {(i & 1U) != 0 ? high.x : low.x, (i & 2U) != 0 ? high.y : low.y, (i & 4U) != 0 ? high.z : low.z};
    }
    return all;
  }
};

/// The box round some points; zero where there are none.
template <class Points>
[[nodiscard]] Box boxRound(const Points& points) {
  Box box;
  if (points.empty()) return box;
  box.low = box.high = *points.begin();
  for (const glm::vec3& point : points) box.hold(point);
  return box;
}

/// A triangle mesh that repeats (screw, handle, a job's own unit): flat triangles, and the lines to ink.
struct Mesh {
  std::vector<glm::vec3> corner;  ///< Three a triangle, millimetres.
  std::vector<glm::vec3> line;    ///< Two a line.
  Box box;                        ///< Round the corners.
};

/// Solids and uses that follow one another, and a box round them: a search passes them over together.
struct Group {
  std::size_t solids = 0;
  std::size_t uses = 0;
  std::optional<Box> box;  ///< Empty: there are none.
  std::size_t inner = 0;   ///< So many groups that follow in the list make it up.
  std::size_t first_solid = 0;
  std::size_t first_use = 0;
  std::size_t parts = 0;  ///< Of an outer one.
};

struct Scene {
  std::vector<Part> parts;
  std::vector<Solid> solids;  ///< Grouped by part, rising.
  std::vector<Mesh> meshes;
  std::vector<MeshUse> uses;
  std::vector<WallFrame> walls;        ///< As Job::walls.
  std::vector<OpeningFrame> openings;  ///< As Job::openings.
  std::vector<Group> groups;           ///< All solids and uses in their order, each outer one before its inner; empty
                                       ///< where the scene was put together by hand.
  Box bounds;                          ///< Of everything but the ground.
};

// The colour that each material's faces have wherever the scene is shown: in the viewer, and in other programs.

/// 0xRRGGBB as it goes to the screen.
[[nodiscard]] constexpr unsigned faceColour(Material material) {
  constexpr std::array<unsigned, kMaterials> kColours{0xF0D6A8, 0xE6BF86, 0xF6E7C8, 0xD1DDDE, 0x303337, 0xA6AFB4,
                                                      0xDCDFE0, 0xC2DDD9, 0xF3F1EC, 0xE2E4DB, 0xE6CFA6, 0x8F77B4,
                                                      0x6A7178, 0xE7E2D6, 0xE9E3D6, 0x3A3D41, 0xCB9077, 0xDCD6C9};
  return kColours[static_cast<std::size_t>(material)];
}

/// 0 … 1.
[[nodiscard]] constexpr float opacityOf(Material material) { return material == Material::Glass ? 0.36F : 1.0F; }

// Walks a scene's groups, so that a search skips those whose boxes can't hold what it looks for.

/// The outer ones: what one wall, the floors or one opening add to a scene, in this order.
[[nodiscard]] inline std::vector<const Group*> outerGroups(const Scene& scene) {
  std::vector<const Group*> outers;
  for (std::size_t i = 0; i < scene.groups.size(); i += 1 + scene.groups[i].inner) outers.push_back(&scene.groups[i]);
  return outers;
}

/// Calls `look` with each inner group of `outer` whose box passes `may`; with the outer group itself where it has none.
template <class May, class Look>
void eachInner(const Group& outer, const May& may, const Look& look) {
  for (const Group* group = &outer + (outer.inner > 0 ? 1 : 0); group <= &outer + outer.inner; ++group) {
    if (group->box && may(*group->box)) look(*group);
  }
}

[[nodiscard]] inline Box grown(const Box& box, float by) { return {box.low - glm::vec3(by), box.high + glm::vec3(by)}; }

}  // namespace sillwright::scene
