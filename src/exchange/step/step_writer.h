/// Inside the room: writing a STEP file (ISO 10303-21), forwards, instance after instance.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace sillwright::exchange {

/// In single quotes, quotes doubled, what is no printable ASCII as \X2\ and \X4\ escapes.
[[nodiscard]] std::string stepText(std::string_view utf8);
/// With the point that the format asks for; to a ten-thousandth.
[[nodiscard]] std::string stepReal(double number);
/// "a,b".
[[nodiscard]] std::string stepList(const std::vector<std::string>& values);

class StepWriter {
 public:
  /// Adds an instance as it is written there, each % a value that is written already, in turn; gives what refers to it:
  /// add("IFCPOLYLINE((%,%))", {a, b}) is "#12".
  std::string add(std::string_view pattern, std::initializer_list<std::string_view> values);
  /// The instances, a line each.
  [[nodiscard]] std::string take() && { return std::move(text_); }

 private:
  std::string text_;
  std::size_t last_ = 0;
};

}  // namespace sillwright::exchange
