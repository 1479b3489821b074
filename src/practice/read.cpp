#include "practice/read.h"

#include <algorithm>
#include <limits>
#include <system_error>

#include "base/words.h"
#include "base/write_file.h"

namespace sillwright::practice {

namespace {

constexpr const char* kExtension = ".toml";

std::filesystem::path folderOf(const std::filesystem::path& assets) { return assets / "practice"; }

using base::quote;
using job::toText;

/// Checks figures of a practice against one another; the reader has checked each by itself.
class Checks {
 public:
  Checks(const Practice& practice, const toml::table& file, job::Mistakes& mistakes)
      : practice_(practice), file_(file), mistakes_(mistakes) {}

  void all() {
    const auto& [wind, fixing, design, gauges, timber] = practice_.strength;
    rising("framing.side_studs", practice_.framing.side_studs);
    rising("framing.lintels", practice_.framing.lintels);
    const Clearance& gaps = practice_.clearance;
    keepOrder("side", gaps.side_least, gaps.side_usual, gaps.side_most);
    keepOrder("sill", gaps.sill_least, gaps.sill_usual, gaps.sill_most);
    keepOrder("head", gaps.head_least, gaps.head_usual, gaps.head_most);
    together("opening_tolerance", "plumb_mm", "plumb_over");  // so many mm over a length need both
    together("installed_tolerance", "plumb_mm", "plumb_over");
    together("installed_tolerance", "level_mm", "level_over");
    together("installed_tolerance", "diagonals_large", "large_from_area_m2");
    differing("wind.class", wind.classes);
    const auto& [least, most] = std::tie(fixing.from_corner_least, fixing.from_corner_most);
    if (least && most && least->value > most->value) {
      wrong("fixing", "from_corner_least", "must not be above from_corner_most");
    }
    diameters(gauges);
    stock();
    differing("timber.grade", timber.grades);
    if (!timber.usual_grade.empty() && timber.find(timber.usual_grade) == nullptr) {
      wrong("timber", "usual_grade", "must be a grade of this practice; found " + quote(timber.usual_grade));
    }
    weather();
    together("safety.glass", "low_area_most", "low_thickness_least");
    together("safety.glass", "mistaken_width_above", "mistaken_below");
    together("timber.lintel", "cripples_share", "cripples_from_depth");
    falls();
  }

 private:
  /// Notes something wrong with the value of a key, or with the table where the key is left out.
  void wrong(const std::string& table, std::string_view key, std::string say) {
    const auto node = toml::at_path(file_, table + "." + std::string(key));  // the file alone knows its lines
    const auto at = node ? node : toml::at_path(file_, table);
    mistakes_.add(at ? job::placeOf(*at.node()) : base::Place{}, table + "." + std::string(key), std::move(say));
  }

  bool has(const std::string& table, std::string_view key) const {
    return static_cast<bool>(toml::at_path(file_, table + "." + std::string(key)));
  }

  /// Two keys of which one says nothing without the other.
  void together(const std::string& table, std::string_view key, std::string_view other) {
    if (has(table, key) == has(table, other)) return;  // asked of the file: members may have defaults
    const auto [there, missing] = has(table, key) ? std::pair(key, other) : std::pair(other, key);
    wrong(table, there, "says nothing without " + quote(missing));
  }

  static std::string element(const std::string& tables, std::size_t i) {
    return tables + "[" + std::to_string(i) + "]";
  }

  /// `up_to` of each of several tables has to be above that of the table before it.
  template <class T>
  void rising(const std::string& tables, const std::vector<T>& all) {
    for (std::size_t i = 1; i < all.size(); ++i) {
      if (all[i].up_to == 0 || all[i].up_to > all[i - 1].up_to) continue;  // 0: refused, and noted
      wrong(element(tables, i), "up_to", job::notRising(all[i].up_to, all[i - 1].up_to));
    }
  }

  /// Notes a name that one of the tables before has.
  template <class T>
  void differing(const std::string& tables, const std::vector<T>& all) {
    for (std::size_t i = 0; i < all.size(); ++i) {
      const auto same = [&](const T& other) { return other.name == all[i].name; };
      const auto before = all.begin() + static_cast<std::ptrdiff_t>(i);
      if (all[i].name.empty() || std::none_of(all.begin(), before, same)) continue;  // an empty name was noted
      wrong(element(tables, i), "name", quote(all[i].name) + " stands here twice");
    }
  }

  void keepOrder(const std::string& side, const Bands& least, const Bands& usual, const Bands& most) {
    keepOrder(side + "_least", least, side + "_usual", usual);
    keepOrder(side + "_usual", usual, side + "_most", most);
  }

  /// Of two bands over the same sizes: the first may nowhere be above the second.
  void keepOrder(const std::string& key, const Bands& low, const std::string& high_key, const Bands& high) {
    for (const Bands* edges : {&low, &high}) {  // figures change at the bands' edges alone
      for (const Band& band : edges->bands) {
        const Figure* least = low.at(band.up_to);
        const Figure* most = high.at(band.up_to);
        if (least == nullptr || most == nullptr || least->value <= most->value) continue;  // one of them ends before
        return wrong("clearance", key,                                                     // once a pair
                     "must not be above " + high_key + ", " + toText(most->value) + "; found " + toText(least->value));
      }
    }
  }

  void diameters(const std::vector<Gauge>& gauges) {
    for (std::size_t i = 0; i < gauges.size(); ++i) {
      const Gauge& gauge = gauges[i];
      if (gauge.root.value <= gauge.shank.value && gauge.shank.value <= gauge.head.value) continue;
      wrong(element("gauge", i), "shank", "must be from root to head: root <= shank <= head");
    }
  }

  void stock() {
    const StockSizes& stock = practice_.stock;  // `about` is the source of all packers, and counts them
    const auto* written = toml::at_path(file_, "stock.packers").as_array();  // if some were refused nothing is counted
    const bool packers_known = written != nullptr && written->size() == stock.packers.size();
    if (packers_known && has("stock", "about") && stock.about.value != static_cast<double>(written->size())) {
      wrong("stock", "about",
            "must have the number of packers as its value, " + std::to_string(written->size()) + "; found " +
                toText(stock.about.value));
    }
    for (const std::string& screw : stock.screws) {
      if (findScrew(practice_.strength, screw)) continue;
      wrong("stock", "screws", "must be a gauge of this practice by a length, like \"8g x 75\"; found " + quote(screw));
    }
  }

  void weather() {
    const Weather& weather = practice_.weather;
    ofClasses("weather.flashing", "head_upstand_extra", weather.flashing.head_upstand_extra);
    ofClasses("weather", "door_upstand", weather.door_upstand);
    for (const auto& name : weather.flashing.head_sealed_in) ofClass("weather.flashing", "head_sealed_in", name);
    for (const auto& name : weather.cladding.direct_fix_not_in) ofClass("weather.cladding", "direct_fix_not_in", name);
    together("weather.flashing", "eave_ratio", "eave_comparison");
    together("weather.membrane", "support_spacing_most", "support_from_studs");
  }

  void ofClasses(const std::string& table, std::string_view key, const ByClass& figures) {
    for (const ClassFigure& entry : figures.entries) ofClass(table, key, entry.wind);
  }

  void ofClass(const std::string& table, std::string_view key, const std::string& name) {
    if (practice_.strength.wind.find(name) != nullptr) return;
    wrong(table, key, "must name a wind class of this practice; found " + quote(name));
  }

  /// Each room may stand in one rule only.
  void falls() {
    const auto& all = practice_.safety.falls;
    for (std::size_t i = 0; i < all.size(); ++i) {
      together(element("safety.falls", i), "climb_from", "climb_to");
      for (const job::Room room : all[i].rooms) {
        const auto names = [room](const FallRule& rule) {
          return std::find(rule.rooms.begin(), rule.rooms.end(), room) != rule.rooms.end();
        };
        if (std::none_of(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(i), names)) continue;
        wrong(element("safety.falls", i), "rooms",
              quote(job::kRoomWords[static_cast<std::size_t>(room)]) + " has a rule already");
      }
    }
  }

  const Practice& practice_;
  const toml::table& file_;
  job::Mistakes& mistakes_;
};

constexpr std::string_view kNoSource = "common practice, no source";

/// The keys of a figure; those of a band have `up_to` as well.
job::TableRule figureTable(const job::Holds& figure, const std::string_view& unit, bool is_band) {
  job::Holds value = figure;
  value.form = figure.form == job::Form::WholeFigure ? job::Form::Whole : job::Form::Number;
  job::TableRule rule{"", {}};  // a figure has no header; its one unit must be written, for whoever reads the file
  rule.keys = {{"value", value, true},  {"unit", job::word({&unit, 1}), true},
               {"source", kText, true}, {"status", job::word(kStatusWords), true},
               {"clause", kText},       {"edition", kText},
               {"note", kText}};
  if (is_band) rule.keys.push_back({"up_to", kUpTo, true});
  return rule;
}

/// Source and status have to agree.
void checkSource(const job::TableReader& table, const Figure& figure) {
  const bool sourceless = figure.source == kNoSource;
  if (figure.source.empty()) return;  // noted already
  if (figure.status == Status::CommonPractice && !sourceless) {
    table.note("source",
               "must be " + quote(kNoSource) + " with status \"common practice\"; found " + quote(figure.source));
  } else if (figure.status != Status::CommonPractice && sourceless) {
    table.note("status", "must be \"common practice\" without a source; found " + quote(toWord(figure.status)));
  }
}

/// Reads a figure; `up_to` is null where it is no band.
void readFigure(const job::Entry& entry, Figure& into, double* up_to) {
  const toml::table* node = entry.table();
  if (node == nullptr) return;
  const std::string_view unit = unitOf(entry.holds);
  const job::TableRule rule = figureTable(entry.holds, unit, up_to != nullptr);
  const job::TableReader table(entry.mistakes, *node, rule, entry.path);
  if (entry.holds.form == job::Form::WholeFigure) {  // reading it as an int refuses 2.5
    int whole = 0;
    table.value("value", whole);
    into.value = whole;
  } else {
    table.value("value", into.value);
  }
  if (up_to != nullptr) table.value("up_to", *up_to);
  enum class Unit : std::uint8_t { TheOne } the_one = Unit::TheOne;  // one word: reading it checks it
  table.value("unit", the_one);
  into.unit = unit;  // a wrong one was noted: from here on it is the right one
  table.value("source", into.source);
  table.value("clause", into.clause);
  table.value("edition", into.edition);
  table.value("note", into.note);
  std::optional<Status> status;
  table.value("status", status);
  if (!status) return;  // it was noted
  into.status = *status;
  checkSource(table, into);
}

}  // namespace

bool isPath(const std::string& name) { return name.ends_with(kExtension) || name.find('/') != std::string::npos; }

base::Result<Practice> read(std::string_view text, std::string file) {
  const auto tree = job::parseToml(text);
  if (const auto* fault = std::get_if<job::SyntaxFault>(&tree)) {  // past that the file can't be understood
    return {{}, {{std::move(file), fault->at, "", fault->say}}};
  }
  job::Mistakes mistakes(file);
  Practice practice;
  practice.file = std::move(file);
  const job::Path root;
  const auto& table = std::get<toml::table>(tree);
  job::TableReader(mistakes, table, job::tableOf<Practice>(), root).read(practice);  // each figure alone
  Checks(practice, table, mistakes).all();  // then against each other: all mistakes come at once
  if (mistakes.empty()) return {std::move(practice), {}};
  return {{}, std::move(mistakes).take()};
}

base::Result<Practice> readFile(const std::filesystem::path& path) {
  const auto text = base::loadText(path, kLargestFile);
  return text.ok() ? read(*text.value, path.string()) : base::Result<Practice>{{}, text.errors};
}

base::Result<Practice> load(const std::string& name, const std::filesystem::path& assets,
                            const std::filesystem::path& job_folder) {
  if (isPath(name)) return readFile(job_folder / name);  // an absolute one stands for itself
  const std::vector<std::string> known = names(assets);
  if (std::find(known.begin(), known.end(), name) != known.end()) {
    return readFile(folderOf(assets) / (name + kExtension));
  }
  const std::string there_are = known.empty()
                                    ? "none were found in " + folderOf(assets).string()
                                    : "there are: " + base::joined(known) + "; or name a .toml file beside the job";
  return {{}, {{{}, {}, {}, "there is no practice \"" + name + "\"; " + there_are}}};
}

std::vector<std::string> names(const std::filesystem::path& assets) {
  std::vector<std::string> found;
  std::error_code problem;
  std::filesystem::directory_iterator at(folderOf(assets), problem);
  const std::filesystem::directory_iterator end;
  for (; !problem && at != end; at.increment(problem)) {
    if (at->path().extension() == kExtension) found.push_back(at->path().stem().string());
  }
  std::sort(found.begin(), found.end());  // a folder lists files in any order
  return found;
}

void readValue(const job::Entry& entry, Figure& into) { readFigure(entry, into, nullptr); }

void readValue(const job::Entry& entry, Measure& into) {
  const toml::table* node = entry.table();
  if (node == nullptr) return;
  if (node->contains("value")) return readValue(entry, into.usual);  // a figure alone: nothing is published as least
  const job::TableRule rule{"", {{"usual", entry.holds, true}, {"least", entry.holds}}};
  const job::TableReader table(entry.mistakes, *node, rule, entry.path);
  table.value("usual", into.usual);
  table.value("least", into.least);  // the two are compared where both were written
  if (node->contains("usual") && into.least && into.usual.value < into.least->value) {
    table.note("usual",
               "must not be below least, " + toText(into.least->value) + "; found " + toText(into.usual.value));
  }
}

void readValue(const job::Entry& entry, Bands& into) {
  if (entry.node.is_table()) {
    into.bands = {{std::numeric_limits<double>::infinity(), {}}};  // a figure alone holds for every size
    return readValue(entry, into.bands.front().figure);
  }
  const toml::array* array = entry.node.as_array();
  if (array == nullptr || array->empty()) {
    return entry.note("must be a figure, or an array of figures with a rising up_to; found " +
                      (array == nullptr ? job::describe(entry.node) : "an empty array"));
  }
  double before = 0;
  for (std::size_t i = 0; i < array->size(); ++i) {
    const job::Entry element{entry.mistakes, (*array)[i], entry.holds, {&entry.path, {}, i}};
    Band& band = into.bands.emplace_back();
    readFigure(element, band.figure, &band.up_to);
    if (band.up_to > 0 && band.up_to <= before) {  // 0: refused, and noted
      const job::Entry up_to{entry.mistakes, *(*array)[i].as_table()->get("up_to"), kUpTo, {&element.path, "up_to"}};
      up_to.note(job::notRising(band.up_to, before));
    }
    if (band.up_to > 0) before = band.up_to;
  }
}

void readValue(const job::Entry& entry, ByClass& into) {
  const toml::table* table = entry.table();
  if (table == nullptr) return;
  for (const auto& [name, node] : *table) {  // Checks asks whether the classes exist: they may be read later
    ClassFigure& figure = into.entries.emplace_back();
    figure.wind = name.str();
    readValue({entry.mistakes, node, entry.holds, {&entry.path, name.str()}}, figure.figure);
  }
}

}  // namespace sillwright::practice
