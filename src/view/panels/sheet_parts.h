/// The parts that the opening sheet is put together from.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "practice/figure.h"
#include "view/panels/panels.h"

namespace sillwright::view {

/// What a row tells when the pointer or the keyboard is on it.
struct RowNote {
  std::string title;
  std::string body;
  std::string source;
};

/// "limit 5 mm", its source: a rule as a note. Empty where the practice names no value, which is said.
[[nodiscard]] RowNote noteOf(const practice::Rule& rule, practice::Display display);
/// A label at the left and a value at the right edge, the value wrapped below where both don't fit. With a note the row
/// is an item of its own.
void row(const Panel& panel, std::string_view label, std::string_view value,
         const std::optional<RowNote>& note = std::nullopt);

/// How many times as large deviations are drawn, to be slid or stepped.
void deviationSlider(const Panel& panel);

/// The sheet's groups.
void readFields(const Panel& panel, std::size_t opening);
void setOut(const Panel& panel, std::size_t opening);
void asMeasured(const Panel& panel, std::size_t opening);
void packing(const Panel& panel, std::size_t opening);
void fixing(const Panel& panel, std::size_t opening);
void findings(const Panel& panel, std::size_t opening);
/// A finding's figures and source, beside what names it.
void findingCard(const Panel& panel, const Response& beside, const check::Finding& finding);
/// The last edit, to be undone.
void lastEdit(const Panel& panel);

}  // namespace sillwright::view
