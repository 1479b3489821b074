#include "job/read_parts.h"

namespace sillwright::job {
namespace {

constexpr double kRounding = 1e-6;  // mm that sums of written lengths may be off

/// Notes where the line along the top doesn't run from end to end, always to the right.
void checkRun(const TableReader& table, const toml::array& array, const Wall& wall) {
  const Path top{&table.path(), "top"};
  const auto note = [&](std::size_t i, const std::string& must) {
    const Path point{&top, {}, i};
    table.mistakes().add(placeOf((*array[i].as_array())[0]), {&point, {}, 0},
                         "must be " + must + "; found " + toText(wall.top[i].x));
  };
  if (wall.top.front().x != 0) note(0, "0, the wall's left end");
  for (std::size_t i = 1; i < wall.top.size(); ++i) {
    const double least = wall.top[i - 1].x + kLeastBetweenCorners;
    if (wall.top[i].x < least - kRounding) note(i, "at least " + toText(least) + ", 1 mm past the x before it");
  }
  const bool length_known = wall.length > 0;
  if (length_known && wall.top.back().x != wall.length) {
    note(wall.top.size() - 1, toText(wall.length) + ", the wall's length");
  }
}

}  // namespace

void readWall(const TableReader& table, Wall& wall) {
  table.read(wall);
  if (wall.top.empty()) return;
  const auto* array = table.at("top")->as_array();
  if (array == nullptr) {
    wall.top.push_back({wall.length, wall.top.front().z});
  } else if (wall.top.size() == array->size()) {
    checkRun(table, *array, wall);
  }
}

void readHead(const TableReader& file, Job& job) {
  file.value("job", job);
  file.value("stock", job.stock);
}

}  // namespace sillwright::job
