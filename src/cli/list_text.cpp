#include "cli/text.h"

#include <algorithm>

#include "base/words.h"
#include "words/length.h"

namespace sillwright::cli {
namespace {

using takeoff::Table;
using Texts = std::vector<std::vector<std::string>>;

/// Characters that a text at the end of a line wants at least, so as not to be broken into a ribbon.
constexpr std::size_t kLeastToBreak = 12;

bool isText(const takeoff::Column& column) {
  return column.holds == takeoff::Holds::Text || column.holds == takeoff::Holds::Lengths;
}

/// Text to the left, numbers to the right of their column; the last column's text is broken where the line ends.
std::string inLine(const std::vector<takeoff::Column>& shown, const Texts& cells,
                   const std::vector<std::size_t>& widths, int columns) {
  const std::size_t last = widths.size() - 1;
  std::string out;
  const auto addRow = [&](const auto& textOf) {
    std::string line;
    for (std::size_t i = 0; i < last; ++i) {
      const std::string text = textOf(i);
      const std::string pad(widths[i] - base::countCharacters(text), ' ');
      line += "  " + (isText(shown[i]) ? text + pad : pad + text);
    }
    const std::string text = textOf(last);
    if (text.empty()) {
      line.erase(line.find_last_not_of(' ') + 1);
      out += line + "\n";
      return;
    }
    const bool to_right = !isText(shown[last]);
    line += "  " + std::string(to_right ? widths[last] - base::countCharacters(text) : 0, ' ');
    const std::size_t hang = base::countCharacters(line);
    out += line + wrapped(text, columns, static_cast<int>(hang)).substr(hang);
  };
  addRow([&](std::size_t i) { return shown[i].name; });
  for (const auto& row : cells) addRow([&](std::size_t i) { return row[i]; });
  return out;
}

/// Each value after its column's name, but for a text that stands first: that is the row's own name.
std::string rowByRow(const std::vector<takeoff::Column>& shown, const Texts& cells, int columns) {
  std::string out;
  for (const auto& row : cells) {
    std::string said;
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (row[i].empty()) continue;
      if (!said.empty()) said += "\u00a0· ";
      const bool own_name = i == 0 && isText(shown[i]);
      said += (own_name ? "" : shown[i].name + ":\u00a0") + row[i];
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
  std::vector<takeoff::Column> shown;
  Texts cells(table.rows.size());
  std::vector<std::size_t> widths;
  std::size_t width = 0;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    takeoff::Column column = table.columns[i];
    if (column.detail) continue;
    column.name = takeoff::headingOf(column, display);
    std::size_t widest = base::countCharacters(column.name);
    for (std::size_t row = 0; row < cells.size(); ++row) {
      cells[row].push_back(cellText(table.rows[row][i], table.columns[i], display));
      widest = std::max(widest, base::countCharacters(cells[row].back()));
    }
    shown.push_back(column);
    widths.push_back(widest);
    width += widest + 2;
  }
  const bool breaks = !shown.empty() && isText(shown.back());
  const std::size_t needed = breaks ? width - widths.back() + std::min(widths.back(), kLeastToBreak) : width;
  std::string out = wrapped(table.title, columns, 0);
  if (!cells.empty()) {
    out += needed <= static_cast<std::size_t>(columns) ? inLine(shown, cells, widths, columns)
                                                       : rowByRow(shown, cells, columns);
  }
  for (const auto& note : table.notes) out += wrapped(note, columns, 2);
  return out;
}

}  // namespace sillwright::cli
