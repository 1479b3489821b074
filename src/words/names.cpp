#include "words/names.h"

namespace sillwright::words {

const char* nameOf(job::UnitKind kind) {
  return job::kKindWords[static_cast<std::size_t>(kind)].data();  // a literal, so it ends with a zero
}

std::string Name::in(const practice::Words& words) const {
  return word == nullptr ? std::string(before) : before + words.*word + after;
}

}  // namespace sillwright::words
