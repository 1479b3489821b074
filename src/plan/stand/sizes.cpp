#include <algorithm>
#include <cmath>

#include "plan/stand/place_parts.h"

namespace sillwright::plan {
namespace {

/// By how much the unit may grow, the one way or the other.
LargestSizes stepsOf(const Choice& choice) {
  LargestStep width, height;
  forEachBasis(choice, [&](const Basis& basis) {
    const double value = basis.value();
    width.hold(value, basis.sum([](const Bound& bound) { return bound.by_width; }));
    height.hold(value, basis.sum([](const Bound& bound) { return bound.by_height; }));
  });
  return {width.step(), height.step()};
}

}  // namespace

LargestSizes largestSizes(const Profiles& edges, const Clearing& clearing, const LeastGaps& least) {
  const double width = clearing.width();
  const double height = clearing.height();
  LargestSizes steps = stepsOf(clearing.centralChoice());
  // The central choice is the answer where no unit at least as large as the one it allows could touch any other line:
  // that one's stands hold the stands of all larger ones.
  const auto settled = [&](double w, double h) {
    if (w >= width && h >= height && clearing.centralSuffices(0)) return true;
    return std::isfinite(w) && std::isfinite(h) && Clearing(edges, w, h, least).centralSuffices(0);
  };
  if (clearing.bowedInward() && !(settled(width + steps.width, height) && settled(width, height + steps.height))) {
    clearing.forEachChoice([&](const Choice& choice) {
      const LargestSizes other = stepsOf(choice);
      steps = {std::max(steps.width, other.width), std::max(steps.height, other.height)};
    });
  }
  return {width + steps.width, height + steps.height};
}

double roundedDown(double size, double step) {
  if (!(size > 0)) return 0;
  // A size that misses its step by rounding only still counts as that step.
  return step > 0 ? std::floor(size / step + 1e-9) * step : size;
}

std::array<double, 2> cutToMiddle(const Profiles& edges, const Clearing& clearing, const LeastGaps& least,
                                  double step) {
  const auto cut = [step](double size, double room) { return room < -kTouch ? roundedDown(size + room, step) : size; };
  const auto room = [](const Clearing& in, Side near, Side far) {
    const auto [x, z] = in.middle();
    return in.gap(near, x, z) - in.leastGap(near) + in.gap(far, x, z) - in.leastGap(far);
  };
  const double width = cut(clearing.width(), room(clearing, Side::Left, Side::Right));
  const Clearing narrowed = width < clearing.width() ? Clearing(edges, width, clearing.height(), least) : clearing;
  return {width, cut(clearing.height(), room(narrowed, Side::Sill, Side::Head))};
}

}  // namespace sillwright::plan
