#include "practice/display.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>

namespace sillwright::practice {

namespace {

constexpr std::int64_t kSixteenths = 16;
constexpr std::int64_t kFoot = 12 * kSixteenths;
constexpr double kLargestShown = 1e12;  ///< Beyond it a count of sixteenths no longer fits; no building comes near.

std::string fixedPoint(double value, int decimals) {
  std::array<char, 400> room{};
  const auto end = std::to_chars(room.data(), room.data() + room.size(), value, std::chars_format::fixed,
                                 std::clamp(decimals, 0, 6));
  std::string words(room.data(), end.ptr);
  const bool nothing = words.find_first_of("123456789") == std::string::npos;
  return nothing && words.front() == '-' ? words.substr(1) : words;  // no "-0"
}

/// Inches and a reduced fraction: "60 1/4 in". Below an inch the whole is only written after feet: "5 ft 0 1/4 in".
std::string inches(std::int64_t sixteenths, bool after_feet) {
  const std::int64_t whole = sixteenths / kSixteenths;
  std::int64_t top = sixteenths % kSixteenths;
  std::int64_t bottom = kSixteenths;
  while (top != 0 && top % 2 == 0) {
    top /= 2;
    bottom /= 2;
  }
  const std::string fraction = std::to_string(top) + "/" + std::to_string(bottom);
  if (top == 0) {
    return std::to_string(whole) + " in";
  }
  return (whole == 0 && !after_feet ? fraction : std::to_string(whole) + " " + fraction) + " in";
}

std::string inInches(double mm, bool with_feet) {
  const std::int64_t sixteenths = std::llround(std::abs(mm) / kInch * static_cast<double>(kSixteenths));
  const std::string sign = mm < 0 && sixteenths != 0 ? "-" : "";
  if (with_feet && sixteenths >= kFoot) {
    return sign + std::to_string(sixteenths / kFoot) + " ft " + inches(sixteenths % kFoot, true);
  }
  return sign + inches(sixteenths, false);
}

bool showable(double mm) {
  return std::isfinite(mm) && std::abs(mm) < kLargestShown;
}

/// Takes a number without sign off the front.
std::optional<double> takeNumber(std::string_view& words) {
  double value = 0;
  if (words.empty() || words.front() < '0' || words.front() > '9') {
    return std::nullopt;
  }
  const auto end = std::from_chars(words.data(), words.data() + words.size(), value, std::chars_format::fixed);
  if (end.ec != std::errc()) {
    return std::nullopt;
  }
  words.remove_prefix(static_cast<std::size_t>(end.ptr - words.data()));
  return value;
}

bool take(std::string_view& words, std::string_view expected) {
  if (words.substr(0, expected.size()) != expected) {
    return false;
  }
  words.remove_prefix(expected.size());
  return true;
}

/// "60 1/4 in", "1/4 in", "60 in": the whole of `words`, inches.
std::optional<double> readInches(std::string_view words) {
  std::optional<double> value = takeNumber(words);
  if (!value) {
    return std::nullopt;
  }
  std::optional<double> whole;
  if (words != " in" && take(words, " ")) {
    whole = value;
    value = takeNumber(words);
  }
  if (value && take(words, "/")) {
    const std::optional<double> bottom = takeNumber(words);
    if (!bottom || *bottom == 0) {
      return std::nullopt;
    }
    value = *value / *bottom;
  } else if (whole) {
    return std::nullopt;  // "60 4 in" is no length
  }
  return value && words == " in" ? std::optional(whole.value_or(0) + *value) : std::nullopt;
}

}  // namespace

std::string showLength(double mm, Display display, int decimals) {
  if (!showable(mm)) {
    return "?";
  }
  return display == Display::Millimetres ? fixedPoint(mm, decimals) : inInches(mm, false);
}

std::string showFeet(double mm, Display display) {
  if (!showable(mm)) {
    return "?";
  }
  return display == Display::Millimetres ? fixedPoint(mm, 0) : inInches(mm, true);
}

std::optional<double> readLength(std::string_view words) {
  const double sign = take(words, "-") ? -1.0 : 1.0;
  std::string_view rest = words;
  const std::optional<double> first = takeNumber(rest);
  if (!first) {
    return std::nullopt;
  }
  if (rest.empty()) {
    return sign * *first;
  }
  double feet = 0;
  if (take(rest, " ft ")) {
    feet = *first;
    words = rest;
  }
  const std::optional<double> inch = readInches(words);
  return inch ? std::optional(sign * (feet * 12 + *inch) * kInch) : std::nullopt;
}

}  // namespace sillwright::practice
