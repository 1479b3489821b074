// The files themselves, looked at with independent tools: qpdf and the poppler utilities (both in packages.txt).

#include <algorithm>
#include <iterator>

#include "file_tools.h"

using namespace sillwright;
using testing::Folder;
using testing::have;
using testing::pdfOf;
using testing::Ran;
using testing::run;
namespace fs = std::filesystem;

namespace {

constexpr double kPoint = 72.0 / 25.4;

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

/// Where the run below puts its sheets.
constexpr const char* kPutAt = "SILLWRIGHT_TEST_SHEETS_AT";

TEST_CASE("puts its sheets into a file, for another run to compare", "[.other-run]") {
  const char* at = std::getenv(kPutAt);
  REQUIRE(at != nullptr);
  std::ofstream(at, std::ios::binary) << pdfOf(testing::drawnFile("boatshed.toml"));
}

TEST_CASE("another run of the program gives the same bytes") {
  // Another process has its memory elsewhere: an order that hung on addresses would show.
  std::error_code unknown;
  const fs::path self = fs::read_symlink("/proc/self/exe", unknown);
  if (unknown) {
    WARN("skipped: this system doesn't say which program runs");
    return;
  }
  const Folder folder;
  const std::string at = (folder.path / "other.pdf").string();
  const Ran ran = run(std::string(kPutAt) + "='" + at + "' '" + self.string() + "' '[.other-run]'");
  CAPTURE(ran.said);
  REQUIRE(ran.status == 0);
  std::ifstream file(at, std::ios::binary);
  const std::string other{std::istreambuf_iterator<char>(file), {}};
  const bool same = other == pdfOf(testing::drawnFile("boatshed.toml"));
  CHECK(other.size() > 10000);
  CHECK(same);
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

TEST_CASE("whole sentences can be selected and searched for") {
  if (!have("pdftotext")) return;
  const Folder folder;
  const auto made = testing::drawnFile("boatshed.toml");
  const Ran ran = run("pdftotext -raw " + folder.put("job.pdf", pdfOf(made)) + " -");
  REQUIRE(ran.status == 0);
  std::string text = ran.said;
  std::replace(text.begin(), text.end(), '\n', ' ');
  for (const auto& findings : made.findings.openings) {
    for (const auto& finding : findings) {
      CAPTURE(finding.say);
      CHECK(text.find(finding.say) != std::string::npos);
    }
  }
  for (const auto& caution : made.findings.cautions) CHECK(text.find(caution) != std::string::npos);
}

/// A page as another program draws it: grey, row by row from the top.
struct Print {
  std::size_t wide = 0;
  std::size_t high = 0;
  double per_mm = 0;  // dots
  std::string dots;

  [[nodiscard]] bool dark(double x, double y) const {
    const auto column = static_cast<std::size_t>(std::lround(x * per_mm));
    const auto row = static_cast<std::size_t>(std::lround(y * per_mm));
    return column < wide && row < high && static_cast<unsigned char>(dots[row * wide + column]) < 128;
  }
};

Print printed(const Folder& folder, const std::string& pdf, std::size_t page, int dots_per_inch) {
  const std::string number = std::to_string(page);
  const std::string at = (folder.path / "page").string();
  Print print;
  const Ran ran = run("pdftoppm -gray -singlefile -r " + std::to_string(dots_per_inch) + " -f " + number + " -l " +
                      number + " " + pdf + " " + at);
  CAPTURE(ran.said);
  REQUIRE(ran.status == 0);
  std::ifstream file(at + ".pgm", std::ios::binary);
  std::string kind;
  int brightest = 0;
  file >> kind >> print.wide >> print.high >> brightest;
  file.get();
  print.dots.assign(std::istreambuf_iterator<char>(file), {});
  REQUIRE(kind == "P5");
  REQUIRE(print.dots.size() == print.wide * print.high);
  print.per_mm = dots_per_inch / 25.4;
  return print;
}

/// The middle of the first line that is met from a place to the right or the left.
double lineFrom(const Print& print, double x, double y, double way) {
  const double step = 1 / print.per_mm;
  while (x > 0 && x < static_cast<double>(print.wide) / print.per_mm && !print.dark(x, y)) x += way * step;
  const double first = x;
  while (print.dark(x, y)) x += way * step;
  return (first + x - way * step) / 2;
}

TEST_CASE("on the printed page 1530 mm at 1:20 measure 76.5 mm") {
  if (!have("pdftotext") || !have("pdftoppm")) return;
  const Folder folder;
  const std::string pdf = folder.put("job.pdf", pdfOf(testing::drawnFile("workshop-window.toml")));
  const Ran ran = run("pdftotext -f 2 -l 2 -bbox " + pdf + " -");
  REQUIRE(ran.status == 0);
  const auto pages = wordsOf(ran.said);
  REQUIRE(pages.size() == 1);
  const auto has = [&](const char* words) {
    return std::count_if(pages[0].begin(), pages[0].end(), [&](const Word& word) { return word.text == words; });
  };
  REQUIRE(has("1:20") == 1);
  REQUIRE(has("1530") == 1);
  const auto word = std::find_if(pages[0].begin(), pages[0].end(), [](const Word& one) { return one.text == "1530"; });
  // The figure stands over its dimension line between two extension lines: half way up it nothing else is met.
  const Print print = printed(folder, pdf, 2, 600);
  const double y = word->box.middle().y;
  const double left = lineFrom(print, word->box.x0 - 1.0, y, -1);
  const double right = lineFrom(print, word->box.x1 + 1.0, y, 1);
  // A dot at 600 an inch is 0.042 mm.
  CHECK(right - left == Approx(76.5).margin(0.1));
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
