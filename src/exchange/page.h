/// The job as a page for a phone: the template that Emscripten made (third_party/pocket.sh), with the job in it as
/// data.
#pragma once

#include <map>
#include <string>

#include "base/error.h"
#include "document/document.h"

namespace sillwright::exchange {

/// Where the page looks for an exercise that it is to open with.
inline constexpr const char* kPageExercise = "/exercise.toml";

/// The page of this document's job, filled, with more files by their paths in it. Errors: there is no template, or a
/// file of the job can't be read.
[[nodiscard]] base::Result<std::string> pageOf(const document::Document& document,
                                               std::map<std::string, std::string> more = {});

/// The files that the page opens the job from, by the paths that they have in it: the job's text, its practice where
/// that is a file beside it, its meshes. Errors: one that can't be read.
[[nodiscard]] base::Result<std::map<std::string, std::string>> pageFiles(const document::Document& document);

/// Where the page of this document's job lies among its files: "/job/house.toml".
[[nodiscard]] std::string pagePath(const document::Document& document);

}  // namespace sillwright::exchange
