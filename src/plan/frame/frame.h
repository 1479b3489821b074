/// The timber members of one wall.
///
/// Plates along the wall's top and bottom, common studs on the spacing, jamb and bearing studs beside each opening,
/// lintel, sill trimmer, jack studs on the common spacing, noggings. Everything lies in the wall's own axes (x right
/// as seen from outside, y into the building, z up from the underside of the bottom plate).
///
/// A pure function of the wall, its openings and the practice's framing rules. It never refuses: an opening that
/// doesn't fit its wall is framed as far as that is possible, and the faults say what is wrong. No two members overlap,
/// whatever the faults; top plates alone may run into each other, where slopes of the top are shorter than the plates
/// are thick.
///
/// How members are set out:
/// - Common studs stand with their middle on the spacing, counted from the wall's left end; the first is flush with
///   that end, the last with the right end. One that runs into an opening becomes jack studs on the same spacing; one
///   that runs into an opening's side studs is left out. No bay is wider in the clear than the spacing.
/// - Beside an opening stand the bearing studs under the lintel's ends, then the full-height jamb studs, in numbers by
///   the practice. Without bearing studs the lintel hangs between the jamb studs.
/// - Openings may stand above each other: side studs whose edges are in line are shared, others are cut to stand on
///   the lower lintel (and that is a fault).
/// - Noggings stand in level rows that divide the tallest stud equally, no further apart than the practice's centres
///   (AS 1684: 1350). From bay to bay they shift up and down by half their thickness, to be nailed through the stud
///   into their ends, where the practice allows that stagger. Where an opening or a slope leaves a bay without its row
///   a further nogging stands in the middle. Bays narrower than a stud have none.
/// - A head that follows the roof has its lintel in the slope, cut plumb at its ends and at the peak; bearing studs are
///   cut to it, jack studs stand on its slope. Where it runs along the plates' underside the plates are its head.
/// - Under a slope studs and plates are cut to it, plates meet in mitres and are cut plumb at the wall's ends.
/// - Plates longer than any piece that stock gives are in pieces that meet square over the middle of a common stud,
///   plates above each other over different ones.
/// - Pieces shorter than 20 mm are left out, but for top plates: those beside one meet it. Jack studs and noggings that
///   are too short to be nailed, by the practice, are left out and told of.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "job/job.h"
#include "plan/settle.h"
#include "plan/shape.h"
#include "practice/practice.h"

namespace sillwright::plan {

enum class MemberPart : std::uint8_t {
  BottomPlate,
  TopPlate,
  CommonStud,
  JambStud,
  BearingStud,
  JackStudBelow,
  JackStudAbove,
  Lintel,
  SillTrimmer,
  Nogging
};

/// One piece of timber. Its outline in the wall plane is a quadrilateral (BL, BR, TR, TL as seen from outside), whose
/// top edge may have one corner more where a stud stands under a ridge or valley of the plate.
struct Member {
  MemberPart part = MemberPart::CommonStud;
  std::int32_t opening = -1;      ///< Index in Job::openings, -1: belongs to no opening.
  std::array<Point, 4> corner{};  ///< BL, BR, TR, TL.
  std::optional<Point> apex;      ///< Between TR and TL.
  double y0 = 0;                  ///< Through the wall, y0 < y1.
  double y1 = 0;
  double length = 0;         ///< To the long point: what is cut from stock.
  double short_length = 0;   ///< To the short point; 0: cut square.
  double width = 0;          ///< Section as seen in the wall plane, across the length.
  double depth = 0;          ///< Section through the wall.
  double slope_degrees = 0;  ///< Of a plate or a lintel: its rise to the right, + is up.
  double cut_degrees = 0;    ///< Steepest end cut off square; 0: cut square.
};

enum class FrameFaultKind : std::uint8_t {
  OutsideWall,         ///< Opening or its side studs past the wall's end, or below its floor. `by`: how far.
  OpeningsOverlap,     ///< Openings share area. `other` names the one that is framed; `opening` isn't. Every opening
                       ///< that shares area is named at least once.
  NoRoomForSideStuds,  ///< Side studs run into another opening or its studs (`other`), or, without `other`, into the
                       ///< stud at the wall's end. `by`: how much room is short. Told once for two openings.
  NoRoomForLintel,     ///< Top of lintel above the underside of the top plate, or in the opening above (`other`).
                       ///< `by`: how far. The lintel is drawn as deep as there is room.
  NoLintelNamed,       ///< Neither job nor practice names a lintel for this width.
  NoRoomForSill,       ///< The sill is above the bottom plate, or the lintel below (`other`), but leaves no room for a
                       ///< sill trimmer. `by`: how much is short.
  WiderThanRules       ///< No rule for side studs of an opening this wide; the widest rule's were used.
};

struct FrameFault {
  FrameFaultKind kind = FrameFaultKind::OutsideWall;
  std::int32_t opening = -1, other = -1;
  double by = 0;
};

/// A jack stud or nogging that would be too short to be nailed.
struct LeftOut {
  MemberPart part = MemberPart::Nogging;
  std::int32_t opening = -1;  ///< As Member::opening.
  double length = 0;
};

struct Frame {
  std::vector<Member> members;
  std::vector<FrameFault> faults;
  std::vector<LeftOut> left_out;
};

/// One opening as the frame sees it.
struct FramedOpening {
  std::int32_t index = 0;  ///< In Job::openings.
  double left = 0, sill = 0;
  double width = 0, height = 0;
  std::optional<job::Lintel> lintel;
  std::optional<job::Head> head = {};  ///< One that follows the roof; `height` is then its highest corner's.

  [[nodiscard]] double right() const { return left + width; }
  [[nodiscard]] double top() const { return sill + height; }
};

/// Frames a wall. `openings` may be in any order; no plate is longer than `longest` mm, 0: of any length.
[[nodiscard]] Frame frameWall(const WallSpec& wall, std::span<const FramedOpening> openings,
                              const practice::Framing& rules, double longest = 0);

/// Whether a head that follows the roof runs along the underside of the plates, to the millimetre: they are its head
/// where the wall carries nothing.
[[nodiscard]] bool liesUnderPlates(const WallSpec& wall, const FramedOpening& opening);

/// Height of the line `down` below the wall's top line, measured square to each slope, at x. Used for the underside
/// of the top plates: `down` is their number times their thickness. Outside the wall the end slopes run on.
[[nodiscard]] double heightBelowTop(const WallSpec& wall, double down, double x);

// A wall's timber as it is cut: pieces alike in one group with the mark that the wall's elevation gives them, lengths
// as a saw can hold them, and what the stock at hand yields.

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

// Kinds of framing members, and their names: in the practice's words on paper and in lists, and the fixed ones of the
// JSON.

/// "jack stud below", "lintel": in lower case, without a number.
[[nodiscard]] std::string nameOf(MemberPart part, const practice::Words& words);

/// The same in any practice: "bottom plate", "common stud".
[[nodiscard]] const char* toWord(MemberPart part);

/// A stud of any kind.
[[nodiscard]] constexpr bool isUpright(MemberPart part) {
  return part >= MemberPart::CommonStud && part <= MemberPart::JackStudAbove;
}

}  // namespace sillwright::plan
