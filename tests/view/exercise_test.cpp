// Exercises in the viewer: opened, done by the pointer and by keys, answered for, begun again, and kept as a page.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "session.h"
#include "support/assets.h"
#include "support/catch.h"

using namespace sillwright;
using tests::Session;

namespace {

namespace fs = std::filesystem;

fs::path shipped(const std::string& number) {
  for (const auto& each : fs::directory_iterator(fs::path(tests::assets()) / "exercises")) {
    if (each.path().filename().string().starts_with(number)) return each.path();
  }
  throw std::runtime_error("no such exercise");
}

const document::Exercise& exerciseOf(const Session& session) {
  REQUIRE(session.app.shown.lesson.exercise.has_value());
  return *session.app.shown.lesson.exercise;
}

std::string cardName(plan::StepKind kind) { return std::string("card ") + plan::toWord(kind); }

ImVec2 middleOf(const Session& session, const std::string& name) {
  const view::Item* item = session.item(name);
  REQUIRE(item != nullptr);
  return {(item->low.x + item->high.x) * 0.5F, (item->low.y + item->high.y) * 0.5F};
}

void dragTo(Session& session, int from, int to) {
  const auto& order = exerciseOf(session).order;
  const ImVec2 begin = middleOf(session, cardName(order[static_cast<std::size_t>(from)]));
  const ImVec2 end = middleOf(session, cardName(order[static_cast<std::size_t>(to)]));
  session.drag(view::Button::Left, begin, end);
}

std::string firstSaid(const Session& session) {
  const auto& said = exerciseOf(session).said;
  return said.empty() ? "" : said.front().words;
}

/// Puts each card where it belongs, by the pointer.
void solveByHand(Session& session) {
  const auto& steps = exerciseOf(session).task->steps;
  for (std::size_t place = 0; place < steps.size(); ++place) {
    const int from = plan::stepNumber(exerciseOf(session).order, steps[place].kind) - 1;
    if (from != static_cast<int>(place)) dragTo(session, from, static_cast<int>(place));
  }
}

}  // namespace

TEST_CASE("an exercise that is opened stands on its job, its cards dealt") {
  Session session(shipped("01"));
  REQUIRE(session.app.document.has_value());
  CHECK(session.app.file.path.filename() == "workshop-window.toml");
  CHECK(exerciseOf(session).order.size() == 5);
  CHECK(session.app.shown.opening == 0);
  CHECK(session.app.lesson.taught->wet == false);
}

TEST_CASE("a card is dragged to its place, and one that is let go elsewhere stays") {
  Session session(shipped("01"));
  const auto before = exerciseOf(session).order;
  dragTo(session, 3, 0);
  CHECK(exerciseOf(session).order[0] == before[3]);
  CHECK(exerciseOf(session).order[1] == before[0]);
  CHECK(exerciseOf(session).held == -1);
  const auto now = exerciseOf(session).order;
  session.drag(view::Button::Left, middleOf(session, cardName(now[0])), {600.0F, 200.0F});
  CHECK(exerciseOf(session).order == now);
}

TEST_CASE("a card is taken, moved and put down by keys alone, and Escape lets go of it") {
  Session session(shipped("01"));
  const auto before = exerciseOf(session).order;
  const view::Item* card = session.item(cardName(before[3]));
  REQUIRE(card != nullptr);
  session.app.focus.at = card->id;
  session.key(view::Key::Enter);
  CHECK(exerciseOf(session).held == 3);
  session.key(view::Key::Left);
  session.key(view::Key::Left);
  CHECK(exerciseOf(session).held == 1);
  CHECK(exerciseOf(session).order[1] == before[3]);
  session.key(view::Key::Enter);
  CHECK(exerciseOf(session).held == -1);
  session.key(view::Key::Enter);
  CHECK(exerciseOf(session).held == 1);
  session.key(view::Key::Escape);
  CHECK(exerciseOf(session).held == -1);
  CHECK(exerciseOf(session).order[1] == before[3]);
  CHECK(session.app.shown.lesson.on());
}

TEST_CASE("an order that can't be built is told first, and water runs only over one that can") {
  Session session(shipped("01"));
  session.key(view::Key::Enter);
  CHECK(firstSaid(session).find("can't be built") != std::string::npos);
  CHECK(firstSaid(session).find("card 1") != std::string::npos);
  CHECK_FALSE(session.app.lesson.taught->wet);
  CHECK_FALSE(session.app.lesson.taught->faults.empty());
  solveByHand(session);
  CHECK(firstSaid(session).find("can't be built") != std::string::npos);  // still to be read
  REQUIRE(session.clickItem("answer"));
  CHECK(exerciseOf(session).solved);
  CHECK(exerciseOf(session).tries == 2);
  CHECK(session.app.lesson.taught->wet);
  CHECK(session.app.lesson.taught->water.leaks.empty());
}

TEST_CASE("again: the cards are shuffled another way and nothing is said yet") {
  Session session(shipped("01"));
  const auto before = exerciseOf(session).order;
  REQUIRE(session.clickItem("answer"));
  REQUIRE(session.clickItem("again, shuffled"));
  CHECK(exerciseOf(session).order != before);
  CHECK(exerciseOf(session).tries == 0);
  CHECK(exerciseOf(session).said.empty());
}

TEST_CASE("the laps that were done wrong are picked, and the wall shows them from the start") {
  Session session(shipped("07"));
  CHECK(session.app.lesson.taught->skin_changed);
  CHECK_FALSE(session.app.lesson.taught->wet);
  const auto& question = exerciseOf(session).task->questions[0];
  REQUIRE(session.clickItem("answer"));
  CHECK(firstSaid(session) == "3 more to be found.");
  for (std::size_t k = 0; k < question.options.size(); ++k) {
    if (question.options[k].right) REQUIRE(session.clickItem("option 1." + std::to_string(k + 1)));
  }
  REQUIRE(session.clickItem("answer"));
  CHECK(exerciseOf(session).solved);
  CHECK_FALSE(session.app.lesson.taught->water.leaks.empty());
}

TEST_CASE("a misread figure and packers are chosen, and another opening leaves the exercise") {
  Session session(shipped("10"), 1280, 1400);
  const auto task = exerciseOf(session).task;
  for (std::size_t i = 0; i < task->questions.size(); ++i) {
    for (std::size_t k = 0; k < task->questions[i].options.size(); ++k) {
      if (!task->questions[i].options[k].right) continue;
      const view::Item* item = session.item("option " + std::to_string(i + 1) + "." + std::to_string(k + 1));
      REQUIRE(item != nullptr);
      session.app.focus.at = item->id;
      session.key(view::Key::Enter);
    }
  }
  session.app.focus.at = 0;
  session.key(view::Key::Enter);
  CHECK(exerciseOf(session).solved);
  session.type(U'n');
  session.settle();
  CHECK_FALSE(session.app.shown.lesson.exercise.has_value());
}

TEST_CASE("an exercise in which a card was moved is left only when that is asked for once more") {
  Session session(shipped("01"));
  session.type(U'x');
  session.settle();
  CHECK_FALSE(session.app.shown.lesson.exercise.has_value());  // nothing was done: it is simply left
  Session other(shipped("01"));
  dragTo(other, 0, 2);
  other.type(U'x');
  other.settle();
  CHECK(other.app.shown.asking == view::Asking::LeaveExercise);
  REQUIRE(other.clickItem("go on with it"));
  CHECK(exerciseOf(other).order != exerciseOf(other).task->start);
  other.key(view::Key::Escape);
  REQUIRE(other.clickItem("leave it"));
  CHECK_FALSE(other.app.shown.lesson.exercise.has_value());
  CHECK(other.app.shown.asking == view::Asking::Nothing);
}

TEST_CASE("the tour waits while an exercise is on") {
  Session session(shipped("01"));
  session.app.shown.tour = 0;
  view::disturb(session.app);
  session.settle();
  CHECK(session.item("skip the tour") == nullptr);
  session.type(U'x');
  session.settle();
  CHECK(session.item("skip the tour") != nullptr);
}

TEST_CASE("the result is kept as a page with the name that was typed") {
  const fs::path folder = fs::temp_directory_path() / "sillwright-exercise-result";
  fs::remove_all(folder);
  fs::create_directories(folder);
  const fs::path before = fs::current_path();
  fs::current_path(folder);
  Session session(shipped("01"));
  REQUIRE(session.clickItem("answer"));
  REQUIRE(session.clickItem("keep the result as a page"));
  CHECK(fs::is_empty(folder));  // under no name
  REQUIRE(session.clickItem("set your name"));
  session.write("Ada <b>");
  session.key(view::Key::Enter);
  CHECK(session.app.shown.trainee == "Ada <b>");
  REQUIRE(session.clickItem("keep the result as a page"));
  fs::current_path(before);
  std::ostringstream page;
  page << std::ifstream(folder / "exercise-Ada--b-.html").rdbuf();
  CHECK(page.str().find("Ada &#60;b&#62;, 2") != std::string::npos);
  CHECK(page.str().find("Right at the first answer: ") != std::string::npos);
}

TEST_CASE("an exercise that can't be read is shown with what is wrong with it") {
  const fs::path file = fs::temp_directory_path() / "sillwright-bad-exercise.toml";
  std::ofstream(file) << "[exercise]\ntitle = \"T\"\n";
  Session session(file);
  CHECK_FALSE(session.app.document.has_value());
  REQUIRE_FALSE(session.app.file.errors.empty());
  CHECK(session.app.file.errors.front().key.starts_with("exercise."));
}

TEST_CASE("the page of jobs offers the exercises") {
  Session session(tests::demoJob("workshop-window"));
  session.key(view::Key::O, {.ctrl = true});
  REQUIRE(session.item("exercise 1. Five cards") != nullptr);
  const view::Item* item = session.item("exercise 1. Five cards");
  session.app.focus.at = item->id;
  session.key(view::Key::Enter);
  CHECK(exerciseOf(session).task->title == "1. Five cards");
}
