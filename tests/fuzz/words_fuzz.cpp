// Any bytes as the words of a what-if: a change that reads back from its own words and a skin whose water can be
// traced, or a sentence that says why not.
#include "fuzz/hold.h"
#include "fuzz/promises.h"
#include "plan/weather/what_if.h"
#include "support/read_job.h"

using namespace sillwright;

namespace {

const plan::Plan& demoPlan() {
  static const plan::Plan plan = [] {
    const auto read = testing::readJob(SILLWRIGHT_ASSETS_DIR "/jobs/boatshed.toml");
    fuzz::hold(read.ok(), "the demo job is read");
    return plan::makePlan(*read.value, *fuzz::shippedPractice(read.value->practice));
  }();
  return plan;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const fuzz::InTime in_time;
  const auto bytes = fuzz::exactly(data, size);
  const auto read = plan::parseWhatIfs(fuzz::textOf(bytes));
  fuzz::holdAnswer(read);
  if (!read.ok()) return 0;
  for (const plan::WhatIf& each : *read.value) {
    const auto again = plan::parseWhatIf(plan::toText(each));
    fuzz::hold(again.ok() && *again.value == each, "a what-if reads back from its words");
  }
  for (const plan::OpeningPlan& opening : demoPlan().openings) {
    const auto skin = plan::applyWhatIf(opening.weather.skin, *read.value);
    fuzz::holdAnswer(skin);
    if (skin.ok())
      fuzz::hold(!plan::explain(plan::traceWater(*skin.value), *skin.value).empty(), "where the water goes is told");
  }
  return 0;
}
