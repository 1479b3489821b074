// The schema beside the demo jobs is made of the reader's own description of each table. Keywords as JSON Schema
// draft 7 defines them (json-schema.org, draft-07).
#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "job/read.h"
#include "job/tables.h"
#include "support.h"
#include "support/catch.h"

namespace sillwright::job::test {
namespace {

using Json = nlohmann::ordered_json;

// Not all blank, no control characters, no line separators: what the reader asks of a text.
constexpr const char* kTextPattern = R"(^(?=.*[^ ])[^\u0000-\u001F\u007F-\u009F\u2028\u2029\uFFFE\uFFFF]*$)";

Json schemaOf(const TableRule& table);

Json bounded(const char* type, double from, double to) {
  const auto plain = [](double value) { return value == std::trunc(value) ? Json(std::int64_t(value)) : Json(value); };
  return {{"type", type}, {"minimum", plain(from)}, {"maximum", plain(to)}};
}

Json arrayOf(Json items, std::size_t least, std::size_t most) {
  return {{"type", "array"}, {"minItems", least}, {"maxItems", most}, {"items", std::move(items)}};
}

Json pointOf(const Holds& holds) {
  Json sides = Json::array({bounded("number", 0, kLongestWall), bounded("number", holds.from, holds.to)});
  Json point = arrayOf(std::move(sides), 2, 2);
  point["additionalItems"] = false;
  return point;
}

Json eitherOf(Json one, Json other) {
  return {{"anyOf", Json::array({std::move(one), std::move(other)})}};
}

/// Of years whose first two digits vary by centuries: 1900 to 2200.
Json dateOf() {
  return {{"type", "string"}, {"format", "date"}, {"pattern", "^(19[0-9]{2}|2[01][0-9]{2}|2200)-[0-9]{2}-[0-9]{2}$"}};
}

Json schemaOf(const Holds& holds, bool required) {
  const auto orTable = [&](Json value) {
    return holds.table == nullptr ? std::move(value) : eitherOf(std::move(value), schemaOf(*holds.table));
  };
  const Json text = {{"type", "string"}, {"minLength", 1}, {"maxLength", int(holds.to)}, {"pattern", kTextPattern}};
  const Json words = {{"enum", std::vector<std::string>(holds.words.begin(), holds.words.end())}};
  const Json number = bounded("number", holds.from, holds.to);
  switch (holds.form) {
    case Form::Text:
      return orTable(text);
    case Form::Word:
      return orTable(words);
    case Form::Number:
      return number;
    case Form::Whole:
      return bounded("integer", holds.from, holds.to);
    case Form::Truth:
      return {{"type", "boolean"}};
    case Form::Date:
      return dateOf();
    case Form::Numbers:
      return arrayOf(number, holds.least, holds.most);
    case Form::Texts:
      return arrayOf(text, holds.least, holds.most);
    case Form::Words:
      return arrayOf(words, holds.least, holds.most);
    case Form::Pair:
      return arrayOf(number, 2, 2);
    case Form::Readings:
      return eitherOf(arrayOf(number, holds.words.size(), holds.words.size()), schemaOf(readingsTable(holds)));
    case Form::Outline:
      return eitherOf(number, arrayOf(pointOf(holds), 2, holds.most));
    case Form::Table:
      return schemaOf(*holds.table);
    case Form::Tables:
      return arrayOf(schemaOf(*holds.table), required ? 1 : 0, holds.most);
    case Form::Figure:
    case Form::WholeFigure:
      break;  // of the practices, which have no schema
  }
  return {};
}

Json schemaOf(const TableRule& table) {
  Json schema = {{"type", "object"}, {"additionalProperties", false}};
  std::vector<std::string> required;
  Json properties = Json::object();
  for (const auto& key : table.keys) {
    if (key.required) required.emplace_back(key.name);
    Json value = Json::object();
    if (!key.about.empty()) value["description"] = key.about;
    value.update(schemaOf(key.holds, key.required));
    properties[std::string(key.name)] = std::move(value);
  }
  if (!required.empty()) schema["required"] = required;
  schema["properties"] = std::move(properties);
  return schema;
}

std::string schemaText() {
  Json schema = {{"$schema", "http://json-schema.org/draft-07/schema#"},
                 {"title", "Sillwright job file"},
                 {"description",
                  "Timber walls, their openings, the units that go in, and what was measured on site. Millimetres."}};
  schema.update(schemaOf(fileTable()));
  return schema.dump(1) + "\n";
}

/// Calls `visit` for each table of the file, the file itself first.
template <class Visit>
void eachTable(const TableRule& table, const std::string& path, const Visit& visit) {
  visit(table, path);
  for (const auto& key : table.keys) {
    if (key.holds.table == nullptr) continue;
    eachTable(*key.holds.table, (path.empty() ? "" : path + ".") + std::string(key.name), visit);
  }
}

}  // namespace

TEST_CASE("the schema beside the demo jobs is the one that the descriptions give") {
  const auto file = std::filesystem::path(SILLWRIGHT_ASSETS_DIR) / "jobs" / "sillwright-job.schema.json";
  const std::string made = schemaText();
  if (load(file) == made) return;
  std::ofstream("sillwright-job.schema.json", std::ios::binary) << made;
  FAIL(file.string() << " is out of date: copy " << std::filesystem::absolute("sillwright-job.schema.json").string()
                     << " over it");
}

TEST_CASE("the schema's pattern of a text refuses what the reader refuses") {
  const std::wregex pattern(std::wstring(kTextPattern, kTextPattern + std::char_traits<char>::length(kTextPattern)));
  for (const auto* good : {L"a", L" a ", L"a b", L"é"}) CHECK(std::regex_search(good, pattern));
  for (const auto* bad : {L"", L"  ", L"a\nb", L"a\x07", L"\x7F", L"a\x9F", L"\x2028", L"\xFFFF"}) {
    CHECK_FALSE(std::regex_search(bad, pattern));
  }
}

TEST_CASE("the schema's pattern of a date allows the reader's years") {
  const auto& holds = tableOf<Installed>().at("date");
  const std::regex pattern(dateOf().at("pattern").get<std::string>());
  for (int year = 1000; year <= 3000; ++year) {
    const bool allowed = year >= holds.from && year <= holds.to;
    CHECK(std::regex_search(std::to_string(year) + "-03-14", pattern) == allowed);
  }
}

TEST_CASE("every key has its own name, a meaning, and bounds in order") {
  std::size_t tables = 0;
  eachTable(fileTable(), "", [&](const TableRule& table, const std::string& path) {
    ++tables;
    std::set<std::string_view> names;
    for (const auto& key : table.keys) {
      INFO(path << "." << key.name);
      CHECK(names.insert(key.name).second);
      CHECK_FALSE(key.about.empty());
      CHECK(key.holds.from <= key.holds.to);
      CHECK((key.holds.old_name.empty() || table.find(key.holds.old_name) == nullptr));
      CHECK((key.holds.old_words.empty() || key.holds.old_words.size() == key.holds.words.size()));
    }
    if (!table.header.empty()) CHECK(table.header.find(path) != std::string_view::npos);
  });
  CHECK(tables == 25);
}

TEST_CASE("the reader holds each number to the bounds of its rule") {
  // From the rules to a text: every key that is a plain number, at its bounds and just past them.
  const auto jobWith = [](const std::string& path, const std::string& line) {
    if (path == "wall") return kMinimal + line;
    if (path == "stock") return kMinimal + "[stock]\n" + line;
    if (path == "opening.unit") return kMinimal + kOpening + line;
    return kMinimal + kOpening + "[" + path + "]\n" + line;
  };
  std::size_t checked = 0;
  eachTable(fileTable(), "", [&](const TableRule& table, const std::string& path) {
    if (table.header.empty()) return;
    for (const auto& key : table.keys) {
      if (key.holds.form != Form::Number || key.required) continue;
      if (key.name == "height" && path != "opening.unit.coupled") continue;  // stands in the text already
      const auto answers = [&](double value) {
        return read(jobWith(path, std::string(key.name) + " = " + toText(value) + "\n"), "");
      };
      INFO(path << "." << key.name);
      CHECK(answers(key.holds.from).ok());
      CHECK(answers(key.holds.to).ok());
      CHECK_FALSE(answers(key.holds.from - 0.001).ok());
      const auto past = answers(key.holds.to + 0.001);
      REQUIRE(past.errors.size() == 1);
      CHECK(past.errors[0].say == "must be " + describeBounds(key.holds) + "; found " + toText(key.holds.to + 0.001));
      ++checked;
    }
  });
  CHECK(checked == 12);
}

}  // namespace sillwright::job::test
