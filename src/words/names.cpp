#include "words/names.h"

#include <algorithm>
#include <array>
#include <cstdio>

#include "words/text.h"

namespace sillwright::words {

const char* nameOf(job::UnitKind kind) {
  return job::kKindWords[static_cast<std::size_t>(kind)].data();  // a literal, so it ends with a zero
}

std::string unitName(job::UnitKind kind, const std::vector<job::Light>& lights) {
  if (lights.empty()) return nameOf(kind);
  const auto joined = std::count(lights.begin(), lights.end(), job::Light::Joined);
  return std::string(job::isDoor(kind) ? "door" : "window") + " in " +
         count(static_cast<long>(lights.size()) - static_cast<long>(joined), "light");
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
