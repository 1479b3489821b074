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
enum class Verdict : std::uint8_t { Ready, Attend, Unread, Stop };

[[nodiscard]] const char* toWord(Severity severity);
[[nodiscard]] const char* toWord(Verdict verdict);

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
  Verdict verdict = Verdict::Ready;            ///< Of the job.
  std::vector<std::string> cautions;           ///< The usual cautions, for the whole job.
};

}  // namespace sillwright::check
