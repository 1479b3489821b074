#include "job/read_parts.h"

namespace sillwright::job {
namespace {

void readLintel(const TableReader& table, Lintel& lintel) {
  table.number("depth", lintel.depth);
  table.number("thickness", lintel.thickness);
  table.whole("plies", lintel.plies);
}

void readFrame(const TableReader& table, FrameSection& frame) {
  table.number("depth", frame.depth);
  table.number("face", frame.face);
}

void readReveal(const TableReader& table, Reveal& reveal) {
  table.number("thickness", reveal.thickness);
  table.number("depth", reveal.depth);
}

void readGlass(const TableReader& table, Glass& glass) {
  table.number("thickness", glass.thickness);
  table.whole("panes", glass.panes);
  table.truth("safety", glass.safety);
}

void readUnit(const TableReader& table, Unit& unit) {
  table.word("kind", unit.kind);
  table.number("width", unit.width);
  table.number("height", unit.height);
  table.table("frame", unit.frame, readFrame);
  table.table("reveal", unit.reveal, readReveal);
  table.number("fin", unit.fin);
  table.table("glass", unit.glass, readGlass);
  table.number("mass", unit.mass_kg);
  table.word("flashing", unit.flashing);
  table.word("hand", unit.hand);
  table.text("mesh", unit.mesh);
  unit.mesh_place = table.placeOf("mesh");
}

}  // namespace

void readOpening(const TableReader& table, Opening& opening) {
  opening.place = table.place();
  table.text("name", opening.name);
  table.number("left", opening.left);
  table.number("sill", opening.sill);
  table.number("width", opening.width);
  table.number("height", opening.height);
  table.word("room", opening.room);
  table.table("lintel", opening.lintel, readLintel);
  table.table("unit", [&](const TableReader& unit) { readUnit(unit, opening.unit); });
  table.table("measured", opening.measured, readMeasured);
  table.table("installed", opening.installed, readInstalled);
}

}  // namespace sillwright::job
