// The program: one word says what is asked, and the machine's refusals end here in one sentence.

#include <CLI/CLI.hpp>
#include <algorithm>
#include <charconv>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <memory>
#include <new>
#include <sstream>
#include <system_error>
#include <type_traits>

#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#ifdef SILLWRIGHT_VIEWER
#include "cli/drawing_verbs.h"
#endif

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

struct CompletionOptions {
  std::string shell;

  void describe(auto& verb) {
    verb.footer(
        "bash: source <(sillwright completion bash); zsh: the same, after compinit;\n"
        "fish: sillwright completion fish | source");
    verb("shell", shell, "The shell", {"bash", "zsh", "fish"})->required();
  }
};

/// A verb while its options describe themselves: told to the parser, and noted for completion.
class Verb {
 public:
  Verb(CLI::App& app, VerbWords& words) : app_(app), words_(words) {}

  /// "--name", or the name of what stands in its place. A flag where it is a bool.
  template <class Value>
  CLI::Option* operator()(const char* name, Value& value, const char* about, std::vector<std::string> choices = {}) {
    constexpr bool flag = std::is_same_v<Value, bool>;
    CLI::Option* option = nullptr;
    if constexpr (flag)
      option = app_.add_flag(name, value, about);
    else
      option = app_.add_option(name, value, about);
    if (!choices.empty()) option->check(CLI::IsMember(choices));
    if constexpr (std::is_arithmetic_v<Value> || std::is_same_v<Value, std::string>) {
      if (!flag && value != Value{}) option->capture_default_str();  // an empty default isn't told
    }
    if (*name == '-') words_.options.push_back({name, about, !flag, std::move(choices)});  // positionals aren't listed
    return option;
  }

  /// A number from `least` to `most`. CLI::Range lets what is not a number through: it is neither below nor above.
  static CLI::Validator within(double least, double most) {
    const auto said = [](double number) { return (std::ostringstream() << number).str(); };
    const std::string range = said(least) + " to " + said(most);
    const auto wrong = [=](const std::string& text) -> std::string {
      double number = 0;
      const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);  // in any locale
      const bool whole = error == std::errc{} && end == text.data() + text.size();
      if (whole && number >= least && number <= most) return {};
      return "must be a number from " + range + "; found '" + text + "'";
    };
    return {wrong, range};
  }

  void footer(const std::string& text) { app_.footer(wrapped(text, 100, 0)); }
  /// One that is made when it is asked for.
  void footer(std::string (*text)()) {
    app_.footer("");  // else the program's own stands below it
    app_.footer([text] {
      std::string said = wrapped(text(), 100, 0);
      said.pop_back();  // the parser ends the line
      return said;
    });
  }

 private:
  CLI::App& app_;
  VerbWords& words_;
};

/// The verbs with what they do: the one description from which parsing, help, completion and manual pages follow.
class Verbs {
 public:
  explicit Verbs(CLI::App& app) : app_(app) {}

  template <class Options>
  void add(const char* name, const char* about, std::function<int(const Options&)> work) {
    CLI::App* app = app_.add_subcommand(name, about);
    const CLI::Option* help = app->get_help_ptr();
    words_.push_back({name, about, {{help->get_name(), help->get_description(), false, {}}}});
    Verb verb(*app, words_.back());
    auto options = std::make_shared<Options>();  // lives as long as the callback that reads it
    if constexpr (requires { options->job; }) verb("job", options->job, "The job file")->required();
    options->describe(verb);
    app->callback([this, options, work] {
      const auto once = [&] {
        const Progress so_far;  // tells how long it takes, until the answer
        return work(*options);
      };
      if constexpr (requires { options->how; })
        status_ = options->how.watch ? watched(jobsOf(*options), once) : once();
      else
        status_ = once();
    });
    if constexpr (requires { options->how; }) options->how.describe(verb);  // after the verb's own in the help
  }

  /// What the verb that was parsed answered; empty: none was.
  [[nodiscard]] std::optional<int> status() const { return status_; }
  [[nodiscard]] const std::vector<VerbWords>& words() const { return words_; }

 private:
  template <class Options>
  static std::vector<std::filesystem::path> jobsOf(const Options& options) {
    if constexpr (requires { options.jobs; })
      return options.jobs;
    else if constexpr (requires { options.before; })
      return {options.before, options.now};
    else
      return {options.job};
  }

  CLI::App& app_;
  std::vector<VerbWords> words_;
  std::optional<int> status_;
};

#ifdef SILLWRIGHT_VIEWER

/// Whether a window could be opened; it may still be refused.
bool hasDisplay() {
  const auto told = [](const char* name) { return std::getenv(name) != nullptr && *std::getenv(name) != '\0'; };
  return told("DISPLAY") || told("WAYLAND_DISPLAY");
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
  std::error_code failed;  // a file that can't be asked about isn't there
  const std::vector<VerbWords>& known = verbs.words();
  const auto verb = std::find_if(known.begin(), known.end(), [&](const auto& each) { return each.name == words[0]; });
  if (verb == known.end()) {
    if (words[0].starts_with('-') || std::filesystem::exists(words[0], failed)) return {};  // an option, or a job
    const auto near = nearestOf(words[0], known);
    return near.empty() ? "" : "there is no verb and no file '" + words[0] + "'; did you mean " + near + "?";
  }
  for (const std::string& word : words) {
    const std::string option = word.substr(0, word.find('='));  // without its value
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
  verbs.add<CheckOptions>("check", "Check a job: each opening's verdict, clearance to spare, why, and what to do",
                          check);
  verbs.add<SheetsOptions>("sheets", "Drawings on paper: walls, openings, measure and record sheets", sheets);
  verbs.add<StepsOptions>("steps", "The order of work, opening by opening or for a crew", steps);
  verbs.add<ListOptions>("list", "What to order, to buy and to cut: on screen, as CSV or as a workbook", list);
  verbs.add<ScheduleOptions>("schedule", "Turn a window schedule (CSV, workbook) into openings of a job", schedule);
  verbs.add<ImportOptions>("import", "Turn the walls, windows and doors of a building model (IFC) into a job",
                           importModel);
  verbs.add<MeasureOptions>("measure", "Put measurements of a log or a form into a job, or write the form", measure);
  verbs.add<DiffOptions>("diff", "What changed between two revisions of a job: verdicts, units to order, cuts", diff);
  verbs.add<ExportOptions>(
      "export", "Write the job for other programs: models (glTF, OBJ, IFC) and drawings (DXF, SVG)", exportModel);
  verbs.add<PracticeOptions>(
      "practice", "Every figure of a rule set: its source, how well it is known, and what uses it", practiceFigures);
  verbs.add<ExerciseOptions>("exercise", "Check an exercise for trainees, and say what it asks with the right answers",
                             exercise);
  verbs.add<CompletionOptions>("completion", "Completion of verbs and options for a shell", [&](const auto& options) {
    printAll(completionFor(options.shell, verbs.words()));
    return kReady;
  });
#ifdef SILLWRIGHT_VIEWER
  verbs.add<PictureOptions>("picture", "Draw a job into a PNG, without a window", picture);
  verbs.add<FilmOptions>("film", "The order of work as a film (WebM, MP4, GIF)", film);
  verbs.add<HandbookOptions>("handbook", "The order of work on paper, a picture a step", handbook);
  std::filesystem::path job;
  // After the verbs: CLI11 2.4 takes it for the same as a verb's --job that is added later, and refuses that.
  app.add_option("job", job, "A job file, or an exercise, to open in the viewer");
#endif
  if (const std::string say = meant(app, verbs, {argv + 1, argv + argc}); !say.empty()) refuse(say);
  try {
    app.parse(argc, argv);  // which runs the verb
  } catch (const CLI::ParseError& error) {
    std::ostringstream answer;
    const bool asked = app.exit(error, answer, std::cerr) == 0;  // for help, or the version
    printAll(answer.str());
    return asked ? kReady : kUnreadable;
  }
  if (const auto status = verbs.status()) return *status;
#ifdef SILLWRIGHT_VIEWER
  if (!job.empty() || hasDisplay()) return viewer(job);  // without a job it offers jobs to open
#endif
  printAll(app.help());
  return kUnreadable;
}

}  // namespace
}  // namespace sillwright::cli

int main(int argc, char** argv) {
  using namespace sillwright;
  base::removeTemporariesOnSignals();  // before the first of them is made
  try {
    return cli::answerOf([&] { return cli::run(argc, argv); });
  } catch (const std::bad_alloc&) {
    cli::tell("there is not enough memory for this job.");
  } catch (const std::exception& error) {
    cli::tell(error.what());
  }
  return cli::kUnreadable;
}
