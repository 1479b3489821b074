// A job as an IFC4 model, read back by a strict reader of its own and measured against the scene.

#include "exchange/model.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <functional>
#include <map>
#include <set>
#include <sstream>

#include "support/demo_document.h"

using namespace sillwright;

namespace {

/// One line of the data: number, entity, and its values cut at the commas between them.
struct Line {
  std::string entity;
  std::vector<std::string> values;
};

std::vector<std::string> cutAtCommas(const std::string& text) {
  std::vector<std::string> parts(1);
  int deep = 0;
  bool quoted = false;
  for (const char c : text) {
    if (c == '\'') quoted = !quoted;
    if (!quoted) deep += (c == '(') - (c == ')');
    REQUIRE(deep >= 0);
    if (c == ',' && deep == 0 && !quoted)
      parts.emplace_back();
    else
      parts.back() += c;
  }
  REQUIRE(deep == 0);
  REQUIRE(!quoted);
  return parts;
}

/// "(a,b)" to a, b.
std::vector<std::string> listIn(const std::string& text) {
  REQUIRE(text.size() >= 2);
  REQUIRE(text.front() == '(');
  REQUIRE(text.back() == ')');
  return cutAtCommas(text.substr(1, text.size() - 2));
}

/// Strict: each instance on a line of its own, numbered upwards from 1, naming only those before it.
struct Model {
  std::vector<Line> lines{1};

  explicit Model(const std::string& text) {
    std::istringstream in(text);
    std::string line;
    std::getline(in, line);
    REQUIRE(line == "ISO-10303-21;");
    while (std::getline(in, line) && line != "DATA;") {
    }
    while (std::getline(in, line) && line != "ENDSEC;") {
      const std::string head = "#" + std::to_string(lines.size()) + "=";
      REQUIRE(line.rfind(head, 0) == 0);
      REQUIRE(line.substr(line.size() - 2) == ");");
      const auto open = line.find('(');
      Line read{line.substr(head.size(), open - head.size()),
                cutAtCommas(line.substr(open + 1, line.size() - open - 3))};
      REQUIRE(std::all_of(line.begin(), line.end(), [](char c) { return c >= ' ' && c <= '~'; }));
      requireBefore(line.substr(open));
      lines.push_back(std::move(read));
    }
    std::getline(in, line);
    REQUIRE(line == "END-ISO-10303-21;");
  }
  void requireBefore(const std::string& values) const {
    bool quoted = false;
    for (std::size_t i = 0; i < values.size(); ++i) {
      if (values[i] == '\'') quoted = !quoted;
      if (!quoted && values[i] == '#') REQUIRE(std::stoul(values.substr(i + 1)) < lines.size());
    }
  }
  [[nodiscard]] const Line& at(const std::string& reference) const {
    REQUIRE(reference.front() == '#');
    return lines.at(std::stoul(reference.substr(1)));
  }
  [[nodiscard]] std::vector<const Line*> all(const std::string& entity) const {
    std::vector<const Line*> found;
    for (const Line& line : lines) {
      if (line.entity == entity) found.push_back(&line);
    }
    return found;
  }
  [[nodiscard]] glm::dvec3 numbers(const std::string& list) const {
    const auto parts = listIn(list);
    return {std::stod(parts.at(0)), std::stod(parts.at(1)), parts.size() > 2 ? std::stod(parts[2]) : 0};
  }
  /// By the divergence theorem, of all bodies of triangles that a thing has, mm³.
  [[nodiscard]] double volumeOf(const Line& thing) const {
    double volume = 0;
    if (thing.values.at(6) == "$") return 0;
    for (const auto& shape : listIn(at(thing.values[6]).values.at(2))) {
      for (const auto& item : listIn(at(shape).values.at(3))) {
        if (at(item).entity != "IFCTRIANGULATEDFACESET") continue;
        std::vector<glm::dvec3> corners;
        for (const auto& corner : listIn(at(at(item).values[0]).values[0])) corners.push_back(numbers(corner));
        for (const auto& triangle : listIn(at(item).values[3])) {
          const glm::dvec3 of = numbers(triangle) - 1.0;
          const auto corner = [&](int i) { return corners.at(static_cast<std::size_t>(of[i])) - corners[0]; };
          volume += glm::dot(corner(0), glm::cross(corner(1), corner(2))) / 6;
        }
      }
    }
    return volume;
  }
};

double volumeOf(const scene::Scene& scene, std::size_t part) {
  double volume = 0;
  for (const auto& solid : scene.solids) {
    if (solid.part != part) continue;
    for (const auto& face : scene::kFaces) {
      const auto at = [&](std::size_t i) { return glm::dvec3(solid.corner[face[i]]) - glm::dvec3(solid.corner[0]); };
      for (const std::size_t i : {1, 2}) volume += glm::dot(at(0), glm::cross(at(i), at(i + 1))) / 6;
    }
  }
  return volume;
}

}  // namespace

TEST_CASE("IFC: what is written names only what stands before it, and nothing twice") {
  const Model model(exchange::ifc(testing::demoDocument("boatshed")));
  std::set<std::string> ids;
  std::size_t rooted = 0;
  for (const Line& line : model.lines) {
    if (line.values.empty() || line.values[0].size() != 24 || line.values[0].front() != '\'') continue;
    ++rooted;
    CHECK(ids.insert(line.values[0]).second);
    CHECK(line.values[0][1] <= '3');  // 128 bits: the first figure of 22 has two
  }
  CHECK(rooted > 500);
}

TEST_CASE("IFC: each opening voids its wall and is filled by its unit, of the job's sizes") {
  const auto doc = testing::demoDocument("boatshed");
  const Model model(exchange::ifc(doc));
  for (const char* one : {"IFCPROJECT", "IFCSITE", "IFCBUILDING", "IFCBUILDINGSTOREY"})
    CHECK(model.all(one).size() == 1);
  CHECK(model.all("IFCWALL").size() == doc.job.walls.size());
  const auto voids = model.all("IFCRELVOIDSELEMENT"), fills = model.all("IFCRELFILLSELEMENT");
  REQUIRE(voids.size() == doc.job.openings.size());
  REQUIRE(fills.size() == doc.job.openings.size());
  for (std::size_t i = 0; i < fills.size(); ++i) {
    const job::Opening& opening = doc.job.openings[i];
    CHECK(model.at(voids[i]->values[4]).values[2] == "'" + doc.job.walls[opening.wall].name + "'");
    CHECK(voids[i]->values[5] == fills[i]->values[4]);
    const Line& unit = model.at(fills[i]->values[5]);
    CHECK(unit.entity == (job::isDoor(opening.unit.kind) ? "IFCDOOR" : "IFCWINDOW"));
    CHECK(unit.values[2] == "'" + opening.name + "'");
    CHECK(std::stod(unit.values[8]) == Approx(opening.unit.height));
    CHECK(std::stod(unit.values[9]) == Approx(opening.unit.width));
  }
}

TEST_CASE("IFC: units are external as their walls are") {
  auto doc = testing::demoDocument("boatshed");
  const auto count = [&](const char* value) {
    const Model model(exchange::ifc(doc));
    const auto all = model.all("IFCPROPERTYSINGLEVALUE");
    return static_cast<std::size_t>(std::count_if(all.begin(), all.end(), [&](const Line* line) {
      return line->values[0] == "'IsExternal'" && line->values[2] == value;
    }));
  };
  const std::size_t things = doc.job.walls.size() + doc.job.openings.size();
  CHECK(count("IFCBOOLEAN(.T.)") == things);
  for (job::Wall& wall : doc.job.walls) wall.inside = true;
  document::rebuild(doc);
  CHECK(count("IFCBOOLEAN(.F.)") == things);
}

TEST_CASE("IFC: volumes are the scene's") {
  const auto doc = testing::demoDocument("boatshed");
  const Model model(exchange::ifc(doc));
  std::map<std::string, double> read, wanted;
  for (const char* entity : {"IFCMEMBER", "IFCBEAM", "IFCPLATE", "IFCCOVERING", "IFCSLAB", "IFCDISCRETEACCESSORY"}) {
    for (const Line* line : model.all(entity)) read["parts"] += model.volumeOf(*line);
  }
  for (const char* entity : {"IFCWINDOW", "IFCDOOR"}) {
    for (const Line* line : model.all(entity)) read["units"] += model.volumeOf(*line);
  }
  for (std::size_t i = 0; i < doc.scene.parts.size(); ++i) {
    const auto& part = doc.scene.parts[i];
    if (part.kind == scene::PartKind::Screw || part.kind == scene::PartKind::Handle ||
        part.kind == scene::PartKind::Hinge)
      continue;
    wanted[part.layer == scene::Layer::Unit ? "units" : "parts"] += volumeOf(doc.scene, i);
  }
  CHECK(read["parts"] == Approx(wanted["parts"]).epsilon(1e-5));
  CHECK(read["units"] >= wanted["units"] * (1 - 1e-5));  // handles and hinges are meshes
  CHECK(read["units"] < wanted["units"] * 1.02);
}

TEST_CASE("IFC: an identity stays when the job around it changes") {
  auto doc = testing::demoDocument("boatshed");
  const auto idOf = [](const document::Document& of, const std::string& name) {
    const Model model(exchange::ifc(of));
    for (const char* entity : {"IFCWINDOW", "IFCDOOR"}) {
      for (const Line* line : model.all(entity)) {
        if (line->values[2] == "'" + name + "'") return line->values[0];
      }
    }
    return std::string();
  };
  const std::string name = doc.job.openings.back().name, before = idOf(doc, name);
  CHECK(before.size() == 24);
  doc.job.title = "another";
  doc.job.openings.erase(doc.job.openings.begin());
  document::rebuild(doc);
  CHECK(idOf(doc, name) == before);
}
