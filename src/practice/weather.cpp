#include "practice/weather.h"

namespace sillwright::practice {

bool EaveRule::shelters(double reach, double drop) const {
  if (!ratio || reach <= 0) {
    return false;
  }
  const double wanted = ratio->value * drop;
  return comparison == Comparison::AtLeast ? reach >= wanted : reach > wanted;
}

}  // namespace sillwright::practice
