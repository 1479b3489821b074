// A viewer at rest draws nothing, and one in motion comes to rest.

#include "session.h"
#include "support/catch.h"
#include "support/pictures.h"

using namespace sillwright;
using tests::Session;

TEST_CASE("nothing is drawn while nothing changes") {
  Session session(tests::demoJob("boatshed"));
  CHECK_FALSE(view::wantsFrame(session.app, session.stage));
  CHECK(session.settle() == 0);
}

TEST_CASE("a move of the pointer is a few frames and at most one new drawing") {
  Session session(tests::demoJob("boatshed"));
  session.move(600.0F, 10.0F);
  session.settle();
  const int scenes = session.stage.scenesDrawn();
  session.move(620.0F, 12.0F);
  const int frames = session.settle();
  CHECK(frames >= 1);
  CHECK(frames <= 5);
  CHECK(session.stage.scenesDrawn() == scenes);  // ground before, ground after
  CHECK(session.settle() == 0);
}

TEST_CASE("panels change without the house being drawn again") {
  Session session(tests::demoJob("boatshed"));
  const int scenes = session.stage.scenesDrawn();
  session.type(U'?');
  CHECK(session.settle() > 0);
  CHECK(session.stage.scenesDrawn() == scenes);
}

TEST_CASE("a flight takes its time and ends in a picture at rest") {
  Session session(tests::demoJob("boatshed"));
  session.app.eye.instant = false;
  session.type(U'a');
  const int frames = session.settle();
  // kFlightSeconds at sixty frames a second, and the frames that panels take to settle.
  CHECK(frames >= static_cast<int>(view::kFlightSeconds * 60.0F));
  CHECK(frames <= static_cast<int>(view::kFlightSeconds * 60.0F) + 10);
  CHECK_FALSE(session.stage.wantsRefining());
  const render::Image flown = session.picture();
  CHECK(session.settle() == 0);

  Session other(tests::demoJob("boatshed"));
  other.type(U'a');
  other.settle();
  CHECK(testing::differingShare(flown, other.picture(), 2) < 0.001);
}

TEST_CASE("a hand on the house stops a flight") {
  Session session(tests::demoJob("boatshed"));
  session.app.eye.instant = false;
  session.type(U'a');
  for (int i = 0; i < 5; ++i) view::frame(session.app, session.stage, session.screen, 1.0F / 60.0F);
  CHECK(session.app.eye.flight.flying());
  session.move(640.0F, 300.0F);
  session.press(view::Button::Left);
  for (int i = 0; i < 3; ++i) view::frame(session.app, session.stage, session.screen, 1.0F / 60.0F);
  CHECK_FALSE(session.app.eye.flight.flying());
  CHECK(session.app.shown.camera.pitch_degrees < 85.0F);
}

TEST_CASE("a hand that holds the house still has a picture at rest") {
  Session session(tests::demoJob("boatshed"));
  session.move(640.0F, 400.0F);
  session.press(view::Button::Left);
  session.move(660.0F, 400.0F);
  session.settle();
  CHECK(session.app.hand.dragging);
  CHECK_FALSE(session.stage.wantsRefining());
  CHECK(session.settle() == 0);
  session.release(view::Button::Left);
  session.settle();
  CHECK_FALSE(session.app.hand.dragging);
}

TEST_CASE("the same events make the same picture") {
  const auto run = [] {
    Session session(tests::demoJob("boatshed"), 800, 600);
    session.type(U'n');
    session.settle();
    session.drag(view::Button::Left, {420.0F, 300.0F}, {470.0F, 320.0F});
    session.type(U'2');
    session.settle();
    return session.picture();
  };
  CHECK(testing::differingShare(run(), run(), 0) == 0.0);
}

namespace {

/// The picture as it is with all of it drawn anew, and the hand where it was.
render::Image drawnAnew(Session& session) {
  for (int i = 0; i < 2; ++i) {
    session.app.shown.look.dark = !session.app.shown.look.dark;
    view::disturb(session.app);
    session.settle();
  }
  return session.picture();
}

}  // namespace

TEST_CASE("a drag draws little of the picture, and what stands there is the whole picture's pixel for pixel") {
  Session session(tests::demoJob("boatshed"));
  session.stage.hurried = false;
  // An opening that was measured, of which nothing is seen to change but the marks; and one that wasn't.
  for (const std::int32_t opening : {session.opening("J1"), session.opening("J2")}) {
    if (opening == session.opening("J2")) session.app.document->job.openings[1].measured.reset();
    view::grant(session.app, view::PickOpening{opening, true});
    view::disturb(session.app);
    session.settle();
    const auto& handles = session.app.pointed.handles;
    const auto handle = std::find_if(handles.begin(), handles.end(), [](const view::Handle& each) {
      return !each.dimensions.empty() && each.dimensions.front().kind == view::DimensionKind::Width;
    });
    REQUIRE(handle != handles.end());
    const ImVec2 at = session.project(handle->at);
    session.move(at.x, at.y);
    session.settle();
    session.press(view::Button::Left);
    for (const float by : {3.0F, 5.0F, -9.0F, 14.0F}) {
      session.move(at.x + by, at.y);
      view::frame(session.app, session.stage, session.screen, 1.0F / 60.0F);
    }
    float drawn = 0.0F;
    for (const render::PixelBox& box : session.stage.counts().boxes) drawn += render::areaOf(box);
    CHECK(drawn < (opening == session.opening("J1") ? 0.35F : 0.8F) * 1280.0F * 800.0F);
    session.settle();
    const render::Image dragged = session.picture();
    CHECK(dragged.rgb == drawnAnew(session).rgb);
    session.release(view::Button::Left);
    session.settle();
  }
}
