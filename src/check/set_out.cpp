// Set-out: what can be judged from the planned sizes alone, before anything is measured.

#include <algorithm>
#include <cmath>

#include "check/rules.h"

namespace sillwright::check {

namespace {

using plan::FrameFault;
using plan::FrameFaultKind;

constexpr const char* kStructural = "Lintels and studs are altered only under span tables or an engineer.";

/// `other`: the opening that the fault is shared with, as the one that is told of it sees it; the wall's end where
/// there is none. `from_other`: it is the fault's `other` that is told. `stacked`: the two stand one above the other.
/// `assumed`: the job names no lintel.
void sayFault(const practice::Practice& practice, const FrameFault& fault, const std::string& other, bool from_other,
              bool stacked, bool assumed, std::vector<Finding>& findings) {
  const bool shared = fault.other >= 0;  // with another opening, not with the wall's end
  const std::string by = words::length(fault.by, practice.display);
  const auto& words = practice.words;
  const Against by_mm{fault.by, 0, "mm"};
  const auto tell = [&](Severity severity, const char* about, std::string say, const Against& against,
                        std::string remedy, std::optional<plan::Side> side, const char* caution) {
    add(findings, severity, about, std::move(say), against, std::move(remedy), side, caution);
  };
  switch (fault.kind) {
    case FrameFaultKind::OutsideWall:
      return tell(Severity::Stop, "set-out",
                  "The opening and its " + words.jamb_stud + "s reach " + by + " past the end of the wall.", by_mm,
                  "Move it in by " + by + ", or make it narrower.", {}, "");
    case FrameFaultKind::OpeningsOverlap:
      return tell(Severity::Stop, "set-out", "It overlaps opening " + other + " by " + by + ".", {},
                  "Move one of them by " + by + " and the width of the studs between.", {}, "");
    case FrameFaultKind::NoRoomForSideStuds:
      return tell(Severity::Stop, "side studs",
                  stacked ? "It and " + other + " stand one above the other with their edges out of line: " +
                                words.jamb_stud + "s of one would stand " + by + " in the other's way."
                          : "Between it and " + other + " the " + words.jamb_stud + "s need " + by + " more room.",
                  by_mm,
                  stacked ? "Bring their edges into line, or have what carries the studs designed."
                          : "Move one of them " + by + " away, or have the studs between them designed as shared.",
                  {}, kStructural);
    case FrameFaultKind::NoRoomForLintel:
      return tell(Severity::Stop, "lintel room",
                  "The top of " + (from_other ? "the " + words.lintel + " of " + other : "its " + words.lintel) +
                      " stands " + by + " above " +
                      (from_other ? "its sill"
                       : shared   ? "the sill of " + other
                                  : "the underside of the " + words.top_plate) +
                      ".",
                  by_mm,
                  (from_other ? "Raise the sill by " + by + ", lower the opening below"
                   : shared   ? "Lower the head by " + by + ", raise the opening above"
                              : "Lower the head by " + by + ", raise the plate") +
                      ", or have a shallower " + words.lintel + " designed." +
                      (assumed && !from_other ? " The job names none: it is drawn at the rule set's usual size." : ""),
                  from_other ? plan::Side::Sill : plan::Side::Head, kStructural);
    case FrameFaultKind::NoLintelNamed:
      return tell(Severity::Attend, "lintel",
                  "No " + words.lintel + " is named for an opening this wide, so none is drawn.", {},
                  "Name it in the job: lintel = { depth, thickness, plies }, from span tables or an engineer.",
                  plan::Side::Head, kStructural);
    case FrameFaultKind::NoRoomForSill:
      return tell(Severity::Attend, "sill trimmer",
                  "Between " +
                      (from_other ? "its " + words.lintel + " and the sill of " + other
                       : shared   ? "the sill and the " + words.lintel + " of " + other
                                  : "the sill and the " + words.bottom_plate) +
                      " a " + words.sill_trimmer + " lacks " + by + " of room.",
                  {},
                  from_other ? "Lower the opening by " + by + ", or raise the sill above."
                  : shared   ? "Raise the sill by " + by + ", or lower the opening below."
                             : "Lower the sill on to the plate, or raise it by " + by + ".",
                  from_other ? plan::Side::Head : plan::Side::Sill, "");
    case FrameFaultKind::WiderThanRules:
      return tell(
          Severity::Attend, "side studs",
          "The rule set gives " + words.jamb_stud + "s for narrower openings only; those of the widest are drawn.", {},
          "Take the number of studs from span tables or an engineer.", {}, kStructural);
  }
}

void judgeUnitSize(Bench& bench) {
  const auto& opening = bench.opening();
  const auto& unit = bench.planned().unit;
  const double over_width = unit.width - opening.width;
  const double over_height = unit.height - opening.height;
  if (over_width <= 0 && over_height <= 0) return;
  const bool wide = over_width > 0;  // the width is told first
  const double over = wide ? over_width : over_height;
  const auto wanted = plan::openingFor(unit.width, unit.height, bench.planned().rules);  // with its usual gaps
  bench.add(Severity::Stop, "unit size",
            "The unit is " + bench.len(over) + (wide ? " wider" : " higher") + " than the " + bench.words().opening +
                " planned for it.",
            {wide ? unit.width : unit.height, wide ? opening.width : opening.height, "mm"},
            "Frame " + bench.len(wanted[0]) + " × " + bench.len(wanted[1]) + ", or order a smaller unit.");
}

/// An eave's soffit runs into the wall: nothing can open or drain above it.
void judgeUnderEave(Bench& bench) {
  const auto& opening = bench.opening();
  const auto& eave = bench.job.walls[opening.wall].eave;
  const double head = opening.sill + opening.height;
  if (!eave || eave->overhang <= 0 || !above(head, eave->soffit)) return;
  bench.add(Severity::Stop, "soffit",
            "The eave's soffit meets the wall " + bench.len(head - eave->soffit) + " below the opening's head.",
            {head, eave->soffit, "mm"}, "Raise the soffit, or lower the head.", plan::Side::Head);
}

void judgeReveal(Bench& bench) {
  const auto& unit = bench.planned().unit;
  if (!unit.reveal) return;  // a bare frame has none to be flush
  const auto* tolerance = ruleOrNote(bench, bench.practice.unit.reveal_flush_tolerance, "reveal against wall depth");
  if (tolerance == nullptr) return;
  const auto& measured = bench.opening().measured;
  std::optional<double> read;
  if (measured) {
    // The deeper one governs: a reveal that is flush there can be packed elsewhere, not planed twice.
    const auto& [left, right] = measured->wall_depth;
    read = std::max(left, right);  // an empty one counts as less
  }
  const double wall_depth = read.value_or(bench.wall().spec.depth());
  const double proud = unit.reveal->depth - wall_depth;
  if (!above(std::abs(proud), tolerance->value)) return;
  const auto& word = bench.words().reveal;
  bench.attend("reveal depth",
               "The " + word + " is " + bench.len(unit.reveal->depth) + " deep and the wall " + bench.len(wall_depth) +
                   (read ? " as measured" : " as planned") + ": it will " +
                   (proud > 0 ? "stand proud of the " : "fall short of the ") + bench.words().lining + " by " +
                   bench.len(std::abs(proud)) + ".",
               {proud, tolerance->value, "mm", tolerance},
               proud > 0 ? "Plane it by " + bench.len(proud) + ", or order the reveal that deep."
                         : "Pack the architrave out by " + bench.len(-proud) + ", or order the reveal that deep.");
}

/// A frame that comes through the wall past its lining.
void judgeFrameDepth(Bench& bench) {
  const auto& unit = bench.planned().unit;
  const double wall = bench.wall().spec.depth();
  const double proud = unit.stands + unit.frame.depth - wall;  // past the lining's face, into the room
  if (!above(proud, 0)) return;
  bench.attend("frame depth",
               "The frame is " + bench.len(unit.frame.depth) + " deep and its outside face stands " +
                   bench.len(std::abs(unit.stands)) + (unit.stands < 0 ? " before" : " behind") + " the face of the " +
                   bench.words().stud + "s: its inside face is " + bench.len(proud) + " past the " +
                   bench.words().lining + ".",
               {unit.stands + unit.frame.depth, wall, "mm"},
               "Stand it further out, or trim it inside with a deeper architrave.");
}

void judgeFin(Bench& bench) {
  const auto& planned = bench.planned();
  if (planned.unit.fin <= 0) return;
  const auto* least = ruleOrNote(bench, bench.practice.unit.fin_cover_least, "fin's cover over the gap");
  if (least == nullptr) return;
  const auto& gaps = planned.stand.gaps;
  std::vector<std::string> where;
  std::optional<plan::Side> worst;
  for (const plan::Side side : plan::kEverySide) {
    // A door's sill stands on the floor: there is no framing below it for a fin to lap.
    if (side == plan::Side::Sill && planned.unit.isDoor()) continue;
    if (!below(planned.unit.fin - gaps.widest(side), least->value)) continue;  // the fin laps enough
    where.emplace_back(toWord(side));
    if (!worst || gaps.widest(side) > gaps.widest(*worst)) worst = side;
  }
  if (!worst) return;
  const double widest = gaps.widest(*worst);
  const double cover = planned.unit.fin - widest;  // below 0 it stops short of the framing
  const auto [lap, wanted] = bench.apart(std::abs(cover), least->value);
  const std::string gap = "a gap of " + std::string(where.size() > 1 ? "up to " : "") + bench.len(widest);
  bench.attend("fin cover",
               "At the " + words::listed(where, " and ") + " the " + bench.words().fin + " reaches " +
                   bench.len(planned.unit.fin) + " over " + gap + ": it " +
                   (cover < 0 ? "stops " + lap + " short of the framing, and should lap it by "
                              : "laps the framing by " + lap + ", and should by ") +
                   wanted + ".",
               {cover, least->value, "mm", least},
               "Close the gap, or have wider " + bench.words().flashing + "s behind the " + bench.words().fin + ".",
               *worst);
}

void noteLeftOut(const practice::Practice& practice, const plan::Frame& frame, std::vector<Finding>& findings) {
  const auto& least = practice.framing.shortest_piece;
  if (frame.left_out.empty() || !least) return;
  add(findings, Severity::Note, "short pieces",
      "Left out, under " + words::length(least->value, practice.display) +
          " long and not to be nailed: " + count(static_cast<long>(frame.left_out.size()), "piece") + ".",
      {.figure = &*least},
      "Fill the space with solid timber nailed to what is beside it, or move the " + practice.words.opening +
          " so that there is none.");
}

/// What the job leaves out and the practice gives, each with its source.
void noteAssumed(const practice::Practice& practice, const std::vector<plan::Assumption>& assumed,
                 std::vector<Finding>& findings) {
  if (assumed.empty()) return;
  const auto said = [&](const plan::Assumption& assumption) {
    const practice::Figure& figure = *assumption.figure;
    return std::string(assumption.key) + " " + words::amount(figure.value, figure.unit, 1, practice.display) + " (" +
           practice::cite(figure) + ")";
  };
  add(findings, Severity::Note, "taken from the rule set",
      "Left out of the job, taken from the rule set: " + base::joined(assumed, "; ", said) + ".");
}

void judgeAssumed(Bench& bench) {
  std::vector<plan::Assumption> assumed = bench.planned().unit.assumed;
  assumed.insert(assumed.end(), bench.planned().assumed.begin(), bench.planned().assumed.end());
  noteAssumed(bench.practice, assumed, bench.findings);
}

// What packs it: stacks against their gaps, and the support of the sill.

void judgeBacking(Bench& bench) {
  if (wideGapSaid(bench)) return;  // its remedy tells of the backing
  const plan::PackingPoint* deepest = nullptr;
  for (const auto& point : bench.planned().packing.points) {
    if (point.backing > 0 && (deepest == nullptr || point.gap > deepest->gap)) deepest = &point;
  }
  if (deepest == nullptr) return;
  // One sentence does for the opening; the points are listed under packing.
  const auto& most = bench.practice.packing.most_stack;
  bench.attend("packing",
               "The gap " + placeOf(bench, *deepest) + " is " + bench.len(deepest->gap) + ", too deep for " +
                   bench.words().packer + "s alone.",
               most ? Against{deepest->gap, most->value, "mm", &*most} : Against{},
               "Fix a timber backing " + bench.len(deepest->backing) + " thick to the framing first.", deepest->side);
}

void judgeLeftOver(Bench& bench) {
  const auto* most = ruleOrNote(bench, bench.practice.packing.most_left_over, "slack left by the packers");
  if (most == nullptr) return;
  const plan::PackingPoint* worst = nullptr;
  for (const auto& point : bench.planned().packing.points) {
    if (point.gap < 0) continue;  // doesn't fit: said elsewhere
    if (!above(point.left_over, most->value)) continue;
    if (worst == nullptr || point.left_over > worst->left_over) worst = &point;
  }
  if (worst == nullptr) return;
  bench.attend("packing",
               "The " + bench.words().packer + "s at hand leave " + bench.len(worst->left_over) + " of slack " +
                   placeOf(bench, *worst) + ".",
               {worst->left_over, most->value, "mm", most},
               "Bring a thinner " + bench.words().packer + "; never drive one in: that bows the frame.", worst->side);
}

void judgeSillSupport(Bench& bench) {
  const auto& planned = bench.planned();
  if (planned.packing.sill_full_bearing) {
    bench.note("sill support", "The sill bears on its full length: the rule set packs no door sills at single points.",
               {}, "Level the floor under it, or bed it on packing that runs through.", plan::Side::Sill);
  }
  if (planned.unit.isDoor() || !planned.stand.fits) return;
  for (const auto& point : planned.packing.points) {
    if (point.side != plan::Side::Sill || point.stack.pieces > 0 || !above(point.gap, 0)) continue;
    bench.attend("sill support",
                 "No " + bench.words().packer + " at hand is thin enough for the gap of " + bench.len(point.gap) + " " +
                     placeOf(bench, point) + ": the unit's weight is not carried there.",
                 {}, "Raise the unit within its clearance, or bring thinner " + bench.words().packer + "s.",
                 plan::Side::Sill);
    return;  // one place is enough
  }
}

}  // namespace

void judgeFrame(const job::Job& job, const practice::Practice& practice, const plan::WallPlan& wall,
                std::vector<std::vector<Finding>>& openings, std::vector<Finding>& of_wall) {
  for (const auto& fault : wall.frame.faults) {
    const auto tell = [&](std::int32_t index, std::int32_t other, bool from_other) {
      const std::string name = other < 0 ? "the wall's end" : job.openings[static_cast<std::size_t>(other)].name;
      // The frame round an old hole stands and can't be seen: what is drawn of it is no fault of it.
      const bool framing = fault.kind != FrameFaultKind::OutsideWall && fault.kind != FrameFaultKind::OpeningsOverlap;
      if (framing && index >= 0 && job.openings[static_cast<std::size_t>(index)].isExisting()) return;
      auto& findings = index < 0 ? of_wall : openings[static_cast<std::size_t>(index)];
      const bool assumed = index >= 0 && !job.openings[static_cast<std::size_t>(index)].lintel;
      const auto from = [&](std::int32_t of) { return job.openings[static_cast<std::size_t>(of)].left; };
      const auto to = [&](std::int32_t of) { return from(of) + job.openings[static_cast<std::size_t>(of)].width; };
      const bool stacked = index >= 0 && other >= 0 && below(from(index), to(other)) && below(from(other), to(index));
      sayFault(practice, fault, name, from_other, stacked, assumed, findings);
      // Studs of each in the other's way are said once.
      if (findings.size() > 1 && findings.back().say == findings[findings.size() - 2].say) findings.pop_back();
    };
    tell(fault.opening, fault.other, false);
    if (fault.other >= 0) tell(fault.other, fault.opening, true);  // each of the two is told, from its side
  }
  for (const auto index : wall.not_in_line) {
    add(openings[static_cast<std::size_t>(index)], Severity::Attend, "heads in line",
        "The unit's head can't be in line with the others on the wall.", {},
        "Move the sill or the " + practice.words.lintel + ", or set this head out of line.", plan::Side::Head);
  }
  if (wall.spec.second_row) {
    add(of_wall, Severity::Note, "second row",
        "It has two rows of " + practice.words.stud +
            "s: units are fixed to the outer. Which row carries, and what lines " +
            "and closes the gap round an opening, is the designer's to say: not judged.");
  }
  if (!plan::isFinished(job, wall)) noteLeftOut(practice, wall.frame, of_wall);  // else its frame stood before
  noteAssumed(practice, wall.spec.assumed, of_wall);
}

void judgeGroundClearance(const job::Wall& wall, const practice::Practice& practice, double cladding,
                          std::vector<Finding>& findings) {
  const auto& least = practice.weather.cladding.ground_clearance;
  const std::optional<double> height = wall.fall();
  if (!least || cladding <= 0 || wall.isInside() || !height || !below(*height, least->value)) return;
  const auto [lies, wanted] = words::toldApart(*height, least->value, practice.display);
  add(findings, Severity::Attend, "ground clearance",
      "The floor is " + lies + " above the ground outside: " + practice.words.cladding + " that covers the " +
          practice.words.bottom_plate + " ends nearer to it than " + wanted + ".",
      {*height, least->value, "mm", &*least},
      "Lower the ground along the wall, or see what the local code allows over paving and on dry ground.");
}

void judgeSetOut(Bench& bench) {
  judgeUnitSize(bench);
  judgeUnderEave(bench);
  judgeReveal(bench);
  judgeFrameDepth(bench);
  judgeFin(bench);
  judgeAssumed(bench);
}

void judgePacking(Bench& bench) {
  judgeBacking(bench);
  judgeLeftOver(bench);
  judgeSillSupport(bench);
}

}  // namespace sillwright::check
