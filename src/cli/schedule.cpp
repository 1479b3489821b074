// A window schedule in: CSV to the openings of a job file.

#include <cstdio>
#include <fstream>
#include <sstream>

#include "cli/files.h"
#include "cli/verbs.h"
#include "exchange/schedule.h"

namespace sillwright::cli {

int schedule(const ScheduleOptions& options) {
  const std::string name = options.csv.string();
  std::ifstream in(options.csv, std::ios::binary);
  std::ostringstream text;
  if (in.good() && in.peek() != std::ifstream::traits_type::eof()) text << in.rdbuf();
  if (!in.good()) {
    std::fprintf(stderr, "%s: could not be read, or is empty\n", name.c_str());
    return kUnreadable;
  }
  const auto read = exchange::readSchedule(text.str(), name, options.wall);
  if (!read.ok()) {
    for (const auto& error : read.errors) std::fprintf(stderr, "%s\n", job::toLine(error).c_str());
    return kUnreadable;
  }
  return printAll(exchange::openingsToml(*read.value)) ? kReady : kUnreadable;
}

}  // namespace sillwright::cli
