// Corners as built, dragged: the readings that tell of them follow. Whole frames off-screen.

#include "at_opening.h"
#include "support/catch.h"

using namespace sillwright;
using tests::AtOpening;
using tests::kPixel;

namespace {

/// A corner of the opening as it was built, and its handle.
struct BuiltCorner {
  AtOpening& viewer;
  plan::Corner corner;

  [[nodiscard]] plan::Point at() const {
    return viewer.app.document->plan.openings[viewer.index].as_built.shape.corner[static_cast<std::size_t>(corner)];
  }
  [[nodiscard]] const view::Handle* handle() const {
    for (const view::Handle& each : viewer.app.pointed.handles) {
      if (each.corner && each.corner->corner == corner) return &each;
    }
    return nullptr;
  }
  /// Drags it so far as it is drawn, mm.
  void pull(float along, float up) const {
    const view::Handle& held = *handle();
    const auto& wall = viewer.app.document->scene.walls[viewer.at().wall];
    const ImVec2 from = viewer.project(held.at);
    const ImVec2 to = viewer.project(held.at + wall.along * along + glm::vec3(0, 0, up));
    viewer.drag(view::Button::Left, from, to);
  }
};

}  // namespace

TEST_CASE("a corner as built is dragged, and the readings that tell of it follow") {
  AtOpening viewer;
  const BuiltCorner corner{viewer, plan::Corner::TR};
  const plan::Point before = corner.at();
  const job::Measured readings = *viewer.at().measured;
  REQUIRE(corner.handle() != nullptr);
  corner.pull(16, -24);
  CHECK(corner.at().x == Approx(before.x + 16).margin(kPixel + 0.2));
  CHECK(corner.at().z == Approx(before.z - 24).margin(kPixel + 0.2));
  const job::Measured& now = *viewer.at().measured;
  CHECK(*now.widths[2] > *readings.widths[2]);       // the top width ends there
  CHECK(now.widths[0] == readings.widths[0]);        // the bottom one doesn't
  CHECK(now.heights[0] == readings.heights[0]);      // nor the left height
  CHECK(*now.heights[2] < *readings.heights[2]);     // the right one does
  CHECK(now.diagonals[1] == readings.diagonals[1]);  // and the falling diagonal runs between the other two
  CHECK(*now.out_of_plumb[1] > *readings.out_of_plumb[1]);
  CHECK(viewer.app.history.name(0).find("upper right corner of J2 as built to ") == 0);
  viewer.key(view::Key::Z, {.ctrl = true});
  CHECK(*viewer.at().measured == readings);
}

TEST_CASE("a corner that is drawn ten times as far off is moved a tenth of what the hand moves") {
  AtOpening viewer;
  view::grant(viewer.app, view::Magnify{10.0});
  viewer.settle();
  REQUIRE(viewer.app.document->drawn_deviation == Approx(10.0));
  const BuiltCorner corner{viewer, plan::Corner::BR};
  const plan::Point before = corner.at();
  corner.pull(40, 0);
  CHECK(corner.at().x == Approx(before.x + 4).margin(0.6));
  CHECK(corner.at().z == Approx(before.z).margin(0.6));
}

TEST_CASE("where nothing was read there is no built corner to drag, and where too little was read that is said") {
  {
    AtOpening viewer;
    viewer.app.document->job.openings[viewer.index].measured.reset();
    view::followJob(viewer.app);
    viewer.settle();
    REQUIRE_FALSE(viewer.app.pointed.handles.empty());
    for (const view::Handle& each : viewer.app.pointed.handles) CHECK_FALSE(each.corner.has_value());
  }
  AtOpening viewer;
  job::Measured one;
  one.widths[0] = 1530;
  viewer.app.document->job.openings[viewer.index].measured = one;
  view::followJob(viewer.app);
  viewer.settle();
  const BuiltCorner corner{viewer, plan::Corner::TL};
  REQUIRE(corner.handle() != nullptr);
  const job::Job job = viewer.app.document->job;
  const ImVec2 from = viewer.project(corner.handle()->at);
  viewer.move(from.x, from.y);
  viewer.press(view::Button::Left);
  viewer.move(from.x + 20, from.y);
  viewer.settle();
  REQUIRE(viewer.app.pull);
  CHECK(viewer.app.pull->refusal == "nothing was measured there");
  viewer.release(view::Button::Left);
  viewer.settle();
  CHECK(viewer.app.document->job == job);
}
