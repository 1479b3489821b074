/// Runs the benchmarks and says after them how many times as fast one is as another, from the same run.
#pragma once

#include <benchmark/benchmark.h>

#include <cstdio>
#include <map>
#include <string>
#include <vector>

namespace sillwright::bench {

struct Comparison {
  std::string ours;
  std::string theirs;
};

/// A console report that keeps each benchmark's CPU time.
class Keeper : public benchmark::ConsoleReporter {
 public:
  Keeper() : ConsoleReporter(OO_None) {}
  void ReportRuns(const std::vector<Run>& runs) override {
    ConsoleReporter::ReportRuns(runs);
    for (const Run& run : runs) {
      if (run.iterations > 0)
        seconds[run.benchmark_name()] = run.cpu_accumulated_time / static_cast<double>(run.iterations);
    }
  }
  std::map<std::string, double> seconds;
};

inline int run(int argc, char** argv, const std::vector<Comparison>& comparisons) {
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  Keeper keeper;
  benchmark::RunSpecifiedBenchmarks(&keeper);
  for (const auto& [ours, theirs] : comparisons) {
    const auto a = keeper.seconds.find(ours);
    const auto b = keeper.seconds.find(theirs);
    if (a == keeper.seconds.end() || b == keeper.seconds.end()) continue;
    std::printf("%s: %.1f times as fast as %s\n", ours.c_str(), b->second / a->second, theirs.c_str());
  }
  benchmark::Shutdown();
  return 0;
}

}  // namespace sillwright::bench
