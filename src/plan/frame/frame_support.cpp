#include <algorithm>

#include "plan/frame/frame_layout.h"

namespace sillwright::plan::framing {

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
