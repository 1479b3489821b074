#include "document/settings.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <sstream>
#include <system_error>

#include "base/write_file.h"

namespace sillwright::document {

namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kLargest = std::uintmax_t{1} << 20;  // bytes; more than is ever written
constexpr int kFurthest = 100'000;                            // pixels: beyond any desk of screens

}  // namespace

fs::path ownFolder(const char* variable, const char* usual, const char* of) {
  const auto absolute = [](const char* name) {  // the specification has relative ones ignored
    const char* value = std::getenv(name);
    return value != nullptr && *value == '/' ? fs::path(value) : fs::path();
  };
  fs::path folder = absolute(variable);
  if (folder.empty() && !absolute("HOME").empty()) folder = absolute("HOME") / usual;
  return folder.empty() ? folder : folder / "sillwright" / of;
}

toml::table readSettings(const fs::path& file) {
  const auto text = base::loadText(file, kLargest);
  if (!text.ok()) return {};
  try {
    return toml::parse(std::string_view{*text.value});
  } catch (const toml::parse_error&) {
    return {};
  }
}

std::optional<std::string> writeSettings(const fs::path& file, const toml::table& settings) {
  std::error_code ignored;  // what fails here is told by the saving that fails after it
  fs::create_directories(file.parent_path(), ignored);
  // A link to a device isn't written through, but gives way to a file.
  if (!fs::is_regular_file(file, ignored)) fs::remove(file, ignored);
  std::ostringstream text;
  text << settings << '\n';
  return base::save(file, text.str());
}

fs::path windowPlaceFile() { return ownFolder("XDG_CONFIG_HOME", ".config", "window.toml"); }

std::optional<WindowPlace> readWindowPlace(const fs::path& file) {
  const toml::table kept = readSettings(file);
  if (kept.empty()) return std::nullopt;
  WindowPlace place;
  const auto pixels = [&](const char* key, int usual, int least) {
    return static_cast<int>(std::clamp<std::int64_t>(kept[key].value_or(std::int64_t{usual}), least, kFurthest));
  };
  place.x = pixels("x", place.x, -kFurthest);  // a screen may lie left of the first
  place.y = pixels("y", place.y, -kFurthest);
  place.width = pixels("width", place.width, 320);  // nobody finds a smaller window
  place.height = pixels("height", place.height, 240);
  place.whole_screen = kept["whole_screen"].value_or(place.whole_screen);
  place.dark = kept["dark"].value_or(place.dark);
  const double scale = kept["text_scale"].value_or(place.text_scale);
  if (std::isfinite(scale)) place.text_scale = std::clamp(scale, 0.5, 4.0);  // TOML has nan, which clamp would keep
  return place;
}

std::string writeWindowPlace(const fs::path& file, const WindowPlace& place) {
  if (file.empty()) return {};
  const auto refused = writeSettings(file, toml::table{{"x", place.x},
                                                       {"y", place.y},
                                                       {"width", place.width},
                                                       {"height", place.height},
                                                       {"whole_screen", place.whole_screen},
                                                       {"dark", place.dark},
                                                       {"text_scale", place.text_scale}});
  return refused ? "the window's place is not kept: " + file.string() + ": " + *refused : std::string{};
}

}  // namespace sillwright::document
