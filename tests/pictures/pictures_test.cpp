// Pictures of the demo jobs against baselines, drawn off-screen by the program's own renderer.
//
// Tolerance: at most kShare of the pixels may differ by more than kThreshold of 255 in any channel. Software renderers
// of other versions place an edge's half-tones a little differently; a part that moved or went missing changes far
// more. A missing baseline fails and leaves the new picture in the build folder, to be looked at and copied over.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>

#include "document/document.h"
#include "plan/work/order_of_work.h"
#include "render/offscreen.h"
#include "support/catch.h"
#include "support/pictures.h"
#include "view/window/picture.h"

namespace {

using namespace sillwright;
namespace fs = std::filesystem;

constexpr int kThreshold = 40;
constexpr double kShare = 0.012;

struct Shot {
  std::string name;
  std::string job;
  std::string view;
  std::string opening;
  std::string hide;  ///< Layers, comma-separated.
  bool dark = false;
  std::string cut = {};  ///< As view::parseCut; empty: none.
};

void compare(const std::string& name, const render::Image& image) {
  const fs::path baseline = fs::path(SILLWRIGHT_SOURCE_DIR) / "tests/pictures" / (name + ".png");
  const fs::path out = fs::path(SILLWRIGHT_PICTURES_OUT) / (name + ".png");
  fs::create_directories(out.parent_path());
  render::writePng(out, image);
  CAPTURE(out.string());
  REQUIRE(fs::exists(baseline));
  const double share = testing::differingShare(image, testing::readPng(baseline), kThreshold);
  CHECK(share <= kShare);
}

std::uint32_t layers(const std::string& words) {
  std::uint32_t mask = 0;
  std::size_t from = 0;
  while (from < words.size()) {
    const std::size_t end = std::min(words.find(',', from), words.size());
    const auto layer = view::layerNamed(words.substr(from, end - from));
    REQUIRE(layer.has_value());
    mask |= 1U << static_cast<unsigned>(*layer);
    from = end + 1;
  }
  return mask;
}

void shoot(const Shot& shot) {
  const auto document =
      document::load(fs::path(SILLWRIGHT_ASSETS_DIR) / "jobs" / (shot.job + ".toml"), SILLWRIGHT_ASSETS_DIR);
  REQUIRE(document.ok());
  view::PictureOptions options;
  options.width = 800;
  options.height = 500;
  options.view = *view::standingView(shot.view);
  if (!shot.opening.empty()) options.opening = shot.opening;
  options.hidden_layers = layers(shot.hide);
  options.dark = shot.dark;
  if (!shot.cut.empty()) options.cut = *view::parseCut(shot.cut).value;
  options.labels = false;  // letters depend on the fonts of the machine; the viewer's tests look at them
  const auto image = view::picture(*document.value, options);
  REQUIRE(image.ok());
  compare(shot.name, *image.value);
}

struct Still {
  std::size_t opening = 0;
  int step = 0;
};

/// One picture of steps, four side by side.
void shootStills(const std::string& name, const document::Document& document, const std::vector<Still>& stills,
                 float spread, std::optional<view::StandingView> seen) {
  constexpr int kWidth = 320;
  constexpr int kHeight = 220;
  constexpr int kAcross = 4;
  const auto rows = static_cast<int>(stills.size() + kAcross - 1) / kAcross;
  render::Image all{kAcross * kWidth, rows * kHeight, {}};
  all.rgb.assign(static_cast<std::size_t>(all.width) * static_cast<std::size_t>(all.height) * 3, 0xff);
  int number = 0;
  for (const Still& still : stills) {
    view::PictureOptions options;
    options.width = kWidth;
    options.height = kHeight;
    options.view = seen;
    options.opening = document.job.openings[still.opening].name;
    options.step = still.step;
    options.spread = spread;
    options.labels = false;
    const auto image = view::picture(document, options);
    REQUIRE(image.ok());
    const int left = number % kAcross * kWidth;
    const int top = number / kAcross * kHeight;
    for (int row = 0; row < kHeight; ++row) {
      const auto from = image.value->rgb.begin() + static_cast<std::ptrdiff_t>(row) * kWidth * 3;
      const auto to = all.rgb.begin() + (static_cast<std::ptrdiff_t>(top + row) * all.width + left) * 3;
      std::copy(from, from + kWidth * 3, to);
    }
    ++number;
  }
  compare(name, all);
}

document::Document demo(const std::string& job) {
  auto document = document::load(fs::path(SILLWRIGHT_ASSETS_DIR) / "jobs" / (job + ".toml"), SILLWRIGHT_ASSETS_DIR);
  REQUIRE(document.ok());
  return std::move(*document.value);
}

/// All the steps of an opening, from the bare frame on.
void shootSteps(const std::string& name, const std::string& job, const std::string& opening, float spread,
                std::optional<view::StandingView> seen = view::StandingView::Outside) {
  const document::Document document = demo(job);
  std::size_t index = 0;
  while (document.job.openings.at(index).name != opening) ++index;
  std::vector<Still> stills;
  const auto steps = static_cast<int>(plan::stepsAt(document.plan.openings[index]).size());
  for (int step = 0; step <= steps; ++step) stills.push_back({index, step});
  shootStills(name, document, stills, spread, seen);
}

/// Each unit of a job as it is tried: what opens stands part open.
void shootTried(const std::string& name, const std::string& job) {
  const document::Document document = demo(job);
  std::vector<Still> stills;
  for (std::size_t i = 0; i < document.job.openings.size(); ++i) {
    const auto steps = plan::stepsAt(document.plan.openings[i]);
    const auto tried = std::find(steps.begin(), steps.end(), plan::StepKind::TryOpening);
    stills.push_back({i, static_cast<int>(tried - steps.begin()) + (tried == steps.end() ? 0 : 1)});
  }
  shootStills(name, document, stills, 0, std::nullopt);
}

}  // namespace

TEST_CASE("each step: gable window with a head flashing") { shootSteps("steps-gable", "boatshed", "H1", 0); }
TEST_CASE("each step, pulled apart: bare frame in a wet room") { shootSteps("steps-wet-room", "boatshed", "L2", 60); }
TEST_CASE("each step from where it is best seen: sliding window") {
  shootSteps("steps-seen", "boatshed", "J2", 0, std::nullopt);
}
TEST_CASE("each step from where it is best seen: sliding door on the floor") {
  shootSteps("steps-seen-door", "boatshed", "J1", 0, std::nullopt);
}
TEST_CASE("every kind of unit as it is tried, part open") { shootTried("every-kind-tried", "every-kind"); }
TEST_CASE("house: every kind of unit") { shoot({"every-kind", "every-kind", "house", "", ""}); }
TEST_CASE("house: boatshed") { shoot({"boatshed", "boatshed", "house", "", ""}); }
TEST_CASE("house: boatshed's frame") {
  shoot({"boatshed-frame", "boatshed", "house", "", "cladding,membrane,lining,eave"});
}
TEST_CASE("house: boatshed in the evening") { shoot({"boatshed-dark", "boatshed", "house", "", "", true}); }
TEST_CASE("inside: gable window") { shoot({"gable-inside", "boatshed", "inside", "H1", "lining"}); }
TEST_CASE("outside: bathroom window, bare frame") { shoot({"bare-outside", "boatshed", "outside", "L2", "cladding"}); }
TEST_CASE("outside: sliding door") { shoot({"door-outside", "boatshed", "outside", "J1", ""}); }
TEST_CASE("inside: hinged door") { shoot({"hinged-inside", "boatshed", "inside", "S2", "lining"}); }
TEST_CASE("sill: workshop window") { shoot({"workshop-sill", "workshop-window", "sill", "Y1", "lining"}); }
TEST_CASE("house: raking studio's frame") {
  shoot({"raking-frame", "raking-studio", "house", "", "cladding,battens,membrane"});
}
TEST_CASE("house: openings that follow the roof, and their frame") {
  shoot({"gable-loft", "gable-loft", "house", "", ""});
  shoot({"gable-loft-frame", "gable-loft", "house", "", "cladding,membrane"});
}
TEST_CASE("house: garage") { shoot({"garage", "garage-header", "house", "", ""}); }
TEST_CASE("house: not yet") { shoot({"not-yet", "not-yet", "house", "", "cladding,membrane"}); }

TEST_CASE("section: sill of a sliding window") { shoot({"cut-sill", "boatshed", "sill", "J2", "", false, "x=5300"}); }
TEST_CASE("section: head of a gable window in the evening") {
  shoot({"cut-head-dark", "boatshed", "head", "H1", "", true, "x=2000"});
}
TEST_CASE("section: jamb of a bare frame") { shoot({"cut-jamb", "boatshed", "jamb", "L2", "", false, "z=1500"}); }
TEST_CASE("section: in the wall's plane, packers all round") {
  shoot({"cut-plane", "workshop-window", "outside", "Y1", "", false, "y=45"});
}
TEST_CASE("section: the house level, and a garage in the evening") {
  shoot({"cut-level", "boatshed", "house", "", "", false, "z=1500"});
  shoot({"cut-garage-dark", "garage-header", "house", "", "", true, "z=1200"});
}

TEST_CASE("the comparison itself: a moved picture is seen, an equal one is not") {
  const auto document =
      document::load(fs::path(SILLWRIGHT_ASSETS_DIR) / "jobs/workshop-window.toml", SILLWRIGHT_ASSETS_DIR);
  REQUIRE(document.ok());
  view::PictureOptions options;
  options.width = 400;
  options.height = 250;
  options.labels = false;
  const auto one = view::picture(*document.value, options);
  options.hidden_layers = layers("cladding");
  const auto other = view::picture(*document.value, options);
  REQUIRE(one.ok());
  REQUIRE(other.ok());
  CHECK(testing::differingShare(*one.value, *one.value, kThreshold) == 0);
  CHECK(testing::differingShare(*one.value, *other.value, kThreshold) > kShare);
}
