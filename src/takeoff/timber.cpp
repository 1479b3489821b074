// Timber of all frames, by section and grade.

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <tuple>
#include <utility>

#include "plan/frame/cut_list.h"
#include "takeoff/gather.h"

namespace sillwright::takeoff {
namespace {

struct SectionKey {
  double depth = 0;
  double thickness = 0;
  std::string grade;
  bool operator<(const SectionKey& other) const {
    // Largest first.
    if (depth != other.depth) return depth > other.depth;
    if (thickness != other.thickness) return thickness > other.thickness;
    return grade < other.grade;
  }
};

struct LineKey {
  plan::MemberPart part;
  double length;
  double short_length;
  double cut_degrees;
  bool operator<(const LineKey& other) const {
    if (part != other.part) return part < other.part;
    return std::tie(other.length, other.short_length, cut_degrees) < std::tie(length, short_length, other.cut_degrees);
  }
};

/// How many pieces have a mark, by wall and mark.
using MarkCounts = std::map<std::pair<std::size_t, std::string>, int>;

SectionKey sectionOf(double a, double b, const std::string& grade) {
  return {toTenth(std::max(a, b)), toTenth(std::min(a, b)), grade};
}

}  // namespace

double toTenth(double mm) {
  return std::round(mm * 10) / 10;
}

namespace {

/// The section that a member is bought in, of a row of studs so deep: a lintel without room is drawn shallower than it
/// is bought.
SectionKey boughtAs(const plan::Member& member, double deep, const plan::Plan& plan, const std::string& grade) {
  if (member.part == plan::MemberPart::Lintel && member.opening >= 0) {
    const auto& lintel = plan.openings[static_cast<std::size_t>(member.opening)].lintel;
    if (lintel) return sectionOf(lintel->depth, lintel->thickness, lintel->material.value_or(grade));
  }
  return sectionOf(member.width, deep, grade);
}

TimberSection sectionFrom(const SectionKey& key, const std::map<LineKey, MarkCounts>& lines) {
  TimberSection section{key.depth, key.thickness, key.grade, {}, 0, {}, {}};
  std::map<double, int, std::greater<>> pieces;
  for (const auto& [line, marks] : lines) {
    TimberLine& made =
        section.lines.emplace_back(TimberLine{line.part, line.length, line.short_length, line.cut_degrees, 0, {}});
    for (const auto& [mark, count] : marks) {
      made.count += count;
      made.marks.push_back({mark.first, mark.second, count});
    }
    section.length += made.length * made.count;
    pieces[toTenth(made.length)] += made.count;
  }
  for (const auto& [length, count] : pieces) section.pieces.push_back({length, count});
  return section;
}

}  // namespace

std::vector<TimberSection> gatherTimber(const job::Job& job, const practice::Practice& practice,
                                        const plan::Plan& plan) {
  std::map<SectionKey, std::map<LineKey, MarkCounts>> sections;
  for (std::size_t w = 0; w < plan.walls.size(); ++w) {
    const plan::Frame& frame = plan.walls[w].frame;
    const std::string grade = job.walls[w].isSteel() ? "steel" : job.walls[w].timber.value_or("");
    for (const plan::MemberGroup& group : plan::groupsOf(frame, practice.display)) {
      const LineKey line{group.part, group.length, group.short_length, std::round(group.cut_degrees * 10) / 10};
      for (const std::size_t member : group.members) {
        ++sections[boughtAs(frame.members[member], frame.members[member].depth, plan, grade)][line][{w, group.mark}];
        const auto& second = plan.walls[w].spec.second_row;  // framed as the first is
        if (!second || (group.part == plan::MemberPart::Lintel && frame.members[member].y1 > second->depth)) continue;
        ++sections[boughtAs(frame.members[member], second->depth, plan, grade)][line][{w, group.mark}];
      }
    }
  }
  std::vector<TimberSection> all;
  for (const auto& [key, lines] : sections) all.push_back(sectionFrom(key, lines));
  return all;
}

}  // namespace sillwright::takeoff
