#include "view/values/readings.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "job/tables.h"
#include "plan/survey/survey.h"

namespace sillwright::view {
namespace {

constexpr double kInch = 25.4;

constexpr std::array<TapeReadingInfo, kTapeReadings> kInfo{{
    {"bottom width", "width", "bottom", "between the studs, along the sill"},
    {"middle width", "width", "middle", "between the studs, halfway up"},
    {"top width", "width", "top", "between the studs, under the head"},
    {"left height", "height", "left", "from sill to head, along the left stud"},
    {"middle height", "height", "middle", "from sill to head, halfway across"},
    {"right height", "height", "right", "from sill to head, along the right stud"},
    {"diagonal from bottom left", "diagonal", "bottom left", "from bottom left to top right, seen from outside"},
    {"diagonal from top left", "diagonal", "top left", "from top left to bottom right, seen from outside"},
    {"level of the sill", "level", "",
     "right end of the sill against the left end, by level: + where the right is higher"},
    {"plumb of the left stud", "plumb", "left",
     "top of the left stud against its foot, by plumb: + to the right, seen from outside"},
    {"plumb of the right stud", "plumb", "right",
     "top of the right stud against its foot, by plumb: + to the right, seen from outside"},
    {"plumb in or out of the left stud", "in or out", "left",
     "top of the left stud against its foot, by plumb: + inwards"},
    {"plumb in or out of the right stud", "in or out", "right",
     "top of the right stud against its foot, by plumb: + inwards"},
    {"left wall depth", "wall depth", "left", "frame and lining together, at the left"},
    {"right wall depth", "wall depth", "right", "frame and lining together, at the right"},
}};

std::size_t indexOf(TapeReading reading) {
  return static_cast<std::size_t>(reading);
}

/// The place of a reading in the job's value.
std::optional<double>& placeOf(job::Measured& measured, TapeReading reading) {
  const std::size_t i = indexOf(reading);
  const auto after = [&](TapeReading first) { return i - indexOf(first); };
  if (reading <= TapeReading::WidthTop) return measured.widths[after(TapeReading::WidthBottom)];
  if (reading <= TapeReading::HeightRight) return measured.heights[after(TapeReading::HeightLeft)];
  if (reading <= TapeReading::DiagonalFromTopLeft)
    return measured.diagonals[after(TapeReading::DiagonalFromBottomLeft)];
  if (reading == TapeReading::OutOfLevel) return measured.out_of_level;
  if (reading <= TapeReading::OutOfPlumbRight) return measured.out_of_plumb[after(TapeReading::OutOfPlumbLeft)];
  if (reading <= TapeReading::OutOfPlumbInRight) return measured.out_of_plumb_in[after(TapeReading::OutOfPlumbInLeft)];
  return measured.wall_depth[after(TapeReading::DepthLeft)];
}

/// A number at the start of the text, which is then cut off.
std::optional<double> takeNumber(std::string_view& text) {
  double number = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, number, std::chars_format::fixed);
  if (read.ec != std::errc{} || !std::isfinite(number)) return std::nullopt;
  text = std::string_view(read.ptr, static_cast<std::size_t>(end - read.ptr));
  return number;
}

void skipSpace(std::string_view& text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
}

/// "60", "60.5", "1/4", "60 1/4"; not below 0.
std::optional<double> wholeAndFraction(std::string_view text) {
  if (text.starts_with('-')) return std::nullopt;
  const auto first = takeNumber(text);
  if (!first) return std::nullopt;
  if (text.empty()) return first;
  double whole = 0;
  double above = *first;
  if (text.front() == ' ') {
    skipSpace(text);
    const auto second = takeNumber(text);
    if (!second || *second < 0) return std::nullopt;
    whole = above;
    above = *second;
  }
  if (text.empty() || text.front() != '/') return std::nullopt;
  text.remove_prefix(1);
  const auto below = takeNumber(text);
  if (!below || *below <= 0 || !text.empty()) return std::nullopt;
  return whole + above / *below;
}

/// Millimetres of a text without blanks round it and with points only.
std::optional<double> lengthOf(std::string_view text) {
  const bool minus = text.starts_with('-');
  if (minus || text.starts_with('+')) text.remove_prefix(1);
  const bool inches = text.ends_with('"');
  if (inches) text.remove_suffix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  const auto size = wholeAndFraction(text);
  if (!size || (!inches && text.find('/') != std::string_view::npos)) return std::nullopt;
  return (minus ? -*size : *size) * (inches ? kInch : 1.0);
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

const TapeReadingInfo& infoOf(TapeReading reading) {
  return kInfo[indexOf(reading)];
}

const job::Holds& boundsOf(TapeReading reading) {
  const auto of = [](const char* key) -> const job::Holds& { return job::tableOf<job::Measured>().at(key); };
  if (reading <= TapeReading::WidthTop) return of("widths");
  if (reading <= TapeReading::HeightRight) return of("heights");
  if (reading <= TapeReading::DiagonalFromTopLeft) return of("diagonals");
  if (reading == TapeReading::OutOfLevel) return of("out_of_level");
  if (reading <= TapeReading::OutOfPlumbRight) return of("out_of_plumb");
  if (reading <= TapeReading::OutOfPlumbInRight) return of("out_of_plumb_in");
  return of("wall_depth");
}

std::optional<double> valueOf(const std::optional<job::Measured>& measured, TapeReading reading) {
  if (!measured) return std::nullopt;
  job::Measured copy = *measured;
  return placeOf(copy, reading);
}

void setValue(std::optional<job::Measured>& measured, TapeReading reading, std::optional<double> value) {
  if (!measured) measured.emplace();
  placeOf(*measured, reading) = value;
  if (*measured == job::Measured{}) measured.reset();
}

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
  const auto follow = [](std::optional<double>& value, TapeReading reading, double by_mm) {
    if (!value || by_mm == 0) return;
    const job::Holds& bounds = boundsOf(reading);
    value = std::clamp(std::round((*value + by_mm) * 10) / 10, bounds.from, bounds.to);
  };
  using R = plan::Reading;
  using T = TapeReading;
  const double bottom = change(R::WidthBottom);
  const double top = change(R::WidthTop);
  const double left = change(R::HeightLeft);
  const double right = change(R::HeightRight);
  follow(measured.widths[0], T::WidthBottom, bottom);
  follow(measured.widths[1], T::WidthMiddle, (bottom + top) / 2);
  follow(measured.widths[2], T::WidthTop, top);
  follow(measured.heights[0], T::HeightLeft, left);
  follow(measured.heights[1], T::HeightMiddle, (left + right) / 2);
  follow(measured.heights[2], T::HeightRight, right);
  follow(measured.diagonals[0], T::DiagonalFromBottomLeft, change(R::DiagonalFromBottomLeft));
  follow(measured.diagonals[1], T::DiagonalFromTopLeft, change(R::DiagonalFromTopLeft));
  follow(measured.out_of_level, T::OutOfLevel, change(R::OutOfLevel));
  follow(measured.out_of_plumb[0], T::OutOfPlumbLeft, change(R::OutOfPlumbLeft));
  follow(measured.out_of_plumb[1], T::OutOfPlumbRight, change(R::OutOfPlumbRight));
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
  const bool with_control = step.held && (step.held->ctrl || step.held->alt || step.held->super);
  bool typed = false;
  for (const char32_t character : step.typed) {
    if (with_control || !isReadingCharacter(character) || figure.size() >= kLongest) continue;
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
