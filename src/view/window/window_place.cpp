#include "view/window/window_place.h"

#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <fstream>
#include <optional>
#include <system_error>

#include "base/read_file.h"
#include "job/read.h"

namespace sillwright::view {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kLargestPlaceFile = std::uintmax_t{64} << 10;  // bytes; it is ten lines
constexpr int kFurthest = 100'000;                                      // pixels: beyond any desk of screens

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

void set(int& into, std::string_view value, int least) {
  int number = 0;
  const auto [end, failed] = std::from_chars(value.data(), value.data() + value.size(), number);
  if (failed != std::errc{} || end != value.data() + value.size()) return;
  into = std::clamp(number, least, kFurthest);
}

void set(double& into, std::string_view value) {
  double number = 0.0;
  const auto [end, failed] = std::from_chars(value.data(), value.data() + value.size(), number);
  if (failed != std::errc{} || end != value.data() + value.size() || !std::isfinite(number)) return;
  into = std::clamp(number, 0.5, 4.0);
}

void set(bool& into, std::string_view value) {
  if (value == "true") into = true;
  if (value == "false") into = false;
}

std::string number(double value) {
  char text[32];
  const auto [end, failed] = std::to_chars(text, text + sizeof text, value);
  return failed == std::errc{} ? std::string(text, end) : "1";
}

/// Writes text to a new file; false where not all of it could be written.
bool writeWhole(const fs::path& file, const std::string& text) {
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  out << text;
  out.flush();
  return out.good();
}

}  // namespace

fs::path windowPlaceFile() {
  const char* settings = std::getenv("XDG_CONFIG_HOME");
  if (settings != nullptr && *settings == '/') return fs::path(settings) / "sillwright" / "window.toml";
  const char* home = std::getenv("HOME");
  if (home == nullptr || *home != '/') return {};
  return fs::path(home) / ".config" / "sillwright" / "window.toml";
}

WindowPlace parseWindowPlace(std::string_view text) {
  WindowPlace place;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    const std::size_t equals = line.find('=');
    if (equals == std::string_view::npos) continue;
    const std::string_view key = trimmed(line.substr(0, equals));
    const std::string_view value = trimmed(line.substr(equals + 1));
    if (key == "x") set(place.x, value, -kFurthest);
    if (key == "y") set(place.y, value, -kFurthest);
    if (key == "width") set(place.width, value, 320);
    if (key == "height") set(place.height, value, 240);
    if (key == "whole_screen") set(place.whole_screen, value);
    if (key == "dark") set(place.dark, value);
    if (key == "text_scale") set(place.text_scale, value);
  }
  return place;
}

std::string toText(const WindowPlace& place) {
  const auto word = [](bool value) { return value ? "true" : "false"; };
  std::string text = "# Where the sillwright window was last.\n";
  text += "x = " + std::to_string(place.x) + "\ny = " + std::to_string(place.y);
  text += "\nwidth = " + std::to_string(place.width) + "\nheight = " + std::to_string(place.height);
  text += std::string("\nwhole_screen = ") + word(place.whole_screen);
  text += std::string("\ndark = ") + word(place.dark);
  text += "\ntext_scale = " + number(place.text_scale) + "\n";
  return text;
}

std::optional<WindowPlace> readWindowPlace(const fs::path& file) {
  const auto text = base::loadText(file, kLargestPlaceFile);
  return text.ok() ? std::optional(parseWindowPlace(*text.value)) : std::nullopt;
}

std::string writeWindowPlace(const fs::path& file, const WindowPlace& place) {
  if (file.empty()) return {};
  std::error_code failed;
  fs::create_directories(file.parent_path(), failed);
  if (failed) return "the window's place is not kept: " + file.parent_path().string() + ": " + failed.message();
  const fs::path beside = file.string() + "." + std::to_string(getpid()) + ".new";
  if (!writeWhole(beside, toText(place))) {
    fs::remove(beside, failed);
    return "the window's place is not kept: " + file.string() + " can't be written";
  }
  fs::rename(beside, file, failed);
  if (!failed) return {};
  const std::string why = failed.message();
  fs::remove(beside, failed);
  return "the window's place is not kept: " + file.string() + ": " + why;
}

}  // namespace sillwright::view
