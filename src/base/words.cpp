#include "base/words.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>

namespace sillwright::base {

namespace {

constexpr std::size_t kMostSlips = 3;
constexpr std::size_t kLongestCompared = 64;  // bytes: rows of a fixed size need no heap; a longer word gets no hint

bool isContinuation(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

/// Bytes of the character that starts here.
std::size_t characterSize(std::string_view text) {
  std::size_t size = 1;
  while (size < text.size() && isContinuation(text[size])) ++size;
  return size;
}

bool isControl(std::string_view character) {
  const auto first = static_cast<unsigned char>(character[0]);
  if (first < 0x20 || first == 0x7F) return true;                                                      // C0 and DEL
  if (first == 0xC2 && character.size() == 2) return static_cast<unsigned char>(character[1]) < 0xA0;  // C1
  return character == "\u2028" || character == "\u2029" || character == "\uFFFE" || character == "\uFFFF";
}

/// The embeddings, overrides and isolates U+202A–U+202E and U+2066–U+2069: a name that holds one could turn what stands
/// after it on the line.
bool turnsReading(std::string_view character) {
  if (character.size() != 3) return false;
  return (character >= "\u202A" && character <= "\u202E") || (character >= "\u2066" && character <= "\u2069");
}

std::string escaped(std::string_view character) {
  if (character == "\n") return "\\n";
  if (character == "\r") return "\\r";
  if (character == "\t") return "\\t";
  std::string text;
  for (const char byte : character) {
    constexpr const char* kDigits = "0123456789ABCDEF";
    const auto value = static_cast<unsigned char>(byte);
    text += {'\\', 'x', kDigits[value >> 4U], kDigits[value & 0xFU]};
  }
  return text;
}

/// Takes the next character off the text, as it is shown.
std::string takeShown(std::string_view& text) {
  const auto size = utf8Size(text);
  const auto character = text.substr(0, std::max<std::size_t>(size, 1));
  text.remove_prefix(character.size());
  return size == 0 || isControl(character) || turnsReading(character) ? escaped(character) : std::string(character);
}

char folded(char letter) {
  if (letter >= 'A' && letter <= 'Z') return static_cast<char>(letter - 'A' + 'a');
  return letter == '-' || letter == ' ' ? '_' : letter;
}

/// Optimal string alignment distance (Damerau and Levenshtein's four slips, no piece edited twice), by rows.
std::size_t slips(std::string_view a, std::string_view b) {
  std::array<std::array<std::size_t, kLongestCompared + 1>, 3> rows{};
  for (std::size_t j = 0; j <= b.size(); ++j) rows[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    auto& row = rows[i % 3];
    const auto& above = rows[(i + 2) % 3];        // row i - 1
    const auto& twice_above = rows[(i + 1) % 3];  // row i - 2: a swap reaches back so far
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t changed = folded(a[i - 1]) == folded(b[j - 1]) ? 0 : 1;
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + changed});
      const bool swapped =
          i > 1 && j > 1 && folded(a[i - 1]) == folded(b[j - 2]) && folded(a[i - 2]) == folded(b[j - 1]);
      if (swapped) row[j] = std::min(row[j], twice_above[j - 2] + 1);
    }
  }
  return rows[a.size() % 3][b.size()];
}

/// Whether the 8 bytes at `i` are all ASCII: most of a job file is, and big ones are walked faster so.
bool isAsciiBlock(std::string_view text, std::size_t i) {
  std::uint64_t block = 0;
  if (text.size() - i < sizeof block) return false;
  std::memcpy(&block, text.data() + i, sizeof block);  // the text may begin at any address
  return (block & 0x8080808080808080U) == 0;
}

}  // namespace

std::string oneLine(std::string_view text, std::size_t most) {
  std::string line;
  for (std::size_t count = 0; !text.empty(); ++count) {
    if (count == most) return line + "…";
    line += takeShown(text);
  }
  return line;
}

std::string printable(std::string_view text) {
  std::string shown;
  shown.reserve(text.size());
  while (!text.empty()) {
    const bool ends_line = text.front() == '\n';
    const std::string next = takeShown(text);
    shown += ends_line ? "\n" : next;
  }
  return shown;
}

std::string_view shortened(std::string_view text, std::size_t most) {
  if (text.size() <= most) return text;
  while (most > 0 && isContinuation(text[most])) --most;
  return text.substr(0, most);
}

std::string quote(std::string_view text) { return "\"" + oneLine(text) + "\""; }

std::size_t countCharacters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) { return !isContinuation(c); }));
}

Place placeIn(std::string_view text, std::size_t offset) {
  auto before = text.substr(0, offset);
  if (before.starts_with(kByteOrderMark)) before.remove_prefix(kByteOrderMark.size());
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  const auto line_start = before.rfind('\n') + 1;  // npos + 1 is 0: the first line
  return {static_cast<std::uint32_t>(line), static_cast<std::uint32_t>(1 + countCharacters(before.substr(line_start)))};
}

bool holdsControls(std::string_view text) {
  while (!text.empty()) {
    const auto character = text.substr(0, characterSize(text));
    if (isControl(character)) return true;
    text.remove_prefix(character.size());
  }
  return false;
}

std::string_view nearest(std::string_view name, std::span<const std::string_view> known) {
  std::string_view best;
  std::size_t fewest = std::clamp<std::size_t>(name.size() / 3, 1, kMostSlips) + 1;  // one more than may be
  for (const auto candidate : known) {
    const auto longer = std::max(name.size(), candidate.size());
    const auto shorter = std::min(name.size(), candidate.size());
    if (longer > kLongestCompared || longer - shorter >= fewest) continue;  // each letter more is a slip at least
    const auto distance = slips(name, candidate);
    if (distance >= fewest) continue;  // of equally near names the first stands
    fewest = distance;
    best = candidate;
  }
  return best;
}

std::size_t utf8Size(std::string_view text) {
  const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U; };
  const auto within = [&](std::size_t i, unsigned from, unsigned to) { return byte(i) >= from && byte(i) <= to; };
  const auto tail = [&](std::size_t i) { return within(i, 0x80, 0xBF); };
  const unsigned first = byte(0);
  if (first < 0x80) return 1;
  if (first >= 0xC2 && first <= 0xDF) return tail(1) ? 2 : 0;  // C0 and C1 would spell ASCII in two bytes
  if (first >= 0xE0 && first <= 0xEF) {
    const unsigned from = first == 0xE0 ? 0xA0 : 0x80;  // lower ones have a form of two bytes
    const unsigned to = first == 0xED ? 0x9F : 0xBF;    // higher ones are half surrogates
    return within(1, from, to) && tail(2) ? 3 : 0;
  }
  if (first >= 0xF0 && first <= 0xF4) {
    const unsigned from = first == 0xF0 ? 0x90 : 0x80;  // lower ones have a form of three bytes
    const unsigned to = first == 0xF4 ? 0x8F : 0xBF;    // higher ones lie past U+10FFFF
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
    const auto size = utf8Size(text.substr(i, 4));  // no character is longer
    if (size == 0) return i;
    i += size;
  }
  return std::string_view::npos;
}

char32_t codePoint(std::string_view text) {
  constexpr char32_t kFirstBits[]{0, 0x7F, 0x1F, 0x0F, 0x07};  // of a first byte, by the character's size
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
