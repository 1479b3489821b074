#include "job/mistakes.h"

#include <algorithm>
#include <tuple>
#include <utility>

#include "base/words.h"

namespace sillwright::job {
namespace {

bool isBare(std::string_view key) {
  const auto bare = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
  };
  return !key.empty() && std::all_of(key.begin(), key.end(), bare);
}

/// The headers of the tables that do have the key: "[[opening]] or [opening.unit]".
std::string homesOf(std::string_view key, std::span<const TableRule* const> tables) {
  std::string homes;
  for (const auto* table : tables) {
    if (table->spelling.empty() || table->find(key) == nullptr) continue;
    if (!homes.empty()) homes += " or ";
    homes += table->spelling;
  }
  return homes;
}

}  // namespace

std::string toText(const Path& path) {
  std::string text = path.parent == nullptr ? std::string() : toText(*path.parent);
  if (path.index != Path::kNoIndex) return text + "[" + std::to_string(path.index) + "]";
  if (path.parent == nullptr) return text;
  if (!text.empty()) text += ".";
  return text + (isBare(path.key) ? base::oneLine(path.key) : base::quote(path.key));
}

Mistakes::Mistakes(std::string file, std::span<const TableRule* const> tables)
    : file_(std::move(file)), tables_(tables) {}

void Mistakes::add(base::Place at, const Path& path, std::string say) {
  if (errors_.size() >= kMostErrors) {
    ++not_listed_;
    return;
  }
  errors_.push_back({file_, at, toText(path), std::move(say)});
}

void Mistakes::addUnknownKey(base::Place at, const Path& path, const TableRule& table) {
  std::vector<std::string_view> known;
  known.reserve(table.keys.size());
  for (const auto& key : table.keys) known.push_back(key.name);
  std::string say = "unknown key";
  if (const auto meant = base::nearest(path.key, known); !meant.empty()) {
    say.append("; did you mean ").append(meant).append("?");
  } else if (const auto homes = homesOf(path.key, tables_); !homes.empty()) {
    say += " here; it belongs in " + homes;
  } else {
    say += "; known here: " + listKeys(table);
  }
  add(at, path, std::move(say));
}

std::vector<base::Error> Mistakes::take() && {
  const auto order = [](const base::Error& a, const base::Error& b) {
    return std::tie(a.at.line, a.at.column, a.key, a.say) < std::tie(b.at.line, b.at.column, b.key, b.say);
  };
  std::sort(errors_.begin(), errors_.end(), order);
  errors_.erase(std::unique(errors_.begin(), errors_.end()), errors_.end());
  if (not_listed_ > 0) {
    errors_.push_back({file_, errors_.back().at, "", "and " + std::to_string(not_listed_) + " more errors"});
  }
  return std::move(errors_);
}

}  // namespace sillwright::job
