/// The take-off: what a job takes, from its plan.
///
/// Timber by section and length with a cutting plan from stock, flashing strips from rolls, folded metal, membrane,
/// packers, screws, tapes, backing rod and sealant, lining and cladding, and the tools of the order of work. Counted
/// from the plan and nothing else: no allowance for waste is added but what is said (saw cuts, laps, the membrane
/// carried across the openings). Millimetres, square metres where the name says so.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "job/job.h"
#include "plan/plan.h"
#include "plan/stand/pack.h"
#include "practice/practice.h"
#include "takeoff/cutting.h"

namespace sillwright::takeoff {

/// Cut of a circular saw's blade. Common practice, no source.
inline constexpr double kSawKerf = 3;
/// Packers come in boxes of so many of a size. From memory.
inline constexpr int kPackerBox = 100;
/// What a cartridge of sealant holds, ml. From memory.
inline constexpr double kCartridge = 310;

/// Pieces with one mark of one wall's elevation.
struct Marked {
  std::size_t wall = 0;
  std::string mark;
  int count = 0;
};

/// Pieces of one use, length and cut.
struct TimberLine {
  plan::MemberPart part = plan::MemberPart::CommonStud;
  double length = 0;        ///< As it is sawn (plan::sawnLength); to the long point.
  double short_length = 0;  ///< To the short point; 0: cut square, or at both ends alike by a mitre.
  double cut_degrees = 0;   ///< The steepest end off square, to the tenth.
  int count = 0;
  std::vector<Marked> marks;  ///< By wall; their counts sum to `count`.
};

/// All timber of one section and grade.
struct TimberSection {
  double depth = 0;  ///< The larger side of the section.
  double thickness = 0;
  std::string grade;              ///< As the walls name it; empty: not named.
  std::vector<TimberLine> lines;  ///< By part, then longest first.
  double length = 0;              ///< Of all pieces together.
  std::vector<CutPiece> pieces;   ///< The same by length alone, to the nearest tenth, longest first.
  CutPlan cutting;                ///< Of `pieces`; what is longer than any stock yields stands in its `too_long`.
};

/// Strips of one width from the roll.
struct RollUse {
  double width = 0;
  bool made_up = false;  ///< No roll is as wide: two strips make it up; `cutting` is of one.
  std::vector<CutPiece> pieces;
  CutPlan cutting;  ///< From whole rolls.
};

/// Folded metal, alike in girth and length.
struct FoldedMetal {
  double girth = 0;
  double length = 0;
  std::vector<double> folds;
  double fall_degrees = 0;
  double stop_end = 0;
  int count = 0;
};

struct Sealing {
  /// Length by diameter: a size rods are made in, above the gap by a quarter or more; 0: the gap is wider than any.
  std::map<double, double> rods;
  double length = 0;            ///< Of all joints between units and frames.
  double sealant_ml = 0;        ///< Gap times depth: the practice's least, or half the gap where that is more.
  double foot_of_doors = 0;     ///< Length that is not in it: under doors.
  std::vector<double> coupled;  ///< Length of each joint between parts made apart, longest first; not in it either.
};

/// What goes round openings in a wall with a cavity, of one depth of it.
struct OverCavity {
  double closers = 0;                ///< Their length, where the practice asks for them.
  std::map<double, int> supports{};  ///< Of sills that stand out over it: how many of each length.
};

/// A sub-sill's size, that those alike are counted together.
struct SubSillSize {
  double depth = 0, length = 0, height = 0;
  auto operator<=>(const SubSillSize&) const = default;
};

/// Per wall, m².
struct WallAreas {
  double face = 0;      ///< Of the frame, openings included.
  double lining = 0;    ///< Less the framed openings.
  double cladding = 0;  ///< Less the units.
  double membrane = 0;  ///< Openings included (carried across, then cut), laps added.
  int membrane_runs = 0;
};

struct Takeoff {
  double kerf = 0;
  double end_trim = 0;                ///< Off each stock length.
  std::vector<TimberSection> timber;  ///< Largest section first.
  std::vector<RollUse> rolls;         ///< Narrowest first.
  int fitted_flashings = 0;           ///< Pieces that come on the units: not counted above.
  std::vector<FoldedMetal> folded;
  std::map<std::pair<std::string, double>, double> tapes;  ///< Their length by name and width.
  std::vector<plan::PackerCount> packers;
  std::map<double, int> backing;      ///< Timber behind packers where the gap is too deep for them, by thickness.
  std::map<std::string, int> screws;  ///< How many of each name.
  int without_screw = 0;              ///< Fixings for which nothing in stock is long enough.
  Sealing sealing;
  std::map<double, OverCavity> over_cavity;  ///< By the cavity's depth, mm.
  std::map<SubSillSize, int> sub_sills;
  std::vector<WallAreas> walls;  ///< As Job::walls.
  /// What the crew brings once, by name: the openings that ask for it, rising.
  std::map<std::string, std::vector<std::size_t>> tools;
};

struct TakeoffOptions {
  double kerf = kSawKerf;
  std::int64_t steps = 400'000'000;  ///< For all cutting together.
};

[[nodiscard]] Takeoff takeOff(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
                              const TakeoffOptions& options = {});

}  // namespace sillwright::takeoff
