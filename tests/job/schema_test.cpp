// The schema beside the demo jobs is made of the reader's own description of each table.
#include <regex>
#include <set>

#include "job/read.h"
#include "job/tables.h"
#include "support.h"
#include "support/catch.h"
#include "support/schema.h"

namespace sillwright::job::test {
namespace {

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
  const std::string made =
      schemaText(fileTable(), "Sillwright job file",
                 "Timber walls, their openings, the units that go in, and what was measured on site. Millimetres.");
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
  CHECK(tables == 27);
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
  CHECK(checked == 14);
}

}  // namespace sillwright::job::test
