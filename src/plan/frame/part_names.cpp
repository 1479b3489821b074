#include "plan/frame/part_names.h"

namespace sillwright::plan {

std::string nameOf(MemberPart part, const practice::Words& words) {
  switch (part) {
    case MemberPart::BottomPlate:
      return words.bottom_plate;
    case MemberPart::TopPlate:
      return words.top_plate;
    case MemberPart::CommonStud:
      return words.stud;
    case MemberPart::JambStud:
      return words.jamb_stud;
    case MemberPart::BearingStud:
      return words.bearing_stud;
    case MemberPart::JackStudBelow:
      return words.jack_stud + " below";
    case MemberPart::JackStudAbove:
      return words.jack_stud + " above";
    case MemberPart::Lintel:
      return words.lintel;
    case MemberPart::SillTrimmer:
      return words.sill_trimmer;
    case MemberPart::Nogging:
      return words.nogging;
  }
  return {};
}

}  // namespace sillwright::plan
