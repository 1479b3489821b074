#include "exchange/schedule.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <utility>

#include "base/words.h"
#include "document/edits.h"
#include "exchange/csv.h"
#include "exchange/office/schedule_terms.h"
#include "job/rewrite.h"
#include "job/tables.h"
#include "takeoff/order.h"
#include "words/text.h"

namespace sillwright::exchange {
namespace {

namespace order = takeoff::column;

constexpr double kBetween = 300;  // openings set side by side, mm; common practice, no source
constexpr double kMostOfOne = 1'000;

/// Lengths whose unit a schedule may leave to its reader; glass and sections are in mm then.
constexpr std::string_view kPlaces[] = {order::kLeft,
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

bool isAmong(std::string_view name, std::span<const std::string_view> names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// Columns of two sizes: each tells one of our sizes by its first or its second figure.
struct InPair {
  std::string_view size, column;
  std::size_t part;
};
constexpr InPair kPairs[] = {
    {order::kUnitWidth, column::kUnitSize, 0},      {order::kUnitWidth, column::kUnitSizeTurned, 1},
    {order::kUnitHeight, column::kUnitSize, 1},     {order::kUnitHeight, column::kUnitSizeTurned, 0},
    {order::kFramedWidth, column::kFramedSize, 0},  {order::kFramedWidth, column::kFramedSizeTurned, 1},
    {order::kFramedHeight, column::kFramedSize, 1}, {order::kFramedHeight, column::kFramedSizeTurned, 0}};

/// "1200 x 900": one of the two, with the unit that stands behind both.
std::string partOf(const std::string& text, std::size_t part) {
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

/// "W1, W2 & W3": the names, where there are as many.
std::vector<std::string> namesIn(const std::string& text, std::size_t count) {
  if (count == 1) return {text};
  std::vector<std::string> names;
  std::size_t from = 0;
  while (from <= text.size()) {
    const auto to = std::min(text.find_first_of(",/&;", from), text.size());
    names.push_back(saidIn(std::string_view(text).substr(from, to - from)));
    from = to + 1;
  }
  if (names.size() == count) return names;
  names.clear();
  for (std::size_t i = 0; i < count; ++i) names.push_back(text + "-" + std::to_string(i + 1));
  return names;
}

/// What the job file lets a key of a table hold.
template <class Table>
const job::Holds& holdsOf(std::string_view key) {
  return job::tableOf<Table>().at(key);
}

class ScheduleReader {
 public:
  ScheduleReader(const Grid& grid, ScheduleFor target) : grid_(grid), rows_(grid.rows), target_(std::move(target)) {
    if (target_.job == nullptr) return;
    for (const auto& wall : target_.job->walls) known_walls_.push_back(wall.name);
    for (const auto& opening : target_.job->openings) names_.insert(opening.name);
  }

  ScheduleReading run() {
    ScheduleReading reading;
    reading.heading = headingOf(grid_, scheduleTerms(), target_.map);
    if (!reading.heading) {
      errors_.push_back({grid_.file, {}, {}, "no header row: no row names two columns or more"});
    } else {
      heading_ = *reading.heading;
      reading.samples = samples();
      if (checkHeading()) {
        readRows();
        checkAnswers();
        tellTaken();
      }
    }
    if (errors_.empty()) {
      reading.schedule.value = std::move(schedule_);
    } else {
      std::stable_sort(errors_.begin(), errors_.end(), [](const base::Error& a, const base::Error& b) {
        return std::pair(a.at.line, a.at.column) < std::pair(b.at.line, b.at.column);
      });
      reading.schedule.errors = std::move(errors_);
    }
    return reading;
  }

 private:
  static constexpr std::size_t kMostErrors = 1'000;
  static constexpr std::size_t kMostNotes = 50;

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

  void note(std::string say) {
    if (schedule_.notes.size() < kMostNotes) schedule_.notes.push_back(std::move(say));
  }

  // The heading.

  std::vector<std::string> samples() const {
    std::vector<std::string> texts(heading_.columns.size());
    for (std::size_t row = heading_.row + 1; row < rows_.size(); ++row) {
      if (rows_[row].size() < 2) continue;  // a title between rows
      for (std::size_t i = 0; i < std::min(texts.size(), rows_[row].size()); ++i) {
        if (texts[i].empty()) texts[i] = saidIn(rows_[row][i].text);
      }
    }
    return texts;
  }

  bool checkHeading() {
    const std::string key = "row " + std::to_string(heading_.row + 1);
    bool asks = false;
    for (const Column& column : heading_.columns) {
      if (column.asks.empty()) continue;
      asks = true;
      fail(column.at, key, "column " + base::quote(column.heading) + ": " + column.asks);
    }
    const base::Place at = rows_[heading_.row].empty() ? base::Place{} : rows_[heading_.row].front().at;
    if (asks) return false;
    const auto lacks = [&](std::string_view name, const char* how) {
      fail(at, key, "column " + base::quote(name) + " is missing" + how);
    };
    for (const char* name : {order::kOpening, order::kKind}) {
      if (!tells(name)) lacks(name, "");
    }
    if (!tells(order::kWall) && target_.wall.empty()) lacks(order::kWall, ", and no wall is named for all");
    if (!tells(order::kLeft) && !target_.side_by_side)
      lacks(order::kLeft, "; --side-by-side sets the openings one after the other");
    if (!tells(order::kSill) && !tells(column::kHead)) lacks(order::kSill, "; --set sill=900 tells it for all");
    checkSizes(order::kFramedWidth, order::kUnitWidth, lacks);
    checkSizes(order::kFramedHeight, order::kUnitHeight, lacks);
    return errors_.empty();
  }

  template <class Lacks>
  void checkSizes(std::string_view framed, std::string_view unit, const Lacks& lacks) {
    const bool has_framed = tells(framed);
    const bool has_unit = tells(unit);
    if (has_framed == has_unit) {
      if (!has_framed) {
        lacks(framed, "");
        lacks(unit, "");
      }
    } else if (target_.practice == nullptr) {
      lacks(has_framed ? unit : framed, "; with --job or --practice it follows by the usual gaps");
    }
  }

  /// Whether a column or a person tells it.
  [[nodiscard]] bool tells(std::string_view name) const {
    return heading_.find(name) || !forAll(name).empty() ||
           std::any_of(std::begin(kPairs), std::end(kPairs),
                       [&](const InPair& pair) { return pair.size == name && tells(pair.column); });
  }

  /// An answer that fits nothing is a slip of the person's.
  void checkAnswers() {
    for (const Answer& answer : target_.map) {
      if (answer.used) continue;
      fail({}, "--map", "no column and no field says " + base::quote(answer.theirs));
    }
    for (const Answer& answer : target_.all) {
      const Terms terms = scheduleTerms();
      const bool known = std::any_of(terms.begin(), terms.end(), [&](const Term& term) {
        return term.asks.empty() && term.ours == plainWords(answer.theirs);
      });
      if (!known) fail({}, "--set", "there is no column " + base::quote(answer.theirs));
    }
  }

  /// What no row tells, and what was taken in its place.
  void tellTaken() {
    if (set_beside_ > 0) {
      schedule_.taken.push_back("no place is told for " + words::count(set_beside_, "opening") +
                                ": side by side, to be moved");
    }
    if (by_gaps_ > 0) {
      schedule_.taken.push_back("one size is told in " + words::count(by_gaps_, "row") +
                                ": the other follows by the usual gaps of the rule set");
    }
    if (hand_by_letter_) schedule_.taken.push_back("hands are taken as seen from outside");
  }

  // Fields.

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
    if (target_.practice != nullptr && target_.practice->display == practice::Display::InchFractions) return "inches";
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
    const auto value = length ? lengthIn(text, writtenIn(name)) : numberIn(text, grid_.decimal_comma);
    const bool whole = !value || holds.form != job::Form::Whole || *value == std::floor(*value);
    if (!value || !(*value >= holds.from && *value <= holds.to) || !whole) {
      failAt(name, "must be " + job::describe(holds) + ", found " + base::quote(text));
      return std::nullopt;
    }
    return std::round(*value * 1e4) / 1e4;
  }

  /// Our word for a text: as it stands, by a person's answer, or by the table of usual words.
  std::string ours(const std::string& text, Terms terms) {
    for (Answer& answer : target_.map) {
      if (plainWords(answer.theirs) != plainWords(text) || answer.ours.empty()) continue;
      answer.used = true;
      return plainWords(answer.ours);
    }
    const std::string_view word = ourWord(text, terms);
    return word.empty() ? plainWords(text) : std::string(word);
  }

  template <class Word, std::size_t N>
  std::optional<Word> word(std::string_view name, const std::string_view (&words)[N], bool needed, Terms terms = {}) {
    const std::string text = textOf(name);
    if (text.empty() && !needed) return std::nullopt;
    const std::string meant = ours(text, terms);
    const auto* at = std::find(std::begin(words), std::end(words), meant);
    if (at != std::end(words)) return static_cast<Word>(at - std::begin(words));
    job::Holds holds{.form = job::Form::Word, .words = words};
    std::string say = "must be " + job::describe(holds) +
                      (text.empty() ? std::string(", found nothing") : ", found " + base::quote(text));
    if (const auto near = base::nearest(meant, words); !near.empty())
      say.append("; did you mean ").append(near).append("?");
    failAt(name, std::move(say));
    return std::nullopt;
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

  // Rows.

  void readRows() {
    bool any = false;
    for (row_ = heading_.row + 1; row_ < rows_.size(); ++row_) {
      if (rows_[row_].empty() || isHeadingAgain()) continue;
      if (saysNothing()) {
        note(rowWords() + " is passed over, it has no size and no kind: " + base::quote(firstSaid()));
        continue;
      }
      any = true;
      readOpening();
      if (schedule_.openings.size() > job::kMostOpenings) {
        fail({}, {}, "too many openings: a job has at most " + std::to_string(job::kMostOpenings));
        return;
      }
    }
    if (!any) fail({}, {}, "no openings: there is no row below the header");
    for (const Column& column : heading_.columns) {
      if (column.ours.empty() && !column.heading.empty())
        note("column " + base::quote(column.heading) + " is passed over");
    }
  }

  [[nodiscard]] std::string firstSaid() const {
    std::string said;
    for (std::size_t i = 0; i < rows_[row_].size() && said.empty(); ++i) said = saidIn(rows_[row_][i].text);
    return said;
  }

  /// A page's header once more.
  [[nodiscard]] bool isHeadingAgain() const {
    const CsvRow& row = rows_[row_];
    const CsvRow& head = rows_[heading_.row];
    return row.size() == head.size() && std::equal(row.begin(), row.end(), head.begin(),
                                                   [](const auto& a, const auto& b) { return a.text == b.text; });
  }

  /// A title between rows, a total, a remark.
  [[nodiscard]] bool saysNothing() const {
    const auto said = [&](std::string_view name) {
      const CsvField* field = fieldOf(name);
      return field != nullptr && !saidIn(field->text).empty();
    };
    return !said(order::kKind) && std::none_of(std::begin(kPlaces), std::end(kPlaces), said);
  }

  void readOpening() {
    const std::size_t width = rows_[heading_.row].size();
    if (rows_[row_].size() > std::max(width, heading_.columns.size())) {
      fail(rows_[row_][heading_.columns.size()].at, rowWords(),
           "has " + std::to_string(rows_[row_].size()) + " fields, the header " + std::to_string(width));
    }
    const std::size_t count = quantity();
    if (count == 0) return;
    job::Opening opening;
    opening.wall = wallIndex(name(order::kWall, nameOf(order::kWall)));
    readPlace(opening, count);
    readRoom(opening);
    readUnit(opening.unit);
    readSizes(opening);
    opening.sill = sill(opening.height);
    opening.place = rows_[row_].front().at;
    for (const std::string& one : namesIn(nameOf(order::kOpening), count)) put(opening, name(order::kOpening, one));
  }

  void put(job::Opening opening, const std::string& as) {
    opening.name = as;
    if (!as.empty() && !names_.insert(as).second) {
      failAt(order::kOpening,
             "a second opening named " + base::quote(as) + (target_.job != nullptr ? ", here or in the job" : ""));
    }
    if (!placed_) opening.left = besideOthers(opening);
    schedule_.openings.push_back(std::move(opening));
  }

  std::size_t quantity() {
    const double count = number(order::kQuantity, job::whole(0, kMostOfOne), false).value_or(1);
    if (count == 0) note(rowWords() + " is passed over, its quantity is 0");
    return static_cast<std::size_t>(count);
  }

  void readPlace(job::Opening& opening, std::size_t count) {
    const bool told = !textOf(order::kLeft).empty();
    placed_ = told || !target_.side_by_side;
    if (placed_ && count > 1) {
      failAt(order::kQuantity, std::to_string(count) + " openings can't stand at one place: give each its row");
    }
    if (placed_) opening.left = number(order::kLeft, holdsOf<job::Opening>("left"), true).value_or(0);
  }

  /// To the right of the last opening on its wall, of the job or of this schedule.
  double besideOthers(const job::Opening& opening) {
    auto [at, fresh] = wall_ends_.emplace(opening.wall, 0.0);
    if (fresh && target_.job != nullptr) {
      for (const job::Opening& other : target_.job->openings) {
        if (target_.job->walls[other.wall].name == schedule_.walls[opening.wall])
          at->second = std::max(at->second, other.left + other.width);
      }
    }
    const double left = std::min(at->second + kBetween, job::kLongestWall);
    at->second = left + opening.width;
    ++set_beside_;
    return left;
  }

  void readRoom(job::Opening& opening) {
    const std::string text = textOf(order::kRoom);
    if (text.empty()) return;
    const std::string meant = ours(text, roomTerms());
    const auto* at = std::find(std::begin(job::kRoomWords), std::end(job::kRoomWords), meant);
    if (at != std::end(job::kRoomWords)) opening.room = static_cast<job::Room>(at - std::begin(job::kRoomWords));
    if (plainWords(text) == meant && opening.room) return;
    opening.tag = line(order::kRoom, holdsOf<job::Opening>("tag"));
    if (!opening.room) note(rowWords() + ": " + base::quote(text) + " is no kind of room; it is the opening's tag");
  }

  /// The one that isn't told follows from the other.
  void readSizes(job::Opening& opening) {
    const std::size_t mistakes = errors_.size();
    const auto framed_width = number(order::kFramedWidth, holdsOf<job::Opening>("width"), false);
    const auto framed_height = number(order::kFramedHeight, holdsOf<job::Opening>("height"), false);
    const auto unit_width = number(order::kUnitWidth, holdsOf<job::Unit>("width"), false);
    const auto unit_height = number(order::kUnitHeight, holdsOf<job::Unit>("height"), false);
    needSizes(order::kFramedWidth, order::kUnitWidth);
    needSizes(order::kFramedHeight, order::kUnitHeight);
    opening.width = opening.unit.width = framed_width.value_or(unit_width.value_or(0));
    opening.height = opening.unit.height = framed_height.value_or(unit_height.value_or(0));
    if (target_.practice != nullptr) {
      job::Opening from_unit = opening;
      from_unit.unit.width = unit_width.value_or(opening.width);
      from_unit.unit.height = unit_height.value_or(opening.height);
      document::sizeOpening(from_unit, *target_.practice);
      opening.width = framed_width.value_or(from_unit.width);
      opening.height = framed_height.value_or(from_unit.height);
      document::sizeUnit(opening, *target_.practice);
      by_gaps_ += framed_width && framed_height && unit_width && unit_height ? 0 : 1;
    }
    opening.unit.width = unit_width.value_or(opening.unit.width);
    opening.unit.height = unit_height.value_or(opening.unit.height);
    if (errors_.size() == mistakes) checkFollowing(opening);
  }

  /// A size at its bound may have another beyond it.
  void checkFollowing(const job::Opening& opening) {
    const job::Holds& bounds = holdsOf<job::Unit>("width");
    for (const double size : {opening.width, opening.height, opening.unit.width, opening.unit.height}) {
      if (size >= bounds.from && size <= bounds.to) continue;
      fail(rows_[row_].front().at, rowWords(),
           "the other size follows as " + job::toText(size) + " mm; must be " + job::describe(bounds));
    }
  }

  /// Both sizes are needed, or one from which the other follows.
  void needSizes(const char* framed, const char* unit) {
    const auto said = [&](std::string_view name) {
      const Told it = told(name);
      return it.by != name || !it.text.empty();
    };
    const bool follows = target_.practice != nullptr;
    if (follows && (said(framed) || said(unit))) return;
    for (const char* name : {framed, unit}) {
      if ((!follows || tells(name)) && !said(name))
        failAt(name, "empty; must be " + job::describe(holdsOf<job::Unit>("width")));
    }
  }

  double sill(double height) {
    const job::Holds& holds = holdsOf<job::Opening>("sill");
    if (!textOf(order::kSill).empty() || textOf(column::kHead).empty())
      return number(order::kSill, holds, true).value_or(0);
    const double below = number(column::kHead, holds, true).value_or(0) - height;
    if (below < holds.from)
      failAt(column::kHead, "the sill follows as " + job::toText(below) + " mm; must be " + job::describe(holds));
    return below;
  }

  void readUnit(job::Unit& unit) {
    unit.kind =
        word<job::UnitKind>(order::kKind, job::kKindWords, true, kindTerms()).value_or(job::UnitKind::FixedWindow);
    unit.hand = word<job::Hand>(order::kHand, job::kHandWords, false, handTerms());
    hand_by_letter_ = hand_by_letter_ || (unit.hand && !isAmong(plainWords(textOf(order::kHand)), job::kHandWords));
    unit.flashing = word<job::Flashing>(order::kFlashing, job::kFlashingWords, false);
    if (const auto frame = pair<job::FrameSection>(order::kFrameDepth, "depth", order::kFrameFace, "face"))
      unit.frame = {(*frame)[0], (*frame)[1]};
    if (const auto reveal = pair<job::Reveal>(order::kRevealThickness, "thickness", order::kRevealDepth, "depth"))
      unit.reveal = {(*reveal)[0], (*reveal)[1]};
    unit.fin = number(order::kFin, holdsOf<job::Unit>("fin"), false);
    unit.colour = line(order::kColour, holdsOf<job::Unit>("colour"));
    unit.screens = yesOrNo(order::kScreens);
    unit.notes = line(order::kNotes, holdsOf<job::Unit>("notes"));
    readGlass(unit);
    // A mass that was worked out is the order list's, not the job's.
    const std::string from = textOf(order::kMassFrom);
    if (from.empty() || from == takeoff::kStated)
      unit.mass_kg = number(order::kMass, holdsOf<job::Unit>("mass"), false);
  }

  void readGlass(job::Unit& unit) {
    const std::string text = textOf(order::kGlass);
    const bool figure = text.empty() || lengthIn(text, writtenIn(order::kGlass)).has_value();
    if (!figure) return readGlassWords(unit, text);
    const auto safety = yesOrNo(order::kSafetyGlass);
    const auto obscure = yesOrNo(order::kObscure);
    if (const auto two = pair<job::Glass>(order::kGlass, "thickness", order::kPanes, "panes")) {
      unit.glass = job::Glass{(*two)[0], static_cast<int>((*two)[1]), safety, obscure};
    } else if (safety || obscure) {
      failAt(safety ? order::kSafetyGlass : order::kObscure,
             "the glass itself is not named: glass thickness and glass panes are empty");
    }
  }

  /// Glass in an office's words. What they don't tell fully is left to the rule set, and the words stay as a note.
  void readGlassWords(job::Unit& unit, const std::string& text) {
    const GlassWords words = glassIn(text, grid_.decimal_comma);
    const job::Holds& thickness = holdsOf<job::Glass>("thickness");
    auto panes = words.panes;
    if (const auto told = number(order::kPanes, holdsOf<job::Glass>("panes"), false)) panes = static_cast<int>(*told);
    if (words.thickness && panes && *words.thickness >= thickness.from && *words.thickness <= thickness.to) {
      unit.glass = job::Glass{*words.thickness, *panes, yesOrNo(order::kSafetyGlass), yesOrNo(order::kObscure)};
      if (words.safety) unit.glass->safety = true;
      if (words.obscure) unit.glass->obscure = true;
    } else {
      note(rowWords() + ": " + base::quote(text) + " doesn't tell thickness and panes; it is kept as the unit's note");
    }
    const std::string all = unit.notes ? *unit.notes + "; glass: " + text : "glass: " + text;
    if (static_cast<double>(base::countCharacters(all)) > holdsOf<job::Unit>("notes").to) {
      failAt(order::kGlass, "the words are too long to be kept with the unit's notes");
    }
    unit.notes = all;
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

  std::size_t wallIndex(std::string wall) {
    if (target_.job != nullptr && !wall.empty() && !isAmong(wall, known_walls_)) {
      const auto same = std::find_if(known_walls_.begin(), known_walls_.end(),
                                     [&](std::string_view known) { return plainWords(known) == plainWords(wall); });
      if (same != known_walls_.end()) {
        wall = *same;
      } else {
        std::string say = "the job has no wall " + base::quote(wall);
        if (const auto meant = base::nearest(wall, known_walls_); !meant.empty())
          say += "; did you mean " + base::quote(meant) + "?";
        failAt(order::kWall, std::move(say));
      }
    }
    const auto [at, fresh] = wall_index_.emplace(wall, schedule_.walls.size());
    if (fresh) schedule_.walls.push_back(wall);
    return at->second;
  }

  const Grid& grid_;
  const std::vector<CsvRow>& rows_;
  ScheduleFor target_;
  Heading heading_;
  Schedule schedule_;
  std::vector<std::string_view> known_walls_;
  std::size_t row_ = 0;
  bool placed_ = true;           // the row's opening: its place is told
  long set_beside_ = 0;          // openings whose place was not told
  bool hand_by_letter_ = false;  // "LH" is said by some as seen from inside
  long by_gaps_ = 0;             // rows of which a size follows by the usual gaps
  std::map<std::string, std::size_t> wall_index_;
  std::map<std::size_t, double> wall_ends_;
  std::set<std::string> names_;
  std::vector<base::Error> errors_;
};

}  // namespace

std::string describeColumns() {
  std::vector<std::string_view> columns;
  for (const Term& term : scheduleTerms()) {
    if (term.asks.empty() && !isAmong(term.ours, kPassedOver)) columns.push_back(term.ours);
  }
  return "Columns, in any order, under these or other usual names: " + base::joined(columns) +
         ". Needed are opening, kind, left, sill or head, and the size of the unit or of the framed opening; a wall "
         "where "
         "none is named for all. Lengths in mm unless the heading or the figure names a unit; safety glass yes or no.";
}

CountNames scheduleNames(const std::vector<Answer>& map) {
  return namesOf(scheduleTerms(), map);
}

ScheduleReading readSchedule(const Grid& grid, ScheduleFor target) {
  return ScheduleReader(grid, std::move(target)).run();
}

std::string openingsToml(const Schedule& schedule) {
  std::string out;
  for (const std::string& taken : schedule.taken) out += "# In the schedule " + taken + ".\n";
  for (const job::Opening& opening : schedule.openings) {
    out += (out.empty() ? "" : "\n") + job::write(opening, schedule.walls[opening.wall]);
  }
  return out;
}

}  // namespace sillwright::exchange
