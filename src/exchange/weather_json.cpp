#include "exchange/weather_json.h"

#include <algorithm>

#include "plan/work/order_of_work.h"
#include "practice/figure.h"

namespace sillwright::exchange {
namespace {

void writePieces(JsonWriter& json, const std::vector<plan::Piece>& pieces, const std::vector<plan::StepKind>& steps) {
  json.key("pieces").beginArray();
  for (const auto& piece : pieces) {
    json.beginObject();
    json.member("part", piece.name).member("width", piece.width).member("length", piece.length);
    json.member("step", plan::stepNumber(steps, piece.step));
    if (!piece.folds.empty()) {
      json.key("folds").beginArray();
      for (const double fold : piece.folds) json.value(fold);
      json.endArray();
      json.member("fall_degrees", piece.fall_degrees).member("stop_end", piece.stop_end);
    }
    json.endObject();
  }
  json.endArray();
}

void writeLaps(JsonWriter& json, const std::vector<plan::Lap>& laps) {
  json.key("laps").beginArray();
  for (const auto& lap : laps) {
    json.beginObject().member("upper", lap.upper).member("lower", lap.lower).member("lap", lap.lap);
    if (lap.least) json.member("least", *lap.least);
    if (lap.source != nullptr) json.member("source", practice::cite(*lap.source));
    json.endObject();
  }
  json.endArray();
}

void writeLeaks(JsonWriter& json, const char* name, const plan::Skin& skin, const std::vector<plan::Leak>& leaks) {
  json.key(name).beginArray();
  for (const auto& leak : leaks) {
    json.beginObject().member("source", plan::toWord(leak.source));
    json.member("x", (leak.x_low + leak.x_high) / 2).member("z", leak.z).member("say", leak.say);
    json.key("laps").beginArray();
    for (const std::int32_t sheet : {leak.upper, leak.lower}) {
      if (sheet >= 0) json.value(skin.sheets[static_cast<std::size_t>(sheet)].name);
    }
    json.endArray().endObject();
  }
  json.endArray();
}

}  // namespace

void writeWeather(JsonWriter& json, const plan::OpeningPlan& planned) {
  const auto& weather = planned.weather;
  const auto& water = planned.water;
  json.key("weather").beginObject();
  writePieces(json, weather.pieces, plan::stepsAt(planned));
  writeLaps(json, weather.laps);
  json.key("water").beginObject();
  json.member("strips", water.strips).member("paths", static_cast<std::int64_t>(water.paths.size()));
  writeLeaks(json, "behind_cladding", weather.skin, water.behind_cladding);
  writeLeaks(json, "leaks", weather.skin, water.leaks);
  json.endObject().endObject();
}

}  // namespace sillwright::exchange
