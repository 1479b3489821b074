#include "plan/survey/survey_adjust.h"

#include <algorithm>
#include <array>
#include <bit>
#include <bitset>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <utility>

namespace sillwright::plan {

namespace {

using Who = std::bitset<kAllReadings>;

/// Below the limit of one degree of freedom (6.635); the limits rise with the freedom, so that this agrees with any.
constexpr double kSurelyAgree = 6.6;

bool disagree(double chi_square, int freedom) {
  return freedom > 0 && chi_square > kSurelyAgree && chiSquareTail(chi_square, freedom) < kSignificance;
}

/// An adjustment and how far its readings disagree.
struct Fit {
  Adjusted adjusted;
  double misfit = 0;  ///< Chi-square, with the squares of the bows in their standard errors.
  bool agree = false;

  explicit Fit(const SurveyInput& input)
      : adjusted(adjust(input)), misfit(adjusted.chi_square), agree(agrees(input, adjusted)) {
    for (std::size_t m = 0; m < 2; ++m) misfit += std::pow(bowInErrors(input, adjusted, m), 2);  // a bow counts too
  }
  static bool agrees(const SurveyInput& input, const Adjusted& given) {
    return given.converged && !disagree(given.chi_square, given.freedom) &&
           bowInErrors(input, given, 0) <= kStandsOut && bowInErrors(input, given, 1) <= kStandsOut;
  }
};

bool isRead(const SurveyInput& input, std::size_t k) {
  return k < kReadings ? input.read[k] : input.middle[k - kReadings].has_value();
}

double readOf(const SurveyInput& input, std::size_t k) {
  return k < kReadings ? input.value[k] : *input.middle[k - kReadings];
}

SurveyInput without(SurveyInput input, std::size_t k) {
  if (k >= kReadings) {
    input.middle[k - kReadings].reset();
  } else {
    input.read[k] = false;
    input.value[k] = input.planned[k];  // where nothing else tells it, the plan stands in
  }
  return input;
}

/// What the reading is by an adjustment that left it out.
double expectedOf(const Adjusted& rest, std::size_t k) {
  return k < kReadings ? rest.sight.value[k] : meanOfEnds(rest, k - kReadings);
}

/// In how many standard errors each reading stands out: shape readings by the adjustment, middles by their bow.
using Out = std::array<double, kAllReadings>;

Out outOf(const SurveyInput& input, const Adjusted& adjusted) {
  Out out{};
  std::copy(adjusted.standardised.begin(), adjusted.standardised.end(), out.begin());
  for (std::size_t m = 0; m < 2; ++m) out[kReadings + m] = bowInErrors(input, adjusted, m);
  return out;
}

/// The largest, and all that tie with it.
Who foremost(const Out& out) {
  const double largest = *std::max_element(out.begin(), out.end());
  Who who;
  for (std::size_t k = 0; k < kAllReadings; ++k) who[k] = out[k] > 0 && out[k] >= (1 - kTie) * largest;
  return who;
}

/// How well the candidates' residuals can be told apart: over all pairs, how far they are from moving as one.
double separation(const SurveyInput& input, const Vector6& corners, const Who& candidates) {
  const auto correlation = residualCorrelation(input, corners);
  double apart = 0;
  for (std::size_t i = 0; i < kReadings; ++i) {  // a middle has no residual in the adjustment
    for (std::size_t j = i + 1; j < kReadings; ++j) {
      if (candidates[i] && candidates[j]) apart += 1 - std::abs(correlation(i, j));
    }
  }
  return apart;
}

/// The one more reading that separates the candidates best: a candidate read again, or one not read yet. Of equals the
/// candidate in the job file's order. Empty where none would help.
std::optional<Reading> settleBy(const SurveyInput& input, const Vector6& corners, const Who& candidates) {
  std::optional<Reading> best;
  double most = separation(input, corners, candidates) + 1e-6;  // rounding mustn't outdo an earlier one
  for (const bool again : {true, false}) {
    for (std::size_t k = 0; k < kReadings; ++k) {
      if (again ? !candidates[k] : input.read[k]) continue;
      SurveyInput more = input;
      more.read[k] = true;
      if (again) more.again = static_cast<Reading>(k);  // at twice its weight
      const double apart = separation(more, corners, candidates);
      if (apart <= most) continue;
      most = apart + 1e-6;
      best = static_cast<Reading>(k);
    }
  }
  return best;
}

/// By how much the reading is off by the rest; in `built` if it is the least of the candidates'.
void disagreeBy(double by, AsBuilt& built) {
  built.disagreement = built.disagreement > 0 ? std::min(built.disagreement, by) : by;
}

bool isLength(std::size_t k) { return k < kDistances || k >= kReadings; }

/// Looks for a usual slip of the tape or the pencil that explains a length, where the rest were adjusted so. `nearest`:
/// how near the one found so far comes to what is expected.
void lookForSlip(const SurveyInput& input, const Adjusted& rest, std::size_t k, double& nearest, AsBuilt& built) {
  if (!rest.converged) return;
  const double read = readOf(input, k);
  const double expected = expectedOf(rest, k);
  const double within = k < kReadings ? kStandsOut * input.sigma[k] : 2 * input.straight_sigma;  // off by twice its bow
  const auto meant = lengthMeant(read, expected, within);
  if (!meant || std::abs(*meant - expected) >= nearest) return;
  nearest = std::abs(*meant - expected);
  built.slip = Slip{static_cast<Reading>(k), read, *meant};
}

void dispute(const SurveyInput& input, const Adjusted& adjusted, const Who& candidates, AsBuilt& built) {
  built.trust = Trust::Disputed;
  built.suspects = static_cast<std::uint32_t>(candidates.to_ulong());
  built.settle_by = settleBy(input, adjusted.corners, candidates);
  double nearest = std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k < kAllReadings; ++k) {
    if (!candidates[k]) continue;
    if (isLength(k)) lookForSlip(input, adjust(without(input, k)), k, nearest, built);
    if (k >= kReadings) {
      if (!built.settle_by) built.settle_by = static_cast<Reading>(k);  // a middle, where nothing else helps
      disagreeBy(std::abs(*input.middle[k - kReadings] - meanOfEnds(adjusted, k - kReadings)), built);
    } else if (const auto mistake = mistakeIn(built.readings[k])) {
      disagreeBy(std::abs(*mistake), built);
    }
  }
}

void suspect(const SurveyInput& input, const Fit& rest, std::size_t named, AsBuilt& built) {
  built.trust = Trust::Suspect;
  built.suspects = 1U << named;
  built.settle_by = static_cast<Reading>(named);
  built.disagreement = std::abs(expectedOf(rest.adjusted, named) - readOf(input, named));
  double nearest = std::numeric_limits<double>::infinity();
  if (isLength(named)) lookForSlip(input, rest.adjusted, named, nearest, built);
}

/// Whether the others rule out that reading `k` is the wrong one of a middle and its two ends: it would have to be
/// much further from the plan than it was read.
bool ruledOut(const SurveyInput& input, const Adjusted& rest, std::size_t k) {
  const double planned = input.planned[k < kReadings ? k : 2 * (k - kReadings)];
  const double far = kStandsOut * std::numbers::sqrt2 * input.planned_sigma;
  return std::abs(expectedOf(rest, k) - planned) > std::abs(readOf(input, k) - planned) + far;
}

/// A middle reading tells a bow that can't be: which of it and its two ends is wrong?
Who candidatesAmongEnds(const SurveyInput& input, std::size_t middle) {
  Who candidates;
  for (const std::size_t k : {2 * middle, 2 * middle + 1, kReadings + middle}) {
    if (!isRead(input, k)) continue;
    const Fit rest(without(input, k));
    candidates[k] = rest.agree && !ruledOut(input, rest.adjusted, k);
  }
  return candidates;
}

/// Whether the rest agree without one of the candidates.
bool anyExplains(const SurveyInput& input, const Who& candidates) {
  for (std::size_t k = 0; k < kAllReadings; ++k) {
    if (candidates[k] && Fit(without(input, k)).agree) return true;
  }
  return false;
}

/// The readings of every two without which the rest agree best, or as good as best; none where no two explain it.
Who bestPairs(const SurveyInput& input) {
  constexpr double kAsGood = 1;  // of chi-square: what one more reading adds on the mean
  Who best;
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < kAllReadings; ++i) {
    for (std::size_t j = i + 1; j < kAllReadings; ++j) {
      if (!isRead(input, i) || !isRead(input, j)) continue;
      const Fit rest(without(without(input, i), j));
      if (!rest.agree || rest.misfit > least + kAsGood) continue;
      if (rest.misfit < least - kAsGood) best.reset();  // clearly better than those so far
      least = std::min(least, rest.misfit);
      best[i] = best[j] = true;
    }
  }
  return best;
}

/// The middle whose bow stands out furthest, where the readings of the corners agree.
std::optional<std::size_t> bentMiddle(const Out& out) {
  const std::size_t m = out[kReadings] >= out[kReadings + 1] ? 0 : 1;
  return out[kReadings + m] > kStandsOut ? std::optional(m) : std::nullopt;
}

constexpr double kTimesNearer = 3;
constexpr double kLongest = 1e6;  // mm: what comes after is no length of an opening

/// The nearest to what is expected of all that are offered.
struct Nearest {
  double expected, within;
  std::optional<double> found;

  void offer(double length) {
    const double off = std::abs(length - expected);
    if (length > 0 && off <= within && (!found || off < std::abs(*found - expected))) found = length;
  }
};

void offerSwaps(double read, Nearest& nearest) {
  const double whole = std::floor(read);  // the digits that a tape is read by; fractions stay
  for (double place = 1; place * 10 <= whole; place *= 10) {
    const double low = std::fmod(std::floor(whole / place), 10);
    const double high = std::fmod(std::floor(whole / (place * 10)), 10);
    nearest.offer(read + (low - high) * place * 9);  // swapping changes the value by 9 (low − high) places
  }
}

void offerLookalikes(double read, Nearest& nearest) {
  constexpr std::array<std::pair<int, int>, 4> kAlike = {{{1, 7}, {3, 8}, {0, 6}, {6, 9}}};
  const double whole = std::floor(read);
  for (double place = 1; place <= whole; place *= 10) {
    const int digit = static_cast<int>(std::fmod(std::floor(whole / place), 10));
    for (const auto& [a, b] : kAlike) {
      if (digit == a) nearest.offer(read + (b - a) * place);
      if (digit == b) nearest.offer(read + (a - b) * place);
    }
  }
}

}  // namespace

double meanOfEnds(const Adjusted& adjusted, std::size_t middle) {
  return (adjusted.sight.value[2 * middle] + adjusted.sight.value[2 * middle + 1]) / 2;
}

double bowInErrors(const SurveyInput& input, const Adjusted& adjusted, std::size_t middle) {
  if (!input.middle[middle] || adjusted.stand_ins.middle[middle]) return 0;
  const double bow = (meanOfEnds(adjusted, middle) - *input.middle[middle]) / 2;
  const double own = input.middle_sigma / 2;
  return std::abs(bow) / std::sqrt(input.straight_sigma * input.straight_sigma + own * own);  // own: half the reading's
}

void judgeReadings(const SurveyInput& input, const Adjusted& adjusted, AsBuilt& built) {
  built.trust = adjusted.freedom > 0 ? Trust::Sound : Trust::Unchecked;
  if (Fit::agrees(input, adjusted)) return;

  const Out out = outOf(input, adjusted);
  Who candidates = foremost(out);
  const auto bent = bentMiddle(out);
  if (bent && !disagree(adjusted.chi_square, adjusted.freedom)) {  // the corners agree: it is the middle or an end
    if (const Who among = candidatesAmongEnds(input, *bent); among.any()) candidates = among;
  }
  if (candidates.count() != 1) {
    const bool explained = anyExplains(input, candidates);  // does leaving out one of them explain it?
    const Who pairs = explained ? candidates : bestPairs(input);
    return dispute(input, adjusted, pairs.any() ? pairs : candidates, built);
  }

  const auto named = static_cast<std::size_t>(std::countr_zero(candidates.to_ulong()));
  const Fit rest(without(input, named));              // do the others agree without it?
  const bool checked = bent || adjusted.freedom > 1;  // one check alone blames all that it touches alike
  if (checked && rest.agree && (bent || out[named] > kStandsOut)) return suspect(input, rest, named, built);
  // One leads, but not by enough, or the others disagree among themselves too: it may be two of them, or the next one.
  if (rest.agree) {
    Out others = out;
    others[named] = 0;  // the next in line joins it
    candidates |= foremost(others);
  } else {
    const Who pairs = bestPairs(input);
    candidates = pairs.any() ? pairs : candidates | foremost(outOf(without(input, named), rest.adjusted));
  }
  dispute(input, adjusted, candidates, built);
}

double chiSquareTail(double x, int freedom) {
  assert(freedom >= 1);
  if (!(x > 0)) return 1;
  // Both series have the ratio x / n from one term to the next: n runs 3, 5, … where freedom is odd, 2, 4, … else.
  const bool odd = freedom % 2 == 1;
  double term = odd ? std::sqrt(2 * x / std::numbers::pi) * std::exp(-x / 2) : std::exp(-x / 2);
  double tail = odd ? std::erfc(std::sqrt(x / 2)) : 0;
  for (int n = odd ? 3 : 2; n <= freedom; n += 2) {
    tail += term;
    term *= x / n;
  }
  return tail;
}

std::optional<double> lengthMeant(double read, double expected, double within) {
  if (!(read > 0 && read < kLongest && std::isfinite(expected))) return std::nullopt;
  Nearest nearest{expected, std::fmin(within, std::abs(read - expected) / kTimesNearer), std::nullopt};
  offerSwaps(read, nearest);
  if (nearest.found) return nearest.found;  // the commonest slip first
  for (const double added : {10.0, 100.0, 1000.0}) {
    nearest.offer(read - added);
    nearest.offer(read + added);
  }
  if (!nearest.found) offerLookalikes(read, nearest);
  return nearest.found;
}

}  // namespace sillwright::plan
