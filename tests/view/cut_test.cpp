// The cutting plane worked by hand and by keys: whole frames off-screen.

#include "view/values/camera_control.h"

#include <algorithm>
#include <cmath>

#include "session.h"
#include "support/catch.h"
#include "support/pictures.h"

using namespace sillwright;
using tests::demoJob;
using tests::Session;
using view::CutAct;
using view::CutAxis;
using view::CutWish;

namespace {

struct AtOpening : Session {
  AtOpening() : Session(demoJob("boatshed")) {
    view::grant(app, view::PickOpening{opening("J2"), true});
    view::disturb(app);
    settle();
  }
  void key(char32_t letter) {
    type(letter);
    settle();
  }
  void shiftK() {
    app.input.push(view::KeyChanged{view::Key::K, true, {.shift = true}});
    app.input.push(view::Typed{U'K'});
    app.input.push(view::KeyChanged{view::Key::K, false, {.shift = true}});
    settle();
  }
  [[nodiscard]] const view::Cutting& cutting() const { return app.shown.cutting; }
  [[nodiscard]] ImVec2 handle() const {
    REQUIRE(app.cut.handle.has_value());
    return project(app.cut.handle->at);
  }
  /// Pixels that so many millimetres along the cut's axis make at its handle.
  [[nodiscard]] ImVec2 pixels(float mm) const {
    const ImVec2 from = handle();
    const ImVec2 to = project(app.cut.handle->at + app.cut.handle->along * mm);
    return {to.x - from.x, to.y - from.y};
  }
  /// The eye where it sees all three axes aslant.
  void standAslant() {
    view::grant(app, view::Turn{120.0F, 60.0F});
    view::disturb(app);
    settle();
  }
};

}  // namespace

TEST_CASE("K cuts through the picked opening's middle, along its wall, into it, level, and not at all") {
  AtOpening viewer;
  const auto& opening = viewer.app.document->job.openings[static_cast<std::size_t>(viewer.opening("J2"))];
  const auto& wall = viewer.app.document->scene.walls[opening.wall];
  viewer.standAslant();
  const render::Image whole = viewer.picture();
  const render::Camera before = viewer.app.shown.camera;
  const double expected[] = {opening.left + opening.width / 2, std::round(static_cast<double>(wall.depth) / 2),
                             opening.sill + opening.height / 2};
  for (std::size_t i = 0; i < 3; ++i) {
    viewer.key(U'k');
    REQUIRE(viewer.cutting().axis == static_cast<CutAxis>(i));
    CHECK(viewer.cutting().at == Approx(expected[i]).margin(0.5));
    CHECK(viewer.cutting().wall == static_cast<std::int32_t>(opening.wall));
    REQUIRE(viewer.app.shown.look.cut.has_value());
    CHECK(viewer.app.shown.look.cut->faces(viewer.app.shown.camera.eye()));  // what is before the eye goes
    CHECK(testing::differingShare(whole, viewer.picture(), 24) > 0.02);
    CHECK(viewer.item("no cut") != nullptr);
  }
  viewer.key(U'K');
  CHECK_FALSE(viewer.cutting().axis.has_value());
  CHECK(viewer.item("no cut") == nullptr);
  viewer.app.shown.camera = before;  // the eye has turned to each cut
  view::disturb(viewer.app);
  viewer.settle();
  CHECK(testing::differingShare(whole, viewer.picture(), 8) < 0.002);
}

TEST_CASE("the plane is dragged by its handle in whole millimetres, with Shift in tenths, and the house stays put") {
  AtOpening viewer;
  viewer.standAslant();
  for (const CutAxis axis : {CutAxis::X, CutAxis::Y, CutAxis::Z}) {
    view::grant(viewer.app, CutWish{CutAct::Along, axis});
    view::disturb(viewer.app);
    viewer.settle();
    const double before = viewer.cutting().at;
    const render::Camera eye = viewer.app.shown.camera;
    const job::Job job = viewer.app.document->job;
    const ImVec2 from = viewer.handle();
    const ImVec2 by = viewer.pixels(-40.0F);
    viewer.drag(view::Button::Left, from, {from.x + by.x, from.y + by.y});
    viewer.settle();
    CAPTURE(static_cast<int>(axis));
    CHECK(viewer.cutting().at == Approx(before - 40).margin(6));
    CHECK(viewer.cutting().at == std::round(viewer.cutting().at));
    CHECK(eye == viewer.app.shown.camera);
    CHECK(viewer.app.document->job == job);
    CHECK_FALSE(viewer.app.history.canUndo());
    CHECK_FALSE(viewer.app.pull.has_value());
  }
  const ImVec2 from = viewer.handle();
  const ImVec2 by = viewer.pixels(23.37F);
  viewer.drag(view::Button::Left, from, {from.x + by.x, from.y + by.y}, {.shift = true});
  viewer.settle();
  CHECK(viewer.cutting().at * 10 == Approx(std::round(viewer.cutting().at * 10)).margin(1e-6));
}

TEST_CASE("a figure is typed while the plane is held, Escape puts it back, out of the house is refused") {
  AtOpening viewer;
  viewer.standAslant();
  viewer.key(U'k');
  const double before = viewer.cutting().at;
  const ImVec2 at = viewer.handle();
  const auto takeUp = [&] {
    viewer.move(at.x, at.y);
    viewer.press(view::Button::Left);
    viewer.settle();
    REQUIRE(viewer.app.pull.has_value());
  };
  takeUp();
  viewer.write("5012.5");
  CHECK(viewer.cutting().at == 5012.5);
  viewer.Session::key(view::Key::Escape);
  CHECK(viewer.cutting().at == before);
  CHECK_FALSE(viewer.app.pull.has_value());
  viewer.release(view::Button::Left);
  viewer.settle();
  CHECK(viewer.cutting().axis.has_value());  // one Escape, one thing

  takeUp();
  viewer.write("999999");
  CHECK_FALSE(viewer.app.pull->refusal.empty());
  CHECK(viewer.cutting().at == before);
  for (int i = 0; i < 6; ++i) viewer.Session::key(view::Key::Backspace);
  viewer.write("4990");
  viewer.Session::key(view::Key::Enter);
  CHECK(viewer.cutting().at == 4990);
  viewer.release(view::Button::Left);
  viewer.settle();
  CHECK(viewer.cutting().at == 4990);
  viewer.Session::key(view::Key::Escape);
  CHECK_FALSE(viewer.cutting().axis.has_value());
  CHECK_FALSE(viewer.app.shown.look.cut.has_value());
}

TEST_CASE("by keys alone: the panel's place is taken in hand, nudged and typed, and the other side shown") {
  AtOpening viewer;
  viewer.standAslant();
  viewer.key(U'k');
  const double before = viewer.cutting().at;
  const std::string place = "at " + std::to_string(static_cast<int>(before));
  const auto tabTo = [&](const std::string& name) {
    for (std::size_t i = 0; i < 300; ++i) {
      viewer.Session::key(view::Key::Tab);
      const view::Item* item = viewer.item(name);
      if (item != nullptr && viewer.app.focus.at == item->id) return true;
    }
    return false;
  };
  REQUIRE(tabTo(place));
  viewer.Session::key(view::Key::Enter);
  REQUIRE(viewer.app.pull.has_value());
  const render::Camera eye = viewer.app.shown.camera;
  viewer.Session::key(view::Key::Right);
  viewer.Session::key(view::Key::Right);
  viewer.Session::key(view::Key::Up);
  viewer.Session::key(view::Key::Left);
  CHECK(viewer.cutting().at == before + 2);
  CHECK(eye == viewer.app.shown.camera);
  viewer.move(300, 300);  // the pointer has no say
  viewer.settle();
  CHECK(viewer.cutting().at == before + 2);
  viewer.Session::key(view::Key::Enter);
  CHECK_FALSE(viewer.app.pull.has_value());
  CHECK(viewer.cutting().at == before + 2);

  // A click elsewhere lets go of it where it is.
  view::grant(viewer.app, CutWish{CutAct::Hold});
  viewer.Session::key(view::Key::Left);
  CHECK(viewer.cutting().at == before + 1);
  viewer.click(300, 760);
  viewer.settle();
  CHECK_FALSE(viewer.app.pull.has_value());
  CHECK(viewer.cutting().at == before + 1);

  const bool larger = viewer.cutting().larger;
  viewer.shiftK();
  CHECK(viewer.cutting().larger != larger);
  CHECK(viewer.cutting().at == before + 1);
  REQUIRE(viewer.clickItem("other side"));
  viewer.settle();
  CHECK(viewer.cutting().larger == larger);
  REQUIRE(viewer.stage.seen.card.has_value());  // the pointer is on it, and is told what it does
  CHECK(viewer.stage.seen.card->title == "The other side");
  REQUIRE(viewer.clickItem("z  up"));
  viewer.settle();
  CHECK(viewer.cutting().axis == CutAxis::Z);
}

TEST_CASE("what is cut away isn't hovered, and a cut face names its part") {
  AtOpening viewer;
  view::grant(viewer.app, CutWish{CutAct::Along, CutAxis::Y});
  view::disturb(viewer.app);
  viewer.settle();
  const ImVec2 lintel = viewer.pixelOn(scene::PartKind::Lintel);  // behind the cladding until it was cut away
  const auto hit = viewer.hit(lintel);
  REQUIRE(hit);
  CHECK(std::abs(viewer.app.shown.look.cut->beyond(hit->point)) < 0.05F);
  viewer.move(lintel.x, lintel.y);
  viewer.settle();
  const std::int64_t hovered = viewer.app.shown.look.hovered_part;
  REQUIRE(hovered >= 0);
  CHECK(viewer.app.document->scene.parts[static_cast<std::size_t>(hovered)].kind == scene::PartKind::Lintel);
  REQUIRE(viewer.stage.seen.card.has_value());
  CHECK_FALSE(viewer.stage.seen.card->title.empty());
  CHECK_THROWS(viewer.pixelOn(scene::PartKind::CladdingBoard));
}

TEST_CASE("the plane stays while the job is edited, spread, magnified and taught, and goes with its wall") {
  AtOpening viewer;
  viewer.key(U'k');
  const view::Cutting before = viewer.cutting();
  view::EditWish wish{.act = view::EditAct::Set};
  wish.dimension = {view::DimensionKind::Sill, static_cast<std::size_t>(viewer.opening("J2"))};
  wish.value = 1020;
  view::grant(viewer.app, wish);
  viewer.settle();
  CHECK(viewer.cutting() == before);
  for (const view::Wish& other : {view::Wish{view::PullApart{150}}, view::Wish{view::Magnify{5}},
                                  view::Wish{view::TakeBack{}}, view::Wish{view::LessonWish{}}}) {
    view::grant(viewer.app, other);
    view::disturb(viewer.app);
    viewer.settle();
    CHECK(viewer.cutting() == before);
    CHECK(viewer.app.shown.look.cut.has_value());
    CHECK(testing::differingShare(viewer.picture(), viewer.picture(), 0) == 0.0);
  }
  REQUIRE(viewer.app.shown.lesson.on());
  viewer.key(U'k');
  CHECK(viewer.cutting().axis == CutAxis::Y);  // the lesson leaves the key free
  view::grant(viewer.app, view::LessonWish{});
  view::grant(viewer.app,
              view::EditWish{.act = view::EditAct::RemoveWall, .of = static_cast<std::size_t>(before.wall)});
  viewer.settle();
  CHECK_FALSE(viewer.cutting().axis.has_value());
}

TEST_CASE("close-ups look upon the cut from its free side, and measuring takes hold of its corners") {
  AtOpening viewer;
  viewer.key(U'k');
  for (const char32_t letter : {U's', U'h', U'j'}) {
    viewer.key(letter);
    const render::Camera& eye = viewer.app.shown.camera;
    const scene::Cut& cut = *viewer.app.shown.look.cut;
    CHECK(glm::dot(glm::normalize(eye.eye() - eye.target), cut.normal) > 0.9F);
    // What is looked at is in the plane, in the middle of what no panel covers.
    const view::Canvas& canvas = viewer.app.layout.canvas;
    const render::Ray ray = render::rayThrough(eye, canvas.left + canvas.freeWidth() * 0.5F,
                                               canvas.top + canvas.freeHeight() * 0.5F, canvas.width, canvas.height);
    const glm::vec3 seen = ray.from - ray.direction * (cut.beyond(ray.from) / glm::dot(ray.direction, cut.normal));
    const auto& frame = viewer.app.document->scene.walls[static_cast<std::size_t>(viewer.cutting().wall)];
    const auto& opening = viewer.app.document->job.openings[static_cast<std::size_t>(viewer.opening("J2"))];
    const glm::vec3 local = frame.toLocal(seen);
    const double wanted = letter == U's'   ? opening.sill
                          : letter == U'h' ? opening.sill + opening.height
                                           : opening.sill + opening.height / 2;
    CHECK(local.z == Approx(wanted).margin(25));
    CHECK(local.x == Approx(viewer.cutting().at).margin(1));
  }
  viewer.key(U's');
  viewer.key(U'd');
  const ImVec2 trimmer = viewer.pixelOn(scene::PartKind::SillTrimmer);
  const auto hit = viewer.hit(trimmer);
  REQUIRE(hit);
  const glm::vec2 size{static_cast<float>(viewer.screen.width), static_cast<float>(viewer.screen.height)};
  const glm::vec3 place = view::snappedPlace(viewer.app.document->scene, *hit, viewer.app.shown.camera,
                                             viewer.app.shown.look, {trimmer.x, trimmer.y}, size, 5000.0F);
  CHECK(std::abs(viewer.app.shown.look.cut->beyond(place)) < 0.05F);
}

TEST_CASE("without a pick the plan's axes are cut, a wall's own where one is picked, and turned walls square to them") {
  Session viewer(demoJob("boatshed"));
  viewer.settle();
  view::grant(viewer.app, CutWish{});
  CHECK(viewer.app.shown.cutting.wall == -1);
  CHECK(std::abs(viewer.app.shown.look.cut->normal.x) == Approx(1).margin(1e-6));
  view::grant(viewer.app, CutWish{CutAct::Off});
  for (std::int32_t wall = 0; wall < static_cast<std::int32_t>(viewer.app.document->scene.walls.size()); ++wall) {
    view::grant(viewer.app, view::PickWall{wall, false});
    view::grant(viewer.app, CutWish{CutAct::Along, CutAxis::X});
    const auto& frame = viewer.app.document->scene.walls[static_cast<std::size_t>(wall)];
    REQUIRE(viewer.app.shown.look.cut.has_value());
    CHECK(std::abs(glm::dot(viewer.app.shown.look.cut->normal, frame.along)) == Approx(1).margin(1e-5));
    const glm::vec3 middle = frame.toWorld({frame.length * 0.5F, 0, 0});
    CHECK(viewer.app.shown.look.cut->beyond(middle) == Approx(0).margin(0.6));
  }
}

TEST_CASE("a cut is read from its words, and refused in words") {
  const auto good = view::parseCut("y=-35.5");
  REQUIRE(good.ok());
  CHECK(good.value->axis == CutAxis::Y);
  CHECK(good.value->at == -35.5);
  for (const char* text : {"", "x", "x=", "w=3", "x=1,5", "x=12mm", "1200", "x=inf", "z=nan", "y=1e9", "X=3"}) {
    CAPTURE(text);
    const auto bad = view::parseCut(text);
    REQUIRE_FALSE(bad.ok());
    CHECK(bad.errors.size() == 1);
    CHECK(bad.errors[0].say.find("found '") != std::string::npos);
  }
}

TEST_CASE("what a cut has taken away has neither handles nor dimensions: one in the wall's plane keeps them") {
  Session viewer(demoJob("boatshed"));
  const auto index = static_cast<std::size_t>(viewer.opening("J2"));
  view::grant(viewer.app, view::PickOpening{viewer.opening("J2"), true});
  view::disturb(viewer.app);
  viewer.settle();
  const auto has = [&](view::DimensionKind kind) {
    return std::any_of(viewer.app.pointed.handles.begin(), viewer.app.pointed.handles.end(),
                       [&](const view::Handle& each) {
                         return !each.dimensions.empty() && each.dimensions.front() == view::Dimension{kind, index};
                       });
  };
  const auto dimensions = [&] {
    return std::count_if(viewer.stage.seen.written.begin(), viewer.stage.seen.written.end(),
                         [](const view::Written& each) { return each.about == "dimension"; });
  };
  const auto whole = viewer.app.pointed.handles.size();
  REQUIRE(dimensions() == 3);
  const auto cut = [&](view::CutAxis axis) {
    const render::Camera before = viewer.app.shown.camera;
    view::grant(viewer.app, view::CutWish{view::CutAct::Along, axis});
    view::disturb(viewer.app);
    viewer.settle();
    viewer.app.shown.camera = before;  // the eye has turned to the cut
    view::disturb(viewer.app);
    viewer.settle();
  };
  cut(view::CutAxis::X);  // the eye stands left of the middle or right of it: one jamb is gone with its handle
  CHECK(has(view::DimensionKind::LeftEdge) != has(view::DimensionKind::Width));
  CHECK(viewer.app.pointed.handles.size() < whole);
  CHECK(dimensions() < 3);
  cut(view::CutAxis::Z);
  CHECK(has(view::DimensionKind::SillEdge));
  CHECK_FALSE(has(view::DimensionKind::Height));
  // The plane's own handle has its place to itself.
  REQUIRE(viewer.app.cut.handle.has_value());
  const ImVec2 at = viewer.project(viewer.app.cut.handle->at);
  for (const view::Written& each : viewer.stage.seen.written) {
    CAPTURE(each.about, each.words);
    const bool over = at.x > each.at.low.x && at.x < each.at.high.x && at.y > each.at.low.y && at.y < each.at.high.y;
    CHECK_FALSE(over);
  }
  cut(view::CutAxis::Y);
  CHECK(viewer.app.pointed.handles.size() == whole);
  CHECK(dimensions() == 3);
}

TEST_CASE("what a cut goes through is named, each kind once") {
  Session viewer(demoJob("boatshed"));
  view::grant(viewer.app, view::PickOpening{viewer.opening("J2"), true});
  view::disturb(viewer.app);
  viewer.settle();
  const auto names = [&] {
    std::vector<std::string> all;
    for (const view::Written& each : viewer.stage.seen.written) {
      if (each.about == "note") all.push_back(each.words);
    }
    return all;
  };
  CHECK(names().empty());
  view::grant(viewer.app, view::CutWish{view::CutAct::Along, view::CutAxis::X});
  view::disturb(viewer.app);
  viewer.settle();
  std::vector<std::string> all = names();
  CHECK(all.size() > 3);
  CHECK(std::ranges::find(all, "lintel") != all.end());
  std::ranges::sort(all);
  CHECK(std::ranges::adjacent_find(all) == all.end());
}
