#include "scene/describe.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>

#include "scene/solids.h"
#include "words/text.h"

namespace sillwright::scene {
namespace {

constexpr std::array<const char*, kLayers> kLayerNames{
    "eave", "cladding", "battens", "units", "flashings", "membrane", "screws", "packers", "frame", "lining", "floor"};

using practice::Words;

/// How the sizes of a part are told.
enum class Shape { Timber, Sheet, Block };

std::string show(double mm, practice::Display display) { return words::bareLength(mm, display); }

std::string bigFirst(float a, float b, practice::Display display) {
  return show(std::max(a, b), display) + " × " + show(std::min(a, b), display);
}

std::string say(const practice::Figure& figure) { return " (" + practice::cite(figure) + ")"; }

std::string say(const practice::Rule& rule) { return rule ? say(*rule) : std::string{}; }

/// The practice's figure behind a size that the job left out, cited; empty where the job gave it.
std::string assumed(const std::vector<plan::Assumption>& all, const char* key) {
  for (const plan::Assumption& assumption : all) {
    if (std::strcmp(assumption.key, key) == 0 && assumption.figure != nullptr) return say(*assumption.figure);
  }
  return {};
}

/// The part that is asked about, with what belongs to it; null where it has none.
struct Asked {
  const Part& part;
  const practice::Practice& practice;
  const plan::WallPlan* wall = nullptr;
  const job::Opening* opening = nullptr;
  const plan::OpeningPlan* planned = nullptr;

  [[nodiscard]] std::string length(double mm) const { return show(mm, practice.display); }
};

std::string whyStud(const Asked& asked) {
  const std::string spacing = asked.length(asked.wall->spec.spacing) + assumed(asked.wall->spec.assumed, "spacing");
  const std::string on = "on the stud spacing of " + spacing;
  if (asked.part.kind == PartKind::JackStudBelow) return "Carries the sill, " + on + ".";
  if (asked.part.kind == PartKind::JackStudAbove) return "Stands on the lintel, " + on + ".";
  return words::capital(on) + ", from the wall's left end.";
}

std::string whySideStud(const Asked& asked) {
  const practice::SideStuds* band = asked.practice.framing.sideStudsFor(asked.opening->width);
  if (band == nullptr) return {};
  const bool jamb = asked.part.kind == PartKind::JambStud;
  const practice::Figure& count = jamb ? band->full_height : band->bearing;
  const bool beyond = asked.opening->width > band->up_to;  // the widest band is drawn for what is wider, too
  return (jamb ? "Full height, " : "Carries the end of the lintel, ") + std::to_string(std::lround(count.value)) +
         " each side" + (beyond ? "; the rule set reaches no further than " : " of an opening up to ") +
         asked.length(band->up_to) + " wide" + say(count) + ".";
}

std::string whyLintel(const Asked& asked) {
  const std::string from = assumed(asked.planned->assumed, "lintel.depth");
  const std::string carries = "Carries what is above the opening. ";
  return carries + (from.empty() ? "As the job gives it; " : "Drawn at the rule set's usual size" + from + "; ") +
         "its size comes from span tables or an engineer.";
}

std::string whyMembrane(const Asked& asked) {
  const practice::Figure& lap = asked.practice.weather.membrane.lap.usual;
  return "Run from the bottom up, each run " + asked.length(lap.value) + " over the one below" + say(lap) + ".";
}

/// "…, 150 past the opening (common practice)": a measure of the practice with where it comes from.
std::string measured(const Asked& asked, const practice::Figure& figure, const char* where) {
  if (figure.value <= 0) return {};
  return asked.length(figure.value) + where + say(figure);
}

std::string whySillFlashing(const Asked& asked) {
  const practice::Flashings& flashings = asked.practice.weather.flashing;
  if (asked.planned->unit.isDoor()) {
    return "Lies under the door's sill: what gets in below it runs out at the front, not on to the floor.";
  }
  return "Takes what runs down the unit and its sides out over the " +
         plan::wordFor(asked.wall->spec.cladding, asked.practice.words) +
         " below: " + measured(asked, flashings.sill_down, " down the wall") + ", " +
         measured(asked, flashings.sill_past.usual, " past the opening at each end") + ".";
}

std::string whyJambFlashing(const Asked& asked) {
  const double over = plan::jambOverSill(asked.planned->weather);
  const std::string behind =
      "Behind the " + (asked.planned->unit.fin > 0 ? asked.practice.words.fin : std::string("frame")) + ", ";
  if (over <= 0) return behind + "its foot on the floor: what comes down it is shed there.";
  return behind + "its foot outside the sill's " + asked.practice.words.flashing + " by " + asked.length(over) +
         ", at most " + measured(asked, asked.practice.weather.flashing.jamb_over_sill.usual, "") +
         ": what comes down it is shed on to that.";
}

std::string whyHeadFlashing(const Asked& asked) {
  const plan::HeadNeed& head = asked.planned->weather.head;
  std::string why = "Turns what comes down the wall out over the " + asked.practice.words.fin + ": ";
  why += head.why;
  if (head.source != nullptr) why += say(*head.source);
  return why + ". It slopes outwards, and is clear of the " +
         plan::wordFor(asked.wall->spec.cladding, asked.practice.words) + " above.";
}

std::string whyTape(const Asked& asked) {
  const bool flap = asked.part.step == partStep(plan::StepKind::HeadFlap);
  return flap ? "Holds the flap down over the upstand and closes its slits: nothing runs behind its upper edge."
              : "Over the bare timber that the cut leaves in the corner" +
                    say(asked.practice.weather.membrane.corner_tape) + ".";
}

std::string whyReveal(const Asked& asked) {
  if (!asked.planned->unit.reveal) return {};
  return "Reaches from the studs' outside face to the lining's face: " + asked.length(asked.wall->spec.depth()) +
         " here; this one is " + asked.length(asked.planned->unit.reveal->depth) + " deep.";
}

std::string whyFin(const Asked& asked) {
  const practice::Rule& least = asked.practice.unit.fin_cover_least;
  const std::string reach = asked.length(asked.planned->unit.fin) + assumed(asked.planned->unit.assumed, "unit.fin");
  const std::string covers = "Covers the gap from outside, " + reach + " past the unit";
  if (!least) return covers + ".";
  return covers + "; it laps the framing by " + asked.length(least->value) + " at least" + say(*least) + ".";
}

std::string whyPacker(const Asked& asked) {
  const practice::Packing& rules = asked.practice.packing;
  if (asked.part.material != Material::Packer)  // as `describe` names it
    return "Timber behind the packers, where the gap is deeper than they may fill.";
  const bool sill = asked.part.step == partStep(plan::StepKind::PackSill);
  const practice::Rule& spacing = sill ? rules.spacing_sill : rules.spacing_jamb;
  const std::string what =
      sill ? "Carries the unit level" : "Fills the gap behind a fixing, so that the jamb can't bow";
  return spacing ? what + "; no further apart than " + asked.length(spacing->value) + say(*spacing) + "." : what + ".";
}

/// The gauge of a screw's part, by its shank.
const practice::Gauge* gaugeOf(const Part& part, const practice::Practice& practice) {
  for (const practice::Gauge& gauge : practice.strength.gauges) {
    if (std::abs(gauge.shank.value - static_cast<double>(part.size.z)) < 0.01) return &gauge;  // a float loses less
  }
  return nullptr;
}

std::string force(double newtons) { return std::to_string(std::lround(newtons)) + " N"; }

/// What it would carry, what it can take, and how it would give way.
std::string loadOf(const plan::Fixing& fixing) {
  if (!fixing.capacity_n || fixing.wind_n <= 0) return {};  // not judged, or nothing to carry
  const double percent = *fixing.capacity_n > 0 ? 100 * fixing.demand_n / *fixing.capacity_n : 0;
  std::string text = " Carries up to " + force(fixing.demand_n) + " of the " + force(*fixing.capacity_n) +
                     " that it can take (" + std::to_string(std::lround(percent)) + " %)";
  if (fixing.withdrawal) return text + ", pulled straight out.";
  return text + "; it gives way where " + plan::inWords(fixing.mode) + ".";
}

std::string whyScrew(const Asked& asked) {
  if (asked.part.item < 0) return {};  // of no fixing of the plan
  const plan::Fixing& fixing = asked.planned->fixings.points[static_cast<std::size_t>(asked.part.item)];
  const practice::Words& words = asked.practice.words;
  const std::array<std::string, 4> through{"the " + words.reveal, "the frame", "the " + words.fin, "its bracket"};
  const bool packed = fixing.kind == plan::FixingKind::ThroughReveal || fixing.kind == plan::FixingKind::ThroughFrame;
  std::string text = "Through " + through[static_cast<std::size_t>(fixing.kind)];  // as FixingKind
  if (packed) text += " and " + asked.length(fixing.gap) + " of " + words.packer;
  text += ", " + asked.length(fixing.embedment) + " into the " + words.stud;
  const practice::Fixing& rules = asked.practice.strength.fixing;
  if (const practice::Gauge* gauge = gaugeOf(asked.part, asked.practice)) {
    const double wanted = plan::embedmentWanted(*gauge, rules);
    const practice::Rule& from = rules.embedment_diameters ? rules.embedment_diameters : rules.embedment_least;
    if (wanted > 0) text += ", where " + asked.length(wanted) + " is required" + say(from);
  }
  text += "." + loadOf(fixing);
  if (fixing.past_stud > 0) {
    text += " Its point comes out " + asked.length(fixing.past_stud) + " at the back: cables and pipes may run there.";
  }
  return text;
}

std::string whyGlass(const Asked& asked) {
  const std::string from = assumed(asked.planned->unit.assumed, "unit.glass.thickness");
  return from.empty() ? std::string{} : "The rule set's usual thickness" + from + ".";
}

std::string whyNogging(const Asked& asked) {
  const practice::Figure& spacing = asked.practice.framing.nogging_spacing;
  return "Rows no further apart than " + asked.length(spacing.value) + say(spacing) + ".";
}

std::string whyFold(const Asked& asked) {
  const practice::Membrane& membrane = asked.practice.weather.membrane;
  if (asked.part.step == partStep(plan::StepKind::HeadFlap)) {
    return "Kept up while the flashing was fixed, and brought down over its upstand by " +
           measured(asked, membrane.flap_over_head.usual, "") + ".";
  }
  return "Folded in from the cut; the cut's corner leaves a bare triangle of timber" + say(membrane.corner_tape) + ".";
}

std::string whySillBrick(const Asked& asked) {
  return "Sloped so that water runs off (common practice, no source), clear of the " +
         std::string(asked.planned->unit.isDoor() ? "door" : "window") +
         " above: the frame shrinks and brick doesn't, and a closed gap lifts it.";
}

std::string whyCloser(const Asked& asked) {
  return "Closes the cavity round the opening" + say(asked.practice.weather.cladding.cavity_barrier_least) + ".";
}

std::string whySillSupport(const Asked& asked) {
  return "Carries the unit's sill across the cavity" + say(asked.practice.packing.cavity_support_above) + ".";
}

constexpr const char* kWhySillTrimmer = "Under the opening, on the studs below it; the unit's packers stand on it.";
constexpr const char* kWhyBatten = "Keeps the cladding off the wall, so that what gets behind it can drain and dry.";
constexpr const char* kWhySubSill =
    "Goes in before the frame, which stands on it: what gets past the frame runs out over it (common practice, no "
    "source).";

/// What a kind of part is called, how its sizes are told, and why it is there; null: that needs no words.
struct KindWords {
  words::Name name;
  Shape shape = Shape::Timber;
  std::string (*why)(const Asked&) = nullptr;
  const char* always = "";  ///< Why, where it is the same everywhere.
};

/// As PartKind.
constexpr std::array kKinds{KindWords{{"", &Words::bottom_plate}},
                            KindWords{{"", &Words::top_plate}},
                            KindWords{{"", &Words::stud}, Shape::Timber, whyStud},
                            KindWords{{"", &Words::jamb_stud}, Shape::Timber, whySideStud},
                            KindWords{{"", &Words::bearing_stud}, Shape::Timber, whySideStud},
                            KindWords{{"", &Words::jack_stud, " below"}, Shape::Timber, whyStud},
                            KindWords{{"", &Words::jack_stud, " above"}, Shape::Timber, whyStud},
                            KindWords{{"", &Words::lintel}, Shape::Timber, whyLintel},
                            KindWords{{"", &Words::sill_trimmer}, Shape::Timber, nullptr, kWhySillTrimmer},
                            KindWords{{"", &Words::nogging}, Shape::Timber, whyNogging},
                            KindWords{{"", &Words::membrane}, Shape::Sheet, whyMembrane},
                            KindWords{{"", &Words::membrane, " fold"}, Shape::Sheet, whyFold},
                            KindWords{{"", &Words::cladding, " board"}, Shape::Sheet},
                            KindWords{{"batten"}, Shape::Timber, nullptr, kWhyBatten},
                            KindWords{{"", &Words::lining}, Shape::Sheet},
                            KindWords{{"soffit"}, Shape::Sheet},
                            KindWords{{"fascia"}},
                            KindWords{{"floor"}, Shape::Sheet},
                            KindWords{{"", &Words::reveal, " side"}, Shape::Timber, whyReveal},
                            KindWords{{"", &Words::reveal, " sill"}, Shape::Timber, whyReveal},
                            KindWords{{"", &Words::reveal, " head"}, Shape::Timber, whyReveal},
                            KindWords{{"frame sill"}},
                            KindWords{{"frame head"}},
                            KindWords{{"frame jamb"}},
                            KindWords{{"mullion"}},
                            KindWords{{"transom"}},
                            KindWords{{"sash stile"}},
                            KindWords{{"sash rail"}},
                            KindWords{{"glass"}, Shape::Sheet, whyGlass},
                            KindWords{{"", &Words::fin}, Shape::Sheet, whyFin},
                            KindWords{{"threshold"}, Shape::Block},
                            KindWords{{"handle"}, Shape::Block},
                            KindWords{{"hinge"}, Shape::Block},
                            KindWords{{"unit"}, Shape::Block},
                            KindWords{{"", &Words::packer}, Shape::Sheet, whyPacker},
                            KindWords{{"screw"}, Shape::Timber, whyScrew},
                            KindWords{{"sill ", &Words::flashing}, Shape::Timber, whySillFlashing},
                            KindWords{{"jamb ", &Words::flashing}, Shape::Timber, whyJambFlashing},
                            KindWords{{"head ", &Words::flashing}, Shape::Timber, whyHeadFlashing},
                            KindWords{{"tape"}, Shape::Timber, whyTape},
                            KindWords{{"sealant line"}, Shape::Sheet},
                            KindWords{{"glazing bead"}},
                            KindWords{{"", &Words::cladding, " sheet"}, Shape::Sheet},
                            KindWords{{"render on board"}, Shape::Sheet},
                            KindWords{{"brick course"}},
                            KindWords{{"mortar"}},
                            KindWords{{"sill bricks"}, Shape::Block, whySillBrick},
                            KindWords{{"cavity closer"}, Shape::Timber, whyCloser},
                            KindWords{{"sill support"}, Shape::Block, whySillSupport},
                            KindWords{{"sub-sill"}, Shape::Block, nullptr, kWhySubSill}};
static_assert(kKinds.size() == static_cast<std::size_t>(PartKind::SubSill) + 1);

const KindWords& wordsOf(PartKind kind) { return kKinds[static_cast<std::size_t>(kind)]; }

}  // namespace

const char* nameOf(Layer layer) { return kLayerNames[static_cast<std::size_t>(layer)]; }

std::string nameOf(PartKind kind, const practice::Words& words) { return wordsOf(kind).name.in(words); }

std::string describe(const Part& part, const practice::Practice& practice) {
  const practice::Display display = practice.display;
  std::string name = nameOf(part.kind, practice.words);
  if (part.kind == PartKind::Packer && part.material != Material::Packer) name = "timber backing";
  const glm::vec3& size = part.size;
  if (part.kind == PartKind::Screw) {
    const practice::Gauge* gauge = gaugeOf(part, practice);
    return name + " " + (gauge != nullptr ? gauge->name : show(size.z, display)) + " × " + show(size.x, display) +
           (part.breaks_out ? ", comes out behind the " + practice.words.stud + "s" : std::string{});
  }
  const Shape shape = wordsOf(part.kind).shape;
  if (shape == Shape::Timber)
    return name + " " + bigFirst(size.y, size.z, display) + ", " + show(size.x, display) + " long";
  if (shape == Shape::Block)
    return name + " " + show(size.x, display) + " × " + show(size.y, display) + " × " + show(size.z, display);
  // The least of the three is the sheet's thickness, whichever way it lies.
  std::array<float, 3> by_size = {size.x, size.y, size.z};
  std::sort(by_size.begin(), by_size.end());
  // Upright sheets are told as wide × high; what lies or stands edge on, the larger first.
  const bool upright = by_size[0] == size.y;
  const std::string face =
      upright ? show(size.x, display) + " × " + show(size.z, display) : bigFirst(by_size[2], by_size[1], display);
  return name + " " + show(by_size[0], display) + " thick, " + face;
}

std::string reason(const Part& part, const job::Job& job, const practice::Practice& practice, const plan::Plan& plan) {
  Asked asked{part, practice};
  if (part.wall >= 0) asked.wall = &plan.walls[static_cast<std::size_t>(part.wall)];
  if (part.opening >= 0) {
    asked.opening = &job.openings[static_cast<std::size_t>(part.opening)];
    asked.planned = &plan.openings[static_cast<std::size_t>(part.opening)];
  }
  const KindWords& of = wordsOf(part.kind);
  return of.why != nullptr ? of.why(asked) : of.always;
}

}  // namespace sillwright::scene
