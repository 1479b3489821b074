#include "plan/hold/mass.h"

#include <algorithm>
#include <span>

#include "plan/hold/panes.h"
#include "words/text.h"

namespace sillwright::plan {
namespace {

constexpr double kMm3PerM3 = 1e9;
constexpr int kLargestTeam = 3;

/// Length of a mitred ring's members along their middles.
double ringLength(const UnitRect& outside, double face) {
  return 2 * (outside.width() - face + outside.height() - face);
}

/// Where the weight of a unit sits.
struct Weights {
  double even = 0;  ///< Over the whole width: frame, reveal, fin, fixed glass.
  double sash = 0;  ///< Of sashes that slide, or of a leaf or sash that hangs.
};

double sashMetal(const UnitParts& parts, double share) {
  double volume = 0;
  for (std::size_t i = 0; i < static_cast<std::size_t>(parts.sashes); ++i) {
    const Sash& sash = parts.sash[i];
    const double ring = sash.outside.area() - parts.pane[i].area();  // stiles and rails as seen
    volume += ring * sash.depth * share;
  }
  return volume;
}

double finMetal(const UnitSpec& unit, const UnitParts& parts) {
  if (unit.fin <= 0) return 0;
  const UnitRect outer = UnitRect{0, 0, unit.width, unit.height}.inset(-unit.fin);
  return (outer.area() - parts.frame.area()) * kFinMetal;
}

bool hangsAtSide(job::UnitKind kind) {
  return kind == job::UnitKind::HingedDoor || kind == job::UnitKind::CasementWindow;
}

bool slides(job::UnitKind kind) {
  return kind == job::UnitKind::SlidingWindow || kind == job::UnitKind::SlidingDoor;
}

/// Packing's points of the sill, which come first.
std::span<const PackingPoint> onSill(const Packing& packing) {
  const auto end = std::find_if(packing.points.begin(), packing.points.end(),
                                [](const PackingPoint& point) { return point.side != Side::Sill; });
  return {packing.points.begin(), end};
}

/// The largest share of the weight on one sill packer, N. What lies evenly goes to the nearest packers; sashes that
/// slide may all stand in one half; a leaf hung at a side stands on the packer under its hinges.
double largestOnSillPacker(const UnitSpec& unit, const Weights& weights, const Packing& packing) {
  const std::span<const PackingPoint> sill = onSill(packing);
  const bool hangs = hangsAtSide(unit.kind);
  const double crowded = slides(unit.kind) ? 2 : 1;
  const double evenly = (weights.even + (hangs ? 0 : crowded * weights.sash)) / unit.width;
  const std::size_t hinged = unit.hand == job::Hand::Left || sill.empty() ? 0 : sill.size() - 1;
  double largest = 0;
  for (std::size_t i = 0; i < sill.size(); ++i) {
    const double low = i == 0 ? 0 : (sill[i - 1].at + sill[i].at) / 2;
    const double high = i + 1 == sill.size() ? unit.width : (sill[i].at + sill[i + 1].at) / 2;
    const double hung = hangs && i == hinged ? weights.sash : 0;
    largest = std::max(largest, ((high - low) * evenly + hung) * kGravity);
  }
  return largest;
}

}  // namespace

double glassMass(double area, const job::Glass& glass, double density) {
  return area * glass.thickness * std::max(glass.panes, 0) * density / kMm3PerM3;
}

double teamLimit(int people, const practice::Lifting& rules) {
  if (!rules.one_person) return 0;
  const double alone = rules.one_person->value;
  switch (people) {
    case 1:
      return alone;
    case 2:
      return rules.two_share ? 2 * alone * rules.two_share->value : 0;
    case kLargestTeam:
      return rules.three_share ? 3 * alone * rules.three_share->value : 0;
    default:
      return 0;
  }
}

std::string liftedBy(const UnitMass& mass) {
  if (!mass.people) return {};
  const std::string who = mass.mechanical_help ? "a lifter" : words::count(*mass.people, "person", "people");
  return mass.panel_kg > 0 ? who + ", one panel out first" : who;
}

Team teamFor(double mass_kg, double longest, const practice::Lifting& rules) {
  Team team;
  const bool unwieldy = rules.alone_size_most && longest > rules.alone_size_most->value;
  for (int people = 1; people <= kLargestTeam; ++people) {
    const double limit = teamLimit(people, rules);
    if (limit <= 0 || (people == 1 && unwieldy && teamLimit(2, rules) > 0)) continue;
    team.people = people;
    if (mass_kg <= limit) return team;
  }
  team.mechanical_help = team.people.has_value();
  return team;
}

UnitMass massOf(const UnitSpec& unit, const std::optional<double>& stated_kg, const Packing& packing,
                const practice::Practice& practice) {
  const practice::Masses& masses = practice.safety.masses;
  const UnitParts parts = partsOf(unit);
  const double metal = masses.aluminium.value / kMm3PerM3;
  UnitMass mass;
  Weights weights;
  for (const UnitRect& pane : parts.allPanes()) {
    mass.glass_kg += glassMass(pane.inset(-kGlassBite).area(), unit.glass, masses.glass.value);
  }
  const double face = (parts.frame.width() - parts.clear.width()) / 2;
  const double frame = ringLength(parts.frame, face) * unit.frame.depth * face * masses.metal_share.value * metal;
  const double sashes = sashMetal(parts, masses.metal_share.value) * metal;
  mass.frame_kg = frame + sashes + finMetal(unit, parts) * metal;
  if (unit.reveal) {
    const double ring = unit.width * unit.height - parts.frame.area();
    mass.reveal_kg = ring * unit.reveal->depth * masses.reveal.value / kMm3PerM3;
  }
  const double computed = mass.glass_kg + mass.frame_kg + mass.reveal_kg;
  mass.stated = stated_kg.has_value();
  mass.total_kg = stated_kg.value_or(computed);
  const double scale = computed > 0 ? mass.total_kg / computed : 0;
  weights.sash = parts.sashes > 0 ? (sashes + mass.glass_kg) * scale : 0;
  const auto team = [&](double kg) { return teamFor(kg, std::max(unit.width, unit.height), practice.safety.lifting); };
  // Of two sashes that slide by each other one comes out of its track; the other may be fixed in the frame.
  const bool comes_out = slides(unit.kind) || unit.kind == job::UnitKind::HingedDoor;
  if (comes_out && team(mass.total_kg).mechanical_help) mass.panel_kg = weights.sash / parts.sashes;
  const Team lifting = team(std::max(mass.panel_kg, mass.lifted()));
  mass.people = lifting.people;
  mass.mechanical_help = lifting.mechanical_help;
  weights.even = mass.total_kg - weights.sash;
  mass.per_sill_packer_n = largestOnSillPacker(unit, weights, packing);
  return mass;
}

}  // namespace sillwright::plan
