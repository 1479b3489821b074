/// Readings → the as-built opening, by weighted least squares.
///
/// Unknowns are the corners BR, TR, TL in a frame with BL at the origin and z plumb. Each reading is an observation
/// with a standard error; the adjustment gives the corners, their covariance, and for each reading its residual,
/// redundancy number and standardised residual, from which suspects are named (Ghilani & Wolf, Adjustment
/// Computations; Baarda's data snooping). What was not read is taken from the plan with a wide standard error, and
/// the answer says which.
///
/// The plan only ever fills what the readings leave open; it never pulls at what was read (survey_adjust.h says how).
/// Where neither sill nor studs were read by level or plumb the shape is free to turn: the sill is then taken as
/// level, and `turned_free` says so.
///
/// A middle width or height, beside its two ends, tells the bow of the edges it was read between: shared by both, + is
/// inward, half of what the middle is shorter than the mean of the adjusted ends. So the middle of the as-built shape
/// is as wide as was read. Where an end was not read and nothing else tells it, the edges are taken as straight and
/// the middle stands in for the missing end (for both, where neither was read): no bow can be told then, and
/// `middles` says so. What checks a middle reading is that edges are nearly straight: a bow has the limit of
/// straightness as its standard error, so that a middle of 805 between two ends of 850 is a misreading and no bow.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>

#include "job/readings.h"
#include "plan/shape.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// The readings that shape the opening in its plane: corners in the order of the job file, then bows.
enum class Reading : std::uint8_t {
  WidthBottom,
  WidthTop,
  HeightLeft,
  HeightRight,
  DiagonalFromBottomLeft,
  DiagonalFromTopLeft,
  OutOfLevel,
  OutOfPlumbLeft,
  OutOfPlumbRight,
  MiddleWidth,
  MiddleHeight
};
inline constexpr std::size_t kReadings = 9;      ///< Those that shape the corners.
inline constexpr std::size_t kAllReadings = 11;  ///< With the two middles, which shape the bows.

/// "widths[0]", "diagonals[1]", "out_of_level": the reading's place in the job file.
[[nodiscard]] const char* keyOf(Reading reading);
/// The same reading among all that are taken.
[[nodiscard]] job::TapeReading tapeReadingOf(Reading reading);
[[nodiscard]] const char* wordsFor(Reading reading);

/// Chance of a false alarm of the global test: readings without a mistake are said to disagree once in a hundred times.
inline constexpr double kSignificance = 0.01;
/// A reading stands out where its standardised residual is above this: once in a thousand readings by chance alone,
/// two-sided (W. Baarda, A Testing Procedure for Use in Geodetic Networks, 1968).
inline constexpr double kStandsOut = 3.29;
/// Standardised residuals within this share of the largest tie with it.
inline constexpr double kTie = 0.10;
/// Below this redundancy number a reading is as good as unchecked: a mistake would have to be above a hundred times its
/// standard error to show.
inline constexpr double kLeastRedundancy = 0.001;

struct AdjustedReading {
  Reading reading = Reading::WidthBottom;
  bool read = false;        ///< False: `value` is the plan's.
  bool stands_in = false;   ///< Not read, and the plan's value filled what the readings left open.
  double value = 0;         ///< As read, or as planned.
  double sigma = 0;         ///< Standard error a priori.
  double residual = 0;      ///< Adjusted less observed.
  double redundancy = 0;    ///< r_i, 0: nothing checks this reading; 1: wholly checked by the others. 0 if not read.
  double standardised = 0;  ///< |v| / (σ √r); 0 where r is below kLeastRedundancy.
};

/// How far a reading would be off if it alone were wrong, + is read too long: −v / r. Empty where nothing checks it.
[[nodiscard]] std::optional<double> mistakeIn(const AdjustedReading& reading);

enum class Trust : std::uint8_t {
  Planned,    ///< Nothing was read.
  Unchecked,  ///< Read, but no reading checks another (no redundancy).
  Sound,      ///< The readings agree.
  Suspect,    ///< One reading stands out and is named.
  Disputed    ///< They disagree, and it can't be told which one is wrong.
};

/// Where the corners come from. A sill taken as level or a stud as plumb is the plan's.
enum class ShapeFrom : std::uint8_t { Planned, Measured, Mixed };

/// What became of a middle reading.
enum class MiddleUse : std::uint8_t {
  NotRead,
  Bow,      ///< It tells the bow.
  StandsIn  ///< An end was not read: the edges were taken as straight.
};

/// How well the bow of a pair of edges is known: it is half of what the mean of the adjusted ends exceeds the middle
/// reading by, so that it follows the corners, and has the middle reading's own error on top.
struct BowDoubt {
  double sigma = 0;                   ///< Its standard error in all; 0: no bow is told.
  double own_sigma = 0;               ///< The part that comes of the middle reading.
  std::array<double, 6> by_corner{};  ///< Its change by BR.x, BR.z, TR.x, TR.z, TL.x, TL.z.
};

/// The usual limit of a frame member's straightness where the practice names none, mm. Common practice, no source.
inline constexpr double kUsualStraightness = 5;

/// A reading that a usual slip of the tape or the pencil would explain: "1826: did you read 1862?"
struct Slip {
  Reading reading = Reading::WidthBottom;
  double read = 0, meant = 0;
};

/// What the distances to the peak say of each other. The peak is found after the corners, which don't move for it.
struct PeakFix {
  bool agrees = true;
  std::optional<std::size_t> suspect;  ///< From BL, BR, TR, TL: the distance that stands out, where it can be told.
};

struct AsBuilt {
  OpeningShape shape;
  PeakFix peak;  ///< Of a shape that has one.
  CornerCovariance covariance{};
  std::array<BowDoubt, 2> bow_doubt{};  ///< Of the jambs, of sill and head.
  std::array<MiddleUse, 2> middles{};   ///< Of the middle width, of the middle height.
  std::array<AdjustedReading, kReadings> readings{};
  std::uint32_t suspects = 0;  ///< Bit per Reading: the suspect, or the candidates of a dispute.
  /// The one reading to take (again) that tells most: the suspect, or the candidate of a dispute that a second
  /// reading separates best from the others, or a reading not yet taken that separates them better.
  std::optional<Reading> settle_by;
  /// mm. By how much the suspect disagrees with the others; in a dispute, the smallest mistake in any one of the
  /// candidates that would explain it.
  double disagreement = 0;
  std::optional<Slip> slip;  ///< In one of the suspects.
  double chi_square = 0;
  int freedom = 0;  ///< Redundant readings (planned stand-ins not counted).
  Trust trust = Trust::Planned;
  ShapeFrom from = ShapeFrom::Planned;
  int read_count = 0;        ///< How many of the nine were read.
  bool turned_free = false;  ///< No level or plumb reading: the sill was taken as level.
  /// False: the readings make no four-cornered opening near what they say themselves. The planned rectangle is given,
  /// with the planned standard error, and trust is Disputed without candidates.
  bool converged = true;
  std::optional<double> twist;  ///< Right tilt less left tilt.
  bool tilt_alone = false;      ///< One stud's tilt was read without the other's: twist can't be told.
  double out_of_square = 0;     ///< Diagonal from bottom left less that from top left, of the adjusted corners.
};

/// Adjusts the readings of an opening planned with such a head. `measured` may be empty: the planned outline comes
/// back, known exactly. No allocation where the head is level. A triangle's corner at the sill is one corner, held as
/// such.
///
/// Gauss–Newton from the rectangle of the read (else planned) sizes until no corner moves. Standard errors come from
/// `measured.by`, else the tape's. In a dispute the answer never names a single reading where the freedom is 1: all
/// standardised residuals are then equal.
/// `straightness`: the limit of an edge's bow, mm.
[[nodiscard]] AsBuilt survey(const HeadLine& planned, const std::optional<job::Measured>& measured,
                             const practice::Survey& errors, double straightness = kUsualStraightness);

/// The same opening, for whatever is reckoned from its shape: one whose readings are suspect or in dispute is taken as
/// planned, with the planned sizes' standard errors, until they are taken again. What the readings say stays.
[[nodiscard]] AsBuilt withTrustedShape(AsBuilt built, const HeadLine& planned, const practice::Survey& errors);

/// Whether a reading was taken.
[[nodiscard]] bool wasRead(const AsBuilt& built, Reading reading);

/// The nine readings that a shape gives, in the order of Reading: what a tape, a level and a plumb would say of it.
[[nodiscard]] std::array<double, kReadings> nineReadings(const OpeningShape& shape);

/// How far out of square a shape is.
struct OutOfSquare {
  double lean = 0;     ///< Of the head over the height, square to the sill's direction; + is to the right. mm
  double degrees = 0;  ///< The same as an angle.
};

/// Out of square by the diagonals of a parallelogram of `width` × `height`: ε = asin((D₁² − D₂²) / (4 W H)), lean
/// (D₁² − D₂²) / (4 W). Derived from D₁² − D₂² = 4 W H sin ε, the law of cosines twice. Sizes must be above 0; a ratio
/// past ±1 (no such parallelogram) counts as ±90°.
[[nodiscard]] OutOfSquare outOfSquare(double width, double height, double rising, double falling);
/// The same of any four corners, exactly: W and H are then the lines through the middles of opposite edges, of which
/// the diagonals are the sum and the difference (Varignon).
[[nodiscard]] OutOfSquare outOfSquare(const OpeningShape& shape);

}  // namespace sillwright::plan
