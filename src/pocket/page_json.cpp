#include "pocket/page_json.h"

#include <array>
#include <cmath>

#include "document/lesson.h"
#include "exchange/csv.h"
#include "exchange/json.h"
#include "job/readings.h"
#include "plan/survey/asked_readings.h"
#include "scene/describe.h"
#include "takeoff/order.h"
#include "takeoff/table.h"
#include "words/length.h"
#include "words/text.h"

namespace sillwright::pocket {
namespace {

using exchange::JsonWriter;

template <class Texts>
void texts(JsonWriter& json, std::string_view key, const Texts& all) {
  json.key(key).beginArray();
  for (const auto& each : all) json.value(std::string_view(each));
  json.endArray();
}

void findings(JsonWriter& json, const std::vector<check::Finding>& all) {
  json.key("findings").beginArray();
  for (const check::Finding& each : all) {
    json.beginObject().member("severity", check::toWord(each.severity)).member("say", each.say);
    json.member("source", each.source).member("remedy", each.remedy).member("caution", each.caution).endObject();
  }
  json.endArray();
}

void readings(JsonWriter& json, const job::Opening& opening, const plan::AsBuilt& built, practice::Display display) {
  const auto planned = plan::plannedReadings(opening);
  json.key("readings").beginArray();
  for (std::size_t i = 0; i < job::kTapeReadings; ++i) {
    const auto reading = static_cast<job::TapeReading>(i);
    const job::TapeReadingInfo& info = job::infoOf(reading);
    const auto value = job::valueOf(opening.measured, reading);
    json.beginObject().member("name", info.name).member("how", info.how);
    json.member("value", value ? words::figure(*value, display) : std::string{});
    json.member("planned", planned[i] ? words::figure(*planned[i], display) : std::string{})
        .member("suspect", plan::isSuspect(built, reading))
        .endObject();
  }
  json.endArray();
}

/// Where along a side from the unit's lower left corner, in the opening's plane.
void place(JsonWriter& json, const plan::OpeningPlan& of, plan::Side side, double at) {
  const bool upright = side == plan::Side::Left || side == plan::Side::Right;
  const double x = side == plan::Side::Right ? of.unit.width : upright ? 0 : at;
  const double z = side == plan::Side::Head ? plan::headLineOf(of.unit).at(at) : upright ? at : 0;
  json.member("side", plan::toWord(side)).member("x", of.stand.x + x).member("z", of.stand.z + z);
}

/// The corners of the opening and of its unit from the lower left, mm from the opening's lower left corner.
void drawing(JsonWriter& json, const plan::OpeningPlan& of) {
  const auto corners = [&json](const char* key, const plan::OpeningShape& shape, double x, double z) {
    std::vector<plan::Point> all(shape.corner.begin(), shape.corner.end());
    if (shape.peak) all.insert(all.end() - 1, *shape.peak);
    json.key(key).beginArray();
    for (const plan::Point& corner : all) json.beginArray().value(x + corner.x).value(z + corner.z).endArray();
    json.endArray();
  };
  corners("corners", of.as_built.shape, 0, 0);
  corners("unit", plan::plannedShape(plan::headLineOf(of.unit)), of.stand.x, of.stand.z);
}

void packers(JsonWriter& json, const plan::OpeningPlan& of, practice::Display display) {
  json.key("packers").beginArray();
  for (const plan::PackingPoint& point : of.packing.points) {
    json.beginObject();
    place(json, of, point.side, point.at);
    json.member("at", words::figure(point.at, display)).member("gap", words::figure(point.gap, display));
    json.member("stack", plan::stackWords(point, display)).endObject();
  }
  json.endArray();
}

void fixings(JsonWriter& json, const plan::OpeningPlan& of, practice::Display display) {
  json.key("fixings").beginArray();
  for (const plan::Fixing& point : of.fixings.points) {
    json.beginObject();
    place(json, of, point.side, point.at);
    json.member("at", words::figure(point.at, display));
    json.member("screw", point.screw < 0 ? std::string("none in stock is long enough")
                                         : of.fixings.screws[static_cast<std::size_t>(point.screw)].name);
    json.endObject();
  }
  json.endArray();
}

/// The order of work, and where the water goes when all of it is done.
void work(JsonWriter& json, const document::Document& document, std::size_t opening) {
  document::Lesson lesson;
  lesson.opening = static_cast<std::int32_t>(opening);
  lesson.place = static_cast<int>(plan::kStepKinds);
  const document::Taught taught = document::teach(document, lesson);
  json.member("water", taught.wet ? taught.water_says : std::string{}).key("steps").beginArray();
  for (const plan::Step& step : taught.steps) {
    json.beginObject().member("title", step.title).member("what", step.what);
    texts(json, "parts", step.parts);
    texts(json, "tools", step.tools);
    json.member("check", step.before_going_on).member("caution", step.caution).endObject();
  }
  json.endArray();
}

std::string fitWords(const plan::Stand& stand, check::Basis basis, practice::Display display) {
  if (basis == check::Basis::Disputed) return "The measurements disagree.";
  const std::string spare = words::length(std::abs(stand.spare), display);
  return stand.spare < 0 ? "It does not fit by " + spare + "." : "It fits with " + spare + " to spare.";
}

/// Which opening it is, and its verdict.
void head(JsonWriter& json, const document::Document& document, std::size_t index) {
  const job::Opening& at = document.job.openings[index];
  const plan::UnitSpec& unit = document.plan.openings[index].unit;
  const std::string kind = words::unitName(at.unit.kind, at.unit.lights);
  const check::Verdict verdict = document.findings.verdicts[index];
  json.member("name", at.name).member("wall", document.job.walls[at.wall].name).member("tag", at.tag.value_or(""));
  json.member("title", kind + " " + words::size(unit, document.practice->display));
  json.member("verdict", check::toWord(verdict)).member("verdict_words", check::wordsFor(verdict));
  json.member("basis", check::wordsFor(document.findings.bases[index]));
}

void opening(JsonWriter& json, const document::Document& document, std::size_t index) {
  const job::Opening& at = document.job.openings[index];
  const plan::OpeningPlan& of = document.plan.openings[index];
  const practice::Display display = document.practice->display;
  json.beginObject();
  head(json, document, index);
  json.member("fit", fitWords(of.stand, document.findings.bases[index], display));
  findings(json, document.findings.openings[index]);
  readings(json, at, of.as_built, display);
  drawing(json, of);
  packers(json, of, display);
  fixings(json, of, display);
  work(json, document, index);
  json.endObject();
}

void list(JsonWriter& json, const takeoff::Table& table, practice::Display display) {
  json.beginObject().member("title", table.title).key("columns").beginArray();
  for (const takeoff::Column& column : table.columns) {
    if (!column.detail) json.value(takeoff::headingOf(column, display));
  }
  json.endArray().key("rows").beginArray();
  for (const auto& row : table.rows) {
    json.beginArray();
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (!table.columns[i].detail) json.value(takeoff::cellText(row[i], table.columns[i], display));
    }
    json.endArray();
  }
  json.endArray();
  texts(json, "notes", table.notes);
  json.endObject();
}

}  // namespace

std::string openingJson(const document::Document& document, std::size_t index) {
  std::string out;
  JsonWriter json(out, 1e4);
  opening(json, document, index);
  return out;
}

std::string listsJson(const document::Document& document) {
  std::string out;
  JsonWriter json(out);
  const practice::Display display = document.practice->display;
  json.beginArray();
  list(json, takeoff::orderList(document.job, *document.practice, document.plan, document.findings), display);
  const takeoff::Takeoff taken = takeoff::takeOff(document.job, *document.practice, document.plan);
  for (const takeoff::Table& table : takeoff::tablesOf(taken, document.job, *document.practice))
    list(json, table, display);
  json.endArray();
  return out;
}

std::string pageJson(const document::Document& document) {
  std::string out;
  JsonWriter json(out, 1e4);
  const practice::Display display = document.practice->display;
  json.beginObject().member("title", document.job.title).member("file", document.path.filename().string());
  json.member("of", words::jobWords(document.job)).member("inches", display == practice::Display::InchFractions);
  json.member("verdict", check::toWord(document.findings.verdict));
  json.member("summary", check::summaryOf(document.findings.verdicts));
  texts(json, "cautions", document.findings.cautions);
  texts(json, "layers", [] {
    std::array<const char*, scene::kLayers> names{};
    for (std::size_t i = 0; i < names.size(); ++i) names[i] = scene::nameOf(static_cast<scene::Layer>(i));
    return names;
  }());
  json.key("openings").beginArray();
  for (std::size_t i = 0; i < document.job.openings.size(); ++i) {
    json.beginObject();
    head(json, document, i);
    json.endObject();
  }
  json.endArray().endObject();
  return out;
}

std::string measurementsCsv(const job::Job& job) {
  std::string out = "opening,reading,value\r\n";
  for (const job::Opening& at : job.openings) {
    for (std::size_t i = 0; i < job::kTapeReadings; ++i) {
      const auto reading = static_cast<job::TapeReading>(i);
      const auto value = job::valueOf(at.measured, reading);
      if (!value) continue;
      out += exchange::csvField(at.name) + "," + job::infoOf(reading).name + "," + job::toText(*value) + " mm\r\n";
    }
  }
  return out;
}

}  // namespace sillwright::pocket
