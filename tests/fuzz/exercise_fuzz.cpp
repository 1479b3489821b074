// Any bytes as an exercise's file: read or refused in words; what is read is made a task of a demo job, or told why
// not.
#include "document/exercise_file.h"
#include "fuzz/hold.h"

using namespace sillwright;

namespace {

const document::Document& demo() {
  static const document::Document document = [] {
    auto read =
        document::load(SILLWRIGHT_ASSETS_DIR "/jobs/boatshed.toml", SILLWRIGHT_ASSETS_DIR, document::Depth::Findings);
    fuzz::hold(read.ok(), "the demo job is read");
    return std::move(*read.value);
  }();
  return document;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const fuzz::InTime in_time;
  const auto bytes = fuzz::exactly(data, size);
  const auto read = document::readExercise(fuzz::textOf(bytes), "fuzz.toml");
  fuzz::holdAnswer(read);
  if (!read.ok()) return 0;
  fuzz::holdAnswer(document::makeTask(*read.value, demo()));
  return 0;
}
