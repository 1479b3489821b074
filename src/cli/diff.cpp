// What changed between two revisions of a job: verdicts, units to order, what is bought and cut.

#include <algorithm>
#include <iterator>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/words.h"
#include "check/judge.h"
#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "takeoff/order.h"

namespace sillwright::cli {
namespace {

using takeoff::Table;
using Row = std::vector<takeoff::Cell>;

/// How a list's stock is cut up says nothing that its pieces don't; the job's own lines are in its file.
constexpr std::string_view kLeftOut[] = {"job", "cutting plan", "rolls", "tools"};
/// Columns that tell how many of what the others name, or how much.
constexpr std::string_view kAmounts[] = {"count", "boxes", "openings", "sarking runs", "marks"};
/// Of an opening, and no order.
constexpr std::string_view kNoOrder[] = {takeoff::column::kSpare, takeoff::column::kChance, takeoff::column::kMassFrom};

bool isAmong(std::string_view name, const auto& names) {
  return std::find(std::begin(names), std::end(names), name) != std::end(names);
}

/// Whether the column is of what a row's thing is: the opening's name; elsewhere all but the amounts.
bool names(const Table& table, std::size_t column) {
  if (table.columns.front().name == takeoff::column::kOpening) return column == 0;
  const std::string& name = table.columns[column].name;
  const bool by_length = table.name == "tapes and sealing" && name.starts_with("length");
  return !by_length && table.columns[column].holds != takeoff::Holds::Area && !isAmong(name, kAmounts);
}

std::string nameOf(const Table& table, const Row& row, practice::Display display) {
  std::string name;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const std::string text = names(table, i) ? cellText(row[i], table.columns[i], display) : std::string{};
    if (!text.empty())
      name += (name.empty() ? "" : ", ") +
              (table.columns[i].holds == takeoff::Holds::Text ? text : table.columns[i].name + " " + text);
  }
  return name;
}

/// The rest of a row, each value after its column's name.
std::string restOf(const Table& table, const Row& row, practice::Display display) {
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const std::string text = cellText(row[i], table.columns[i], display);
    const bool said = !names(table, i) && !table.columns[i].detail && !isAmong(table.columns[i].name, kNoOrder);
    if (said && !text.empty()) texts.push_back(table.columns[i].name + " " + text);
  }
  return base::joined(texts, ", ");
}

std::string changeOf(const Table& table, const Row& before, const Row& now, practice::Display display) {
  std::vector<std::string> texts;
  for (std::size_t i = 0; i < now.size(); ++i) {
    if (before[i] == now[i] || names(table, i) || isAmong(table.columns[i].name, kNoOrder)) continue;
    const auto said = [&](const takeoff::Cell& cell) {
      const std::string text = cellText(cell, table.columns[i], display);
      return text.empty() ? std::string("none") : text;
    };
    texts.push_back(table.columns[i].name + " " + said(before[i]) + " → " + said(now[i]));
  }
  return base::joined(texts, "; ");
}

/// Rows by their names; of those that are named alike the first.
std::map<std::string, const Row*> rowsOf(const Table* table, practice::Display display) {
  std::map<std::string, const Row*> rows;
  if (table == nullptr) return rows;
  for (const Row& row : table->rows) rows.emplace(nameOf(*table, row, display), &row);
  return rows;
}

/// One list's changes. Either may lack: it has no rows.
std::string listChanges(const Table* before, const Table* now, practice::Display display, int columns) {
  const Table& table = now != nullptr ? *now : *before;
  const bool alike = before == nullptr || now == nullptr || before->columns.size() == now->columns.size();
  if (!alike) return {};
  const auto were = rowsOf(before, display);
  const auto are = rowsOf(now, display);
  std::string out;
  const auto say = [&](const std::string& mark, const std::string& name, const std::string& rest) {
    out += wrapped(mark + name + (rest.empty() ? "" : ": " + rest), columns, 2);
  };
  for (const auto& [name, row] : are) {
    const auto was = were.find(name);
    if (was == were.end()) {
      say("new: ", name, restOf(table, *row, display));
    } else if (const std::string change = changeOf(table, *was->second, *row, display); !change.empty()) {
      say("", name, change);
    }
  }
  for (const auto& [name, row] : were) {
    if (are.count(name) == 0) say("gone: ", name, restOf(table, *row, display));
  }
  return out;
}

std::string verdictOf(const document::Document& doc, std::size_t opening) {
  const auto verdict = doc.findings.verdicts[opening];
  const check::Finding* worst = check::worstOf(doc.findings.openings[opening]);
  const bool why = verdict != check::Verdict::Ready && worst != nullptr;
  return std::string(check::wordsFor(verdict)) + ", " + check::wordsFor(doc.findings.bases[opening]) +
         (why ? ": " + worst->say : "");
}

std::map<std::string, std::string> verdictsOf(const document::Document& doc) {
  std::map<std::string, std::string> verdicts;
  for (std::size_t i = 0; i < doc.job.openings.size(); ++i) verdicts[doc.job.openings[i].name] = verdictOf(doc, i);
  return verdicts;
}

std::vector<Table> listsOf(const document::Document& doc) {
  return takeoff::allLists(doc.job, *doc.practice, doc.plan, doc.findings);
}

const Table* tableNamed(const std::vector<Table>& tables, const std::string& name) {
  const auto found = std::find_if(tables.begin(), tables.end(), [&](const Table& table) { return table.name == name; });
  return found == tables.end() ? nullptr : &*found;
}

}  // namespace

std::string verdictChanges(const document::Document& before, const document::Document& now, int columns) {
  const auto were = verdictsOf(before);
  std::string out;
  for (const auto& [name, verdict] : verdictsOf(now)) {
    const auto was = were.find(name);
    if (was != were.end() && was->second == verdict) continue;
    out += wrapped(name + ": " + verdict, columns, 2);
    if (was != were.end()) out += wrapped("before: " + was->second, columns, 4);
  }
  return out;
}

std::string changesText(const document::Document& before, const document::Document& now, int columns) {
  std::string out;
  const auto add = [&](const std::string& title, const std::string& changes) {
    if (!changes.empty()) out += (out.empty() ? "" : "\n") + title + "\n" + changes;
  };
  add("Verdicts", verdictChanges(before, now, columns));
  const auto were = listsOf(before);
  const auto are = listsOf(now);
  std::vector<Table> all = are;
  std::copy_if(were.begin(), were.end(), std::back_inserter(all),
               [&](const Table& table) { return tableNamed(are, table.name) == nullptr; });
  for (const Table& table : all) {
    if (isAmong(table.name, kLeftOut)) continue;
    add(table.title,
        listChanges(tableNamed(were, table.name), tableNamed(are, table.name), now.practice->display, columns));
  }
  return out;
}

int diff(const DiffOptions& options) {
  const auto before = loaded(options.before, options.how, document::Depth::Findings);
  const auto now = loaded(options.job, options.how, document::Depth::Findings);
  if (!before || !now) return kUnreadable;
  const std::string changes = changesText(*before, *now, std::min(columnsOfTerminal(), 100));
  const bool printed = printWords(changes.empty() ? "Nothing to order, to cut or to know has changed.\n" : changes);
  if (!printed) return kUnreadable;
  return changes.empty() ? kReady : kNotReady;
}

}  // namespace sillwright::cli
