/// The job: what the user says is planned and what was read on site.
///
/// Plain values, exactly as the job file states them (see assets/jobs/README in the demo jobs' comments and the
/// schema beside them). Nothing is computed here and nothing is filled in: a key that the file leaves out is an
/// empty optional, and whoever needs a value for it says where he took it from (plan/settle.h).
///
/// Units: millimetres, degrees, kilograms, kilopascals. Axes of a wall: x to the right as seen from outside,
/// y into the building (0 at the outside face of the studs), z up (0 at the underside of the bottom plate).
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/error.h"

namespace sillwright::job {

enum class UnitKind : std::uint8_t {
  SlidingWindow,
  AwningWindow,
  CasementWindow,
  FixedWindow,
  SlidingDoor,
  HingedDoor
};

/// What the opening's room asks of it: safety glass, falls, wet-area rules.
enum class Room : std::uint8_t { Sleeping, Living, Wet, Shower, Stair, Utility };

/// How the unit's flashings come: on its reveal from the works, or put on the wall at site.
enum class Flashing : std::uint8_t { Fitted, OnSite };

/// Seen from outside: the side a leaf is hung at, or the side whose sash slides.
enum class Hand : std::uint8_t { Left, Right };

/// Section of a stud: `depth` through the wall (y), `thickness` along it (x).
struct StudSection {
  double depth = 0;
  double thickness = 0;
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
  bool operator==(const PlateCount&) const = default;
};

/// `cavity` is the depth of the battens between membrane and cladding; 0: fixed direct.
struct Cladding {
  double thickness = 0;
  double cavity = 0;
  bool operator==(const Cladding&) const = default;
};

/// An eave over the wall: height of its soffit (z) and how far it reaches out from the studs' outside face.
struct Eave {
  double soffit = 0;
  double reach = 0;
  bool operator==(const Eave&) const = default;
};

/// What the wall's lintels carry: the width of roof or floor that bears on them, and its load on plan.
struct Supports {
  double width = 0;
  double load_kpa = 0;
  bool operator==(const Supports&) const = default;
};

struct Wall {
  std::string name;
  double length = 0;
  /// Top of the top plate, left to right: first x is 0, last is `length`, strictly rising, at least two points.
  /// A level wall has two points of one height.
  std::vector<TopPoint> top;
  std::optional<StudSection> stud;
  std::optional<double> spacing;
  std::optional<PlateCount> plates;
  std::optional<double> lining;
  std::optional<Cladding> cladding;
  std::optional<Eave> eave;  ///< Empty: the wall is open to the weather.
  std::optional<std::string> timber;
  double at_x = 0;  ///< On the floor plan, the outside face of the studs at the wall's left end.
  double at_y = 0;
  double turn_degrees = 0;  ///< Anticlockwise on plan, of the wall's x axis.
  bool align_heads = false;
  std::optional<Supports> supports;
  std::optional<double> drop;  ///< From the floor down to the ground outside, for the falls checks.
  base::Place place;           ///< Of the `[[wall]]` header.
  base::Place timber_place;

  bool operator==(const Wall&) const = default;
};

/// The unit's aluminium section: `depth` through the wall, `face` as seen from outside.
struct FrameSection {
  double depth = 0;
  double face = 0;
  bool operator==(const FrameSection&) const = default;
};

struct Reveal {
  double thickness = 0;
  double depth = 0;
  bool operator==(const Reveal&) const = default;
};

struct Glass {
  double thickness = 0;  ///< Of one pane.
  int panes = 0;
  std::optional<bool> safety;  ///< Grade A or equal. Empty: not said.
  bool operator==(const Glass&) const = default;
};

struct Unit {
  UnitKind kind = UnitKind::FixedWindow;
  double width = 0;  ///< Outside of the unit's frame, reveal included.
  double height = 0;
  std::optional<FrameSection> frame;
  std::optional<Reveal> reveal;  ///< Empty: bare frame.
  std::optional<double> fin;     ///< Past the unit all round; 0: none.
  std::optional<Glass> glass;
  std::optional<double> mass_kg;
  std::optional<Flashing> flashing;
  std::optional<Hand> hand;
  std::optional<std::string> mesh;  ///< Path of an OBJ in millimetres that stands in for the drawn unit.
  base::Place mesh_place;

  bool operator==(const Unit&) const = default;
};

/// Standard errors of one reading, mm.
struct StandardErrors {
  double distance = 0;
  double diagonal = 0;
  double level = 0;
  bool operator==(const StandardErrors&) const = default;
};

enum class Instrument : std::uint8_t { Tape, Laser };

/// What was read, by a named instrument or with standard errors of the reader's own.
using ReadBy = std::variant<Instrument, StandardErrors>;

/// Readings of the framed opening. Each is optional; the order is the order they are read in.
struct Measured {
  std::array<std::optional<double>, 3> widths;      ///< Bottom, middle, top.
  std::array<std::optional<double>, 3> heights;     ///< Left, middle, right.
  std::array<std::optional<double>, 2> diagonals;   ///< Rising (BL to TR), falling (TL to BR).
  std::optional<double> sill_fall;                  ///< Right end of the sill less the left end, +: right is higher.
  std::array<std::optional<double>, 2> lean;        ///< Left, right stud: top less bottom, + is to the right.
  std::array<std::optional<double>, 2> tilt;        ///< Left, right stud: top less bottom, + is inward.
  std::array<std::optional<double>, 2> wall_depth;  ///< Frame plus lining at left, right.
  std::optional<ReadBy> by;

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
  std::optional<double> sill_fall;
  std::array<std::optional<double>, 2> lean;
  std::optional<bool> opens;
  std::optional<bool> locks;

  bool operator==(const Installed&) const = default;
};

/// The lintel over an opening, where the job names one: `depth` is its height, `plies` of `thickness` side by side.
struct Lintel {
  double depth = 0;
  double thickness = 0;
  int plies = 0;
  bool operator==(const Lintel&) const = default;
};

struct Opening {
  std::string name;
  std::size_t wall = 0;  ///< Index in Job::walls.
  double left = 0;       ///< From the wall's left end to the opening's left edge.
  double sill = 0;       ///< z of the opening's sill.
  double width = 0;      ///< Framed size, between studs.
  double height = 0;     ///< Framed size, between sill and lintel.
  std::optional<Room> room;
  std::optional<Lintel> lintel;
  Unit unit;
  std::optional<Measured> measured;
  std::optional<Installed> installed;
  base::Place place;  ///< Of the `[[opening]]` header.

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

  bool operator==(const Stock&) const = default;
};

/// A class of the practice's wind table, or a pressure in kPa.
using Wind = std::variant<std::string, double>;

struct Job {
  std::string file;  ///< As it was named to the reader; for messages.
  std::string title;
  std::string practice;
  std::optional<Wind> wind;
  std::vector<Wall> walls;
  std::vector<Opening> openings;
  std::optional<Stock> stock;
  base::Place practice_place;
  base::Place wind_place;

  bool operator==(const Job&) const = default;
};

}  // namespace sillwright::job
