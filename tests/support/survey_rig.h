/// An opening to be read: a true quadrilateral, the readings an exact tape would take of it, and noise.
///
/// Everything here is worked out on its own, from corner coordinates by Pythagoras, and shares no code with the survey.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <numbers>
#include <optional>
#include <random>

#include "job/job.h"
#include "plan/survey/survey.h"
#include "practice/practice.h"

namespace sillwright::rig {

/// Numbers by chance, the same on every platform: the distributions of <random> are not.
class Chance {
 public:
  explicit Chance(std::uint64_t start) : engine_(start) {}
  double uniform() { return static_cast<double>(engine_() >> 11U) * 0x1p-53; }
  double between(double low, double high) { return low + (high - low) * uniform(); }
  double sign() { return (engine_() & 1U) != 0 ? 1 : -1; }
  /// Box and Muller.
  double normal() {
    const double radius = std::sqrt(-2 * std::log(1 - uniform()));
    return radius * std::cos(2 * std::numbers::pi * uniform());
  }

 private:
  std::mt19937_64 engine_;
};

/// BR, TR, TL; BL is the origin.
struct Quad {
  plan::Point br, tr, tl;
};

using Nine = std::array<double, plan::kReadings>;

/// Pythagoras as it stands: faster than std::hypot, which guards against overflow, and the benchmark is to be fair.
inline double hypotenuse(double a, double b) { return std::sqrt(a * a + b * b); }

inline Nine exactReadings(const Quad& q) {
  return {hypotenuse(q.br.x, q.br.z),
          hypotenuse(q.tr.x - q.tl.x, q.tr.z - q.tl.z),
          hypotenuse(q.tl.x, q.tl.z),
          hypotenuse(q.tr.x - q.br.x, q.tr.z - q.br.z),
          hypotenuse(q.tr.x, q.tr.z),
          hypotenuse(q.br.x - q.tl.x, q.br.z - q.tl.z),
          q.br.z,
          q.tl.x,
          q.tr.x - q.br.x};
}

inline Quad rectangle(double width, double height) { return {{width, 0}, {width, height}, {0, height}}; }

/// Corners off the rectangle by a few mm, as framed openings are.
inline Quad framed(Chance& chance, double width, double height, double off = 4) {
  Quad q = rectangle(width, height);
  for (plan::Point* p : {&q.br, &q.tr, &q.tl}) {
    p->x += off * chance.normal();
    p->z += off * chance.normal();
  }
  return q;
}

/// The tape's standard errors: distance 1, diagonal 1.5, level 0.5 mm; planned 5 mm.
inline practice::Survey tapeErrors() {
  practice::Survey survey;
  survey.tape.distance.value = 1;
  survey.tape.diagonal.value = 1.5;
  survey.tape.level.value = 0.5;
  survey.laser.distance.value = 0.8;
  survey.laser.diagonal.value = 1;
  survey.laser.level.value = 0.3;
  survey.planned.value = 5;
  return survey;
}

inline constexpr Nine kTape = {1, 1, 1, 1, 1.5, 1.5, 0.5, 0.5, 0.5};

inline Nine noisy(Chance& chance, Nine exact) {
  for (std::size_t k = 0; k < exact.size(); ++k) exact[k] += kTape[k] * chance.normal();
  return exact;
}

inline constexpr std::uint32_t kAllNine = 0x1ff;

/// The readings whose bit is set, as the job file would state them.
inline job::Measured measured(const Nine& value, std::uint32_t which = kAllNine) {
  const auto take = [&](std::size_t k) -> std::optional<double> {
    if ((which >> k & 1U) == 0) return std::nullopt;
    return value[k];
  };
  job::Measured m;
  m.widths = {take(0), std::nullopt, take(1)};
  m.heights = {take(2), std::nullopt, take(3)};
  m.diagonals = {take(4), take(5)};
  m.out_of_level = take(6);
  m.out_of_plumb = {take(7), take(8)};
  return m;
}

constexpr std::uint32_t bit(plan::Reading reading) { return 1U << static_cast<unsigned>(reading); }

/// The smallest mistake in a reading that stands out four times in five: 4.13 σ / √r (Baarda's δ₀ for a test of 0.1 %
/// and a power of 80 %: 3.29 + 0.84). Empty where nothing checks it.
[[nodiscard]] inline std::optional<double> smallestMistakeSeen(const plan::AdjustedReading& reading) {
  constexpr double kShift = 4.13;
  if (!reading.read || reading.redundancy < plan::kLeastRedundancy) return std::nullopt;
  return kShift * reading.sigma / std::sqrt(reading.redundancy);
}

}  // namespace sillwright::rig
