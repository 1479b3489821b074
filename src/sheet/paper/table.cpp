#include "sheet/paper/table.h"

#include <algorithm>
#include <cassert>

namespace sillwright::sheet {
namespace {

constexpr double kSide = 1.0;     // of a cell's text off its rules
constexpr double kAbove = 1.1;    // mm, off the rules over and under it
constexpr double kHeadRow = 4.4;  // as high as a row at least
constexpr double kSign = 2.6;     // size of a verdict's sign
constexpr Stroke kRule{pen::kHair};

Lettering letteringOf(const Column& column, bool bold) {
  return {.weight = bold ? Weight::Bold : Weight::Regular, .align = column.align};
}

double roomIn(const Column& column, const Cell& cell) {                  // mm for the words
  return column.width - 2 * kSide - (cell.verdict ? kSign + 1.0 : 0.0);  // 1 mm between sign and text
}

double heightOf(Painter& painter, const Table& table, const Cells& row, double least) {  // of its highest cell, mm
  assert(row.size() == table.columns.size());  // rows are made by hand, cell by cell
  double high = least;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const double text =
        painter.heightOf(row[i].text, roomIn(table.columns[i], row[i]), letteringOf(table.columns[i], row[i].bold));
    // The last line has no leading under it.
    high = std::max(high, text + 2 * kAbove - letter::kSmall * (kLeading - 1));
  }
  return high;
}

void drawRow(Painter& painter, Vec upper_left, const Table& table, const Cells& row, double high) {
  double x = upper_left.x;
  for (std::size_t i = 0; i < row.size(); ++i) {
    const Column& column = table.columns[i];
    const Cell& cell = row[i];
    if (cell.blank) painter.box(Box{x, upper_left.y, x + column.width, upper_left.y + high}.grown(-0.5), {pen::kFine});
    const Lettering how = letteringOf(column, cell.bold);
    double left = x + kSide;
    if (cell.verdict) {
      drawVerdict(painter, {left, upper_left.y + kAbove + how.capitals / 2}, kSign, *cell.verdict, cell.basis);
      left += kSign + 1.0;
    }
    painter.paragraph({left, upper_left.y + kAbove}, roomIn(column, cell), cell.text, how);
    x += column.width;
  }
}

}  // namespace

Cell bold(std::string words) {
  Cell cell{std::move(words)};
  cell.bold = true;
  return cell;
}

Cell written(std::string words) {
  Cell cell{std::move(words)};
  cell.blank = cell.text.empty();
  return cell;
}

Table::Table(double width, std::vector<Column> of) : columns(std::move(of)) {
  const double left = width - this->width();  // what is left goes to the column without a width
  for (Column& column : columns) {
    if (column.width == 0) column.width = left;
  }
}

double Table::width() const {
  double sum = 0;
  for (const Column& column : columns) sum += column.width;
  return sum;
}

TableEnd drawColumns(Painter& painter, Vec upper_left, double bottom, const Table& table, int columns,
                     std::size_t first) {
  TableEnd end{upper_left.y, first};
  for (; columns > 0 && end.next < table.rows.size(); --columns, upper_left.x += table.width() + kColumnGap) {
    const auto left = static_cast<std::size_t>(columns);
    const std::size_t share = (table.rows.size() - end.next + left - 1) / left;  // the last column is the short one
    const TableEnd column = drawTable(painter, upper_left, bottom, table, end.next, end.next + share);
    end = {std::max(end.y, column.y), column.next};  // what had no room is shared out anew among the next columns
  }
  return end;
}

TableEnd drawTable(Painter& painter, Vec upper_left, double bottom, const Table& table, std::size_t first,
                   std::size_t last) {
  TableEnd end{upper_left.y, first};
  Cells head;
  for (const Column& column : table.columns) head.push_back(bold(column.title));
  const double head_high = heightOf(painter, table, head, kHeadRow);
  if (end.y + head_high > bottom) return end;  // a head never stands without rows
  const double right = upper_left.x + table.width();
  drawRow(painter, upper_left, table, head, head_high);
  end.y += head_high;
  if (!table.under_heading) painter.line({upper_left.x, upper_left.y}, {right, upper_left.y}, {pen::kMedium});
  painter.line({upper_left.x, end.y}, {right, end.y}, {pen::kMedium});
  for (; end.next < std::min(last, table.rows.size()); ++end.next) {
    const double high = heightOf(painter, table, table.rows[end.next], table.least_row);
    if (end.y + high > bottom) break;  // a row isn't broken: it goes to the next page
    drawRow(painter, {upper_left.x, end.y}, table, table.rows[end.next], high);
    end.y += high;
    painter.line({upper_left.x, end.y}, {right, end.y}, kRule);
  }
  painter.line({upper_left.x, end.y}, {right, end.y}, {pen::kFine});
  return end;
}

void drawRemarks(Painter& painter, const Box& room) {
  constexpr double kFirst = 12, kPitch = 8;  // mm: as a hand writes
  if (room.height() < kFirst + kPitch) return;
  drawHeading(painter, {room.x0, room.y0}, room.width(), "Remarks");
  for (double y = room.y0 + kFirst; y <= room.y1; y += kPitch) painter.line({room.x0, y}, {room.x1, y}, {pen::kHair});
}

double drawHeading(Painter& painter, Vec upper_left, double width, const std::string& words) {
  painter.text({upper_left.x, upper_left.y + kHeadingLetters.capitals}, words, kHeadingLetters);
  const double line = upper_left.y + kHeadingLetters.capitals + 1.2;
  painter.line({upper_left.x, line}, {upper_left.x + width, line}, {pen::kBold});
  return line + 1.5;
}

}  // namespace sillwright::sheet
