#include "exchange/json.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>

#include "base/words.h"

namespace sillwright::exchange {
namespace {

/// Whether it can't stand in a string as it is.
bool wantsEscape(char c) { return static_cast<unsigned char>(c) < 0x20 || c == '"' || c == '\\'; }

void appendEscape(std::string& out, char c) {
  static constexpr std::string_view kShort = "\"\"\\\\\nn\tt\rr";  // characters, each with its letter
  static constexpr char kHex[] = "0123456789abcdef";
  const auto byte = static_cast<unsigned char>(c);
  if (const auto at = kShort.find(c); at != std::string_view::npos)
    out.append({'\\', kShort[at + 1]});
  else
    out.append("\\u00").append({kHex[byte >> 4], kHex[byte & 15]});
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

/// Stretches that need no escape are copied whole: most texts are one.
void appendEscaped(std::string& out, std::string_view text) {
  const auto isPlain = [](char c) { return !wantsEscape(c) && static_cast<unsigned char>(c) < 0x80; };
  auto from = std::find_if_not(text.begin(), text.end(), isPlain);
  if (from != text.end() && base::notUtf8(text) != std::string_view::npos) return appendEscaped(out, repaired(text));
  out.append(text.begin(), from);
  while (from != text.end()) {
    const auto stop = std::find_if(from, text.end(), wantsEscape);
    out.append(from, stop);
    if (stop == text.end()) return;
    appendEscape(out, *stop);
    from = stop + 1;
  }
}

constexpr std::int64_t kParts = 10'000;

/// So many parts of one as std::to_chars writes their quotient, in a third of the time.
void appendParts(std::string& out, std::int64_t parts) {
  std::array<char, 24> room{};
  char* at = room.data();
  if (parts < 0) *at++ = '-';
  parts = std::abs(parts);
  at = std::to_chars(at, room.data() + room.size(), parts / kParts).ptr;
  if ((parts %= kParts) > 0) *at++ = '.';
  for (std::int64_t place = kParts / 10; parts > 0; parts %= place, place /= 10)
    *at++ = static_cast<char>('0' + parts / place);
  out.append(room.data(), static_cast<std::size_t>(at - room.data()));
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
  separate();
  out_ += '"';
  out_ += name;
  out_ += "\":";
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
  separate();
  if (!std::isfinite(number)) {
    out_ += "null";
    return *this;
  }
  if (parts_ > 0) {
    const double parts = std::round(number * parts_);
    // Others are shorter with an exponent.
    if (parts_ == kParts && std::abs(parts) >= 10 && std::abs(parts) < 1e9) {
      appendParts(out_, static_cast<std::int64_t>(parts));
      return *this;
    }
    number = parts / parts_;
  }
  if (number == 0) number = 0;  // negative zero prints as -0, which says nothing to a person
  std::array<char, 32> buffer{};
  const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number);
  out_.append(buffer.data(), static_cast<std::size_t>(result.ptr - buffer.data()));
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
