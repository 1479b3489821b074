#include "exchange/json.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstring>

#include "base/words.h"

namespace sillwright::exchange {
namespace {

/// The quick one of the string's functions that do so.
void append(std::string& out, const char* begin, const char* end) {
  out.append(begin, static_cast<std::size_t>(end - begin));
}

/// Whether it can't stand in a string as it is.
bool wantsEscape(char c) { return static_cast<unsigned char>(c) < 0x20 || c == '"' || c == '\\'; }

void appendEscape(std::string& out, char c) {
  static constexpr std::string_view kShort = "\"\"\\\\\nn\tt\rr";  // characters, each with its letter
  static constexpr char kHex[] = "0123456789abcdef";
  const auto byte = static_cast<unsigned char>(c);
  if (const auto at = kShort.find(c); at != std::string_view::npos)
    out.append({'\\', kShort[at + 1]});
  else
    out.append("\\u00").append({kHex[byte >> 4], kHex[byte & 15]});  // only what is below 0x20 comes here
}

/// JSON is UTF-8; a file's name need not be. Its other bytes become U+FFFD, as the Unicode Standard has it.
std::string repaired(std::string_view text) {
  std::string good;
  while (!text.empty()) {
    const auto size = base::utf8Size(text);
    good += size > 0 ? text.substr(0, size) : "\xEF\xBF\xBD";
    text.remove_prefix(std::max<std::size_t>(size, 1));
  }
  return good;
}

/// Whether eight bytes are ASCII that needs no escape. A byte's high bit is set in the sum where it is below 0x20, or
/// is a quote or a backslash; in those above it a borrow may set one too, which then changes nothing.
bool arePlain(const char* eight) {
  constexpr std::uint64_t kEach = ~std::uint64_t{0} / 255;  // a 1 in each byte
  std::uint64_t bytes = 0;
  std::memcpy(&bytes, eight, sizeof bytes);  // the order of bytes doesn't matter: all are asked alike
  const auto equal = [&](std::uint64_t to) { return (bytes ^ kEach * to) - kEach; };
  return ((bytes | (bytes - kEach * 0x20) | equal('"') | equal('\\')) & kEach * 0x80) == 0;
}

/// Stretches that need no escape are copied whole: most texts are one.
void appendEscaped(std::string& out, std::string_view text) {  // only what isn't ASCII can be no UTF-8
  const auto isPlain = [](char c) { return !wantsEscape(c) && static_cast<unsigned char>(c) < 0x80; };
  const char* from = text.data();
  const char* const end = from + text.size();
  while (end - from >= 8 && arePlain(from)) from += 8;  // most of most texts goes this way
  from = std::find_if_not(from, end, isPlain);
  if (from != end && base::notUtf8(text) != std::string_view::npos) return appendEscaped(out, repaired(text));
  append(out, text.data(), from);
  while (from != end) {
    const char* const stop = std::find_if(from, end, wantsEscape);
    append(out, from, stop);
    if (stop == end) return;
    appendEscape(out, *stop);
    from = stop + 1;
  }
}

constexpr std::uint32_t kParts = 10'000;  // what reports are rounded to

/// So many parts of one as std::to_chars writes their quotient, in a third of the time. Answers the end.
char* writeParts(char* at, std::uint32_t parts) {
  constexpr std::size_t kPlaces = 4, kMostDigits = 10;  // decimals of kParts; digits of 32 bits
  at = std::to_chars(at, at + kMostDigits, parts / kParts).ptr;
  parts %= kParts;
  if (parts == 0) return at;  // a whole number has no point
  *at = '.';
  for (std::size_t place = kPlaces; place > 0; --place, parts /= 10) at[place] = static_cast<char>('0' + parts % 10);
  at += kPlaces;
  while (*at == '0') --at;  // it stops behind the point, for parts isn't 0
  return at + 1;
}

}  // namespace

void JsonWriter::separate() {
  if (!first_) out_ += ',';
  first_ = false;
}

JsonWriter& JsonWriter::begin(char bracket) {
  separate();
  out_ += bracket;
  first_ = true;
  return *this;
}

JsonWriter& JsonWriter::end(char bracket) {
  out_ += bracket;
  first_ = false;
  return *this;
}

JsonWriter& JsonWriter::key(std::string_view name) {
  out_.append(first_ ? "\"" : ",\"").append(name).append("\":");
  first_ = true;  // the value that follows takes no comma
  return *this;
}

JsonWriter& JsonWriter::value(std::string_view text) {
  separate();
  out_ += '"';
  appendEscaped(out_, text);
  out_ += '"';
  return *this;
}

JsonWriter& JsonWriter::value(double number) {
  std::array<char, 40> room;  // a comma, and at most 24 characters of a number
  char* begin = room.data();
  if (!first_) *begin++ = ',';
  char* const end = room.data() + room.size();
  first_ = false;
  const double parts = std::round(number * parts_);
  if (!std::isfinite(number)) {
    append(out_, room.data(), std::copy_n("null", 4, begin));
  } else if (parts_ == kParts && std::abs(parts) >= 10 && std::abs(parts) < 1e9) {  // no exponent is shorter there
    if (parts < 0) *begin++ = '-';
    append(out_, room.data(), writeParts(begin, static_cast<std::uint32_t>(std::abs(parts))));
  } else {  // many are shorter with an exponent; and a negative zero says nothing to a person
    if (parts_ > 0) number = parts / parts_;  // at 0 nothing is rounded
    append(out_, room.data(), std::to_chars(begin, end, number == 0 ? 0.0 : number).ptr);
  }
  return *this;
}

JsonWriter& JsonWriter::value(std::int64_t number) {
  separate();
  out_ += std::to_string(number);
  return *this;
}

JsonWriter& JsonWriter::value(bool truth) {
  separate();
  out_ += truth ? "true" : "false";
  return *this;
}

JsonWriter& JsonWriter::newLine() {
  separate();
  first_ = true;  // what stands on the line takes no comma before it
  out_ += '\n';
  return *this;
}

}  // namespace sillwright::exchange
