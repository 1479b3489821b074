#include "check/finding.h"

#include <algorithm>
#include <array>

#include "base/words.h"
#include "words/text.h"

namespace sillwright::check {
namespace {

template <class Enum>
const char* wordOf(const std::array<const char*, 3>& words, Enum value) {
  return words[static_cast<std::size_t>(value)];
}

}  // namespace

const char* toWord(Severity severity) { return wordOf({"stop", "attention", "note"}, severity); }
const char* toWord(Verdict verdict) { return wordOf({"ready", "attention", "stop"}, verdict); }
const char* toWord(Basis basis) { return wordOf({"measured", "planned", "disputed"}, basis); }
const char* wordsFor(Verdict verdict) { return wordOf({"ready", "needs attention", "stop"}, verdict); }
const char* wordsFor(Basis basis) { return wordOf({"measured", "as planned", "measurements disagree"}, basis); }

std::string summaryOf(const std::vector<Verdict>& verdicts) {
  if (verdicts.empty()) return "No openings yet.";
  std::vector<std::string> each;
  for (const Verdict verdict : {Verdict::Ready, Verdict::Attend, Verdict::Stop}) {
    const auto number = std::count(verdicts.begin(), verdicts.end(), verdict);
    const bool plural = verdict == Verdict::Attend && number > 1;  // the only words that a number changes
    if (number > 0) each.push_back(std::to_string(number) + " " + (plural ? "need attention" : wordsFor(verdict)));
  }
  return words::count(static_cast<long>(verdicts.size()), "opening") + ": " + base::joined(each) + ".";
}

const Finding* worstOf(const std::vector<Finding>& findings) {
  const auto worst = std::min_element(findings.begin(), findings.end(),  // of equals the first: rank() put it there
                                      [](const Finding& a, const Finding& b) { return a.severity < b.severity; });
  return worst == findings.end() || worst->severity == Severity::Note ? nullptr : &*worst;
}

const Finding* holdOf(const Findings& findings, std::size_t opening) {
  const bool stops = opening < findings.verdicts.size() && findings.verdicts[opening] == Verdict::Stop;
  return stops ? worstOf(findings.openings[opening]) : nullptr;
}

}  // namespace sillwright::check
