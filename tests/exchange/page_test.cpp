// What the page for a phone holds of a job.

#include "exchange/page.h"

#include <filesystem>

#include "job/read.h"
#include "support/assets.h"
#include "support/catch.h"

using namespace sillwright;

namespace {

/// The practice that the page's job names, and the page's files.
std::pair<std::string, std::map<std::string, std::string>> inPage(const std::string& practice) {
  const std::string& assets = tests::assets();
  const auto loaded = document::load(assets + "/jobs/garage-header.toml", assets, document::Depth::Findings, practice);
  REQUIRE(loaded.ok());
  auto files = exchange::pageFiles(*loaded.value);
  REQUIRE(files.ok());
  const auto job = job::read(files.value->at(exchange::pagePath(*loaded.value)), "page");
  REQUIRE(job.ok());
  return {job.value->practice, std::move(*files.value)};
}

}  // namespace

TEST_CASE("the page's job names the practice that was chosen for it, a file of it beside the job") {
  CHECK(inPage("").first == "us");
  CHECK(inPage("nz").first == "nz");
  const auto [named, files] = inPage(tests::assets() + "/practice/uk.toml");
  CHECK(named == "./uk.toml");
  CHECK(files.count("/job/uk.toml") == 1);
  CHECK(files.size() == inPage("nz").second.size() + 1);
}
