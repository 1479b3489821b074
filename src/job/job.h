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

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/error.h"
#include "job/rule.h"
#include "job/unit.h"
#include "job/wall.h"

namespace sillwright::job {

inline constexpr std::size_t kMostWalls = 10'000;
inline constexpr std::size_t kMostOpenings = 100'000;

// Measurements.

enum class Instrument : std::uint8_t { Tape, Laser };
inline constexpr std::string_view kInstrumentWords[] = {"tape", "laser"};

/// Standard errors of one reading, mm.
struct StandardErrors {
  double distance = 0, diagonal = 0, level = 0;

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
  std::array<std::optional<double>, 3> widths, heights;
  std::array<std::optional<double>, 2> diagonals;
  std::array<std::optional<double>, 4> between;
  std::optional<double> out_of_level;
  std::array<std::optional<double>, 2> out_of_plumb, out_of_plumb_in, wall_depth;
  std::optional<ReadBy> by;

  static void describe(auto& keys) {
    keys.header("[opening.measured]");
    keys("widths", &Measured::widths, readings(kWidthNames, 50, 25'000), "Widths at bottom, middle and top, mm.");
    keys("heights", &Measured::heights, readings(kHeightNames, 50, 25'000), "Heights at left, middle and right, mm.");
    keys("diagonals", &Measured::diagonals, kDiagonals, "To top right, and to bottom right, mm.");
    keys("between", &Measured::between, readings(kBetweenNames, 50, 40'000),
         "From the bottom left, bottom right, top right, top left corner to the peak, mm.");
    keys("out_of_level", &Measured::out_of_level, kOutOfLevel.was("sill_fall"),
         "Right end of the sill relative to the left end, by level, + is higher, mm.");
    keys("out_of_plumb", &Measured::out_of_plumb, kOutOfPlumb.was("lean"),
         "Left and right stud: top relative to bottom, + is to the right, mm.");
    keys("out_of_plumb_in", &Measured::out_of_plumb_in, kOutOfPlumb.was("tilt"), "The same, + is inward, mm.");
    keys("wall_depth", &Measured::wall_depth, readings(kSideNames, 20, 1'500), "Frame plus lining, mm.");
    keys("by", &Measured::by, word(kInstrumentWords), "What it was read with, or the readings' standard errors.");
  }
  bool operator==(const Measured&) const = default;
};

struct Date {
  int year = 0, month = 0, day = 0;
  bool operator==(const Date&) const = default;
};

/// Readings of the unit after setting.
struct Installed {
  std::optional<Date> date;
  std::array<std::optional<double>, 2> diagonals;
  std::optional<double> out_of_level;
  std::array<std::optional<double>, 2> out_of_plumb;
  std::optional<bool> opens, locks;

  static void describe(auto& keys) {
    keys.header("[opening.installed]");
    keys("date", &Installed::date, job::date(1900, 2200), "The day, as a TOML date.");
    keys("diagonals", &Installed::diagonals, kDiagonals, "To top right, and to bottom right, mm.");
    keys("out_of_level", &Installed::out_of_level, kOutOfLevel.was("sill_fall"),
         "Right end of the sill relative to the left end, by level, + is higher, mm.");
    keys("out_of_plumb", &Installed::out_of_plumb, kOutOfPlumb.was("lean"),
         "Left and right jamb: top relative to bottom, + is to the right, mm.");
    keys("opens", &Installed::opens, truth(), "It opens freely.");
    keys("locks", &Installed::locks, truth(), "It locks.");
  }
  bool operator==(const Installed&) const = default;
};

/// What the opening's room asks of it: safety glass, falls, wet-area rules.
enum class Room : std::uint8_t { Bedroom, Living, WetArea, Shower, Stair, Other, Kitchen };
inline constexpr std::string_view kRoomWords[] = {"bedroom", "living", "wet area", "shower",
                                                  "stair",   "other",  "kitchen"};
inline constexpr std::string_view kOldRoomWords[] = {"sleeping", "", "wet", "", "", "utility", ""};

/// What a door opens on to.
enum class Outside : std::uint8_t { Ground, Deck, Balcony };
inline constexpr std::string_view kOutsideWords[] = {"ground", "deck", "balcony"};

/// An opening may stand outside its wall: that is a finding.
struct Opening {
  std::string name;
  std::size_t wall = 0;  ///< Index in Job::walls.
  double left = 0, sill = 0;
  double width = 0, height = 0;  ///< To the highest corner.
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
    keys("left", &Opening::left, mm(-kLongestWall, kLongestWall), "Its left edge, from the wall's left end, mm.");
    keys("sill", &Opening::sill, mm(-2'000, 20'000), "Height (z) of the opening's sill, mm.");
    keys("width", &Opening::width, mm(100, 20'000), "Framed width, between studs, mm.");
    keys("height", &Opening::height, mm(100, 20'000).optional(), "Framed height, between sill and lintel, mm.");
    keys("head", &Opening::head, table(), "In place of the height: a head that follows the roof.");
    keys("room", &Opening::room, word(kRoomWords, kOldRoomWords), "For the safety and wet-area checks.");
    keys("outside", &Opening::outside, word(kOutsideWords), "What a door opens on to.");
    keys("tag", &Opening::tag, text(kLongestName), "Any name, for lists: \"Bed 1\".");
    keys("lintel", &Opening::lintel, table(), "The lintel over the opening. Left out: the practice's, drawn only.");
    keys("existing", &Opening::existing, truth(), "A new unit in an old hole, which is measured between linings.");
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
  std::optional<std::string> address, revision, by, notes, bushfire, heat;
  std::optional<Date> date;
  std::optional<int> built;
  std::string practice;
  std::optional<Wind> wind;
  std::vector<Wall> walls;
  std::vector<Opening> openings;
  std::optional<Stock> stock;
  base::Place practice_place, wind_place, bushfire_place, heat_place;

  /// The keys of [job]; tables.h has the whole file's.
  static void describe(auto& keys) {
    keys.header("[job]");
    keys("title", &Job::title, text(200), "Shown on the sheets.");
    keys("address", &Job::address, text(300), "Where the house stands.");
    keys("date", &Job::date, job::date(1900, 2200), "The day of this revision, as a TOML date.");
    keys("revision", &Job::revision, text(20), "Which revision of the job this is, as \"B\".");
    keys("by", &Job::by, text(100), "Who drew it up.");
    keys("notes", &Job::notes, text(2'000), "What else is to be known, on one line.");
    keys("built", &Job::built, whole(1'700, 2'100), "The house's year: what its old paint and board may hold.");
    keys("practice", &Job::practice, text(kLongestPath), "One that comes with the program, or a path beside the job.");
    keys.place("practice", &Job::practice_place);
    keys("wind", &Job::wind, text(40), "A class of the practice's wind table, or a pressure.");
    keys.place("wind", &Job::wind_place);
    keys("bushfire", &Job::bushfire, text(40), "The site's level of bushfire attack, as \"BAL-29\".");
    keys.place("bushfire", &Job::bushfire_place);
    keys("heat", &Job::heat, text(40),
         "Which of the practice's limits of heat loss holds, as \"new dwelling\", \"replacement\" or \"zone 5\".");
    keys.place("heat", &Job::heat_place);
  }
  bool operator==(const Job&) const = default;
};

}  // namespace sillwright::job
