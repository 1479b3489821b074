/// Readings that a person types: the field in hand, what has been typed and isn't in the file, and how it is taken
/// back.
///
/// Typed readings change the document in memory only. They are told apart from the file's until the file is read again.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "practice/practice.h"
#include "view/readings.h"

namespace sillwright::view {

struct Typing {
  /// The text in a field that hasn't been taken in yet.
  struct Field {
    std::size_t opening = 0;
    TapeReading reading = TapeReading::WidthBottom;
    std::string text;
  };
  /// Why the last text was not taken in.
  struct Refusal {
    std::size_t opening = 0;
    TapeReading reading = TapeReading::WidthBottom;
    std::string say;
  };
  /// One thing typed, to be taken back.
  struct Step {
    std::size_t opening = 0;
    std::string words;  ///< "bottom width of N1 to 1530"
    std::optional<job::Measured> before;
  };

  std::optional<Field> field;
  std::optional<Refusal> refusal;
  std::vector<Step> steps;                            ///< The last is taken back first.
  std::vector<std::optional<job::Measured>> in_file;  ///< Of each opening.

  /// As a job was just read.
  static Typing of(const job::Job& job);

  /// Whether a reading of an opening is unlike the file's.
  [[nodiscard]] bool isTyped(const job::Job& job, std::size_t opening, TapeReading reading) const;
  /// Whether the instrument of an opening is.
  [[nodiscard]] bool isInstrumentTyped(const job::Job& job, std::size_t opening) const;
  /// "N1: bottom width 1530, top width cleared": one line for each opening that is unlike the file.
  [[nodiscard]] std::vector<std::string> notInFile(const job::Job& job, practice::Display display) const;
  [[nodiscard]] bool anyNotInFile(const job::Job& job) const;
};

}  // namespace sillwright::view
