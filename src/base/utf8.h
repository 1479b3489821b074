/// UTF-8 as the Unicode Standard has it (version 15, table 3-7): no overlong forms, no half surrogates.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace sillwright::base {

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
