/// Inside the room: a job's values as the job file spells them, without deciding where in a text they stand.
///
/// Two jobs are compared and a text is changed key by key, so every table lists all its keys in the order of its rule,
/// those that are left out with the shape Absent. Numbers are the shortest text that reads back as themselves, so two
/// spellings are equal exactly where the values are.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.h"

namespace sillwright::job {

enum class Shape : std::uint8_t {
  Absent,
  Scalar,    ///< `text`.
  List,      ///< Parts without keys.
  Outline,   ///< Points, each a List of two; a level one may also be written as its height alone.
  Readings,  ///< A part for each reading, Absent where it wasn't taken: a list where all were, else a table.
  Table,
  Section  ///< A table that has a header of its own where its parent has.
};

struct Part;

struct Spelling {
  Shape shape = Shape::Absent;
  std::string text;
  std::vector<Part> parts;

  friend bool operator==(const Spelling& a, const Spelling& b);
};

struct Part {
  std::string_view key;
  Spelling value;

  friend bool operator==(const Part& a, const Part& b);
};

/// The keys of [job].
[[nodiscard]] Spelling spell(const Job& job);
[[nodiscard]] Spelling spell(const Wall& wall);
/// `wall` is the name of the opening's.
[[nodiscard]] Spelling spell(const Opening& opening, const std::string& wall = {});
[[nodiscard]] Spelling spell(const Unit& unit);
[[nodiscard]] Spelling spell(const Measured& measured);
[[nodiscard]] Spelling spell(const Stock& stock);

/// Whether none of its parts is Absent.
[[nodiscard]] bool isComplete(const Spelling& value);

/// The value on one line, to follow `key = `.
[[nodiscard]] std::string inlineText(const Spelling& value);

/// A header and the lines under it, with the sections inside; the `=` of each header's keys in one column.
[[nodiscard]] std::string sectionText(const std::string& name, bool one_of_many, const Spelling& table,
                                      std::string_view line_end);

}  // namespace sillwright::job
