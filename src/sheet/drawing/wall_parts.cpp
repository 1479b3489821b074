#include "sheet/drawing/wall_parts.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <tuple>

#include "plan/frame/part_names.h"
#include "words/length.h"

namespace sillwright::sheet {
namespace {

auto keyOf(const MemberGroup& group) {
  return std::make_tuple(group.part, -std::lround(group.length), std::lround(group.width), std::lround(group.depth),
                         std::lround(group.cut_degrees * 10));
}

}  // namespace

std::string markFor(std::size_t number) {
  constexpr std::string_view kLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ";
  std::string mark;
  for (++number; number > 0; number = (number - 1) / kLetters.size()) {
    mark.insert(mark.begin(), kLetters[(number - 1) % kLetters.size()]);
  }
  return mark;
}

std::vector<MemberGroup> groupsOf(const plan::Frame& frame) {
  std::vector<MemberGroup> groups;
  for (std::size_t i = 0; i < frame.members.size(); ++i) {
    const plan::Member& member = frame.members[i];
    MemberGroup one{{}, member.part, member.length, member.width, member.depth, member.cut_degrees, {i}};
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

Table scheduleOf(const std::vector<MemberGroup>& groups, const practice::Practice& practice) {
  const bool inches = practice.display == practice::Display::InchFractions;
  const double width = inches ? 112.5 : 101.5;
  Table table(width, {{"mark", 9.5},
                      {"piece", 38},
                      {"section"},
                      {"length", inches ? 19.0 : 15.0, Align::Right},
                      {"cut", 12, Align::Right},
                      {"no.", 8, Align::Right}});
  table.least_row = 4.2;
  for (const MemberGroup& group : groups) {
    table.rows.push_back({bold(group.mark), plan::nameOf(group.part, practice.words),
                          figures(group.depth, group.width, practice.display),
                          bold(figure(std::round(group.length), practice.display)),
                          group.cut_degrees > 0.05 ? words::number(group.cut_degrees, 1) + "°" : std::string{},
                          std::to_string(group.members.size())});
  }
  return table;
}

}  // namespace sillwright::sheet
