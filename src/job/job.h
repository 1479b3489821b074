/// The job: what the user says is planned and what was measured on site.
///
/// Plain values, exactly as the job file states them. Nothing is computed here and nothing is filled in: a key that
/// the file leaves out is an empty optional, and whoever needs a value for it says where he took it from
/// (plan/settle.h).
///
/// Each struct that is a table of the file describes its keys beside its members (rule.h says what for). A key added
/// is a member and its line in `describe`. Bounds are wide on purpose: they refuse what can't be a house (a slipped
/// finger, metres for millimetres), not what is merely wrong on site; that is a finding, to be seen in the drawing.
///
/// Units: millimetres, degrees, kilograms, kilopascals. Axes of a wall: x to the right as seen from outside,
/// y into the building (0 at the outside face of the studs), z up (0 at the underside of the bottom plate).
#pragma once

#include <algorithm>
#include <array>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <tuple>
#include <variant>
#include <vector>

#include "base/error.h"
#include "job/rule.h"

namespace sillwright::job {

inline constexpr double kLongestWall = 100'000;
/// Between two corners of a wall's top, mm along the wall: nearer ones are one corner, and the slope between is noise.
inline constexpr double kLeastBetweenCorners = 1;
inline constexpr std::size_t kMostWalls = 10'000;
inline constexpr std::size_t kMostOpenings = 100'000;
/// Longest name of a wall or an opening, characters.
inline constexpr double kLongestName = 100;
inline constexpr double kLongestPath = 1'000;

// Words of the file, each list in the order of its enumeration.

enum class UnitKind : std::uint8_t {
  SlidingWindow,
  AwningWindow,
  CasementWindow,
  FixedWindow,
  SlidingDoor,
  HingedDoor,
  HopperWindow,
  TiltTurnWindow,
  LouvreWindow,
  SingleHungWindow,
  DoubleHungWindow,
  StackingDoor,
  FoldingDoor,
  DoubleDoors
};
inline constexpr std::string_view kKindWords[] = {
    "sliding window",     "awning window", "casement window",      "fixed window",  "sliding door",
    "hinged door",        "hopper window", "tilt and turn window", "louvre window", "single hung window",
    "double hung window", "stacking door", "folding door",         "double doors"};

[[nodiscard]] constexpr bool isDoor(UnitKind kind) {
  switch (kind) {
    case UnitKind::SlidingDoor:
    case UnitKind::HingedDoor:
    case UnitKind::StackingDoor:
    case UnitKind::FoldingDoor:
    case UnitKind::DoubleDoors:
      return true;
    default:
      return false;
  }
}

/// What fills one light of a divided unit: each of the kinds, or nothing of its own.
enum class Light : std::uint8_t { Joined = 14 };  ///< The others are those of UnitKind, in its order.
inline constexpr std::string_view kLightWords[] = {
    "sliding", "awning",      "casement",    "fixed",         "sliding door", "hinged door",  "hopper", "tilt and turn",
    "louvre",  "single hung", "double hung", "stacking door", "folding door", "double doors", "joined"};
inline constexpr std::size_t kMostLights = 36;

/// What the opening's room asks of it: safety glass, falls, wet-area rules.
enum class Room : std::uint8_t { Bedroom, Living, WetArea, Shower, Stair, Other, Kitchen };
inline constexpr std::string_view kRoomWords[] = {"bedroom", "living", "wet area", "shower",
                                                  "stair",   "other",  "kitchen"};
inline constexpr std::string_view kOldRoomWords[] = {"sleeping", "", "wet", "", "", "utility", ""};

/// Which way a hung leaf or sash goes.
enum class Way : std::uint8_t { In, Out };
inline constexpr std::string_view kWayWords[] = {"in", "out"};

/// What a door opens on to.
enum class Outside : std::uint8_t { Ground, Deck, Balcony };
inline constexpr std::string_view kOutsideWords[] = {"ground", "deck", "balcony"};

/// How the unit's flashings come: on its reveal from the works, or put on the wall at site.
enum class Flashing : std::uint8_t { Fitted, OnWall, OnUnit };
inline constexpr std::string_view kFlashingWords[] = {"fitted", "on the wall", "on the unit"};
inline constexpr std::string_view kOldFlashingWords[] = {"", "on site", ""};

/// Seen from outside: the side a leaf is hung at, or the side whose sash slides.
enum class Hand : std::uint8_t { Left, Right };
inline constexpr std::string_view kHandWords[] = {"left", "right"};

enum class Instrument : std::uint8_t { Tape, Laser };
inline constexpr std::string_view kInstrumentWords[] = {"tape", "laser"};

inline constexpr std::string_view kAlignWords[] = {"heads"};

// The wall.

struct StudSection {
  double depth = 0;
  double thickness = 0;

  static void describe(auto& keys) {
    keys("depth", &StudSection::depth, mm(30, 400), "Through the wall (y), mm.");
    keys("thickness", &StudSection::thickness, mm(15, 200), "Along the wall (x), mm.");
  }
  bool operator==(const StudSection&) const = default;
};

/// A corner of the line along the top of the top plate.
struct TopPoint {
  double x = 0;
  double z = 0;
  bool operator==(const TopPoint&) const = default;
};

struct PlateCount {
  int top = 0;
  int bottom = 0;

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
  double thickness = 0;
  double cavity = 0;
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
  double soffit = 0;
  double overhang = 0;

  static void describe(auto& keys) {
    keys("soffit", &Eave::soffit, mm(0, 20'000), "Height of the soffit (z), mm.");
    keys("overhang", &Eave::overhang, mm(0, 10'000).was("reach"), "Out from the studs' outside face, mm.");
  }
  bool operator==(const Eave&) const = default;
};

struct Supports {
  double width = 0;
  double load_kpa = 0;

  static void describe(auto& keys) {
    keys("width", &Supports::width, mm(100, 50'000), "Width of roof or floor that bears on the wall, mm.");
    keys("load_kpa", &Supports::load_kpa, number(0, 50, "kPa"), "Its load on plan, kPa.");
  }
  bool operator==(const Supports&) const = default;
};

/// The inner studs of a double stud wall, framed as the outer ones are.
struct SecondRow {
  double depth = 0;
  double gap = 0;

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
  std::optional<double> spacing;
  std::optional<PlateCount> plates;
  std::optional<double> lining;
  std::optional<Cladding> cladding;
  std::optional<Eave> eave;
  std::optional<std::string> timber;
  double at_x = 0;
  double at_y = 0;
  double turn_degrees = 0;
  bool align_heads = false;
  std::optional<Supports> supports;
  std::optional<double> above_ground;
  std::optional<double> level;
  std::optional<bool> inside;
  std::optional<StudKind> studs;
  std::optional<SecondRow> second_row;
  base::Place place;  ///< Of the `[[wall]]` header.
  base::Place timber_place;

  static void describe(auto& keys) {
    keys.header("[[wall]]");
    keys.place(&Wall::place);
    keys("name", &Wall::name, text(kLongestName), "What openings call the wall; every wall's own.");
    keys("length", &Wall::length, mm(100, kLongestWall), "Length of the wall frame, mm.");
    keys("top", &Wall::top, outline(300, 20'000, 64).required(),
         "Height of the top plate's top, mm; or its line as points [x, z] from x = 0 to x = length, for a gable or "
         "raking wall.");
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
        "Where the outside face of the studs stands on the floor plan at the wall's left end, [x, y] in mm. Left out: "
        "[0, 0].");
    keys("turn", &Wall::turn_degrees, number(-360, 360, "degrees").optional(),
         "Degrees, anticlockwise on plan, of the wall's x axis. Left out: 0.");
    keys("align", &Wall::align_heads, word(kAlignWords).optional(),
         "Bring the units' heads into one line where every opening allows it.");
    keys("supports", &Wall::supports, table(), "Roof or floor carried by the lintels, for the indicative check.");
    keys("above_ground", &Wall::above_ground, mm(0, 100'000).was("drop"),
         "From the floor of level 0 down to the ground outside, mm, for the falls checks.");
    keys("level", &Wall::level, mm(-20'000, 100'000), "Floor height of the wall's storey, mm. Left out: 0.");
    keys("inside", &Wall::inside, truth(), "Between two rooms: no weather, no membrane, no cladding.");
    keys("studs", &Wall::studs, word(kStudWords), "What the frame is of. Left out: timber.");
    keys("second_row", &Wall::second_row, table(),
         "A second row of studs inside the first, a gap apart: a double stud wall. Left out: one row.");
  }

  [[nodiscard]] bool isInside() const { return inside.value_or(false); }
  [[nodiscard]] bool isSteel() const { return studs == StudKind::Steel; }
  /// From its own floor down to the ground outside; empty where the job doesn't say.
  [[nodiscard]] std::optional<double> fall() const {
    return above_ground ? std::optional(*above_ground + level.value_or(0)) : std::nullopt;
  }
  bool operator==(const Wall&) const = default;
};

// The opening and its unit. An opening may stand outside its wall: that is a finding.

struct FrameSection {
  double depth = 0;
  double face = 0;

  static void describe(auto& keys) {
    keys("depth", &FrameSection::depth, mm(10, 400), "Through the wall, mm.");
    keys("face", &FrameSection::face, mm(5, 400), "Width seen from outside, mm.");
  }
  bool operator==(const FrameSection&) const = default;
};

struct Reveal {
  double thickness = 0;
  double depth = 0;

  static void describe(auto& keys) {
    keys("thickness", &Reveal::thickness, mm(3, 100), "Of its boards, mm.");
    keys("depth", &Reveal::depth, mm(10, 1'000), "Through the wall, mm.");
  }
  bool operator==(const Reveal&) const = default;
};

/// What a pane is made of.
enum class GlassType : std::uint8_t { Float, Toughened, Laminated, Wired };
inline constexpr std::string_view kGlassTypeWords[] = {"float", "toughened", "laminated", "wired"};

struct Glass {
  double thickness = 0;
  int panes = 0;
  std::optional<bool> safety;
  std::optional<bool> obscure = {};
  std::optional<GlassType> type = {};

  static void describe(auto& keys) {
    keys("thickness", &Glass::thickness, mm(1, 100), "Of one pane, mm.");
    keys("panes", &Glass::panes, whole(1, 4), "How many panes.");
    keys("safety", &Glass::safety, truth(), "Grade A safety glass or equal.");
    keys("obscure", &Glass::obscure, truth(), "Patterned or frosted: it lets light through and no view.");
    keys("type", &Glass::type, word(kGlassTypeWords),
         "What it is. Toughened and laminated count as safety glass, float doesn't, where `safety` is left out.");
  }
  bool operator==(const Glass&) const = default;
};

/// The glass of one light where it isn't the unit's: only what differs is said.
struct LightGlass {
  double row = 0, column = 0;  ///< From 1, from the top left.
  std::optional<double> thickness;
  std::optional<int> panes;
  std::optional<bool> safety, obscure;
  std::optional<GlassType> type;

  static void describe(auto& keys) {
    keys(
        "light", [](auto& glass) { return std::tie(glass.row, glass.column); }, pair(1, kMostLights),
        "Which light: its row from the top and its place in it from the left, seen from outside, from 1.");
    keys("thickness", &LightGlass::thickness, mm(1, 100), "Of one pane, mm.");
    keys("panes", &LightGlass::panes, whole(1, 4), "How many panes.");
    keys("safety", &LightGlass::safety, truth(), "Grade A safety glass or equal.");
    keys("obscure", &LightGlass::obscure, truth(), "Patterned or frosted.");
    keys("type", &LightGlass::type, word(kGlassTypeWords), "What it is.");
  }
  bool operator==(const LightGlass&) const = default;
};

/// What the unit was tested for, as its label says.
struct Label {
  std::optional<double> ultimate_kpa;
  std::optional<double> serviceability_kpa;
  std::optional<double> water_kpa;
  std::optional<double> u_value = {};

  static void describe(auto& keys) {
    keys("ultimate_kpa", &Label::ultimate_kpa, number(0, 20, "kPa").was("pressure_kpa"),
         "Wind at which it must not come apart: the ultimate rating.");
    keys("serviceability_kpa", &Label::serviceability_kpa, number(0, 20, "kPa"),
         "Wind at which it still works: the serviceability rating, or the design pressure of a label that shows one.");
    keys("water_kpa", &Label::water_kpa, number(0, 5, "kPa"), "Wind at which it keeps the rain out.");
    keys("u_value", &Label::u_value, number(0.1, 20, "W/m2K"), "Heat it loses.");
  }
  bool operator==(const Label&) const = default;
};

/// Whose schedule of fixings it is.
enum class ScheduleBy : std::uint8_t { Maker, Engineer };
inline constexpr std::string_view kScheduleByWords[] = {"maker", "engineer"};

/// Where a schedule has the unit fixed: at both jambs, at the head, at the sill.
enum class FixedSide : std::uint8_t { Jambs, Head, Sill };
inline constexpr std::string_view kFixedSideWords[] = {"jambs", "head", "sill"};

/// What a fixing passes through.
enum class FixedThrough : std::uint8_t { Reveal, Fin, Frame, Bracket };
inline constexpr std::string_view kFixedThroughWords[] = {"reveal", "fin", "frame", "bracket"};

/// How the unit is to be fixed, as its maker or an engineer has it: taken as given.
struct FixingSchedule {
  ScheduleBy by = ScheduleBy::Maker;
  std::optional<std::string> screw;
  double spacing = 0;
  std::optional<double> from_corner;
  std::vector<FixedSide> sides;
  std::optional<FixedThrough> through;
  base::Place screw_place;

  static void describe(auto& keys) {
    keys("by", &FixingSchedule::by, word(kScheduleByWords).optional(), "Whose schedule it is. Left out: the maker's.");
    keys("screw", &FixingSchedule::screw, text(60), "By gauge and length, as \"10g x 75\". Left out: from the stock.");
    keys.place("screw", &FixingSchedule::screw_place);
    keys("spacing", &FixingSchedule::spacing, mm(50, 2'000), "Largest distance between fixings, mm.");
    keys("from_corner", &FixingSchedule::from_corner, mm(10, 1'000),
         "First and last fixing from the unit's corners, mm. Left out: the practice's.");
    keys("sides", &FixingSchedule::sides, wordList(kFixedSideWords),
         "Where the unit is fixed. Left out: at jambs, head and sill.");
    keys("through", &FixingSchedule::through, word(kFixedThroughWords),
         "What the fixings pass through. Left out: the reveal, else the fin, else the frame.");
  }
  bool operator==(const FixingSchedule&) const = default;
};

/// Where a coupled part is joined to those before it.
enum class CoupledAt : std::uint8_t { Right, Over };
inline constexpr std::string_view kCoupledAtWords[] = {"right", "over"};

/// A part of the unit that is made apart and joined on site.
struct Coupled {
  UnitKind kind = UnitKind::FixedWindow;
  CoupledAt side = CoupledAt::Right;
  std::optional<double> width, height, mass_kg;

  static void describe(auto& keys) {
    keys("kind", &Coupled::kind, word(kKindWords), "What it is.");
    keys("side", &Coupled::side, word(kCoupledAtWords),
         "Where it is joined to the parts before it, seen from outside: at their right, or over them.");
    keys("width", &Coupled::width, mm(100, 20'000), "Of one at the right, mm: it is as high as the unit.");
    keys("height", &Coupled::height, mm(100, 20'000), "Of one over the others, mm: it is as wide as the unit.");
    keys("mass", &Coupled::mass_kg, number(0.1, 5'000, "kg"), "Its own weight, kg. Left out: calculated from sizes.");
  }
  bool operator==(const Coupled&) const = default;
};

/// A head that follows the roof: heights above the sill (of a unit: above its foot), straight from left to right or by
/// way of a peak. A triangle has a side of 0.
struct Head {
  double left = 0;
  double right = 0;
  double peak_x = 0;  ///< From the left edge.
  double peak_z = 0;  ///< 0: no peak.
  base::Place place;

  [[nodiscard]] bool peaked() const { return peak_z > 0; }
  [[nodiscard]] double top() const { return std::max({left, right, peak_z}); }

  static void describe(auto& keys) {
    keys.place(&Head::place);
    keys("left", &Head::left, mm(0, 20'000), "Height at the left edge, mm; 0: a triangle's corner.");
    keys(
        "peak", [](auto& head) { return std::tie(head.peak_x, head.peak_z); }, mmPair(0, 20'000).optional(),
        "The corner between, from the left edge and above the sill, mm. Left out: the head is straight.");
    keys("right", &Head::right, mm(0, 20'000), "Height at the right edge, mm; 0: a triangle's corner.");
  }
  bool operator==(const Head&) const = default;
};

/// A table whose height may be given by a head.
template <class T>
concept Headed = std::same_as<decltype(T::head), std::optional<Head>>;

struct Unit {
  UnitKind kind = UnitKind::FixedWindow;
  double width = 0;
  double height = 0;  ///< To the highest corner.
  std::optional<Head> head;
  std::optional<int> panels;
  std::optional<std::string> configuration;
  std::optional<Way> opens;
  std::vector<Light> lights;
  std::vector<double> columns;
  std::vector<double> rows;
  std::vector<Coupled> coupled;
  std::optional<double> mullion;
  std::optional<FrameSection> frame;
  std::optional<double> stands;
  std::optional<Reveal> reveal;
  std::optional<double> fin;
  std::optional<Glass> glass;
  std::vector<LightGlass> glass_of;
  std::optional<double> mass_kg;
  std::optional<Label> label;
  std::optional<FixingSchedule> fixing;
  std::optional<Flashing> flashing;
  std::optional<Hand> hand;
  std::optional<std::string> colour;
  std::optional<bool> screens;
  std::optional<std::string> notes;
  std::optional<std::string> mesh;
  base::Place mesh_place;
  base::Place lights_place;

  static void describe(auto& keys) {
    keys.header("[opening.unit]");
    keys("kind", &Unit::kind, word(kKindWords), "What it is.");
    keys("width", &Unit::width, mm(100, 20'000), "Outside of the unit's frame, reveal included, mm.");
    keys("height", &Unit::height, mm(100, 20'000).optional(), "Outside of the unit's frame, reveal included, mm.");
    keys("head", &Unit::head, table(), "In place of the height, in an opening that has a head: as the opening's.");
    keys("panels", &Unit::panels, whole(2, 8), "Of a stacking or a folding door. Left out: 3.");
    keys("configuration", &Unit::configuration, text(8),
         "A letter a panel, from the left seen from outside. Of what slides: X slides, O stands still, as \"OXXO\"; of "
         "leaves that fold: L to the left, R to the right, as \"LLLR\". Left out: one stands still away from the hand, "
         "or all fold to it.");
    keys("opens", &Unit::opens, word(kWayWords),
         "Which way its hung leaves and sashes go. Left out: in, but out of awnings, casements and folding doors.");
    keys("lights", &Unit::lights, wordRow(kLightWords, kMostLights).optional(),
         "What fills each light of a divided unit, from the top left, row by row, seen from outside; \"joined\" is one "
         "with the light at its left. Left out: one light of the unit's kind.");
    keys.place("lights", &Unit::lights_place);
    keys("columns", &Unit::columns, mmList(0, 20'000, kMostLights).optional(),
         "Widths of the lights between the middles of mullions, from the left, mm; 0: a share of what is left. Left "
         "out: as many as there are lights in a row, alike.");
    keys("rows", &Unit::rows, mmList(0, 20'000, kMostLights).optional(),
         "Heights of the rows of lights, from the top, mm; 0: a share of what is left. Left out: one row.");
    keys("coupled", &Unit::coupled, tables(6),
         "Parts made apart and joined on site, all at the right or all over; width and height above are of the whole, "
         "its kind and lights of what they leave.");
    keys("mullion", &Unit::mullion, mm(5, 400), "Face of mullions and transoms, mm. Left out: the frame's.");
    keys("frame", &Unit::frame, table(), "Aluminium section.");
    keys("stands", &Unit::stands, mm(-300, 300),
         "Where the frame's outside face stands, from the studs' outside face inwards, mm. Left out: -35, proud of it; "
         "in "
         "brick veneer 10 past the cavity.");
    keys("reveal", &Unit::reveal, table(), "Timber reveal. Left out: bare frame.");
    keys("fin", &Unit::fin, mm(0, 300), "Outside fin, past the unit all round, mm; 0: none.");
    keys("glass", &Unit::glass, table(), "The glass.");
    keys("glass_of", &Unit::glass_of, tables(kMostLights), "Lights whose glass differs from it, each told once.");
    keys("mass", &Unit::mass_kg, number(0.1, 5'000, "kg"), "Weight of the unit, kg. Left out: calculated from sizes.");
    keys("label", &Unit::label, table(), "What its label says of wind and rain.");
    keys("fixing", &Unit::fixing, table(), "How its maker or an engineer wants it fixed. Left out: by the practice.");
    keys("flashing", &Unit::flashing, word(kFlashingWords, kOldFlashingWords),
         "Whether the flashings came on the unit.");
    keys("hand", &Unit::hand, word(kHandWords), "Seen from outside: the side a leaf is hung at, or whose sash slides.");
    keys("colour", &Unit::colour, text(60), "Of its frame, for the order.");
    keys("screens", &Unit::screens, truth(), "Whether it comes with insect screens.");
    keys("notes", &Unit::notes, text(300), "What else its maker is to know, on one line.");
    keys("mesh", &Unit::mesh, text(kLongestPath),
         "Path of an OBJ file in millimetres that stands in for the drawn unit.");
    keys.place("mesh", &Unit::mesh_place);
  }
  bool operator==(const Unit&) const = default;
};

// Measurements.

/// Standard errors of one reading, mm.
struct StandardErrors {
  double distance = 0;
  double diagonal = 0;
  double level = 0;

  // A standard error of 0 would make one reading outweigh all others.
  static void describe(auto& keys) {
    keys("distance", &StandardErrors::distance, mm(0.01, 100), "Of widths, heights and wall depths, mm.");
    keys("diagonal", &StandardErrors::diagonal, mm(0.01, 100), "Of diagonals, mm.");
    keys("level", &StandardErrors::level, mm(0.01, 100), "Of what is out of level or out of plumb, mm.");
  }
  bool operator==(const StandardErrors&) const = default;
};

/// What was read, by a named instrument or with standard errors of the reader's own.
using ReadBy = std::variant<Instrument, StandardErrors>;

inline constexpr std::string_view kWidthNames[] = {"bottom", "middle", "top"};
inline constexpr std::string_view kHeightNames[] = {"left", "middle", "right"};
inline constexpr std::string_view kDiagonalNames[] = {"from_bottom_left", "from_top_left"};
inline constexpr std::string_view kOldDiagonalNames[] = {"rising", "falling"};
inline constexpr std::string_view kBetweenNames[] = {"BL-peak", "BR-peak", "TR-peak", "TL-peak"};
inline constexpr std::string_view kSideNames[] = {"left", "right"};

inline constexpr Holds kDiagonals = readings(kDiagonalNames, 50, 40'000, kOldDiagonalNames);
inline constexpr Holds kOutOfPlumb = readings(kSideNames, -1'000, 1'000);
inline constexpr Holds kOutOfLevel = mm(-1'000, 1'000);

/// Readings of the framed opening. Each is optional; the order is the order they are read in.
struct Measured {
  std::array<std::optional<double>, 3> widths;
  std::array<std::optional<double>, 3> heights;
  std::array<std::optional<double>, 2> diagonals;
  std::array<std::optional<double>, 4> between;
  std::optional<double> out_of_level;
  std::array<std::optional<double>, 2> out_of_plumb;
  std::array<std::optional<double>, 2> out_of_plumb_in;
  std::array<std::optional<double>, 2> wall_depth;
  std::optional<ReadBy> by;

  static void describe(auto& keys) {
    keys.header("[opening.measured]");
    keys("widths", &Measured::widths, readings(kWidthNames, 50, 25'000), "Widths at bottom, middle and top, mm.");
    keys("heights", &Measured::heights, readings(kHeightNames, 50, 25'000), "Heights at left, middle and right, mm.");
    keys("diagonals", &Measured::diagonals, kDiagonals,
         "From bottom left to top right, from top left to bottom right, mm.");
    keys("between", &Measured::between, readings(kBetweenNames, 50, 40'000),
         "From the bottom left, bottom right, top right, top left corner to the peak, mm.");
    keys("out_of_level", &Measured::out_of_level, kOutOfLevel.was("sill_fall"),
         "Right end of the sill relative to the left end, by level, + is higher, mm.");
    keys("out_of_plumb", &Measured::out_of_plumb, kOutOfPlumb.was("lean"),
         "Left and right stud: top relative to bottom, + is to the right, mm.");
    keys("out_of_plumb_in", &Measured::out_of_plumb_in, kOutOfPlumb.was("tilt"),
         "Left and right stud: top relative to bottom, + is inward, mm.");
    keys("wall_depth", &Measured::wall_depth, readings(kSideNames, 20, 1'500),
         "Frame plus lining at left and right, mm.");
    keys("by", &Measured::by, word(kInstrumentWords),
         "What it was read with, or the standard errors of the readings in mm.");
  }
  bool operator==(const Measured&) const = default;
};

struct Date {
  int year = 0;
  int month = 0;
  int day = 0;
  bool operator==(const Date&) const = default;
};

/// Readings of the unit after setting.
struct Installed {
  std::optional<Date> date;
  std::array<std::optional<double>, 2> diagonals;
  std::optional<double> out_of_level;
  std::array<std::optional<double>, 2> out_of_plumb;
  std::optional<bool> opens;
  std::optional<bool> locks;

  static void describe(auto& keys) {
    keys.header("[opening.installed]");
    keys("date", &Installed::date, job::date(1900, 2200), "The day, as a TOML date.");
    keys("diagonals", &Installed::diagonals, kDiagonals,
         "From bottom left to top right, from top left to bottom right, mm.");
    keys("out_of_level", &Installed::out_of_level, kOutOfLevel.was("sill_fall"),
         "Right end of the sill relative to the left end, by level, + is higher, mm.");
    keys("out_of_plumb", &Installed::out_of_plumb, kOutOfPlumb.was("lean"),
         "Left and right jamb: top relative to bottom, + is to the right, mm.");
    keys("opens", &Installed::opens, truth(), "It opens freely.");
    keys("locks", &Installed::locks, truth(), "It locks.");
  }
  bool operator==(const Installed&) const = default;
};

struct Lintel {
  double depth = 0;
  double thickness = 0;
  int plies = 0;
  std::optional<std::string> material = {};

  static void describe(auto& keys) {
    keys("material", &Lintel::material, text(60),
         "By name, as \"F17\", \"LVL 13\", \"steel\". A grade of the practice's table is checked as such; all else is "
         "drawn and listed, and not judged. Left out: the wall's timber.");
    keys("depth", &Lintel::depth, mm(20, 1'500), "Its height, mm.");
    keys("thickness", &Lintel::thickness, mm(10, 400), "Of one ply, mm.");
    keys("plies", &Lintel::plies, whole(1, 10), "Plies side by side.");
  }
  bool operator==(const Lintel&) const = default;
};

struct Opening {
  std::string name;
  std::size_t wall = 0;  ///< Index in Job::walls.
  double left = 0;
  double sill = 0;
  double width = 0;
  double height = 0;  ///< To the highest corner.
  std::optional<Head> head;
  std::optional<Room> room;
  std::optional<Outside> outside;
  std::optional<std::string> tag;
  std::optional<Lintel> lintel;
  std::optional<bool> existing;
  Unit unit;
  std::optional<Measured> measured;
  std::optional<Installed> installed;
  base::Place place;  ///< Of the `[[opening]]` header.

  static void describe(auto& keys) {
    keys.header("[[opening]]");
    keys.place(&Opening::place);
    keys("name", &Opening::name, text(kLongestName), "Every opening's own.");
    keys("wall", &Opening::wall, text(kLongestName), "Name of its wall.");
    keys("left", &Opening::left, mm(-kLongestWall, kLongestWall),
         "From the wall's left end, seen from outside, to the opening's left edge, mm.");
    keys("sill", &Opening::sill, mm(-2'000, 20'000), "Height (z) of the opening's sill, mm.");
    keys("width", &Opening::width, mm(100, 20'000), "Framed width, between studs, mm.");
    keys("height", &Opening::height, mm(100, 20'000).optional(), "Framed height, between sill and lintel, mm.");
    keys("head", &Opening::head, table(), "In place of the height: a head that follows the roof.");
    keys("room", &Opening::room, word(kRoomWords, kOldRoomWords),
         "What the practice's safety and wet-area checks ask for.");
    keys("outside", &Opening::outside, word(kOutsideWords), "What a door opens on to.");
    keys("tag", &Opening::tag, text(kLongestName), "Any name, for lists: \"Bed 1\".");
    keys("lintel", &Opening::lintel, table(), "The lintel over the opening. Left out: the practice's, drawn only.");
    keys("existing", &Opening::existing, truth(),
         "A new unit in an old hole: lining and cladding stay, and the opening is the hole between linings.");
    keys("unit", &Opening::unit, table(), "The window or door that goes in.");
    keys("measured", &Opening::measured, table(), "What was read on site; every reading is optional.");
    keys("installed", &Opening::installed, table(), "What was read again after setting, for the record.");
  }

  [[nodiscard]] bool isExisting() const { return existing.value_or(false); }
  bool operator==(const Opening&) const = default;
};

/// What the crew has at hand. An empty list: the practice's usual stock.
struct Stock {
  std::vector<double> packers;
  std::vector<std::string> screws;
  std::vector<double> rolls;
  std::optional<double> roll_length;
  std::vector<double> timber;
  base::Place screws_place;

  static void describe(auto& keys) {
    keys.header("[stock]");
    keys("packers", &Stock::packers, mmList(0.1, 200, 200), "Packer thicknesses, mm.");
    keys("screws", &Stock::screws, textList(60, 200), "Screws by gauge and length, as \"8g x 75\".");
    keys.place("screws", &Stock::screws_place);
    keys("rolls", &Stock::rolls, mmList(10, 3'000, 200), "Widths of flashing rolls, mm.");
    keys("roll_length", &Stock::roll_length, mm(100, 1'000'000), "Length of a roll, mm.");
    keys("timber", &Stock::timber, mmList(100, 30'000, 200), "Stock lengths of timber, mm.");
  }
  bool operator==(const Stock&) const = default;
};

struct StatedPressure {
  double kpa = 0;

  static void describe(auto& keys) { keys("pressure_kpa", &StatedPressure::kpa, number(0.01, 20, "kPa"), "kPa."); }
  bool operator==(const StatedPressure&) const = default;
};

/// A class of the practice's wind table, or a pressure.
using Wind = std::variant<std::string, StatedPressure>;

struct Job {
  std::string file;  ///< As it was named to the reader; for messages.
  std::string title;
  std::optional<std::string> address;
  std::optional<Date> date;
  std::optional<std::string> revision;
  std::optional<std::string> by;
  std::optional<std::string> notes;
  std::optional<int> built;
  std::string practice;
  std::optional<Wind> wind;
  std::optional<std::string> bushfire;
  std::optional<std::string> heat;
  std::vector<Wall> walls;
  std::vector<Opening> openings;
  std::optional<Stock> stock;
  base::Place practice_place;
  base::Place wind_place;
  base::Place bushfire_place;
  base::Place heat_place;

  /// The keys of [job]; tables.h has the whole file's.
  static void describe(auto& keys) {
    keys.header("[job]");
    keys("title", &Job::title, text(200), "Shown on the sheets.");
    keys("address", &Job::address, text(300), "Where the house stands.");
    keys("date", &Job::date, job::date(1900, 2200), "The day of this revision, as a TOML date.");
    keys("revision", &Job::revision, text(20), "Which revision of the job this is, as \"B\".");
    keys("by", &Job::by, text(100), "Who drew it up.");
    keys("notes", &Job::notes, text(2'000), "What else is to be known, on one line.");
    keys("built", &Job::built, whole(1'700, 2'100),
         "Year in which the house was built: what its old paint and board may hold, at a replacement.");
    keys("practice", &Job::practice, text(kLongestPath),
         "A practice that comes with the program, or a path beside the job file.");
    keys.place("practice", &Job::practice_place);
    keys("wind", &Job::wind, text(40), "A class of the practice's wind table, or a pressure.");
    keys.place("wind", &Job::wind_place);
    keys("bushfire", &Job::bushfire, text(40),
         "The site's level of bushfire attack, one of the practice's, as \"BAL-29\".");
    keys.place("bushfire", &Job::bushfire_place);
    keys("heat", &Job::heat, text(40),
         "Which of the practice's limits of heat loss holds, as \"new dwelling\", \"replacement\" or \"zone 5\".");
    keys.place("heat", &Job::heat_place);
  }
  bool operator==(const Job&) const = default;
};

}  // namespace sillwright::job
