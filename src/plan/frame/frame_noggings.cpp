#include <cmath>

#include "plan/frame/frame_layout.h"

namespace sillwright::plan::framing {

namespace {

/// Rows that a height needs so that no two horizontals are further apart than `most`.
int rowsFor(double height, double most) {
  return std::max(0, static_cast<int>(std::ceil(height / most - kTouching)) - 1);  // rounding must not add a row
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
      : layout_(layout), uprights_(uprights), rules_(rules), left_out_(left_out) {
    // Offset by their own thickness from bay to bay they can be nailed through the stud into their ends.
    if (rules.nogging_stagger) shift_ = std::clamp(rules.nogging_stagger->value, 0.0, 1.0) * t_ / 2;  // half each way
  }

  std::vector<Member> place() {
    if (!(most_ > t_)) return {};  // rows closer than they are thick would overlap
    setRows();
    up_.assign(uprights_.size(), 0);  // the noggings of the first bay are shifted up
    pieces_.reserve(uprights_.size() * (rows_.size() + 1));
    for (std::size_t i = 0; i < uprights_.size(); ++i) lookRight(i);
    return std::move(pieces_);
  }

 private:
  /// Level rows that divide the tallest stud equally.
  void setRows() {
    double tallest = 0;
    for (const Upright& upright : uprights_) {
      if (upright.z.hi != kUnderPlate) continue;  // only full-height studs set the rows
      tallest = std::max(tallest, layout_.under.highest(upright.x.lo, upright.x.hi) - upright.z.lo);
    }
    const int rows = rowsFor(tallest, most_);
    for (int k = 1; k <= rows; ++k) rows_.push_back(layout_.floor + tallest * k / (rows + 1));
  }

  /// Fills the bays between an upright and those it faces on its right.
  void lookRight(std::size_t index) {
    const Upright& left = uprights_[index];
    open_.assign(1, left.z);  // the parts of its right face that see no neighbour yet
    for (std::size_t j = index + 1; j < uprights_.size() && !open_.empty(); ++j) {
      const Upright& right = uprights_[j];
      if (right.x.lo < left.x.hi - kTouching) continue;  // it stands above or below
      const Span x{left.x.hi, right.x.lo};
      if (x.length() > layout_.wall->spacing + kTouching) break;  // Wider than any bay: an opening.
      for (const Span z : open_) {
        if (!z.overlaps(right.z)) continue;
        up_[j] = up_[index] == 0;  // the next bay is shifted the other way
        fillBetween(x, {std::max(z.lo, right.z.lo), std::min(z.hi, right.z.hi)}, up_[index] == 0);
      }
      takeOut(right.z, open_);  // what it hides is not faced
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
    double floor = bay.floor;  // the top of the last row placed
    for (const double row : rows_) {
      const double centre = row + (up ? shift_ : -shift_);
      // A nogging hard against a trimmer or plate holds nothing that the trimmer doesn't hold already.
      if (centre - t_ / 2 < bay.floor + t_ || centre + t_ / 2 > bay.low_top - t_ || centre - t_ / 2 < floor) continue;
      fillGap(bay, floor, centre - t_ / 2, centre - t_ / 2);  // a row that was skipped may have left too high a gap
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
      if (centre - t_ / 2 < bottom) continue;  // it would lie in the one below
      add(bay, centre);
      bottom = centre + t_ / 2;
    }
  }

  void add(const Bay& bay, double centre) {
    if (bay.x.length() < shortest_nailed_) {
      left_out_.push_back({MemberPart::Nogging, -1, bay.x.length()});
    } else {
      pieces_.push_back(rectangle(layout_, MemberPart::Nogging, bay.x, {centre - t_ / 2, centre + t_ / 2}));
    }
  }

  const Layout& layout_;
  std::span<const Upright> uprights_;
  const practice::Framing& rules_;
  std::vector<LeftOut>& left_out_;
  double most_ = rules_.nogging_spacing.value;
  double t_ = layout_.thickness;
  double shift_ = 0;
  double shortest_nailed_ = shortestNailed(rules_);
  std::vector<double> rows_;
  std::vector<std::uint8_t> up_;  ///< Of each upright: whether the bay on its left has its noggings shifted up.
  std::vector<Member> pieces_;
  std::vector<Span> open_, parts_, left_;
};

Rect boxOf(const Member& member) {
  const Point& first = member.corner[0];
  Rect box{first.x, first.z, first.x, first.z};
  for (const Point& p : member.corner) box.hold(p);
  if (member.apex) box.hold(*member.apex);
  return box;
}

/// Whether a member is a plate, or is cut to the underside of the top plates.
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

}  // namespace

std::vector<Member> placeNoggings(const Layout& layout, std::span<const Upright> uprights,
                                  const practice::Framing& rules, std::vector<LeftOut>& left_out) {
  return Placer(layout, uprights, rules, left_out).place();
}

void dropFloating(const Layout& layout, std::vector<Member>& members) {
  std::vector<Rect> box;           // of each member, by index
  std::vector<std::size_t> order;  // by their left ends
  std::vector<std::size_t> held;   // in the order in which they are found, each then looked round from
  std::vector<char> is_held(members.size());
  double widest = 0;  // of those that hang on others
  for (std::size_t i = 0; i < members.size(); ++i) {
    box.push_back(boxOf(members[i]));
    order.push_back(i);
    is_held[i] = isHeld(layout, members[i]) ? 1 : 0;
    if (is_held[i] != 0) held.push_back(i);
    if (is_held[i] == 0) widest = std::max(widest, box[i].width());  // tells how far left of a held one to search
  }
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return box[a].x0 < box[b].x0; });
  for (std::size_t n = 0; n < held.size(); ++n) {
    const std::size_t by = held[n];
    auto next = std::lower_bound(order.begin(), order.end(), box[by].x0 - widest - kTouching,
                                 [&](std::size_t i, double x) { return box[i].x0 < x; });
    for (; next != order.end() && box[*next].x0 <= box[by].x1 + kTouching; ++next) {
      if (is_held[*next] != 0 || !touch(members[by], box[by], members[*next], box[*next])) continue;
      is_held[*next] = 1;
      held.push_back(*next);
    }
  }
  std::size_t i = 0;  // erase_if asks for each once, in order
  std::erase_if(members, [&](const Member&) { return is_held[i++] == 0; });
}

}  // namespace sillwright::plan::framing
