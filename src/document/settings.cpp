#include "document/settings.h"

#include <cstdint>
#include <sstream>
#include <system_error>

#include "base/read_file.h"
#include "base/save.h"

namespace sillwright::document {
namespace {

constexpr std::uintmax_t kLargest = std::uintmax_t{1} << 20;  // bytes; more than is ever written

}  // namespace

toml::table readSettings(const std::filesystem::path& file) {
  const auto text = base::loadText(file, kLargest);
  if (!text.ok()) return {};
  try {
    return toml::parse(std::string_view{*text.value});
  } catch (const toml::parse_error&) {
    return {};
  }
}

std::optional<std::string> writeSettings(const std::filesystem::path& file, const toml::table& settings) {
  std::error_code ignored;  // what fails here is told by the saving that fails after it
  std::filesystem::create_directories(file.parent_path(), ignored);
  // A link to a device isn't written through, but gives way to a file.
  if (!std::filesystem::is_regular_file(file, ignored)) std::filesystem::remove(file, ignored);
  std::ostringstream text;
  text << settings << '\n';
  return base::save(file, text.str());
}

}  // namespace sillwright::document
