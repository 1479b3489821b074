#include "job/tables.h"

namespace sillwright::job {

const TableRule& fileTable() {
  static const auto kKey = [](std::string_view name, Holds holds, const TableRule& table, bool required,
                              std::string_view about) {
    holds.table = &table;
    return KeyRule{name, holds, required, about};
  };
  static const TableRule kFile{
      "",
      {
          kKey("job", table(), tableOf<Job>(), true, "The job as a whole."),
          kKey("wall", tables(kMostWalls), tableOf<Wall>(), true,
               "The walls, each drawn as seen from outside: x to the right from its left end, z up from the underside "
               "of the bottom plate."),
          kKey("opening", tables(kMostOpenings), tableOf<Opening>(), false, "The framed openings."),
          kKey("stock", table(), tableOf<Stock>(), false,
               "What this crew has at hand. A list left out: the practice's usual stock."),
      }};
  return kFile;
}

}  // namespace sillwright::job
