#include "job/read.h"

#include <algorithm>
#include <cstdint>
#include <initializer_list>
#include <unordered_map>
#include <unordered_set>
#include <utility>

#include "base/words.h"
#include "job/toml_table.h"

namespace sillwright::job {

namespace {

constexpr double kRounding = 1e-6;  // mm that sums of written lengths may be off

/// Notes where the line along the top doesn't run from end to end, always to the right.
void checkRun(const TableReader& table, const toml::array& array, const Wall& wall) {
  const Path top{&table.path(), "top"};
  const auto note = [&](std::size_t i, const std::string& must) {
    const Path point{&top, {}, i};
    table.mistakes().add(placeOf((*array[i].as_array())[0]), {&point, {}, 0},
                         "must be " + must + "; found " + toText(wall.top[i].x));
  };
  if (wall.top.front().x != 0) note(0, "0, the wall's left end");
  for (std::size_t i = 1; i < wall.top.size(); ++i) {
    const double least = wall.top[i - 1].x + kLeastBetweenCorners;
    if (wall.top[i].x < least - kRounding) note(i, "at least " + toText(least) + ", 1 mm past the x before it");
  }
  const bool length_known = wall.length > 0;               // else that has its own error
  if (length_known && wall.top.back().x != wall.length) {  // exactly: both are read, not computed
    note(wall.top.size() - 1, toText(wall.length) + ", the wall's length");
  }
}

void readWall(const TableReader& table, Wall& wall) {
  table.read(wall);
  if (wall.top.empty()) return;                     // left out or refused, which was noted
  const auto* array = table.at("top")->as_array();  // it is there: `top` was read from it
  if (array == nullptr) {
    wall.top.push_back({wall.length, wall.top.front().z});  // one height: level from end to end
  } else if (wall.top.size() == array->size()) {            // a point that was refused shifts those behind it
    checkRun(table, *array, wall);
  }
}

/// [job], and [stock] where it is there.
void readHead(const TableReader& file, Job& job) {
  file.value("job", job);
  file.value("stock", job.stock);
}

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
  const auto [entry, is_new] = names.try_emplace(*name, all.size() - 1);  // the one that is being read is the last
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
    if (name.empty()) return 0;  // noted as missing already
    const auto entry = names_.find(name);
    if (entry != names_.end()) return entry->second;
    opening.note("wall", "there is no wall " + base::quote(name) + hint(name));
    return 0;
  }

 private:
  std::string hint(std::string_view name) {
    if (order_.size() > comparisons_left_) return {};  // the file has had its time for guesses
    comparisons_left_ -= order_.size();
    if (const auto meant = base::nearest(name, order_); !meant.empty())
      return "; did you mean " + base::quote(meant) + "?";
    constexpr std::size_t kMostListed = 8;
    if (order_.empty() || order_.size() > kMostListed) return {};  // too many to list
    return "; the walls are " + base::joined(order_, ", ", base::quote);
  }

  Names names_;
  std::vector<std::string_view> order_;
  std::size_t comparisons_left_ = kMostComparisons;
};

void readAll(const TableReader& file, Job& job) {
  readHead(file, job);
  WallNames walls;
  file.tables("wall", job.walls, [&](const TableReader& table, Wall& wall) {  // first: openings name them
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

constexpr std::string_view kOpeningHeader = "\n[[opening]]";  // in a text over several lines: the piece is no TOML

/// The file's rule with these of its keys.
TableRule fileTableOf(std::initializer_list<std::string_view> names) {
  TableRule rule;
  for (const auto name : names) rule.keys.push_back(*fileTable().find(name));
  return rule;
}

/// What one piece says; the first has all but the openings.
struct Piece {
  std::string_view text;
  std::uint32_t lines_before = 0;
  Job job;
  std::vector<std::string> walls;  ///< What each opening names: the walls are read meanwhile.
  bool good = false;
};

std::vector<Piece> cut(std::string_view text, std::size_t piece_bytes) {
  std::vector<Piece> pieces(1);
  std::size_t from = 0;
  std::uint32_t lines = 0;
  // The first cut is at the first opening, however short what comes before it is.
  std::size_t at = text.find(kOpeningHeader);
  while (at != std::string_view::npos) {
    const std::size_t next = at + 1;
    pieces.back().text = text.substr(from, next - from);
    lines += static_cast<std::uint32_t>(std::count(text.begin() + static_cast<std::ptrdiff_t>(from),
                                                   text.begin() + static_cast<std::ptrdiff_t>(next), '\n'));
    pieces.emplace_back().lines_before = lines;
    from = next;
    at = text.find(kOpeningHeader, std::min(text.size(), from + piece_bytes));  // a piece is at least so long
  }
  pieces.back().text = text.substr(from);
  return pieces;
}

void readPiece(Piece& piece, const std::string& file) {
  const auto tree = parseToml(piece.text);
  if (std::holds_alternative<SyntaxFault>(tree)) return;  // not good: the whole file is read, and tells what is wrong
  static const TableRule kFirst = fileTableOf({"job", "wall", "stock"});
  static const TableRule kOther = fileTableOf({"opening", "stock"});  // another table fails: the file is read whole
  Mistakes mistakes(file, nullptr, piece.lines_before);               // places are the file's, not the piece's
  const Path root;
  const TableReader reader(mistakes, std::get<toml::table>(tree), piece.lines_before == 0 ? kFirst : kOther, root);
  readHead(reader, piece.job);
  reader.tables("wall", piece.job.walls, readWall);
  reader.tables("opening", piece.job.openings, [&](const TableReader& table, Opening& opening) {
    table.read(opening);
    piece.walls.emplace_back(writtenName(table, "wall").value_or(""));
  });
  piece.good = mistakes.empty();
}

template <class Named>
bool namesDiffer(const std::vector<Named>& all) {
  std::unordered_set<std::string_view> names;
  names.reserve(all.size());
  return std::all_of(all.begin(), all.end(), [&](const Named& one) { return names.insert(one.name).second; });
}

/// Empty: the stock is said twice, or an opening names no wall.
std::optional<Job> gather(std::vector<Piece>& pieces, const std::string& file) {
  Job job = std::exchange(pieces.front().job, {});
  job.file = file;
  Names walls;
  for (std::size_t i = 0; i < job.walls.size(); ++i) walls.emplace(job.walls[i].name, i);
  std::size_t count = 0;
  for (const Piece& piece : pieces) count += piece.walls.size();
  job.openings.reserve(count);
  for (Piece& piece : pieces) {
    for (std::size_t i = 0; i < piece.walls.size(); ++i) {
      const auto wall = walls.find(piece.walls[i]);
      if (wall == walls.end()) return std::nullopt;
      job.openings.push_back(std::move(piece.job.openings[i]));
      job.openings.back().wall = wall->second;
    }
    piece.job.openings = {};  // its memory goes now, not with the last piece's
    if (!piece.job.stock) continue;
    if (job.stock) return std::nullopt;  // in one text the parser would refuse the second table
    job.stock = std::move(piece.job.stock);
  }
  return job;
}

}  // namespace

base::Result<Job> read(std::string_view text, std::string file) {
  if (text.size() >= kWorthPieces) {
    if (auto job = readPieces(text, file)) return {std::move(job), {}};  // else reading all of it tells what is wrong
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

std::optional<Job> readPieces(std::string_view text, const std::string& file, std::size_t piece_bytes,
                              base::Threads threads) {
  std::vector<Piece> pieces = cut(text, piece_bytes);
  base::inParallel(pieces.size(), 1, threads, [&](std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i) readPiece(pieces[i], file);
  });
  if (!std::all_of(pieces.begin(), pieces.end(), [](const Piece& piece) { return piece.good; })) return std::nullopt;
  std::optional<Job> job = gather(pieces, file);
  const bool whole = job && job->openings.size() <= kMostOpenings;
  if (!whole || !namesDiffer(job->walls) || !namesDiffer(job->openings)) return std::nullopt;
  return job;
}

}  // namespace sillwright::job
