/// Inside the room: small files that the program keeps for itself from run to run: TOML, saved as safely as a job.
///
/// It brings toml++ with it.
#pragma once

#include <toml++/toml.h>
#include <filesystem>
#include <optional>
#include <string>

namespace sillwright::document {

/// A place of the program's own in a folder of the person's, by the XDG Base Directory Specification (0.8): `of` under
/// what the variable names, or else under what is usual in the home folder. Empty where neither is known.
[[nodiscard]] std::filesystem::path ownFolder(const char* variable, const char* usual, const char* of);

/// Empty where there is no such file, and where it is no TOML: a spoilt file is no reason not to start.
[[nodiscard]] toml::table readSettings(const std::filesystem::path& file);

/// Makes the file's folder where it is missing. Answers a sentence where the machine refuses.
[[nodiscard]] std::optional<std::string> writeSettings(const std::filesystem::path& file, const toml::table& settings);

// Where the window was, kept from one run to the next in the person's own settings folder.

struct WindowPlace {
  int x = 0;
  int y = 0;
  int width = 1280;
  int height = 800;
  bool whole_screen = false;  ///< Maximised; x … height are then those it goes back to.
  bool dark = false;
  double text_scale = 1.0;
  bool operator==(const WindowPlace&) const = default;
};

/// `sillwright/window.toml` in $XDG_CONFIG_HOME, else in ~/.config. Empty where the environment names neither.
[[nodiscard]] std::filesystem::path windowPlaceFile();

/// Nothing where there is no such file, or it is spoilt. What a key can't mean is left at its default.
[[nodiscard]] std::optional<WindowPlace> readWindowPlace(const std::filesystem::path& file);
/// Answers a sentence where the machine refuses, else an empty string.
[[nodiscard]] std::string writeWindowPlace(const std::filesystem::path& file, const WindowPlace& place);

}  // namespace sillwright::document
