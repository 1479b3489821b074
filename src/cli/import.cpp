// A building model in: its walls, openings, windows and doors as a job file.

#include <fstream>

#include "cli/files.h"
#include "cli/verbs.h"
#include "document/assets.h"
#include "exchange/ifc_import.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "practice/read.h"

namespace sillwright::cli {

int importModel(const ImportOptions& options) {
  const auto practice = taken(practice::load(options.practice, document::assetsFolder(), options.out.parent_path()));
  std::error_code failed;
  std::ifstream in;  // a folder could be opened, but not read
  if (std::filesystem::is_regular_file(options.file, failed)) in.open(options.file, std::ios::binary);
  if (!in.is_open()) refuse(options.file.string() + " can't be opened as a file.");
  if (std::filesystem::equivalent(options.file, options.out, failed))
    refuse("--out must be another file than the model.");
  const auto read = taken(exchange::readIfc(in, options.file.string(), {&practice, options.practice}));
  std::string text;
  for (const std::string& note : read.notes) {
    tell(note + ".");
    text += "# " + note + ".\n";  // the notes stay with the job, as comments
  }
  text += "\n" + job::write(read.job);
  static_cast<void>(taken(job::read(text, options.out.string())));  // nothing is written that can't be read
  writeFile(options.out, text);
  return kReady;
}

}  // namespace sillwright::cli
