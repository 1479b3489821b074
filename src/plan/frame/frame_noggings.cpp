#include <algorithm>
#include <cmath>

#include "plan/frame/frame_layout.h"

namespace sillwright::plan::framing {

namespace {

/// Rows that a height needs so that no two horizontals are further apart than `most`.
int rowsFor(double height, double most) {
  return std::max(0, static_cast<int>(std::ceil(height / most - kTouching)) - 1);
}

/// The clear space between two neighbouring uprights, between two horizontals.
struct Bay {
  Span x;
  double floor = 0;
  double low_top = 0;   ///< A sloping top at its lower,
  double high_top = 0;  ///< and at its higher side.
};

class Placer {
 public:
  Placer(const Layout& layout, std::span<const Upright> uprights, const practice::Framing& rules,
         std::vector<LeftOut>& left_out)
      : layout_(layout),
        uprights_(uprights),
        most_(rules.nogging_spacing.value),
        t_(layout.thickness),
        shortest_nailed_(shortestNailed(rules)),
        left_out_(left_out) {
    // Offset by their own thickness from bay to bay they can be nailed through the stud into their ends.
    if (rules.nogging_stagger) shift_ = std::clamp(rules.nogging_stagger->value, 0.0, 1.0) * t_ / 2;
  }

  std::vector<NoggingPiece> place() {
    if (!(most_ > t_)) return {};
    setRows();
    up_.assign(uprights_.size(), 0);
    pieces_.reserve(uprights_.size() * (rows_.size() + 1));
    for (std::size_t i = 0; i < uprights_.size(); ++i) lookRight(i);
    return std::move(pieces_);
  }

 private:
  /// Level rows that divide the tallest stud equally.
  void setRows() {
    double tallest = 0;
    for (const Upright& upright : uprights_) {
      if (upright.z.hi != kUnderPlate) continue;
      tallest = std::max(tallest, layout_.under.highest(upright.x.lo, upright.x.hi) - upright.z.lo);
    }
    const int rows = rowsFor(tallest, most_);
    for (int k = 1; k <= rows; ++k) rows_.push_back(layout_.floor + tallest * k / (rows + 1));
  }

  /// Fills the bays between an upright and those it faces on its right.
  void lookRight(std::size_t index) {
    const Upright& left = uprights_[index];
    open_.assign(1, left.z);
    for (std::size_t j = index + 1; j < uprights_.size() && !open_.empty(); ++j) {
      const Upright& right = uprights_[j];
      if (right.x.lo < left.x.hi - kTouching) continue;
      const Span x{left.x.hi, right.x.lo};
      if (x.length() > layout_.wall->spacing + kTouching) break;  // Wider than any bay: an opening.
      for (const Span z : open_) {
        if (!z.overlaps(right.z)) continue;
        up_[j] = up_[index] == 0;
        fillBetween(x, {std::max(z.lo, right.z.lo), std::min(z.hi, right.z.hi)}, up_[index] == 0);
      }
      takeOut(right.z, open_);
    }
  }

  /// Splits what lies between two uprights at trimmers, openings and lintels, and fills each part.
  void fillBetween(Span x, Span z, bool up) {
    if (x.length() < std::max(t_, kShortest)) return;
    parts_.assign(1, z);
    layout_.near(x, [&](std::size_t i) {
      const Hole& hole = layout_.holes[i];
      if (x.overlaps(hole.clear)) takeOut(hole.kept_clear(x), parts_);
      if (hole.has_lintel && x.overlaps(hole.lintel)) takeOut({hole.headOver(x).lo, hole.lintelTopOver(x).hi}, parts_);
    });
    const double low = layout_.under.lowest(x.lo, x.hi);
    const double high = layout_.under.highest(x.lo, x.hi);
    for (const Span part : parts_) fill({x, part.lo, std::min(part.hi, low), std::min(part.hi, high)}, up);
  }

  void takeOut(Span gone, std::vector<Span>& of) {
    left_.clear();
    for (const Span part : of) {
      if (!part.overlaps(gone)) {
        left_.push_back(part);
        continue;
      }
      if (gone.lo > part.lo + kTouching) left_.push_back({part.lo, gone.lo});
      if (gone.hi < part.hi - kTouching) left_.push_back({gone.hi, part.hi});
    }
    std::swap(of, left_);
  }

  /// The rows that fit, and more where they leave too high a piece of stud without one.
  void fill(const Bay& bay, bool up) {
    double floor = bay.floor;
    for (const double row : rows_) {
      const double centre = row + (up ? shift_ : -shift_);
      // A nogging hard against a trimmer or plate holds nothing that the trimmer doesn't hold already.
      if (centre - t_ / 2 < bay.floor + t_ || centre + t_ / 2 > bay.low_top - t_ || centre - t_ / 2 < floor) continue;
      fillGap(bay, floor, centre - t_ / 2, centre - t_ / 2);
      add(bay, centre);
      floor = centre + t_ / 2;
    }
    fillGap(bay, floor, bay.low_top, bay.high_top);
  }

  /// Divides a gap that is still too high equally; under a slope as high as the lower side allows.
  void fillGap(const Bay& bay, double floor, double low_top, double high_top) {
    const int more = rowsFor(high_top - floor, most_);
    double bottom = floor;
    for (int k = 1; k <= more; ++k) {
      const double centre = std::min(floor + (high_top - floor) * k / (more + 1), low_top - t_ / 2);
      if (centre - t_ / 2 < bottom) continue;
      add(bay, centre);
      bottom = centre + t_ / 2;
    }
  }

  void add(const Bay& bay, double centre) {
    if (bay.x.length() < shortest_nailed_) {
      left_out_.push_back({MemberPart::Nogging, -1, bay.x.length()});
    } else {
      pieces_.push_back({bay.x, centre});
    }
  }

  const Layout& layout_;
  std::span<const Upright> uprights_;
  double most_ = 0;
  double t_ = 0;
  double shift_ = 0;
  double shortest_nailed_ = kShortest;
  std::vector<LeftOut>& left_out_;
  std::vector<double> rows_;
  std::vector<std::uint8_t> up_;  ///< Of each upright: whether the bay on its left has its noggings shifted up.
  std::vector<NoggingPiece> pieces_;
  std::vector<Span> open_, parts_, left_;
};

}  // namespace

std::vector<NoggingPiece> placeNoggings(const Layout& layout, std::span<const Upright> uprights,
                                        const practice::Framing& rules, std::vector<LeftOut>& left_out) {
  return Placer(layout, uprights, rules, left_out).place();
}

namespace {

Rect boxOf(const Member& member) {
  const Point& first = member.corner[0];
  Rect box{first.x, first.z, first.x, first.z};
  for (const Point& p : member.corner) box.hold(p);
  if (member.apex) box.hold(*member.apex);
  return box;
}

/// A plate, or cut to the underside of the top plates.
bool isHeld(const Layout& layout, const Member& member) {
  if (member.part == MemberPart::BottomPlate || member.part == MemberPart::TopPlate) return true;
  return std::any_of(member.corner.begin(), member.corner.end(),
                     [&](const Point& p) { return p.z > layout.under.height(p.x) - kTouching; });
}

/// Whether two members meet along a line, not at a corner alone. What meets a top plate is held anyway (isHeld), and
/// the box of a sloping plate would tell too much.
bool touch(const Member& first, const Rect& a, const Member& second, const Rect& b) {
  if (first.part == MemberPart::TopPlate || second.part == MemberPart::TopPlate) return false;
  const double in_x = std::min(a.x1, b.x1) - std::max(a.x0, b.x0);
  const double in_z = std::min(a.z1, b.z1) - std::max(a.z0, b.z0);
  return std::min(in_x, in_z) > -kTouching && std::max(in_x, in_z) > kTouching;
}

/// Groups of members that hold together.
class Groups {
 public:
  explicit Groups(std::size_t members) : parent_(members) {
    for (std::size_t i = 0; i < members; ++i) parent_[i] = i;
  }
  std::size_t of(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void join(std::size_t a, std::size_t b) { parent_[of(a)] = of(b); }

 private:
  std::vector<std::size_t> parent_;
};

}  // namespace

void dropFloating(const Layout& layout, std::vector<Member>& members) {
  std::vector<Rect> box;
  box.reserve(members.size());
  for (const Member& member : members) box.push_back(boxOf(member));
  std::vector<std::size_t> order(members.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return box[a].x0 < box[b].x0; });

  Groups groups(members.size() + 1);
  const std::size_t ground = members.size();
  std::vector<std::size_t> active;
  for (const std::size_t i : order) {
    std::erase_if(active, [&](std::size_t j) { return box[j].x1 < box[i].x0 - kTouching; });
    for (const std::size_t j : active) {
      if (touch(members[i], box[i], members[j], box[j])) groups.join(i, j);
    }
    if (isHeld(layout, members[i])) groups.join(i, ground);
    active.push_back(i);
  }
  const std::size_t held = groups.of(ground);
  std::size_t i = 0;
  std::erase_if(members, [&](const Member&) { return groups.of(i++) != held; });
}

}  // namespace sillwright::plan::framing
