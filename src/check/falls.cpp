// Falling out of it, and getting out through it in a fire.

#include "check/rules.h"

namespace sillwright::check {
namespace {

using practice::FallRule;

std::string deviceWords(const Bench& bench, const FallRule& rule) {  // never empty
  std::string said;
  if (rule.sphere) {
    said = "A device or screen that stops a sphere of " + bench.len(rule.sphere->value);
    if (rule.force) said += " and withstands " + number(rule.force->value, 0) + " N";
    said += ". ";
  }
  if (rule.barrier) {
    said += "A barrier below it of " + bench.len(rule.barrier->value) + " or more";
    if (rule.climb_from && rule.climb_to) {
      said += ", with nothing to climb on between " + bench.len(rule.climb_from->value) + " and " +
              bench.len(rule.climb_to->value);
    }
    said += ".";
  }
  return said.empty() ? "Protect it as local codes say." : said;
}

/// Whether the lowest part that opens is low enough to fall from. Where the rule names no height, that of its barrier:
/// a wall as high as that is one.
bool lowEnough(const FallRule& rule, double lowest) {
  const practice::Rule& height = rule.opening_below ? rule.opening_below : rule.barrier;
  return !height || below(lowest, height->value);  // without a height any place is low enough
}

/// The figure by which a drop is too far under the rule; nullptr: it isn't.
const practice::Figure* tooFar(const FallRule& rule, double drop, double lowest) {
  if (rule.above_ground_from && !below(drop, rule.above_ground_from->value)) return &*rule.above_ground_from;
  if (rule.opening_above_ground_from && above(drop + lowest, rule.opening_above_ground_from->value))
    return &*rule.opening_above_ground_from;
  return nullptr;
}

/// The rule of the opening's room. Where the job names no room: one that holds in every room and asks for protection
/// here, else one that does so in some.
const FallRule* ruleFor(const Bench& bench, double drop, double lowest) {
  const auto& safety = bench.practice.safety;
  if (const auto& room = bench.opening().room) return safety.fallRule(*room);
  const FallRule* of_some = nullptr;
  for (const auto& rule : safety.falls) {
    if (!lowEnough(rule, lowest) || tooFar(rule, drop, lowest) == nullptr) continue;
    if (rule.rooms.empty()) return &rule;
    of_some = &rule;  // a rule for every room goes before it
  }
  return of_some;
}

void noteNoDrop(Bench& bench, const std::string& what) {
  bench.note("falls",
             what +
                 ", and the job doesn't say how high the floor is above the ground: a fall is not "
                 "judged.",
             {}, "Give the wall its height above the ground.");
}

void judgeWindowFall(Bench& bench, double lowest, const std::optional<double>& drop) {
  const auto& rules = bench.practice.safety.falls;
  const bool may_be_low =
      std::any_of(rules.begin(), rules.end(), [&](const FallRule& rule) { return lowEnough(rule, lowest); });
  if (rules.empty()) bench.notJudged("falls from windows");
  if (!may_be_low) return;  // no rule asks for anything so high up
  if (!drop) return noteNoDrop(bench, "It opens from " + bench.len(lowest) + " above the floor");
  const FallRule* rule = ruleFor(bench, *drop, lowest);
  if (rule == nullptr || !lowEnough(*rule, lowest)) return;  // its room's rule doesn't ask
  const auto* figure = tooFar(*rule, *drop, lowest);
  if (figure == nullptr) return;  // the ground isn't far enough below
  // A restrictor that the rule's sphere doesn't pass protects, as far as a job can tell.
  const auto& restrictor = bench.planned().unit.restrictor;
  if (restrictor && rule->sphere && !above(*restrictor, rule->sphere->value)) {
    bench.notJudged("what force its restrictor stands, and who can release it");
    bench.note("falls",
               "Its restrictor lets it open " + bench.len(*restrictor) + ": a sphere of " +
                   bench.len(rule->sphere->value) + " stays inside.",
               {*restrictor, rule->sphere->value, "mm", &*rule->sphere}, deviceWords(bench, *rule));
    return;
  }
  const bool by_floor = rule->above_ground_from && figure == &*rule->above_ground_from;  // else from the opening
  const double measured = by_floor ? *drop : *drop + lowest;
  const bool only_there = !bench.opening().room && !rule->rooms.empty();  // a rule of some rooms only
  bench.attend("falls",
               "Someone could fall out of it: it opens from " + bench.len(lowest) + " above the floor, and " +
                   (by_floor ? "the floor" : "the opening") + " is " + bench.len(measured) +
                   " above the ground outside." +
                   (only_there ? " The job names no room: in a bedroom it has to be protected." : ""),
               {measured, figure->value, "mm", figure}, deviceWords(bench, *rule), {},
               "Until it is protected, the opening is kept shut or guarded.");
}

std::string guardWords(const Bench& bench) {
  const auto& guards = bench.practice.safety.guards;
  std::string said = "a barrier";
  if (guards.height) said += " " + bench.len(guards.height->value) + " high";
  if (guards.gap) said += " that stops a sphere of " + bench.len(guards.gap->value);
  return said;
}

void judgeDoorFall(Bench& bench, const std::optional<double>& drop) {
  const auto* from = ruleOrNote(bench, bench.practice.safety.guards.above_ground_from, "falls from doors");
  if (from == nullptr) return;
  const auto& outside = bench.opening().outside;
  if (!drop && outside == job::Outside::Ground) return;  // the door opens on to the ground: no fall
  if (!drop) return noteNoDrop(bench, "It is a door");
  if (below(*drop, from->value)) return;                                    // the drop is too low to be guarded
  if (outside == job::Outside::Deck || outside == job::Outside::Balcony) {  // the floor's edge is guarded there
    bench.note("falls",
               "It opens on to a floor " + bench.len(*drop) + " above the ground: that is edged with " +
                   guardWords(bench) + ".",
               {*drop, from->value, "mm", from}, "See that it stands before the door is used.");
    return;
  }
  bench.attend("falls",
               "It is a door " + bench.len(*drop) +
                   " above the ground outside: without a floor out there whoever steps out falls.",
               {*drop, from->value, "mm", from},
               "Build the deck, balcony or steps first, with " + guardWords(bench) +
                   " at their edge; or fix such a barrier across the door.",
               {}, "Until then the door is kept locked and barred.");
}

/// Low glass over a drop is what people are kept from falling by: no practice has figures for its strength.
void noteGlassGuard(Bench& bench, const Standing& at, const std::optional<double>& drop) {
  const auto& guards = bench.practice.safety.guards;
  const practice::Rule& height = guards.glass_below ? guards.glass_below : guards.height;
  if (!height || !guards.above_ground_from || (drop && below(*drop, guards.above_ground_from->value))) return;
  const auto& panes = at.parts.pane;
  const bool low = std::any_of(panes.begin(), panes.end(),
                               [&](const auto& pane) { return below(at.sightLine(pane), height->value); });
  if (low && !drop) {
    const auto& told = bench.findings;  // whoever told of falls has asked for the drop
    const bool said = std::any_of(told.begin(), told.end(), [](const Finding& one) { return one.about == "falls"; });
    if (!said && bench.opening().outside != job::Outside::Ground)
      bench.notTold("how far below its low glass the ground is");
  } else if (low) {
    bench.notJudged("the strength of glass below " + bench.len(height->value) + ", which keeps people from falling");
  }
}

// --- a way out in a fire

const char* const kAnotherWay = "See that the room has another way out.";

std::string tooSmall(const Bench& bench, const plan::UnitRect& clear, double foot, const practice::Figure*& by) {
  const auto& rules = bench.practice.safety.escape;
  std::string said;
  const auto tell = [&](const practice::Rule& rule, const std::string& words) {
    said += (said.empty() ? "" : ", ") + words;
    if (by == nullptr) by = &*rule;  // the first rule that fails is told as the limit
  };
  const auto wantsMore = [&](const practice::Rule& rule, double size, const char* way) {
    if (!rule || !below(size, rule->value)) return;
    const auto [is, asked] = bench.apart(size, rule->value);
    tell(rule, is + way + " where " + asked + " is asked");
  };
  const double area = clear.area() * 1e-6;  // mm² to m²
  if (rules.area && belowShare(area, rules.area->value))
    tell(rules.area, number(area, 2) + " m² where " + number(rules.area->value, 2) + " m² is asked");
  wantsMore(rules.width, clear.width(), " wide");
  wantsMore(rules.height, clear.height(), " high");
  if (rules.sill_most && above(foot, rules.sill_most->value)) {
    const auto [lies, most] = bench.apart(foot, rules.sill_most->value);
    tell(rules.sill_most, "its foot " + lies + " above the floor where " + most + " is the most");
  }
  return said;
}

void judgeClearOpening(Bench& bench, const Standing& at) {
  const auto clear = plan::clearOpening(at.parts);
  if (!clear) {
    const bool fixed = !at.lowest();  // else its sash is in the way
    bench.note("escape",
               fixed ? "It doesn't open: it is no way out in a fire, and the room wants another."
                     : "Its sash or its blades are in the way of whoever climbs out: whether it is a way out in a fire "
                       "is not judged.",
               {}, kAnotherWay);
    return;
  }
  for (const plan::LightParts& light : at.parts.light) {  // one that does is enough
    const auto one = plan::clearOpening(at.parts, light);
    const practice::Figure* none = nullptr;  // nobody asks which figure it fails by
    if (one && tooSmall(bench, *one, at.z + one->z0, none).empty()) return;
  }
  const practice::Figure* by = nullptr;
  const double foot = at.z + clear->z0;
  const std::string said = tooSmall(bench, *clear, foot, by);  // `clear` is its largest light's
  if (said.empty()) return;
  const practice::Rule& area = bench.practice.safety.escape.area;
  const bool by_area = area && by == &*area;
  auto& finding = bench.attend(
      "escape",
      "As a way out in a fire it does not do, opened " +
          std::string(at.parts.restrictor ? "as far as its restrictor lets it" : "about as far as its kind goes") +
          ": " + said + ".",
      {clear->area() * 1e-6, by->value, by_area ? "m2" : "mm", by},
      at.parts.restrictor
          ? "Where the room has no other way out, its restrictor is one that a hand releases from inside."
          : "Where the room has no other way out, order a unit that opens further, or a larger or lower one.");
  if (!by_area) finding.measured.reset();  // an area doesn't stand beside a length
}

}  // namespace

void judgeFalls(Bench& bench, const Standing& at) {
  const std::optional<double> drop = bench.job.walls[bench.planned().wall].fall();
  if (bench.planned().inside) return;  // there is a floor on both sides
  if (bench.planned().unit.isDoor()) judgeDoorFall(bench, drop);
  if (const auto lowest = at.lowest()) judgeWindowFall(bench, *lowest, drop);
  noteGlassGuard(bench, at, drop);
}

void judgeEscape(Bench& bench, const Standing& at) {
  const auto& rules = bench.practice.safety.escape;
  const auto& room = bench.opening().room;
  if (!room || bench.planned().unit.isDoor()) return;  // a door is a way out
  const bool asked =                                   // a bedroom even where the practice lists no rooms
      room == job::Room::Bedroom || std::find(rules.rooms.begin(), rules.rooms.end(), *room) != rules.rooms.end();
  if (!asked) return;
  if (!rules.area && !rules.width && !rules.height && !rules.sill_most) return bench.notJudged("a way out in a fire");
  const std::optional<double> drop = bench.job.walls[bench.planned().wall].fall();
  if (rules.storey_most && drop && above(*drop, rules.storey_most->value)) {
    bench.note("escape",
               "Its floor is " + bench.len(*drop) + " above the ground outside, more than " +
                   bench.len(rules.storey_most->value) + ": a window is no way out in a fire there.",
               {}, kAnotherWay);
    return;
  }
  if (rules.storey_most && !drop) {
    bench.notTold("how high its floor is above the ground (above " + bench.len(rules.storey_most->value) +
                  " a window is no way out in a fire)");
  }
  judgeClearOpening(bench, at);
}

}  // namespace sillwright::check
