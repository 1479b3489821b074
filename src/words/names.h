/// Names of kinds and parts, in the practice's words where it has one.
#pragma once

#include <string>
#include <vector>

#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::words {

/// "sliding window", "hinged door".
[[nodiscard]] const char* nameOf(job::UnitKind kind);

/// What a unit is called: its kind, or of one in several lights "window in 3 lights", "door in 2 lights".
[[nodiscard]] std::string unitName(job::UnitKind kind, const std::vector<job::Light>& lights);

/// "2026-03-14".
[[nodiscard]] std::string dateWords(const job::Date& date);

/// "revision B · 2026-03-14 · by A. Smith · 4 Weir Road", as far as the job says it. The address may be long: it is
/// last.
[[nodiscard]] std::string jobWords(const job::Job& job);

/// A name made of one of the practice's words with something before and after it: "jack stud" + " below". Without a
/// word of the practice `before` is all of it.
struct Name {
  const char* before = "";
  std::string practice::Words::*word = nullptr;
  const char* after = "";

  [[nodiscard]] std::string in(const practice::Words& words) const;
};

}  // namespace sillwright::words
