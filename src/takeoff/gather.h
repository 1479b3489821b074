/// Inside the room: the take-off's parts, each gathered on its own.
#pragma once

#include <map>
#include <vector>

#include "takeoff/takeoff.h"

namespace sillwright::takeoff {

/// Timber without its cutting.
[[nodiscard]] std::vector<TimberSection> gatherTimber(const job::Job& job, const plan::Plan& plan,
                                                      double longest_stock);

/// Cuts the plates of one wall that are longer than any stock: pieces as long as can be that meet over the middle of a
/// common stud, plates above each other over different ones. Where a piece reaches no stud it is as long as the stock.
class PlateJoints {
 public:
  PlateJoints(const plan::Frame& frame, double longest_stock);
  /// The pieces of one plate, left to right; their sum is the plate's length to the nearest tenth.
  [[nodiscard]] std::vector<double> cut(const plan::Member& plate);

 private:
  std::vector<double> studs_;
  double longest_;
  std::map<plan::MemberPart, std::vector<double>> taken_;  // joints made so far, x
};

/// Flashings, folded metal and tapes.
void gatherWeather(const plan::Plan& plan, Takeoff& takeoff);
void gatherPacking(const plan::Plan& plan, Takeoff& takeoff);
void gatherFixings(const plan::Plan& plan, Takeoff& takeoff);
void gatherSealing(const practice::Practice& practice, const plan::Plan& plan, Takeoff& takeoff);
void gatherAreas(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, Takeoff& takeoff);
void gatherTools(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, Takeoff& takeoff);

/// A length to the nearest tenth, so that equal pieces are equal.
[[nodiscard]] double toTenth(double mm);

}  // namespace sillwright::takeoff
