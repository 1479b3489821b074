// The program: one word says what is asked, and the machine's refusals end here in one sentence.

#include <CLI/CLI.hpp>
#include <charconv>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <new>
#include <optional>
#include <sstream>
#include <string>
#include <system_error>

#include "cli/files.h"
#include "cli/table.h"
#include "cli/verbs.h"
#include "exchange/schedule.h"

namespace {

constexpr const char* kAbout =
    "Sillwright: does the window fit, where does it go, what packs it and what holds it, and why.\n"
    "A job file gives walls, openings, units and site measurements, in millimetres; the demo jobs explain the format.\n"
    "All results are indicative: local codes, the unit maker's instructions and licensed trades come first.";

constexpr const char* kFooter =
    "Exit status: 0 every opening is ready or needs attention; 1 an opening or a wall says stop;\n"
    "2 the job, its practice or the command could not be read.\n"
    "'sillwright house.toml' opens the viewer on a job; 'sillwright' alone offers jobs to open.";

using sillwright::cli::CheckOptions;
using sillwright::cli::ExportOptions;
using sillwright::cli::ListOptions;
using sillwright::cli::PracticeOptions;
using sillwright::cli::ScheduleOptions;
using sillwright::cli::SheetsOptions;
using sillwright::cli::StepsOptions;

/// A number from `least` to `most`. CLI::Range lets what is not a number through: it is neither below nor above.
CLI::Validator within(double least, double most) {
  const auto said = [](double number) { return std::to_string(static_cast<int>(number)); };
  const std::string range = said(least) + " to " + said(most);
  const auto wrong = [=](const std::string& text) -> std::string {
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    const bool whole = error == std::errc{} && end == text.data() + text.size();
    if (whole && number >= least && number <= most) return {};
    return "must be a number from " + range + "; found '" + text + "'";
  };
  return {wrong, range};
}

void describeCheck(CLI::App& verb, CheckOptions& options) {
  verb.add_option("job", options.job, "The job file")->required();
  verb.add_flag("--json", options.json, "As one JSON object on standard output");
  verb.add_flag("--notes", options.notes, "Notes too: what was not judged, what was taken from the rule set");
}

void describeSteps(CLI::App& verb, StepsOptions& options) {
  verb.add_option("job", options.job, "The job file")->required();
  auto* opening = verb.add_option("--opening", options.opening, "Only this opening");
  verb.add_flag("--crew", options.crew, "The whole job in order, wall by wall")->excludes(opening);
}

void describeList(CLI::App& verb, ListOptions& options) {
  verb.add_option("job", options.job, "The job file")->required();
  verb.add_option("--csv", options.csv, "Write each list as a CSV file into this folder");
  verb.add_option("--xlsx", options.xlsx, "Write all lists into this workbook");
  verb.add_option("--kerf", options.kerf, "Width of a saw cut in mm")->check(within(0, 20))->capture_default_str();
  verb.add_flag("--force", options.force, "Write the files although an opening says stop and its unit is held");
}

void describeSchedule(CLI::App& verb, ScheduleOptions& options) {
  verb.footer(sillwright::cli::wrapped(sillwright::exchange::describeColumns(), 100, 0));
  verb.add_option("file", options.file, "The schedule: CSV of any kind, or a workbook (.xlsx)")->required();
  verb.add_flag("--show", options.show, "Only print how each column is understood, and what is asked");
  verb.add_option("--map", options.map,
                  "What a column or a word of theirs means: \"Their name=unit width\"; nothing after = passes it over")
      ->take_all();
  verb.add_option("--set", options.set, "What holds for all rows that say nothing: \"sill=900\"")->take_all();
  verb.add_option("--unit", options.unit, "Unit of places and sizes that name none")
      ->check(CLI::IsMember({"mm", "cm", "m", "in", "ft"}));
  verb.add_option("--sheet", options.sheet, "The sheet of a workbook");
  verb.add_flag("--side-by-side", options.side_by_side, "Set openings whose place isn't told one after the other");
  verb.add_option("--wall", options.wall, "The wall of openings whose rows name none");
  verb.add_option("--job", options.job, "The job to add the openings to: its walls, and its text before them");
  verb.add_option("--practice", options.practice, "The rule set whose usual gaps tell the size that isn't told");
  verb.add_option("--out", options.out, "The job file to write; without it, on standard output");
}

void describeExport(CLI::App& verb, ExportOptions& options) {
  verb.add_option("job", options.job, "The job file")->required();
  verb.add_option("--out", options.out,
                  "The .glb (glTF, metres) or .obj (millimetres) to write, or .svg (the walls' elevations)")
      ->required();
}

void describePractice(CLI::App& verb, PracticeOptions& options) {
  verb.add_option("practice", options.name, "Its name (au, nz, uk, us), or a practice file of your own")->required();
  verb.add_flag("--json", options.json, "As one JSON object on standard output");
}

void describeSheets(CLI::App& verb, SheetsOptions& options) {
  verb.add_option("job", options.job, "The job file")->required();
  verb.add_option("--out", options.out, "The .pdf to write, or .svg or .png (a file a page)")->required();
  auto* opening = verb.add_option("--opening", options.opening, "Only the sheets of this opening");
  verb.add_option("--wall", options.wall, "Only the elevation of this wall")->excludes(opening);
  verb.add_flag("--records", options.records, "Blank record sheets for openings that are not set yet");
}

#ifdef SILLWRIGHT_VIEWER

using sillwright::cli::PictureOptions;
using sillwright::cli::ViewOptions;

void describePicture(CLI::App& verb, PictureOptions& options) {
  verb.add_option("job", options.job, "The job file")->required();
  verb.add_option("--out", options.out, "The PNG to write")->required();
  verb.add_option("--opening", options.opening, "The opening to look at, by name");
  verb.add_option("--view", options.view,
                  "house, outside, inside, above, left end, right end; of an opening also head, sill, jamb, corner")
      ->capture_default_str();
  verb.add_option("--size", options.size, "Width and height in pixels")->capture_default_str();
  verb.add_option("--hide", options.hide, "Layers to leave out, by name (cladding, lining; or the practice's own word)")
      ->delimiter(',');
  verb.add_option("--spread", options.spread, "Pull the layers apart by this many mm")->check(within(0, 2000));
  verb.add_option("--cut", options.cut,
                  "Cut by a plane, mm in the wall's axes: x=1200 along the wall, y=45 into the building, z=900 up; the "
                  "near side is left out. Without --opening, in the axes of the floor plan");
  verb.add_option("--step", options.step, "The work after this many steps of the opening's order of work");
  verb.add_flag("--water", options.water, "Where the water runs over membrane and flashings");
  verb.add_option(
      "--what-if", options.what_if,
      "Where the water would run: 'swap A, B'; 'without A'; 'without step S'; 'shorten A 40'; several with ';'");
  verb.add_option("--magnify", options.magnify,
                  "Draw gaps and out-of-square this many times as large; figures stay true")
      ->check(within(1, 20));
  verb.add_flag("--panels", options.panels, "The viewer's whole screen, with its panels");
  verb.add_flag("--dark", options.dark, "On a dark ground");
  verb.add_flag("--bare", options.bare, "Without labels, dimensions and title");
}

/// Whether a window could be opened; it may still be refused.
bool hasDisplay() {
  const auto told = [](const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && *value != '\0';
  };
  return told("DISPLAY") || told("WAYLAND_DISPLAY");
}

/// The verbs that draw with OpenGL: a picture, and without a word the viewer.
struct DrawingVerbs {
  CLI::App* picture_verb = nullptr;
  PictureOptions picture;
  ViewOptions view;

  explicit DrawingVerbs(CLI::App& app) {
    picture_verb = app.add_subcommand("picture", "Draw a job into a PNG, without a window");
    describePicture(*picture_verb, picture);
    // After the verbs: CLI11 2.4 takes it for the same as a verb's --job that is added later, and refuses that.
    app.add_option("job", view.job, "A job file to open in the viewer");
  }
  /// The exit status; empty: the help is wanted.
  [[nodiscard]] std::optional<int> run() const {
    if (picture_verb->parsed()) return sillwright::cli::picture(picture);
    if (view.job.empty() && !hasDisplay()) return std::nullopt;
    return sillwright::cli::viewer(view);
  }
};

#else

/// This program was built without the viewer.
struct DrawingVerbs {
  explicit DrawingVerbs(CLI::App&) {}
  [[nodiscard]] static std::optional<int> run() { return std::nullopt; }
};

#endif

int run(int argc, char** argv) {
  CLI::App app{kAbout, "sillwright"};
  app.footer(kFooter);
  app.set_version_flag("--version", std::string("sillwright ") + sillwright::cli::version());
  SheetsOptions sheets;
  StepsOptions steps;
  CheckOptions check;
  ListOptions list;
  ScheduleOptions schedule;
  ExportOptions model;
  PracticeOptions practice;
  auto* check_verb =
      app.add_subcommand("check", "Check a job: each opening's verdict, clearance to spare, why, and what to do");
  auto* sheets_verb = app.add_subcommand("sheets", "Drawings on paper: walls, openings, measure and record sheets");
  auto* steps_verb = app.add_subcommand("steps", "The order of work, opening by opening or for a crew");
  describeSteps(*steps_verb, steps);
  describeSheets(*sheets_verb, sheets);
  auto* list_verb = app.add_subcommand("list", "What to order, to buy and to cut: on screen, as CSV or as a workbook");
  describeList(*list_verb, list);
  auto* schedule_verb = app.add_subcommand("schedule", "Turn a window schedule (CSV, workbook) into openings of a job");
  describeSchedule(*schedule_verb, schedule);
  auto* export_verb = app.add_subcommand("export", "Write the model for other programs: glTF, OBJ, SVG elevations");
  describeExport(*export_verb, model);
  describeCheck(*check_verb, check);
  auto* practice_verb =
      app.add_subcommand("practice", "Every figure of a rule set: its source, how well it is known, and what uses it");
  describePractice(*practice_verb, practice);
  const DrawingVerbs drawing(app);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    std::ostringstream answer;
    const bool asked = app.exit(error, answer, std::cerr) == 0;  // for help, or the version
    const bool told = sillwright::cli::printAll(answer.str());
    return asked && told ? sillwright::cli::kReady : sillwright::cli::kUnreadable;
  }
  if (check_verb->parsed()) return sillwright::cli::check(check);
  if (steps_verb->parsed()) return sillwright::cli::steps(steps);
  if (list_verb->parsed()) return sillwright::cli::list(list);
  if (schedule_verb->parsed()) return sillwright::cli::schedule(schedule);
  if (export_verb->parsed()) return sillwright::cli::exportModel(model);
  if (practice_verb->parsed()) return sillwright::cli::practiceFigures(practice);
  if (sheets_verb->parsed()) return sillwright::cli::sheets(sheets);
  if (const auto status = drawing.run()) return *status;
  static_cast<void>(sillwright::cli::printAll(app.help()));
  return sillwright::cli::kUnreadable;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::bad_alloc&) {
    std::fputs("sillwright: there is not enough memory for this job.\n", stderr);
    return sillwright::cli::kUnreadable;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "sillwright: %s\n", error.what());
    return sillwright::cli::kUnreadable;
  }
}
