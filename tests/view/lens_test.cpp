// The lens: a corner in its true size. Whole frames off-screen.

#include <cmath>

#include "session.h"
#include "support/catch.h"
#include "support/pictures.h"
#include "view/marks/marks.h"

using namespace sillwright;
using tests::demoJob;
using tests::Session;

namespace {

struct AtWindow : Session {
  AtWindow() : Session(demoJob("boatshed")) {
    view::grant(app, view::PickOpening{opening("J2"), true});
    view::grant(app, view::Stand{view::StandingView::Inside});
    view::disturb(app);
    settle();
  }
};

}  // namespace

TEST_CASE("a millimetre of the lens is a millimetre of the screen") {
  // CSS Values and Units 4, 5.2: 1in = 2.54cm = 96px.
  CHECK(view::pixelsPerMm(1.0F) == Approx(96 / 25.4));
  AtWindow viewer;
  viewer.type(U'u');
  viewer.settle();
  REQUIRE(viewer.stage.lens());
  const render::Camera& camera = viewer.stage.lens()->camera;
  const float side = viewer.stage.lensKey().mm * view::pixelsPerMm(1.0F);
  const glm::vec3 from = render::project(camera, camera.target, side, side);
  const glm::vec3 to = render::project(camera, camera.target + camera.right() * 10.0F, side, side);
  CHECK(to.x - from.x == Approx(10 * 96 / 25.4).margin(0.01));
  // At any depth: it is drawn in parallel.
  const glm::vec3 behind = render::project(camera, camera.target + camera.forward() * 60.0F, side, side);
  CHECK(behind.x == Approx(from.x).margin(0.01));
}

TEST_CASE("the lens goes round the corners, shows each, and is put away") {
  AtWindow viewer;
  const render::Image without = viewer.picture();
  std::vector<render::Image> seen;
  for (int i = 0; i < 4; ++i) {
    viewer.type(U'u');
    viewer.settle();
    REQUIRE(viewer.app.shown.lens);
    CHECK(static_cast<int>(*viewer.app.shown.lens) == i);
    seen.push_back(viewer.picture());
    CHECK(testing::differingShare(without, seen.back(), 8) > 0.02);
    CHECK(testing::differingShare(without, seen.back(), 8) < 0.10);  // it covers a corner of the window
    if (i > 0) CHECK(testing::differingShare(seen[static_cast<std::size_t>(i) - 1], seen.back(), 8) > 0.01);
  }
  viewer.type(U'u');
  viewer.settle();
  CHECK_FALSE(viewer.app.shown.lens);
  CHECK(testing::differingShare(without, viewer.picture(), 8) < 0.001);
  CHECK(viewer.settle() == 0);
}

TEST_CASE("the lens tells the gaps of its corner, and deviations drawn larger leave it as it is") {
  AtWindow viewer;
  const auto& gaps = viewer.app.document->plan.openings[static_cast<std::size_t>(viewer.app.shown.opening)].stand.gaps;
  viewer.type(U'u');
  viewer.settle();
  const auto index = static_cast<std::size_t>(viewer.app.shown.opening);
  const std::string figures = view::lensFigures(*viewer.app.document, index, plan::Corner::BL);
  CHECK(figures.find("gap " + std::to_string(static_cast<int>(std::lround(gaps.left[0]))) + " left") == 0);
  const glm::vec3 target = viewer.stage.lens()->camera.target;
  std::vector<glm::vec3> packers;
  const auto packersIn = [&]() {
    std::vector<glm::vec3> corners;
    for (const scene::Solid& solid : viewer.stage.lens()->scene.solids) {
      if (viewer.stage.lens()->scene.parts[solid.part].kind == scene::PartKind::Packer)
        corners.push_back(solid.corner[0]);
    }
    return corners;
  };
  packers = packersIn();
  REQUIRE_FALSE(packers.empty());
  view::grant(viewer.app, view::Magnify{10.0});
  viewer.settle();
  CHECK(viewer.app.document->drawn_deviation > 5);
  CHECK(glm::distance(viewer.stage.lens()->camera.target, target) < 0.01F);
  const auto now = packersIn();
  REQUIRE(now.size() == packers.size());
  for (std::size_t i = 0; i < now.size(); ++i) CHECK(glm::distance(now[i], packers[i]) < 0.01F);
}

TEST_CASE("without a picked opening the lens says what it wants") {
  Session session(demoJob("boatshed"));
  session.type(U'u');
  session.settle();
  CHECK_FALSE(session.app.shown.lens);
  CHECK(session.app.notice.words.find("pick an opening first") != std::string::npos);
}
