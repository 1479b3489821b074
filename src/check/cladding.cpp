// What stands before the frame and its cavity: where it may be, what closes, drains and bridges it at an opening.

#include "check/rules.h"
#include "plan/stand/place.h"

namespace sillwright::check {

namespace {

void judgeDirectFix(Bench& bench) {
  const auto& cladding = bench.wall().spec.cladding;
  const auto name = windClass(bench);
  if (cladding.thickness <= 0 || cladding.cavity > 0 || plan::isBrick(cladding)) return;  // it isn't fixed direct
  if (!listed(bench.practice.weather.cladding.direct_fix_not_in, name)) return;
  bench.attend("cladding",
               "The " + bench.words().cladding + " is fixed direct, which the practice does not allow in wind class " +
                   std::string(name) + ".",
               {}, "Put it on battens, with a cavity.");
}

void judgeMembraneSupport(Bench& bench) {
  const auto& rules = bench.practice.weather.membrane;
  const auto& layers = bench.wall().spec.cladding;
  if (layers.cavity <= 0 || plan::isBrick(layers) || !rules.support_from_studs || !rules.support_spacing_most) return;
  const double spacing = bench.wall().spec.spacing;
  if (!above(spacing, rules.support_from_studs->value)) return;
  bench.note("membrane support",
             "Studs stand " + bench.len(spacing) + " apart: behind the cavity the " + bench.words().membrane +
                 " is held by battens or tape at no more than " + bench.len(rules.support_spacing_most->value) + ".",
             {spacing, rules.support_from_studs->value, "mm", &*rules.support_from_studs});
}

void judgeCavity(Bench& bench) {
  if (bench.wall().spec.cladding.cavity <= 0) return;
  if (const practice::Rule least = plan::cavityCloser(bench.wall().spec, bench.practice)) {
    bench.note("cavity barrier",
               "The cavity is closed all round the opening against fire; timber that does it is " +
                   bench.len(least->value) + " thick or more.",
               {.figure = &*least});
  }
  const auto& wider = bench.practice.packing.cavity_support_above;  // the sill's support rests on it
  if (!plan::wantsSillSupport(bench.planned().unit, bench.opening().width, bench.wall().spec, bench.practice)) return;
  bench.note("sill support",
             "The unit stands out over a cavity of " + bench.len(bench.wall().spec.cladding.cavity) +
                 ": its sill is carried by a support fixed across it.",
             {.figure = &*wider}, "", plan::Side::Sill);
}

/// A clear cavity wide enough to stay clean, and narrow enough for its ties.
void judgeBrickCavity(Bench& bench, double cavity) {
  const auto& rules = bench.practice.weather.cladding;
  const auto* least = ruleOrNote(bench, rules.brick_cavity_least, "the cavity behind brick");
  if (least == nullptr) return;
  const bool narrow = below(cavity, least->value);
  const bool wide = rules.brick_cavity_most && above(cavity, rules.brick_cavity_most->value);
  if (!narrow && !wide) return;
  const practice::Figure& limit = narrow ? *least : *rules.brick_cavity_most;
  const auto [clear, required] = bench.apart(cavity, limit.value);
  bench.attend("brick cavity",
               "The cavity behind the brick is " + clear + "; " + (narrow ? "at least " : "at most ") + required +
                   " is required.",
               {cavity, limit.value, "mm", &limit});
}

/// A door stands on the floor, with nothing under it that the frame comes down on.
void judgeMovementGap(Bench& bench) {
  if (bench.opening().sill <= 0) return;
  const double level = bench.wall().spec.level;  // 0 is the ground storey
  const auto* least = ruleOrNote(bench, bench.practice.weather.cladding.movementGap(level),
                                 "the gap that a shrinking frame wants to masonry");
  if (least == nullptr) return;
  bench.note("movement gap",
             "The frame shrinks and the masonry doesn't: under the sill a gap of " + bench.len(least->value) +
                 " or more is kept to it " +
                 (level > 0 ? "at the storey above the ground's, and more higher up." : "at the ground storey."),
             {.figure = least}, "", plan::Side::Sill);
}

/// Bricks under the course draw water from the ground, and an opening that reaches down among them stands in it.
void judgeDampCourse(Bench& bench) {
  bench.notJudged("damp-proof courses at its sill, sides and head");
  if (bench.wall().spec.level > 0) return;  // higher storeys are far from the ground
  const auto* least =
      ruleOrNote(bench, bench.practice.weather.cladding.damp_course_least, "how high the damp-proof course lies");
  if (least == nullptr) return;
  const std::string lies = "the damp-proof course lies " + bench.len(least->value) + " or more above the ground";
  const std::optional<double> ground = bench.job.walls[bench.opening().wall].fall();
  const double sill = ground.value_or(0) + bench.opening().sill;  // where the ground isn't told, above the floor
  if (!ground && below(sill, least->value)) bench.notTold("how far below its floor the ground is");
  if (!ground || !below(sill, least->value)) {
    bench.note("damp-proof course", "Under it " + lies + ".", {.figure = least}, "", plan::Side::Sill);
    return;
  }
  bench.attend(
      "damp-proof course",
      "It reaches down to " + bench.len(sill) + " above the ground, and " + lies + ": the bricks beside it stay wet.",
      {sill, least->value, "mm", least},
      "Have the course stepped up its sides, or the ground lowered; follow the bricklayer's drawings.",
      plan::Side::Sill);
}

void judgeMasonry(Bench& bench) {
  const auto& rules = bench.practice.weather.cladding;
  const auto& cladding = bench.wall().spec.cladding;
  if (!plan::isBrick(cladding)) return;
  judgeBrickCavity(bench, cladding.cavity);
  if (rules.sill_slope_least && bench.opening().sill > 0) {
    bench.note("sill bricks", "Sill bricks slope outwards by " + number(rules.sill_slope_least->value) + "° or more.",
               {.figure = &*rules.sill_slope_least}, "", plan::Side::Sill);
  }
  judgeMovementGap(bench);
  if (const auto* most = ruleOrNote(bench, rules.weep_spacing_most, "weepholes over the head")) {
    bench.note("weepholes",
               "Over the head " + bench.words().flashing + " the masonry has weepholes no more than " +
                   bench.len(most->value) + " apart.",
               {.figure = most}, "", plan::Side::Head);
  }
  judgeDampCourse(bench);
}

/// What a sub-sill sheds has to fall clear of the cladding below it.
void judgeSubSill(Bench& bench) {
  const plan::UnitSpec& unit = bench.planned().unit;
  const auto& layers = bench.wall().spec.cladding;
  if (!unit.sub_sill || plan::isBrick(layers)) return;
  const double outer = unit.stands + unit.frame.depth - unit.sub_sill->depth;  // its outer edge, from the studs' face
  const double behind = outer + layers.cavity + layers.thickness;  // how far that is behind the cladding's face
  if (!above(behind, 0)) return;
  bench.attend("sub-sill",
               "The sub-sill ends " + bench.len(behind) + " behind the face of the " + bench.words().cladding +
                   ": what it sheds runs in behind.",
               {.figure = &kCommonPractice}, "Order it " + bench.len(unit.sub_sill->depth + behind) + " deep or more.",
               plan::Side::Sill);
}

// Heat that the unit loses, and what a level of bushfire attack asks of it.

/// What its label says of the heat it loses against what the practice lets it lose.
void judgeHeat(Bench& bench) {
  const practice::UnitDefaults& rules = bench.practice.unit;
  if (rules.heat.empty()) return bench.notJudged("the heat that it loses");
  const practice::HeatLimit* limit = rules.heatFor(bench.job.heat);
  if (limit == nullptr) {
    return bench.notTold("which limit of heat loss holds (" +
                         base::joined(rules.heat, ", ", &practice::HeatLimit::name) + ")");
  }
  const auto& label = bench.opening().unit.label;
  if (!label || !label->u_value) {
    const auto& glass = bench.planned().unit.glass.u_value;
    return bench.notTold("the label's U-value" +
                         (glass ? " (its glass alone: " + number(*glass, 2) + " W/m²K)" : std::string{}));
  }
  const double most = limit->u_value_most.value;
  if (!aboveShare(*label->u_value, most)) return;  // it loses little enough
  bench.attend("heat loss",
               "Its label says a U-value of " + number(*label->u_value, 2) + " W/m²K; " + number(most, 2) +
                   " is the most (" + limit->name + ").",
               {*label->u_value, most, "W/m2K", &limit->u_value_most},
               "Order a unit that loses less: another glass or a frame with a thermal break.");
}

/// Screens before what opens; all else of the level is for the unit's maker to show.
void judgeBushfire(Bench& bench) {
  const auto& level = bench.job.bushfire;
  if (!level) return;
  const practice::Bushfire* asked = practice::findNamed(bench.practice.unit.bushfire, *level);
  if (asked == nullptr) return bench.notJudged("bushfire level " + *level);  // the practice doesn't know the level
  if (!asked->mesh_most) {
    if (*level != "BAL-LOW") bench.notJudged("all that " + *level + " asks: a unit tested for it");
    return;
  }
  const plan::UnitSpec& unit = bench.planned().unit;
  bench.notJudged("its glass, frame and seals at " + *level + (unit.isDoor() ? ", and a door's screen" : ""));
  if (unit.isDoor() || !plan::anyOpens(unit)) return;  // what doesn't open needs no screen
  const auto& screens = bench.opening().unit.screens;
  if (!screens) return bench.notTold("whether it has screens, which " + *level + " asks for");
  const bool aluminium = !asked->mesh_aluminium || asked->mesh_aluminium->value > 0;  // no figure: it isn't ruled out
  std::string say = "At " + *level + " what opens is screened with mesh of " +
                    (aluminium ? "steel, bronze or aluminium" : "steel or bronze, not of aluminium") +
                    ", its holes no wider than " + bench.len(asked->mesh_most->value);
  if (asked->screen_gap_most) say += ", with gaps of " + bench.len(asked->screen_gap_most->value) + " round it at most";
  auto& finding = bench.add(*screens ? Severity::Note : Severity::Attend, "bushfire",
                            say + (*screens ? "." : "; this one has no screens."));
  finding.limit = asked->mesh_most->value;
  finding.unit = "mm";
  restsOn(finding, *asked->mesh_most);
  if (!*screens) finding.remedy = "Order it with such screens, or with glass that its maker shows to be enough.";
  finding.caution = "Indicative: who assessed the site, and the standard itself, say what holds.";
}

}  // namespace

void judgeCladding(Bench& bench) {
  if (!bench.planned().isFlashed()) return;  // an old hole's skin can't be seen; an inside wall has none
  judgeDirectFix(bench);
  judgeMembraneSupport(bench);
  judgeCavity(bench);
  judgeMasonry(bench);
  judgeSubSill(bench);
}

void judgeClimate(Bench& bench) {
  if (bench.planned().inside) return;  // there is another room behind it
  judgeHeat(bench);
  judgeBushfire(bench);
}

}  // namespace sillwright::check
