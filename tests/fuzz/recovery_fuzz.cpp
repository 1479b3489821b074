// Any bytes as a recovery file. No fuzzer finds a hash that fits: so the bytes are tried as they are, with a fitting
// first line put before them, and as the text that is kept.
#include <array>
#include <cstdio>

#include "base/write_file.h"
#include "document/recovery.h"
#include "fuzz/hold.h"

using namespace sillwright;

namespace {

std::string sealed(std::string text) {
  const base::Fingerprint print = base::fingerprintOf(text);
  std::array<char, 48> line{};
  std::snprintf(line.data(), line.size(), "%016llx %llu\n", static_cast<unsigned long long>(print.hash),
                static_cast<unsigned long long>(print.size));
  return std::string("sillwright recovery 2 ") + line.data() + text;
}

void holdRecovery(std::string_view text) {
  const auto recovery = document::parseRecovery(text);
  if (!recovery) return;
  fuzz::hold(recovery->text.size() < text.size(), "what was kept was in the file");
  fuzz::hold(document::parseRecovery(document::recoveryText(*recovery)) == recovery, "what is kept again is the same");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const fuzz::InTime in_time;
  const auto bytes = fuzz::exactly(data, size);
  const std::string text{fuzz::textOf(bytes)};
  holdRecovery(fuzz::textOf(bytes));
  holdRecovery(sealed(text));
  holdRecovery(sealed("0123456789abcdef 12\n" + text));
  const document::Recovery whole{"/a/job.toml", base::fingerprintOf(text), text};
  const std::string kept = document::recoveryText(whole);
  fuzz::hold(document::parseRecovery(kept) == whole, "what was kept comes back");
  fuzz::hold(!document::parseRecovery(std::string_view(kept).substr(0, kept.size() - 1 - size % kept.size())),
             "what is cut short is not whole");
  return 0;
}
