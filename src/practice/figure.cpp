#include "practice/figure.h"

#include <algorithm>
#include <charconv>

namespace sillwright::practice {

const Figure* Bands::at(double size) const {
  const auto found = std::find_if(bands.begin(), bands.end(), [size](const Band& band) { return size <= band.up_to; });
  return found == bands.end() ? nullptr : &found->figure;  // bands rise: the first that reaches so far
}

const Figure* ByClass::at(std::string_view wind) const {
  const auto found =
      std::find_if(entries.begin(), entries.end(), [wind](const ClassFigure& entry) { return entry.wind == wind; });
  return found == entries.end() ? nullptr : &found->figure;
}

std::string cite(const Figure& figure) {
  if (figure.status == Status::CommonPractice) return figure.source;  // which says so itself
  std::string words = figure.source;
  if (!figure.clause.empty()) words += " " + figure.clause;  // the order in which it is looked up
  if (!figure.edition.empty()) words += ", " + figure.edition;
  if (figure.status == Status::Memory) words += " (from memory)";  // of second-hand figures `source` names both texts
  return words;
}

const char* toWord(Status status) {
  return kStatusWords[static_cast<std::size_t>(status)].data();  // a literal, so it ends with a zero
}

namespace {

/// Takes a number without sign off the front.
std::optional<double> takeNumber(std::string_view& words) {  // fixed: nobody writes a length as "1e3"
  double value = 0;
  if (words.empty() || words.front() < '0' || words.front() > '9') return std::nullopt;  // from_chars takes signs too
  const auto end = std::from_chars(words.data(), words.data() + words.size(), value, std::chars_format::fixed);
  if (end.ec != std::errc()) return std::nullopt;
  words.remove_prefix(static_cast<std::size_t>(end.ptr - words.data()));
  return value;
}

bool take(std::string_view& words, std::string_view expected) {
  if (words.substr(0, expected.size()) != expected) return false;  // then nothing is taken
  words.remove_prefix(expected.size());
  return true;
}

/// "60 1/4 in", "1/4 in", "60 in": the whole of `words`, inches.
std::optional<double> readInches(std::string_view words) {
  std::optional<double> value = takeNumber(words);
  if (!value) return std::nullopt;
  std::optional<double> whole;
  if (words != " in" && take(words, " ")) {  // a fraction follows
    whole = value;
    value = takeNumber(words);
  }
  if (value && take(words, "/")) {
    const std::optional<double> bottom = takeNumber(words);
    if (!bottom || *bottom == 0) return std::nullopt;  // nothing is divided by 0
    value = *value / *bottom;
  } else if (whole) {
    return std::nullopt;  // "60 4 in" is no length
  }
  return value && words == " in" ? std::optional(whole.value_or(0) + *value) : std::nullopt;
}

}  // namespace

std::optional<double> readLength(std::string_view words) {
  const double sign = take(words, "-") ? -1.0 : 1.0;  // the sign is of the whole: -1 1/2 is −1.5
  std::string_view rest = words;                      // without feet `words` is read again as inches
  const std::optional<double> first = takeNumber(rest);
  if (!first) return std::nullopt;
  if (rest.empty()) return sign * *first;  // bare: millimetres
  double feet = 0;
  if (take(rest, " ft ")) {
    feet = *first;
    words = rest;
  }
  const std::optional<double> inch = readInches(words);
  return inch ? std::optional(sign * (feet * 12 + *inch) * kInch) : std::nullopt;
}

}  // namespace sillwright::practice
