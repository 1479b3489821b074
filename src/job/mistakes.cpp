#include "job/mistakes.h"

#include <algorithm>
#include <tuple>

#include "base/words.h"

namespace sillwright::job {
namespace {

bool isBare(std::string_view key) {  // TOML takes such a key without quotes
  const auto bare = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  };
  return !key.empty() && std::all_of(key.begin(), key.end(), bare);
}

/// Appends the headers of the tables at and under `table` that do have the key: "[[opening]] or [opening.unit]".
void addHomes(std::string_view key, const TableRule& table, std::string& homes) {
  if (!table.header.empty() && table.find(key) != nullptr)
    homes.append(homes.empty() ? "" : " or ").append(table.header);
  for (const auto& inner : table.keys) {
    if (inner.holds.table != nullptr) addHomes(key, *inner.holds.table, homes);
  }
}

/// What the table's key is called that was called `old_name` before; empty where none was.
std::string_view nameNow(std::string_view old_name, const TableRule& table) {
  for (const auto& key : table.keys) {
    if (!old_name.empty() && key.holds.old_name == old_name) return key.name;
  }
  return {};
}

}  // namespace

std::string toText(const Path& path) {
  std::string text = path.parent == nullptr ? std::string() : toText(*path.parent);
  if (path.index != Path::kNoIndex) return text + "[" + std::to_string(path.index) + "]";  // an element of an array
  if (path.parent == nullptr) return text;
  if (!text.empty()) text += ".";
  return text + (isBare(path.key) ? base::oneLine(path.key) : base::quote(path.key));
}

Mistakes::Mistakes(std::string file, const TableRule* whole, std::uint32_t lines_before)
    : file_(std::move(file)), whole_(whole), lines_before_(lines_before) {}

base::Place Mistakes::inFile(base::Place at) const { return {at.line == 0 ? 0 : at.line + lines_before_, at.column}; }

void Mistakes::add(base::Place at, std::string key, std::string say) {
  if (errors_.size() >= kMostErrors) {  // a hopeless file must not fill the memory
    ++not_listed_;
    return;
  }
  errors_.push_back({file_, inFile(at), std::move(key), std::move(say)});
}

void Mistakes::addUnknownKey(base::Place at, const Path& path, const TableRule& table) {
  std::vector<std::string_view> known;
  known.reserve(table.keys.size());
  for (const auto& key : table.keys) known.push_back(key.name);
  std::string homes;
  if (whole_ != nullptr) addHomes(path.key, *whole_, homes);  // other tables of the file may have it
  std::string say = "unknown key";
  if (const auto now = nameNow(path.key, table); !now.empty()) {  // an old name is certain: it comes before a guess
    say = "is now called " + std::string(now);
  } else if (const auto meant = base::nearest(path.key, known); !meant.empty()) {
    say.append("; did you mean ").append(meant).append("?");
  } else if (!homes.empty()) {
    say += " here; it belongs in " + homes;
  } else {
    say += "; known here: " + listKeys(table);
  }
  add(at, path, std::move(say));
}

std::vector<base::Error> Mistakes::take() && {
  std::sort(errors_.begin(), errors_.end(), [](const base::Error& a, const base::Error& b) {
    return std::tie(a.at.line, a.at.column, a.key, a.say) < std::tie(b.at.line, b.at.column, b.key, b.say);
  });
  errors_.erase(std::unique(errors_.begin(), errors_.end()), errors_.end());
  if (not_listed_ > 0) {  // there are kMostErrors before it
    errors_.push_back({file_, errors_.back().at, "", "and " + std::to_string(not_listed_) + " more errors"});
  }
  return std::move(errors_);
}

}  // namespace sillwright::job
