#include "plan/hold/fixing_capacity.h"

#include <algorithm>

namespace sillwright::plan {

namespace {

constexpr double kEffectiveOverRoot = 1.1;  // EN 1995-1-1, 8.7.1: threads across the joint

/// Factor from a yield or reference value without divisor to what may be counted on. Empty: not named.
std::optional<double> designFactor(const practice::FixingDesign& design) {
  if (!design.duration_wind) return std::nullopt;
  double factor = design.duration_wind->value;
  if (design.method == practice::Method::LimitStates) {  // allowable values hold them already
    if (design.format_conversion) factor *= design.format_conversion->value;
    if (design.capacity_factor) factor *= design.capacity_factor->value;
  }
  return factor;
}

/// Embedding strength of a wood, by what the method asks of it. Empty: not named.
std::optional<double> embeddingOf(const practice::Rule& gravity, const practice::Rule& density,
                                  const practice::Gauge& gauge, const practice::FixingDesign& design) {
  const bool nds = design.embedding == practice::Embedding::Nds;
  if (!(nds ? gravity : density)) return std::nullopt;
  return nds ? embeddingNds(gravity->value) : embeddingEc5(density->value, kEffectiveOverRoot * gauge.root.value);
}

/// Whether the screw is reckoned by EN 1995-1-1 throughout: on its effective diameter, bending by its tensile strength.
bool isWhollyEc5(const practice::Gauge& gauge, const practice::FixingDesign& design) {
  return design.embedding == practice::Embedding::Ec5 && gauge.tensile.has_value();
}

double bearingDiameter(const practice::Gauge& gauge, const practice::FixingDesign& design) {
  return (isWhollyEc5(gauge, design) ? kEffectiveOverRoot : 1) * gauge.root.value;
}

/// Plastic moment of the screw, N·mm. Empty: no strength of it is named.
std::optional<double> momentOf(const practice::Gauge& gauge, const practice::FixingDesign& design) {
  const double diameter = bearingDiameter(gauge, design);
  if (isWhollyEc5(gauge, design)) return yieldMomentEc5(gauge.tensile->value, diameter);
  if (!gauge.yield) return std::nullopt;
  return plasticMoment(gauge.yield->value, diameter);
}

/// Positive root of A·P² + B·P + C = 0 for A > 0, C ≤ 0, written without cancellation: P = −2C / (B + √(B² − 4AC)).
double positiveRoot(double a, double b, double c) {
  const double denominator = b + std::sqrt(b * b - 4 * a * c);
  return denominator > 0 ? -2 * c / denominator : 0;
}

}  // namespace

LateralTerms lateralTerms(const practice::Gauge& gauge, const practice::TimberGrade* stud,
                          const practice::FixingDesign& design) {
  LateralTerms terms;
  terms.gauge = &gauge;
  std::optional<double> in_stud;
  if (stud != nullptr) in_stud = embeddingOf(stud->specific_gravity, stud->density, gauge, design);
  const std::optional<double> in_reveal = embeddingOf(design.reveal_gravity, design.reveal_density, gauge, design);
  const practice::Figure* divisor = design.divisor.at(gauge.root.value);
  const std::optional<double> factor = designFactor(design);
  const std::optional<double> moment = momentOf(gauge, design);
  terms.missing = !in_stud             ? "the density of the studs' timber"  // only the first is told
                  : !in_reveal         ? "the density of the reveal's wood"
                  : !moment            ? "the yield strength of the screw's gauge"
                  : divisor == nullptr ? "the divisor of yield values for this gauge"
                  : !factor            ? "the duration factor of wind"
                                       : nullptr;
  if (terms.missing != nullptr) return terms;
  const double diameter = bearingDiameter(gauge, design);
  terms.bearing_stud = *in_stud * diameter;
  terms.bearing_reveal = *in_reveal * diameter;
  terms.moment = *moment;
  terms.factor = *factor / divisor->value;  // from yield to reference value, then to design value
  return terms;
}

Capacity lateralCapacity(const ScrewJoint& joint, const LateralTerms& terms) {
  if (terms.missing != nullptr) return {.n = {}, .missing = terms.missing};
  const DowelJoint dowel{terms.bearing_stud,
                         terms.bearing_reveal,
                         std::clamp(joint.embedment - terms.gauge->shank.value, 0.0, std::max(joint.timber, 0.0)),
                         std::max(joint.under_head, 0.0),
                         terms.moment,
                         terms.moment,
                         std::max(joint.gap, 0.0)};
  const std::array<double, kYieldModes> loads = yieldLoads(dowel);
  const auto least = std::min_element(loads.begin(), loads.end());  // the weakest mode is the one it fails by
  return {.n = *least * terms.factor, .mode = static_cast<YieldMode>(least - loads.begin())};
}

Capacity withdrawalCapacity(const ScrewJoint& joint, const practice::TimberGrade* stud,
                            const practice::FixingDesign& design) {
  Capacity capacity;
  const std::optional<double> factor = designFactor(design);
  capacity.missing = design.embedding != practice::Embedding::Nds ? "a withdrawal strength of screws as thin as these"
                     : stud == nullptr || !stud->specific_gravity ? "the density of the studs' timber"
                     : !factor                                    ? "the duration factor of wind"
                                                                  : nullptr;
  if (capacity.missing != nullptr) return capacity;
  const double shank = joint.gauge->shank.value;
  // The point holds nothing.
  const double thread = std::clamp(joint.embedment - 2 * shank, 0.0, std::max(joint.timber, 0.0));
  capacity.n = withdrawalNds(stud->specific_gravity->value, shank) * thread * *factor;
  return capacity;
}

const char* toWord(YieldMode mode) {
  static constexpr std::array<const char*, kYieldModes> kWords{"Im", "Is", "II", "IIIm", "IIIs", "IV"};
  return kWords[static_cast<std::size_t>(mode)];
}

const char* inWords(YieldMode mode) {
  static constexpr std::array<const char*, kYieldModes> kWords{
      "the stud's wood is crushed",
      "the reveal's wood is crushed",
      "the screw tips over in both woods",
      "the screw bends in the reveal and tips over in the stud",
      "the screw bends in the stud and tips over in the reveal",
      "the screw bends in both woods"};
  return kWords[static_cast<std::size_t>(mode)];
}

std::array<double, kYieldModes> yieldLoads(const DowelJoint& joint) {
  const auto& [qm, qs, lm, ls, main_moment, side_moment, g] = joint;  // as the report writes them
  if (qm <= 0 || qs <= 0) return {};                                  // a member that bears nothing holds nothing
  const double main_bears = qm * lm * lm / 4;
  const double side_bears = qs * ls * ls / 4;
  const double per_qm = 1 / (4 * qm);
  const double per_qs = 1 / (4 * qs);
  return {
      qm * lm,  // as TR12's Table 1-1 has them, in YieldMode's order
      qs * ls,
      positiveRoot(per_qs + per_qm, ls / 2 + g + lm / 2, -side_bears - main_bears),
      positiveRoot(2 * per_qs + per_qm, g + lm / 2, -side_moment - main_bears),
      positiveRoot(per_qs + 2 * per_qm, ls / 2 + g, -side_bears - main_moment),
      positiveRoot(2 * (per_qs + per_qm), g, -side_moment - main_moment),
  };
}

}  // namespace sillwright::plan
