// The practices that come with the program: they read, every figure in them says where it comes from, and what they
// say hangs together. The figures are walked in the files themselves, not through the reader.
#include <toml++/toml.h>

#include <algorithm>
#include <ctime>
#include <functional>
#include <string>

#include "practice/read.h"
#include "support.h"
#include "support/catch.h"

namespace sillwright::practice::test {

namespace {

using Visit = std::function<void(const std::string&, const toml::table&)>;

/// Calls `visit` for each table that has a value: each figure.
void walk(const toml::node& node, const std::string& path, const Visit& visit) {
  if (const auto* table = node.as_table()) {
    if (table->contains("value")) {
      visit(path, *table);
      return;
    }
    for (const auto& [key, value] : *table) {
      walk(value, path + "." + std::string(key.str()), visit);
    }
  } else if (const auto* array = node.as_array()) {
    for (std::size_t i = 0; i < array->size(); ++i) {
      walk((*array)[i], path + "[" + std::to_string(i) + "]", visit);
    }
  }
}

std::string textOf(const toml::table& table, const char* key) { return table[key].value_or(std::string()); }

Practice shipped(const std::string& name) {
  auto result = load(name, kAssets, {});
  INFO(allLines(result.errors));
  REQUIRE(result.ok());
  return *result.value;
}

}  // namespace

TEST_CASE("the practices that come with the program are read without an error") {
  CHECK(names(kAssets) == std::vector<std::string>{"au", "nz", "uk", "us"});
  for (const std::string& name : names(kAssets)) {
    const Practice practice = shipped(name);
    CHECK(practice.name == name);
    CHECK(practice.file == (kAssets / "practice" / (name + ".toml")).string());
  }
}

TEST_CASE("every figure that is shipped has a source, a status, and what its status asks for") {
  for (const std::string& name : names(kAssets)) {
    const toml::table file = toml::parse(fileText(kAssets / "practice" / (name + ".toml")));
    std::size_t figures = 0;
    walk(file, name, [&](const std::string& path, const toml::table& figure) {
      ++figures;
      INFO(path);
      const std::string source = textOf(figure, "source");
      const std::string status = textOf(figure, "status");
      CHECK_FALSE(source.empty());
      CHECK_FALSE(textOf(figure, "unit").empty());
      if (status == "common practice") {
        CHECK(source == "common practice, no source");
        CHECK_FALSE(figure.contains("clause"));
        CHECK_FALSE(figure.contains("edition"));
      } else {
        // A text that quotes the source is not the source.
        const bool quoted =
            source.find(", as quoted") != std::string::npos || source.find(", as given") != std::string::npos ||
            source.find(", as shown") != std::string::npos || source.find(", as summarised") != std::string::npos ||
            source.find(", as annotated") != std::string::npos || source.find(", in a summary") != std::string::npos;
        CHECK((status == "second-hand" || status == "memory" || (status == "published" && !quoted)));
        CHECK(source.find("no source") == std::string::npos);
      }
    });
    CHECK(figures > 150);
  }
}

TEST_CASE("a shipped practice gives a plan what it needs to draw") {
  for (const std::string& name : names(kAssets)) {
    const Practice practice = shipped(name);
    INFO(name);
    const Clearance& gaps = practice.clearance;
    for (const double width : {400.0, 1530.0, 3000.0, 5000.0}) {
      for (const Bands* bands : {&gaps.side_least, &gaps.side_usual, &gaps.side_most, &gaps.sill_least,
                                 &gaps.sill_usual, &gaps.head_least, &gaps.head_usual}) {
        CHECK(bands->at(width) != nullptr);
      }
    }
    CHECK_FALSE(practice.framing.side_studs.empty());
    CHECK_FALSE(practice.framing.lintels.empty());
    CHECK(gaps.unit_tolerance.has_value());
    CHECK(gaps.size_step.has_value());
    CHECK(practice.packing.most_stack.has_value());
    CHECK(practice.packing.spacing_sill.has_value());
    CHECK(practice.packing.head_packed->value == 0);
    CHECK_FALSE(practice.strength.wind.classes.empty());
    CHECK(practice.strength.timber.find(practice.strength.timber.usual_grade) != nullptr);
  }
}

TEST_CASE("every class of wind gives the pressures its practice can name, and more at a corner") {
  for (const std::string& name : names(kAssets)) {
    const Practice practice = shipped(name);
    double before = 0;
    for (const WindClass& one : practice.strength.wind.classes) {
      INFO(name << " " << one.name);
      const Pressures general = pressures(practice.strength.wind, one, false);
      REQUIRE(general.ultimate.has_value());
      REQUIRE(general.service.has_value());
      CHECK(*general.ultimate > *general.service);
      CHECK(general.from_ultimate != nullptr);
      if (one.name != "C1") {  // the cyclonic classes start again lower
        CHECK(*general.ultimate > before);
      }
      before = *general.ultimate;
      const Pressures corner = pressures(practice.strength.wind, one, true);
      CHECK((!corner.ultimate || *corner.ultimate > *general.ultimate));
    }
  }
}

TEST_CASE("an opening 20 wider and higher than its unit leaves room to spare in Australia") {
  const Clearance gaps = shipped("au").clearance;
  const double opening = 1530;
  CHECK(20 - 2 * gaps.side_least.at(opening)->value >= 8);
  CHECK(20 - gaps.sill_least.at(opening)->value - gaps.head_least.at(opening)->value >= 8);
  CHECK(2 * gaps.side_usual.at(opening)->value == 20);
  CHECK(gaps.sill_usual.at(opening)->value + gaps.head_usual.at(opening)->value == 20);
}

TEST_CASE("the words of a practice are its region's") {
  CHECK(shipped("us").words.packer == "shim");
  CHECK(shipped("us").words.lintel == "header");
  CHECK(shipped("nz").words.nogging == "dwang");
  CHECK(shipped("nz").words.membrane == "underlay");
  CHECK(shipped("au").words.membrane == "sarking");
  CHECK(shipped("us").display == Display::InchFractions);
  CHECK(shipped("uk").display == Display::Millimetres);
}

TEST_CASE("a practice is read in a blink") {
  // 5 ms of processor time in a release build, a hundred times as long in a debug or a checked one.
#ifdef NDEBUG
  constexpr double kMost = 5;
#else
  constexpr double kMost = 500;
#endif
  constexpr int kRounds = 10;
  for (const std::string& name : names(kAssets)) {
    double least = kMost;
    for (int i = 0; i < kRounds; ++i) {
      const std::clock_t start = std::clock();
      REQUIRE(load(name, kAssets, {}).ok());
      least = std::min(least, 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
    }
    INFO(name << ": " << least << " ms");
    CHECK(least < kMost);
  }
}

}  // namespace sillwright::practice::test
