/// The fields of a window schedule's row as figures, words and names, and what is wrong with them.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <span>
#include <string>
#include <utility>

#include "base/words.h"
#include "exchange/csv.h"
#include "exchange/office/schedule_terms.h"
#include "exchange/schedule.h"
#include "job/tables.h"
#include "takeoff/order.h"

namespace sillwright::exchange {

namespace order = takeoff::column;

/// Lengths whose unit a schedule may leave to its reader; glass and sections are in mm then.
inline constexpr std::string_view kPlaces[] = {order::kLeft,
                                               order::kSill,
                                               column::kHead,
                                               order::kFramedWidth,
                                               order::kFramedHeight,
                                               order::kUnitWidth,
                                               order::kUnitHeight,
                                               column::kUnitSize,
                                               column::kUnitSizeTurned,
                                               column::kFramedSize,
                                               column::kFramedSizeTurned};

inline bool isAmong(std::string_view name, std::span<const std::string_view> names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// Columns of two sizes: each tells one of our sizes by its first or its second figure.
struct InPair {
  std::string_view size, column;
  std::size_t part;
};
inline constexpr InPair kPairs[] = {
    {order::kUnitWidth, column::kUnitSize, 0},      {order::kUnitWidth, column::kUnitSizeTurned, 1},
    {order::kUnitHeight, column::kUnitSize, 1},     {order::kUnitHeight, column::kUnitSizeTurned, 0},
    {order::kFramedWidth, column::kFramedSize, 0},  {order::kFramedWidth, column::kFramedSizeTurned, 1},
    {order::kFramedHeight, column::kFramedSize, 1}, {order::kFramedHeight, column::kFramedSizeTurned, 0}};

/// "1200 x 900": one of the two, with the unit that stands behind both.
inline std::string partOf(const std::string& text, std::size_t part) {
  std::string lower = text;
  for (const std::string_view sign : {"×", "X", "*"}) {
    for (auto at = lower.find(sign); at != std::string::npos; at = lower.find(sign))
      lower.replace(at, sign.size(), "x");
  }
  const auto cross = lower.find('x');
  if (cross == std::string::npos) return text;
  const std::string second = saidIn(std::string_view(lower).substr(cross + 1));
  if (part == 1) return second;
  const std::string first = saidIn(std::string_view(lower).substr(0, cross));
  const auto unit = second.find_last_of("0123456789 ");
  const bool bare =
      !first.empty() && first.back() >= '0' && first.back() <= '9' && first.find('\'') == std::string::npos;
  return bare && unit != std::string::npos ? first + second.substr(unit + 1) : first;
}

/// What the job file lets a key of a table hold.
template <class Table>
const job::Holds& holdsOf(std::string_view key) {
  return job::tableOf<Table>().at(key);
}

/// Reads the fields of one row after the other, of a schedule or of measurements.
class ScheduleFields {
 protected:
  ScheduleFields(const Grid& grid, ScheduleFor target) : grid_(grid), rows_(grid.rows), target_(std::move(target)) {}

  static constexpr std::size_t kMostErrors = 1'000;

  void fail(base::Place at, std::string key, std::string say) {
    if (errors_.size() < kMostErrors) errors_.push_back({grid_.file, at, std::move(key), std::move(say)});
  }

  [[nodiscard]] std::string rowWords() const { return "row " + std::to_string(row_ + 1); }

  void failAt(std::string_view name, std::string say) {
    const CsvField* field = fieldOf(name);
    const base::Place at = field != nullptr ? field->at : rows_[row_].front().at;
    const auto column = heading_.find(name);
    const std::string called = column ? heading_.columns[*column].heading : std::string(name);
    fail(at, rowWords() + ", " + called, std::move(say));
  }

  /// Whether a column or a person tells it.
  [[nodiscard]] bool tells(std::string_view name) const {
    return heading_.find(name) || !forAll(name).empty() ||
           std::any_of(std::begin(kPairs), std::end(kPairs),
                       [&](const InPair& pair) { return pair.size == name && tells(pair.column); });
  }

  [[nodiscard]] std::string headWords() const { return "row " + std::to_string(heading_.row + 1); }

  void askAboutColumns() {
    for (const Column& column : heading_.columns) {
      if (column.asks.empty()) continue;
      fail(column.at, headWords(), "column " + base::quote(column.heading) + ": " + column.asks);
    }
  }

  /// Whether columns and a person tell all that openings need.
  bool checkHeading() {
    askAboutColumns();
    if (!errors_.empty()) return false;
    const base::Place at = rows_[heading_.row].empty() ? base::Place{} : rows_[heading_.row].front().at;
    const auto need = [&](bool told, std::string_view name, const char* how = "") {
      if (!told) fail(at, headWords(), "column " + base::quote(name) + " is missing" + how);
    };
    need(tells(order::kOpening), order::kOpening);
    need(tells(order::kKind) || tells(order::kLights), order::kKind);
    need(tells(order::kWall), order::kWall, ", and no wall is named for all");
    need(tells(order::kLeft) || target_.side_by_side, order::kLeft,
         "; --side-by-side sets the openings one after the other");
    need(tells(order::kSill) || tells(column::kHead), order::kSill, "; --set sill=900 tells it for all");
    for (const auto& [framed, unit] :
         {std::pair(order::kFramedWidth, order::kUnitWidth), std::pair(order::kFramedHeight, order::kUnitHeight)}) {
      const bool either = tells(framed) || tells(unit);
      if (either && target_.practice != nullptr) continue;  // one follows from the other
      const char* how = either ? "; with --job or --practice it follows by the usual gaps" : "";
      need(tells(framed), framed, how);
      need(tells(unit), unit, how);
    }
    return errors_.empty();
  }

  /// An answer that fits nothing is a slip of the person's.
  void checkAnswers() {
    for (const Answer& answer : target_.map) {
      if (!answer.used) fail({}, "--map", "no column and no field says " + base::quote(answer.theirs));
    }
    const Terms terms = officeWords().columns;
    for (const Answer& answer : target_.all) {
      const bool known = std::any_of(terms.begin(), terms.end(), [&](const Term& term) {
        return term.asks.empty() && term.ours == plainWords(answer.theirs);
      });
      if (!known) fail({}, "--set", "there is no column " + base::quote(answer.theirs));
    }
  }

  [[nodiscard]] std::string forAll(std::string_view name) const {
    if (name == order::kWall && !target_.wall.empty()) return target_.wall;
    const auto found = std::find_if(target_.all.begin(), target_.all.end(),
                                    [&](const Answer& each) { return plainWords(each.theirs) == name; });
    return found == target_.all.end() ? std::string{} : found->ours;
  }

  [[nodiscard]] const CsvField* fieldOf(std::string_view name) const {
    const auto at = heading_.find(name);
    return at && *at < rows_[row_].size() ? &rows_[row_][*at] : nullptr;
  }

  [[nodiscard]] std::string textOf(std::string_view name) const {
    const CsvField* field = fieldOf(name);
    std::string text = field == nullptr ? std::string{} : saidIn(field->text);
    return text.empty() ? forAll(name) : text;
  }

  [[nodiscard]] Written writtenIn(std::string_view name) const {
    const auto at = heading_.find(name);
    Written written{at ? heading_.columns[*at].unit : std::nullopt, grid_.decimal_comma};
    if (!written.unit && isAmong(name, kPlaces)) written.unit = target_.unit;
    return written;
  }

  /// What else a figure of mm may be that names no unit, under a heading that isn't ours: "metres", where it is small
  /// and has decimals; "inches", where the practice's people write them so. Empty: nothing.
  [[nodiscard]] std::string otherUnit(std::string_view name, const std::string& text) const {
    const auto at = heading_.find(name);
    const bool ours = at && heading_.columns[*at].heading == name;
    const bool bare = text.find_first_not_of("0123456789.,/ ") == std::string::npos;
    if (ours || !bare || !isAmong(name, kPlaces) || writtenIn(name).unit) return {};
    const bool inches = target_.practice != nullptr && target_.practice->display == practice::Display::InchFractions;
    if (inches || (at && heading_.columns[*at].in_feet)) return "inches";
    auto value = lengthIn(text, writtenIn(name));
    if (!value) value = numberIn(text, grid_.decimal_comma);
    return value && *value < 20 && *value != std::floor(*value) ? "metres" : "";
  }

  /// What tells a figure: its own column, or of a size one that has two.
  struct Told {
    std::string_view by;
    std::string text;
  };
  [[nodiscard]] Told told(std::string_view name) const {
    std::string own = textOf(name);
    for (const InPair& pair : kPairs) {
      if (!own.empty() || pair.size != name) continue;
      if (const std::string both = textOf(pair.column); !both.empty()) return {pair.column, partOf(both, pair.part)};
    }
    return {name, std::move(own)};
  }

  /// A number within the job file's bounds, or nothing; what is needed and empty is a mistake.
  std::optional<double> number(std::string_view of, const job::Holds& holds, bool needed) {
    const auto [name, text] = told(of);
    if (text.empty()) {
      if (needed || name != of) failAt(name, "empty; must be " + job::describe(holds));
      return std::nullopt;
    }
    if (const std::string unit = otherUnit(name, text); !unit.empty()) {
      failAt(name, base::quote(text) + ": mm or " + unit + "? --unit says it for all");
      return std::nullopt;
    }
    const bool length = holds.unit == "mm";
    std::string_view bare = text;  // of a mass the unit may stand behind it, as it does behind a length
    if (!holds.unit.empty() && bare.ends_with(holds.unit)) bare.remove_suffix(holds.unit.size());
    const auto value = length ? lengthIn(text, writtenIn(name)) : numberIn(bare, grid_.decimal_comma);
    const bool whole = !value || holds.form != job::Form::Whole || *value == std::floor(*value);
    if (!value || !(*value >= holds.from && *value <= holds.to) || !whole) {
      failAt(name, "must be " + job::describe(holds) + ", found " + base::quote(text));
      return std::nullopt;
    }
    return std::round(*value * 1e4) / 1e4;
  }

  /// A person's answer for a text, as it was said; nullptr: none.
  [[nodiscard]] const std::string* answerFor(const std::string& text) {
    for (Answer& answer : target_.map) {
      if (plainWords(answer.theirs) != plainWords(text) || answer.ours.empty()) continue;
      answer.used = true;
      return &answer.ours;
    }
    return nullptr;
  }

  /// Our word for a text: as it stands, by a person's answer, or by the table of usual words.
  std::string ours(const std::string& text, Terms terms) {
    if (const std::string* answer = answerFor(text)) return plainWords(*answer);
    const std::string_view word = ourWord(text, terms);
    return word.empty() ? plainWords(text) : std::string(word);
  }

  /// The mistake of a text that is none of our words.
  void failWord(std::string_view name, const std::string& text, const std::string& meant,
                std::span<const std::string_view> words) {
    const job::Holds holds{.form = job::Form::Word, .words = words};
    std::string say = "must be " + job::describe(holds) + ", found " + (text.empty() ? "nothing" : base::quote(text));
    if (const auto near = base::nearest(meant, words); !near.empty())
      say.append("; did you mean ").append(near).append("?");
    failAt(name, std::move(say));
  }

  template <class Word>
  std::optional<Word> word(std::string_view name, std::span<const std::string_view> words, bool needed,
                           Terms terms = {}) {
    const std::string text = textOf(name);
    if (text.empty() && !needed) return std::nullopt;
    const std::string meant = ours(text, terms);
    const auto is = oneOf<Word>(words, meant);
    if (!is) failWord(name, text, meant, words);
    return is;
  }

  /// Both or neither.
  template <class Table>
  std::optional<std::array<double, 2>> pair(const char* first, const char* first_key, const char* second,
                                            const char* second_key) {
    if (textOf(first).empty() && textOf(second).empty()) return std::nullopt;
    const auto a = number(first, holdsOf<Table>(first_key), true);
    const auto b = number(second, holdsOf<Table>(second_key), true);
    return a && b ? std::optional(std::array{*a, *b}) : std::nullopt;
  }

  /// A name in quotes is taken as it stands, blanks at its ends too; a job's names may have such.
  [[nodiscard]] std::string nameOf(std::string_view of) const {
    const CsvField* field = fieldOf(of);
    const bool as_it_stands = field != nullptr && field->quoted && !saidIn(field->text).empty();
    return as_it_stands ? field->text : textOf(of);
  }

  std::string name(std::string_view of, std::string text) {
    if (text.empty()) {
      failAt(of, "empty; a name is needed");
    } else if (base::holdsControls(text) || static_cast<double>(base::countCharacters(text)) > job::kLongestName) {
      failAt(of, "a name is at most 100 characters on one line, found " + base::quote(text));
    }
    return text;
  }

  std::optional<bool> yesOrNo(const char* name) {
    const std::string text = textOf(name);
    if (text.empty()) return std::nullopt;
    const auto said = yesOrNoIn(text);
    if (!said) failAt(name, "must be yes or no, found " + base::quote(text));
    return said;
  }

  /// A text on one line, or nothing.
  std::optional<std::string> line(const char* name, const job::Holds& holds) {
    std::string text = textOf(name);
    if (text.empty()) return std::nullopt;
    if (base::holdsControls(text) || static_cast<double>(base::countCharacters(text)) > holds.to) {
      failAt(name, "must be " + job::describe(holds) + ", found " + base::quote(text));
    }
    return text;
  }

  const Grid& grid_;
  const std::vector<CsvRow>& rows_;
  ScheduleFor target_;
  Heading heading_;
  std::size_t row_ = 0;
  std::vector<base::Error> errors_;
};

}  // namespace sillwright::exchange
