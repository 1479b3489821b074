/// The JSON Schema of a file of ours, made of the descriptions that its reader goes by. Keywords as JSON Schema draft 7
/// defines them (json-schema.org, draft-07).
#pragma once

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "job/tables.h"

namespace sillwright::job::test {

using Json = nlohmann::ordered_json;

// Not all blank, no control characters, no line separators: what the reader asks of a text.
inline constexpr const char* kTextPattern = R"(^(?=.*[^ ])[^\u0000-\u001F\u007F-\u009F\u2028\u2029\uFFFE\uFFFF]*$)";

[[nodiscard]] inline Json schemaOf(const TableRule& table);

inline Json bounded(const char* type, double from, double to) {
  const auto plain = [](double value) { return value == std::trunc(value) ? Json(std::int64_t(value)) : Json(value); };
  return {{"type", type}, {"minimum", plain(from)}, {"maximum", plain(to)}};
}

inline Json arrayOf(Json items, std::size_t least, std::size_t most) {
  return {{"type", "array"}, {"minItems", least}, {"maxItems", most}, {"items", std::move(items)}};
}

inline Json pointOf(const Holds& holds) {
  Json sides = Json::array({bounded("number", 0, kLongestWall), bounded("number", holds.from, holds.to)});
  Json point = arrayOf(std::move(sides), 2, 2);
  point["additionalItems"] = false;
  return point;
}

inline Json eitherOf(Json one, Json other) { return {{"anyOf", Json::array({std::move(one), std::move(other)})}}; }

/// Of years whose first two digits vary by centuries: 1900 to 2200.
inline Json dateOf() {
  return {{"type", "string"}, {"format", "date"}, {"pattern", "^(19[0-9]{2}|2[01][0-9]{2}|2200)-[0-9]{2}-[0-9]{2}$"}};
}

inline Json schemaOf(const Holds& holds, bool required) {
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

inline Json schemaOf(const TableRule& table) {
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

/// The whole schema's text.
[[nodiscard]] inline std::string schemaText(const TableRule& file, const char* title, const char* description) {
  Json schema = {
      {"$schema", "http://json-schema.org/draft-07/schema#"}, {"title", title}, {"description", description}};
  schema.update(schemaOf(file));
  return schema.dump(1) + "\n";
}

}  // namespace sillwright::job::test
