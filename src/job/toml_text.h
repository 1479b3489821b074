/// Inside the room: TOML text to a tree, with the one mistake that stops it told as a SyntaxFault.
///
/// Only readers include this: it brings toml++ with it.
#pragma once

#include <toml++/toml.h>
#include <cstddef>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/error.h"
#include "job/job.h"

namespace sillwright::job {

/// Why a text is no TOML, without file and key.
struct SyntaxFault {
  base::Place at;
  std::string say;
};

/// Parses TOML 1.0. A byte order mark and CRLF line ends are fine and don't count in places.
///
/// toml++ stops at its first mistake, so there is one. Two things are looked at before it: that the text is UTF-8
/// (to name the very byte), and that no key has more than 16 dotted parts, because a tree as deep as a long enough
/// key overflows the stack when it is taken down.
[[nodiscard]] std::variant<toml::table, SyntaxFault> parseToml(std::string_view text);

// A text as lines. Offsets are its bytes.

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

// Where the tables and values of a TOML text stand in it, line by line.
//
// toml++ tells where each value begins and ends; here that becomes sections: a header with the keys under it, up to
// the last key or the comments that go with it.

/// Bytes from `from` up to, not including, `to`.
struct Span {
  std::size_t from = 0;
  std::size_t to = 0;
};

enum class TableForm { Header, Inline, Dotted };

class TomlLayout {
 public:
  /// Both must outlive it; `root` is what the text was parsed to.
  TomlLayout(const TextLines& lines, const toml::table& root);

  [[nodiscard]] Span spanOf(const toml::node& node) const;
  [[nodiscard]] std::string_view textOf(const toml::node& node) const;
  [[nodiscard]] TableForm formOf(const toml::table& table) const;
  /// Whether the node is written as one piece: a value, an array, or a table in braces.
  [[nodiscard]] bool isOnePiece(const toml::node& node) const;

  /// Whole lines from the key to the end of its value. For a node in one piece.
  [[nodiscard]] Span linesOf(const toml::node& node) const;
  /// Values in one piece in a table and the tables in it; `with_headers` false: not those under another header.
  [[nodiscard]] std::vector<const toml::node*> valuesIn(const toml::table& table, bool with_headers) const;
  /// First bytes of the headers in a table, its own too, in the order of the text.
  [[nodiscard]] std::vector<std::size_t> headersIn(const toml::table& table) const;
  /// From the header's line to past the last line that goes with it.
  [[nodiscard]] Span sectionAt(std::size_t header) const;
  /// Past the last section of a table that has headers; 0 where it has none.
  [[nodiscard]] std::size_t endOf(const toml::table& table) const;

 private:
  void collect(const toml::node& node, bool with_headers, std::vector<std::size_t>* headers,
               std::vector<const toml::node*>* values) const;

  const TextLines& lines_;
  std::vector<std::size_t> headers_;
  std::vector<Span> values_;
};

}  // namespace sillwright::job
