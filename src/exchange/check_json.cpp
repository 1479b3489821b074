#include "exchange/check_json.h"

#include <algorithm>
#include <cmath>

#include "check/judge.h"
#include "exchange/json.h"
#include "exchange/model_parts.h"
#include "plan/frame/frame.h"
#include "plan/panes.h"
#include "plan/work/order_of_work.h"
#include "words/text.h"

namespace sillwright::exchange {
namespace {

constexpr const char* kFormat = "sillwright-check/2";
constexpr double kParts = 1e4;  ///< To a ten-thousandth: finer than anything that is measured or planned.

/// A force, to 0.1 N: its parts are known no better.
double force(double newtons) { return std::round(newtons * 10) / 10; }

std::array<double, 2> at(const plan::Point& point) { return {point.x, point.z}; }

void writeFindings(JsonWriter& json, const std::vector<check::Finding>& findings) {
  json.array("findings", findings, [&](const check::Finding& finding) {
    const auto figure = [&](std::optional<double> value) {
      return value && finding.unit == "N" ? std::optional(force(*value)) : value;
    };
    const auto status = finding.status ? std::optional(practice::toWord(*finding.status)) : std::nullopt;
    json.newLine().object("about", finding.about, "severity", check::toWord(finding.severity), "say", finding.say,
                          "measured", figure(finding.measured), "limit", figure(finding.limit), "unit",
                          ifAny(finding.unit), "source", ifAny(finding.source), "status", status, "remedy",
                          ifAny(finding.remedy), "caution", ifAny(finding.caution));
  });
}

/// As plan::ShapeFrom.
constexpr std::array<const char*, 3> kFromWords{"planned", "measured", "mixed"};

void writeReadings(JsonWriter& json, const plan::AsBuilt& built) {
  json.array("readings", built.readings, [&](const auto& reading) {
    if (!reading.read) return;  // only a reading that was taken has a residual
    json.object("reading", plan::keyOf(reading.reading), "value", reading.value, "residual", reading.residual,
                "standardised", reading.standardised, "redundancy", reading.redundancy);
  });
  std::vector<const char*> suspects;
  for (std::size_t i = 0; i < plan::kAllReadings; ++i) {  // `suspects` has a bit per Reading, the middles too
    if ((built.suspects >> i & 1U) != 0) suspects.push_back(plan::keyOf(static_cast<plan::Reading>(i)));
  }
  json.member("suspects", suspects);
}

void writeAsBuilt(JsonWriter& json, const plan::AsBuilt& built) {
  static constexpr std::array<const char*, 4> kCorners{"BL", "BR", "TR", "TL"};  // in the order of plan::Corner
  json.key("as_built").beginObject();
  json.member("from", kFromWords[static_cast<std::size_t>(built.from)]);
  json.key("corners").beginObject();
  for (std::size_t i = 0; i < 4; ++i) json.member(kCorners[i], at(built.shape.corner[i]));
  if (built.shape.peak) json.member("peak", at(*built.shape.peak));
  json.endObject().key("sigma").beginObject();
  for (std::size_t i = 1; i < 4; ++i) {  // the lower left corner is the origin and has no doubt
    // A variance can come out a rounding below zero where a coordinate is held exactly.
    const auto sigma = [&](std::size_t row) { return std::sqrt(std::max(0.0, built.covariance[row][row])); };
    json.member(kCorners[i], std::array{sigma(2 * (i - 1)), sigma(2 * (i - 1) + 1)});  // x and z of the corner
  }
  const auto& bow = built.shape.bow;  // the readings tell one bow for both edges of a pair
  json.endObject().key("bow").object("jambs", (bow.left + bow.right) / 2, "sill_head", (bow.sill + bow.head) / 2);
  json.members("twist", built.twist, "out_of_square", built.out_of_square, "chi_square", built.chi_square, "freedom",
               built.freedom);
  writeReadings(json, built);
  json.endObject();
}

/// As plan::RemedyKind.
constexpr std::array<const char*, 6> kRemedyWords{"take off the stud", "take off the sill", "take off at the head",
                                                  "order narrower",    "order lower",       "turned, not a fit"};

void writePlace(JsonWriter& json, const plan::OpeningPlan& planned) {
  const auto& stand = planned.stand;
  const auto& gaps = stand.gaps;
  json.key("place").beginObject();
  json.members("fits", stand.fits, "spare", stand.spare, "spare_sigma", stand.spare_sigma, "chance", stand.chance,
               "unit_tolerance", stand.unit_tolerance);
  json.key("least").object("left", stand.least.left, "right", stand.least.right, "sill", stand.least.sill, "head",
                           stand.least.head);
  json.members("x", stand.x, "z", stand.z);
  json.key("gaps").object("left", gaps.left, "right", gaps.right, "sill", gaps.sill, "head", gaps.head);
  json.key("governed_by").beginArray();
  for (int i = 0; i < stand.governors; ++i) {  // the array behind has room for three
    const auto& governor = stand.governed_by[static_cast<std::size_t>(i)];
    json.object("side", plan::toWord(governor.side), "end", plan::toWord(governor.side, governor.at), "weight",
                governor.weight);
  }
  json.endArray().array("remedies", planned.remedies, [&](const plan::Remedy& remedy) {
    json.object("say", kRemedyWords[static_cast<std::size_t>(remedy.kind)], "part", plan::toWord(remedy.side), "amount",
                remedy.amount);
  });
  json.members("largest_unit", stand.largest_unit, "order", stand.order).endObject();
}

void writePacking(JsonWriter& json, const plan::Packing& packing) {
  json.array("packing", packing.points, [&](const plan::PackingPoint& point) {
    const auto& stack = point.stack;  // its array has room for more pieces than it holds
    const std::vector<double> pieces(stack.piece.begin(), stack.piece.begin() + stack.pieces);
    json.object("side", plan::toWord(point.side), "at", point.at, "gap", point.gap, "stack", pieces, "left_over",
                point.left_over, "backing", point.backing > 0 ? std::optional(point.backing) : std::nullopt);
  });
}

void writeFixings(JsonWriter& json, const plan::Fixings& fixings) {
  json.array("fixings", fixings.points, [&](const plan::Fixing& fixing) {
    json.beginObject().members("side", plan::toWord(fixing.side), "at", fixing.at);
    if (fixing.screw >= 0) {  // −1: none in stock is long enough
      const auto& screw = fixings.screws[static_cast<std::size_t>(fixing.screw)];
      json.members("screw", screw.name, "length", screw.length, "embedment", fixing.embedment);
    }
    json.member("demand_n", force(fixing.demand_n));
    if (fixing.capacity_n) {
      json.members("capacity_n", force(*fixing.capacity_n), "mode",
                   fixing.withdrawal ? "withdrawal" : plan::toWord(fixing.mode));
    }
    if (fixing.screw >= 0) json.member("past_stud", fixing.past_stud);  // last: the order is fixed
    json.endObject();
  });
}

void writePiece(JsonWriter& json, const plan::Piece& piece, const std::vector<plan::StepKind>& steps) {
  json.beginObject().members("part", piece.name, "width", piece.width, "length", piece.length);
  json.member("step", plan::stepNumber(steps, piece.step));
  if (!piece.folds.empty())
    json.members("folds", piece.folds, "fall_degrees", piece.fall_degrees, "stop_end", piece.stop_end);
  json.endObject();
}

/// Pieces to cut, each with its number in the opening's own order of work; laps; and where the water runs.
void writeWeather(JsonWriter& json, const plan::OpeningPlan& planned) {
  const auto& weather = planned.weather;
  const auto& water = planned.water;
  const auto steps = plan::stepsAt(planned);  // a piece names its step by its number in this opening's list
  const auto leak = [&](const plan::Leak& one) {
    std::vector<std::string_view> laps;
    for (const std::int32_t sheet : {one.upper, one.lower}) {  // the lap at fault; a sheet is −1 where there is none
      if (sheet >= 0) laps.push_back(weather.skin.sheets[static_cast<std::size_t>(sheet)].name);
    }
    json.object("source", plan::toWord(one.source), "x", (one.x_low + one.x_high) / 2, "z", one.z, "say", one.say,
                "laps", laps);  // x is the middle of the strip in which it gets in
  };
  json.key("weather").beginObject();
  json.array("pieces", weather.pieces, [&](const plan::Piece& piece) { writePiece(json, piece, steps); });
  json.array("laps", weather.laps, [&](const plan::Lap& lap) {
    const auto source = lap.source == nullptr ? std::nullopt : std::optional(practice::cite(*lap.source));
    json.object("upper", lap.upper, "lower", lap.lower, "lap", lap.lap, "least", lap.least, "source", source);
  });
  json.key("water").beginObject().members("strips", water.strips, "paths", water.traced);
  json.array("behind_cladding", water.behind_cladding, leak).array("leaks", water.leaks, leak);
  json.endObject().endObject();
}

/// How each light opens, and what is clear then.
void writeLights(JsonWriter& json, const plan::UnitSpec& unit) {
  const plan::UnitParts parts = plan::partsOf(unit);
  json.array("lights", parts.light, [&](const plan::LightParts& light) {
    json.beginObject().members("row", light.row, "column", light.column, "kind", words::nameOf(light.kind), "opens",
                               ifAny(plan::opensWords(parts, light)));
    if (const auto clear = plan::clearOpening(parts, light))
      json.key("clear").object("width", clear->width(), "height", clear->height());
    if (const auto air = plan::airOpening(parts, light)) json.member("ventilation_m2", *air * 1e-6);  // mm² → m²
    json.endObject();
  });
}

void writeUnit(JsonWriter& json, const plan::UnitSpec& unit, const plan::UnitMass& mass) {
  json.key("unit").beginObject().members("mass_kg", mass.total_kg, "people", mass.people);
  if (mass.mechanical_help) json.member("mechanical_help", true);  // more than the largest team may lift
  if (mass.panel_kg > 0) json.members("panel_out_kg", mass.panel_kg, "lifted_kg", mass.lifted());  // 0: lifted whole
  if (!mass.parts_kg.empty()) json.member("parts_kg", mass.parts_kg);  // empty: the unit is made in one
  if (!mass.leaf_kg.empty()) json.member("leaf_kg", mass.leaf_kg);
  writeLights(json, unit);
  json.member("glass_by_light", ifAny(plan::glassByLight(unit, practice::Display::Millimetres))).endObject();
}

void writeJob(JsonWriter& json, const job::Job& job, const practice::Practice& practice) {
  json.key("job").beginObject().members("title", job.title, "file", job.file, "practice", practice.name);
  if (job.wind) {
    json.key("wind").beginObject();
    if (const auto* name = std::get_if<std::string>(&*job.wind)) json.member("class", *name);
    // Away from corners; an opening near one takes more.
    const plan::WindLoad wind = plan::windOn(job.wind, false, practice);
    json.members("ultimate_kpa", wind.ultimate_kpa, "serviceability_kpa", wind.serviceability_kpa, "water_kpa",
                 wind.water_kpa);
    json.endObject();
  }
  json.endObject();
}

}  // namespace

void addWall(std::string& out, const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
             const check::Findings& findings, std::size_t index) {
  JsonWriter json(out, kParts);
  const std::string& wall = job.walls[index].name;
  UniqueNames names;  // names begin with the wall's or an opening's, so that no other wall has them
  json.newLine().beginObject().member("name", wall);
  json.array("members", plan.walls[index].frame.members, [&](const plan::Member& member) {
    const std::string name =
        partName(member.opening < 0 ? wall : job.openings[static_cast<std::size_t>(member.opening)].name,
                 plan::nameOf(member.part, practice.words));
    json.newLine().object("part", plan::toWord(member.part), "name", names.take(name), "x", member.corner[0].x, "z",
                          member.corner[0].z, "length", member.length, "width", member.width, "depth", member.depth,
                          "angle", member.cut_degrees, "slope", member.slope_degrees);
  });
  writeFindings(json, findings.walls[index]);
  json.endObject();
}

void addOpening(std::string& out, const job::Job& job, const plan::Plan& plan, const check::Findings& findings,
                std::size_t index) {
  JsonWriter json(out, kParts);
  const auto& opening = job.openings[index];
  const auto& planned = plan.openings[index];
  json.newLine().beginObject();
  json.members("name", opening.name, "tag", opening.tag, "wall", job.walls[opening.wall].name, "verdict",
               check::toWord(findings.verdicts[index]), "basis", check::toWord(findings.bases[index]));
  writeAsBuilt(json, planned.as_built);
  writePlace(json, planned);
  writePacking(json, planned.packing);
  writeFixings(json, planned.fixings);
  writeWeather(json, planned);
  writeUnit(json, planned.unit, planned.mass);
  writeFindings(json, findings.openings[index]);
  json.endObject();
}

void writeReport(const job::Job& job, const practice::Practice& practice, const check::Findings& findings,
                 const std::vector<std::string>& walls, const std::vector<std::string>& openings,
                 const base::Sink& sink) {
  std::string out;
  JsonWriter json(out, kParts);
  const auto list = [&](const char* name, const std::vector<std::string>& texts) {
    json.key(name).beginArray();
    sink(out);  // what comes before them; the texts of a large job are not copied once more
    for (std::size_t i = 0; i < texts.size(); ++i) {
      if (i > 0) sink(",");
      sink(texts[i]);
    }
    out.clear();
    json.endArray().newLine();
  };
  json.beginObject().member("format", kFormat);
  writeJob(json, job, practice);
  json.members("verdict", check::toWord(findings.verdict), "basis", check::toWord(findings.basis));
  list("walls", walls);
  list("openings", openings);
  json.member("cautions", findings.cautions).endObject();
  sink(out += '\n');
}

check::Verdict reportJob(const job::Job& job, const practice::Practice& practice, const base::Sink& sink,
                         base::Threads threads) {
  const auto wall = [&](std::string& out, const check::Part& part, std::size_t i) {
    addWall(out, part.job, practice, part.plan, part.findings, i);
  };
  const auto opening = [](std::string& out, const check::Part& part, std::size_t i) {
    addOpening(out, part.job, part.plan, part.findings, i);
  };
  const check::Said said = check::sayInParts(job, practice, wall, opening, threads);
  writeReport(job, practice, said.whole, said.walls, said.openings, sink);
  return said.whole.verdict;
}

std::string errorsJson(const std::vector<base::Error>& errors) {
  std::string out;
  JsonWriter json(out, kParts);
  json.beginObject().member("format", kFormat);
  json.array("errors", errors, [&](const base::Error& error) {
    json.object("file", error.file, "line", error.at.line, "column", error.at.column, "key", error.key, "say",
                error.say);
  });
  json.endObject();
  return out + '\n';
}

}  // namespace sillwright::exchange
