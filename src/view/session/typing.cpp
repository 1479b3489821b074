#include "view/session/typing.h"

#include <algorithm>
#include <string_view>
namespace sillwright::view {
Typing Typing::of(const job::Job& job) {
  Typing typing;
  typing.in_file = job;
  return typing;
}

const job::Opening* Typing::inFile(const job::Job& job, std::size_t index) const {
  const job::Opening& opening = job.openings[index];
  // Nearly always where it was: a long job is not searched through for each of its openings.
  if (index < in_file.openings.size() && in_file.openings[index].name == opening.name) {
    return &in_file.openings[index];
  }
  const auto found = std::find_if(in_file.openings.begin(), in_file.openings.end(),
                                  [&](const job::Opening& each) { return each.name == opening.name; });
  return found == in_file.openings.end() ? nullptr : &*found;
}

bool Typing::isTyped(const job::Job& job, std::size_t opening, TapeReading reading) const {
  const job::Opening* in = inFile(job, opening);
  const auto value = valueOf(job.openings[opening].measured, reading);
  return in != nullptr ? value != valueOf(in->measured, reading) : value.has_value();
}

}  // namespace sillwright::view
