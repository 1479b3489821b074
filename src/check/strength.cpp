// Wind on the unit and what its label has to show; the lintel, indicatively.

#include <algorithm>
#include <array>
#include <cmath>
#include <variant>
#include <vector>

#include "check/rules.h"

namespace sillwright::check {
namespace {

const char* const kConfirm = "Indicative only: confirm with span tables or an engineer.";

void noteWind(Bench& bench) {
  const auto& wind = bench.planned().wind;
  const auto* name = bench.job.wind ? std::get_if<std::string>(&*bench.job.wind) : nullptr;
  if (!bench.job.wind) {
    auto& finding =
        add(bench.findings, Severity::Note, "wind", "The job gives no wind: the fixings are not judged against it.");
    finding.remedy = "Name the site's wind class, or a pressure, in the job.";
    return;
  }
  if (name == nullptr) return;
  const auto* found = bench.practice.strength.wind.find(*name);
  if (found == nullptr) return;
  const auto& rating = wind.near_corner ? found->corner_rating_kpa : found->rating_kpa;
  if (!rating) return;
  auto& finding = add(bench.findings, Severity::Note, "wind rating",
                      "Wind on it is " + wind.how + "; the label of the unit has to show an ultimate rating of " +
                          number(1000 * rating->value, 0) + " Pa or more.");
  measuredAgainst(finding, wind.ultimate_kpa.value_or(0), rating->value, "kPa", &*rating);
}

struct Part {
  const char* name;
  const std::optional<double>& ratio;
};

std::string lintelName(const Bench& bench) {
  const auto& lintel = *bench.planned().lintel;
  std::string name = bench.words().lintel + " of ";
  if (lintel.plies > 1) name += std::to_string(lintel.plies) + " / ";
  return name + bench.len(lintel.depth) + " × " + bench.len(lintel.thickness);
}

/// The published spans of headers of these plies and this section, if the practice has a table.
std::vector<const practice::SpanEntry*> spansOf(const Bench& bench) {
  constexpr double kSameSection = 1.5;  // mm, of sections named in inches
  const auto& lintel = *bench.planned().lintel;
  std::vector<const practice::SpanEntry*> spans;
  for (const auto& entry : bench.practice.strength.timber.spans) {
    if (entry.plies != lintel.plies || std::abs(entry.depth - lintel.depth) > kSameSection ||
        std::abs(entry.thickness - lintel.thickness) > kSameSection) {
      continue;
    }
    spans.push_back(&entry);
  }
  return spans;
}

/// What the same header may not carry over this opening.
std::string tooWideUnder(const Bench& bench, const std::vector<const practice::SpanEntry*>& spans, double opening) {
  std::string said;
  for (const auto* entry : spans) {
    if (opening <= entry->span.value) continue;
    said += (said.empty() ? " Carrying " : "; carrying ") + entry->carries + ", it may span " +
            bench.len(entry->span.value) + " only";
  }
  return said.empty() ? said : said + ".";
}

/// The job doesn't say which of the table's loads its header carries: only an opening too wide for the lightest of them
/// wants attention, and the others it is too wide for are named.
void judgeAgainstTable(Bench& bench) {
  const auto spans = spansOf(bench);
  if (spans.empty()) return;
  const auto* longest = *std::max_element(spans.begin(), spans.end(),
                                          [](const auto* a, const auto* b) { return a->span.value < b->span.value; });
  const double span = bench.opening().width;
  const bool over = span > longest->span.value;
  const auto& studs = longest->jack_studs;
  auto& finding =
      add(bench.findings, over ? Severity::Attend : Severity::Note, "lintel span",
          "The span table gives " + longest->header + " at most " + bench.len(longest->span.value) + ", carrying " +
              longest->carries +
              (studs ? ", with " + count(std::lround(studs->value), bench.words().bearing_stud) + " at each end"
                     : std::string{}) +
              "; this opening is " + bench.len(span) + "." + (over ? std::string{} : tooWideUnder(bench, spans, span)));
  measuredAgainst(finding, span, longest->span.value, "mm", &longest->span);
  if (over) finding.remedy = "Have a deeper " + bench.words().lintel + " designed.";
  finding.caution = kConfirm;
  finding.spot.side = plan::Side::Head;
}

void judgeLintel(Bench& bench) {
  const auto& planned = bench.planned();
  if (!planned.lintel || !planned.lintel_check) return;
  const auto& check = *planned.lintel_check;
  const std::array<Part, 4> parts{{{"bending", check.bending},
                                   {"shear", check.shear},
                                   {"deflection", check.deflection},
                                   {"bearing at its ends", check.bearing}}};
  const Part* worst = nullptr;
  for (const auto& part : parts) {
    if (part.ratio && (worst == nullptr || *part.ratio > *worst->ratio)) worst = &part;
  }
  if (worst == nullptr) {
    auto& finding = add(bench.findings, Severity::Note, "lintel",
                        "The " + bench.words().lintel + " is not judged, this isn't known: " + check.missing + ".");
    finding.caution = kConfirm;
    finding.spot.side = plan::Side::Head;
    return;
  }
  const bool over = aboveShare(*worst->ratio, 1);
  auto& finding = add(bench.findings, over ? Severity::Attend : Severity::Note, "lintel",
                      "A " + lintelName(bench) + ", " + check.grade + ", over " + bench.len(check.span) + " comes to " +
                          number(100 * *worst->ratio, 0) + " % of what it may take in " + worst->name +
                          " under the load given for the wall" +
                          (check.missing.empty() ? "." : "; not judged: " + check.missing + "."));
  finding.measured = *worst->ratio;
  finding.limit = 1;
  finding.unit = "1";
  if (over) finding.remedy = "Have it designed; a deeper or thicker one is likely.";
  finding.caution = kConfirm;
  finding.spot.side = plan::Side::Head;
}

}  // namespace

void judgeStrength(Bench& bench) {
  noteWind(bench);
  judgeLintel(bench);
  if (bench.planned().lintel) judgeAgainstTable(bench);
}

}  // namespace sillwright::check
