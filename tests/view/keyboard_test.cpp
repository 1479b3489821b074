// Everything that the pointer can do to panels and views can be done by keys.

#include <set>
#include <string>

#include "session.h"
#include "support/catch.h"
#include "support/pictures.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using tests::Session;

namespace {

void press(Session& session, char32_t letter) {
  session.type(letter);
  session.settle();
}

}  // namespace

TEST_CASE("each letter of a view takes the eye there") {
  Session session(tests::demoJob("boatshed"));
  press(session, U'n');
  std::set<std::string> seen;
  for (const char32_t letter : U"foialrhsjc") {
    if (letter == 0) continue;
    press(session, letter);
    const render::Camera& camera = session.app.shown.camera;
    seen.insert(std::to_string(static_cast<int>(camera.yaw_degrees)) + " " +
                std::to_string(static_cast<int>(camera.pitch_degrees)) + " " +
                std::to_string(static_cast<int>(camera.distance)) + " " +
                std::to_string(static_cast<int>(camera.target.x)) + " " +
                std::to_string(static_cast<int>(camera.target.z)));
  }
  CHECK(seen.size() == 10);
}

TEST_CASE("capitals and small letters are one key") {
  Session session(tests::demoJob("boatshed"));
  press(session, U'O');
  const render::Camera capital = session.app.shown.camera;
  press(session, U'F');
  press(session, U'o');
  CHECK(session.app.shown.camera == capital);
}

TEST_CASE("N and B go through all openings and round the end") {
  Session session(tests::demoJob("boatshed"));
  const auto count = static_cast<int>(session.app.document->job.openings.size());
  for (int i = 0; i < count; ++i) {
    press(session, U'n');
    CHECK(session.app.shown.opening == i);
  }
  press(session, U'n');
  CHECK(session.app.shown.opening == 0);
  press(session, U'b');
  CHECK(session.app.shown.opening == count - 1);
}

TEST_CASE("each layer's key hides it and shows it again") {
  Session session(tests::demoJob("boatshed"));
  const render::Image before = session.picture();
  press(session, U'2');
  CHECK(session.app.shown.look.hidden_layers == 1U << static_cast<unsigned>(scene::Layer::Cladding));
  CHECK(testing::differingShare(before, session.picture(), 8) > 0.03);
  press(session, U'2');
  CHECK(session.app.shown.look.hidden_layers == 0);
  CHECK(testing::differingShare(before, session.picture(), 0) == 0.0);
}

TEST_CASE("Tab goes through everything that can be picked and back to the drawing") {
  Session session(tests::demoJob("boatshed"));
  press(session, U'n');
  const std::size_t count = session.app.focus.items.size();
  CHECK(count > 30);
  std::set<ImGuiID> met;
  for (std::size_t i = 0; i < count; ++i) {
    session.key(view::Key::Tab);
    REQUIRE(session.app.focus.at != 0);
    met.insert(session.app.focus.at);
  }
  CHECK(met.size() == count);
  session.key(view::Key::Tab);
  CHECK(session.app.focus.at == 0);
  session.key(view::Key::Tab, {.shift = true});
  CHECK(session.app.focus.at == session.app.focus.items.back().id);
}

TEST_CASE("what Tab comes to is brought into sight") {
  Session session(tests::demoJob("boatshed"), 1280, 800, 1.5F);
  press(session, U'n');
  const std::size_t count = session.app.focus.items.size();
  for (std::size_t i = 0; i < count; ++i) {
    session.key(view::Key::Tab);
    for (const view::Item& item : session.app.focus.items) {
      if (item.id != session.app.focus.at) continue;
      INFO(item.name);
      CHECK(item.low.y >= 0.0F);
      CHECK(item.high.y <= 800.0F);
    }
  }
}

TEST_CASE("Enter on an opening in the strip picks it") {
  Session session(tests::demoJob("boatshed"));
  const view::Item* wanted = session.item("opening J2");
  REQUIRE(wanted != nullptr);
  const ImGuiID id = wanted->id;
  for (std::size_t i = 0; session.app.focus.at != id && i < session.app.focus.items.size(); ++i) {
    session.key(view::Key::Tab);
  }
  REQUIRE(session.app.focus.at == id);
  session.key(view::Key::Enter);
  CHECK(session.app.shown.opening == session.opening("J2"));
}

TEST_CASE("a row with a source tells it to the keyboard as to the pointer") {
  Session session(tests::demoJob("boatshed"));
  press(session, U'n');
  const view::Item* wanted = session.item("left stud out of plumb");
  REQUIRE(wanted != nullptr);
  session.app.focus.at = wanted->id;
  session.app.input.push(view::KeyChanged{view::Key::Ctrl, true, {}});
  session.settle();
  REQUIRE(session.stage.seen.card);
  CHECK(session.stage.seen.card->title.find("limit") != std::string::npos);
  CHECK_FALSE(session.stage.seen.card->source.empty());
}

TEST_CASE("Ctrl with plus, minus and nought sets the size of the text") {
  Session session(tests::demoJob("boatshed"));
  const auto heightOfWord = [&]() {
    const view::Item* word = session.item("outside");
    REQUIRE(word != nullptr);
    return word->high.y - word->low.y;
  };
  const float before = heightOfWord();
  for (int i = 0; i < 4; ++i) session.key(view::Key::Plus, {.ctrl = true});
  CHECK(session.app.shown.text_scale > 1.3F);
  CHECK(heightOfWord() > before * 1.25F);
  session.key(view::Key::Minus, {.ctrl = true});
  CHECK(session.app.shown.text_scale < 1.4F);
  session.key(view::Key::Digit0, {.ctrl = true});
  CHECK(session.app.shown.text_scale == 1.0F);
  CHECK_THAT(heightOfWord(), WithinAbs(before, 0.01));
  for (int i = 0; i < 40; ++i) session.key(view::Key::Plus, {.ctrl = true});
  CHECK(session.app.shown.text_scale == view::kMostTextScale);
}

TEST_CASE("Escape lets go of one thing at a time") {
  Session session(tests::demoJob("boatshed"));
  press(session, U'n');
  press(session, U'y');
  press(session, U'?');
  CHECK(session.app.shown.keys_open);
  session.key(view::Key::Escape);
  CHECK_FALSE(session.app.shown.keys_open);
  CHECK(session.app.shown.layers_open);
  session.key(view::Key::Escape);
  CHECK_FALSE(session.app.shown.layers_open);
  CHECK(session.app.shown.opening == 0);
  session.key(view::Key::Escape);
  CHECK(session.app.shown.opening == -1);
}

TEST_CASE("arrows turn, with Shift they slide, and plus and minus go nearer and further") {
  Session session(tests::demoJob("boatshed"));
  const render::Camera start = session.app.shown.camera;
  session.key(view::Key::Right);
  CHECK(session.app.shown.camera.yaw_degrees != start.yaw_degrees);
  CHECK(session.app.shown.camera.target == start.target);
  session.key(view::Key::Left);
  CHECK_THAT(session.app.shown.camera.yaw_degrees, WithinAbs(start.yaw_degrees, 1e-3));
  session.key(view::Key::Up, {.shift = true});
  CHECK(session.app.shown.camera.target != start.target);
  press(session, U'+');
  CHECK(session.app.shown.camera.distance < start.distance);
  press(session, U'-');
  CHECK_THAT(session.app.shown.camera.distance, WithinAbs(start.distance, 1.0));
}

TEST_CASE("letters with Ctrl are not taken for views") {
  Session session(tests::demoJob("boatshed"));
  const render::Camera start = session.app.shown.camera;
  session.app.input.push(view::KeyChanged{view::Key::O, true, {.ctrl = true}});
  session.type(U'o');
  session.settle();
  CHECK(session.app.shown.camera == start);
}

TEST_CASE("Ctrl Q closes") {
  Session session(tests::demoJob("boatshed"));
  CHECK_FALSE(session.app.closing);
  session.key(view::Key::Q, {.ctrl = true});
  CHECK(session.app.closing);
}
