/// The panels at the window's edges, and the pages that lie over the drawing.
///
/// A panel reads the document and what is shown, and adds what the person asked for to the wishes. None of them keeps
/// anything or changes anything itself.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "document/document.h"
#include "document/edits.h"
#include "document/jobs.h"
#include "document/lesson.h"
#include "practice/figure.h"
#include "view/panels/ui.h"
#include "view/session/field.h"
#include "view/session/grant.h"
#include "view/session/layout.h"
#include "view/session/lesson_play.h"
#include "view/session/shown.h"

namespace sillwright::view {

/// A few lines that explain what the pointer or the keyboard is on.
struct Card {
  ImVec2 low;  ///< What it explains, so that it doesn't cover that.
  ImVec2 high;
  std::string title;
  std::string body;
  std::string source;
  bool stop = false;  ///< With the mark of stop.
};

/// What every panel gets.
struct Panel : Ui {
  const document::Document& document;
  const Shown& shown;
  const Typing& typing;
  const document::History& history;
  const document::Taught* taught;  ///< What follows from the lesson; null: none is on.
  Wishes& wishes;
  std::vector<Card>& cards;  ///< The last one is drawn.
};

/// A field at the cursor, with what is being typed into it, else `value`, at its right edge. `strong`: the value is a
/// person's own, not the file's.
Response fieldItem(const Ui& ui, const Typing& typing, std::string_view name, ImVec2 size, const std::string& value,
                   const FieldOf& what, bool strong = false, bool quiet = false);
/// A label at the left and a field at the right edge of the panel. `value` is shown while nothing is being typed,
/// quietly where it is none of the job's. Answers whether the field was pressed.
bool typedRow(const Ui& ui, const Typing& typing, std::string_view label, const std::string& value, const FieldOf& what,
              bool quiet = false);
/// The same for a dimension of the job, with its bounds on hover.
void dimensionRow(const Panel& panel, std::string_view label, const Dimension& dimension);

/// What a row tells when the pointer or the keyboard is on it.
struct RowNote {
  std::string title;
  std::string body;
  std::string source;
};
/// "4 mm", "−0.5 kPa".
[[nodiscard]] std::string amount(double value, const std::string& unit, int decimals, practice::Display display);
/// "limit 5 mm", its source: a rule as a note. Empty where the practice names no value, which is said.
[[nodiscard]] RowNote noteOf(const practice::Rule& rule, practice::Display display);
/// A label at the left and a value at the right edge, the value wrapped below where both don't fit. With a note the row
/// is an item of its own.
void row(const Panel& panel, std::string_view label, std::string_view value,
         const std::optional<RowNote>& note = std::nullopt);

/// The opening sheet's groups.
void readFields(const Panel& panel, std::size_t opening);
void setOut(const Panel& panel, std::size_t opening);
void asMeasured(const Panel& panel, std::size_t opening);
void packing(const Panel& panel, std::size_t opening);
void fixing(const Panel& panel, std::size_t opening);
void findings(const Panel& panel, std::size_t opening);
/// How many times as large deviations are drawn, to be slid or stepped.
void deviationSlider(const Panel& panel);
/// A finding's figures and source, beside what names it.
void findingCard(const Panel& panel, const Response& beside, const check::Finding& finding);
/// The last edit, to be undone.
void lastEdit(const Panel& panel);

/// Where the panels lie, for a window's size and text scale.
[[nodiscard]] Layout layOut(const Ui& ui, ImVec2 size, bool with_sheet, bool with_lesson, bool with_cards = true,
                            bool folded = false);

/// At the left: the job, its verdict, and each wall as a small elevation with its openings.
void wallStrip(const Panel& panel, const Layout& layout);
/// At the right: everything about the picked opening.
void openingSheet(const Panel& panel, const Layout& layout);
/// At the right, where a wall is picked and no opening: its lengths, to be typed, and what can be added.
void wallSheet(const Panel& panel, const Layout& layout);
/// The small measured elevation of the sheet: the unit in its opening, the gaps drawn larger than they are. It has room
/// for a unit `slope` times as high as wide.
void openingDrawing(const Panel& panel, std::size_t opening, float slope);
/// Along the bottom: groups of commands, each with its most used words and their keys.
void footLine(const Panel& panel, const Layout& layout);
/// Number of lines the foot takes in a width.
[[nodiscard]] int footLines(const Ui& ui, float width);
/// The order of work as cards along the bottom, with what plays them.
void lessonStrip(const Panel& panel, const Layout& layout);
/// Room that the cards and their controls, or these alone, take in a width.
[[nodiscard]] float lessonHeight(const Ui& ui, float width, bool with_cards);
/// Along the foot of a class room's picture: the card's few words, large.
void classCard(const Panel& panel, const Layout& layout, const LessonCard& card);
/// At the right, while a lesson is on: the step in full, where the water goes, what can be done wrong.
void lessonSheet(const Panel& panel, const Layout& layout);
/// The layers, each to be shown or hidden.
void layersPanel(const Panel& panel, const Layout& layout);
/// Where the plane cuts: its axis, its place, and the side that is taken away.
void cutPanel(const Panel& panel, const Layout& layout);
/// All keys, over the drawing.
void keysPage(const Ui& ui, ImVec2 size, Wishes& wishes);
/// Why the job could not be read: each error with its line of the file.
void errorPage(const Ui& ui, ImVec2 size, const std::filesystem::path& path, const std::vector<base::Error>& errors,
               const std::vector<std::string>& lines, Wishes& wishes);

/// The same beside the last good job, which stays on the screen.
void errorsBeside(const Panel& panel, const Layout& layout, const std::vector<base::Error>& errors,
                  const std::vector<std::string>& lines);

/// All that was done since the job was read, to be gone back to.
void historyPanel(const Panel& panel, const Layout& layout);
/// What the page of jobs gets: it is there without a job too.
struct JobsPanel : Ui {
  const Shown& shown;
  const Typing& typing;
  const document::JobChoices& choices;
  std::string practice;  ///< Whose rules a new job follows.
  bool with_job = false;
  Wishes& wishes;
};
/// Jobs to open and to begin, over the drawing.
void jobsPage(const JobsPanel& panel, ImVec2 size);

/// Rows for the keys of a table of the job that are named, or for all the others.
void keyRows(const Panel& panel, job::TableKind table, std::size_t of, std::initializer_list<std::string_view> keys,
             bool all_but = false);
/// A list of what can be done.
void menuList(const Panel& panel, const Menu& menu, ImVec2 size);
/// The job's own keys and its stock, over the drawing.
void jobPage(const Panel& panel, ImVec2 size);

/// What the tour wants done next.
void tourPanel(const Panel& panel, const Layout& layout);

/// What can be taken away, over the drawing.
void paperPage(const Panel& panel, const Layout& layout, ImVec2 size);

/// Ends a page with the word that closes it.
void endPage(const Ui& ui, Wishes& wishes, const Wish& close);

/// What would be lost, and whether it is to be. `found`: what edits that may be recovered change.
void askPage(const Panel& panel, ImVec2 size, const std::string& found);

/// A sentence above the foot: what went wrong, or what was done.
void noticePlate(const Ui& ui, const Layout& layout, const std::string& words, bool stops);
/// What is being worked at, and how far it has come.
void workPlate(const Ui& ui, const Layout& layout, const Work& work);
/// Draws a card beside what it explains, wholly inside the window.
void drawCard(const Ui& ui, const Card& card, ImVec2 size);

}  // namespace sillwright::view
