#include "view/values/dimension.h"

#include <algorithm>

#include "job/tables.h"

namespace sillwright::view {
namespace {

using Kind = DimensionKind;

const char* wordFor(Kind kind) {
  switch (kind) {
    case Kind::Left:
    case Kind::LeftEdge:
      return "left edge";
    case Kind::Sill:
    case Kind::SillEdge:
      return "sill";
    case Kind::Width:
      return "width";
    case Kind::Height:
      return "height";
    case Kind::UnitWidth:
      return "unit width";
    case Kind::UnitHeight:
      return "unit height";
    case Kind::WallLength:
      return "length";
    case Kind::WallTop:
      return "top";
    case Kind::TopX:
      return "top corner";
    case Kind::TopZ:
      return "top corner's height";
    case Kind::EaveSoffit:
      return "soffit";
    case Kind::EaveOverhang:
      return "eave's reach";
  }
  return "";
}

job::Holds ruleOf(Kind kind) {
  const auto of = [](const job::TableRule& table, const char* key) { return table.at(key); };
  switch (kind) {
    case Kind::Left:
    case Kind::LeftEdge:
      return of(job::tableOf<job::Opening>(), "left");
    case Kind::Sill:
    case Kind::SillEdge:
      return of(job::tableOf<job::Opening>(), "sill");
    case Kind::Width:
      return of(job::tableOf<job::Opening>(), "width");
    case Kind::Height:
      return of(job::tableOf<job::Opening>(), "height");
    case Kind::UnitWidth:
      return of(job::tableOf<job::Unit>(), "width");
    case Kind::UnitHeight:
      return of(job::tableOf<job::Unit>(), "height");
    case Kind::WallLength:
    case Kind::TopX:
      return of(job::tableOf<job::Wall>(), "length");
    case Kind::WallTop:
    case Kind::TopZ:
      return of(job::tableOf<job::Wall>(), "top");
    case Kind::EaveSoffit:
      return of(job::tableOf<job::Eave>(), "soffit");
    case Kind::EaveOverhang:
      return of(job::tableOf<job::Eave>(), "overhang");
  }
  return {};
}

void narrow(job::Holds& holds, double from, double to) {
  holds.from = std::max(holds.from, from);
  holds.to = std::max(std::min(holds.to, to), holds.from);
}

constexpr double kLeastBetween = 1;  // mm between two corners of a wall's top

}  // namespace

bool isOfWall(DimensionKind kind) {
  return kind >= Kind::WallLength;
}

bool isLevel(const job::Wall& wall) {
  return std::all_of(wall.top.begin(), wall.top.end(), [&](const auto& point) { return point.z == wall.top[0].z; });
}

std::string nameOf(const job::Job& job, const Dimension& dimension) {
  const bool of_wall = isOfWall(dimension.kind);
  return std::string(wordFor(dimension.kind)) + " of " +
         (of_wall ? job.walls[dimension.of].name : job.openings[dimension.of].name);
}

double valueOf(const job::Job& job, const Dimension& dimension) {
  if (isOfWall(dimension.kind)) {
    const job::Wall& wall = job.walls[dimension.of];
    switch (dimension.kind) {
      case Kind::WallLength:
        return wall.length;
      case Kind::TopX:
        return wall.top[dimension.point].x;
      case Kind::TopZ:
        return wall.top[dimension.point].z;
      case Kind::EaveSoffit:
        return wall.eave ? wall.eave->soffit : 0;
      case Kind::EaveOverhang:
        return wall.eave ? wall.eave->overhang : 0;
      default:
        return wall.top.front().z;
    }
  }
  const job::Opening& opening = job.openings[dimension.of];
  switch (dimension.kind) {
    case Kind::Left:
    case Kind::LeftEdge:
      return opening.left;
    case Kind::Sill:
    case Kind::SillEdge:
      return opening.sill;
    case Kind::Width:
      return opening.width;
    case Kind::Height:
      return opening.height;
    case Kind::UnitWidth:
      return opening.unit.width;
    default:
      return opening.unit.height;
  }
}

job::Holds boundsOf(const job::Job& job, const Dimension& dimension) {
  job::Holds holds = ruleOf(dimension.kind);
  if (isOfWall(dimension.kind)) {
    const auto& top = job.walls[dimension.of].top;
    if (dimension.kind == Kind::WallLength && top.size() > 2) {
      narrow(holds, top[top.size() - 2].x + kLeastBetween, holds.to);
    }
    if (dimension.kind == Kind::TopX) {
      narrow(holds, top[dimension.point - 1].x + kLeastBetween, top[dimension.point + 1].x - kLeastBetween);
    }
    return holds;
  }
  const job::Opening& opening = job.openings[dimension.of];
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

namespace {

void setOfWall(job::Wall& wall, const Dimension& dimension, double value) {
  switch (dimension.kind) {
    case Kind::WallLength:
      wall.length = value;
      wall.top.back().x = value;
      return;
    case Kind::TopX:
      wall.top[dimension.point].x = value;
      return;
    case Kind::TopZ:
      wall.top[dimension.point].z = value;
      return;
    case Kind::EaveSoffit:
      if (wall.eave) wall.eave->soffit = value;
      return;
    case Kind::EaveOverhang:
      if (wall.eave) wall.eave->overhang = value;
      return;
    default:
      for (job::TopPoint& point : wall.top) point.z = value;
      return;
  }
}

}  // namespace

void setValue(job::Job& job, const Dimension& dimension, double value) {
  const job::Holds holds = boundsOf(job, dimension);
  value = std::clamp(value, holds.from, holds.to);
  if (isOfWall(dimension.kind)) {
    setOfWall(job.walls[dimension.of], dimension, value);
    return;
  }
  job::Opening& opening = job.openings[dimension.of];
  switch (dimension.kind) {
    case Kind::LeftEdge:
      opening.width += opening.left - value;
      opening.left = value;
      return;
    case Kind::SillEdge:
      opening.height += opening.sill - value;
      opening.sill = value;
      return;
    case Kind::Left:
      opening.left = value;
      return;
    case Kind::Sill:
      opening.sill = value;
      return;
    case Kind::Width:
      opening.width = value;
      return;
    case Kind::Height:
      opening.height = value;
      return;
    case Kind::UnitWidth:
      opening.unit.width = value;
      return;
    default:
      opening.unit.height = value;
      return;
  }
}

}  // namespace sillwright::view
