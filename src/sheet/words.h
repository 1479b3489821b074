/// Words and figures as the sheets write them: the practice's words, bare figures (a sheet says once in what unit).
#pragma once

#include <string>
#include <vector>

#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"

namespace sillwright::sheet {

/// "1530", "13.4" (tenths only where they are not zero); inches and fractions without their unit: "60 1/4".
[[nodiscard]] std::string figure(double mm, practice::Display display);
/// Signed: "+2.5", "0", "-3".
[[nodiscard]] std::string signedFigure(double mm, practice::Display display);
/// "1510 × 1040".
[[nodiscard]] std::string figures(double width, double height, practice::Display display);

[[nodiscard]] std::string nameOf(job::UnitKind kind);
[[nodiscard]] const char* nameOf(plan::Side side);

/// First letter large.
[[nodiscard]] std::string capital(std::string text);

/// "10 + 5", with "timber 20 + " before it where a backing is wanted; "none" where nothing fills it.
[[nodiscard]] std::string stackOf(const plan::PackingPoint& point, practice::Display display);

/// "by tape", "by laser", "own errors"; "not read".
[[nodiscard]] std::string readBy(const job::Opening& opening);
/// "set 2026-03-14" where it says so, else readBy.
[[nodiscard]] std::string readingsDate(const job::Opening& opening);

/// "wind class N3: ultimate 0.9 kPa …" in one line.
[[nodiscard]] std::string windWords(const job::Job& job, const practice::Practice& practice);

}  // namespace sillwright::sheet
