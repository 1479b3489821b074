/// Scenes made from the text of a job, with the practices that come with the program.
#pragma once

#include <string>

#include "job/read.h"
#include "plan/plan.h"
#include "practice/read.h"
#include "scene/build/build.h"
#include "support/catch.h"
#include "support/read_job.h"

namespace sillwright::scene {

inline const practice::Practice& australia() {
  static const practice::Practice practice = *practice::load("au", SILLWRIGHT_ASSETS_DIR, ".").value;
  return practice;
}

inline const MeshLibrary& ownMeshes() {
  static const MeshLibrary library = [] {
    MeshLibrary made;
    REQUIRE(loadMeshes(made, SILLWRIGHT_ASSETS_DIR, job::Job{}, ".").empty());
    return made;
  }();
  return library;
}

struct Made {
  job::Job job;
  plan::Plan plan;
  Scene scene;
};

inline Made make(const job::Job& job, const MeshLibrary& library = ownMeshes()) {
  Made made;
  made.job = job;
  made.plan = plan::makePlan(made.job, australia());
  made.scene = build(made.job, australia(), made.plan, library);
  return made;
}

inline Made make(const std::string& text) {
  const base::Result<job::Job> read = job::read(text, "test.toml");
  for (const base::Error& error : read.errors) UNSCOPED_INFO(base::toLine(error));
  REQUIRE(read.ok());
  return make(*read.value);
}

inline Made makeFile(const char* name) {
  const base::Result<job::Job> read = testing::readJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/" + name);
  REQUIRE(read.ok());
  return make(*read.value);
}

/// A wall of 3600 × 2440 with one opening of 1530 × 1060 for a unit of 1510 × 1040; `unit` holds more keys of the unit,
/// `wall` more keys of the wall.
inline std::string oneOpening(const std::string& kind, const std::string& unit = "", const std::string& wall = "") {
  const bool door = kind.find("door") != std::string::npos;
  const std::string height = door ? "2110" : "1060";
  const std::string unit_height = door ? "2090" : "1040";
  return "[job]\ntitle = \"t\"\npractice = \"au\"\n[[wall]]\nname = \"w\"\nlength = 3600\ntop = 2740\n"
         "stud = { depth = 90, thickness = 45 }\nspacing = 450\nplates = { top = 2, bottom = 1 }\nlining = 10\n"
         "cladding = { thickness = 16, cavity = 0 }\n" +
         wall + "[[opening]]\nname = \"N1\"\nwall = \"w\"\nleft = 1000\nsill = " + (door ? "0" : "900") +
         "\nwidth = 1530\nheight = " + height + "\n[opening.unit]\nkind = \"" + kind +
         "\"\nwidth = 1510\nheight = " + unit_height +
         "\nframe = { depth = 100, face = 45 }\nfin = 30\n"
         "glass = { thickness = 5, panes = 1 }\n" +
         unit;
}

inline const std::string kReveal = "reveal = { thickness = 18, depth = 100 }\n";

inline const std::vector<std::string>& unitKinds() {
  static const std::vector<std::string> kinds = {"sliding window", "awning window", "casement window",
                                                 "fixed window",   "sliding door",  "hinged door"};
  return kinds;
}

}  // namespace sillwright::scene
