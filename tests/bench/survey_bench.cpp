// The survey of an opening, beside a general least-squares routine on the same readings.

#include <benchmark/benchmark.h>

#include <optional>
#include <vector>

#include "plan/survey/survey.h"
#include "support/general_survey.h"
#include "support/survey_rig.h"
#include "times_as_fast.h"

using namespace sillwright;

namespace {

constexpr double kWidth = 1530;
constexpr double kHeight = 1060;
constexpr std::size_t kOpenings = 64;
/// Last step of the general routine as a share of the unknowns. Measured on such openings it ends 6e-7 mm from the
/// solution with 1e-10, 1.6e-7 with 1e-11 and 1.2e-7 with 1e-12, and comes no nearer; the survey ends 3e-8 from it.
constexpr double kClose = 1e-12;

std::vector<rig::Nine> openings() {
  rig::Chance chance(1);
  std::vector<rig::Nine> all;
  for (std::size_t i = 0; i < kOpenings; ++i) {
    all.push_back(rig::noisy(chance, rig::exactReadings(rig::framed(chance, kWidth, kHeight))));
  }
  return all;
}

void surveyOpening(benchmark::State& state, std::uint32_t which) {
  std::vector<std::optional<job::Measured>> measured;
  for (const auto& value : openings()) measured.emplace_back(rig::measured(value, which));
  const auto errors = rig::tapeErrors();
  std::size_t i = 0;
  for (auto _ : state) benchmark::DoNotOptimize(plan::survey({kWidth, kHeight}, measured[i++ % kOpenings], errors));
}

void nineReadings(benchmark::State& state) { surveyOpening(state, rig::kAllNine); }
void distancesOnly(benchmark::State& state) { surveyOpening(state, 0x3f); }
void widthAndHeight(benchmark::State& state) { surveyOpening(state, 0x05); }

/// A mistake in a width: the suspect is looked for, and the rest adjusted without it.
void withAMistake(benchmark::State& state) {
  std::vector<std::optional<job::Measured>> measured;
  for (auto value : openings()) {
    value[0] += 20;
    measured.emplace_back(rig::measured(value));
  }
  const auto errors = rig::tapeErrors();
  std::size_t i = 0;
  for (auto _ : state) benchmark::DoNotOptimize(plan::survey({kWidth, kHeight}, measured[i++ % kOpenings], errors));
}

std::vector<std::vector<rig::GeneralReading>> listed() {
  std::vector<std::vector<rig::GeneralReading>> measured;
  for (const auto& value : openings()) {
    auto& readings = measured.emplace_back();
    for (std::size_t k = 0; k < plan::kReadings; ++k) readings.push_back({k, value[k], rig::kTape[k]});
  }
  return measured;
}

/// The same answer: corners, covariance, residuals and redundancy numbers.
void generalRoutine(benchmark::State& state) {
  const auto measured = listed();
  std::size_t i = 0;
  for (auto _ : state) benchmark::DoNotOptimize(rig::generalAnswer(measured[i++ % kOpenings], kWidth, kHeight, kClose));
}

/// The corners alone, without covariance and redundancy numbers.
void generalCorners(benchmark::State& state) {
  const auto measured = listed();
  std::size_t i = 0;
  for (auto _ : state) benchmark::DoNotOptimize(rig::generalSurvey(measured[i++ % kOpenings], kWidth, kHeight, kClose));
}

BENCHMARK(nineReadings)->Name("survey/nine readings");
BENCHMARK(distancesOnly)->Name("survey/six distances");
BENCHMARK(widthAndHeight)->Name("survey/one width and one height");
BENCHMARK(withAMistake)->Name("survey/nine readings, one mistaken");
BENCHMARK(generalRoutine)->Name("survey/nine readings by a general routine");
BENCHMARK(generalCorners)->Name("survey/corners alone by a general routine");

}  // namespace

int main(int argc, char** argv) {
  return sillwright::bench::run(argc, argv,
                                {{"survey/nine readings", "survey/nine readings by a general routine"},
                                 {"survey/nine readings", "survey/corners alone by a general routine"}});
}
