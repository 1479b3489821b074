#include "view/values/words.h"

#include <algorithm>
#include <array>

#include "words/length.h"
#include "words/text.h"

namespace sillwright::view {

std::string figure(double mm, practice::Display display) {
  return withMinus(words::bareLength(mm, display));
}

std::string withMinus(std::string number) {
  if (number.starts_with('-')) number.replace(0, 1, "−");
  return number;
}

std::string figures(double width, double height, practice::Display display) {
  return figure(width, display) + " × " + figure(height, display);
}

std::string sentenceFor(check::Verdict verdict, check::Basis basis, const std::vector<check::Finding>& findings) {
  const auto with = [&](check::Severity severity) {
    const auto number = std::count_if(findings.begin(), findings.end(),
                                      [&](const auto& finding) { return finding.severity == severity; });
    return words::count(static_cast<long>(number), "thing");
  };
  switch (verdict) {
    case check::Verdict::Ready:
      return basis == check::Basis::Planned ? "nothing against it so far: measure before it is set"
                                            : "nothing against setting it";
    case check::Verdict::Attend:
      return with(check::Severity::Attend) + " to see to before it is set";
    case check::Verdict::Stop:
      break;
  }
  return with(check::Severity::Stop) + " to put right before it can be set";
}

std::vector<const check::Finding*> troublesOf(const std::vector<check::Finding>& findings) {
  std::vector<const check::Finding*> troubles;
  for (const check::Severity severity : {check::Severity::Stop, check::Severity::Attend}) {
    for (const check::Finding& each : findings) {
      if (each.severity == severity) troubles.push_back(&each);
    }
  }
  return troubles;
}

std::string wordFor(scene::Layer layer, const practice::Words& words) {
  using practice::Words;
  struct Word {
    const char* plain;
    std::string Words::*own = nullptr;  ///< The practice's, where it has one.
    const char* after = "";
  };
  constexpr std::array<Word, scene::kLayers> kWords{{{"eave"},
                                                     {"cladding", &Words::cladding},
                                                     {"battens"},
                                                     {"units"},
                                                     {"flashings", &Words::flashing, "s"},
                                                     {"membrane", &Words::membrane},
                                                     {"screws"},
                                                     {"packers", &Words::packer, "s"},
                                                     {"timber frame"},
                                                     {"lining", &Words::lining},
                                                     {"floor"}}};
  const Word& word = kWords[static_cast<std::size_t>(layer)];
  const bool plain = word.own == nullptr || (words.*word.own).empty();
  return plain ? word.plain : words.*word.own + word.after;
}

char keyFor(scene::Layer layer) {
  constexpr std::array<char, scene::kLayers> kKeys{'1', '2', '3', '4', '5', '6', '7', '8', '9', '0', 'G'};
  return kKeys[static_cast<std::size_t>(layer)];
}

}  // namespace sillwright::view
