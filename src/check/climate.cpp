// Heat that the unit loses, and what a level of bushfire attack asks of it.

#include "check/rules.h"
#include "plan/panes.h"

namespace sillwright::check {
namespace {

/// What its label says of the heat it loses against what the practice lets it lose.
void judgeHeat(Bench& bench) {
  const practice::UnitDefaults& rules = bench.practice.unit;
  if (rules.heat.empty()) {
    bench.not_judged.emplace_back("the heat that it loses");
    return;
  }
  const practice::HeatLimit* limit = rules.heatFor(bench.job.heat);
  if (limit == nullptr) {
    const auto name = [](const practice::HeatLimit& one) { return one.name; };
    bench.not_told.push_back("which limit of heat loss holds (" + base::joined(rules.heat, ", ", name) + ")");
    return;
  }
  const auto& label = bench.opening().unit.label;
  if (!label || !label->u_value) {
    bench.not_told.emplace_back("the label's U-value");
    return;
  }
  const double most = limit->u_value_most.value;
  if (!aboveShare(*label->u_value, most)) return;
  auto& finding = bench.attend("heat loss", "Its label says a U-value of " + number(*label->u_value, 2) + " W/m²K; " +
                                                number(most, 2) + " is the most (" + limit->name + ").");
  measuredAgainst(finding, *label->u_value, most, "W/m2K", &limit->u_value_most);
  finding.remedy = "Order a unit that loses less: another glass or a frame with a thermal break.";
}

/// Screens before what opens; all else of the level is for the unit's maker to show.
void judgeBushfire(Bench& bench) {
  const auto& level = bench.job.bushfire;
  if (!level) return;
  const practice::Bushfire* asked = practice::findNamed(bench.practice.unit.bushfire, *level);
  if (asked == nullptr) {
    bench.not_judged.push_back("bushfire level " + *level);
    return;
  }
  if (!asked->mesh_most) {
    if (*level != "BAL-LOW") bench.not_judged.push_back("all that " + *level + " asks: a unit tested for it");
    return;
  }
  const plan::UnitSpec& unit = bench.planned().unit;
  bench.not_judged.push_back("its glass, frame and seals at " + *level +
                             (unit.isDoor() ? ", and a door's screen" : ""));
  if (unit.isDoor() || !plan::anyOpens(unit)) return;
  const auto& screens = bench.opening().unit.screens;
  if (!screens) {
    bench.not_told.push_back("whether it has screens, which " + *level + " asks for");
    return;
  }
  const bool aluminium = !asked->mesh_aluminium || asked->mesh_aluminium->value > 0;
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

void judgeClimate(Bench& bench) {
  if (bench.planned().inside) return;
  judgeHeat(bench);
  judgeBushfire(bench);
}

}  // namespace sillwright::check
