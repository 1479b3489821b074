/// Fields that are typed into: one look and one way of working for lengths and names.
#pragma once

#include <string>
#include <string_view>

#include "view/panels/panels.h"

namespace sillwright::view {

/// A field at the cursor, with what is being typed into it, else `value`, at its right edge. `strong`: the value is a
/// person's own, not the file's.
Response fieldItem(const Ui& ui, const Typing& typing, std::string_view name, ImVec2 size, const std::string& value,
                   const FieldOf& what, bool strong = false, bool quiet = false);

/// A label at the left and a field at the right edge of the panel. `value` is shown while nothing is being typed,
/// quietly where it is none of the job's. Answers whether the field was pressed.
bool typedRow(const Ui& ui, const Typing& typing, std::string_view label, const std::string& value, const FieldOf& what,
              bool quiet = false);
inline bool typedRow(const Panel& panel, std::string_view label, const std::string& value, const FieldOf& what,
                     bool quiet = false) {
  return typedRow(panel.ui, panel.typing, label, value, what, quiet);
}
/// The same for a dimension of the job, with its bounds on hover.
void dimensionRow(const Panel& panel, std::string_view label, const Dimension& dimension);

}  // namespace sillwright::view
