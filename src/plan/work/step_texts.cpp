#include "plan/work/step_texts.h"

#include <array>

#include "plan/stand/place.h"
#include "plan/weather/skin.h"

namespace sillwright::plan {

using words::capital;
using words::number;

namespace {

/// Each fills in the step that it is given.
struct Tell : StepTexts {
  void checkFraming(Step& s) const {
    if (planned.existing) return checkOldOpening(s);  // its framing is out of sight
    s.title = "Check the framing";
    s.what =
        "Compare the framing with the order and the plan: " + words.jamb_stud + "s, " + overHead() +
        (opening.sill > 0 ? ", " + words.sill_trimmer : std::string{}) +  // a door has none
        ", all fixed, and nothing left standing in the opening" +
        (wall.second_row ? "; the gap between the two rows of " + words.stud + "s is lined across all round" : "") +
        ". Measure the unit too, if it is on site.";
    s.parts = {words.opening + " " + size(opening) +
                   (opening.sill > 0 ? ", sill " + len(opening.sill) + " up" : std::string(", on the floor")),
               "unit ordered " + size(planned.unit)};
    s.tools = {"tape"};
    const auto& least = planned.rules.least;
    s.before_going_on = "The opening is larger than the unit by at least " + len(least.left + least.right) +
                        " in width and " + len(least.sill + least.head) + " in height.";
    s.caution = "Studs, sill and lintel carry load: cut or moved only by span tables or an engineer.";
  }

  void checkOldOpening(Step& s) const {
    s.title = "Look at the old opening";
    s.what = "What stays: " + words.lining + ", " + wordFor(wall.cladding, words) +
             ", sill. Is it sound and dry, and does the new unit go in from the side that is open? Nothing is cut, "
             "drilled or sanded yet.";
    s.parts = {"hole between linings " + size(opening), "unit ordered " + size(planned.unit)};
    s.tools = {"tape", "torch"};
    const auto& least = planned.rules.least;
    s.before_going_on = "The hole is larger than the unit by at least " + len(least.left + least.right) +
                        " in width and " + len(least.sill + least.head) +
                        " in height; the year of the house is known, or paint and board are tested.";
    s.caution = base::joined(oldHouseCautions(job, practice), " ");
  }

  void takeOut(Step& s) const {
    s.title = "Take the old unit out";
    s.what =
        "Sashes and glass first. Cut paint and sealant round the frame inside and out, find and draw its fixings, and "
        "lift it out; a frame that is built in is sawn through and folded in. Lining and " +
        wordFor(wall.cladding, words) + " stay.";
    s.tools = {"knife", "pry bar", "saw", "suction cups", "gloves"};
    s.before_going_on =
        "Old packers, nails and sealant are off; the timber is sound and dry. What can be reached of membrane and "
        "flashings is mended.";
    s.caution = base::joined(oldHouseCautions(job, practice), " ");
    s.caution += std::string(s.caution.empty() ? "" : " ") +
                 "Glass: upright and never flat. Guard an open opening above the floor.";
  }

  void readOpening(Step& s) const {
    const auto& most = practice.opening_tolerance;
    s.title = planned.existing ? "Measure between the linings" : "Measure the opening";
    // Those that have a height: readingFault refuses one where there is none.
    std::vector<std::string> sides{"left", "right"};
    if (opening.head && opening.head->right == 0) sides.pop_back();
    if (opening.head && opening.head->left == 0) sides.erase(sides.begin());
    const bool corners = sides.size() == 2;  // four: else the diagonals are sides
    s.what = (opening.head ? "Width at the bottom and between the upper corners" +
                                 (sides.empty() ? "" : "; height at " + base::joined(sides, " and "))
                           : std::string("Width at bottom, middle and top; height at left, middle and right")) +
             (corners ? "; both diagonals" : "") +
             (opening.head && opening.head->peaked() ? "; the peak from all four corners" : "") +
             "; the sill with a level; " + (corners ? "both sides" : "the side") +
             " for plumb, along the wall and in or out. Write each figure down as it is measured.";
    s.tools = {"tape", "long level", "pencil"};
    s.before_going_on = "Studs plumb" + within(most.plumb_mm, most.plumb_over) + "; sill level" +
                        within(most.sill_level) + (opening.head ? "" : "; diagonals alike" + within(most.diagonals)) +
                        "; edges straight" + within(most.bow, most.bow_over) + "; no twist" + within(most.twist) +
                        ". The measurements agree, and the unit fits.";
    s.caution = "Guard an open opening above the floor until the unit is in it.";
  }

  void membrane(Step& s) const {
    const auto& word = words.membrane;
    const auto& cut = planned.weather.cut;
    const auto& rules = practice.weather.membrane;
    s.title = "Run, cut and fold the " + word;
    s.what = capital(word) +
             " from the bottom up, each run over the one below, right across the opening. Cut out a smaller " +
             (opening.head ? "shape, " : "rectangle, ") + len(cut.flap) + " in from the opening's edges, cut " +
             (opening.head ? "" : "at 45° ") + "from its corners into the opening's " +  // slopes have other angles
             "corners, fold the flaps in and fix them" +
             (cut.head_flap_kept ? "; the head's flap is tacked up until the flashing is in." : ".");
    if (rules.fixing_spacing_most)
      s.what += " Fixings are at most " + len(rules.fixing_spacing_most->value) + " apart.";
    s.parts = piecesOf({PieceKind::MembraneFold, PieceKind::CornerTape});
    s.tools = {"knife", "straight edge", "stapler"};
    s.before_going_on =
        "Runs lap by " + len(rules.lap.usual.value) + ", the upper one outside, and their ends by " +
        len(rules.end_lap.value) + " on a " + words.stud + "; no tear" +
        (planned.weather.bare_corners.empty() ? std::string("; corners covered.")
                                              : std::string("; the bare triangles at the corners are seen to."));
    s.caution = "Cut away from yourself; blade in before the knife is put down.";
  }

  void packSill(Step& s) const {
    s.parts = packersOn(Side::Sill);
    s.tools = {"long level"};
    if (planned.packing.sill_full_bearing || s.parts.empty()) {  // empty: no packer goes under it
      s.title = "Bed the sill level";
      s.what = "The sill bears on its whole length: level the floor under it, or bed it dead level.";
      s.tools = {"long level", "straight edge"};
    } else {
      s.title = "Pack the sill level";
      s.what = std::string("From the highest point of the ") + (planned.existing ? "old" : "framed") + " sill, " +
               words.packer +
               "s under both jambs, under every mullion and between them, tops dead level to each other.";
      if (planned.unit.isDoor()) s.what += " A door's sill is walked on: nothing under it may give way.";
    }
    if (planned.isFlashed() && wantsSillSupport(planned.unit, opening.width, wall, practice)) {  // not in an old wall
      s.what += " The unit stands out over the cavity: first fix the sill support across it, level with the " +
                words.packer + "s, its ends near the studs at both sides.";
      s.parts.push_back("sill support, " + len(opening.width));
      s.tools.emplace_back("driver");
    }
    if (const auto& sub_sill = planned.unit.sub_sill) {
      // Common practice, no source.
      s.what +=
          " On that the sub-sill, level: its ends closed, turned up or sealed to the sides, its holes to the "
          "outside open, sealant round every screw through it.";
      s.parts.push_back("sub-sill " + len(partsOf(planned.unit).in_reveal.width()) + ", " + len(sub_sill->height) +
                        " high, " + len(sub_sill->depth) + " deep");
      s.tools.emplace_back("sealant gun");
    }
    const auto& most = practice.installed_tolerance;
    s.before_going_on = "The tops are level" + within(most.level_mm, most.level_over) + ", and no " + words.packer +
                        " rocks" +
                        (planned.unit.sub_sill ? "; water poured into the sub-sill runs out at the front." : ".");
  }

  void firstJamb(Step& s) const {
    s.title = std::string("Pack the ") + first() + " jamb plumb";
    s.what = std::string("On the ") + first() + " " + (planned.existing ? words.lining : words.jamb_stud) +
             ", a stack of " + words.packer + "s " +
             (throughFin() ? std::string("where the plan has them") : "where each " + words.fixing + " will be") +
             ", thicker where the stud stands away: their faces are in one plumb line.";
    s.parts = packersOn(planned.packing.first_jamb);
    s.tools = {"long level", "stapler"};
    const auto& most = practice.installed_tolerance;
    s.before_going_on = "The faces are plumb and in one line" + within(most.plumb_mm, most.plumb_over) + ".";
  }

  void flashingsOnUnit(Step& s) const {
    const auto& word = words.flashing;
    const bool fitted = opening.unit.flashing == job::Flashing::Fitted;
    s.title = fitted ? "Free the fitted " + word + "s" : capital(word + "s on the unit");
    s.what = fitted ? "The " + word + "s came on the unit: cut their ties and fold them out"
                    : "On trestles staple the " + word + "s to the " + words.reveal + "'s outside" +
                          (opening.sill > 0 ? ": the sill's first, then the jambs'" : std::string{});
    if (opening.sill > 0) {  // a door stands in its pan, which is in already
      s.what += ". See that each jamb's foot lies over the sill's end by " + len(jambOverSill(planned.weather));
    }
    s.what += ". They are held clear of the opening while the unit goes in.";
    s.parts = piecesOf({PieceKind::SillFlashing, PieceKind::JambFlashing});
    s.tools = {"knife", "tape"};
    if (!fitted) s.tools.emplace_back("stapler");
    s.before_going_on =
        "Undamaged, long enough past the opening" + std::string(opening.sill > 0 ? ", jamb over sill." : ".");
  }

  /// A door's sill never stands straight on the floor: it drains into a pan.
  void doorPan(Step& s) const {
    const auto& flashing = practice.weather.flashing;
    s.title = capital(std::string(kPanName) + " in");
    s.what = "On the floor across the opening: its front down over the floor's edge by " + len(kSkirt) +
             ", its ends turned up the studs by " + len(flashing.sill_end_upstand.value) +
             ", its inner edge turned up behind the door by " + len(flashing.sill_upstand.value) +
             ". The door's sill never stands straight on the floor.";
    s.parts = piecesOf({PieceKind::SillPan});
    s.tools = {"knife", "tape", "sealant gun"};
    s.before_going_on = "No hole in it; water poured in runs out at the front.";
  }

  void sillFlashing(Step& s) const {
    if (opening.sill <= 0) return doorPan(s);
    const auto& flashing = practice.weather.flashing;
    s.title = capital("sill " + words.flashing + " on");
    const bool in_one = piecesOf({PieceKind::SillPan}).empty();  // no pan: the strip is sill and skirt in one
    double down = flashing.sill_down.value;                      // or as far down as it is drawn
    for (const Sheet& sheet : planned.weather.skin.sheets) {
      if (sheet.kind == SheetKind::SillFlashing) down = std::max(down, -boxOf(sheet).z0);
    }
    const std::string past = len(flashing.sill_past.usual.value) + " past the opening at each end";
    s.what = in_one ? "Across the sill and down the wall's face by " + len(down) + ", " + past +
                          "; its inner edge turned up behind the unit. "
                    : "First the strip down the wall's face, " + past + "; then the pan across the sill, its front " +
                          len(kPanLap) + " down over the strip, its ends turned up the studs and its inner edge " +
                          "turned up behind the unit. ";
    s.what += std::string(in_one ? "Its" : "The strip's") + " lower edge stays loose: " +
              (isBrick(wall.cladding) ? "it comes out over the course below the sill bricks."
                                      : "the " + words.cladding + " below goes up under it.");
    s.parts = piecesOf({PieceKind::SillFlashing, PieceKind::SillPan});
    s.tools = {"knife", "tape", "stapler"};
    s.before_going_on =
        "Past the opening at both ends" +
        (flashing.sill_past.least ? " by " + len(flashing.sill_past.least->value) + " at least" : std::string{}) +
        "; no hole in it.";
  }

  void jambFlashings(Step& s) const {
    if (flashingsGoIn()) return flashingsOnUnit(s);  // made ready now, and in with the unit
    const auto& flashing = practice.weather.flashing;
    const auto& word = words.flashing;
    const double over = jambOverSill(planned.weather);  // 0: there is no sill flashing under them
    s.title = capital("jamb " + word + "s on");
    s.what = "Up each side, from the opening's edge outwards" +
             (over > 0 ? ", their feet over the sill " + word + " by " + len(over) : std::string(", from the floor")) +
             ", their tops " + len(flashing.jamb_past.value) + " past the head.";
    s.parts = piecesOf({PieceKind::JambFlashing});
    s.tools = {"knife", "tape", "stapler"};
    s.before_going_on =
        over > 0 ? "Both feet lie over the sill's, not under it." : "Both lie flat, from floor to past the head.";
  }

  void panelsOut(Step& s) const {
    const auto& mass = planned.mass;
    const bool one = mass.panels_out == 1;
    s.title = "Take the " + panelWord() + " out";
    s.what = "Whole it weighs " + words::mass(mass.total_kg, practice.display) + ": lift the " + panelWord() +
             (planned.mass.leaves_out ? std::string(" off ") + (one ? "its" : "their") + " hinges"
                                      : std::string(" up out of ") + (one ? "its track" : "their tracks")) +
             " and stand " + (one ? "it" : "them") +
             " upright in the shade, out of the way. What else comes out is the unit maker's to say.";
    s.parts = {panelsPart()};
    s.tools = {"screwdriver", "suction cups", "gloves"};
    s.before_going_on = "The " + panelWord() + " can't fall; screws and stops are kept together.";
    s.caution = "Glass: upright and never flat, gloves and safety shoes on.";
  }

  void panelsIn(Step& s) const {
    const bool one = planned.mass.panels_out == 1;
    s.title = "Put the " + panelWord() + " back";
    s.what = "The frame is fixed all round: now the " + panelWord() + (one ? " goes" : " go") + " back in, with " +
             (one ? "its" : "their") + " stops.";
    s.parts = {panelsPart()};
    s.tools = {"screwdriver", "suction cups", "gloves"};
    s.before_going_on = "The gaps are even, and nothing can be lifted out by accident.";
    s.caution = "Glass: upright and never flat, gloves and safety shoes on.";
  }

  void boreReveal(Step& s) const {
    const auto& word = words.reveal;
    s.title = "Pre-drill the " + word;
    s.what = "On trestles: a hole at each " + words.fixing + ", close above or below its " + words.packer +
             ", on the line of the stud's middle, countersunk just deep enough to bury the head.";
    s.tools = {"drill", "countersink", "square"};
    const auto& fixings = planned.fixings;
    std::array<long, kSides> on{};
    for (const Fixing& point : fixings.points) ++on[static_cast<std::size_t>(point.side)];
    const bool alike = on[0] == on[1];  // jambs under a slope aren't as high, and a triangle lacks one
    std::vector<std::string> holes;
    if (alike && on[0] > 0) holes.push_back(std::to_string(on[0]) + " each side");
    for (const Side side : kEverySide) {
      const long count = on[static_cast<std::size_t>(side)];
      if (count == 0 || (alike && !isLevel(side))) continue;
      holes.push_back(std::to_string(count) + " in the " + toWord(side) + (isLevel(side) ? "" : " jamb"));
    }
    if (fixings.countersink > 0) holes.push_back("heads " + len(fixings.countersink) + " below the face");
    s.parts.push_back("holes: " + base::joined(holes));
    s.before_going_on = "A hole for each " + words.fixing + " of the plan; none through the frame.";
    s.caution = "Safety glasses; the unit stands upright and can't fall.";
  }

  void liftIn(Step& s) const {
    s.title = "Lift the " + (planned.unit.isDoor() ? words.door : words.window) + " in";
    const bool bedded = planned.packing.sill_full_bearing;
    s.what = "Its foot on the " +
             (planned.unit.sub_sill ? "sub-sill"
              : bedded              ? std::string("bedded sill")
                                    : "sill's " + words.packer + "s") +
             ", tilt it up until " +
             (planned.unit.fin > 0 ? "the " + words.fin + " is hard against the wall all round"
                                   : std::string("its face is where the plan has it all round")) +
             ", and push it against the " + first() + " jamb's " + words.packer + "s.";
    if (flashingsGoIn()) s.what += " Pull its " + words.flashing + "s clear as it goes.";
    if (planned.unit.coupled > 0) {
      s.what +=
          " Its parts go in one by one and are coupled as their maker says, the joint sealed over its whole length.";
    }
    const auto& mass = planned.mass;
    const std::string parts = partsWords(planned.unit, practice.display);
    const std::string weight = words::mass(mass.lifted(), practice.display);
    s.parts = {!parts.empty() ? parts + ", the heaviest " + weight
                              : "unit " + size(planned.unit) + (mass.stated ? ", " : ", about ") + weight +
                                    (mass.panels_out > 0 ? " without its " + panelWord() : std::string{})};
    s.tools = {"gloves", "long level", "props"};
    s.before_going_on =
        "Level and plumb, " +
        (planned.unit.fin > 0 ? "the " + words.fin + " lying over every " + words.flashing + ", " : std::string{}) +
        "the gap open on all sides.";
    const std::string people = mass.people ? liftedBy(mass) : "enough people";  // no rule names a number
    s.caution = "Heavy and fragile: " + people +
                ", gloves and safety shoes, carried upright and never flat. Held until it is fixed. At height from a "
                "proper platform.";
  }

  void fixFirstJamb(Step& s) const {
    s.title = std::string("Fix the ") + first() + " jamb";
    s.what = throughFin() ? "Screw through the " + words.fin + " into the " + words.jamb_stud + " at each mark"
                          : "Screw through at each " + words.packer;
    s.what += ", from the middle outwards, the jamb straight and " +
              (planned.unit.fin > 0 ? "the " + words.fin + " still hard against the wall."
                                    : std::string("the face in line."));
    s.parts = screwsOn(planned.packing.first_jamb);
    s.tools = {"driver", "long level"};
    const auto& most = practice.installed_tolerance;
    s.before_going_on =
        "Plumb" + within(most.plumb_mm, most.plumb_over) + " in both directions; heads buried, none proud.";
    s.caution = "Know what runs behind: a screw past the stud can hit a cable or a pipe.";
  }

  void fixOtherJamb(Step& s) const {
    const bool no_jamb = planned.unit.lengthOf(across(planned.packing.first_jamb)) <= 0;  // a triangle's head instead
    s.title = no_jamb ? "Fix the head" : std::string("Pack and fix the ") + other() + " jamb";
    const bool head_packed = practice.packing.head_packed && practice.packing.head_packed->value > 0;
    s.what = no_jamb ? "Screws at the head as before"
                     : words.packer + "s to a firm fit " + (throughFin() ? "up the jamb" : "at each " + words.fixing) +
                           ", never so tight that the jamb bows, then screws as before";
    s.what += (head_packed       ? "; the head last."
               : !planned.lintel ? ". Nothing is packed at the head."
                                 : ". Nothing is packed between head and " + words.lintel + ": the " + words.lintel +
                                       " must be free to sag.");
    // Common practice, no source: a screw drawn tight where nothing is packed bows what it goes through.
    if (!screwsOn(Side::Head).empty() && !head_packed && !throughFin()) {
      s.what += " Screws at the head are not drawn tight: nothing there keeps it from bowing.";
    }
    // Common practice, no source: a screw through the sill pierces what drains it.
    if (!screwsOn(Side::Sill).empty() && !throughFin())
      s.what += " Sealant into each hole of the sill before its screw.";
    s.what = capital(s.what);                                 // it may begin with the packer's word
    s.parts = packersOn(across(planned.packing.first_jamb));  // with the screws of sill and head, which have no step
    for (const Side side : {across(planned.packing.first_jamb), Side::Sill, Side::Head}) {
      for (auto& screws : screwsOn(side)) s.parts.push_back(std::move(screws));
    }
    s.tools = {"driver", "long level", "straight edge"};
    const auto& left_over = practice.packing.most_left_over;
    s.before_going_on =
        "Jambs straight" +
        (left_over ? "; no more than " + len(left_over->value) + " of slack at any " + words.packer : std::string{}) +
        (planned.unit.reveal ? "; the " + words.reveal + " flush with the " + words.lining + "'s line" +
                                   within(practice.unit.reveal_flush_tolerance)
                             : std::string{}) +
        ".";
    s.caution = "Know what runs behind: a screw past the stud can hit a cable or a pipe.";
  }

  void headFlashing(Step& s) const {
    const auto& rules = practice.weather.flashing;
    s.title = capital("head " + words.flashing + " on");
    s.what = planned.weather.head.why + " Its upstand lies on the wall behind the " + words.membrane +
             "'s flap, it slopes outwards, its turn-down covers the " + outermost() + ", " +
             len(rules.head_past.usual.value) + " past the opening at each end.";
    const auto* wind = job.wind ? std::get_if<std::string>(&*job.wind) : nullptr;  // a stated pressure has no class
    const bool sealed = wind != nullptr && std::find(rules.head_sealed_in.begin(), rules.head_sealed_in.end(), *wind) !=
                                               rules.head_sealed_in.end();
    if (sealed) s.what += " In wind class " + *wind + " it is sealed to the " + outermost() + ".";
    if (opening.head) {
      s.what +=
          " It runs down the slope; at its low end the stop end is turned so that water is shed over its face, "
          "clear of the boards beside.";
    }
    s.parts = piecesOf({PieceKind::HeadFlashing});
    s.tools = {"tin snips", "tape", "gloves"};
    s.before_going_on = "It slopes outwards" +
                        (rules.head_slope.value > 0 ? " by " + number(rules.head_slope.value) + "°" : std::string{}) +
                        ", stop ends are on, and it reaches past the opening at both ends.";
    s.caution = "Cut metal is sharp: gloves.";
  }

  void headFlap(Step& s) const {
    const auto& word = words.membrane;
    s.title = "Head flap down and taped";
    s.what = "Bring the flap of the " + word + " down over the upstand by " +
             len(practice.weather.membrane.flap_over_head.usual.value) + ", and tape it there and along both slits.";
    s.parts = piecesOf({PieceKind::HeadTape});
    s.tools = {"knife", "tape roller"};
    s.before_going_on = "The flap lies over the upstand along its whole length; the tape sticks everywhere.";
  }

  void tryOpening(Step& s) const {
    s.title = "Open, shut, lock";
    s.what = planned.unit.isDoor()
                 ? "Open, shut and lock it a few times; it stays where it is left, and rubs nowhere."
                 : "Open, shut and lock every sash; it runs without rubbing, and the gaps round it are even.";
    s.tools = {"screwdriver"};  // for rollers, hinges and keeps
    s.before_going_on = "It opens, shuts and locks with one hand; if not, a jamb is bowed or the frame is racked.";
  }

  void readAgain(Step& s) const {
    const auto& most = practice.installed_tolerance;
    const double area = planned.unit.width * planned.unit.height / 1e6;                    // m², as the rule has it
    const bool large = most.large_from_area_m2 && area >= most.large_from_area_m2->value;  // it may be less square
    s.title = "Re-check it";
    s.what = std::string(opening.head ? "Measure" : "Measure the unit's diagonals,") +
             " its sill with a level, the jambs for plumb. Write them down beside the first measurements.";
    s.tools = {"tape", "long level", "pencil"};
    const std::string square =
        "Diagonals alike" + within(large ? most.diagonals_large : most.diagonals_small) + "; level";
    s.before_going_on = (opening.head ? "Level" : square) + within(most.level_mm, most.level_over) + "; plumb" +
                        within(most.plumb_mm, most.plumb_over) + ". The unit maker's own limits come first.";
  }

  void sealInside(Step& s) const {
    const auto& rules = practice.weather.sealing;
    s.title = "Seal the gap inside";
    s.what =
        "Backing rod and sealant, or low-expansion foam, all round between unit and frame; the drainage path at the "
        "sill stays open.";
    const double widest = planned.stand.gaps.widestSealed();
    if (rules.backing_from && widest > rules.backing_from->value) {
      s.parts.push_back("backing rod: gaps are up to " + len(widest) + ", more than " + len(rules.backing_from->value));
    }
    double round = planned.unit.lengthOf(Side::Left) + planned.unit.lengthOf(Side::Right);
    if (!planned.unit.isDoor()) round += planned.unit.width;  // a door's foot is sealed in its sill's bed
    const std::vector<Point> head = headLineOf(planned.unit).corners();
    for (std::size_t i = 1; i < head.size(); ++i)
      round += std::hypot(head[i].x - head[i - 1].x, head[i].z - head[i - 1].z);
    s.parts.emplace_back("sealant or foam, " + len(std::round(round)) + " round the unit");
    s.tools = {"sealant gun", "smoothing tool"};
    s.before_going_on =
        "Sealed all round" +
        (rules.sealant_depth_least ? ", " + len(rules.sealant_depth_least->value) + " deep at least" : std::string{}) +
        "; jambs still straight; drainage clear.";
    s.caution = "Foam expands and bows the frame: a little at a time. Gloves, and air the room.";
  }

  void trims(Step& s) const {
    s.title = planned.inside ? "Trims" : "Seal and trim outside";
    s.what = planned.inside ? capital(words.lining) + " made good and trims on both sides."
                            : "Backing rod and sealant between the frame and what stays, up both jambs and across the "
                              "head; trims where the gap shows. The sill is left open to drain. Trims inside.";
    s.tools = {"sealant gun", "saw", "hammer or nailer"};
    s.before_going_on = planned.inside ? "Nothing is left to rub or rattle."
                                       : "Sealed up both jambs and across the head, open at the sill. What the old "
                                         "flashings behind do can't be seen: it is not judged.";
    s.caution = "Blades and dust: guards on; eyes, ears and lungs protected.";
  }

  void cladding(Step& s) const {
    if (!planned.isFlashed()) return trims(s);  // the wall is clad already, or has none
    const auto& rules = practice.weather.cladding;
    const bool brick = isBrick(wall.cladding);  // bricks stand clear and are not tucked in
    s.title = capital(wordFor(wall.cladding, words) + " and trims");
    const practice::Rule closer = cavityCloser(wall, practice);
    if (closer) {  // first, because the cladding hides it
      s.what = "First close the cavity all round the opening, with closers made for it or timber of " +
               len(closer->value) + " or more. ";
      s.parts.push_back("cavity closer, " + len(wall.cladding.cavity) + " deep");
    }
    s.what += (closer ? capital(courses()) : courses()) + "; " +
              (brick || opening.sill <= 0 ? std::string{}
                                          : "what is below the sill up under the sill " + words.flashing +
                                                ", what is next over it up under the unit, ") +
              "the sides " +
              (brick ? len(kBrickGap) + " clear of the frame" + (planned.unit.fin > 0 ? "" : ", the joint sealed")
               : planned.unit.fin > 0 ? "over the " + words.fin + " into the frame's channel"
                                      : std::string("up to the frame, the joint sealed up both jambs")) +
              ", and above it " + len(rules.head_gap.value) + " clear of the " +
              (planned.weather.head.needed ? "head " + words.flashing : std::string("unit")) + ". " +
              capital(words.lining) + " and trims inside.";
    s.tools = {"saw", "long level", "hammer or nailer"};
    s.before_going_on =
        "No water is trapped: the gap above the head is open, the sill " + words.flashing + " drains outside.";
    if (opening.sill <= 0) s.before_going_on = "No water is trapped, and the door moves freely.";
    s.caution = "Blades, wood dust and silica dust: guards on; eyes, ears and lungs protected.";
  }
};

}  // namespace

Step stepOf(const StepTexts& texts, StepKind kind) {
  // As StepKind.
  static constexpr std::array kTell{&Tell::checkFraming, &Tell::readOpening, &Tell::takeOut,      &Tell::membrane,
                                    &Tell::sillFlashing, &Tell::packSill,    &Tell::firstJamb,    &Tell::jambFlashings,
                                    &Tell::panelsOut,    &Tell::boreReveal,  &Tell::liftIn,       &Tell::fixFirstJamb,
                                    &Tell::fixOtherJamb, &Tell::panelsIn,    &Tell::headFlashing, &Tell::headFlap,
                                    &Tell::tryOpening,   &Tell::readAgain,   &Tell::sealInside,   &Tell::cladding};
  static_assert(kTell.size() == kStepKinds);
  Step made;
  made.kind = kind;
  (Tell{texts}.*kTell[static_cast<std::size_t>(kind)])(made);
  return made;
}

}  // namespace sillwright::plan
