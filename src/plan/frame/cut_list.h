/// A wall's timber as it is cut: pieces alike in one group with the mark that the wall's elevation gives them, lengths
/// as a saw can hold them, and what the stock at hand yields.
#pragma once

#include <string>
#include <vector>

#include "job/job.h"
#include "plan/frame/frame.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// Members of one wall that are cut alike.
struct MemberGroup {
  std::string mark;  ///< "A", "B" … "Z", "AA": of this wall.
  MemberPart part = MemberPart::CommonStud;
  double length = 0;        ///< To the long point, as sawnLength.
  double short_length = 0;  ///< To the short point, to the same step; 0: cut square, or at both ends alike by a mitre.
  double width = 0;
  double depth = 0;
  double cut_degrees = 0;
  std::vector<std::size_t> members;  ///< Indices in the frame.
};

/// A member's length to the long point, to the whole millimetre or the sixteenth of an inch, mm. What fits between two
/// others (jack studs above, lintels, sill trimmers, noggings) is rounded down, so that it goes in without being
/// driven; all else to the nearest.
[[nodiscard]] double sawnLength(const Member& member, practice::Display display);

/// Alike: part, section, sawn length, and cut to the tenth of a degree. In the order of the parts, longest first.
[[nodiscard]] std::vector<MemberGroup> groupsOf(const Frame& frame, practice::Display display);

/// Mark of each member, by its index in the frame.
[[nodiscard]] std::vector<std::string> marksOf(const std::vector<MemberGroup>& groups, std::size_t members);

/// "A" … "Z" without I and O (they read as 1 and 0), then "AA" …
[[nodiscard]] std::string markFor(std::size_t number);

/// Stock lengths at hand: the job's, else the practice's.
[[nodiscard]] const std::vector<double>& timberAtHand(const job::Job& job, const practice::Practice& practice);

/// What is sawn off each stock length to square its end, mm.
[[nodiscard]] double endTrim(const practice::Practice& practice);

/// The longest piece that the stock at hand yields, mm; 0: no stock is named.
[[nodiscard]] double longestPiece(const job::Job& job, const practice::Practice& practice);

}  // namespace sillwright::plan
