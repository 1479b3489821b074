#include "plan/hold/fix.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "plan/hold/fixing_capacity.h"
#include "plan/hold/fixing_hold.h"
#include "plan/hold/mass.h"
#include "plan/panes.h"
#include "words/length.h"

namespace sillwright::plan {
namespace {

constexpr double kNPerMm2OfKpa = 1e-3;

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

/// The gap where a fixing goes: that of the packer it goes through, else between the gaps at the unit's corners.
PackedGap gapAt(const Hold& hold, const FixingSpot& spot) {
  for (const PackingPoint& point : hold.packing.points) {
    if (point.side != spot.side || std::abs(point.at - spot.at) > kAtPacker) continue;
    return {std::max(point.gap - point.backing, 0.0), point.backing};
  }
  const Gaps& gaps = hold.stand.gaps;
  const auto& ends = spot.side == Side::Left    ? gaps.left
                     : spot.side == Side::Right ? gaps.right
                     : spot.side == Side::Sill  ? gaps.sill
                                                : gaps.head;
  const double length = hold.unit.lengthOf(spot.side);
  const double share = length > 0 ? spot.at / length : 0;
  return {std::max(ends[0] + (ends[1] - ends[0]) * share, 0.0), 0};
}

/// How far from a side the unit's area still belongs to it: `deepest`, or nearer to an end where the side that meets it
/// there is fixed too, by the line at 45° from that corner.
struct Depth {
  double length = 0, deepest = 0;
  bool from_start = false, from_end = false;

  /// Area before the first `at` mm of the side, mm².
  [[nodiscard]] double areaTo(double at) const {
    if (!from_start) return from_end ? rising(length) - rising(length - at) : deepest * at;
    if (!from_end || at <= length / 2) return rising(at);
    return 2 * rising(length / 2) - rising(length - at);
  }

 private:
  /// Of the depth that grows with the distance from a corner up to `deepest`.
  [[nodiscard]] double rising(double at) const {
    const double slope = std::min(at, deepest);
    return slope * slope / 2 + deepest * (at - slope);
  }
};

/// The areas of a unit whose wind its fixings carry, mm²: bay by bay between jambs, mullions and meeting stiles, each
/// bay as a plate that its own sides hold. What comes to a mullion goes on to sill and head, half each.
class Shares {
 public:
  Shares(const FixingSpots& by, const UnitSpec& unit)
      : spots_(by.spots), unit_(unit), beside_(static_cast<std::size_t>(by.more.beside)), areas_(by.spots.size()) {
    jambs_ = std::any_of(spots_.begin(), spots_.end(), [](const FixingSpot& spot) { return !isLevel(spot.side); });
    sill_ = by.sill || (by.more.all_round && unit.isDoor());
    head_ = by.head;
    lines_.push_back(0);
    lines_.insert(lines_.end(), by.joints.begin(), by.joints.end());
    lines_.push_back(unit.width);
  }

  /// Of each fixing.
  std::vector<double> areas() {
    for (std::size_t i = 0; i < areas_.size(); ++i) areas_[i] = nearTo(i);
    const Run sill = onSide(Side::Sill);
    const Run head = onSide(Side::Head);
    const bool both_ends = unit_.isDoor() || (sill.begin < sill.end && head.begin < head.end);  // a door has the floor
    for (std::size_t i = 1; i + 1 < lines_.size(); ++i) {
      const double mullion =
          upright(i - 1, unit_.height).areaTo(unit_.height) + upright(i, unit_.height).areaTo(unit_.height);
      for (const Run& side : {sill, head}) bring(side, lines_[i], both_ends ? mullion / 2 : mullion);
    }
    return std::move(areas_);
  }

 private:
  /// The fixings of one side.
  struct Run {
    std::size_t begin = 0, end = 0;
  };

  [[nodiscard]] Run onSide(Side side) const {
    Run run;
    while (run.begin < spots_.size() && spots_[run.begin].side != side) ++run.begin;
    run.end = run.begin;
    while (run.end < spots_.size() && spots_[run.end].side == side) ++run.end;
    return run;
  }

  /// Of either upright of a bay, so high.
  [[nodiscard]] Depth upright(std::size_t bay, double height) const {
    return {height, (lines_[bay + 1] - lines_[bay]) / 2, sill_, head_};
  }

  /// What lies before a fixing's own stretch of its side, nearer to it than to another side.
  [[nodiscard]] double nearTo(std::size_t i) const {
    const FixingSpot& spot = spots_[i];
    const bool first = i == 0 || spots_[i - 1].side != spot.side;
    const bool last = i + 1 == spots_.size() || spots_[i + 1].side != spot.side;
    const double low = first ? 0 : (spots_[i - 1].at + spot.at) / 2;
    const double high = last ? HUGE_VAL : (spots_[i + 1].at + spot.at) / 2;
    if (isLevel(spot.side)) return alongLevel(spot.side, low, high);
    const Depth depth = upright(spot.side == Side::Left ? 0 : lines_.size() - 2, unit_.lengthOf(spot.side));
    return depth.areaTo(std::min(high, depth.length)) - depth.areaTo(low);
  }

  [[nodiscard]] double alongLevel(Side side, double low, double high) const {
    if (!(side == Side::Sill ? sill_ : head_)) return 0;
    double area = 0;
    for (std::size_t bay = 0; bay + 1 < lines_.size(); ++bay) {
      const double width = lines_[bay + 1] - lines_[bay];
      const Depth depth{width, sill_ && head_ ? unit_.height / 2 : unit_.height, jambs_ || bay > 0,
                        jambs_ || bay + 2 < lines_.size()};
      area += depth.areaTo(std::clamp(high - lines_[bay], 0.0, width)) -
              depth.areaTo(std::clamp(low - lines_[bay], 0.0, width));
    }
    return area;
  }

  /// Gives what a mullion brings to a side to the fixings beside it, as two supports share the load between them.
  void bring(const Run& side, double mullion, double area) {
    std::size_t after = side.begin;
    while (after < side.end && spots_[after].at <= mullion) ++after;
    const std::size_t first = after - std::min(after - side.begin, beside_);
    const std::size_t last = std::min(side.end, after + beside_);
    const auto away = [&](std::size_t from, std::size_t to) {
      return from < to ? std::abs((spots_[from].at + spots_[to - 1].at) / 2 - mullion) : HUGE_VAL;
    };
    const double left = away(first, after);
    const double right = away(after, last);
    const double share = std::isinf(right) ? 1 : std::isinf(left) || left + right <= 0 ? 0 : right / (left + right);
    for (std::size_t i = first; i < after; ++i) areas_[i] += share * area / static_cast<double>(after - first);
    for (std::size_t i = after; i < last; ++i) areas_[i] += (1 - share) * area / static_cast<double>(last - after);
  }

  const std::vector<FixingSpot>& spots_;
  const UnitSpec& unit_;
  bool jambs_ = true, sill_ = false, head_ = false;  ///< What holds the unit along its length.
  std::size_t beside_;
  std::vector<double> lines_;  ///< The jambs, and what runs from sill to head between them.
  std::vector<double> areas_;
};

/// What a screw passes through before the framing, without the packer.
double throughUnit(const Hold& hold, FixingKind kind) {
  switch (kind) {
    case FixingKind::ThroughReveal:
      return hold.unit.reveal->thickness -
             (hold.practice.strength.fixing.countersink ? hold.practice.strength.fixing.countersink->value : 0);
    case FixingKind::ThroughFrame:
      return hold.unit.frame.face;
    case FixingKind::ThroughFin:
      return kFinMetal;
    case FixingKind::ThroughBracket:
      return 0;
  }
  return 0;
}

double timberBehind(const FixingTimber& timber, FixingKind kind, Side side) {
  if (kind == FixingKind::ThroughFin) return timber.stud_depth;
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
  const double behind = fixing.embedment + std::max(fixing.past_stud, 0.0);
  const ScrewJoint joint{&gauge, under_head, fixing.gap, behind, behind - fixing.past_stud};
  if (fixing.withdrawal) return withdrawalCapacity(joint, hold.timber.grade, design);
  if (fixing.kind == FixingKind::ThroughReveal) {
    if (terms.gauge != &gauge) terms = lateralTerms(gauge, hold.timber.grade, design);
    return lateralCapacity(joint, terms);
  }
  Capacity none;
  none.missing = fixing.kind == FixingKind::ThroughBracket ? "a rule for a bracket"
                                                           : "a rule for a screw through an aluminium frame";
  return none;
}

/// A fixing with its screw, its load and its capacity.
void judge(const Hold& hold, Fixing& fixing, const PackedGap& gap, const ScrewStock& stock, LateralTerms& terms,
           Fixings& into) {
  const double before = fixing.kind == FixingKind::ThroughBracket ? 0 : throughUnit(hold, fixing.kind) + fixing.gap;
  const practice::Rule& fin_least = hold.practice.strength.fixing.fin_penetration_least;
  const double asked = fixing.kind == FixingKind::ThroughFin && fin_least ? fin_least->value : 0;
  const StockScrew* screw = chooseScrew(stock, before, hold.practice.strength.fixing, asked);
  if (screw == nullptr) {
    into.length_wanted = std::max(into.length_wanted, lengthWanted(before, hold.practice));
    return;
  }
  fixing.screw = indexOf(into.screws, *screw);
  const double timber = timberBehind(hold.timber, fixing.kind, fixing.side) + gap.backing;
  fixing.embedment = std::min(screw->length - before, timber);
  fixing.past_stud = screw->length - before - timber;
  const Capacity capacity = capacityOf(hold, fixing, *screw->gauge, into.under_head, terms);
  fixing.capacity_n = capacity.n;
  fixing.mode = capacity.mode;
  if (capacity.missing != nullptr && into.missing.empty()) into.missing = capacity.missing;
}

void noteWorst(Fixings& into) {
  for (std::size_t i = 0; i < into.points.size(); ++i) {
    const Fixing& fixing = into.points[i];
    if (!fixing.capacity_n || fixing.wind_n <= 0) continue;
    const double ratio = ratioOf(fixing);
    if (into.worst >= 0 && ratio <= into.worst_ratio) continue;
    into.worst_ratio = ratio;
    into.worst = static_cast<std::int32_t>(i);
  }
}

/// Why the region's own way of reckoning stops short of a thin reveal over a packer.
std::string notCovered(const Hold& hold, const Fixings& fixings) {
  if (fixings.points.empty() || fixings.points.front().kind != FixingKind::ThroughReveal) return {};
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

}  // namespace

Fixings holdAt(const Hold& hold, const FixingSpots& spots, const ScrewStock& stock, double move) {
  Fixings into;
  into.more = spots.more;
  into.governs = spots.governs;
  into.mullions = spots.joints.size();
  into.by_practice = spots.by_practice;
  into.by_custom = spots.by_custom;
  if (spots.kind != FixingKind::ThroughFin) into.line = lineOf(hold, spots.kind);
  if (spots.kind == FixingKind::ThroughReveal) {
    into.under_head = throughUnit(hold, spots.kind);
    into.countersink = hold.unit.reveal->thickness - into.under_head;
  }
  const std::optional<double> pressure = pressureOf(hold.wind, hold.practice.strength.fixing_design.method);
  const auto on_jambs =
      std::count_if(spots.spots.begin(), spots.spots.end(), [](const FixingSpot& spot) { return !isLevel(spot.side); });
  const double weight = on_jambs > 0 ? hold.mass_kg * kGravity / static_cast<double>(on_jambs) : 0;
  const std::vector<double> areas = Shares(spots, hold.unit).areas();
  LateralTerms terms;
  into.points.reserve(spots.spots.size());
  for (std::size_t i = 0; i < spots.spots.size(); ++i) {
    const FixingSpot& spot = spots.spots[i];
    Fixing& fixing = into.points.emplace_back();
    fixing.side = spot.side;
    fixing.at = spot.at;
    fixing.kind = spots.kind;
    fixing.withdrawal = spots.kind == FixingKind::ThroughFin;
    if (pressure) fixing.wind_n = *pressure * areas[i];
    fixing.weight_n = isLevel(spot.side) ? 0 : weight;
    fixing.demand_n = fixing.withdrawal ? fixing.wind_n : std::hypot(fixing.wind_n, fixing.weight_n);
    PackedGap gap;
    if (!fixing.withdrawal) {
      gap = gapAt(hold, spot);
      const double moved = spot.side == Side::Left ? move : spot.side == Side::Right ? -move : 0;
      fixing.gap = std::max(gap.packers + moved, 0.0);
    }
    judge(hold, fixing, gap, stock, terms, into);
  }
  noteWorst(into);
  return into;
}

FixingTimber fixingTimber(const job::Wall& wall, const WallSpec& spec, double opening_width,
                          const std::optional<job::Lintel>& lintel, const practice::Practice& practice) {
  const practice::Timber& timber = practice.strength.timber;
  const practice::SideStuds* rule = nullptr;
  for (const practice::SideStuds& each : practice.framing.side_studs) {
    rule = &each;
    if (opening_width <= each.up_to) break;
  }
  const double studs = rule != nullptr ? std::max(rule->full_height.value + rule->bearing.value, 1.0) : 1;
  const double bearing = rule != nullptr ? rule->bearing.value : 0;
  return {studs * spec.stud.thickness,
          bearing * spec.stud.thickness,
          spec.stud.thickness,
          lintel ? lintel->depth : spec.stud.thickness,
          spec.stud.depth,
          wall.isSteel() ? nullptr : timber.find(wall.timber ? *wall.timber : timber.usual_grade)};
}

Fixings fix(const UnitSpec& unit, const Stand& stand, const Packing& packing, const WindLoad& wind, double mass_kg,
            const FixingTimber& timber, const ScrewStock& stock, const practice::Practice& practice,
            const MoreFixings& more) {
  const Hold hold{unit, stand, packing, wind, mass_kg, timber, practice};
  const FixingSpots spots = fixingSpots(unit, packing, practice, more);
  Fixings fixings = holdAt(hold, spots, stock, 0);
  fixings.not_covered = notCovered(hold, fixings);
  if (fixings.worst_ratio > 1) fixings.help = helpFor(hold, fixings, spots, stock);
  return fixings;
}

}  // namespace sillwright::plan
