/// Changes of a job that add, copy, remove or turn something: each from a job to a job, nothing else touched.
///
/// What is added starts from sizes that can be built and is meant to be changed; sizes marked so are common practice
/// without a source. Readings belong to one hole in one wall and are never copied.
#pragma once

#include <cstddef>
#include <string>

#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::document {

/// "N3" after "N1" and "N2"; "north 2" after "north": the first of its kind that no wall or opening has.
[[nodiscard]] std::string freeName(const job::Job& job, const std::string& like);

/// Gives a unit the size that leaves the practice's usual gaps in its opening.
void sizeUnit(job::Opening& opening, const practice::Practice& practice);
/// Gives an opening the size that leaves the practice's usual gaps round its unit.
void sizeOpening(job::Opening& opening, const practice::Practice& practice);

/// Adds an opening with a unit where the wall has the widest free stretch; answers its index.
std::size_t addOpening(job::Job& job, std::size_t wall, const plan::Plan& plan, const practice::Practice& practice);
/// Adds one like another, to the right of it where there is room; without its readings. Answers its index.
std::size_t copyOpening(job::Job& job, std::size_t opening);
void removeOpening(job::Job& job, std::size_t opening);

/// Changes of one light of a unit that is no coupled one, by its place from the top left, from 0. Widths and heights
/// that the lights have are kept. Divides it in its middle by a mullion.
void addMullion(job::Unit& unit, std::size_t row, std::size_t column);
/// Puts a row of fixed lights over its row.
void addTransom(job::Unit& unit, std::size_t row);
void fillLight(job::Unit& unit, std::size_t row, std::size_t column, job::Light filled);
/// Moves a mullion to a place from the unit's left, or a transom to one above its foot; those beside it stay.
void moveBar(job::Unit& unit, bool mullion, std::size_t line, double to);

/// Adds a wall where another ends, turned by a right angle to go on round the house. Answers its index.
std::size_t addWall(job::Job& job, std::size_t after);
/// With its openings. The last wall stays; false then.
bool removeWall(job::Job& job, std::size_t wall);

}  // namespace sillwright::document
