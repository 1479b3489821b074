// Readings typed into the sheet by keys alone, deviations drawn larger, and what governs: whole frames off-screen.

#include <algorithm>
#include <string>

#include "session.h"
#include "support/catch.h"
#include "support/pictures.h"
#include "view/marks/marks.h"

using namespace sillwright;
using tests::demoJob;
using tests::Session;

namespace {

/// The measured window of the workshop, picked.
struct AtWindow : Session {
  AtWindow() : Session(demoJob("workshop-window")) {
    view::grant(app, view::PickOpening{0, true});
    view::disturb(app);
    settle();
  }
  [[nodiscard]] const job::Measured& read() const { return *app.document->job.openings[0].measured; }
  [[nodiscard]] check::Verdict verdict() const { return app.document->findings.verdicts[0]; }
  [[nodiscard]] bool finds(const std::string& about, const std::string& part = {}) const {
    const auto& findings = app.document->findings.openings[0];
    return std::any_of(findings.begin(), findings.end(), [&](const auto& finding) {
      return finding.about == about && finding.say.find(part) != std::string::npos;
    });
  }
};

}  // namespace

TEST_CASE("a reading is typed, Enter takes it in and goes on, and the answer follows in the same frame") {
  AtWindow viewer;
  const double spare = viewer.app.document->plan.openings[0].stand.spare;
  REQUIRE(viewer.clickItem("read bottom width"));
  viewer.write("1527");
  CHECK(viewer.read().widths[0] == 1529);  // not taken in yet
  viewer.key(view::Key::Enter);
  CHECK(viewer.read().widths[0] == 1527);
  CHECK(viewer.app.document->plan.openings[0].stand.spare < spare);
  CHECK(viewer.app.typing.isTyped(viewer.app.document->job, 0, job::TapeReading::WidthBottom));
  // Enter went on to the middle width, as a tape does; Tab to the top one. A comma is a decimal point.
  viewer.write("1528,5");
  viewer.key(view::Key::Tab);
  CHECK(viewer.read().widths[1] == 1528.5);
  viewer.write("1529");
  viewer.key(view::Key::Enter);
  CHECK(viewer.read().widths[2] == 1529);
}

TEST_CASE("a wrong figure stops the opening and is named: Ctrl Z undoes it") {
  AtWindow viewer;
  const auto before = viewer.verdict();
  const auto picture = viewer.picture();
  REQUIRE(viewer.clickItem("read top width"));
  viewer.write("1552");
  viewer.key(view::Key::Enter);
  CHECK(viewer.verdict() == check::Verdict::Stop);
  CHECK(viewer.finds("measurements", "top width"));
  CHECK(testing::differingShare(picture, viewer.picture(), 40) > 0.001);
  viewer.key(view::Key::Z, {.ctrl = true});
  CHECK(viewer.read().widths[2] == 1532);
  CHECK(viewer.verdict() == before);
  CHECK_FALSE(viewer.app.typing.anyNotInFile(viewer.app.document->job));
}

TEST_CASE("Delete empties a reading: nonsense and sizes out of bounds are refused with the reason") {
  AtWindow viewer;
  REQUIRE(viewer.clickItem("read level of the sill"));
  viewer.key(view::Key::Delete);
  viewer.key(view::Key::Enter);
  CHECK_FALSE(viewer.read().out_of_level.has_value());
  REQUIRE(viewer.clickItem("read left height"));
  viewer.write("99999999");
  viewer.key(view::Key::Enter);
  REQUIRE(viewer.app.typing.refusal.has_value());
  CHECK(viewer.app.typing.refusal->text.find("left height must be") == 0);
  CHECK(viewer.read().heights[0] == 1061);
  viewer.key(view::Key::Escape);
  CHECK_FALSE(viewer.app.typing.field.has_value());
  REQUIRE(viewer.clickItem("read left height"));
  viewer.write("1-2");
  viewer.key(view::Key::Enter);
  CHECK(viewer.app.typing.refusal.has_value());
}

TEST_CASE("digits in a field are figures, not the keys of layers") {
  AtWindow viewer;
  const auto hidden = viewer.app.shown.look.hidden_layers;
  REQUIRE(viewer.clickItem("read bottom width"));
  viewer.write("1530");
  CHECK(viewer.app.shown.look.hidden_layers == hidden);
}

TEST_CASE("closing asks first where something typed would be lost") {
  AtWindow viewer;
  REQUIRE(viewer.clickItem("read bottom width"));
  viewer.write("1530");
  viewer.key(view::Key::Enter);
  viewer.key(view::Key::Q, {.ctrl = true});
  CHECK_FALSE(viewer.app.closing);
  viewer.key(view::Key::Escape);
  CHECK_FALSE(viewer.app.closing);
  CHECK(viewer.read().widths[0] == 1530);
  viewer.key(view::Key::Q, {.ctrl = true});
  viewer.key(view::Key::Q, {.ctrl = true});
  CHECK(viewer.app.closing);
}

TEST_CASE("deviations drawn larger move the drawing and leave every figure") {
  AtWindow viewer;
  const auto stand = viewer.app.document->plan.openings[0].stand;
  const auto picture = viewer.picture();
  const auto low = viewer.app.document->scene.solids.size();
  viewer.type(U'm');
  viewer.settle();
  CHECK(viewer.app.document->deviation > 1);
  CHECK(viewer.app.document->drawn_deviation > 1);
  CHECK(viewer.app.document->scene.solids.size() == low);  // the same parts, elsewhere
  const auto& after = viewer.app.document->plan.openings[0].stand;
  CHECK(after.spare == stand.spare);
  CHECK(after.gaps.left == stand.gaps.left);
  CHECK(after.gaps.head == stand.gaps.head);
  CHECK(testing::differingShare(picture, viewer.picture(), 40) > 0.001);
  view::grant(viewer.app, view::Magnify{1.0});
  view::disturb(viewer.app);
  viewer.settle();
  CHECK(viewer.app.document->deviation == 1);
}
