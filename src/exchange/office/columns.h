/// What the columns of another program's table are, by their headings: a table of usual names, and a person's answers.
///
/// A heading that is no usual name is passed over and told; one that is nearly a usual name, or that may mean two
/// things, is asked about. Nothing is guessed.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "exchange/office/figures.h"
#include "exchange/office/grid.h"

namespace sillwright::exchange {

struct Column {
  std::string heading;  ///< As it stands there; with that of its group before it.
  base::Place at;
  std::string_view ours;  ///< Empty: not understood.
  std::optional<LengthUnit> unit;
  std::string asks;      ///< What is to be answered before the table is read; empty: nothing.
  bool in_feet = false;  ///< Some of its fields are in feet and inches: what a bare number is there isn't sure.
};

/// "Their name=ours", as a person says it.
struct Answer {
  std::string theirs;
  std::string ours;  ///< Empty: passed over.
  bool used = false;
};
[[nodiscard]] base::Result<std::vector<Answer>> answersIn(const std::vector<std::string>& said, const char* option);

struct Heading {
  std::size_t row = 0;  ///< Of the grid; below it are the table's.
  std::vector<Column> columns;

  /// Index of a column of ours.
  [[nodiscard]] std::optional<std::size_t> find(std::string_view ours) const {
    for (std::size_t i = 0; i < columns.size(); ++i) {
      if (columns[i].ours == ours) return i;
    }
    return std::nullopt;
  }
};

/// How many of a row's fields are terms; for readGrid.
[[nodiscard]] CountNames namesOf(Terms terms, const std::vector<Answer>& answers);

/// The heading of a grid; empty where no row has names. Answers go before terms.
[[nodiscard]] std::optional<Heading> headingOf(const Grid& grid, Terms terms, std::vector<Answer>& answers);

}  // namespace sillwright::exchange
