// The job for other programs: its scene as a model, its walls as drawings.

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "base/read_file.h"
#include "base/words.h"
#include "cli/files.h"
#include "cli/verbs.h"
#include "exchange/model.h"
#include "exchange/page.h"
#include "sheet/sheets.h"

namespace sillwright::cli {
namespace {

bool writeGlb(const document::Document& doc, const std::filesystem::path& out) {
  const auto bytes = exchange::glb(doc.scene, doc.job, *doc.practice);
  if (!bytes) tell("the model is larger than the 4 GiB that a .glb holds.");
  return bytes && writeFile(out, *bytes);
}

bool writeObj(const document::Document& doc, const std::filesystem::path& out) {
  std::string name = out.stem().string() + ".mtl";
  std::replace(name.begin(), name.end(), ' ', '_');  // readers end a name at the first blank
  const std::filesystem::path materials = out.parent_path() / name;
  const auto files = exchange::objFiles(doc.scene, doc.job, *doc.practice, name);
  return writeFile(out, files.obj) && writeFile(materials, files.mtl);
}

constexpr std::uintmax_t kLargestPage = std::uintmax_t{64} << 20;
constexpr std::size_t kLongestInName =
    80;  // bytes of a wall's name that go into a file's: some systems take 143 in all

/// "house-1-north.svg". What file names take badly in a wall's name becomes a dash.
std::filesystem::path wallPath(const std::filesystem::path& out, std::size_t number, const std::string& wall) {
  std::string name(base::shortened(wall, kLongestInName));
  std::replace_if(
      name.begin(), name.end(),
      [](char c) { return std::string_view("\"*/:<>?\\| ").find(c) != std::string_view::npos; }, '-');
  std::filesystem::path path = out;
  path.replace_filename(out.stem().string() + "-" + std::to_string(number) + "-" + name + out.extension().string());
  return path;
}

bool writeElevations(const document::Document& doc, const std::filesystem::path& out) {
  const std::size_t walls = doc.job.walls.size();
  for (std::size_t wall = 0; wall < walls; ++wall) {
    sheet::Wanted wanted;
    wanted.wall = wall;
    const auto drawn =
        sheet::draw({doc.job, *doc.practice, doc.plan, doc.findings, doc.scene}, wanted, sheet::Format::Svg);
    const auto path = walls == 1 ? out : wallPath(out, wall + 1, doc.job.walls[wall].name);
    if (!writeFile(path, drawn.front())) return false;
  }
  return true;
}

/// The page for a phone, filled.
bool writePage(const document::Document& doc, const std::filesystem::path& out) {
  const std::filesystem::path form = doc.assets / "pocket" / "page.html";
  if (!std::filesystem::is_regular_file(form)) {
    tell("there is no page to fill at " + form.string() + "; sh third_party/pocket.sh makes it.");
    return false;
  }
  const auto page = base::loadText(form, kLargestPage);
  const auto files = exchange::pageFiles(doc);
  complain(page.errors);
  complain(files.errors);
  if (!page.ok() || !files.ok()) return false;
  return writeFile(out, exchange::filledPage(*page.value, *files.value, exchange::pagePath(doc)));
}

bool writeIfc(const document::Document& doc, const std::filesystem::path& out) {
  return writeFile(out, exchange::ifc(doc));
}

bool writeDxf(const document::Document& doc, const std::filesystem::path& out) {
  return writeFile(out, exchange::dxf(doc));
}

}  // namespace

int exportModel(const ExportOptions& options) {
  static constexpr std::string_view kEndings[] = {".glb", ".obj", ".svg", ".ifc", ".dxf", ".html"};
  const auto kind = endingOf(options.out, kEndings);
  if (!kind) return kUnreadable;
  const auto document = loaded(options.job, options.how, document::Depth::Scene);
  if (!document) return kUnreadable;
  const auto write = std::array{writeGlb, writeObj, writeElevations, writeIfc, writeDxf, writePage}[*kind];
  return write(*document, options.out) ? kReady : kUnreadable;
}

}  // namespace sillwright::cli
