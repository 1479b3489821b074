// Any bytes as a building model: a job that a job file can hold, or one sentence.
#include <sstream>

#include "exchange/ifc_import.h"
#include "fuzz/hold.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "practice/read.h"

using namespace sillwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const auto practice = practice::load("au", SILLWRIGHT_ASSETS_DIR, {});
  const fuzz::InTime in_time;
  const auto bytes = fuzz::exactly(data, size);
  std::istringstream in{std::string(fuzz::textOf(bytes))};
  const auto read = exchange::readIfc(in, "fuzz.ifc", {&*practice.value, "au"});
  fuzz::holdAnswer(read);
  if (!read.ok()) return 0;
  const auto again = job::read(job::write(read.value->job), "again.toml");
  fuzz::hold(again.ok(), "what comes of a model is a job");
  for (const std::string& note : read.value->notes)
    fuzz::hold(note.find('\n') == std::string::npos, "a note is one line");
  return 0;
}
