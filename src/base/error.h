/// What a reader tells a person about a file that can't be read: where, which key, and what would be right.
///
/// Shared by the readers of jobs and of practices. An error is a value; all of a file's errors are collected and
/// shown at once, in the order of the file.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace sillwright::base {

/// A place in a text file, both counted from 1, columns in characters (not bytes). Line 0: not from a file.
struct Place {
  std::uint32_t line = 0;
  std::uint32_t column = 0;
  bool operator==(const Place&) const = default;
};

struct Error {
  std::string file;
  Place at;
  std::string key;  ///< Dotted, with indices from 0: `opening[2].unit.width`. Empty: the file as a whole.
  std::string say;  ///< One sentence: what was found and what is allowed.
  bool operator==(const Error&) const = default;
};

/// `file:line:column: key: say`; the parts that are not known are left out.
[[nodiscard]] std::string toLine(const Error& error);

/// A value, or the reasons why there is none. Exactly one of the two is there.
template <class T>
struct Result {
  std::optional<T> value;
  std::vector<Error> errors;

  [[nodiscard]] bool ok() const { return value.has_value(); }
};

// Whether the machine gives what the libraries that draw take for granted.

/// Asks for `mebibytes` of memory and `threads` threads at once, and gives them back. Throws std::bad_alloc, or
/// std::runtime_error in one sentence, where it gets less: graphics drivers and text libraries end the program by a
/// signal, or wait for ever, where they are refused later.
void needRoom(std::size_t mebibytes, unsigned threads);

}  // namespace sillwright::base
