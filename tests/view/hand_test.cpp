// The pointer in the drawing, by real events through the queue.

#include <cmath>

#include "scene/scene.h"
#include "session.h"
#include "support/catch.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using tests::Session;

namespace {

/// The world's point under a pixel of the drawing where something is drawn.
glm::vec3 pointUnder(const Session& session, ImVec2 pixel) {
  const auto hit = session.hit(pixel);
  REQUIRE(hit);
  return hit->point;
}

}  // namespace

TEST_CASE("a drag turns the house about the point it began on") {
  Session session(tests::demoJob("boatshed"));
  const ImVec2 pixel = session.pixelOn(scene::PartKind::CladdingBoard);
  const glm::vec3 held = pointUnder(session, pixel);
  const float yaw = session.app.shown.camera.yaw_degrees;
  session.drag(view::Button::Left, pixel, {pixel.x + 140.0F, pixel.y - 30.0F});
  const ImVec2 after = session.project(held);
  CHECK_THAT(after.x, WithinAbs(pixel.x, 1.0));
  CHECK_THAT(after.y, WithinAbs(pixel.y, 1.0));
  CHECK(std::abs(session.app.shown.camera.yaw_degrees - yaw) > 10.0F);
}

TEST_CASE("how a drag ends does not depend on how many moves it came in") {
  Session slow(tests::demoJob("boatshed"));
  const ImVec2 pixel = slow.pixelOn(scene::PartKind::CladdingBoard);
  slow.drag(view::Button::Left, pixel, {pixel.x + 91.0F, pixel.y + 17.0F});
  const render::Camera camera = slow.app.shown.camera;
  slow.app.eye.placed = false;  // back to where it began
  slow.app.input.push(view::Moved{1.0F, 1.0F});
  slow.settle();
  slow.move(pixel.x, pixel.y);
  slow.press(view::Button::Left);
  slow.move(pixel.x + 91.0F, pixel.y + 17.0F);
  slow.release(view::Button::Left);
  slow.settle();
  CHECK_THAT(slow.app.shown.camera.yaw_degrees, WithinAbs(camera.yaw_degrees, 1e-3));
  CHECK_THAT(slow.app.shown.camera.pitch_degrees, WithinAbs(camera.pitch_degrees, 1e-3));
  CHECK(glm::distance(slow.app.shown.camera.target, camera.target) < 0.5F);
}

TEST_CASE("the right button slides the house with the pointer, and so does Shift") {
  Session session(tests::demoJob("boatshed"));
  const bool by_shift = GENERATE(false, true);
  const ImVec2 pixel = session.pixelOn(scene::PartKind::CladdingBoard);
  const glm::vec3 held = pointUnder(session, pixel);
  const ImVec2 to{pixel.x - 60.0F, pixel.y + 45.0F};
  session.drag(by_shift ? view::Button::Left : view::Button::Right, pixel, to, {.shift = by_shift});
  const ImVec2 after = session.project(held);
  CHECK_THAT(after.x, WithinAbs(to.x, 1.0));
  CHECK_THAT(after.y, WithinAbs(to.y, 1.0));
}

TEST_CASE("the wheel brings the eye nearer to what is under the pointer") {
  Session session(tests::demoJob("boatshed"));
  const ImVec2 pixel = session.pixelOn(scene::PartKind::CladdingBoard);
  const glm::vec3 towards = pointUnder(session, pixel);
  const float distance = session.app.shown.camera.distance;
  session.move(pixel.x, pixel.y);
  session.wheel(3.0F);
  session.settle();
  CHECK(session.app.shown.camera.distance < distance * 0.7F);
  const ImVec2 after = session.project(towards);
  CHECK_THAT(after.x, WithinAbs(pixel.x, 1.0));
  CHECK_THAT(after.y, WithinAbs(pixel.y, 1.0));
}

TEST_CASE("a click on an opening's unit picks the opening and stays where it is") {
  Session session(tests::demoJob("boatshed"));
  const render::Camera before = session.app.shown.camera;
  const ImVec2 pixel = session.pixelOn(scene::PartKind::GlassPane);
  const auto part = session.hit(pixel)->part;
  session.click(pixel.x, pixel.y);
  CHECK(session.app.shown.opening == session.app.document->scene.parts[part].opening);
  CHECK(session.app.shown.opening >= 0);
  CHECK(session.app.shown.camera == before);
}

TEST_CASE("a click beside the house lets go") {
  Session session(tests::demoJob("boatshed"));
  session.type(U'n');
  session.settle();
  REQUIRE(session.app.shown.opening == 0);
  session.type(U'f');
  session.settle();
  const view::Canvas& canvas = session.app.layout.canvas;
  const ImVec2 corner{canvas.left + 8.0F, 8.0F};
  REQUIRE_FALSE(session.hit(corner));
  session.click(corner.x, corner.y);
  CHECK(session.app.shown.opening == -1);
}

TEST_CASE("hovering a stud says what it is and why it is there") {
  Session session(tests::demoJob("boatshed"));
  for (const scene::Layer layer : {scene::Layer::Cladding, scene::Layer::Membrane, scene::Layer::Lining}) {
    session.app.shown.look.hidden_layers |= 1U << static_cast<unsigned>(layer);
  }
  const ImVec2 pixel = session.pixelOn(scene::PartKind::CommonStud);
  session.move(pixel.x, pixel.y);
  session.settle();
  REQUIRE(session.app.shown.look.hovered_part >= 0);
  REQUIRE(session.stage.seen.card);
  // "stud" in the practice's words; 90 × 45 is the section that the job file gives its studs.
  CHECK(session.stage.seen.card->title.find(session.app.document->practice->words.stud) != std::string::npos);
  CHECK(session.stage.seen.card->title.find("90") != std::string::npos);
  CHECK(session.stage.seen.card->title.find("45") != std::string::npos);
  CHECK_FALSE(session.stage.seen.card->body.empty());
}

TEST_CASE("over a panel nothing of the drawing is hovered, turned or picked") {
  Session session(tests::demoJob("boatshed"));
  const render::Camera before = session.app.shown.camera;
  session.drag(view::Button::Left, {60.0F, 30.0F}, {160.0F, 60.0F});
  session.move(60.0F, 30.0F);
  session.settle();
  CHECK(session.app.shown.look.hovered_part < 0);
  CHECK(session.app.shown.camera == before);
}
