#include "plan/frame/cut_list.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <tuple>

#include "practice/inches.h"

namespace sillwright::plan {
namespace {

/// What computing leaves over: a length so little below a step of the saw is that step.
constexpr double kHair = 1e-3;

bool fitsBetween(MemberPart part) {
  return part == MemberPart::JackStudAbove || part == MemberPart::Lintel || part == MemberPart::SillTrimmer ||
         part == MemberPart::Nogging;
}

auto keyOf(const MemberGroup& group) {
  return std::make_tuple(group.part, -group.length, -group.short_length, std::lround(group.width),
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
  std::vector<MemberGroup> groups;
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const Member& member = frame.members[i];
    const double short_length = std::round(member.short_length / sawStep(display)) * sawStep(display);
    MemberGroup one{{},           member.part,  sawnLength(member, display), short_length,
                    member.width, member.depth, member.cut_degrees,          {i}};
    const auto same = std::find_if(groups.begin(), groups.end(),
                                   [&](const MemberGroup& group) { return keyOf(group) == keyOf(one); });
    if (same == groups.end()) {
      groups.push_back(std::move(one));
    } else {
      same->members.push_back(i);
    }
  }
  std::sort(groups.begin(), groups.end(),
            [](const MemberGroup& a, const MemberGroup& b) { return keyOf(a) < keyOf(b); });
  for (std::size_t i = 0; i < groups.size(); ++i) groups[i].mark = markFor(i);
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
  std::string mark;
  for (++number; number > 0; number = (number - 1) / kLetters.size()) {
    mark.insert(mark.begin(), kLetters[(number - 1) % kLetters.size()]);
  }
  return mark;
}

const std::vector<double>& timberAtHand(const job::Job& job, const practice::Practice& practice) {
  return job.stock && !job.stock->timber.empty() ? job.stock->timber : practice.stock.timber;
}

double endTrim(const practice::Practice& practice) {
  return practice.stock.end_trim ? practice.stock.end_trim->value : 0;
}

double longestPiece(const job::Job& job, const practice::Practice& practice) {
  const std::vector<double>& stock = timberAtHand(job, practice);
  return stock.empty() ? 0 : std::max(0.0, *std::max_element(stock.begin(), stock.end()) - endTrim(practice));
}

}  // namespace sillwright::plan
