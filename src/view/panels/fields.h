/// Fields that are typed into: one look and one way of working for lengths and names.
#pragma once

#include <string>
#include <string_view>

#include "view/panels/panels.h"

namespace sillwright::view {

/// The box of a field with its text at the right edge, and where the next character comes. `strong`: the text is a
/// person's own, not the file's.
void drawFieldBox(const Ui& ui, const Response& at, const std::string& words, bool focused, bool typing, bool strong);

/// A label at the left and a field at the right edge of the panel. `value` is shown while nothing is being typed.
void typedRow(const Ui& ui, const Typing& typing, std::string_view label, const std::string& value,
              const FieldOf& what);
inline void typedRow(const Panel& panel, std::string_view label, const std::string& value, const FieldOf& what) {
  typedRow(panel.ui, panel.typing, label, value, what);
}
/// The same for a dimension of the job, with its bounds on hover.
void dimensionRow(const Panel& panel, std::string_view label, const Dimension& dimension);

}  // namespace sillwright::view
