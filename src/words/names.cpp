#include "words/names.h"

#include <array>
#include <cstdio>

namespace sillwright::words {

const char* nameOf(job::UnitKind kind) {
  return job::kKindWords[static_cast<std::size_t>(kind)].data();  // a literal, so it ends with a zero
}

std::string Name::in(const practice::Words& words) const {
  return word == nullptr ? std::string(before) : before + words.*word + after;
}

std::string dateWords(const job::Date& date) {
  std::array<char, 40> text{};
  std::snprintf(text.data(), text.size(), "%04d-%02d-%02d", date.year, date.month, date.day);
  return text.data();
}

std::string jobWords(const job::Job& job) {
  std::string said;
  const auto add = [&](const std::string& words) { said += (said.empty() ? "" : " · ") + words; };
  if (job.revision) add("revision " + *job.revision);
  if (job.date) add(dateWords(*job.date));
  if (job.by) add("by " + *job.by);
  if (job.address) add(*job.address);
  return said;
}

}  // namespace sillwright::words
