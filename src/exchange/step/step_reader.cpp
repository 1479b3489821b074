#include "exchange/step/step_reader.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <sstream>

#include "base/words.h"

namespace sillwright::exchange {

namespace {

constexpr std::size_t kPiece = std::size_t{1} << 18U;            // bytes read at a time
constexpr std::size_t kLongestHead = 100;                        // "#123=IFCWALL": what is longer is no instance
constexpr std::size_t kLongestBegin = 4'096;                     // bytes before the first semicolon
constexpr std::size_t kLongestInstance = std::size_t{1} << 26U;  // bytes; what is longer is passed over
constexpr std::size_t kMostInstances = 50'000'000;               // 0.8 GB of entries
constexpr std::size_t kMostValues = 2'000'000;                   // of an instance; the rest is passed over
constexpr int kDeepest = 32;                                     // of lists in lists

constexpr const char* kNoStep = "is no STEP file (ISO 10303-21), or only a part of one";

const StepValue kNothing;  // what an index past a list's end gives

bool isBlank(char c) { return c == ' ' || c == '\n' || c == '\r' || c == '\t'; }
bool isFigure(char c) { return c >= '0' && c <= '9'; }
bool isInWord(char c) {
  return isFigure(c) || c == '_' || c == '-' || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}
char capital(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }

std::uint32_t numberIn(std::string_view figures) {  // 0 where it is spoilt or too large: no instance has that
  std::uint32_t number = 0;
  std::from_chars(figures.data(), figures.data() + figures.size(), number);
  return number;
}

/// What a byte of a file is.
enum class Byte { Plain, Text, Aside, End };

/// Follows a file's bytes through its texts, comments and blanks to the ends of its statements.
struct Statements {
  bool in_text = false;
  bool in_comment = false;
  char before = '\0';  // comments begin and end with two characters

  Byte next(char c) {  // outside of texts a slash can only be a comment's
    const char last = std::exchange(before, c);
    if (in_comment) {
      if (last == '*' && c == '/') in_comment = false, before = '\0';  // the / of */ begins no other comment
      return Byte::Aside;
    }
    if (c == '\'') in_text = !in_text;  // a doubled quote ends the text and begins it again
    if (in_text || c == '\'') return Byte::Text;
    if (last == '/' && c == '*') in_comment = true, before = '\0';
    if (c == ';') return Byte::End;
    return in_comment || c == '/' || isBlank(c) ? Byte::Aside : Byte::Plain;
  }
};

/// The values of one instance's text, which has neither comments nor blanks between its values.
struct Parser {
  std::string_view text;
  std::size_t at = 0;
  std::size_t values = 0;

  StepInstance instance() {
    StepInstance instance;
    while (!ended() && text[at] != '=') ++at;  // its number is known already
    ++at;
    while (!ended() && isInWord(text[at])) instance.type += capital(text[at++]);
    if (take('(')) instance.values = list(0);
    return instance;
  }

  [[nodiscard]] bool ended() const { return at >= text.size(); }
  bool take(char c) {
    if (ended() || text[at] != c) return false;
    ++at;
    return true;
  }

  StepValue list(int depth) {
    StepValue value;
    value.kind = StepValue::Kind::List;
    while (!ended() && !take(')')) {
      if (!take(',')) value.items.push_back(one(depth + 1));  // values without a comma between are read all the same
    }
    return value;
  }

  /// At least one byte further on.
  StepValue one(int depth) {
    StepValue value;
    if (++values > kMostValues) at = text.size() - 1;  // not the end: a byte is taken each time
    const char c = text[at];
    if (c == '(' && depth < kDeepest) {  // deeper brackets are passed over byte by byte
      ++at;
      return list(depth);
    }
    if (c == '\'') {
      value.kind = StepValue::Kind::Text;
      value.text = textHere();
    } else if (c == '#') {
      value.kind = StepValue::Kind::Reference;
      value.reference = numberIn(run([](char each) { return isFigure(each); }));
    } else if (c == '.' && at + 1 < text.size() && !isFigure(text[at + 1])) {  // .5 is a number
      value.kind = StepValue::Kind::Word;
      value.text = run([](char each) { return isInWord(each); });
      take('.');
    } else if (isFigure(c) || c == '-' || c == '+' || c == '.') {
      return numberHere();
    } else if (isInWord(c)) {
      run([](char each) { return isInWord(each); });  // a typed value: what it is of follows in brackets
      if (take('(')) return list(depth)[0];
    } else {
      ++at;
    }
    return value;
  }

  /// The byte here is passed over, and what follows of such bytes is given.
  template <class Is>
  std::string_view run(Is is) {
    const std::size_t from = ++at;
    while (!ended() && is(text[at])) ++at;
    return text.substr(from, at - from);
  }

  StepValue numberHere() {  // a value that is nothing where there is no number
    StepValue value;
    if (text[at] == '+') ++at;  // from_chars takes no plus
    const auto [end, error] = std::from_chars(text.data() + at, text.data() + text.size(), value.number);
    at = std::max(at + 1, static_cast<std::size_t>(end - text.data()));  // at least a byte on, or it would never end
    if (error == std::errc{} && std::isfinite(value.number)) value.kind = StepValue::Kind::Number;
    return value;
  }

  std::string textHere() {
    std::string out;
    for (++at; !ended();) {
      if (take('\'')) {
        if (!take('\'')) break;  // one quote ends the text, two are one of it
        out += '\'';
      } else if (!escape(out)) {
        out += text[at++];
      }
    }
    return out;
  }

  std::optional<char32_t> hex(std::size_t figures) {  // empty where there are not so many
    unsigned code = 0;
    const std::string_view digits = text.substr(at, figures);
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), code, 16);
    if (digits.size() < figures || error != std::errc{} || end != digits.data() + figures) return std::nullopt;
    at += figures;
    return code;
  }

  /// \\, \X\hh, \S\c (of Latin 1), \X2\ and \X4\ until \X0\.
  bool escape(std::string& out) {
    const std::string_view rest = text.substr(at);
    if (rest.starts_with("\\\\")) {
      at += 2;
      out += '\\';
      return true;
    }
    if (rest.starts_with("\\S\\") && rest.size() > 3) {
      base::appendUtf8(out, static_cast<unsigned char>(rest[3]) % 128U + 128U);
      at += 4;
      return true;
    }
    const bool byte = rest.starts_with("\\X\\"), two = rest.starts_with("\\X2\\"), four = rest.starts_with("\\X4\\");
    if (!byte && !two && !four) return false;
    at += byte ? 3 : 4;
    while (const auto code = hex(byte ? 2 : two ? 4 : 8)) {
      appendCode(out, *code);
      if (byte) return true;
    }
    if (text.substr(at).starts_with("\\X0\\")) at += 4;  // a text that was cut short may lack it
    return true;
  }

  /// Pairs of UTF-16 are put together; a half that stands alone becomes "?".
  void appendCode(std::string& out, char32_t code) {
    if (code >= 0xD800 && code < 0xDC00) {
      const auto second = hex(4);
      code = second && *second >= 0xDC00 && *second < 0xE000 ? 0x10000 + ((code - 0xD800) << 10U) + (*second - 0xDC00)
                                                             : U'?';
    }
    base::appendUtf8(out, code > 0x10FFFF || (code >= 0xD800 && code < 0xE000) ? U'?' : code);
  }
};

void appendHex(std::string& out, char32_t code, unsigned figures) {
  for (unsigned i = figures; i-- > 0;) out += "0123456789ABCDEF"[code >> (4 * i) & 15U];
}

}  // namespace

const StepValue& StepValue::operator[](std::size_t index) const {
  return index < items.size() ? items[index] : kNothing;
}

StepFile::StepFile(std::istream& in, std::string_view types) : in_(in) {
  std::istringstream words{std::string(types)};
  for (std::string type; words >> type;) of_[type];  // `of` must find each, though the file has none
  std::string piece(kPiece, '\0'), head;
  Statements statements;
  std::uint64_t at = 0, start = 0, schema_at = 0;
  bool in_head = true, first = true;  // a statement's head ends at its first bracket
  while (fault_.empty() && (in_.read(piece.data(), static_cast<std::streamsize>(piece.size())), in_.gcount() > 0)) {
    const std::string_view read(piece.data(), static_cast<std::size_t>(in_.gcount()));
    for (std::size_t i = 0; i < read.size() && fault_.empty(); ++i, ++at) {
      const char c = read[i];
      if (first && at > kLongestBegin) fault_ = kNoStep;  // no other file is read to its end
      const Byte byte = statements.next(c);
      if (byte == Byte::End) {
        if (std::exchange(first, false) && head != "ISO-10303-21") fault_ = kNoStep;
        if (head == "FILE_SCHEMA") schema_at = start;
        note(head, start);
        head.clear();
        in_head = true;
      } else if (byte == Byte::Plain && in_head) {
        if (head.empty()) start = at;
        if (c == '(' || head.size() > kLongestHead)
          in_head = false;
        else
          head += capital(c);
      }
    }
  }
  if (schema_at > 0) schema_ = textAt(schema_at);  // afterwards, for it moves in the file
  if (fault_.empty() && schema_.empty()) fault_ = kNoStep;
  const auto before = [](const Entry& a, const Entry& b) { return a.number < b.number; };  // a file has any order
  // Of a number that stands twice the first is found.
  std::stable_sort(entries_.begin(), entries_.end(), before);
}

void StepFile::note(std::string_view head, std::uint64_t offset) {
  const std::size_t equals = head.find('=');
  if (!head.starts_with('#') || equals == std::string_view::npos) return;
  if (entries_.size() >= kMostInstances) return void(fault_ = "has more than 50 million instances");
  entries_.push_back({numberIn(head.substr(1, equals - 1)), offset});
  if (const auto found = of_.find(head.substr(equals + 1)); found != of_.end())
    found->second.push_back(entries_.back().number);
}

const std::vector<std::uint32_t>& StepFile::of(std::string_view type) const { return of_.find(type)->second; }

StepInstance StepFile::at(std::uint32_t number) {
  const auto found = std::lower_bound(entries_.begin(), entries_.end(), number,
                                      [](const Entry& entry, std::uint32_t wanted) { return entry.number < wanted; });
  if (number == 0 || found == entries_.end() || found->number != number) return {};
  const std::string text = textAt(found->offset);
  return Parser{text}.instance();
}

std::string StepFile::textAt(std::uint64_t offset) {
  in_.clear();  // it stands at the file's end, which it takes for a fault
  in_.seekg(static_cast<std::streamoff>(offset));
  std::string text;
  std::array<char, 512> piece{};  // most instances are shorter
  Statements statements;
  while (text.size() < kLongestInstance) {
    in_.read(piece.data(), piece.size());
    for (std::streamsize i = 0; i < in_.gcount(); ++i) {
      const char c = piece[static_cast<std::size_t>(i)];
      const Byte byte = statements.next(c);
      if (byte == Byte::End) return text;
      if (byte != Byte::Aside) text += c;
    }
    if (in_.gcount() < static_cast<std::streamsize>(piece.size())) return text;  // the file was cut short
  }
  return {};
}

std::string stepText(std::string_view utf8) {
  std::string out = "'";
  while (!utf8.empty()) {
    const std::size_t size = base::utf8Size(utf8);
    const char32_t code = base::codePoint(utf8);
    const bool wide = code > 0xFFFF;  // \X2\ has four figures each, \X4\ eight
    if (code >= 0x20 && code < 0x7F) {
      out += static_cast<char>(code);
      if (code == U'\'' || code == U'\\') out += static_cast<char>(code);
    } else {
      out += wide ? "\\X4\\" : "\\X2\\";
      appendHex(out, code, wide ? 8 : 4);
      out += "\\X0\\";
    }
    utf8.remove_prefix(size == 0 ? 1 : size);  // codePoint made a "?" of a byte that is no character
  }
  return out + "'";
}

std::string stepReal(double number) {       // a negative zero is written as 0
  number = std::round(number * 1e4) / 1e4;  // ifc.cpp tells readers this precision
  std::array<char, 64> room{};
  const auto end =
      std::to_chars(room.data(), room.data() + room.size(), number == 0 ? 0.0 : number, std::chars_format::fixed);
  std::string out(room.data(), end.ptr);
  if (out.find('.') == std::string::npos) out += '.';
  return out;
}

std::string stepList(const std::vector<std::string>& values) { return base::joined(values, ","); }

std::string StepWriter::add(std::string_view pattern, std::initializer_list<std::string_view> values) {
  std::string name = "#" + std::to_string(++last_);
  text_ += name + "=";
  const auto* value = values.begin();  // there must be one for each %
  for (const char c : pattern) {
    if (c == '%')
      text_ += *value++;
    else
      text_ += c;
  }
  text_ += ";\n";
  return name;
}

}  // namespace sillwright::exchange
