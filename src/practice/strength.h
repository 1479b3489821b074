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
  std::string name;                              ///< "N3"
  Rule ultimate_speed, service_speed;            ///< Gust, m/s.
  Rule general_coefficient, corner_coefficient;  ///< Net pressure over free-stream pressure, magnitudes.
  Rule ultimate_kpa, service_kpa;                ///< Net pressure on a unit, away from corners.
  Rule corner_ultimate_kpa, corner_service_kpa;
  Rule rating_kpa, corner_rating_kpa;  ///< Ultimate rating a unit's label has to show.
  Rule water_kpa;                      ///< Water-penetration test pressure.
  bool operator==(const WindClass&) const = default;
};

struct Wind {
  Rule air_density;   ///< kg/m³
  Rule corner_zone;   ///< A unit this near to a building corner takes the corner's pressure, mm.
  Rule corner_share;  ///< … if at least this share of its width lies in the zone.
  Rule water_share;   ///< Water-penetration pressure over serviceability pressure, where the class names none.
  std::vector<WindClass> classes;

  /// The class of that name, or nullptr.
  [[nodiscard]] const WindClass* find(std::string_view name) const;
  bool operator==(const Wind&) const = default;
};

/// Pressures of one class on a unit, kPa; empty where the practice gives neither pressure nor speed and coefficient.
/// `from…` is the figure the value rests on most (the pressure itself, or the gust speed), for naming its source.
struct Pressures {
  std::optional<double> ultimate, service, water;
  const Figure* from_ultimate = nullptr;
  const Figure* from_service = nullptr;
  const Figure* from_water = nullptr;
};

/// Free-stream pressure of a gust, kPa: q = ½ρV².
[[nodiscard]] double gustPressure(double speed, double air_density);

/// Pressures of a class, away from or at a corner. The figures live in `wind`, which must outlive the answer.
[[nodiscard]] Pressures pressures(const Wind& wind, const WindClass& wind_class, bool at_corner);

/// Where fixings go. `spacing_most` with `from_corner_most` governs where it is named; `per_jamb` (by height of the
/// unit) is the customary count where it is not.
struct Fixing {
  Rule from_corner_least, from_corner_most;  ///< First and last fixing from the unit's corners.
  Rule spacing_most;
  Rule jamb_least, sill_least;  ///< Fewest fixings on a jamb, on a sill.
  Rule door_jamb_least;
  Bands per_jamb;
  Rule from_mullion_least;     ///< Distance from a mullion's or transom's centre line.
  Rule embedment_least;        ///< Into the stud, mm.
  Rule embedment_diameters;    ///< … and as a multiple of the shank's diameter, point included.
  Rule countersink;            ///< Depth of the head below the reveal's face.
  Rule fin_spacing_most;       ///< Of the fasteners through a fin.
  Rule fin_penetration_least;  ///< Of a fin's fasteners into framing.
  bool operator==(const Fixing&) const = default;
};

/// A gauge of wood screw. Its point, which holds nothing, is two shank diameters long.
struct Gauge {
  std::string name;             ///< "8g"; a screw is named "8g x 75" or "#8 x 3 in".
  Figure shank, root, head;     ///< Diameters, mm.
  Rule yield;                   ///< Bending yield strength F_yb, N/mm².
  Rule tensile;                 ///< Tensile strength f_u, N/mm²: of a hardened screw, by its maker.
  std::vector<double> lengths;  ///< That can be bought, mm.
  bool operator==(const Gauge&) const = default;
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

/// How a capacity is set against a load.
enum class Method : std::uint8_t {
  Allowable,   ///< Serviceability pressure against yield value / divisor · duration.
  LimitStates  ///< Ultimate pressure against yield value / divisor · format_conversion · capacity_factor · duration.
};

/// From a fixing's yield value to what may be counted on.
struct FixingDesign {
  Method method = Method::LimitStates;
  Embedding embedding = Embedding::Nds;
  Bands divisor;           ///< By root diameter, mm: R_d (NDS) or γ_M (EN 1995-1-1).
  Rule duration_wind;      ///< C_D, λ or k_mod of wind.
  Rule format_conversion;  ///< K_F; not named: 1.
  Rule capacity_factor;    ///< φ; not named: 1.
  Rule reveal_gravity;     ///< Specific gravity of a reveal's wood.
  Rule reveal_density;     ///< Characteristic density of a reveal's wood, kg/m³.
  /// Wood under the head, in shank diameters, that the region's own joint tables ask for; a thinner reveal is outside
  /// them. Not named: they have no such rule.
  Rule side_diameters;
  bool operator==(const FixingDesign&) const = default;
};

/// A grade of timber, N/mm². Bending strength falls with depth, so it comes in bands of depth.
struct TimberGrade {
  std::string name;  ///< "MGP10"
  Bands bending;
  Rule shear, stiffness;
  Rule across;            ///< Bearing strength across the grain.
  Rule specific_gravity;  ///< For Embedding::Nds.
  Rule density;           ///< Characteristic, kg/m³, for Embedding::Ec5.
  bool operator==(const TimberGrade&) const = default;
};

/// The simple check of a lintel. A deflection ratio of 300 means span/300.
struct LintelRules {
  Rule load_factor;      ///< On the stated load for strength; Method::Allowable: 1.
  Rule duration;         ///< k1, C_D or k_mod of the load.
  Rule capacity_factor;  ///< φ or 1/γ_M.
  Rule total_deflection_ratio, live_deflection_ratio;
  Rule deflection_most;  ///< mm
  Rule creep;            ///< Long-term over short-term deflection.
  bool operator==(const LintelRules&) const = default;
};

/// The span of a header from a published table: `plies` of a depth by what they carry, with the short studs it wants.
struct SpanEntry {
  std::string header;    ///< As the table names it: "2-2x8".
  double depth = 0;      ///< mm, of the section.
  double thickness = 0;  ///< mm, of one ply.
  int plies = 0;
  std::string carries;  ///< "roof and ceiling"
  Figure span;          ///< mm
  Rule jack_studs;      ///< At each end.
  bool operator==(const SpanEntry&) const = default;
};

struct Timber {
  std::string usual_grade;  ///< Where the job names none; may be empty.
  std::vector<TimberGrade> grades;
  LintelRules lintel;
  std::vector<SpanEntry> spans;

  /// The grade of that name, or nullptr.
  [[nodiscard]] const TimberGrade* find(std::string_view name) const;
  bool operator==(const Timber&) const = default;
};

/// Wind, fixings and timber of a practice.
struct Strength {
  Wind wind;
  Fixing fixing;
  FixingDesign fixing_design;
  std::vector<Gauge> gauges;
  Timber timber;
  bool operator==(const Strength&) const = default;
};

/// A screw by its name, "8g x 75" (mm) or "#8 x 2 1/2 in". Its gauge has to be one of the practice's; its length may be
/// any above 0. Empty: no such name. The gauge lives in `strength`, which must outlive the answer.
[[nodiscard]] std::optional<Screw> findScrew(const Strength& strength, std::string_view name);

}  // namespace sillwright::practice
