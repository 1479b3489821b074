// The checks as JSON, read back by an independent reader (nlohmann-json).

#include "exchange/check_json.h"
#include "support/check_json.h"

#include <limits>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "check/judge.h"
#include "exchange/json.h"
#include "support/catch.h"
#include "support/demo_jobs.h"

namespace {

using namespace sillwright;
using nlohmann::json;

std::string report(const testing::DemoJob& demo) {
  const auto findings = check::judge(demo.job, *demo.practice, demo.plan);
  return testing::checkJson(demo.job, *demo.practice, demo.plan, findings);
}

/// Every number in the report is one: JSON has no other way to say "not a number" than null.
void noNulls(const json& value, const std::string& path) {
  if (value.is_object() || value.is_array()) {
    for (auto it = value.begin(); it != value.end(); ++it) noNulls(*it, path);
    return;
  }
  CAPTURE(path);
  CHECK(!value.is_null());
}

}  // namespace

TEST_CASE("the report of every demo job is JSON, without a null, and the same bytes twice") {
  for (const auto& demo : testing::demoJobs()) {
    const std::string text = report(demo);
    CHECK(report(demo) == text);
    const json data = json::parse(text);
    noNulls(data, demo.job.file);
    CHECK(data["format"] == "sillwright-check/2");
    CHECK(data["job"]["title"] == demo.job.title);
    CHECK(data["walls"].size() == demo.job.walls.size());
    REQUIRE(data["openings"].size() == demo.job.openings.size());
    const std::set<std::string> verdicts{"ready", "attention", "stop"};
    CHECK(verdicts.count(data["verdict"].get<std::string>()) == 1);
    const std::set<std::string> bases{"planned", "measured", "disputed"};
    CHECK(bases.count(data["basis"].get<std::string>()) == 1);
    for (const auto& opening : data["openings"]) {
      CHECK(verdicts.count(opening["verdict"].get<std::string>()) == 1);
      CHECK(bases.count(opening["basis"].get<std::string>()) == 1);
    }
  }
}

TEST_CASE("an opening's numbers come through as the plan has them") {
  for (const auto& demo : testing::demoJobs()) {
    const json data = json::parse(report(demo));
    for (std::size_t i = 0; i < demo.job.openings.size(); ++i) {
      const auto& stand = demo.plan.openings[i].stand;
      const auto& place = data["openings"][i]["place"];
      CHECK(place["spare"].get<double>() == Approx(stand.spare).margin(1e-4));
      CHECK(place["fits"].get<bool>() == stand.fits);
      CHECK(place["gaps"]["left"][1].get<double>() == Approx(stand.gaps.left[1]).margin(1e-4));
      double weights = 0;
      for (const auto& governor : place["governed_by"]) weights += governor["weight"].get<double>();
      CHECK(weights == Approx(1).margin(1e-3));
      CHECK(data["openings"][i]["packing"].size() == demo.plan.openings[i].packing.points.size());
      const auto& corner = data["openings"][i]["as_built"]["corners"]["TR"];
      CHECK(corner[0].get<double>() == Approx(demo.plan.openings[i].as_built.shape.corner[2].x).margin(1e-4));
    }
  }
}

TEST_CASE("members come through with their part, place and length") {
  const auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  const json data = json::parse(report(demo));
  const auto& members = data["walls"][0]["members"];
  REQUIRE(members.size() == demo.plan.walls[0].frame.members.size());
  std::set<std::string> parts;
  for (const auto& member : members) {
    parts.insert(member["part"].get<std::string>());
    CHECK(member["length"].get<double>() > 0);
  }
  for (const auto* part :
       {"bottom plate", "top plate", "common stud", "jamb stud", "lintel", "sill trimmer", "nogging"}) {
    CHECK(parts.count(part) == 1);
  }
}

TEST_CASE("errors as JSON") {
  const std::vector<base::Error> errors{
      {"a \"b\".toml", {3, 14}, "wall[0].length", "must be a number;\tfound a string"}};
  const json data = json::parse(exchange::errorsJson(errors));
  REQUIRE(data["errors"].size() == 1);
  CHECK(data["errors"][0]["file"] == "a \"b\".toml");
  CHECK(data["errors"][0]["line"] == 3);
  CHECK(data["errors"][0]["column"] == 14);
  CHECK(data["errors"][0]["say"] == "must be a number;\tfound a string");
}

TEST_CASE("the writer: numbers in their shortest form, escapes, commas") {
  std::string out;
  exchange::JsonWriter writer(out);
  writer.beginObject();
  writer.member("a", 0.1).member("b", -0.0).member("c", 1e300).member("d", 3);
  writer.key("list").beginArray().value(1.5).value(true).value("q\"\\\x01é").beginArray().endArray().endArray();
  writer.key("none").beginObject().endObject();
  writer.endObject();
  CHECK(out == "{\"a\":0.1,\"b\":0,\"c\":1e+300,\"d\":3,\"list\":[1.5,true,\"q\\\"\\\\\\u0001é\",[]],\"none\":{}}");
  CHECK(json::parse(out)["list"][2] == "q\"\\\x01é");
  std::string name;  // of a file whose name is no UTF-8
  exchange::JsonWriter(name).value("\xFFé\xE2\x82.toml");
  CHECK(json::parse(name) == "\uFFFDé\uFFFD\uFFFD.toml");
  std::string odd;
  exchange::JsonWriter(odd).value(std::numeric_limits<double>::infinity());
  CHECK(odd == "null");
}

TEST_CASE("the writer: each character comes back from each place in a text") {
  for (int c = 1; c < 0x80; ++c) {
    for (std::size_t at = 0; at < 20; ++at) {
      std::string text(20, 'x');
      text[at] = static_cast<char>(c);
      std::string out;
      exchange::JsonWriter(out).value(text);
      REQUIRE(nlohmann::json::parse(out).get<std::string>() == text);
    }
  }
}

TEST_CASE("the writer: a number rounded to a ten-thousandth is the shortest text of it") {
  for (int i = 0; i < 200'000; ++i) {
    const double number = (i - 100'000) * (i % 3 == 0 ? 0.00137 : i % 3 == 1 ? 0.5 : 7.25);
    std::string rounded, plain;
    exchange::JsonWriter(rounded, 1e4).value(number);
    exchange::JsonWriter(plain).value(std::round(number * 1e4) / 1e4);
    REQUIRE(rounded == plain);
  }
}

TEST_CASE("pieces, laps and water come through, and a leak names its lap") {
  for (auto& demo : testing::demoJobs()) {
    const json data = json::parse(report(demo));
    for (std::size_t i = 0; i < demo.job.openings.size(); ++i) {
      const auto& planned = demo.plan.openings[i];
      const auto& weather = data["openings"][i]["weather"];
      REQUIRE(weather["pieces"].size() == planned.weather.pieces.size());
      for (std::size_t k = 0; k < planned.weather.pieces.size(); ++k) {
        CHECK(weather["pieces"][k]["part"] == planned.weather.pieces[k].name);
        CHECK(weather["pieces"][k]["length"].get<double>() == Approx(planned.weather.pieces[k].length).margin(1e-4));
        CHECK(weather["pieces"][k]["step"].get<int>() > 0);
      }
      CHECK(weather["laps"].size() == planned.weather.laps.size());
      CHECK(weather["water"]["strips"].get<int>() == planned.water.strips);
      CHECK(weather["water"]["leaks"].size() == planned.water.leaks.size());
    }
  }
  auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/workshop-window.toml");
  auto& planned = demo.plan.openings[0];
  std::erase_if(planned.weather.skin.sheets,
                [](const plan::Sheet& sheet) { return sheet.kind == plan::SheetKind::SillFlashing; });
  planned.water = plan::traceWater(planned.weather.skin);
  const json water = json::parse(report(demo))["openings"][0]["weather"]["water"];
  REQUIRE(!water["leaks"].empty());
  CHECK(water["leaks"][0]["source"] == "frame drainage");
  CHECK(water["leaks"][0]["say"].get<std::string>().find("no sheet catches it") != std::string::npos);
}
