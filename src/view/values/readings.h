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
#include "document/document.h"
#include "job/job.h"
#include "job/keys.h"
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

/// What the verdict means for the work, with the number of findings that lead to it.
[[nodiscard]] std::string sentenceFor(check::Verdict verdict, check::Basis basis,
                                      const std::vector<check::Finding>& findings);

/// What stands against an opening, in the order in which it is told: what stops it (where measurements disagree, that),
/// then what needs attention.
[[nodiscard]] std::vector<const check::Finding*> troublesOf(const std::vector<check::Finding>& findings);

/// A layer in plain words, the practice's where it has them.
[[nodiscard]] std::string wordFor(scene::Layer layer, const practice::Words& words);
/// The keys that show and hide the layers, in their order.
inline constexpr std::string_view kLayerKeys = "1234567890G";
[[nodiscard]] constexpr char keyFor(scene::Layer layer) { return kLayerKeys[static_cast<std::size_t>(layer)]; }

// Keys of the job as a person reads and types them: "5", "yes", "fixed, awning" for what the file spells
// `5`, `true`, `["fixed", "awning"]`.

/// "glass, thickness", "ultimate kpa"; in the practice's words where it has its own.
[[nodiscard]] std::string labelOf(const job::KeyPlace& place, const practice::Words& words);
/// What the file spells, as it is shown and typed. Empty stays empty.
[[nodiscard]] std::string shownText(const job::KeyText& key, practice::Display display);
/// What was typed, as the file spells it; what can't be told is left for the reader to refuse.
[[nodiscard]] std::string spelledText(const job::KeyRule& rule, const std::string& typed, practice::Display display);

/// The key as the job has it now.
[[nodiscard]] job::KeyText keyAt(const job::Job& job, const job::KeyPlace& place);
/// What a list offers for a key, as it is typed; empty: it is typed only.
[[nodiscard]] std::vector<std::string> choicesOf(const document::Document& document, const job::KeyText& key);
/// The job with the sizes that the plan has settled for what one of its tables leaves out, to be shown quietly.
[[nodiscard]] job::Job settledAt(const document::Document& document, job::TableKind table, std::size_t of);
/// The same with sizes to begin an eave and a reveal with, where there is none.
[[nodiscard]] job::Job begunAt(const document::Document& document, const job::KeyPlace& place);

}  // namespace sillwright::view
