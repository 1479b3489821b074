#include "document/edits.h"

#include <cassert>
#include <cmath>
#include <glm/geometric.hpp>
#include <iterator>
#include <numbers>
#include <utility>

#include "document/document.h"
#include "job/tables.h"
#include "plan/frame/top_line.h"
#include "plan/panes.h"

namespace sillwright::document {

namespace {

constexpr double kMeet = 220;      // mm: ends nearer than that meet, at a butt of deep studs too
constexpr double kAside = 0.02;    // sine of the most that a wall is out of line, to give and take length
constexpr double kSameHeight = 1;  // mm
/// mm that a shortened wall leaves beside its first opening. Common practice, no source.
constexpr double kFromCorner = 50;
constexpr double kNewWidth = 1230;   // framed; common practice, no source
constexpr double kUsualGap = 10;     // where the practice names none; common practice, no source
constexpr double kNewHeight = 1230;  // framed; common practice, no source
constexpr double kNewHead = 2130;    // common practice, no source: heads in line with a door's
constexpr double kNarrowest = 300;   // a new opening, though the wall has less; common practice, no source
constexpr double kOverHead = 300;    // for the lintel and the plates; common practice, no source
constexpr double kNewWall = 3600;    // common practice, no source
constexpr double kRevealBoard = 18;  // common practice, no source
constexpr double kBetween = 300;     // between an opening and its copy; common practice, no source

/// Tenths are what a job file says.
double tidy(double mm) { return std::round(mm * 10) / 10; }

struct Stretch {
  double from = 0, to = 0;
  [[nodiscard]] double length() const { return to - from; }
};

/// The stretches of a wall that no opening is in, from its left end.
std::vector<Stretch> freeOf(const job::Job& job, std::size_t wall) {
  std::vector<Stretch> taken;
  for (const job::Opening& opening : job.openings) {
    if (opening.wall == wall) taken.push_back({opening.left, opening.left + opening.width});
  }
  std::sort(taken.begin(), taken.end(), [](const Stretch& a, const Stretch& b) { return a.from < b.from; });
  std::vector<Stretch> free;
  double at = 0;
  for (const Stretch& each : taken) {
    if (each.from > at) free.push_back({at, each.from});
    at = std::max(at, each.to);  // openings may overlap, or stand over each other
  }
  if (job.walls[wall].length > at) free.push_back({at, job.walls[wall].length});
  return free;
}

/// A place for an opening as wide as `beside`, clear of all others: the nearest to its right, else the nearest to its
/// left; right beside it where the wall has no room.
double freePlace(const job::Job& job, std::size_t wall, const Stretch& beside) {
  std::optional<double> before;
  for (const Stretch& free : freeOf(job, wall)) {
    const double first = free.from + (free.from > 0 ? kBetween : 0);  // the wall's end wants no distance
    const double last = free.to - beside.length() - (free.to < job.walls[wall].length ? kBetween : 0);
    if (last < first) continue;                            // the stretch is too narrow
    if (free.from >= beside.to) return std::round(first);  // from the left, the first one right of it is the nearest
    before = std::round(last);
  }
  return before.value_or(beside.to + kBetween);  // the check tells that there is no room
}

/// What the usual gaps take off an opening of this width, along and up. A door stands on its own figure, or on the
/// floor.
std::pair<double, double> usualGaps(const job::Unit& unit, double width, const practice::Clearance& clearance) {
  const auto usual = [&](const practice::Bands& bands) {
    const practice::Figure* figure = bands.at(width);
    return figure != nullptr ? figure->value : kUsualGap;
  };
  const double on_floor = clearance.door_sill_usual ? clearance.door_sill_usual->value : 0;
  const double sill = job::isDoor(unit.kind) ? on_floor : usual(clearance.sill_usual);
  return {2 * usual(clearance.side_usual), sill + usual(clearance.head_usual)};
}

/// A head over something that begins so far further right, its corners so much lower; a triangle stays one.
job::Head lowered(job::Head head, double along, double down) {  // 0 stays 0: it is a triangle's corner, or no peak
  for (double* z : {&head.left, &head.right, &head.peak_z}) *z = *z > 0 ? std::max(*z - down, 1.0) : 0;
  head.peak_x -= head.peaked() ? along : 0;
  return head;
}

/// Sizes between lines, the last one what is left, so that they follow the unit's.
std::vector<double> between(const std::vector<double>& at) {
  std::vector<double> sizes;
  for (std::size_t i = 0; i + 2 < at.size(); ++i) sizes.push_back(tidy(std::abs(at[i + 1] - at[i])));  // z falls
  sizes.push_back(0);
  return sizes;
}

/// The lights in rows; a unit that isn't divided has one.
std::vector<job::Light> lightsOf(const job::Unit& unit) {
  return unit.lights.empty() ? std::vector{static_cast<job::Light>(unit.kind)} : unit.lights;
}

/// A copy, not its fields one by one: a field that the job gets later is kept too.
job::Job restOf(const job::Job& job) {
  job::Job rest = job;
  rest.walls.clear();
  rest.openings.clear();
  return rest;
}

template <class Thing>
Change<Thing> changeOf(const std::vector<Thing>& before, const std::vector<Thing>& after) {
  const auto [first, other_first] = std::mismatch(before.begin(), before.end(), after.begin(), after.end());
  const auto [end, other_end] = std::mismatch(before.rbegin(), std::make_reverse_iterator(first), after.rbegin(),
                                              std::make_reverse_iterator(other_first));
  return {static_cast<std::size_t>(first - before.begin()), {first, end.base()}, {other_first, other_end.base()}};
}

template <class Thing>
void apply(const Change<Thing>& change, std::vector<Thing>& to, bool forwards) {
  const std::vector<Thing>& out = forwards ? change.before : change.after;
  const std::vector<Thing>& in = forwards ? change.after : change.before;
  assert(change.at + out.size() <= to.size());  // the job is the one that the step was recorded from
  const auto at = to.begin() + static_cast<std::ptrdiff_t>(change.at);
  to.insert(to.erase(at, at + static_cast<std::ptrdiff_t>(out.size())), in.begin(), in.end());
}

glm::dvec2 along(const job::Wall& wall) {
  const double turn = wall.turn_degrees * std::numbers::pi / 180;
  return {std::cos(turn), std::sin(turn)};
}

glm::dvec2 endOf(const job::Wall& wall, bool right) {
  return glm::dvec2(wall.at_x, wall.at_y) + along(wall) * (right ? wall.length : 0);
}

bool meet(const glm::dvec2& a, const glm::dvec2& b) { return glm::distance(a, b) < kMeet; }

/// Makes a wall longer by so much at one end, all that is in it staying in its place. False: there is no room.
bool grow(job::Job& job, std::size_t index, double by, bool right) {
  job::Wall& wall = job.walls[index];
  double from = wall.length;  // openings and corners take from … to; none: from > to
  double to = 0;
  const auto keep = [&](double low, double high) {
    from = std::min(from, low);
    to = std::max(to, high);
  };
  for (std::size_t i = 1; i + 1 < wall.top.size(); ++i) keep(wall.top[i].x, wall.top[i].x);  // its corners, which stay
  for (const job::Opening& each : job.openings) {
    if (each.wall == index) keep(each.left, each.left + each.width);
  }
  const double room = right ? wall.length - to : from;                                 // at the end that moves
  const double least = job::tableOf<job::Wall>().at("length").from;                    // what a job file may say
  if (by < 0 && (-by > room - kFromCorner || wall.length + by < least)) return false;  // longer is always possible
  wall.length += by;
  wall.top.back().x = wall.length;
  if (right) return true;                                                     // all in it is measured from its left end
  for (std::size_t i = 1; i + 1 < wall.top.size(); ++i) wall.top[i].x += by;  // the left end went out by so much
  for (job::Opening& each : job.openings) {
    if (each.wall == index) each.left += by;
  }
  return true;
}

/// Takes along what met `from`, which went by `v`. `moved`: the walls that have had their turn.
void follow(job::Job& job, const glm::dvec2& from, const glm::dvec2& v, std::vector<bool>& moved) {
  for (std::size_t i = 0; i < job.walls.size(); ++i) {
    job::Wall& wall = job.walls[i];
    const bool right = meet(endOf(wall, true), from);
    if (moved[i] || !(right || meet(endOf(wall, false), from))) continue;
    moved[i] = true;                     // once each: in a ring of walls it would never end
    const glm::dvec2 way = along(wall);  // a wall can give or take length only this way
    const glm::dvec2 far = endOf(wall, !right);
    const double by = glm::dot(v, way);  // positive towards its right end
    const bool aside = std::abs(v.x * way.y - v.y * way.x) > kAside * glm::length(v);
    if (aside || (grow(job, i, right ? by : -by, right) && !right)) {
      wall.at_x = tidy(wall.at_x + v.x);  // a wall's place is that of its left end
      wall.at_y = tidy(wall.at_y + v.y);
    }
    if (aside) follow(job, far, v, moved);  // it moved as a whole: what meets its other end follows
  }
}

/// "N3" after "N1" and "N2"; "north 2" after "north": the first of its kind that no wall or opening has.
std::string freeName(const job::Job& job, const std::string& like) {
  std::string stem = like;
  while (!stem.empty() && stem.back() >= '0' && stem.back() <= '9') stem.pop_back();
  // A letter with a number is a mark; a word with a number has a blank between.
  if (stem == like && stem.size() > 1) stem += ' ';
  if (stem.empty()) stem = "W";  // it was nothing but a number
  for (int number = 1;; ++number) {
    std::string name = stem + std::to_string(number);
    if (indexOf(job.openings, name) < 0 && indexOf(job.walls, name) < 0) return name;
  }
}

}  // namespace

void sizeUnit(job::Opening& opening, const practice::Practice& practice) {
  const auto [along, up] = usualGaps(opening.unit, opening.width, practice.clearance);
  opening.unit.width = opening.width - along;
  opening.unit.height = opening.height - up;
  if (opening.head) opening.unit.head = lowered(*opening.head, along / 2, up);  // the unit stands in the middle
}

void sizeOpening(job::Opening& opening, const practice::Practice& practice) {
  // The gaps go by the opening's width: that of the unit with its own gaps is near enough to tell the band.
  const double near = opening.unit.width + usualGaps(opening.unit, opening.unit.width, practice.clearance).first;
  const auto [along, up] = usualGaps(opening.unit, near, practice.clearance);
  opening.width = opening.unit.width + along;
  opening.height = opening.unit.height + up;
  if (opening.unit.head) opening.head = lowered(*opening.unit.head, -along / 2, -up);
}

std::size_t addOpening(job::Job& job, std::size_t wall, const plan::Plan& plan, const practice::Practice& practice) {
  assert(wall < job.walls.size() && wall < plan.walls.size());  // `plan` is of the job as it was
  const std::vector<Stretch> stretches = freeOf(job, wall);
  const auto shorter = [](const Stretch& a, const Stretch& b) { return a.length() < b.length(); };
  const Stretch free = stretches.empty() ? Stretch{} : *std::max_element(stretches.begin(), stretches.end(), shorter);
  const job::Wall& on = job.walls[wall];
  job::Opening opening;
  const auto same = std::find_if(job.openings.begin(), job.openings.end(),  // the new name follows from its name
                                 [&](const job::Opening& each) { return each.wall == wall; });
  std::string like = "W1";
  if (same != job.openings.end()) {
    like = same->name;
  } else if (!on.name.empty() && on.name[0] >= 'a' && on.name[0] <= 'z') {
    like = std::string(1, static_cast<char>(on.name[0] - 'a' + 'A')) + "1";  // "north": "N1"
  }
  opening.name = freeName(job, like);
  opening.wall = wall;
  opening.width = std::clamp(kNewWidth, kNarrowest, std::max(kNarrowest, free.length() - 2 * kBetween));
  opening.left = std::round(free.from + (free.length() - opening.width) / 2);  // in the middle of the stretch
  const double middle = opening.left + opening.width / 2;                      // the wall's top may slope
  const double room = plan::topLineBelow(plan.walls[wall].spec, 0).height(middle) - kOverHead;
  opening.height = kNewHeight;
  opening.sill = std::max(0.0, std::round(std::min(kNewHead, room) - opening.height));
  opening.unit.kind = job::UnitKind::SlidingWindow;
  sizeUnit(opening, practice);
  opening.unit.reveal = job::Reveal{kRevealBoard, plan.walls[wall].spec.depth()};  // as deep as frame and lining
  job.openings.push_back(std::move(opening));
  return job.openings.size() - 1;
}

std::size_t copyOpening(job::Job& job, std::size_t index) {
  assert(index < job.openings.size());
  job::Opening copy = job.openings[index];
  copy.name = freeName(job, copy.name);
  copy.measured.reset();  // nobody has measured there
  copy.installed.reset();
  copy.place = {};  // it is in no file yet
  copy.left = freePlace(job, copy.wall, {copy.left, copy.left + copy.width});
  job.openings.push_back(std::move(copy));
  return job.openings.size() - 1;
}

void removeOpening(job::Job& job, std::size_t opening) {
  job.openings.erase(job.openings.begin() + static_cast<std::ptrdiff_t>(opening));
}

void addMullion(job::Unit& unit, std::size_t row, std::size_t column) {
  plan::Grid grid = plan::linesOf(unit);
  const std::size_t columns = grid.x.size() - 1;
  const std::vector<job::Light> lights = lightsOf(unit);  // row by row; rows and columns of glass_of begin at 1
  unit.lights.clear();
  for (std::size_t i = 0; i < lights.size(); ++i) {
    unit.lights.push_back(lights[i]);
    if (i % columns == column) unit.lights.push_back(i / columns == row ? lights[i] : job::Light::Joined);
  }
  const auto divided = static_cast<double>(column + 1);
  for (std::size_t i = 0, told = unit.glass_of.size(); i < told; ++i) {
    job::LightGlass right = unit.glass_of[i];
    ++right.column;
    if (unit.glass_of[i].column > divided) unit.glass_of[i] = right;
    // The new half keeps the glass of the whole: safety is not lost by a bar.
    else if (right.row == static_cast<double>(row + 1) && right.column == divided + 1)
      unit.glass_of.push_back(right);
  }
  const auto after = grid.x.begin() + static_cast<std::ptrdiff_t>(column) + 1;  // the line at the light's right
  grid.x.insert(after, (*(after - 1) + *after) / 2);
  unit.columns = between(grid.x);
  if (unit.rows.empty() && grid.z.size() > 2) unit.rows = between(grid.z);  // until now the number of lights told them
}

void addTransom(job::Unit& unit, std::size_t row) {
  constexpr double kOverlight = 400;  // common practice, no source
  plan::Grid grid = plan::linesOf(unit);
  const auto columns = static_cast<std::ptrdiff_t>(grid.x.size()) - 1;
  unit.lights = lightsOf(unit);
  const auto first = unit.lights.begin() + static_cast<std::ptrdiff_t>(row) * columns;
  std::vector<job::Light> over(first, first + columns);  // lights over joined ones are joined as these are
  for (job::Light& light : over)
    light = light == job::Light::Joined ? light : static_cast<job::Light>(job::UnitKind::FixedWindow);
  unit.lights.insert(first, over.begin(), over.end());
  for (job::LightGlass& glass : unit.glass_of) glass.row += glass.row > static_cast<double>(row) ? 1 : 0;
  const double high = std::min(kOverlight, (grid.z[row] - grid.z[row + 1]) / 2);
  grid.z.insert(grid.z.begin() + static_cast<std::ptrdiff_t>(row) + 1, grid.z[row] - high);
  unit.rows = between(grid.z);
}

void fillLight(job::Unit& unit, std::size_t row, std::size_t column, job::Light filled) {
  if (unit.lights.empty()) {
    unit.kind = static_cast<job::UnitKind>(filled);
  } else {
    unit.lights[row * (plan::linesOf(unit).x.size() - 1) + column] = filled;
  }
}

void moveBar(job::Unit& unit, bool mullion, std::size_t line, double to) {
  plan::Grid grid = plan::linesOf(unit);
  std::vector<double>& lines = mullion ? grid.x : grid.z;
  lines[line] = to;
  (mullion ? unit.columns : unit.rows) = between(lines);
}

std::size_t addWall(job::Job& job, std::size_t after) {
  const job::Wall& from = job.walls[after];
  job::Wall wall = from;
  wall.name = freeName(job, from.name);
  wall.length = kNewWall;
  const glm::dvec2 end = endOf(from, true);
  wall.at_x = tidy(end.x);
  wall.at_y = tidy(end.y);
  wall.turn_degrees = from.turn_degrees + 90 > 180 ? from.turn_degrees - 270 : from.turn_degrees + 90;
  const double height = from.top.back().z;  // its top goes on level where the other's ends
  wall.top = {{0, height}, {kNewWall, height}};
  wall.place = {};  // it is in no file yet
  wall.timber_place = {};
  job.walls.push_back(std::move(wall));
  return job.walls.size() - 1;
}

bool removeWall(job::Job& job, std::size_t wall) {
  if (job.walls.size() < 2) return false;  // a job must have a wall
  std::erase_if(job.openings, [&](const job::Opening& opening) { return opening.wall == wall; });
  for (job::Opening& opening : job.openings) {
    if (opening.wall > wall) --opening.wall;  // walls behind it move up by one
  }
  job.walls.erase(job.walls.begin() + static_cast<std::ptrdiff_t>(wall));
  return true;
}

void History::apply(const Step& step, job::Job& to, bool forwards) {
  if (step.rest) {
    job::Job rest = (*step.rest)[forwards ? 1 : 0];
    rest.walls = std::move(to.walls);  // `rest` has none; the two lists are changed below
    rest.openings = std::move(to.openings);
    rest.file = std::move(to.file);  // it may have been saved under another name since
    to = std::move(rest);
  }
  document::apply(step.walls, to.walls, forwards);
  document::apply(step.openings, to.openings, forwards);
}

bool History::record(std::string name, const job::Job& before, const job::Job& after) {
  Step step{std::move(name), changeOf(before.walls, after.walls), changeOf(before.openings, after.openings), {}};
  job::Job rest_before = restOf(before);
  job::Job rest_after = restOf(after);
  if (!(rest_before == rest_after)) step.rest = {std::move(rest_before), std::move(rest_after)};
  if (step.walls.empty() && step.openings.empty() && !step.rest) return false;
  steps_.resize(place_);  // a new edit ends what was undone
  steps_.push_back(std::move(step));
  ++place_;
  return true;
}

void lengthenWall(job::Job& job, std::size_t index, double length) {
  job::Wall& wall = job.walls[index];
  const glm::dvec2 from = endOf(wall, true);
  const glm::dvec2 v = along(wall) * (length - wall.length);
  wall.length = length;
  wall.top.back().x = length;
  std::vector<bool> moved(job.walls.size(), false);
  moved[index] = true;  // its own left end stays
  if (v != glm::dvec2(0.0)) follow(job, from, v, moved);
}

std::string openedAt(const job::Job& before, const job::Job& after, std::size_t index) {
  if (before.walls.size() != after.walls.size()) return {};  // a wall more or less: indices don't match
  for (const bool end : {false, true}) {
    for (std::size_t i = 0; i < before.walls.size(); ++i) {
      for (const bool other : {false, true}) {
        if (i == index || !meet(endOf(before.walls[index], end), endOf(before.walls[i], other))) continue;
        if (!meet(endOf(after.walls[index], end), endOf(after.walls[i], other)))
          return "the corner with " + after.walls[i].name + " opens";
        const auto step = [&](const job::Job& job) {
          const auto top = [](const job::Wall& wall, bool right) { return right ? wall.top.back().z : wall.top[0].z; };
          return std::abs(top(job.walls[index], end) - top(job.walls[i], other));
        };
        if (step(before) < kSameHeight && step(after) >= kSameHeight)
          return "the top no longer meets that of " + after.walls[i].name;
      }
    }
  }
  return {};
}

}  // namespace sillwright::document
