#include "exchange/step/ifc_shape.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace sillwright::exchange {
namespace {

constexpr int kDeepest = 64;                     // of placements in placements, and of shapes in shapes
constexpr std::size_t kMostCorners = 1'000'000;  // of one thing
constexpr double kFarthest = 1e9;  // mm; what is further off is a spoilt figure, which must not grow to infinity

/// What is made up of what it refers to, down to points; blanks round each, so that no part of a word is found.
constexpr std::string_view kMadeUp =
    " IFCINDEXEDPOLYGONALFACE IFCFACETEDBREP IFCFACETEDBREPWITHVOIDS IFCCLOSEDSHELL IFCOPENSHELL IFCCONNECTEDFACESET "
    "IFCFACE IFCFACEOUTERBOUND IFCFACEBOUND IFCPOLYLOOP IFCPOLYLINE IFCSHELLBASEDSURFACEMODEL IFCFACEBASEDSURFACEMODEL "
    "IFCTRIANGULATEDFACESET IFCPOLYGONALFACESET IFCCOMPOSITECURVE IFCCOMPOSITECURVESEGMENT IFCINDEXEDPOLYCURVE "
    "IFCARBITRARYCLOSEDPROFILEDEF IFCARBITRARYPROFILEDEFWITHVOIDS ";

glm::dvec3 unitOr(glm::dvec3 v, glm::dvec3 otherwise) {
  const double length = std::sqrt(glm::dot(v, v));
  return length > 1e-12 && std::isfinite(length) ? v / length : otherwise;  // a spoilt one points nowhere
}

glm::dmat4 matrixOf(glm::dvec3 x, glm::dvec3 y, glm::dvec3 z, glm::dvec3 at) {
  return {glm::dvec4(x, 0.0), glm::dvec4(y, 0.0), glm::dvec4(z, 0.0), glm::dvec4(at, 1.0)};
}

/// Millimetres; 0: none is named.
double lengthUnit(StepFile& file, const StepInstance& unit) {  // an IFCSIUNIT has its Prefix at 2, its Name at 3
  if (!unit[1].is("LENGTHUNIT")) return 0;                     // 1: UnitType
  if (unit.type == "IFCCONVERSIONBASEDUNIT") {
    const StepInstance factor = file.at(unit[3]);  // 3: ConversionFactor, so many of another unit
    const StepInstance of = file.at(factor[1]);
    return of.type == "IFCSIUNIT" ? factor[0].number * lengthUnit(file, of) : 0;  // one deep: a unit may name itself
  }
  static const std::map<std::string, double> kPrefixes{{"", 1000},    {"MILLI", 1},    {"CENTI", 10},
                                                       {"DECI", 100}, {"MICRO", 1e-3}, {"KILO", 1e6}};
  const auto prefix = kPrefixes.find(unit[2].text);
  return unit.type == "IFCSIUNIT" && unit[3].is("METRE") && prefix != kPrefixes.end() ? prefix->second : 0;
}

double unitOfProject(StepFile& file) {
  if (file.of("IFCPROJECT").empty()) return 0;
  const StepInstance project = file.at(file.of("IFCPROJECT").front());
  const StepInstance units = file.at(project[8]);  // 8: UnitsInContext
  for (const StepValue& reference : units[0].items) {
    if (const double mm = lengthUnit(file, file.at(reference)); mm > 0 && mm < 1e7) return mm;  // none is 10 km
  }
  return 0;
}

std::optional<glm::dvec3> triple(const StepValue& list, double scale) {
  glm::dvec3 v{0.0};
  if (list.items.size() < 2) return std::nullopt;  // a profile's points have two, and their z is 0
  for (std::size_t i = 0; i < std::min<std::size_t>(list.items.size(), 3); ++i) {
    if (list[i].kind != StepValue::Kind::Number) return std::nullopt;
    v[static_cast<int>(i)] = std::clamp(list[i].number * scale, -kFarthest, kFarthest);
  }
  return v;
}

glm::dvec3 pointAt(const IfcShapes& of, const StepValue& reference) {
  return triple(of.file.at(reference)[0], of.unit).value_or(glm::dvec3(0.0));
}

glm::dvec3 directionAt(const IfcShapes& of, const StepValue& reference, glm::dvec3 otherwise) {
  return unitOr(triple(of.file.at(reference)[0], 1).value_or(glm::dvec3(0.0)), otherwise);
}

glm::dmat4 axesAt(const IfcShapes& of, const StepValue& reference) {
  const StepInstance place = of.file.at(reference);
  const glm::dvec3 up(0.0, 0.0, 1.0), right(1.0, 0.0, 0.0);
  const bool flat = place.type == "IFCAXIS2PLACEMENT2D";  // it has no Axis before RefDirection
  const glm::dvec3 z = flat ? up : directionAt(of, place[1], up);
  const glm::dvec3 wanted = directionAt(of, place[flat ? 1 : 2], right);
  // The standard lets the wanted axis lean; where it lies along z any direction across it will do.
  const glm::dvec3 other = std::abs(z.x) < 0.9 ? right : glm::dvec3(0.0, 1.0, 0.0);
  const glm::dvec3 x = unitOr(wanted - z * glm::dot(wanted, z), unitOr(other - z * glm::dot(other, z), right));
  return matrixOf(x, glm::cross(z, x), z, pointAt(of, place[0]));
}

glm::dmat4 placement(const IfcShapes& of, const StepValue& reference, int depth) {
  const StepInstance place = of.file.at(reference);
  if (place.type != "IFCLOCALPLACEMENT" || depth > kDeepest) return glm::dmat4(1.0);  // a placement may name itself
  return placement(of, place[0], depth + 1) * axesAt(of, place[1]);  // 0: PlacementRelTo, 1: RelativePlacement
}

/// Gathers the corners of what a shape is made up of.
struct Walk {
  IfcShapes& of;
  Body body{};

  void into(const StepValue& value, const glm::dmat4& to_world, int depth) {  // past the bounds the rest is unknown
    if (depth > kDeepest || of.look_ups_left == 0 || body.corners.size() > kMostCorners)
      return void(body.unknown = true);
    if (value.kind == StepValue::Kind::Reference) {
      --of.look_ups_left;
      addItem(of.file.at(value), to_world, depth + 1);
    }
    for (const StepValue& item : value.items) into(item, to_world, depth + 1);
  }

  /// `depth`: of what the item is made up of.
  void addItem(const StepInstance& item, const glm::dmat4& to_world, int depth) {
    const std::string& type = item.type;  // below, attributes by their place in the standard, from 0
    if (type == "IFCCARTESIANPOINT") {
      addPoint(item[0], to_world);
    } else if (type.starts_with("IFCCARTESIANPOINTLIST")) {
      for (const StepValue& each : item[0].items) addPoint(each, to_world);
    } else if (type == "IFCEXTRUDEDAREASOLID") {  // SweptArea, Position, ExtrudedDirection, Depth
      addExtruded(item, to_world, depth);
    } else if (type == "IFCRECTANGLEPROFILEDEF" || type == "IFCROUNDEDRECTANGLEPROFILEDEF") {  // Position, XDim, YDim
      addBox(item, to_world, {item[3].number / 2, item[4].number / 2});
    } else if (type == "IFCCIRCLEPROFILEDEF") {
      body.curved = true;
      addBox(item, to_world, glm::dvec2(item[3].number));                           // Radius: the square round it
    } else if (type == "IFCBOOLEANCLIPPINGRESULT" || type == "IFCBOOLEANRESULT") {  // Operator, two operands
      into(item[1], to_world, depth);
      if (item[0].is("DIFFERENCE")) addCut(of.file.at(item[2]), to_world);
      if (item[0].is("UNION")) into(item[2], to_world, depth);
      body.unknown = body.unknown || item[0].is("INTERSECTION");  // the first operand reaches too far
    } else if (type == "IFCMAPPEDITEM") {
      addMapped(item, to_world, depth);
    } else if (type == "IFCTRIMMEDCURVE" || type == "IFCCIRCLE") {  // only trims that are points have corners
      body.curved = true;
      into(item[1], to_world, depth);
      into(item[2], to_world, depth);
    } else if (!type.empty() && kMadeUp.find(" " + type + " ") != std::string_view::npos) {
      into(item.values, to_world, depth);
    } else {
      body.unknown = true;
    }
  }

  void addPoint(const StepValue& list, const glm::dmat4& to_world) {
    if (const auto at = triple(list, of.unit)) body.corners.emplace_back(to_world * glm::dvec4(*at, 1.0));
  }

  /// A solid or a profile may have a place of its own.
  glm::dmat4 placed(const StepValue& place, const glm::dmat4& to_world) const {
    return place.kind == StepValue::Kind::Reference ? to_world * axesAt(of, place) : to_world;
  }

  void addExtruded(const StepInstance& solid, const glm::dmat4& to_world, int depth) {
    const glm::dmat4 place = placed(solid[1], to_world);
    Walk profile{of};  // on its own, for each of its corners makes two
    profile.into(solid[0], place, depth);
    const double far = std::clamp(solid[3].number * of.unit, -kFarthest, kFarthest);
    const glm::dvec3 by = glm::dvec3(place * glm::dvec4(directionAt(of, solid[2], {0.0, 0.0, 1.0}), 0.0)) * far;
    for (const glm::dvec3& at : profile.body.corners) body.corners.insert(body.corners.end(), {at, at + by});
    body.curved = body.curved || profile.body.curved;
    body.unknown = body.unknown || profile.body.unknown;
  }

  void addBox(const StepInstance& profile, const glm::dmat4& to_world, glm::dvec2 size) {
    const glm::dmat4 place = placed(profile[2], to_world);
    for (const double x : {-1.0, 1.0}) {
      for (const double y : {-1.0, 1.0}) {
        const glm::dvec2 at = glm::clamp(size * glm::dvec2(x, y) * of.unit, -kFarthest, kFarthest);
        body.corners.emplace_back(place * glm::dvec4(at, 0.0, 1.0));
      }
    }
  }

  void addCut(const StepInstance& half, const glm::dmat4& to_world) {
    const StepInstance plane = of.file.at(half[0]);                // 0: BaseSurface
    if (half.type.find("HALFSPACE") == std::string::npos) return;  // a solid is taken for a hole in the outline
    if (plane.type != "IFCPLANE") return void(body.unknown = true);
    // "True" means the half that the plane's normal points away from; that one is taken off.
    const glm::dmat4 place = to_world * axesAt(of, plane[0]);
    const double towards = half[1].is("F") ? -1 : 1;  // 1: AgreementFlag
    body.cuts.push_back({glm::dvec3(place[3]), unitOr(glm::dvec3(place[2]) * towards, glm::dvec3(0.0))});
  }

  void addMapped(const StepInstance& item, const glm::dmat4& to_world, int depth) {
    const StepInstance map = of.file.at(item[0]);     // 0: MappingOrigin, 1: MappedRepresentation
    const StepInstance target = of.file.at(item[1]);  // Axis1, Axis2, LocalOrigin, Scale, Axis3, Scale2, Scale3
    const glm::dvec3 x = directionAt(of, target[0], {1.0, 0.0, 0.0});
    const glm::dvec3 z = directionAt(of, target[4], {0.0, 0.0, 1.0});
    const glm::dvec3 y = directionAt(of, target[1], unitOr(glm::cross(z, x), {0.0, 1.0, 0.0}));
    const auto factor = [&](std::size_t at, double otherwise) {
      return target[at].kind == StepValue::Kind::Number ? std::clamp(target[at].number, 1e-6, 1e6) : otherwise;
    };
    const double scale = factor(3, 1);
    const bool uneven = target.type == "IFCCARTESIANTRANSFORMATIONOPERATOR3DNONUNIFORM";
    const glm::dmat4 moved = matrixOf(x * scale, y * (uneven ? factor(5, scale) : scale),
                                      z * (uneven ? factor(6, scale) : scale), pointAt(of, target[2]));
    into(of.file.at(map[1])[3], to_world * moved * axesAt(of, map[0]), depth);
  }
};

}  // namespace

IfcShapes::IfcShapes(StepFile& of) : file(of), unit(unitOfProject(of)), look_ups_left(10'000 + 20 * of.instances()) {}

Body IfcShapes::bodyOf(const StepInstance& product) {
  Walk walk{*this};
  const glm::dmat4 place = placeOf(product);
  const StepInstance shape = file.at(product[6]);  // 6: Representation, whose list is at 2
  for (const StepValue& reference : shape[2].items) {
    const StepInstance representation = file.at(reference);
    if (file.at(representation[0])[1].text == "Plan") continue;  // how it is drawn on the floor plan
    const std::string& name = representation[1].text;            // 1: RepresentationIdentifier, which may be left out
    if (name.empty() || name == "Body" || name == "Facetation") walk.into(representation[3], place, 0);
  }
  return std::move(walk.body);
}

glm::dmat4 IfcShapes::placeOf(const StepInstance& product) const { return placement(*this, product[5], 0); }

std::vector<job::TopPoint> upperEdge(std::vector<job::TopPoint> points) {
  std::sort(points.begin(), points.end(),
            [](const auto& a, const auto& b) { return std::pair(a.x, a.z) < std::pair(b.x, b.z); });
  std::vector<job::TopPoint> edge;
  for (const job::TopPoint& point : points) {  // the upper hull, from left to right
    while (!edge.empty() && point.x - edge.back().x < job::kLeastBetweenCorners && point.z >= edge.back().z)
      edge.pop_back();
    while (edge.size() > 1) {  // a corner goes that the line to the next one passes above
      const job::TopPoint &a = edge[edge.size() - 2], &b = edge.back();
      const double line = a.z + (point.z - a.z) * (b.x - a.x) / std::max(point.x - a.x, 1e-9);
      if (b.z > line + kStraight) break;  // it stands out of the line and stays
      edge.pop_back();
    }
    if (edge.empty() || point.x - edge.back().x >= job::kLeastBetweenCorners) edge.push_back(point);
  }
  return edge;
}

std::vector<job::TopPoint> under(const std::vector<job::TopPoint>& edge, double height, double slope) {
  std::vector<job::TopPoint> cut;  // it gets a corner wherever the edge goes through the line
  const auto above = [&](const job::TopPoint& point) { return point.z - height - slope * point.x; };
  for (std::size_t i = 0; i < edge.size(); ++i) {
    cut.push_back({edge[i].x, edge[i].z - std::max(above(edge[i]), 0.0)});
    if (i + 1 == edge.size() || above(edge[i]) * above(edge[i + 1]) >= 0) continue;
    const double part = above(edge[i]) / (above(edge[i]) - above(edge[i + 1]));  // of the way to the next corner
    cut.push_back({edge[i].x + part * (edge[i + 1].x - edge[i].x), edge[i].z + part * (edge[i + 1].z - edge[i].z)});
  }
  return cut;
}

}  // namespace sillwright::exchange
