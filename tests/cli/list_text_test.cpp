// Lists on a terminal.

#include <sstream>

#include "base/words.h"
#include "cli/text.h"
#include "support/catch.h"

using namespace sillwright;

namespace {

takeoff::Table bars() {
  takeoff::Table table{"bars", "Bars", {}, {}, {"A note that is itself a good deal longer than a phone is wide."}};
  table.columns = {{"bars", takeoff::Holds::Number},
                   {"stock", takeoff::Holds::Length, 1},
                   {"where", takeoff::Holds::Text, 0, true},
                   {"pieces", takeoff::Holds::Lengths}};
  table.rows = {{12.0, 6000.0, "shed", "2 × 2305 + 1200 + 177.5"}, {1.0, 2400.0, takeoff::Cell{}, takeoff::Cell{}}};
  return table;
}

}  // namespace

TEST_CASE("columns stand in line, and a last one of text is broken where the line ends") {
  CHECK(cli::listText(bars(), practice::Display::Millimetres, 34) ==
        "Bars\n"
        "  bars  stock mm  pieces mm\n"
        "    12      6000  2 × 2305 + 1200\n"
        "                  + 177.5\n"
        "     1      2400\n"
        "  A note that is itself a good\n"
        "  deal longer than a phone is\n"
        "  wide.\n");
}

TEST_CASE("lengths are in the practice's units, numbers are not") {
  auto table = bars();
  table.rows = {{12.0, 2438.4, "shed", "96"}};
  table.notes.clear();
  CHECK(cli::listText(table, practice::Display::InchFractions, 72) ==
        "Bars\n"
        "  bars  stock in  pieces in\n"
        "    12        96  96\n");
}

TEST_CASE("a table that is too wide is set row by row, no line wider than the terminal") {
  auto table = bars();
  for (int i = 0; i < 6; ++i) {
    table.columns.push_back({"column " + std::to_string(i), takeoff::Holds::Number});
    for (auto& row : table.rows) row.push_back(double(i));
  }
  for (const int columns : {32, 40, 72, 120}) {
    std::istringstream lines(cli::listText(table, practice::Display::Millimetres, columns));
    std::string line;
    while (std::getline(lines, line)) CHECK(base::countCharacters(line) <= static_cast<std::size_t>(columns));
  }
  const auto narrow = cli::listText(table, practice::Display::Millimetres, 40);
  CHECK(narrow.find("  bars: 12 · stock mm: 6000 · pieces\n    mm: 2 × 2305 + 1200 + 177.5 ·") != std::string::npos);
  CHECK(narrow.find("where") == std::string::npos);
}
