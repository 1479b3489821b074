// The program: one word says what is asked, and the machine's refusals end here in one sentence.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <functional>
#include <iostream>
#include <memory>
#include <new>
#include <optional>
#include <sstream>
#include <string>
#include <system_error>
#include <vector>

#include "base/words.h"
#include "base/write_file.h"
#include "cli/completion.h"
#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "exchange/schedule.h"

namespace sillwright::cli {
namespace {

constexpr const char* kAbout =
    "Sillwright: does the window fit, where does it go, what packs it and what holds it, and why.\n"
    "A job file gives walls, openings, units and site measurements, in millimetres; the demo jobs explain the format.\n"
    "All results are indicative: local codes, the unit maker's instructions and licensed trades come first.";

constexpr const char* kFooter =
    "Exit status: 0 every opening is ready or needs attention; 1 an opening or a wall says stop;\n"
    "2 the job, its practice or the command could not be read.\n"
    "'sillwright house.toml' opens the viewer on a job; 'sillwright' alone offers jobs to open.";

/// A number from `least` to `most`. CLI::Range lets what is not a number through: it is neither below nor above.
CLI::Validator within(double least, double most) {
  const auto said = [](double number) { return (std::ostringstream() << number).str(); };
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
  verb.add_option("jobs", options.jobs, "The job file, or several")->required();
  auto* opening = verb.add_option("--opening", options.opening, "Only this opening");
  verb.add_flag("--json", options.json, "As one JSON object on standard output, of one job")->excludes(opening);
  verb.add_flag("--quiet", options.quiet, "Print nothing; the exit status tells");
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

/// What a table of another program may leave to be told.
template <class Options>
void addTableOptions(CLI::App& verb, Options& options) {
  verb.add_option("--map", options.map,
                  "What a column or a word of theirs means: \"Their name=ours\"; nothing after = passes it over")
      ->take_all();
  verb.add_option("--unit", options.unit, "Unit of lengths that name none")
      ->check(CLI::IsMember({"mm", "cm", "m", "in", "ft"}));
  verb.add_option("--sheet", options.sheet, "The sheet of a workbook");
}

void describeSchedule(CLI::App& verb, ScheduleOptions& options) {
  verb.footer(wrapped(exchange::describeColumns(), 100, 0));
  verb.add_option("file", options.file, "The schedule: CSV of any kind, or a workbook (.xlsx)")->required();
  verb.add_flag("--show", options.show, "Only print how each column is understood, and what is asked");
  addTableOptions(verb, options);
  verb.add_option("--set", options.set, "What holds for all rows that say nothing: \"sill=900\"")->take_all();
  verb.add_flag("--side-by-side", options.side_by_side, "Set openings whose place isn't told one after the other");
  verb.add_option("--wall", options.wall, "The wall of openings whose rows name none");
  verb.add_option("--job", options.job, "The job to add the openings to: its walls, and its text before them");
  verb.add_option("--practice", options.practice, "The rule set whose usual gaps tell the size that isn't told");
  verb.add_option("--out", options.out, "The job file to write; without it, on standard output");
}

void describeImport(CLI::App& verb, ImportOptions& options) {
  verb.add_option("model", options.file, "The building model: IFC 2x3 or IFC 4 (.ifc)")->required();
  verb.add_option("--out", options.out, "The job file to write")->required();
  verb.add_option("--practice", options.practice, "The rule set that the job is to work by")->capture_default_str();
}

void describeMeasure(CLI::App& verb, MeasureOptions& options) {
  verb.add_option("job", options.job, "The job file")->required();
  auto* file =
      verb.add_option("file", options.file, "The measurements: CSV or a workbook with opening, reading and value");
  verb.add_option("--form", options.form, "Write the empty form, .csv or .xlsx, with the planned values")
      ->excludes(file);
  verb.add_flag("--record", options.record, "The form of the record sheet: the units again, once they are set");
  verb.add_flag("--yes", options.yes, "Write into the job without asking");
  verb.add_option("--by", options.by, "What openings that had no measurements were read with")
      ->check(CLI::IsMember({"tape", "laser"}));
  addTableOptions(verb, options);
}

void describeDiff(CLI::App& verb, DiffOptions& options) {
  verb.footer("Exit status: 0 nothing has changed; 1 something has; 2 a job could not be read.");
  verb.add_option("old", options.before, "The job file as it was")->required();
  verb.add_option("new", options.job, "The job file as it is")->required();
}

void describeExport(CLI::App& verb, ExportOptions& options) {
  verb.add_option("job", options.job, "The job file")->required();
  verb.add_option("--out", options.out,
                  "What to write: .glb (glTF, metres), .obj or .ifc (millimetres), .dxf (floor plan and elevations), "
                  ".svg (all sheets, a file a page), or .html (the whole job in one page for a phone, which judges and "
                  "measures "
                  "without a network)")
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

void describeExercise(CLI::App& verb, ExerciseOptions& options) {
  verb.footer("Exit status: 0 it can be set; 2 it could not be read, or its job doesn't have what it asks for.");
  verb.add_option("file", options.file, "The exercise's file; 'sillwright FILE' sets it in the viewer")->required();
}

struct CompletionOptions {
  std::string shell;
};

void describeCompletion(CLI::App& verb, CompletionOptions& options) {
  verb.footer(
      "bash: source <(sillwright completion bash); zsh: the same, after compinit;\n"
      "fish: sillwright completion fish | source");
  verb.add_option("shell", options.shell, "The shell")->required()->check(CLI::IsMember({"bash", "zsh", "fish"}));
}

/// What a word in braces in an option's type allows: "TEXT:{mm,cm}".
std::vector<std::string> choicesIn(const std::string& type) {
  std::vector<std::string> choices;
  const auto open = type.find('{');
  const auto close = type.find('}', open);
  for (auto from = open; from < close && close != std::string::npos;) {
    const auto to = std::min(type.find(',', from + 1), close);
    choices.push_back(type.substr(from + 1, to - from - 1));
    from = to;
  }
  return choices;
}

/// The verbs with what they do: the one description from which parsing, help, completion and manual pages follow.
class Verbs {
 public:
  explicit Verbs(CLI::App& app) : app_(app) {}

  template <class Options, class Run>
  void add(const char* name, const char* about, void (*describe)(CLI::App&, Options&), Run work) {
    CLI::App* verb = app_.add_subcommand(name, about);
    auto options = std::make_shared<Options>();
    describe(*verb, *options);
    verbs_.push_back({verb, [options, work] { return work(*options); }});
    if constexpr (requires { options->how; }) {
      verb->add_option("--practice", options->how.practice, "The rule set to work by in place of the job's");
      verb->add_flag("--watch", options->how.watch, "Again whenever the job's file changes, until Ctrl C");
      verbs_.back().run = [options, work] {
        if (!options->how.watch) return work(*options);
        return watched(jobsOf(*options), [&] { return work(*options); });
      };
    }
  }

  /// Runs the verb that was parsed; empty: none was.
  [[nodiscard]] std::optional<int> run() const {
    for (const auto& verb : verbs_) {
      if (verb.app->parsed()) return verb.run();
    }
    return std::nullopt;
  }

  [[nodiscard]] std::vector<VerbWords> words() const {
    std::vector<VerbWords> all;
    for (const auto& verb : verbs_) {
      all.push_back({verb.app->get_name(), verb.app->get_description(), {}});
      for (const CLI::Option* option : verb.app->get_options()) {
        if (option->get_lnames().empty()) continue;
        const bool value = option->get_items_expected_max() > 0;
        all.back().options.push_back({"--" + option->get_lnames().front(), option->get_description(), value,
                                      choicesIn(option->get_type_name())});
      }
    }
    return all;
  }

 private:
  template <class Options>
  static std::vector<std::filesystem::path> jobsOf(const Options& options) {
    if constexpr (requires { options.jobs; })
      return options.jobs;
    else
      return {options.job};
  }

  struct Verb {
    CLI::App* app;
    std::function<int()> run;
  };
  CLI::App& app_;
  std::vector<Verb> verbs_;
};

#ifdef SILLWRIGHT_VIEWER

void describePicture(CLI::App& verb, PictureOptions& options) {
  verb.add_option("job", options.job, "The job file")->required();
  verb.add_option("--out", options.out, "The PNG to write")->required();
  verb.add_option("--opening", options.opening, "The opening to look at, by name");
  verb.add_option("--view", options.view,
                  "house, outside, inside, above, left end, right end; of an opening also head, sill, jamb, corner; "
                  "without it the house, or where a step is best seen");
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
  verb.add_flag("--panels", options.panels, "The viewer's whole screen, with its panels, under the job's own rule set");
  verb.add_flag("--dark", options.dark, "On a dark ground");
  verb.add_flag("--bare", options.bare, "Without labels, dimensions and title");
}

void describeFilm(CLI::App& verb, FilmOptions& options) {
  verb.footer("The film is packed by the program ffmpeg, which has to be installed.");
  verb.add_option("job", options.job, "The job file")->required();
  verb.add_option("--out", options.out, "The .webm, .mp4 or .gif to write")->required();
  verb.add_option("--opening", options.opening, "The opening whose order of work it shows")->required();
  verb.add_option("--steps", options.steps, "Only these, 4-8 say");
  verb.add_option("--size", options.size, "Width and height in pixels, even numbers")->capture_default_str();
  verb.add_option("--fps", options.fps, "Pictures a second; without it 25, of a gif 10")->check(within(1, 60));
  verb.add_option("--pace", options.pace, "How fast it plays: 1 as fast as the cards are read, 2 twice as fast")
      ->check(within(0.25, 4))
      ->capture_default_str();
  verb.add_flag("--dark", options.dark, "On a dark ground");
}

void describeHandbook(CLI::App& verb, HandbookOptions& options) {
  verb.add_option("job", options.job, "The job file")->required();
  verb.add_option("--out", options.out, "The .pdf to write")->required();
  auto* opening = verb.add_option("--opening", options.opening, "The steps of this opening");
  verb.add_flag("--crew", options.crew, "The whole job in the crew's order, steps that are alike once")
      ->excludes(opening);
  verb.add_option("--paper", options.paper, "Size of the pages")
      ->check(CLI::IsMember({"a4", "letter"}))
      ->capture_default_str();
}

/// Whether a window could be opened; it may still be refused.
bool hasDisplay() {
  const auto told = [](const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && *value != '\0';
  };
  return told("DISPLAY") || told("WAYLAND_DISPLAY");
}

/// Adds the verbs that draw with OpenGL, and the viewer, which is what a job alone asks for. Empty: help is wanted.
std::function<std::optional<int>()> addDrawing(CLI::App& app, Verbs& verbs) {
  verbs.add("picture", "Draw a job into a PNG, without a window", describePicture, picture);
  verbs.add("film", "The order of work as a film (WebM, MP4, GIF)", describeFilm, film);
  verbs.add("handbook", "The order of work on paper, a picture a step", describeHandbook, handbook);
  auto job = std::make_shared<std::filesystem::path>();
  // After the verbs: CLI11 2.4 takes it for the same as a verb's --job that is added later, and refuses that.
  app.add_option("job", *job, "A job file, or an exercise, to open in the viewer");
  return [job]() -> std::optional<int> {
    if (job->empty() && !hasDisplay()) return std::nullopt;
    return viewer(*job);
  };
}

#else

/// This program was built without the viewer.
std::function<std::optional<int>()> addDrawing(CLI::App&, Verbs&) {
  return [] { return std::optional<int>(); };
}

#endif

template <class Named>
std::string nearestOf(const std::string& name, const std::vector<Named>& all) {
  std::vector<std::string_view> known;
  for (const Named& each : all) known.push_back(each.name);
  return std::string(base::nearest(name, known));
}

/// A misspelt verb is no job to open, and a misspelt option has a name that is near to it.
std::string meant(const CLI::App& app, const Verbs& verbs, const std::vector<std::string>& words) {
  if (words.empty()) return {};
  std::error_code failed;
  const std::vector<VerbWords> known = verbs.words();
  const auto verb = std::find_if(known.begin(), known.end(), [&](const auto& each) { return each.name == words[0]; });
  if (verb == known.end()) {
    if (words[0].starts_with('-') || std::filesystem::exists(words[0], failed)) return {};
    const auto near = nearestOf(words[0], known);
    return near.empty() ? "" : "there is no verb and no file '" + words[0] + "'; did you mean " + near + "?";
  }
  for (const std::string& word : words) {
    const std::string option = word.substr(0, word.find('='));
    if (!option.starts_with("--") || app.get_subcommand(verb->name)->get_option_no_throw(option) != nullptr) continue;
    if (const auto near = nearestOf(option, verb->options); !near.empty())
      return verb->name + " has no " + option + "; did you mean " + near + "?";
  }
  return {};
}

int run(int argc, char** argv) {
  CLI::App app{kAbout, "sillwright"};
  app.footer(kFooter);
  app.set_version_flag("--version", std::string("sillwright ") + version());
  Verbs verbs(app);
  verbs.add("check", "Check a job: each opening's verdict, clearance to spare, why, and what to do", describeCheck,
            check);
  verbs.add("sheets", "Drawings on paper: walls, openings, measure and record sheets", describeSheets, sheets);
  verbs.add("steps", "The order of work, opening by opening or for a crew", describeSteps, steps);
  verbs.add("list", "What to order, to buy and to cut: on screen, as CSV or as a workbook", describeList, list);
  verbs.add("schedule", "Turn a window schedule (CSV, workbook) into openings of a job", describeSchedule, schedule);
  verbs.add("import", "Turn the walls, windows and doors of a building model (IFC) into a job", describeImport,
            importModel);
  verbs.add("measure", "Put measurements of a log or a form into a job, or write the form", describeMeasure, measure);
  verbs.add("diff", "What changed between two revisions of a job: verdicts, units to order, cuts", describeDiff, diff);
  verbs.add("export", "Write the job for other programs: models (glTF, OBJ, IFC) and drawings (DXF, SVG)",
            describeExport, exportModel);
  verbs.add("practice", "Every figure of a rule set: its source, how well it is known, and what uses it",
            describePractice, practiceFigures);
  verbs.add("exercise", "Check an exercise for trainees, and say what it asks with the right answers", describeExercise,
            exercise);
  verbs.add("completion", "Completion of verbs and options for a shell", describeCompletion, [&](const auto& options) {
    return printAll(completionFor(options.shell, verbs.words())) ? kReady : kUnreadable;
  });
  const auto view = addDrawing(app, verbs);
  if (const std::string say = meant(app, verbs, {argv + 1, argv + argc}); !say.empty()) return refuse(say);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    std::ostringstream answer;
    const bool asked = app.exit(error, answer, std::cerr) == 0;  // for help, or the version
    const bool told = printAll(answer.str());
    return asked && told ? kReady : kUnreadable;
  }
  if (const auto status = verbs.run()) return *status;
  if (const auto status = view()) return *status;
  static_cast<void>(printAll(app.help()));
  return kUnreadable;
}

}  // namespace
}  // namespace sillwright::cli

int main(int argc, char** argv) {
  sillwright::base::removeTemporariesOnSignals();
  try {
    return sillwright::cli::run(argc, argv);
  } catch (const std::bad_alloc&) {
    return sillwright::cli::refuse("there is not enough memory for this job.");
  } catch (const std::exception& error) {
    return sillwright::cli::refuse(error.what());
  }
}
