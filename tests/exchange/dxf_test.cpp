// A job as DXF, read back by pairs of code and value (the format's reference, release 12) and measured against the
// plan.

#include "exchange/model.h"

#include <map>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "support/demo_document.h"

using namespace sillwright;

namespace {

/// An entity with its codes; of one that repeats, the last.
struct Entity {
  std::string type;
  std::map<int, std::string> codes;
  [[nodiscard]] double number(int code) const { return std::stod(codes.at(code)); }
};

std::vector<Entity> entitiesOf(const std::string& text) {
  std::istringstream in(text);
  std::vector<Entity> all;
  std::string code, value;
  while (std::getline(in, code)) {
    REQUIRE(std::getline(in, value));
    if (std::stoi(code) == 0)
      all.push_back({value, {}});
    else
      all.back().codes[std::stoi(code)] = value;
  }
  return all;
}

}  // namespace

TEST_CASE("DXF: sections are opened and closed, layers are those of the table, blocks those of the dimensions") {
  const auto all = entitiesOf(exchange::dxf(testing::demoDocument("boatshed")));
  int open = 0;
  std::set<std::string> layers, used, blocks, shown;
  for (const Entity& each : all) {
    open += (each.type == "SECTION") - (each.type == "ENDSEC");
    REQUIRE((open == 0 || open == 1));
    if (each.type == "LAYER") layers.insert(each.codes.at(2));
    if (each.codes.count(8) == 1) used.insert(each.codes.at(8));
    if (each.type == "BLOCK") CHECK(blocks.insert(each.codes.at(2)).second);
    if (each.type == "DIMENSION") shown.insert(each.codes.at(2));
  }
  CHECK(open == 0);
  CHECK(all.back().type == "EOF");
  CHECK(used == layers);
  CHECK(blocks == shown);
}

TEST_CASE("DXF: dimensions span what they say, and each wall and opening is dimensioned and named") {
  const auto doc = testing::demoDocument("boatshed");
  std::multiset<std::string> said, words;
  for (const Entity& each : entitiesOf(exchange::dxf(doc))) {
    if (each.type == "TEXT") words.insert(each.codes.at(1));
    if (each.type != "DIMENSION") continue;
    const double span = each.number(50) == 90 ? each.number(24) - each.number(23) : each.number(14) - each.number(13);
    CHECK(std::stod(each.codes.at(1)) == Approx(span).margin(0.051));
    said.insert(each.codes.at(1));
  }
  for (const auto& wall : doc.job.walls) {
    CHECK(said.count(std::to_string(static_cast<int>(wall.length))) > 0);
    CHECK(words.count(wall.name) == 2);  // on the floor plan and over its elevation
  }
  for (const auto& opening : doc.job.openings) {
    CHECK(said.count(std::to_string(static_cast<int>(opening.width))) > 0);
    CHECK(said.count(std::to_string(static_cast<int>(opening.height))) > 0);
    CHECK(words.count(opening.name) == 2);
  }
}

TEST_CASE("DXF: a name of any script is in the file by its code page, or escaped") {
  auto doc = testing::demoDocument("workshop-window");
  doc.job.walls[0].name = "Süd %%c Łódź 🏠";
  const std::string text = exchange::dxf(doc);
  CHECK(text.find("S\xFC"
                  "d \\U+0025\\U+0025c \\U+0141\xF3"
                  "d\\U+017A ?") != std::string::npos);
}
