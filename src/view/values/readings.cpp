#include "view/values/readings.h"

#include <algorithm>
#include <cmath>

#include "practice/inches.h"

namespace sillwright::view {
namespace {

/// Millimetres of a text as `tidied` leaves it: a plain number of them, or inches with their sign.
std::optional<double> lengthOf(std::string text) {
  if (text.starts_with('+') && !text.starts_with("+-")) text.erase(0, 1);
  if (text.ends_with('"')) {
    text.pop_back();
    text.erase(text.find_last_not_of(' ') + 1);
    text += " in";
  }
  for (auto at = text.find("  "); at != std::string::npos; at = text.find("  ")) text.erase(at, 1);
  // A person may leave out the nought before the point.
  const std::size_t point = text.starts_with("-.") ? 1 : 0;
  if (text.size() > point + 1 && text[point] == '.' && text[point + 1] != ' ') text.insert(point, 1, '0');
  return practice::readLength(text);
}

/// Without blanks round it, with a point for a comma and a hyphen for a minus sign.
std::string tidied(std::string_view text) {
  std::string tidy{text};
  for (std::size_t at = tidy.find("−"); at != std::string::npos; at = tidy.find("−")) tidy.replace(at, 3, "-");
  for (char& each : tidy) {
    if (each == ',') each = '.';
  }
  const std::size_t first = tidy.find_first_not_of(' ');
  if (first == std::string::npos) return {};
  return tidy.substr(first, tidy.find_last_not_of(' ') - first + 1);
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

ParsedReading parseReading(TapeReading reading, std::string_view text) {
  return parseLength(infoOf(reading).name, boundsOf(reading), text);
}

ParsedReading parseLength(std::string_view length, const job::Holds& bounds, std::string_view text) {
  ParsedReading parsed;
  const std::string tidy = tidied(text);
  if (tidy.empty()) {
    parsed.good = true;
    return parsed;
  }
  const std::string name{length};
  const auto value = lengthOf(tidy);
  if (!value) {
    parsed.refusal = "\"" + std::string(text) + "\" is no length: type " + name + " in mm, or in inches with \"";
    return parsed;
  }
  if (*value < bounds.from || *value > bounds.to) {
    parsed.refusal = name + " must be " + job::describeBounds(bounds) + ", not " + job::toText(*value);
    return parsed;
  }
  parsed.good = true;
  parsed.value = *value;
  return parsed;
}

bool isReadingCharacter(char32_t character) {
  return (character >= U'0' && character <= U'9') || character == U'.' || character == U',' || character == U'-' ||
         character == U'−' || character == U'+' || character == U'/' || character == U'"' || character == U' ';
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

const char* instrumentWord(const std::optional<job::Measured>& measured) {
  if (!measured || !measured->by) return "tape";
  if (std::holds_alternative<job::StandardErrors>(*measured->by)) return "own errors";
  return std::get<job::Instrument>(*measured->by) == job::Instrument::Laser ? "laser" : "tape";
}

void nextInstrument(std::optional<job::Measured>& measured) {
  if (!measured) measured.emplace();
  const bool tape = std::string_view(instrumentWord(measured)) == "tape";
  measured->by = tape ? job::Instrument::Laser : job::Instrument::Tape;
}

}  // namespace sillwright::view
