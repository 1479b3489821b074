// Panels: what they show, that picking in them works, and that they have room at every size of window and text.

#include <filesystem>
#include <fstream>

#include "session.h"
#include "support/catch.h"
#include "support/pictures.h"
#include "view/values/readings.h"

using namespace sillwright;
using Catch::Matchers::WithinAbs;
using tests::Session;
using view::operator+;

namespace {

bool inside(const view::Item& item, float width) { return item.low.x >= 0.0F && item.high.x <= width; }

bool apart(ImVec2 a_low, ImVec2 a_high, ImVec2 b_low, ImVec2 b_high) {
  return a_high.x <= b_low.x || b_high.x <= a_low.x || a_high.y <= b_low.y || b_high.y <= a_low.y;
}

std::filesystem::path writeJob(const std::string& name, const std::string& text) {
  const std::filesystem::path file = std::filesystem::temp_directory_path() / ("sillwright-panels-" + name + ".toml");
  std::ofstream(file, std::ios::trunc) << text;
  return file;
}

constexpr const char* kGoodJob = R"([job]
title = "One"
practice = "au"
wind = "N3"

[[wall]]
name = "north"
length = 4000
top = 2440

[[opening]]
name = "N1"
wall = "north"
left = 1000
sill = 900
width = 1530
height = 1060

[opening.unit]
kind = "sliding window"
width = 1510
height = 1040
)";

}  // namespace

TEST_CASE("an opening picked in the strip is flown to and has its sheet") {
  Session session(tests::demoJob("boatshed"));
  const render::Camera before = session.app.shown.camera;
  const render::Image picture = session.picture();
  REQUIRE(session.clickItem("opening J2"));
  const std::int32_t opening = session.opening("J2");
  CHECK(session.app.shown.opening == opening);
  CHECK_FALSE(session.app.shown.camera == before);
  const ImVec2 middle = session.project(session.app.document->scene.openings[static_cast<std::size_t>(opening)].centre);
  const view::Canvas& canvas = session.app.layout.canvas;
  CHECK_THAT(middle.x, WithinAbs((canvas.left + canvas.width - canvas.right) / 2.0, 20.0));
  CHECK(session.item("clearance to spare") != nullptr);
  CHECK(testing::differingShare(picture, session.picture(), 8) > 0.1);
}

TEST_CASE("a wall picked in the strip is flown to") {
  Session session(tests::demoJob("boatshed"));
  REQUIRE(session.clickItem("wall hill"));
  CHECK(session.app.shown.wall == 1);
  CHECK(session.app.shown.opening == -1);
  // The hill wall is turned by 90 degrees in the job: seen from outside one looks along −X.
  CHECK(session.app.shown.camera.forward().x < -0.99F);
}

TEST_CASE("the layers' panel hides what its key hides") {
  Session session(tests::demoJob("boatshed"));
  const render::Image before = session.picture();
  REQUIRE(session.clickItem("layers"));
  CHECK(session.app.shown.layers_open);
  REQUIRE(session.clickItem("layer " + session.app.document->practice->words.cladding));
  CHECK(session.app.shown.look.hidden_layers == 1U << static_cast<unsigned>(scene::Layer::Cladding));
  REQUIRE(session.clickItem("show all"));
  CHECK(session.app.shown.look.hidden_layers == 0);
  REQUIRE(session.clickItem("layers"));
  session.move(700.0F, 5.0F);
  session.settle();
  CHECK(testing::differingShare(before, session.picture(), 8) < 0.001);
}

TEST_CASE("a finding is flown to at its spot") {
  Session session(tests::demoJob("not-yet"));
  const auto& all = session.app.document->findings.openings;
  for (std::size_t opening = 0; opening < all.size(); ++opening) {
    for (std::size_t i = 0; i < all[opening].size(); ++i) {
      const check::Finding& finding = all[opening][i];
      if (!finding.spot.side && !finding.spot.corner) continue;
      session.app.shown.opening = static_cast<std::int32_t>(opening);
      view::disturb(session.app);
      session.settle();
      const std::string name = "finding " + std::to_string(i) + " " + finding.about;
      const view::Item* item = session.item(name);
      REQUIRE(item != nullptr);
      session.app.focus.at = item->id;
      session.key(view::Key::Enter);
      CHECK(session.app.shown.camera.distance < 2500.0F);
      return;
    }
  }
  FAIL("the demo job has no finding with a spot: this test needs one");
}

TEST_CASE("the evening's ground is dark and its panels are too") {
  Session session(tests::demoJob("boatshed"));
  const auto brightness = [&](std::size_t x, std::size_t y) {
    const render::Image image = session.picture();
    const std::size_t at = (y * static_cast<std::size_t>(image.width) + x) * 3;
    return image.rgb[at] + image.rgb[at + 1] + image.rgb[at + 2];
  };
  CHECK(brightness(640, 4) > 600);
  CHECK(brightness(200, 20) > 600);
  session.type(U'e');
  session.settle();
  CHECK(brightness(640, 4) < 200);
  CHECK(brightness(200, 20) < 250);
}

TEST_CASE("panels have room and do not cover each other") {
  struct Size {
    int width;
    int height;
    float text;
  };
  const Size size = GENERATE(Size{1280, 800, 1.0F}, Size{1920, 1080, 1.0F}, Size{1280, 800, 1.5F},
                             Size{1920, 1080, 1.5F}, Size{1024, 700, 1.0F}, Size{1280, 800, 2.0F});
  Session session(tests::demoJob("boatshed"), size.width, size.height, size.text);
  session.type(U'n');
  session.settle();
  const view::Layout& layout = session.app.layout;
  const auto width = static_cast<float>(size.width);
  const auto height = static_cast<float>(size.height);
  const ImVec2 strip_high = layout.strip_at + ImVec2{layout.strip_width, layout.most_height};
  const ImVec2 sheet_high = layout.sheet_at + ImVec2{layout.sheet_width, layout.most_height};
  const ImVec2 foot_high = layout.foot_at + layout.foot_size;
  CHECK(apart(layout.strip_at, strip_high, layout.sheet_at, sheet_high));
  CHECK(apart(layout.strip_at, strip_high, layout.foot_at, foot_high));
  CHECK(apart(layout.sheet_at, sheet_high, layout.foot_at, foot_high));
  CHECK(layout.canvas.freeWidth() > width * 0.3F);
  CHECK(foot_high.y <= height);
  CHECK(sheet_high.x <= width);
  for (const view::Item& item : session.app.focus.items) {
    INFO(item.name);
    CHECK(inside(item, width));
    CHECK(item.high.x > item.low.x);
  }
  // The foot's words lie inside the foot, and none on another.
  for (const char* word : {"house", "outside", "Opening …", "cut", "keys"}) {
    const view::Item* item = session.item(word);
    REQUIRE(item != nullptr);
    INFO(word);
    CHECK(item->low.y >= layout.foot_at.y);
    CHECK(item->high.y <= foot_high.y);
    CHECK(item->high.x <= foot_high.x);
  }
}

TEST_CASE("no two things to pick in one panel lie on each other") {
  Session session(tests::demoJob("boatshed"), 1280, 800, GENERATE(1.0F, 1.5F));
  session.type(U'n');
  session.settle();
  const auto& items = session.app.focus.items;
  for (std::size_t i = 0; i < items.size(); ++i) {
    for (std::size_t j = i + 1; j < items.size(); ++j) {
      // Scrolled lists reach below the foot, where they are cut off: only what is in sight can be in the way.
      const bool in_sight =
          items[i].high.y <= session.app.layout.most_height && items[j].high.y <= session.app.layout.most_height;
      if (!in_sight) continue;
      INFO(items[i].name << " and " << items[j].name);
      CHECK(apart(items[i].low, items[i].high, items[j].low, items[j].high));
    }
  }
}

TEST_CASE("a job that can't be read is told with its lines, and read again when it is put right") {
  const std::filesystem::path file = writeJob("broken", std::string(kGoodJob) + "hight = 3\nwidth = \"wide\"\n");
  Session session(file);
  CHECK_FALSE(session.app.document);
  REQUIRE_FALSE(session.app.file.errors.empty());
  CHECK(session.app.file.errors.front().at.line > 0);
  CHECK_FALSE(session.app.file.lines.empty());
  CHECK(session.item("reload") != nullptr);
  CHECK(session.item("close") != nullptr);
  const render::Image page = session.picture();
  CHECK(session.settle() == 0);

  writeJob("broken", kGoodJob);
  session.key(view::Key::F5);
  CHECK(session.app.document);
  CHECK(session.app.file.errors.empty());
  CHECK(testing::differingShare(page, session.picture(), 8) > 0.05);

  // Broken again: what was read last stays on the screen, and the errors are told beside it with their lines.
  const render::Image good = session.picture();
  writeJob("broken", "[job\n");
  session.key(view::Key::F5);
  REQUIRE(session.app.document);
  CHECK(session.app.document->job.openings.size() == 1);
  REQUIRE_FALSE(session.app.file.errors.empty());
  CHECK(session.app.file.lines.front() == "[job");
  const double told = testing::differingShare(good, session.picture(), 8);
  CHECK(told > 0.02);
  CHECK(told < 0.3);

  writeJob("broken", kGoodJob);
  session.clickItem("reload");
  session.settle();
  CHECK(session.app.file.errors.empty());
  std::filesystem::remove(file);
}

TEST_CASE("keys mean nothing to a job that isn't there, and harm nothing") {
  Session session(writeJob("none", "nonsense"));
  for (const char32_t letter : U"foialrhsjcnbyte123?") {
    if (letter != 0) session.type(letter);
  }
  session.settle();
  session.key(view::Key::Tab);
  session.key(view::Key::Left);
  session.click(500.0F, 400.0F);
  session.key(view::Key::Escape);
  CHECK_FALSE(session.app.document);
  CHECK_FALSE(session.app.closing);
}

TEST_CASE("what is picked stays picked when the file is read again, by its name") {
  const std::filesystem::path file = writeJob("again", kGoodJob);
  Session session(file);
  REQUIRE(session.app.document);
  session.type(U'n');
  session.settle();
  REQUIRE(session.app.shown.opening == 0);
  session.key(view::Key::F5);
  CHECK(session.app.shown.opening == 0);
  CHECK(session.app.shown.wall == 0);
  std::filesystem::remove(file);
}

TEST_CASE("a screw that comes out behind the studs has its mark and its words in the drawing") {
  const auto wrote = [](const std::string& name, const std::string& stock) {
    const std::string text =
        std::string(kGoodJob) + "reveal = { thickness = 18, depth = 100 }\n\n[stock]\nscrews = " + stock + "\n";
    Session session(writeJob(name, text));
    view::grant(session.app, view::PickOpening{session.opening("N1"), true});
    view::disturb(session.app);
    session.settle();
    std::vector<view::Written> of_screws;
    for (const view::Written& each : session.stage.seen.written) {
      if (each.about.starts_with("screw ")) of_screws.push_back(each);
    }
    const std::size_t with = of_screws.size();
    if (with > 0) {
      // Gone with the layer of the fixings.
      view::grant(session.app, view::ToggleLayer{scene::Layer::Fixing});
      view::disturb(session.app);
      session.settle();
      for (const view::Written& each : session.stage.seen.written) CHECK_FALSE(each.about.starts_with("screw "));
    }
    return of_screws;
  };
  CHECK(wrote("inside", R"(["8g x 75"])").empty());
  const auto out = wrote("out", R"(["14g x 150"])");
  REQUIRE_FALSE(out.empty());
  // 150 less 15 of reveal under the head, about 10 of packer and two studs of 45.
  for (const view::Written& each : out) {
    CHECK(each.words.starts_with("comes out "));
    CHECK_THAT(std::stod(each.words.substr(10)), WithinAbs(150 - 15 - 10 - 90, 3));
  }
}

TEST_CASE("nothing is written under a panel that opens over the drawing, nor under the lens") {
  Session viewer(tests::demoJob("boatshed"), 1280, 800);
  const auto requireClear = [&](const std::vector<view::Wish>& wishes) {
    for (const view::Wish& wish : wishes) view::grant(viewer.app, wish);
    view::disturb(viewer.app);
    viewer.settle();
    view::disturb(viewer.app);
    viewer.settle();
    CHECK(viewer.stage.seen.written.size() > 2);
    for (const view::Written& each : viewer.stage.seen.written) {
      for (const view::Rect& panel : viewer.stage.seen.panels) {
        CAPTURE(each.about, each.words, panel.low.x, panel.low.y);
        CHECK_FALSE(view::overlap(each.at, panel));
      }
    }
  };
  requireClear({});
  const std::size_t panels = viewer.stage.seen.panels.size();
  requireClear({view::Toggle{&view::Shown::history_open}});
  CHECK(viewer.stage.seen.panels.size() == panels + 1);
  requireClear({view::Toggle{&view::Shown::layers_open}});
  requireClear({view::CutWish{view::CutAct::Next}});
  requireClear({view::CutWish{view::CutAct::Off}, view::PickWall{0, true}});
  requireClear({view::PickOpening{1, true}, view::NextLens{}});
  const view::Ui ui = viewer.stage.gui().ui(viewer.app.focus);
  const view::Rect room = view::placeLens(ui, viewer.app.layout.canvas, viewer.stage.seen.panels);
  for (const view::Written& each : viewer.stage.seen.written) CHECK_FALSE(view::overlap(each.at, room));
  for (const view::Rect& panel : viewer.stage.seen.panels) CHECK_FALSE(view::overlap(panel, room));
}

TEST_CASE("room for a picked wall's dimensions grows with the screen's scale as they do") {
  const auto room = [](float scale) {
    Session session(tests::demoJob("boatshed"), static_cast<int>(1280 * scale), static_cast<int>(800 * scale));
    session.screen.scale = scale;
    view::grant(session.app, view::PickWall{0});
    view::disturb(session.app);
    session.settle();
    const float with = view::canvasOf(session.app).left;
    session.app.shown.labels = false;
    return with - view::canvasOf(session.app).left;
  };
  REQUIRE(room(1.0F) > 0.0F);
  CHECK_THAT(room(2.0F), WithinAbs(2.0F * room(1.0F), 0.01));
}

TEST_CASE("a picked wall has its length, what is along it and its heights, none over another") {
  Session viewer(tests::demoJob("boatshed"));
  const auto& job = viewer.app.document->job;
  const auto dimensionsOf = [&](std::size_t wall) {
    view::grant(viewer.app, view::PickWall{static_cast<std::int32_t>(wall), true});
    view::disturb(viewer.app);
    viewer.settle();
    std::vector<view::Written> all;
    for (const auto& each : viewer.stage.seen.written) {
      if (each.about == "dimension") all.push_back(each);
    }
    return all;
  };
  const auto has = [](const std::vector<view::Written>& all, double value) {
    const std::string words = view::figure(value, practice::Display::Millimetres);
    return std::any_of(all.begin(), all.end(), [&](const auto& each) { return each.words == words; });
  };
  const auto front = dimensionsOf(0);
  CHECK(has(front, job.walls[0].length));
  CHECK(has(front, job.walls[0].top.front().z));
  double at = 0;
  for (const auto& opening : job.openings) {  // in the demo they are in order
    if (opening.wall != 0) continue;
    CAPTURE(opening.name);
    CHECK(has(front, opening.left - at));
    CHECK(has(front, opening.width));
    at = opening.left + opening.width;
  }
  CHECK(has(front, job.walls[0].length - at));
  for (std::size_t i = 0; i < front.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      CHECK(apart(front[i].at.low, front[i].at.high, front[j].at.low, front[j].at.high));
    }
  }
  const auto gable = dimensionsOf(1);
  double ridge = 0;
  for (const auto& point : job.walls[1].top) ridge = std::max(ridge, point.z);
  CHECK(has(gable, ridge));
  CHECK(has(gable, job.walls[1].top.front().z));
  CHECK(has(gable, job.walls[1].top.back().z));
}
