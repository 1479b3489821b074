// What to order and to cut: on the terminal, as CSV files, as a workbook.

#include <algorithm>
#include <system_error>

#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "exchange/csv.h"
#include "takeoff/order.h"
#include "words/text.h"

namespace sillwright::cli {
namespace {

void writeCsv(const std::filesystem::path& folder, const std::vector<takeoff::Table>& tables,
              practice::Display display) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error) {
    const bool is_file = error == std::errc::not_a_directory || error == std::errc::file_exists;
    const std::string reason = is_file ? "there is a file in its place" : base::because(error.value(), folder);
    refuse("the folder " + folder.string() + " could not be made: " + reason + ".");
  }
  const auto fileOf = [&](std::string name) {
    std::replace(name.begin(), name.end(), ' ', '-');
    return folder / (name + ".csv");
  };
  // What is not written now is gone, whatever happens: a folder never holds lists of two jobs.
  std::vector<std::string> old = takeoff::listNames();
  const int status = answerOf([&] {  // a fault is told, and the old lists go all the same
    for (const takeoff::Table& table : tables) {
      writeFile(fileOf(table.name), exchange::csv(table, display));
      std::erase(old, table.name);
    }
    return kReady;
  });
  for (const std::string& name : old) std::filesystem::remove(fileOf(name), error);
  if (status != kReady) throw Refused();
}

/// Says which units are held; false: none is.
bool tellHeld(const document::Document& doc, bool writes) {
  std::vector<std::string> held;
  for (std::size_t i = 0; i < doc.job.openings.size(); ++i) {
    if (check::holdOf(doc.findings, i) != nullptr) held.push_back(doc.job.openings[i].name);
  }
  if (held.empty()) return false;
  const std::string end = writes ? "; nothing was written (--force writes all the same)." : ".";
  tell("held, not to be ordered yet: " + base::joined(held) + end);
  return true;
}

}  // namespace

int list(const ListOptions& options) {
  if (!options.xlsx.empty()) endingOf(options.xlsx, {".xlsx"}, "--xlsx");
  const auto doc = loaded(options.job, options.how, document::Depth::Findings);
  const bool writes = !options.csv.empty() || !options.xlsx.empty();
  const bool held = !options.force && tellHeld(doc, writes);
  if (held && writes) return kNotReady;  // files get passed on: none may order a held unit
  const auto tables = takeoff::allLists(doc.job, *doc.practice, doc.plan, doc.findings, {.kerf = options.kerf});

  if (!options.csv.empty()) writeCsv(options.csv, tables, doc.practice->display);
  if (!options.xlsx.empty()) writeBook(options.xlsx, tables, doc);
  if (!writes) {
    const int columns = columnsOfTerminal(120);
    std::string out = wrapped(doc.job.title, columns, 0);
    if (const std::string whose = words::jobWords(doc.job); !whose.empty()) out += wrapped(whose, columns, 0);
    // The job's own lines stand above, and each list's notes under it.
    for (const auto& table : std::span(tables).subspan(1, tables.size() - 2))
      out += "\n" + listText(table, doc.practice->display, columns);
    printWords(out);
  }
  return held ? kNotReady : kReady;
}

}  // namespace sillwright::cli
