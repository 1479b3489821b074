// Where lights and panels of a unit meet: mullions, transoms, couplings, meeting stiles and rails.
#include <algorithm>

#include "plan/panes.h"
#include "sheet/drawing/section.h"

namespace sillwright::sheet {
namespace {

using plan::LightParts;

/// Where two stretches are both, a third of the way up: clear of what meets in the middle. Empty: nowhere.
std::optional<double> inBoth(double a0, double a1, double b0, double b1) {
  const double low = std::max(a0, b0), high = std::min(a1, b1);
  return low < high ? std::optional(low + 0.3 * (high - low)) : std::nullopt;
}

std::string word(const LightParts& light) {
  return std::string(job::kLightWords[static_cast<std::size_t>(light.kind)]);
}

class Finder {
 public:
  explicit Finder(const plan::UnitSpec& unit)
      : parts_(plan::partsOf(unit)), widest_(std::max(unit.mullion, 2 * unit.frame.face) + 1) {}

  std::vector<Joint> all() {
    for (const LightParts& a : parts_.light) {
      for (const LightParts& b : parts_.light) between(a, b);
      for (std::size_t i = a.first_sash + 1; i < a.first_sash + a.sashes; ++i) {
        within(a, parts_.sash[i - 1], parts_.sash[i]);
      }
    }
    return std::move(joints_);
  }

 private:
  void add(Joint joint) {
    const bool known = std::any_of(joints_.begin(), joints_.end(), [&](const Joint& one) { return one.name == joint.name; });
    if (!known) joints_.push_back(std::move(joint));
  }

  /// Whether parts made apart meet there.
  [[nodiscard]] bool coupled(double at, double plan::UnitRect::*edge) const {
    return parts_.made.size() > 1 && std::any_of(parts_.made.begin(), parts_.made.end(), [&](const auto& part) {
             return std::abs(part.*edge - at) < 0.1;
           });
  }

  /// `b` at the right of `a`, or below it.
  void between(const LightParts& a, const LightParts& b) {
    const double aside = b.clear.x0 - a.clear.x1, below = a.clear.z0 - b.clear.z1;
    const auto z = inBoth(a.clear.z0, a.clear.z1, b.clear.z0, b.clear.z1);
    const auto x = inBoth(a.clear.x0, a.clear.x1, b.clear.x0, b.clear.x1);
    if (aside > 0 && aside <= widest_ && z) {
      const double at = a.clear.x1 + aside / 2;
      const char* what = coupled(at, &plan::UnitRect::x0) ? "Coupling: " : "Mullion: ";
      add({what + word(a) + " | " + word(b), Detail::Upright, at, *z});
    } else if (below > 0 && below <= widest_ && x) {
      const double at = b.clear.z1 + below / 2;
      const char* what = coupled(at, &plan::UnitRect::z0) ? "Coupling: " : "Transom: ";
      add({what + word(a) + " over " + word(b), Detail::Across, at, *x});
    }
  }

  /// Two of a light's sashes that follow each other.
  void within(const LightParts& light, const plan::Sash& a, const plan::Sash& b) {
    const plan::UnitRect& clear = light.clear;
    const std::string of = ": " + word(light);
    if (a.motion == plan::Motion::SlidesUp) {
      add({"Meeting rails" + of, Detail::Across, (a.outside.z1 + b.outside.z0) / 2, clear.x0 + 0.3 * clear.width()});
    } else {
      const char* what = a.motion == plan::Motion::Folds ? "Leaves" : a.track == b.track ? "Meeting edges" : "Meeting stiles";
      add({what + of, Detail::Upright, (a.outside.x1 + b.outside.x0) / 2, clear.z0 + 0.6 * clear.height()});
    }
  }

  plan::UnitParts parts_;
  double widest_;  // of what stands between two lights
  std::vector<Joint> joints_;
};

}  // namespace

std::vector<Joint> jointsOf(const plan::UnitSpec& unit) {
  return Finder(unit).all();
}

}  // namespace sillwright::sheet
