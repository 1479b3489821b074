// Any bytes as a practice: read or refused in words; under what is read a demo job is planned and judged.
#include "fuzz/hold.h"
#include "fuzz/promises.h"
#include "practice/read.h"
#include "support/read_job.h"

using namespace sillwright;

namespace {

const job::Job& demoJob() {
  static const job::Job job = [] {
    auto read = testing::readJob(SILLWRIGHT_ASSETS_DIR "/jobs/boatshed.toml");
    fuzz::hold(read.ok(), "the demo job is read");
    // What a practice may lack by name is left to it.
    read.value->wind.reset();
    read.value->stock.reset();
    for (job::Wall& wall : read.value->walls) wall.timber.reset();
    return std::move(*read.value);
  }();
  return job;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const fuzz::InTime in_time;
  const auto bytes = fuzz::exactly(data, size);
  const auto read = practice::read(fuzz::textOf(bytes), "fuzz.toml");
  fuzz::holdAnswer(read);
  if (read.ok()) fuzz::holdPlan(demoJob(), *read.value);
  return 0;
}
