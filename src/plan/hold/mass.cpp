#include "plan/hold/mass.h"

#include <cassert>
#include <cmath>
#include <numeric>

#include "plan/panes.h"
#include "words/text.h"

namespace sillwright::plan {

namespace {

constexpr double kMm3PerM3 = 1e9;
constexpr int kLargestTeam = 3;

double sashMetal(const UnitParts& parts, const Sash& sash, double share) {
  return (sash.outside.area() - parts.pane[sash.pane].area()) * sash.depth * share;  // stiles and rails as seen
}

/// Of mullions and transoms, mm³.
double barMetal(const UnitSpec& unit, const UnitParts& parts, double share) {
  double area = 0;
  for (const UnitRect& bar : parts.bar) area += parts.areaWithin(bar, parts.clear.x0);  // less what a slope cuts off
  return area * unit.frame.depth * share;
}

double finMetal(const UnitSpec& unit, const UnitParts& parts) {
  if (unit.fin <= 0) return 0;
  const UnitRect outer = UnitRect{0, 0, unit.width, unit.height}.inset(-unit.fin);
  return (parts.areaWithin(outer, -unit.fin) - parts.areaWithin(parts.in_reveal, parts.in_reveal.x0)) * kFinMetal;
}

/// The weight shared out to coupled parts: to each its own glass, all else by its area.
std::vector<double> partsMass(const UnitSpec& unit, const UnitParts& parts, const std::vector<double>& glass,
                              double total_kg) {
  std::vector<double> shares;
  const double glass_kg = std::accumulate(glass.begin(), glass.end(), 0.0);  // a stated total may be less
  const double other = std::max(0.0, total_kg - glass_kg) / (unit.width * unit.height);
  for (const UnitRect& part : madeParts(unit)) {
    double kg = other * part.area();
    for (std::size_t i = 0; i < glass.size(); ++i) {
      const UnitRect& pane = parts.pane[i];
      const double x = (pane.x0 + pane.x1) / 2;
      const double z = (pane.z0 + pane.z1) / 2;
      if (x >= part.x0 && x < part.x1 && z >= part.z0 && z < part.z1) kg += glass[i];  // it lies where its middle does
    }
    const auto number = shares.size();  // 0 is the main part; the job may give a coupled part's weight
    shares.push_back(number > 0 && unit.coupled_kg[number - 1] ? *unit.coupled_kg[number - 1] : kg);
  }
  return shares;
}

constexpr double kMmPerCm = 10;
constexpr double kFurthestOut = 63;  // cm
constexpr double kHighest = 175;     // cm
constexpr double kLeastWay = 25;     // cm, counted for any shorter one

}  // namespace

double glassMass(double area, const job::Glass& glass, double density) {
  const double thickness = glass.each.empty() ? glass.thickness * std::max(glass.panes, 0)
                                              : std::accumulate(glass.each.begin(), glass.each.end(), 0.0);
  return area * thickness * density / kMm3PerM3;
}

double teamShare(int people, const practice::Lifting& rules) {
  assert(people >= 1);
  if (people == 1) return 1;
  const practice::Rule& share = people == 2 ? rules.two_share : rules.three_share;
  return share && people <= kLargestTeam ? people * share->value : 0;
}

std::string liftedBy(const Team& team) {
  if (!team.people) return {};
  return team.mechanical_help ? "a lifter" : words::count(*team.people, "person", "people");
}

std::string partsLifted(const UnitMass& mass, practice::Display display) {
  std::string said;
  for (std::size_t i = 0; i < mass.parts_kg.size(); ++i) {
    const std::string who = liftedBy(mass.parts_team[i]);
    said += (i > 0 ? ", " : "") + words::mass(mass.parts_kg[i], display) + (who.empty() ? "" : " by " + who);
  }
  return said;
}

std::string leavesWords(const UnitMass& mass, practice::Display display) {
  std::vector<std::string> each;
  for (const double kg : mass.leaf_kg) each.push_back(words::mass(kg, display));
  return words::listed(each);
}

std::string liftedBy(const UnitMass& mass) {
  const std::string who = liftedBy(static_cast<const Team&>(mass));
  if (who.empty()) return {};
  if (!mass.parts_kg.empty()) return who + ", part by part";
  if (mass.panels_out == 0) return who;
  const std::string out = mass.panels_out == 1 ? "one" : std::to_string(mass.panels_out);
  return who + ", " + out + " " + mass.outWord() + " out first";
}

Team teamFor(double mass_kg, double longest, const practice::Lifting& rules) {
  Team team;
  const bool unwieldy = rules.alone_size_most && longest > rules.alone_size_most->value;  // too long for one to carry
  for (int people = 1; people <= kLargestTeam; ++people) {
    const double limit = teamLimit(people, rules);
    if (limit <= 0 || (people == 1 && unwieldy && teamLimit(2, rules) > 0)) continue;
    team.people = people;  // stays the largest team where none is enough
    if (mass_kg <= limit) return team;
  }
  team.mechanical_help = team.people && (!rules.lifter_from || mass_kg > rules.lifter_from->value);
  return team;
}

UnitMass massOf(const UnitSpec& unit, const std::optional<double>& stated_kg, const practice::Practice& practice) {
  const practice::Masses& masses = practice.safety.masses;
  const UnitParts parts = partsOf(unit);
  const double metal = masses.aluminium.value / kMm3PerM3;
  const double share = masses.metal_share.value;
  UnitMass mass;
  std::vector<double> glass;  // kg of each pane; coupled parts and leaves use them below
  glass.reserve(parts.pane.size());
  for (std::size_t i = 0; i < parts.pane.size(); ++i) {
    const double area = parts.areaWithin(parts.pane[i].inset(-kGlassBite), parts.clear.x0 - kGlassBite);  // true size
    glass.push_back(glassMass(area, parts.glass[i], masses.glass.value));
    mass.glass_kg += glass.back();
  }
  double sashes = 0;  // from here on volumes of metal, mm³
  for (const Sash& sash : parts.sash) sashes += sashMetal(parts, sash, share);
  const double framed = parts.areaWithin(parts.frame, parts.frame.x0);
  const double frame = (framed - parts.areaWithin(parts.clear, parts.clear.x0)) * unit.frame.depth * share;
  const double inside = parts.areaWithin(parts.in_reveal, parts.in_reveal.x0);
  const double sub_sill = unit.sub_sill ? (inside - framed) * unit.sub_sill->depth * share : 0;
  mass.frame_kg = (frame + sub_sill + sashes + barMetal(unit, parts, share) + finMetal(unit, parts)) * metal;
  if (unit.reveal) {
    const double ring = parts.areaWithin({0, 0, unit.width, unit.height}, 0) - inside;
    mass.reveal_kg = ring * unit.reveal->depth * masses.reveal.value / kMm3PerM3;
  }
  const double computed = mass.glass_kg + mass.frame_kg + mass.reveal_kg;  // what a stated total is measured against
  mass.stated = stated_kg.has_value();
  mass.total_kg = stated_kg.value_or(computed);
  const double scale = computed > 0 ? mass.total_kg / computed : 0;  // a stated total scales sashes and leaves alike
  double longest = 0;                                                // side of what it is made in
  const std::vector<UnitRect> made = madeParts(unit);
  for (const UnitRect& part : made) longest = std::max({longest, part.width(), part.height()});
  if (unit.coupled > 0) {  // each part is lifted by itself
    mass.parts_kg = partsMass(unit, parts, glass, mass.total_kg);
    const double sum = std::accumulate(mass.parts_kg.begin(), mass.parts_kg.end(), 0.0);
    if (mass.stated) mass.parts_kg[0] = std::max(0.0, mass.parts_kg[0] + mass.total_kg - sum);  // the main part's rest
    if (!mass.stated) mass.total_kg = sum;  // the job may have given the weights of some parts
    for (std::size_t i = 0; i < mass.parts_kg.size(); ++i) {
      const double side = std::max(made[i].width(), made[i].height());
      mass.parts_team.push_back(teamFor(mass.parts_kg[i], side, practice.safety.lifting));
    }
  }
  const auto team = [&](double kg) { return teamFor(kg, longest, practice.safety.lifting); };
  const bool too_heavy = unit.coupled == 0 && team(mass.total_kg).mechanical_help;  // coupled parts go in one by one
  for (const LightParts& light : parts.light) {
    const bool slider = panelsMeet(light.kind);
    for (const Sash& sash : parts.sashesOf(light)) {
      const double kg = (sashMetal(parts, sash, share) * metal + glass[sash.pane]) * scale;
      mass.leaf_kg.push_back(kg);
      if (!too_heavy || !comesOut(unit, sash)) continue;
      mass.panel_kg = std::max(mass.panel_kg, kg);
      mass.out_kg += kg;
      ++mass.panels_out;
      mass.leaves_out = mass.leaves_out || !slider;
    }
  }
  static_cast<Team&>(mass) = team(std::max(mass.panel_kg, mass.lifted()));  // last: by now it is known what comes out
  return mass;
}

std::optional<double> recommendedWeight(const Lift& lift, const practice::Lifting& rules) {
  if (!rules.niosh_load || !rules.niosh_horizontal || !rules.niosh_vertical || !rules.niosh_vertical_at ||
      !rules.niosh_distance || !rules.niosh_distance_over) {
    return std::nullopt;
  }
  const double out = std::max(lift.out / kMmPerCm, rules.niosh_horizontal->value);  // HM is never above 1
  const double low = std::min(lift.from, lift.to) / kMmPerCm;
  const double high = std::max(lift.from, lift.to) / kMmPerCm;
  if (out > kFurthestOut || high > kHighest || low < 0) return 0;              // out of reach
  const double off = std::max(std::abs(low - rules.niosh_vertical_at->value),  //
                              std::abs(high - rules.niosh_vertical_at->value));
  const double horizontal = rules.niosh_horizontal->value / out;
  const double vertical = 1 - rules.niosh_vertical->value * off;
  const double way = std::max(high - low, kLeastWay);
  const double distance = std::min(rules.niosh_distance->value + rules.niosh_distance_over->value / way, 1.0);
  return rules.niosh_load->value * horizontal * vertical * distance;
}

std::optional<double> liftingIndex(double load_kg, const Lift& lift, const practice::Lifting& rules) {
  const std::optional<double> most = recommendedWeight(lift, rules);
  if (!most || *most <= 0) return std::nullopt;  // nothing may be lifted so: there is no ratio
  return load_kg / *most;
}

}  // namespace sillwright::plan
