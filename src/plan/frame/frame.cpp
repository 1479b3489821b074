#include "plan/frame/frame.h"

#include <cmath>
#include <map>
#include <numbers>
#include <string_view>
#include <tuple>
#include <utility>

#include "plan/frame/frame_layout.h"
#include "words/text.h"

namespace sillwright::plan {

namespace framing {

Member rectangle(const Layout& layout, MemberPart part, Span x, Span z) {
  Member member;
  member.part = part;
  member.corner = {Point{x.lo, z.lo}, Point{x.hi, z.lo}, Point{x.hi, z.hi}, Point{x.lo, z.hi}};
  member.y1 = member.depth = layout.wall->stud.depth;  // y0 is 0: all begin at the studs' outer face
  member.width = layout.thickness;
  member.length = x.length();
  return member;
}

namespace {

/// Heights at an upright's left and at its right face.
using Heights = std::array<double, 2>;

/// Where the top of a bearing stud is cut to the head, or the foot of a jack stud above to the lintel's top. Over a
/// peak a foot is cut level.
Heights alongSlope(const Hole& hole, Span x, bool foot) {
  const double peak = hole.opening->left + hole.line.middle().x;
  const bool over_peak = hole.line.peaked() && x.lo < peak && peak < x.hi;
  if (over_peak) return {hole.lintelTopOver(x).hi, hole.lintelTopOver(x).hi};
  const auto height = [&](double at) { return foot ? hole.lintelTopOver({at, at}).lo : hole.headOver({at, at}).lo; };
  return {height(x.lo), height(x.hi)};
}

Member upright(const Layout& layout, const Upright& stud) {
  const Span x = stud.x;
  Heights foot{stud.z.lo, stud.z.lo};
  Heights top{stud.z.hi, stud.z.hi};
  Member member;
  if (stud.z.hi == kUnderPlate) {  // its height is the plates', which `stud` leaves open
    const TopLine& under = layout.under;
    bool many = false;
    member.apex = under.cornerWithin(x.lo, x.hi, many);
    top = {under.height(x.lo), under.height(x.hi)};
    if (many) top.fill(under.lowest(x.lo, x.hi));  // Nobody cuts three slopes on one stud.
  }
  const bool jack = stud.part == MemberPart::JackStudAbove;
  if (stud.cut_to != nullptr) (jack ? foot : top) = alongSlope(*stud.cut_to, x, jack);
  if (stud.cut_to != nullptr && !jack) member.apex.reset();  // its top follows the head, not the plates
  double highest = std::max(top[0], top[1]);                 // the long point is what is cut from stock
  double slope = std::max(std::abs(top[1] - top[0]), std::abs(foot[1] - foot[0])) / x.length();
  if (const auto& apex = member.apex) {
    highest = std::max(highest, apex->z);
    slope =
        std::max({slope, std::abs(apex->z - top[0]) / (apex->x - x.lo), std::abs(top[1] - apex->z) / (x.hi - apex->x)});
  }
  member.part = stud.part;
  member.opening = stud.opening;
  member.corner = {Point{x.lo, foot[0]}, Point{x.hi, foot[1]}, Point{x.hi, top[1]}, Point{x.lo, top[0]}};
  member.y1 = member.depth = layout.wall->stud.depth;
  member.width = x.length();
  member.length = highest - std::min(foot[0], foot[1]);
  member.cut_degrees = std::atan(slope) * 180 / std::numbers::pi;
  const double shorter = std::min(top[0] - foot[0], top[1] - foot[1]);
  if (shorter < member.length - kTouching) member.short_length = shorter;  // alike, the ends are square
  return member;
}

/// A lintel from x to x along the head, cut plumb at both ends, its plies side by side.
void addLintelRun(const Hole& hole, Span x, std::vector<Member>& members) {
  const job::Lintel& lintel = *hole.opening->lintel;
  const auto head = [&](double at) { return Point{at, hole.headOver({at, at}).lo}; };  // over a point lowest is highest
  const auto top = [&](double at) { return Point{at, hole.lintelTopOver({at, at}).hi}; };
  const double slope = (head(x.hi).z - head(x.lo).z) / x.length();
  Member member;
  member.part = MemberPart::Lintel;
  member.opening = hole.opening->index;
  member.corner = {head(x.lo), head(x.hi), top(x.hi), top(x.lo)};
  member.depth = lintel.thickness;
  member.slope_degrees = std::atan(slope) * 180 / std::numbers::pi;
  member.cut_degrees = std::abs(member.slope_degrees);
  member.width = hole.lintel_depth;
  member.length = x.length() * std::hypot(1, slope) + member.width * std::abs(slope);  // plumb ends make the long point
  if (slope != 0) member.short_length = x.length() * std::hypot(1, slope);             // 0 tells of square ends
  for (int ply = 0; ply < lintel.plies; ++ply) {
    member.y0 = ply * lintel.thickness;  // the first is flush with the studs' outer face
    member.y1 = member.y0 + lintel.thickness;
    members.push_back(member);
  }
}

void addLintel(const Hole& hole, std::vector<Member>& members) {
  const double peak = hole.opening->left + hole.line.middle().x;
  if (!hole.line.peaked()) return addLintelRun(hole, hole.lintel, members);
  addLintelRun(hole, {hole.lintel.lo, peak}, members);  // each slope has its own timber; they meet plumb at the peak
  addLintelRun(hole, {peak, hole.lintel.hi}, members);
}

}  // namespace
}  // namespace framing

Frame frameWall(const WallSpec& wall, std::span<const FramedOpening> openings, const practice::Framing& rules,
                double longest) {
  Frame frame;
  if (wall.top.size() < 2 || !(wall.length > 0) || !(wall.stud.thickness > 0)) return frame;  // no stud can be set out
  const framing::Layout layout = framing::layOut(wall, openings, rules, frame.faults);
  const std::vector<framing::Upright> uprights = framing::placeUprights(layout, rules, frame.left_out);
  const std::vector<Member> noggings = framing::placeNoggings(layout, uprights, rules, frame.left_out);

  std::vector<Member>& members = frame.members;
  members.reserve(uprights.size() + noggings.size() + 5 * layout.holes.size() + 16);  // 5: plies, trimmer, cut plate
  framing::addPlates(layout, uprights, longest, members);
  for (const framing::Upright& stud : uprights) members.push_back(framing::upright(layout, stud));
  for (const framing::Hole& hole : layout.holes) {
    if (hole.has_lintel) framing::addLintel(hole, members);
    if (!hole.has_trimmer) continue;
    members.push_back(
        framing::rectangle(layout, MemberPart::SillTrimmer, hole.clear, {hole.trimmer_bottom, hole.sill}));
    members.back().opening = hole.opening->index;
  }
  members.insert(members.end(), noggings.begin(), noggings.end());
  if (layout.stacked || !frame.faults.empty()) framing::dropFloating(layout, members);  // only then can one float
  return frame;
}

bool liesUnderPlates(const WallSpec& wall, const FramedOpening& opening) {
  if (!opening.head) return false;
  constexpr double kAlong = 1;  // mm
  const TopLine under = topLineBelow(wall, wall.plates.top * wall.stud.thickness);
  const std::vector<Point> corners = headLineOf(opening).corners();
  return std::all_of(corners.begin(), corners.end(), [&](const Point& corner) {
    return std::abs(opening.sill + corner.z - under.height(opening.left + corner.x)) < kAlong;
  });
}

double heightBelowTop(const WallSpec& wall, double down, double x) { return topLineBelow(wall, down).height(x); }

namespace {

/// What computing leaves over: a length so little below a step of the saw is that step.
constexpr double kHair = 1e-3;

bool fitsBetween(MemberPart part) {  // what goes between others must never be cut too long
  return part == MemberPart::JackStudAbove || part == MemberPart::Lintel || part == MemberPart::SillTrimmer ||
         part == MemberPart::Nogging;
}

auto keyOf(const MemberGroup& group) {
  return std::make_tuple(group.part, -group.length, -group.short_length, std::lround(group.width),  // the longest first
                         std::lround(group.depth), std::lround(group.cut_degrees * 10));
}

double sawStep(practice::Display display) {
  return display == practice::Display::InchFractions ? practice::kInch / 16 : 1;
}

}  // namespace

double sawnLength(const Member& member, practice::Display display) {
  const double step = sawStep(display);
  const double steps = member.length / step;
  return step * (fitsBetween(member.part) ? std::floor(steps + kHair) : std::round(steps));
}

std::vector<MemberGroup> groupsOf(const Frame& frame, practice::Display display) {
  std::map<decltype(keyOf({})), MemberGroup> by_key;  // its order is that of the marks
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const Member& member = frame.members[i];
    const double short_length = std::round(member.short_length / sawStep(display)) * sawStep(display);
    const MemberGroup one{{},           member.part,  sawnLength(member, display), short_length,
                          member.width, member.depth, member.cut_degrees,          {}};
    by_key.try_emplace(keyOf(one), one).first->second.members.push_back(i);
  }
  std::vector<MemberGroup> groups;
  for (auto& [key, group] : by_key) {
    group.mark = markFor(groups.size());
    groups.push_back(std::move(group));
  }
  return groups;
}

std::vector<std::string> marksOf(const std::vector<MemberGroup>& groups, std::size_t members) {
  std::vector<std::string> marks(members);
  for (const MemberGroup& group : groups) {
    for (const std::size_t member : group.members) marks[member] = group.mark;
  }
  return marks;
}

std::string markFor(std::size_t number) {
  constexpr std::string_view kLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
  std::string mark;                                                      // I and O would be read as 1 and 0
  for (++number; number > 0; number = (number - 1) / kLetters.size()) {  // counted without a zero: AA follows Z
    mark.insert(mark.begin(), kLetters[(number - 1) % kLetters.size()]);
  }
  return mark;
}

const std::vector<double>& timberAtHand(const job::Job& job, const practice::Practice& practice) {
  return job.stock && !job.stock->timber.empty() ? job.stock->timber : practice.stock.timber;
}

double endTrim(const practice::Practice& practice) {
  return practice.stock.end_trim ? practice.stock.end_trim->value : 0;  // nothing is sawn off where none is named
}

double longestPiece(const job::Job& job, const practice::Practice& practice) {
  const std::vector<double>& stock = timberAtHand(job, practice);
  return stock.empty() ? 0 : std::max(0.0, *std::max_element(stock.begin(), stock.end()) - endTrim(practice));
}

namespace {

using practice::Words;

struct PartName {
  const char* word;
  words::Name name;
};

constexpr std::array<PartName, 10> kNames{{{"bottom plate", {"", &Words::bottom_plate}},  // in MemberPart's order
                                           {"top plate", {"", &Words::top_plate}},
                                           {"common stud", {"", &Words::stud}},
                                           {"jamb stud", {"", &Words::jamb_stud}},
                                           {"bearing stud", {"", &Words::bearing_stud}},
                                           {"jack stud below", {"", &Words::jack_stud, " below"}},
                                           {"jack stud above", {"", &Words::jack_stud, " above"}},
                                           {"lintel", {"", &Words::lintel}},
                                           {"sill trimmer", {"", &Words::sill_trimmer}},
                                           {"nogging", {"", &Words::nogging}}}};

}  // namespace

std::string nameOf(MemberPart part, const practice::Words& words) {
  return kNames[static_cast<std::size_t>(part)].name.in(words);
}

const char* toWord(MemberPart part) { return kNames[static_cast<std::size_t>(part)].word; }

}  // namespace sillwright::plan
