#include "sheet/paper/dimension.h"

#include "drawn.h"
#include "sheet/paper/page.h"

using namespace sillwright;
using namespace sillwright::sheet;

namespace {

/// A page to draw on that keeps nothing but its log.
struct Pad {
  Typesetter typesetter;
  Paper paper{std::nullopt, {}, kDotsPerInch};
  PageLog log{"pad", 210, 297, {0, 0, 210, 297}, {}, {}, {}};
  Painter painter{paper.next(210, 297, {}, false), typesetter, log};
};

/// Of a drawing at 1:20 whose nought is at the page's edge: a millimetre of paper is 20 of it.
constexpr double kTimes = 20;

Chain chainOf(std::vector<double> on_paper) {
  Chain chain{.level = 100, .from = 90, .view = {1 / kTimes, {0, 0}}};
  for (const double place : on_paper) chain.at.push_back(place * kTimes);
  return chain;
}

}  // namespace

TEST_CASE("a figure with room stands over the middle of its span") {
  Pad pad;
  CHECK(drawChain(pad.painter, chainOf({20, 96.5})) == 0);
  REQUIRE(pad.log.labels.size() == 1);
  CHECK(pad.log.labels[0].box.middle().x == Approx(58.25));
  CHECK(pad.log.labels[0].box.y1 < 100.01);
  REQUIRE(pad.log.measures.size() == 1);
  CHECK(length(pad.log.measures[0].to - pad.log.measures[0].from) == Approx(76.5));
  CHECK(pad.log.measures[0].value == Approx(1530));
}

TEST_CASE("figures without room stand in rows and don't overlap") {
  Pad pad;
  const double reach = drawChain(pad.painter, chainOf({20, 22, 24, 26, 28, 80}));
  CHECK(reach > 4);
  CHECK(pad.log.labels.size() == 5);
  CHECK(testing::faultsOf(pad.log).empty());
}

TEST_CASE("an upright chain reads from the right, and its figures don't overlap either") {
  Pad pad;
  Chain chain = chainOf({-200, -150, -148, -146, -100});  // up the page
  chain.along = Along::Y;
  drawChain(pad.painter, chain);
  CHECK(pad.log.labels.size() == 4);
  CHECK(testing::faultsOf(pad.log).empty());
  CHECK(pad.log.labels[0].box.height() > pad.log.labels[0].box.width());
}

TEST_CASE("running figures fan out, and are thinned where there are more than fit") {
  Pad pad;
  Running running{.level = 100, .view = {0.01, {20, 0}}, .low = 20, .high = 60};
  for (int i = 0; i < 100; ++i) running.marks.push_back({i * 40.0, std::to_string(i * 40)});
  const double reach = drawRunning(pad.painter, running);
  CHECK(reach > 5);
  CHECK(testing::faultsOf(pad.log).empty());
  CHECK(pad.log.labels.size() >= 10);
  CHECK(pad.log.measures.size() == 100);
}

TEST_CASE("paragraphs keep to their width, whatever their words") {
  Pad pad;
  const std::string words = "short words, then averyveryverylongwordthatcannotbebrokenatanyspace, Ωμέγα and é × ½ → ☐";
  pad.painter.paragraph({10, 10}, 40, words);
  CHECK(pad.log.labels.size() > 3);
  for (const auto& label : pad.log.labels) CHECK(label.box.width() <= 40.01);
  CHECK(testing::faultsOf(pad.log).empty());
  std::string all;
  for (const auto& label : pad.log.labels) all += label.text;
  CHECK(all.find("☐") != std::string::npos);
}

TEST_CASE("a text is cut to its room between letters") {
  Pad pad;
  const std::string cut = pad.painter.fitted("ééééééééééééééééééééééééééé", 10);
  CHECK(pad.painter.widthOf(cut) <= 10);
  CHECK(cut.size() % 2 == 1);  // whole letters of two bytes, and the three bytes of "…"
  CHECK(pad.painter.fitted("short", 50) == "short");
}

TEST_CASE("the scale is the largest usual one that fits") {
  CHECK(scaleFor(3600, 2440, 200, 130, false).name == "1:20");
  CHECK(scaleFor(3600, 2440, 179, 130, false).name == "1:25");
  CHECK(scaleFor(1219, 1219, 100, 100, true).name.rfind("1:16", 0) == 0);
  CHECK(scaleFor(1e9, 1e9, 100, 100, false).name == "1:1000");
}
