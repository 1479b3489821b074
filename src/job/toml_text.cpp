#include "job/toml_text.h"

#include <algorithm>
#include <cstdint>
#include <optional>

#include "base/words.h"
#include "job/toml_table.h"

namespace sillwright::job {

namespace {

constexpr int kMostKeyParts = 16;  // see parseToml: a deeper tree could overflow the stack

/// Past the string that starts at `i`. Where a string is broken the parser stops there, so what comes after is moot.
std::size_t skipString(std::string_view text, std::size_t i) {
  const char mark = text[i];
  const std::string_view fence = mark == '"' ? "\"\"\"" : "'''";
  const bool multi_line = text.substr(i, 3) == fence;
  i += multi_line ? 3 : 1;
  while (i < text.size()) {
    if (text[i] == '\\' && mark == '"') {
      i += 2;
    } else if (multi_line && text.substr(i, 3) == fence) {
      i += 3;
      for (int extra = 0; extra < 2 && i < text.size() && text[i] == mark; ++extra) ++i;  // quotes that end the string
      return i;
    } else if (!multi_line && (text[i] == mark || text[i] == '\n')) {
      return i + 1;
    } else {
      ++i;
    }
  }
  return text.size();
}

/// The first byte too deep in a dotted key.
std::optional<std::size_t> findDeepKey(std::string_view text) {
  int parts = 1;
  for (std::size_t i = 0; i < text.size(); ++i) {
    switch (text[i]) {
      case '"':
      case '\'':
        i = skipString(text, i) - 1;  // the loop goes on by one
        break;
      case '#':
        i = std::min(text.find('\n', i), text.size()) - 1;
        break;
      case '.':
        if (++parts > kMostKeyParts) return i;
        break;
      case '\n':
      case '=':
      case ',':
      case '[':
      case ']':
      case '{':
      case '}':
        parts = 1;
        break;
      default:
        break;
    }
  }
  return std::nullopt;
}

bool isContinuation(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

/// The parser's sentence in ours: "Error while parsing boolean: expected 'true', saw 'tru\n'" and the like, without
/// raw line ends and without the names of the parser's own macros.
std::string inOurWords(std::string_view description) {
  constexpr std::string_view kError = "Error ";
  if (description.starts_with(kError)) description.remove_prefix(kError.size());
  description = description.substr(0, description.find(" (TOML_"));
  return "not valid TOML: " + base::oneLine(description, 300);  // the parser quotes values, however long
}

}  // namespace

std::variant<toml::table, SyntaxFault> parseToml(std::string_view text) {
  if (const auto at = base::notUtf8(text); at != std::string_view::npos) {
    return SyntaxFault{base::placeIn(text, at), "not UTF-8: this byte belongs to no character"};
  }
  if (const auto at = findDeepKey(text)) {
    return SyntaxFault{base::placeIn(text, *at), "a key of more than 16 dotted parts"};
  }
  try {
    return toml::parse(text);
  } catch (const toml::parse_error& error) {
    const auto begin = error.source().begin;
    return SyntaxFault{{begin.line, begin.column}, inOurWords(error.description())};
  }
}

TomlLayout::TomlLayout(const TextLines& lines, const toml::table& root) : lines_(lines), headers_(headersIn(root)) {
  for (const auto* value : valuesIn(root, true)) values_.push_back(spanOf(*value));
}

Span TomlLayout::spanOf(const toml::node& node) const {
  const auto end = node.source().end;
  return {lines_.offsetOf(placeOf(node)), lines_.offsetOf({end.line, end.column})};
}

std::string_view TomlLayout::textOf(const toml::node& node) const {
  const Span span = spanOf(node);
  return lines_.text().substr(span.from, span.to - span.from);
}

TableForm TomlLayout::formOf(const toml::table& table) const {
  const std::size_t at = lines_.offsetOf(placeOf(table));
  const char first = at < lines_.text().size() ? lines_.text()[at] : ' ';
  if (first == '[') return TableForm::Header;
  return first == '{' ? TableForm::Inline : TableForm::Dotted;
}

bool TomlLayout::isOnePiece(const toml::node& node) const {
  if (const auto* table = node.as_table()) return formOf(*table) == TableForm::Inline;
  const auto* array = node.as_array();
  const bool of_tables = array != nullptr && !array->empty() && array->front().is_table();
  return !of_tables || formOf(*array->front().as_table()) == TableForm::Inline;
}

void TomlLayout::collect(const toml::node& node, bool with_headers, std::vector<std::size_t>* headers,
                         std::vector<const toml::node*>* values) const {
  if (isOnePiece(node)) {
    if (values != nullptr) values->push_back(&node);
    return;
  }
  if (const auto* array = node.as_array()) {
    if (!with_headers) return;
    for (const auto& element : *array) collect(element, with_headers, headers, values);
    return;
  }
  const auto& table = *node.as_table();
  if (formOf(table) == TableForm::Header) {
    if (!with_headers) return;
    if (headers != nullptr) headers->push_back(spanOf(table).from);
  }
  for (const auto& [key, inner] : table) collect(inner, with_headers, headers, values);
}

Span TomlLayout::linesOf(const toml::node& node) const {
  const Span span = spanOf(node);  // it ends past the value, maybe on the next line
  return {lines_.lineStart(span.from), lines_.lineEnd(std::max(span.from, span.to - 1))};
}

std::vector<const toml::node*> TomlLayout::valuesIn(const toml::table& table, bool with_headers) const {
  std::vector<const toml::node*> values;
  for (const auto& [key, node] : table) collect(node, with_headers, nullptr, &values);
  std::sort(values.begin(), values.end(),
            [this](const auto* a, const auto* b) { return spanOf(*a).from < spanOf(*b).from; });
  return values;
}

std::vector<std::size_t> TomlLayout::headersIn(const toml::table& table) const {
  std::vector<std::size_t> headers;
  collect(table, true, &headers, nullptr);
  std::sort(headers.begin(), headers.end());
  headers.erase(std::unique(headers.begin(), headers.end()), headers.end());
  return headers;
}

Span TomlLayout::sectionAt(std::size_t header) const {
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

std::size_t TomlLayout::endOf(const toml::table& table) const {
  std::size_t end = 0;
  for (const std::size_t header : headersIn(table)) end = std::max(end, sectionAt(header).to);
  return end;
}

TextLines::TextLines(std::string_view text) : text_(text), starts_{text.starts_with(base::kByteOrderMark) ? 3U : 0U} {
  for (std::size_t i = text.find('\n'); i != std::string_view::npos; i = text.find('\n', i + 1)) {
    starts_.push_back(i + 1);
  }
}

std::size_t TextLines::offsetOf(base::Place place) const {
  if (place.line == 0 || place.line > starts_.size()) return text_.size();
  std::size_t at = starts_[place.line - 1];
  for (std::uint32_t column = 1; column < place.column && at < text_.size(); ++column) {
    ++at;
    while (at < text_.size() && isContinuation(text_[at])) ++at;
  }
  return at;
}

std::size_t TextLines::lineStart(std::size_t offset) const {
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  return after == starts_.begin() ? starts_.front() : *(after - 1);
}

std::size_t TextLines::lineEnd(std::size_t offset) const {
  const auto after = std::upper_bound(starts_.begin(), starts_.end(), offset);
  return after == starts_.end() ? text_.size() : *after;
}

std::string_view TextLines::line(std::size_t offset) const {
  const std::size_t start = lineStart(offset);
  auto line = text_.substr(start, lineEnd(offset) - start);
  if (line.ends_with('\n')) line.remove_suffix(1);
  if (line.ends_with('\r')) line.remove_suffix(1);
  return line;
}

std::string_view TextLines::ending() const {
  const std::size_t end = text_.find('\n');
  return end != std::string_view::npos && end > 0 && text_[end - 1] == '\r' ? "\r\n" : "\n";
}

bool TextLines::isBlank(std::size_t offset) const {
  return offset < text_.size() && line(offset).find_first_not_of(" \t") == std::string_view::npos;
}

bool TextLines::isComment(std::size_t offset) const {
  if (offset >= text_.size() || isBlank(offset)) return false;
  return line(offset)[line(offset).find_first_not_of(" \t")] == '#';
}

}  // namespace sillwright::job
