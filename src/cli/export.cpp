// The job for other programs: its scene as a model, and drawings.

#include <algorithm>
#include <string>
#include <string_view>

#include "cli/files.h"
#include "cli/verbs.h"
#include "exchange/model.h"
#include "exchange/page.h"

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

/// The page for a phone, filled.
bool writePage(const document::Document& doc, const std::filesystem::path& out) {
  const auto page = exchange::pageOf(doc);
  complain(page.errors);
  return page.ok() && writeFile(out, *page.value);
}

template <std::string (*Text)(const document::Document&)>
bool writeText(const document::Document& doc, const std::filesystem::path& out) {
  return writeFile(out, Text(doc));
}

}  // namespace

int exportModel(const ExportOptions& options) {
  static constexpr std::string_view kEndings[] = {".glb", ".obj", ".svg", ".ifc", ".dxf", ".html"};
  const auto kind = endingOf(options.out, kEndings);
  if (!kind) return kUnreadable;
  static constexpr decltype(&writeObj) kWrite[] = {
      writeGlb, writeObj, nullptr, writeText<exchange::ifc>, writeText<exchange::dxf>, writePage};
  if (kWrite[*kind] == nullptr) return sheets({.how = options.how, .job = options.job, .out = options.out});
  const auto document = loaded(options.job, options.how, document::Depth::Scene);
  if (!document) return kUnreadable;
  return kWrite[*kind](*document, options.out) ? kReady : kUnreadable;
}

}  // namespace sillwright::cli
