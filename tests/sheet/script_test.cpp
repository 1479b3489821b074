// Names in other scripts than Latin: joined, from right to left, with combining marks, without spaces.

#include "drawn.h"
#include "file_tools.h"
#include "sheet/paper/page.h"

using namespace sillwright;
using namespace sillwright::sheet;

namespace {

constexpr const char* kArabic = "نافذة المطبخ";  // kitchen window
constexpr const char* kHebrew = "חלון הסלון";    // living room window
constexpr const char* kHan = "厨房窗户";
constexpr const char* kUnassigned = "\u0378";  // no character, so no typeface has it

/// The boatshed with a title and names of openings of one's own.
testing::Drawn boatshedNamed(const std::string& title, const std::vector<std::string>& names) {
  testing::DemoJob demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/boatshed.toml");
  demo.job.title = title;
  for (std::size_t i = 0; i < names.size(); ++i) demo.job.openings[i].name = names[i];
  return testing::drawnJob(std::move(demo.job));
}

bool missesLetters(const std::vector<PageLog>& pages) {
  return std::any_of(pages.begin(), pages.end(), [](const PageLog& page) { return !page.missing.empty(); });
}

}  // namespace

TEST_CASE("names in any script keep to their places, and can be searched for") {
  const auto made = boatshedNamed(std::string(kHebrew) + " 12", {kArabic, kHebrew, "Cafe\u0301 №", "Ωμέγα"});
  const auto pages = layOut(made.subject());
  for (const auto& page : pages) {
    for (const auto& fault : testing::faultsOf(page)) FAIL_CHECK(fault);
  }
  CHECK_FALSE(missesLetters(pages));
  CHECK(testing::says(pages.front(), kArabic));
  if (!testing::have("pdftotext")) return;
  const testing::Folder folder;
  const auto ran = testing::run("pdftotext -f 1 -l 1 " + folder.put("job.pdf", testing::pdfOf(made)) + " -");
  for (const char* words : {"نافذة", "المطبخ", "חלון", "הסלון", "Cafe\u0301", "Ωμέγα"}) {
    CAPTURE(words, ran.said);
    CHECK(ran.said.find(words) != std::string::npos);
  }
}

TEST_CASE("letters are joined, and marks stand over them") {
  Typesetter typesetter;
  const auto width = [&](std::string_view words) {
    return typesetter.set(words, letter::kBody, Weight::Regular).lines.front().width;
  };
  CHECK(width("e\u0301") == Approx(width("é")));
  CHECK(width("ببب") < width("ب") * 2.9);
  // Read from the right: the first letter stands at the right end of the line.
  int at = 0;
  pango_layout_line_index_to_x(typesetter.set("אבג", letter::kBody, Weight::Regular).lines.front().letters, 0, 0, &at);
  CHECK(at / static_cast<double>(PANGO_SCALE) == Approx(width("אבג")));
}

TEST_CASE("a text without spaces is broken where its script allows") {
  Typesetter typesetter;
  const auto& text = typesetter.set("厨房窗户应从外侧安装，并在安装后再次测量。", letter::kBody, Weight::Regular, 30);
  CHECK(text.lines.size() >= 2);
  for (const auto& line : text.lines) {
    CHECK(line.width <= 30.01);
    CHECK(line.text.rfind("，", 0) == std::string::npos);
  }
}

TEST_CASE("a line isn't broken in a figure with its unit, nor after a hyphen") {
  Typesetter typesetter;
  for (const char* words : {"40\u00A0mm", "re-check", "5/16"}) {
    for (double width = 18; width < 40; width += 1) {
      const auto& lines = typesetter.set(std::string("aaa bbb ccc ") + words, 2.5, Weight::Regular, width).lines;
      std::string together = words;
      if (const auto space = together.find(kNoBreak); space != std::string::npos) together.replace(space, 2, " ");
      CAPTURE(together, width);
      CHECK(std::any_of(lines.begin(), lines.end(),
                        [&](const SetLine& line) { return line.text.find(together) != std::string::npos; }));
    }
  }
}

TEST_CASE("a figure that is wider than a line is broken at its spaces, not in its unit") {
  Typesetter typesetter;
  for (double width = 8; width < 30; width += 0.5) {
    for (const auto& line :
         typesetter.set("screw #8\u00A0x\u00A02\u00A01/2\u00A0in", 2.2, Weight::Regular, width).lines) {
      CAPTURE(width, line.text);
      CHECK(line.text != "n");
      CHECK_FALSE(line.text.ends_with(" i"));
    }
  }
}

TEST_CASE("a page says which of its letters no typeface has") {
  const auto made = boatshedNamed("Boatshed", {std::string("X") + kUnassigned, kHan});
  const auto pages = layOut(made.subject());
  std::size_t told = 0;
  for (const auto& page : pages) {
    for (const auto& fault : testing::faultsOf(page)) FAIL_CHECK(fault);
    CHECK(page.missing.empty() != testing::says(page, "No typeface on this machine has"));
    told += testing::says(page, "U+0378") ? 1 : 0;
  }
  CHECK(told >= 2);
  CHECK(told < pages.size());
}
