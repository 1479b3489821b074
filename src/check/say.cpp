#include "check/say.h"

#include <array>
#include <charconv>
#include <cmath>

#include "practice/display.h"

namespace sillwright::check {

std::string number(double value, int decimals) {
  std::array<char, 64> buffer{};
  const auto end =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
  std::string text(buffer.data(), end.ptr);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string length(double mm, practice::Display display) {
  if (display != practice::Display::Millimetres) return practice::showLength(mm, display);
  return number(mm, 1) + " mm";
}

std::string joined(const std::vector<std::string>& texts, std::string_view between) {
  std::string all;
  for (std::size_t i = 0; i < texts.size(); ++i) all.append(i > 0 ? between : "").append(texts[i]);
  return all;
}

std::string count(long number, const std::string& word) {
  return std::to_string(number) + " " + word + (number == 1 ? "" : "s");
}

const char* word(plan::Side side) {
  switch (side) {
    case plan::Side::Left:
      return "left";
    case plan::Side::Right:
      return "right";
    case plan::Side::Sill:
      return "sill";
    case plan::Side::Head:
      return "head";
  }
  return "";
}

}  // namespace sillwright::check
