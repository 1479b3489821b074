// Does it fit: the clearance to spare, where it is least, its chance, the gaps against least and most, and what would
// help.

#include <cassert>

#include "check/rules.h"

namespace sillwright::check {

namespace {

/// " at its foot", " at its middle", " at its right end".
std::string endWords(plan::Side side, plan::At at) {
  return std::string(" at its ") + toWord(side, at) + (!plan::isLevel(side) || at == plan::At::Middle ? "" : " end");
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
    const plan::Side side = governor(i).side;  // governors come in the order of sides
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
  int together = 0;  // of the remedy before this one
  for (const auto& remedy : bench.planned().remedies) {
    if (!said.empty()) said += remedy.together > 0 && remedy.together == together ? " and " : "; or ";
    said += remedyWords(bench, remedy);
    together = remedy.together;
  }
  return said.empty() ? said : words::capital(std::move(said)) + ".";
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
  if (clearance.side_least.at(width) == nullptr) bench.notJudged("least side clearance");
  if (clearance.head_least.at(width) == nullptr) bench.notJudged("least head clearance");
  if (!clearance.unit_tolerance) bench.notJudged("tolerance of the unit's size");
}

/// What the cures would take off a stud, and why that is no carpenter's choice. The rules of notches limit a cut into a
/// stud's depth, at one place; planing takes its thickness over the opening's whole height, which none of them covers.
std::string cuttingCaution(const Bench& bench) {
  const plan::Remedy* deepest = nullptr;
  for (const auto& remedy : bench.planned().remedies) {
    if (remedy.kind != plan::RemedyKind::TakeOffStud) continue;
    if (deepest == nullptr || remedy.amount > deepest->amount) deepest = &remedy;
  }
  const std::string usual =
      "Jamb studs and lintels carry load: plane, notch or cut them only under span tables or an engineer.";
  if (deepest == nullptr) return usual;
  const auto& most = bench.practice.framing.jamb_notch_most;
  const auto& stud = bench.wall().spec.stud;
  const double left = std::max(stud.thickness - deepest->amount, 0.0);
  std::string say = "Of the " + std::string(toWord(deepest->side)) + " stud " + bench.len(stud.depth) + " × " +
                    bench.len(left) + " would be left. ";
  if (most && most->value <= 0) {  // some codes allow none
    say += "Beside an opening it may not be notched at all";
  } else {
    say += "That is not covered by the rule of notches" +
           (most ? ", which is about " + bench.len(most->value) + " of its depth" : std::string{}) +
           ": it is an engineer's";
  }
  return say + (most ? " (" + practice::cite(*most) + "). " : std::string{". "}) + usual;
}

void judgeSpare(Bench& bench) {
  const auto& stand = bench.planned().stand;
  const practice::Figure* figure = nullptr;  // the largest of the leasts that govern
  for (int i = 0; i < stand.governors; ++i) {
    const auto* least = leastFigure(bench, stand.governed_by[static_cast<std::size_t>(i)].side);
    if (figure == nullptr || (least != nullptr && least->value > figure->value)) figure = least;
  }
  const auto tightest = stand.governors > 0 ? std::optional(stand.governed_by[0].side) : std::nullopt;
  if (!stand.fits) {
    bench.add(Severity::Stop, "fit",
              "It does not fit by " + bench.len(-stand.spare) + ", between " + whatGoverns(bench, stand) + ".",
              {stand.spare, 0, "mm", figure}, allRemedies(bench), tightest, cuttingCaution(bench));
    return;
  }
  // Of an opening that nobody has read the chance says how rough the planned sizes are; that it must be read is said
  // with the readings.
  if (bench.planned().as_built.read_count > 0 && stand.chance < plan::kSureEnough) {
    bench.attend("fit",
                 "It may not fit: " + bench.len(stand.spare) + " of clearance to spare, and a chance of " +
                     number(100 * stand.chance, 0) + " % with sizes as sure as these; it is tightest at " +
                     whatGoverns(bench, stand) + ".",
                 {stand.spare, 0, "mm", figure}, "Measure the unit, and the opening again there, before lifting.",
                 tightest);
  }
}

/// A side whose gap is wider than may be packed and sealed.
struct WideGap {
  plan::Side side = plan::Side::Left;
  double gap = 0;
  const practice::Figure* most = nullptr;
  const char* about = "";
};

std::vector<WideGap> wideGaps(Bench& bench) {
  const auto& clearance = bench.practice.clearance;
  std::vector<WideGap> wide;
  for (const plan::Side side : plan::kEverySide) {
    const bool sill = side == plan::Side::Sill;
    if (sill && bench.planned().unit.isDoor()) continue;  // the practice has no most for a door's
    const practice::Bands& bands = !plan::isLevel(side) ? clearance.side_most
                                   : sill               ? clearance.sill_most
                                                        : clearance.head_most;
    const char* about = !plan::isLevel(side) ? "side clearance" : sill ? "sill clearance" : "head clearance";
    const auto* most = bands.at(bench.opening().width);
    const double gap = bench.planned().stand.gaps.widest(side);
    if (most == nullptr) {
      if (side != plan::Side::Right) bench.notJudged(std::string("most ") + about);  // they share a rule
    } else if (above(gap, most->value)) {
      wide.push_back({side, gap, most, about});
    }
  }
  return wide;
}

std::string wideRemedy(const Bench& bench) {
  double backing = 0;  // the thickest that the packing wants
  for (const auto& point : bench.planned().packing.points) backing = std::max(backing, point.backing);
  std::string say = "Fix a timber backing" + (backing > 0 ? " up to " + bench.len(backing) + " thick" : std::string{}) +
                    " to the framing there";
  const auto& order = bench.planned().stand.order;
  const auto& unit = bench.planned().unit;
  if (order[0] > unit.width || order[1] > unit.height) {  // the larger one would fit
    say += ", or order a larger unit (" + words::size(order[0], order[1], bench.practice.display) + ")";
  }
  return say + ".";
}

/// One finding for all sides: a unit too small for its opening has one cause. It rests on the side that is furthest
/// over.
void judgeMost(Bench& bench) {
  std::vector<WideGap> wide = wideGaps(bench);
  if (wide.empty()) return;
  std::stable_sort(wide.begin(), wide.end(),  // of equals the first side stands
                   [](const WideGap& a, const WideGap& b) { return a.gap - a.most->value > b.gap - b.most->value; });
  std::vector<std::string> sides;
  std::pair<double, std::string> least(HUGE_VAL, "");  // the least of their limits, and its words
  for (const WideGap& one : wide) {
    const auto [gap, most] = bench.apart(one.gap, one.most->value);
    sides.push_back(gap + " at the " + toWord(one.side));
    least = std::min(least, std::pair(one.most->value, most));
  }
  bench.add(
      Severity::Attend, wide.front().about,
      "The gap is " + words::listed(sides) + ", more than the " + least.second + " that may be packed and sealed.",
      {wide.front().gap, wide.front().most->value, "mm", wide.front().most}, wideRemedy(bench), wide.front().side);
}

// The set unit as measured, against what an installed unit may be off by.

void over(Bench& bench, const char* about, double measured, double limit, const practice::Figure& figure,
          const std::string& what, const char* how, const char* remedy) {
  if (!above(std::abs(measured), limit)) return;
  const auto [off, most] = bench.apart(std::abs(measured), limit);
  bench.attend(about, what + off + how + ". The limit is " + most + ".", {measured, limit, "mm", &figure}, remedy);
}

void judgeDiagonals(Bench& bench, const job::Installed& read) {
  if (!read.diagonals[0] || !read.diagonals[1]) return;  // one alone compares with nothing
  const auto& tolerance = bench.practice.installed_tolerance;
  const auto& unit = bench.planned().unit;
  const double area_m2 = unit.width * unit.height * 1e-6;
  const bool large = tolerance.large_from_area_m2 && aboveShare(area_m2, tolerance.large_from_area_m2->value);
  const auto* limit =
      ruleOrNote(bench, large ? tolerance.diagonals_large : tolerance.diagonals_small, "diagonals of the set unit");
  if (limit == nullptr) return;
  const double difference = *read.diagonals[0] - *read.diagonals[1];
  over(bench, "set square", difference, limit->value, *limit, "The set unit's diagonals differ by ", "",
       "Ease the fixings, pack it square and measure it again.");
}

void judgeLevelPlumb(Bench& bench, const job::Installed& read) {
  const auto& tolerance = bench.practice.installed_tolerance;
  const auto& unit = bench.planned().unit;
  if (read.out_of_level) {
    if (tolerance.level_mm && tolerance.level_over) {
      const double limit = scaled(*tolerance.level_mm, tolerance.level_over->value, unit.width);
      over(bench, "set level", *read.out_of_level, limit, *tolerance.level_mm, "The set unit is ", " out of level",
           "Pack the low end of the sill.");
    } else {
      bench.notJudged("level of the set unit");
    }
  }
  for (std::size_t i = 0; i < 2; ++i) {
    if (!read.out_of_plumb[i]) continue;
    if (!tolerance.plumb_mm || !tolerance.plumb_over) return bench.notJudged("plumb of the set unit");
    const double limit = scaled(*tolerance.plumb_mm, tolerance.plumb_over->value, unit.height);
    over(bench, "set plumb", *read.out_of_plumb[i], limit, *tolerance.plumb_mm,
         std::string("The set unit's ") + (i == 0 ? "left" : "right") + " jamb is ", " out of plumb",
         "Ease the fixings, pack the jamb plumb and measure it again.");
  }
}

void judgeWorks(Bench& bench, const job::Installed& read) {
  if (read.opens && !*read.opens) {  // not told isn't "no"
    bench.add(Severity::Stop, "set unit", "The set unit does not open as it should.").remedy =
        "Look for a bowed jamb or a sill packed at the middle only, before the gap is sealed.";
  }
  if (read.locks && !*read.locks) {
    bench.add(Severity::Stop, "set unit", "The set unit does not lock.").remedy =
        "Set it square: the bolt misses its keep.";
  }
}

}  // namespace

void judgeFit(Bench& bench) {
  noteMissingClearances(bench);
  judgeSpare(bench);
  judgeMost(bench);
}

double scaled(const practice::Figure& figure, double over_length, double length) {
  assert(over_length > 0 && length >= 0);
  return figure.value * std::min(length / over_length, 1.0);
}

void judgeInstalled(Bench& bench) {
  const auto& read = bench.opening().installed;
  if (!read) return;
  judgeDiagonals(bench, *read);
  judgeLevelPlumb(bench, *read);
  judgeWorks(bench, *read);
}

}  // namespace sillwright::check
