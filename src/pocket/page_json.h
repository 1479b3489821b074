/// What the page for a phone says of a job, as JSON: words and figures in the practice's units, ready to be shown as
/// text.
///
/// Everything comes from the document; the page itself works nothing out. Keys are the page's own and change with it;
/// the report that other programs read is exchange's.
#pragma once

#include <string>

#include "document/document.h"
#include "document/lesson.h"

namespace sillwright::pocket {

/// The job as a whole, and each opening's name and verdict.
[[nodiscard]] std::string pageJson(const document::Document& document);
/// One opening: findings, readings, gaps, packers, fixings, steps, and the water where it was done as in the lesson.
[[nodiscard]] std::string openingJson(const document::Document& document, const document::Lesson& lesson,
                                      std::size_t index);
/// An exercise as it stands: what is asked, the cards as they lie, what is picked, what was said of it.
[[nodiscard]] std::string exerciseJson(const document::Exercise& exercise);
/// What to order, buy and cut.
[[nodiscard]] std::string listsJson(const document::Document& document);

/// The readings of all openings as a table that `sillwright measure` takes.
[[nodiscard]] std::string measurementsCsv(const document::Document& document);

}  // namespace sillwright::pocket
