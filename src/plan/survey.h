/// Readings → the as-built opening, by weighted least squares.
///
/// Unknowns are the corners BR, TR, TL in a frame with BL at the origin and z plumb. Each reading is an observation
/// with a standard error; the adjustment gives the corners, their covariance, and for each reading its residual,
/// redundancy number and standardised residual, from which suspects are named (Ghilani & Wolf, Adjustment
/// Computations; Baarda's data snooping). What was not read is taken from the plan with a wide standard error, and
/// the answer says which.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>

#include "job/job.h"
#include "plan/shape.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// The readings that shape the opening in its plane, in the order of the job file.
enum class Reading : std::uint8_t {
  WidthBottom, WidthTop, HeightLeft, HeightRight, DiagonalRising, DiagonalFalling, SillFall, LeanLeft, LeanRight
};
inline constexpr std::size_t kReadings = 9;

/// "widths[0]", "diagonals[1]", "sill_fall": the reading's place in the job file.
[[nodiscard]] const char* keyOf(Reading reading);
/// "bottom width", "left height", "rising diagonal": the reading in words.
[[nodiscard]] const char* wordsFor(Reading reading);

struct AdjustedReading {
  Reading reading = Reading::WidthBottom;
  bool read = false;          ///< False: taken from the plan.
  double value = 0;           ///< As read, or as planned.
  double sigma = 0;           ///< Standard error a priori.
  double residual = 0;        ///< Adjusted less observed.
  double redundancy = 0;      ///< r_i, 0: nothing checks this reading; 1: wholly checked by the others.
  double standardised = 0;    ///< |v| / (σ √r); 0 where r is 0.
};

enum class Trust : std::uint8_t {
  Planned,    ///< Nothing was read.
  Unchecked,  ///< Read, but no reading checks another (no redundancy).
  Sound,      ///< The readings agree.
  Suspect,    ///< One reading stands out and is named.
  Disputed    ///< They disagree, and it can't be told which one is wrong.
};

struct AsBuilt {
  OpeningShape shape;
  CornerCovariance covariance{};
  double bow_sigma = 0;                       ///< Standard error of each bow; 0 where none was read.
  std::array<AdjustedReading, kReadings> readings{};
  std::uint32_t suspects = 0;                 ///< Bit per Reading: the suspect, or the candidates of a dispute.
  std::optional<Reading> settle_by;           ///< The one reading to take (again) that would settle a dispute.
  double disagreement = 0;                    ///< Misclosure of the disputed readings, mm.
  double chi_square = 0;
  int freedom = 0;                            ///< Redundant readings (planned stand-ins not counted).
  Trust trust = Trust::Planned;
  int read_count = 0;                         ///< How many of the nine were read.
  bool turned_free = false;                   ///< No level or plumb reading: the sill was taken as level.
  std::optional<double> twist;                ///< Right tilt less left tilt.
  double out_of_square = 0;                   ///< Rising less falling diagonal of the adjusted corners.
};

/// Adjusts the readings of an opening planned as `width` × `height`. `measured` may be empty: the planned rectangle
/// comes back, known exactly. No allocation.
[[nodiscard]] AsBuilt survey(double width, double height, const std::optional<job::Measured>& measured,
                             const practice::Survey& errors);

}  // namespace sillwright::plan
