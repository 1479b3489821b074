/// Writing JSON, forwards only, into a string.
///
/// Keys come out in the order they are written; floats in the shortest form that reads back to the same number
/// (std::to_chars), so that the same plan is the same bytes on every run. A library's document tree would cost more
/// than the planning it reports: a job can hold a hundred thousand openings.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace sillwright::exchange {

class JsonWriter {
 public:
  /// Numbers are rounded to so many parts of one; 0: not at all.
  explicit JsonWriter(std::string& out, double parts = 0) : out_(out), parts_(parts) {}

  JsonWriter& beginObject() { return begin('{'); }
  JsonWriter& endObject() { return end('}'); }
  JsonWriter& beginArray() { return begin('['); }
  JsonWriter& endArray() { return end(']'); }
  /// A name of the program's own, written as it is: it must need no escape.
  JsonWriter& key(std::string_view name);
  JsonWriter& value(std::string_view text);
  JsonWriter& value(const char* text) { return value(std::string_view{text}); }
  /// Must be finite: JSON has no other numbers. A number that isn't is written as null, so that the text stays JSON.
  JsonWriter& value(double number);
  JsonWriter& value(std::int64_t number);
  JsonWriter& value(int number) { return value(static_cast<std::int64_t>(number)); }
  JsonWriter& value(bool truth);
  /// An object or array in full, on a line of its own: keeps a large report readable and diffable.
  JsonWriter& newLine();

  template <class T>
  JsonWriter& member(std::string_view name, const T& thing) {
    key(name);
    return value(thing);
  }

 private:
  JsonWriter& begin(char bracket);
  JsonWriter& end(char bracket);
  void separate();

  std::string& out_;
  double parts_;
  bool first_ = true;
};

}  // namespace sillwright::exchange
