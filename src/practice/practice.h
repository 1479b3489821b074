/// A practice: what the trade of one region says, as data.
///
/// Read from assets/practice/*.toml (or a file beside the job). Every number is a Figure with its source and status
/// (figure.h). The rooms above take limits from here and nowhere else, so that a builder can read, doubt and change
/// each of them. Groups are named after the work they govern; the words of a group are those of the file's tables.
///
/// Millimetres, kilopascals, kilograms, degrees, newtons per square millimetre.
#pragma once

#include <string>
#include <vector>

#include "practice/figure.h"
#include "practice/safety.h"
#include "practice/strength.h"
#include "practice/weather.h"

namespace sillwright::practice {

/// The region's own words for the same things, used on screen and paper. Lower case, singular.
struct Words {
  std::string packer, lintel, nogging, membrane, jamb_stud, bearing_stud, jack_stud, sill_trimmer, reveal, fin,
      bottom_plate, top_plate, stud, lining, cladding, flashing, opening, window, door, fixing;

  static void describe(auto& keys) {
    keys.header("[words]");
    keys("packer", &Words::packer, kText, "packer | shim");
    keys("lintel", &Words::lintel, kText, "lintel | header");
    keys("nogging", &Words::nogging, kText, "nogging | dwang | blocking");
    keys("membrane", &Words::membrane, kText, "membrane | sarking | underlay | wrap");
    keys("jamb_stud", &Words::jamb_stud, kText, "jamb stud | trimming stud | king stud | cripple stud");
    keys("bearing_stud", &Words::bearing_stud, kText, "The short stud under a lintel's end.");
    keys("jack_stud", &Words::jack_stud, kText, "jack stud | cripple");
    keys("sill_trimmer", &Words::sill_trimmer, kText, "sill trimmer | rough sill");
    keys("reveal", &Words::reveal, kText, "reveal | jamb extension");
    keys("fin", &Words::fin, kText, "fin | flange | nail fin");
    keys("bottom_plate", &Words::bottom_plate, kText, "bottom plate | sole plate");
    keys("top_plate", &Words::top_plate, kText, "top plate");
    keys("stud", &Words::stud, kText, "stud");
    keys("lining", &Words::lining, kText, "lining | plasterboard | drywall");
    keys("cladding", &Words::cladding, kText, "cladding | siding | weatherboard");
    keys("flashing", &Words::flashing, kText, "flashing");
    keys("opening", &Words::opening, kText, "opening | rough opening | structural opening");
    keys("window", &Words::window, kText, "window");
    keys("door", &Words::door, kText, "door");
    keys("fixing", &Words::fixing, kText, "fixing | fastener");
  }
};

enum class Display : std::uint8_t { Millimetres, InchFractions };
inline constexpr std::string_view kDisplayWords[] = {"millimetres", "inch fractions"};

/// Numbers of studs at each side of an opening up to a width.
struct SideStuds {
  double up_to = 0;
  Figure full_height, bearing;

  static void describe(auto& keys) {
    keys.header("[[framing.side_studs]]");
    keys("up_to", &SideStuds::up_to, kUpTo, "Opening width, mm; above that of the table before.");
    keys("full_height", &SideStuds::full_height, kPieces, "Full-height studs each side (jamb studs).");
    keys("bearing", &SideStuds::bearing, kCount,
         "Shorter studs under each lintel end; 0: the lintel is housed into the jamb studs.");
  }
};

/// The lintel that is drawn where the job names none. Never a structural answer.
struct LintelDefault {
  double up_to = 0;
  Figure depth, thickness, plies;

  static void describe(auto& keys) {
    keys.header("[[framing.lintels]]");
    keys("up_to", &LintelDefault::up_to, kUpTo, "Opening width, mm; above that of the table before.");
    keys("depth", &LintelDefault::depth, kPart, "Its height.");
    keys("thickness", &LintelDefault::thickness, kPart, "Of one ply.");
    keys("plies", &LintelDefault::plies, kPieces, "Plies side by side.");
  }
};

/// Framing defaults, used where the job leaves a key out, and the rules that place members.
struct Framing {
  Figure stud_depth, stud_thickness, spacing, top_plates, bottom_plates, lining, cladding_thickness, cavity,
      nogging_spacing;
  Rule nogging_stagger, shortest_piece, jamb_notch_most;
  std::vector<SideStuds> side_studs;
  std::vector<LintelDefault> lintels;

  /// The rule for an opening so wide; the widest rule's where none reaches that far. Null: there is none.
  [[nodiscard]] const SideStuds* sideStudsFor(double width) const {
    const SideStuds* rule = nullptr;
    for (const SideStuds& each : side_studs) {
      if (rule == nullptr || width > rule->up_to) rule = &each;
    }
    return rule;
  }

  static void describe(auto& keys) {
    keys.header("[framing]");
    keys("stud_depth", &Framing::stud_depth, kPart, "Through the wall.");
    keys("stud_thickness", &Framing::stud_thickness, kPart, "Along the wall.");
    keys("spacing", &Framing::spacing, kPart, "Stud centres.");
    keys("top_plates", &Framing::top_plates, kPieces, "How many top plates.");
    keys("bottom_plates", &Framing::bottom_plates, kPieces, "How many bottom plates.");
    keys("lining", &Framing::lining, kLength, "Thickness of the inside lining.");
    keys("cladding_thickness", &Framing::cladding_thickness, kPart, "Thickness of the cladding.");
    keys("cavity", &Framing::cavity, kLength, "Depth of the battens behind the cladding; 0: fixed direct.");
    keys("nogging_spacing", &Framing::nogging_spacing, kPart,
         "Largest centres between rows of noggings, and from plate to row.");
    keys("nogging_stagger", &Framing::nogging_stagger, kRatio,
         "Largest stagger in a row, as a multiple of the nogging's breadth.");
    keys("shortest_piece", &Framing::shortest_piece, kPart,
         "Jack studs and noggings shorter than this are left out: they split when they are nailed.");
    keys("jamb_notch_most", &Framing::jamb_notch_most, kLength,
         "Deepest notch in a jamb stud beside its opening; 0: none is allowed.");
    keys("side_studs", &Framing::side_studs, kTables, "Studs at each side of an opening, by its width.");
    keys("lintels", &Framing::lintels, kTables,
         "The lintel that is drawn where the job names none, by the width of the opening.");
  }
};

/// How much heat a unit may lose, in one case that the job names.
struct HeatLimit {
  std::string name;
  Figure u_value_most;

  static void describe(auto& keys) {
    keys.header("[[unit.heat]]");
    keys("name", &HeatLimit::name, kText, "As the job names it: \"replacement\", \"zone 5\".");
    keys("u_value_most", &HeatLimit::u_value_most, kHeatLoss, "Heat that a unit may lose.");
  }
};

/// What a level of bushfire attack asks of a unit's screens. Its glass, frame and seals are not judged.
struct Bushfire {
  std::string name;
  Rule mesh_most, screen_gap_most, mesh_aluminium;

  static void describe(auto& keys) {
    keys.header("[[unit.bushfire]]");
    keys("name", &Bushfire::name, kText, "As the job names it, \"BAL-29\".");
    keys("mesh_most", &Bushfire::mesh_most, kLength, "Widest hole of a screen's metal mesh.");
    keys("screen_gap_most", &Bushfire::screen_gap_most, kLength, "Widest gap round a screen.");
    keys("mesh_aluminium", &Bushfire::mesh_aluminium, kYesNo, "1: the mesh may be of aluminium; 0: it may not.");
  }
};

/// The unit's parts where the job leaves them out.
struct UnitDefaults {
  Figure frame_depth, frame_face, fin, glass_thickness, glass_panes;
  Rule fin_cover_least, reveal_flush_tolerance;
  std::vector<HeatLimit> heat;
  std::vector<Bushfire> bushfire;

  static void describe(auto& keys) {
    keys.header("[unit]");
    keys("frame_depth", &UnitDefaults::frame_depth, kPart, "Aluminium section through the wall.");
    keys("frame_face", &UnitDefaults::frame_face, kPart, "Aluminium section seen from outside.");
    keys("fin", &UnitDefaults::fin, kLength, "Outside fin past the unit; 0: none.");
    keys("glass_thickness", &UnitDefaults::glass_thickness, kPart, "Of one pane.");
    keys("glass_panes", &UnitDefaults::glass_panes, kPieces, "How many panes.");
    keys("fin_cover_least", &UnitDefaults::fin_cover_least, kLength,
         "Least lap of the fin over the framing, past the gap.");
    keys("reveal_flush_tolerance", &UnitDefaults::reveal_flush_tolerance, kLength,
         "How far the reveal may stand off the lining's face.");
    keys("heat", &UnitDefaults::heat, kTables, "Heat that a unit may lose, by the case that the job names.");
    keys("bushfire", &UnitDefaults::bushfire, kTables, "What each level of bushfire attack asks of screens.");
  }

  /// The limit that holds: the one that the job names, or the only one there is; nullptr: it isn't told which.
  [[nodiscard]] const HeatLimit* heatFor(const std::optional<std::string>& named) const {
    return heat.size() == 1 && !named ? &heat.front() : findNamed(heat, named.value_or(""));
  }
};

/// Gaps between framed opening and unit. `least` is what spare is counted from, `usual` what is ordered by,
/// `most` what packing and sealing can still bridge.
struct Clearance {
  Bands side_least, side_usual, side_most, sill_least, sill_usual, sill_most, head_least, head_usual, head_most;
  Rule door_sill_least, door_sill_usual, unit_tolerance, size_step;

  static void describe(auto& keys) {
    keys.header("[clearance]");
    keys("side_least", &Clearance::side_least, kLength,
         "At each side, by opening width: what clearance to spare is counted from.");
    keys("side_usual", &Clearance::side_usual, kLength, "What sizes are ordered by.");
    keys("side_most", &Clearance::side_most, kLength, "What packing and sealing can still bridge.");
    keys("sill_least", &Clearance::sill_least, kLength, "Under the unit: the sill packing. By opening width.");
    keys("sill_usual", &Clearance::sill_usual, kLength, "What sizes are ordered by.");
    keys("sill_most", &Clearance::sill_most, kLength, "What packing and sealing can still bridge.");
    keys("head_least", &Clearance::head_least, kLength, "Over the unit, by opening width.");
    keys("head_usual", &Clearance::head_usual, kLength, "What sizes are ordered by.");
    keys("head_most", &Clearance::head_most, kLength, "What packing and sealing can still bridge.");
    keys("door_sill_least", &Clearance::door_sill_least, kLength, "Under a door's sill.");
    keys("door_sill_usual", &Clearance::door_sill_usual, kLength, "Under a door's sill: what sizes are ordered by.");
    keys("unit_tolerance", &Clearance::unit_tolerance, kLength,
         "± of the unit's width and height as made: two standard errors.");
    keys("size_step", &Clearance::size_step, kPart, "Step that ordered sizes come in.");
  }
  bool operator==(const Clearance&) const = default;
};

/// Standard errors of readings, mm.
struct InstrumentErrors {
  Figure distance, diagonal, level;

  static void describe(auto& keys) {
    keys("distance", &InstrumentErrors::distance, kLength, "Of widths, heights and wall depths.");
    keys("diagonal", &InstrumentErrors::diagonal, kLength, "Of diagonals.");
    keys("level", &InstrumentErrors::level, kLength, "Of what is out of level or out of plumb.");
  }
};

struct Survey {
  InstrumentErrors tape, laser;
  Figure planned;

  static void describe(auto& keys) {
    keys.header("[survey]");
    keys("tape", &Survey::tape, job::table(), "Standard errors of readings by tape.");
    keys("laser", &Survey::laser, job::table(), "Standard errors of readings by laser.");
    keys("planned", &Survey::planned, kPart, "Standard error given to a planned size where nothing was read.");
  }
};

struct Packing {
  Rule spacing_sill, spacing_jamb, from_corner, door_sill_spacing, cavity_support_above, most_stack, most_pieces,
      most_left_over, head_packed;

  static void describe(auto& keys) {
    keys.header("[packing]");
    keys("spacing_sill", &Packing::spacing_sill, kPart, "Largest distance between packing points under the sill.");
    keys("spacing_jamb", &Packing::spacing_jamb, kPart, "Largest distance between packing points at a jamb.");
    keys("from_corner", &Packing::from_corner, kLength, "Distance of the end points from the unit's corners, at most.");
    keys("door_sill_spacing", &Packing::door_sill_spacing, kPart,
         "Largest distance between packing points under a door's sill.");
    keys("cavity_support_above", &Packing::cavity_support_above, kLength,
         "Openings wider than this have the unit's sill carried across the cavity; 0: all.");
    keys("most_stack", &Packing::most_stack, kPart, "Deepest stack of packers; deeper gaps want a timber backing.");
    keys("most_pieces", &Packing::most_pieces, kPieces, "Most packers in one stack.");
    keys("most_left_over", &Packing::most_left_over, kLength, "Largest remainder between stack and gap.");
    keys("head_packed", &Packing::head_packed, kYesNo, "0: nothing is packed between head and lintel.");
  }
};

/// What a framed opening may be off by before the unit is set.
struct OpeningTolerance {
  Rule plumb_mm, plumb_over, sill_level, diagonals, width_spread, height_spread, bow, bow_over, twist;

  static void describe(auto& keys) {
    keys.header("[opening_tolerance]");
    keys("plumb_mm", &OpeningTolerance::plumb_mm, kPart, "A stud may be out of plumb by this …");
    keys("plumb_over", &OpeningTolerance::plumb_over, kPart, "… in this much height.");
    keys("sill_level", &OpeningTolerance::sill_level, kPart, "The sill may be out of level by this over its length.");
    keys("diagonals", &OpeningTolerance::diagonals, kPart, "Difference of the diagonals.");
    keys("width_spread", &OpeningTolerance::width_spread, kPart, "Largest less smallest width.");
    keys("height_spread", &OpeningTolerance::height_spread, kPart, "Largest less smallest height.");
    keys("bow", &OpeningTolerance::bow, kPart, "Jamb, sill or lintel off a straight line by this …");
    keys("bow_over", &OpeningTolerance::bow_over, kPart, "… in this much length.");
    keys("twist", &OpeningTolerance::twist, kPart,
         "Difference of the two studs in what they are out of plumb in or out.");
  }
};

/// What the unit may be off by once it is set.
struct InstalledTolerance {
  Rule plumb_mm, plumb_over, level_mm, level_over, diagonals_small, diagonals_large, large_from_area_m2;

  static void describe(auto& keys) {
    keys.header("[installed_tolerance]");
    keys("plumb_mm", &InstalledTolerance::plumb_mm, kPart, "A jamb may be out of plumb by this …");
    keys("plumb_over", &InstalledTolerance::plumb_over, kPart, "… in this much height.");
    keys("level_mm", &InstalledTolerance::level_mm, kPart, "The sill may be out of level by this …");
    keys("level_over", &InstalledTolerance::level_over, kPart, "… in this much width.");
    keys("diagonals_small", &InstalledTolerance::diagonals_small, kPart, "Difference of the diagonals.");
    keys("diagonals_large", &InstalledTolerance::diagonals_large, kPart, "The same of a large unit …");
    keys("large_from_area_m2", &InstalledTolerance::large_from_area_m2, kArea, "… from this area on.");
  }
};

/// The crew's usual stock, where the job names none.
struct StockSizes {
  std::vector<double> packers, rolls, timber;
  std::vector<std::string> screws;
  double roll_length = 0;
  Rule end_trim;
  Figure about;

  static void describe(auto& keys) {
    keys.header("[stock]");
    keys("packers", &StockSizes::packers, kLengths, "Packer thicknesses, mm.");
    keys("rolls", &StockSizes::rolls, kLengths, "Widths of flashing rolls, mm.");
    keys("timber", &StockSizes::timber, kLengths, "Stock lengths of timber, mm.");
    keys("screws", &StockSizes::screws, kTexts.required(), "Screws by gauge and length.");
    keys("roll_length", &StockSizes::roll_length, job::mm(0.01, 100'000), "Length of a roll, mm.");
    keys("end_trim", &StockSizes::end_trim, kLength, "Cut off each stock length to square its end.");
    keys("about", &StockSizes::about, kCount,
         "Source and status of the whole list; its value is the number of packers.");
  }
};

struct Practice {
  std::string name, title, file;
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

  static void describe(auto& keys) {
    keys("name", &Practice::name, kText, "As a job names it, \"au\".");
    keys("title", &Practice::title, kText, "\"Australia: timber frame, aluminium units\"");
    keys("display", &Practice::display, job::word(kDisplayWords), "How lengths are shown.");
    keys("words", &Practice::words, job::table(), "The region's own words.");
    keys("framing", &Practice::framing, job::table(), "Framing where the job leaves a key out, and where members go.");
    keys("unit", &Practice::unit, job::table(), "The unit's parts where the job leaves them out.");
    keys("clearance", &Practice::clearance, job::table(), "Gaps between framed opening and unit.");
    keys("survey", &Practice::survey, job::table(), "Standard errors of readings.");
    keys("packing", &Practice::packing, job::table(), "Packing between frame and unit.");
    keys("opening_tolerance", &Practice::opening_tolerance, job::table().optional(),
         "What a framed opening may be off by before the unit is set.");
    keys("installed_tolerance", &Practice::installed_tolerance, job::table().optional(),
         "What the unit may be off by once it is set.");
    keys(
        "wind", [](auto& into) -> auto& { return into.strength.wind; }, job::table().optional(), "How hard it blows.");
    keys(
        "fixing", [](auto& into) -> auto& { return into.strength.fixing; }, job::table().optional(),
        "Where fixings go.");
    keys(
        "fixing_design", [](auto& into) -> auto& { return into.strength.fixing_design; }, job::table().optional(),
        "From a fixing's yield value to what may be counted on.");
    keys(
        "gauge", [](auto& into) -> auto& { return into.strength.gauges; }, kTables, "Gauges of wood screws.");
    keys("stock", &Practice::stock, job::table(), "The crew's usual stock, where the job names none.");
    keys(
        "timber", [](auto& into) -> auto& { return into.strength.timber; }, job::table().optional(),
        "What the wood bears.");
    keys("weather", &Practice::weather, job::table(), "Keeping water out.");
    keys("safety", &Practice::safety, job::table(), "Glass, falls, wet areas, lifting.");
  }
};

/// One figure of a practice, and what has to be so for it to count.
struct Listed {
  std::string key;         ///< "safety.glass.low_below", "wind.class[N3].water_kpa", "clearance.side_most[to 3000]".
  std::string_view about;  ///< What it is, as the description of its table says.
  job::Holds holds;        ///< Its bounds.
  Figure* figure = nullptr;
  std::string_view wind{};              ///< The class of wind that it is of; empty: it is of none.
  std::string_view heat{}, bushfire{};  ///< The limit of heat loss, the bushfire level that it is of.
  const TimberGrade* grade = nullptr;   ///< Likewise.
  const Gauge* gauge = nullptr;
  const SpanEntry* span = nullptr;
};

/// All figures, in the order of the descriptions. They live in `practice`.
[[nodiscard]] std::vector<Listed> figuresOf(Practice& practice);

}  // namespace sillwright::practice
