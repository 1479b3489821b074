#include "plan/stand/pack.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>

#include "base/words.h"
#include "plan/panes.h"
#include "plan/stand/reach.h"
#include "words/text.h"

namespace sillwright::plan {

namespace {

constexpr double kRounding = 1e-9;  // mm, of a spacing that just reaches

double valueOf(const practice::Rule& rule, double otherwise) { return rule ? rule->value : otherwise; }

// Distance of the end points from the unit's corners along a side. Two points always have room.
double endDistance(const practice::Packing& rules, double length) {
  return std::min(valueOf(rules.from_corner, kPackerLength / 2), length / 4);
}

// How many equal spaces a length needs so that none is above `most`.
int spacesIn(double length, const practice::Rule& most) {
  if (!most || !(most->value > 0)) return 1;  // nothing is asked: the end points are enough
  return std::max(1, static_cast<int>(std::ceil(length / most->value - kRounding)));
}

class Packer {
 public:
  Packer(const AsBuilt& opening, const UnitSpec& unit, const Stand& stand, const practice::Packing& rules,
         const PackerTable& table)
      : edges_(profilesOf(opening.shape)), unit_(unit), stand_(stand), rules_(rules), table_(table) {}

  [[nodiscard]] PackingPoint pointAt(Side side, double at) const {
    PackingPoint point{.side = side, .at = at, .gap = gapAt(side, at), .stack = {}};
    point.backing = backingFor(point.gap);
    const double to_fill = point.gap - point.backing;
    point.stack = table_.best(to_fill > 0 ? to_fill + kTimberGives : to_fill);
    // A stack that the timber gives way to leaves nothing over; a unit that doesn't fit is short by its whole gap.
    point.left_over = to_fill > 0 ? std::max(0.0, to_fill - point.stack.total) : to_fill;
    return point;
  }

  Packing packing() {
    packing_.points.reserve(24);  // more than a window asks for: one allocation
    packSill();
    packing_.first_jamb = firstJamb();
    for (const Side side : {Side::Left, Side::Right}) {
      if (unit_.lengthOf(side) > 0) packEvenly(side, unit_.lengthOf(side));  // a triangle lacks one jamb
    }
    if (valueOf(rules_.head_packed, 0) > 0 && !unit_.head) packEvenly(Side::Head, unit_.width);
    return std::move(packing_);
  }

 private:
  void packSill() {
    packing_.sill_full_bearing = unit_.isDoor() && stand_.sill_packing <= 0;
    if (packing_.sill_full_bearing) return;  // the sill is bedded on its whole length
    // Under the jamb: the packer flush with the corner, or nearer to it where the practice asks.
    const double end = std::min(endDistance(rules_, unit_.width), kPackerLength / 2);
    const practice::Rule& most =
        unit_.isDoor() && rules_.door_sill_spacing ? rules_.door_sill_spacing : rules_.spacing_sill;
    double from = end;  // a packer under each bearing, and between them as often as asked
    for (const double bearing : bearings(unit_)) {
      packSpan(Side::Sill, from, bearing, most);
      from = bearing;
    }
    packSpan(Side::Sill, from, unit_.width - end, most);
    add(Side::Sill, unit_.width - end);
  }

  void packEvenly(Side side, double length) {
    const double end = endDistance(rules_, length);
    packSpan(side, end, length - end, rules_.spacing_jamb);
    add(side, length - end);  // packSpan leaves out its end
  }

  // Points from `from` up to, not including, `to`.
  void packSpan(Side side, double from, double to, const practice::Rule& most) {
    const int spaces = spacesIn(to - from, most);
    for (int i = 0; i < spaces; ++i) add(side, from + (to - from) * i / spaces);
  }

  void add(Side side, double at) { packing_.points.push_back(pointAt(side, at)); }

  // Whole millimetres, so that what is left is no deeper than packers may fill.
  [[nodiscard]] double backingFor(double gap) const {
    const double over = gap - std::min(valueOf(rules_.most_stack, kDeepestStack), kDeepestStack);
    if (over <= kRounding) return 0;
    return std::min(std::max(kLeastBacking, std::ceil(over - kRounding)), std::floor(gap));  // no more than the gap
  }

  [[nodiscard]] double gapAt(Side side, double at) const {
    const bool jamb = isJamb(side);
    const double along = (jamb ? stand_.z : stand_.x) + at;
    double face = jamb ? stand_.x : stand_.z;
    if (side == Side::Right) face += unit_.width;
    if (side == Side::Head) face += unit_.height;
    return inwardSign(side) * (face - edges_[indexOf(side)].edgeAt(along));
  }

  // How far a jamb strays from plumb and straight over the unit's height.
  [[nodiscard]] double strays(Side side) const {
    const double height = unit_.lengthOf(side);
    const double middle = std::clamp(edges_[indexOf(side)].t[1] - stand_.z, 0.0, height);
    const auto [least, most] = std::minmax({gapAt(side, 0), gapAt(side, middle), gapAt(side, height)});
    return most - least;  // 0: plumb and straight
  }

  [[nodiscard]] Side firstJamb() const {
    const Side hand = unit_.hand == job::Hand::Left ? Side::Left : Side::Right;
    if (hangsAtHand(unit_.kind)) return hand;  // a leaf's hinge side has to be plumb
    if (unit_.lengthOf(hand) == 0) return hand == Side::Left ? Side::Right : Side::Left;  // a triangle's only jamb
    const double left = strays(Side::Left);
    const double right = strays(Side::Right);
    constexpr double kSame = 1e-6;  // rounding must not choose the jamb
    if (std::abs(left - right) <= kSame || unit_.lengthOf(Side::Left) == 0 || unit_.lengthOf(Side::Right) == 0) {
      return hand;
    }
    return left < right ? Side::Left : Side::Right;
  }

  const Profiles edges_;
  const UnitSpec& unit_;
  const Stand& stand_;
  const practice::Packing& rules_;
  const PackerTable& table_;
  Packing packing_;
};

constexpr double kStepRounding = 1e-3;  // of a grid step
constexpr std::uint8_t kNever = 255;    // stands for a total that no stack makes

}  // namespace

PackerTable packerTable(std::span<const double> stock, const practice::Packing& rules) {
  const int most_pieces = static_cast<int>(valueOf(rules.most_pieces, kMostPieces));
  return PackerTable(stock, most_pieces, valueOf(rules.most_stack, kDeepestStack));
}

Packing pack(const AsBuilt& opening, const UnitSpec& unit, const Stand& stand, const practice::Packing& rules,
             const PackerTable& table) {
  return Packer(opening, unit, stand, rules, table).packing();
}

void packAt(Packing& packing, Side side, double at, const AsBuilt& opening, const UnitSpec& unit, const Stand& stand,
            const practice::Packing& rules, const PackerTable& table) {
  static constexpr std::array<int, 4> kOrder{1, 2, 0, 3};  // of Side, among the points of a packing
  const auto rank = [](Side of) { return kOrder[static_cast<std::size_t>(of)]; };
  const auto place = std::find_if(packing.points.begin(), packing.points.end(), [&](const PackingPoint& point) {
    return rank(point.side) > rank(side) || (point.side == side && point.at > at);
  });
  packing.points.insert(place, Packer(opening, unit, stand, rules, table).pointAt(side, at));
}

std::vector<PackerCount> packerTotals(std::span<const Packing> packings) {
  std::map<double, int> counts;  // thinnest first; the stock's own figures, so that alike ones are equal
  for (const Packing& packing : packings) {
    for (const PackingPoint& point : packing.points) {
      for (std::size_t i = 0; i < static_cast<std::size_t>(point.stack.pieces); ++i) ++counts[point.stack.piece[i]];
    }
  }
  std::vector<PackerCount> totals;
  for (const auto& [thickness, count] : counts) totals.push_back({thickness, count});
  return totals;
}

std::string stackWords(const PackingPoint& point, practice::Display display) {
  std::vector<std::string> parts;
  if (point.backing > 0) parts.push_back("timber " + words::bareLength(point.backing, display));
  for (std::size_t i = 0; i < static_cast<std::size_t>(point.stack.pieces); ++i)
    parts.push_back(words::bareLength(point.stack.piece[i], display));
  return parts.empty() ? "none" : base::joined(parts, " + ");
}

PackerTable::PackerTable(std::span<const double> stock, int most_pieces, double most_total) {
  std::set<double> sizes;  // sorted, and each once
  for (const double thickness : stock) {
    if (thickness > 0 && thickness <= kDeepestStack) sizes.insert(thickness);  // deeper ones fill no gap
  }
  sizes_ = std::min(sizes.size(), kMostSizes);
  std::copy_n(sizes.begin(), sizes_, size_.begin());
  for (std::size_t i = 0; i < sizes_; ++i) {
    steps_[i] = static_cast<std::uint16_t>(std::max(1.0, std::ceil(size_[i] * kStepsPerMm - kStepRounding)));
  }
  const int pieces = std::clamp(most_pieces, 0, static_cast<int>(kMostPieces));
  const double deepest = std::clamp(most_total, 0.0, kDeepestStack);
  const std::size_t reachable = sizes_ > 0 ? steps_[sizes_ - 1] * static_cast<std::size_t>(pieces) : 0;
  top_ = std::min(reachable, static_cast<std::size_t>(std::floor(deepest * kStepsPerMm + kStepRounding)));
  fill(pieces);
}

// Fewest pieces for every total, from those of one piece on; of those with as few, the one whose thickest piece is
// thickest (what is left of it is then the best of its own total, so the whole stack is in order).
void PackerTable::fill(int most_pieces) {
  std::array<std::uint8_t, kSteps + 1> fewest;
  std::array<std::uint16_t, kSteps + 1> reached;  // by their pieces
  std::fill_n(fewest.begin(), top_ + 1, kNever);
  fewest[0] = 0;
  reached[0] = 0;
  for (std::size_t next = 0, count = 1; next < count && fewest[reached[next]] < most_pieces; ++next) {
    const auto pieces = static_cast<std::uint8_t>(fewest[reached[next]] + 1);
    for (std::size_t i = 0; i < sizes_ && reached[next] + std::size_t{steps_[i]} <= top_; ++i) {
      const std::size_t total = reached[next] + std::size_t{steps_[i]};
      if (fewest[total] == kNever) reached[count++] = static_cast<std::uint16_t>(total);
      if (fewest[total] < pieces) continue;
      thickest_[total] = std::max(thickest_[total], static_cast<std::uint8_t>(i));
      fewest[total] = pieces;
    }
  }
  std::uint16_t last = 0;
  for (std::size_t total = 1; total <= top_; ++total) {
    if (fewest[total] != kNever) last = static_cast<std::uint16_t>(total);
    total_[total] = last;
  }
}

Stack PackerTable::best(double gap) const {
  Stack stack;
  if (!(gap > 0)) return stack;
  const double steps = std::min(gap * kStepsPerMm + kStepRounding, static_cast<double>(top_));
  std::size_t rest = total_[static_cast<std::size_t>(steps)];
  while (rest > 0) {
    const std::size_t i = thickest_[rest];  // what is left has its own best stack
    stack.piece[static_cast<std::size_t>(stack.pieces++)] = size_[i];
    stack.total += size_[i];
    rest -= steps_[i];
  }
  return stack;
}

}  // namespace sillwright::plan
