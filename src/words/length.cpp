#include "words/length.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <numeric>

#include "practice/figure.h"

namespace sillwright::words {
namespace {

constexpr std::int64_t kSixteenths = 16;
constexpr double kLargestShown = 1e12;  ///< Beyond it a count of sixteenths no longer fits; no building comes near.

/// Without the unit: "60", "60 1/4", "1/16".
std::string inches(double mm) {
  const std::int64_t sixteenths = std::llround(std::abs(mm) / practice::kInch * static_cast<double>(kSixteenths));
  const std::int64_t whole = sixteenths / kSixteenths;
  const std::int64_t top = sixteenths % kSixteenths;
  std::string said = mm < 0 && sixteenths != 0 ? "-" : "";
  if (whole != 0 || top == 0) said += std::to_string(whole);
  if (top == 0) return said;
  const std::int64_t common = std::gcd(top, kSixteenths);
  return said + (whole != 0 ? " " : "") + std::to_string(top / common) + "/" + std::to_string(kSixteenths / common);
}

bool inInches(practice::Display display) { return display != practice::Display::Millimetres; }

}  // namespace

std::string number(double value, int decimals) {
  std::array<char, 400> room{};
  const auto end = std::to_chars(room.data(), room.data() + room.size(), value, std::chars_format::fixed,
                                 std::clamp(decimals, 0, 6));
  std::string text(room.data(), end.ptr);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string figure(double mm, practice::Display display) {
  if (!std::isfinite(mm) || std::abs(mm) >= kLargestShown) return "?";
  return inInches(display) ? inches(mm) : number(mm);
}

std::string bareLength(double mm, practice::Display display) {
  const std::string text = figure(mm, display);
  return inInches(display) && text != "?" ? text + " in" : text;
}

std::string length(double mm, practice::Display display) {
  const std::string text = bareLength(mm, display);
  return inInches(display) || text == "?" ? text : text + " mm";
}

std::string signedFigure(double mm, practice::Display display) {
  const std::string text = figure(mm, display);
  return text.front() == '-' || text == "0" || text == "?" ? text : "+" + text;
}

std::string size(double width, double height, practice::Display display) {
  return bareLength(width, display) + " × " + length(height, display);
}

std::string headFigures(const job::Head& head, practice::Display display) {
  const std::string peak = head.peaked() ? figure(head.peak_z, display) + "/" : std::string{};
  return figure(head.left, display) + "/" + peak + figure(head.right, display);
}

std::string figures(double width, double height, practice::Display display) {
  return figure(width, display) + " × " + figure(height, display);
}

}  // namespace sillwright::words
