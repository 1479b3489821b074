#include "job/read_parts.h"

namespace sillwright::job {

void readStock(const TableReader& table, Stock& stock) {
  table.numbers("packers", stock.packers);
  table.texts("screws", stock.screws);
  stock.screws_place = table.placeOf("screws");
  table.numbers("rolls", stock.rolls);
  table.number("roll_length", stock.roll_length);
  table.numbers("timber", stock.timber);
}

}  // namespace sillwright::job
