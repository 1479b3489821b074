// Bytes as the choices that make a job, within the reader's bounds: whatever they are, it is planned, judged, listed,
// built and reported, and every figure is a number.
#include "fuzz/bytes.h"
#include "fuzz/hold.h"
#include "fuzz/likely_job.h"
#include "fuzz/promises.h"
#include "job/rewrite.h"

using namespace sillwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const fuzz::InTime in_time;
  fuzz::Bytes bytes(data, size);
  const auto& practices = fuzz::shippedPractices();
  const auto& practice = practices[bytes.below(practices.size())];
  const job::Job job = fuzz::LikelyJob(bytes, practice).make();
  // To see what an input is: FUZZ_SHOW=1 fuzz_plan INPUT prints the job.
  if (std::getenv("FUZZ_SHOW") != nullptr) std::fputs(job::write(job).c_str(), stderr);
  fuzz::holdWriting(job);
  fuzz::holdPlan(job, practice);
  return 0;
}
