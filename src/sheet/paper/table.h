/// Inside the room: ruled tables whose cells wrap, and which continue on the next page.
#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "check/finding.h"
#include "sheet/paper/painter.h"

namespace sillwright::sheet {

struct Column {
  std::string title{};
  double width = 0;  ///< mm of paper; 0: what the others leave.
  Align align = Align::Left;
};
[[nodiscard]] inline Column left(std::string title, double width = 0) { return {std::move(title), width}; }
/// Of figures, so that they end under each other.
[[nodiscard]] inline Column right(std::string title, double width) { return {std::move(title), width, Align::Right}; }

struct Cell {
  Cell() = default;
  Cell(std::string words) : text(std::move(words)) {}  // NOLINT: cells are mostly texts
  Cell(const char* words) : text(words) {}             // NOLINT
  std::string text;
  bool bold = false;
  bool blank = false;                     ///< To be written in: in a box. Its row is as high as the table says.
  std::optional<check::Verdict> verdict;  ///< Its sign before the text.
  check::Basis basis = check::Basis::Measured;
};

using Cells = std::vector<Cell>;

/// A cell in bold letters.
[[nodiscard]] Cell bold(std::string words);
/// A cell to be written in where it has no words.
[[nodiscard]] Cell written(std::string words);

struct Table {
  /// Without rows, `width` mm of paper wide.
  Table(double width, std::vector<Column> columns);

  std::vector<Column> columns;
  std::vector<Cells> rows;
  double least_row = 4.4;      ///< mm of paper.
  bool under_heading = false;  ///< Its heading's line is its upper rule.
  [[nodiscard]] double width() const;
};

/// Where a table ended: the y below it, and the first row without room (rows.size() if all had room).
struct TableEnd {
  double y = 0;
  std::size_t next = 0;
};

/// Draws the head and the rows from `first` up to `last` as far as they fit above `bottom`.
TableEnd drawTable(Painter& painter, Vec upper_left, double bottom, const Table& table, std::size_t first = 0,
                   std::size_t last = std::numeric_limits<std::size_t>::max());

/// Between columns of one table.
inline constexpr double kColumnGap = 6;
/// Draws the rows from `first` on in columns beside each other, evenly filled. It ends where the longest does.
TableEnd drawColumns(Painter& painter, Vec upper_left, double bottom, const Table& table, int columns,
                     std::size_t first = 0);

/// Draws a heading with lines to write on under it, if there is room for two lines.
void drawRemarks(Painter& painter, const Box& room);

/// Draws a small heading with a line under it. Returns the y at which its block begins.
double drawHeading(Painter& painter, Vec upper_left, double width, const std::string& words);

}  // namespace sillwright::sheet
