/// Inside the room: the reader's parts, one a file of its own.
#pragma once

#include "job/job.h"
#include "job/toml_table.h"

namespace sillwright::job {

/// The `[job]` of the file.
void readJobTable(const TableReader& file, Job& job);

void readWall(const TableReader& table, Wall& wall);

/// Reads everything but the wall's index, which is for whoever knows all walls.
void readOpening(const TableReader& table, Opening& opening);

void readMeasured(const TableReader& table, Measured& measured);
void readInstalled(const TableReader& table, Installed& installed);
void readStock(const TableReader& table, Stock& stock);

}  // namespace sillwright::job
