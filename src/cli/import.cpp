// A building model in: its walls, openings, windows and doors as a job file.

#include <fstream>
#include <string>

#include "cli/files.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "exchange/ifc_import.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "practice/read.h"

namespace sillwright::cli {

int importModel(const ImportOptions& options) {
  const auto practice = practice::load(options.practice, document::assetsFolder(), options.out.parent_path());
  std::error_code failed;
  std::ifstream in;
  if (std::filesystem::is_regular_file(options.file, failed)) in.open(options.file, std::ios::binary);
  if (!practice.ok()) {
    complain(practice.errors);
  } else if (!in.is_open()) {
    tell(options.file.string() + " can't be opened as a file.");
  } else if (std::filesystem::equivalent(options.file, options.out, failed)) {
    tell("--out must be another file than the model.");
  } else {
    const auto read = exchange::readIfc(in, options.file.string(), {&*practice.value, options.practice});
    if (!read.ok()) {
      complain(read.errors);
      return kUnreadable;
    }
    std::string text;
    for (const std::string& note : read.value->notes) {
      tell(note + ".");
      text += "# " + note + ".\n";
    }
    text += "\n" + job::write(read.value->job);
    // Nothing is written that can't be read.
    const auto again = job::read(text, options.out.string());
    if (!again.ok()) complain(again.errors);
    if (again.ok() && writeFile(options.out, text)) return kReady;
  }
  return kUnreadable;
}

}  // namespace sillwright::cli
