/// The command line: a verb a file. Each returns the program's exit status (kReady, kNotReady, kUnreadable).
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "takeoff/takeoff.h"

namespace sillwright::cli {

inline constexpr int kReady = 0;       ///< No stop; or the verb did what was asked.
inline constexpr int kNotReady = 1;    ///< Something says stop.
inline constexpr int kUnreadable = 2;  ///< The job, its practice or the command itself could not be read.

/// "0.1.0 (1a2b3c4d5e)": the version and, where it was built from a clone, the commit; "+" where files differed from
/// it.
[[nodiscard]] const char* version();

/// What all verbs that work a job out have in common.
struct How {
  std::string practice;  ///< In place of the job's; empty: that one.
  bool watch = false;    ///< Again whenever the job's file changes.
};

struct CheckOptions {
  How how;
  std::vector<std::filesystem::path> jobs;
  std::string opening;  ///< Only this one; empty: all.
  bool json = false;
  bool notes = false;  ///< Show notes too in the table.
  bool quiet = false;  ///< The status alone.
};
/// The checks, as a table for a narrow terminal or as JSON (of one job); errors as `file:line:column: …` on standard
/// error. Of several jobs the worst status.
int check(const CheckOptions& options);

struct PictureOptions {
  How how;
  std::filesystem::path job;
  std::filesystem::path out;
  std::string opening;
  std::string view;  ///< Empty: a step's own, else the house.
  std::string size = "1600x1000";
  bool dark = false;
  bool bare = false;              ///< Without labels.
  bool panels = false;            ///< The viewer's whole screen.
  std::vector<std::string> hide;  ///< Layers by name.
  double magnify = 1;             ///< How many times as large as they are deviations are drawn.
  double spread = 0;              ///< mm that the layers are pulled apart.
  std::string cut;                ///< As view::parseCut; empty: none.
  std::optional<int> step;        ///< Of the opening's order of work.
  std::string what_if;            ///< As plan::parseWhatIfs.
  bool water = false;
};
int picture(const PictureOptions& options);

/// Reads "1600x1000". False, and told: it is none such.
[[nodiscard]] bool readSize(const std::string& size, int& width, int& height);

inline constexpr int kWidestFilm = 4096;  ///< Pixels a side.
struct FilmOptions {
  How how;
  std::filesystem::path job;
  std::filesystem::path out;  ///< Ends in .webm, .mp4 or .gif.
  std::string opening;
  std::string size = "1280x720";
  std::string steps;       ///< "4-8"; empty: all.
  std::optional<int> fps;  ///< Pictures a second; empty: as is usual for the ending.
  double pace = 1;         ///< Of playing: 1 as fast as the cards are read.
  bool dark = false;
};
/// The order of work at an opening as a film, each card for as long as it takes to read.
int film(const FilmOptions& options);

struct StepsOptions {
  How how;
  std::filesystem::path job;
  std::string opening;  ///< Only this one; empty: all.
  bool crew = false;    ///< The whole job's list for a crew, wall by wall, in place of each opening's steps.
};
/// The order of work, in words.
int steps(const StepsOptions& options);

struct ListOptions {
  How how;
  std::filesystem::path job;
  std::filesystem::path csv;        ///< Folder for a file a list; empty: none.
  std::filesystem::path xlsx;       ///< Workbook; empty: none.
  double kerf = takeoff::kSawKerf;  ///< Of the saw, mm.
  bool force = false;               ///< Write files and be content although units are held.
};
/// The order list and the take-off, on the terminal where neither folder nor workbook is named. While a unit is held,
/// no file is written and the status is kNotReady.
int list(const ListOptions& options);

struct ScheduleOptions {
  std::filesystem::path file;
  std::string sheet;             ///< Of a workbook; empty: the one that has a header.
  std::string wall;              ///< Of the openings whose rows name none.
  std::filesystem::path job;     ///< The job that the openings are to join; empty: they alone are written.
  std::filesystem::path out;     ///< Empty: on standard output.
  std::string practice;          ///< In place of the job's.
  std::vector<std::string> map;  ///< "Their name=ours".
  std::vector<std::string> set;  ///< "sill=900".
  std::string unit;              ///< One of exchange::kLengthUnits; empty: mm.
  bool side_by_side = false;
  bool show = false;  ///< Only print how it is understood; kNotReady: something is asked.
};
/// Reads a window schedule and writes its openings as they stand in a job file, behind the job's own text if one is
/// named. All mistakes of the schedule as `file:line:column: row 3, column: …` on standard error, and what was passed
/// over.
int schedule(const ScheduleOptions& options);

struct ImportOptions {
  std::filesystem::path file;
  std::filesystem::path out;
  std::string practice = "au";
};
/// A building model's walls with their openings, windows and doors as a job; what was left out on standard error.
int importModel(const ImportOptions& options);

struct MeasureOptions {
  std::filesystem::path job;
  std::filesystem::path file;    ///< The log or the filled form; empty: only the form is wanted.
  std::filesystem::path form;    ///< Ends in .csv or .xlsx: where the empty form is written.
  std::string sheet;             ///< Of a workbook.
  std::string unit;              ///< As ScheduleOptions.
  std::string by;                ///< "tape" or "laser"; empty: as the job says.
  std::vector<std::string> map;  ///< "Their name=ours".
  bool record = false;           ///< The form is that of the record of units that are set.
  bool yes = false;              ///< Write without asking.
};
/// Measurements into the job's own file, comments and layout kept, after what changes has been shown and agreed to.
/// kNotReady: it was not agreed to.
int measure(const MeasureOptions& options);

struct DiffOptions {
  How how;
  std::filesystem::path before;
  std::filesystem::path job;
};
/// What changed between two revisions: verdicts, units to order, what is bought and cut. kNotReady: something has.
int diff(const DiffOptions& options);

struct ExportOptions {
  How how;
  std::filesystem::path job;
  std::filesystem::path out;  ///< Ends in .glb, .obj, .ifc, .dxf, .html or .svg.
};
/// The scene as a model; floor plan and elevations as one drawing (.dxf); the page for a phone; all sheets (.svg).
int exportModel(const ExportOptions& options);

struct SheetsOptions {
  How how;
  std::filesystem::path job;
  std::filesystem::path out;  ///< Ends in .pdf, .svg or .png; of the last two, a file a page: "house-03.svg".
  std::string opening{};      ///< Only its sheets; empty: all.
  std::string wall{};         ///< Only its elevation.
  bool records = false;       ///< Record sheets for openings that aren't set yet, to fill in.
};
int sheets(const SheetsOptions& options);

struct HandbookOptions {
  How how;
  std::filesystem::path job;
  std::filesystem::path out;  ///< Ends in .pdf.
  std::string opening;        ///< Its steps; empty: `crew` is wanted.
  bool crew = false;          ///< The whole job's, steps that are alike once.
  std::string paper = "a4";   ///< Or "letter".
};
/// The order of work as a book, a picture a step.
int handbook(const HandbookOptions& options);

struct PracticeOptions {
  std::string name;  ///< As a job names it, or a practice file.
  bool json = false;
};
/// Every figure of a practice with its source, and the findings that use it.
int practiceFigures(const PracticeOptions& options);

struct ExerciseOptions {
  std::filesystem::path file;
};
/// Checks an exercise's file against its job, and says it as a teacher wants it: what is asked, and the right answers.
int exercise(const ExerciseOptions& options);

int viewer(const std::filesystem::path& job);

}  // namespace sillwright::cli
