// The lesson: its cards, what is there after each, where the water then goes, what-ifs and the exercise.

#include <algorithm>

#include "document/lesson.h"
#include "scene/water_lines.h"
#include "session.h"
#include "support/catch.h"
#include "support/pictures.h"

using namespace sillwright;
using document::Lesson;
using tests::Session;
using view::LessonAct;
using view::LessonWish;

namespace {

document::Document demo(const std::string& name) {
  auto read = document::load(tests::demoJob(name), SILLWRIGHT_ASSETS_DIR);
  REQUIRE(read.ok());
  return std::move(*read.value);
}

int stepsOf(const document::Document& document, std::size_t opening) {
  return static_cast<int>(plan::stepsAt(document.plan.openings[opening]).size());
}

/// The drops set running, or to rest.
void shiftW(Session& session) {
  session.app.input.push(view::KeyChanged{view::Key::W, true, {.shift = true}});
  session.type(U'W');
  session.app.input.push(view::KeyChanged{view::Key::W, false, {}});
  session.settle();
}

/// A session with the lesson of an opening on, its drops at rest.
void openLesson(Session& session, const std::string& opening) {
  view::grant(session.app, view::PickOpening{session.opening(opening), true});
  session.type(U'w');
  session.settle();
  REQUIRE(session.app.shown.lesson.on());
  shiftW(session);
}

bool wrote(const Session& session, const std::string& about) {
  return std::any_of(session.stage.seen.written.begin(), session.stage.seen.written.end(),
                     [&](const view::Written& each) { return each.about == about; });
}

/// Lets the card lie for as long as it takes to read.
void layNext(Session& session) {
  const float seconds = view::cardSeconds(session.app.shown.lesson, session.app.lesson) / session.app.shown.lesson.pace;
  view::frame(session.app, session.stage, session.screen, seconds + 0.01F);
}

int count(const Session& session, scene::PartKind kind, std::int32_t opening) {
  const auto& parts = session.app.document->scene.parts;
  return static_cast<int>(std::count_if(parts.begin(), parts.end(), [&](const scene::Part& part) {
    return part.kind == kind && part.opening == opening;
  }));
}

}  // namespace

TEST_CASE("every opening that is built in the right order sheds its water when the last card lies") {
  for (const char* name : {"boatshed", "workshop-window", "raking-studio", "garage-header", "stair-pair",
                           "brick-no-fin", "upstairs-bedroom"}) {
    const document::Document document = demo(name);
    for (std::size_t i = 0; i < document.job.openings.size(); ++i) {
      CAPTURE(name, document.job.openings[i].name);
      Lesson lesson;
      lesson.opening = static_cast<std::int32_t>(i);
      lesson.place = stepsOf(document, i);
      const document::Taught taught = document::teach(document, lesson);
      CHECK(taught.hidden_steps == 0);
      CHECK(taught.wet);
      CHECK(taught.water.leaks.empty());
      CHECK_FALSE(taught.skin_changed);
    }
  }
}

TEST_CASE("water is run once the unit stands in the wall, and gets in over it while its head is bare") {
  const document::Document document = demo("boatshed");
  std::size_t index = 0;
  while (document.job.openings[index].name != "H1") ++index;
  const auto kinds = plan::stepsAt(document.plan.openings[index]);
  Lesson lesson;
  lesson.opening = static_cast<std::int32_t>(index);
  for (lesson.place = 0; lesson.place <= static_cast<int>(kinds.size()); ++lesson.place) {
    const document::Taught taught = document::teach(document, lesson);
    CAPTURE(lesson.place);
    CHECK(taught.wet == (lesson.place >= plan::stepNumber(kinds, plan::StepKind::LiftIn)));
    const bool bare = taught.wet && lesson.place < plan::stepNumber(kinds, plan::StepKind::HeadFlap);
    CHECK(!taught.water.leaks.empty() == bare);
    // Bits of hidden steps: all that are not done, none that is.
    for (int k = 0; k < static_cast<int>(kinds.size()); ++k) {
      const auto bit = scene::bitOf(scene::partStep(kinds[static_cast<std::size_t>(k)]));
      CHECK(((taught.hidden_steps & bit) != 0) == (k >= lesson.place));
    }
  }
}

TEST_CASE("lines of water run down what is drawn, inside the wall's picture of the opening") {
  document::Document document = demo("boatshed");
  for (std::size_t i = 0; i < document.job.openings.size(); ++i) {
    Lesson lesson;
    lesson.opening = static_cast<std::int32_t>(i);
    lesson.place = stepsOf(document, i);
    const document::Taught taught = document::teach(document, lesson);
    const auto lines = scene::waterLines(document.scene, document.job, i, taught.there, taught.water);
    REQUIRE(lines.size() >= taught.water.paths.size() / 2);
    const auto& opening = document.job.openings[i];
    const scene::WallFrame& wall = document.scene.walls[opening.wall];
    for (const scene::WaterLine& line : lines) {
      for (std::size_t k = 0; k < line.points.size(); ++k) {
        const glm::vec3 from = line.points[k].at - wall.origin;
        const float y = glm::dot(from, wall.inward);
        CAPTURE(opening.name, k, y);
        // No further out than a head flashing reaches, no further in than a glass pane stands.
        CHECK(y > -160.0F);
        CHECK(y < 130.0F);
        if (k > 0) CHECK(line.points[k].at.z <= line.points[k - 1].at.z + 0.5F);
      }
    }
  }
}

TEST_CASE("the cards are opened by W, gone through by keys and by hand, and what is not yet on is not there") {
  Session session(tests::demoJob("boatshed"));
  openLesson(session, "H1");
  const int cards = static_cast<int>(session.app.lesson.taught->cards.size());
  CHECK(session.app.shown.lesson.place == cards);
  CHECK_NOTHROW(session.pixelOn(scene::PartKind::CladdingBoard));
  session.type(U',');
  session.settle();
  CHECK(session.app.shown.lesson.place == cards - 1);
  CHECK_THROWS(session.pixelOn(scene::PartKind::CladdingBoard));
  REQUIRE(session.clickItem("card membrane"));
  CHECK(session.app.shown.lesson.place == 3);
  CHECK(session.app.shown.look.lit_step == scene::partStep(plan::StepKind::Membrane));
  CHECK_NOTHROW(session.pixelOn(scene::PartKind::Membrane));
  CHECK_THROWS(session.pixelOn(scene::PartKind::SillFlashing));
  REQUIRE(session.clickItem("start"));
  CHECK(session.app.shown.lesson.place == 0);
  CHECK_THROWS(session.pixelOn(scene::PartKind::Membrane));
  session.key(view::Key::Escape);
  CHECK_FALSE(session.app.shown.lesson.on());
  CHECK(session.app.shown.look.hidden_steps == 0);
  CHECK_NOTHROW(session.pixelOn(scene::PartKind::CladdingBoard));
}

TEST_CASE("the pointer drawn across the cards with its button down takes the work along") {
  Session session(tests::demoJob("boatshed"));
  openLesson(session, "H1");
  REQUIRE(session.clickItem("card membrane"));
  const view::Item* first = session.item("card membrane");
  const view::Item* last = session.item("card lift in");
  REQUIRE(first != nullptr);
  REQUIRE(last != nullptr);
  const auto middle = [](const view::Item& item) {
    return ImVec2{(item.low.x + item.high.x) / 2, (item.low.y + item.high.y) / 2};
  };
  session.drag(view::Button::Left, middle(*first), middle(*last));
  const auto kinds = session.app.lesson.taught->cards;
  CHECK(session.app.shown.lesson.place == plan::stepNumber(kinds, plan::StepKind::LiftIn));
  REQUIRE(session.app.lesson.step);  // the eye goes where the card is seen best, and not with the hand
  CHECK(session.app.shown.camera.yaw_degrees == session.app.lesson.step->yaw_degrees);
  CHECK(session.app.shown.camera.pitch_degrees == session.app.lesson.step->pitch_degrees);
}

TEST_CASE("playing lays a card at a time and rests at the last one") {
  Session session(tests::demoJob("workshop-window"));
  openLesson(session, "Y1");
  const int cards = static_cast<int>(session.app.lesson.taught->cards.size());
  session.key(view::Key::Space);
  CHECK(session.app.shown.lesson.playing);
  CHECK(session.app.shown.lesson.place == 0);
  CHECK(view::wantsFrame(session.app, session.stage));
  layNext(session);
  CHECK(session.app.shown.lesson.place == 1);
  for (int i = 1; i < cards; ++i) layNext(session);
  CHECK(session.app.shown.lesson.place == cards);
  layNext(session);  // the last one is read as the others
  CHECK(session.app.shown.lesson.place == cards);
  CHECK_FALSE(session.app.shown.lesson.playing);
  session.settle();
  CHECK_FALSE(view::wantsFrame(session.app, session.stage));
}

TEST_CASE("any key pauses, and the next one goes on: < and > play slower and faster while it plays") {
  Session session(tests::demoJob("workshop-window"));
  openLesson(session, "Y1");
  const document::Lesson& lesson = session.app.shown.lesson;
  session.key(view::Key::Space);
  layNext(session);
  for (int i = 0; i < 3; ++i) session.type(U'>');
  view::frame(session.app, session.stage, session.screen, 0.01F);
  CHECK(lesson.playing);
  CHECK(lesson.pace > 1.9F);
  view::frame(session.app, session.stage, session.screen, 0.2F);
  const float since = lesson.since;
  CHECK(since > 0.2F * 1.9F);
  for (const view::Key key : {view::Key::Escape, view::Key::H, view::Key::PageDown}) {
    session.app.input.push(view::KeyChanged{key, true, {}});
    session.app.input.push(view::KeyChanged{key, false, {}});
    while (!session.app.input.empty()) view::frame(session.app, session.stage, session.screen, 0.0F);
    CHECK_FALSE(lesson.playing);
    CHECK(lesson.on());
    CHECK(lesson.place == 1);
    view::grant(session.app, LessonWish{LessonAct::Play, 0, {}});
    CHECK(lesson.since >= since);  // it goes on where it was
  }
  for (int i = 0; i < 20; ++i) session.type(U'<');
  view::frame(session.app, session.stage, session.screen, 0.0F);
  CHECK(lesson.pace == 0.4F);
}

TEST_CASE("the longer a card is to read the longer it lies: what plays again and again begins anew") {
  Session session(tests::demoJob("boatshed"));
  openLesson(session, "J2");
  const document::Lesson& lesson = session.app.shown.lesson;
  view::grant(session.app, LessonWish{LessonAct::Go, 11, {}});  // open, shut, lock
  const float few_words = view::cardSeconds(lesson, session.app.lesson);
  view::grant(session.app, LessonWish{LessonAct::Go, 10, {}});  // pack and fix
  CHECK(view::cardSeconds(lesson, session.app.lesson) > 1.5F * few_words);
  view::grant(session.app,
              LessonWish{LessonAct::Go, static_cast<int>(session.app.lesson.taught->cards.size()) - 1, {}});
  view::grant(session.app, LessonWish{LessonAct::Loop, 0, {}});
  view::grant(session.app, LessonWish{LessonAct::Play, 0, {}});
  layNext(session);
  layNext(session);
  CHECK(lesson.playing);
  CHECK(lesson.place == 0);
}

TEST_CASE("in a class room a step's parts come after the eye, and land where the step has them") {
  Session session(tests::demoJob("workshop-window"));
  session.app.eye.instant = false;
  view::grant(session.app, LessonWish{LessonAct::ClassRoom, 0, {}});
  session.settle();
  session.key(view::Key::PageDown);
  session.key(view::Key::PageDown);
  session.app.input.push(view::KeyChanged{view::Key::PageDown, true, {}});  // the membrane
  session.app.input.push(view::KeyChanged{view::Key::PageDown, false, {}});
  while (!session.app.input.empty()) view::frame(session.app, session.stage, session.screen, 0.0F);
  view::frame(session.app, session.stage, session.screen, 0.1F);
  const view::LessonPlay& play = session.app.lesson;
  REQUIRE(play.step);
  REQUIRE(play.moved);
  CHECK(play.coming < 0.0F);
  CHECK_FALSE(wrote(session, "note"));
  float furthest = 0.0F;
  for (std::size_t i = 0; i < play.moved->solids.size(); ++i) {
    const float moved = glm::distance(play.moved->solids[i].corner[0], play.step->scene.solids[i].corner[0]);
    const bool is_new = play.step->scene.parts[play.step->scene.solids[i].part].step == play.step->lit;
    if (!is_new) CHECK(moved == 0.0F);
    furthest = std::max(furthest, moved);
  }
  CHECK(furthest > 200.0F);
  session.settle();
  CHECK_FALSE(play.moved);
  CHECK(wrote(session, "note"));
  CHECK_FALSE(view::wantsFrame(session.app, session.stage));
}

TEST_CASE("a class room has the drawing and large words alone: a clicker turns over, Escape brings the panels back") {
  Session session(tests::demoJob("workshop-window"), 1024, 768);
  session.app.input.push(view::KeyChanged{view::Key::C, true, {.shift = true}});
  session.type(U'C');
  session.app.input.push(view::KeyChanged{view::Key::C, false, {}});
  session.settle();
  const document::Lesson& lesson = session.app.shown.lesson;
  REQUIRE(lesson.class_room);
  CHECK(lesson.place == 0);
  CHECK(session.app.focus.items.empty());  // no panel, no word to press
  CHECK(session.stage.gui().ui(session.app.focus).fonts.body->FontSize >= 24.0F);
  const int cards = static_cast<int>(session.app.lesson.taught->cards.size());
  int watched = 0;
  for (int i = 0; i < cards + 4 && (lesson.place < cards || !lesson.watching); ++i) {
    view::grant(session.app, LessonWish{LessonAct::Step, 1, {}});
    watched += lesson.watching ? 1 : 0;
  }
  CHECK(lesson.place == cards);
  CHECK(watched == 2);  // before the cladding, and at the end
  for (int i = 0; i < 40; ++i) view::frame(session.app, session.stage, session.screen, 1.0F / 25.0F);
  CHECK(wrote(session, "drop"));
  session.key(view::Key::PageUp);
  CHECK(lesson.place == cards);
  CHECK_FALSE(lesson.watching);
  session.key(view::Key::Escape);
  CHECK_FALSE(lesson.class_room);
  CHECK(lesson.on());
  CHECK(session.item("card membrane") != nullptr);
}

TEST_CASE("from inside no drop is drawn of a wall that sheds its water: what leaks into it is") {
  Session session(tests::demoJob("boatshed"));
  openLesson(session, "H1");
  shiftW(session);
  view::grant(session.app, view::Stand{view::StandingView::Inside});
  const auto told = [&] {
    bool any = false;
    for (int i = 0; i < 60; ++i) {
      view::frame(session.app, session.stage, session.screen, 1.0F / 25.0F);
      any = any || wrote(session, "drop");
    }
    return any;
  };
  CHECK_FALSE(told());
  view::grant(session.app, LessonWish{LessonAct::Try, 0, plan::WhatIf{plan::LeaveOutSheet{"head flashing"}}});
  CHECK(told());
}

TEST_CASE("drops run while they are wanted, and nothing is drawn once they are not") {
  Session session(tests::demoJob("workshop-window"));
  openLesson(session, "Y1");
  CHECK_FALSE(view::wantsFrame(session.app, session.stage));
  shiftW(session);
  REQUIRE(view::wantsFrame(session.app, session.stage));
  const int scenes = session.stage.scenesDrawn();
  const render::Image before = session.picture();
  for (int i = 0; i < 12; ++i) view::frame(session.app, session.stage, session.screen, 1.0F / 60.0F);
  CHECK(testing::differingShare(before, session.picture(), 24) > 0.0);
  CHECK(session.stage.scenesDrawn() == scenes);  // the drops run over a scene that stays

  // Only the box that they run in is drawn again, and the picture is as if all of it had been.
  CHECK(session.stage.shareRepainted() > 0.0F);
  CHECK(session.stage.shareRepainted() < 0.5F);
  const render::Image in_part = session.picture();
  for (int i = 0; i < 2; ++i) {
    session.app.shown.look.shadow = !session.app.shown.look.shadow;
    view::frame(session.app, session.stage, session.screen, 0.0F);
  }
  CHECK(session.stage.scenesDrawn() == scenes + 2);
  CHECK(session.stage.shareRepainted() == 1.0F);
  CHECK(testing::differingShare(in_part, session.picture(), 0) == 0.0);
}

TEST_CASE("a lap done wrong is chosen from the list, shows its leak in place, and is put right by one key") {
  Session session(tests::demoJob("boatshed"));
  openLesson(session, "H1");
  const auto version = session.app.version;
  session.type(U'q');
  session.settle();
  REQUIRE(session.clickItem("without head flashing"));
  CHECK(session.app.version != version);
  CHECK_FALSE(session.app.lesson.taught->water.leaks.empty());
  CHECK(wrote(session, "leak"));
  CHECK(session.app.lesson.taught->water_says.find("opening") != std::string::npos);
  CHECK(count(session, scene::PartKind::HeadFlashing, session.opening("H1")) == 0);
  session.key(view::Key::Backspace);
  CHECK(session.app.shown.lesson.what_ifs.empty());
  CHECK(session.app.lesson.taught->water.leaks.empty());
  CHECK_FALSE(wrote(session, "leak"));
  CHECK(count(session, scene::PartKind::HeadFlashing, session.opening("H1")) > 0);
  CHECK_FALSE(session.app.document->tried.has_value());
}

TEST_CASE("a flashing picked in the drawing leaves its own laps in the list: beside a mistake stands what is right") {
  Session session(tests::demoJob("boatshed"));
  openLesson(session, "H1");
  view::grant(session.app, LessonWish{LessonAct::Step, -1, {}});  // the cladding off again
  session.type(U'q');
  session.settle();
  const auto listed = [&] {
    std::vector<std::string> names;
    for (const view::Item& item : session.app.focus.items) {
      const bool is_choice =
          item.name.starts_with("swap ") || item.name.starts_with("without ") || item.name.starts_with("shorten ");
      if (is_choice) names.push_back(item.name);
    }
    return names;
  };
  const std::size_t all = listed().size();
  view::grant(session.app, view::Stand{view::StandingView::Outside});
  session.settle();
  const ImVec2 at = session.pixelOn(scene::PartKind::HeadFlashing);
  session.click(at.x, at.y);
  session.settle();
  CHECK(session.app.shown.lesson.about == "head flashing");
  CHECK(session.app.shown.opening == session.opening("H1"));
  const auto own = listed();
  CHECK(own.size() >= 2);
  CHECK(own.size() < all);
  for (const std::string& name : own) CHECK(name.find("head flashing") != std::string::npos);
  REQUIRE(session.clickItem("without head flashing"));
  session.settle();
  REQUIRE(session.app.lesson.right);
  CHECK_FALSE(session.app.lesson.taught->water.leaks.empty());
  CHECK(session.app.lesson.right->taught.water.leaks.size() < session.app.lesson.taught->water.leaks.size());
  REQUIRE(session.stage.lens());
  CHECK(session.stage.lens()->camera.yaw_degrees == session.app.shown.camera.yaw_degrees);
  const auto kinds = [&](const scene::Scene& scene) {
    return std::count_if(scene.solids.begin(), scene.solids.end(), [&](const scene::Solid& solid) {
      const scene::Part& part = scene.parts[solid.part];
      return part.kind == scene::PartKind::HeadFlashing && part.opening == session.opening("H1");
    });
  };
  CHECK(kinds(session.stage.lens()->scene) > kinds(session.app.document->scene));
  session.key(view::Key::Backspace);
  CHECK_FALSE(session.app.lesson.right);
}

TEST_CASE("each choice of a list can be made, and two that exclude each other are told") {
  Session session(tests::demoJob("boatshed"));
  openLesson(session, "H1");
  const auto choices = session.app.lesson.taught->choices;
  REQUIRE(choices.size() > 10);
  for (const document::Choice& choice : choices) {
    CAPTURE(choice.words);
    view::grant(session.app, LessonWish{LessonAct::Try, 0, choice.what_if});
    CHECK(session.app.lesson.taught->refusal.empty());
    CHECK(session.app.lesson.taught->skin_changed);
    view::grant(session.app, LessonWish{LessonAct::PutBack, 0, {}});
  }
  view::grant(session.app, LessonWish{LessonAct::Try, 0, plan::WhatIf{plan::LeaveOutSheet{"head flashing"}}});
  view::grant(session.app, LessonWish{LessonAct::Try, 0, plan::WhatIf{plan::SwapSheets{"fin", "head flashing"}}});
  CHECK_FALSE(session.app.lesson.taught->refusal.empty());
}

TEST_CASE("an exercise: shuffled cards are put in order by hand and answered for") {
  Session session(tests::demoJob("boatshed"));
  openLesson(session, "H1");
  const auto right = session.app.lesson.taught->cards;
  session.type(U'x');
  session.settle();
  REQUIRE(session.app.shown.lesson.exercise.has_value());
  CHECK(session.app.lesson.taught->cards != right);
  REQUIRE(session.clickItem("answer"));
  CHECK_FALSE(session.app.lesson.taught->faults.empty());
  // By hand, as a trainee does it: a card, then the place it belongs to.
  for (std::size_t place = 0; place < right.size(); ++place) {
    const auto& cards = session.app.lesson.taught->cards;
    if (cards[place] == right[place]) continue;
    REQUIRE(session.clickItem(std::string("card ") + plan::toWord(right[place])));
    REQUIRE(session.clickItem(std::string("card ") + plan::toWord(session.app.lesson.taught->cards[place])));
  }
  CHECK(session.app.lesson.taught->cards == right);
  REQUIRE(session.clickItem("answer"));
  CHECK(session.app.lesson.taught->faults.empty());
  CHECK(session.app.lesson.taught->water.leaks.empty());
  session.type(U'x');
  session.settle();
  CHECK_FALSE(session.app.shown.lesson.exercise.has_value());
}

TEST_CASE("a membrane put on last lets the water in, and the exercise says so") {
  const document::Document document = demo("boatshed");
  std::size_t index = 0;
  while (document.job.openings[index].name != "H1") ++index;
  Lesson lesson;
  lesson.opening = static_cast<std::int32_t>(index);
  lesson.place = stepsOf(document, index);
  document::Exercise exercise;
  exercise.order = plan::stepsAt(document.plan.openings[index]);
  const auto membrane = std::find(exercise.order.begin(), exercise.order.end(), plan::StepKind::Membrane);
  std::rotate(membrane, membrane + 1, exercise.order.end());
  exercise.judged = true;
  lesson.exercise = exercise;
  const document::Taught taught = document::teach(document, lesson);
  CHECK(taught.skin_changed);
  CHECK_FALSE(taught.faults.empty());
}

TEST_CASE("rounds of an exercise differ, are never in order, and hold every card once") {
  const document::Document document = demo("boatshed");
  const auto right = plan::stepsAt(document.plan.openings[0]);
  auto before = document::shuffled(right, 0);
  for (std::uint32_t round = 1; round < 50; ++round) {
    const auto cards = document::shuffled(right, round);
    CHECK(cards != right);
    CHECK(cards != before);
    CHECK(cards == document::shuffled(right, round));
    auto sorted = cards;
    std::sort(sorted.begin(), sorted.end());
    CHECK(sorted == right);
    before = cards;
  }
}

TEST_CASE("a moved card pushes the others along") {
  using plan::StepKind;
  std::vector<StepKind> cards{StepKind::Membrane, StepKind::PackSill, StepKind::FirstJamb, StepKind::LiftIn};
  document::moveCard(cards, 0, 2);
  CHECK(cards == std::vector<StepKind>{StepKind::PackSill, StepKind::FirstJamb, StepKind::Membrane, StepKind::LiftIn});
  document::moveCard(cards, 2, 0);
  CHECK(cards == std::vector<StepKind>{StepKind::Membrane, StepKind::PackSill, StepKind::FirstJamb, StepKind::LiftIn});
  document::moveCard(cards, 1, 9);
  CHECK(cards[1] == StepKind::PackSill);
}

TEST_CASE("layers are pulled apart by key and by the slider, and picked where they are shown") {
  Session session(tests::demoJob("workshop-window"));
  session.type(U'v');
  session.settle();
  CHECK(session.app.shown.look.spread == 60.0F);
  view::grant(session.app, view::PullApart{10'000.0F});
  CHECK(session.app.shown.look.spread == view::kMostSpread);
  session.type(U'v');
  session.settle();
  CHECK(session.app.shown.look.spread == 0.0F);
  openLesson(session, "Y1");
  const view::Item* slider = session.item("pull apart");
  REQUIRE(slider != nullptr);
  const ImVec2 from{slider->low.x + 2.0F, (slider->low.y + slider->high.y) / 2};
  session.drag(view::Button::Left, from, {slider->high.x - 2.0F, from.y});
  CHECK(session.app.shown.look.spread > 0.9F * view::kMostSpread);
}

TEST_CASE("the strip, the sheet and the foot keep clear of each other at every size of window and text") {
  for (const auto& [width, height, scale] : {std::tuple{1280, 800, 1.0F}, {1920, 1080, 1.0F}, {1280, 800, 1.5F}}) {
    Session session(tests::demoJob("boatshed"), width, height, scale);
    openLesson(session, "H1");
    const view::Layout& at = session.app.layout;
    CAPTURE(width, height, scale);
    CHECK(at.lesson_at.y + at.lesson_size.y <= at.foot_at.y);
    CHECK(at.sheet_at.y + at.most_height <= at.lesson_at.y);
    CHECK(at.most_height > 0.35F * static_cast<float>(height));
    for (const view::Item& item : session.app.focus.items) {
      CAPTURE(item.name);
      if (item.name.rfind("card ", 0) != 0) continue;
      CHECK(item.low.x >= at.lesson_at.x);
      CHECK(item.high.x <= at.lesson_at.x + at.lesson_size.x);
      CHECK(item.high.y <= at.lesson_at.y + at.lesson_size.y);
    }
  }
}

TEST_CASE("a card holds its words whole, at every usual size of window and text") {
  struct Size {
    int width, height;
    float text;
  };
  for (const Size size : {Size{1280, 800, 1.0F}, Size{1280, 800, 1.5F}, Size{1024, 768, 1.0F}, Size{1920, 1080, 1.0F},
                          Size{1920, 1080, 1.5F}}) {
    Session viewer(tests::demoJob("boatshed"), size.width, size.height, size.text);
    for (const char* opening : {"J2", "H1"}) {
      openLesson(viewer, opening);
      const view::Ui ui = viewer.stage.gui().ui(viewer.app.focus);
      const document::Taught& taught = *viewer.app.lesson.taught;
      std::size_t cards = 0;
      for (const auto& item : viewer.app.focus.items) {
        if (!item.name.starts_with("card ")) continue;
        ++cards;
        const auto kind = std::find_if(taught.cards.begin(), taught.cards.end(), [&](plan::StepKind each) {
          return item.name == std::string("card ") + plan::toWord(each);
        });
        REQUIRE(kind != taught.cards.end());
        const std::string& title = taught.step(*kind).title;
        const float wide = item.high.x - item.low.x - 2.0F * ui.px(5.0F);
        const ImFont& font = *ui.fonts.small;
        const ImVec2 words = font.CalcTextSizeA(font.FontSize, 1e6F, wide, title.c_str());
        CAPTURE(size.width, size.text, opening, title);
        CHECK(words.x <= wide + 1.0F);
        CHECK(words.y <= 3.0F * font.FontSize + 1.0F);
      }
      CHECK(cards == taught.cards.size());
      viewer.type(U'w');
      viewer.settle();
    }
  }
}
