#include "base/utf8.h"

#include <cstdint>
#include <cstring>

namespace sillwright::base {
namespace {

/// Whether the 8 bytes at `i` are all ASCII: most of a job file is, and big ones are walked faster so.
bool isAsciiBlock(std::string_view text, std::size_t i) {
  std::uint64_t block = 0;
  if (text.size() - i < sizeof block) return false;
  std::memcpy(&block, text.data() + i, sizeof block);
  return (block & 0x8080808080808080U) == 0;
}

}  // namespace

std::size_t utf8Size(std::string_view text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  const auto within = [&](std::size_t i, unsigned from, unsigned to) { return byte(i) >= from && byte(i) <= to; };
  const auto tail = [&](std::size_t i) { return within(i, 0x80, 0xBF); };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return tail(1) ? 2 : 0;
  if (first >= 0xE0 && first <= 0xEF) {
    const unsigned from = first == 0xE0 ? 0xA0 : 0x80;
    const unsigned to = first == 0xED ? 0x9F : 0xBF;
    return within(1, from, to) && tail(2) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const unsigned from = first == 0xF0 ? 0x90 : 0x80;
    const unsigned to = first == 0xF4 ? 0x8F : 0xBF;
    return within(1, from, to) && tail(2) && tail(3) ? 4 : 0;
  }
  return 0;
}

std::size_t notUtf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    if (isAsciiBlock(text, i)) {
      i += sizeof(std::uint64_t);
      continue;
    }
    const auto size = utf8Size(text.substr(i, 4));
    if (size == 0) return i;
    i += size;
  }
  return std::string_view::npos;
}

char32_t codePoint(std::string_view text) {
  constexpr char32_t kFirstBits[]{0, 0x7F, 0x1F, 0x0F, 0x07};
  const std::size_t size = text.empty() ? 0 : utf8Size(text);
  if (size == 0) return U'?';
  char32_t code = static_cast<unsigned char>(text[0]) & kFirstBits[size];
  for (const char c : text.substr(1, size - 1)) code = code << 6U | (static_cast<unsigned char>(c) & 0x3FU);
  return code;
}

void appendUtf8(std::string& text, char32_t code) {
  const auto put = [&](char32_t byte) { text += static_cast<char>(static_cast<unsigned char>(byte)); };
  if (code < 0x80) return put(code);
  if (code < 0x800) {
    put(0xC0U | code >> 6U);
  } else if (code < 0x10000) {
    put(0xE0U | code >> 12U);
    put(0x80U | (code >> 6U & 0x3FU));
  } else {
    put(0xF0U | code >> 18U);
    put(0x80U | (code >> 12U & 0x3FU));
    put(0x80U | (code >> 6U & 0x3FU));
  }
  put(0x80U | (code & 0x3FU));
}

}  // namespace sillwright::base
