/// Random cutting jobs, and whether a plan can be sawn.
#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <span>
#include <vector>

#include "support/catch.h"
#include "support/openings.h"
#include "takeoff/cutting.h"

namespace sillwright::testing {

struct CutJob {
  std::vector<takeoff::CutPiece> pieces;
  takeoff::CutRules rules;
};

/// Whole millimetres, some lengths as long as a stock length.
inline CutJob smallJob(Dice& dice) {
  CutJob job;
  const std::vector<double> all{2400, 2700, 3000, 3600, 4200, 4800, 5400, 6000};
  for (const double length : all) {
    if (dice.upTo(2) == 0) job.rules.stock.push_back(length);
  }
  job.rules.stock.push_back(6000);
  job.rules.kerf = dice.upTo(4);
  const int types = 2 + dice.upTo(5);
  for (int i = 0; i < types; ++i) {
    const double length = dice.upTo(7) == 0 ? 2400 : 400 + dice.upTo(4200);
    job.pieces.push_back({length, 1 + dice.upTo(6)});
  }
  return job;
}

/// Every piece is in a bar as often as it is wanted, every bar holds its pieces and the cuts between them, and the
/// plan's sums are those of its bars.
inline void requireSawable(const CutJob& job, const takeoff::CutPlan& plan) {
  std::map<long, int> left;
  for (const auto& piece : job.pieces) left[std::lround(piece.length * 10)] += piece.count;
  for (const auto& piece : plan.too_long) left[std::lround(piece.length * 10)] -= piece.count;
  double bought = 0;
  for (const auto& bar : plan.bars) {
    REQUIRE(bar.times > 0);
    REQUIRE(!bar.pieces.empty());
    REQUIRE(std::count(job.rules.stock.begin(), job.rules.stock.end(), bar.stock) > 0);
    double filled = job.rules.kerf * static_cast<double>(bar.pieces.size() - 1);
    for (const double piece : bar.pieces) {
      filled += piece;
      left[std::lround(piece * 10)] -= bar.times;
    }
    REQUIRE(filled <= bar.stock + 1e-6);
    REQUIRE(bar.offcut == Approx(std::max(0.0, bar.stock - filled - job.rules.kerf)).margin(1e-6));
    bought += bar.stock * bar.times;
  }
  for (const auto& [length, count] : left) {
    CAPTURE(length);
    REQUIRE(count == 0);
  }
  REQUIRE(plan.bought == Approx(bought));
  REQUIRE(plan.bound <= plan.bought + 1e-9);
}

}  // namespace sillwright::testing
