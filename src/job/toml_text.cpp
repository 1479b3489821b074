#include "job/toml_table.h"

#include <algorithm>

#include "base/words.h"

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

/// Whether as many points as in a key that is too deep stand on one line: hardly any file is looked at closely.
bool mayHaveDeepKey(std::string_view text) {
  int points = 1;
  for (std::size_t at = text.find('.'), next = 0; at != std::string_view::npos; at = next) {
    next = text.find('.', at + 1);
    points = text.substr(at, next - at).find('\n') == std::string_view::npos ? points + 1 : 1;
    if (points >= kMostKeyParts) return true;
  }
  return false;
}

/// The first byte too deep in a dotted key.
std::optional<std::size_t> findDeepKey(std::string_view text) {
  if (!mayHaveDeepKey(text)) return std::nullopt;
  int parts = 1;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '"' || c == '\'') {
      i = skipString(text, i) - 1;  // the loop goes on by one
    } else if (c == '#') {
      i = std::min(text.find('\n', i), text.size()) - 1;
    } else if (c == '.') {
      if (++parts > kMostKeyParts) return i;
    } else if (c == '\n' || c == '=' || c == ',' || c == '[' || c == ']' || c == '{' || c == '}') {
      parts = 1;
    }
  }
  return std::nullopt;
}

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

}  // namespace sillwright::job
