#include "pocket/page_json.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "exchange/csv.h"
#include "exchange/json.h"
#include "plan/survey/asked_readings.h"
#include "scene/describe.h"
#include "takeoff/order.h"
#include "words/text.h"

namespace sillwright::pocket {
namespace {

using exchange::JsonWriter;

/// 0, 1, … (Debian 12's Emscripten has no views.)
std::vector<std::size_t> upTo(std::size_t count) {
  std::vector<std::size_t> all(count);
  std::iota(all.begin(), all.end(), std::size_t{0});
  return all;
}

void findings(JsonWriter& json, const std::vector<check::Finding>& all) {
  json.array("findings", all, [&](const check::Finding& each) {
    json.object("severity", check::toWord(each.severity), "say", each.say, "source", each.source, "remedy", each.remedy,
                "caution", each.caution);
  });
}

void readings(JsonWriter& json, const job::Opening& opening, const plan::AsBuilt& built, practice::Display display) {
  const auto planned = plan::plannedReadings(opening);
  const auto figure = [&](const auto& value) { return value ? words::figure(*value, display) : std::string{}; };
  json.array("readings", upTo(job::kTapeReadings), [&](std::size_t i) {
    const auto reading = static_cast<job::TapeReading>(i);
    const job::TapeReadingInfo& info = job::infoOf(reading);
    json.object("name", info.name, "how", info.how, "value", figure(job::valueOf(opening.measured, reading)), "planned",
                figure(planned[i]), "suspect", plan::isSuspect(built, reading));
  });
}

/// The corners of the opening and of its unit from the lower left, mm from the opening's lower left corner.
void drawing(JsonWriter& json, const plan::OpeningPlan& of) {
  const auto corners = [&json](const char* key, const plan::OpeningShape& shape, double x, double z) {
    std::vector<plan::Point> all(shape.corner.begin(), shape.corner.end());
    if (shape.peak) all.insert(all.end() - 1, *shape.peak);
    json.array(key, all, [&](const plan::Point& corner) { json.value(std::array{x + corner.x, z + corner.z}); });
  };
  corners("corners", of.as_built.shape, 0, 0);
  corners("unit", plan::plannedShape(plan::headLineOf(of.unit)), of.stand.x, of.stand.z);
}

/// Packers or screws: where along a side from the unit's lower left corner, in the opening's plane, and what `more`
/// says of each.
void places(JsonWriter& json, const char* key, const plan::OpeningPlan& of, const auto& points,
            practice::Display display, const auto& more) {
  json.array(key, points, [&](const auto& point) {
    const bool upright = point.side == plan::Side::Left || point.side == plan::Side::Right;
    const double x = point.side == plan::Side::Right ? of.unit.width : upright ? 0 : point.at;
    const double z = point.side == plan::Side::Head ? plan::headLineOf(of.unit).at(point.at) : upright ? point.at : 0;
    json.beginObject().members("side", plan::toWord(point.side), "x", of.stand.x + x, "z", of.stand.z + z);
    json.member("at", words::figure(point.at, display));
    more(point);
    json.endObject();
  });
}

/// The order of work, where the water goes when all of it is done, and what can be done wrong.
void work(JsonWriter& json, const document::Document& document, document::Lesson lesson, std::size_t opening) {
  if (lesson.opening != static_cast<std::int32_t>(opening)) lesson = {};  // its faults were made at another opening
  lesson.opening = static_cast<std::int32_t>(opening);
  lesson.place = static_cast<int>(plan::kStepKinds);  // no opening has more cards: all is done
  const document::Taught taught = document::teach(document, lesson);
  json.member("water", taught.wet ? taught.water_says : taught.refusal);  // where no water is run a sentence says why
  json.array("choices", taught.choices,
             [&](const document::Choice& each) { json.object("words", each.words, "chosen", each.chosen); });
  json.array("steps", taught.steps, [&](const plan::Step& step) {
    json.object("title", step.title, "what", step.what, "parts", step.parts, "tools", step.tools, "check",
                step.before_going_on, "caution", step.caution);
  });
}

std::string fitWords(const plan::Stand& stand, check::Basis basis, practice::Display display) {
  if (basis == check::Basis::Disputed) return "The measurements disagree.";  // a spare would be of no opening
  const std::string spare = words::length(std::abs(stand.spare), display);
  return stand.spare < 0 ? "It does not fit by " + spare + "." : "It fits with " + spare + " to spare.";
}

/// Which opening it is, and its verdict.
void head(JsonWriter& json, const document::Document& document, std::size_t index) {
  const job::Opening& at = document.job.openings[index];
  const plan::UnitSpec& unit = document.plan.openings[index].unit;
  const std::string kind = words::unitName(at.unit.kind, at.unit.lights);
  const check::Verdict verdict = document.findings.verdicts[index];
  json.members("name", at.name, "wall", document.job.walls[at.wall].name, "tag", at.tag.value_or(""));
  json.member("title", kind + " " + words::size(unit, document.practice->display));
  json.members("verdict", check::toWord(verdict), "verdict_words", check::wordsFor(verdict));
  json.member("basis", check::wordsFor(document.findings.bases[index]));
}

void list(JsonWriter& json, const takeoff::Table& table, practice::Display display) {
  std::vector<std::size_t> columns = upTo(table.columns.size());  // files alone have the details
  std::erase_if(columns, [&](std::size_t column) { return table.columns[column].detail; });
  json.beginObject().member("title", table.title).key("columns").beginArray();
  for (const std::size_t i : columns) json.value(takeoff::headingOf(table.columns[i], display));
  json.endArray().array("rows", table.rows, [&](const auto& row) {
    json.beginArray();
    for (const std::size_t i : columns) json.value(takeoff::cellText(row[i], table.columns[i], display));
    json.endArray();
  });
  json.member("notes", table.notes).endObject();
}

}  // namespace

std::string openingJson(const document::Document& document, const document::Lesson& lesson, std::size_t index) {
  std::string out;
  JsonWriter json(out, 1e4);
  const plan::OpeningPlan& of = document.plan.openings[index];
  const practice::Display display = document.practice->display;
  json.beginObject();
  head(json, document, index);
  json.member("fit", fitWords(of.stand, document.findings.bases[index], display));
  findings(json, document.findings.openings[index]);
  readings(json, document.job.openings[index], of.as_built, display);
  drawing(json, of);
  places(json, "packers", of, of.packing.points, display, [&](const plan::PackingPoint& point) {
    json.members("gap", words::figure(point.gap, display), "stack", plan::stackWords(point, display));
  });
  places(json, "fixings", of, of.fixings.points, display, [&](const plan::Fixing& point) {
    const bool none = point.screw < 0;
    json.member("screw", none ? "none in stock is long enough"
                              : std::string(of.fixings.screws[static_cast<std::size_t>(point.screw)].name));
  });
  work(json, document, lesson, index);
  json.endObject();
  return out;
}

std::string exerciseJson(const document::Exercise& exercise) {
  std::string out;
  JsonWriter json(out);
  const document::Task& task = *exercise.task;
  json.beginObject().members("title", task.title, "asked", task.asked, "judged", exercise.judged, "solved",
                             exercise.solved, "score", document::scoreWords(exercise));
  json.array("cards", exercise.order, [&](plan::StepKind kind) {
    const auto is = [&](const plan::Step& step) { return step.kind == kind; };
    json.value(std::find_if(task.steps.begin(), task.steps.end(), is)->title);
  });
  json.array("questions", upTo(task.questions.size()), [&](std::size_t i) {
    const document::Question& question = task.questions[i];
    json.beginObject().members("asks", question.asks, "given", question.given, "several", question.several);
    json.array("options", upTo(question.options.size()), [&](std::size_t option) {
      json.object("words", question.options[option].words, "picked", bool{exercise.picked[i][option]});
    });
    json.endObject();
  });
  json.array("said", exercise.said,
             [&](const document::Said& each) { json.object("good", each.good, "words", each.words); });
  json.endObject();
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
  json.beginObject().members("title", document.job.title, "file", document.path.filename().string(), "of",
                             words::jobWords(document.job), "inches", display == practice::Display::InchFractions);
  json.member("verdict", check::toWord(document.findings.verdict));
  json.member("summary", check::summaryOf(document.findings.verdicts)).member("cautions", document.findings.cautions);
  json.array("layers", upTo(scene::kLayers),
             [&](std::size_t i) { json.value(scene::nameOf(static_cast<scene::Layer>(i))); });
  json.array("openings", upTo(document.job.openings.size()), [&](std::size_t i) {
    json.beginObject();
    head(json, document, i);
    json.endObject();
  });
  json.endObject();
  return out;
}

std::string measurementsCsv(const document::Document& document) {
  std::string out = "opening,reading,value\r\n";  // readMeasurements knows these headings
  for (const job::Opening& at : document.job.openings) {
    for (std::size_t i = 0; i < job::kTapeReadings; ++i) {
      const auto reading = static_cast<job::TapeReading>(i);
      const auto value = job::valueOf(at.measured, reading);
      if (!value) continue;  // a reading that wasn't taken has no row
      out += exchange::csvField(at.name) + "," + job::infoOf(reading).name + "," + job::toText(*value) + " mm\r\n";
    }
  }
  return out;
}

}  // namespace sillwright::pocket
