#include "exchange/ifc_import.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numbers>
#include <set>
#include <span>
#include <utility>

#include "base/words.h"
#include "document/edits.h"
#include "exchange/ifc_units.h"
#include "exchange/model_parts.h"
#include "exchange/step/ifc_shape.h"
#include "job/tables.h"
#include "words/text.h"

namespace sillwright::exchange {
namespace {

constexpr double kNoGap = 2;          // mm: a unit that is no smaller than its opening by more fills it
constexpr double kUpright = 0.01;     // a plane no further off upright cuts a mitre, not the top
constexpr std::size_t kLongest = 90;  // bytes of a name

using Id = std::uint32_t;
using Ids = std::map<Id, std::vector<Id>>;

constexpr std::string_view kTypes =  // StepFile finds instances of these by type; others by their number
    "IFCPROJECT IFCWALL IFCWALLSTANDARDCASE IFCWALLELEMENTEDCASE IFCWINDOW IFCWINDOWSTANDARDCASE IFCDOOR "
    "IFCDOORSTANDARDCASE IFCRELVOIDSELEMENT IFCRELFILLSELEMENT IFCRELDEFINESBYTYPE IFCRELDEFINESBYPROPERTIES "
    "IFCRELAGGREGATES";

double rounded(double mm) { return std::round(mm * 10) / 10 + 0.0; }  // a job has tenths; + 0.0 makes 0 of −0

bool within(const job::TableRule& table, const char* key, double value) {
  const job::Holds& holds = table.at(key);
  return value >= holds.from && value <= holds.to;
}

/// A stretch along an axis.
struct Stretch {
  double low = std::numeric_limits<double>::infinity();
  double high = -std::numeric_limits<double>::infinity();
  void hold(double at) { low = std::min(low, at), high = std::max(high, at); }
  [[nodiscard]] double length() const { return high - low; }
  [[nodiscard]] double middle() const { return (low + high) / 2; }
};

/// A wall of the model on the floor plan: from `low` to `high` along it, across it, and up.
struct ModelWall {
  Id id = 0;
  std::string name;
  glm::dvec2 along{1.0, 0.0};
  glm::dvec2 inward{0.0, 1.0};  ///< Square to `along`, to its left.
  Stretch u, v, z;
  std::vector<job::TopPoint> top;  ///< From its lower left.
  bool outside = true;

  [[nodiscard]] glm::dvec3 local(glm::dvec3 world) const {
    const glm::dvec2 plan(world);
    return {glm::dot(plan, along), glm::dot(plan, inward), world.z};
  }
  [[nodiscard]] glm::dvec2 on(double at_u, double at_v) const { return along * at_u + inward * at_v; }
  /// The same wall seen from its other side.
  void turn() {
    along = -along, inward = -inward;
    u = {-u.high, -u.low}, v = {-v.high, -v.low};
    for (job::TopPoint& point : top) point.x = u.length() - point.x;  // mirrored, so that x falls: it is reversed below
    std::reverse(top.begin(), top.end());
  }
};

bool isLevel(const std::vector<job::TopPoint>& edge) {
  return edge.size() < 2 || (edge.size() == 2 && std::abs(edge[0].z - edge[1].z) < kStraight);
}

/// The head of an opening or a unit so wide and so high in the middle under an edge: the edge's corners, moved. Empty:
/// the edge is level there, or has more corners than a head.
std::optional<job::Head> headUnder(const std::vector<job::TopPoint>& edge, double width, double height) {
  if (isLevel(edge) || edge.size() > 3) return std::nullopt;
  const auto at = [&](double x, std::size_t run) {
    const job::TopPoint &a = edge[run], &b = edge[run + 1];
    return a.z + (b.z - a.z) * (x - a.x) / (b.x - a.x);
  };
  const double in = (edge.back().x - width) / 2;                  // the unit stands in the middle of the edge
  const double peak = edge.size() == 3 ? edge[1].x - in : width;  // from the unit's left
  const bool peaked = peak > 0 && peak < width;                   // beside a narrow unit it has none
  job::Head head;
  head.left = at(in, peak > 0 ? 0 : 1);  // where the peak is left of the unit, the second slope covers it all
  head.right = at(in + width, peak < width ? 1 : 0);
  if (!peaked && std::abs(head.left - head.right) < kStraight) return std::nullopt;
  if (peaked) head.peak_x = rounded(peak), head.peak_z = edge[1].z;
  const double up = height - head.top();  // the head's highest point stands at the height
  for (double* corner : {&head.left, &head.right}) *corner = rounded(std::max(*corner + up, 0.0));  // 0: a triangle
  if (peaked) head.peak_z = rounded(head.peak_z + up);
  return head.peak_z < 0 ? std::nullopt : std::optional(head);  // a valley that deep is no head
}

struct Import {
  StepFile& file;
  const ModelFor& wanted;
  IfcShapes shapes{file};
  Ids openings_of{}, units_of{}, type_of{}, properties_of{}, parts_of{};
  std::set<Id> placed{};                 ///< Units that have their opening.
  std::map<Id, glm::dvec3> middle_of{};  // of units: many walls ask for each
  std::vector<ModelWall> walls{};
  std::map<Id, std::size_t> job_wall{};                        // index in the job of each wall that is in it
  std::map<std::string, std::vector<std::string>> left_out{};  // names by what is said of them
  UniqueNames names{};
  long filled = 0;
  ModelReading reading{};

  ModelReading run() {
    readRelations();
    for (const char* type : {"IFCWALL", "IFCWALLSTANDARDCASE", "IFCWALLELEMENTEDCASE"}) {
      for (const Id id : file.of(type)) readWall(id);
    }
    for (ModelWall& wall : walls) findOutside(wall);  // when all are known; a turned wall is met as before
    writeWalls();                                     // openings name their wall by its index
    for (const ModelWall& wall : walls) {
      if (const auto at = job_wall.find(wall.id); at != job_wall.end()) readOpenings(wall, at->second);
    }
    tellLeftOut();
    return std::move(reading);
  }

  /// A note for all things of which the same is to be said.
  void leaveOut(const std::string& why, const std::string& name) {
    left_out[why].push_back(name.empty() ? "one without a name" : base::quote(name));
  }

  /// From each of what a relation names to each of the others.
  Ids relations(const char* type) {
    Ids all;
    const auto each = [](const StepValue& value) {
      return value.kind == StepValue::Kind::List ? value.items : std::vector{value};
    };
    for (const Id id : file.of(type)) {
      const StepInstance relation = file.at(id);
      for (const StepValue& a : each(relation[4])) {  // 4 and 5: the two ends of each of these relations
        for (const StepValue& b : each(relation[5])) all[a.reference].push_back(b.reference);
      }
    }
    return all;
  }

  void readRelations() {
    openings_of = relations("IFCRELVOIDSELEMENT");           // by its wall
    units_of = relations("IFCRELFILLSELEMENT");              // by its opening
    type_of = relations("IFCRELDEFINESBYTYPE");              // by the thing that is of it
    properties_of = relations("IFCRELDEFINESBYPROPERTIES");  // by the thing that has them
    parts_of = relations("IFCRELAGGREGATES");                // by the whole
    for (const auto& [opening, units] : units_of) placed.insert(units.begin(), units.end());
  }

  std::string nameOf(const StepInstance& thing, const char* otherwise) {
    const std::string name(base::shortened(base::oneLine(thing[2].text), kLongest));  // 2: Name
    return names.take(name.empty() ? otherwise : name);
  }

  /// False: it says that it is inside the building.
  bool saysOutside(Id wall) {
    for (const Id id : properties_of[wall]) {
      const StepInstance set = file.at(id);
      if (set.type != "IFCPROPERTYSET") continue;
      for (const StepValue& reference : set[4].items) {  // 4: HasProperties; of a property 0: Name, 2: NominalValue
        const StepInstance property = file.at(reference);
        if (property[0].text == "IsExternal" && property[2].is("F")) return false;
      }
    }
    return true;  // the model doesn't say: findOutside looks at what stands round it
  }

  Body bodyOfWall(Id id, const StepInstance& thing) {  // without a body its members' corners, in the world
    Body body = shapes.bodyOf(thing);
    if (!body.corners.empty()) return body;  // a wall without a body may be put together of members
    for (const Id part : parts_of[id]) {
      const StepInstance member = file.at(part);
      if (member.type != "IFCMEMBER") continue;  // only these: coverings reach past the frame
      const Body of_member = shapes.bodyOf(member);
      body.corners.insert(body.corners.end(), of_member.corners.begin(), of_member.corners.end());
    }
    return body;
  }

  void readWall(Id id) {
    const StepInstance thing = file.at(id);
    ModelWall wall;
    wall.id = id;
    wall.name = nameOf(thing, "wall");
    const Body body = bodyOfWall(id, thing);
    if (body.curved) return leaveOut("curved", wall.name);
    if (body.corners.empty()) return leaveOut("without a shape that can be read", wall.name);
    if (!saysOutside(id)) return leaveOut("inside the building, by the model", wall.name);
    if (body.unknown) leaveOut("drawn in a way that is only partly read", wall.name);
    const glm::dvec2 x(shapes.placeOf(thing)[0]);  // column 0: the wall's own x, on plan
    const double length = std::sqrt(glm::dot(x, x));
    if (length > 0.1) wall.along = x / length;  // one that stands upright has no direction on plan
    measure(wall, body);
    if (wall.v.length() > wall.u.length()) {  // then its own x runs across it
      wall.along = {-wall.along.y, wall.along.x};
      measure(wall, body);
    }
    walls.push_back(std::move(wall));
  }

  static void measure(ModelWall& wall, const Body& body) {
    wall.inward = {-wall.along.y, wall.along.x};  // findOutside turns it where this is outward
    wall.u = wall.v = wall.z = {};
    std::vector<job::TopPoint> points;
    for (const glm::dvec3& corner : body.corners) {
      const glm::dvec3 at = wall.local(corner);
      wall.u.hold(at.x), wall.v.hold(at.y), wall.z.hold(at.z);
      points.push_back({at.x, at.z});
    }
    for (job::TopPoint& point : points) point = {point.x - wall.u.low, point.z - wall.z.low};  // as a job has its top
    wall.top = upperEdge(std::move(points));
    for (const CutPlane& cut : body.cuts) {
      const glm::dvec3 at = wall.local(cut.at), towards = wall.local(cut.towards);
      if (towards.z > -kUpright) continue;          // it takes nothing off the top
      const double slope = -towards.x / towards.z;  // rise of the plane along the wall
      // Under a roof that falls across the wall the lower of its two faces is the frame's top.
      const double across = std::min(towards.y * (wall.v.low - at.y), towards.y * (wall.v.high - at.y)) / -towards.z;
      wall.top = under(wall.top, at.z - wall.z.low + across - slope * (at.x - wall.u.low), slope);
    }
    wall.top = upperEdge(wall.top);  // cutting leaves corners that are none any more
  }

  /// How many other walls of its storey a line from the wall's middle meets.
  [[nodiscard]] int metBy(const ModelWall& wall, glm::dvec2 direction) const {
    const glm::dvec2 from = wall.on(wall.u.middle(), wall.v.middle());
    int met = 0;
    for (const ModelWall& other : walls) {  // those of other storeys are passed over
      if (other.id == wall.id || wall.z.middle() < other.z.low || wall.z.middle() > other.z.high) continue;
      const glm::dvec2 off = from - other.on(0, other.v.middle());
      const double towards = glm::dot(direction, other.inward);
      if (std::abs(towards) < 1e-6) continue;                     // parallel: it is never met
      const double far = -glm::dot(off, other.inward) / towards;  // to the other's middle line
      const double at = glm::dot(off + direction * far, other.along);
      if (far > 0 && at > other.u.low && at < other.u.high) ++met;  // before it, between its ends
    }
    return met;
  }

  /// Turns the wall so that its inward side is inward.
  void findOutside(ModelWall& wall) {
    const int before = metBy(wall, -wall.inward), behind = metBy(wall, wall.inward);
    wall.outside = before == 0 || behind == 0;  // a wall that is met on both sides divides rooms
    glm::dvec2 middle{0.0};                     // of the house on plan
    for (const ModelWall& each : walls) middle += each.on(each.u.middle(), each.v.middle()) / double(walls.size());
    const bool middle_before = glm::dot(middle, wall.inward) < wall.v.middle();
    if (before > behind || (before == behind && middle_before)) wall.turn();  // else by the middle of the house
  }

  void writeWalls() {
    reading.job.title = base::shortened(base::oneLine(file.at(file.of("IFCPROJECT").front())[2].text), 2 * kLongest);
    if (reading.job.title.empty()) reading.job.title = "imported";
    reading.job.practice = wanted.practice_name;
    glm::dvec2 corner(std::numeric_limits<double>::infinity());  // the house's lower left on plan is the job's origin
    Stretch heights;                                             // the lowest wall's foot is at height 0
    for (const ModelWall& wall : walls) {
      corner = glm::min(corner, glm::min(wall.on(wall.u.low, wall.v.low), wall.on(wall.u.high, wall.v.low)));
      heights.hold(wall.z.low);
    }
    for (ModelWall& wall : walls) {
      if (!wall.outside) {
        leaveOut("with other walls on both sides, so inside the building", wall.name);
        continue;
      }
      job::Wall out;
      out.name = wall.name;
      out.length = rounded(wall.u.length());
      for (const job::TopPoint& point : wall.top) out.top.push_back({rounded(point.x), rounded(point.z)});
      const glm::dvec2 at = wall.on(wall.u.low, wall.v.low) - corner;  // lower left corner of its outside face
      out.at_x = rounded(at.x), out.at_y = rounded(at.y);
      if (const double level = rounded(wall.z.low - heights.low); level != 0) out.level = level;
      out.turn_degrees = std::round(std::atan2(wall.along.y, wall.along.x) * 180 / std::numbers::pi * 1e4) / 1e4 + 0.0;
      if (!isPossible(out)) {
        leaveOut("of a size that no wall has", wall.name);
        continue;
      }
      out.top.front().x = 0;  // a job wants the ends there, which rounding may have moved
      out.top.back().x = out.length;
      job_wall[wall.id] = reading.job.walls.size();
      reading.job.walls.push_back(std::move(out));
    }
    if (reading.job.walls.empty()) return;
    reading.notes.emplace_back(
        "walls stand with their frames' outside face where the model has the wall's; studs, lining and cladding are "
        "the rule set's");
  }

  static bool isPossible(const job::Wall& wall) {
    const job::TableRule& table = job::tableOf<job::Wall>();
    const bool heights =
        std::all_of(wall.top.begin(), wall.top.end(), [&](const auto& point) { return within(table, "top", point.z); });
    return wall.top.size() >= 2 && wall.top.size() <= 64 && heights && within(table, "length", wall.length) &&
           within(table, "at", wall.at_x) && within(table, "at", wall.at_y) &&
           within(table, "level", wall.level.value_or(0));
  }

  /// How far a thing's shape reaches in a wall's axes, no further than the wall, and its upper edge.
  struct Outline {
    Stretch u, z;
    std::vector<job::TopPoint> edge;
    bool curved = false, cut = false;
  };

  Outline outlineOf(const StepInstance& thing, const ModelWall& wall) {
    Outline outline;
    const Body body = shapes.bodyOf(thing);
    outline.curved = body.curved;
    for (const glm::dvec3& corner : body.corners) {
      const glm::dvec3 at = wall.local(corner);
      const job::TopPoint in{std::clamp(at.x, wall.u.low, wall.u.high), std::clamp(at.z, wall.z.low, wall.z.high)};
      outline.cut = outline.cut || std::abs(in.x - at.x) > kStraight || std::abs(in.z - at.z) > kStraight;
      outline.u.hold(in.x), outline.z.hold(in.z);
      outline.edge.push_back(in);
    }
    for (job::TopPoint& point : outline.edge) point = {point.x - outline.u.low, point.z - outline.z.low};
    outline.edge = upperEdge(std::move(outline.edge));
    return outline;
  }

  void readOpenings(const ModelWall& wall, std::size_t at) {
    for (const Id id : openings_of[wall.id]) {
      const StepInstance thing = file.at(id);
      const Outline outline = outlineOf(thing, wall);
      std::string name = base::oneLine(thing[2].text, kLongest);  // for notes: the unit gives the job's name
      if (outline.u.length() <= 0 || outline.z.length() <= 0) {   // without corners it is −∞
        leaveOut("openings without a shape that can be read", name);
        continue;
      }
      const std::vector<Id> units = unitsIn(id, wall, outline.u, outline.z);
      if (units.empty())
        leaveOut("openings without a window or a door", name);
      else
        writeOpening(units, wall, at, outline);
    }
    for (const Id id : allUnits()) {  // that stand in it without a void: its own shape has the hole
      if (placed.contains(id) || !standsIn(id, wall, wall.u, wall.z)) continue;
      Outline outline = outlineOf(file.at(id), wall);
      outline.curved = false;  // a handle is
      if (!outline.edge.empty() && placed.insert(id).second) writeOpening({id}, wall, at, outline);
    }
  }

  /// What the model says fills it; else what stands in it.
  std::vector<Id> unitsIn(Id opening, const ModelWall& wall, const Stretch& u, const Stretch& z) {
    std::vector<Id> units;  // several are taken as one, and told
    for (const Id id : units_of[opening]) {
      const std::string type = file.at(id).type;
      if (type.starts_with("IFCWINDOW") || type.starts_with("IFCDOOR")) units.push_back(id);
    }
    for (const Id id : units.empty() ? allUnits() : std::vector<Id>()) {  // a model may name none
      if (placed.contains(id) || !standsIn(id, wall, u, z)) continue;
      placed.insert(id);  // no other opening gets it
      units.push_back(id);
    }
    return units;
  }

  [[nodiscard]] std::vector<Id> allUnits() const {
    std::vector<Id> all;
    for (const char* type : {"IFCWINDOW", "IFCWINDOWSTANDARDCASE", "IFCDOOR", "IFCDOORSTANDARDCASE"})
      all.insert(all.end(), file.of(type).begin(), file.of(type).end());
    return all;
  }

  bool standsIn(Id unit, const ModelWall& wall, const Stretch& u, const Stretch& z) {
    const auto [found, fresh] = middle_of.try_emplace(unit);
    if (fresh) found->second = middleOf(file.at(unit));
    const glm::dvec3 at = wall.local(found->second);
    const auto in = [](const Stretch& stretch, double to) { return to > stretch.low && to < stretch.high; };
    return in(u, at.x) && in(wall.v, at.y) && in(z, at.z);
  }

  glm::dvec3 middleOf(const StepInstance& unit) {
    std::vector<glm::dvec3> corners = shapes.bodyOf(unit).corners;
    if (corners.empty()) {  // one that is put together of parts
      const glm::dvec4 far(unit[9].number * shapes.unit, 0.0, unit[8].number * shapes.unit, 1.0);
      const glm::dmat4 place = shapes.placeOf(unit);
      corners = {glm::dvec3(place[3]), glm::dvec3(place * far)};
    }
    glm::dvec3 low = corners.front(), high = low;
    for (const glm::dvec3& corner : corners) low = glm::min(low, corner), high = glm::max(high, corner);
    return (low + high) / 2.0;
  }

  void writeOpening(const std::vector<Id>& units, const ModelWall& wall, std::size_t at, const Outline& outline) {
    const auto& [u, z, edge, curved, cut] = outline;
    const Id id = units.front();
    const StepInstance thing = file.at(id);
    const bool door = thing.type.starts_with("IFCDOOR");  // the first of several tells what they are
    job::Opening out;
    out.name = nameOf(thing, door ? "door" : "window");
    out.wall = at;
    // The standard looks along the unit's own y.
    const bool from_inside = glm::dot(glm::dvec2(shapes.placeOf(thing)[1]), wall.inward) < 0;  // column 1: y
    const std::vector<Id>& types = type_of[id];
    const StepInstance type = file.at(types.empty() ? 0 : types.front());  // 0 is no instance: it has no values
    const Working working = workingOf(file, thing, type, properties_of[id], from_inside);
    if (!working.kind)
      leaveOut(door ? "doors that don't say how they open, taken as hinged"
                    : "windows that don't say how they open, taken as fixed",
               out.name);
    if (working.unclear) leaveOut("windows with several panels, taken as one", out.name);
    out.unit.kind = working.kind.value_or(door ? job::UnitKind::HingedDoor : job::UnitKind::FixedWindow);
    out.unit.hand = working.hand;
    out.unit.lights = working.lights;
    if (working.over) out.unit.rows.assign(working.lights.size(), 0);  // 0: rows share the height
    out.width = u.length(), out.height = z.length();
    // IfcWindow and IfcDoor have OverallHeight, OverallWidth at 8 and 9 in both editions.
    out.unit.width = thing[9].number * shapes.unit, out.unit.height = thing[8].number * shapes.unit;
    if (units.size() > 1) leaveOut("openings with several windows or doors, taken as one unit", out.name);
    if (units.size() > 1 || out.unit.width <= 0 || out.unit.height <= 0)
      out.unit.width = out.width, out.unit.height = out.height;
    double gap_below = 0;  // how far the sill goes down for an opening that grew
    if (out.unit.width > out.width - kNoGap || out.unit.height > out.height - kNoGap) {
      out.unit.width = std::min(out.unit.width, out.width), out.unit.height = std::min(out.unit.height, out.height);
      document::sizeOpening(out, *wanted.practice);  // as large as the unit and the practice's usual gaps
      out.width = std::max(out.width, u.length()), out.height = std::max(out.height, z.length());
      gap_below = door ? 0 : (out.height - z.length()) / 2;  // a door stays on the floor
      ++filled;
    }
    if (out.unit.kind == job::UnitKind::FixedWindow && !curved) {  // no other follows the roof
      out.head = headUnder(edge, out.width, out.height);
      out.unit.head = headUnder(edge, out.unit.width, out.unit.height);
    }
    if (!out.head && (curved || !isLevel(edge))) leaveOut("openings of another shape, taken as rectangles", out.name);
    if (cut) leaveOut("openings that reach past their wall, cut off where it ends", out.name);
    out.left = rounded(u.middle() - out.width / 2 - wall.u.low);  // it grew to both sides
    out.sill = rounded(z.low - gap_below - wall.z.low);
    for (double* size : {&out.width, &out.height, &out.unit.width, &out.unit.height}) *size = rounded(*size);
    const job::TableRule &of_opening = job::tableOf<job::Opening>(), &of_unit = job::tableOf<job::Unit>();
    if (!within(of_opening, "width", out.width) || !within(of_opening, "height", out.height) ||
        !within(of_opening, "sill", out.sill) || !within(of_opening, "left", out.left) ||
        !within(of_unit, "width", out.unit.width) || !within(of_unit, "height", out.unit.height))
      return leaveOut("openings of a size or a place that none has", out.name);  // the job file would refuse it
    reading.job.openings.push_back(std::move(out));
  }

  void tellLeftOut() {
    for (const Id id : allUnits()) {
      if (!placed.contains(id)) leaveOut("windows and doors in no opening of a wall", file.at(id)[2].text);
    }
    for (const auto& [why, which] : left_out) {
      const bool told = why.starts_with("openings") || why.starts_with("windows") || why.starts_with("doors");
      const auto first = std::span(which).first(std::min<std::size_t>(which.size(), 5));
      reading.notes.push_back((told ? "" : "walls ") + why + ": " + base::joined(first) +
                              (which.size() > 5 ? " and " + std::to_string(which.size() - 5) + " more" : ""));
    }
    if (filled > 0)
      reading.notes.push_back("the model has no gap round " + words::count(filled, "unit") +
                              ": the framed opening is the unit with the rule set's usual gaps");
  }
};

}  // namespace

base::Result<ModelReading> readIfc(std::istream& in, const std::string& file, const ModelFor& wanted) {
  const auto refuse = [&](const std::string& say) { return base::Result<ModelReading>{{}, {{file, {}, {}, say}}}; };
  StepFile step(in, kTypes);
  if (!step.fault().empty()) return refuse(step.fault());
  if (step.schema().find("IFC2X3") == std::string::npos && step.schema().find("IFC4") == std::string::npos)
    return refuse("is neither IFC 2x3 nor IFC 4");
  if (IfcShapes(step).unit <= 0) return refuse("has no project that names a unit of length");
  ModelReading reading = Import{step, wanted}.run();
  if (reading.job.walls.empty())
    return refuse("has no outside wall that can be read" +
                  (reading.notes.empty() ? std::string() : ": " + reading.notes.front()));
  return {std::move(reading), {}};
}

}  // namespace sillwright::exchange
