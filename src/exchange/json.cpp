#include "exchange/json.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

#include "job/utf8.h"

namespace sillwright::exchange {
namespace {

/// JSON is UTF-8; a file's name need not be. Its other bytes become U+FFFD, as the Unicode Standard has it.
std::string repaired(std::string_view text) {
  std::string good;
  while (!text.empty()) {
    const auto size = job::utf8Size(text);
    good += size > 0 ? text.substr(0, size) : "\xEF\xBF\xBD";
    text.remove_prefix(std::max<std::size_t>(size, 1));
  }
  return good;
}

void appendEscaped(std::string& out, std::string_view text) {
  static constexpr char kHex[] = "0123456789abcdef";
  if (job::notUtf8(text) != std::string_view::npos) return appendEscaped(out, repaired(text));
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    switch (c) {
      case '"':
        out += "\\\"";
        break;
      case '\\':
        out += "\\\\";
        break;
      case '\n':
        out += "\\n";
        break;
      case '\t':
        out += "\\t";
        break;
      case '\r':
        out += "\\r";
        break;
      default:
        if (byte < 0x20) {
          out += "\\u00";
          out += kHex[byte >> 4];
          out += kHex[byte & 15];
        } else {
          out += c;
        }
    }
  }
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
  appendEscaped(out_, name);
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
  if (number == 0) number = 0;  // negative zero prints as -0, which says nothing to a person
  std::array<char, 32> buffer{};
  const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number);
  out_.append(buffer.data(), result.ptr);
  return *this;
}

JsonWriter& JsonWriter::value(std::int64_t number) {
  separate();
  std::array<char, 24> buffer{};
  const auto result = std::to_chars(buffer.data(), buffer.data() + buffer.size(), number);
  out_.append(buffer.data(), result.ptr);
  return *this;
}

JsonWriter& JsonWriter::value(bool truth) {
  separate();
  out_ += truth ? "true" : "false";
  return *this;
}

JsonWriter& JsonWriter::newLine() {
  if (!first_) {
    out_ += ',';
    first_ = true;
  }
  out_ += '\n';
  return *this;
}

}  // namespace sillwright::exchange
