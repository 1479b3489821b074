#include <string>

#include "job/read_parts.h"
#include "job/rules.h"

namespace sillwright::job {
namespace {

/// One [x, z]; `holds` bounds the z.
std::optional<TopPoint> readTopPoint(Mistakes& mistakes, const toml::node& node, const Holds& holds, const Path& path) {
  const auto* point = node.as_array();
  if (point == nullptr || point->size() != 2) {
    mistakes.add(placeOf(node), path, "must be a point [x, z]; found " + describe(node));
    return std::nullopt;
  }
  const auto x = readNumber(mistakes, (*point)[0], mm(0, kLongestWall), {&path, {}, 0});
  const auto z = readNumber(mistakes, (*point)[1], mm(holds.from, holds.to), {&path, {}, 1});
  if (!x || !z) return std::nullopt;
  return TopPoint{*x, *z};
}

/// Notes where the line along the top doesn't run from end to end, always to the right.
void checkRun(Mistakes& mistakes, const toml::array& array, const Wall& wall, const Path& path) {
  const auto note = [&](std::size_t i, const std::string& must) {
    const Path point{&path, {}, i};
    mistakes.add(placeOf((*array[i].as_array())[0]), {&point, {}, 0},
                 "must be " + must + "; found " + toText(wall.top[i].x));
  };
  if (wall.top.front().x != 0) note(0, "0, the wall's left end");
  for (std::size_t i = 1; i < wall.top.size(); ++i) {
    if (wall.top[i].x <= wall.top[i - 1].x) note(i, "more than " + toText(wall.top[i - 1].x) + ", the x before it");
  }
  const bool length_known = wall.length > 0;
  if (length_known && wall.top.back().x != wall.length) {
    note(wall.top.size() - 1, toText(wall.length) + ", the wall's length");
  }
}

void readTop(const TableReader& table, Wall& wall) {
  const auto [node, holds, path] = table.at("top");
  if (node == nullptr) return;
  auto& mistakes = table.mistakes();
  const auto* array = node->as_array();
  if (array == nullptr) {
    if (const auto z = readNumber(mistakes, *node, *holds, path)) wall.top = {{0, *z}, {wall.length, *z}};
    return;
  }
  if (array->size() < 2 || array->size() > holds->most) return addWrongKind(mistakes, *node, *holds, path);
  wall.top.reserve(array->size());
  for (std::size_t i = 0; i < array->size(); ++i) {
    if (const auto point = readTopPoint(mistakes, (*array)[i], *holds, {&path, {}, i})) wall.top.push_back(*point);
  }
  if (wall.top.size() == array->size()) checkRun(mistakes, *array, wall, path);
}

void readStud(const TableReader& table, StudSection& stud) {
  table.number("depth", stud.depth);
  table.number("thickness", stud.thickness);
}

void readPlates(const TableReader& table, PlateCount& plates) {
  table.whole("top", plates.top);
  table.whole("bottom", plates.bottom);
}

void readCladding(const TableReader& table, Cladding& cladding) {
  table.number("thickness", cladding.thickness);
  table.number("cavity", cladding.cavity);
}

void readEave(const TableReader& table, Eave& eave) {
  table.number("soffit", eave.soffit);
  table.number("reach", eave.reach);
}

void readSupports(const TableReader& table, Supports& supports) {
  table.number("width", supports.width);
  table.number("load_kpa", supports.load_kpa);
}

}  // namespace

void readWall(const TableReader& table, Wall& wall) {
  wall.place = table.place();
  table.text("name", wall.name);
  table.number("length", wall.length);
  readTop(table, wall);
  table.table("stud", wall.stud, readStud);
  table.number("spacing", wall.spacing);
  table.table("plates", wall.plates, readPlates);
  table.number("lining", wall.lining);
  table.table("cladding", wall.cladding, readCladding);
  table.table("eave", wall.eave, readEave);
  table.text("timber", wall.timber);
  wall.timber_place = table.placeOf("timber");
  table.pair("at", wall.at_x, wall.at_y);
  table.number("turn", wall.turn_degrees);
  enum class Align { Heads };
  std::optional<Align> align;
  table.word("align", align);
  wall.align_heads = align == Align::Heads;
  table.table("supports", wall.supports, readSupports);
  table.number("drop", wall.drop);
}

}  // namespace sillwright::job
