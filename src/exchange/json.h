/// Writing JSON, forwards only, into a string.
///
/// Keys come out in the order they are written; floats in the shortest form that reads back to the same number
/// (std::to_chars), so that the same plan is the same bytes on every run. A library's document tree would cost more
/// than the planning it reports: a job can hold a hundred thousand openings.
#pragma once

#include <concepts>
#include <cstdint>
#include <optional>
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
  JsonWriter& value(std::integral auto number) { return value(static_cast<std::int64_t>(number)); }
  JsonWriter& value(bool truth);
  /// An array of values.
  template <class Values>
  requires(requires(const Values& all) { all.begin(); } &&
           !std::convertible_to<const Values&, std::string_view>) JsonWriter& value(const Values& all) {
    beginArray();
    for (const auto& each : all) value(each);
    return endArray();
  }
  /// An object or array in full, on a line of its own: keeps a large report readable and diffable.
  JsonWriter& newLine();

  /// An optional that is empty is left out.
  template <class T>
  JsonWriter& member(std::string_view name, const T& thing) {
    if constexpr (requires { thing.has_value(); }) {
      return thing ? member(name, *thing) : *this;
    } else {
      return key(name).value(thing);
    }
  }
  /// Members one after the other: members("name", name, "length", mm).
  template <class T, class... More>
  JsonWriter& members(std::string_view name, const T& thing, const More&... more) {
    member(name, thing);
    if constexpr (sizeof...(more) > 0) members(more...);
    return *this;
  }
  /// An object of such members.
  template <class... Members>
  JsonWriter& object(const Members&... all) {
    return beginObject().members(all...).endObject();
  }
  /// An array of what `write` writes of each.
  template <class Range, class Write>
  JsonWriter& array(std::string_view name, const Range& all, const Write& write) {
    key(name).beginArray();
    for (const auto& each : all) write(each);
    return endArray();
  }

 private:
  JsonWriter& begin(char bracket);
  JsonWriter& end(char bracket);
  void separate();

  std::string& out_;
  double parts_;
  bool first_ = true;
};

/// A text as a member that is left out where it is empty.
[[nodiscard]] inline std::optional<std::string_view> ifAny(std::string_view text) {
  return text.empty() ? std::nullopt : std::optional(text);
}

}  // namespace sillwright::exchange
