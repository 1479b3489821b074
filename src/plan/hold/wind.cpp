#include "plan/hold/wind.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "words/text.h"

namespace sillwright::plan {

namespace {

/// "0.6 × 50² × 0.9 = 1.35 kPa (N3, general)", or the class's own pressure where the practice names it.
std::string derivation(const practice::Wind& rules, const practice::WindClass& found, const practice::Pressures& made,
                       bool at_corner, bool corner_unknown) {
  const std::string in = " (" + found.name + (at_corner ? ", near a corner)" : ", general)") +
                         (corner_unknown ? "; the rule set has no pressure near a corner" : "");
  if (!made.ultimate) return "no ultimate pressure given" + in;
  const std::string is = words::number(*made.ultimate, 3) + " kPa" + in;
  if (made.from_ultimate != (found.ultimate_speed ? &*found.ultimate_speed : nullptr)) return is;
  const practice::Rule& coefficient = at_corner ? found.corner_coefficient : found.general_coefficient;
  return words::number(rules.air_density->value / 2, 3) + " × " + words::number(found.ultimate_speed->value, 3) +
         "² × " + words::number(coefficient->value, 3) + " = " + is;
}

/// How far from an edge the area still belongs to it: `deepest`, or nearer to an end where the edge that meets it there
/// is held too, by the line at 45° from that corner.
struct Depth {
  double length = 0, deepest = 0;
  bool from_start = false, from_end = false;

  /// Area before the first `at` mm of the edge, mm².
  [[nodiscard]] double areaTo(double at) const {
    if (!from_start) return from_end ? rising(length) - rising(length - at) : deepest * at;
    if (!from_end || at <= length / 2) return rising(at);  // the same up to the middle
    return 2 * rising(length / 2) - rising(length - at);   // past it the area to the end is taken from the whole
  }

 private:
  /// Of the depth that grows with the distance from a corner up to `deepest`.
  [[nodiscard]] double rising(double at) const {
    const double slope = std::min(at, deepest);
    return slope * slope / 2 + deepest * (at - slope);
  }
};

/// mm²: what is left on its way when no more is brought on. Bars that end at each other in a ring bring it round.
constexpr double kTooLittle = 1e-6;
constexpr int kMostRounds = 1000;

class Shares {
 public:
  Shares(const FixingSpots& by, const UnitSpec& unit)
      : by_(by), unit_(unit), areas_(by.spots.size()), at_end_(by.lines.bar.size()) {
    for (std::size_t i = 0; i < by.spots.size(); ++i) {  // those of one side stand together
      Run& run = runs_[static_cast<std::size_t>(by.spots[i].side)];
      run = {run.end == 0 ? i : run.begin, i + 1};
    }
    const bool jambs = std::any_of(by.spots.begin(), by.spots.end(), [](auto& spot) { return !isLevel(spot.side); });
    held_ = {jambs, jambs, by.sill || (by.more.all_round && unit.isDoor()), by.head};
  }

  std::vector<double> areas() {
    // First each light goes to its edges; then bars hand on what they carry until nothing is on its way.
    for (const UnitRect& light : by_.lines.light) {
      for (const Side side : kEverySide) shareOut(light, side);
    }
    for (int round = 0; round < kMostRounds && bringOn() > kTooLittle; ++round) {
    }
    return std::move(areas_);
  }

 private:
  /// The fixings of one side.
  struct Run {
    std::size_t begin = 0, end = 0;
  };

  static double lineOf(const UnitRect& light, Side side) {
    return side == Side::Left ? light.x0 : side == Side::Right ? light.x1 : side == Side::Sill ? light.z0 : light.z1;
  }
  [[nodiscard]] const Run& runOf(Side side) const { return runs_[static_cast<std::size_t>(side)]; }

  /// Whether a line is the frame's side there.
  [[nodiscard]] bool isFrame(Side side, double at) const {
    if (side == Side::Left || side == Side::Sill) return at <= 0;  // the lines' ends are the unit's sizes, exactly
    return at >= (side == Side::Right ? unit_.width : unit_.height);
  }

  [[nodiscard]] bool holds(const UnitRect& light, Side side) const {
    return !isFrame(side, lineOf(light, side)) || held_[static_cast<std::size_t>(side)];
  }

  /// What of a light lies nearest to one of its edges: to that side's fixings, or to the bar there.
  void shareOut(const UnitRect& light, Side side) {
    if (!holds(light, side)) return;
    const bool level = isLevel(side);
    const bool on_frame = isFrame(side, lineOf(light, side));
    const double from = level ? light.x0 : light.z0;
    const double most = on_frame ? unit_.lengthOf(side) : HUGE_VAL;  // of a jamb lower than the other
    const double length = std::min(level ? light.x1 : light.z1, most) - from;
    const Side opposite = kEverySide[static_cast<std::size_t>(side) ^ 1U];  // opposite sides are neighbours in Side
    const double deep = level ? light.height() : light.width();  // half of it where the edge opposite is held too
    const Depth depth{length, holds(light, opposite) ? deep / 2 : deep, holds(light, level ? Side::Left : Side::Sill),
                      holds(light, level ? Side::Right : Side::Head)};
    if (!on_frame)  // a bar takes it as one load at the edge's middle
      return load(barAt(!level, lineOf(light, side), from + length / 2), from + length / 2, depth.areaTo(length));
    const auto to = [&](double at) { return depth.areaTo(std::clamp(at - from, 0.0, length)); };
    const Run& run = runOf(side);  // each fixing has the stretch halfway to its neighbours
    for (std::size_t i = run.begin; i < run.end; ++i) {
      const double low = i == run.begin ? 0 : (by_.spots[i - 1].at + by_.spots[i].at) / 2;
      const double high = i + 1 == run.end ? HUGE_VAL : (by_.spots[i].at + by_.spots[i + 1].at) / 2;
      areas_[i] += to(high) - to(low);
    }
  }

  /// The bar on a line that runs past a place along it.
  [[nodiscard]] std::size_t barAt(bool upright, double line, double along) const {
    const auto& bars = by_.lines.bar;
    const auto found = std::find_if(bars.begin(), bars.end(), [&](const BarLine& bar) {
      return bar.upright == upright && bar.at == line && along >= bar.from && along <= bar.to;
    });
    return static_cast<std::size_t>(found - bars.begin());
  }

  /// A load on a bar, to its two ends.
  void load(std::size_t index, double along, double area) {
    if (index >= at_end_.size()) return;
    const BarLine& bar = by_.lines.bar[index];
    const double to_end = area * (along - bar.from) / (bar.to - bar.from);  // the lever rule
    at_end_[index][0] += area - to_end;
    at_end_[index][1] += to_end;
  }

  /// What stands at the ends of bars on to what they end at. How much, mm².
  double bringOn() {
    double sum = 0;
    for (std::size_t i = 0; i < at_end_.size(); ++i) {
      const BarLine& bar = by_.lines.bar[i];
      for (std::size_t end = 0; end < 2; ++end) {
        const double area = std::exchange(at_end_[i][end], 0);  // emptied before others load it again
        sum += area;
        const Side side = kEverySide[(bar.upright ? 2 : 0) + end];  // upright: sill and head; level: left and right
        const double there = end == 0 ? bar.from : bar.to;
        if (!isFrame(side, there)) {
          load(barAt(!bar.upright, there, bar.at), bar.at, area);
        } else if (runOf(side).begin < runOf(side).end) {
          bring(side, bar.at, area);
        } else if (side != Side::Sill || !unit_.isDoor()) {  // a door's sill gives it to the floor
          at_end_[i][1 - end] += area;                       // nothing holds it here
        }
      }
    }
    return sum;
  }

  /// Gives what a bar brings to a side to the fixings beside it, as two supports share the load between them.
  void bring(Side side, double bar, double area) {
    const Run& run = runOf(side);
    const auto beside =
        static_cast<std::size_t>(isLevel(side) ? by_.more.beside : std::max(by_.more.beside_transoms, 1));
    const std::vector<FixingSpot>& spots = by_.spots;
    std::size_t after = run.begin;
    while (after < run.end && spots[after].at <= bar) ++after;  // the first fixing past the bar
    const std::size_t first = after - std::min(after - run.begin, beside);
    const std::size_t last = std::min(run.end, after + beside);
    const auto away = [&](std::size_t from, std::size_t to) {  // how far a group's middle is from the bar
      return from < to ? std::abs((spots[from].at + spots[to - 1].at) / 2 - bar) : HUGE_VAL;
    };
    const double left = away(first, after);
    const double right = away(after, last);
    const double share = std::isinf(right) ? 1 : std::isinf(left) || left + right <= 0 ? 0 : right / (left + right);
    for (std::size_t i = first; i < after; ++i) areas_[i] += share * area / static_cast<double>(after - first);
    for (std::size_t i = after; i < last; ++i) areas_[i] += (1 - share) * area / static_cast<double>(last - after);
  }

  const FixingSpots& by_;
  const UnitSpec& unit_;
  std::array<bool, 4> held_{};  ///< Sides that hold the unit along their length.
  std::array<Run, 4> runs_;
  std::vector<double> areas_;
  std::vector<std::array<double, 2>> at_end_;  ///< Of each bar, on its way.
};

}  // namespace

WindLoad windOn(const std::optional<job::Wind>& wind, bool near_corner, const practice::Practice& practice) {
  if (!wind) return {.near_corner = near_corner, .how = "the job gives no wind"};
  if (const auto* stated = std::get_if<job::StatedPressure>(&*wind)) {
    return {.ultimate_kpa = stated->kpa,
            .near_corner = near_corner,
            .how = words::number(stated->kpa, 3) + " kPa, as the job states"};
  }
  const practice::Wind& rules = practice.strength.wind;
  const practice::WindClass* found = rules.find(std::get<std::string>(*wind));
  if (found == nullptr) return {.near_corner = near_corner, .how = "no such wind class in the practice"};
  practice::Pressures made = practice::pressures(rules, *found, near_corner);
  const bool corner_unknown = near_corner && !made.ultimate;
  if (corner_unknown) made = practice::pressures(rules, *found, false);  // and `how` says so
  return {made.ultimate,
          made.service,
          made.water,
          near_corner,
          derivation(rules, *found, made, near_corner && !corner_unknown, corner_unknown),
          made.from_ultimate};
}

std::vector<double> windShares(const FixingSpots& by, const UnitSpec& unit) { return Shares(by, unit).areas(); }

}  // namespace sillwright::plan
