#include "plan/survey/survey_suspects.h"

#include <algorithm>
#include <bitset>
#include <cmath>
#include <cstdint>

#include "plan/survey/chi_square.h"

namespace sillwright::plan {
namespace {

using Who = std::bitset<kReadings>;

/// Below the limit of one degree of freedom (6.635); the limits rise with the freedom, so that this agrees with any.
constexpr double kSurelyAgree = 6.6;

bool disagree(double chi_square, int freedom) {
  return freedom > 0 && chi_square > kSurelyAgree && chiSquareTail(chi_square, freedom) < kSignificance;
}

/// The largest, and all that tie with it.
Who foremost(const std::array<double, kReadings>& w) {
  const double largest = *std::max_element(w.begin(), w.end());
  Who who;
  for (std::size_t k = 0; k < kReadings; ++k) who[k] = w[k] > 0 && w[k] >= (1 - kTie) * largest;
  return who;
}

std::size_t first(const Who& who) {
  std::size_t k = 0;
  while (k < kReadings && !who[k]) ++k;
  return k;
}

SurveyInput without(SurveyInput input, std::size_t k) {
  input.read[k] = false;
  input.value[k] = input.planned[k];
  return input;
}

/// How well the candidates' residuals can be told apart: over all pairs, how far they are from moving as one.
double separation(const SurveyInput& input, const Vector6& corners, const Who& candidates) {
  const auto correlation = residualCorrelation(input, corners);
  double apart = 0;
  for (std::size_t i = 0; i < kReadings; ++i) {
    for (std::size_t j = i + 1; j < kReadings; ++j) {
      if (candidates[i] && candidates[j]) apart += 1 - std::abs(correlation[i][j]);
    }
  }
  return apart;
}

/// The one more reading that separates the candidates best: a candidate read again, or one not read yet. Of equals the
/// candidate in the job file's order. Empty where none would help.
std::optional<Reading> settleBy(const SurveyInput& input, const Vector6& corners, const Who& candidates) {
  std::optional<Reading> best;
  double most = separation(input, corners, candidates) + 1e-6;
  for (const bool again : {true, false}) {
    for (std::size_t k = 0; k < kReadings; ++k) {
      if (again ? !candidates[k] : input.read[k]) continue;
      SurveyInput more = input;
      more.read[k] = true;
      if (again) more.again = static_cast<Reading>(k);
      const double apart = separation(more, corners, candidates);
      if (apart <= most) continue;
      most = apart + 1e-6;
      best = static_cast<Reading>(k);
    }
  }
  return best;
}

void dispute(const SurveyInput& input, const Adjusted& adjusted, const Who& candidates, AsBuilt& built) {
  built.trust = Trust::Disputed;
  built.suspects = static_cast<std::uint32_t>(candidates.to_ulong());
  built.settle_by = settleBy(input, adjusted.corners, candidates);
  bool any = false;
  for (std::size_t k = 0; k < kReadings; ++k) {
    const auto mistake = candidates[k] ? mistakeIn(built.readings[k]) : std::nullopt;
    if (!mistake) continue;
    built.disagreement = any ? std::min(built.disagreement, std::abs(*mistake)) : std::abs(*mistake);
    any = true;
  }
}

}  // namespace

void judgeReadings(const SurveyInput& input, const Adjusted& adjusted, AsBuilt& built) {
  built.trust = adjusted.freedom > 0 ? Trust::Sound : Trust::Unchecked;
  if (!disagree(adjusted.chi_square, adjusted.freedom)) return;

  auto w = adjusted.standardised;
  Who candidates = foremost(w);
  if (candidates.count() != 1) return dispute(input, adjusted, candidates, built);

  const std::size_t named = first(candidates);
  const SurveyInput others = without(input, named);
  const Adjusted rest = adjust(others);
  const bool rest_agree = rest.converged && !disagree(rest.chi_square, rest.freedom);
  if (w[named] > kStandsOut && adjusted.freedom > 1 && rest_agree) {
    built.trust = Trust::Suspect;
    built.suspects = static_cast<std::uint32_t>(candidates.to_ulong());
    built.settle_by = static_cast<Reading>(named);
    built.disagreement = std::abs(rest.sight.value[named] - input.value[named]);
    return;
  }
  // One leads, but not by enough, or the others disagree among themselves too: it is in dispute with the next ones.
  if (rest.converged && !rest_agree) {
    w = rest.standardised;
  } else {
    w[named] = 0;
  }
  dispute(input, adjusted, candidates | foremost(w), built);
}

}  // namespace sillwright::plan
