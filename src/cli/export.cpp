// The job for other programs: its scene as a model, and drawings.

#include <algorithm>

#include "cli/files.h"
#include "cli/verbs.h"
#include "exchange/model.h"
#include "exchange/page.h"

namespace sillwright::cli {
namespace {

void writeGlb(const document::Document& doc, const std::filesystem::path& out) {
  const auto bytes = exchange::glb(doc.scene, doc.job, *doc.practice);
  if (!bytes) refuse("the model is larger than the 4 GiB that a .glb holds.");  // its length has 32 bits
  writeFile(out, *bytes);
}

void writeObj(const document::Document& doc, const std::filesystem::path& out) {
  std::string name = out.stem().string() + ".mtl";
  std::replace(name.begin(), name.end(), ' ', '_');  // readers end a name at the first blank
  std::string materials;
  writeFile(out,
            [&](const base::Sink& sink) { materials = exchange::obj(doc.scene, doc.job, *doc.practice, name, sink); });
  writeFile(out.parent_path() / name, materials);
}

std::string page(const document::Document& doc) { return taken(exchange::pageOf(doc)); }  // for a phone

template <std::string (*Text)(const document::Document&)>
void writeText(const document::Document& doc, const std::filesystem::path& out) {
  writeFile(out, Text(doc));
}

}  // namespace

int exportModel(const ExportOptions& options) {
  const std::size_t kind = endingOf(options.out, {".glb", ".obj", ".svg", ".ifc", ".dxf", ".html"});
  static constexpr decltype(&writeObj) kWrite[] = {
      writeGlb, writeObj, nullptr, writeText<exchange::ifc>, writeText<exchange::dxf>, writeText<page>};
  if (kWrite[kind] == nullptr) return sheets({.how = options.how, .job = options.job, .out = options.out});
  kWrite[kind](loaded(options.job, options.how, document::Depth::Scene), options.out);
  return kReady;
}

}  // namespace sillwright::cli
