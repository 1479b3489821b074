#include "job/read.h"

#include <string>
#include <unordered_map>
#include <utility>
#include <variant>
#include <vector>

#include "base/words.h"
#include "job/mistakes.h"
#include "job/read_pieces.h"
#include "job/toml_text.h"

namespace sillwright::job {
namespace {

/// Names that are in use: which wall or opening has it. The texts are the TOML tree's own.
using Names = std::unordered_map<std::string_view, std::size_t>;

/// How many names are compared with misspelt ones in one file, so that a big job full of wrong names is answered
/// in the time it takes to read it.
constexpr std::size_t kMostComparisons = 100'000;

/// The name as it is written, whether or not it is a good one: whoever uses it shall find it.
std::optional<std::string_view> writtenName(const TableReader& table, std::string_view key) {
  const auto* node = table.at(key);
  const auto* string = node == nullptr ? nullptr : node->as_string();
  if (string == nullptr) return std::nullopt;
  return std::string_view(string->get());
}

/// Enters the name of the next wall or opening, or notes that another has it.
template <class Named>
void enterName(const TableReader& table, Names& names, const std::vector<Named>& all, const char* noun) {
  const auto name = writtenName(table, "name");
  if (!name) return;
  const auto [entry, is_new] = names.try_emplace(*name, all.size() - 1);
  if (is_new) return;
  const auto line = std::to_string(all[entry->second].place.line);
  table.note("name", base::quote(*name) + " is already the name of the " + noun + " at line " + line);
}

class WallNames {
 public:
  void enter(const TableReader& table, const std::vector<Wall>& walls) {
    enterName(table, names_, walls, "wall");
    if (const auto name = writtenName(table, "name")) order_.push_back(*name);
  }

  /// Index of the wall that the opening names; 0 and a note where there is none.
  std::size_t find(const TableReader& opening) {
    std::string name;
    opening.value("wall", name);
    if (name.empty()) return 0;
    const auto entry = names_.find(name);
    if (entry != names_.end()) return entry->second;
    opening.note("wall", "there is no wall " + base::quote(name) + hint(name));
    return 0;
  }

 private:
  std::string hint(std::string_view name) {
    if (order_.size() > comparisons_left_) return {};
    comparisons_left_ -= order_.size();
    if (const auto meant = base::nearest(name, order_); !meant.empty())
      return "; did you mean " + base::quote(meant) + "?";
    constexpr std::size_t kMostListed = 8;
    if (order_.empty() || order_.size() > kMostListed) return {};
    std::string list;
    for (const auto wall : order_) list += (list.empty() ? "" : ", ") + base::quote(wall);
    return "; the walls are " + list;
  }

  Names names_;
  std::vector<std::string_view> order_;
  std::size_t comparisons_left_ = kMostComparisons;
};

void readAll(const TableReader& file, Job& job) {
  readHead(file, job);
  WallNames walls;
  file.tables("wall", job.walls, [&](const TableReader& table, Wall& wall) {
    readWall(table, wall);
    walls.enter(table, job.walls);
  });
  Names openings;
  file.tables("opening", job.openings, [&](const TableReader& table, Opening& opening) {
    table.read(opening);
    opening.wall = walls.find(table);
    enterName(table, openings, job.openings, "opening");
  });
}

}  // namespace

base::Result<Job> read(std::string_view text, std::string file) {
  if (text.size() >= kWorthPieces) {
    if (auto job = readPieces(text, file)) return {std::move(job), {}};
  }
  const auto tree = parseToml(text);
  if (const auto* fault = std::get_if<SyntaxFault>(&tree)) return {{}, {{std::move(file), fault->at, "", fault->say}}};
  Mistakes mistakes(file, &fileTable());
  Job job;
  job.file = std::move(file);
  const Path root;
  readAll(TableReader(mistakes, std::get<toml::table>(tree), fileTable(), root), job);
  if (mistakes.empty()) return {std::move(job), {}};
  return {{}, std::move(mistakes).take()};
}

}  // namespace sillwright::job
