/// Words and figures as the sheets write them: the practice's words, bare figures (a sheet says once in what unit).
#pragma once

#include <string>

#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "words/length.h"
#include "words/text.h"

namespace sillwright::sheet {

using words::capital;
using words::dateWords;
using words::figure;
using words::figures;
using words::jobWords;
using words::signedFigure;

/// "measured by tape", "measured by laser"; "not measured".
[[nodiscard]] std::string readBy(const job::Opening& opening);
/// "set 2026-03-14" where it says so, else readBy.
[[nodiscard]] std::string readingsDate(const job::Opening& opening);

/// "wind class N3: ultimate 0.9 kPa …" in one line.
[[nodiscard]] std::string windWords(const job::Job& job, const practice::Practice& practice);

}  // namespace sillwright::sheet
