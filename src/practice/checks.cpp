#include "practice/checks.h"

#include <algorithm>

#include "base/words.h"
#include "job/toml_table.h"

namespace sillwright::practice {

namespace {

using base::quote;
using job::toText;

class Checks {
 public:
  Checks(const Practice& practice, const toml::table& file, job::Mistakes& mistakes)
      : practice_(practice), file_(file), mistakes_(mistakes) {}

  void all() {
    const auto& [wind, fixing, design, gauges, timber] = practice_.strength;
    rising("framing.side_studs", practice_.framing.side_studs);
    rising("framing.lintels", practice_.framing.lintels);
    clearances();
    together("opening_tolerance", "plumb_mm", "plumb_over");
    together("installed_tolerance", "plumb_mm", "plumb_over");
    together("installed_tolerance", "level_mm", "level_over");
    together("installed_tolerance", "diagonals_large", "large_from_area_m2");
    differing("wind.class", wind.classes);
    corners(fixing);
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
    const auto node = toml::at_path(file_, table + "." + std::string(key));
    const auto at = node ? node : toml::at_path(file_, table);
    mistakes_.add(at ? job::placeOf(*at.node()) : base::Place{}, table + "." + std::string(key), std::move(say));
  }

  bool has(const std::string& table, std::string_view key) const {
    return static_cast<bool>(toml::at_path(file_, table + "." + std::string(key)));
  }

  /// Two keys of which one says nothing without the other.
  void together(const std::string& table, std::string_view key, std::string_view other) {
    if (has(table, key) == has(table, other)) return;
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
      if (all[i].up_to == 0 || all[i].up_to > all[i - 1].up_to) continue;
      wrong(element(tables, i), "up_to", job::notRising(all[i].up_to, all[i - 1].up_to));
    }
  }

  /// Notes a name that one of the tables before has.
  template <class T>
  void differing(const std::string& tables, const std::vector<T>& all) {
    for (std::size_t i = 0; i < all.size(); ++i) {
      const auto same = [&](const T& other) { return other.name == all[i].name; };
      const auto before = all.begin() + static_cast<std::ptrdiff_t>(i);
      if (all[i].name.empty() || std::none_of(all.begin(), before, same)) continue;
      wrong(element(tables, i), "name", quote(all[i].name) + " stands here twice");
    }
  }

  void clearances() {
    const Clearance& gaps = practice_.clearance;
    keepOrder("side_least", gaps.side_least, "side_usual", gaps.side_usual);
    keepOrder("side_usual", gaps.side_usual, "side_most", gaps.side_most);
    keepOrder("sill_least", gaps.sill_least, "sill_usual", gaps.sill_usual);
    keepOrder("sill_usual", gaps.sill_usual, "sill_most", gaps.sill_most);
    keepOrder("head_least", gaps.head_least, "head_usual", gaps.head_usual);
    keepOrder("head_usual", gaps.head_usual, "head_most", gaps.head_most);
  }

  /// Of two bands over the same sizes: the first may nowhere be above the second.
  void keepOrder(const char* key, const Bands& low, const char* high_key, const Bands& high) {
    for (const Bands* edges : {&low, &high}) {
      for (const Band& band : edges->bands) {
        const Figure* least = low.at(band.up_to);
        const Figure* most = high.at(band.up_to);
        if (least == nullptr || most == nullptr || least->value <= most->value) continue;
        return wrong("clearance", key,
                     "must not be above " + std::string(high_key) + ", " + toText(most->value) + "; found " +
                         toText(least->value));
      }
    }
  }

  void corners(const Fixing& fixing) {
    const auto& [least, most] = std::tie(fixing.from_corner_least, fixing.from_corner_most);
    if (least && most && least->value > most->value) {
      wrong("fixing", "from_corner_least", "must not be above from_corner_most");
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
    const StockSizes& stock = practice_.stock;
    const auto* written = toml::at_path(file_, "stock.packers").as_array();
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

}  // namespace

void check(const Practice& practice, const toml::table& file, job::Mistakes& mistakes) {
  Checks(practice, file, mistakes).all();
}

}  // namespace sillwright::practice
