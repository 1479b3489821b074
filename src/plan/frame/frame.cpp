#include "plan/frame/frame.h"

#include <cmath>
#include <numbers>

#include "plan/frame/frame_layout.h"

namespace sillwright::plan {

namespace framing {
namespace {

/// A level or upright rectangle with the wall's stud depth.
Member rectangle(MemberPart part, Span x, Span z, double depth) {
  Member member;
  member.part = part;
  member.corner = {Point{x.lo, z.lo}, Point{x.hi, z.lo}, Point{x.hi, z.hi}, Point{x.lo, z.hi}};
  member.y1 = depth;
  member.depth = depth;
  return member;
}

Member upright(const Layout& layout, const Upright& stud) {
  const TopLine& under = layout.under;
  const bool cut = stud.z.hi == kUnderPlate;
  double left = cut ? under.height(stud.x.lo) : stud.z.hi;
  double right = cut ? under.height(stud.x.hi) : stud.z.hi;
  bool many = false;
  const std::optional<Point> apex = cut ? under.cornerWithin(stud.x.lo, stud.x.hi, many) : std::nullopt;
  if (many) left = right = under.lowest(stud.x.lo, stud.x.hi);  // Nobody cuts three slopes on one stud.

  Member member = rectangle(stud.part, stud.x, {stud.z.lo, left}, layout.wall->stud.depth);
  member.corner[2].z = right;
  member.apex = apex;
  member.opening = stud.opening;
  member.width = stud.x.length();
  double top = std::max(left, right);
  double slope = std::abs(right - left) / stud.x.length();
  if (apex) {
    top = std::max(top, apex->z);
    slope =
        std::max(std::abs(apex->z - left) / (apex->x - stud.x.lo), std::abs(right - apex->z) / (stud.x.hi - apex->x));
  }
  member.length = top - stud.z.lo;
  member.cut_degrees = std::atan(slope) * 180 / std::numbers::pi;
  return member;
}

void addLintel(const Hole& hole, std::vector<Member>& members) {
  const job::Lintel& lintel = *hole.opening->lintel;
  for (int ply = 0; ply < lintel.plies; ++ply) {
    Member member = rectangle(MemberPart::Lintel, hole.lintel, {hole.head, hole.lintel_top}, lintel.thickness);
    member.opening = hole.opening->index;
    member.y0 = ply * lintel.thickness;
    member.y1 = member.y0 + lintel.thickness;
    member.length = hole.lintel.length();
    member.width = hole.lintel_top - hole.head;
    members.push_back(member);
  }
}

void addTrimmer(const Layout& layout, const Hole& hole, std::vector<Member>& members) {
  Member member =
      rectangle(MemberPart::SillTrimmer, hole.clear, {hole.trimmer_bottom, hole.sill}, layout.wall->stud.depth);
  member.opening = hole.opening->index;
  member.length = hole.clear.length();
  member.width = layout.thickness;
  members.push_back(member);
}

void addNogging(const Layout& layout, const NoggingPiece& piece, std::vector<Member>& members) {
  const double half = layout.thickness / 2;
  Member member =
      rectangle(MemberPart::Nogging, piece.x, {piece.centre - half, piece.centre + half}, layout.wall->stud.depth);
  member.length = piece.x.length();
  member.width = layout.thickness;
  members.push_back(member);
}

}  // namespace
}  // namespace framing

Frame frameWall(const WallSpec& wall, std::span<const FramedOpening> openings, const practice::Framing& rules,
                double longest) {
  Frame frame;
  if (wall.top.size() < 2 || !(wall.length > 0) || !(wall.stud.thickness > 0)) return frame;
  const framing::Layout layout = framing::layOut(wall, openings, rules, frame.faults);
  const std::vector<framing::Upright> uprights = framing::placeUprights(layout, rules, frame.left_out);
  const std::vector<framing::NoggingPiece> noggings = framing::placeNoggings(layout, uprights, rules, frame.left_out);

  std::vector<Member>& members = frame.members;
  members.reserve(uprights.size() + noggings.size() + 5 * layout.holes.size() + 16);
  framing::addPlates(layout, uprights, longest, members);
  for (const framing::Upright& stud : uprights) members.push_back(framing::upright(layout, stud));
  for (const framing::Hole& hole : layout.holes) {
    if (hole.has_lintel) framing::addLintel(hole, members);
    if (hole.has_trimmer) framing::addTrimmer(layout, hole, members);
  }
  for (const framing::NoggingPiece& piece : noggings) framing::addNogging(layout, piece, members);
  if (layout.stacked || !frame.faults.empty()) framing::dropFloating(layout, members);
  return frame;
}

double heightBelowTop(const WallSpec& wall, double down, double x) {
  return topLineBelow(wall, down).height(x);
}

}  // namespace sillwright::plan
