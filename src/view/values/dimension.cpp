#include "view/values/dimension.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <utility>
#include <variant>

#include "document/edits.h"
#include "job/tables.h"
#include "plan/panes.h"
#include "scene/build/magnify.h"
#include "scene/section/section.h"
#include "view/values/readings.h"

namespace sillwright::view {

namespace {

using Kind = DimensionKind;

/// What of the job a dimension is.
using Member = std::variant<double job::Opening::*, double job::Unit::*, double job::Head::*, double job::Wall::*,
                            double job::TopPoint::*, double job::Eave::*>;

struct Info {
  const char* word;
  const char* key;  ///< Of the file's table of its member: its bounds are the file's.
  Member member;
};

/// As DimensionKind.
constexpr std::array<Info, static_cast<std::size_t>(Kind::EaveOverhang) + 1> kInfo{{
    {"left edge", "left", &job::Opening::left},     {"sill", "sill", &job::Opening::sill},
    {"width", "width", &job::Opening::width},       {"height", "height", &job::Opening::height},
    {"left edge", "left", &job::Opening::left},     {"sill", "sill", &job::Opening::sill},
    {"unit width", "width", &job::Unit::width},     {"unit height", "height", &job::Unit::height},
    {"mullion", "width", &job::Unit::width},        {"transom", "height", &job::Unit::height},
    {"head at the left", "left", &job::Head::left}, {"head at the right", "right", &job::Head::right},
    {"peak along", "peak", &job::Head::peak_x},     {"peak", "peak", &job::Head::peak_z},
    {"length", "length", &job::Wall::length},       {"top", "top", &job::TopPoint::z},
    {"top corner", "length", &job::TopPoint::x},    {"top corner's height", "top", &job::TopPoint::z},
    {"soffit", "soffit", &job::Eave::soffit},       {"eave's reach", "overhang", &job::Eave::overhang},
}};

const Info& infoOf(Kind kind) { return kInfo[static_cast<std::size_t>(kind)]; }

/// Where a member's value is kept in a job, which may be const; null where the wall has no eave.
template <class Job>
struct PlaceIn {
  Job& all;
  const Dimension& of;

  auto* operator()(double job::Opening::*member) const { return &(all.openings[of.of].*member); }
  auto* operator()(double job::Unit::*member) const { return &(all.openings[of.of].unit.*member); }
  auto* operator()(double job::Head::*member) const {
    auto& head = all.openings[of.of].head;
    return head ? &((*head).*member) : nullptr;
  }
  auto* operator()(double job::Wall::*member) const { return &(all.walls[of.of].*member); }
  auto* operator()(double job::TopPoint::*member) const { return &(all.walls[of.of].top[of.point].*member); }
  auto* operator()(double job::Eave::*member) const {
    auto& eave = all.walls[of.of].eave;
    return eave ? &((*eave).*member) : nullptr;
  }
};

/// The file's table that a member is a key of; corners of a wall's top are the wall's.
struct TableOf {
  const job::TableRule& operator()(double job::TopPoint::*) const { return job::tableOf<job::Wall>(); }
  template <class Table>
  const job::TableRule& operator()(double Table::*) const {
    return job::tableOf<Table>();
  }
};

job::Holds ruleOf(Kind kind) {  // what the file's key may be, whatever the rest of the job leaves
  const Info& info = infoOf(kind);
  return std::visit(TableOf{}, info.member).at(info.key);
}

void narrow(job::Holds& holds, double from, double to) {  // never to less than one value
  holds.from = std::max(holds.from, from);
  holds.to = std::max(std::min(holds.to, to), holds.from);  // never below `from`: std::clamp wants that
}

/// Where a corner of a head may go: no slope comes to 45 degrees, and a peak stays above its sides.
void narrowHead(job::Holds& holds, const job::Opening& opening, Kind kind) {
  constexpr double kIn = 1;  // mm short of what isn't allowed
  const job::Head& head = *opening.head;
  const double first = head.peaked() ? head.peak_x : opening.width;  // along the slope at the left …
  const double last = opening.width - head.peak_x;                   // … and at the right
  if (!head.peaked()) {
    const double other = kind == Kind::HeadLeft ? head.right : head.left;
    return narrow(holds, other - first + kIn, other + first - kIn);
  }
  if (kind == Kind::HeadLeft) return narrow(holds, head.peak_z - first + kIn, head.peak_z - kIn);
  if (kind == Kind::HeadRight) return narrow(holds, head.peak_z - last + kIn, head.peak_z - kIn);
  if (kind == Kind::HeadPeakX)
    return narrow(holds, head.peak_z - head.left + kIn, opening.width - head.peak_z + head.right - kIn);
  narrow(holds, std::max(head.left, head.right) + kIn, std::min(head.left + first, head.right + last) - kIn);
}

/// The unit's head moves with a corner of its opening's, and both are as high as their highest corners.
void followCorner(job::Opening& opening, double job::Head::*corner, double by) {
  if (!opening.unit.head) return;
  double& of_unit = (*opening.unit.head).*corner;
  of_unit = std::max(of_unit + by, 0.0);
  opening.height = opening.head->top();
  opening.unit.height = opening.unit.head->top();
}

/// Whether it is a wall's; else it is an opening's.
bool isOfWall(Kind kind) { return kind >= Kind::WallLength; }                     // DimensionKind has them last
bool isBar(Kind kind) { return kind == Kind::Mullion || kind == Kind::Transom; }  // dividing a unit's lights

/// The unit's lines that a mullion or a transom is one of.
std::vector<double> linesAlong(const job::Job& job, const Dimension& dimension) {
  const plan::Grid grid = plan::linesOf(job.openings[dimension.of].unit);
  return dimension.kind == Kind::Mullion ? grid.x : grid.z;
}

constexpr float kClear = 12.0F;  // handles stand so far before the wall's face

/// Makes handles on one wall.
struct Maker {
  const document::Document& document;
  const scene::WallFrame& frame;
  float y = 0.0F;
  std::vector<Handle> made;

  [[nodiscard]] glm::vec3 place(double x, double z) const {  // from the wall's x and z; in the world
    return frame.toWorld({static_cast<float>(x), y, static_cast<float>(z)});
  }
  void add(const std::vector<Dimension>& dimensions, double x, double z, glm::vec3 along,
           glm::vec3 across = glm::vec3(0.0F)) {
    const Kind kind = dimensions.front().kind;
    const bool of_unit = kind >= Kind::UnitWidth && kind <= Kind::Transom;
    made.push_back({nameOf(document.job, dimensions.front()), dimensions, {}, place(x, z), along, across, of_unit});
  }
};

const glm::vec3 kUp{0.0F, 0.0F, 1.0F};

/// Where a corner stands off its planned place; BL is where readings start from, and stands off nothing.
plan::Point deviationOf(const document::Document& document, const BuiltCorner& corner) {
  const job::Opening& opening = document.job.openings[corner.opening];
  const auto at = static_cast<std::size_t>(corner.corner);
  const plan::Point built = document.plan.openings[corner.opening].as_built.shape.corner[at];
  const plan::Point planned = plan::plannedShape(plan::headLineOf(opening)).corner[at];
  return {built.x - planned.x, built.z - planned.z};
}

/// The three corners that readings tell the place of, where any were taken.
void addBuiltCorners(Maker& maker, std::size_t index) {
  const plan::AsBuilt& built = maker.document.plan.openings[index].as_built;
  if (built.trust == plan::Trust::Planned || !built.converged) return;  // there is no shape to take hold of
  const job::Opening& opening = maker.document.job.openings[index];
  const double times = maker.document.drawn_deviation;
  constexpr std::array<std::pair<plan::Corner, const char*>, 3> kCorners{
      {{plan::Corner::BR, "lower right"}, {plan::Corner::TR, "upper right"}, {plan::Corner::TL, "upper left"}}};
  for (const auto& [corner, word] : kCorners) {
    const auto at = static_cast<std::size_t>(corner);
    const plan::Point planned = plan::plannedShape(plan::headLineOf(opening)).corner[at];
    const plan::Point drawn = scene::magnified(built.shape.corner[at], planned, times);
    maker.made.push_back({.name = std::string(word) + " corner of " + opening.name + " as built",
                          .corner = BuiltCorner{index, corner, times},
                          .at = maker.place(opening.left + drawn.x, opening.sill + drawn.z),
                          .along = maker.frame.along,
                          .across = kUp});
  }
}

/// The corners of a head that follows the roof: each up and down, a peak along too.
void addHeadCorners(Maker& maker, std::size_t index) {
  const job::Opening& opening = maker.document.job.openings[index];
  const job::Head& head = *opening.head;
  maker.add({{Kind::HeadLeft, index}}, opening.left, opening.sill + head.left, kUp);
  maker.add({{Kind::HeadRight, index}}, opening.left + opening.width, opening.sill + head.right, kUp);
  if (!head.peaked()) return;
  maker.add({{Kind::HeadPeakX, index}, {Kind::HeadPeakZ, index}}, opening.left + head.peak_x,
            opening.sill + head.peak_z, maker.frame.along, kUp);
}

/// Mullions and transoms of a unit that is made in one piece. A line that every row has joined over is none.
void addBars(Maker& maker, std::size_t index, double unit_x, double unit_z) {
  const job::Unit& unit = maker.document.job.openings[index].unit;
  if (!unit.coupled.empty()) return;
  const plan::Grid grid = plan::linesOf(unit);
  const std::size_t columns = grid.x.size() - 1;
  const double mullions_z = unit_z + unit.height * 0.6;  // off the middle, where an edge's handle is
  for (std::size_t line = 1; line < columns; ++line) {
    bool there = false;
    for (std::size_t i = line; i < unit.lights.size(); i += columns) there |= unit.lights[i] != job::Light::Joined;
    if (there) maker.add({{Kind::Mullion, index, line}}, unit_x + grid.x[line], mullions_z, maker.frame.along);
  }
  const double transoms_x = unit_x + unit.width * 0.35;  // off the middle, where head and sill have theirs
  for (std::size_t line = 1; line + 1 < grid.z.size(); ++line)
    maker.add({{Kind::Transom, index, line}}, transoms_x, unit_z + grid.z[line], kUp);
}

void addOpening(Maker& maker, std::size_t index) {  // edges, the whole, corners as built, then the unit's
  const job::Opening& opening = maker.document.job.openings[index];
  const plan::OpeningPlan& planned = maker.document.plan.openings[index];
  const glm::vec3 right = maker.frame.along;
  const double middle_x = opening.left + opening.width / 2;
  const double middle_z = opening.sill + opening.height / 2;
  maker.add({{Kind::Width, index}}, opening.left + opening.width, middle_z, right);
  if (opening.head) {
    addHeadCorners(maker, index);
  } else {
    maker.add({{Kind::LeftEdge, index}}, opening.left, middle_z, right);
    maker.add({{Kind::SillEdge, index}}, middle_x, opening.sill, kUp);
    maker.add({{Kind::Height, index}}, middle_x, opening.sill + opening.height, kUp);
  }
  maker.add({{Kind::Left, index}, {Kind::Sill, index}}, middle_x, opening.sill + opening.height * 0.3, right, kUp);
  maker.made.back().name = opening.name + " as a whole";
  addBuiltCorners(maker, index);
  const double unit_x = opening.left + planned.stand.x;
  const double unit_z = opening.sill + planned.stand.z;
  const plan::UnitSpec& unit = planned.unit;
  maker.add({{Kind::UnitWidth, index}}, unit_x + unit.width, unit_z + unit.height * 0.8, right);
  addBars(maker, index, unit_x, unit_z);
  if (!opening.head) maker.add({{Kind::UnitHeight, index}}, unit_x + unit.width * 0.8, unit_z + unit.height, kUp);
}

void addWall(Maker& maker, std::size_t index) {
  const job::Wall& wall = maker.document.job.walls[index];
  const glm::vec3 right = maker.frame.along;
  maker.add({{Kind::WallLength, index}}, wall.length, wall.top.back().z / 2, right);
  const bool level = isLevel(wall);
  if (level) maker.add({{Kind::WallTop, index}}, wall.length / 2, wall.top.front().z, kUp);
  for (std::size_t i = 0; !level && i < wall.top.size(); ++i) {
    const bool end = i == 0 || i + 1 == wall.top.size();  // which goes with the wall's length
    const Dimension height{Kind::TopZ, index, i};
    if (end) maker.add({height}, wall.top[i].x, wall.top[i].z, kUp);
    if (!end) maker.add({{Kind::TopX, index, i}, height}, wall.top[i].x, wall.top[i].z, right, kUp);
  }
  if (!wall.eave) return;
  maker.y = -static_cast<float>(wall.eave->overhang);  // the wall's last ones: under the eave's edge
  maker.add({{Kind::EaveSoffit, index}}, wall.length * 0.4, wall.eave->soffit, kUp);
  maker.add({{Kind::EaveOverhang, index}}, wall.length * 0.6, wall.eave->soffit, -maker.frame.inward);
}

/// The nearest of what has been offered so far, in pixels from the pointer.
struct Nearest {
  const render::Camera& camera;
  glm::vec2 pointer;
  glm::vec2 size;
  float least;
  const std::optional<scene::Cut>& cut;
  std::optional<glm::vec3> place;

  void offer(glm::vec3 world) {
    if (cut && cut->beyond(world) > 0.01F) return;  // it isn't there
    const glm::vec3 seen = render::project(camera, world, size.x, size.y);
    if (seen.z <= 0.0F) return;
    const float away = glm::distance(glm::vec2(seen), pointer);
    if (away >= least) return;
    least = away;
    place = world;
  }
};

/// The place of an edge that is nearest to a place in space.
glm::vec3 onEdge(glm::vec3 a, glm::vec3 b, glm::vec3 near) {
  const glm::vec3 along = b - a;
  const float square = glm::dot(along, along);
  const float t = square > 0.0F ? std::clamp(glm::dot(near - a, along) / square, 0.0F, 1.0F) : 0.0F;
  return a + along * t;
}

}  // namespace

bool isLevel(const job::Wall& wall) {
  return std::all_of(wall.top.begin(), wall.top.end(), [&](const auto& point) { return point.z == wall.top[0].z; });
}

std::string nameOf(const job::Job& job, const Dimension& dimension) {
  const bool of_wall = isOfWall(dimension.kind);
  return std::string(infoOf(dimension.kind).word) + " of " +
         (of_wall ? job.walls[dimension.of].name : job.openings[dimension.of].name);
}

double valueOf(const job::Job& job, const Dimension& dimension) {
  if (isBar(dimension.kind)) return linesAlong(job, dimension)[dimension.point];
  const double* place = std::visit(PlaceIn<const job::Job>{job, dimension}, infoOf(dimension.kind).member);
  return place != nullptr ? *place : 0;
}

job::Holds boundsOf(const job::Job& job, const Dimension& dimension) {
  job::Holds holds = ruleOf(dimension.kind);
  if (isOfWall(dimension.kind)) {
    const auto& top = job.walls[dimension.of].top;
    if (dimension.kind == Kind::WallLength && top.size() > 2) {  // the last corner before the end stays within it
      narrow(holds, top[top.size() - 2].x + job::kLeastBetweenCorners, holds.to);
    }
    if (dimension.kind == Kind::TopX) {
      assert(dimension.point > 0 && dimension.point + 1 < top.size());  // the ends go with the wall's length
      narrow(holds, top[dimension.point - 1].x + job::kLeastBetweenCorners,
             top[dimension.point + 1].x - job::kLeastBetweenCorners);
    }
    return holds;
  }
  if (isBar(dimension.kind)) {  // as far as the lights beside it have room for glass
    const std::vector<double> lines = linesAlong(job, dimension);
    const auto [low, high] = std::minmax(lines[dimension.point - 1], lines[dimension.point + 1]);
    narrow(holds, low + plan::kLeastLight, high - plan::kLeastLight);
  }
  const job::Opening& opening = job.openings[dimension.of];
  if (opening.head && dimension.kind >= Kind::HeadLeft) narrowHead(holds, opening, dimension.kind);
  if (opening.head && dimension.kind == Kind::Width) narrow(holds, opening.head->peak_x + 1, holds.to);
  const auto keepSize = [&](Kind size, double across) {  // the edge across stays, and the size within its rule
    const job::Holds rule = ruleOf(size);
    narrow(holds, across - rule.to, across - rule.from);
  };
  if (dimension.kind == Kind::LeftEdge) keepSize(Kind::Width, opening.left + opening.width);
  if (dimension.kind == Kind::SillEdge) keepSize(Kind::Height, opening.sill + opening.height);
  return holds;
}

void setValue(job::Job& job, const Dimension& dimension, double value) {
  const job::Holds holds = boundsOf(job, dimension);
  value = std::clamp(value, holds.from, holds.to);
  // What goes with it: the edge across from one that moves alone stays, and a wall's top keeps to its wall.
  const Kind kind = dimension.kind;
  if (isBar(kind))
    return document::moveBar(job.openings[dimension.of].unit, kind == Kind::Mullion, dimension.point, value);
  if (kind == Kind::LeftEdge) job.openings[dimension.of].width += job.openings[dimension.of].left - value;
  if (kind == Kind::SillEdge) job.openings[dimension.of].height += job.openings[dimension.of].sill - value;
  if (kind == Kind::WallLength) document::lengthenWall(job, dimension.of, value);
  if (kind == Kind::WallTop) {
    for (job::TopPoint& point : job.walls[dimension.of].top) point.z = value;
  }
  const Member& member = infoOf(dimension.kind).member;
  double* place = std::visit(PlaceIn<job::Job>{job, dimension}, member);
  if (place == nullptr) return;
  const double by = value - *place;
  *place = value;
  if (const auto* corner = std::get_if<double job::Head::*>(&member)) {
    followCorner(job.openings[dimension.of], *corner, by);
  }
}

std::vector<Handle> handlesOf(const document::Document& document, std::int32_t wall, std::int32_t opening,
                              const render::Camera& camera, float spread) {
  if (opening >= 0) wall = static_cast<std::int32_t>(document.job.openings[static_cast<std::size_t>(opening)].wall);
  if (wall < 0) return {};
  const auto index = static_cast<std::size_t>(wall);
  const scene::WallFrame& frame = document.scene.walls[index];
  const plan::WallSpec& spec = document.plan.walls[index].spec;
  const bool inside = glm::dot(camera.eye() - frame.origin, frame.inward) > frame.depth;
  const double outer = spread > 0.0F ? 0 : spec.cladding.cavity + spec.cladding.thickness;  // else it is elsewhere
  const float y = inside ? static_cast<float>(spec.depth()) + kClear : -static_cast<float>(outer) - kClear;
  Maker maker{document, frame, y, {}};
  if (opening >= 0) {
    addOpening(maker, static_cast<std::size_t>(opening));
  } else {
    addWall(maker, index);
  }
  for (Handle& handle : maker.made) {
    if (handle.of_unit) handle.at += frame.inward * render::spreadOffset(scene::Layer::Unit, spread);  // with its layer
  }
  return std::move(maker.made);
}

std::optional<glm::dvec2> reach(const Handle& handle, const render::Ray& ray) {
  const glm::dvec3 to = glm::dvec3(handle.at) - glm::dvec3(ray.from);
  const glm::dvec3 direction = ray.direction;  // doubles: tenths of a millimetre, metres from the eye
  const glm::dvec3 along = handle.along;
  constexpr double kEndOn = 0.03;  // sine below which a pixel is too many millimetres
  if (handle.across == glm::vec3(0.0F)) {
    // The point of the line that the ray comes nearest to.
    const double c = glm::dot(along, direction);
    const double apart = 1 - c * c;
    if (apart < kEndOn * kEndOn) return std::nullopt;
    return glm::dvec2{(c * glm::dot(to, direction) - glm::dot(to, along)) / apart, 0};
  }
  const glm::dvec3 across = handle.across;
  const glm::dvec3 normal = glm::cross(along, across);
  const double facing = glm::dot(direction, normal);
  if (std::abs(facing) < kEndOn) return std::nullopt;  // seen along its plane
  const glm::dvec3 at = glm::dvec3(ray.from) + direction * (glm::dot(to, normal) / facing) - glm::dvec3(handle.at);
  return glm::dvec2{glm::dot(at, along), glm::dot(at, across)};
}

std::optional<std::size_t> Handle::opening() const {
  if (corner) return corner->opening;
  return isOfWall(dimensions.front().kind) ? std::nullopt : std::optional(dimensions.front().of);
}

std::string figuresOf(const document::Document& document, const Handle& handle) {
  const practice::Display display = document.practice->display;
  std::string words;
  const auto add = [&](const std::string& more) { words += (words.empty() ? "" : ", ") + more; };
  for (const Dimension& dimension : handle.dimensions) add(figure(valueOf(document.job, dimension), display));
  if (!handle.corner) return words;
  const auto way = [&](double off, const char* ahead, const char* back) {
    const double tenths = std::round(off * 10) / 10;  // as exact as a tape is read
    if (tenths != 0) add(figure(std::abs(tenths), display) + (tenths > 0 ? ahead : back));
  };
  const plan::Point off = deviationOf(document, *handle.corner);
  way(off.x, " right", " left");
  way(off.z, " up", " down");
  return words.empty() ? "as planned" : words;
}

double snapped(double value, double step) { return step > 0 ? std::round(value / step) * step : value; }

glm::vec3 snappedPlace(const scene::Scene& scene, const scene::Hit& hit, const render::Camera& camera,
                       const render::Look& look, glm::vec2 pointer, glm::vec2 size, float reach) {
  const scene::Part& part = scene.parts[hit.part];
  const glm::vec3 shift = render::shownUnder(look).shiftOf(scene, part);
  Nearest corner{camera, pointer, size, reach, look.cut, {}};
  Nearest edge{camera, pointer, size, reach, look.cut, {}};
  for (const scene::Solid& solid : scene.solids) {
    if (solid.part != hit.part) continue;
    for (const glm::vec3& each : solid.corner) corner.offer(each + shift);
    for (std::size_t i = 0; i < scene::kEdges.size(); ++i) {
      if ((solid.edges >> i & 1U) == 0) continue;  // a seam is no edge
      const auto& ends = scene::kEdges[i];
      edge.offer(onEdge(solid.corner[ends[0]] + shift, solid.corner[ends[1]] + shift, hit.point));
    }
    const auto face = look.cut ? scene::cutThrough(solid, *look.cut, shift) : std::nullopt;
    for (std::size_t i = 0; face && i < face->count; ++i) {
      corner.offer(face->corner[i]);
      edge.offer(onEdge(face->corner[i], face->corner[(i + 1) % face->count], hit.point));
    }
  }
  if (corner.place) return *corner.place;  // a corner goes before an edge that is nearer
  return edge.place.value_or(hit.point);
}

Lengths lengthsBetween(glm::vec3 a, glm::vec3 b, const scene::WallFrame& wall) {
  const glm::dvec3 d = glm::dvec3(b) - glm::dvec3(a);
  return {glm::length(d), std::abs(glm::dot(d, glm::dvec3(wall.along))), std::abs(glm::dot(d, glm::dvec3(wall.inward))),
          std::abs(d.z)};
}

std::string wordsFor(const Lengths& lengths, practice::Display display) {
  constexpr double kNothing = 0.05;  // mm: a length of 0, or another length once more, when rounded to tenths
  std::string words = figure(std::round(lengths.straight * 10) / 10, display);
  const auto add = [&](const char* way, double mm) {
    if (mm >= kNothing && std::abs(mm - lengths.straight) >= kNothing) {
      words += std::string(", ") + way + " " + figure(std::round(mm * 10) / 10, display);
    }
  };
  add("along", lengths.along);
  add("through", lengths.through);
  add("up", lengths.up);
  return words;
}

}  // namespace sillwright::view
