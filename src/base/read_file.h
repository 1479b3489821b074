/// Reading a whole file, bounded, with the machine's refusals in words.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "base/error.h"

namespace sillwright::base {

/// Largest file that is read, bytes.
inline constexpr std::uintmax_t kLargestFile = std::uintmax_t{256} << 20;

/// The bytes of any plain file, of at most `largest`, or one error without a line: no such file, no permission, a
/// folder, a pipe or a device, larger than `largest`.
[[nodiscard]] Result<std::string> loadText(const std::filesystem::path& path, std::uintmax_t largest = kLargestFile);

}  // namespace sillwright::base
