#include "words/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <numeric>

#include "practice/figure.h"

namespace sillwright::words {

namespace {

constexpr std::string_view kNoBreak = "\u00A0";
constexpr std::string_view kTimes = "×";

bool isDigit(char c) { return c >= '0' && c <= '9'; }

bool isUnit(std::string_view word) {
  static constexpr std::array<std::string_view, 15> kUnits{"mm",  "m",  "m²", "in", "ft", "N",   "kN",  "Pa",
                                                           "kPa", "kg", "lb", "%",  "°",  "m/s", kTimes};
  while (!word.empty() && std::string_view(".,;:)?!").find(word.back()) != std::string_view::npos)
    word.remove_suffix(1);  // a figure may end its sentence
  return std::find(kUnits.begin(), kUnits.end(), word) != kUnits.end();
}

/// "1/4" and what follows it.
bool isFraction(std::string_view word) {
  const auto slash = word.find('/');
  return slash != std::string_view::npos && slash > 0 && slash + 1 < word.size() && isDigit(word[slash - 1]) &&
         isDigit(word[slash + 1]) && isDigit(word.front());
}

constexpr std::int64_t kSixteenths = 16;
constexpr double kLargestShown = 1e12;  ///< Beyond it a count of sixteenths no longer fits; no building comes near.

/// Without the unit: "60", "60 1/4", "1/16".
std::string inches(double mm) {
  const std::int64_t sixteenths = std::llround(std::abs(mm) / practice::kInch * static_cast<double>(kSixteenths));
  const std::int64_t whole = sixteenths / kSixteenths;  // rounded without its sign, which is of whole and fraction
  const std::int64_t top = sixteenths % kSixteenths;
  std::string said = mm < 0 && sixteenths != 0 ? "-" : "";    // no minus before a zero
  if (whole != 0 || top == 0) said += std::to_string(whole);  // a fraction alone has no 0 before it
  if (top == 0) return said;
  const std::int64_t common = std::gcd(top, kSixteenths);  // 4/16 is said as 1/4
  return said + (whole != 0 ? " " : "") + std::to_string(top / common) + "/" + std::to_string(kSixteenths / common);
}

bool inInches(practice::Display display) { return display != practice::Display::Millimetres; }

}  // namespace

std::string count(long number, const std::string& one, const std::string& many) {
  return std::to_string(number) + " " + (number == 1 ? one : many.empty() ? one + "s" : many);
}

std::string listed(const std::vector<std::string>& texts, const char* last) {
  std::string all;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    if (i > 0) all += i + 1 < texts.size() ? ", " : last;
    all += texts[i];
  }
  return all;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string unbroken(std::string text) {
  for (auto at = text.find(' ', 1); at != std::string::npos; at = text.find(' ', at + 1)) {  // 1: one stands before it
    const std::string_view before = std::string_view(text).substr(0, at);
    std::string_view after = std::string_view(text).substr(at + 1);  // the word behind the blank
    after = after.substr(0, after.find(' '));
    const bool of_figure = isDigit(before.back()) && (isUnit(after) || isFraction(after));
    const bool of_product = before.ends_with(kTimes) && !after.empty() && isDigit(after.front());
    if (of_figure || of_product) text.replace(at, 1, kNoBreak);
  }
  return text;
}

std::string wrapped(std::string_view text, const std::function<bool(std::string_view)>& fits) {
  const std::string whole = unbroken(std::string(text));  // only the blanks that it leaves may break a line
  std::string out;
  std::string line;
  for (std::size_t from = 0; from < whole.size();) {
    const std::size_t end = std::min(whole.find_first_of(" \n", from), whole.size());
    const std::string_view word{whole.data() + from, end - from};
    std::string longer = line.empty() ? std::string(word) : line + " " + std::string(word);
    if (line.empty() || fits(longer)) {  // a word that is too long has a line to itself
      line = std::move(longer);
    } else {
      out += line + "\n";
      line = word;
    }
    if (end < whole.size() && whole[end] == '\n') {
      out += line + "\n";
      line.clear();
    }
    from = end + 1;
  }
  out += line;
  for (auto at = out.find(kNoBreak); at != std::string::npos; at = out.find(kNoBreak, at)) {
    out.replace(at, kNoBreak.size(), " ");
  }
  return out;
}

const char* nameOf(job::UnitKind kind) {
  return job::kKindWords[static_cast<std::size_t>(kind)].data();  // a literal, so it ends with a zero
}

std::string unitName(job::UnitKind kind, const std::vector<job::Light>& lights) {
  if (lights.empty()) return nameOf(kind);                                           // it isn't divided
  const auto joined = std::count(lights.begin(), lights.end(), job::Light::Joined);  // part of the one beside it
  return std::string(job::isDoor(kind) ? "door" : "window") + " in " +
         count(static_cast<long>(lights.size()) - static_cast<long>(joined), "light");
}

std::string Name::in(const practice::Words& words) const {
  return word == nullptr ? std::string(before) : before + words.*word + after;
}

std::string dateWords(const job::Date& date) {
  std::array<char, 40> text{};  // the largest three ints fit
  std::snprintf(text.data(), text.size(), "%04d-%02d-%02d", date.year, date.month, date.day);
  return text.data();
}

std::string jobWords(const job::Job& job) {
  std::string said;
  const auto add = [&](const std::string& words) { said += (said.empty() ? "" : " · ") + words; };
  if (job.revision) add("revision " + *job.revision);
  if (job.date) add(dateWords(*job.date));
  if (job.by) add("by " + *job.by);
  if (job.address) add(*job.address);
  return said;
}

std::string number(double value, int decimals) {
  // Most sizes are whole, and those are ten times as quick.
  if (std::abs(value) < 1e15 && std::trunc(value) == value) return std::to_string(static_cast<std::int64_t>(value));
  std::array<char, 400> room;  // a double has up to 309 digits before its point, and here 6 behind it
  const auto end = std::to_chars(room.data(), room.data() + room.size(), value, std::chars_format::fixed,
                                 std::clamp(decimals, 0, 6));
  std::string text(room.data(), end.ptr);
  if (text.find('.') != std::string::npos) {     // the zeros of 100 stay
    text.erase(text.find_last_not_of('0') + 1);  // it stops at the point
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;  // what rounds to nothing has no sign
}

std::string figure(double mm, practice::Display display) {
  if (!std::isfinite(mm) || std::abs(mm) >= kLargestShown) return "?";  // no figure would be true
  return inInches(display) ? inches(mm) : number(mm);
}

std::string bareLength(double mm, practice::Display display) {
  const std::string text = figure(mm, display);
  return inInches(display) && text != "?" ? text + " in" : text;
}

std::string length(double mm, practice::Display display) {
  const std::string text = bareLength(mm, display);  // it says "in", but not "mm"
  return inInches(display) || text == "?" ? text : text + " mm";
}

std::array<std::string, 2> toldApart(double mm, double limit, practice::Display display) {
  std::array said{length(mm, display), length(limit, display)};
  if (said[0] != said[1] || said[0] == "?") return said;
  const bool inches = inInches(display);  // where even finer figures agree the usual ones are said
  const auto finer = [&](double of) {
    return inches ? number(of / practice::kInch, 3) + " in" : number(of, 2) + " mm";
  };
  return finer(mm) == finer(limit) ? said : std::array{finer(mm), finer(limit)};
}

std::string signedFigure(double mm, practice::Display display) {
  const std::string text = figure(mm, display);
  return text.front() == '-' || text == "0" || text == "?" ? text : "+" + text;
}

std::string size(double width, double height, practice::Display display) {
  return bareLength(width, display) + " × " + length(height, display);
}

std::string mass(double kg, practice::Display display, int decimals) {
  return inInches(display) ? number(kg / practice::kPound, decimals) + " lb" : number(kg, decimals) + " kg";
}

std::string amount(double value, const std::string& unit, int decimals, practice::Display display) {
  if (unit == "mm") return length(value, display);
  if (unit == "kg") return mass(value, display, std::min(decimals, 1));  // to 0.1 kg, as masses are told
  return number(value, decimals) + (unit.empty() || unit == "1" ? "" : " " + unit);
}

std::string headFigures(const job::Head& head, practice::Display display) {
  const std::string peak = head.peaked() ? figure(head.peak_z, display) + "/" : std::string{};
  return figure(head.left, display) + "/" + peak + figure(head.right, display);
}

std::string figures(double width, double height, practice::Display display) {
  return figure(width, display) + " × " + figure(height, display);
}

}  // namespace sillwright::words
