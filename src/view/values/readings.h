/// The readings of an opening as they are typed: the text of one into millimetres, and those that follow a dragged
/// corner.
///
/// Text is millimetres, with a comma or a point before decimals. Inches are told by their sign, whole, decimal or with
/// a fraction: 60 1/4". That holds under either display; only the display decides how a reading is shown again.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "job/job.h"
#include "job/readings.h"
#include "plan/survey/survey.h"
#include "view/values/input.h"

namespace sillwright::view {

using job::TapeReading;

/// The readings that were taken follow a corner of the as-built shape that is moved by so much: each changes by as much
/// as the shape's own reading does, to a tenth, and the middle ones by the mean of their ends. Those not taken stay
/// untaken. BL is where the shape starts from and can't be moved.
void moveCorner(job::Measured& measured, const plan::OpeningShape& shape, plan::Corner corner, plan::Point by);

/// A text that a person typed, as a reading.
struct ParsedReading {
  bool good = false;
  std::optional<double> value;  ///< Empty and good: the reading is cleared.
  std::string refusal;          ///< Why it isn't good, in a sentence.
};
[[nodiscard]] ParsedReading parseReading(TapeReading reading, std::string_view text);
/// Any length that has a name and bounds, the same way. Empty text: good, without a value.
[[nodiscard]] ParsedReading parseLength(std::string_view name, const job::Holds& bounds, std::string_view text);

/// Whether a character may be part of a reading.
[[nodiscard]] bool isReadingCharacter(char32_t character);

/// Puts what was typed in a frame at the end of a figure in the hand: characters that a reading may have, Backspace.
/// Answers whether anything was.
bool typeFigure(std::string& figure, const InputStep& step);

/// "tape", "laser", "own errors"; nothing said counts as the tape.
[[nodiscard]] const char* instrumentWord(const std::optional<job::Measured>& measured);
/// The instrument after that: tape, laser, tape …
void nextInstrument(std::optional<job::Measured>& measured);

}  // namespace sillwright::view
