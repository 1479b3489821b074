// The files themselves, looked at with independent tools: qpdf and the poppler utilities (both in packages.txt).

#include <array>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <map>

#include "drawn.h"

using namespace sillwright;
namespace fs = std::filesystem;

namespace {

constexpr double kPoint = 72.0 / 25.4;

struct Ran {
  int status = -1;
  std::string said;
};

Ran run(const std::string& command) {
  Ran ran;
  std::FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) return ran;
  std::array<char, 4096> room{};
  std::size_t got = 0;
  while ((got = std::fread(room.data(), 1, room.size(), pipe)) > 0) ran.said.append(room.data(), got);
  ran.status = pclose(pipe);
  return ran;
}

/// Whether a tool is on this machine; says so plainly where it isn't, and the case then checks nothing.
bool have(const char* tool) {
  if (run(std::string("command -v ") + tool).status == 0) return true;
  WARN("skipped: " << tool << " is not installed (see third_party/packages.txt)");
  return false;
}

/// A folder that goes when the case ends.
struct Folder {
  fs::path path;
  Folder() {
    std::string name = (fs::temp_directory_path() / "sheets-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Folder() {
    std::error_code ignored;
    fs::remove_all(path, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string put(const char* name, const std::string& bytes) const {
    const fs::path file = path / name;
    std::ofstream(file, std::ios::binary) << bytes;
    return file.string();
  }
};

std::string pdfOf(const testing::Drawn& made) {
  const auto files = sheet::draw(made.subject(), {}, sheet::Format::Pdf);
  REQUIRE(files.size() == 1);
  return files.front();
}

struct Word {
  std::string text;
  sheet::Box box;  // mm
};

/// pdftotext -bbox: a list of pages with their words.
std::vector<std::vector<Word>> wordsOf(const std::string& html) {
  std::vector<std::vector<Word>> pages;
  std::size_t at = 0;
  while (at < html.size()) {
    const std::size_t end = std::min(html.find('\n', at), html.size());
    const std::string line = html.substr(at, end - at);
    at = end + 1;
    if (line.find("<page ") != std::string::npos) pages.emplace_back();
    const auto value = [&](const char* key) {
      const auto from = line.find(key);
      return from == std::string::npos ? 0.0 : std::atof(line.c_str() + from + std::string(key).size()) / kPoint;
    };
    const auto open = line.find("\">");
    const auto close = line.find("</word>");
    if (open == std::string::npos || close == std::string::npos || pages.empty()) continue;
    pages.back().push_back({line.substr(open + 2, close - open - 2),
                            {value("xMin=\""), value("yMin=\""), value("xMax=\""), value("yMax=\"")}});
  }
  return pages;
}

std::size_t count(const std::string& text, const std::string& what) {
  std::size_t number = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size())) ++number;
  return number;
}

}  // namespace

TEST_CASE("the same job gives the same bytes") {
  const auto made = testing::drawnFile("raking-studio.toml");
  CHECK(pdfOf(made) == pdfOf(made));
  for (const auto format : {sheet::Format::Svg, sheet::Format::Png}) {
    sheet::Wanted wanted;
    wanted.opening = 0;
    CHECK(sheet::draw(made.subject(), wanted, format) == sheet::draw(made.subject(), wanted, format));
  }
}

TEST_CASE("qpdf finds nothing wrong") {
  if (!have("qpdf")) return;
  const Folder folder;
  for (const auto& demo : testing::demoJobs()) {
    const auto made = testing::drawn(demo);
    const Ran ran = run("qpdf --check " + folder.put("job.pdf", pdfOf(made)));
    CAPTURE(demo.job.title, ran.said);
    CHECK(ran.status == 0);
    CHECK(ran.said.find("WARNING") == std::string::npos);
  }
}

TEST_CASE("every typeface is embedded, and its letters can be read back") {
  if (!have("pdffonts")) return;
  const Folder folder;
  const Ran ran = run("pdffonts " + folder.put("job.pdf", pdfOf(testing::drawnFile("boatshed.toml"))));
  CAPTURE(ran.said);
  REQUIRE(ran.status == 0);
  // Two lines of head; then "emb sub uni" are three words that have to be yes.
  std::size_t fonts = 0;
  std::size_t at = ran.said.find('\n', ran.said.find('\n') + 1) + 1;
  while (at < ran.said.size()) {
    const std::size_t end = std::min(ran.said.find('\n', at), ran.said.size());
    const std::string line = ran.said.substr(at, end - at);
    CHECK(line.find("yes yes yes") != std::string::npos);
    ++fonts;
    at = end + 1;
  }
  CHECK(fonts >= 2);
}

TEST_CASE("words are where the layout says, by an independent reader") {
  if (!have("pdftotext")) return;
  const Folder folder;
  const auto made = testing::drawnFile("workshop-window.toml");
  const std::string pdf = folder.put("job.pdf", pdfOf(made));
  const Ran ran = run("pdftotext -bbox " + pdf + " -");
  REQUIRE(ran.status == 0);
  const auto pages = wordsOf(ran.said);
  const auto logs = sheet::layOut(made.subject());
  REQUIRE(pages.size() == logs.size());
  std::size_t checked = 0;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    for (const auto& label : logs[i].labels) {
      // Single plain words only: the reader cuts at spaces and escapes some letters.
      if (label.text.size() < 3 ||
          label.text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789.") != std::string::npos) {
        continue;
      }
      bool found = false;
      for (const Word& word : pages[i]) {
        found = found || (word.text == label.text && std::abs(word.box.middle().x - label.box.middle().x) < 1.0 &&
                          std::abs(word.box.middle().y - label.box.middle().y) < 1.0);
      }
      CAPTURE(logs[i].title, label.text, label.box.x0, label.box.y0);
      CHECK(found);
      ++checked;
    }
  }
  CHECK(checked > 100);
}

TEST_CASE("the PDF is A4 and says what it is of") {
  if (!have("pdfinfo")) return;
  const Folder folder;
  const auto made = testing::drawnFile("workshop-window.toml");
  const Ran ran = run("pdfinfo -f 1 -l 3 " + folder.put("job.pdf", pdfOf(made)));
  CAPTURE(ran.said);
  REQUIRE(ran.status == 0);
  CHECK(ran.said.find("Workshop window") != std::string::npos);
  CHECK(count(ran.said, "(A4)") == 3);
}

TEST_CASE("an SVG is a page in millimetres, a PNG one in dots") {
  const auto made = testing::drawnFile("workshop-window.toml");
  sheet::Wanted wanted;
  wanted.wall = 0;
  const auto pages = sheet::layOut(made.subject(), wanted);
  const auto svg = sheet::draw(made.subject(), wanted, sheet::Format::Svg);
  REQUIRE(svg.size() == pages.size());
  CHECK(svg[0].find("width=\"297mm\" height=\"210mm\"") != std::string::npos);
  const auto png = sheet::draw(made.subject(), wanted, sheet::Format::Png, 100);
  REQUIRE(png.size() == pages.size());
  CHECK(png[0].substr(1, 3) == "PNG");
  const auto number = [&](std::size_t at) {
    unsigned value = 0;
    for (std::size_t i = 0; i < 4; ++i) value = value << 8U | static_cast<unsigned char>(png[0][at + i]);
    return value;
  };
  // Width and height stand at bytes 16 and 20 (PNG specification, IHDR): 297 and 210 mm at 100 dots an inch.
  CHECK(number(16) == 1169);
  CHECK(number(20) == 827);
}

TEST_CASE("the sheets of the demo house take at most three seconds") {
#if defined(__SANITIZE_ADDRESS__)
  WARN("skipped: times say nothing under the sanitizers");
#else
  const auto made = testing::drawnFile("boatshed.toml");
  const std::clock_t start = std::clock();
  const std::string pdf = pdfOf(made);
  const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  CHECK(pdf.size() > 10000);
  CHECK(seconds < 3.0);
#endif
}
