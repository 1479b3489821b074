// What changed between two revisions of a job: verdicts, units to order, what is bought and cut.

#include <algorithm>
#include <iterator>
#include <map>

#include "cli/files.h"
#include "cli/text.h"
#include "cli/verbs.h"
#include "takeoff/order.h"

namespace sillwright::cli {
namespace {

using takeoff::Table;
using Texts = std::vector<std::string>;

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
  if (table.columns.front().name == takeoff::column::kOpening) return column == 0;  // named by its opening alone
  const std::string& name = table.columns[column].name;
  const bool by_length = table.name == "tapes and sealing" && name.starts_with("length");  // there it is an amount
  return !by_length && table.columns[column].holds != takeoff::Holds::Area && !isAmong(name, kAmounts);
}

/// What a list says of each thing, column by column, by what the thing is; of those that are named alike the first.
std::map<std::string, Texts> saidIn(const Table* table, practice::Display display) {
  std::map<std::string, Texts> said;
  for (std::size_t row = 0; table != nullptr && row < table->rows.size(); ++row) {
    std::string name;
    Texts texts(table->columns.size());
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const takeoff::Column& column = table->columns[i];
      const takeoff::Cell& cell = table->rows[row][i];
      const std::string text = cellText(cell, column, display) +
                               (std::holds_alternative<double>(cell)
                                    ? takeoff::headingOf(column, display).substr(column.name.size())  // its unit
                                    : std::string{});
      if (!names(*table, i))
        texts[i] = isAmong(column.name, kNoOrder) ? std::string{} : text;
      else if (!text.empty())
        name += (name.empty() ? "" : ", ") + (column.holds == takeoff::Holds::Text ? text : column.name + " " + text);
    }
    said.emplace(std::move(name), std::move(texts));
  }
  return said;
}

/// One list's changes. Either may lack: it has no rows.
std::string listChanges(const Table* before, const Table* now, practice::Display display, int columns) {
  const Table& table = now != nullptr ? *now : *before;
  if (before != nullptr && now != nullptr && before->columns.size() != now->columns.size())  // no column has its like
    return listChanges(before, nullptr, display, columns) + listChanges(nullptr, now, display, columns);
  const auto were = saidIn(before, display);
  const auto are = saidIn(now, display);
  std::string out;
  const auto say = [&](const std::string& name, const std::string& rest) {
    out += wrapped(name + (rest.empty() ? "" : ": " + rest), columns, 2);
  };
  const auto all = [&](const Texts& texts) {
    Texts told;
    for (std::size_t i = 0; i < texts.size(); ++i) {
      if (!texts[i].empty() && !table.columns[i].detail) told.push_back(table.columns[i].name + " " + texts[i]);
    }
    return base::joined(told, ", ");
  };
  const auto changes = [&](const Texts& from, const Texts& to) {
    const auto orNone = [](const std::string& text) { return text.empty() ? "none" : text; };
    Texts told;
    for (std::size_t i = 0; i < to.size(); ++i) {
      if (from[i] != to[i]) told.push_back(table.columns[i].name + " " + orNone(from[i]) + " → " + orNone(to[i]));
    }
    return base::joined(told, "; ");
  };
  for (const auto& [name, texts] : are) {
    const auto was = were.find(name);
    if (was == were.end())
      say("new: " + name, all(texts));
    else if (const std::string change = changes(was->second, texts); !change.empty())
      say(name, change);
  }
  for (const auto& [name, texts] : were) {
    if (are.count(name) == 0) say("gone: " + name, all(texts));
  }
  return out;
}

std::map<std::string, std::string> verdictsOf(const document::Document& doc) {
  std::map<std::string, std::string> verdicts;
  for (std::size_t i = 0; i < doc.job.openings.size(); ++i) {
    const auto verdict = doc.findings.verdicts[i];
    const check::Finding* worst = check::worstOf(doc.findings.openings[i]);
    const bool why = verdict != check::Verdict::Ready && worst != nullptr;  // a unit that is ready needs no reason
    verdicts[doc.job.openings[i].name] = std::string(check::wordsFor(verdict)) + ", " +
                                         check::wordsFor(doc.findings.bases[i]) + (why ? ": " + worst->say : "");
  }
  return verdicts;
}

}  // namespace

std::string verdictChanges(const document::Document& before, const document::Document& now, int columns) {
  const auto were = verdictsOf(before);
  std::string out;
  for (const auto& [name, verdict] : verdictsOf(now)) {
    const auto was = were.find(name);
    if (was != were.end() && was->second == verdict) continue;  // as it was
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
  const auto listsOf = [](const document::Document& doc) {
    return takeoff::allLists(doc.job, *doc.practice, doc.plan, doc.findings);
  };
  const auto were = listsOf(before);
  const auto are = listsOf(now);
  // Lists are matched by their names: one that has no rows may lack on either side.
  for (const std::string& name : takeoff::listNames()) {
    const auto named = [&](const std::vector<Table>& all) {
      const auto found = std::find_if(all.begin(), all.end(), [&](const Table& table) { return table.name == name; });
      return found == all.end() ? nullptr : &*found;
    };
    const Table* was = named(were);
    const Table* is = named(are);
    if ((was == nullptr && is == nullptr) || isAmong(name, kLeftOut)) continue;
    add((is != nullptr ? is : was)->title, listChanges(was, is, now.practice->display, columns));
  }
  return out;
}

int diff(const DiffOptions& options) {
  const auto before = loaded(options.before, options.how, document::Depth::Findings);
  const auto now = loaded(options.now, options.how, document::Depth::Findings);
  const std::string changes = changesText(before, now, columnsOfTerminal());
  printWords(changes.empty() ? "Nothing to order, to cut or to know has changed.\n" : changes);
  return changes.empty() ? kReady : kNotReady;  // 1, as of other programs that compare
}

}  // namespace sillwright::cli
