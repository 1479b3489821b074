#include "job/toml_text.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

#include "base/utf8.h"
#include "base/words.h"

namespace sillwright::job {
namespace {

constexpr int kMostKeyParts = 16;

struct BadByte {
  std::size_t offset = 0;
  const char* say = "";
};

std::optional<BadByte> findBadEncoding(std::string_view text) {
  const auto at = base::notUtf8(text);
  if (at == std::string_view::npos) return std::nullopt;
  return BadByte{at, "not UTF-8: this byte belongs to no character"};
}

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

/// What a byte outside strings and comments is to a dotted key.
enum class Mark : std::uint8_t { Part, Dot, End, Quote, Comment };

constexpr auto kMarks = [] {
  std::array<Mark, 256> marks{};
  for (const char end : {'\n', '=', ',', '[', ']', '{', '}'}) marks[static_cast<unsigned char>(end)] = Mark::End;
  marks['.'] = Mark::Dot;
  marks['"'] = marks['\''] = Mark::Quote;
  marks['#'] = Mark::Comment;
  return marks;
}();

std::optional<BadByte> findDeepKey(std::string_view text) {
  int parts = 1;
  for (std::size_t i = 0; i < text.size();) {
    switch (kMarks[static_cast<unsigned char>(text[i])]) {
      case Mark::Quote:
        i = skipString(text, i);
        continue;
      case Mark::Comment:
        i = std::min(text.find('\n', i), text.size());
        continue;
      case Mark::Dot:
        if (++parts > kMostKeyParts) return BadByte{i, "a key of more than 16 dotted parts"};
        break;
      case Mark::End:
        parts = 1;
        break;
      case Mark::Part:
        break;
    }
    ++i;
  }
  return std::nullopt;
}

/// The parser's sentence in ours: "Error while parsing boolean: expected 'true', saw 'tru\n'" and the like, without
/// raw line ends and without the names of the parser's own macros.
std::string inOurWords(std::string_view description) {
  constexpr std::string_view kError = "Error ";
  if (description.starts_with(kError)) description.remove_prefix(kError.size());
  description = description.substr(0, description.find(" (TOML_"));
  return "not valid TOML: " + base::oneLine(description, 300);
}

}  // namespace

std::variant<toml::table, SyntaxFault> parseToml(std::string_view text) {
  for (const auto find : {findBadEncoding, findDeepKey}) {
    if (const auto bad = find(text)) return SyntaxFault{base::placeIn(text, bad->offset), bad->say};
  }
  try {
    return toml::parse(text);
  } catch (const toml::parse_error& error) {
    const auto begin = error.source().begin;
    return SyntaxFault{{begin.line, begin.column}, inOurWords(error.description())};
  }
}

}  // namespace sillwright::job
