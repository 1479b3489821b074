// Timber of all frames, by section and grade.

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>

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
  bool operator<(const LineKey& other) const { return part != other.part ? part < other.part : length > other.length; }
};

bool isPlate(plan::MemberPart part) {
  return part == plan::MemberPart::BottomPlate || part == plan::MemberPart::TopPlate;
}

SectionKey sectionOf(double a, double b, const std::string& grade) {
  return {toTenth(std::max(a, b)), toTenth(std::min(a, b)), grade};
}

}  // namespace

double toTenth(double mm) {
  return std::round(mm * 10) / 10;
}

std::vector<TimberSection> gatherTimber(const job::Job& job, const plan::Plan& plan, double longest_stock) {
  struct Gathered {
    std::map<LineKey, int> lines;
    std::map<double, int, std::greater<>> pieces;
  };
  std::map<SectionKey, Gathered> sections;
  for (std::size_t w = 0; w < plan.walls.size(); ++w) {
    const std::string grade = job.walls[w].timber.value_or("");
    PlateJoints joints(plan.walls[w].frame, longest_stock);
    for (const plan::Member& member : plan.walls[w].frame.members) {
      SectionKey key = sectionOf(member.width, member.depth, grade);
      if (member.part == plan::MemberPart::Lintel && member.opening >= 0) {
        // Each ply is a member; one without room is drawn shallower than it is bought.
        const auto& lintel = plan.openings[static_cast<std::size_t>(member.opening)].lintel;
        if (lintel) key = sectionOf(lintel->depth, lintel->thickness, grade);
      }
      Gathered& section = sections[key];
      ++section.lines[{member.part, toTenth(member.length)}];
      if (isPlate(member.part)) {
        for (const double piece : joints.cut(member)) ++section.pieces[piece];
      } else {
        ++section.pieces[toTenth(member.length)];
      }
    }
  }
  std::vector<TimberSection> all;
  for (const auto& [key, gathered] : sections) {
    TimberSection section;
    section.depth = key.depth;
    section.thickness = key.thickness;
    section.grade = key.grade;
    for (const auto& [length, count] : gathered.pieces) section.pieces.push_back({length, count});
    for (const auto& [line, count] : gathered.lines) {
      section.lines.push_back({line.part, line.length, count});
      section.length += line.length * count;
    }
    all.push_back(std::move(section));
  }
  return all;
}

const std::vector<double>& timberAtHand(const job::Job& job, const practice::Practice& practice) {
  return job.stock && !job.stock->timber.empty() ? job.stock->timber : practice.stock.timber;
}

}  // namespace sillwright::takeoff
