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
  if (!practice.ok()) return refuse(practice.errors);
  std::error_code failed;
  std::ifstream in;
  if (std::filesystem::is_regular_file(options.file, failed)) in.open(options.file, std::ios::binary);
  if (!in.is_open()) return refuse(options.file.string() + " can't be opened as a file.");
  if (std::filesystem::equivalent(options.file, options.out, failed))
    return refuse("--out must be another file than the model.");
  const auto read = exchange::readIfc(in, options.file.string(), {&*practice.value, options.practice});
  if (!read.ok()) return refuse(read.errors);
  std::string text;
  for (const std::string& note : read.value->notes) {
    tell(note + ".");
    text += "# " + note + ".\n";
  }
  text += "\n" + job::write(read.value->job);
  const auto again = job::read(text, options.out.string());  // nothing is written that can't be read
  if (!again.ok()) return refuse(again.errors);
  return writeFile(options.out, text) ? kReady : kUnreadable;
}

}  // namespace sillwright::cli
