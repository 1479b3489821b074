/// The job file's keys: every table, every key, what it holds, and its bounds.
///
/// This is the one place where a bound of the job file is written; the reader checks by it, the messages quote it,
/// the schema beside the demo jobs is tested against it. Bounds are wide on purpose: they refuse what can't be a
/// house (a slipped finger, metres for millimetres), not what is merely wrong on site; that is a finding, to be
/// seen in the drawing.
#pragma once

#include <string_view>
#include <vector>

#include "job/read.h"
#include "job/rule.h"

namespace sillwright::job {

// Words, each list in the order of its enumeration in job.h.
inline constexpr std::string_view kKindWords[] = {"sliding window", "awning window", "casement window",
                                                  "fixed window",   "sliding door",  "hinged door"};
inline constexpr std::string_view kRoomWords[] = {"sleeping", "living", "wet", "shower", "stair", "utility"};
inline constexpr std::string_view kFlashingWords[] = {"fitted", "on site"};
inline constexpr std::string_view kHandWords[] = {"left", "right"};
inline constexpr std::string_view kInstrumentWords[] = {"tape", "laser"};
inline constexpr std::string_view kAlignWords[] = {"heads"};

/// Longest name of a wall or an opening, characters.
inline constexpr double kLongestName = 100;

inline constexpr KeyRule kWindKeys[] = {required("pressure_kpa", number(0.01, 20, "kPa"))};
inline constexpr TableRule kWindRule{"job.wind", "", kWindKeys};

inline constexpr KeyRule kJobKeys[] = {
    required("title", text(200)),
    required("practice", text(1000)),  // a name or a path
    allowed("wind", textOr(40, kWindRule)),
};
inline constexpr TableRule kJobRule{"job", "[job]", kJobKeys};

// The wall.

inline constexpr KeyRule kStudKeys[] = {required("depth", mm(30, 400)), required("thickness", mm(15, 200))};
inline constexpr TableRule kStudRule{"wall.stud", "", kStudKeys};

inline constexpr KeyRule kPlatesKeys[] = {required("top", whole(1, 4)), required("bottom", whole(1, 4))};
inline constexpr TableRule kPlatesRule{"wall.plates", "", kPlatesKeys};

inline constexpr KeyRule kCladdingKeys[] = {required("thickness", mm(0, 300)), required("cavity", mm(0, 300))};
inline constexpr TableRule kCladdingRule{"wall.cladding", "", kCladdingKeys};

inline constexpr KeyRule kEaveKeys[] = {required("soffit", mm(0, 20'000)), required("reach", mm(0, 10'000))};
inline constexpr TableRule kEaveRule{"wall.eave", "", kEaveKeys};

inline constexpr KeyRule kSupportsKeys[] = {required("width", mm(100, 50'000)),
                                            required("load_kpa", number(0, 50, "kPa"))};
inline constexpr TableRule kSupportsRule{"wall.supports", "", kSupportsKeys};

inline constexpr KeyRule kWallKeys[] = {
    required("name", text(kLongestName)),
    required("length", mm(100, kLongestWall)),
    required("top", outline(300, 20'000, 64)),
    allowed("stud", one(kStudRule)),
    allowed("spacing", mm(100, 3'000)),
    allowed("plates", one(kPlatesRule)),
    allowed("lining", mm(0, 200)),
    allowed("cladding", one(kCladdingRule)),
    allowed("eave", one(kEaveRule)),
    allowed("timber", text(60)),
    allowed("at", mmPair(-1'000'000, 1'000'000)),
    allowed("turn", number(-360, 360, "degrees")),
    allowed("align", word(kAlignWords)),
    allowed("supports", one(kSupportsRule)),
    allowed("drop", mm(0, 100'000)),
};
inline constexpr TableRule kWallRule{"wall", "[[wall]]", kWallKeys};

// The opening and its unit. An opening may stand outside its wall: that is a finding.

inline constexpr KeyRule kLintelKeys[] = {required("depth", mm(20, 1'500)), required("thickness", mm(10, 400)),
                                          required("plies", whole(1, 10))};
inline constexpr TableRule kLintelRule{"opening.lintel", "", kLintelKeys};

inline constexpr KeyRule kFrameKeys[] = {required("depth", mm(10, 400)), required("face", mm(5, 400))};
inline constexpr TableRule kFrameRule{"opening.unit.frame", "", kFrameKeys};

inline constexpr KeyRule kRevealKeys[] = {required("thickness", mm(3, 100)), required("depth", mm(10, 1'000))};
inline constexpr TableRule kRevealRule{"opening.unit.reveal", "", kRevealKeys};

inline constexpr KeyRule kGlassKeys[] = {required("thickness", mm(1, 100)), required("panes", whole(1, 4)),
                                         allowed("safety", truth())};
inline constexpr TableRule kGlassRule{"opening.unit.glass", "", kGlassKeys};

inline constexpr KeyRule kUnitKeys[] = {
    required("kind", word(kKindWords)),
    required("width", mm(100, 20'000)),
    required("height", mm(100, 20'000)),
    allowed("frame", one(kFrameRule)),
    allowed("reveal", one(kRevealRule)),
    allowed("fin", mm(0, 300)),
    allowed("glass", one(kGlassRule)),
    allowed("mass", number(0.1, 5'000, "kg")),
    allowed("flashing", word(kFlashingWords)),
    allowed("hand", word(kHandWords)),
    allowed("mesh", text(1000)),  // a path
};
inline constexpr TableRule kUnitRule{"opening.unit", "[opening.unit]", kUnitKeys};

// Readings. The keys of each small table are in the order in which its array form is written.

inline constexpr KeyRule kWidthsKeys[] = {allowed("bottom", mm(50, 25'000)), allowed("middle", mm(50, 25'000)),
                                          allowed("top", mm(50, 25'000))};
inline constexpr TableRule kWidthsRule{"opening.measured.widths", "", kWidthsKeys};

inline constexpr KeyRule kHeightsKeys[] = {allowed("left", mm(50, 25'000)), allowed("middle", mm(50, 25'000)),
                                           allowed("right", mm(50, 25'000))};
inline constexpr TableRule kHeightsRule{"opening.measured.heights", "", kHeightsKeys};

inline constexpr KeyRule kDiagonalsKeys[] = {allowed("rising", mm(50, 40'000)), allowed("falling", mm(50, 40'000))};
inline constexpr TableRule kDiagonalsRule{"opening.measured.diagonals", "", kDiagonalsKeys};
inline constexpr TableRule kInstalledDiagonalsRule{"opening.installed.diagonals", "", kDiagonalsKeys};

inline constexpr Holds kOutOfTrue = mm(-1'000, 1'000);  // a level's or a plumb line's reading
inline constexpr KeyRule kLeanKeys[] = {allowed("left", kOutOfTrue), allowed("right", kOutOfTrue)};
inline constexpr TableRule kLeanRule{"opening.measured.lean", "", kLeanKeys};
inline constexpr TableRule kInstalledLeanRule{"opening.installed.lean", "", kLeanKeys};
inline constexpr TableRule kTiltRule{"opening.measured.tilt", "", kLeanKeys};

inline constexpr KeyRule kWallDepthKeys[] = {allowed("left", mm(20, 1'500)), allowed("right", mm(20, 1'500))};
inline constexpr TableRule kWallDepthRule{"opening.measured.wall_depth", "", kWallDepthKeys};

// A standard error of 0 would make one reading outweigh all others.
inline constexpr KeyRule kByKeys[] = {required("distance", mm(0.01, 100)), required("diagonal", mm(0.01, 100)),
                                      required("level", mm(0.01, 100))};
inline constexpr TableRule kByRule{"opening.measured.by", "", kByKeys};

inline constexpr KeyRule kMeasuredKeys[] = {
    allowed("widths", readings(kWidthsRule)),
    allowed("heights", readings(kHeightsRule)),
    allowed("diagonals", readings(kDiagonalsRule)),
    allowed("sill_fall", kOutOfTrue),
    allowed("lean", readings(kLeanRule)),
    allowed("tilt", readings(kTiltRule)),
    allowed("wall_depth", readings(kWallDepthRule)),
    allowed("by", wordOr(kInstrumentWords, kByRule)),
};
inline constexpr TableRule kMeasuredRule{"opening.measured", "[opening.measured]", kMeasuredKeys};

inline constexpr KeyRule kInstalledKeys[] = {
    allowed("date", date(1900, 2200)), allowed("diagonals", readings(kInstalledDiagonalsRule)),
    allowed("sill_fall", kOutOfTrue),  allowed("lean", readings(kInstalledLeanRule)),
    allowed("opens", truth()),         allowed("locks", truth()),
};
inline constexpr TableRule kInstalledRule{"opening.installed", "[opening.installed]", kInstalledKeys};

inline constexpr KeyRule kOpeningKeys[] = {
    required("name", text(kLongestName)),
    required("wall", text(kLongestName)),
    required("left", mm(-kLongestWall, kLongestWall)),
    required("sill", mm(-2'000, 20'000)),
    required("width", mm(100, 20'000)),
    required("height", mm(100, 20'000)),
    allowed("room", word(kRoomWords)),
    allowed("lintel", one(kLintelRule)),
    required("unit", one(kUnitRule)),
    allowed("measured", one(kMeasuredRule)),
    allowed("installed", one(kInstalledRule)),
};
inline constexpr TableRule kOpeningRule{"opening", "[[opening]]", kOpeningKeys};

inline constexpr KeyRule kStockKeys[] = {
    allowed("packers", mmList(0.1, 200, 200)),   allowed("screws", textList(60, 200)),
    allowed("rolls", mmList(10, 3'000, 200)),    allowed("roll_length", mm(100, 1'000'000)),
    allowed("timber", mmList(100, 30'000, 200)),
};
inline constexpr TableRule kStockRule{"stock", "[stock]", kStockKeys};

inline constexpr KeyRule kFileKeys[] = {
    required("job", one(kJobRule)),
    required("wall", many(kWallRule, kMostWalls)),
    allowed("opening", many(kOpeningRule, kMostOpenings)),
    allowed("stock", one(kStockRule)),
};
inline constexpr TableRule kFileRule{"", "", kFileKeys};

/// Every table of the job file, the file itself first.
[[nodiscard]] std::span<const TableRule* const> tableRules();

/// The keys of a table by its path ("opening.unit"; "" for the file's own), in the order they are usually written.
/// Empty for a path that names no table.
[[nodiscard]] std::vector<std::string_view> knownKeys(std::string_view path);

}  // namespace sillwright::job
