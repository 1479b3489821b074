// A machine whose language writes 1.234,5: everything is read and written as everywhere else.

#include <algorithm>
#include <filesystem>
#include <locale>
#include <sstream>
#include <string>
#include <tuple>
#include <vector>

#include "cli/text.h"
#include "document/document.h"
#include "exchange/check_json.h"
#include "exchange/csv.h"
#include "exchange/model.h"
#include "job/rewrite.h"
#include "sheet/sheets.h"
#include "support/catch.h"
#include "support/check_json.h"
#include "support/obj_files.h"
#include "support/schedules.h"
#include "takeoff/order.h"

namespace {

using namespace sillwright;

/// Decimal commas and grouped thousands, as a German or a Swede has them.
struct Commas : std::numpunct<char> {
  [[nodiscard]] char do_decimal_point() const override { return ','; }
  [[nodiscard]] char do_thousands_sep() const override { return '.'; }
  [[nodiscard]] std::string do_grouping() const override { return "\3"; }
};

/// The program's own locale for as long as it lives.
class WithCommas {
 public:
  WithCommas() : before_(std::locale::global(std::locale(std::locale::classic(), new Commas))) {}
  WithCommas(const WithCommas&) = delete;
  WithCommas& operator=(const WithCommas&) = delete;
  ~WithCommas() { std::locale::global(before_); }

 private:
  std::locale before_;
};

struct Written {
  std::string what;
  std::string text;
};

/// Everything that the program writes about a job, read afresh.
std::vector<Written> allOf(const std::filesystem::path& path) {
  const std::filesystem::path assets = SILLWRIGHT_ASSETS_DIR;
  const auto read = document::load(path, assets);
  REQUIRE(read.ok());
  const auto& [job, practice, plan, findings, scene] =
      std::tie(read.value->job, *read.value->practice, read.value->plan, read.value->findings, read.value->scene);
  std::vector<Written> all;
  all.push_back({"json", testing::checkJson(job, practice, plan, findings)});
  all.push_back({"table", cli::checkWords(job, practice, 80, true).text});
  all.push_back({"job", job::write(job)});
  for (const auto& list : takeoff::allLists(job, practice, plan, findings)) {
    all.push_back({"list " + list.name, cli::listText(list, practice.display, 100)});
    all.push_back({"csv " + list.name, exchange::csv(list, practice.display)});
  }
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    all.push_back({"steps " + job.openings[i].name, cli::stepsText(job, practice, plan, i, 80)});
  }
  all.push_back({"crew", cli::crewText(job, plan, 80)});
  all.push_back({"glb", exchange::glb(scene, job, practice).value()});
  const auto obj = testing::objFiles(scene, job, practice, "a.mtl");
  all.push_back({"obj", obj.obj});
  all.push_back({"mtl", obj.mtl});
  const auto schedule = testing::readSchedule(
      exchange::csv(takeoff::orderList(job, practice, plan, findings), practice.display), "order.csv");
  REQUIRE(schedule.ok());
  all.push_back({"schedule", exchange::openingsToml(*schedule.value)});
  for (const auto format : {sheet::Format::Svg, sheet::Format::Pdf}) {
    for (const auto& page : sheet::draw({job, practice, plan, findings, scene}, {}, format)) {
      all.push_back({format == sheet::Format::Svg ? "svg" : "pdf", page});
    }
  }
  return all;
}

}  // namespace

TEST_CASE("decimal commas change nothing that is read or written") {
  for (const char* name : {"boatshed.toml", "garage-header.toml", "raking-studio.toml"}) {
    const auto path = std::filesystem::path(SILLWRIGHT_ASSETS_DIR) / "jobs" / name;
    const auto plain = allOf(path);
    const WithCommas commas;
    std::ostringstream sample;
    sample << 1234.5;
    REQUIRE(sample.str() == "1.234,5");  // else nothing is tried here
    const auto with_commas = allOf(path);
    REQUIRE(with_commas.size() == plain.size());
    for (std::size_t i = 0; i < plain.size(); ++i) {
      INFO(name << ": " << plain[i].what);
      CHECK((with_commas[i].text == plain[i].text));
    }
  }
}
