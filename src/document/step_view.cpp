#include "document/step_view.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <glm/ext/matrix_transform.hpp>
#include <limits>
#include <map>

#include "plan/survey/asked_readings.h"
#include "scene/build/build.h"
#include "scene/build/wall_parts.h"
#include "scene/describe.h"
#include "scene/pick.h"
#include "scene/water_lines.h"
#include "words/text.h"

namespace sillwright::document {

namespace {

using plan::StepKind;
using scene::Layer;
using scene::PartKind;

constexpr float kFarOut = 900.0F;      // mm before the wall: where a unit lies on its trestles
constexpr float kNearBy = 260.0F;      // mm before the wall: where what is put on it comes from
constexpr double kRoundWork = 110.0;   // mm round the step's parts that are in sight
constexpr std::size_t kMostNotes = 7;  // parts come in their order: the first are named
constexpr std::size_t kMostAlike = 6;  // places that one note points at; of more, one stands for all

/// Where the eye is turned, degrees: from square at the wall from outside (+: it stands further to the right), and
/// down. As StepKind. From the other side where more is seen from there.
struct Direction {
  float turn, down;
};
constexpr Direction kDirections[] = {{20, 12},  {0, 5},    {20, 12}, {20, 12}, {16, 36}, {16, 36}, {34, 10},
                                     {20, 12},  {38, 18},  {62, 18}, {38, 18}, {34, 10}, {34, 10}, {20, 12},
                                     {20, -14}, {20, -14}, {20, 12}, {0, 5},   {198, 8}, {20, 12}};
static_assert(std::size(kDirections) == plan::kStepKinds, "one for each kind of step");

/// A step's picture while it is put together.
struct Stage {
  const Document& document;
  const Taught& taught;
  std::size_t opening;
  const job::Opening& of;
  const plan::OpeningPlan& planned;
  const scene::WallFrame& wall;
  StepKind kind;
  float way;
  bool before;  ///< The unit stands before the wall, with what is on it.
  StepView view{};

  [[nodiscard]] glm::vec3 onWall(double x, double y, double z) const {
    return wall.toWorld({static_cast<float>(x), static_cast<float>(y), static_cast<float>(z)});
  }
  [[nodiscard]] std::string length(double mm) const { return words::bareLength(mm, document.practice->display); }
  void draw(glm::vec3 from, glm::vec3 to, std::string words = {}, float words_at = 0.5F) {
    view.lines.push_back({from, to, std::move(words), words_at});
  }
  [[nodiscard]] bool isLit(std::uint32_t part) const { return view.lit && view.scene.parts[part].step == *view.lit; }
};

/// Whether a part is what the step is about.
bool isOfStep(const Stage& s, const scene::Part& part) {  // of a step that makes no part: what it is done to
  const bool own = part.opening == static_cast<std::int32_t>(s.opening);
  const auto isOf = [&](PartKind first, PartKind last) { return own && part.kind >= first && part.kind <= last; };
  if (s.kind == StepKind::CheckFraming || s.kind == StepKind::ReadOpening) return own && part.layer == Layer::Frame;
  if (s.kind == StepKind::PanelsOut) return own && part.step == scene::partStep(StepKind::PanelsIn);
  if (s.kind == StepKind::BoreReveal) return isOf(PartKind::RevealSide, PartKind::RevealHead);
  if (s.kind == StepKind::TryOpening) return isOf(PartKind::SashStile, PartKind::SashRail);
  if (s.kind != StepKind::JambFlashings) return part.step == scene::partStep(s.kind);
  return part.layer == Layer::Flashing &&
         part.step == scene::partStep(s.before ? StepKind::LiftIn : StepKind::JambFlashings);
}

/// How far before the wall a part is drawn, mm; empty where the picture leaves it out: other walls and openings, what
/// is not there yet, and what hides the work.
std::optional<float> outOf(const Stage& s, const scene::Part& part) {
  const bool other_opening = part.opening >= 0 && part.opening != static_cast<std::int32_t>(s.opening);
  if ((part.wall >= 0 && part.wall != static_cast<std::int32_t>(s.of.wall)) || other_opening) return std::nullopt;
  const bool hides = part.layer == Layer::Eave || (part.layer == Layer::Lining && s.kind != StepKind::SealInside);
  if (hides) return std::nullopt;
  const bool panel = part.step == scene::partStep(StepKind::PanelsIn);
  if (s.before && (panel || part.step == scene::partStep(StepKind::LiftIn))) {
    if (s.kind == StepKind::LiftIn) return panel ? std::nullopt : std::optional(kFarOut * (1.0F - s.way));
    return panel ? kFarOut * 1.4F : kFarOut;  // a panel stands clear of its frame
  }
  if ((s.taught.hidden_steps & scene::bitOf(part.step)) != 0) return std::nullopt;
  return 0.0F;
}

void fillScene(Stage& s) {
  const scene::Scene& whole = s.document.scene;
  scene::Scene& some = s.view.scene;
  some = {whole.parts, {}, whole.meshes, {}, whole.walls, whole.openings, {}, whole.bounds};
  for (scene::Part& part : some.parts) {
    if (s.view.lit && isOfStep(s, part)) {
      part.step = *s.view.lit;
    } else if (s.before && (part.layer == Layer::Unit || part.step == scene::partStep(StepKind::LiftIn))) {
      part.step = scene::PartStep::FromTheStart;  // what stands before the wall with it isn't lit
    }
  }
  for (const scene::Solid& solid : whole.solids) {
    const auto out = outOf(s, whole.parts[solid.part]);
    if (!out) continue;
    some.solids.push_back(solid);
    for (glm::vec3& corner : some.solids.back().corner) some.bounds.hold(corner -= s.wall.inward * *out);
  }
  for (const scene::MeshUse& use : whole.uses) {
    const auto out = outOf(s, whole.parts[use.part]);
    if (!out) continue;
    some.uses.push_back(use);
    some.uses.back().place[3] -= s.wall.inward * *out;
  }
  if (s.kind == StepKind::TryOpening) scene::openSashes(some, plan::partsOf(s.planned.unit), s.opening);
}

/// Whether a place lies about the opening, where the picture reaches to.
bool isNear(const Stage& s, const glm::vec3& place) {
  const glm::vec3 at = s.wall.toLocal(place);
  const auto within = [](double value, double low, double size) {
    return value > low - 2 * kRoundWork && value < low + size + 2 * kRoundWork;
  };
  return within(static_cast<double>(at.x), s.of.left, s.of.width) &&
         within(static_cast<double>(at.z), s.of.sill, s.of.height);
}

/// Places on the step's parts about the opening: the middles of their faces.
using Places = std::map<std::uint32_t, std::vector<glm::vec3>>;

Places placesOf(const Stage& s) {
  Places places;
  for (const scene::Solid& solid : s.view.scene.solids) {
    if (!s.isLit(solid.part)) continue;
    for (const auto& face : scene::kFaces) {
      const glm::vec3 middle = (solid.corner[face[0]] + solid.corner[face[2]]) * 0.5F;
      if (isNear(s, middle)) places[solid.part].push_back(middle);
    }
  }
  for (const scene::MeshUse& use : s.view.scene.uses) {
    if (s.isLit(use.part)) places[use.part].push_back(use.place[3]);  // where the mesh has its origin
  }
  return places;
}

/// The places that are in sight from a direction.
Places seenFrom(const Stage& s, scene::Rays& rays, const Places& places, const Direction& direction) {
  constexpr float kBack = 6000.0F;                  // mm; the eye stands before all that is drawn
  constexpr float kTouch = 6.0F;                    // a place on a part's own face, or a screw's head in it
  const float turn = glm::radians(direction.turn);  // positive: the eye stands at the right and looks left
  const float down = glm::radians(direction.down);
  const glm::vec3 level = s.wall.inward * std::cos(turn) - s.wall.along * std::sin(turn);
  const glm::vec3 forward = level * std::cos(down) - glm::vec3(0.0F, 0.0F, std::sin(down));
  Places seen;
  for (const auto& [part, all] : places) {
    for (const glm::vec3& place : all) {
      const auto hit = rays.pick(place - forward * kBack, forward);            // from the eye's side towards the place
      if (hit && hit->distance > kBack - kTouch) seen[part].push_back(place);  // nothing stands before it
    }
  }
  return seen;
}

/// Of the step's direction, the other side's and those from inside, the first that shows most of its parts. Answers
/// what is in sight from there.
Places stand(Stage& s, const Places& places) {
  scene::Rays rays(s.view.scene, {});
  Direction best = kDirections[static_cast<std::size_t>(s.kind)];  // of a jamb, as the left one is seen
  const bool right_jamb = (s.kind == StepKind::FixOtherJamb) == (s.planned.packing.first_jamb == plan::Side::Left);
  const bool jamb =
      s.kind == StepKind::FirstJamb || s.kind == StepKind::FixFirstJamb || s.kind == StepKind::FixOtherJamb;
  if (jamb && right_jamb) best.turn = -best.turn;  // a jamb's face is seen from across the opening
  Places seen = seenFrom(s, rays, places, best);
  const Direction first = best;
  for (const float turn : {-first.turn, 180.0F - first.turn}) {  // from the other side, then from inside
    const Direction other{turn, std::abs(first.down)};           // only a step's own direction looks up
    Places also = seenFrom(s, rays, places, other);
    if (also.size() <= seen.size()) continue;  // the step's own direction comes first
    best = other;
    seen = std::move(also);
  }
  const float square = glm::degrees(std::atan2(-s.wall.inward.x, s.wall.inward.y));
  s.view.yaw_degrees = std::remainder(square + best.turn, 360.0F);  // between −180 and 180
  s.view.pitch_degrees = best.down;
  return seen;
}

/// Names the step's parts that are in sight, those alike together.
void addNotes(Stage& s, const Places& seen) {
  if (s.kind == StepKind::LiftIn || s.kind <= StepKind::ReadOpening) return;  // lines show these
  const glm::vec3 middle = s.view.scene.openings[s.opening].centre;
  const auto nearer = [&](const glm::vec3& a, const glm::vec3& b) {
    return glm::distance(a, middle) < glm::distance(b, middle);
  };
  std::vector<StepNote>& notes = s.view.notes;
  for (const auto& [number, all] : seen) {
    const scene::Part& part = s.view.scene.parts[number];
    const glm::vec3 place = *std::min_element(all.begin(), all.end(), nearer);
    const bool plain = part.layer == Layer::Unit || part.opening < 0;  // its sizes are of no use here
    const std::string words =
        plain ? scene::nameOf(part.kind, s.document.practice->words) : scene::describe(part, *s.document.practice);
    auto same = std::find_if(notes.begin(), notes.end(), [&](const auto& note) { return note.words == words; });
    if (same == notes.end()) same = notes.insert(same, {words, {}});  // notes stand in the order of their parts
    same->at.push_back(place);
    if (plain) same->at = {*std::min_element(same->at.begin(), same->at.end(), nearer)};  // one stands for all
  }
  if (notes.size() > kMostNotes) notes.resize(kMostNotes);
  for (StepNote& note : notes) {  // the number goes first, for it counts places that are then left out
    if (note.at.size() > 1) note.words = std::to_string(note.at.size()) + " × " + note.words;
    if (note.at.size() > kMostAlike) note.at.resize(1);
  }
}

/// An outline on the wall, and its head over its lower left corner.
struct Outline {
  scene::Rect box;
  plan::HeadLine head;

  [[nodiscard]] double top(double x) const { return box.z0 + head.at(x - box.x0); }
  [[nodiscard]] std::vector<glm::vec3> corners(const Stage& s, double y) const {
    std::vector<glm::vec3> all;
    for (const plan::Point& corner : head.under({0, 0, box.width(), box.height()})) {
      all.push_back(s.onWall(box.x0 + corner.x, y, box.z0 + corner.z));
    }
    return all;
  }
};

/// Draws where the tape is held, with what it read, or with the planned size where it wasn't held.
void addTape(Stage& s, const Outline& at) {
  using T = job::TapeReading;
  const job::Measured read = s.of.measured.value_or(job::Measured{});
  const auto planned = plan::plannedReadings(s.of);
  const scene::Rect& box = at.box;
  const auto tape = [&](T reading, const std::optional<double>& of, std::array<double, 4> line, float words_at) {
    const std::optional<double>& length = of ? of : planned[static_cast<std::size_t>(reading)];
    if (length) s.draw(s.onWall(line[0], 0, line[1]), s.onWall(line[2], 0, line[3]), s.length(*length), words_at);
  };
  constexpr std::array<T, 3> kWidths{T::WidthBottom, T::WidthMiddle, T::WidthTop};
  constexpr std::array<T, 3> kHeights{T::HeightLeft, T::HeightMiddle, T::HeightRight};
  for (std::size_t i = 0; i < 3; ++i) {
    const double share = 0.08 + 0.42 * static_cast<double>(i);  // near one end, in the middle, near the other
    const double x = box.x0 + share * box.width();
    const double z = box.z0 + share * box.height();
    const bool sloped = i == 2 && !at.head.level();  // from corner to corner
    if (i != 1 || at.head.level()) {                 // a raked head has no middle width
      tape(kWidths[i], read.widths[i], {box.x0, sloped ? at.top(box.x0) : z, box.x1, sloped ? at.top(box.x1) : z},
           0.3F);
    }
    tape(kHeights[i], read.heights[i], {x, box.z0, x, at.top(x)}, 0.68F);
  }
  tape(T::DiagonalFromBottomLeft, read.diagonals[0], {box.x0, box.z0, box.x1, at.top(box.x1)}, 0.8F);
  tape(T::DiagonalFromTopLeft, read.diagonals[1], {box.x0, at.top(box.x0), box.x1, box.z0}, 0.8F);
  const bool measured = s.planned.as_built.read_count > 0;
  s.view.notes.push_back({measured ? "as measured; what was not, as planned" : "as planned: not measured yet", {}});
}

/// The level along a sill and both jambs.
void addLevels(Stage& s, const Outline& at) {
  s.draw(s.onWall(at.box.x0, 0, at.box.z0), s.onWall(at.box.x1, 0, at.box.z0), "level");
  for (const double x : {at.box.x0, at.box.x1}) {  // a triangle's corner has no jamb
    if (at.top(x) > at.box.z0) s.draw(s.onWall(x, 0, at.box.z0), s.onWall(x, 0, at.top(x)), "plumb");
  }
}

/// What a step that measures or moves is shown by.
void addLines(Stage& s, const Outline& hole, const Outline& unit) {
  const float out = -kFarOut * (1.0F - s.way);  // y where the unit now is: negative is before the wall
  if (s.kind == StepKind::CheckFraming) addLevels(s, hole);
  if (s.kind == StepKind::ReadOpening) addTape(s, hole);
  if (s.kind == StepKind::ReadAgain) {
    addLevels(s, unit);
    const scene::Rect& box = unit.box;
    if (unit.head.level()) {  // a raked unit's diagonals differ anyway
      s.draw(s.onWall(box.x0, 0, box.z0), s.onWall(box.x1, 0, box.z1), "diagonal", 0.75F);
      s.draw(s.onWall(box.x0, 0, box.z1), s.onWall(box.x1, 0, box.z0), "diagonal", 0.75F);
    }
  }
  if (s.kind == StepKind::Membrane) {  // its cut, before it is folded in
    for (const auto& [from, to] : s.planned.weather.cut.cuts) {
      s.draw(s.onWall(hole.box.x0 + from.x, 0, hole.box.z0 + from.z),
             s.onWall(hole.box.x0 + to.x, 0, hole.box.z0 + to.z));
    }
  }
  if (s.kind == StepKind::LiftIn) {
    const std::vector<glm::vec3> from = unit.corners(s, static_cast<double>(out)), to = unit.corners(s, 0);
    for (std::size_t i = 0; i < from.size(); ++i) s.draw(from[i], to[i]);
    s.view.notes.push_back({"unit " + words::size(s.planned.unit, s.document.practice->display), {from[2]}});
  }
  if (s.kind == StepKind::SealInside) {
    const std::vector<glm::vec3> ring = hole.corners(s, static_cast<double>(s.wall.depth));
    for (std::size_t i = 0; i < ring.size(); ++i) s.draw(ring[i], ring[(i + 1) % ring.size()]);
    s.view.notes.push_back({"sealed all round", {(ring[1] + ring[2]) * 0.5F}});
  }
}

/// The step's parts about the opening; all the opening where it has none there, or a unit stands before it.
void addFocus(Stage& s, const Places& places, const scene::Rect& hole) {
  const auto hold = [&](double x, double z, double y) {
    for (const double dx : {-kRoundWork, kRoundWork}) {
      for (const double dz : {-kRoundWork, kRoundWork}) s.view.focus.push_back(s.onWall(x + dx, y, z + dz));
    }
  };
  for (const auto& [part, all] : places) {
    for (const glm::vec3& each : all) {
      const glm::vec3 at = s.wall.toLocal(each);
      hold(static_cast<double>(at.x), static_cast<double>(at.z), static_cast<double>(at.y));
    }
  }
  if (!s.view.focus.empty() && !s.before && s.kind != StepKind::TryOpening) return;
  for (const double x : {hole.x0, hole.x1}) {
    for (const double z : {hole.z0, hole.z1}) {
      hold(x, z, 0);
      if (s.kind == StepKind::LiftIn) hold(x, z, static_cast<double>(kFarOut * (kStillWay - 1.0F)));
    }
  }
}

/// The laps that the step makes, by the rule of each; and the first step after it that would be harmed by its want.
void addWhy(Stage& s) {
  const auto stepOf = [&](const std::string& sheet) {
    const auto& all = s.taught.skin.sheets;
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const plan::Sheet& each) { return each.name == sheet; });
    return found == all.end() ? StepKind::CheckFraming : found->step;  // no step lays it: the other sheet's counts
  };
  const auto add = [&](const std::string& words) {
    if (s.view.why.find(words) == std::string::npos) s.view.why += (s.view.why.empty() ? "" : " ") + words;
  };
  for (const plan::ForbiddenSwap& lap : plan::forbiddenSwaps(s.taught.skin)) {  // the later sheet makes the lap
    if (std::max(stepOf(lap.swap.first), stepOf(lap.swap.second)) == s.kind) add(lap.why);
  }
  if (s.kind == StepKind::LiftIn) return;  // that it can be fixed then needs no words
  for (const StepKind later : s.taught.cards) {
    const auto harmed = plan::orderFaults(std::array{later, s.kind});  // as if this step came after that one
    if (harmed.empty() || later <= s.kind) continue;
    add(harmed.front().why);
    return;
  }
}

/// Whether a step is done while the unit stands before the wall: flashings that came on it are freed there.
bool standsBefore(const Document& document, std::size_t opening, StepKind kind) {
  const bool on_unit = plan::hasPiece(document.plan.openings[opening], plan::PieceKind::JambFlashing, StepKind::LiftIn);
  return kind == StepKind::PanelsOut || kind == StepKind::BoreReveal || kind == StepKind::LiftIn ||
         (kind == StepKind::JambFlashings && on_unit);
}

constexpr float kOneAfterTheOther = 0.6F;  // of the time, until the last part of many begins to come
constexpr float kFoldFrom = 0.6F;          // of the time: the membrane hangs, and its flaps are folded in

float eased(float t) {
  t = std::clamp(t, 0.0F, 1.0F);
  return t * t * (3.0F - 2.0F * t);
}

bool comesOn(const scene::Part& part, const StepView& view) {
  if (!view.lit || part.step != *view.lit) return false;
  const bool laid = part.layer == Layer::Membrane || part.layer == Layer::Flashing || part.layer == Layer::Packing ||
                    part.layer == Layer::Cladding || part.layer == Layer::Battens;
  return laid || view.unit_comes;
}

/// Lowest and highest of the feet of the parts that come.
struct Feet {
  std::map<std::uint32_t, float> of;
  float low = std::numeric_limits<float>::max();
  float high = std::numeric_limits<float>::lowest();

  explicit Feet(const StepView& view) {
    for (const scene::Solid& solid : view.scene.solids) {
      if (!comesOn(view.scene.parts[solid.part], view)) continue;  // what is there already needs no turn
      float& foot = of.try_emplace(solid.part, std::numeric_limits<float>::max()).first->second;
      for (const glm::vec3& corner : solid.corner) foot = std::min(foot, corner.z);
    }
    for (const auto& [part, foot] : of) {
      low = std::min(low, foot);
      high = std::max(high, foot);
    }
  }
};

/// When a part that is put on from the bottom up begins to come.
float beginOf(const scene::Part& part, std::uint32_t number, const Feet& feet) {
  const bool stacked = part.layer == Layer::Membrane || part.layer == Layer::Cladding || part.layer == Layer::Battens;
  const auto foot = feet.of.find(number);  // meshes have none and come at once
  if (!stacked || foot == feet.of.end() || feet.high <= feet.low) return 0.0F;
  return kOneAfterTheOther * (foot->second - feet.low) / (feet.high - feet.low);
}

/// A flap about its edge of the opening: flat in the wall's face at 0, folded in at 1.
void fold(scene::Solid& flap, const StepView& view, const scene::WallFrame& wall, float folded) {
  const scene::OpeningFrame& hole = view.scene.openings[static_cast<std::size_t>(view.scene.parts[flap.part].opening)];
  // The edge lies at the face; the flap runs in from there.
  glm::vec3 a(0.0F), b(0.0F);
  float length = 0.0F;
  for (const auto& edge : scene::kEdges) {  // it folds about its longest edge in the face, to a mm
    const glm::vec3 p = wall.toLocal(flap.corner[edge[0]]), q = wall.toLocal(flap.corner[edge[1]]);
    if (std::abs(p.y) > 1.0F || std::abs(q.y) > 1.0F || glm::distance(p, q) <= length) continue;
    a = flap.corner[edge[0]], b = flap.corner[edge[1]];
    length = glm::distance(p, q);
  }
  if (length <= 0.0F) return;  // none lies in the face: it doesn't fold
  const glm::vec3 axis = glm::normalize(b - a);
  const float quarter = glm::radians(90.0F) * (1.0F - folded);
  // Turned the way that brings its back edge towards the opening's middle.
  const glm::vec3 turned = glm::cross(axis, wall.inward);
  const float side = glm::dot(turned, hole.centre - a) < 0.0F ? -quarter : quarter;
  const glm::mat4 turn = glm::rotate(glm::mat4(1.0F), side, axis);
  for (glm::vec3& corner : flap.corner) corner = a + glm::vec3(turn * glm::vec4(corner - a, 0.0F));
}

}  // namespace

StepView stepView(const Document& document, const Taught& taught, std::size_t opening, int place, float way) {
  assert(document.scene.openings.size() == document.job.openings.size());  // a document that is worked out to its scene
  const job::Opening& of = document.job.openings.at(opening);
  const plan::OpeningPlan& planned = document.plan.openings[opening];
  const bool any = place > 0 && place <= static_cast<int>(taught.cards.size());  // 0 is the bare frame
  const StepKind kind = any ? taught.cards[static_cast<std::size_t>(place - 1)] : StepKind::CheckFraming;
  Stage s{document, taught,  opening,
          of,       planned, document.scene.walls[of.wall],
          kind,     way,     standsBefore(document, opening, kind)};
  if (any) s.view.lit = scene::partStep(kind);
  s.view.unit_out = s.before && way < 1.0F;  // at 1 it has arrived
  s.view.unit_comes = kind == StepKind::LiftIn || kind == StepKind::PanelsIn;
  s.view.comes_from = kind == StepKind::LiftIn ? kFarOut : kNearBy;
  fillScene(s);  // first: the rest looks at the step's own scene
  const Places places = placesOf(s);
  const scene::Rect hole{of.left, of.sill, of.left + of.width, of.sill + of.height};
  addFocus(s, places, hole);
  const Places seen = stand(s, places);  // notes name what is seen from there
  if (!any) return std::move(s.view);
  addWhy(s);
  addNotes(s, seen);
  addLines(s, {hole, plan::headLineOf(of)}, {scene::unitOutside(of, planned), plan::headLineOf(planned.unit)});
  return std::move(s.view);
}

bool comes(const StepView& view) {
  const auto on = [&](const auto& each) { return comesOn(view.scene.parts[each.part], view); };
  return std::any_of(view.scene.solids.begin(), view.scene.solids.end(), on);
}

scene::Scene onTheWay(const StepView& view, const scene::WallFrame& wall, float way) {
  scene::Scene scene = view.scene;
  const Feet feet(view);
  const float turn = glm::radians(view.yaw_degrees);  // to an eye inside parts come from the room
  const bool inside = glm::dot(wall.inward, {-std::sin(turn), std::cos(turn), 0.0F}) < 0.0F;
  const glm::vec3 out = wall.inward * (inside ? view.comes_from : -view.comes_from);
  const auto aside = [&](std::uint32_t number) {
    const float begin = beginOf(scene.parts[number], number, feet);
    return out * (1.0F - eased((way - begin) / (1.0F - kOneAfterTheOther)));
  };
  for (scene::Solid& solid : scene.solids) {  // a flap folds about the wall's edge before it is moved
    const scene::Part& part = scene.parts[solid.part];
    if (!comesOn(part, view)) continue;
    if (part.kind == PartKind::MembraneFold) fold(solid, view, wall, eased((way - kFoldFrom) / (1.0F - kFoldFrom)));
    const glm::vec3 by = aside(solid.part);
    for (glm::vec3& corner : solid.corner) corner += by;
  }
  for (scene::MeshUse& use : scene.uses) {
    if (comesOn(scene.parts[use.part], view)) use.place[3] += aside(use.part);
  }
  return scene;
}

}  // namespace sillwright::document
