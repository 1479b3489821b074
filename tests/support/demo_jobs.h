/// The jobs that come with the program, with their practice and plan.
#pragma once

#include <algorithm>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "plan/plan.h"
#include "practice/read.h"
#include "support/catch.h"
#include "support/read_job.h"

namespace sillwright::testing {

struct DemoJob {
  job::Job job;
  std::shared_ptr<const practice::Practice> practice;  ///< Behind a pointer: the plan points into it.
  plan::Plan plan;
};

inline DemoJob demoJob(const std::filesystem::path& file) {
  DemoJob demo;
  auto read = readJob(file.string());
  REQUIRE(read.ok());
  demo.job = std::move(*read.value);
  auto loaded = practice::load(demo.job.practice, SILLWRIGHT_ASSETS_DIR, SILLWRIGHT_ASSETS_DIR);
  REQUIRE(loaded.ok());
  demo.practice = std::make_shared<const practice::Practice>(std::move(*loaded.value));
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  return demo;
}

/// All of assets/jobs, by name.
inline std::vector<DemoJob> demoJobs() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs")) {
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  REQUIRE(files.size() >= 9);
  std::vector<DemoJob> demos;
  for (const auto& file : files) demos.push_back(demoJob(file));
  return demos;
}

}  // namespace sillwright::testing
