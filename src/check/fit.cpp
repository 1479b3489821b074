// Does it fit: the clearance to spare, where it is least, its chance, the gaps against least and most, and what would
// help.

#include <algorithm>
#include <cmath>

#include "check/judge.h"
#include "check/rules.h"

namespace sillwright::check {
namespace {

/// " at its foot", " at its middle", " at its right end".
std::string endWords(plan::Side side, plan::At at) {
  const bool jamb = side == plan::Side::Left || side == plan::Side::Right;
  return std::string(" at its ") + toWord(side, at) + (jamb || at == plan::At::Middle ? "" : " end");
}

std::string edgeWords(const Bench& bench, plan::Side side) {
  const std::array<std::string, 4> names{"left stud", "right stud", "sill", bench.words().lintel};
  return "the " + names[static_cast<std::size_t>(side)];
}

/// "the left stud at its foot against the right stud at its head"; an edge that governs at more than one point by its
/// name alone.
std::string whatGoverns(const Bench& bench, const plan::Stand& stand) {
  std::string said;
  const auto governor = [&](int i) -> const plan::Governor& { return stand.governed_by[static_cast<std::size_t>(i)]; };
  for (int i = 0; i < stand.governors;) {
    const plan::Side side = governor(i).side;
    int next = i + 1;
    while (next < stand.governors && governor(next).side == side) ++next;
    if (!said.empty()) said += said.find(" against ") == std::string::npos ? " against " : " and ";
    said += edgeWords(bench, side);
    if (next == i + 1) said += endWords(side, governor(i).at);
    i = next;
  }
  return said;
}

std::string remedyWords(const Bench& bench, const plan::Remedy& remedy) {
  const auto amount = bench.len(remedy.amount);
  switch (remedy.kind) {
    case plan::RemedyKind::TakeOffStud:
      return "take " + amount + " off the " + toWord(remedy.side) + " stud";
    case plan::RemedyKind::TakeOffSill:
      return "take " + amount + " off the sill";
    case plan::RemedyKind::TakeOffHead:
      return "take " + amount + " off at the head";
    case plan::RemedyKind::NarrowerUnit:
      return "a unit " + amount + " wide";
    case plan::RemedyKind::LowerUnit:
      return "a unit " + amount + " high";
    case plan::RemedyKind::TurnUnit:
      return "(set " + bench.len(std::abs(remedy.amount)) + " out of level, its " +
             (remedy.amount > 0 ? "right" : "left") + " end high, it would go in: that is no fit)";
  }
  return {};
}

/// The cures, one after another; those that only cure together joined by "and".
std::string allRemedies(const Bench& bench) {
  std::string said;
  int together = 0;
  for (const auto& remedy : bench.planned().remedies) {
    if (!said.empty()) said += remedy.together > 0 && remedy.together == together ? " and " : "; or ";
    said += remedyWords(bench, remedy);
    together = remedy.together;
  }
  return said.empty() ? said : words::capital(std::move(said)) + ".";
}

const practice::Figure* tighter(const practice::Figure* a, const practice::Figure* b) {
  if (a == nullptr || b == nullptr) return a != nullptr ? a : b;
  return a->value >= b->value ? a : b;
}

/// The figure that the governing side's least clearance comes from.
const practice::Figure* leastFigure(const Bench& bench, plan::Side side) {
  const auto& clearance = bench.practice.clearance;
  const double width = bench.opening().width;
  if (side == plan::Side::Sill) {
    if (bench.planned().unit.isDoor()) return clearance.door_sill_least ? &*clearance.door_sill_least : nullptr;
    return clearance.sill_least.at(width);
  }
  if (side == plan::Side::Head) return clearance.head_least.at(width);
  return clearance.side_least.at(width);
}

void noteMissingClearances(Bench& bench) {
  const auto& clearance = bench.practice.clearance;
  const double width = bench.opening().width;
  if (clearance.side_least.at(width) == nullptr) bench.not_judged.emplace_back("least side clearance");
  if (clearance.head_least.at(width) == nullptr) bench.not_judged.emplace_back("least head clearance");
  if (!clearance.unit_tolerance) bench.not_judged.emplace_back("tolerance of the unit's size");
}

void judgeSpare(Bench& bench) {
  const auto& stand = bench.planned().stand;
  const practice::Figure* figure = nullptr;
  for (int i = 0; i < stand.governors; ++i) {
    figure = tighter(figure, leastFigure(bench, stand.governed_by[static_cast<std::size_t>(i)].side));
  }
  if (!stand.fits) {
    auto& finding =
        add(bench.findings, Severity::Stop, "fit",
            "It does not fit by " + bench.len(-stand.spare) + ", between " + whatGoverns(bench, stand) + ".");
    measuredAgainst(finding, stand.spare, 0, "mm", figure);
    finding.remedy = allRemedies(bench);
    finding.caution =
        "Jamb studs and lintels carry load: plane, notch or cut them only under span tables or an engineer.";
    if (stand.governors > 0) finding.spot.side = stand.governed_by[0].side;
    return;
  }
  // Of an opening that nobody has read the chance says how rough the planned sizes are; that it must be read is said
  // with the readings.
  if (bench.planned().as_built.read_count > 0 && stand.chance < plan::kSureEnough) {
    auto& finding = add(bench.findings, Severity::Attend, "fit",
                        "It may not fit: " + bench.len(stand.spare) + " of clearance to spare, and a chance of " +
                            number(100 * stand.chance, 0) + " % with sizes as sure as these; it is tightest at " +
                            whatGoverns(bench, stand) + ".");
    measuredAgainst(finding, stand.spare, 0, "mm", figure);
    finding.remedy = "Measure the unit, and the opening again there, before lifting.";
    if (stand.governors > 0) finding.spot.side = stand.governed_by[0].side;
  }
}

struct MostRule {
  plan::Side side;
  const practice::Bands* bands;
  const std::array<double, 2>* gap;
  const char* about;
};

void judgeMost(Bench& bench) {
  const auto& clearance = bench.practice.clearance;
  const auto& gaps = bench.planned().stand.gaps;
  const std::array<MostRule, 4> rules{{{plan::Side::Left, &clearance.side_most, &gaps.left, "side clearance"},
                                       {plan::Side::Right, &clearance.side_most, &gaps.right, "side clearance"},
                                       {plan::Side::Sill, &clearance.sill_most, &gaps.sill, "sill clearance"},
                                       {plan::Side::Head, &clearance.head_most, &gaps.head, "head clearance"}}};
  for (const auto& rule : rules) {
    if (rule.side == plan::Side::Sill && bench.planned().unit.isDoor()) continue;
    const auto* most = rule.bands->at(bench.opening().width);
    if (most == nullptr) {
      if (rule.side != plan::Side::Right) bench.not_judged.emplace_back(std::string("most ") + rule.about);
      continue;
    }
    const double gap = std::max((*rule.gap)[0], (*rule.gap)[1]);
    if (!above(gap, most->value)) continue;
    auto& finding = add(bench.findings, Severity::Attend, rule.about,
                        "The gap at the " + std::string(toWord(rule.side)) + " is " + bench.len(gap) +
                            ", more than the " + bench.len(most->value) + " that may be packed and sealed.");
    measuredAgainst(finding, gap, most->value, "mm", most);
    finding.remedy = "Fix a timber backing to the framing there";
    const auto& order = bench.planned().stand.order;
    const auto& unit = bench.planned().unit;
    if (order[0] > unit.width || order[1] > unit.height) {
      finding.remedy += ", or order a larger unit (" + bench.len(order[0]) + " × " + bench.len(order[1]) + ")";
    }
    finding.remedy += ".";
    finding.spot.side = rule.side;
  }
}

}  // namespace

void judgeFit(Bench& bench) {
  noteMissingClearances(bench);
  judgeSpare(bench);
  judgeMost(bench);
}

}  // namespace sillwright::check
