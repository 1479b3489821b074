#include "view/values/handles.h"

#include <array>
#include <cmath>
#include <utility>

#include "plan/panes.h"
#include "render/renderer.h"
#include "scene/build/magnify.h"
#include "view/values/readings.h"

namespace sillwright::view {
namespace {

using Kind = DimensionKind;

constexpr float kClear = 12.0F;  // handles stand so far before the wall's face

/// Makes handles on one wall.
struct Maker {
  const document::Document& document;
  const scene::WallFrame& frame;
  float y = 0.0F;
  std::vector<Handle> made;

  void add(std::vector<Dimension> dimensions, double x, double z, glm::vec3 along, glm::vec3 across = glm::vec3(0.0F),
           bool of_unit = false) {
    Handle handle;
    handle.name = nameOf(document.job, dimensions.front());
    handle.dimensions = std::move(dimensions);
    handle.at = frame.toWorld({static_cast<float>(x), y, static_cast<float>(z)});
    handle.along = along;
    handle.across = across;
    handle.of_unit = of_unit;
    made.push_back(std::move(handle));
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
  if (built.trust == plan::Trust::Planned || !built.converged) return;
  const job::Opening& opening = maker.document.job.openings[index];
  const double times = maker.document.drawn_deviation;
  constexpr std::array<std::pair<plan::Corner, const char*>, 3> kCorners{
      {{plan::Corner::BR, "lower right"}, {plan::Corner::TR, "upper right"}, {plan::Corner::TL, "upper left"}}};
  for (const auto& [corner, word] : kCorners) {
    const auto at = static_cast<std::size_t>(corner);
    const plan::Point planned = plan::plannedShape(plan::headLineOf(opening)).corner[at];
    const plan::Point drawn = scene::magnified(built.shape.corner[at], planned, times);
    Handle handle;
    handle.name = std::string(word) + " corner of " + opening.name + " as built";
    handle.corner = BuiltCorner{index, corner, times};
    handle.at = maker.frame.toWorld(
        {static_cast<float>(opening.left + drawn.x), maker.y, static_cast<float>(opening.sill + drawn.z)});
    handle.along = maker.frame.along;
    handle.across = kUp;
    maker.made.push_back(std::move(handle));
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
  const plan::Grid grid = plan::linesOf(unit);
  const std::size_t columns = grid.x.size() - 1;
  for (std::size_t line = 1; unit.coupled.empty() && line < columns; ++line) {
    bool there = false;
    for (std::size_t i = line; i < unit.lights.size(); i += columns) there |= unit.lights[i] != job::Light::Joined;
    if (!there) continue;
    maker.add({{Kind::Mullion, index, line}}, unit_x + grid.x[line], unit_z + unit.height * 0.6, maker.frame.along,
              glm::vec3(0.0F), true);
  }
  for (std::size_t line = 1; unit.coupled.empty() && line + 1 < grid.z.size(); ++line) {
    maker.add({{Kind::Transom, index, line}}, unit_x + unit.width * 0.35, unit_z + grid.z[line], kUp, glm::vec3(0.0F),
              true);
  }
}

void addOpening(Maker& maker, std::size_t index) {
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
  maker.add({{Kind::UnitWidth, index}}, unit_x + planned.unit.width, unit_z + planned.unit.height * 0.8, right,
            glm::vec3(0.0F), true);
  addBars(maker, index, unit_x, unit_z);
  if (opening.head) return;
  maker.add({{Kind::UnitHeight, index}}, unit_x + planned.unit.width * 0.8, unit_z + planned.unit.height, kUp,
            glm::vec3(0.0F), true);
}

void addWall(Maker& maker, std::size_t index) {
  const job::Wall& wall = maker.document.job.walls[index];
  const glm::vec3 right = maker.frame.along;
  maker.add({{Kind::WallLength, index}}, wall.length, wall.top.back().z / 2, right);
  if (isLevel(wall)) {
    maker.add({{Kind::WallTop, index}}, wall.length / 2, wall.top.front().z, kUp);
  } else {
    for (std::size_t i = 0; i < wall.top.size(); ++i) {
      const bool end = i == 0 || i + 1 == wall.top.size();
      const Dimension height{Kind::TopZ, index, i};
      if (end) {
        maker.add({height}, wall.top[i].x, wall.top[i].z, kUp);
      } else {
        maker.add({{Kind::TopX, index, i}, height}, wall.top[i].x, wall.top[i].z, right, kUp);
      }
    }
  }
  if (!wall.eave) return;
  const float y = maker.y;
  maker.y = -static_cast<float>(wall.eave->overhang);
  maker.add({{Kind::EaveSoffit, index}}, wall.length * 0.4, wall.eave->soffit, kUp);
  maker.add({{Kind::EaveOverhang, index}}, wall.length * 0.6, wall.eave->soffit, -maker.frame.inward);
  maker.y = y;
}

}  // namespace

std::vector<Handle> handlesOf(const document::Document& document, std::int32_t wall, std::int32_t opening,
                              const render::Camera& camera, float spread) {
  if (opening >= 0) wall = static_cast<std::int32_t>(document.job.openings[static_cast<std::size_t>(opening)].wall);
  if (wall < 0) return {};
  const auto index = static_cast<std::size_t>(wall);
  const scene::WallFrame& frame = document.scene.walls[index];
  const plan::WallSpec& spec = document.plan.walls[index].spec;
  const bool inside = glm::dot(camera.eye() - frame.origin, frame.inward) > frame.depth;
  const double outer = spread > 0.0F ? 0 : spec.cladding.cavity + spec.cladding.thickness;
  Maker maker{document, frame, 0.0F, {}};
  maker.y = inside ? static_cast<float>(spec.depth()) + kClear : -static_cast<float>(outer) - kClear;
  if (opening >= 0) {
    addOpening(maker, static_cast<std::size_t>(opening));
  } else {
    addWall(maker, index);
  }
  for (Handle& handle : maker.made) {
    if (handle.of_unit) handle.at += frame.inward * render::spreadOffset(scene::Layer::Unit, spread);
  }
  return std::move(maker.made);
}

std::optional<glm::dvec2> reach(const Handle& handle, const render::Ray& ray) {
  const glm::dvec3 to = glm::dvec3(handle.at) - glm::dvec3(ray.from);
  const glm::dvec3 direction = ray.direction;
  const glm::dvec3 along = handle.along;
  constexpr double kEndOn = 0.03;  // sine below which a pixel is too many millimetres
  if (!handle.movesInPlane()) {
    // The point of the line that the ray comes nearest to.
    const double c = glm::dot(along, direction);
    const double apart = 1 - c * c;
    if (apart < kEndOn * kEndOn) return std::nullopt;
    return glm::dvec2{(c * glm::dot(to, direction) - glm::dot(to, along)) / apart, 0};
  }
  const glm::dvec3 across = handle.across;
  const glm::dvec3 normal = glm::cross(along, across);
  const double facing = glm::dot(direction, normal);
  if (std::abs(facing) < kEndOn) return std::nullopt;
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
    const double tenths = std::round(off * 10) / 10;
    if (tenths != 0) add(figure(std::abs(tenths), display) + (tenths > 0 ? ahead : back));
  };
  const plan::Point off = deviationOf(document, *handle.corner);
  way(off.x, " right", " left");
  way(off.z, " up", " down");
  return words.empty() ? "as planned" : words;
}

double snapped(double value, double step) { return step > 0 ? std::round(value / step) * step : value; }

}  // namespace sillwright::view
