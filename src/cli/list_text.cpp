#include "cli/list_text.h"

#include <algorithm>

#include "check/say.h"
#include "cli/table.h"
#include "job/words.h"
#include "practice/display.h"

namespace sillwright::cli {
namespace {

using takeoff::Table;

std::string cellText(const takeoff::Cell& cell, const takeoff::Column& column, practice::Display display) {
  if (const auto* text = std::get_if<std::string>(&cell)) return *text;
  const auto* number = std::get_if<double>(&cell);
  if (number == nullptr) return {};
  if (column.holds == takeoff::Holds::Length && display == practice::Display::InchFractions) {
    return practice::showLength(*number, display);
  }
  return check::number(*number, column.decimals);
}

std::string spaces(std::size_t count) {
  return std::string(count, ' ');
}

/// Text to the left, numbers to the right of their column.
std::string inLine(const Table& table, const std::vector<std::vector<std::string>>& cells,
                   const std::vector<std::size_t>& widths) {
  std::string out;
  const auto addRow = [&](const auto& textOf) {
    std::string line;
    for (std::size_t i = 0; i < widths.size(); ++i) {
      const std::string text = textOf(i);
      const std::string pad = spaces(widths[i] - job::countCharacters(text));
      line += "  " + (table.columns[i].holds == takeoff::Holds::Text ? text + pad : pad + text);
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + "\n";
  };
  addRow([&](std::size_t i) { return table.columns[i].name; });
  for (const auto& row : cells) addRow([&](std::size_t i) { return row[i]; });
  return out;
}

/// The first column's value, then the others after their names.
std::string rowByRow(const Table& table, const std::vector<std::vector<std::string>>& cells, int columns) {
  std::string out;
  for (const auto& row : cells) {
    std::string said;
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (row[i].empty()) continue;
      if (!said.empty()) said += " · ";
      said += table.columns[i].name + " " + row[i];
    }
    std::string text = wrapped(said, columns, 4);
    text.erase(0, 2);  // the first line stands out by two
    out += text;
  }
  return out;
}

}  // namespace

std::string listText(const Table& table, practice::Display display, int columns) {
  columns = std::max(columns, 32);
  std::vector<std::size_t> widths;
  for (const auto& column : table.columns) widths.push_back(job::countCharacters(column.name));
  std::vector<std::vector<std::string>> cells;
  for (const auto& row : table.rows) {
    auto& texts = cells.emplace_back();
    for (std::size_t i = 0; i < row.size(); ++i) {
      texts.push_back(cellText(row[i], table.columns[i], display));
      widths[i] = std::max(widths[i], job::countCharacters(texts.back()));
    }
  }
  std::size_t width = 0;
  for (const std::size_t one : widths) width += one + 2;
  std::string out = wrapped(table.title, columns, 0);
  if (!cells.empty()) {
    out += width <= static_cast<std::size_t>(columns) ? inLine(table, cells, widths) : rowByRow(table, cells, columns);
  }
  for (const auto& note : table.notes) out += wrapped(note, columns, 2);
  return out;
}

}  // namespace sillwright::cli
