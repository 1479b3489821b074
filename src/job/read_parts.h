/// Inside the room: the tables of a job file whose reading is more than their description.
#pragma once

#include "job/job.h"
#include "job/toml_table.h"

namespace sillwright::job {

void readWall(const TableReader& table, Wall& wall);

/// [job], and [stock] where it is there.
void readHead(const TableReader& file, Job& job);

}  // namespace sillwright::job
