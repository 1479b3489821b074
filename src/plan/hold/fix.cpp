#include "plan/hold/fix.h"

#include <algorithm>
#include <span>
#include <tuple>

#include "plan/hold/beam.h"
#include "plan/hold/mass.h"
#include "words/text.h"

namespace sillwright::plan {

double embedmentWanted(const practice::Gauge& gauge, const practice::Fixing& rules) {
  const double least = rules.embedment_least ? rules.embedment_least->value : 0;
  const double diameters = rules.embedment_diameters ? rules.embedment_diameters->value * gauge.shank.value : 0;
  return std::max(least, diameters);
}

namespace {

constexpr double kNPerMm2OfKpa = 1e-3;
constexpr double kRounding = 1e-9;

void sortStock(ScrewStock& stock) {  // by name last, so that equal screws have a fixed order
  std::sort(stock.begin(), stock.end(), [](const StockScrew& a, const StockScrew& b) {
    return std::tie(a.length, a.gauge->shank.value, a.name) < std::tie(b.length, b.gauge->shank.value, b.name);
  });
}

ScrewStock screwsNamed(std::span<const std::string> names, const practice::Practice& practice) {
  ScrewStock stock;
  stock.reserve(names.size());
  for (const std::string& name : names) {
    if (const auto screw = practice::findScrew(practice.strength, name)) {
      stock.push_back({screw->gauge, screw->length, name});
    }
  }
  sortStock(stock);
  return stock;
}

/// The first of the stock that reaches through `before` mm and has its embedment behind; nullptr: none does. `asked`
/// replaces the practice's embedment where it is above 0.
const StockScrew* chooseScrew(const ScrewStock& stock, double before, const practice::Fixing& rules, double asked) {
  const auto found = std::find_if(stock.begin(), stock.end(), [&](const StockScrew& screw) {
    if (!(screw.length > before)) return false;  // it doesn't reach the framing
    const double wanted = asked > 0 ? asked : embedmentWanted(*screw.gauge, rules);
    return screw.length - before >= wanted - kRounding;
  });
  return found == stock.end() ? nullptr : &*found;
}

/// The length that would do of the longest screw's gauge, mm.
double lengthWanted(double before, const ScrewStock& stock, const practice::Practice& practice) {
  if (stock.empty() && practice.strength.gauges.empty()) return before;  // there is no gauge to ask
  const practice::Gauge& gauge = stock.empty() ? practice.strength.gauges.front() : *stock.back().gauge;
  return before + embedmentWanted(gauge, practice.strength.fixing);
}

/// Everything a set of fixings is judged from.
struct Hold {
  const UnitSpec& unit;
  const Stand& stand;
  const Packing& packing;
  const WindLoad& wind;
  double mass_kg = 0;
  const FixingTimber& timber;
  const practice::Practice& practice;
};

/// The pressure that the practice's method sets against a capacity, N/mm². Working loads where the method asks for
/// them and the wind names them; else the ultimate pressure, which is never less.
std::optional<double> pressureOf(const WindLoad& wind, practice::Method method) {
  const bool working = method == practice::Method::Allowable && wind.serviceability_kpa;
  const std::optional<double>& kpa = working ? wind.serviceability_kpa : wind.ultimate_kpa;
  if (!kpa) return std::nullopt;
  return *kpa * kNPerMm2OfKpa;
}

struct PackedGap {
  double packers = 0;  ///< What the screw crosses.
  double backing = 0;  ///< Timber fixed to the framing behind them.
};

/// The gap where a fixing goes: that of the packer of its side that it goes through, else between the gaps at the
/// unit's corners.
PackedGap gapAt(const Hold& hold, std::span<const PackingPoint> packers, const FixingSpot& spot) {
  for (const PackingPoint& point : packers) {
    if (std::abs(point.at - spot.at) <= kAtPacker) return {std::max(point.gap - point.backing, 0.0), point.backing};
  }
  const auto& ends = bySide(hold.stand.gaps, spot.side);
  const double length = hold.unit.lengthOf(spot.side);
  const double share = length > 0 ? spot.at / length : 0;
  return {std::max(ends[0] + (ends[1] - ends[0]) * share, 0.0), 0};
}

/// What a screw passes through before the framing, without the packer.
double throughUnit(const Hold& hold, FixingKind kind, Side side) {
  if (kind == FixingKind::ThroughFrame) return hold.unit.frameAt(side);  // at the sill with the sub-sill under it
  if (kind == FixingKind::ThroughFin) return kFinMetal;
  if (kind == FixingKind::ThroughBracket) return 0;  // it stands beside the unit
  const practice::Rule& countersink = hold.practice.strength.fixing.countersink;
  return hold.unit.reveal->thickness - (countersink ? countersink->value : 0);
}

double timberBehind(const FixingTimber& timber, FixingKind kind, Side side) {
  if (kind == FixingKind::ThroughFin) return timber.stud_depth;  // it goes in at the framing's face
  if (side == Side::Head) return timber.head;
  return side == Side::Sill ? timber.sill : timber.side_studs;
}

/// The screws' line: the stud's middle, or nearer to the room where the aluminium frame is in the way, but never near
/// the stud's inner edge.
double lineOf(const Hold& hold, FixingKind kind) {
  constexpr double kClear = 12;  // of frame and edge: room for the head, and wood that doesn't split
  const double stud = hold.timber.stud_depth;
  const double back = hold.unit.stands + hold.unit.frame.depth;
  if (kind == FixingKind::ThroughFrame) return std::clamp((std::max(hold.unit.stands, 0.0) + back) / 2, 0.0, stud);
  return std::max(stud / 2, std::min(back + kClear, stud - kClear));
}

std::int32_t indexOf(std::vector<ChosenScrew>& screws, const StockScrew& chosen) {
  const auto found = std::find_if(screws.begin(), screws.end(), [&](const ChosenScrew& screw) {
    return screw.length == chosen.length && screw.shank == chosen.gauge->shank.value;
  });
  if (found != screws.end()) return static_cast<std::int32_t>(found - screws.begin());
  screws.push_back({std::string(chosen.name), chosen.length, chosen.gauge->shank.value, chosen.gauge->root.value,
                    chosen.gauge->head.value});
  return static_cast<std::int32_t>(screws.size() - 1);
}

/// `terms` are those of the fixing before; most go in with the same gauge.
Capacity capacityOf(const Hold& hold, const Fixing& fixing, const practice::Gauge& gauge, double under_head,
                    LateralTerms& terms) {
  const practice::FixingDesign& design = hold.practice.strength.fixing_design;
  const double behind = fixing.embedment + std::max(fixing.past_stud, 0.0);  // the screw's length past the gap
  const ScrewJoint joint{&gauge, under_head, fixing.gap, behind, behind - fixing.past_stud};
  if (fixing.withdrawal) return withdrawalCapacity(joint, hold.timber.grade, design);
  if (fixing.kind == FixingKind::ThroughReveal) {
    if (terms.gauge != &gauge) terms = lateralTerms(gauge, hold.timber.grade, design);
    return lateralCapacity(joint, terms);
  }
  return {.n = {},
          .missing = fixing.kind == FixingKind::ThroughBracket ? "a rule for a bracket"
                                                               : "a rule for a screw through an aluminium frame"};
}

/// A fixing with its screw, its load and its capacity.
void judge(const Hold& hold, Fixing& fixing, const PackedGap& gap, const ScrewStock& stock, LateralTerms& terms,
           Fixings& into) {
  const double before =
      fixing.kind == FixingKind::ThroughBracket ? 0 : throughUnit(hold, fixing.kind, fixing.side) + fixing.gap;
  const practice::Rule& fin_least = hold.practice.strength.fixing.fin_penetration_least;
  const double asked = fixing.kind == FixingKind::ThroughFin && fin_least ? fin_least->value : 0;  // its own rule
  const StockScrew* screw = chooseScrew(stock, before, hold.practice.strength.fixing, asked);
  if (screw == nullptr) {  // no screw, so no capacity
    into.length_wanted = std::max(into.length_wanted, lengthWanted(before, stock, hold.practice));
    return;
  }
  fixing.screw = indexOf(into.screws, *screw);
  const double timber = timberBehind(hold.timber, fixing.kind, fixing.side) + gap.backing;
  fixing.embedment = std::min(screw->length - before, timber);
  fixing.past_stud = screw->length - before - timber;  // below 0: so much timber is left behind the point
  const Capacity capacity = capacityOf(hold, fixing, *screw->gauge, into.under_head, terms);
  if (capacity.n) fixing.capacity_n = *capacity.n;
  fixing.mode = capacity.mode;
  if (capacity.missing != nullptr && into.missing.empty()) into.missing = capacity.missing;  // the first speaks for all
}

void noteWorst(Fixings& into) {
  for (std::size_t i = 0; i < into.points.size(); ++i) {
    const Fixing& fixing = into.points[i];
    if (!fixing.capacity_n || fixing.wind_n <= 0) continue;
    // Demand over capacity; without end where nothing is held.
    const double ratio = *fixing.capacity_n > 0 ? fixing.demand_n / *fixing.capacity_n : HUGE_VAL;
    if (into.worst >= 0 && ratio <= into.worst_ratio) continue;  // at a tie the first is kept
    into.worst_ratio = ratio;
    into.worst = static_cast<std::int32_t>(i);
  }
}

/// Why the region's own way of reckoning stops short of a thin reveal over a packer.
std::string notCovered(const Hold& hold, const Fixings& fixings) {
  if (fixings.points.empty() || fixings.points.front().kind != FixingKind::ThroughReveal) return {};  // all are alike
  const practice::FixingDesign& design = hold.practice.strength.fixing_design;
  std::string text;
  if (design.side_diameters && !fixings.screws.empty()) {
    const ChosenScrew& screw = fixings.screws.front();
    const double wanted = design.side_diameters->value * screw.shank;
    if (hold.unit.reveal->thickness < wanted) {
      text = practice::cite(*design.side_diameters) + " requires " + words::length(wanted, hold.practice.display) +
             " under the head of " + screw.name + "; the reveal has " +
             words::length(hold.unit.reveal->thickness, hold.practice.display) + ", and it has no rule for a gap. ";
    }
  }
  if (text.empty() && design.embedding == practice::Embedding::Ec5) text = "EN 1995-1-1 has no term for a gap. ";
  if (text.empty()) return text;
  return text + "The figures are by the general dowel equations (AWC Technical Report 12) instead.";
}

/// Fills points, screws, worst and what is missing.
Fixings holdAt(const Hold& hold, const FixingSpots& spots, const ScrewStock& stock) {
  Fixings into;
  static_cast<FixingNumber&>(into) = spots;
  for (const Side side : kEverySide) {
    (isLevel(side) ? into.bar_ends : into.transom_ends) += endsOn(side, spots.lines, hold.unit).size();
  }
  if (spots.kind != FixingKind::ThroughFin) into.line = lineOf(hold, spots.kind);
  if (spots.kind == FixingKind::ThroughReveal) {
    into.under_head = throughUnit(hold, spots.kind, Side::Left);
    into.countersink = hold.unit.reveal->thickness - into.under_head;
  }
  const std::optional<double> pressure = pressureOf(hold.wind, hold.practice.strength.fixing_design.method);
  const auto on_jambs =  // these carry the weight if no packer bears
      std::count_if(spots.spots.begin(), spots.spots.end(), [](const FixingSpot& spot) { return !isLevel(spot.side); });
  const double weight = on_jambs > 0 ? hold.mass_kg * kGravity / static_cast<double>(on_jambs) : 0;
  const std::vector<double> areas = windShares(spots, hold.unit);
  LateralTerms terms;
  std::span<const PackingPoint> packers;  // of the current side; the spots of a side come together
  into.points.reserve(spots.spots.size());
  // Each fixing gets its wind, its weight and the gap behind it; what screw goes in follows from these.
  for (std::size_t i = 0; i < spots.spots.size(); ++i) {
    const FixingSpot& spot = spots.spots[i];
    if (i == 0 || spot.side != spots.spots[i - 1].side) packers = onSide(hold.packing, spot.side);
    Fixing& fixing = into.points.emplace_back();
    static_cast<FixingSpot&>(fixing) = spot;
    fixing.kind = spots.kind;
    fixing.withdrawal = spots.kind == FixingKind::ThroughFin;  // suction pulls at it, the wall takes the push
    if (pressure) fixing.wind_n = *pressure * areas[i];
    fixing.weight_n = isLevel(spot.side) ? 0 : weight;
    fixing.demand_n = fixing.withdrawal ? fixing.wind_n
                                        : std::sqrt(fixing.wind_n * fixing.wind_n + fixing.weight_n * fixing.weight_n);
    const PackedGap gap = fixing.withdrawal ? PackedGap{} : gapAt(hold, packers, spot);  // a fin has no packer
    fixing.gap = gap.packers;
    judge(hold, fixing, gap, stock, terms, into);
  }
  noteWorst(into);
  return into;
}

/// The thinnest larger gauge that does, in lengths that can be bought.
std::optional<LargerScrew> largerGauge(const Hold& hold, const Fixings& now, const FixingSpots& spots) {
  const std::int32_t screw = now.points[static_cast<std::size_t>(now.worst)].screw;
  const double shank = now.screws[static_cast<std::size_t>(screw)].shank;
  for (const practice::Gauge& gauge : hold.practice.strength.gauges) {
    if (gauge.shank.value <= shank) continue;
    const Fixings then = holdAt(hold, spots, screwsOf(gauge));
    if (then.worst < 0 || then.length_wanted > 0 || then.worst_ratio > 1) continue;  // this gauge isn't enough either
    double longest = 0;
    for (const ChosenScrew& chosen : then.screws) longest = std::max(longest, chosen.length);
    return LargerScrew{gauge.name + " x " + words::bareLength(longest, hold.practice.display), then.worst_ratio};
  }
  return std::nullopt;
}

}  // namespace

FixingTimber fixingTimber(const job::Wall& wall, const WallSpec& spec, double opening_width,
                          const std::optional<job::Lintel>& lintel, const practice::Practice& practice) {
  const practice::SideStuds* rule = practice.framing.sideStudsFor(opening_width);  // no rule: a jamb stud at least
  const double studs = rule != nullptr ? std::max(rule->full_height.value + rule->bearing.value, 1.0) : 1;
  const double bearing = rule != nullptr ? rule->bearing.value : 0;
  return {studs * spec.stud.thickness,
          bearing * spec.stud.thickness,
          spec.stud.thickness,
          lintel ? lintel->depth : spec.stud.thickness,  // no lintel: a plate's thickness
          spec.stud.depth,
          wall.isSteel() ? nullptr : gradeOf(wall, practice)};
}

ScrewStock screwsAtHand(const job::Job& job, const practice::Practice& practice) {
  const bool own = job.stock && !job.stock->screws.empty();
  return screwsNamed(own ? job.stock->screws : practice.stock.screws, practice);
}

ScrewStock screwsNamed(const std::string& name, const practice::Practice& practice) {
  return screwsNamed(std::span(&name, 1), practice);
}

ScrewStock screwsOf(const practice::Gauge& gauge) {
  ScrewStock stock;
  for (const double length : gauge.lengths) stock.push_back({&gauge, length, {}});
  sortStock(stock);
  return stock;
}

Fixings fix(const UnitSpec& unit, const Stand& stand, const Packing& packing, const WindLoad& wind, double mass_kg,
            const FixingTimber& timber, const ScrewStock& stock, const practice::Practice& practice,
            const MoreFixings& more) {
  const Hold hold{unit, stand, packing, wind, mass_kg, timber, practice};
  const FixingSpots spots = fixingSpots(unit, packing, practice, more);
  Fixings fixings = holdAt(hold, spots, stock);
  fixings.not_covered = notCovered(hold, fixings);
  if (fixings.worst_ratio > 1) fixings.larger = largerGauge(hold, fixings, spots);
  return fixings;
}

}  // namespace sillwright::plan
