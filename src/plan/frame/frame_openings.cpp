#include <cmath>

#include "plan/frame/frame_layout.h"

namespace sillwright::plan::framing {

namespace {

int count(const practice::Figure& figure) { return std::max(0, static_cast<int>(std::lround(figure.value))); }

FrameFault fault(FrameFaultKind kind, const Hole& hole, double by, std::int32_t other = -1) {
  return {kind, hole.opening->index, other, by};
}

/// Numbers of side studs for a width. Where no rule reaches that far the widest rule's are used, and it is said.
void wantSideStuds(Hole& hole, const practice::Framing& rules, std::vector<FrameFault>& faults) {
  const practice::SideStuds* rule = rules.sideStudsFor(hole.opening->width);
  if (rule == nullptr || hole.opening->width > rule->up_to) {
    const double most = rule == nullptr ? 0 : rule->up_to;
    faults.push_back(fault(FrameFaultKind::WiderThanRules, hole, hole.opening->width - most));
  }
  hole.bearing = rule == nullptr ? 0 : count(rule->bearing);
  hole.full = rule == nullptr ? 1 : count(rule->full_height);  // without a rule there is still one jamb stud
}

/// Depth of the area two openings share, along the way that is shorter out of it; 0 or less: none.
double sharedBy(const Hole& a, const Hole& b) {
  return std::min(std::min(a.clear.hi, b.clear.hi) - std::max(a.clear.lo, b.clear.lo),
                  std::min(a.head, b.head) - std::max(a.sill, b.sill));
}

/// The hole that an opening makes in the wall; none where it has no part inside the wall.
std::optional<Hole> holeOf(const Layout& layout, const FramedOpening& opening, const practice::Framing& rules,
                           std::vector<FrameFault>& faults) {
  if (!(opening.width > 0) || !(opening.height > 0)) return std::nullopt;  // no area
  Hole hole;
  hole.opening = &opening;
  hole.clear = {std::max(opening.left, 0.0), std::min(opening.right(), layout.wall->length)};
  hole.sill = opening.sill;
  hole.head = opening.top();
  hole.line = headLineOf(opening);
  const double beside = hole.clear.length() < kTouching  // how far it would have to move to stand in the wall
                            ? std::max(-opening.right(), opening.left - layout.wall->length) + opening.width
                            : 0;
  const double below = std::max(-hole.sill, layout.floor + kShortest - hole.head);
  const bool inside = beside <= 0 && hole.head >= layout.floor + kShortest;
  if (beside > 0 || below > kTouching) {
    faults.push_back(fault(FrameFaultKind::OutsideWall, hole, std::max(beside, below)));
  }
  if (!inside) return std::nullopt;
  wantSideStuds(hole, rules, faults);
  return hole;
}

/// Holes in the order of their left edges, and how far right they reach up to each of them.
struct Row {
  std::vector<Hole>& holes;
  std::vector<double>& furthest_right;

  void add(const Hole& hole) {
    furthest_right.push_back(std::max(holes.empty() ? hole.clear.hi : furthest_right.back(), hole.clear.hi));
    holes.push_back(hole);
  }
  /// Calls visit(hole, by) for each that the hole shares area with, the nearest first, until it answers false.
  template <class Visit>
  void shared(const Hole& hole, Visit visit) const {
    for (std::size_t i = holes.size(); i-- > 0 && furthest_right[i] > hole.clear.lo;) {
      const double by = sharedBy(holes[i], hole);
      if (by > kTouching && !visit(holes[i], by)) return;
    }
  }
};

/// The openings that stand in the wall as holes, left to right. Of two that overlap the one that begins further left
/// is framed.
void openHoles(Layout& layout, std::span<const FramedOpening> openings, const practice::Framing& rules,
               std::vector<FrameFault>& faults) {
  std::vector<const FramedOpening*> order;
  order.reserve(openings.size());
  for (const FramedOpening& opening : openings) order.push_back(&opening);
  std::sort(order.begin(), order.end(), [](const FramedOpening* a, const FramedOpening* b) {
    return a->left != b->left ? a->left < b->left : a->index < b->index;  // std::sort leaves equal ones in any order
  });

  layout.holes.reserve(openings.size());
  layout.furthest_right.reserve(openings.size());
  std::vector<Hole> unframed;  // kept so that a hole which overlaps only one of these is named too
  std::vector<double> unframed_right;
  Row framed{layout.holes, layout.furthest_right};
  Row others{unframed, unframed_right};
  for (const FramedOpening* opening : order) {
    const std::optional<Hole> hole = holeOf(layout, *opening, rules, faults);
    if (!hole) continue;
    const auto tell = [&](const Hole& not_framed, const Hole& is_framed, double by) {
      faults.push_back(fault(FrameFaultKind::OpeningsOverlap, not_framed, by, is_framed.opening->index));
    };
    bool free = true;
    framed.shared(*hole, [&](const Hole& other, double by) {
      tell(*hole, other, by);
      free = false;
      return true;  // each that it overlaps is told
    });
    if (!free) {
      others.add(*hole);
      continue;
    }
    // An opening that isn't framed was told of another already: one overlap is enough to tell this one.
    others.shared(*hole, [&](const Hole& other, double by) {
      tell(other, *hole, by);
      return false;
    });
    framed.add(*hole);
    layout.reach = std::max(layout.reach, hole->wanted() * layout.thickness);  // `near` looks so far round
  }
}

/// Whether hole `index`, or one of its side studs, leaves no room for a side stud of another at x. Where it only cuts
/// the stud, that is noted.
bool isInTheWay(Layout& layout, std::size_t index, Hole& hole, End end, Span x, bool bears) {
  const Hole& other = layout.holes[index];
  if (x.overlaps(other.clear)) {
    // Beside the other opening there is no room; above or below it the stud is cut where the opening is.
    if (Span{hole.sill, hole.head}.overlaps({other.sill, other.head})) return true;
    layout.stacked = true;  // a bearing stud ends at the head: it crosses only what lies below
    if (!bears || other.head < hole.head) hole.stands_in[at(end)] = static_cast<std::int32_t>(index);
  }
  for (const End theirs : kEnds) {
    if (!x.overlaps(other.columns(theirs, layout.thickness))) continue;
    // Openings one above the other with their edges in line stand between the same studs.
    const double edge = end == End::Left ? hole.clear.lo : hole.clear.hi;
    const double their_edge = theirs == End::Left ? other.clear.lo : other.clear.hi;
    if (theirs != end || std::abs(edge - their_edge) >= kTouching) return true;
    layout.stacked = true;
  }
  return false;
}

/// Claims the n-th side stud at one end of a hole, or tells who denies it.
void claim(Layout& layout, std::size_t index, End end, int n) {
  Hole& hole = layout.holes[index];
  const Span x = hole.column(end, n, layout.thickness);
  std::int32_t& denied_by = hole.denied_by[at(end)];
  if (x.lo < -kTouching || x.hi > layout.wall->length + kTouching) denied_by = kWallEnd;
  layout.near(x, [&](std::size_t other) {
    if (other == index || denied_by != kNobody) return;  // only the first that denies it is told
    if (isInTheWay(layout, other, hole, end, x, n < hole.bearing)) denied_by = static_cast<std::int32_t>(other);
  });
  if (denied_by == kNobody) ++hole.got[at(end)];
}

/// Gives out the side studs in rounds, from the openings outwards: what carries a lintel comes first, and where two
/// openings are close the studs between them are shared out evenly.
void claimSideStuds(Layout& layout) {
  int rounds = 0;
  for (const Hole& hole : layout.holes) rounds = std::max(rounds, hole.wanted());
  for (int n = 0; n < rounds; ++n) {
    for (std::size_t i = 0; i < layout.holes.size(); ++i) {
      for (const End end : kEnds) {  // `got == n`: where one stud was denied, none outside it is asked for
        if (layout.holes[i].got[at(end)] == n && n < layout.holes[i].wanted()) claim(layout, i, end, n);
      }
    }
  }
}

void tellMissingStuds(const Layout& layout, std::size_t index, End end, std::vector<FrameFault>& faults) {
  const Hole& hole = layout.holes[index];
  const std::int32_t by = hole.denied_by[at(end)];
  if (by < 0) return;  // nobody denied it, or the wall's end did, which tellWallEnds tells
  const auto other_index = static_cast<std::size_t>(by);
  const Hole& other = layout.holes[other_index];
  // One fault tells of both, the opening further left first.
  if (other_index < index && other.denied_by[at(opposite(end))] == static_cast<std::int32_t>(index)) return;
  const Hole& left = end == End::Right ? hole : other;
  const Hole& right = end == End::Right ? other : hole;
  double short_by = (left.wanted() + right.wanted()) * layout.thickness - (right.clear.lo - left.clear.hi);
  if (right.clear.lo < left.clear.hi) short_by = (hole.wanted() - hole.got[at(end)]) * layout.thickness;
  faults.push_back(fault(FrameFaultKind::NoRoomForSideStuds, left, short_by, right.opening->index));
}

void tellStandsIn(const Layout& layout, const Hole& hole, std::vector<FrameFault>& faults) {
  for (const End end : kEnds) {
    const std::int32_t in = hole.stands_in[at(end)];
    if (in < 0 || (end == End::Right && in == hole.stands_in[at(End::Left)])) continue;
    const Hole& other = layout.holes[static_cast<std::size_t>(in)];
    const Span x = hole.columns(end, layout.thickness);
    const double by = std::min(x.hi, other.clear.hi) - std::max(x.lo, other.clear.lo);
    if (by <= kTouching) continue;  // the stud that crossed was denied after all
    faults.push_back(fault(FrameFaultKind::NoRoomForSideStuds, hole, by, other.opening->index));
  }
}

/// Tells side studs that reach past the wall's ends, or into the studs that stand there.
void tellWallEnds(const Layout& layout, const Hole& hole, std::vector<FrameFault>& faults) {
  const double side = hole.wanted() * layout.thickness;
  const double past = std::max(side - hole.opening->left, hole.opening->right() + side - layout.wall->length);
  if (past > kTouching) {
    return faults.push_back(fault(FrameFaultKind::OutsideWall, hole, past));
  }
  const Span whole = hole.whole(layout.thickness);
  for (const double room : {whole.lo, layout.wall->length - whole.hi}) {
    if (room < kTouching || room > layout.thickness - kTouching) continue;  // it stands flush, or a stud goes between
    faults.push_back(fault(FrameFaultKind::NoRoomForSideStuds, hole, layout.thickness - room));
  }
}

/// How far the plates' underside comes below a lintel `deep` over the head, at the worst place.
double pastPlates(const Layout& layout, const Hole& hole, double deep) {
  const HeadLine top = hole.line.inset(-deep);
  const double left = hole.opening->left;
  double past = 0;
  const auto look = [&](double x) {
    if (hole.lintel.holds({x, x})) past = std::max(past, hole.sill + top.at(x - left) - layout.under.height(x));
  };
  for (const double x : {hole.lintel.lo, hole.lintel.hi, left + top.middle().x}) look(x);
  for (const Point& corner : layout.under.corner) look(corner.x);  // both tops run straight between
  return past;
}

/// Sets how long and how high the lintel is. One without enough room is as deep as the room.
void setLintel(Layout& layout, std::size_t index, std::vector<FrameFault>& faults) {
  Hole& hole = layout.holes[index];
  const auto& lintel = hole.opening->lintel;
  hole.lintel = {hole.clear.lo - std::min(hole.got[at(End::Left)], hole.bearing) * layout.thickness,
                 hole.clear.hi + std::min(hole.got[at(End::Right)], hole.bearing) * layout.thickness};
  hole.lintel_top = hole.head;                                          // stays so where there is no lintel
  if (!lintel && liesUnderPlates(*layout.wall, *hole.opening)) return;  // the rake plates carry it
  if (!lintel || !(lintel->depth > 0) || lintel->plies < 1) {
    return faults.push_back(fault(FrameFaultKind::NoLintelNamed, hole, 0));
  }
  double room = layout.under.lowest(hole.lintel.lo, hole.lintel.hi);  // the z that its top may reach
  std::int32_t other = -1;
  layout.near(hole.lintel, [&](std::size_t i) {
    const Hole& above = layout.holes[i];
    if (i == index || above.sill < hole.head - kTouching || above.sill >= room || !above.clear.overlaps(hole.lintel))
      return;
    layout.stacked = true;
    room = above.sill;
    other = above.opening->index;
  });
  const bool sloped = hole.follows_roof() && other < 0;  // under an opening its highest point counts
  const double past = sloped ? pastPlates(layout, hole, lintel->depth) : hole.head + lintel->depth - room;
  const bool short_of_room = past > kTouching;
  if (short_of_room) faults.push_back(fault(FrameFaultKind::NoRoomForLintel, hole, past, other));
  hole.has_lintel = lintel->depth - std::max(past, 0.0) >= kShortest;  // a shallower one is left out
  if (!hole.has_lintel) return;
  hole.lintel_top = short_of_room ? room : hole.head + lintel->depth;
  hole.lintel_depth = sloped ? lintel->depth - std::max(past, 0.0) : hole.lintel_top - hole.head;
  if (sloped) hole.lintel_top = hole.lintelTopOver(hole.lintel).hi;
}

/// Whether there is a trimmer under the sill.
void setTrimmer(Layout& layout, std::size_t index, std::vector<FrameFault>& faults) {
  Hole& hole = layout.holes[index];
  if (hole.sill <= layout.floor + kTouching) return;   // It stands on the floor or on the bottom plate.
  hole.trimmer_bottom = hole.sill - layout.thickness;  // a trimmer lies flat: as high as a stud is thick
  double room = hole.trimmer_bottom - layout.floor;    // over the bottom plate
  std::int32_t other = -1;
  layout.near(hole.clear, [&](std::size_t i) {
    const Hole& below = layout.holes[i];
    if (i == index || below.head > hole.sill + kTouching || !below.lintel.overlaps(hole.clear)) return;
    layout.stacked = true;
    if (hole.trimmer_bottom - below.lintel_top >= room) return;
    room = hole.trimmer_bottom - below.lintel_top;
    other = below.opening->index;
    hole.clear_down_to = below.lintel_top;  // nothing stands in what lies between
  });
  if (room < -kTouching) {
    return faults.push_back(fault(FrameFaultKind::NoRoomForSill, hole, -room, other));
  }
  hole.has_trimmer = hole.sill <= layout.under.lowest(hole.clear.lo, hole.clear.hi) + kTouching;
}

}  // namespace

Layout layOut(const WallSpec& wall, std::span<const FramedOpening> openings, const practice::Framing& rules,
              std::vector<FrameFault>& faults) {
  Layout layout;
  layout.wall = &wall;
  layout.thickness = wall.stud.thickness;
  layout.floor = wall.plates.bottom * wall.stud.thickness;  // plates lie flat
  layout.under = topLineBelow(wall, wall.plates.top * wall.stud.thickness);
  openHoles(layout, openings, rules, faults);
  claimSideStuds(layout);  // for all holes before any fault is told: neighbours share studs
  for (std::size_t i = 0; i < layout.holes.size(); ++i) {
    tellWallEnds(layout, layout.holes[i], faults);
    for (const End end : kEnds) tellMissingStuds(layout, i, end, faults);
    tellStandsIn(layout, layout.holes[i], faults);
  }
  for (std::size_t i = 0; i < layout.holes.size(); ++i) setLintel(layout, i, faults);   // the studs carry it
  for (std::size_t i = 0; i < layout.holes.size(); ++i) setTrimmer(layout, i, faults);  // it may stand on a lintel
  return layout;
}

}  // namespace sillwright::plan::framing
