/// Changes of a job that add, copy, remove or turn something: each from a job to a job, nothing else touched.
///
/// What is added starts from sizes that can be built and is meant to be changed; sizes marked so are common practice
/// without a source. Readings belong to one hole in one wall and are never copied.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::document {

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

// Everything a person did to a job since it was read, each step with its name, to be undone and done again without
// limit.
//
// A step keeps the walls and openings from the first to the last that it changed, as they were before and after. What
// else it changes (title, practice, wind, stock, where the file has them) is small and is kept as a whole. The history
// doesn't hold the job: it changes the one it is given, which must be the one that its steps were recorded from.

/// What a step did to a list: from `at` on, `before` gave way to `after`. It stands outside of History because clang 14
/// doesn't make the default assignment of a class template nested in a class.
template <class Thing>
struct Change {
  std::size_t at = 0;
  std::vector<Thing> before, after;

  [[nodiscard]] bool empty() const { return before.empty() && after.empty(); }
};

class History {
 public:
  /// Notes what turned `before` into `after`, and forgets what had been undone. Nothing changed: nothing is noted, and
  /// the answer is false.
  bool record(std::string name, const job::Job& before, const job::Job& after);

  /// Number of steps done; those from there on are undone.
  [[nodiscard]] std::size_t place() const { return place_; }
  [[nodiscard]] std::size_t size() const { return steps_.size(); }
  [[nodiscard]] const std::string& name(std::size_t step) const { return steps_[step].name; }
  [[nodiscard]] bool canUndo() const { return place_ > 0; }
  [[nodiscard]] bool canRedo() const { return place_ < steps_.size(); }

  /// One step back or on; false where there is none.
  bool undo(job::Job& job) {
    if (!canUndo()) return false;
    apply(steps_[--place_], job, false);
    return true;
  }
  bool redo(job::Job& job) {
    if (!canRedo()) return false;
    apply(steps_[place_++], job, true);
    return true;
  }
  /// To where `place` steps are done.
  void go(job::Job& job, std::size_t place) {
    while (place_ > place) undo(job);
    while (place_ < std::min(place, size())) redo(job);
  }
  void clear() { *this = {}; }

 private:
  struct Step {
    std::string name;
    Change<job::Wall> walls;
    Change<job::Opening> openings;
    std::optional<std::array<job::Job, 2>> rest;  ///< The job without walls and openings, before and after.
  };

  static void apply(const Step& step, job::Job& to, bool forwards);

  std::vector<Step> steps_;
  std::size_t place_ = 0;
};

// Walls that meet at their ends: what follows where one is made longer, and which corners of the house no longer close.

/// Gives a wall another length. What meets its right end goes along: a wall in that direction gives or takes the
/// length, its openings staying where they are; any other is moved, and takes along what meets its far end. A wall that
/// would be shorter than its openings and corners allow stays, and the corner opens.
void lengthenWall(job::Job& job, std::size_t wall, double length);

/// "the corner with west opens", "the top no longer meets that of west": what a change did at a wall's ends. Empty:
/// nothing.
[[nodiscard]] std::string openedAt(const job::Job& before, const job::Job& after, std::size_t wall);

}  // namespace sillwright::document
