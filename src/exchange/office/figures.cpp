#include "exchange/office/figures.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <utility>

#include "practice/figure.h"

namespace sillwright::exchange {
namespace {

bool isDigit(char c) { return c >= '0' && c <= '9'; }

void replaceAll(std::string& text, std::string_view from, std::string_view to) {
  for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);  // what was put in isn't searched again
}

std::string trimmed(std::string_view text) {
  constexpr std::string_view kBlanks = " \t\r\n";
  const auto from = text.find_first_not_of(kBlanks);
  if (from == std::string_view::npos) return {};
  return std::string(text.substr(from, text.find_last_not_of(kBlanks) - from + 1));
}

/// The signs that mean the same as plain ones.
std::string plainSigns(std::string_view text) {
  std::string plain{text};
  static constexpr std::pair<std::string_view, std::string_view> kSame[] = {
      {"\u00A0", " "},  {"\u202F", " "}, {"\u2009", " "}, {"\u2212", "-"}, {"\u2010", "-"},
      {"\u2011", "-"},  {"\u2013", "-"}, {"\u2032", "'"}, {"\u2019", "'"}, {"\u2033", "\""},
      {"\u201D", "\""}, {"''", "\""},    {"½", " 1/2"},   {"¼", " 1/4"},   {"¾", " 3/4"},
      {"⅛", " 1/8"},    {"⅜", " 3/8"},   {"⅝", " 5/8"},   {"⅞", " 7/8"},   {"×", "x"}};
  for (const auto& [from, to] : kSame) replaceAll(plain, from, to);  // in this order: two primes become '', which is "
  return trimmed(plain);
}

/// Digits with one mark after each third from the right: "2,430", "1 234 567".
bool isGrouped(std::string_view text, char mark) {
  const auto first = text.find(mark);
  if (first == std::string_view::npos || first == 0 || first > 3) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool at_mark = i >= first && (i - first) % 4 == 0;  // a mark stands before each three digits
    if (at_mark ? text[i] != mark : !isDigit(text[i])) return false;
  }
  return (text.size() - first) % 4 == 0;  // the last three digits are whole
}

/// The number's text as `from_chars` wants it; `groups`: a single mark before three digits parts thousands.
std::string pointed(std::string_view text, bool decimal_comma, bool groups) {
  std::string plain{text};
  const bool minus = plain.starts_with('-') || plain.starts_with('+');  // from_chars takes no plus
  const std::string sign = plain.starts_with('-') ? "-" : "";
  if (minus) plain.erase(0, 1);
  const auto comma = plain.rfind(',');
  const auto point = plain.rfind('.');
  const bool both = comma != std::string::npos && point != std::string::npos;  // then the later one begins the decimals
  const char decimal = both ? (comma > point ? ',' : '.') : comma != std::string::npos ? ',' : '.';
  const std::string whole = plain.substr(0, both ? plain.rfind(decimal) : plain.size());  // groups stand before it
  for (const char mark : {' ', '\'', ',', '.'}) {
    if (!isGrouped(whole, mark) || (both && mark == decimal)) continue;
    const bool once = std::count(whole.begin(), whole.end(), mark) == 1;  // twice: it is no decimal sign
    const bool sure = both || !once || mark == ' ' || mark == '\'';
    // "1,200" of mm is 1200, and so is "1.200" where decimals have commas; else either may be a fraction.
    if (!sure && !(groups && (mark == ',' || decimal_comma))) continue;
    std::string joined = whole;
    joined.erase(std::remove(joined.begin(), joined.end(), mark), joined.end());
    plain.replace(0, whole.size(), joined);
    break;  // a number has groups of one kind
  }
  std::replace(plain.begin(), plain.end(), ',', '.');
  return sign + plain;
}

std::optional<double> parsed(const std::string& text) {  // fixed: "1e3" is no figure that an office writes
  double value = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, value, std::chars_format::fixed);
  return read.ec == std::errc{} && read.ptr == end && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

/// Millimetres of each, as LengthUnit.
constexpr std::array<double, 5> kMillimetres{1, 10, 1000, practice::kInch, 12 * practice::kInch};

/// Feet and inches in the words that practice::readLength takes: 8'-0 1/2" to "8 ft 0 1/2 in".
std::string inchWords(std::string text) {
  static constexpr std::pair<std::string_view, std::string_view> kSame[] = {
      {"inches", "\""}, {"inch", "\""}, {"ins", "\""}, {"in.", "\""}, {"in", "\""},
      {"feet", "'"},    {"foot", "'"},  {"ft.", "'"},  {"ft", "'"}};
  for (const auto& [from, to] : kSame) replaceAll(text, from, to);  // longer words go first: "inches" begins with "in"
  replaceAll(text, "\"", " in");
  if (const auto feet = text.find('\''); feet != std::string::npos) {
    std::string inches = trimmed(std::string_view(text).substr(feet + 1));
    if (inches.starts_with('-')) inches = trimmed(std::string_view(inches).substr(1));  // 8'-0": a hyphen, no minus
    if (inches.empty()) inches = "0";                                                   // whole feet
    text = trimmed(std::string_view(text).substr(0, feet)) + " ft " + inches;
  }
  for (auto at = text.find("  "); at != std::string::npos; at = text.find("  ")) text.erase(at, 1);
  if (!text.ends_with(" in")) text += " in";  // in 8' 6 the inches have no sign
  // A fraction is tied to its inches by a hyphen too: 60-1/2".
  if (const auto tie = text.find('-', 1); tie != std::string::npos) text[tie] = ' ';
  return text;
}

}  // namespace

bool isListed(std::string_view words, std::string_view list) {
  for (auto at = list.find(words); !words.empty() && at != std::string_view::npos; at = list.find(words, at + 1)) {
    const std::string_view before = list.substr(0, at), behind = list.substr(at + words.size());
    if ((before.empty() || before.ends_with(", ")) && (behind.empty() || behind.starts_with(", "))) return true;
  }
  return false;
}

std::vector<std::string_view> splitAt(std::string_view text, std::string_view mark) {
  std::vector<std::string_view> parts;
  for (std::size_t from = 0; from <= text.size();) {  // a mark at the end is followed by one more, empty part
    const std::size_t to = std::min(text.find(mark, from), text.size());  // the last part ends with the text
    parts.push_back(text.substr(from, to - from));
    from = to + mark.size();
  }
  return parts;
}

const Term* termOf(std::string_view words, Terms terms) {
  const auto means = [&](const Term& each) { return words == each.ours || isListed(words, each.theirs); };
  const auto term = std::find_if(terms.begin(), terms.end(), means);
  return term == terms.end() ? nullptr : &*term;
}

std::string_view sameWord(std::string_view word, Terms terms) {
  const Term* term = termOf(word, terms);
  return term == nullptr ? word : std::string_view(term->ours);  // it lives as long as what it was given
}

std::optional<LengthUnit> lengthUnit(std::string_view word) {
  static const Term kWords[] = {
      {"mm", "millimetres, millimeters"}, {"m", "metres, meters"}, {"in", "inch, inches, ins, \""}, {"ft", "feet, '"}};
  const auto* found = std::find(std::begin(kLengthUnits), std::end(kLengthUnits), sameWord(word, kWords));
  if (found == std::end(kLengthUnits)) return std::nullopt;
  return static_cast<LengthUnit>(found - std::begin(kLengthUnits));
}

std::string saidIn(std::string_view text) {
  std::string said{text};
  for (const char* blank : {"\u00A0", "\u202F", "\r", "\n", "\t"}) replaceAll(said, blank, " ");
  said = trimmed(said);
  const std::string plain = plainWords(said);
  const bool nothing = said == "-" || said == "–" || said == "—" || plain == "n a" || plain == "nil";
  return nothing ? std::string{} : said;
}

std::string plainWords(std::string_view text) {
  std::string words;
  for (char c : plainSigns(text)) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    const bool letter = (c >= 'a' && c <= 'z') || isDigit(c) || (static_cast<unsigned char>(c) & 0x80U) != 0 ||
                        c == '"' || c == '\'' || c == '+';
    if (letter) {
      words += c;
    } else if (!words.empty() && words.back() != ' ') {
      words += ' ';
    }
  }
  return trimmed(words);
}

std::optional<double> numberIn(std::string_view text, bool decimal_comma) {
  return parsed(pointed(plainSigns(text), decimal_comma, false));
}

std::optional<double> lengthIn(std::string_view text, const Written& written) {
  std::string plain = plainSigns(text);
  for (char& c : plain) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  LengthUnit in = written.unit.value_or(LengthUnit::Millimetres);  // a unit in the field itself goes before it
  const std::string tail = plain.substr(plain.find_last_of("0123456789.,/ ") + 1);  // all of it where there is none
  const std::string before = trimmed(std::string_view(plain).substr(0, plain.size() - tail.size()));
  const bool in_feet = before.find_first_of("'f") != std::string::npos;  // feet stand before the last unit, inches
  if (in_feet) return practice::readLength(inchWords(plain));            // and so are fractions of an inch below
  if (const auto named = lengthUnit(tail)) {
    in = *named;
    plain = before;
  } else if (!tail.empty()) {
    return std::nullopt;
  }
  if (in == LengthUnit::Inches && plain.find('/') != std::string::npos) return practice::readLength(inchWords(plain));
  const bool small = in == LengthUnit::Millimetres;  // nobody groups thousands of a larger unit
  const std::string number = pointed(plain, written.decimal_comma, small);
  const auto value = parsed(number);
  if (!value) return std::nullopt;
  const auto point = number.find('.');
  const bool perhaps_metres =  // nobody measures a thousandth of a mm: "1.200" may be metres
      small && point != std::string::npos && number.size() - point == 4 && std::abs(*value) < 20;
  if (perhaps_metres) return std::nullopt;
  return *value * kMillimetres[static_cast<std::size_t>(in)];
}

std::optional<bool> yesOrNoIn(std::string_view text) {
  static const Term kWords[] = {{"yes", "y, true, 1, x, ✓, ✔"}, {"no", "n, false, 0, none"}};
  const Term* term = termOf(plainWords(text), kWords);
  return term == nullptr ? std::nullopt : std::optional(term->ours == "yes");
}

}  // namespace sillwright::exchange
