// The scene for other programs.

#include <cstdio>

#include "cli/files.h"
#include "cli/verbs.h"
#include "exchange/model.h"
#include "view/assets.h"
#include "view/document.h"

namespace sillwright::cli {

int exportModel(const ExportOptions& options) {
  const std::string kind = options.out.extension().string();
  if (kind != ".glb" && kind != ".obj") {
    std::fputs("sillwright: --out must end in .glb or .obj\n", stderr);
    return kUnreadable;
  }
  const auto document = view::load(options.job, view::assetsFolder());
  if (!document.ok()) {
    for (const auto& error : document.errors) std::fprintf(stderr, "%s\n", job::toLine(error).c_str());
    return kUnreadable;
  }
  const auto& doc = *document.value;
  if (kind == ".glb") {
    const auto bytes = exchange::glb(doc.scene, doc.job, *doc.practice);
    if (!bytes) std::fputs("sillwright: the model is larger than the 4 GiB that a .glb holds\n", stderr);
    return bytes && writeFile(options.out, *bytes) ? kReady : kUnreadable;
  }
  std::filesystem::path materials = options.out;
  materials.replace_extension(".mtl");
  const auto files = exchange::objFiles(doc.scene, doc.job, *doc.practice, materials.filename().string());
  return writeFile(options.out, files.obj) && writeFile(materials, files.mtl) ? kReady : kUnreadable;
}

}  // namespace sillwright::cli
