/// Wind, fixings and timber: what a practice says about how hard it blows, what holds a unit, and what the wood bears.
///
/// Everything here feeds indicative checks. What a practice leaves out is an empty Rule, and the check that needs it is
/// not judged. Metres a second, kilopascals, millimetres, N/mm², kg/m³.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "practice/figure.h"

namespace sillwright::practice {

/// One class of the region's wind table. A pressure that is given stands; else it follows from the gust speed.
struct WindClass {
  std::string name;
  Rule ultimate_speed, service_speed, general_coefficient, corner_coefficient, ultimate_kpa, service_kpa,
      corner_ultimate_kpa, corner_service_kpa, rating_kpa, corner_rating_kpa, water_kpa;

  static void describe(auto& keys) {
    keys.header("[[wind.class]]");
    keys("name", &WindClass::name, kText, "As the job names it, \"N3\".");
    keys("ultimate_speed", &WindClass::ultimate_speed, kSpeed, "Gust of the ultimate limit state.");
    keys("service_speed", &WindClass::service_speed, kSpeed, "Gust of serviceability.");
    keys("general_coefficient", &WindClass::general_coefficient, kRatio,
         "Net pressure over free-stream pressure, magnitude.");
    keys("corner_coefficient", &WindClass::corner_coefficient, kRatio, "The same at a building corner.");
    keys("ultimate_kpa", &WindClass::ultimate_kpa, kPressure, "Net pressure on a unit, away from corners.");
    keys("service_kpa", &WindClass::service_kpa, kPressure, "Net pressure of serviceability.");
    keys("corner_ultimate_kpa", &WindClass::corner_ultimate_kpa, kPressure, "Net pressure at a building corner.");
    keys("corner_service_kpa", &WindClass::corner_service_kpa, kPressure,
         "Net pressure of serviceability at a building corner.");
    keys("rating_kpa", &WindClass::rating_kpa, kPressure, "Ultimate rating a unit's label has to show.");
    keys("corner_rating_kpa", &WindClass::corner_rating_kpa, kPressure, "The same at a building corner.");
    keys("water_kpa", &WindClass::water_kpa, kPressure, "Water-penetration test pressure.");
  }
};

struct Wind {
  Rule air_density, corner_zone, corner_share, water_share;
  std::vector<WindClass> classes;

  static void describe(auto& keys) {
    keys.header("[wind]");
    keys("air_density", &Wind::air_density, kDensity, "Density of the air.");
    keys("corner_zone", &Wind::corner_zone, kPart,
         "A unit this near to a building corner takes the corner's pressure …");
    keys("corner_share", &Wind::corner_share, kShare, "… if at least this share of its width lies in the zone.");
    keys("water_share", &Wind::water_share, kShare,
         "Water-penetration pressure over serviceability pressure, where the class names none.");
    keys("class", &Wind::classes, kTables, "The classes that a job may name.");
  }

  /// The class of that name, or nullptr.
  [[nodiscard]] const WindClass* find(std::string_view name) const { return findNamed(classes, name); }
};

/// Pressures of one class on a unit, kPa; empty where the practice gives neither pressure nor speed and coefficient.
/// `from…` is the figure the value rests on most (the pressure itself, or the gust speed), for naming its source.
struct Pressures {
  std::optional<double> ultimate, service, water;
  const Figure* from_ultimate = nullptr;
  const Figure* from_water = nullptr;
};

/// Free-stream pressure of a gust, kPa: q = ½ρV².
[[nodiscard]] double gustPressure(double speed, double air_density);

/// Pressures of a class, away from or at a corner. The figures live in `wind`, which must outlive the answer.
[[nodiscard]] Pressures pressures(const Wind& wind, const WindClass& wind_class, bool at_corner);

/// Where fixings go. `spacing_most` with `from_corner_most` governs where it is named; `per_jamb` (by height of the
/// unit) is the customary count where it is not.
struct Fixing {
  Rule from_corner_least, from_corner_most, spacing_most, jamb_least, sill_least, head_least, door_jamb_least;
  Bands per_jamb;
  Rule from_mullion_least, embedment_least, embedment_diameters, countersink, fin_spacing_most, fin_penetration_least;

  static void describe(auto& keys) {
    keys.header("[fixing]");
    keys("from_corner_least", &Fixing::from_corner_least, kLength,
         "First and last fixing from the unit's corners, at least.");
    keys("from_corner_most", &Fixing::from_corner_most, kLength,
         "First and last fixing from the unit's corners, at most.");
    keys("spacing_most", &Fixing::spacing_most, kPart,
         "Largest distance between fixings; governs with from_corner_most.");
    keys("jamb_least", &Fixing::jamb_least, kPieces, "Fewest fixings on a jamb.");
    keys("sill_least", &Fixing::sill_least, kCount, "Fewest fixings on a sill.");
    keys("head_least", &Fixing::head_least, kCount, "Fewest fixings on a head.");
    keys("door_jamb_least", &Fixing::door_jamb_least, kPieces, "Fewest fixings on a door's jamb.");
    keys("per_jamb", &Fixing::per_jamb, kPieces, "Customary count by height of the unit, where no spacing is named.");
    keys("from_mullion_least", &Fixing::from_mullion_least, kLength,
         "Distance from a mullion's or transom's centre line.");
    keys("embedment_least", &Fixing::embedment_least, kPart, "Into the stud.");
    keys("embedment_diameters", &Fixing::embedment_diameters, kRatio,
         "… and as a multiple of the shank's diameter, point included.");
    keys("countersink", &Fixing::countersink, kLength, "Depth of the head below the reveal's face.");
    keys("fin_spacing_most", &Fixing::fin_spacing_most, kPart, "Largest distance between the fasteners through a fin.");
    keys("fin_penetration_least", &Fixing::fin_penetration_least, kPart, "Of a fin's fasteners into framing.");
  }
};

/// A gauge of wood screw. Its point, which holds nothing, is two shank diameters long.
struct Gauge {
  std::string name;
  Figure shank, root, head;
  Rule yield, tensile;
  std::vector<double> lengths;

  static void describe(auto& keys) {
    keys.header("[[gauge]]");
    keys("name", &Gauge::name, kText, "\"8g\"; a screw is named \"8g x 75\" or \"#8 x 3 in\".");
    keys("shank", &Gauge::shank, kPart, "Diameter.");
    keys("root", &Gauge::root, kPart, "Diameter.");
    keys("head", &Gauge::head, kPart, "Diameter.");
    keys("yield", &Gauge::yield, kStress, "Bending yield strength F_yb.");
    keys("tensile", &Gauge::tensile, kStress, "Tensile strength f_u: of a hardened screw, by its maker.");
    keys("lengths", &Gauge::lengths, kLengths, "Lengths that can be bought, mm.");
  }
};

struct Screw {
  const Gauge* gauge = nullptr;
  double length = 0;  ///< mm
};

/// How the bearing strength of wood under a dowel follows from its density.
enum class Embedding : std::uint8_t {
  Nds,  ///< F_e = 16600·G^1.84 psi for D < ¼ in, G the specific gravity (NDS 2018).
  Ec5   ///< f_h = 0.082·ρ·d^−0.3 N/mm², ρ the characteristic density, no pre-drilling (EN 1995-1-1, eq. 8.15).
};

inline constexpr std::string_view kEmbeddingWords[] = {"nds", "ec5"};

/// How a capacity is set against a load.
enum class Method : std::uint8_t {
  Allowable,   ///< Serviceability pressure against yield value / divisor · duration.
  LimitStates  ///< Ultimate pressure against yield value / divisor · format_conversion · capacity_factor · duration.
};
inline constexpr std::string_view kMethodWords[] = {"allowable", "limit states"};

/// From a fixing's yield value to what may be counted on.
struct FixingDesign {
  Method method = Method::LimitStates;
  Embedding embedding = Embedding::Nds;
  Bands divisor;
  Rule duration_wind, format_conversion, capacity_factor, reveal_gravity, reveal_density, side_diameters;

  static void describe(auto& keys) {
    keys.header("[fixing_design]");
    keys("method", &FixingDesign::method, job::word(kMethodWords), "How a capacity is set against a load.");
    keys("embedding", &FixingDesign::embedding, job::word(kEmbeddingWords),
         "How the bearing strength of wood follows from its density.");
    keys("divisor", &FixingDesign::divisor, kRatio, "By root diameter: R_d (NDS) or γ_M (EN 1995-1-1).");
    keys("duration_wind", &FixingDesign::duration_wind, kRatio, "C_D, λ or k_mod of wind.");
    keys("format_conversion", &FixingDesign::format_conversion, kRatio, "K_F; not named: 1.");
    keys("capacity_factor", &FixingDesign::capacity_factor, kShare, "φ; not named: 1.");
    keys("reveal_gravity", &FixingDesign::reveal_gravity, kShare, "Specific gravity of a reveal's wood.");
    keys("reveal_density", &FixingDesign::reveal_density, kDensity, "Characteristic density of a reveal's wood.");
    keys("side_diameters", &FixingDesign::side_diameters, kRatio,
         "Least wood under the head that the region's joint tables cover, in shank diameters.");
  }
};

/// A grade of timber, N/mm². Bending strength falls with depth, so it comes in bands of depth.
struct TimberGrade {
  std::string name;
  Bands bending;
  Rule capacity_factor, shear, stiffness, across, specific_gravity, density;

  static void describe(auto& keys) {
    keys.header("[[timber.grade]]");
    keys("name", &TimberGrade::name, kText, "As the job names it, \"MGP10\".");
    keys("bending", &TimberGrade::bending, kStress, "Bending strength by depth.");
    keys("capacity_factor", &TimberGrade::capacity_factor, kShare, "Where it isn't that of all grades.");
    keys("shear", &TimberGrade::shear, kStress, "Shear strength.");
    keys("across", &TimberGrade::across, kStress, "Bearing strength across the grain.");
    keys("stiffness", &TimberGrade::stiffness, kStress, "Modulus of elasticity.");
    keys("specific_gravity", &TimberGrade::specific_gravity, kShare, "For bearing strength by the NDS.");
    keys("density", &TimberGrade::density, kDensity, "Characteristic, for bearing strength by EN 1995-1-1.");
  }
};

/// The simple check of a lintel. A deflection ratio of 300 means span/300.
struct LintelRules {
  Rule load_factor, duration, capacity_factor, crack_factor, area_most, cripples_share, cripples_from_depth,
      total_deflection_ratio, live_deflection_ratio, deflection_most, creep, idle_span_most, idle_above_most;

  static void describe(auto& keys) {
    keys.header("[timber.lintel]");
    keys("load_factor", &LintelRules::load_factor, kRatio, "On the stated load for strength; by allowable stress: 1.");
    keys("duration", &LintelRules::duration, kRatio, "k1, C_D or k_mod of the load.");
    keys("capacity_factor", &LintelRules::capacity_factor, kShare, "φ or 1/γ_M.");
    keys("crack_factor", &LintelRules::crack_factor, kShare, "Share of the width that bears shear; not named: all.");
    keys("area_most", &LintelRules::area_most, kArea, "The capacity factor holds for no more load on plan than this.");
    keys("cripples_share", &LintelRules::cripples_share, kShare,
         "What is left of the table's spans where short studs bear on a header …");
    keys("cripples_from_depth", &LintelRules::cripples_from_depth, kPart, "… at least so deep.");
    keys("total_deflection_ratio", &LintelRules::total_deflection_ratio, kRatio,
         "Span over this is the most under all load.");
    keys("live_deflection_ratio", &LintelRules::live_deflection_ratio, kRatio,
         "Span over this is the most under live load.");
    keys("deflection_most", &LintelRules::deflection_most, kPart, "Deflection, at most.");
    keys("creep", &LintelRules::creep, kRatio, "Long-term over short-term deflection.");
    keys("idle_span_most", &LintelRules::idle_span_most, kPart,
         "In a wall that carries nothing a plate laid flat does over an opening so wide …");
    keys("idle_above_most", &LintelRules::idle_above_most, kPart, "… with no more of the wall than this over it.");
  }
};

/// The span of a header from a published table: `plies` of a depth by what they carry, with the short studs it wants.
struct SpanEntry {
  std::string header;
  double depth = 0, thickness = 0;
  int plies = 0;
  std::string carries;
  Figure span;
  Rule jack_studs;

  static void describe(auto& keys) {
    keys.header("[[timber.span]]");
    keys("header", &SpanEntry::header, kText, "As the table names it, \"2-2x8\".");
    keys("depth", &SpanEntry::depth, job::mm(0.01, 100'000), "Of the section, mm.");
    keys("thickness", &SpanEntry::thickness, job::mm(0.01, 100'000), "Of one ply, mm.");
    keys("plies", &SpanEntry::plies, job::whole(1, 100), "How many plies.");
    keys("carries", &SpanEntry::carries, kText, "What bears on it, \"roof and ceiling\".");
    keys("span", &SpanEntry::span, kPart, "The span.");
    keys("jack_studs", &SpanEntry::jack_studs, kPieces, "At each end.");
  }
};

struct Timber {
  std::string usual_grade;
  std::vector<TimberGrade> grades;
  LintelRules lintel;
  std::vector<SpanEntry> spans;

  static void describe(auto& keys) {
    keys.header("[timber]");
    keys("usual_grade", &Timber::usual_grade, kText.optional(), "Where the job names none.");
    keys("grade", &Timber::grades, kTables, "The grades that a job may name.");
    keys("lintel", &Timber::lintel, job::table().optional(), "The simple check of a lintel.");
    keys("span", &Timber::spans, kTables, "Spans of headers from a published table.");
  }

  /// The grade of that name, or nullptr.
  [[nodiscard]] const TimberGrade* find(std::string_view name) const { return findNamed(grades, name); }
};

/// Wind, fixings and timber of a practice.
struct Strength {
  Wind wind;
  Fixing fixing;
  FixingDesign fixing_design;
  std::vector<Gauge> gauges;
  Timber timber;
};

/// A screw by its name, "8g x 75" (mm) or "#8 x 2 1/2 in". Its gauge has to be one of the practice's; its length may be
/// any above 0. Empty: no such name. The gauge lives in `strength`, which must outlive the answer.
[[nodiscard]] std::optional<Screw> findScrew(const Strength& strength, std::string_view name);

}  // namespace sillwright::practice
