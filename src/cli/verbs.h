/// The command line: a verb a file. Each returns the program's exit status (kReady, kNotReady, kUnreadable).
///
/// What a verb may be asked is told once, by `describe` of its options: the parser, help, manual pages and completion
/// follow from it (main.cpp). An option that isn't given leaves its field as it is here.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "exchange/schedule.h"
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
  std::string practice;
  bool watch = false;

  void describe(auto& verb) {
    verb("--practice", practice, "The rule set to work by in place of the job's");
    verb("--watch", watch, "Again whenever the job's file changes, until Ctrl C");
  }
};

struct CheckOptions {
  How how;
  std::vector<std::filesystem::path> jobs;
  std::string opening;
  bool json = false, quiet = false, notes = false;

  void describe(auto& verb) {
    verb("jobs", jobs, "The job file, or several")->required();
    auto* only = verb("--opening", opening, "Only this opening");
    verb("--json", json, "As one JSON object on standard output, of one job")->excludes(only);
    verb("--quiet", quiet, "Print nothing; the exit status tells");
    verb("--notes", notes, "Notes too: what was not judged, what was taken from the rule set");
  }
};
/// The checks, as a table for a narrow terminal or as JSON (of one job); errors as `file:line:column: …` on standard
/// error. Of several jobs the worst status.
int check(const CheckOptions& options);

struct StepsOptions {
  How how;
  std::filesystem::path job;
  std::string opening;
  bool crew = false;

  void describe(auto& verb) {
    auto* only = verb("--opening", opening, "Only this opening");
    verb("--crew", crew, "The whole job in order, wall by wall")->excludes(only);
  }
};
/// The order of work, in words.
int steps(const StepsOptions& options);

struct ListOptions {
  How how;
  std::filesystem::path job, csv, xlsx;
  double kerf = takeoff::kSawKerf;
  bool force = false;

  void describe(auto& verb) {
    verb("--csv", csv, "Write each list as a CSV file into this folder");
    verb("--xlsx", xlsx, "Write all lists into this workbook");
    verb("--kerf", kerf, "Width of a saw cut in mm")->check(verb.within(0, 20));
    verb("--force", force, "Write the files although an opening says stop and its unit is held");
  }
};
/// The order list and the take-off, on the terminal where neither folder nor workbook is named. While a unit is held,
/// no file is written and the status is kNotReady.
int list(const ListOptions& options);

/// What a table of another program may leave to be told.
struct TableOptions {
  std::string sheet;  ///< Empty: the one that has a header.
  std::string unit;   ///< One of exchange::kLengthUnits; empty: mm.
  std::vector<std::string> map;

  void describe(auto& verb) {
    verb("--map", map, "What a column or a word of theirs means: \"Their name=ours\"; nothing after = passes it over")
        ->take_all();
    verb("--unit", unit, "Unit of lengths that name none", {"mm", "cm", "m", "in", "ft"});
    verb("--sheet", sheet, "The sheet of a workbook");
  }
};

struct ScheduleOptions {
  std::filesystem::path file, into, out;
  std::string wall, practice;
  TableOptions table;
  std::vector<std::string> set;
  bool side_by_side = false, show = false;

  void describe(auto& verb) {
    verb.footer(exchange::describeColumns);
    verb("file", file, "The schedule: CSV of any kind, or a workbook (.xlsx)")->required();
    verb("--show", show, "Only print how each column is understood, and what is asked");
    table.describe(verb);
    verb("--set", set, "What holds for all rows that say nothing: \"sill=900\"")->take_all();
    verb("--side-by-side", side_by_side, "Set openings whose place isn't told one after the other");
    verb("--wall", wall, "The wall of openings whose rows name none");
    verb("--job", into, "The job to add the openings to: its walls, and its text before them");
    verb("--practice", practice, "The rule set whose usual gaps tell the size that isn't told");
    verb("--out", out, "The job file to write; without it, on standard output");
  }
};
/// Reads a window schedule and writes its openings as they stand in a job file, behind the job's own text if one is
/// named. All mistakes of the schedule as `file:line:column: row 3, column: …` on standard error, and what was passed
/// over. kNotReady: something is asked, where it is only shown.
int schedule(const ScheduleOptions& options);

struct ImportOptions {
  std::filesystem::path file, out;
  std::string practice = "au";

  void describe(auto& verb) {
    verb("model", file, "The building model: IFC 2x3 or IFC 4 (.ifc)")->required();
    verb("--out", out, "The job file to write")->required();
    verb("--practice", practice, "The rule set that the job is to work by");
  }
};
/// A building model's walls with their openings, windows and doors as a job; what was left out on standard error.
int importModel(const ImportOptions& options);

struct MeasureOptions {
  std::filesystem::path job, file, form;
  TableOptions table;
  std::string by;
  bool record = false, yes = false;

  void describe(auto& verb) {
    auto* log = verb("file", file, "The measurements: CSV or a workbook with opening, reading and value");
    verb("--form", form, "Write the empty form, .csv or .xlsx, with the planned values")->excludes(log);
    verb("--record", record, "The form of the record sheet: the units again, once they are set");
    verb("--yes", yes, "Write into the job without asking");
    verb("--by", by, "What openings that had no measurements were read with", {"tape", "laser"});
    table.describe(verb);
  }
};
/// Measurements into the job's own file, comments and layout kept, after what changes has been shown and agreed to.
/// kNotReady: it was not agreed to.
int measure(const MeasureOptions& options);

struct DiffOptions {
  How how;
  std::filesystem::path before, now;

  void describe(auto& verb) {
    verb.footer("Exit status: 0 nothing has changed; 1 something has; 2 a job could not be read.");
    verb("old", before, "The job file as it was")->required();
    verb("new", now, "The job file as it is")->required();
  }
};
/// What changed between two revisions: verdicts, units to order, what is bought and cut. kNotReady: something has.
int diff(const DiffOptions& options);

struct ExportOptions {
  How how;
  std::filesystem::path job, out;

  void describe(auto& verb) {
    verb("--out", out,
         "What to write: .glb (glTF, metres), .obj or .ifc (millimetres), .dxf (floor plan and elevations), "
         ".svg (all sheets, a file a page), or .html (the whole job in one page for a phone, which judges and measures "
         "without a network)")
        ->required();
  }
};
int exportModel(const ExportOptions& options);

struct SheetsOptions {
  How how;
  std::filesystem::path job, out;
  std::string opening{}, wall{};
  bool records = false;

  void describe(auto& verb) {
    verb("--out", out, "The .pdf to write, or .svg or .png (a file a page)")->required();
    auto* only = verb("--opening", opening, "Only the sheets of this opening");
    verb("--wall", wall, "Only the elevation of this wall")->excludes(only);
    verb("--records", records, "Blank record sheets for openings that are not set yet");
  }
};
int sheets(const SheetsOptions& options);

struct PracticeOptions {
  std::string name;
  bool json = false;

  void describe(auto& verb) {
    verb("practice", name, "Its name (au, nz, uk, us), or a practice file of your own")->required();
    verb("--json", json, "As one JSON object on standard output");
  }
};
/// Every figure of a practice with its source, and the findings that use it.
int practiceFigures(const PracticeOptions& options);

struct ExerciseOptions {
  std::filesystem::path file, page;

  void describe(auto& verb) {
    verb.footer("Exit status: 0 it can be set; 2 it could not be read, or its job doesn't have what it asks for.");
    verb("file", file, "The exercise's file; 'sillwright FILE' sets it in the viewer")->required();
    verb("--page", page, "Write it with its job into this page (.html), to be done in a browser without a network");
  }
};
/// Checks an exercise's file against its job, and says it as a teacher wants it: what is asked, and the right answers;
/// or writes the page for the trainees.
int exercise(const ExerciseOptions& options);

struct OptionWords {
  std::string name;  ///< "--out"
  std::string about;
  bool takes_value = false;
  std::vector<std::string> choices;  ///< Of the value; empty: a file's name or anything.
};

struct VerbWords {
  std::string name;
  std::string about;
  std::vector<OptionWords> options;
};

/// Completion of verbs and options as a script for "bash", "zsh" or "fish".
[[nodiscard]] std::string completionFor(const std::string& shell, const std::vector<VerbWords>& verbs);

}  // namespace sillwright::cli
