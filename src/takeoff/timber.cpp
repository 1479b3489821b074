// Timber of all frames, by section and grade.

#include <algorithm>
#include <cmath>
#include <compare>
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

std::vector<TimberSection> gatherTimber(const job::Job& job, const plan::Plan& plan) {
  std::map<SectionKey, std::map<LineKey, int>> sections;
  for (std::size_t w = 0; w < plan.walls.size(); ++w) {
    const std::string grade = job.walls[w].timber.value_or("");
    for (const plan::Member& member : plan.walls[w].frame.members) {
      SectionKey key = sectionOf(member.width, member.depth, grade);
      int count = 1;
      if (member.part == plan::MemberPart::Lintel && member.opening >= 0) {
        // A lintel is drawn as one piece; it is bought by its plies.
        const auto& lintel = plan.openings[static_cast<std::size_t>(member.opening)].lintel;
        if (lintel) {
          key = sectionOf(lintel->depth, lintel->thickness, grade);
          count = lintel->plies;
        }
      }
      sections[key][{member.part, toTenth(member.length)}] += count;
    }
  }
  std::vector<TimberSection> all;
  for (const auto& [key, lines] : sections) {
    TimberSection section;
    section.depth = key.depth;
    section.thickness = key.thickness;
    section.grade = key.grade;
    for (const auto& [line, count] : lines) {
      section.lines.push_back({line.part, line.length, count});
      section.length += line.length * count;
    }
    all.push_back(std::move(section));
  }
  return all;
}

std::vector<CutPiece> piecesOf(const TimberSection& section, double longest_stock, double spacing) {
  std::vector<CutPiece> pieces;
  const double bay =
      spacing > 0 && spacing <= longest_stock ? std::floor(longest_stock / spacing) * spacing : longest_stock;
  for (const TimberLine& line : section.lines) {
    double left = line.length;
    if (isPlate(line.part) && longest_stock > 0) {
      for (; left > longest_stock; left = toTenth(left - bay)) pieces.push_back({bay, line.count});
    }
    pieces.push_back({left, line.count});
  }
  return pieces;
}

const std::vector<double>& timberAtHand(const job::Job& job, const practice::Practice& practice) {
  return job.stock && !job.stock->timber.empty() ? job.stock->timber : practice.stock.timber;
}

}  // namespace sillwright::takeoff
