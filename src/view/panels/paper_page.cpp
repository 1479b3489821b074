// The page of what can be taken away: pictures, sheets, lists.

#include <string>

#include "view/panels/fields.h"
#include "view/panels/panels.h"

namespace sillwright::view {
namespace {

std::string sizeWords(int width, int height) {
  return std::to_string(width) + " × " + std::to_string(height);
}

void pictures(const Panel& panel, const Layout& layout) {
  const Ui& ui = panel.ui;
  const int width = static_cast<int>(layout.canvas.width);
  const int height = static_cast<int>(layout.canvas.height);
  groupHeading(ui, "A picture of this view");
  const auto offer = [&](const std::string& words, int w, int h) {
    if (w > kLargestPicture || h > kLargestPicture) return;
    if (wordItem(ui, words + ", " + sizeWords(w, h), "")) panel.wishes.push_back(TakePicture{w, h});
  };
  offer("as large as the window", width, height);
  offer("twice as large", 2 * width, 2 * height);
  offer("for a sheet of A4 at 300 dots an inch", 3508, 2480);
  room(ui, 4.0F);
  const PictureSize& size = panel.shown.picture_size;
  typedRow(panel, "width in pixels", std::to_string(size.width), PictureSide{false});
  typedRow(panel, "height in pixels", std::to_string(size.height), PictureSide{true});
  if (wordItem(ui, "of that size", "")) panel.wishes.push_back(TakePicture{size.width, size.height});
}

void sheets(const Panel& panel) {
  const Ui& ui = panel.ui;
  const job::Job& job = panel.document.job;
  groupHeading(ui, "Sheets for the printer (PDF)");
  if (panel.shown.opening >= 0) {
    const std::string& name = job.openings[static_cast<std::size_t>(panel.shown.opening)].name;
    if (wordItem(ui, "the sheets of " + name, "")) panel.wishes.push_back(TakeSheets{.opening = panel.shown.opening});
  }
  if (panel.shown.wall >= 0) {
    const std::string& name = job.walls[static_cast<std::size_t>(panel.shown.wall)].name;
    if (wordItem(ui, "the elevation of " + name, "")) panel.wishes.push_back(TakeSheets{.wall = panel.shown.wall});
  }
  if (wordItem(ui, "all of the job", "")) panel.wishes.push_back(TakeSheets{});
  if (wordItem(ui, "all, with blank record sheets", "")) panel.wishes.push_back(TakeSheets{.records = true});
  groupHeading(ui, "What to order, buy and cut");
  if (wordItem(ui, "the lists as a workbook", "")) panel.wishes.push_back(TakeLists{});
}

}  // namespace

void paperPage(const Panel& panel, const Layout& layout, ImVec2 size) {
  const Ui& ui = panel.ui;
  beginPage(ui, "paper page", size, 460.0F);
  text(ui.fonts.heading, ui.colours->ink, "Print and export");
  text(ui.fonts.body, ui.colours->quiet,
       "Written beside the job file, under new names. All results are indicative: local codes and "
       "licensed trades come first.");
  pictures(panel, layout);
  sheets(panel);
  rule(ui);
  endPage(ui, panel.wishes, Toggle{&Shown::paper_open});
}

}  // namespace sillwright::view
