// Drawings on paper: one PDF of all pages, or a picture a page.

#include "sheet/sheets.h"
#include "cli/files.h"
#include "cli/verbs.h"

namespace sillwright::cli {
namespace {

/// "house.svg" → "house-03.svg": as many figures as the last page has, so that the files sort as the pages do.
std::filesystem::path pagePath(const std::filesystem::path& out, std::size_t page, std::size_t pages) {
  std::string number = std::to_string(page);
  number.insert(0, std::to_string(pages).size() - number.size(), '0');
  std::filesystem::path path = out;
  path.replace_filename(out.stem().string() + "-" + number + out.extension().string());
  return path;
}

}  // namespace

int sheets(const SheetsOptions& options) {
  static constexpr sheet::Format kFormats[] = {sheet::Format::Pdf, sheet::Format::Svg, sheet::Format::Png};
  const sheet::Format format = kFormats[endingOf(options.out, {".pdf", ".svg", ".png"})];
  const auto doc = loaded(options.job, options.how, document::Depth::Scene);
  sheet::Wanted wanted;
  wanted.blank_records = options.records;
  wanted.opening = chosen(doc.job.openings, options.opening, "opening");
  wanted.wall = chosen(doc.job.walls, options.wall, "wall");
  const auto progress = [&](std::size_t done, std::size_t pages) {
    Progress::tell(pages == 0 ? "counting the pages"
                              : "page " + std::to_string(done + 1) + " of " + std::to_string(pages));
    return true;  // nobody cancels it: a signal ends the program
  };
  const auto files = sheet::draw({doc.job, *doc.practice, doc.plan, doc.findings, doc.scene}, wanted, format,
                                 sheet::kDotsPerInch, progress);
  for (std::size_t i = 0; i < files.size(); ++i)
    writeFile(files.size() == 1 ? options.out : pagePath(options.out, i + 1, files.size()), files[i]);
  return kReady;
}

}  // namespace sillwright::cli
