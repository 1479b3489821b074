/// One key of a job by itself: what it holds now, as the file spells it, and setting it to another such text. For
/// whoever changes a job key by key without knowing each.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "job/job.h"
#include "job/rule.h"

namespace sillwright::job {

/// Which table of the file a key stands in.
enum class TableKind : std::uint8_t { Job, Stock, Wall, Opening, Unit, Measured };

struct KeyPlace {
  TableKind table = TableKind::Job;
  std::size_t of = 0;  ///< Index of the wall or the opening.
  std::string key;
  std::string inner;  ///< A key of the table that `key` holds: "thickness" of "glass". Empty: `key` itself.
  bool operator==(const KeyPlace&) const = default;
};

struct KeyText {
  KeyPlace place;
  const KeyRule* rule = nullptr;
  std::string text;  ///< As the file spells it; empty: left out.
};

/// All keys of a table in the order of the file; of tables within it their keys, but for those with a header of their
/// own.
[[nodiscard]] std::vector<KeyText> keysOf(const Job& job, TableKind table, std::size_t of);

/// Sets a key to what the text spells; empty: left out. A table that has to be begun for it takes its other keys from
/// `like`, a job with the same walls and openings. Answers why not, to follow the key's name; empty: it is set.
[[nodiscard]] std::string setKey(Job& job, const KeyPlace& place, const std::string& text, const Job& like);

}  // namespace sillwright::job
