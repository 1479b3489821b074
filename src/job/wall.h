/// The tables of a job's [[wall]] (job.h): a wall as it is planned.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "base/error.h"
#include "job/rule.h"

namespace sillwright::job {

inline constexpr double kLongestWall = 100'000;
/// Between two corners of a wall's top, mm along the wall: nearer ones are one corner, and the slope between is noise.
inline constexpr double kLeastBetweenCorners = 1;
/// Longest name of a wall or an opening, characters.
inline constexpr double kLongestName = 100;

inline constexpr std::string_view kAlignWords[] = {"heads"};

struct StudSection {
  double depth = 0, thickness = 0;

  static void describe(auto& keys) {
    keys("depth", &StudSection::depth, mm(30, 400), "Through the wall (y), mm.");
    keys("thickness", &StudSection::thickness, mm(15, 200), "Along the wall (x), mm.");
  }
  bool operator==(const StudSection&) const = default;
};

/// A corner of the line along the top of the top plate.
struct TopPoint {
  double x = 0, z = 0;
  bool operator==(const TopPoint&) const = default;
};

struct PlateCount {
  int top = 0, bottom = 0;

  static void describe(auto& keys) {
    keys("top", &PlateCount::top, whole(1, 4), "Top plates.");
    keys("bottom", &PlateCount::bottom, whole(1, 4), "Bottom plates.");
  }
  bool operator==(const PlateCount&) const = default;
};

/// What covers a wall outside.
enum class CladdingKind : std::uint8_t { Boards, Sheet, BrickVeneer, Render };
inline constexpr std::string_view kCladdingWords[] = {"boards", "sheet", "brick veneer", "render"};

struct Cladding {
  double thickness = 0, cavity = 0;
  std::optional<CladdingKind> kind = {};

  static void describe(auto& keys) {
    keys("kind", &Cladding::kind, word(kCladdingWords),
         "What it is. Left out: boards; or brick veneer, where it is 70 mm thick or more before a cavity.");
    keys("thickness", &Cladding::thickness, mm(0, 300), "Of the cladding, mm.");
    keys("cavity", &Cladding::cavity, mm(0, 300),
         "Between membrane and cladding, mm: battens, or a clear cavity behind brick; 0: fixed direct.");
  }
  bool operator==(const Cladding&) const = default;
};

struct Eave {
  double soffit = 0, overhang = 0;

  static void describe(auto& keys) {
    keys("soffit", &Eave::soffit, mm(0, 20'000), "Height of the soffit (z), mm.");
    keys("overhang", &Eave::overhang, mm(0, 10'000).was("reach"), "Out from the studs' outside face, mm.");
  }
  bool operator==(const Eave&) const = default;
};

struct Supports {
  double width = 0, load_kpa = 0;

  static void describe(auto& keys) {
    keys("width", &Supports::width, mm(100, 50'000), "Width of roof or floor that bears on the wall, mm.");
    keys("load_kpa", &Supports::load_kpa, number(0, 50, "kPa"), "Its load on plan, kPa.");
  }
  bool operator==(const Supports&) const = default;
};

/// The inner studs of a double stud wall, framed as the outer ones are.
struct SecondRow {
  double depth = 0, gap = 0;

  static void describe(auto& keys) {
    keys("depth", &SecondRow::depth, mm(30, 400), "Of its studs through the wall, mm.");
    keys("gap", &SecondRow::gap, mm(0, 600), "Between the two rows, mm.");
  }
  bool operator==(const SecondRow&) const = default;
};

/// What the studs, plates and trimmers are of.
enum class StudKind : std::uint8_t { Timber, Steel };
inline constexpr std::string_view kStudWords[] = {"timber", "steel"};

struct Wall {
  std::string name;
  double length = 0;
  /// Left to right: first x is 0, last is `length`, each at least kLeastBetweenCorners past the one before, at least
  /// two points. A level wall has two points of one height.
  std::vector<TopPoint> top;
  std::optional<StudSection> stud;
  std::optional<double> spacing, lining, above_ground, level;
  std::optional<PlateCount> plates;
  std::optional<Cladding> cladding;
  std::optional<Eave> eave;
  std::optional<std::string> timber;
  double at_x = 0, at_y = 0, turn_degrees = 0;
  bool align_heads = false;
  std::optional<Supports> supports;
  std::optional<bool> inside;
  std::optional<StudKind> studs;
  std::optional<SecondRow> second_row;
  base::Place place, timber_place;  ///< Of the `[[wall]]` header, and of what `timber` says.

  static void describe(auto& keys) {
    keys.header("[[wall]]");
    keys.place(&Wall::place);
    keys("name", &Wall::name, text(kLongestName), "What openings call the wall; every wall's own.");
    keys("length", &Wall::length, mm(100, kLongestWall), "Length of the wall frame, mm.");
    keys("top", &Wall::top, outline(300, 20'000, 64).required(),
         "Height of the top plate's top, mm; of a gable or raking wall its line, [x, z] from x = 0 to x = length.");
    keys("stud", &Wall::stud, table(), "Section of a stud.");
    keys("spacing", &Wall::spacing, mm(100, 3'000), "Stud centres, mm.");
    keys("plates", &Wall::plates, table(), "How many plates, each of the stud's section.");
    keys("lining", &Wall::lining, mm(0, 200), "Thickness of the inside lining, mm.");
    keys("cladding", &Wall::cladding, table(), "What covers the wall outside.");
    keys("eave", &Wall::eave, table(), "An eave over the wall. Left out: the wall is open to the weather.");
    keys("timber", &Wall::timber, text(60), "A grade of the practice's table, for the indicative checks.");
    keys.place("timber", &Wall::timber_place);
    keys(
        "at", [](auto& wall) { return std::tie(wall.at_x, wall.at_y); }, mmPair(-1'000'000, 1'000'000).optional(),
        "On the floor plan, mm: the studs' outside face at the wall's left end, [x, y]. Left out: [0, 0].");
    keys("turn", &Wall::turn_degrees, number(-360, 360, "degrees").optional(),
         "Of the wall's x axis, degrees anticlockwise on plan. Left out: 0.");
    keys("align", &Wall::align_heads, word(kAlignWords).optional(),
         "Bring the units' heads into one line where every opening allows it.");
    keys("supports", &Wall::supports, table(), "Roof or floor carried by the lintels, for the indicative check.");
    keys("above_ground", &Wall::above_ground, mm(0, 100'000).was("drop"),
         "From the floor of level 0 down to the ground outside, mm, for the falls checks.");
    keys("level", &Wall::level, mm(-20'000, 100'000), "Floor height of the wall's storey, mm. Left out: 0.");
    keys("inside", &Wall::inside, truth(), "Between two rooms: no weather, no membrane, no cladding.");
    keys("studs", &Wall::studs, word(kStudWords), "What the frame is of. Left out: timber.");
    keys("second_row", &Wall::second_row, table(), "The inner studs of a double stud wall. Left out: one row.");
  }

  [[nodiscard]] bool isInside() const { return inside.value_or(false); }
  [[nodiscard]] bool isSteel() const { return studs == StudKind::Steel; }
  /// From its own floor down to the ground outside; empty where the job doesn't say.
  [[nodiscard]] std::optional<double> fall() const {
    return above_ground ? std::optional(*above_ground + level.value_or(0)) : std::nullopt;
  }
  bool operator==(const Wall&) const = default;
};

struct Lintel {
  double depth = 0, thickness = 0;
  int plies = 0;
  std::optional<std::string> material = {};

  static void describe(auto& keys) {
    keys("material", &Lintel::material, text(60),
         "As \"F17\" or \"steel\": not judged unless it is a grade of the practice's table. Left out: the wall's "
         "timber.");
    keys("depth", &Lintel::depth, mm(20, 1'500), "Its height, mm.");
    keys("thickness", &Lintel::thickness, mm(10, 400), "Of one ply, mm.");
    keys("plies", &Lintel::plies, whole(1, 10), "Plies side by side.");
  }
  bool operator==(const Lintel&) const = default;
};

}  // namespace sillwright::job
