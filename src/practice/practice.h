/// A practice: what the trade of one region says, as data.
///
/// Read from assets/practice/*.toml (or a file beside the job). Every number is a Figure with its source and status
/// (figure.h). The rooms above take limits from here and nowhere else, so that a builder can read, doubt and change
/// each of them. Groups are named after the work they govern; the words of a group are those of the file's tables.
///
/// Millimetres, kilopascals, kilograms, degrees, newtons per square millimetre.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "practice/figure.h"
#include "practice/safety.h"
#include "practice/strength.h"
#include "practice/weather.h"

namespace sillwright::practice {

/// The region's own words for the same things, used on screen and paper. Lower case, singular.
struct Words {
  std::string packer;        ///< packer | shim
  std::string lintel;        ///< lintel | header
  std::string nogging;       ///< nogging | dwang | blocking
  std::string membrane;      ///< membrane | sarking | underlay | wrap
  std::string jamb_stud;     ///< jamb stud | trimming stud | king stud | cripple stud
  std::string bearing_stud;  ///< the short stud under a lintel's end
  std::string jack_stud;     ///< jack stud | cripple
  std::string sill_trimmer;  ///< sill trimmer | rough sill
  std::string reveal;        ///< reveal | jamb extension
  std::string fin;           ///< fin | flange | nail fin
  std::string bottom_plate;
  std::string top_plate;
  std::string stud;
  std::string lining;
  std::string cladding;
  std::string flashing;
  std::string opening;  ///< opening | rough opening | structural opening
  std::string window;   ///< window
  std::string door;     ///< door
  std::string fixing;   ///< fixing | fastener
  bool operator==(const Words&) const = default;
};

enum class Display : std::uint8_t { Millimetres, InchFractions };

/// Numbers of studs at each side of an opening up to a width.
struct SideStuds {
  double up_to = 0;    ///< Opening width, mm.
  Figure full_height;  ///< Full-height studs each side (jamb studs).
  Figure bearing;      ///< Shorter studs under each lintel end; 0: the lintel is housed into the jamb studs.
  bool operator==(const SideStuds&) const = default;
};

/// The lintel that is drawn where the job names none. Never a structural answer.
struct LintelDefault {
  double up_to = 0;  ///< Opening width, mm.
  Figure depth;
  Figure thickness;  ///< Of one ply.
  Figure plies;
  bool operator==(const LintelDefault&) const = default;
};

/// Framing defaults, used where the job leaves a key out, and the rules that place members.
struct Framing {
  Figure stud_depth, stud_thickness, spacing, top_plates, bottom_plates, lining, cladding_thickness, cavity;
  Figure nogging_spacing;  ///< Largest centres between rows of noggings, and from plate to row.
  Rule nogging_stagger;    ///< Largest stagger in a row, as a multiple of the nogging's breadth.
  Rule jamb_notch_most;    ///< Deepest notch in a jamb stud beside its opening, mm; 0: none is allowed.
  std::vector<SideStuds> side_studs;
  std::vector<LintelDefault> lintels;
  bool operator==(const Framing&) const = default;
};

/// The unit's parts where the job leaves them out.
struct UnitDefaults {
  Figure frame_depth, frame_face, fin, glass_thickness, glass_panes;
  Rule fin_cover_least;         ///< Least lap of the fin over the framing, past the gap.
  Rule reveal_flush_tolerance;  ///< How far the reveal may stand off the lining's face.
  bool operator==(const UnitDefaults&) const = default;
};

/// Gaps between framed opening and unit. `least` is what spare is counted from, `usual` what is ordered by,
/// `most` what packing and sealing can still bridge.
struct Clearance {
  Bands side_least, side_usual, side_most;  ///< By opening width, each side.
  Bands sill_least, sill_usual, sill_most;  ///< Under the unit: the sill packing. By opening width.
  Bands head_least, head_usual, head_most;
  Rule door_sill_least, door_sill_usual;  ///< Where the unit is a door.
  Rule unit_tolerance;                    ///< ± of the unit's width and height as made: two standard errors.
  Rule size_step;                         ///< Step that ordered sizes come in.
  bool operator==(const Clearance&) const = default;
};

/// Standard errors of readings, mm.
struct InstrumentErrors {
  Figure distance, diagonal, level;
  bool operator==(const InstrumentErrors&) const = default;
};

struct Survey {
  InstrumentErrors tape, laser;
  Figure planned;  ///< Standard error given to a planned size where nothing was read.
  bool operator==(const Survey&) const = default;
};

struct Packing {
  Rule spacing_sill, spacing_jamb;  ///< Largest distance between packing points.
  Rule from_corner;                 ///< Distance of the end points from the unit's corners, at most.
  Rule door_sill_spacing;           ///< Under a door's sill.
  Rule most_stack;                  ///< Deepest stack of packers; deeper gaps want a timber backing.
  Rule most_pieces;
  Rule most_left_over;  ///< Largest remainder between stack and gap.
  Rule head_packed;     ///< 0: nothing is packed between head and lintel.
  bool operator==(const Packing&) const = default;
};

/// What a framed opening may be off by before the unit is set.
struct OpeningTolerance {
  Rule plumb_mm, plumb_over;         ///< Lean of a stud: so much in so much height.
  Rule sill_level;                   ///< Fall of the sill over its length.
  Rule diagonals;                    ///< Difference of the diagonals.
  Rule width_spread, height_spread;  ///< Largest less smallest of the readings.
  Rule bow;                          ///< Jamb, sill or lintel off a straight line.
  Rule twist;                        ///< Difference of the two studs' tilt.
  bool operator==(const OpeningTolerance&) const = default;
};

/// What the unit may be off by once it is set.
struct InstalledTolerance {
  Rule plumb_mm, plumb_over, level_mm, level_over;
  Rule diagonals_small, diagonals_large, large_from_area_m2;
  bool operator==(const InstalledTolerance&) const = default;
};

/// The crew's usual stock, where the job names none.
struct StockSizes {
  std::vector<double> packers, rolls, timber;
  std::vector<std::string> screws;
  double roll_length = 0;
  Figure about;  ///< Source and status of the whole list; its value is the number of packers.
  bool operator==(const StockSizes&) const = default;
};

struct Practice {
  std::string name;   ///< "au"
  std::string title;  ///< "Australia: timber frame, aluminium units"
  std::string file;
  Words words;
  Display display = Display::Millimetres;
  Framing framing;
  UnitDefaults unit;
  Clearance clearance;
  Survey survey;
  Packing packing;
  OpeningTolerance opening_tolerance;
  InstalledTolerance installed_tolerance;
  StockSizes stock;
  Strength strength;  ///< Wind, fixings, timber.
  Weather weather;    ///< Flashings, membrane, cladding.
  Safety safety;      ///< Glass, falls, wet areas, lifting.

  bool operator==(const Practice&) const = default;
};

}  // namespace sillwright::practice
