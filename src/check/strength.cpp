// Wind on the unit and what its label has to show; the lintel, indicatively.

#include "check/rules.h"

namespace sillwright::check {
namespace {

const char* const kConfirm = "Indicative only: confirm with span tables or an engineer.";

void noteWind(Bench& bench) {
  const auto& wind = bench.planned().wind;
  if (!bench.job.wind) {
    bench.note("wind", "The job gives no wind: the fixings are not judged against it.", {},
               "Name the site's wind class, or a pressure, in the job.");
    return;
  }
  const auto* found = bench.practice.strength.wind.find(windClass(bench));
  if (found == nullptr) return;  // a given pressure has no class
  const auto& rating = wind.near_corner ? found->corner_rating_kpa : found->rating_kpa;
  if (!rating) return;  // the practice has no rating for the class
  bench.note("wind rating",
             "Wind on it is " + wind.how + "; the label of the unit has to show an ultimate rating of " +
                 number(1000 * rating->value, 0) + " Pa or more.",
             {wind.ultimate_kpa.value_or(0), rating->value, "kPa", &*rating});
}

/// One figure of the site, and where it is from, against what the label says of it.
void judgeAsked(Bench& bench, const std::optional<double>& site, const practice::Figure* from,
                const std::optional<double>& label, Severity severity, const std::string& what) {
  if (!site) {
    bench.notJudged("the site's " + what + " against the unit's label");
  } else if (!label) {
    bench.notTold("the label's " + what);
  } else if (belowShare(*label, *site)) {
    bench.add(
        severity, "label",
        "Its label says " + number(*label, 2) + " kPa of " + what + "; the site asks for " + number(*site, 2) + " kPa.",
        {*label, *site, "kPa", from}, "Order a unit whose label says that much or more.");
  }
}

/// What the site asks of the unit against what its label says it was tested for.
void judgeLabel(Bench& bench) {
  const auto& wind = bench.planned().wind;
  const auto& label = bench.opening().unit.label;
  if (!bench.job.wind) return;  // told already
  if (!label) return bench.notTold("the unit's label (its wind and rain against the site's)");
  static const practice::WindClass kNone;  // of a pressure, or of a class without figures; figures are pointed to
  const practice::Wind& rules = bench.practice.strength.wind;
  const practice::WindClass* named = rules.find(windClass(bench));
  const practice::WindClass& found = named != nullptr ? *named : kNone;
  const auto figureOf = [](const practice::Rule& rule, const practice::Figure* otherwise) {
    return rule ? &*rule : otherwise;
  };
  const auto* from_service =
      figureOf(wind.near_corner ? found.corner_service_kpa : found.service_kpa, figureOf(found.service_speed, nullptr));
  const practice::Rule& rating = wind.near_corner ? found.corner_rating_kpa : found.rating_kpa;
  // Where the practice works with allowable stress so does the label: its design pressure is not the ultimate one.
  if (bench.practice.strength.fixing_design.method == practice::Method::Allowable) {
    judgeAsked(bench, wind.serviceability_kpa, from_service, label->serviceability_kpa, Severity::Stop, "wind");
  } else {
    // A label shows the rating of the site's class, which is its pressure rounded.
    judgeAsked(bench, rating ? std::optional(rating->value) : wind.ultimate_kpa, figureOf(rating, wind.source),
               label->ultimate_kpa, Severity::Stop, "wind");
    judgeAsked(bench, wind.serviceability_kpa, from_service, label->serviceability_kpa, Severity::Attend,
               "wind in service");
  }
  judgeAsked(bench, wind.water_kpa, practice::pressures(rules, found, false).from_water, label->water_kpa,
             Severity::Attend, "rain");
}

std::string lintelName(const Bench& bench) {
  const auto& lintel = *bench.planned().lintel;
  std::string name = bench.words().lintel + " of ";
  if (lintel.plies > 1) name += std::to_string(lintel.plies) + " / ";
  if (lintel.material) name += *lintel.material + " ";
  return name + bench.len(lintel.depth) + " × " + bench.len(lintel.thickness);
}

/// The published spans of headers of these plies and this section, if the practice has a table.
std::vector<const practice::SpanEntry*> spansOf(const Bench& bench) {
  constexpr double kSameSection = 1.5;  // mm, of sections named in inches
  const auto& lintel = *bench.planned().lintel;
  std::vector<const practice::SpanEntry*> spans;
  for (const auto& entry : bench.practice.strength.timber.spans) {
    const bool same = entry.plies == lintel.plies && std::abs(entry.depth - lintel.depth) <= kSameSection &&
                      std::abs(entry.thickness - lintel.thickness) <= kSameSection;
    if (same) spans.push_back(&entry);
  }
  return spans;
}

/// What of the table's spans is left: less where short studs bear on the header and nothing braces its top.
double shareLeft(const Bench& bench) {
  const auto& rules = bench.practice.strength.timber.lintel;
  if (!rules.cripples_share || below(bench.planned().lintel->depth, rules.cripples_from_depth->value)) return 1;
  const auto stands = [&](const auto& member) {
    return member.part == plan::MemberPart::JackStudAbove && member.opening == static_cast<std::int32_t>(bench.index);
  };
  // Those that are too short to be nailed leave a space all the same, and nothing in it braces the header.
  const auto& frame = bench.wall().frame;
  const bool bear = std::any_of(frame.members.begin(), frame.members.end(), stands) ||
                    std::any_of(frame.left_out.begin(), frame.left_out.end(), stands);
  return bear ? rules.cripples_share->value : 1;
}

std::string spanWords(const Bench& bench, const practice::SpanEntry& entry, double span) {
  return bench.len(span) + " carrying " + entry.carries +
         (entry.jack_studs ? " (" + count(std::lround(entry.jack_studs->value), bench.words().bearing_stud) + " an end)"
                           : std::string{});
}

/// The job tells neither the snow nor the building's width nor what rests on the header, which are the table's columns:
/// its spans are told, none is chosen. Only an opening too wide for all of them wants attention.
void judgeAgainstTable(Bench& bench) {
  const auto spans = spansOf(bench);
  if (spans.empty()) return;
  const double share = shareLeft(bench);
  const double opening = bench.opening().width;
  std::string enough, too_little;
  const practice::SpanEntry* longest = spans.front();
  for (const auto* entry : spans) {
    if (entry->span.value > longest->span.value) longest = entry;
    const double span = share * entry->span.value;
    std::string& list = above(opening, span) ? too_little : enough;
    list += (list.empty() ? "" : "; ") + spanWords(bench, *entry, span);
  }
  const bool over = enough.empty();  // not even the lightest load is carried
  std::string say = "This opening is " + bench.len(opening) + ". The span table gives " + longest->header;
  if (share < 1) say += ", on which short studs bear, " + number(share, 2) + " of its spans";
  say += ": ";
  if (over) {
    say += "too little whatever it carries, " + spanWords(bench, *longest, share * longest->span.value) + " at most.";
  } else {
    say +=
        enough + (too_little.empty() ? std::string{"."} : "; but too little, " + too_little + ".") +
        " Which of them holds is not judged: the job says neither the ground snow, nor the building's width, nor what "
        "the " +
        bench.words().lintel + " carries.";
  }
  bench.add(over ? Severity::Attend : Severity::Note, "lintel span", std::move(say),
            {opening, share * longest->span.value, over ? "mm" : nullptr, &longest->span},
            over ? "Have a deeper " + bench.words().lintel + " designed." : std::string{}, plan::Side::Head, kConfirm);
}

/// What may do over an opening whose wall carries nothing, which a job tells by a gable that it gives no load to.
std::string ifIdle(const Bench& bench) {
  const job::Wall& wall = bench.job.walls[bench.planned().wall];
  const auto& rules = bench.practice.strength.timber.lintel;
  if (wall.supports || bench.opening().lintel) return {};  // the job gives it a load
  const auto slopes = [](const job::TopPoint& a, const job::TopPoint& b) { return a.z != b.z; };
  if (std::adjacent_find(wall.top.begin(), wall.top.end(), slopes) != wall.top.end()) {
    const practice::Rule& told = rules.idle_span_most;
    if (!told) return " Whether a gable that carries nothing needs a " + bench.words().lintel + " is not judged.";
    return " A " + bench.words().lintel + " that bears is not asked of a gable that carries nothing (" +
           practice::cite(*told) + "); what closes the slope over the opening is not judged.";
  }
  if (!rules.idle_span_most || !rules.idle_above_most) return {};  // no rule for walls that carry nothing
  const job::Opening& opening = bench.opening();
  const plan::WallSpec& spec = bench.wall().spec;
  const double under = plan::heightBelowTop(spec, spec.plates.top * spec.stud.thickness, opening.left);
  const double over = under - opening.sill - opening.height;  // of wall over the head, up to the plates
  if (above(opening.width, rules.idle_span_most->value) || above(over, rules.idle_above_most->value)) return {};
  return " If the wall carries nothing a plate laid flat does over it (" + practice::cite(*rules.idle_span_most) + ").";
}

void judgeLintel(Bench& bench) {
  const auto& planned = bench.planned();
  if (planned.lintel && bench.opening().head) {
    bench.notJudged(bench.words().lintel + " in the slope of a head");
    if (std::string say = ifIdle(bench); !say.empty()) bench.note("lintel", say.substr(1)).caution = kConfirm;
    return;
  }
  if (!planned.lintel || !planned.lintel_check) return;  // none is drawn, or its strength isn't worked out
  const auto& check = *planned.lintel_check;
  using Part = std::pair<std::optional<double>, const char*>;
  const std::array<Part, 4> parts{{{check.bending, "bending"},
                                   {check.shear, "shear"},
                                   {check.deflection, "deflection"},
                                   {check.bearing, "bearing at its ends"}}};
  const auto less = [](const Part& a, const Part& b) { return a.first < b.first; };  // what isn't known comes first
  const auto& [ratio, worst] = *std::max_element(parts.begin(), parts.end(), less);  // empty where none is known
  if (!ratio) {
    bench.note(
        "lintel",
        "The " + bench.words().lintel + " is not judged, this isn't known: " + check.missing + "." + ifIdle(bench), {},
        {}, plan::Side::Head, kConfirm);
    return;
  }
  const bool over = aboveShare(*ratio, 1);
  bench.add(over ? Severity::Attend : Severity::Note, "lintel",
            "A " + lintelName(bench) + ", " + check.grade + ", over " + bench.len(check.span) + " comes to " +
                number(100 * *ratio, 0) + " % of what it may take in " + worst + " under the load given for the wall" +
                (check.missing.empty() ? "." : "; not judged: " + check.missing + "."),
            {*ratio, 1, "1"}, over ? "Have it designed; a deeper or thicker one is likely." : "", plan::Side::Head,
            kConfirm);
}

/// What is said of the joint between parts that are made apart.
void noteJoint(Bench& bench) {
  const auto& unit = bench.planned().unit;
  if (unit.coupled == 0) return;
  bench.note("coupled parts",
             "It comes in " + count(static_cast<long>(unit.coupled) + 1, "part") + " (" +
                 plan::partsWords(unit, bench.practice.display) +
                 "), joined on site as its maker says: the joint is sealed from head to sill before it is "
                 "closed up" +
                 (unit.coupled_over ? "." : ", and stands on a " + bench.words().packer + " of its own."),
             {.figure = &kCommonPractice});
  bench.notJudged("the stiffness of the joint between its parts, which is its maker's");
}

}  // namespace

void judgeStrength(Bench& bench) {
  noteJoint(bench);
  if (!bench.planned().inside) {  // an inside wall takes no wind
    noteWind(bench);
    judgeLabel(bench);
  }
  judgeLintel(bench);
  const auto& lintel = bench.planned().lintel;
  if (lintel && !lintel->material && !bench.opening().head) judgeAgainstTable(bench);
}

}  // namespace sillwright::check
