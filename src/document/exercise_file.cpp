#include "document/exercise_file.h"

#include <algorithm>
#include <array>
#include <map>

#include "base/words.h"
#include "base/write_file.h"
#include "check/judge.h"
#include "document/lesson.h"
#include "job/toml_table.h"
#include "plan/survey/asked_readings.h"
#include "practice/read.h"
#include "words/text.h"

namespace sillwright::document {
namespace {

using base::quote;
using plan::StepKind;

constexpr std::size_t kFaultsOffered = 8;  // with those that are right

struct Root {  // the whole file: one table
  ExerciseFile exercise;
  static void describe(auto& keys) { keys("exercise", &Root::exercise, job::table(), "The exercise."); }
};

/// Makes the parts of a task, and notes what the job doesn't have.
struct TaskMaker {
  const ExerciseFile& file;
  const Document& document;
  std::uint32_t round;
  std::size_t opening = 0;
  Task task{file.title, file.asked, file.level, {}, {}, {}, {}};
  std::vector<base::Error> errors = {};

  void make() {
    const std::int32_t index = indexOf(document.job.openings, file.opening);
    if (index < 0) {
      return wrong(file.opening_place, "opening",
                   "the job has no opening " + quote(file.opening) + "; it has " +
                       base::joined(document.job.openings, ", ", &job::Opening::name));
    }
    opening = static_cast<std::size_t>(index);
    refuseOthers();
    if (file.level == Level::Order) order();
    if (file.level == Level::Laps) laps();
    if (file.level == Level::Judge) questions();
  }

  void wrong(base::Place at, const std::string& key, std::string say) {
    errors.push_back({file.path.string(), at, "exercise." + key, std::move(say)});
  }

  [[nodiscard]] const plan::OpeningPlan& planned() const { return document.plan.openings[opening]; }

  /// Notes keys that belong to another level, and keys that this level needs and lacks.
  void refuseOthers() {
    const std::array there{!file.cards.empty() || !file.start.empty(), !file.wrong.empty(), !file.questions.empty()};
    constexpr std::array kKeys{"cards", "wrong", "question"};  // by level; without cards all of the opening's are taken
    for (std::size_t i = 0; i < there.size(); ++i) {
      const std::string of = "an exercise of level " + quote(kLevelWords[i]);
      const bool own = file.level == static_cast<Level>(i);
      if (there[i] && !own) wrong(file.place, kKeys[i], "belongs to " + of);
      if (!there[i] && own && i > 0) wrong(file.place, kKeys[i], "is missing: " + of + " needs it");
    }
  }

  void order() {
    const auto word = [](StepKind kind) { return plan::toWord(kind); };
    const std::vector<StepKind> here = plan::stepsAt(planned());
    for (const StepKind card : file.cards) {
      if (plan::stepNumber(here, card) > 0) continue;  // 0 would mean that it isn't there
      wrong(file.cards_place, "cards",
            "there is no step " + quote(plan::toWord(card)) + " at " + file.opening + "; it has " +
                base::joined(here, ", ", word));
    }
    task.steps = plan::orderOfWork(document.job, document.plan, opening, *document.practice);
    std::erase_if(task.steps, [&](const plan::Step& step) {  // without named cards all stay
      return !file.cards.empty() && plan::stepNumber(file.cards, step.kind) == 0;
    });
    std::vector<StepKind> right;  // its reverse breaks every rule that there is
    for (const plan::Step& step : task.steps) right.push_back(step.kind);
    if (plan::orderFaults(std::vector<StepKind>(right.rbegin(), right.rend())).empty()) {
      return wrong(file.cards_place, "cards", "can be done in any order: nothing is left to find out");
    }
    task.start = file.start;
    if (!file.start.empty() && !std::is_permutation(file.start.begin(), file.start.end(), right.begin(), right.end())) {
      return wrong(file.start_place, "start", "must have each of the cards once: " + base::joined(right, ", ", word));
    }
    if (!file.start.empty() && plan::orderFaults(file.start).empty()) {
      return wrong(file.start_place, "start", "can be done as it lies: nothing is left to find out");
    }
    for (std::uint32_t more = 0; plan::orderFaults(task.start).empty(); ++more) {  // an empty one has none
      task.start = shuffled(right, round * 1'000 + more);                          // two rounds try no number in common
    }
  }

  void laps() {
    const plan::Skin& skin = planned().weather.skin;
    for (const std::string& text : file.wrong) {
      const auto read = plan::parseWhatIf(text);
      const auto done = read.ok() ? plan::applyWhatIf(skin, *read.value) : base::Result<plan::Skin>{{}, read.errors};
      if (!done.ok()) wrong(file.wrong_place, "wrong", quote(text) + ": " + done.errors.front().say);
      if (done.ok()) task.wrong.push_back(*read.value);
    }
    if (!plan::applyWhatIf(skin, task.wrong).ok()) wrong(file.wrong_place, "wrong", "can't all be done at once");
    if (errors.empty()) offerFaults(skin);  // it asks that all can be done
  }

  /// What was done wrong among other things that could have been; nothing else is asked about the same pieces, or about
  /// the cladding, which is left off.
  void offerFaults(const plan::Skin& skin) {
    Lesson lesson;
    lesson.opening = static_cast<std::int32_t>(opening);
    std::vector<Choice> choices = teach(document, lesson).choices;
    std::mt19937 bits(round + 1);
    deal(choices, bits);
    Question question{"What is wrong with this wall? Pick all of it.", {}, {}, true};
    std::string done_to;                              // all that was done, in words that name the sheets
    for (const plan::WhatIf& what_if : task.wrong) {  // each fault is explained as if it were the only one
      const plan::Skin done = *plan::applyWhatIf(skin, what_if).value;
      done_to += plan::toText(what_if) + "\n";
      question.options.push_back({plan::toText(what_if), true, plan::explain(plan::traceWater(done), done)});
      for (const Choice& choice : choices) {
        if (choice.what_if == what_if) question.options.back().words = choice.words;
      }
    }
    for (const Choice& choice : choices) {
      const bool touched = std::any_of(skin.sheets.begin(), skin.sheets.end(), [&](const plan::Sheet& sheet) {
        const bool apart = sheet.kind != plan::SheetKind::Cladding && done_to.find(sheet.name) == std::string::npos;
        return !apart && choice.words.find(sheet.name) != std::string::npos;
      });
      if (touched || question.options.size() >= kFaultsOffered) continue;  // it might be wrong too, or not be seen
      question.options.push_back({choice.words, false, "that was done right."});
    }
    deal(question.options, bits);  // or the right ones would all come first
    task.questions.push_back(std::move(question));
  }

  void questions() {
    for (std::size_t i = 0; i < file.questions.size(); ++i) {
      const FileQuestion& asked = file.questions[i];
      const std::string key = "question[" + std::to_string(i) + "]";
      const bool own = asked.right && *asked.right <= static_cast<int>(asked.answers.size());
      const bool of_packers = asked.side && asked.packer;
      const bool of_misread =
          !asked.side && !asked.packer && !asked.right && asked.answers.empty() && file.misread && file.read_as;
      task.questions.push_back({asked.asks, {}, {}});  // a wrong one too, so that all mistakes are told
      if (int{own} + int{of_packers} + int{of_misread} != 1) {
        wrong(
            asked.place, key,
            "must have either side and packer, or answers and which of them is right, from 1; or none of these, where "
            "the exercise has misread and read_as");
      }
      if (own) offerOwn(asked, task.questions.back());
      if (of_packers) offerStacks(asked, key, task.questions.back());
      if (of_misread) offerReadings(*file.misread, task.questions.back());
    }
  }

  static void offerOwn(const FileQuestion& asked, Question& question) {
    for (const std::string& words : asked.answers) {
      const bool right = *asked.right == static_cast<int>(question.options.size()) + 1;  // the file counts from 1
      question.options.push_back({words, right, (right ? "right. " : "no. ") + asked.why.value_or("")});
    }
  }

  /// Which reading is wrong; it must be one that the others give away.
  void offerReadings(job::TapeReading misread, Question& question) {
    job::Job job = document.job;  // only this copy is misread
    std::optional<job::Measured>& measured = job.openings[opening].measured;
    if (!valueOf(measured, misread)) return wrong(file.misread_place, "misread", "was not measured there");
    setValue(measured, misread, file.read_as);
    const plan::Plan plan = plan::makePlan(job, *document.practice);
    const plan::AsBuilt& built = plan.openings[opening].as_built;  // findings tell its suspect first
    if (built.trust != plan::Trust::Suspect || !plan::isSuspect(built, misread)) {
      return wrong(file.misread_place, "read_as", "the others don't give this figure away: nobody could find it");
    }
    const std::string why = check::judge(job, *document.practice, plan).openings[opening].front().say;
    for (std::size_t i = 0; i < job::kTapeReadings; ++i) {
      const auto reading = static_cast<job::TapeReading>(i);
      const auto value = valueOf(measured, reading);
      const bool right = reading == misread;
      if (!value) continue;
      question.options.push_back({job::infoOf(reading).name + (" " + words::length(*value, document.practice->display)),
                                  right, right ? why : "this one agrees with the others."});
    }
  }

  /// Which stack goes in at a place: the one that does, and some that are too thick or too thin.
  void offerStacks(const FileQuestion& asked, const std::string& key, Question& question) {
    std::vector<plan::PackingPoint> points = planned().packing.points;
    std::erase_if(points, [&](const auto& each) { return each.side != *asked.side || each.stack.pieces == 0; });
    if (*asked.packer > static_cast<int>(points.size())) {
      return wrong(asked.place, key + ".packer", "that side has " + std::to_string(points.size()) + " stacks");
    }
    const plan::PackingPoint point = points[static_cast<std::size_t>(*asked.packer - 1)];
    const auto display = document.practice->display;
    const std::vector<double>& stock = plan::packersAtHand(document.job, *document.practice);
    question.given = "The gap is " + words::length(point.gap, display) + ". At hand are packers of " +
                     base::joined(stock, ", ", [&](double each) { return words::figure(each, display); }) + ".";
    std::map<double, plan::PackingPoint> stacks{{point.stack.total, point}};  // by thickness: each once, and in order
    const plan::PackerTable table = plan::packerTable(stock, document.practice->packing);
    for (const double off : {1.5, -1.5, 3.0, -3.0}) {  // mm: near enough to be taken for right
      plan::PackingPoint other = point;
      other.stack = table.best(point.gap - point.backing + off);  // it is the right one of another gap
      if (other.stack.pieces > 0) stacks.emplace(other.stack.total, other);
    }
    for (const auto& [total, stack] : stacks) {
      const double open = point.gap - point.backing - total;
      const bool right = total == point.stack.total;  // the very number it was stored by
      const std::string by = words::length(std::abs(open), display);
      question.options.push_back({plan::stackWords(stack, display), right,
                                  right && open < 0 ? "right: it is " + by + " over the gap, which the timber gives."
                                  : right           ? "right: nothing thicker goes in, and it leaves " + by + " open."
                                  : open < 0        ? "too thick by " + by + ": forced in, it bows the frame."
                                                    : "it leaves " + by + " open, and a thicker stack goes in."});
    }
  }
};

}  // namespace

std::span<const std::string_view> readingNames() {
  static const auto kNames = [] {
    std::array<std::string_view, job::kTapeReadings> names;
    for (std::size_t i = 0; i < names.size(); ++i) names[i] = job::infoOf(static_cast<job::TapeReading>(i)).name;
    return names;
  }();
  return kNames;
}

base::Result<ExerciseFile> loadExercise(const std::filesystem::path& path) {
  const auto text = base::loadText(path, practice::kLargestFile);
  return text.ok() ? readExercise(*text.value, path) : base::Result<ExerciseFile>{{}, text.errors};
}

base::Result<ExerciseFile> readExercise(std::string_view text, const std::filesystem::path& path) {
  auto root = job::readDescribed<Root>(text, path.string());
  if (!root.ok()) return {{}, std::move(root.errors)};
  root.value->exercise.path = path;
  return {std::move(root.value->exercise), {}};
}

std::filesystem::path jobOf(const ExerciseFile& file, const std::filesystem::path& assets) {
  return practice::isPath(file.job) ? file.path.parent_path() / file.job : assets / "jobs" / (file.job + ".toml");
}

base::Result<Task> makeTask(const ExerciseFile& file, const Document& document, std::uint32_t round) {
  TaskMaker maker{file, document, static_cast<std::uint32_t>(file.shuffle.value_or(0)) + round};
  maker.make();
  if (!maker.errors.empty()) return {{}, std::move(maker.errors)};
  return {std::move(maker.task), {}};
}

ExerciseFile plainExercise(const Document& document, std::size_t opening) {
  ExerciseFile file;
  file.title = "Put the cards in order";
  file.opening = document.job.openings[opening].name;
  file.asked = "Put the cards in the order in which the work is done, then answer.";
  return file;
}

}  // namespace sillwright::document
