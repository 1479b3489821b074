/// The readings of an opening as they are typed: the text of one into millimetres, and those that follow a dragged
/// corner.
///
/// Text is of the unit that figures are shown in, where it names none: 1530.5, 60 1/4. The other is told by its sign,
/// as an office would write it: 60 1/4", 5' 0", 1530 mm.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "check/finding.h"
#include "job/job.h"
#include "job/readings.h"
#include "plan/survey/survey.h"
#include "practice/practice.h"
#include "scene/scene.h"
#include "view/values/input.h"
#include "words/text.h"

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
[[nodiscard]] ParsedReading parseReading(TapeReading reading, std::string_view text, practice::Display display);
/// Any length that has a name and bounds, the same way. Empty text: good, without a value.
[[nodiscard]] ParsedReading parseLength(std::string_view name, const job::Holds& bounds, std::string_view text,
                                        practice::Display display);
/// "from 50 to 25000 mm", "from 2 to 984 1/4 in".
[[nodiscard]] std::string boundsWords(const job::Holds& bounds, practice::Display display);
/// In which unit lengths are typed, to follow "type".
[[nodiscard]] const char* howToType(practice::Display display);

/// Whether a character may be part of a reading.
[[nodiscard]] bool isReadingCharacter(char32_t character);

/// Puts what was typed in a frame at the end of a figure in the hand: characters that a reading may have, Backspace.
/// Answers whether anything was.
bool typeFigure(std::string& figure, const InputStep& step);

// The view's own words for values: figures as drawings carry them, kinds, verdicts, layers.

/// A length as a drawing carries it: "1530", "9.5" without the unit in millimetres; inches and fractions with theirs.
[[nodiscard]] std::string figure(double mm, practice::Display display);
/// A hyphen before a number made a minus sign, which is as wide as a figure and doesn't get lost.
[[nodiscard]] std::string withMinus(std::string number);
/// "1530 × 1060".
[[nodiscard]] std::string figures(double width, double height, practice::Display display);

/// What the verdict means for the work, with the number of findings that lead to it.
[[nodiscard]] std::string sentenceFor(check::Verdict verdict, check::Basis basis,
                                      const std::vector<check::Finding>& findings);

/// What stands against an opening, in the order in which it is told: what stops it (where measurements disagree, that),
/// then what needs attention.
[[nodiscard]] std::vector<const check::Finding*> troublesOf(const std::vector<check::Finding>& findings);

/// A layer in plain words, the practice's where it has them.
[[nodiscard]] std::string wordFor(scene::Layer layer, const practice::Words& words);
/// The key that shows and hides a layer: "1" … "9", "0", "G".
[[nodiscard]] char keyFor(scene::Layer layer);

}  // namespace sillwright::view
