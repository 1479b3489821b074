#include "exchange/check_parts.h"

#include <algorithm>
#include <cmath>

#include "exchange/json.h"
#include "exchange/weather_json.h"
#include "plan/frame/part_names.h"
#include "plan/panes.h"

namespace sillwright::exchange {
namespace {

constexpr const char* kFormat = "sillwright-check/2";
constexpr double kParts = 1e4;  ///< To a ten-thousandth: finer than anything that is measured or planned.

/// A force, to 0.1 N: its parts are known no better.
double force(double newtons) {
  return std::round(newtons * 10) / 10;
}

void pair(JsonWriter& json, double a, double b) {
  json.beginArray().value(a).value(b).endArray();
}

void writeFindings(JsonWriter& json, const std::vector<check::Finding>& findings) {
  json.key("findings").beginArray();
  for (const auto& finding : findings) {
    json.newLine().beginObject();
    json.member("about", finding.about);
    json.member("severity", check::toWord(finding.severity));
    json.member("say", finding.say);
    const bool is_force = finding.unit == "N";
    const auto figure = [&](double value) { return is_force ? force(value) : value; };
    if (finding.measured) json.member("measured", figure(*finding.measured));
    if (finding.limit) json.member("limit", figure(*finding.limit));
    if (!finding.unit.empty()) json.member("unit", finding.unit);
    if (!finding.source.empty()) json.member("source", finding.source);
    if (finding.status) json.member("status", practice::toWord(*finding.status));
    if (!finding.remedy.empty()) json.member("remedy", finding.remedy);
    if (!finding.caution.empty()) json.member("caution", finding.caution);
    json.endObject();
  }
  json.endArray();
}

void writeMember(JsonWriter& json, const plan::Member& member) {
  json.newLine().beginObject();
  json.member("part", plan::toWord(member.part));
  json.member("x", member.corner[0].x);
  json.member("z", member.corner[0].z);
  json.member("length", member.length);
  json.member("width", member.width);
  json.member("depth", member.depth);
  json.member("angle", member.cut_degrees);
  json.member("slope", member.slope_degrees);
  json.endObject();
}

void writeWall(JsonWriter& json, const job::Wall& wall, const plan::WallPlan& plan,
               const std::vector<check::Finding>& findings) {
  json.newLine().beginObject();
  json.member("name", wall.name);
  json.key("members").beginArray();
  for (const auto& member : plan.frame.members) writeMember(json, member);
  json.endArray();
  writeFindings(json, findings);
  json.endObject();
}

/// As plan::ShapeFrom.
constexpr std::array<const char*, 3> kFromWords{"planned", "measured", "mixed"};

void writeReadings(JsonWriter& json, const plan::AsBuilt& built) {
  json.key("readings").beginArray();
  for (const auto& reading : built.readings) {
    if (!reading.read) continue;
    json.beginObject();
    json.member("reading", plan::keyOf(reading.reading));
    json.member("value", reading.value);
    json.member("residual", reading.residual);
    json.member("standardised", reading.standardised);
    json.member("redundancy", reading.redundancy);
    json.endObject();
  }
  json.endArray();
  json.key("suspects").beginArray();
  for (std::size_t i = 0; i < plan::kAllReadings; ++i) {
    if ((built.suspects >> i & 1U) != 0) json.value(plan::keyOf(static_cast<plan::Reading>(i)));
  }
  json.endArray();
}

void writeAsBuilt(JsonWriter& json, const plan::AsBuilt& built) {
  static constexpr std::array<const char*, 4> kCorners{"BL", "BR", "TR", "TL"};
  json.key("as_built").beginObject();
  json.member("from", kFromWords[static_cast<std::size_t>(built.from)]);
  json.key("corners").beginObject();
  for (std::size_t i = 0; i < 4; ++i) {
    json.key(kCorners[i]);
    pair(json, built.shape.corner[i].x, built.shape.corner[i].z);
  }
  json.endObject();
  json.key("sigma").beginObject();
  for (std::size_t i = 1; i < 4; ++i) {
    const std::size_t row = 2 * (i - 1);
    json.key(kCorners[i]);
    // A variance can come out a rounding below zero where a coordinate is held exactly.
    pair(json, std::sqrt(std::max(0.0, built.covariance[row][row])),
         std::sqrt(std::max(0.0, built.covariance[row + 1][row + 1])));
  }
  json.endObject();
  const auto& bow = built.shape.bow;
  json.key("bow")
      .beginObject()
      .member("jambs", (bow.left + bow.right) / 2)
      .member("sill_head", (bow.sill + bow.head) / 2)
      .endObject();
  if (built.twist) json.member("twist", *built.twist);
  json.member("out_of_square", built.out_of_square);
  json.member("chi_square", built.chi_square);
  json.member("freedom", built.freedom);
  writeReadings(json, built);
  json.endObject();
}

void writeGaps(JsonWriter& json, const plan::Gaps& gaps) {
  json.key("gaps").beginObject();
  json.key("left");
  pair(json, gaps.left[0], gaps.left[1]);
  json.key("right");
  pair(json, gaps.right[0], gaps.right[1]);
  json.key("sill");
  pair(json, gaps.sill[0], gaps.sill[1]);
  json.key("head");
  pair(json, gaps.head[0], gaps.head[1]);
  json.endObject();
}

/// As plan::RemedyKind.
constexpr std::array<const char*, 6> kRemedyWords{"take off the stud", "take off the sill", "take off at the head",
                                                  "order narrower",    "order lower",       "turned, not a fit"};

void writePlace(JsonWriter& json, const plan::OpeningPlan& planned) {
  const auto& stand = planned.stand;
  json.key("place").beginObject();
  json.member("fits", stand.fits);
  json.member("spare", stand.spare);
  json.member("spare_sigma", stand.spare_sigma);
  json.member("chance", stand.chance);
  json.member("unit_tolerance", stand.unit_tolerance);
  json.key("least").beginObject();
  json.member("left", stand.least.left).member("right", stand.least.right);
  json.member("sill", stand.least.sill).member("head", stand.least.head).endObject();
  json.member("x", stand.x);
  json.member("z", stand.z);
  writeGaps(json, stand.gaps);
  json.key("governed_by").beginArray();
  for (int i = 0; i < stand.governors; ++i) {
    const auto& governor = stand.governed_by[static_cast<std::size_t>(i)];
    json.beginObject()
        .member("side", plan::toWord(governor.side))
        .member("end", plan::toWord(governor.side, governor.at));
    json.member("weight", governor.weight).endObject();
  }
  json.endArray();
  json.key("remedies").beginArray();
  for (const auto& remedy : planned.remedies) {
    json.beginObject()
        .member("say", kRemedyWords[static_cast<std::size_t>(remedy.kind)])
        .member("part", plan::toWord(remedy.side));
    json.member("amount", remedy.amount).endObject();
  }
  json.endArray();
  json.key("largest_unit");
  pair(json, stand.largest_unit[0], stand.largest_unit[1]);
  json.key("order");
  pair(json, stand.order[0], stand.order[1]);
  json.endObject();
}

void writePacking(JsonWriter& json, const plan::Packing& packing) {
  json.key("packing").beginArray();
  for (const auto& point : packing.points) {
    json.beginObject();
    json.member("side", plan::toWord(point.side));
    json.member("at", point.at);
    json.member("gap", point.gap);
    json.key("stack").beginArray();
    for (int i = 0; i < point.stack.pieces; ++i)
      json.value(static_cast<double>(point.stack.piece[static_cast<std::size_t>(i)]));
    json.endArray();
    json.member("left_over", point.left_over);
    if (point.backing > 0) json.member("backing", point.backing);
    json.endObject();
  }
  json.endArray();
}

void writeFixings(JsonWriter& json, const plan::Fixings& fixings) {
  json.key("fixings").beginArray();
  for (const auto& fixing : fixings.points) {
    json.beginObject();
    json.member("side", plan::toWord(fixing.side));
    json.member("at", fixing.at);
    if (fixing.screw >= 0) {
      const auto& screw = fixings.screws[static_cast<std::size_t>(fixing.screw)];
      json.member("screw", screw.name).member("length", screw.length).member("embedment", fixing.embedment);
    }
    json.member("demand_n", force(fixing.demand_n));
    if (fixing.capacity_n) {
      json.member("capacity_n", force(*fixing.capacity_n));
      json.member("mode", fixing.withdrawal ? "withdrawal" : plan::toWord(fixing.mode));
    }
    if (fixing.screw >= 0) json.member("past_stud", fixing.past_stud);
    json.endObject();
  }
  json.endArray();
}

void writeUnit(JsonWriter& json, const plan::UnitSpec& unit, const plan::UnitMass& mass) {
  json.key("unit").beginObject().member("mass_kg", mass.total_kg);
  if (mass.people) json.member("people", *mass.people);
  if (mass.mechanical_help) json.member("mechanical_help", true);
  if (mass.panel_kg > 0) json.member("panel_out_kg", mass.panel_kg).member("lifted_kg", mass.lifted());
  if (!mass.parts_kg.empty()) {
    json.key("parts_kg").beginArray();
    for (const double kg : mass.parts_kg) json.value(kg);
    json.endArray();
  }
  const std::string glass = plan::glassByLight(unit, practice::Display::Millimetres);
  if (!glass.empty()) json.member("glass_by_light", glass);
  json.endObject();
}

void writeOpening(JsonWriter& json, const job::Job& job, const plan::Plan& plan, const check::Findings& findings,
                  std::size_t index) {
  const auto& opening = job.openings[index];
  json.newLine().beginObject();
  json.member("name", opening.name);
  if (opening.tag) json.member("tag", *opening.tag);
  json.member("wall", job.walls[opening.wall].name);
  json.member("verdict", check::toWord(findings.verdicts[index]));
  json.member("basis", check::toWord(findings.bases[index]));
  writeAsBuilt(json, plan.openings[index].as_built);
  writePlace(json, plan.openings[index]);
  writePacking(json, plan.openings[index].packing);
  writeFixings(json, plan.openings[index].fixings);
  writeWeather(json, plan.openings[index]);
  writeUnit(json, plan.openings[index].unit, plan.openings[index].mass);
  writeFindings(json, findings.openings[index]);
  json.endObject();
}

void writeJob(JsonWriter& json, const job::Job& job, const practice::Practice& practice) {
  json.key("job").beginObject();
  json.member("title", job.title);
  json.member("file", job.file);
  json.member("practice", practice.name);
  if (job.wind) {
    json.key("wind").beginObject();
    if (const auto* name = std::get_if<std::string>(&*job.wind)) json.member("class", *name);
    // Away from corners; an opening near one takes more.
    const plan::WindLoad wind = plan::windOn(job.wind, false, practice);
    if (wind.ultimate_kpa) json.member("ultimate_kpa", *wind.ultimate_kpa);
    if (wind.serviceability_kpa) json.member("serviceability_kpa", *wind.serviceability_kpa);
    if (wind.water_kpa) json.member("water_kpa", *wind.water_kpa);
    json.endObject();
  }
  json.endObject();
}

}  // namespace

void addWall(std::string& out, const job::Wall& wall, const plan::WallPlan& plan,
             const std::vector<check::Finding>& findings) {
  JsonWriter json(out, kParts);
  writeWall(json, wall, plan, findings);
}

void addOpening(std::string& out, const job::Job& job, const plan::Plan& plan, const check::Findings& findings,
                std::size_t index) {
  JsonWriter json(out, kParts);
  writeOpening(json, job, plan, findings, index);
}

void writeReport(const job::Job& job, const practice::Practice& practice, const check::Findings& findings,
                 const ReportTexts& texts, const Sink& sink) {
  std::string out;
  const auto list = [&](JsonWriter& json, const char* name, std::size_t count,
                        const std::function<std::string_view(std::size_t)>& text) {
    json.key(name).beginArray();
    sink(out);
    for (std::size_t i = 0; i < count; ++i) {
      if (i > 0) sink(",");
      sink(text(i));
    }
    out.clear();
    json.endArray();
  };
  JsonWriter json(out, kParts);
  json.beginObject();
  json.member("format", kFormat);
  writeJob(json, job, practice);
  json.member("verdict", check::toWord(findings.verdict));
  json.member("basis", check::toWord(findings.basis));
  list(json, "walls", job.walls.size(), texts.wall);
  json.newLine();
  list(json, "openings", job.openings.size(), texts.opening);
  json.newLine().key("cautions").beginArray();
  for (const auto& caution : findings.cautions) json.value(std::string_view{caution});
  json.endArray();
  json.endObject();
  out += '\n';
  sink(out);
}

std::string errorsJson(const std::vector<base::Error>& errors) {
  std::string out;
  JsonWriter json(out, kParts);
  json.beginObject();
  json.member("format", kFormat);
  json.key("errors").beginArray();
  for (const auto& error : errors) {
    json.beginObject();
    json.member("file", error.file);
    json.member("line", static_cast<int>(error.at.line));
    json.member("column", static_cast<int>(error.at.column));
    json.member("key", error.key);
    json.member("say", error.say);
    json.endObject();
  }
  json.endArray();
  json.endObject();
  out += '\n';
  return out;
}

}  // namespace sillwright::exchange
