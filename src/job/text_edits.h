/// Inside the room: a text as lines, and changes of it that are noted first and made together.
///
/// Offsets are bytes of the text as it was; noting one change doesn't move another.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.h"

namespace sillwright::job {

class TextLines {
 public:
  /// The text must outlive it.
  explicit TextLines(std::string_view text);

  [[nodiscard]] std::string_view text() const { return text_; }
  /// Byte of a place: its column counts characters, and a byte order mark is none.
  [[nodiscard]] std::size_t offsetOf(base::Place place) const;
  /// First byte of the line that `offset` is in.
  [[nodiscard]] std::size_t lineStart(std::size_t offset) const;
  /// Past the line's end, its line feed included. `offset` at a line's start is in that line.
  [[nodiscard]] std::size_t lineEnd(std::size_t offset) const;
  /// The line's bytes without its line end.
  [[nodiscard]] std::string_view line(std::size_t offset) const;
  /// How the text ends its lines: as its first line does.
  [[nodiscard]] std::string_view ending() const;

  [[nodiscard]] bool isBlank(std::size_t offset) const;
  [[nodiscard]] bool isComment(std::size_t offset) const;

 private:
  std::string_view text_;
  std::vector<std::size_t> starts_;
};

class TextEdits {
 public:
  explicit TextEdits(const TextLines& lines) : lines_(lines) {}

  void replace(std::size_t from, std::size_t to, std::string by);
  void remove(std::size_t from, std::size_t to) { replace(from, to, {}); }
  /// Whole lines, each with its line end, before the line that starts at `at` (or after the text). Where the last line
  /// has no line end it gets one, and the text again ends without.
  void insertLines(std::size_t at, std::string whole_lines);
  /// The same for lines that begin a section: at one place they come after all lines of the section before.
  void insertSection(std::size_t at, std::string whole_lines);

  /// The text with all of them. Of two at one place the one that was noted first comes first, sections last; what is
  /// put in inside of something removed stands after it.
  [[nodiscard]] std::string apply() const;

 private:
  struct Edit {
    std::size_t from;
    std::size_t to;
    std::string by;
    bool is_section = false;
  };

  const TextLines& lines_;
  std::vector<Edit> edits_;
};

}  // namespace sillwright::job
