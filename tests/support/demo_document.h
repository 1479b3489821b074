/// A job that comes with the program, with all that follows from it.
#pragma once

#include <string>

#include "document/document.h"
#include "support/assets.h"
#include "support/catch.h"

namespace sillwright::testing {

/// `name`: of a file in assets/jobs, without its ending.
inline document::Document demoDocument(const std::string& name) {
  auto loaded = document::load(tests::assets() + "/jobs/" + name + ".toml", tests::assets());
  REQUIRE(loaded.ok());
  return std::move(*loaded.value);
}

}  // namespace sillwright::testing
