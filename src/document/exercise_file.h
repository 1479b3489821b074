/// The file of an exercise, as a teacher writes it, and the task that it makes of its job.
///
/// A teacher says what is asked; which answer is right follows from the job. Mistakes are told as those of jobs are.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "document/document.h"
#include "document/exercise.h"
#include "job/readings.h"
#include "job/rule.h"

namespace sillwright::document {

inline constexpr std::string_view kSideWords[] = {"left", "right", "sill", "head"};

/// Names of the readings, in their order.
[[nodiscard]] std::span<const std::string_view> readingNames();

/// Which stack goes where `side` and `packer` say; or one with answers of its own; else, which figure was misread.
struct FileQuestion {
  std::string asks;
  std::optional<plan::Side> side;
  std::optional<int> packer, right;
  std::vector<std::string> answers;
  std::optional<std::string> why;
  base::Place place;

  static void describe(auto& keys) {
    keys.header("[[exercise.question]]");
    keys.place(&FileQuestion::place);
    keys("asks", &FileQuestion::asks, job::text(300), "The question.");
    keys("side", &FileQuestion::side, job::word(kSideWords), "Of packers: the side, seen from outside.");
    keys("packer", &FileQuestion::packer, job::whole(1, 50),
         "Which of that side, from the left or from below, from 1.");
    keys("answers", &FileQuestion::answers, job::textList(120, kMostOptions, 2), "Answers of your own.");
    keys("right", &FileQuestion::right, job::whole(1, kMostOptions), "Which of them is right, from 1.");
    keys("why", &FileQuestion::why, job::text(300), "Why it is, told whatever was picked.");
  }
};

struct ExerciseFile {
  std::string title, job, opening, asked;
  Level level = Level::Order;
  std::vector<plan::StepKind> cards, start;
  std::optional<int> shuffle;
  std::vector<std::string> wrong;
  std::optional<job::TapeReading> misread;
  std::optional<double> read_as;
  std::vector<FileQuestion> questions;
  std::filesystem::path path;  ///< Where it was read from.
  base::Place place, opening_place, cards_place, start_place, wrong_place, misread_place;

  static void describe(auto& keys) {
    using File = ExerciseFile;
    keys.header("[exercise]");
    keys.place(&File::place);
    keys.place("opening", &File::opening_place);
    keys.place("cards", &File::cards_place);
    keys.place("start", &File::start_place);
    keys.place("wrong", &File::wrong_place);
    keys.place("misread", &File::misread_place);
    keys("title", &File::title, job::text(100), "What it is called in the list of exercises.");
    keys("job", &File::job, job::text(job::kLongestPath),
         "The job: the name of a demo job, or a path ending in .toml from this file's folder.");
    keys("opening", &File::opening, job::text(job::kLongestName), "The opening of the job that it is about.");
    keys("level", &File::level, job::word(kLevelWords),
         "\"order\": cards are put in order; \"laps\": what is wrong with the wall is found; \"judge\": questions.");
    keys("asked", &File::asked, job::text(600), "What is to be done, in words for the trainee.");
    keys("cards", &File::cards, job::wordList(plan::kStepWords), "The steps on cards. Left out: all of the opening.");
    keys("start", &File::start, job::wordList(plan::kStepWords),
         "The same cards as they lie at first. Left out: they are shuffled.");
    keys("shuffle", &File::shuffle, job::whole(0, 1'000'000), "Another number shuffles another way. Left out: 0.");
    keys("wrong", &File::wrong, job::textList(200, 8),
         "What was done wrong: \"swap A, B\", \"without A\", \"without step S\", \"shorten A 40\".");
    keys("misread", &File::misread, job::word(readingNames()), "The figure of the opening that was read wrong.");
    keys("read_as", &File::read_as, job::mm(-50'000, 50'000), "What was read in its place, mm.");
    keys("question", &File::questions, job::tables(12), "The questions.");
  }
};

/// Reads an exercise: all mistakes that show without its job.
[[nodiscard]] base::Result<ExerciseFile> loadExercise(const std::filesystem::path& path);
/// The same of its text.
[[nodiscard]] base::Result<ExerciseFile> readExercise(std::string_view text, const std::filesystem::path& path);

/// The job file that it names.
[[nodiscard]] std::filesystem::path jobOf(const ExerciseFile& file, const std::filesystem::path& assets);

/// The task, shuffled anew for each round where the file doesn't say how its cards lie; or what of it its job has not,
/// or nobody could find out.
[[nodiscard]] base::Result<Task> makeTask(const ExerciseFile& file, const Document& document, std::uint32_t round = 0);

/// The exercise that any opening has: its cards in order.
[[nodiscard]] ExerciseFile plainExercise(const Document& document, std::size_t opening);

}  // namespace sillwright::document
