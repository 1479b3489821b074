#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>

#include "render/offscreen.h"
#include "render/renderer.h"
#include "support/catch.h"
#include "support/pictures.h"

using namespace sillwright;
using render::Image;

namespace {

Image slope(int width, int height) {
  Image image{width, height, {}};
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      image.rgb.push_back(static_cast<std::uint8_t>(x * 7));
      image.rgb.push_back(static_cast<std::uint8_t>(y * 11));
      image.rgb.push_back(static_cast<std::uint8_t>(x ^ y));
    }
  }
  return image;
}

/// A folder of the test's own, gone afterwards.
struct Folder {
  std::filesystem::path path;
  explicit Folder(const std::string& name) : path(std::filesystem::temp_directory_path() / name) {
    std::filesystem::remove_all(path);
    std::filesystem::create_directories(path);
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
};

template <class Action>
std::string complaint(Action action) {
  try {
    action();
  } catch (const std::runtime_error& error) {
    return error.what();
  }
  return {};
}

}  // namespace

TEST_CASE("a picture comes back from its PNG as it was, and nothing else is left in the folder") {
  const Folder folder("sillwright_image_test");
  const Image image = slope(37, 23);
  render::writePng(folder.path / "a.png", image);
  const Image back = testing::readPng(folder.path / "a.png");
  CHECK(back.width == 37);
  CHECK(back.height == 23);
  CHECK(back.rgb == image.rgb);
  int files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder.path)) {
    static_cast<void>(entry);
    ++files;
  }
  CHECK(files == 1);
}

TEST_CASE("the file is a PNG by its signature") {
  // The eight bytes of the PNG specification (W3C Recommendation, section 5.2).
  const Folder folder("sillwright_signature_test");
  render::writePng(folder.path / "a.png", slope(4, 4));
  std::ifstream file(folder.path / "a.png", std::ios::binary);
  std::string start(8, '\0');
  file.read(start.data(), 8);
  CHECK(start == std::string("\x89PNG\r\n\x1a\n"));
}

TEST_CASE("a picture that can't be written is refused in one sentence that names the file") {
  const std::string said = complaint([] { render::writePng("/sillwright-no-such-folder/deep/a.png", slope(4, 4)); });
  CHECK(said.find("/sillwright-no-such-folder/deep/a.png") != std::string::npos);
  CHECK(said.back() == '.');
  CHECK(said.find('\n') == std::string::npos);
}

TEST_CASE("a picture without its pixels is refused") {
  CHECK_FALSE(complaint([] { render::writePng("never.png", Image{4, 4, {}}); }).empty());
  CHECK_FALSE(complaint([] { render::writePng("never.png", Image{0, 0, {}}); }).empty());
  CHECK_FALSE(std::filesystem::exists("never.png"));
}

TEST_CASE("pictures differ by the share of pixels whose largest channel is further off than the threshold") {
  const Image a = slope(10, 10);
  CHECK(testing::differingShare(a, a, 0) == 0.0);
  Image b = a;
  b.rgb[0] = static_cast<std::uint8_t>(b.rgb[0] + 5);                       // One pixel by 5,
  b.rgb[3 * 50 + 2] = static_cast<std::uint8_t>(b.rgb[3 * 50 + 2] ^ 128U);  // one by 128,
  b.rgb[3 * 50 + 1] = static_cast<std::uint8_t>(b.rgb[3 * 50 + 1] ^ 128U);  // twice over in one pixel.
  CHECK(testing::differingShare(a, b, 4) == Approx(0.02));
  CHECK(testing::differingShare(a, b, 5) == Approx(0.01));
  CHECK(testing::differingShare(a, b, 128) == 0.0);
  CHECK(testing::differingShare(a, b, 4) == testing::differingShare(b, a, 4));
  CHECK(testing::differingShare(a, slope(10, 9), 255) == 1.0);
}
