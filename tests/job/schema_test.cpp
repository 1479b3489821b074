// The schema beside the demo jobs says the same as the reader: each key of each table, what must be there, what it
// holds and between which bounds. Keywords as JSON Schema draft 7 defines them (json-schema.org, draft-07).
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "job/rules.h"
#include "support.h"
#include "support/catch.h"

namespace sillwright::job::test {
namespace {

using nlohmann::json;

json loadSchema() {
  return json::parse(load(std::filesystem::path(SILLWRIGHT_ASSETS_DIR) / "jobs" / "sillwright-job.schema.json"));
}

void checkNumber(const json& schema, const Holds& holds) {
  CHECK(schema.at("minimum") == holds.from);
  CHECK(schema.at("maximum") == holds.to);
}

void checkText(const json& schema, const Holds& holds) {
  CHECK(schema.at("type") == "string");
  CHECK(schema.at("minLength") == holds.from);
  CHECK(schema.at("maxLength") == holds.to);
  const auto ascii = schema.at("pattern").get<std::string>();
  const std::wregex pattern(std::wstring(ascii.begin(), ascii.end()));
  for (const auto* good : {L"a", L" a ", L"a b", L"é"}) CHECK(std::regex_search(good, pattern));
  for (const auto* bad : {L"", L"  ", L"a\nb", L"a\x07", L"\x7F", L"a\x9F", L"\x2028"}) {
    CHECK_FALSE(std::regex_search(bad, pattern));
  }
}

void checkWords(const json& schema, const Holds& holds) {
  std::vector<std::string> words(holds.words.begin(), holds.words.end());
  CHECK(schema.at("enum").get<std::vector<std::string>>() == words);
}

void checkDate(const json& schema, const Holds& holds) {
  CHECK(schema.at("type") == "string");
  CHECK(schema.at("format") == "date");
  const std::regex pattern(schema.at("pattern").get<std::string>());
  for (int year = 1000; year <= 3000; ++year) {
    const bool allowed = year >= holds.from && year <= holds.to;
    CHECK(std::regex_search(std::to_string(year) + "-03-14", pattern) == allowed);
  }
}

const json& checkArray(const json& schema, std::size_t least, std::size_t most) {
  CHECK(schema.at("type") == "array");
  CHECK(schema.value("minItems", 0U) == least);
  CHECK(schema.at("maxItems") == most);
  return schema.at("items");
}

void checkTable(const json& schema, const TableRule& rule);

void checkReadings(const json& schema, const TableRule& rule) {
  const auto& item = checkArray(schema.at("anyOf").at(0), rule.keys.size(), rule.keys.size());
  for (const auto& key : rule.keys) checkNumber(item, key.holds);
  checkTable(schema.at("anyOf").at(1), rule);
}

void checkOutline(const json& schema, const Holds& holds) {
  checkNumber(schema.at("anyOf").at(0), holds);
  const auto& point = checkArray(schema.at("anyOf").at(1), 2, holds.most);
  const auto& sides = checkArray(point, 2, 2);
  CHECK(sides.at(0).at("minimum") == 0);
  CHECK(sides.at(0).at("maximum") == kLongestWall);
  checkNumber(sides.at(1), holds);
}

void checkKey(const json& schema, const KeyRule& key) {
  const auto& holds = key.holds;
  switch (holds.form) {
    case Form::Text:
      return checkText(schema, holds);
    case Form::Number:
      CHECK(schema.at("type") == "number");
      return checkNumber(schema, holds);
    case Form::Whole:
      CHECK(schema.at("type") == "integer");
      return checkNumber(schema, holds);
    case Form::Truth:
      CHECK(schema.at("type") == "boolean");
      return;
    case Form::Date:
      return checkDate(schema, holds);
    case Form::Word:
      return checkWords(schema, holds);
    case Form::Numbers:
      return checkNumber(checkArray(schema, 1, holds.most), holds);
    case Form::Texts:
      return checkText(checkArray(schema, 1, holds.most), holds);
    case Form::Pair:
      return checkNumber(checkArray(schema, 2, 2), holds);
    case Form::Readings:
      return checkReadings(schema, *holds.table);
    case Form::Outline:
      return checkOutline(schema, holds);
    case Form::Table:
      return checkTable(schema, *holds.table);
    case Form::Tables:
      return checkTable(checkArray(schema, key.required ? 1 : 0, holds.most), *holds.table);
    case Form::TextOrTable:
      checkText(schema.at("anyOf").at(0), holds);
      return checkTable(schema.at("anyOf").at(1), *holds.table);
    case Form::WordOrTable:
      checkWords(schema.at("anyOf").at(0), holds);
      return checkTable(schema.at("anyOf").at(1), *holds.table);
  }
}

void checkTable(const json& schema, const TableRule& rule) {
  INFO("table [" << rule.path << "]");
  CHECK(schema.at("type") == "object");
  CHECK(schema.at("additionalProperties") == false);
  std::set<std::string> required, known, in_schema;
  for (const auto name : knownKeys(rule.path)) known.emplace(name);
  for (const auto& key : rule.keys) {
    if (key.required) required.emplace(key.name);
  }
  for (const auto& [name, inner] : schema.at("properties").items()) in_schema.insert(name);
  CHECK(schema.value("required", std::set<std::string>()) == required);
  REQUIRE(in_schema == known);
  for (const auto& key : rule.keys) {
    INFO("key " << key.name);
    checkKey(schema.at("properties").at(std::string(key.name)), key);
  }
}

}  // namespace

TEST_CASE("the schema and the reader agree on every key, from the file down") {
  const auto schema = loadSchema();
  CHECK(schema.at("$schema") == "http://json-schema.org/draft-07/schema#");
  checkTable(schema, kFileRule);
}

TEST_CASE("each table is listed once and hangs in the file at its path") {
  std::set<std::string_view> paths;
  for (const auto* table : tableRules()) {
    CHECK(paths.insert(table->path).second);
    for (const auto& key : table->keys) {
      if (key.holds.table == nullptr) continue;
      const auto expected = (table->path.empty() ? "" : std::string(table->path) + ".") + std::string(key.name);
      CHECK(key.holds.table->path == expected);
    }
  }
  CHECK(paths.size() == 27);
}

TEST_CASE("known keys are told by the path of their table") {
  CHECK(knownKeys("") == std::vector<std::string_view>{"job", "wall", "opening", "stock"});
  CHECK(knownKeys("opening.unit.frame") == std::vector<std::string_view>{"depth", "face"});
  CHECK(knownKeys("opening.window").empty());
}

TEST_CASE("the reader holds each number to the bounds of its rule") {
  // From the rules to a text: every key that is a plain number, at its bounds and just past them.
  const auto jobWith = [](const TableRule& table, const std::string& line) {
    if (table.path == "wall") return kMinimal + line;
    if (table.path == "stock") return kMinimal + "[stock]\n" + line;
    if (table.path == "opening.unit") return kMinimal + kOpening + line;
    return kMinimal + kOpening + "[" + std::string(table.path) + "]\n" + line;
  };
  std::size_t checked = 0;
  for (const auto* table : {&kWallRule, &kUnitRule, &kMeasuredRule, &kInstalledRule, &kStockRule}) {
    for (const auto& key : table->keys) {
      if (key.holds.form != Form::Number || key.required) continue;
      const auto answers = [&](double value) {
        return read(jobWith(*table, std::string(key.name) + " = " + toText(value) + "\n"), "");
      };
      INFO(table->path << "." << key.name);
      CHECK(answers(key.holds.from).ok());
      CHECK(answers(key.holds.to).ok());
      CHECK_FALSE(answers(key.holds.from - 0.001).ok());
      const auto past = answers(key.holds.to + 0.001);
      REQUIRE(past.errors.size() == 1);
      CHECK(past.errors[0].say == "must be " + describeBounds(key.holds) + "; found " + toText(key.holds.to + 0.001));
      ++checked;
    }
  }
  CHECK(checked == 9);
}

}  // namespace sillwright::job::test
