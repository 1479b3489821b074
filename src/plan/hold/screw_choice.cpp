#include "plan/hold/screw_choice.h"

#include <algorithm>
#include <span>
#include <string>
#include <tuple>

namespace sillwright::plan {
namespace {

constexpr double kRounding = 1e-9;

void sortStock(ScrewStock& stock) {
  std::sort(stock.begin(), stock.end(), [](const StockScrew& a, const StockScrew& b) {
    return std::tie(a.length, a.gauge->shank.value, a.name) < std::tie(b.length, b.gauge->shank.value, b.name);
  });
}

ScrewStock screwsNamed(std::span<const std::string> names, const practice::Practice& practice) {
  ScrewStock stock;
  stock.reserve(names.size());
  for (const std::string& name : names) {
    if (const auto screw = practice::findScrew(practice.strength, name)) {
      stock.push_back({screw->gauge, screw->length, name});
    }
  }
  sortStock(stock);
  return stock;
}

}  // namespace

ScrewStock screwsAtHand(const job::Job& job, const practice::Practice& practice) {
  const bool own = job.stock && !job.stock->screws.empty();
  return screwsNamed(own ? job.stock->screws : practice.stock.screws, practice);
}

ScrewStock screwsNamed(const std::string& name, const practice::Practice& practice) {
  return screwsNamed(std::span(&name, 1), practice);
}

ScrewStock screwsOf(const practice::Gauge& gauge) {
  ScrewStock stock;
  for (const double length : gauge.lengths) stock.push_back({&gauge, length, {}});
  sortStock(stock);
  return stock;
}

double embedmentWanted(const practice::Gauge& gauge, const practice::Fixing& rules) {
  const double least = rules.embedment_least ? rules.embedment_least->value : 0;
  const double diameters = rules.embedment_diameters ? rules.embedment_diameters->value * gauge.shank.value : 0;
  return std::max(least, diameters);
}

const StockScrew* chooseScrew(const ScrewStock& stock, double before, const practice::Fixing& rules, double asked) {
  const auto found = std::find_if(stock.begin(), stock.end(), [&](const StockScrew& screw) {
    const double wanted = asked > 0 ? asked : embedmentWanted(*screw.gauge, rules);
    return screw.length - before >= wanted - kRounding && screw.length > before;
  });
  return found == stock.end() ? nullptr : &*found;
}

double lengthWanted(double before, const practice::Practice& practice) {
  double wanted = 0;
  for (const practice::Gauge& gauge : practice.strength.gauges) {
    const double length = before + embedmentWanted(gauge, practice.strength.fixing);
    if (wanted == 0 || length < wanted) wanted = length;
  }
  return wanted;
}

}  // namespace sillwright::plan
