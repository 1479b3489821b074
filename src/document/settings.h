/// Inside the room: small files that the program keeps for itself from run to run: TOML, saved as safely as a job.
///
/// It brings toml++ with it.
#pragma once

#include <toml++/toml.h>

#include <filesystem>
#include <optional>
#include <string>

namespace sillwright::document {

/// Empty where there is no such file, and where it is no TOML: a spoilt file is no reason not to start.
[[nodiscard]] toml::table readSettings(const std::filesystem::path& file);

/// Makes the file's folder where it is missing. Answers a sentence where the machine refuses.
[[nodiscard]] std::optional<std::string> writeSettings(const std::filesystem::path& file, const toml::table& settings);

}  // namespace sillwright::document
