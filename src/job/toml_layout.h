/// Inside the room: a TOML text as lines, and where its tables and values stand in it. For rewrite.cpp.
#pragma once

#include <toml++/toml.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "base/words.h"
#include "job/toml_table.h"

namespace sillwright::job {

/// A text as lines. Offsets are its bytes.
class TextLines {
 public:
  /// The text must outlive it.
  explicit TextLines(std::string_view text) : text_(text), starts_{text.starts_with(base::kByteOrderMark) ? 3U : 0U} {
    for (std::size_t i = text.find('\n'); i != std::string_view::npos; i = text.find('\n', i + 1)) {
      starts_.push_back(i + 1);
    }
  }

  [[nodiscard]] std::string_view text() const { return text_; }

  /// Byte of a place: its column counts characters, and a byte order mark is none.
  [[nodiscard]] std::size_t offsetOf(base::Place place) const {
    if (place.line == 0 || place.line > starts_.size()) return text_.size();
    std::size_t at = starts_[place.line - 1];
    for (std::uint32_t column = 1; column < place.column && at < text_.size(); ++column) {
      ++at;
      while (at < text_.size() && (static_cast<unsigned char>(text_[at]) & 0xC0U) == 0x80U) ++at;  // of the same one
    }
    return at;
  }

  /// First byte of the line that `offset` is in.
  [[nodiscard]] std::size_t lineStart(std::size_t offset) const {
    const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
    return after == starts_.begin() ? starts_.front() : *(after - 1);
  }
  /// Past the line's end, its line feed included. `offset` at a line's start is in that line.
  [[nodiscard]] std::size_t lineEnd(std::size_t offset) const {
    const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
    return after == starts_.end() ? text_.size() : *after;
  }
  /// How the text ends its lines: as its first line does.
  [[nodiscard]] std::string_view ending() const {
    const std::size_t end = text_.find('\n');
    return end != std::string_view::npos && end > 0 && text_[end - 1] == '\r' ? "\r\n" : "\n";
  }

  [[nodiscard]] bool isBlank(std::size_t offset) const { return offset < text_.size() && firstOf(offset) == kNothing; }
  [[nodiscard]] bool isComment(std::size_t offset) const { return offset < text_.size() && firstOf(offset) == '#'; }

 private:
  static constexpr char kNothing = '\n';

  /// The first byte of a line that is no blank.
  [[nodiscard]] char firstOf(std::size_t offset) const {
    const std::size_t start = lineStart(offset);
    auto line = text_.substr(start, lineEnd(offset) - start);
    if (line.ends_with('\n')) line.remove_suffix(1);
    if (line.ends_with('\r')) line.remove_suffix(1);
    const std::size_t first = line.find_first_not_of(" \t");
    return first == std::string_view::npos ? kNothing : line[first];
  }

  std::string_view text_;
  std::vector<std::size_t> starts_;
};

/// Bytes from `from` up to, not including, `to`.
struct Span {
  std::size_t from = 0;
  std::size_t to = 0;
};

enum class TableForm { Header, Inline, Dotted };

/// Where the tables and values of a TOML text stand in it, line by line.
///
/// toml++ tells where each value begins and ends; here that becomes sections: a header with the keys under it, up to
/// the last key or the comments that go with it.
class TomlLayout {
 public:
  /// Both must outlive it; `root` is what the text was parsed to.
  TomlLayout(const TextLines& lines, const toml::table& root) : lines_(lines), headers_(headersIn(root)) {
    for (const auto* value : valuesIn(root, true)) values_.push_back(spanOf(*value));
  }

  [[nodiscard]] Span spanOf(const toml::node& node) const {
    const auto end = node.source().end;
    return {lines_.offsetOf(placeOf(node)), lines_.offsetOf({end.line, end.column})};
  }
  [[nodiscard]] std::string_view textOf(const toml::node& node) const {
    const Span span = spanOf(node);
    return lines_.text().substr(span.from, span.to - span.from);
  }

  [[nodiscard]] TableForm formOf(const toml::table& table) const {
    const std::size_t at = lines_.offsetOf(placeOf(table));
    const char first = at < lines_.text().size() ? lines_.text()[at] : ' ';
    if (first == '[') return TableForm::Header;
    return first == '{' ? TableForm::Inline : TableForm::Dotted;
  }
  /// Whether the node is written as one piece: a value, an array, or a table in braces.
  [[nodiscard]] bool isOnePiece(const toml::node& node) const {
    if (const auto* table = node.as_table()) return formOf(*table) == TableForm::Inline;
    const auto* array = node.as_array();
    const bool of_tables = array != nullptr && !array->empty() && array->front().is_table();
    return !of_tables || formOf(*array->front().as_table()) == TableForm::Inline;
  }

  /// Whole lines from the key to the end of its value. For a node in one piece.
  [[nodiscard]] Span linesOf(const toml::node& node) const {
    const Span span = spanOf(node);  // it ends past the value, maybe on the next line
    return {lines_.lineStart(span.from), lines_.lineEnd(std::max(span.from, span.to - 1))};
  }

  /// Values in one piece in a table and the tables in it; `with_headers` false: not those under another header.
  [[nodiscard]] std::vector<const toml::node*> valuesIn(const toml::table& table, bool with_headers) const {
    Found found;
    for (const auto& [key, node] : table) collect(node, with_headers, found);
    std::sort(found.values.begin(), found.values.end(),
              [this](const auto* a, const auto* b) { return spanOf(*a).from < spanOf(*b).from; });
    return std::move(found.values);
  }
  /// First bytes of the headers in a table, its own too, in the order of the text.
  [[nodiscard]] std::vector<std::size_t> headersIn(const toml::table& table) const {
    Found found;
    collect(table, true, found);
    std::sort(found.headers.begin(), found.headers.end());
    found.headers.erase(std::unique(found.headers.begin(), found.headers.end()), found.headers.end());
    return std::move(found.headers);
  }

  /// From the header's line to past the last line that goes with it.
  [[nodiscard]] Span sectionAt(std::size_t header) const {
    const auto next = std::upper_bound(headers_.begin(), headers_.end(), header);
    const std::size_t limit = next == headers_.end() ? lines_.text().size() : *next;
    const auto past = std::lower_bound(values_.begin(), values_.end(), limit,
                                       [](Span value, std::size_t at) { return value.from < at; });
    const bool has_values = past != values_.begin() && (past - 1)->from > header;
    std::size_t end = lines_.lineEnd(has_values ? (past - 1)->to - 1 : header);
    // Comments right below go with the section, unless they stand on top of the next header.
    std::size_t below = end;
    while (lines_.isComment(below)) below = lines_.lineEnd(below);
    if (below == lines_.text().size() || lines_.isBlank(below)) end = below;
    return {lines_.lineStart(header), end};
  }
  /// Past the last section of a table that has headers; 0 where it has none.
  [[nodiscard]] std::size_t endOf(const toml::table& table) const {
    std::size_t end = 0;
    for (const std::size_t header : headersIn(table)) end = std::max(end, sectionAt(header).to);
    return end;
  }

 private:
  struct Found {
    std::vector<std::size_t> headers;
    std::vector<const toml::node*> values;
  };

  void collect(const toml::node& node, bool with_headers, Found& found) const {
    if (isOnePiece(node)) return found.values.push_back(&node);
    if (const auto* array = node.as_array()) {
      for (std::size_t i = 0; with_headers && i < array->size(); ++i) collect((*array)[i], with_headers, found);
      return;
    }
    const auto& table = *node.as_table();
    const bool has_header = formOf(table) == TableForm::Header;
    if (has_header && !with_headers) return;
    if (has_header) found.headers.push_back(spanOf(table).from);
    for (const auto& [key, inner] : table) collect(inner, with_headers, found);
  }

  const TextLines& lines_;
  std::vector<std::size_t> headers_;
  std::vector<Span> values_;
};

}  // namespace sillwright::job
