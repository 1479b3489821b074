/// A job from its file, in one step.
#pragma once

#include <filesystem>

#include "base/write_file.h"
#include "job/read.h"

namespace sillwright::testing {

inline base::Result<job::Job> readJob(const std::filesystem::path& path) {
  auto text = base::loadText(path);
  if (!text.ok()) return {{}, std::move(text.errors)};
  return job::read(*text.value, path.string());
}

}  // namespace sillwright::testing
