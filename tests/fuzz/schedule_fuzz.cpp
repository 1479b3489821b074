// Any bytes as a window schedule: rows and columns that come back as they were, openings that a job file can hold.
#include "exchange/csv.h"
#include "fuzz/hold.h"
#include "job/read.h"
#include "job/rewrite.h"
#include "support/schedules.h"

using namespace sillwright;

namespace {

void holdRows(const std::vector<exchange::CsvRow>& rows) {
  std::string again;
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) again += (i > 0 ? "," : "") + exchange::csvField(row[i].text);
    again += "\r\n";
  }
  const auto read = exchange::readCsv(again, "again.csv");
  fuzz::hold(read.ok() && read.value->size() == rows.size(), "rows that are written come back");
  for (std::size_t r = 0; r < rows.size(); ++r) {
    fuzz::hold((*read.value)[r].size() == rows[r].size(), "a row comes back as long as it was");
    for (std::size_t i = 0; i < rows[r].size(); ++i) {
      fuzz::hold((*read.value)[r][i].text == rows[r][i].text, "a field comes back as it was");
    }
  }
}

/// A job with the schedule's walls, and its openings as their text has them.
void holdOpenings(const exchange::Schedule& schedule) {
  job::Job job;
  job.title = job.practice = "x";
  for (const std::string& name : schedule.walls) {
    job.walls.emplace_back();
    job.walls.back().name = name;
    job.walls.back().length = 9'000;
    job.walls.back().top = {{0, 3'000}, {9'000, 3'000}};
  }
  const auto read = job::read(job::write(job) + exchange::openingsToml(schedule), "made.toml");
  fuzz::holdAnswer(read);
  job.openings = schedule.openings;
  fuzz::hold(read.ok() && job::sameValues(*read.value, job), "a schedule's openings stand in a job file");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const fuzz::InTime in_time;
  const auto bytes = fuzz::exactly(data, size);
  const auto rows = exchange::readCsv(fuzz::textOf(bytes), "fuzz.csv");
  fuzz::holdAnswer(rows);
  if (!rows.ok()) return 0;
  holdRows(*rows.value);
  for (const char* wall : {"", "north"}) {
    const auto read = testing::readSchedule(fuzz::textOf(bytes), "fuzz.csv", {wall, nullptr});
    fuzz::holdAnswer(read);
    if (read.ok()) holdOpenings(*read.value);
  }
  return 0;
}
