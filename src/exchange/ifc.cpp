// IFC4 (ISO 16739-1), as a STEP file: one site, building and storey; walls whose members and layers are their parts;
// openings that void them; windows and doors that fill those. Names of entities, attributes and property sets are the
// standard's.

#include "exchange/model.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "exchange/ifc_units.h"
#include "exchange/model_parts.h"
#include "plan/shape.h"
#include "scene/describe.h"
#include "words/text.h"

namespace sillwright::exchange {
namespace {

using Values = std::vector<std::string>;
using scene::PartKind;

/// 22 characters of the standard's own base 64, from a hash (FNV-1a, 64 bits, twice) of a name: the same for the same
/// name in every file.
std::string globalId(std::string_view name) {
  static constexpr std::string_view kFigures = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$";
  std::array<std::uint64_t, 2> half{0xCBF29CE484222325U, 0x84222325CBF29CE4U};
  for (std::uint64_t& hash : half) {  // they begin differently, so that the halves differ
    for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001B3U;  // FNV's prime
    hash ^= hash >> 29U;  // FNV's low bits depend on low bits alone: high ones are mixed in
  }
  std::string id;
  for (unsigned at = 132; at > 0; at -= 6) {  // 128 bits after four of none
    unsigned figure = 0;                      // six bits of the 128, the highest first
    for (unsigned bit = at; bit-- > at - 6;)
      figure = figure << 1U | (bit < 128 ? static_cast<unsigned>(half[bit < 64] >> (bit % 64) & 1U) : 0U);
    id += kFigures[figure];
  }
  return "'" + id + "'";
}

/// What parts that are not of a unit are in the standard: entity and predefined type.
struct Sort {
  const char* entity;
  const char* type;
  std::vector<PartKind> kinds;
};

const Sort& sortOf(PartKind kind) {
  using enum PartKind;
  static const Sort kSorts[] = {
      {"IFCMEMBER", "PLATE", {BottomPlate, TopPlate}},
      {"IFCMEMBER", "STUD", {CommonStud, JambStud, BearingStud, JackStudBelow, JackStudAbove}},
      {"IFCMEMBER", "MEMBER", {SillTrimmer, Nogging, Batten}},
      {"IFCBEAM", "LINTEL", {Lintel}},
      {"IFCCOVERING", "MEMBRANE", {Membrane, MembraneFold}},
      {"IFCCOVERING", "CLADDING", {CladdingBoard}},
      {"IFCCOVERING", "CEILING", {EaveSoffit}},
      {"IFCPLATE", "SHEET", {Lining, EaveFascia}},
      {"IFCSLAB", "FLOOR", {FloorSlab}},
      {"IFCDISCRETEACCESSORY", "USERDEFINED", {Packer}},
      {"IFCMECHANICALFASTENER", "SCREW", {Screw}}};
  static const Sort kOther{"IFCCOVERING", "USERDEFINED", {}};  // flashings, seals and whatever else is put on
  for (const Sort& sort : kSorts) {
    if (std::find(sort.kinds.begin(), sort.kinds.end(), kind) != sort.kinds.end()) return sort;
  }
  return kOther;
}

/// What relations are made of of a wall once its parts are written.
struct WallThere {
  std::string self;
  std::string place;
  Values parts;
};

/// Door or window, kind, operation.
using UnitType = std::tuple<bool, std::string, std::string>;

struct Writer {
  const document::Document& doc;
  PartIndex index{doc.scene};
  StepWriter step{};
  UniqueNames taken{};
  std::vector<std::string> names = partNames(doc.scene, doc.job, *doc.practice, taken);  ///< Of the scene's parts.
  std::string body{}, axis{}, in_storey{}, storey{};  // two contexts of shapes, the storey's placement, the storey
  std::map<scene::Material, std::string> styles{};
  std::vector<WallThere> walls{};
  std::vector<std::vector<std::size_t>> units{};  ///< The parts of each opening's.
  Values in_storey_parts{};                       // what no wall contains: the standard allows one container a thing
  std::map<scene::Material, Values> of_material{};
  std::map<UnitType, Values> types{};

  std::string run() {
    writeFrame();                           // first: all else refers to it
    units.resize(doc.job.openings.size());  // the parts of each unit, which writeOpening draws
    for (std::size_t i = 0; i < doc.scene.parts.size(); ++i) {
      const scene::Part& part = doc.scene.parts[i];
      if (isOfUnit(part)) units[static_cast<std::size_t>(part.opening)].push_back(i);
    }
    for (std::size_t i = 0; i < doc.job.walls.size(); ++i) writeWall(i);  // openings and parts stand in walls
    for (std::size_t i = 0; i < doc.job.openings.size(); ++i) writeOpening(i);
    for (std::size_t i = 0; i < doc.scene.parts.size(); ++i) writePart(i);
    relateAll();  // last: relations name their members
    const std::string day = words::dateWords(doc.job.date.value_or(job::Date{1970, 1, 1}));
    return "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(('ViewDefinition [ReferenceView]'),'2;1');\nFILE_NAME(" +
           stepText(doc.job.title) + ",'" + day + "T00:00:00',(" + stepText(doc.job.by.value_or("")) +
           "),(''),'sillwright','sillwright','');\nFILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n" + std::move(step).take() +
           "ENDSEC;\nEND-ISO-10303-21;\n";
  }

  // Geometry.

  std::string point(glm::dvec3 at) {
    return step.add("IFCCARTESIANPOINT((%,%,%))", {stepReal(at.x), stepReal(at.y), stepReal(at.z)});
  }

  std::string placement(const std::string& in, glm::dvec3 at, double turn = 0) {
    // Directions to more figures than lengths: a wall is up to 100 m long.
    const auto exact = [](double number) { return stepReal(number * 1e4) + "E-4"; };
    const std::string up = step.add("IFCDIRECTION((0.,0.,1.))", {});
    const std::string along = step.add("IFCDIRECTION((%,%,0.))", {exact(std::cos(turn)), exact(std::sin(turn))});
    const std::string axes = step.add("IFCAXIS2PLACEMENT3D(%,%,%)", {point(at), up, along});
    return step.add("IFCLOCALPLACEMENT(%,%)", {in, axes});
  }

  /// A product's shape: one representation of such items.
  std::string shape(std::string_view name, std::string_view type, const std::string& context, const Values& items) {
    if (items.empty()) return "$";  // the standard's word for nothing
    const std::string one = step.add("IFCSHAPEREPRESENTATION(%,'%','%',(%))", {context, name, type, stepList(items)});
    return step.add("IFCPRODUCTDEFINITIONSHAPE($,$,(%))", {one});
  }

  const std::string& styleOf(scene::Material material) {
    std::string& style = styles[material];
    if (!style.empty()) return style;  // a material's style is written once
    const Look look = lookOf(material);
    const std::string colour = step.add("IFCCOLOURRGB($,%,%,%)",
                                        {stepReal(look.colour[0]), stepReal(look.colour[1]), stepReal(look.colour[2])});
    const std::string shading = step.add("IFCSURFACESTYLESHADING(%,%)", {colour, stepReal(1 - look.colour[3])});
    return style = step.add("IFCSURFACESTYLE(%,.BOTH.,(%))", {stepText(look.name), shading});
  }

  /// One solid of a part, its corners from `from` in its wall's axes.
  std::string faceSet(const Polygons& shell, const Axes& axes, glm::dvec3 from, scene::Material material) {
    std::map<std::array<std::string, 3>, std::size_t> corner_of;  // by their text: corners that read the same are one
    Values corners, triangles;
    const auto cornerOf = [&](glm::vec3 world) {
      const glm::dvec3 at = axes.toLocal(world) - from;
      const std::array written{stepReal(at.x), stepReal(at.y), stepReal(at.z)};
      const auto [found, fresh] = corner_of.try_emplace(written, corner_of.size() + 1);  // the standard counts from 1
      if (fresh) corners.push_back("(" + stepList({written.begin(), written.end()}) + ")");
      return std::to_string(found->second);
    };
    for (const Polygon& polygon : shell) {
      for (std::size_t i = 2; i < polygon.size(); ++i) {  // a fan of triangles: faces are convex
        const Values three{cornerOf(polygon[0]), cornerOf(polygon[i - 1]), cornerOf(polygon[i])};
        triangles.push_back("(" + stepList(three) + ")");
      }
    }
    const std::string points = step.add("IFCCARTESIANPOINTLIST3D((%))", {stepList(corners)});
    std::string set = step.add("IFCTRIANGULATEDFACESET(%,$,.T.,(%),$)", {points, stepList(triangles)});  // .T.: closed
    step.add("IFCSTYLEDITEM(%,(%),$)", {set, styleOf(material)});
    return set;
  }

  void addSolids(Values& items, std::size_t part, glm::dvec3 from) {
    const scene::Part& what = doc.scene.parts[part];
    for (const Polygons& shell : index.shellsOf(part)) {
      if (!shell.empty()) items.push_back(faceSet(shell, axesOf(doc.scene, what.wall), from, what.material));
    }
  }

  // Things and what relates them. `key`: what an identity is made from.

  void relate(const std::string& entity, const std::string& key, const std::string& first, const std::string& second) {
    step.add("%(%,$,$,$,%,%)", {entity, globalId(entity + key), first, second});
  }

  void properties(const std::string& of, const std::string& key, const std::string& set,
                  const std::vector<std::pair<const char*, std::string>>& all) {
    Values lines;
    for (const auto& [name, value] : all) {  // a value has its type round it
      lines.push_back(step.add("IFCPROPERTYSINGLEVALUE('%',$,%,$)", {name, value}));
    }
    const std::string made = step.add("IFCPROPERTYSET(%,$,'%',$,(%))", {globalId(set + key), set, stepList(lines)});
    relate("IFCRELDEFINESBYPROPERTIES", set + key, "(" + of + ")", made);
  }

  void writeFrame() {
    const std::string length = step.add("IFCSIUNIT(*,.LENGTHUNIT.,.MILLI.,.METRE.)", {});
    const std::string area = step.add("IFCSIUNIT(*,.AREAUNIT.,$,.SQUARE_METRE.)", {});
    const std::string volume = step.add("IFCSIUNIT(*,.VOLUMEUNIT.,$,.CUBIC_METRE.)", {});
    const std::string angle = step.add("IFCSIUNIT(*,.PLANEANGLEUNIT.,$,.RADIAN.)", {});
    const std::string in_units = step.add("IFCUNITASSIGNMENT((%,%,%,%))", {length, area, volume, angle});
    const std::string origin = step.add("IFCAXIS2PLACEMENT3D(%,$,$)", {point(glm::dvec3(0.0))});
    const std::string model = step.add("IFCGEOMETRICREPRESENTATIONCONTEXT($,'Model',3,1.E-4,%,$)", {origin});
    constexpr const char* kContext = "IFCGEOMETRICREPRESENTATIONSUBCONTEXT('%','Model',*,*,*,*,%,$,%,$)";
    body = step.add(kContext, {"Body", model, ".MODEL_VIEW."});
    axis = step.add(kContext, {"Axis", model, ".GRAPH_VIEW."});  // for the lines that walls stand on
    const std::string title = stepText(doc.job.title);
    const std::string project =
        step.add("IFCPROJECT(%,$,%,$,$,$,$,(%),%)", {globalId("project"), title, model, in_units});
    const std::string at_site = placement("$", glm::dvec3(0.0));
    const std::string site = step.add("IFCSITE(%,$,'Site',%,$,%,$,$,.ELEMENT.,$,$,$,$,$)",
                                      {globalId("site"), stepText(doc.job.address.value_or("")), at_site});
    const std::string at_building = placement(at_site, glm::dvec3(0.0));
    const std::string building =
        step.add("IFCBUILDING(%,$,%,$,$,%,$,$,.ELEMENT.,$,$,$)", {globalId("building"), title, at_building});
    in_storey = placement(at_building, glm::dvec3(0.0));
    storey = step.add("IFCBUILDINGSTOREY(%,$,'Ground floor',$,$,%,$,$,.ELEMENT.,0.)", {globalId("storey"), in_storey});
    relate("IFCRELAGGREGATES", "site", project, "(" + site + ")");
    relate("IFCRELAGGREGATES", "building", site, "(" + building + ")");
    relate("IFCRELAGGREGATES", "storey", building, "(" + storey + ")");
  }

  void writeWall(std::size_t at) {
    const job::Wall& wall = doc.job.walls[at];
    const Axes axes = axesOf(doc.scene, static_cast<std::int32_t>(at));
    WallThere there{"", placement(in_storey, axes.origin, axes.turn), {}};
    const std::string key = "wall/" + wall.name;  // the kind goes first: an opening may have the same name
    const std::string left = step.add("IFCCARTESIANPOINT((0.,0.))", {});
    const std::string right = step.add("IFCCARTESIANPOINT((%,0.))", {stepReal(wall.length)});
    const std::string line = shape("Axis", "Curve2D", axis, {step.add("IFCPOLYLINE((%,%))", {left, right})});
    there.self =
        step.add("IFCWALL(%,$,%,$,$,%,%,$,.ELEMENTEDWALL.)", {globalId(key), stepText(wall.name), there.place, line});
    std::vector<std::pair<const char*, std::string>> common{
        {"IsExternal", wall.isInside() ? "IFCBOOLEAN(.F.)" : "IFCBOOLEAN(.T.)"}};
    if (wall.supports) common.emplace_back("LoadBearing", "IFCBOOLEAN(.T.)");
    properties(there.self, key, "Pset_WallCommon", common);  // without LoadBearing where the job doesn't say
    in_storey_parts.push_back(there.self);
    walls.push_back(std::move(there));
  }

  void writeOpening(std::size_t at) {
    const job::Opening& opening = doc.job.openings[at];
    const WallThere& wall = walls[opening.wall];
    const double depth = doc.plan.walls[opening.wall].spec.depth();  // through frame and lining
    const std::string key = "opening/" + opening.name;
    const std::string place = placement(wall.place, {opening.left, 0, opening.sill});
    // The outline, upright in the wall's outside face, pushed through the wall.
    Values points;
    for (const plan::Point& corner : plan::headLineOf(opening).under({0, 0, opening.width, opening.height}))
      points.push_back(step.add("IFCCARTESIANPOINT((%,%))", {stepReal(corner.x), stepReal(corner.z)}));
    points.push_back(points.front());  // a closed profile ends where it begins
    const std::string line = step.add("IFCPOLYLINE((%))", {stepList(points)});
    const std::string profile = step.add("IFCARBITRARYCLOSEDPROFILEDEF(.AREA.,$,%)", {line});
    const std::string out = step.add("IFCDIRECTION((0.,-1.,0.))", {}), along = step.add("IFCDIRECTION((1.,0.,0.))", {});
    const std::string upright = step.add("IFCAXIS2PLACEMENT3D(%,%,%)", {point({0, 0, 0}), out, along});
    const std::string in = step.add("IFCDIRECTION((0.,0.,-1.))", {});  // in the profile's axes, whose z comes out
    const std::string solid = step.add("IFCEXTRUDEDAREASOLID(%,%,%,%)", {profile, upright, in, stepReal(depth)});
    const std::string self =
        step.add("IFCOPENINGELEMENT(%,$,%,$,$,%,%,$,.OPENING.)",
                 {globalId(key), stepText(opening.name), place, shape("Body", "SweptSolid", body, {solid})});
    relate("IFCRELVOIDSELEMENT", key, wall.self, self);
    relate("IFCRELFILLSELEMENT", key, self, writeUnit(at, place));
  }

  std::string writeUnit(std::size_t at, const std::string& in_opening) {
    const job::Opening& opening = doc.job.openings[at];
    const plan::OpeningPlan& planned = doc.plan.openings[at];
    const plan::UnitSpec& unit = planned.unit;
    const bool door = unit.isDoor();  // a window's type says how it opens, by its panel
    Values items;
    for (const std::size_t part : units[at])
      addSolids(items, part, {opening.left + planned.stand.x, 0, opening.sill + planned.stand.z});
    const auto number = static_cast<std::size_t>(unit.kind);
    const std::string operation = kOperations[number][unit.hand == job::Hand::Left ? 0 : 1];
    const std::string kind(job::kKindWords[number]), key = "unit/" + opening.name;
    std::string self = step.add(
        "%(%,$,%,%,%,%,%,%,%,%,.%.,.%.,$)",
        {door ? "IFCDOOR" : "IFCWINDOW", globalId(key), stepText(opening.name), stepText(opening.tag.value_or("")),
         stepText(kind), placement(in_opening, {planned.stand.x, 0, planned.stand.z}),
         shape("Body", "Tessellation", body, items), stepText(opening.name), stepReal(unit.height),
         stepReal(unit.width), door ? "DOOR" : "WINDOW", door ? operation : "NOTDEFINED"});
    types[{door, kind, operation}].push_back(self);  // units of one type share it
    in_storey_parts.push_back(self);
    properties(self, key, door ? "Pset_DoorCommon" : "Pset_WindowCommon",
               {{"Reference", "IFCIDENTIFIER(" + stepText(opening.name) + ")"},
                {"IsExternal", planned.inside ? "IFCBOOLEAN(.F.)" : "IFCBOOLEAN(.T.)"}});
    const auto length = [](double mm) { return "IFCLENGTHMEASURE(" + stepReal(mm) + ")"; };
    const auto text = [](const std::string& say) { return "IFCTEXT(" + stepText(say) + ")"; };
    const check::Finding* worst = check::worstOf(doc.findings.openings[at]);  // null: there is no finding
    properties(self, key, "Sillwright_Check",
               {{"Verdict", text(check::wordsFor(doc.findings.verdicts[at]))},
                {"Basis", text(check::wordsFor(doc.findings.bases[at]))},
                {"Reason", text(worst != nullptr ? worst->say : "")},
                {"ClearanceToSpare", length(planned.stand.spare)},
                {"FramedWidth", length(opening.width)},
                {"FramedHeight", length(opening.height)}});
    return self;
  }

  static bool isOfUnit(const scene::Part& part) { return part.layer == scene::Layer::Unit && part.opening >= 0; }

  void writePart(std::size_t at) {
    const scene::Part& part = doc.scene.parts[at];
    if (isOfUnit(part)) return;  // its opening's unit has drawn it
    Values items;
    addSolids(items, at, glm::dvec3(0.0));
    if (items.empty()) return;  // the part has no face with an area
    const std::string& name = names[at];
    WallThere* wall = part.wall < 0 ? nullptr : &walls[static_cast<std::size_t>(part.wall)];  // null: it is of the site
    const Sort& sort = sortOf(part.kind);  // a fastener has two attributes more: diameter and length
    const std::string size = part.kind == PartKind::Screw ? "$," + stepReal(part.size.x) + "," : "";
    const std::string self =
        step.add("%(%,$,%,%,%,%,%,$,%.%.)",
                 {sort.entity, globalId("part/" + name), stepText(name), stepText(scene::describe(part, *doc.practice)),
                  stepText(scene::nameOf(part.kind, doc.practice->words)), wall != nullptr ? wall->place : in_storey,
                  shape("Body", "Tessellation", body, items), size, sort.type});
    of_material[part.material].push_back(self);
    const bool apart = wall == nullptr || part.kind == PartKind::Packer || part.kind == PartKind::Screw;
    (apart ? in_storey_parts : wall->parts).push_back(self);
  }

  void relateAll() {
    for (std::size_t i = 0; i < walls.size(); ++i) {
      const auto& [self, place, parts] = walls[i];
      if (!parts.empty())
        relate("IFCRELAGGREGATES", "wall/" + doc.job.walls[i].name, self, "(" + stepList(parts) + ")");
    }
    if (!in_storey_parts.empty())
      relate("IFCRELCONTAINEDINSPATIALSTRUCTURE", "", "(" + stepList(in_storey_parts) + ")", storey);
    for (const auto& [material, parts] : of_material) {
      const std::string name = lookOf(material).name;
      relate("IFCRELASSOCIATESMATERIAL", name, "(" + stepList(parts) + ")", step.add("IFCMATERIAL('%',$,$)", {name}));
    }
    for (const auto& [type, all] : types) writeType(type, all);
  }

  void writeType(const UnitType& type, const Values& all) {
    const auto& [door, kind, operation] = type;
    const std::string key = "type/" + kind + "/" + operation;
    std::string self;
    if (door) {
      self = step.add("IFCDOORTYPE(%,$,'%',$,$,$,$,$,$,.DOOR.,.%.,.F.,$)", {globalId(key), kind, operation});
    } else {
      const std::string panel =
          step.add("IFCWINDOWPANELPROPERTIES(%,$,$,$,.%.,.NOTDEFINED.,$,$,$)", {globalId("panel/" + key), operation});
      self = step.add("IFCWINDOWTYPE(%,$,'%',$,$,(%),$,$,$,.WINDOW.,.NOTDEFINED.,.F.,$)", {globalId(key), kind, panel});
    }
    relate("IFCRELDEFINESBYTYPE", key, "(" + stepList(all) + ")", self);
  }
};

}  // namespace

std::string ifc(const document::Document& document) { return Writer{document}.run(); }

}  // namespace sillwright::exchange
