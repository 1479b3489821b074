// Handles dragged and typed to, the history, and changes of the job: whole frames off-screen.

#include <algorithm>
#include <cmath>

#include "at_opening.h"
#include "support/catch.h"
#include "support/pictures.h"
#include "view/marks/marks.h"

using namespace sillwright;
using tests::AtOpening;
using tests::demoJob;
using tests::kPixel;
using tests::Session;
using view::DimensionKind;
using view::EditAct;
using view::EditWish;

TEST_CASE("parts that an edit makes others of light up for a moment: what only moved along does not") {
  AtOpening viewer;
  view::grant(viewer.app, view::Stand{view::StandingView::Inside});
  viewer.app.shown.look.hidden_layers = 1U << static_cast<unsigned>(scene::Layer::Lining);
  view::disturb(viewer.app);
  viewer.settle();
  const auto set = [&](DimensionKind kind, double value) {
    EditWish wish{.act = EditAct::Set};
    wish.dimension = {kind, viewer.index};
    wish.value = value;
    view::grant(viewer.app, wish);
  };
  const auto lit = [&](scene::PartKind kind) {
    const auto& parts = viewer.app.flash.parts;
    return std::count_if(parts.begin(), parts.end(),
                         [&](std::uint32_t part) { return viewer.app.document->scene.parts[part].kind == kind; });
  };
  set(DimensionKind::Left, viewer.at().left + 7);  // as a whole: every packer stays what it is
  CHECK(lit(scene::PartKind::Packer) == 0);
  viewer.settle();
  set(DimensionKind::UnitWidth, viewer.at().unit.width - 6);  // the gaps grow, and the packers with them
  CHECK(lit(scene::PartKind::Packer) > 0);
  CHECK(view::isUnsettled(viewer.app, viewer.stage));
  view::frame(viewer.app, viewer.stage, viewer.screen, 1.0F / 60.0F);
  const render::Image flashing = viewer.picture();
  const int frames = viewer.settle();
  CHECK(frames < 60);  // not for long
  CHECK_FALSE(viewer.app.flash.on());
  CHECK(testing::differingShare(flashing, viewer.picture(), 12) > 0.0005);
  CHECK(viewer.settle() == 0);
}

TEST_CASE("each edge of an opening is dragged by its handle, in whole millimetres, and the edge across stays") {
  AtOpening viewer;
  const job::Opening before = viewer.at();
  const render::Camera eye = viewer.app.shown.camera;
  viewer.pull(DimensionKind::Width, 40, 0);
  CHECK(viewer.at().width == Approx(before.width + 40).margin(kPixel));
  CHECK(viewer.at().width == std::round(viewer.at().width));
  CHECK(viewer.at().left == before.left);
  CHECK(eye == viewer.app.shown.camera);  // a handle is no way to turn the house

  viewer.pull(DimensionKind::LeftEdge, -25, 0);
  CHECK(viewer.at().left == Approx(before.left - 25).margin(kPixel));
  CHECK(viewer.at().left + viewer.at().width == Approx(before.left + before.width + 40).margin(kPixel));

  const double head = viewer.at().sill + viewer.at().height;
  viewer.pull(DimensionKind::SillEdge, 0, -30);
  CHECK(viewer.at().sill == Approx(before.sill - 30).margin(kPixel));
  CHECK(viewer.at().sill + viewer.at().height == Approx(head));

  viewer.pull(DimensionKind::Height, 0, 20);
  CHECK(viewer.at().sill + viewer.at().height == Approx(head + 20).margin(kPixel));
}

TEST_CASE("everything follows a drag in the same frame: plan, packers, verdict, picture") {
  AtOpening viewer;
  const double spare = viewer.app.document->plan.openings[viewer.index].stand.spare;
  const auto version = viewer.app.version;
  const render::Image before = viewer.picture();
  const ImVec2 from = viewer.handle(DimensionKind::UnitWidth);
  const ImVec2 by = viewer.pixels(DimensionKind::UnitWidth, 60, 0);
  viewer.move(from.x, from.y);
  viewer.press(view::Button::Left);
  viewer.move(from.x + by.x, from.y + by.y);
  while (!viewer.app.input.empty()) view::frame(viewer.app, viewer.stage, viewer.screen, 1.0F / 60.0F);
  REQUIRE(viewer.app.pull.has_value());
  CHECK(viewer.app.version > version);
  CHECK(viewer.app.document->plan.openings[viewer.index].stand.spare < spare);
  // A unit 60 wider than its opening leaves room for stops the work, and the hand is told before it lets go.
  CHECK(viewer.app.document->findings.verdicts[viewer.index] == check::Verdict::Stop);
  CHECK_FALSE(view::stopAt(*viewer.app.document, viewer.index).empty());
  CHECK(testing::differingShare(before, viewer.picture(), 24) > 0.001);
  CHECK_FALSE(viewer.app.history.canUndo());  // one step, kept when it is let go
  viewer.release(view::Button::Left);
  viewer.settle();
  CHECK(viewer.app.history.size() == 1);
  CHECK(viewer.app.history.name(0).find("unit width of J2 to ") == 0);
}

TEST_CASE("Escape puts a dragged edge back, and nothing is kept") {
  AtOpening viewer;
  const job::Job before = viewer.app.document->job;
  const ImVec2 from = viewer.handle(DimensionKind::Width);
  viewer.move(from.x, from.y);
  viewer.press(view::Button::Left);
  viewer.move(from.x + 30, from.y);
  viewer.settle();
  CHECK_FALSE(viewer.app.document->job == before);
  viewer.key(view::Key::Escape);
  CHECK(viewer.app.document->job == before);
  viewer.release(view::Button::Left);
  viewer.settle();
  CHECK(viewer.app.document->job == before);
  CHECK_FALSE(viewer.app.history.canUndo());
}

TEST_CASE("a figure typed while dragging sets it exactly: one out of bounds is refused and put back") {
  AtOpening viewer;
  const double width = viewer.at().width;
  const ImVec2 from = viewer.handle(DimensionKind::Width);
  const auto hold = [&] {
    viewer.move(from.x, from.y);
    viewer.press(view::Button::Left);
    viewer.move(from.x + 9, from.y);
    viewer.settle();
  };
  const auto write = [&](const std::string& text) {
    for (const char c : text) viewer.type(static_cast<char32_t>(c));
    viewer.settle();
  };
  hold();
  write("1234,5");
  CHECK(viewer.at().width == 1234.5);
  viewer.key(view::Key::Enter);
  CHECK_FALSE(viewer.app.pull.has_value());
  CHECK(viewer.app.history.name(0) == "width of J2 to 1234.5");
  viewer.release(view::Button::Left);
  viewer.key(view::Key::Z, {.ctrl = true});
  CHECK(viewer.at().width == width);

  hold();
  write("5");
  CHECK_FALSE(viewer.app.pull->refusal.empty());
  viewer.release(view::Button::Left);
  viewer.settle();
  CHECK(viewer.at().width == width);
  CHECK_FALSE(viewer.app.history.canUndo());
}

TEST_CASE("Shift drags in tenths, Ctrl in the step that sizes come in") {
  AtOpening viewer;
  const auto& step = viewer.app.document->practice->clearance.size_step;
  const double coarse = step && step->value > 0 ? step->value : 10;
  const auto held = [&](view::Key key, view::Modifiers with) {
    viewer.app.input.push(view::KeyChanged{key, true, with});
    const ImVec2 from = viewer.handle(DimensionKind::Width);
    viewer.move(from.x, from.y);
    viewer.press(view::Button::Left, with);
    viewer.move(from.x + 23.3F, from.y);
    viewer.settle();
    viewer.release(view::Button::Left);
    viewer.app.input.push(view::KeyChanged{key, false, {}});
    viewer.settle();
    return viewer.at().width;
  };
  const double fine = held(view::Key::Shift, {.shift = true});
  CHECK(fine * 10 == Approx(std::round(fine * 10)).margin(1e-6));
  const double steps = held(view::Key::Ctrl, {.ctrl = true}) / coarse;
  CHECK(steps == Approx(std::round(steps)).margin(1e-9));
}

TEST_CASE("an opening moves as a whole in its wall's plane") {
  AtOpening viewer;
  const job::Opening before = viewer.at();
  viewer.pull(DimensionKind::Left, 50, 35);
  CHECK(viewer.at().left == Approx(before.left + 50).margin(kPixel));
  CHECK(viewer.at().sill == Approx(before.sill + 35).margin(kPixel));
  CHECK(viewer.at().width == before.width);
  CHECK(viewer.at().height == before.height);
}

TEST_CASE("walls, gable points and eaves have handles where a wall is picked") {
  Session viewer(demoJob("boatshed"));
  const auto kinds = [&](std::int32_t wall) {
    view::grant(viewer.app, view::PickWall{wall, true});
    view::disturb(viewer.app);
    viewer.settle();
    std::vector<DimensionKind> all;
    for (const auto& handle : viewer.app.pointed.handles) all.push_back(handle.dimensions.front().kind);
    return all;
  };
  const auto has = [](const std::vector<DimensionKind>& all, DimensionKind kind) {
    return std::count(all.begin(), all.end(), kind);
  };
  const auto front = kinds(0);
  CHECK(has(front, DimensionKind::WallLength) == 1);
  CHECK(has(front, DimensionKind::WallTop) == 1);
  CHECK(has(front, DimensionKind::EaveOverhang) == 1);
  const auto gable = kinds(1);
  CHECK(has(gable, DimensionKind::TopX) == 1);  // the ridge, along and up
  CHECK(has(gable, DimensionKind::TopZ) == 2);  // the two ends, up
}

TEST_CASE("the pointer's ray gives back how far a handle was moved, from any side") {
  view::Handle handle;
  handle.dimensions.resize(1);
  handle.at = {100, 200, 300};
  handle.along = glm::normalize(glm::vec3(1, 2, 0));
  for (const glm::vec3 eye : {glm::vec3(0, -3000, 1000), glm::vec3(4000, 500, -200), glm::vec3(-900, -900, 2500)}) {
    for (const float by : {-350.0F, 0.0F, 12.5F, 800.0F}) {
      const glm::vec3 to = handle.at + handle.along * by;
      const auto at = view::reach(handle, {eye, glm::normalize(to - eye)});
      REQUIRE(at.has_value());
      CHECK(at->x == Approx(by).margin(0.05));
    }
  }
  CHECK_FALSE(view::reach(handle, {handle.at - handle.along * 500.0F, handle.along}).has_value());
  handle.dimensions.resize(2);
  handle.along = {1, 0, 0};
  handle.across = {0, 0, 1};
  const glm::vec3 eye{0, -3000, 1500};
  const auto at = view::reach(handle, {eye, glm::normalize(handle.at + glm::vec3(70, 0, -40) - eye)});
  REQUIRE(at.has_value());
  CHECK(at->x == Approx(70).margin(0.01));
  CHECK(at->y == Approx(-40).margin(0.01));
}

TEST_CASE("undo and redo go without limit, by name, and a list is jumped in") {
  AtOpening viewer;
  std::vector<job::Job> states{viewer.app.document->job};
  for (int i = 0; i < 120; ++i) {
    EditWish wish{.act = EditAct::Set};
    wish.dimension = {i % 2 == 0 ? DimensionKind::Left : DimensionKind::Sill, viewer.index};
    wish.value = 700.0 + i;
    view::grant(viewer.app, wish);
    states.push_back(viewer.app.document->job);
  }
  CHECK(viewer.app.history.size() == 120);
  for (std::size_t i = 120; i-- > 0;) {
    view::grant(viewer.app, view::TakeBack{});
    REQUIRE(viewer.app.document->job == states[i]);
  }
  CHECK_FALSE(viewer.app.history.canUndo());
  view::grant(viewer.app, view::GoInHistory{77});
  CHECK(viewer.app.document->job == states[77]);
  view::grant(viewer.app, view::DoAgain{});
  CHECK(viewer.app.document->job == states[78]);
  // Something else done here forgets what was undone.
  view::grant(viewer.app, view::SetKey{{job::TableKind::Opening, viewer.index, "room", {}}, "\"stair\""});
  CHECK(viewer.app.history.size() == 79);
  CHECK_FALSE(viewer.app.history.canRedo());

  viewer.type(U'z');
  viewer.settle();
  REQUIRE(viewer.app.shown.history_open);
  REQUIRE(viewer.clickItem("done 0 as the file has it"));
  CHECK(viewer.app.document->job == states[0]);
}

TEST_CASE("openings and walls are added, copied, renamed, turned and removed, and all of it is undone") {
  AtOpening viewer;
  const job::Job before = viewer.app.document->job;
  const auto count = before.openings.size();
  view::grant(viewer.app, EditWish{.act = EditAct::CopyOpening, .of = viewer.index});
  viewer.settle();
  REQUIRE(viewer.app.document->job.openings.size() == count + 1);
  const job::Opening& copy = viewer.app.document->job.openings.back();
  CHECK(copy.name == "J3");
  CHECK_FALSE(copy.measured.has_value());
  CHECK(viewer.app.shown.opening == static_cast<std::int32_t>(count));
  view::grant(viewer.app, view::SetKey{{job::TableKind::Unit, count, "kind", {}}, "\"fixed window\""});
  CHECK(viewer.app.document->job.openings.back().unit.kind != before.openings[viewer.index].unit.kind);
  view::grant(viewer.app, view::SetKey{{job::TableKind::Unit, count, "reveal", "depth"}, {}});
  CHECK_FALSE(viewer.app.document->job.openings.back().unit.reveal.has_value());
  view::grant(viewer.app, EditWish{.act = EditAct::AddWall, .of = 3});
  viewer.settle();
  CHECK(viewer.app.document->job.walls.size() == 5);
  view::grant(viewer.app, EditWish{.act = EditAct::AddOpening, .of = 4});
  viewer.settle();
  const job::Opening added = viewer.app.document->job.openings.back();
  CHECK(added.wall == 4);
  CHECK(viewer.app.document->plan.openings.back().stand.fits);
  view::grant(viewer.app, EditWish{.act = EditAct::RemoveWall, .of = 0});
  viewer.settle();
  CHECK(viewer.app.document->job.walls.size() == 4);
  for (const auto& opening : viewer.app.document->job.openings) CHECK(opening.wall < 4);
  view::grant(viewer.app, EditWish{.act = EditAct::RemoveOpening, .of = 0});
  viewer.settle();
  while (viewer.app.history.canUndo()) view::grant(viewer.app, view::TakeBack{});
  viewer.settle();
  CHECK(viewer.app.document->job == before);
}

TEST_CASE("lengths and names are typed into the sheet by keys alone") {
  AtOpening viewer;
  const auto write = [&](const std::string& text) {
    for (const char c : text) viewer.type(static_cast<char32_t>(static_cast<unsigned char>(c)));
    viewer.settle();
  };
  const auto tabTo = [&](const std::string& name) {
    for (std::size_t i = 0; i < 300; ++i) {
      viewer.key(view::Key::Tab);
      const view::Item* item = viewer.item(name);
      if (item != nullptr && viewer.app.focus.at == item->id) return true;
    }
    return false;
  };
  REQUIRE(tabTo("set framed width"));
  write("1725");
  viewer.key(view::Key::Enter);
  CHECK(viewer.at().width == 1725);
  REQUIRE(tabTo("set name"));
  write("J9");
  viewer.key(view::Key::Enter);
  CHECK(viewer.at().name == "J9");
  REQUIRE(tabTo("set name"));
  write("H1");
  viewer.key(view::Key::Enter);
  CHECK(viewer.at().name == "J9");
  REQUIRE(viewer.app.typing.refusal.has_value());
  CHECK(viewer.app.typing.refusal->text.find("another's name") != std::string::npos);
  viewer.key(view::Key::Escape);
}

TEST_CASE("two places are picked and the distance between them is written, corners drawing the pointer") {
  AtOpening viewer;
  viewer.type(U'd');
  viewer.settle();
  REQUIRE(viewer.app.shown.measuring.on);
  // The unit's sill member from end to end: aluminium stands inside the two reveal boards, so its
  // corners are the unit's width less their thickness apart.
  const auto& scene = viewer.app.document->scene;
  const auto& unit = viewer.app.document->plan.openings[viewer.index].unit;
  const auto& wall = scene.walls[viewer.at().wall];
  glm::vec3 left{0.0F};
  glm::vec3 right{0.0F};
  float least = 1e9F;
  float most = -1e9F;
  for (const scene::Solid& solid : scene.solids) {
    const scene::Part& part = scene.parts[solid.part];
    if (part.kind != scene::PartKind::FrameSill || part.opening != static_cast<std::int32_t>(viewer.index)) continue;
    for (const glm::vec3& corner : solid.corner) {
      if (glm::dot(corner - wall.origin, wall.inward) > -1.0F) continue;  // its front only
      const float along = glm::dot(corner - wall.origin, wall.along) - corner.z * 0.01F;
      if (along < least) left = corner;
      if (along > most) right = corner;
      least = std::min(least, along);
      most = std::max(most, along);
    }
  }
  REQUIRE(most > least);
  for (const glm::vec3& corner : {left, right}) {
    // A little inside the member, so that the pointer is on it.
    const glm::vec3 inside = corner + (left + right - 2.0F * corner) * 0.004F + glm::vec3(0, 0, 4);
    const ImVec2 at = viewer.project(inside);
    viewer.click(at.x, at.y);
  }
  REQUIRE(viewer.app.shown.measuring.points.size() == 2);
  const auto lengths =
      view::lengthsBetween(viewer.app.shown.measuring.points[0], viewer.app.shown.measuring.points[1], wall);
  REQUIRE(unit.reveal.has_value());
  CHECK(lengths.along == Approx(unit.width - 2 * unit.reveal->thickness).margin(0.2));
  CHECK(std::any_of(viewer.stage.seen.written.begin(), viewer.stage.seen.written.end(),
                    [](const auto& each) { return each.about == "distance"; }));
  viewer.key(view::Key::Escape);
  CHECK_FALSE(viewer.app.shown.measuring.on);
}

TEST_CASE("lengths are told straight, along, through and up") {
  scene::WallFrame wall;
  wall.along = {0, 1, 0};
  wall.inward = {-1, 0, 0};
  const auto lengths = view::lengthsBetween({0, 0, 0}, {-3, 4, 12}, wall);
  CHECK(lengths.straight == Approx(13));
  CHECK(lengths.along == Approx(4));
  CHECK(lengths.through == Approx(3));
  CHECK(lengths.up == Approx(12));
  CHECK(view::wordsFor(lengths, practice::Display::Millimetres) == "13, along 4, through 3, up 12");
  CHECK(view::wordsFor(view::lengthsBetween({0, 0, 0}, {0, 1530, 0}, wall), practice::Display::Millimetres) == "1530");
}

TEST_CASE("dimensions keep within what the file allows and what their neighbours leave") {
  Session viewer(demoJob("boatshed"));
  job::Job job = viewer.app.document->job;
  view::setValue(job, {DimensionKind::LeftEdge, 0}, 1e9);
  CHECK(job.openings[0].width == 100);
  view::setValue(job, {DimensionKind::SillEdge, 0}, 1e9);
  CHECK(job.openings[0].height == 100);
  std::size_t gable = 0;
  while (job.walls[gable].top.size() < 3) ++gable;
  view::setValue(job, {DimensionKind::TopX, gable, 1}, 1e9);
  CHECK(job.walls[gable].top[1].x == job.walls[gable].top[2].x - 1);
  view::setValue(job, {DimensionKind::WallLength, gable}, 0);
  CHECK(job.walls[gable].length > job.walls[gable].top[1].x);
  CHECK(job.walls[gable].top.back().x == job.walls[gable].length);
}
