// Any bytes as a job file: read or refused in words; what is read is planned, judged and written again.
#include "fuzz/hold.h"
#include "fuzz/promises.h"
#include "job/read.h"
#include "job/rewrite.h"

using namespace sillwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const fuzz::InTime in_time;
  const auto bytes = fuzz::exactly(data, size);
  const auto read = job::read(fuzz::textOf(bytes), "fuzz.toml");
  fuzz::holdAnswer(read);
  if (const auto pieces = job::readPieces(fuzz::textOf(bytes), "fuzz.toml", 1, {1})) {
    fuzz::hold(read.ok() && *pieces == *read.value, "in pieces it is the same job");
  }
  if (!read.ok()) return 0;
  const auto same = job::rewrite(fuzz::textOf(bytes), *read.value, *read.value);
  fuzz::hold(same.ok() && *same.value == fuzz::textOf(bytes), "nothing changed, and the file is the same");
  fuzz::holdWriting(*read.value);
  if (const auto* practice = fuzz::shippedPractice(read.value->practice)) fuzz::holdPlan(*read.value, *practice);
  return 0;
}
