#include "exchange/schedule.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <span>
#include <utility>

#include "base/words.h"
#include "exchange/csv.h"
#include "job/rewrite.h"
#include "job/tables.h"
#include "takeoff/order.h"

namespace sillwright::exchange {
namespace {

namespace column = takeoff::column;

constexpr std::string_view kNeeded[] = {column::kOpening,      column::kLeft, column::kSill,      column::kFramedWidth,
                                        column::kFramedHeight, column::kKind, column::kUnitWidth, column::kUnitHeight};
constexpr std::string_view kOptional[] = {column::kWall,        column::kRoom,        column::kHand,
                                          column::kFrameDepth,  column::kFrameFace,   column::kRevealThickness,
                                          column::kRevealDepth, column::kFin,         column::kGlass,
                                          column::kPanes,       column::kSafetyGlass, column::kObscure,
                                          column::kFlashing,    column::kColour,      column::kScreens,
                                          column::kNotes,       column::kMass};
constexpr std::string_view kPassedOver[] = {
    column::kHold,        column::kMassFrom, column::kReveal, column::kSafetyAsked, column::kOrderWidth,
    column::kOrderHeight, column::kBasedOn,  column::kSpare,  column::kChance,      column::kPeople};

std::vector<std::string_view> knownColumns() {
  std::vector<std::string_view> all(std::begin(kNeeded), std::end(kNeeded));
  all.insert(all.end(), std::begin(kOptional), std::end(kOptional));
  all.insert(all.end(), std::begin(kPassedOver), std::end(kPassedOver));
  return all;
}

std::string trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(" \t");
  if (from == std::string_view::npos) return {};
  return std::string(text.substr(from, text.find_last_not_of(" \t") - from + 1));
}

std::string lowered(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

/// The bounds that the job file sets for a key.
const job::Holds& boundsOf(const job::TableRule& table, std::string_view key) {
  return table.at(key);
}

class ScheduleReader {
 public:
  ScheduleReader(const std::vector<CsvRow>& rows, const std::string& file, const ScheduleFor& target)
      : rows_(rows), file_(file), target_(target) {
    if (target.job == nullptr) return;
    for (const auto& wall : target.job->walls) known_walls_.push_back(wall.name);
    for (const auto& opening : target.job->openings) names_.insert(opening.name);
  }

  base::Result<Schedule> run() {
    base::Result<Schedule> result;
    Schedule schedule;
    if (rows_.empty()) {
      errors_.push_back({file_, {}, {}, "no header row: the first row names the columns"});
    } else if (rows_.size() - 1 > job::kMostOpenings) {
      errors_.push_back(
          {file_, {}, {}, "too many rows: a job has at most " + std::to_string(job::kMostOpenings) + " openings"});
    } else if (readHeader()) {
      if (rows_.size() == 1) errors_.push_back({file_, {}, {}, "no openings: there is no row below the header"});
      for (row_ = 1; row_ < rows_.size(); ++row_) readOpening(schedule);
    }
    if (errors_.empty()) {
      result.value = std::move(schedule);
    } else {
      std::stable_sort(errors_.begin(), errors_.end(), [](const base::Error& a, const base::Error& b) {
        return std::pair(a.at.line, a.at.column) < std::pair(b.at.line, b.at.column);
      });
      result.errors = std::move(errors_);
    }
    return result;
  }

 private:
  static constexpr std::size_t kMostErrors = 1'000;

  void fail(base::Place at, std::string key, std::string say) {
    if (errors_.size() < kMostErrors) errors_.push_back({file_, at, std::move(key), std::move(say)});
  }

  void failAt(std::string_view name, std::string say) {
    const CsvField* field = fieldOf(name);
    const base::Place at = field != nullptr ? field->at : rows_[row_].front().at;
    fail(at, "row " + std::to_string(row_ + 1) + ", " + std::string(name), std::move(say));
  }

  bool readHeader() {
    // One field with the names in it: a spreadsheet set to a country that writes decimals with a comma.
    if (rows_[0].size() == 1 && rows_[0][0].text.find_first_of(";\t") != std::string::npos) {
      fail(rows_[0][0].at, "row 1", "fields must be separated by commas, and decimals written with a point");
      return false;
    }
    const auto known = knownColumns();
    for (std::size_t i = 0; i < rows_[0].size(); ++i) {
      const CsvField& field = rows_[0][i];
      const std::string name = lowered(trimmed(field.text));
      if (std::find(known.begin(), known.end(), name) == known.end()) {
        std::string say = "unknown column " + base::quote(field.text);
        if (const auto meant = base::nearest(name, known); !meant.empty()) {
          say.append("; did you mean ").append(meant).append("?");
        }
        fail(field.at, "row 1", say);
      } else if (!columns_.emplace(name, i).second) {
        fail(field.at, "row 1", "column " + base::quote(name) + " is there twice");
      }
    }
    for (const auto name : kNeeded) {
      if (columns_.count(std::string(name)) == 0) {
        fail(rows_[0].front().at, "row 1", "column " + base::quote(name) + " is missing");
      }
    }
    if (target_.wall.empty() && columns_.count(column::kWall) == 0) {
      fail(rows_[0].front().at, "row 1", "column \"wall\" is missing, and no wall is named for all");
    }
    return errors_.empty();
  }

  [[nodiscard]] const CsvField* fieldOf(std::string_view name) const {
    const auto at = columns_.find(std::string(name));
    if (at == columns_.end() || at->second >= rows_[row_].size()) return nullptr;
    return &rows_[row_][at->second];
  }

  [[nodiscard]] std::string textOf(std::string_view name) const {
    const CsvField* field = fieldOf(name);
    return field == nullptr ? std::string{} : trimmed(field->text);
  }

  /// A number within the job file's bounds, or nothing; what is needed and empty is a mistake.
  std::optional<double> number(std::string_view name, const job::Holds& holds, bool needed) {
    const std::string text = textOf(name);
    if (text.empty()) {
      if (needed) failAt(name, "empty; must be " + job::describe(holds));
      return std::nullopt;
    }
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) {
      std::string say = "must be " + job::describe(holds) + ", found " + base::quote(text);
      if (text.find(',') != std::string::npos) say += "; a number is written without commas, with a point for decimals";
      failAt(name, std::move(say));
      return std::nullopt;
    }
    const bool whole = holds.form != job::Form::Whole || value == std::floor(value);
    if (!(value >= holds.from && value <= holds.to) || !whole) {
      failAt(name, "must be " + job::describe(holds) + ", found " + base::quote(text));
      return std::nullopt;
    }
    return value;
  }

  template <class Word, std::size_t N>
  std::optional<Word> word(std::string_view name, const std::string_view (&words)[N], bool needed) {
    const std::string text = lowered(textOf(name));
    if (text.empty() && !needed) return std::nullopt;
    const auto* at = std::find(std::begin(words), std::end(words), text);
    if (at != std::end(words)) return static_cast<Word>(at - std::begin(words));
    job::Holds holds{.form = job::Form::Word, .words = words};
    std::string say = "must be " + job::describe(holds) +
                      (text.empty() ? std::string(", found nothing") : ", found " + base::quote(text));
    if (const auto meant = base::nearest(text, words); !meant.empty())
      say.append("; did you mean ").append(meant).append("?");
    failAt(name, std::move(say));
    return std::nullopt;
  }

  /// Both or neither.
  template <class Pair>
  std::optional<Pair> pair(const char* first, const job::Holds& of_first, const char* second,
                           const job::Holds& of_second) {
    const bool has_first = !textOf(first).empty();
    const bool has_second = !textOf(second).empty();
    if (!has_first && !has_second) return std::nullopt;
    const auto a = number(first, of_first, true);
    const auto b = number(second, of_second, true);
    if (!a || !b) return std::nullopt;
    Pair value{};
    auto& [x, y] = value;
    x = *a;
    y = *b;
    return value;
  }

  /// A name in quotes is taken as it stands, blanks at its ends too; a job's names may have such.
  [[nodiscard]] std::string nameOf(std::string_view of) const {
    const std::string text = textOf(of);
    return !text.empty() && fieldOf(of)->quoted ? fieldOf(of)->text : text;
  }

  std::string name(std::string_view of, const std::string& otherwise) {
    std::string text = nameOf(of);
    if (text.empty()) text = otherwise;
    if (text.empty()) {
      failAt(of, "empty; a name is needed");
    } else if (base::holdsControls(text) || static_cast<double>(base::countCharacters(text)) > job::kLongestName) {
      failAt(of, "a name is at most 100 characters on one line, found " + base::quote(text));
    }
    return text;
  }

  void readOpening(Schedule& schedule) {
    if (rows_[row_].size() > rows_[0].size()) {
      fail(rows_[row_][rows_[0].size()].at, "row " + std::to_string(row_ + 1),
           "has " + std::to_string(rows_[row_].size()) + " fields, the header " + std::to_string(rows_[0].size()));
    }
    job::Opening opening;
    opening.name = name(column::kOpening, {});
    if (!opening.name.empty() && !names_.insert(opening.name).second) {
      failAt(column::kOpening, "a second opening named " + base::quote(opening.name) +
                                   (target_.job != nullptr ? ", here or in the job" : ""));
    }
    opening.wall = wallIndex(schedule, name(column::kWall, target_.wall));
    const auto size = [&](const char* of, const char* key) {
      return number(of, boundsOf(job::tableOf<job::Opening>(), key), true).value_or(0);
    };
    opening.left = size(column::kLeft, "left");
    opening.sill = size(column::kSill, "sill");
    opening.width = size(column::kFramedWidth, "width");
    opening.height = size(column::kFramedHeight, "height");
    opening.room = word<job::Room>(column::kRoom, job::kRoomWords, false);
    readUnit(opening.unit);
    opening.place = rows_[row_].front().at;
    schedule.openings.push_back(std::move(opening));
  }

  void readUnit(job::Unit& unit) {
    unit.kind = word<job::UnitKind>(column::kKind, job::kKindWords, true).value_or(job::UnitKind::FixedWindow);
    unit.hand = word<job::Hand>(column::kHand, job::kHandWords, false);
    unit.flashing = word<job::Flashing>(column::kFlashing, job::kFlashingWords, false);
    unit.width = number(column::kUnitWidth, boundsOf(job::tableOf<job::Unit>(), "width"), true).value_or(0);
    unit.height = number(column::kUnitHeight, boundsOf(job::tableOf<job::Unit>(), "height"), true).value_or(0);
    unit.frame = pair<job::FrameSection>(column::kFrameDepth, boundsOf(job::tableOf<job::FrameSection>(), "depth"),
                                         column::kFrameFace, boundsOf(job::tableOf<job::FrameSection>(), "face"));
    unit.reveal = pair<job::Reveal>(column::kRevealThickness, boundsOf(job::tableOf<job::Reveal>(), "thickness"),
                                    column::kRevealDepth, boundsOf(job::tableOf<job::Reveal>(), "depth"));
    unit.fin = number(column::kFin, boundsOf(job::tableOf<job::Unit>(), "fin"), false);
    readGlass(unit);
    unit.colour = line(column::kColour, boundsOf(job::tableOf<job::Unit>(), "colour"));
    unit.screens = yesOrNo(column::kScreens);
    unit.notes = line(column::kNotes, boundsOf(job::tableOf<job::Unit>(), "notes"));
    // A mass that was worked out is the order list's, not the job's.
    const std::string from = textOf(column::kMassFrom);
    if (from.empty() || from == takeoff::kStated) {
      unit.mass_kg = number(column::kMass, boundsOf(job::tableOf<job::Unit>(), "mass"), false);
    }
  }

  void readGlass(job::Unit& unit) {
    struct Two {
      double thickness, panes;
    };
    const auto safety = yesOrNo(column::kSafetyGlass);
    const auto obscure = yesOrNo(column::kObscure);
    const auto two = pair<Two>(column::kGlass, boundsOf(job::tableOf<job::Glass>(), "thickness"), column::kPanes,
                               boundsOf(job::tableOf<job::Glass>(), "panes"));
    if (two) {
      unit.glass = job::Glass{two->thickness, static_cast<int>(two->panes), safety, obscure};
    } else if (safety || obscure) {
      failAt(safety ? column::kSafetyGlass : column::kObscure,
             "the glass itself is not named: glass thickness and glass panes are empty");
    }
  }

  std::optional<bool> yesOrNo(const char* name) {
    static constexpr std::string_view kYesNo[] = {"no", "yes"};
    enum class Yes : std::uint8_t { No, Yes };
    const auto said = word<Yes>(name, kYesNo, false);
    return said ? std::optional(*said == Yes::Yes) : std::nullopt;
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

  std::size_t wallIndex(Schedule& schedule, const std::string& wall) {
    if (target_.job != nullptr && !wall.empty() &&
        std::find(known_walls_.begin(), known_walls_.end(), wall) == known_walls_.end()) {
      std::string say = "the job has no wall " + base::quote(wall);
      if (const auto meant = base::nearest(wall, known_walls_); !meant.empty())
        say += "; did you mean " + base::quote(meant) + "?";
      failAt(column::kWall, std::move(say));
    }
    const auto [at, fresh] = wall_index_.emplace(wall, schedule.walls.size());
    if (fresh) schedule.walls.push_back(wall);
    return at->second;
  }

  const std::vector<CsvRow>& rows_;
  const std::string& file_;
  const ScheduleFor& target_;
  std::vector<std::string_view> known_walls_;
  std::size_t row_ = 0;
  std::map<std::string, std::size_t> columns_;
  std::map<std::string, std::size_t> wall_index_;
  std::set<std::string> names_;
  std::vector<base::Error> errors_;
};

}  // namespace

std::string describeColumns() {
  return "Columns, in any order: " + base::joined(kNeeded) +
         "; and, left out where not known: " + base::joined(kOptional) +
         ". Other columns of an order list are ignored. Lengths in mm; words as in the job file; safety glass yes or "
         "no.";
}

base::Result<Schedule> readSchedule(std::string_view text, const std::string& file, const ScheduleFor& target) {
  const auto rows = readCsv(text, file);
  if (!rows.ok()) return {std::nullopt, rows.errors};
  return ScheduleReader(*rows.value, file, target).run();
}

std::string openingsToml(const Schedule& schedule) {
  std::string out;
  for (const job::Opening& opening : schedule.openings) {
    out += (out.empty() ? "" : "\n") + job::write(opening, schedule.walls[opening.wall]);
  }
  return out;
}

}  // namespace sillwright::exchange
