#include "view/values/dimension.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <variant>

#include "document/edits.h"
#include "job/tables.h"
#include "plan/panes.h"

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

job::Holds ruleOf(Kind kind) {
  const Info& info = infoOf(kind);
  return std::visit(TableOf{}, info.member).at(info.key);
}

void narrow(job::Holds& holds, double from, double to) {
  holds.from = std::max(holds.from, from);
  holds.to = std::max(std::min(holds.to, to), holds.from);
}

/// Where a corner of a head may go: no slope comes to 45 degrees, and a peak stays above its sides.
void narrowHead(job::Holds& holds, const job::Opening& opening, Kind kind) {
  constexpr double kIn = 1;  // mm
  const job::Head& head = *opening.head;
  const double first = head.peaked() ? head.peak_x : opening.width;
  const double last = opening.width - head.peak_x;
  if (!head.peaked()) {
    const double other = kind == Kind::HeadLeft ? head.right : head.left;
    return narrow(holds, other - first + kIn, other + first - kIn);
  }
  if (kind == Kind::HeadLeft) return narrow(holds, head.peak_z - first + kIn, head.peak_z - kIn);
  if (kind == Kind::HeadRight) return narrow(holds, head.peak_z - last + kIn, head.peak_z - kIn);
  if (kind == Kind::HeadPeakX) {
    return narrow(holds, head.peak_z - head.left + kIn, opening.width - head.peak_z + head.right - kIn);
  }
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

bool isBar(Kind kind) { return kind == Kind::Mullion || kind == Kind::Transom; }

/// The unit's lines that a mullion or a transom is one of.
std::vector<double> linesAlong(const job::Job& job, const Dimension& dimension) {
  const plan::Grid grid = plan::linesOf(job.openings[dimension.of].unit);
  return dimension.kind == Kind::Mullion ? grid.x : grid.z;
}

}  // namespace

bool isOfWall(DimensionKind kind) { return kind >= Kind::WallLength; }

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
    if (dimension.kind == Kind::WallLength && top.size() > 2) {
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
  if (dimension.kind == Kind::LeftEdge) {
    const job::Holds width = ruleOf(Kind::Width);
    const double right = opening.left + opening.width;
    narrow(holds, right - width.to, right - width.from);
  }
  if (dimension.kind == Kind::SillEdge) {
    const job::Holds height = ruleOf(Kind::Height);
    const double head = opening.sill + opening.height;
    narrow(holds, head - height.to, head - height.from);
  }
  return holds;
}

void setValue(job::Job& job, const Dimension& dimension, double value) {
  const job::Holds holds = boundsOf(job, dimension);
  value = std::clamp(value, holds.from, holds.to);
  // What goes with it: the edge across from one that moves alone stays, and a wall's top keeps to its wall.
  switch (dimension.kind) {
    case Kind::LeftEdge:
      job.openings[dimension.of].width += job.openings[dimension.of].left - value;
      break;
    case Kind::SillEdge:
      job.openings[dimension.of].height += job.openings[dimension.of].sill - value;
      break;
    case Kind::WallLength:
      document::lengthenWall(job, dimension.of, value);
      break;
    case Kind::WallTop:
      for (job::TopPoint& point : job.walls[dimension.of].top) point.z = value;
      break;
    case Kind::Mullion:
    case Kind::Transom:
      return document::moveBar(job.openings[dimension.of].unit, dimension.kind == Kind::Mullion, dimension.point,
                               value);
    default:
      break;
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

}  // namespace sillwright::view
