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

/// What first-fit decreasing buys, the least over the stock lengths: bars of one length (of a longer one for a piece
/// that needs it), then each swapped for the shortest that holds what is in it.
inline double firstFitDecreasing(const CutJob& job) {
  std::vector<double> stock = job.rules.stock;
  std::sort(stock.begin(), stock.end());
  std::vector<double> sizes;
  for (const auto& piece : job.pieces) sizes.insert(sizes.end(), static_cast<std::size_t>(piece.count), piece.length);
  std::sort(sizes.rbegin(), sizes.rend());
  const auto shortestFor = [&](double filled) { return *std::lower_bound(stock.begin(), stock.end(), filled - 1e-6); };
  double least = INFINITY;
  for (const double length : stock) {
    struct Bar {
      double room = 0;
      double filled = 0;
    };
    std::vector<Bar> bars;
    for (const double size : sizes) {
      const auto has_room = [&](const Bar& bar) { return bar.filled + job.rules.kerf + size <= bar.room + 1e-6; };
      const auto bar = std::find_if(bars.begin(), bars.end(), has_room);
      if (bar != bars.end()) {
        bar->filled += job.rules.kerf + size;
      } else {
        bars.push_back({std::max(length, shortestFor(size)), size});
      }
    }
    double bought = 0;
    for (const Bar& bar : bars) bought += shortestFor(bar.filled);
    least = std::min(least, bought);
  }
  return least;
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
