#include "job/read_parts.h"

namespace sillwright::job {
namespace {

StandardErrors readStandardErrors(const TableReader& table) {
  StandardErrors errors;
  table.number("distance", errors.distance);
  table.number("diagonal", errors.diagonal);
  table.number("level", errors.level);
  return errors;
}

void readBy(const TableReader& table, std::optional<ReadBy>& by) {
  const auto [node, holds, path] = table.at("by");
  if (node == nullptr) return;
  if (node->is_table()) {
    table.table("by", [&](const TableReader& inner) { by = readStandardErrors(inner); });
  } else if (const auto index = readWord(table.mistakes(), *node, *holds, path)) {
    by = static_cast<Instrument>(*index);
  }
}

}  // namespace

void readMeasured(const TableReader& table, Measured& measured) {
  table.readings("widths", measured.widths);
  table.readings("heights", measured.heights);
  table.readings("diagonals", measured.diagonals);
  table.number("sill_fall", measured.sill_fall);
  table.readings("lean", measured.lean);
  table.readings("tilt", measured.tilt);
  table.readings("wall_depth", measured.wall_depth);
  readBy(table, measured.by);
}

void readInstalled(const TableReader& table, Installed& installed) {
  table.date("date", installed.date);
  table.readings("diagonals", installed.diagonals);
  table.number("sill_fall", installed.sill_fall);
  table.readings("lean", installed.lean);
  table.truth("opens", installed.opens);
  table.truth("locks", installed.locks);
}

}  // namespace sillwright::job
