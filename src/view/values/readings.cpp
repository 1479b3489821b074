#include "view/values/readings.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "exchange/office/figures.h"
#include "words/length.h"
#include "words/text.h"

namespace sillwright::view {

namespace {

/// Millimetres of a text: where it names no unit, of the unit that figures are shown in.
std::optional<double> lengthOf(std::string_view text, practice::Display display) {
  const bool inches = display == practice::Display::InchFractions;
  const std::size_t sign = text.find_first_not_of(' ');
  if (sign != std::string_view::npos && text[sign] == '+') {
    text.remove_prefix(sign + 1);
    if (text.starts_with('-')) return std::nullopt;
  }
  return exchange::lengthIn(text, {inches ? exchange::LengthUnit::Inches : exchange::LengthUnit::Millimetres});
}

}  // namespace

void moveCorner(job::Measured& measured, const plan::OpeningShape& shape, plan::Corner corner, plan::Point by) {
  plan::OpeningShape moved = shape;
  plan::Point& at = moved.corner[static_cast<std::size_t>(corner)];
  at = {at.x + by.x, at.z + by.z};
  const auto before = plan::nineReadings(shape);
  const auto after = plan::nineReadings(moved);
  const auto change = [&](plan::Reading reading) {
    const auto index = static_cast<std::size_t>(reading);
    return after[index] - before[index];
  };
  const auto follow = [&](TapeReading reading, double by_mm) {
    std::optional<double>& value = placeOf(measured, reading);
    if (!value || by_mm == 0) return;
    const job::Holds& bounds = boundsOf(reading);
    value = std::clamp(std::round((*value + by_mm) * 10) / 10, bounds.from, bounds.to);
  };
  using R = plan::Reading;
  for (std::size_t i = 0; i < plan::kReadings; ++i) {
    const auto reading = static_cast<R>(i);
    follow(plan::tapeReadingOf(reading), change(reading));
  }
  follow(TapeReading::WidthMiddle, (change(R::WidthBottom) + change(R::WidthTop)) / 2);
  follow(TapeReading::HeightMiddle, (change(R::HeightLeft) + change(R::HeightRight)) / 2);
}

ParsedReading parseReading(TapeReading reading, std::string_view text, practice::Display display) {
  return parseLength(infoOf(reading).name, boundsOf(reading), text, display);
}

ParsedReading parseLength(std::string_view length, const job::Holds& bounds, std::string_view text,
                          practice::Display display) {
  if (text.find_first_not_of(' ') == std::string_view::npos) return {true, {}, {}};
  const std::string name{length};
  const auto value = lengthOf(text, display);
  if (!value) return {false, {}, "\"" + std::string(text) + "\" is no length: type " + name + " " + howToType(display)};
  if (*value < bounds.from || *value > bounds.to)
    return {false, {}, name + " must be " + boundsWords(bounds, display) + ", not " + words::length(*value, display)};
  // Inches in binary have more digits than they mean: 48 5/8 would be written as 1235.0749999999998.
  return {true, std::round(*value * 1e4) / 1e4, {}};
}

std::string boundsWords(const job::Holds& bounds, practice::Display display) {
  return "from " + words::figure(bounds.from, display) + " to " + words::length(bounds.to, display);
}

const char* howToType(practice::Display display) {
  return display == practice::Display::Millimetres ? "in mm, or in inches with \"" : "in inches (60 1/4), or with mm";
}

bool isReadingCharacter(char32_t character) {
  return (character >= U'0' && character <= U'9') || character == U'.' || character == U',' || character == U'-' ||
         character == U'−' || character == U'+' || character == U'/' || character == U'"' || character == U'\'' ||
         character == U'm' || character == U' ';
}

bool typeFigure(std::string& figure, const InputStep& step) {
  constexpr std::size_t kLongest = 24;
  bool typed = false;
  for (const char32_t character : step.typed) {
    if (step.isControl() || !isReadingCharacter(character) || figure.size() >= kLongest) continue;
    figure += character == U'−' ? '-' : static_cast<char>(character);
    typed = true;
  }
  if (step.wentDown(Key::Backspace) && !figure.empty()) {
    figure.pop_back();
    typed = true;
  }
  return typed;
}

std::string figure(double mm, practice::Display display) { return withMinus(words::bareLength(mm, display)); }

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
