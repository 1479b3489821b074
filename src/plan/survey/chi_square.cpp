#include "plan/survey/chi_square.h"

#include <cassert>
#include <cmath>
#include <numbers>

namespace sillwright::plan {

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

}  // namespace sillwright::plan
