// Spans of headers by the code's tables, through what is said of an opening: it is as wide as the span, or a millimetre
// wider. The tables were seen second-hand; each case names where.

#include <array>

#include "outside/limits.h"
#include "support/catch.h"

using namespace sillwright;
using namespace sillwright::testing;

namespace {

struct Cell {
  int feet, inches, jack_studs;

  [[nodiscard]] double mm() const { return (feet * 12 + inches) * kFromInches; }
};

/// What is said of a header over an opening so wide, with no short studs on it.
std::string saidOf(const job::Lintel& header, double opening) {
  job::Job job = simpleJob(job::UnitKind::FixedWindow, opening - 20, 1000, "us");
  job.openings[0].lintel = header;
  const double top = 900 + 1020 + header.depth + 2 * 45;
  job.walls[0].top = {{0, top}, {9000, top}};
  const auto findings = judged(job);
  const auto* finding = about(findings, "lintel span");
  return finding == nullptr ? std::string{} : finding->say;
}

/// Whether a column is among those that are wide enough; and the short studs that it asks for.
bool suffices(const std::string& said, const std::string& column) {
  return said.find(column) < said.find("too little");
}

std::string jackStuds(int count) {
  return count == 0 ? std::string{} : " (" + std::to_string(count) + " jack stud" + (count > 1 ? "s" : "") + " an end)";
}

void checkCell(const job::Lintel& header, const std::string& column, const Cell& cell) {
  CAPTURE(header.depth, header.plies, column);
  CHECK(suffices(saidOf(header, cell.mm()), "carrying " + column + jackStuds(cell.jack_studs)));
  CHECK_FALSE(suffices(saidOf(header, cell.mm() + 1), "carrying " + column));
}

}  // namespace

TEST_CASE("IRC 2021 Table R602.7(1), exterior walls, 30 psf, 24 ft, as given on a public reference sheet: all 66") {
  struct Row {
    job::Lintel header;
    std::array<Cell, 3> cells;
  };
  // 2-2x4 … 4-2x12; roof and ceiling, and one, and two centre-bearing floors: span, jack studs.
  const std::array<Row, 11> rows{{{{89, 38, 2}, {{{3, 1, 1}, {2, 6, 1}, {2, 1, 1}}}},
                                  {{140, 38, 2}, {{{4, 7, 1}, {3, 9, 1}, {3, 2, 2}}}},
                                  {{184, 38, 2}, {{{5, 9, 1}, {4, 10, 2}, {4, 0, 2}}}},
                                  {{235, 38, 2}, {{{6, 10, 2}, {5, 8, 2}, {4, 9, 2}}}},
                                  {{286, 38, 2}, {{{8, 1, 2}, {6, 8, 2}, {5, 7, 2}}}},
                                  {{184, 38, 3}, {{{7, 3, 1}, {6, 0, 1}, {5, 0, 2}}}},
                                  {{235, 38, 3}, {{{8, 7, 1}, {7, 2, 2}, {5, 11, 2}}}},
                                  {{286, 38, 3}, {{{10, 1, 2}, {8, 5, 2}, {7, 0, 2}}}},
                                  {{184, 38, 4}, {{{8, 4, 1}, {6, 11, 1}, {5, 9, 1}}}},
                                  {{235, 38, 4}, {{{9, 11, 1}, {8, 3, 2}, {6, 10, 2}}}},
                                  {{286, 38, 4}, {{{11, 8, 1}, {9, 8, 2}, {8, 1, 2}}}}}};
  const std::array<const char*, 3> carries{"roof and ceiling", "roof, ceiling and one centre-bearing floor",
                                           "roof, ceiling and two centre-bearing floors"};
  for (const Row& row : rows) {
    for (std::size_t i = 0; i < carries.size(); ++i) {
      checkCell(row.header, std::string(carries[i]) + ", 30 psf of snow, a building 24 ft wide", row.cells[i]);
    }
  }
}

TEST_CASE("code change RB104-09/10, Table R602.7.1, as given on a public document page: single headers, 9 spans") {
  struct Row {
    job::Lintel header;
    const char* column;
    Cell cell;
  };
  const job::Lintel one_2x8{184, 38, 1};
  const job::Lintel one_2x10{235, 38, 1};
  for (const Row& row : {Row{one_2x8, "20 psf of snow, a building 28 ft wide", {4, 2, 0}},
                         Row{one_2x8, "30 psf of snow, a building 28 ft wide", {3, 8, 0}},
                         Row{one_2x8, "50 psf of snow, a building 28 ft wide", {3, 0, 0}},
                         Row{one_2x10, "20 psf of snow, a building 28 ft wide", {5, 3, 0}},
                         Row{one_2x10, "30 psf of snow, a building 28 ft wide", {4, 8, 0}},
                         Row{one_2x10, "50 psf of snow, a building 28 ft wide", {3, 11, 0}},
                         Row{one_2x8, "20 psf of snow, a building 20 ft wide", {4, 10, 0}},
                         Row{one_2x10, "20 psf of snow, a building 20 ft wide", {6, 2, 0}},
                         Row{{286, 38, 1}, "20 psf of snow, a building 20 ft wide", {7, 6, 0}}}) {
    checkCell(row.header, std::string("roof and ceiling, ") + row.column, row.cell);
  }
}
