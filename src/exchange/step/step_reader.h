/// Reading a STEP file (ISO 10303-21) of any size: once from end to end to note where its instances are, then one
/// instance at a time as it is asked for.
///
/// What is kept of a file is 16 bytes an instance and the numbers of those of the types that are asked for. Nothing is
/// trusted: what can't be made out is an instance without a type, or a value that is nothing.
#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <istream>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace sillwright::exchange {

/// A value of an instance. A typed value, IFCLABEL('x'), is what stands in its brackets.
struct StepValue {
  enum class Kind : std::uint8_t { Nothing, Number, Text, Word, Reference, List };
  Kind kind = Kind::Nothing;
  double number = 0;
  std::uint32_t reference = 0;   ///< Of an instance.
  std::string text;              ///< Of a word without its points: "METRE".
  std::vector<StepValue> items;  ///< Of a list.

  /// Of a list; nothing where there is none.
  [[nodiscard]] const StepValue& operator[](std::size_t index) const;
  [[nodiscard]] bool is(std::string_view word) const { return kind == Kind::Word && text == word; }
};

struct StepInstance {
  std::string type;  ///< In capitals; empty: there is none.
  StepValue values;  ///< A list.
  [[nodiscard]] const StepValue& operator[](std::size_t index) const { return values[index]; }
};

class StepFile {
 public:
  /// Notes where all instances are. `types`: those whose numbers `of` gives, a blank between them.
  StepFile(std::istream& in, std::string_view types);

  /// Why the file can't be read; empty: it can.
  [[nodiscard]] const std::string& fault() const { return fault_; }
  /// The values of FILE_SCHEMA.
  [[nodiscard]] const std::string& schema() const { return schema_; }
  [[nodiscard]] std::size_t instances() const { return entries_.size(); }
  /// In the order of the file.
  [[nodiscard]] const std::vector<std::uint32_t>& of(std::string_view type) const;
  [[nodiscard]] StepInstance at(std::uint32_t number);
  /// Of a reference; what is none is an instance without a type.
  [[nodiscard]] StepInstance at(const StepValue& value) { return at(value.reference); }

 private:
  struct Entry {
    std::uint32_t number = 0;
    std::uint64_t offset = 0;
  };
  void note(std::string_view head, std::uint64_t offset);
  [[nodiscard]] std::string textAt(std::uint64_t offset);

  std::istream& in_;
  std::vector<Entry> entries_;
  std::map<std::string, std::vector<std::uint32_t>, std::less<>> of_;
  std::string fault_;
  std::string schema_;
};

// Writing a STEP file (ISO 10303-21), forwards, instance after instance.

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
