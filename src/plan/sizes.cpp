#include "plan/sizes.h"

#include <algorithm>
#include <cmath>

#include "plan/clearing.h"

namespace sillwright::plan {
namespace {

double byWidth(const Bound& bound) {
  return bound.by_width;
}
double byHeight(const Bound& bound) {
  return bound.by_height;
}

// The largest step of all choices. The central one is tried first; it is the answer where no unit at least as large
// as the one it allows could touch any other line.
template <class Rate, class Resized>
double largestGrowth(const Clearing& clearing, Rate rate, Resized&& resized) {
  double step = largestStep(clearing.centralChoice(), rate);
  if (!clearing.bowedInward()) return step;
  if (std::isfinite(step) && resized(step).centralSuffices(0)) return step;
  clearing.forEachChoice([&](const Choice& choice) { step = std::max(step, largestStep(choice, rate)); });
  return step;
}

}  // namespace

double largestWidth(const OpeningShape& opening, double width, double height, const LeastGaps& gaps) {
  const Clearing clearing(opening, width, height, gaps);
  return width +
         largestGrowth(clearing, byWidth, [&](double step) { return Clearing(opening, width + step, height, gaps); });
}

double largestHeight(const OpeningShape& opening, double width, double height, const LeastGaps& gaps) {
  const Clearing clearing(opening, width, height, gaps);
  return height +
         largestGrowth(clearing, byHeight, [&](double step) { return Clearing(opening, width, height + step, gaps); });
}

double roundedDown(double size, double step) {
  if (!(size > 0)) return 0;
  // A size that misses its step by rounding only still counts as that step.
  return step > 0 ? std::floor(size / step + 1e-9) * step : size;
}

std::array<double, 2> cutToMiddle(const OpeningShape& opening, double width, double height, const LeastGaps& gaps,
                                  double step) {
  const auto cut = [step](double size, double room) { return room < -kTouch ? roundedDown(size + room, step) : size; };
  const auto room = [&](const Clearing& clearing, Side near, Side far) {
    const Point middle = clearing.middle();
    return clearing.gap(near, middle.x, middle.z) - clearing.leastGap(near) + clearing.gap(far, middle.x, middle.z) -
           clearing.leastGap(far);
  };
  const double cut_width = cut(width, room({opening, width, height, gaps}, Side::Left, Side::Right));
  const double cut_height = cut(height, room({opening, cut_width, height, gaps}, Side::Sill, Side::Head));
  return {cut_width, cut_height};
}

}  // namespace sillwright::plan
