// Where lights and panels of a unit meet: mullions, transoms, couplings, meeting stiles and rails.
#include <algorithm>

#include "plan/panes.h"
#include "sheet/drawing/section.h"

namespace sillwright::sheet {
namespace {

using plan::LightParts;

/// In what two stretches have in common, clear of what meets in its middle. Empty: they have nothing.
std::optional<double> inBoth(double a0, double a1, double b0, double b1) {
  const double low = std::max(a0, b0), high = std::min(a1, b1);
  return low < high ? std::optional(low + 0.3 * (high - low)) : std::nullopt;
}

std::string word(const LightParts& light) {
  return std::string(job::kLightWords[static_cast<std::size_t>(light.kind)]);
}

/// "Mullion: ", or where parts made apart meet "Coupling: ".
std::string barName(const plan::UnitParts& parts, double at, double plan::UnitRect::*edge, const char* name) {
  const bool joint = parts.made.size() > 1 && std::any_of(parts.made.begin(), parts.made.end(), [&](const auto& part) {
                       return std::abs(part.*edge - at) < 0.1;
                     });
  return joint ? "Coupling: " : name;
}

/// Between two lights, `b` at the right of `a` or below it, what stands there no wider than `widest`.
std::optional<Joint> between(const plan::UnitParts& parts, const LightParts& a, const LightParts& b, double widest) {
  const double aside = b.clear.x0 - a.clear.x1, below = a.clear.z0 - b.clear.z1;
  const plan::HeadLine head = parts.head.inset(parts.clear.x0);
  const double top = head.at(a.clear.x1 + aside / 2);  // of the glass, where the head follows the roof
  const auto z = inBoth(a.clear.z0, std::min(a.clear.z1, top), b.clear.z0, std::min(b.clear.z1, top));
  const auto x = inBoth(a.clear.x0, a.clear.x1, b.clear.x0, b.clear.x1);
  const double right = a.clear.x1 + aside / 2, foot = b.clear.z1 + below / 2;
  if (aside > 0 && aside <= widest && z) {
    return Joint{barName(parts, right, &plan::UnitRect::x0, "Mullion: ") + word(a) + " | " + word(b), Detail::Upright,
                 right, *z};
  }
  if (!(below > 0 && below <= widest && x) || head.at(*x) <= foot) return std::nullopt;
  return Joint{barName(parts, foot, &plan::UnitRect::z0, "Transom: ") + word(a) + " over " + word(b), Detail::Across,
               foot, *x};
}

/// Between two sashes of a light.
Joint within(const LightParts& light, const plan::Sash& a, const plan::Sash& b) {
  const plan::UnitRect& clear = light.clear;
  if (a.motion == plan::Motion::SlidesUp) {
    return {"Meeting rails: " + word(light), Detail::Across, (a.outside.z1 + b.outside.z0) / 2,
            clear.x0 + 0.3 * clear.width()};
  }
  const char* stiles = a.motion == plan::Motion::Folds ? "Stiles of leaves: "
                       : a.track == b.track            ? "Meeting edges: "
                                                       : "Meeting stiles: ";
  return {stiles + word(light), Detail::Upright, (a.outside.x1 + b.outside.x0) / 2, clear.z0 + 0.6 * clear.height()};
}

}  // namespace

std::vector<Joint> jointsOf(const plan::UnitSpec& unit) {
  const plan::UnitParts parts = plan::partsOf(unit);
  std::vector<Joint> joints;
  const auto add = [&](Joint joint) {
    const auto same = [&](const Joint& one) { return one.name == joint.name; };
    if (std::none_of(joints.begin(), joints.end(), same)) joints.push_back(std::move(joint));
  };
  for (const LightParts& a : parts.light) {
    for (const LightParts& b : parts.light) {
      if (auto joint = between(parts, a, b, std::max(unit.mullion, 2 * unit.frame.face) + 1)) add(*joint);
    }
    const auto sashes = parts.sashesOf(a);
    for (std::size_t i = 1; i < sashes.size(); ++i) add(within(a, sashes[i - 1], sashes[i]));
  }
  return joints;
}

}  // namespace sillwright::sheet
