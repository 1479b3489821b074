/// The tables of a job's [opening.unit] (job.h): a window or a door as it is ordered.
#pragma once

#include <algorithm>
#include <concepts>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "base/error.h"
#include "job/rule.h"

namespace sillwright::job {

inline constexpr double kLongestPath = 1'000;

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

/// Which way a hung leaf or sash goes.
enum class Way : std::uint8_t { In, Out };
inline constexpr std::string_view kWayWords[] = {"in", "out"};

/// How the unit's flashings come: on its reveal from the works, or put on the wall at site.
enum class Flashing : std::uint8_t { Fitted, OnWall, OnUnit };
inline constexpr std::string_view kFlashingWords[] = {"fitted", "on the wall", "on the unit"};
inline constexpr std::string_view kOldFlashingWords[] = {"", "on site", ""};

/// Seen from outside: the side a leaf is hung at, or the side whose sash slides.
enum class Hand : std::uint8_t { Left, Right };
inline constexpr std::string_view kHandWords[] = {"left", "right"};

struct FrameSection {
  double depth = 0, face = 0;

  static void describe(auto& keys) {
    keys("depth", &FrameSection::depth, mm(10, 400), "Through the wall, mm.");
    keys("face", &FrameSection::face, mm(5, 400), "Width seen from outside, mm.");
  }
  bool operator==(const FrameSection&) const = default;
};

struct Reveal {
  double thickness = 0, depth = 0;

  static void describe(auto& keys) {
    keys("thickness", &Reveal::thickness, mm(3, 100), "Of its boards, mm.");
    keys("depth", &Reveal::depth, mm(10, 1'000), "Through the wall, mm.");
  }
  bool operator==(const Reveal&) const = default;
};

/// A sub-sill or cill: a section of its own that goes in first, and the frame on it.
struct SubSill {
  double height = 0, depth = 0;

  static void describe(auto& keys) {
    keys("height", &SubSill::height, mm(5, 80), "Within the unit's height, mm.");
    keys("depth", &SubSill::depth, mm(10, 400), "Through the wall, from the frame's inside face outwards, mm.");
  }
  bool operator==(const SubSill&) const = default;
};

/// What a pane is made of.
enum class GlassType : std::uint8_t { Float, Toughened, Laminated, Wired };
inline constexpr std::string_view kGlassTypeWords[] = {"float", "toughened", "laminated", "wired"};

struct Glass {
  double thickness = 0;
  int panes = 0;
  std::optional<bool> safety = {}, obscure = {};
  std::optional<GlassType> type = {};
  std::vector<double> each = {};
  std::optional<double> gap = {}, u_value = {};

  static void describe(auto& keys) {
    keys("thickness", &Glass::thickness, mm(1, 100), "Of one pane, mm.");
    keys("panes", &Glass::panes, whole(1, 4), "How many panes.");
    keys("safety", &Glass::safety, truth(), "Grade A safety glass or equal.");
    keys("obscure", &Glass::obscure, truth(), "Patterned or frosted: it lets light through and no view.");
    keys("type", &Glass::type, word(kGlassTypeWords),
         "What it is. Toughened and laminated count as safety glass, float doesn't, where `safety` is left out.");
    keys("each", &Glass::each, mmList(1, 100, 4).optional(),
         "Each pane from outside, mm; `thickness` is the thinnest.");
    keys("gap", &Glass::gap, mm(1, 100), "Between two panes, mm.");
    keys("u_value", &Glass::u_value, number(0.1, 20, "W/m2K"), "Heat that the glass loses, its frame left out.");
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
  std::vector<double> each = {};
  std::optional<double> gap = {}, u_value = {};

  static void describe(auto& keys) {
    keys(
        "light", [](auto& glass) { return std::tie(glass.row, glass.column); }, pair(1, kMostLights),
        "Which light: its row from the top and its place in it from the left, seen from outside, from 1.");
    keys("thickness", &LightGlass::thickness, mm(1, 100), "Of one pane, mm.");
    keys("panes", &LightGlass::panes, whole(1, 4), "How many panes.");
    keys("safety", &LightGlass::safety, truth(), "Grade A safety glass or equal.");
    keys("obscure", &LightGlass::obscure, truth(), "Patterned or frosted.");
    keys("type", &LightGlass::type, word(kGlassTypeWords), "What it is.");
    keys("each", &LightGlass::each, mmList(1, 100, 4).optional(), "Each pane from outside, mm.");
    keys("gap", &LightGlass::gap, mm(1, 100), "Between two panes, mm.");
    keys("u_value", &LightGlass::u_value, number(0.1, 20, "W/m2K"), "Heat that the glass loses, its frame left out.");
  }
  bool operator==(const LightGlass&) const = default;
};

/// What the unit was tested for, as its label says.
struct Label {
  std::optional<double> ultimate_kpa, serviceability_kpa, water_kpa, u_value = {};

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
    keys("sides", &FixingSchedule::sides, wordList(kFixedSideWords), "Which are fixed. Left out: all of these.");
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
  double left = 0, right = 0;
  double peak_x = 0, peak_z = 0;  ///< From the left edge and above the sill; both 0: no peak.
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
  double width = 0, height = 0;  ///< To the highest corner.
  std::optional<Head> head;
  std::optional<int> panels;
  std::optional<std::string> configuration;
  std::optional<Way> opens;
  std::vector<Light> lights;
  std::vector<double> columns, rows;
  std::vector<Coupled> coupled;
  std::optional<double> mullion, transom, restrictor;
  std::optional<FrameSection> frame;
  std::optional<double> stands;
  std::optional<Reveal> reveal;
  std::optional<SubSill> sub_sill;
  std::optional<double> fin;
  std::optional<Glass> glass;
  std::vector<LightGlass> glass_of;
  std::optional<double> mass_kg;
  std::optional<Label> label;
  std::optional<FixingSchedule> fixing;
  std::optional<Flashing> flashing;
  std::optional<Hand> hand;
  std::optional<std::string> colour, notes, mesh;
  std::optional<bool> screens;
  base::Place mesh_place, lights_place;

  static void describe(auto& keys) {
    keys.header("[opening.unit]");
    keys("kind", &Unit::kind, word(kKindWords), "What it is.");
    keys("width", &Unit::width, mm(100, 20'000), "Outside of the unit's frame, reveal included, mm.");
    keys("height", &Unit::height, mm(100, 20'000).optional(), "Outside of the unit's frame, reveal included, mm.");
    keys("head", &Unit::head, table(), "In place of the height, in an opening that has a head: as the opening's.");
    keys("panels", &Unit::panels, whole(2, 8), "Of a stacking or a folding door. Left out: 3.");
    keys(
        "configuration", &Unit::configuration, text(8),
        "A letter a panel, from the left seen from outside: X slides, O stands still, as \"OXXO\"; leaves fold to L or "
        "R, as \"LLLR\". Left out: one stands still away from the hand, or all fold to it.");
    keys("opens", &Unit::opens, word(kWayWords),
         "Which way its hung leaves and sashes go. Left out: in, but out of awnings, casements and folding doors.");
    keys("lights", &Unit::lights, wordRow(kLightWords, kMostLights).optional(),
         "What fills each light, row by row from the top left, seen from outside; \"joined\" is one with the light at "
         "its left. Left out: one light of the unit's kind.");
    keys.place("lights", &Unit::lights_place);
    keys("columns", &Unit::columns, mmList(0, 20'000, kMostLights).optional(),
         "Widths of lights between middles of mullions, from the left, mm; 0: a share of the rest. Left out: alike.");
    keys("rows", &Unit::rows, mmList(0, 20'000, kMostLights).optional(),
         "Heights of the rows of lights, from the top, mm; 0: a share of what is left. Left out: one row.");
    keys("coupled", &Unit::coupled, tables(6),
         "Parts joined on site, all at the right or all over: width and height are of the whole, the rest without "
         "them.");
    keys("mullion", &Unit::mullion, mm(5, 400), "Face of mullions and transoms, mm. Left out: the frame's.");
    keys("transom", &Unit::transom, mm(5, 400), "Face of transoms, mm. Left out: as mullions.");
    keys("restrictor", &Unit::restrictor, mm(1, 2'000),
         "How far a restrictor lets its sashes open, mm. Left out: none.");
    keys("frame", &Unit::frame, table(), "Aluminium section.");
    keys("stands", &Unit::stands, mm(-300, 300),
         "The frame's outside face, from the studs' inwards, mm. Left out: -35; in brick veneer 10 past the cavity.");
    keys("reveal", &Unit::reveal, table(), "Timber reveal. Left out: bare frame.");
    keys("sub_sill", &Unit::sub_sill, table(), "A sub-sill or cill that the frame stands on. Left out: none.");
    keys("fin", &Unit::fin, mm(0, 300), "Outside fin, past the unit all round, mm; 0: none.");
    keys("glass", &Unit::glass, table(), "The glass.");
    keys("glass_of", &Unit::glass_of, tables(kMostLights), "Lights whose glass differs from it, each told once.");
    keys("mass", &Unit::mass_kg, number(0.1, 5'000, "kg"), "Weight of the unit, kg. Left out: calculated from sizes.");
    keys("label", &Unit::label, table(), "What its label says of wind and rain.");
    keys("fixing", &Unit::fixing, table(), "How its maker or an engineer wants it fixed. Left out: by the practice.");
    keys("flashing", &Unit::flashing, word(kFlashingWords, kOldFlashingWords), "How its flashings come.");
    keys("hand", &Unit::hand, word(kHandWords), "Seen from outside: the side a leaf is hung at, or whose sash slides.");
    keys("colour", &Unit::colour, text(60), "Of its frame, for the order.");
    keys("screens", &Unit::screens, truth(), "Whether it comes with insect screens.");
    keys("notes", &Unit::notes, text(300), "What else its maker is to know, on one line.");
    keys("mesh", &Unit::mesh, text(kLongestPath), "Path of an OBJ file in mm that stands in for the drawn unit.");
    keys.place("mesh", &Unit::mesh_place);
  }
  bool operator==(const Unit&) const = default;
};

}  // namespace sillwright::job
