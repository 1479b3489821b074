#include "view/session/typing.h"

#include <algorithm>
#include <string_view>

#include "view/values/words.h"

namespace sillwright::view {
namespace {

bool sameInstrument(const std::optional<job::Measured>& a, const std::optional<job::Measured>& b) {
  const auto by = [](const std::optional<job::Measured>& measured) {
    return measured ? measured->by : std::optional<job::ReadBy>{};
  };
  return by(a) == by(b) || std::string_view(instrumentWord(a)) == instrumentWord(b);
}

}  // namespace

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

bool Typing::isInstrumentTyped(const job::Job& job, std::size_t opening) const {
  const job::Opening* in = inFile(job, opening);
  return in != nullptr && !sameInstrument(job.openings[opening].measured, in->measured);
}

std::vector<std::string> Typing::notInFile(const job::Job& job, practice::Display display) const {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    std::string line;
    const auto add = [&](const std::string& words) { line += (line.empty() ? "" : ", ") + words; };
    for (std::size_t r = 0; r < job::kTapeReadings; ++r) {
      const auto reading = static_cast<TapeReading>(r);
      if (!isTyped(job, i, reading)) continue;
      const auto value = valueOf(job.openings[i].measured, reading);
      add(std::string(infoOf(reading).name) + " " + (value ? figure(*value, display) : "cleared"));
    }
    if (isInstrumentTyped(job, i)) add(std::string("measured with ") + instrumentWord(job.openings[i].measured));
    if (!line.empty()) lines.push_back(job.openings[i].name + ": " + line);
  }
  return lines;
}

}  // namespace sillwright::view
