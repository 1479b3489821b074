#include "base/error.h"

#include <string_view>

namespace sillwright::base {

std::string toLine(const Error& error) {
  std::string line = error.file;
  const auto part = [&line](std::string_view text, std::string_view before) {
    if (!line.empty()) line += before;
    line += text;
  };
  if (error.at.line > 0) {
    part(std::to_string(error.at.line), ":");
    if (error.at.column > 0) part(std::to_string(error.at.column), ":");
  }
  if (!error.key.empty()) part(error.key, ": ");
  part(error.say, ": ");
  return line;
}

}  // namespace sillwright::base
