#include "practice/strength.h"

namespace sillwright::practice {

namespace {

constexpr double kPaPerKpa = 1000;       // kg/m³ and m/s make Pa
constexpr std::string_view kBy = " x ";  // a screw is named "8g x 75"

struct Pressure {
  std::optional<double> kpa;
  const Figure* from = nullptr;
};

/// A pressure that is given stands; else gust and coefficient make one.
Pressure pressureFrom(const Rule& given, const Rule& speed, const Rule& coefficient, const Rule& air_density) {
  if (given) return {given->value, &*given};
  if (speed && coefficient && air_density) {  // the speed's source is named for all
    return {coefficient->value * gustPressure(speed->value, air_density->value), &*speed};
  }
  return {};
}

}  // namespace

double gustPressure(double speed, double air_density) { return 0.5 * air_density * speed * speed / kPaPerKpa; }

Pressures pressures(const Wind& wind, const WindClass& wind_class, bool at_corner) {
  const Rule& coefficient = at_corner ? wind_class.corner_coefficient : wind_class.general_coefficient;
  const Pressure ultimate = pressureFrom(at_corner ? wind_class.corner_ultimate_kpa : wind_class.ultimate_kpa,
                                         wind_class.ultimate_speed, coefficient, wind.air_density);
  const Pressure service = pressureFrom(at_corner ? wind_class.corner_service_kpa : wind_class.service_kpa,
                                        wind_class.service_speed, coefficient, wind.air_density);
  Pressures answer{ultimate.kpa, service.kpa, std::nullopt, ultimate.from, nullptr};
  if (wind_class.water_kpa) {  // a class has one, at corners too
    answer.water = wind_class.water_kpa->value;
    answer.from_water = &*wind_class.water_kpa;
  } else if (wind.water_share && wind_class.service_kpa) {  // it relates to the table's figure, not to a derived one
    answer.water = wind.water_share->value * wind_class.service_kpa->value;
    answer.from_water = &*wind.water_share;
  }
  return answer;
}

std::optional<Screw> findScrew(const Strength& strength, std::string_view name) {
  const std::size_t by = name.find(kBy);  // what follows must be a length
  if (by == std::string_view::npos) return std::nullopt;
  const Gauge* gauge = findNamed(strength.gauges, name.substr(0, by));
  const std::optional<double> length = readLength(name.substr(by + kBy.size()));
  if (gauge == nullptr || !length || *length <= 0) return std::nullopt;
  return Screw{gauge, *length};
}

}  // namespace sillwright::practice
