#include "document/document.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "document/assets.h"
#include "document/edits.h"
#include "document/jobs.h"
#include "support/catch.h"

using namespace sillwright;
namespace fs = std::filesystem;

namespace {

const fs::path kAssets = SILLWRIGHT_ASSETS_DIR;

fs::path writeJob(const std::string& name, const std::string& text) {
  const fs::path file = fs::temp_directory_path() / ("sillwright-document-" + name + ".toml");
  std::ofstream(file, std::ios::trunc) << text;
  return file;
}

std::string jobText(const std::string& practice, const std::string& wind, const std::string& mesh) {
  return "[job]\ntitle = \"One\"\npractice = \"" + practice + "\"\nwind = \"" + wind +
         "\"\n\n[[wall]]\nname = \"north\"\nlength = 4000\ntop = 2440\n\n[[opening]]\nname = \"N1\"\nwall = \"north\"\n"
         "left = 1000\nsill = 900\nwidth = 1530\nheight = 1060\n\n[opening.unit]\nkind = \"sliding window\"\n"
         "width = 1510\nheight = 1040\n" +
         (mesh.empty() ? "" : "mesh = \"" + mesh + "\"\n");
}

}  // namespace

TEST_CASE("every demo job loads into a whole document") {
  int jobs = 0;
  for (const auto& entry : fs::directory_iterator(kAssets / "jobs")) {
    if (entry.path().extension() != ".toml") continue;
    const auto loaded = document::load(entry.path(), kAssets);
    INFO(entry.path().string());
    for (const base::Error& error : loaded.errors) UNSCOPED_INFO(base::toLine(error));
    REQUIRE(loaded.ok());
    const document::Document& document = *loaded.value;
    CHECK(document.plan.openings.size() == document.job.openings.size());
    CHECK(document.findings.openings.size() == document.job.openings.size());
    CHECK(document.scene.openings.size() == document.job.openings.size());
    CHECK(document.scene.walls.size() == document.job.walls.size());
    CHECK_FALSE(document.scene.parts.empty());
    ++jobs;
  }
  CHECK(jobs >= 9);
}

TEST_CASE("an edit and a rebuild are the same as reading the edited job") {
  const fs::path file = writeJob("edit", jobText("au", "N3", ""));
  auto loaded = document::load(file, kAssets);
  REQUIRE(loaded.ok());
  document::Document& document = *loaded.value;
  const auto sideGaps = [&] {
    const plan::Gaps& gaps = document.plan.openings[0].stand.gaps;
    return gaps.left[0] + gaps.right[0];
  };
  CHECK(sideGaps() == Approx(1530.0 - 1510.0));
  document.job.openings[0].width += 7.0;
  document::rebuild(document);
  CHECK(sideGaps() == Approx(1537.0 - 1510.0));
  CHECK(document.scene.openings[0].width == Approx(1537.0));
  fs::remove(file);
}

TEST_CASE("a copied document stands on its own") {
  const fs::path file = writeJob("copy", jobText("au", "N3", ""));
  std::optional<document::Document> copy;
  {
    const auto loaded = document::load(file, kAssets);
    REQUIRE(loaded.ok());
    copy = *loaded.value;
  }
  document::rebuild(*copy);
  CHECK(copy->plan.openings.size() == 1);
  for (const plan::Assumption& assumption : copy->plan.openings[0].unit.assumed) {
    CHECK_FALSE(assumption.figure->unit.empty());  // still points into a practice that is there
  }
  fs::remove(file);
}

TEST_CASE("a practice that isn't there is an error at the job's line that names it") {
  const fs::path file = writeJob("practice", jobText("atlantis", "N3", ""));
  const auto loaded = document::load(file, kAssets);
  CHECK_FALSE(loaded.ok());
  REQUIRE(loaded.errors.size() == 1);
  CHECK(loaded.errors[0].at.line == 3);
  CHECK(loaded.errors[0].say.find("au") != std::string::npos);
  fs::remove(file);
}

TEST_CASE("errors of the practice's words and of meshes come together") {
  const fs::path file = writeJob("both", jobText("au", "N99", "missing.obj"));
  const auto loaded = document::load(file, kAssets);
  CHECK_FALSE(loaded.ok());
  CHECK(loaded.errors.size() == 2);
  for (const base::Error& error : loaded.errors) CHECK(error.at.line > 0);
  fs::remove(file);
}

TEST_CASE("a file that isn't there is an error, not an exception") {
  const auto loaded = document::load("/nowhere/at/all.toml", kAssets);
  CHECK_FALSE(loaded.ok());
  CHECK(loaded.errors.size() == 1);
}

TEST_CASE("the environment's assets come first, else those that were built from") {
  setenv("SILLWRIGHT_ASSETS", "/my/assets", 1);
  CHECK(document::assetsFolder() == "/my/assets");
  unsetenv("SILLWRIGHT_ASSETS");
  CHECK(fs::is_directory(document::assetsFolder() / "practice"));
}

TEST_CASE("what is written beside a job is named without the job's ending") {
  CHECK(document::stemOf("/at/house.sillwright.toml") == "house");
  CHECK(document::stemOf("house.toml") == "house");
  CHECK(document::stemOf("house.v2.toml") == "house.v2");
  CHECK(document::stemOf(".sillwright.toml") == ".sillwright");
}

TEST_CASE("a unit's size leaves the usual gaps: under a door its own, not a window's") {
  const auto doc = document::load(kAssets / "jobs/workshop-window.toml", kAssets).value;
  REQUIRE(doc);
  const auto& clearance = doc->practice->clearance;
  REQUIRE(clearance.door_sill_usual);
  job::Opening opening = doc->job.openings[0];
  opening.height = 2105;
  const double head = clearance.head_usual.at(opening.width)->value;
  for (const auto& [kind, sill] :
       {std::pair(job::UnitKind::HingedDoor, clearance.door_sill_usual->value),
        std::pair(job::UnitKind::FixedWindow, clearance.sill_usual.at(opening.width)->value)}) {
    opening.unit.kind = kind;
    document::sizeUnit(opening, *doc->practice);
    CHECK(opening.unit.height == 2105 - head - sill);
    document::sizeOpening(opening, *doc->practice);
    CHECK(opening.height == 2105);
  }
}

TEST_CASE("a light that a mullion divides has its glass in both halves") {
  job::Unit unit;
  unit.kind = job::UnitKind::FixedWindow;
  unit.width = 1800;
  unit.height = 1000;
  unit.lights.assign(2, static_cast<job::Light>(job::UnitKind::FixedWindow));
  job::LightGlass glass;
  glass.row = glass.column = 1;
  glass.safety = true;
  unit.glass_of = {glass};
  document::addMullion(unit, 0, 0);
  REQUIRE(unit.glass_of.size() == 2);
  CHECK(unit.glass_of[1].column == 2);
  CHECK(unit.glass_of[1].safety == true);
}

TEST_CASE("another practice is read when a job names it, and what can't be read changes nothing") {
  auto read = document::load(writeJob("adopt", jobText("au", "N3", "")), kAssets);
  REQUIRE(read.ok());
  document::Document& document = *read.value;
  const practice::Practice* const own = document.practice.get();
  job::Job other = document.job;
  other.title = "Two";
  CHECK(document::adopt(document, other).empty());
  CHECK(document.practice.get() == own);  // the same practice isn't read again

  other.practice = "us";
  other.wind = job::StatedPressure{1.2};
  REQUIRE(document::adopt(document, other).empty());
  document::rebuild(document);
  const auto afresh = document::load(writeJob("adopt", jobText("au", "N3", "")), kAssets);
  CHECK(document.practice->name != afresh.value->practice->name);
  CHECK(document.plan.openings.size() == 1);

  const job::Job before = document.job;
  other.practice = "no such";
  CHECK_FALSE(document::adopt(document, other).empty());
  CHECK(document.job == before);
  other.practice = "au";
  other.wind = "no such class";
  CHECK_FALSE(document::adopt(document, other).empty());
  CHECK(document.job == before);
}
