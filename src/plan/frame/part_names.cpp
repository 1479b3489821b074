#include "plan/frame/part_names.h"

#include "words/names.h"

namespace sillwright::plan {
namespace {

using practice::Words;

struct PartName {
  const char* word;
  words::Name name;
};

constexpr std::array<PartName, 10> kNames{{{"bottom plate", {"", &Words::bottom_plate}},
                                           {"top plate", {"", &Words::top_plate}},
                                           {"common stud", {"", &Words::stud}},
                                           {"jamb stud", {"", &Words::jamb_stud}},
                                           {"bearing stud", {"", &Words::bearing_stud}},
                                           {"jack stud below", {"", &Words::jack_stud, " below"}},
                                           {"jack stud above", {"", &Words::jack_stud, " above"}},
                                           {"lintel", {"", &Words::lintel}},
                                           {"sill trimmer", {"", &Words::sill_trimmer}},
                                           {"nogging", {"", &Words::nogging}}}};

}  // namespace

std::string nameOf(MemberPart part, const practice::Words& words) {
  return kNames[static_cast<std::size_t>(part)].name.in(words);
}

const char* toWord(MemberPart part) {
  return kNames[static_cast<std::size_t>(part)].word;
}

}  // namespace sillwright::plan
