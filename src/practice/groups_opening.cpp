// Framing, unit, clearances, survey, packing, tolerances and stock.
#include "base/words.h"
#include "practice/groups.h"

namespace sillwright::practice {

namespace {

void readErrors(Fields& fields, InstrumentErrors& into) {
  fields.figure("distance", kLength, into.distance);
  fields.figure("diagonal", kLength, into.diagonal);
  fields.figure("level", kLength, into.level);
}

/// Of two bands over the same sizes: the first may nowhere be above the second.
void keepOrder(Fields& fields, const char* key, const Bands& low, const char* high_key, const Bands& high) {
  for (const Bands* edges : {&low, &high}) {
    for (const Band& band : edges->bands) {
      const Figure* least = low.at(band.up_to);
      const Figure* most = high.at(band.up_to);
      if (least != nullptr && most != nullptr && least->value > most->value) {
        fields.wrong(key, "must not be above " + std::string(high_key) + ", " + job::toText(most->value) + "; found " +
                              job::toText(least->value));
        return;
      }
    }
  }
}

}  // namespace

void readWords(Fields& fields, Words& into) {
  fields.requiredText("packer", into.packer);
  fields.requiredText("lintel", into.lintel);
  fields.requiredText("nogging", into.nogging);
  fields.requiredText("membrane", into.membrane);
  fields.requiredText("jamb_stud", into.jamb_stud);
  fields.requiredText("bearing_stud", into.bearing_stud);
  fields.requiredText("jack_stud", into.jack_stud);
  fields.requiredText("sill_trimmer", into.sill_trimmer);
  fields.requiredText("reveal", into.reveal);
  fields.requiredText("fin", into.fin);
  fields.requiredText("bottom_plate", into.bottom_plate);
  fields.requiredText("top_plate", into.top_plate);
  fields.requiredText("stud", into.stud);
  fields.requiredText("lining", into.lining);
  fields.requiredText("cladding", into.cladding);
  fields.requiredText("flashing", into.flashing);
  fields.requiredText("opening", into.opening);
  fields.requiredText("window", into.window);
  fields.requiredText("door", into.door);
  fields.requiredText("fixing", into.fixing);
}

void readFraming(Fields& fields, Framing& into) {
  fields.figure("stud_depth", kPart, into.stud_depth);
  fields.figure("stud_thickness", kPart, into.stud_thickness);
  fields.figure("spacing", kPart, into.spacing);
  fields.figure("top_plates", kPieces, into.top_plates);
  fields.figure("bottom_plates", kPieces, into.bottom_plates);
  fields.figure("lining", kLength, into.lining);
  fields.figure("cladding_thickness", kPart, into.cladding_thickness);
  fields.figure("cavity", kLength, into.cavity);
  fields.figure("nogging_spacing", kPart, into.nogging_spacing);
  fields.rule("nogging_stagger", kRatio, into.nogging_stagger);
  fields.rule("jamb_notch_most", kLength, into.jamb_notch_most);
  double before = 0;
  fields.each("side_studs", into.side_studs, [&before](Fields& entry, SideStuds& studs) {
    entry.upTo(before, studs.up_to);
    entry.figure("full_height", kPieces, studs.full_height);
    entry.figure("bearing", kCount, studs.bearing);
    before = studs.up_to;
  });
  before = 0;
  fields.each("lintels", into.lintels, [&before](Fields& entry, LintelDefault& lintel) {
    entry.upTo(before, lintel.up_to);
    entry.figure("depth", kPart, lintel.depth);
    entry.figure("thickness", kPart, lintel.thickness);
    entry.figure("plies", kPieces, lintel.plies);
    before = lintel.up_to;
  });
}

void readUnit(Fields& fields, UnitDefaults& into) {
  fields.figure("frame_depth", kPart, into.frame_depth);
  fields.figure("frame_face", kPart, into.frame_face);
  fields.figure("fin", kLength, into.fin);
  fields.figure("glass_thickness", kPart, into.glass_thickness);
  fields.figure("glass_panes", kPieces, into.glass_panes);
  fields.rule("fin_cover_least", kLength, into.fin_cover_least);
  fields.rule("reveal_flush_tolerance", kLength, into.reveal_flush_tolerance);
}

void readClearance(Fields& fields, Clearance& into) {
  fields.bands("side_least", kLength, into.side_least);
  fields.bands("side_usual", kLength, into.side_usual);
  fields.bands("side_most", kLength, into.side_most);
  fields.bands("sill_least", kLength, into.sill_least);
  fields.bands("sill_usual", kLength, into.sill_usual);
  fields.bands("sill_most", kLength, into.sill_most);
  fields.bands("head_least", kLength, into.head_least);
  fields.bands("head_usual", kLength, into.head_usual);
  fields.bands("head_most", kLength, into.head_most);
  fields.rule("door_sill_least", kLength, into.door_sill_least);
  fields.rule("door_sill_usual", kLength, into.door_sill_usual);
  fields.rule("unit_tolerance", kLength, into.unit_tolerance);
  fields.rule("size_step", kPart, into.size_step);
  keepOrder(fields, "side_least", into.side_least, "side_usual", into.side_usual);
  keepOrder(fields, "side_usual", into.side_usual, "side_most", into.side_most);
  keepOrder(fields, "sill_least", into.sill_least, "sill_usual", into.sill_usual);
  keepOrder(fields, "sill_usual", into.sill_usual, "sill_most", into.sill_most);
  keepOrder(fields, "head_least", into.head_least, "head_usual", into.head_usual);
  keepOrder(fields, "head_usual", into.head_usual, "head_most", into.head_most);
}

void readSurvey(Fields& fields, Survey& into) {
  fields.group("tape", [&](Fields& tape) { readErrors(tape, into.tape); });
  fields.group("laser", [&](Fields& laser) { readErrors(laser, into.laser); });
  fields.figure("planned", kPart, into.planned);
}

void readPacking(Fields& fields, Packing& into) {
  fields.rule("spacing_sill", kPart, into.spacing_sill);
  fields.rule("spacing_jamb", kPart, into.spacing_jamb);
  fields.rule("from_corner", kLength, into.from_corner);
  fields.rule("door_sill_spacing", kPart, into.door_sill_spacing);
  fields.rule("most_stack", kPart, into.most_stack);
  fields.rule("most_pieces", kPieces, into.most_pieces);
  fields.rule("most_left_over", kLength, into.most_left_over);
  fields.rule("head_packed", kYesNo, into.head_packed);
}

void readOpeningTolerance(Fields& fields, OpeningTolerance& into) {
  fields.rule("plumb_mm", kPart, into.plumb_mm);
  fields.rule("plumb_over", kPart, into.plumb_over);
  fields.together("plumb_mm", "plumb_over");
  fields.rule("sill_level", kPart, into.sill_level);
  fields.rule("diagonals", kPart, into.diagonals);
  fields.rule("width_spread", kPart, into.width_spread);
  fields.rule("height_spread", kPart, into.height_spread);
  fields.rule("bow", kPart, into.bow);
  fields.rule("twist", kPart, into.twist);
}

void readInstalledTolerance(Fields& fields, InstalledTolerance& into) {
  fields.rule("plumb_mm", kPart, into.plumb_mm);
  fields.rule("plumb_over", kPart, into.plumb_over);
  fields.together("plumb_mm", "plumb_over");
  fields.rule("level_mm", kPart, into.level_mm);
  fields.rule("level_over", kPart, into.level_over);
  fields.together("level_mm", "level_over");
  fields.rule("diagonals_small", kPart, into.diagonals_small);
  fields.rule("diagonals_large", kPart, into.diagonals_large);
  fields.rule("large_from_area_m2", kArea, into.large_from_area_m2);
  fields.together("diagonals_large", "large_from_area_m2");
}

void readStock(Fields& fields, const Strength& strength, StockSizes& into) {
  const bool packers_known = fields.requiredLengths("packers", into.packers);
  fields.requiredLengths("rolls", into.rolls);
  fields.requiredLengths("timber", into.timber);
  fields.requiredTexts("screws", into.screws);
  fields.requiredNumber("roll_length", kPart.value, into.roll_length);
  fields.figure("about", kCount, into.about);
  if (packers_known && fields.has("about") && into.about.value != static_cast<double>(into.packers.size())) {
    fields.wrong("about", "must have the number of packers as its value, " + std::to_string(into.packers.size()) +
                              "; found " + job::toText(into.about.value));
  }
  for (const std::string& screw : into.screws) {
    if (!findScrew(strength, screw)) {
      fields.wrong("screws",
                   "must be a gauge of this practice by a length, like \"8g x 75\"; found " + base::quote(screw));
    }
  }
}

}  // namespace sillwright::practice
