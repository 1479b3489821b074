// Exercises: those that come with the program, what is said of answers, what is wrong with a file, and the page that is
// kept.

#include "document/exercise_file.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

#include "document/lesson.h"
#include "support/assets.h"
#include "support/catch.h"
#include "support/folder.h"
#include "support/schema.h"

using namespace sillwright;
using document::Exercise;
using document::Level;
using plan::StepKind;

namespace {

namespace fs = std::filesystem;

struct Set {
  document::ExerciseFile file;
  document::Document document;
  std::shared_ptr<const document::Task> task;
};

Set setOf(const fs::path& path) {
  CAPTURE(path.string());
  auto file = document::loadExercise(path);
  for (const auto& error : file.errors) FAIL_CHECK(base::toLine(error));
  REQUIRE(file.ok());
  auto document =
      document::load(document::jobOf(*file.value, tests::assets()), tests::assets(), document::Depth::Findings);
  REQUIRE(document.ok());
  auto task = document::makeTask(*file.value, *document.value);
  for (const auto& error : task.errors) FAIL_CHECK(base::toLine(error));
  REQUIRE(task.ok());
  return {*file.value, std::move(*document.value), std::make_shared<const document::Task>(std::move(*task.value))};
}

std::vector<fs::path> shipped() {
  std::vector<fs::path> all;
  for (const auto& each : fs::directory_iterator(fs::path(tests::assets()) / "exercises")) {
    if (each.path().extension() == ".toml") all.push_back(each.path());
  }
  std::sort(all.begin(), all.end());
  return all;
}

void solve(Exercise& exercise) {
  exercise.order.clear();
  for (const plan::Step& step : exercise.task->steps) exercise.order.push_back(step.kind);
  for (std::size_t i = 0; i < exercise.picked.size(); ++i) {
    for (std::size_t k = 0; k < exercise.picked[i].size(); ++k) {
      exercise.picked[i][k] = exercise.task->questions[i].options[k].right;
    }
  }
}

std::string saidOf(const Exercise& exercise) {
  std::string all;
  for (const auto& each : exercise.said) all += each.words + "\n";
  return all;
}

base::Result<document::ExerciseFile> fileOf(const std::string& text) {
  const tests::TemporaryFolder folder;
  const fs::path file = folder.path / "a.toml";
  std::ofstream(file, std::ios::trunc) << text;
  return document::loadExercise(file);
}

/// The exercise of a text, posed on a demo job; what is wrong with it as lines.
std::string mistakes(const std::string& text) {
  std::string lines;
  const auto file = fileOf(text);
  std::vector<base::Error> errors = file.errors;
  if (file.ok()) {
    const auto document =
        document::load(document::jobOf(*file.value, tests::assets()), tests::assets(), document::Depth::Findings);
    REQUIRE(document.ok());
    errors = document::makeTask(*file.value, *document.value).errors;
  }
  for (base::Error error : errors) {
    error.file = "a.toml";
    lines += base::toLine(error) + "\n";
  }
  return lines;
}

const std::string kHead =
    "[exercise]\ntitle = \"T\"\njob = \"workshop-window\"\nopening = \"Y1\"\nasked = \"Do it.\"\n";

Exercise plain(const std::string& more = "level = \"order\"\n") {
  const auto file = fileOf(kHead + more);
  REQUIRE(file.ok());
  const auto document =
      document::load(document::jobOf(*file.value, tests::assets()), tests::assets(), document::Depth::Findings);
  auto task = document::makeTask(*file.value, *document.value);
  REQUIRE(task.ok());
  return document::begin(std::make_shared<const document::Task>(std::move(*task.value)));
}

}  // namespace

TEST_CASE("ten exercises of three levels come with the program") {
  std::map<Level, int> levels;
  for (const fs::path& path : shipped()) ++levels[setOf(path).task->level];
  CHECK(shipped().size() == 10);
  CHECK(levels[Level::Order] >= 3);
  CHECK(levels[Level::Laps] >= 3);
  CHECK(levels[Level::Judge] >= 2);
}

TEST_CASE("an exercise that comes with the program is wrong as it is dealt, and right once it is solved") {
  for (const fs::path& path : shipped()) {
    CAPTURE(path.string());
    const Set set = setOf(path);
    Exercise exercise = document::begin(set.task);
    document::answer(exercise, 10);
    CHECK_FALSE(exercise.solved);
    CHECK(exercise.first_right < document::outOf(*set.task));
    CHECK_FALSE(exercise.said.empty());
    CHECK_FALSE(exercise.said.front().good);
    solve(exercise);
    document::answer(exercise, 75);
    CHECK(exercise.solved);
    CHECK(exercise.tries == 2);
    for (const auto& each : exercise.said) CHECK(each.good);
    CHECK(document::scoreWords(exercise).find("1 min 15 s") != std::string::npos);
  }
}

TEST_CASE("each wrong option of an exercise that comes with the program is answered and keeps it from being solved") {
  for (const fs::path& path : shipped()) {
    const Set set = setOf(path);
    for (std::size_t i = 0; i < set.task->questions.size(); ++i) {
      const auto& question = set.task->questions[i];
      for (std::size_t k = 0; k < question.options.size(); ++k) {
        CAPTURE(path.string(), question.asks, question.options[k].words);
        CHECK(question.options[k].why.size() > 3);
        if (question.options[k].right) continue;
        Exercise exercise = document::begin(set.task);
        solve(exercise);
        document::pick(exercise, i, k);
        document::answer(exercise, 1);
        CHECK_FALSE(exercise.solved);
        CHECK(saidOf(exercise).find(question.options[k].words) != std::string::npos);
      }
    }
  }
}

TEST_CASE("two cards in the wrong order are told, with which of them comes first") {
  for (const fs::path& path : shipped()) {
    const Set set = setOf(path);
    for (std::size_t i = 0; i + 1 < set.task->steps.size(); ++i) {
      Exercise exercise = document::begin(set.task);
      solve(exercise);
      std::swap(exercise.order[i], exercise.order[i + 1]);
      const auto faults = plan::orderFaults(exercise.order);
      document::answer(exercise, 1);
      CAPTURE(path.string(), set.task->steps[i].title);
      CHECK(exercise.solved == faults.empty());
      if (faults.empty()) continue;
      const std::string said = saidOf(exercise);
      CHECK(said.find("can't be built") != std::string::npos);
      CHECK(said.find("card " + std::to_string(i + 1) + ", \"" + set.task->steps[i + 1].title) != std::string::npos);
      CHECK(said.find("now before \"" + set.task->steps[i].title) != std::string::npos);
    }
  }
}

TEST_CASE("the first card that breaks an order is told first, the others are counted") {
  Exercise exercise = plain();
  solve(exercise);
  document::moveCard(exercise.order, static_cast<int>(exercise.order.size()) - 1, 0);  // the cladding
  document::answer(exercise, 1);
  REQUIRE(exercise.said.size() == 1);
  CHECK(exercise.said[0].words.find("card 1, ") != std::string::npos);
  std::reverse(exercise.order.begin(), exercise.order.end());
  document::answer(exercise, 1);
  REQUIRE(exercise.said.size() == 2);
  CHECK(exercise.said[1].words.find("Too early too: ") != std::string::npos);
  CHECK(exercise.first_right == document::outOf(*exercise.task) - 1);
}

TEST_CASE("a card in hand moves, is put down, and lies still once the exercise is solved") {
  Exercise exercise = plain();
  solve(exercise);
  const auto usual = exercise.order;
  document::takeCard(exercise, 2);
  document::takeCard(exercise, 3);
  CHECK(exercise.order[3] == usual[2]);
  CHECK(exercise.held == -1);
  document::takeCard(exercise, 99);
  CHECK(exercise.held == -1);
  document::takeCard(exercise, 3);
  document::takeCard(exercise, 99);
  CHECK(exercise.held == 3);
  solve(exercise);
  document::answer(exercise, 1);
  REQUIRE(exercise.solved);
  document::takeCard(exercise, 0);
  document::pick(exercise, 7, 7);
  document::answer(exercise, 9);
  CHECK(exercise.held == -1);
  CHECK(exercise.tries == 1);
  CHECK(exercise.seconds == 1);
}

TEST_CASE("every round of an exercise is shuffled another way and leaves something to do") {
  const auto file = fileOf(kHead + "level = \"order\"\ncards = [\"membrane\", \"lift in\", \"cladding\"]\n");
  REQUIRE(file.ok());
  const auto document =
      document::load(document::jobOf(*file.value, tests::assets()), tests::assets(), document::Depth::Findings);
  for (std::uint32_t round = 0; round < 40; ++round) {
    const auto task = document::makeTask(*file.value, *document.value, round);
    REQUIRE(task.ok());
    CHECK_FALSE(plan::orderFaults(task.value->start).empty());
  }
}

TEST_CASE("cards lie at first as the file says, in every round") {
  const auto file = fileOf(kHead +
                           "level = \"order\"\ncards = [\"membrane\", \"lift in\", \"cladding\"]\n"
                           "start = [\"lift in\", \"cladding\", \"membrane\"]\n");
  REQUIRE(file.ok());
  const auto document =
      document::load(document::jobOf(*file.value, tests::assets()), tests::assets(), document::Depth::Findings);
  for (const std::uint32_t round : {0U, 1U}) {
    const auto task = document::makeTask(*file.value, *document.value, round);
    REQUIRE(task.ok());
    CHECK(task.value->start == std::vector{StepKind::LiftIn, StepKind::Cladding, StepKind::Membrane});
  }
}

TEST_CASE("no beginning of an exercise's file is taken for something that it is not, and no noise is") {
  const std::string whole = kHead + "level = \"order\"\nstart = [\"lift in\", \"membrane\"]\n";
  for (std::size_t size = 0; size <= whole.size(); ++size) {
    const auto read = document::readExercise(std::string_view(whole).substr(0, size), "a.toml");
    CHECK(read.ok() == read.errors.empty());
  }
  for (const std::string noise : {"\xFF\xFE", "[exercise]\nstart = 7\n", "[exercise]\nstart = [[]]\n", "exercise = 1\n",
                                  "[[exercise]]\n[[exercise]]\n", "[exercise]\nquestion = [1, {}]\n"}) {
    CAPTURE(noise);
    const auto read = document::readExercise(noise, "a.toml");
    CHECK_FALSE(read.ok());
    CHECK_FALSE(read.errors.empty());
  }
}

TEST_CASE("an order of some of the cards leaves the wall as it is, and its water runs once it is solved") {
  const auto document = document::load(fs::path(tests::assets()) / "jobs" / "workshop-window.toml", tests::assets(),
                                       document::Depth::Findings);
  document::Lesson lesson;
  lesson.opening = 0;
  Exercise exercise = plain("level = \"order\"\ncards = [\"membrane\", \"lift in\", \"cladding\"]\n");
  document::answer(exercise, 1);
  lesson.exercise = exercise;
  CHECK_FALSE(document::teach(*document.value, lesson).skin_changed);
  CHECK_FALSE(document::teach(*document.value, lesson).wet);
  solve(exercise);
  document::answer(exercise, 1);
  lesson.exercise = exercise;
  const auto taught = document::teach(*document.value, lesson);
  CHECK(taught.wet);
  CHECK(taught.water.leaks.empty());
}

TEST_CASE("what is wrong with an exercise's file is told at its line, all at once") {
  CHECK(mistakes("[exercise]\ntitel = \"T\"\nlevel = \"hard\"\n") ==
        "a.toml:1:1: exercise.asked: is missing; it must be a string of 1 to 600 characters\n"
        "a.toml:1:1: exercise.job: is missing; it must be a string of 1 to 1000 characters\n"
        "a.toml:1:1: exercise.opening: is missing; it must be a string of 1 to 100 characters\n"
        "a.toml:1:1: exercise.title: is missing; it must be a string of 1 to 100 characters\n"
        "a.toml:2:1: exercise.titel: unknown key; did you mean title?\n"
        "a.toml:3:9: exercise.level: must be one of \"order\", \"laps\", \"judge\"; found \"hard\"\n");
}

TEST_CASE("an exercise that asks for what its job lacks is told so") {
  const auto says = [&](const std::string& more, const std::string& wanted) {
    const std::string said = mistakes(kHead + more);
    CAPTURE(more, said);
    CHECK(said.find(wanted) != std::string::npos);
  };
  const std::string order = "level = \"order\"\n";
  says(order + "cards = [\"old unit out\", \"membrane\", \"lift in\"]\n",
       "a.toml:7:9: exercise.cards: there is no step \"old unit out\" at Y1; it has check framing");
  says(order + "cards = [\"check framing\", \"cladding\"]\n", "a.toml:7:9: exercise.cards: can be done in any order");
  says(order + "start = [\"lift in\"]\n",
       "a.toml:7:9: exercise.start: must have each of the cards once: check framing, ");
  const std::string two = order + "cards = [\"membrane\", \"lift in\"]\n";
  says(two + "start = [\"lift in\", \"lift in\"]\n", "a.toml:8:21: exercise.start[1]: \"lift in\" stands here twice");
  says(two + "start = [\"membrane\", \"lift in\"]\n", "a.toml:8:9: exercise.start: can be done as it lies");
  says(two + "start = [\"lift\"]\n", "exercise.start");
  says("level = \"laps\"\nstart = [\"lift in\"]\n", "exercise.cards: belongs to an exercise of level \"order\"");
  says(order + "wrong = [\"without head flashing\"]\n",
       "a.toml:1:1: exercise.wrong: belongs to an exercise of level \"laps\"");
  says("level = \"laps\"\n", "exercise.wrong: is missing");
  says("level = \"laps\"\nwrong = [\"without wings\", \"undo it\"]\n", "\"without wings\": ");
  says("level = \"judge\"\n", "exercise.question: is missing");
  const std::string judge = "level = \"judge\"\n";
  const std::string question = "[[exercise.question]]\nasks = \"Which?\"\n";
  says(judge + question, "must have either side and packer");
  says(judge + question + "answers = [\"a\", \"b\"]\nright = 3\n", "must have either side and packer");
  says(judge + question + "side = \"sill\"\npacker = 9\n", "exercise.question[0].packer: that side has ");
  says(judge + "misread = \"middle width\"\nread_as = 1530.5\n" + question + "", "nobody could find it");
  const std::string other =
      "[exercise]\ntitle = \"T\"\njob = \"boatshed\"\nopening = \"Z9\"\nasked = \"Do it.\"\nlevel = \"order\"\n";
  CHECK(mistakes(other).find("a.toml:4:11: exercise.opening: the job has no opening \"Z9\"; it has J1, J2") == 0);
}

TEST_CASE("the schema beside the exercises is the one that their description gives") {
  const job::TableRule file{"",
                            {{"exercise",
                              {.form = job::Form::Table, .table = &job::tableOf<document::ExerciseFile>()},
                              true,
                              "The exercise."}}};
  const fs::path kept = fs::path(tests::assets()) / "exercises" / "sillwright-exercise.schema.json";
  const std::string made =
      job::test::schemaText(file, "Sillwright exercise", "What a trainee is asked of one opening of a job.");
  std::ifstream in(kept, std::ios::binary);
  if (std::string(std::istreambuf_iterator<char>(in), {}) == made) return;
  std::ofstream("sillwright-exercise.schema.json", std::ios::binary) << made;
  FAIL(kept.string() << " is out of date: copy " << fs::absolute("sillwright-exercise.schema.json").string()
                     << " over it");
}

TEST_CASE("a question of a teacher's own has the answer that the file says") {
  Exercise exercise = plain(
      "level = \"judge\"\n[[exercise.question]]\nasks = \"Who?\"\nanswers = [\"He\", \"She\"]\nright = 2\nwhy = \"It "
      "is so.\"\n");
  document::answer(exercise, 1);
  CHECK(saidOf(exercise) == "Not answered yet: Who?\n");
  document::pick(exercise, 0, 0);
  document::pick(exercise, 0, 1);
  CHECK(exercise.picked[0] == std::vector<bool>{false, true});
  document::answer(exercise, 1);
  CHECK(exercise.solved);
  CHECK(saidOf(exercise) == "She: right. It is so.\n");
}

TEST_CASE("the page of a result needs no other file, and a name is text in it") {
  Exercise exercise = plain();
  document::answer(exercise, 62);
  const std::string page = document::resultPage(exercise, "<script>alert(\"x\")</script> & Sons", "2026-03-14");
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("&#60;script&#62;alert(&#34;x&#34;)&#60;/script&#62; &#38; Sons, 2026-03-14") != std::string::npos);
  CHECK(page.find("http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'") != std::string::npos);
  CHECK(page.find("src=") == std::string::npos);
  CHECK(page.find("href=") == std::string::npos);
  CHECK(page.find("Not solved") != std::string::npos);
  CHECK(page.find("Time: 1 min 2 s.") != std::string::npos);
  CHECK(page.find("can't be built") != std::string::npos);
}
