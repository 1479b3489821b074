/// What the compiler's library lacks of C++20: libc++ 14 writes no double as text and has no bit_cast, up to 19 it
/// reads no double. Read before every file of the page's module (third_party/pocket.cmake); nowhere else.
#pragma once

#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>
#include <string_view>
#include <type_traits>

namespace std {

#if _LIBCPP_VERSION < 16000
inline to_chars_result copied(char* first, char* last, const string& text) {
  if (static_cast<size_t>(last - first) < text.size()) return {last, errc::value_too_large};
  return {static_cast<char*>(memcpy(first, text.data(), text.size())) + text.size(), errc{}};
}

inline string printed(const char* format, int digits, double value) {
  char room[512];
  return {room, static_cast<size_t>(snprintf(room, sizeof room, format, digits, value))};
}

inline to_chars_result to_chars(char* first, char* last, double value, chars_format format, int digits) {
  return copied(first, last, printed(format == chars_format::fixed ? "%.*f" : "%.*e", digits, value));
}

/// The fewest digits that read back as the value, in the shorter of the two notations; the plain one where both are.
template <class Real, enable_if_t<is_floating_point_v<Real>, int> = 0>
to_chars_result to_chars(char* first, char* last, Real value, chars_format format = chars_format::general) {
  string scientific;
  for (int digits = 0; digits < 17; ++digits) {
    scientific = printed("%.*e", digits, static_cast<double>(value));
    if (static_cast<Real>(strtod(scientific.c_str(), nullptr)) == value) break;
  }
  if (!isfinite(value)) return copied(first, last, scientific);
  const size_t mark = scientific.find('e');
  const int exponent = atoi(scientific.c_str() + mark + 1);
  const size_t point = scientific.find('.');
  const int digits = point < mark ? static_cast<int>(mark - point) - 1 : 0;
  const string plain = printed("%.*f", max(digits - exponent, 0), static_cast<double>(value));
  const bool shorter = scientific.size() < plain.size() && format == chars_format::general;
  return copied(first, last, shorter ? scientific : plain);
}

template <class To, class From>
constexpr To bit_cast(const From& from) noexcept {
  return __builtin_bit_cast(To, from);
}
#endif

#if _LIBCPP_VERSION < 200000
/// Figures with a point, no blanks or plus before, as long as they go on.
template <class Real, enable_if_t<is_floating_point_v<Real>, int> = 0>
from_chars_result from_chars(const char* first, const char* last, Real& value,
                             chars_format format = chars_format::general) {
  const size_t most = static_cast<size_t>(last - first);
  const size_t length =
      string_view(first, most).find_first_not_of(format == chars_format::fixed ? "-.0123456789" : "-.0123456789eE+");
  const string text(first, min(length, most));
  char* read = nullptr;
  const Real parsed = static_cast<Real>(strtod(text.c_str(), &read));
  if (read == text.c_str() || text.front() == '+') return {first, errc::invalid_argument};
  if (!isfinite(parsed)) return {first + (read - text.c_str()), errc::result_out_of_range};
  value = parsed;
  return {first + (read - text.c_str()), errc{}};
}
#endif

}  // namespace std
