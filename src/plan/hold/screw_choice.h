/// The screws at hand, and which of them goes in at a point: the shortest that is long enough, the thinner of two.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// A screw of the stock. Names and gauges live in the job and the practice, which must outlive it.
struct StockScrew {
  const practice::Gauge* gauge = nullptr;
  double length = 0;
  std::string_view name;  ///< Empty for one that isn't in stock.
};

/// Shortest first, then thinnest.
using ScrewStock = std::vector<StockScrew>;

/// The job's stock, else the practice's. Names the practice has no gauge for are left aside (they are errors of the
/// job, told by `disagreements`).
[[nodiscard]] ScrewStock screwsAtHand(const job::Job& job, const practice::Practice& practice);
/// The one screw that a schedule names, if the practice has its gauge. `name` must outlive it.
[[nodiscard]] ScrewStock screwsNamed(const std::string& name, const practice::Practice& practice);
/// Every length of a gauge that can be bought.
[[nodiscard]] ScrewStock screwsOf(const practice::Gauge& gauge);

/// Embedment that the practice asks of a gauge, point included, mm: the larger of a length and a number of shank
/// diameters; 0 where it names neither.
[[nodiscard]] double embedmentWanted(const practice::Gauge& gauge, const practice::Fixing& rules);

/// The first of the stock that reaches through `before` mm and has its embedment behind; nullptr: none does. `asked`
/// replaces the practice's embedment where it is above 0.
[[nodiscard]] const StockScrew* chooseScrew(const ScrewStock& stock, double before, const practice::Fixing& rules,
                                            double asked = 0);

/// The length that would do with the thinnest gauge of the practice, mm.
[[nodiscard]] double lengthWanted(double before, const practice::Practice& practice);

}  // namespace sillwright::plan
