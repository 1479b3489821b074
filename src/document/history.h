/// Everything a person did to a job since it was read, each step with its name, to be undone and done again without
/// limit.
///
/// A step keeps only the openings and walls that it changed, as they were before and after; a step that adds, removes
/// or moves some keeps the lists. What else it changes (title, practice, wind, stock, where the file has them) is small
/// and is kept as a whole. The history doesn't hold the job: it changes the one it is given, which must be the one that
/// its steps were recorded from.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"

namespace sillwright::document {

/// One thing of a list as it was before and after a step. It stands outside of History because clang 14 doesn't make
/// the default assignment of a class template nested in a class.
template <class Thing>
struct Changed {
  std::size_t index = 0;
  Thing before, after;
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
  bool undo(job::Job& job);
  bool redo(job::Job& job);
  /// To where `place` steps are done.
  void go(job::Job& job, std::size_t place);
  void clear();

 private:
  /// What became of one of the job's lists.
  template <class Thing>
  struct Part {
    std::vector<Changed<Thing>> changed;
    std::optional<Changed<std::vector<Thing>>> lists;  ///< Where they differ in length.
    [[nodiscard]] bool empty() const { return changed.empty() && !lists; }
  };
  struct Step {
    std::string name;
    Part<job::Wall> walls;
    Part<job::Opening> openings;
    std::optional<Changed<job::Job>> rest;  ///< The job without walls and openings.
  };

  template <class Thing>
  static Part<Thing> compare(const std::vector<Thing>& before, const std::vector<Thing>& after);
  template <class Thing>
  static void apply(const Part<Thing>& part, std::vector<Thing>& to, bool forwards);
  static void apply(const Step& step, job::Job& to, bool forwards);

  std::vector<Step> steps_;
  std::size_t place_ = 0;
};

}  // namespace sillwright::document
