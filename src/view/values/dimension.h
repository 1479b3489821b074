/// The lengths of a job that a person sets by hand or by typing: what each is called, where it may lie, and setting it.
///
/// An edge of an opening moves alone (the edge across from it stays), an opening moves as a whole; a wall's top is one
/// height where it is level, and its corners where it isn't. Millimetres.
#pragma once

#include <cstddef>
#include <cstdint>
#include <glm/glm.hpp>
#include <optional>
#include <string>
#include <vector>

#include "document/document.h"
#include "job/job.h"
#include "job/rule.h"
#include "practice/practice.h"
#include "render/camera.h"
#include "render/renderer.h"
#include "scene/pick.h"
#include "scene/scene.h"

namespace sillwright::view {

enum class DimensionKind : std::uint8_t {
  Left,      ///< Of an opening, which moves with its size kept.
  Sill,      ///< Of an opening, which moves with its size kept.
  Width,     ///< The right edge moves.
  Height,    ///< The head moves.
  LeftEdge,  ///< The left edge moves, the right one stays.
  SillEdge,  ///< The sill moves, the head stays.
  UnitWidth,
  UnitHeight,
  Mullion,   ///< Its middle from the unit's left edge; `point` counts the lines between columns, from 1.
  Transom,   ///< Its middle above the unit's foot; `point` counts the lines between rows from the top.
  HeadLeft,  ///< Corners of a head that follows the roof: the unit's head moves with them.
  HeadRight,
  HeadPeakX,
  HeadPeakZ,
  WallLength,
  WallTop,     ///< Of a level wall.
  TopX,        ///< Of a corner of a wall's top that is none of its ends.
  TopZ,        ///< Of a corner of a wall's top.
  EaveSoffit,  ///< Of a wall that has an eave.
  EaveOverhang
};

struct Dimension {
  DimensionKind kind = DimensionKind::Left;
  std::size_t of = 0;     ///< Index in Job::openings or Job::walls.
  std::size_t point = 0;  ///< Of Mullion, Transom, TopX, TopZ.
  bool operator==(const Dimension&) const = default;
};

/// Whether every point of a wall's top has one height.
[[nodiscard]] bool isLevel(const job::Wall& wall);

/// "left edge of N1", "top of north": for a history, and for a handle.
[[nodiscard]] std::string nameOf(const job::Job& job, const Dimension& dimension);
[[nodiscard]] double valueOf(const job::Job& job, const Dimension& dimension);
/// What the job file allows, narrowed to what the rest of the job leaves.
[[nodiscard]] job::Holds boundsOf(const job::Job& job, const Dimension& dimension);
/// Sets it; a value out of bounds is brought to the nearer one.
void setValue(job::Job& job, const Dimension& dimension, double value);

// Handles: places in the drawing by which a dimension of the job is dragged.
//
// A handle moves along one line or in the wall's plane; where the pointer's ray comes nearest to it gives the new
// length. Everything here is geometry on values; the viewer (hand.cpp) does the dragging.

/// A corner of an opening as it was built: where it is moved, the readings follow.
struct BuiltCorner {
  std::size_t opening = 0;
  plan::Corner corner = plan::Corner::BR;
  double times = 1;  ///< How many times as large as they are deviations are drawn.
  bool operator==(const BuiltCorner& other) const { return opening == other.opening && corner == other.corner; }
};

struct Handle {
  std::string name;                     ///< "sill of N1"
  std::vector<Dimension> dimensions{};  ///< One, or two for a handle that moves in the plane; none of a built corner.
  std::optional<BuiltCorner> corner{};
  glm::vec3 at{0.0F};                 ///< In the world.
  glm::vec3 along{1.0F, 0.0F, 0.0F};  ///< Where the first dimension grows.
  glm::vec3 across{0.0F};             ///< Where the second one does; 0: it moves along a line.
  bool of_unit = false;               ///< Drawn round.
  bool of_cut = false;                ///< Drawn on its point; has no dimension.

  /// Whether both pull at the same.
  [[nodiscard]] bool same(const Handle& other) const {
    return dimensions == other.dimensions && corner == other.corner;
  }
  [[nodiscard]] std::optional<std::size_t> opening() const;  ///< Empty: it is a wall's.
};

/// Its dimensions as they are now: "1050", "1230, 900"; of a built corner how far it is from where it was planned:
/// "2 right, 1.5 down".
[[nodiscard]] std::string figuresOf(const document::Document& document, const Handle& handle);

/// Those of the picked opening and its unit, or of the picked wall; none where nothing is picked. They lie on the side
/// of the wall that the eye is on; where layers are pulled apart by `spread`, on the frame and the unit.
[[nodiscard]] std::vector<Handle> handlesOf(const document::Document& document, std::int32_t wall, std::int32_t opening,
                                            const render::Camera& camera, float spread = 0.0F);

/// How far along its directions a handle is when the pointer's ray goes by, mm from its place; empty where the ray runs
/// along it and tells nothing.
[[nodiscard]] std::optional<glm::dvec2> reach(const Handle& handle, const render::Ray& ray);

/// Rounded to a multiple of the step.
[[nodiscard]] double snapped(double value, double step);

// Measuring in the drawing: two picked places, snapped to corners and edges, and the lengths between them.

struct Measuring {
  bool on = false;
  std::vector<glm::vec3> points{};     ///< In the world; at most two.
  std::optional<glm::vec3> hovered{};  ///< Where the pointer would put the next.
  std::int32_t wall = -1;              ///< Whose directions the lengths are told in; −1: the floor plan's.
};

/// A place on what was hit: its part's nearest corner where that is within `reach` pixels of the pointer, else the
/// nearest place of an edge that is, else the hit itself. Parts are where `look` shows them; a cut one has the corners
/// and edges of its cut face.
[[nodiscard]] glm::vec3 snappedPlace(const scene::Scene& scene, const scene::Hit& hit, const render::Camera& camera,
                                     const render::Look& look, glm::vec2 pointer, glm::vec2 size, float reach);

/// Straight from one to the other, along the wall, through it, and up; none below 0. mm.
struct Lengths {
  double straight = 0;
  double along = 0;
  double through = 0;
  double up = 0;
};
[[nodiscard]] Lengths lengthsBetween(glm::vec3 a, glm::vec3 b, const scene::WallFrame& wall);

/// "1536.7, along 1530, up 143": without parts that are nothing, or as long as the whole.
[[nodiscard]] std::string wordsFor(const Lengths& lengths, practice::Display display);

}  // namespace sillwright::view
