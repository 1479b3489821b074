#include "invariants/random_edit.h"

#include <cstddef>
#include <optional>
#include <string>

namespace sillwright::testing {
namespace {

template <class T>
void toggle(std::optional<T>& value, T instead) {
  if (value) {
    value.reset();
  } else {
    value = instead;
  }
}

std::size_t oneIndex(std::size_t count, Draw& draw) {
  return static_cast<std::size_t>(draw.upTo(static_cast<int>(count) - 1));
}

void changeOpenings(job::Job& job, Draw& draw) {
  const std::size_t at = oneIndex(job.openings.size(), draw);
  job::Opening more = job.openings[at];
  switch (draw.upTo(2)) {
    case 0:
      more.name += " again";
      more.left += more.width + 400;
      job.openings.push_back(more);
      break;
    case 1:
      job.openings.erase(job.openings.begin() + static_cast<std::ptrdiff_t>(at));
      break;
    default:
      job.openings[at].wall = oneIndex(job.walls.size(), draw);
  }
}

}  // namespace

void changeValue(job::Job& job, Draw& draw) {
  auto& wall = job.walls[static_cast<std::size_t>(draw.upTo(static_cast<int>(job.walls.size()) - 1))];
  const int what = draw.upTo(9);
  const double by = 1 + draw.between(0, 40, 0.25);
  if (job.openings.empty() || what == 0) {
    for (auto& point : wall.top) point.z += by;
    return;
  }
  auto& opening = job.openings[static_cast<std::size_t>(draw.upTo(static_cast<int>(job.openings.size()) - 1))];
  switch (what) {
    case 1:
      opening.left += by;
      break;
    case 2:
      opening.unit.width += by;
      break;
    case 3:
      opening.name += " \"north\"";
      break;
    case 4:
      opening.unit.kind = job::UnitKind::AwningWindow;
      break;
    case 5:
      if (opening.measured && opening.measured->widths[0]) *opening.measured->widths[0] += by;
      break;
    case 6:
      if (opening.unit.reveal) opening.unit.reveal->depth += by;
      break;
    case 7:
      if (opening.installed && opening.installed->opens) opening.installed->opens = !*opening.installed->opens;
      break;
    case 8:
      if (wall.above_ground) *wall.above_ground += by;
      break;
    default:
      opening.sill += by;
  }
}

void changeKey(job::Job& job, Draw& draw) {
  auto& wall = job.walls[static_cast<std::size_t>(draw.upTo(static_cast<int>(job.walls.size()) - 1))];
  const int what = draw.upTo(9);
  if (job.openings.empty() || what == 0) return toggle(wall.spacing, 555.0);
  auto& opening = job.openings[static_cast<std::size_t>(draw.upTo(static_cast<int>(job.openings.size()) - 1))];
  switch (what) {
    case 1:
      return toggle(opening.room, job::Room::Stair);
    case 2:
      return toggle(opening.unit.reveal, job::Reveal{19, 111});
    case 3:
      return toggle(opening.unit.mass_kg, 33.0);
    case 4:
      return toggle(wall.eave, job::Eave{2345, 432});
    case 5:
      if (opening.measured) toggle(opening.measured->widths[1], 1234.0);
      return;
    case 6:
      if (opening.measured) toggle(opening.measured->out_of_level, 1.5);
      return;
    case 7:
      return toggle(wall.above_ground, 900.0);
    case 8:
      return toggle(opening.lintel, job::Lintel{190, 45, 2});
    default:
      return toggle(opening.unit.fin, 22.0);
  }
}

void changeHouse(job::Job& job, Draw& draw) {
  auto& wall = job.walls[oneIndex(job.walls.size(), draw)];
  switch (draw.upTo(6)) {
    case 0:
      wall.align_heads = !wall.align_heads;
      break;
    case 1:
      wall.at_x += draw.off(60, 5);
      wall.at_y += draw.off(60, 5);
      break;
    case 2:
      wall.length += 100;
      wall.top.back().x = wall.length;
      break;
    case 3:
      wall.turn_degrees += draw.oneIn(2) ? 90 : 7;
      break;
    case 4:
      job.wind = job::StatedPressure{draw.between(0.5, 3, 0.25)};
      break;
    case 5:
      job.stock.emplace().packers = {2, 5, 10};
      break;
    default:
      if (!job.openings.empty()) changeOpenings(job, draw);
  }
}

}  // namespace sillwright::testing
