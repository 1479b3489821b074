#include "exchange/step/step_writer.h"

#include <array>
#include <charconv>
#include <cmath>

#include "base/utf8.h"
#include "base/words.h"

namespace sillwright::exchange {
namespace {

void appendHex(std::string& out, char32_t code, unsigned figures) {
  for (unsigned i = figures; i-- > 0;) out += "0123456789ABCDEF"[code >> (4 * i) & 15U];
}

}  // namespace

std::string stepText(std::string_view utf8) {
  std::string out = "'";
  while (!utf8.empty()) {
    const std::size_t size = base::utf8Size(utf8);
    const char32_t code = base::codePoint(utf8);
    const bool wide = code > 0xFFFF;
    if (code >= 0x20 && code < 0x7F) {
      out += static_cast<char>(code);
      if (code == U'\'' || code == U'\\') out += static_cast<char>(code);
    } else {
      out += wide ? "\\X4\\" : "\\X2\\";
      appendHex(out, code, wide ? 8 : 4);
      out += "\\X0\\";
    }
    utf8.remove_prefix(size == 0 ? 1 : size);
  }
  return out + "'";
}

std::string stepReal(double number) {
  number = std::round(number * 1e4) / 1e4;
  std::array<char, 64> room{};
  const auto end =
      std::to_chars(room.data(), room.data() + room.size(), number == 0 ? 0.0 : number, std::chars_format::fixed);
  std::string out(room.data(), end.ptr);
  if (out.find('.') == std::string::npos) out += '.';
  return out;
}

std::string stepList(const std::vector<std::string>& values) {
  return base::joined(values, ",");
}

std::string StepWriter::add(std::string_view pattern, std::initializer_list<std::string_view> values) {
  std::string name = "#" + std::to_string(++last_);
  text_ += name + "=";
  const auto* value = values.begin();
  for (const char c : pattern) {
    if (c == '%')
      text_ += *value++;
    else
      text_ += c;
  }
  text_ += ";\n";
  return name;
}

}  // namespace sillwright::exchange
