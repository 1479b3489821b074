/// Words in messages: names in quotes that can't spoil a line, and the nearest of the names that exist.
#pragma once

#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <string_view>

#include "base/error.h"

namespace sillwright::base {

/// The text on one line: control characters, those that turn the direction of reading, and bytes that are no UTF-8 are
/// written as escapes, and what is longer than `most` characters is cut off with "…".
[[nodiscard]] std::string oneLine(std::string_view text, std::size_t most = 60);

/// The text for a terminal: as oneLine, but of any length, and line ends stay.
[[nodiscard]] std::string printable(std::string_view text);

/// As much of the text as `most` bytes hold, no character cut apart.
[[nodiscard]] std::string_view shortened(std::string_view text, std::size_t most);

/// oneLine in double quotes.
[[nodiscard]] std::string quote(std::string_view text);

/// Number of characters (code points) of UTF-8 text.
[[nodiscard]] std::size_t countCharacters(std::string_view text);

/// Where a byte of a text is in it; a byte order mark is no character.
[[nodiscard]] Place placeIn(std::string_view text, std::size_t offset);

/// Whether the text holds a character that moves or ends a line, or can't be printed: C0, DEL, C1 (U+0080–U+009F),
/// the line separators U+2028 and U+2029, and U+FFFE and U+FFFF, which no XML may hold.
[[nodiscard]] bool holdsControls(std::string_view text);

/// The texts one after the other with `between` between them; `textOf` gives the text of an element.
template <class Range, class TextOf = std::identity>
[[nodiscard]] std::string joined(const Range& all, std::string_view between = ", ", TextOf textOf = {}) {
  std::string text;
  bool first = true;
  for (const auto& each : all) {
    if (!first) text += between;
    text += std::invoke(textOf, each);
    first = false;
  }
  return text;
}

/// The known name that a person most likely meant, or an empty view where none is close.
///
/// Close is at most 3 slips, and at most a third of the name (one slip always passes). A slip is a letter left out,
/// put in, changed, or swapped with the next one. Capitals don't count, and `-` and blank are taken for `_`.
[[nodiscard]] std::string_view nearest(std::string_view name, std::span<const std::string_view> known);

// UTF-8 as the Unicode Standard has it (version 15, table 3-7): no overlong forms, no half surrogates.

/// May stand at a text's begin and is no part of it.
inline constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

/// Bytes of the character that the text starts with, 1 to 4; 0 where its first byte belongs to no character.
[[nodiscard]] std::size_t utf8Size(std::string_view text);

/// Offset of the first byte that belongs to no character; npos: all do.
[[nodiscard]] std::size_t notUtf8(std::string_view text);

/// The character that the text starts with; "?" where there is none.
[[nodiscard]] char32_t codePoint(std::string_view text);

/// `code`: a code point, no half of a pair.
void appendUtf8(std::string& text, char32_t code);

}  // namespace sillwright::base
