/// The view's own words for values: figures as drawings carry them, kinds, verdicts, layers.
#pragma once

#include <string>
#include <vector>

#include "check/finding.h"
#include "job/job.h"
#include "practice/practice.h"
#include "scene/scene.h"
#include "words/names.h"

namespace sillwright::view {

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
