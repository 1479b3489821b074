// Drawings on paper: one PDF of all pages, or a picture a page.

#include <algorithm>
#include <cstdio>
#include <optional>

#include "base/words.h"
#include "cli/files.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "document/document.h"
#include "sheet/sheets.h"

namespace sillwright::cli {
namespace {

std::optional<sheet::Format> formatOf(const std::filesystem::path& out) {
  const std::string kind = out.extension().string();
  if (kind == ".pdf") return sheet::Format::Pdf;
  if (kind == ".svg") return sheet::Format::Svg;
  if (kind == ".png") return sheet::Format::Png;
  return std::nullopt;
}

/// Index of the one that is named; says which there are where none is.
template <typename Named>
std::optional<std::size_t> find(const std::vector<Named>& all, const std::string& name, const char* what) {
  const auto found = std::find_if(all.begin(), all.end(), [&](const Named& one) { return one.name == name; });
  if (found != all.end()) return static_cast<std::size_t>(found - all.begin());
  const std::string names = base::joined(all, ", ", &Named::name);
  std::fprintf(stderr, "sillwright: the job has no %s '%s'; it has %s.\n", what, name.c_str(), names.c_str());
  return std::nullopt;
}

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
  const auto format = formatOf(options.out);
  if (!format) {
    std::fputs("sillwright: --out must end in .pdf, .svg or .png\n", stderr);
    return kUnreadable;
  }
  const auto document = document::load(options.job, document::assetsFolder());
  if (!document.ok()) {
    complain(document.errors);
    return kUnreadable;
  }
  const auto& doc = *document.value;
  sheet::Wanted wanted;
  wanted.blank_records = options.records;
  if (!options.opening.empty()) {
    wanted.opening = find(doc.job.openings, options.opening, "opening");
    if (!wanted.opening) return kUnreadable;
  }
  if (!options.wall.empty()) {
    wanted.wall = find(doc.job.walls, options.wall, "wall");
    if (!wanted.wall) return kUnreadable;
  }
  const auto files = sheet::draw({doc.job, *doc.practice, doc.plan, doc.findings, doc.scene}, wanted, *format);
  if (files.size() == 1) return writeFile(options.out, files.front()) ? kReady : kUnreadable;
  for (std::size_t i = 0; i < files.size(); ++i) {
    if (!writeFile(pagePath(options.out, i + 1, files.size()), files[i])) return kUnreadable;
  }
  return kReady;
}

}  // namespace sillwright::cli
