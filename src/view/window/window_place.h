/// Where the window was, kept from one run to the next in the person's own settings folder.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

namespace sillwright::view {

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

/// Lines of `key = value`, as below. What it can't make sense of is left at its default: a spoilt file is no reason not
/// to start.
[[nodiscard]] WindowPlace parseWindowPlace(std::string_view text);
[[nodiscard]] std::string toText(const WindowPlace& place);

/// Nothing where there is no such file.
[[nodiscard]] std::optional<WindowPlace> readWindowPlace(const std::filesystem::path& file);
/// Writes a file beside it and renames that over it. Answers a sentence where the machine refuses, else an empty
/// string.
[[nodiscard]] std::string writeWindowPlace(const std::filesystem::path& file, const WindowPlace& place);

}  // namespace sillwright::view
