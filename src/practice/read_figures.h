/// Inside the room: how figures are read, beside the values that the job's reader knows.
///
/// A figure is a table { value, unit, source, status, … }; a Measure may be { usual, least } of them, Bands an array of
/// them with a rising `up_to`, and ByClass a table of them under names. Internal: includes toml++.
#pragma once

#include "job/toml_table.h"
#include "practice/figure.h"

namespace sillwright::practice {

void readValue(const job::Entry& entry, Figure& into);
void readValue(const job::Entry& entry, Measure& into);
void readValue(const job::Entry& entry, Bands& into);
void readValue(const job::Entry& entry, ByClass& into);

}  // namespace sillwright::practice
