/// Inside the room: where the tables and values of a TOML text stand in it, line by line.
///
/// toml++ tells where each value begins and ends; here that becomes sections: a header with the keys under it, up to
/// the last key or the comments that go with it.
#pragma once

#include <toml++/toml.h>
#include <cstddef>
#include <string_view>
#include <vector>

#include "job/text_edits.h"

namespace sillwright::job {

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
