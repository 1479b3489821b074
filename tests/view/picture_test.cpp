#include "view/window/picture.h"

#include "session.h"
#include "support/catch.h"
#include "support/pictures.h"

using namespace sillwright;

namespace {

const document::Document& boatshed() {
  static const document::Document document = [] {
    auto loaded = document::load(tests::demoJob("boatshed"), SILLWRIGHT_ASSETS_DIR);
    REQUIRE(loaded.ok());
    return std::move(*loaded.value);
  }();
  return document;
}

view::PictureOptions small() {
  view::PictureOptions options;
  options.width = 480;
  options.height = 320;
  return options;
}

render::Image drawn(const view::PictureOptions& options) {
  auto result = view::picture(boatshed(), options);
  REQUIRE(result.ok());
  return std::move(*result.value);
}

}  // namespace

TEST_CASE("every view of an opening makes a picture of its own") {
  std::vector<render::Image> pictures;
  for (std::size_t i = 0; i < view::kStandingViews; ++i) {
    view::PictureOptions options = small();
    options.view = static_cast<view::StandingView>(i);
    options.opening = "J2";
    pictures.push_back(drawn(options));
    CHECK(pictures.back().width == 480);
    CHECK(pictures.back().height == 320);
    CHECK(pictures.back().rgb.size() == std::size_t{480} * 320 * 3);
  }
  for (std::size_t i = 0; i < pictures.size(); ++i) {
    for (std::size_t j = i + 1; j < pictures.size(); ++j) {
      INFO(i << " and " << j);
      CHECK(testing::differingShare(pictures[i], pictures[j], 8) > 0.02);
    }
  }
}

TEST_CASE("a picture is the same each time") {
  CHECK(testing::differingShare(drawn(small()), drawn(small()), 0) == 0.0);
}

TEST_CASE("ground, layers and lettering are as asked for") {
  const render::Image plain = drawn(small());
  view::PictureOptions dark = small();
  dark.dark = true;
  CHECK(testing::differingShare(plain, drawn(dark), 30) > 0.3);
  view::PictureOptions open = small();
  open.hidden_layers = 1U << static_cast<unsigned>(scene::Layer::Cladding);
  CHECK(testing::differingShare(plain, drawn(open), 8) > 0.05);
  view::PictureOptions bare = small();
  bare.labels = false;
  const double lettering = testing::differingShare(plain, drawn(bare), 8);
  CHECK(lettering > 0.002);
  CHECK(lettering < 0.15);
}

TEST_CASE("what a picture can't show is said in a sentence") {
  const auto refused = [](const view::PictureOptions& options) {
    const auto result = view::picture(boatshed(), options);
    REQUIRE_FALSE(result.ok());
    REQUIRE(result.errors.size() == 1);
    return result.errors.front().say;
  };
  view::PictureOptions options = small();
  options.opening = "Z9";
  CHECK(refused(options).find("J1") != std::string::npos);  // the names there are
  options = small();
  options.view = view::StandingView::Jamb;
  CHECK(refused(options).find("needs an opening") != std::string::npos);
  options = small();
  options.width = 0;
  CHECK(refused(options).find("pixels") != std::string::npos);
  options.width = 100000;
  CHECK(refused(options).find("pixels") != std::string::npos);
}

TEST_CASE("layers go by plain words") {
  CHECK(view::layerNamed("cladding") == scene::Layer::Cladding);
  CHECK(view::layerNamed("lining") == scene::Layer::Lining);
  CHECK_FALSE(view::layerNamed("walls"));
  CHECK_FALSE(view::layerNamed("sarking"));
  practice::Words words;
  words.membrane = "sarking";
  CHECK(view::layerNamed("sarking", words) == scene::Layer::Membrane);
  CHECK(view::layerNamed("membrane", words) == scene::Layer::Membrane);
  CHECK(view::layerWords().find("cladding") != std::string::npos);
}
