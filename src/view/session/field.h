/// What a person types: the field in hand, and what of the job isn't in its file.
///
/// Typed values change the document in memory only. Readings are told apart from the file's until the job is saved or
/// read again; an opening is known again by its name.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <variant>

#include "job/job.h"
#include "job/keys.h"
#include "view/values/dimension.h"
#include "view/values/readings.h"

namespace sillwright::view {

/// A reading of an opening.
struct ReadingOf {
  std::size_t opening = 0;
  TapeReading reading = TapeReading::WidthBottom;
  bool operator==(const ReadingOf&) const = default;
};
/// The name of an opening or a wall.
struct NameOf {
  bool wall = false;
  std::size_t of = 0;
  bool operator==(const NameOf&) const = default;
};
/// A path: of a job to open, of a new one, or of this one under another name.
enum class PathUse : std::uint8_t { Open, Begin, SaveAs };
struct PathOf {
  PathUse use = PathUse::Open;
  bool operator==(const PathOf&) const = default;
};
/// The name of whoever does an exercise.
struct TraineeName {
  bool operator==(const TraineeName&) const = default;
};
/// A side of a picture that is to be taken, pixels.
struct PictureSide {
  bool height = false;
  bool operator==(const PictureSide&) const = default;
};
/// What a field sets.
using FieldOf = std::variant<ReadingOf, Dimension, NameOf, PathOf, TraineeName, PictureSide, job::KeyPlace>;

struct Typing {
  /// The text in a field that hasn't been taken in yet.
  struct Field {
    FieldOf what;
    std::string text;
  };
  /// Why the last text was not taken in.
  struct Refusal {
    FieldOf what;
    std::string say;
  };
  std::optional<Field> field;
  std::optional<Refusal> refusal;
  job::Job in_file;  ///< As it was read or saved last.

  /// An opening of the job as the file has it; null where the file has none of its name.
  [[nodiscard]] const job::Opening* inFile(const job::Job& job, std::size_t opening) const;
  /// Whether a reading of an opening is unlike the file's.
  [[nodiscard]] bool isTyped(const job::Job& job, std::size_t opening, TapeReading reading) const;
  /// Whether anything of the job is.
  [[nodiscard]] bool anyNotInFile(const job::Job& job) const { return !(job == in_file); }
};

}  // namespace sillwright::view
