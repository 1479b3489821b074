// Drawings on paper: one PDF of all pages, or a picture a page.

#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <functional>
#include <string>
#include <string_view>

#include "cli/files.h"
#include "cli/verbs.h"
#include "sheet/sheets.h"

namespace sillwright::cli {
namespace {

constexpr std::string_view kEndings[] = {".pdf", ".svg", ".png"};
constexpr sheet::Format kFormats[] = {sheet::Format::Pdf, sheet::Format::Svg, sheet::Format::Png};

/// "house.svg" → "house-03.svg": as many figures as the last page has, so that the files sort as the pages do.
std::filesystem::path pagePath(const std::filesystem::path& out, std::size_t page, std::size_t pages) {
  std::string number = std::to_string(page);
  number.insert(0, std::to_string(pages).size() - number.size(), '0');
  std::filesystem::path path = out;
  path.replace_filename(out.stem().string() + "-" + number + out.extension().string());
  return path;
}

/// Tells on a terminal how far drawing is that takes more than a second.
bool tellProgress(std::chrono::steady_clock::time_point start, std::size_t done, std::size_t pages) {
  const std::string page = "page " + std::to_string(done + 1) + " of " + std::to_string(pages);
  const char* said = done + 1 == pages ? "" : pages == 0 ? "counting the pages" : page.c_str();
  if (std::chrono::steady_clock::now() - start > std::chrono::seconds(1) && ::isatty(STDERR_FILENO) != 0)
    std::fprintf(stderr, "\r%s\x1b[K", said);
  return true;
}

}  // namespace

int sheets(const SheetsOptions& options) {
  const auto format = endingOf(options.out, kEndings);
  if (!format) return kUnreadable;
  const auto document = loaded(options.job, options.how, document::Depth::Scene);
  if (!document) return kUnreadable;
  const auto& doc = *document;
  sheet::Wanted wanted;
  wanted.blank_records = options.records;
  if (!choose(wanted.opening, doc.job.openings, options.opening, "opening")) return kUnreadable;
  if (!choose(wanted.wall, doc.job.walls, options.wall, "wall")) return kUnreadable;
  const auto progress = std::bind_front(tellProgress, std::chrono::steady_clock::now());
  const auto files = sheet::draw({doc.job, *doc.practice, doc.plan, doc.findings, doc.scene}, wanted, kFormats[*format],
                                 sheet::kDotsPerInch, progress);
  if (files.size() == 1) return writeFile(options.out, files.front()) ? kReady : kUnreadable;
  for (std::size_t i = 0; i < files.size(); ++i) {
    if (!writeFile(pagePath(options.out, i + 1, files.size()), files[i])) return kUnreadable;
  }
  return kReady;
}

}  // namespace sillwright::cli
