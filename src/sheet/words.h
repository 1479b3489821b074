/// Words and figures as the sheets write them: the practice's words, bare figures (a sheet says once in what unit).
#pragma once

#include <string>
#include <vector>

#include "job/job.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "words/length.h"
#include "words/names.h"
#include "words/text.h"

namespace sillwright::sheet {

using words::capital;
using words::figure;
using words::figures;
using words::signedFigure;

/// "measured by tape", "measured by laser"; "not measured".
[[nodiscard]] std::string readBy(const job::Opening& opening);
/// "2026-03-14".
[[nodiscard]] std::string dateWords(const job::Date& date);
/// "set 2026-03-14" where it says so, else readBy.
[[nodiscard]] std::string readingsDate(const job::Opening& opening);

/// "revision B · 2026-03-14 · by A. Smith · 4 Weir Road", as far as the job says it. The address may be long: it is
/// last.
[[nodiscard]] std::string jobWords(const job::Job& job);

/// "wind class N3: ultimate 0.9 kPa …" in one line.
[[nodiscard]] std::string windWords(const job::Job& job, const practice::Practice& practice);

}  // namespace sillwright::sheet
