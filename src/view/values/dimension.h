/// The lengths of a job that a person sets by hand or by typing: what each is called, where it may lie, and setting it.
///
/// An edge of an opening moves alone (the edge across from it stays), an opening moves as a whole; a wall's top is one
/// height where it is level, and its corners where it isn't. Millimetres.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

#include "job/job.h"
#include "job/rule.h"

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

/// Whether it is a wall's; else it is an opening's.
[[nodiscard]] bool isOfWall(DimensionKind kind);
/// Whether every point of a wall's top has one height.
[[nodiscard]] bool isLevel(const job::Wall& wall);

/// "left edge of N1", "top of north": for a history, and for a handle.
[[nodiscard]] std::string nameOf(const job::Job& job, const Dimension& dimension);
[[nodiscard]] double valueOf(const job::Job& job, const Dimension& dimension);
/// What the job file allows, narrowed to what the rest of the job leaves.
[[nodiscard]] job::Holds boundsOf(const job::Job& job, const Dimension& dimension);
/// Sets it; a value out of bounds is brought to the nearer one.
void setValue(job::Job& job, const Dimension& dimension, double value);

}  // namespace sillwright::view
