#include "exchange/measurements.h"

#include <map>
#include <set>
#include <sstream>

#include "exchange/office/schedule_fields.h"
#include "plan/survey/asked_readings.h"

namespace sillwright::exchange {
namespace {

constexpr std::string_view kOpening = "opening";
constexpr std::string_view kReading = "reading";
constexpr std::string_view kPlanned = "planned";
constexpr std::string_view kValue = "value";
constexpr std::string_view kUnit = "unit";

/// The words that tell a reading, in no order: "W bottom" and "the bottom width" are the same.
std::set<std::string> telling(std::string_view text) {
  static const std::set<std::string> kIdle{"from", "of", "the", "stud", "sill", "out", "or", "at", "to", "mm", "wall"};
  std::string plain = plainWords(text);
  std::replace(plain.begin(), plain.end(), '_', ' ');  // a reading may be named as in the job file
  std::istringstream in(plain);
  std::set<std::string> words;
  for (std::string word; in >> word;) {
    if (word == "bl" || word == "tl") {  // a diagonal's corner
      words.insert({word == "bl" ? "bottom" : "top", "left"});
    } else if (kIdle.count(word) == 0) {
      words.emplace(sameWord(word, officeWords().reading_words));
    }
  }
  return words;
}

/// In the order that they are taken in.
std::vector<Asked> allReadings() {  // nobody measures the sizes of a unit that is set: they are the maker's
  using T = job::TapeReading;
  std::vector<Asked> all;
  for (std::size_t i = 0; i < job::kTapeReadings; ++i) all.push_back({static_cast<T>(i)});
  for (auto i = std::size_t(T::DiagonalFromBottomLeft); i <= std::size_t(T::OutOfPlumbRight); ++i)
    all.push_back({static_cast<T>(i), true});
  all.push_back({T{}, true, &job::Installed::opens});
  all.push_back({T{}, true, &job::Installed::locks});
  return all;
}

/// The readings of a unit that is set, as those of an opening.
job::Measured asMeasured(const job::Installed& set) {
  job::Measured measured;
  measured.diagonals = set.diagonals, measured.out_of_level = set.out_of_level,
  measured.out_of_plumb = set.out_of_plumb;
  return measured;
}

class Reader : ScheduleFields {
 public:
  Reader(const Grid& grid, const job::Job& job, MeasuredFor target)
      : ScheduleFields(grid, {"", nullptr, nullptr, std::move(target.map), {}, target.unit}),
        job_(job),
        display_(target.display) {
    for (std::size_t i = 0; i < job.openings.size(); ++i) openings_.emplace(job.openings[i].name, i);
  }

  base::Result<std::vector<MeasuredValue>> run() {
    auto heading = headingOf(grid_, officeWords().measured, target_.map);
    if (!heading) {
      fail({}, {}, "no header row: no row names opening, reading and value");
    } else if (heading_ = *std::move(heading); hasColumns()) {
      for (row_ = heading_.row + 1; row_ < rows_.size(); ++row_) readRow();
      if (values_.empty() && errors_.empty()) fail({}, {}, "no row has a value");
    }
    if (errors_.empty()) return {std::move(values_), {}};
    return {{}, std::move(errors_)};
  }

 private:
  bool hasColumns() {
    askAboutColumns();
    for (const std::string_view name : {kOpening, kReading, kValue}) {
      if (!heading_.find(name)) fail({}, headWords(), "column " + base::quote(name) + " is missing");
    }
    return errors_.empty();
  }

  void readRow() {
    const std::string value = textOf(kValue);
    if (value.empty()) return;  // a form has a row for each reading, and most stay empty
    const base::Place place = fieldOf(kValue)->at;
    const auto wrong = [&](std::string_view name, std::string say) {
      fail(place, rowWords() + ", " + std::string(name), std::move(say));
    };
    const std::string name = textOf(kOpening);
    const auto opening = openings_.find(name);
    if (opening == openings_.end()) wrong(kOpening, "the job has no opening " + base::quote(name) + near(name));
    const auto reading = readingNamed(textOf(kReading));
    if (!reading) {
      wrong(kReading,
            base::quote(textOf(kReading)) + " is none of: " + base::joined(allReadings(), ", ", exchange::nameOf));
    }
    if (opening == openings_.end() || !reading) return;  // both mistakes were told
    const std::string unit = textOf(kUnit);              // logs may name the unit row by row; headings name it for all
    const auto in = unit.empty() ? heading_.columns[*heading_.find(kValue)].unit : lengthUnit(plainWords(unit));
    if (!unit.empty() && !in) return wrong(kUnit, base::quote(unit) + " is no unit of length that is known");
    const auto mm = valueIn(value, in, *reading);
    if (!mm.ok()) return wrong(kValue, mm.errors.front().say);
    const auto [first, fresh] = seen_.emplace(std::pair(opening->second, exchange::nameOf(*reading)), row_ + 1);
    if (!fresh) return wrong(kReading, "is in row " + std::to_string(first->second) + " too; keep one");
    values_.push_back({opening->second, *reading, *mm.value});
  }

  base::Result<double> valueIn(const std::string& text, std::optional<LengthUnit> unit, const Asked& asked) const {
    const auto refused = [](std::string say) -> base::Result<double> { return {{}, {{{}, {}, {}, std::move(say)}}}; };
    if (asked.works != nullptr) {
      const auto yes = yesOrNoIn(text);
      return yes ? base::Result<double>{*yes ? 1 : 0, {}} : refused("must be yes or no, found " + base::quote(text));
    }
    const Written written{unit ? unit : target_.unit, grid_.decimal_comma};
    const bool bare = text.find_first_not_of("0123456789.,/ +-") == std::string::npos;  // no unit stands behind it
    if (bare && !written.unit && display_ == practice::Display::InchFractions)
      return refused(base::quote(text) + ": mm or inches? --unit says it for all");
    const auto mm = lengthIn(text.starts_with('+') ? text.substr(1) : text, written);  // level and plumb have signs
    const job::Holds& bounds = boundsOf(asked.reading);                                // what the job file takes
    if (!mm || *mm < bounds.from || *mm > bounds.to)
      return refused("must be a number " + job::describeBounds(bounds) + ", found " + base::quote(text));
    return {std::round(*mm * 1e3) / 1e3, {}};  // inches come with digits that mean nothing
  }

  [[nodiscard]] std::string near(const std::string& name) const {
    std::vector<std::string_view> known;
    for (const job::Opening& opening : job_.openings) known.push_back(opening.name);
    // Among so many a guess takes long, and one is near to anything.
    const auto meant = known.size() > 1'000 ? std::string_view{} : base::nearest(name, known);
    return meant.empty() ? std::string{} : "; did you mean " + base::quote(meant) + "?";
  }

  const job::Job& job_;
  practice::Display display_;
  std::map<std::string, std::size_t> openings_;
  std::map<std::pair<std::size_t, std::string>, std::size_t> seen_;
  std::vector<MeasuredValue> values_;
};

/// What it would be if all were as planned, to so many parts of a millimetre.
takeoff::Cell plannedValue(job::Opening of, const plan::Plan& plan, std::size_t at, const Asked& asked, double parts) {
  if (asked.works != nullptr) return {};                // nothing is planned of it
  const plan::UnitSpec& unit = plan.openings[at].unit;  // a set unit is measured as an opening is
  if (asked.set) of.width = unit.width, of.height = unit.height, of.head = unit.head;
  const auto planned = asked.reading >= job::TapeReading::DepthLeft  // depths are the wall's
                           ? plan.walls[of.wall].spec.depth()
                           : plan::plannedReadings(of)[static_cast<std::size_t>(asked.reading)];
  return planned ? takeoff::Cell{std::round(*planned * parts) / parts} : takeoff::Cell{};
}

}  // namespace

std::string nameOf(const Asked& asked) {
  if (asked.works != nullptr) return asked.works == &job::Installed::opens ? "set: opens" : "set: locks";
  return (asked.set ? "set: " : "") + std::string(job::infoOf(asked.reading).name);
}

std::optional<Asked> readingNamed(std::string_view words) {
  const auto told = telling(words);
  for (const Asked& each : allReadings()) {
    if (telling(nameOf(each)) == told) return each;  // all of its words and no others: half a name may mean several
  }
  return std::nullopt;
}

std::optional<double> valueOf(const job::Opening& opening, const Asked& asked) {
  if (!asked.set) return job::valueOf(opening.measured, asked.reading);
  const job::Installed set = opening.installed.value_or(job::Installed{});  // there may be no record yet
  if (asked.works == nullptr) return job::valueOf(asMeasured(set), asked.reading);
  return set.*asked.works ? std::optional<double>(*(set.*asked.works)) : std::nullopt;
}

void setValue(job::Opening& opening, const Asked& asked, double value) {
  if (!asked.set) return job::setValue(opening.measured, asked.reading, value);
  if (!opening.installed) opening.installed.emplace();
  job::Installed& set = *opening.installed;
  if (asked.works != nullptr) return void(set.*asked.works = value != 0);
  job::Measured measured = asMeasured(set);  // it has a place for each reading, which a record hasn't
  job::placeOf(measured, asked.reading) = value;
  set.diagonals = measured.diagonals, set.out_of_level = measured.out_of_level,
  set.out_of_plumb = measured.out_of_plumb;
}

CountNames measurementNames(const std::vector<Answer>& map) { return namesOf(officeWords().measured, map); }

base::Result<std::vector<MeasuredValue>> readMeasurements(const Grid& grid, const job::Job& job, MeasuredFor target) {
  return Reader(grid, job, std::move(target)).run();
}

takeoff::Table measurementForm(const job::Job& job, const plan::Plan& plan, practice::Display display, bool record) {
  const double parts = display == practice::Display::InchFractions ? 1000 / practice::kInch : 10;
  takeoff::Table table{"measurements", "Measurements", {}};  // `parts`: thousandths of an inch, or tenths of a mm
  for (const std::string_view name : {kOpening, kReading, kPlanned, kValue}) {
    const bool length = name == kPlanned || name == kValue;  // their headings name the unit
    table.columns.push_back({std::string(name), length ? takeoff::Holds::Length : takeoff::Holds::Text, 1, false});
  }
  for (std::size_t at = 0; at < job.openings.size(); ++at) {
    const job::Opening& opening = job.openings[at];
    for (const Asked& each : allReadings()) {
      if (each.set == record)  // the form has the opening's readings, the record the unit's
        table.rows.push_back(
            {opening.name, nameOf(each), plannedValue(opening, plan, at, each, parts), takeoff::Cell{}});
    }
  }
  return table;
}

}  // namespace sillwright::exchange
