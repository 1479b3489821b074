/// Findings: what is judged about a plan, each with its numbers, its source and what to do.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "plan/shape.h"
#include "practice/figure.h"

namespace sillwright::check {

enum class Severity : std::uint8_t { Stop, Attend, Note };

/// Ordered from best to worst: a job's verdict is its worst opening's.
enum class Verdict : std::uint8_t { Ready, Attend, Stop };

/// What a verdict rests on, a job's on the worst of its openings': all measured, one that is not measured, or one whose
/// measurements disagree.
enum class Basis : std::uint8_t { Measured, Planned, Disputed };

/// "stop", "attention", "note"; "ready", "attention", "stop"; "measured", "planned", "disputed": the words of the JSON.
[[nodiscard]] const char* toWord(Severity severity);
[[nodiscard]] const char* toWord(Verdict verdict);
[[nodiscard]] const char* toWord(Basis basis);

/// "ready", "needs attention", "stop".
[[nodiscard]] const char* wordsFor(Verdict verdict);
/// "as planned", "measured", "measurements disagree": said beside the verdict.
[[nodiscard]] const char* wordsFor(Basis basis);
/// "4 openings: 3 ready, 1 needs attention."
[[nodiscard]] std::string summaryOf(const std::vector<Verdict>& verdicts);
/// The finding that the verdict rests on: the first stop, else the first that needs attention; nullptr: none does.
struct Finding;
[[nodiscard]] const Finding* worstOf(const std::vector<Finding>& findings);

struct Findings;
/// The stop that the opening's verdict rests on; nullptr: nothing stops it.
[[nodiscard]] const Finding* holdOf(const Findings& findings, std::size_t opening);

/// Where in the opening a finding points, for the view to fly to.
struct Spot {
  std::optional<plan::Side> side;  ///< Empty: the opening as a whole.
  std::optional<plan::Corner> corner;
};

struct Finding {
  std::string about;  ///< One of a fixed list of short names: "side clearance", "sill level", …
  Severity severity = Severity::Note;
  std::string say;  ///< One or two sentences in the trade's words, figures with units.
  std::optional<double> measured;
  std::optional<double> limit;
  std::string unit;    ///< Of measured and limit.
  std::string source;  ///< As practice::cite; empty: follows from geometry.
  std::optional<practice::Status> status;
  std::string remedy;
  std::string caution;
  Spot spot;
};

struct Findings {
  std::vector<std::vector<Finding>> walls;     ///< As Job::walls.
  std::vector<std::vector<Finding>> openings;  ///< As Job::openings.
  std::vector<Verdict> verdicts;               ///< As Job::openings.
  std::vector<Basis> bases;                    ///< As Job::openings.
  Verdict verdict = Verdict::Ready;            ///< Of the job.
  Basis basis = Basis::Measured;               ///< Of the job.
  std::vector<std::string> cautions;           ///< The usual cautions, for the whole job.
};

}  // namespace sillwright::check
