// The verbs on jobs of many openings, beside what the TOML library alone needs to parse the same file, each as a
// program of its own and in turns. Targets: at 10,000 openings `check --json` no more than 1.2 times that by the wall
// on two cores and twice by the processor; `check` in words no more than 1.2 times `check --json`; both no more than 20
// kB an opening; 100,000 against 10,000 no more than 11 times; at 1,000 openings sheets no more than 5 ms a page, glTF
// no more than a second.
//
// Arguments: none, or the largest number of openings (100000 by default).

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "bench/many.h"
#include "bench/programs.h"
#include "document/document.h"
#include "job/rewrite.h"
#include "sheet/sheets.h"
#include "support/assets.h"

using namespace sillwright;

namespace {

/// Exit statuses of the program's check that mean that it was done.
constexpr int kReady = 0;
constexpr int kNotReady = 1;

std::filesystem::path jobFile(const std::filesystem::path& folder, std::size_t openings) {
  const std::filesystem::path file = folder / (std::to_string(openings) + ".toml");
  bench::doApart([&] { std::ofstream(file) << job::write(bench::manyOpenings(openings)); });
  return file;
}

/// A verb; its words stand before and after the job's file.
struct Row {
  std::string name;
  std::vector<std::string> words;
  std::size_t most;  ///< Openings.
};

std::size_t pagesOf(const std::string& file) {
  const std::string answer = file + ".pages";
  bench::doApart([&] {
    const auto read = document::load(file, tests::assets());
    if (!read.ok()) throw std::runtime_error(file + " was not read");
    const document::Document& of = *read.value;
    std::size_t all = 0;
    const auto count = [&](std::size_t, std::size_t pages) { return (all = pages) == 0; };
    (void)sheet::draw({of.job, *of.practice, of.plan, of.findings, of.scene}, {}, sheet::Format::Pdf,
                      sheet::kDotsPerInch, count);
    std::ofstream(answer) << all;
  });
  std::size_t all = 0;
  std::ifstream(answer) >> all;
  return all;
}

/// What each row took, and before them the parser alone.
std::vector<bench::Took> measure(const std::string& file, const std::vector<Row>& rows, int rounds) {
  std::vector<std::vector<bench::Took>> runs(rows.size() + 1);
  for (int round = 0; round < rounds; ++round) {
    runs[0].push_back(bench::runProgram({SILLWRIGHT_PARSE_ALONE, file}));
    if (runs[0].back().status != 0) throw std::runtime_error(file + " was not parsed");
    for (std::size_t i = 0; i < rows.size(); ++i) {
      std::vector<std::string> command{SILLWRIGHT_PROGRAM, rows[i].words.front(), file};
      command.insert(command.end(), rows[i].words.begin() + 1, rows[i].words.end());
      runs[i + 1].push_back(bench::runProgram(command));
      const int status = runs[i + 1].back().status;
      if (status != kReady && status != kNotReady) throw std::runtime_error(rows[i].name + " failed on " + file);
    }
  }
  std::vector<bench::Took> medians;
  for (const auto& each : runs) medians.push_back(median(each));
  return medians;
}

void print(std::size_t openings, const std::string& name, const bench::Took& took, const bench::Took& parse,
           const bench::Took& json) {
  std::printf(
      "%7zu %-14s %7.3f s, %7.3f s of processor, %5.1f kB an opening; of the parser alone %5.2f and %5.2f, of "
      "check --json %5.2f times\n",
      openings, name.c_str(), took.seconds, took.cpu_seconds,
      took.most_megabytes * 1024 / static_cast<double>(openings), took.seconds / parse.seconds,
      took.cpu_seconds / parse.cpu_seconds, took.seconds / json.seconds);
}

void runAll(std::size_t most) {
  const bench::Folder folder("large");
  const auto in = [&](const char* name) { return (folder.path / name).string(); };
  const std::vector<Row> all{{"check --json", {"check", "--json"}, 100'000},
                             {"check", {"check"}, 100'000},
                             {"list", {"list", "--force"}, 100'000},  // or it names all units that are held
                             {"steps --crew", {"steps", "--crew"}, 10'000},
                             {"export .glb", {"export", "--out", in("model.glb")}, 10'000},
                             {"export .obj", {"export", "--out", in("model.obj")}, 1'000},
                             {"export .ifc", {"export", "--out", in("model.ifc")}, 1'000},
                             {"export .dxf", {"export", "--out", in("drawing.dxf")}, 10'000},
                             {"sheets", {"sheets", "--out", in("sheets.pdf")}, 1'000}};
  double before = 0;
  for (std::size_t openings = 100; openings <= most; openings *= 10) {
    const std::filesystem::path file = jobFile(folder.path, openings);
    std::vector<Row> rows;
    std::copy_if(all.begin(), all.end(), std::back_inserter(rows),
                 [&](const Row& row) { return row.most >= openings; });
    const auto took = measure(file, rows, openings < 1'000 ? 7 : openings < 100'000 ? 5 : 3);
    print(openings, "parser alone", took[0], took[0], took[1]);
    for (std::size_t i = 0; i < rows.size(); ++i) print(openings, rows[i].name, took[i + 1], took[0], took[1]);
    if (rows.back().name == "sheets") {
      const auto pages = static_cast<double>(pagesOf(file));
      std::printf("        sheets: %.0f pages, %.2f ms a page by the wall, %.2f of processor\n", pages,
                  1e3 * took.back().seconds / pages, 1e3 * took.back().cpu_seconds / pages);
    }
    if (before > 0)
      std::printf("        check --json: %.1f times the time for a tenth as many\n", took[1].seconds / before);
    before = took[1].seconds;
    std::filesystem::remove(file);
  }
}

}  // namespace

int main(int count, char** arguments) {
  try {
    runAll(count > 1 ? std::strtoul(arguments[1], nullptr, 10) : 100'000);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  return 0;
}
