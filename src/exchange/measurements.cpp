#include "exchange/measurements.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <sstream>
#include <utility>

#include "base/words.h"
#include "plan/survey/planned_readings.h"

namespace sillwright::exchange {
namespace {

constexpr std::string_view kOpening = "opening";
constexpr std::string_view kReading = "reading";
constexpr std::string_view kPlanned = "planned";
constexpr std::string_view kValue = "value";

Terms measurementTerms() {
  static const std::vector<Term> kTerms{
      {kOpening, {"mark", "window", "window no", "door", "name", "id", "tag", "ref", "no"}},
      {kReading, {"what", "measurement", "dimension", "label", "description", "point"}},
      {kPlanned, {"plan", "nominal"}},
      {kValue, {"measured", "result", "length", "distance", "size"}}};
  return kTerms;
}

/// The words that tell a reading, in no order: "W bottom" and "the bottom width" are the same.
std::set<std::string> telling(std::string_view text) {
  static constexpr std::pair<std::string_view, std::string_view> kSame[] = {
      {"w", "width"},    {"widths", "width"},  {"h", "height"},      {"heights", "height"},
      {"mid", "middle"}, {"l", "left"},        {"r", "right"},       {"b", "bottom"},
      {"t", "top"},      {"diag", "diagonal"}, {"d", "diagonal"},    {"diagonals", "diagonal"},
      {"inward", "in"},  {"inwards", "in"},    {"centre", "middle"}, {"center", "middle"}};
  static const std::set<std::string> kIdle{"from", "of", "the", "stud", "sill", "out", "or", "at", "to", "mm", "wall"};
  std::string plain = plainWords(text);
  std::replace(plain.begin(), plain.end(), '_', ' ');
  std::istringstream in(plain);
  std::set<std::string> words;
  for (std::string word; in >> word;) {
    const auto* same =
        std::find_if(std::begin(kSame), std::end(kSame), [&](const auto& each) { return each.first == word; });
    if (word == "bl" || word == "tl") {
      words.insert({word == "bl" ? "bottom" : "top", "left"});
    } else if (kIdle.count(word) == 0) {
      words.emplace(same == std::end(kSame) ? std::string_view(word) : same->second);
    }
  }
  return words;
}

std::vector<job::TapeReading> allReadings() {
  std::vector<job::TapeReading> all(job::kTapeReadings);
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = static_cast<job::TapeReading>(i);
  return all;
}

class Reader {
 public:
  Reader(const Grid& grid, const job::Job& job, MeasuredFor target)
      : grid_(grid), job_(job), target_(std::move(target)) {
    for (std::size_t i = 0; i < job.openings.size(); ++i) openings_.emplace(job.openings[i].name, i);
  }

  base::Result<std::vector<MeasuredValue>> run() {
    const auto heading = headingOf(grid_, measurementTerms(), target_.map);
    if (!heading || !checkHeading(*heading)) {
      if (!heading) fail({}, {}, "no header row: no row names opening, reading and value");
    } else {
      for (std::size_t row = heading->row + 1; row < grid_.rows.size(); ++row) readRow(*heading, row);
      if (values_.empty() && errors_.empty()) fail({}, {}, "no row has a value");
    }
    if (errors_.empty()) return {std::move(values_), {}};
    return {{}, std::move(errors_)};
  }

 private:
  static constexpr std::size_t kMostErrors = 1'000;

  void fail(base::Place at, std::string key, std::string say) {
    if (errors_.size() < kMostErrors) errors_.push_back({grid_.file, at, std::move(key), std::move(say)});
  }

  bool checkHeading(const Heading& heading) {
    const std::string key = "row " + std::to_string(heading.row + 1);
    for (const Column& column : heading.columns) {
      if (!column.asks.empty()) fail(column.at, key, "column " + base::quote(column.heading) + ": " + column.asks);
    }
    for (const std::string_view name : {kOpening, kReading, kValue}) {
      if (!heading.find(name)) fail({}, key, "column " + base::quote(name) + " is missing");
    }
    return errors_.empty();
  }

  void readRow(const Heading& heading, std::size_t at) {
    const CsvRow& row = grid_.rows[at];
    const auto text = [&](std::string_view name) {
      const std::size_t column = *heading.find(name);
      return column < row.size() ? saidIn(row[column].text) : std::string{};
    };
    const std::string value = text(kValue);
    if (value.empty()) return;
    const base::Place place = row[*heading.find(kValue)].at;
    const auto wrong = [&](std::string_view name, std::string say) {
      fail(place, "row " + std::to_string(at + 1) + ", " + std::string(name), std::move(say));
    };
    const std::string name = text(kOpening);
    const auto opening = openings_.find(name);
    if (opening == openings_.end()) wrong(kOpening, "the job has no opening " + base::quote(name) + near(name));
    const auto reading = readingNamed(text(kReading));
    if (!reading) {
      wrong(kReading,
            base::quote(text(kReading)) + " is none of: " +
                base::joined(allReadings(), ", ", [](job::TapeReading each) { return job::infoOf(each).name; }));
    }
    if (opening == openings_.end() || !reading) return;
    const auto mm = valueOf(value, heading.columns[*heading.find(kValue)].unit, *reading);
    if (!mm.ok()) return wrong(kValue, mm.errors.front().say);
    const auto [first, fresh] = seen_.emplace(std::pair(opening->second, *reading), at + 1);
    if (!fresh) return wrong(kReading, "is in row " + std::to_string(first->second) + " too; keep one");
    values_.push_back({opening->second, *reading, *mm.value});
  }

  base::Result<double> valueOf(const std::string& text, std::optional<LengthUnit> unit,
                               job::TapeReading reading) const {
    const auto refused = [](std::string say) -> base::Result<double> { return {{}, {{{}, {}, {}, std::move(say)}}}; };
    const Written written{unit ? unit : target_.unit, grid_.decimal_comma};
    const bool bare = text.find_first_not_of("0123456789.,/ +-") == std::string::npos;
    if (bare && !written.unit && target_.display == practice::Display::InchFractions)
      return refused(base::quote(text) + ": mm or inches? --unit says it for all");
    const auto mm = lengthIn(text.starts_with('+') ? text.substr(1) : text, written);
    const job::Holds& bounds = boundsOf(reading);
    if (!mm || *mm < bounds.from || *mm > bounds.to)
      return refused("must be a number " + job::describeBounds(bounds) + ", found " + base::quote(text));
    return {std::round(*mm * 1e3) / 1e3, {}};
  }

  [[nodiscard]] std::string near(const std::string& name) const {
    std::vector<std::string_view> known;
    for (const job::Opening& opening : job_.openings) known.push_back(opening.name);
    const auto meant = known.size() > 1'000 ? std::string_view{} : base::nearest(name, known);
    return meant.empty() ? std::string{} : "; did you mean " + base::quote(meant) + "?";
  }

  const Grid& grid_;
  const job::Job& job_;
  MeasuredFor target_;
  std::map<std::string, std::size_t> openings_;
  std::map<std::pair<std::size_t, job::TapeReading>, std::size_t> seen_;
  std::vector<MeasuredValue> values_;
  std::vector<base::Error> errors_;
};

/// What it would be if all were as planned.
takeoff::Cell plannedValue(const job::Opening& opening, const plan::WallPlan& wall, job::TapeReading reading) {
  if (reading >= job::TapeReading::DepthLeft) return wall.spec.depth();
  const auto planned = plan::plannedReadings(opening)[static_cast<std::size_t>(reading)];
  return planned ? takeoff::Cell{std::round(*planned * 10) / 10} : takeoff::Cell{};
}

}  // namespace

std::optional<job::TapeReading> readingNamed(std::string_view words) {
  const auto told = telling(words);
  for (const job::TapeReading place : allReadings()) {
    if (telling(job::infoOf(place).name) == told) return place;
  }
  return std::nullopt;
}

CountNames measurementNames(const std::vector<Answer>& map) {
  return namesOf(measurementTerms(), map);
}

base::Result<std::vector<MeasuredValue>> readMeasurements(const Grid& grid, const job::Job& job, MeasuredFor target) {
  return Reader(grid, job, std::move(target)).run();
}

takeoff::Table measurementForm(const job::Job& job, const plan::Plan& plan) {
  takeoff::Table table{"measurements", "Measurements", {}};
  for (const std::string_view name : {kOpening, kReading, kPlanned, kValue}) {
    const bool length = name == kPlanned || name == kValue;
    table.columns.push_back({std::string(name), length ? takeoff::Holds::Length : takeoff::Holds::Text, 1, false});
  }
  for (const job::Opening& opening : job.openings) {
    for (const job::TapeReading place : allReadings()) {
      table.rows.push_back({opening.name, job::infoOf(place).name,
                            plannedValue(opening, plan.walls[opening.wall], place), takeoff::Cell{}});
    }
  }
  return table;
}

}  // namespace sillwright::exchange
