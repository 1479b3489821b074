/// Judging one opening of a simple job, and finding a finding.
#pragma once

#include <cmath>
#include <optional>
#include <string>

#include "check/judge.h"
#include "support/simple_job.h"

namespace sillwright::testing {

/// Keeps the plan with its findings, so that a test can ask for the numbers they rest on.
struct Judged {
  plan::Plan plan;
  check::Findings findings;

  [[nodiscard]] const check::Finding* find(const std::string& about, const std::string& part = {}) const {
    for (const auto& finding : findings.openings[0]) {
      if (finding.about == about && finding.say.find(part) != std::string::npos) return &finding;
    }
    return nullptr;
  }
  [[nodiscard]] check::Verdict verdict() const { return findings.verdicts[0]; }
};

inline Judged judged(const job::Job& job, const practice::Practice& practice) {
  Judged result;
  result.plan = plan::makePlan(job, practice);
  result.findings = check::judge(job, practice, result.plan);
  return result;
}

/// Readings that agree with the opening exactly.
inline job::Measured readingsAsPlanned(const job::Opening& opening) {
  job::Measured read;
  const double w = opening.width;
  const double h = opening.height;
  const double d = std::hypot(w, h);
  read.widths = {w, w, w};
  read.heights = {h, h, h};
  read.diagonals = {d, d};
  read.out_of_level = 0;
  read.out_of_plumb = {0, 0};
  read.out_of_plumb_in = {0, 0};
  read.wall_depth = {100, 100};
  read.by = job::Instrument::Tape;
  return read;
}

/// A window 1510 × 1040 in its opening, read exactly as planned.
inline job::Job readWindow(const std::string& practice) {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, 1510, 1040, practice);
  job.openings[0].measured = readingsAsPlanned(job.openings[0]);
  return job;
}

/// Readings of an opening whose corners (BL at the origin) are given: distances, falls and leans all consistent.
inline job::Measured readingsOf(const plan::OpeningShape& shape) {
  const auto& c = shape.corner;
  const auto distance = [](plan::Point a, plan::Point b) { return std::hypot(b.x - a.x, b.z - a.z); };
  job::Measured read;
  read.widths = {distance(c[0], c[1]), std::nullopt, distance(c[3], c[2])};
  read.heights = {distance(c[0], c[3]), std::nullopt, distance(c[1], c[2])};
  read.diagonals = {distance(c[0], c[2]), distance(c[3], c[1])};
  read.out_of_level = c[1].z;
  read.out_of_plumb = {c[3].x, c[2].x - c[1].x};
  read.by = job::Instrument::Tape;
  return read;
}

}  // namespace sillwright::testing
