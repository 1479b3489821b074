#include "practice/safety.h"

#include <algorithm>

namespace sillwright::practice {

const FallRule* Safety::fallRule(job::Room room) const {
  const FallRule* for_the_rest = nullptr;
  for (const FallRule& rule : falls) {
    if (std::find(rule.rooms.begin(), rule.rooms.end(), room) != rule.rooms.end()) {
      return &rule;
    }
    if (rule.rooms.empty()) {
      for_the_rest = &rule;
    }
  }
  return for_the_rest;
}

}  // namespace sillwright::practice
