#include "document/history.h"

#include <algorithm>
#include <utility>

namespace sillwright::document {
namespace {

/// A copy, not its fields one by one: a field that the job gets later is kept too.
job::Job restOf(const job::Job& job) {
  job::Job rest = job;
  rest.walls.clear();
  rest.openings.clear();
  return rest;
}

}  // namespace

template <class Thing>
History::Part<Thing> History::compare(const std::vector<Thing>& before, const std::vector<Thing>& after) {
  Part<Thing> part;
  if (before.size() != after.size()) {
    part.lists = Changed<std::vector<Thing>>{0, before, after};
    return part;
  }
  for (std::size_t i = 0; i < before.size(); ++i) {
    if (!(before[i] == after[i])) part.changed.push_back({i, before[i], after[i]});
  }
  return part;
}

template <class Thing>
void History::apply(const Part<Thing>& part, std::vector<Thing>& to, bool forwards) {
  if (part.lists) {
    to = forwards ? part.lists->after : part.lists->before;
    return;
  }
  for (const auto& each : part.changed) to[each.index] = forwards ? each.after : each.before;
}

void History::apply(const Step& step, job::Job& to, bool forwards) {
  if (step.rest) {
    job::Job rest = forwards ? step.rest->after : step.rest->before;
    rest.walls = std::move(to.walls);
    rest.openings = std::move(to.openings);
    to = std::move(rest);
  }
  apply(step.walls, to.walls, forwards);
  apply(step.openings, to.openings, forwards);
}

bool History::record(std::string name, const job::Job& before, const job::Job& after) {
  Step step{std::move(name), compare(before.walls, after.walls), compare(before.openings, after.openings), {}};
  job::Job rest_before = restOf(before);
  job::Job rest_after = restOf(after);
  if (!(rest_before == rest_after)) step.rest = Changed<job::Job>{0, std::move(rest_before), std::move(rest_after)};
  if (step.walls.empty() && step.openings.empty() && !step.rest) return false;
  steps_.resize(place_);
  steps_.push_back(std::move(step));
  ++place_;
  return true;
}

bool History::undo(job::Job& job) {
  if (!canUndo()) return false;
  apply(steps_[--place_], job, false);
  return true;
}

bool History::redo(job::Job& job) {
  if (!canRedo()) return false;
  apply(steps_[place_++], job, true);
  return true;
}

void History::go(job::Job& job, std::size_t place) {
  place = std::min(place, steps_.size());
  while (place_ > place) undo(job);
  while (place_ < place) redo(job);
}

void History::clear() {
  steps_.clear();
  place_ = 0;
}

}  // namespace sillwright::document
