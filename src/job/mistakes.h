/// The mistakes found in one file while it is read.
///
/// A reader notes each and goes on, so that a person sees all of them at once. Where a value hangs in the file is
/// kept as a chain of names on the stack and is only spelt out when there is something to say about it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/error.h"
#include "job/rule.h"

namespace sillwright::job {

/// One step of the way from the file to a value. The parents must outlive it.
struct Path {
  static constexpr auto kNoIndex = static_cast<std::size_t>(-1);

  const Path* parent = nullptr;
  std::string_view key = {};
  std::size_t index = kNoIndex;
};

/// `opening[2].unit.width`. A key that needs quotes in TOML is written with them.
[[nodiscard]] std::string toText(const Path& path);

class Mistakes {
 public:
  /// `whole`: the file's rule, for telling which table a misplaced key belongs to; may be null. `lines_before`: of the
  /// file, where only a piece of it is read.
  explicit Mistakes(std::string file, const TableRule* whole = nullptr, std::uint32_t lines_before = 0);

  /// Where a place of the text is in the file.
  [[nodiscard]] base::Place inFile(base::Place at) const;

  void add(base::Place at, const Path& path, std::string say) { add(at, toText(path), std::move(say)); }
  void add(base::Place at, std::string key, std::string say);

  /// Notes a key that its table doesn't have, and says which one may have been meant, or what it is called now.
  void addUnknownKey(base::Place at, const Path& path, const TableRule& table);

  [[nodiscard]] bool empty() const { return errors_.empty(); }

  /// All of them in the order of the file, none twice. A hopeless file is not listed without end: past
  /// kMostErrors the rest are counted in one last entry.
  [[nodiscard]] std::vector<base::Error> take() &&;

  static constexpr std::size_t kMostErrors = 10'000;

 private:
  std::string file_;
  const TableRule* whole_;
  std::uint32_t lines_before_;
  std::vector<base::Error> errors_;
  std::size_t not_listed_ = 0;
};

}  // namespace sillwright::job
