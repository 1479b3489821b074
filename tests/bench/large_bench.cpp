// The whole of `sillwright check --json` on jobs of many openings, beside what the TOML library alone needs to parse
// the same file, each as a program of its own and in turns. Targets: at 10,000 openings no more than 1.6 times that;
// 100,000 against 10,000 no more than 11 times; memory no more than 20 kB an opening.
//
// Arguments: none, or the largest number of openings (100000 by default).

#include <toml++/toml.h>

#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "bench/many.h"
#include "bench/programs.h"
#include "job/rewrite.h"

using namespace sillwright;

namespace {

/// Exit statuses of the program's check that mean that it was done.
constexpr int kReady = 0;
constexpr int kNotReady = 1;

struct Measured {
  bench::Took parse;
  bench::Took check;
  double megabytes = 0;  ///< Of the file.
};

int parseAlone(const std::string& file) {
  const toml::table tree = toml::parse_file(file);
  return tree.empty() ? 1 : 0;
}

std::filesystem::path jobFile(const std::filesystem::path& folder, std::size_t openings) {
  const std::filesystem::path file = folder / (std::to_string(openings) + ".toml");
  std::ofstream(file) << job::write(bench::manyOpenings(openings));
  return file;
}

Measured measure(const std::string& self, const std::filesystem::path& file, int rounds) {
  std::vector<bench::Took> parses;
  std::vector<bench::Took> checks;
  for (int i = 0; i < rounds; ++i) {
    parses.push_back(bench::runProgram({self, "--parse", file}));
    checks.push_back(bench::runProgram({SILLWRIGHT_PROGRAM, "check", file, "--json"}));
    const int status = checks.back().status;
    if (parses.back().status != 0 || (status != kReady && status != kNotReady)) {
      throw std::runtime_error(file.string() + " was not checked");
    }
  }
  return {median(parses), median(checks), static_cast<double>(std::filesystem::file_size(file)) / 1e6};
}

void print(std::size_t openings, const Measured& m) {
  std::printf(
      "%7zu openings, file of %.1f MB: parse alone %.3f s (%.3f s of processor), check --json %.3f s (%.3f), %.2f "
      "times\n",
      openings, m.megabytes, m.parse.seconds, m.parse.cpu_seconds, m.check.seconds, m.check.cpu_seconds,
      m.check.seconds / m.parse.seconds);
  std::printf("        memory: parse alone %.1f kB an opening, check %.1f kB an opening\n",
              m.parse.most_megabytes * 1024 / static_cast<double>(openings),
              m.check.most_megabytes * 1024 / static_cast<double>(openings));
}

void runAll(const std::string& self, std::size_t most) {
  const bench::Folder folder("large");
  double before = 0;
  for (std::size_t openings = 1'000; openings <= most; openings *= 10) {
    const std::filesystem::path file = jobFile(folder.path, openings);
    const Measured measured = measure(self, file, openings < 100'000 ? 7 : 3);
    print(openings, measured);
    if (before > 0) std::printf("        %.1f times the time for a tenth as many\n", measured.check.seconds / before);
    before = measured.check.seconds;
    std::filesystem::remove(file);
  }
}

}  // namespace

int main(int count, char** arguments) {
  try {
    if (count == 3 && std::string(arguments[1]) == "--parse") return parseAlone(arguments[2]);
    runAll(bench::kSelf, count > 1 ? std::strtoul(arguments[1], nullptr, 10) : 100'000);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  return 0;
}
