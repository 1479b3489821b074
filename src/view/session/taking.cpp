#include <algorithm>
#include <array>
#include <ctime>
#include <memory>
#include <utility>

#include "base/save.h"
#include "base/words.h"
#include "exchange/model.h"
#include "exchange/page.h"
#include "exchange/xlsx.h"
#include "sheet/sheets.h"
#include "takeoff/order.h"
#include "view/session/app.h"

namespace sillwright::view {
namespace {

namespace fs = std::filesystem;

/// Beside the job: "house-N1.pdf", or "house-N1-2.pdf" where that is there already.
fs::path placeFor(const App& app, const std::string& what, const std::string& ending) {
  const std::string stem = document::stemOf(app.file.path) + (what.empty() ? "" : "-" + fileWord(what));
  return document::freshPath(fs::absolute(app.file.path).parent_path(), stem, ending);
}

Then written(const fs::path& file) {
  return [file](App& app) { tell(app, "Written: " + file.string(), false); };
}

Then refused(const std::string& why) {
  return [why](App& app) { tell(app, why, true); };
}

Then saved(const fs::path& file, const std::string& bytes) {
  const auto wrong = base::save(file, bytes);
  return wrong ? refused(*wrong) : written(file);
}

/// The sheets' own values, so that the job can be changed while they are drawn.
std::shared_ptr<const document::Document> copyOf(const App& app) {
  return std::make_shared<const document::Document>(*app.document);
}

Then drawSheets(const document::Document& document, const sheet::Wanted& wanted, const fs::path& file, Steps& steps) {
  const auto progress = [&](std::size_t done, std::size_t pages) {
    steps.done = done;
    steps.of = pages;
    return !steps.stop;
  };
  const sheet::Subject subject{document.job, *document.practice, document.plan, document.findings, document.scene};
  const auto files = sheet::draw(subject, wanted, sheet::Format::Pdf, sheet::kDotsPerInch, progress);
  if (files.empty()) return refused("No sheets were written: left off.");
  return saved(file, files.front());
}

/// What a file of a kind holds.
base::Result<std::string> bytesOf(const document::Document& document, FileKind kind) {
  const practice::Practice& practice = *document.practice;
  if (kind == FileKind::Page) return exchange::pageOf(document);
  if (kind == FileKind::Building) return {exchange::ifc(document), {}};
  if (kind == FileKind::Lists) {
    const auto tables = takeoff::allLists(document.job, practice, document.plan, document.findings, {});
    return exchange::xlsx(tables, document.job, practice.display);
  }
  auto bytes = exchange::glb(document.scene, document.job, practice);
  if (!bytes) return {{}, {{{}, {}, {}, "it is larger than the 4 GiB that a .glb holds"}}};
  return {std::move(bytes), {}};
}

std::string nameFor(const document::Document& document, const TakeSheets& wish) {
  if (wish.opening >= 0) return document.job.openings[static_cast<std::size_t>(wish.opening)].name;
  if (wish.wall >= 0) return document.job.walls[static_cast<std::size_t>(wish.wall)].name;
  return wish.records ? "records" : "sheets";
}

}  // namespace

std::string nameOfPicked(const App& app) {
  const job::Job& job = app.document->job;
  if (app.shown.opening >= 0) return job.openings[static_cast<std::size_t>(app.shown.opening)].name;
  return app.shown.wall >= 0 ? job.walls[static_cast<std::size_t>(app.shown.wall)].name : std::string{};
}

std::string fileWord(const std::string& name) {
  std::string word;
  for (const char c : name) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
    word += plain || static_cast<unsigned char>(c) >= 0x80 ? c : '-';
  }
  constexpr std::size_t kLongest = 60;
  return std::string(base::shortened(word, kLongest));
}

void takePicture(App& app, const TakePicture& wish) {
  if (app.work) return;
  const auto within = [](int side) { return std::clamp(side, kSmallestPicture, kLargestPicture); };
  Work work;
  work.picture = {within(wish.width), within(wish.height)};
  work.file = placeFor(app, nameOfPicked(app), ".png");
  work.title =
      "Drawing a picture of " + std::to_string(work.picture.width) + " × " + std::to_string(work.picture.height);
  app.shown.paper_open = false;
  app.work = std::move(work);
  disturb(app);
}

void takeSheets(App& app, const TakeSheets& wish) {
  if (app.work) return;
  sheet::Wanted wanted;
  if (wish.opening >= 0) wanted.opening = static_cast<std::size_t>(wish.opening);
  if (wish.wall >= 0) wanted.wall = static_cast<std::size_t>(wish.wall);
  wanted.blank_records = wish.records;
  const fs::path file = placeFor(app, nameFor(*app.document, wish), ".pdf");
  app.shown.paper_open = false;
  app.work = besideWindow("Drawing the sheets", [document = copyOf(app), wanted, file](Steps& steps) {
    return drawSheets(*document, wanted, file, steps);
  });
  app.work->unit = "pages";
  app.work->can_stop = true;
}

void takeResult(App& app) {
  if (!app.shown.lesson.exercise) return;
  if (app.shown.trainee.empty()) return tell(app, "Type your name first: the page is kept under it.", true);
  const std::time_t now = std::time(nullptr);
  std::array<char, 16> day{};
  std::strftime(day.data(), day.size(), "%Y-%m-%d", std::localtime(&now));
  const std::string& name = app.shown.trainee;
  std::error_code failed;
  const fs::path file = document::freshPath(fs::current_path(failed), "exercise-" + fileWord(name), ".html");
  saved(file, document::resultPage(*app.shown.lesson.exercise, name, day.data()))(app);
}

void takeFile(App& app, const TakeFile& wish) {
  if (app.work) return;
  static constexpr std::array kEndings{".xlsx", ".glb", ".ifc", ".html"};
  const bool lists = wish.kind == FileKind::Lists;
  const fs::path file = placeFor(app, lists ? "lists" : "", kEndings[static_cast<std::size_t>(wish.kind)]);
  app.shown.paper_open = false;
  app.work =
      besideWindow("Writing " + file.filename().string(), [document = copyOf(app), file, kind = wish.kind](Steps&) {
        const auto bytes = bytesOf(*document, kind);
        return bytes.ok() ? saved(file, *bytes.value) : refused("Not written: " + bytes.errors.front().say + ".");
      });
}

}  // namespace sillwright::view
