// What a day with the window asks for: one thing told first, fields that stay in their place, dialogs that shut the
// rest out, keys of one meaning, walls that keep their corners. Whole frames off-screen.

#include <algorithm>
#include <map>
#include <string>

#include "document/edits.h"
#include "session.h"
#include "support/assets.h"
#include "support/catch.h"
#include "support/folder.h"
#include "view/marks/marks.h"
#include "view/values/readings.h"

using namespace sillwright;
using tests::demoJob;
using tests::Session;
using view::DimensionKind;

namespace {

struct AtFirst : Session {
  explicit AtFirst(const std::string& job, int width = 1280, int height = 800, float text_scale = 1.0F)
      : Session(demoJob(job), width, height, text_scale) {
    view::grant(app, view::PickOpening{0, true});
    view::disturb(app);
    settle();
  }
  /// Brings an item of that name into sight and clicks it.
  bool pressItem(const char* name) {
    const view::Item* found = item(name);
    if (found == nullptr) return false;
    app.focus.at = found->id;
    app.focus.arrived = true;
    view::disturb(app);
    settle();
    return clickItem(name);
  }
  void shift(view::Key key, char32_t character) {
    app.input.push(view::KeyChanged{key, true, {.shift = true}});
    type(character);
    app.input.push(view::KeyChanged{key, false, {}});
    settle();
  }
  [[nodiscard]] std::map<std::string, ImVec2> fields() const {
    std::map<std::string, ImVec2> places;
    for (const view::Item& item : app.focus.items) {
      if (item.field) places[item.name] = item.low;
    }
    return places;
  }
};

void pick(Session& session, std::int32_t wall) {
  view::grant(session.app, view::PickWall{wall, true});
  view::disturb(session.app);
  session.settle();
}

}  // namespace

TEST_CASE("measurements that disagree are the first thing that the sheet says") {
  AtFirst viewer("misread-middle");
  const auto& findings = viewer.app.document->findings;
  REQUIRE(findings.bases[0] == check::Basis::Disputed);
  const auto troubles = view::troublesOf(findings.openings[0]);
  REQUIRE_FALSE(troubles.empty());
  CHECK(troubles.front()->about == "measurements");
  CHECK(troubles.front()->severity == check::Severity::Stop);
}

TEST_CASE("a key walks through what stands against an opening, tells the next one first and flies to it") {
  AtFirst viewer("not-yet");
  const auto count = view::troublesOf(viewer.app.document->findings.openings[0]).size();
  REQUIRE(count > 1);
  CHECK(viewer.app.shown.trouble == 0);
  viewer.shift(view::Key::N, U'N');
  CHECK(viewer.app.shown.opening == 0);  // N alone goes to the next opening
  CHECK(viewer.app.shown.trouble == 1);
  viewer.shift(view::Key::B, U'B');
  viewer.shift(view::Key::B, U'B');
  CHECK(viewer.app.shown.trouble == count - 1);
  view::grant(viewer.app, view::Stand{view::StandingView::House});
  const render::Camera eye = viewer.app.shown.camera;
  viewer.settle();
  REQUIRE(viewer.clickItem("next"));
  CHECK(viewer.app.shown.trouble == 0);
  CHECK_FALSE(eye == viewer.app.shown.camera);
  viewer.type(U'n');
  viewer.settle();
  CHECK(viewer.app.shown.trouble == 0);
}

TEST_CASE("an inch job takes inches without a mark, and its refusals are in inches") {
  AtFirst viewer("garage-header");
  REQUIRE(viewer.clickItem("read bottom width"));
  viewer.write("48 5/8");
  viewer.key(view::Key::Enter);
  CHECK(*viewer.app.document->job.openings[0].measured->widths[0] == Approx(48.625 * 25.4));
  REQUIRE(viewer.clickItem("read bottom width"));
  viewer.write("1/8");
  viewer.key(view::Key::Enter);
  REQUIRE(viewer.app.typing.refusal);
  CHECK(viewer.app.typing.refusal->text.find(" in, not 1/8 in") != std::string::npos);
}

TEST_CASE("the sheet stays where it is while its fields are used, whatever becomes of the opening") {
  for (const auto& [width, height, text] : {std::tuple(1280, 800, 1.0F), std::tuple(1024, 700, 1.5F)}) {
    AtFirst viewer("workshop-window", width, height, text);
    CAPTURE(width);
    const auto stays = [&](const char* field, const char* text_typed) {
      const view::Item* item = viewer.item(field);
      REQUIRE(item != nullptr);
      viewer.app.focus.at = item->id;
      viewer.app.focus.arrived = true;
      view::disturb(viewer.app);
      viewer.settle();  // brought into sight
      const auto before = viewer.fields();
      const auto verdict = viewer.app.document->findings.verdicts[0];
      viewer.write(text_typed);
      viewer.key(view::Key::Tab, {.shift = true});  // back to a field that is in sight too
      viewer.app.focus.at = 0;
      const auto after = viewer.fields();
      for (const auto& [name, place] : before) {
        INFO(field << " " << text_typed << ": " << name);
        REQUIRE(after.count(name) == 1);
        if (after.at(name).y != place.y) FAIL("moved from " << place.y << " to " << after.at(name).y);
      }
      return viewer.app.document->findings.verdicts[0] != verdict;
    };
    CHECK(stays("read top width", "1552"));    // a stop, told large
    CHECK(stays("read top width", "1532"));    // and none any more
    (void)stays("read top width", "9999999");  // refused
    (void)stays("set unit height", "600");     // the small drawing becomes another
    (void)stays("set framed width", "12");     // refused
  }
}

TEST_CASE("why a field refuses stands beside it, and what the field says of itself does not cover it") {
  AtFirst viewer("workshop-window");
  REQUIRE(viewer.clickItem("read left height"));  // the pointer stays on it
  viewer.write("99999999");
  viewer.key(view::Key::Enter);
  REQUIRE(viewer.stage.seen.card);
  CHECK(viewer.stage.seen.card->stop);
  CHECK(viewer.stage.seen.card->body.find("left height must be") == 0);
  const view::Item* field = viewer.item("read left height");
  REQUIRE(field != nullptr);
  CHECK(viewer.stage.seen.card->low.y == field->low.y);
}

TEST_CASE("a longer wall takes its neighbours along, and the far wall's openings stay where they stand") {
  Session viewer(demoJob("boatshed"));
  job::Job job = viewer.app.document->job;
  const job::Job before = job;
  const auto world = [](const job::Job& of, std::size_t opening) {
    const job::Opening& each = of.openings[opening];
    const job::Wall& wall = of.walls[each.wall];
    return wall.at_x + (wall.turn_degrees == 180 ? -each.left : 0);
  };
  view::setValue(job, {DimensionKind::WallLength, 0}, 7500);
  CHECK(job.walls[0].length == 7500);
  CHECK(job.walls[1].at_x == 7500);
  CHECK(job.walls[1].length == before.walls[1].length);
  CHECK(job.walls[2].length == 7500);
  CHECK(job.walls[2].at_x == 7500);
  CHECK(job.walls[2].top.back().x == 7500);
  CHECK(job.walls[3] == before.walls[3]);
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    if (job.openings[i].wall == 2) CHECK(world(job, i) == world(before, i));
  }
  for (std::size_t wall = 0; wall < 4; ++wall) CHECK(document::openedAt(before, job, wall).empty());
  view::setValue(job, {DimensionKind::WallLength, 0}, 7200);
  CHECK(job == before);
}

TEST_CASE("a corner that opens is told, and so is a plate that no longer meets its neighbour's") {
  Session viewer(demoJob("boatshed"));
  const job::Job before = viewer.app.document->job;
  job::Job job = before;
  view::setValue(job, {DimensionKind::WallTop, 0}, 2700);
  CHECK(document::openedAt(before, job, 0).find("no longer meets that of") != std::string::npos);
  job = before;
  view::setValue(job, {DimensionKind::WallLength, 0}, 1000);  // shorter than the openings of the wall across
  CHECK(document::openedAt(before, job, 1) == "the corner with lane opens");
}

TEST_CASE("a wall's length, plate and eave tell a stop while they are dragged") {
  Session viewer(demoJob("boatshed"));
  pick(viewer, 0);
  const auto& document = *viewer.app.document;
  CHECK(view::stopAtWall(document, 0).empty());
  for (const DimensionKind kind : {DimensionKind::WallTop, DimensionKind::EaveSoffit}) {
    const auto& handles = viewer.app.pointed.handles;
    const auto handle = std::find_if(handles.begin(), handles.end(),
                                     [&](const view::Handle& each) { return each.dimensions.front().kind == kind; });
    REQUIRE(handle != handles.end());
    const ImVec2 from = viewer.project(handle->at);
    const ImVec2 down = viewer.project(handle->at - glm::vec3(0, 0, 600));
    viewer.move(from.x, from.y);
    viewer.press(view::Button::Left);
    viewer.move(down.x, down.y);
    viewer.settle();
    REQUIRE(viewer.app.pull);
    CHECK_FALSE(view::stopAtWall(document, 0).empty());
    viewer.key(view::Key::Escape);
    viewer.release(view::Button::Left);
    viewer.settle();
    CHECK(view::stopAtWall(document, 0).empty());
  }
}

TEST_CASE("text that is typed moves nothing but its field") {
  Session viewer(demoJob("boatshed"));
  viewer.key(view::Key::O, {.ctrl = true});
  REQUIRE(viewer.clickItem("set path"));
  const render::Camera eye = viewer.app.shown.camera;
  const auto hidden = viewer.app.shown.look.hidden_layers;
  for (const char c : std::string("/tmp/oilskin shed, 2 wide.toml")) viewer.type(static_cast<char32_t>(c));
  viewer.settle();
  CHECK(viewer.app.typing.field->text == "/tmp/oilskin shed, 2 wide.toml");
  CHECK(eye == viewer.app.shown.camera);
  CHECK(viewer.app.shown.look.hidden_layers == hidden);
}

TEST_CASE("a dialog shuts out the pointer and the keys behind it, and Tab stays in it") {
  AtFirst viewer("boatshed");
  const view::Item behind = *viewer.item("opening J2");
  const render::Camera eye = viewer.app.shown.camera;
  viewer.type(U'p');
  viewer.settle();
  REQUIRE(viewer.app.shown.paper_open);
  CHECK(viewer.item("opening J2") == nullptr);
  viewer.click((behind.low.x + behind.high.x) / 2, (behind.low.y + behind.high.y) / 2);
  viewer.type(U'2');
  viewer.type(U'i');
  viewer.settle();
  viewer.key(view::Key::Left);
  viewer.move(640, 760);
  viewer.wheel(3);
  viewer.settle();
  CHECK(viewer.app.shown.opening == 0);
  CHECK(viewer.app.shown.look.hidden_layers == 0);
  CHECK(eye == viewer.app.shown.camera);
  CHECK(viewer.app.shown.look.hovered_part < 0);
  viewer.key(view::Key::Tab);
  CHECK(viewer.app.focus.at != 0);
  viewer.key(view::Key::Escape);
  CHECK_FALSE(viewer.app.shown.paper_open);
  CHECK(viewer.item("opening J2") != nullptr);
}

TEST_CASE("a key has one meaning: no two commands share one, and the cards' keys are their own") {
  std::map<std::string, int> uses;
  for (const view::Command& each : view::commands()) {
    if (each.key[0] != 0) ++uses[each.key];
  }
  for (const auto& [key, times] : uses) {
    INFO(key);
    CHECK(times == 1);
  }
  AtFirst viewer("workshop-window");
  viewer.type(U'w');
  viewer.settle();
  REQUIRE(viewer.app.shown.lesson.on());
  viewer.type(U'p');
  viewer.settle();
  CHECK(viewer.app.shown.paper_open);  // as everywhere
  CHECK_FALSE(viewer.app.shown.lesson.playing);
}

TEST_CASE("a kind is chosen from a list that opens, by the pointer and by keys, and is undone as one step") {
  AtFirst viewer("workshop-window");
  const auto kind = [&] { return viewer.app.document->job.openings[0].unit.kind; };
  const auto before = kind();
  REQUIRE(viewer.pressItem("set kind"));
  REQUIRE(viewer.app.menu);
  REQUIRE(viewer.item("louvre window") != nullptr);
  REQUIRE(viewer.clickItem("louvre window"));
  REQUIRE(kind() == job::UnitKind::LouvreWindow);
  CHECK_FALSE(viewer.app.menu);
  CHECK(viewer.app.history.name(0) == "kind of Y1 to louvre window");
  viewer.key(view::Key::Z, {.ctrl = true});
  CHECK(kind() == before);

  viewer.app.focus.at = viewer.item("set kind")->id;
  viewer.key(view::Key::Enter);
  REQUIRE(viewer.app.menu);
  viewer.key(view::Key::Down);
  viewer.key(view::Key::Enter);
  CHECK(kind() == job::UnitKind::AwningWindow);
  REQUIRE(viewer.pressItem("set kind"));
  viewer.key(view::Key::Escape);
  CHECK_FALSE(viewer.app.menu);
  CHECK(viewer.app.shown.opening == 0);
  viewer.write("folding door");  // the keys are the field's again
  viewer.key(view::Key::Tab);
  CHECK(kind() == job::UnitKind::FoldingDoor);
}

TEST_CASE("every key of a unit, its wall and the job has a field, and what is typed is held to the file's rules") {
  AtFirst viewer("workshop-window");
  const auto type = [&](const char* field, const std::string& text) {
    const view::Item* item = viewer.item(field);
    INFO(field);
    REQUIRE(item != nullptr);
    viewer.app.focus.at = item->id;
    viewer.key(view::Key::Delete);
    viewer.write(text);
    viewer.key(view::Key::Tab);
  };
  REQUIRE(viewer.pressItem("frame, glass, lights and the rest of it"));
  const auto unit = [&]() -> const job::Unit& { return viewer.app.document->job.openings[0].unit; };
  type("set glass, thickness", "6");
  CHECK(unit().glass->thickness == 6);
  type("set glass, safety", "yes");
  CHECK(unit().glass->safety == true);
  type("set lights", "fixed, awning");
  CHECK(unit().lights.size() == 2);
  type("set lights", "");
  CHECK(unit().lights.empty());
  type("set colour", "monument \"grey\"");
  CHECK(*unit().colour == "monument \"grey\"");
  type("set reveal, thickness", "19");
  CHECK(unit().reveal->thickness == 19);
  const auto before = viewer.app.document->job;
  type("set glass, panes", "9");
  CHECK(viewer.app.document->job == before);
  REQUIRE(viewer.app.typing.refusal);
  CHECK(viewer.app.typing.refusal->text.find("from 1 to 4") != std::string::npos);
  viewer.key(view::Key::Escape);

  pick(viewer, 0);
  type("set spacing", "450");
  CHECK(viewer.app.document->job.walls[0].spacing == 450);
  type("set stud, depth", "140");
  CHECK(viewer.app.document->job.walls[0].stud->depth == 140);

  REQUIRE(viewer.clickItem("this job"));
  type("set address", "Shed lane 4");
  CHECK(viewer.app.document->job.address == "Shed lane 4");
  type("set packers", "1, 2, 5");
  CHECK(viewer.app.document->job.stock->packers == std::vector<double>{1, 2, 5});
  REQUIRE(viewer.pressItem("set wind"));
  REQUIRE(viewer.clickItem("N4"));
  CHECK(std::get<std::string>(*viewer.app.document->job.wind) == "N4");
  viewer.key(view::Key::Escape);
  CHECK_FALSE(viewer.app.shown.job_open);
  while (viewer.app.history.canUndo()) view::grant(viewer.app, view::TakeBack{});
  CHECK_FALSE(viewer.app.typing.anyNotInFile(viewer.app.document->job));
}

TEST_CASE("lengths of an inch job's keys are inches, named in its practice's words") {
  AtFirst viewer("garage-header");
  REQUIRE(viewer.pressItem("frame, glass, lights and the rest of it"));
  viewer.app.focus.at = viewer.item("set jamb extension, thickness")->id;
  viewer.write("3/4");
  viewer.key(view::Key::Enter);
  CHECK(viewer.app.document->job.openings[0].unit.reveal->thickness == Approx(19.05));
}

TEST_CASE("the tour goes on as each thing is done, and can be skipped") {
  Session viewer(demoJob("boatshed"));
  viewer.app.shown.tour = 0;
  view::disturb(viewer.app);
  viewer.settle();
  REQUIRE(viewer.item("skip the tour") != nullptr);
  REQUIRE(viewer.clickItem("opening J2"));
  CHECK(viewer.app.shown.tour == 1);
  view::EditWish wish{.act = view::EditAct::Set};
  wish.dimension = {DimensionKind::Sill, static_cast<std::size_t>(viewer.opening("J2"))};
  wish.value = 1075;
  view::grant(viewer.app, wish);
  viewer.settle();
  CHECK(viewer.app.shown.tour == 2);
  viewer.key(view::Key::Z, {.ctrl = true});
  CHECK(viewer.app.shown.tour == 3);
  viewer.type(U'k');
  viewer.settle();
  CHECK(viewer.app.shown.tour == 4);
  viewer.type(U'w');
  viewer.settle();
  viewer.type(U'.');
  viewer.settle();
  CHECK(viewer.app.shown.tour == -1);
  viewer.app.shown.tour = 0;
  view::disturb(viewer.app);
  viewer.settle();
  REQUIRE(viewer.clickItem("skip the tour"));
  CHECK(viewer.app.shown.tour == -1);
}

TEST_CASE("a right click offers what can be done with what lies there, and a click beside it puts the list away") {
  AtFirst viewer("boatshed");
  const ImVec2 glass = viewer.pixelOn(scene::PartKind::GlassPane);
  const auto ask = [&] {
    viewer.move(glass.x, glass.y);
    viewer.press(view::Button::Right);
    viewer.release(view::Button::Right);
    viewer.settle();
  };
  ask();
  REQUIRE(viewer.app.menu);
  REQUIRE(viewer.item("copy it") != nullptr);
  const std::size_t openings = viewer.app.document->job.openings.size();
  viewer.click(glass.x, glass.y - 200);
  CHECK_FALSE(viewer.app.menu);
  ask();
  viewer.key(view::Key::Escape);
  CHECK_FALSE(viewer.app.menu);
  ask();
  REQUIRE(viewer.clickItem("copy it"));
  CHECK(viewer.app.document->job.openings.size() == openings + 1);
  CHECK_FALSE(viewer.app.menu);
}

TEST_CASE("a light is divided and filled by picking it, and its mullion and transom are dragged") {
  AtFirst viewer("workshop-window");
  const auto unit = [&]() -> const job::Unit& { return viewer.app.document->job.openings[0].unit; };
  const auto choose = [&](const char* word) {
    const ImVec2 glass = viewer.pixelOn(scene::PartKind::GlassPane);
    viewer.move(glass.x, glass.y);
    viewer.press(view::Button::Right);
    viewer.release(view::Button::Right);
    viewer.settle();
    REQUIRE(viewer.clickItem(word));
  };
  choose("divide this light by a mullion");
  REQUIRE(unit().lights.size() == 2);
  choose("put a transom over its row");
  REQUIRE(unit().lights.size() == 4);
  CHECK(unit().rows == std::vector<double>{400, 0});
  choose("what this light is …");
  REQUIRE(viewer.clickItem("awning"));
  CHECK(unit().lights[0] == static_cast<job::Light>(job::UnitKind::AwningWindow));
  for (const char* name : {"mullion of ", "transom of "}) {
    INFO(name);
    const auto& handles = viewer.app.pointed.handles;
    const auto bar = std::find_if(handles.begin(), handles.end(),
                                  [&](const view::Handle& each) { return each.name.starts_with(name); });
    REQUIRE(bar != handles.end());
    const ImVec2 at = viewer.project(bar->at);
    const view::Dimension dimension = bar->dimensions.front();
    const double before = view::valueOf(viewer.app.document->job, dimension);
    viewer.drag(view::Button::Left, at, {at.x + 25.0F, at.y + 25.0F});
    CHECK(std::abs(view::valueOf(viewer.app.document->job, dimension) - before) > 10);
  }
  CHECK(unit().columns.back() == 0);
  while (viewer.app.history.canUndo()) view::grant(viewer.app, view::TakeBack{});
  CHECK_FALSE(viewer.app.typing.anyNotInFile(viewer.app.document->job));
}

TEST_CASE("the panels fold away, and the view takes the room that they leave") {
  AtFirst viewer("boatshed");
  const auto middle = [&] { return viewer.project(viewer.app.document->scene.openings[0].centre); };
  const auto free = [&] {
    const view::Canvas& canvas = viewer.app.layout.canvas;
    return (canvas.left + canvas.width - canvas.right) * 0.5F;
  };
  const float off = middle().x - free();
  viewer.key(view::Key::F9);
  CHECK(viewer.app.layout.canvas.left < 20);
  CHECK(viewer.item("opening J2") == nullptr);
  CHECK(std::abs(middle().x - free()) < std::abs(off) * 2 + 20);
  viewer.key(view::Key::F9);
  CHECK(viewer.item("opening J2") != nullptr);
  CHECK(middle().x - free() == Approx(off).margin(2));
}

TEST_CASE("orbiting from the empty ground keeps the house in sight") {
  Session viewer(demoJob("boatshed"));
  const auto& scene = viewer.app.document->scene;
  const float y = viewer.app.layout.canvas.height - viewer.app.layout.canvas.bottom - 12;
  for (int i = 0; i < 4; ++i) {
    viewer.drag(view::Button::Left, {300.0F, y}, {900.0F, y});
    const ImVec2 middle = viewer.project((scene.bounds.low + scene.bounds.high) * 0.5F);
    CHECK(viewer.app.layout.canvas.isFree(middle.x, middle.y));
  }
}

TEST_CASE("the foot is a few groups, each with a list of the rest") {
  AtFirst viewer("boatshed");
  CHECK(viewer.item("corner detail") == nullptr);
  REQUIRE(viewer.clickItem("Opening …"));
  REQUIRE(viewer.item("corner detail") != nullptr);
  REQUIRE(viewer.clickItem("corner detail"));
  CHECK(viewer.app.shown.lens);
  viewer.key(view::Key::F11);
  CHECK(viewer.app.shown.full_screen);
}

TEST_CASE("the eye turns to the face that a cut lays bare, along, into and level") {
  AtFirst viewer("boatshed");
  for (const view::CutAxis axis : {view::CutAxis::X, view::CutAxis::Y, view::CutAxis::Z}) {
    view::grant(viewer.app, view::CutWish{view::CutAct::Along, axis});
    viewer.settle();
    const auto& cut = *viewer.app.shown.look.cut;
    CHECK(glm::dot(viewer.app.shown.camera.forward(), -cut.normal) > 0.9F);
    const ImVec2 middle = viewer.project(viewer.app.document->scene.openings[0].centre);
    CHECK(viewer.app.layout.canvas.isFree(middle.x, middle.y));
  }
}

TEST_CASE("layers that are pulled apart are told, and handles go with the unit") {
  AtFirst viewer("boatshed");
  const auto handle = [&](bool of_unit) {
    const auto& all = viewer.app.pointed.handles;
    return std::find_if(all.begin(), all.end(), [&](const view::Handle& each) { return each.of_unit == of_unit; })->at;
  };
  const glm::vec3 unit = handle(true);
  const glm::vec3 edge = handle(false);
  view::grant(viewer.app, view::PullApart{150});
  view::disturb(viewer.app);
  viewer.settle();
  const auto& written = viewer.stage.seen.written;
  CHECK(std::any_of(written.begin(), written.end(), [](const view::Written& each) {
    return each.words.find("pulled apart by 150") != std::string::npos;
  }));
  CHECK(glm::distance(handle(true), unit) > 500);
  CHECK(glm::distance(handle(false), edge) < 100);
}

TEST_CASE("a figure that governs says so once") {
  AtFirst viewer("boatshed");
  const auto& written = viewer.stage.seen.written;
  CHECK(std::count_if(written.begin(), written.end(),
                      [](const view::Written& each) { return each.words.find("governs") != std::string::npos; }) == 1);
}

TEST_CASE("a job is saved under another name, and a new one takes a name and a place") {
  const tests::TemporaryFolder folder;
  const auto own = folder.path / "shed.toml";
  std::filesystem::copy_file(demoJob("boatshed"), own);
  Session viewer(own);
  view::EditWish wish{.act = view::EditAct::Set};
  wish.dimension = {DimensionKind::Sill, static_cast<std::size_t>(viewer.opening("J2"))};
  wish.value = 1075;
  view::grant(viewer.app, wish);
  viewer.key(view::Key::O, {.ctrl = true});
  REQUIRE(viewer.clickItem("set save as"));
  viewer.write("other");
  viewer.key(view::Key::Enter);
  CAPTURE(viewer.app.typing.refusal ? viewer.app.typing.refusal->text : "", viewer.app.typing.field.has_value());
  CHECK(viewer.app.file.path.filename() == "other.sillwright.toml");
  CHECK_FALSE(viewer.app.typing.anyNotInFile(viewer.app.document->job));
  CHECK(viewer.app.document->job.openings[wish.dimension.of].sill == 1075);
  // What was done before can still be undone, and the other file takes it.
  viewer.key(view::Key::Z, {.ctrl = true});
  CHECK(viewer.app.document->job.openings[wish.dimension.of].sill == 1050);
  CHECK(viewer.app.document->job.file == viewer.app.file.path);
  viewer.key(view::Key::S, {.ctrl = true});
  CHECK(document::load(viewer.app.file.path, tests::assets()).value->job.openings[wish.dimension.of].sill == 1050);
  CHECK(document::load(own, tests::assets()).value->job.openings[wish.dimension.of].sill == 1050);
  viewer.key(view::Key::O, {.ctrl = true});
  REQUIRE(viewer.clickItem("set written as"));
  viewer.write((folder.path / "none" / "new.toml").string());
  viewer.key(view::Key::Enter);
  REQUIRE(viewer.app.typing.refusal);
  CHECK(viewer.app.typing.refusal->text == "there is no such folder");
  viewer.key(view::Key::Escape);
  REQUIRE(viewer.clickItem("set written as"));
  viewer.write("hut");
  viewer.key(view::Key::Enter);
  CHECK(viewer.app.jobs.choices->fresh.filename() == "hut.sillwright.toml");
}
