// What holds it: screws long enough, inside the studs, under their load, and their heads in enough wood.

#include "check/rules.h"

namespace sillwright::check {
namespace {

const char* const kIndicative =
    "Indicative: the unit maker's own fixing instructions, local codes and an engineer come first.";

/// Wood under the countersink, as a share of the reveal, below which the head may pull through. The program's own
/// choice.
constexpr double kLeastUnderHead = 0.5;

/// Near to the whole with a tenth, so that what fails isn't told as 100 %.
std::string percent(double ratio) { return number(100 * ratio, std::abs(ratio - 1) < 0.01 ? 1 : 0) + " %"; }

const plan::ChosenScrew& screwOf(const plan::Fixings& fixings, const plan::Fixing& fixing) {  // that has a screw
  return fixings.screws[static_cast<std::size_t>(fixing.screw)];
}

void judgeLength(Bench& bench) {
  const auto& fixings = bench.planned().fixings;
  const auto& rules = bench.practice.strength.fixing;
  const practice::Rule& embedment = rules.embedment_diameters ? rules.embedment_diameters : rules.embedment_least;
  if (!embedment) bench.notJudged("embedment of fixings");
  const plan::Fixing* short_of = nullptr;  // the one that needs the longest
  for (const auto& fixing : fixings.points) {
    if (fixing.screw >= 0 || wideGapSaid(bench, fixing.side)) continue;  // the wide gap is the cause, and was told
    if (short_of == nullptr || fixing.gap > short_of->gap) short_of = &fixing;
  }
  if (short_of == nullptr) return;
  bench.attend("fixing length",
               "No screw at hand is long enough " + placeOf(bench, *short_of) + ", through a gap of " +
                   bench.len(short_of->gap) + ": it takes " + bench.len(fixings.length_wanted) + ".",
               {.figure = embedment ? &*embedment : nullptr},
               "Bring longer screws, or fix a timber backing to the framing and pack from that.", short_of->side);
}

void judgeBreakOut(Bench& bench) {
  const auto& fixings = bench.planned().fixings;
  const plan::Fixing* worst = nullptr;
  for (const auto& fixing : fixings.points) {
    if (above(fixing.past_stud, 0) && (worst == nullptr || fixing.past_stud > worst->past_stud)) worst = &fixing;
  }
  if (worst == nullptr) return;
  bench.add(plan::isLevel(worst->side) ? Severity::Note : Severity::Attend, "fixing breaks out",
            "The point of " + screwOf(fixings, *worst).name + " comes " + bench.len(worst->past_stud) +
                " out of the back of the " +
                (worst->side == plan::Side::Sill   ? bench.words().sill_trimmer
                 : worst->side == plan::Side::Head ? bench.words().lintel
                                                   : bench.words().stud) +
                " " + placeOf(bench, *worst) + ".",
            {worst->past_stud, 0, "mm"},
            "Use a shorter screw that still has its embedment, or look behind the wall first.", worst->side,
            "Cables and pipes run behind: a screw that comes out can hit them.");
}

std::string helpWords(const Bench& bench) {
  const auto& larger = bench.planned().fixings.larger;
  if (larger) return "Larger screws, " + larger->screw + " (" + percent(larger->ratio) + " of capacity then).";
  return "Neither more nor larger screws are enough: its maker's fixing schedule or an engineer decides.";
}

/// What the limit of a fixing rests on: the method, and the factor between strength and capacity.
std::string capacitySource(const Bench& bench, const plan::ChosenScrew& screw) {
  const practice::FixingDesign& design = bench.practice.strength.fixing_design;
  const practice::Figure* factor = design.divisor.at(screw.root);
  if (factor == nullptr && design.capacity_factor) factor = &*design.capacity_factor;
  return "AWC Technical Report 12" + (factor == nullptr ? std::string{} : "; " + practice::cite(*factor));
}

std::string_view byWord(const job::FixingSchedule& schedule) {
  return job::kScheduleByWords[static_cast<std::size_t>(schedule.by)];
}

void judgeLoad(Bench& bench) {
  const auto& planned = bench.planned();
  const auto& fixings = planned.fixings;
  if (fixings.worst < 0 || !aboveShare(fixings.worst_ratio, 1)) return;  // none is loaded, or none too much
  const auto& worst = fixings.points[static_cast<std::size_t>(fixings.worst)];
  const auto& schedule = planned.unit.fixing;
  auto& finding = bench.add(
      schedule ? Severity::Note : Severity::Attend, "fixing load",
      std::string(schedule ? "By calculation the " : "The ") + bench.words().fixing + " " + placeOf(bench, worst) +
          " would carry " + number(worst.demand_n, 0) + " N of wind and weight, more than the " +
          number(*worst.capacity_n, 0) + " N it can take across a gap of " + bench.len(worst.gap) + ".",
      {worst.demand_n, *worst.capacity_n, "N"},
      schedule ? "The schedule of its " + std::string(byWord(*schedule)) + " decides: ask there." : helpWords(bench),
      worst.side, kIndicative);
  finding.source = capacitySource(bench, screwOf(fixings, worst));
  finding.status = practice::Status::SecondHand;
}

void noteMore(Bench& bench) {
  const auto& more = bench.planned().fixings.more;
  if (!more.all_round) return;                      // the rule's own fixings are enough
  const bool door = bench.planned().unit.isDoor();  // what holds its sill is its maker's
  const std::string closer = more.spacing > 0 ? ", at most " + bench.len(more.spacing) + " apart" : std::string{};
  bench.note("fixing sides",
             "In this wind the rule's fixings are not enough: it is fixed at " +
                 std::string(door ? "jambs and head" : "all four sides") + closer + ", if its maker allows it." +
                 (door ? " Its sill is fixed to the floor as its maker says: that is not judged." : ""));
}

void noteMullions(Bench& bench) {
  const auto& planned = bench.planned();
  const int at_jambs = planned.fixings.more.beside_transoms;
  if ((planned.fixings.bar_ends == 0 && at_jambs == 0) || planned.unit.fixing) return;
  const auto& from = bench.practice.strength.fixing.from_mullion_least;
  const std::string beside = count(planned.fixings.more.beside, bench.words().fixing) + " each side" +
                             (from ? ", " + bench.len(from->value) + " from it where there is room" : "");
  std::vector<std::string> said;
  if (planned.fixings.bar_ends > 0) {
    said.push_back("Mullions and meeting stiles bring their wind to " +
                   (planned.unit.isDoor() ? "head and floor: at the head " + beside +
                                                ". What holds the sill to the floor is its maker's: not judged."
                                          : "sill and head: where they end, " + beside + "."));
  }
  if (at_jambs > 0) {
    said.push_back("Transoms bring theirs to the jambs: where they end, " + count(at_jambs, bench.words().fixing) +
                   " each side.");
  }
  bench.note("fixing of mullions", base::joined(said, " "), {.figure = from ? &*from : &kCommonPractice});
}

void noteUncovered(Bench& bench) {
  const auto& fixings = bench.planned().fixings;
  if (bench.job.walls[bench.planned().wall].isSteel()) {  // comes first: the rest is about timber
    bench.note("fixing load",
               "The " + bench.words().stud + "s are steel: what " + bench.words().fixing +
                   "s hold in them is not judged by the rules for timber.",
               {}, "Use self-drilling screws as the unit's maker or an engineer has them.");
    return;
  }
  if (!fixings.missing.empty()) bench.notJudged(bench.words().fixing + "s: " + fixings.missing);
  if (fixings.not_covered.empty()) return;
  const auto& figure = bench.practice.strength.fixing_design.side_diameters;
  bench.note("fixing load", fixings.not_covered, {.figure = figure ? &*figure : nullptr}, "", {}, kIndicative);
}

void judgeCountersink(Bench& bench) {
  const auto& planned = bench.planned();
  if (!planned.unit.reveal || planned.fixings.screws.empty()) return;  // heads are sunk in reveals only
  const auto* figure = ruleOrNote(bench, bench.practice.strength.fixing.countersink, "countersink");
  if (figure == nullptr) return;
  const auto& screw = planned.fixings.screws.front();
  const double cone = (screw.head - screw.shank) / 2;  // of a head that tapers at about 45°
  const double left = planned.fixings.under_head - cone;
  const double least = kLeastUnderHead * planned.unit.reveal->thickness;
  if (!below(left, least)) return;
  bench.attend("countersink",
               "Under the heads of " + screw.name + ", sunk " + bench.len(figure->value) + ", only " +
                   bench.len(std::max(left, 0.0)) + " of the " + bench.words().reveal + "'s " +
                   bench.len(planned.unit.reveal->thickness) + " is left.",
               {left, least, "mm", figure}, "Sink the heads no deeper than flush, or use washers under caps.");
}

/// Which of the two rules of position asked for more.
void noteRule(Bench& bench) {
  const auto& fixings = bench.planned().fixings;
  if (const auto& schedule = bench.planned().unit.fixing) {
    bench.note("fixing spacing", "Fixed by the schedule of its " + std::string(byWord(*schedule)) + ", at most " +
                                     bench.len(schedule->spacing) + " apart: taken as given.");
  }
  if (fixings.governs != plan::FixingRule::Customary || fixings.by_practice == 0) return;  // nothing was chosen between
  auto& finding = bench.note(
      "fixing spacing", count(fixings.by_custom, bench.words().fixing) + " a jamb by common practice, " +
                            std::to_string(fixings.by_practice) + " by the rule set's spacing: the more are taken.");
  if (const auto* custom = bench.practice.strength.fixing.per_jamb.at(bench.planned().unit.height)) {
    restsOn(finding, *custom);
  }
}

}  // namespace

void judgeFixing(Bench& bench) {
  judgeLength(bench);
  judgeBreakOut(bench);
  judgeLoad(bench);
  noteMore(bench);
  noteMullions(bench);
  judgeCountersink(bench);
  noteUncovered(bench);
  noteRule(bench);
}

}  // namespace sillwright::check
