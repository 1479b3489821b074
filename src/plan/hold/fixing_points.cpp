#include "plan/hold/fixing_points.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace sillwright::plan {
namespace {

constexpr double kRounding = 1e-6;  // mm, of a spacing that just reaches
constexpr double kOnePlace = 1;     // mm: two fixings no further apart are one
constexpr int kFewest = 2;          // one screw lets a jamb turn
/// First and last fixing from the corners where the practice names nothing: common practice, no source.
constexpr double kCustomaryEndLeast = 80;
constexpr double kCustomaryEndMost = 150;
constexpr int kMostOnSide = 64;  // bounds the count where a spacing is tiny
/// Beside a mullion's end where the practice names nothing: just clear of it, through the packer that it stands on; one
/// more is a packer further. Common practice, no source.
constexpr double kBesideMullion = 35;
constexpr double kNextBeside = kPackerLength;

int countOf(const practice::Rule& rule) { return rule ? static_cast<int>(std::lround(rule->value)) : 0; }

struct Ends {
  double least = 0;
  double most = 0;
  double usual = 0;
};

/// Distance of the end fixings from the corners. On a short side they come closer, so that two have room.
Ends endDistances(double length, const practice::Practice& practice) {
  const practice::Fixing& rules = practice.strength.fixing;
  Ends ends;
  ends.most = rules.from_corner_most ? rules.from_corner_most->value : kCustomaryEndMost;
  ends.least = std::min(rules.from_corner_least ? rules.from_corner_least->value : kCustomaryEndLeast, ends.most);
  // Where the packers' own end distance is within the rule, fixing and packer come together.
  const practice::Rule& packer = practice.packing.from_corner;
  ends.usual = packer ? std::clamp(packer->value, ends.least, ends.most) : ends.most;
  ends.usual = std::min(ends.usual, length / 4);
  ends.least = std::min(ends.least, ends.usual);
  return ends;
}

/// Evenly from end to end.
void spread(FixingSpots& into, Side side, double length, int count, double end) {
  const int most = std::clamp(count, kFewest, kMostOnSide);
  for (int i = 0; i < most; ++i) into.spots.push_back({side, end + (length - 2 * end) * i / (most - 1)});
}

/// Puts fixings beside the bars that end at a side, in place of those too near to them; in a narrow bay one serves both
/// of its bars. `count` each side; 0: one, and only beside a bar that had one too near.
void standBeside(FixingSpots& into, Side side, const std::vector<double>& bars, double length, double nearest,
                 int count) {
  if (bars.empty()) return;
  const bool only_moved = count == 0;
  const auto begin = std::find_if(into.spots.begin(), into.spots.end(), [&](auto& spot) { return spot.side == side; });
  std::vector<double> at;
  for (auto spot = begin; spot != into.spots.end(); ++spot) at.push_back(spot->at);
  into.spots.erase(begin, into.spots.end());  // the side was added last: no other's come after
  for (std::size_t i = 0; i < bars.size(); ++i) {
    const double before = (bars[i] - (i == 0 ? 0 : bars[i - 1])) / 2;  // half the bay: beyond, it is the next bar's
    const double after = ((i + 1 == bars.size() ? length : bars[i + 1]) - bars[i]) / 2;
    const double far = nearest + kNextBeside * (std::max(count, 1) - 1);
    const double slack = only_moved ? -kRounding : kOnePlace;
    const auto moved = std::erase_if(at, [&](double each) {  // those too near give way
      return each > bars[i] - std::min(far, before) - slack && each < bars[i] + std::min(far, after) + slack;
    });
    if (only_moved && moved == 0) continue;  // nothing was too near
    for (double away = nearest; away <= far + kRounding; away += kNextBeside) {
      if (away == nearest || away < before) at.push_back(bars[i] - std::min(away, before));
      if (away == nearest || away < after) at.push_back(bars[i] + std::min(away, after));
    }
  }
  std::sort(at.begin(), at.end());
  for (std::size_t i = 0; i < at.size(); ++i) {
    const bool one_place = i + 1 < at.size() && at[i + 1] - at[i] < kOnePlace;  // two bars share it in a narrow bay
    into.spots.push_back({side, one_place ? (at[i] + at[i + 1]) / 2 : at[i]});
    if (one_place) ++i;
  }
}

void standBesideMullions(FixingSpots& into, Side side, const UnitSpec& unit, const practice::Rule& least) {
  standBeside(into, side, endsOn(side, into.lines, unit), unit.width, least ? least->value : kBesideMullion,
              into.more.beside);
}

/// The bars that run from sill to head, and the bays between them: all that is told of where less than all sides hold,
/// or the head is cut by a slope.
BarLines throughOf(BarLines lines, const UnitSpec& unit) {
  std::erase_if(lines.bar, [&](const BarLine& bar) { return !bar.upright || bar.from > 0 || bar.to < unit.height; });
  std::sort(lines.bar.begin(), lines.bar.end(), [](auto& a, auto& b) { return a.at < b.at; });
  lines.light.assign(1, {0, 0, unit.width, unit.height});
  for (const BarLine& bar : lines.bar) {  // each splits off the bay at its left
    UnitRect rest = lines.light.back();
    lines.light.back().x1 = rest.x0 = bar.at;
    lines.light.push_back(rest);
  }
  return lines;
}

/// Of the unit's sill or head along itself; of a head that follows the roof by its steeper slope, so that fixings which
/// are even along x are nowhere further apart than asked.
double alongSide(const UnitSpec& unit, Side side) {
  if (side != Side::Head || !unit.head) return unit.lengthOf(side);
  const HeadLine head = headLineOf(unit);
  return unit.width * std::hypot(1, std::max(std::abs(head.slopes()[0]), std::abs(head.slopes()[1])));
}

void spreadOn(FixingSpots& into, const UnitSpec& unit, Side side, int count, double end) {
  const double length = unit.lengthOf(side);
  spread(into, side, length, count, end * length / alongSide(unit, side));  // the end's distance counts along the slope
}

/// Whether the packers of a side stand as the rule asks of fixings.
bool packersServe(std::span<const PackingPoint> packers, double length, int count, const Ends& ends, double most) {
  if (static_cast<int>(packers.size()) < count) return false;
  const double first = packers.front().at;
  const double last = length - packers.back().at;
  if (std::min(first, last) < ends.least - kRounding || std::max(first, last) > ends.most + kRounding) return false;
  for (std::size_t i = 1; i < packers.size(); ++i) {
    if (most > 0 && packers[i].at - packers[i - 1].at > most + kRounding) return false;
  }
  return true;
}

/// 0: there is none.
double mostSpacing(const FixingSpots& into, const practice::Fixing& rules) {
  const bool fin = into.kind == FixingKind::ThroughFin && rules.fin_spacing_most;
  const practice::Rule& rule = fin ? rules.fin_spacing_most : rules.spacing_most;
  if (into.more.spacing <= 0) return rule ? rule->value : 0;
  return rule ? std::min(rule->value, into.more.spacing) : into.more.spacing;
}

/// How many a jamb of that height needs.
void countJamb(FixingSpots& into, double height, const UnitSpec& unit, const practice::Practice& practice) {
  const practice::Fixing& rules = practice.strength.fixing;
  const double most = mostSpacing(into, rules);
  into.by_practice = countOf(rules.jamb_least);
  if (most > 0) into.by_practice = fixingsNeeded(height, endDistances(height, practice).usual, most, into.by_practice);
  const practice::Figure* custom = rules.per_jamb.at(height);
  into.by_custom = custom != nullptr ? static_cast<int>(std::lround(custom->value)) : 0;
  if (unit.isDoor()) into.by_custom = std::max(into.by_custom, countOf(rules.door_jamb_least));
  into.governs = into.by_custom > into.by_practice ? FixingRule::Customary : FixingRule::Practice;
}

/// On the sill or the head: as many as the spacing asks, else the practice's least, else as on a jamb of that length.
void addLevel(FixingSpots& into, Side side, const practice::Rule& fewest, const UnitSpec& unit,
              const practice::Practice& practice) {
  const practice::Fixing& rules = practice.strength.fixing;
  const double most = mostSpacing(into, rules);
  const bool fin = side == Side::Sill && into.kind == FixingKind::ThroughFin && rules.fin_spacing_most;
  // A triangle's head stands for the jamb that it hasn't got.
  const bool for_jamb = side == Side::Head && std::min(unit.lengthOf(Side::Left), unit.lengthOf(Side::Right)) <= 0;
  if (!fewest && !fin && !for_jamb && !into.more.all_round) return;  // nothing asks for fixings along it
  (side == Side::Sill ? into.sill : into.head) = true;
  const double length = alongSide(unit, side);
  const double end = endDistances(length, practice).usual;
  const practice::Figure* custom = rules.per_jamb.at(length);
  int least = countOf(fewest);
  if (most <= 0 && custom != nullptr) least = std::max(least, static_cast<int>(std::lround(custom->value)));
  spreadOn(into, unit, side, most > 0 ? fixingsNeeded(length, end, most, least) : least, end);
}

/// As the schedule has it: each side that it names, ends and spacing as given.
void addScheduled(FixingSpots& into, const job::FixingSchedule& schedule, const UnitSpec& unit,
                  const practice::Practice& practice) {
  const auto names = [&](job::FixedSide side) {
    if (schedule.sides.empty()) return side != job::FixedSide::Sill || !unit.isDoor();  // a door's stands on the floor
    return std::find(schedule.sides.begin(), schedule.sides.end(), side) != schedule.sides.end();
  };
  const auto add = [&](Side side) {
    const double length = alongSide(unit, side);
    const double end = std::min(schedule.from_corner.value_or(endDistances(length, practice).usual), length / 4);
    spreadOn(into, unit, side, fixingsNeeded(length, end, schedule.spacing, kFewest), end);
  };
  into.governs = FixingRule::Schedule;
  if (names(job::FixedSide::Jambs)) {
    for (const Side side : {Side::Left, Side::Right}) {
      if (unit.lengthOf(side) > 0) add(side);
    }
  }
  into.sill = names(job::FixedSide::Sill);
  into.head = names(job::FixedSide::Head);
  if (into.sill) add(Side::Sill);
  if (into.head) add(Side::Head);
  const bool all = !unit.head && names(job::FixedSide::Jambs) && into.head && (into.sill || unit.isDoor());
  if (!all) into.lines = throughOf(std::move(into.lines), unit);
  if (!into.sill && !into.head) into.lines = {{{0, 0, unit.width, unit.height}}, {}};  // jambs take all
}

/// As its schedule says, else through the reveal, else through the fin, else through the frame.
FixingKind fixingKind(const UnitSpec& unit) {
  if (unit.fixing && unit.fixing->through) {
    static_assert(static_cast<int>(job::FixedThrough::Reveal) == 0 &&
                  static_cast<int>(job::FixedThrough::Bracket) == 3);
    constexpr std::array<FixingKind, 4> kKinds{FixingKind::ThroughReveal, FixingKind::ThroughFin,
                                               FixingKind::ThroughFrame, FixingKind::ThroughBracket};
    return kKinds[static_cast<std::size_t>(*unit.fixing->through)];
  }
  if (unit.reveal) return FixingKind::ThroughReveal;
  return unit.fin > 0 ? FixingKind::ThroughFin : FixingKind::ThroughFrame;
}

void addSillAndHead(FixingSpots& into, const UnitSpec& unit, const practice::Practice& practice) {
  const practice::Fixing& rules = practice.strength.fixing;
  if (!unit.isDoor()) {
    addLevel(into, Side::Sill, rules.sill_least, unit, practice);
    standBesideMullions(into, Side::Sill, unit, rules.from_mullion_least);
    if (unit.head && rules.from_mullion_least) {  // clear of those too that end at a transom
      standBeside(into, Side::Sill, endsOn(Side::Sill, barLines(unit), unit), unit.width,
                  rules.from_mullion_least->value, 0);
    }
  }
  addLevel(into, Side::Head, rules.head_least, unit, practice);  // a door's head is fixed too
  standBesideMullions(into, Side::Head, unit, rules.from_mullion_least);
}

}  // namespace

std::span<const PackingPoint> onSide(const Packing& packing, Side side) {
  const auto isOn = [side](const PackingPoint& point) { return point.side == side; };
  const std::span<const PackingPoint> all = packing.points;
  const auto first = std::find_if(all.begin(), all.end(), isOn);
  const auto end = std::find_if_not(first, all.end(), isOn);
  return all.subspan(static_cast<std::size_t>(first - all.begin()), static_cast<std::size_t>(end - first));
}

int fixingsNeeded(double length, double end, double most, int fewest) {
  const double spaces = std::ceil((length - 2 * end) / most - kRounding);
  return std::max(fewest, static_cast<int>(std::clamp(spaces, 0.0, kMostOnSide - 1.0)) + 1);  // clamped before the cast
}

FixingSpots fixingSpots(const UnitSpec& unit, const Packing& packing, const practice::Practice& practice,
                        const MoreFixings& more) {
  FixingSpots into;
  into.more = more;
  into.kind = fixingKind(unit);
  into.spots.reserve(16);
  if (unit.fixing) {  // a maker's schedule replaces both rules
    into.lines = barLines(unit);
    addScheduled(into, *unit.fixing, unit, practice);
    return into;
  }
  const double most = mostSpacing(into, practice.strength.fixing);
  FixingSpots higher = into;  // what is told of both is what the higher one needs
  countJamb(higher, unit.height, unit, practice);
  into.lines = barLines(unit);  // after the copy to `higher`, which needs no lines
  for (const Side side : {Side::Left, Side::Right}) {
    const double height = unit.lengthOf(side);
    if (height <= 0) continue;
    countJamb(into, height, unit, practice);
    const Ends ends = endDistances(height, practice);
    const int count = std::max({into.by_practice, into.by_custom, kFewest});
    const std::span<const PackingPoint> packers = onSide(packing, side);  // a fin has none to go through
    if (into.kind != FixingKind::ThroughFin && packersServe(packers, height, count, ends, most)) {
      for (const PackingPoint& point : packers) into.spots.push_back({side, point.at});
    } else {
      spread(into, side, height, count, ends.usual);
    }
    const practice::Rule& clear = practice.strength.fixing.from_mullion_least;
    if (!clear && more.beside_transoms == 0) continue;  // nothing asks to keep clear
    standBeside(into, side, endsOn(side, into.lines, unit), height, clear ? clear->value : kBesideMullion,
                more.beside_transoms);
  }
  static_cast<FixingNumber&>(into) = higher;
  if (unit.head) into.lines = throughOf(std::move(into.lines), unit);  // a slope cuts the other bars
  addSillAndHead(into, unit, practice);
  return into;
}

}  // namespace sillwright::plan
