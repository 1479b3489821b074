/// The panels at the window's edges, and the pages that lie over the drawing.
///
/// A panel reads the document and what is shown, and adds what the person asked for to the wishes. None of them keeps
/// anything or changes anything itself.
#pragma once

#include <functional>
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
#include "view/marks/drawing.h"
#include "view/session/field.h"
#include "view/session/shown.h"
#include "view/values/camera_control.h"

namespace sillwright::view {

// What every panel is made of: things that can be picked, text, rules and marks, on one scale.
//
// Everything a person can act on is an `item`. Items have a name and a place, are reached by the pointer and by Tab
// in the order they are drawn, and are worked by Enter or Space: one rule for the hand and the keyboard. Sizes are
// given in pixels at scale 1.

/// Gives the panel library this program's look for a scale and a palette.
void applyStyle(float scale, const Palette& colours);

/// Begins a panel that stays where it is put. Always pair with ImGui::End().
void beginPanel(const Ui& ui, const char* name, ImVec2 at, ImVec2 size, bool scrolls = true);
/// Begins a panel as high as what is in it, up to `most_height`, and scrolls beyond that.
void beginFittedPanel(const Ui& ui, const char* name, ImVec2 at, float width, float most_height);

/// Begins a page that lies over everything, `size` being the window's: in its middle, `top` pixels below its upper
/// edge (else as far as it stays off the lower one), no wider than `widest` at scale 1. Tab doesn't get to what lies
/// behind it. Answers its width. Pair with endPage, or ImGui::End() where it isn't closed by a word.
float beginPage(const Ui& ui, const char* name, ImVec2 size, float widest, std::optional<float> top = std::nullopt);

struct Response {
  bool pressed = false;
  bool hovered = false;  ///< By the pointer or the keyboard.
  ImVec2 low;
  ImVec2 high;
};
/// A thing of a given size that can be picked, at the cursor. Draws only its ground (hovered, picked) and the
/// keyboard's frame; what it looks like is the caller's, drawn over it. `name` must be unlike its neighbours' in the
/// panel.
Response item(const Ui& ui, std::string_view name, ImVec2 size, bool picked = false);

/// A word that can be picked; its key, if it has one, in quiet small text behind it.
bool wordItem(const Ui& ui, std::string_view word, std::string_view key, bool picked = false, bool strong = false);
/// Size of a wordItem.
[[nodiscard]] ImVec2 wordItemSize(const Ui& ui, std::string_view word, std::string_view key, bool strong = false);

/// What a row begins with, drawn round a place with a radius.
using RowMark = std::function<void(ImDrawList& list, ImVec2 centre, float radius)>;
/// A row over the panel's width that can be picked: a mark and words, broken into lines where they are wider, and quiet
/// words at the right edge, which cut the first ones off.
Response markedRow(const Ui& ui, std::string_view name, const RowMark& mark, std::string_view words,
                   bool picked = false, bool quiet = false, std::string_view at_right = {});
/// A box, ticked as a carpenter ticks a list.
[[nodiscard]] RowMark tickBox(const Ui& ui, bool ticked);

/// A line with a mark at a share of its length, as an item at the cursor. Answers the share that it is dragged to;
/// empty: it isn't held.
std::optional<float> slider(const Ui& ui, std::string_view name, float width, float share);

/// Text of a colour, wrapped at the panel's right edge.
void text(ImFont* font, Colour colour, std::string_view words);
// The usual ones.
inline void title(const Ui& ui, std::string_view words) { text(ui.fonts.heading, ui.colours->ink, words); }
inline void say(const Ui& ui, std::string_view words) { text(ui.fonts.body, ui.colours->ink, words); }
inline void sayQuietly(const Ui& ui, std::string_view words) { text(ui.fonts.body, ui.colours->quiet, words); }
inline void saySmall(const Ui& ui, std::string_view words) { text(ui.fonts.small, ui.colours->quiet, words); }

/// A thin line across the panel, with room above and below.
void rule(const Ui& ui);
/// A group's heading, with room above.
void groupHeading(const Ui& ui, std::string_view words);
/// Empty room of a height at scale 1.
void room(const Ui& ui, float height);

/// Room for a mark and then words on the same line.
void markedText(const Ui& ui, check::Verdict verdict, ImFont* font, std::string_view words,
                check::Basis basis = check::Basis::Measured);

/// A few lines that explain what the pointer or the keyboard is on.
struct Card {
  ImVec2 low;  ///< What it explains, so that it doesn't cover that.
  ImVec2 high;
  std::string title;
  std::string body{};
  std::string source{};
  bool stop = false;  ///< With the mark of stop.
};

/// What a page gets that needs no job.
struct Page : Ui {
  const Typing& typing;
  Wishes& wishes;

  /// A word that can be picked, with its key, and what is then wished for.
  void offer(std::string_view word, std::string_view key, const Wish& wish, bool picked = false) const {
    if (wordItem(*this, word, key, picked)) wishes.push_back(wish);
  }
  /// The same behind the last one, on its line.
  void offerBeside(std::string_view word, std::string_view key, const Wish& wish, float gap = 20.0F) const {
    ImGui::SameLine(0.0F, px(gap));
    offer(word, key, wish);
  }
};
/// What every panel gets.
struct Panel : Page {
  const document::Document& document;
  const Shown& shown;
  const document::History& history;
  const document::Taught* taught;  ///< What follows from the lesson; null: none is on.
  std::vector<Card>& cards;        ///< The last one is drawn.
  practice::Display display = document.practice->display;
};

/// A label at the left and a field at the right edge of the panel. `value` is shown while nothing is being typed,
/// quietly where it is none of the job's. Answers the field.
Response typedRow(const Page& page, std::string_view label, const std::string& value, const FieldOf& what,
                  bool quiet = false);
/// The same for a dimension of the job, with its bounds on hover.
void dimensionRow(const Panel& panel, std::string_view label, const Dimension& dimension);

/// What a row tells when the pointer or the keyboard is on it.
struct RowNote {
  std::string title;
  std::string body{};
  std::string source{};
};
/// "limit 5 mm", its source: a rule as a note. Empty where the practice names no value, which is said.
[[nodiscard]] RowNote noteOf(const practice::Rule& rule, practice::Display display);
/// A label at the left and a value at the right edge, the value wrapped below where both don't fit. With a note the row
/// is an item of its own.
void row(const Panel& panel, std::string_view label, std::string_view value,
         const std::optional<RowNote>& note = std::nullopt);

/// The opening sheet's groups that are of readings.
void readFields(const Panel& panel, std::size_t opening);
void asMeasured(const Panel& panel, std::size_t opening);
/// How many times as large deviations are drawn, to be slid or stepped.
void deviationSlider(const Panel& panel);
/// The last edit, to be undone.
void lastEdit(const Panel& panel);

/// Where the panels lie, for a window's size and text scale.
[[nodiscard]] Layout layOut(const Ui& ui, ImVec2 size, bool with_sheet, const document::Lesson& lesson, bool folded);

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
/// The order of work as cards along the bottom, with what plays them.
void lessonStrip(const Panel& panel, const Layout& layout);
/// Room that the cards and their controls, or these alone, take in a width.
[[nodiscard]] float lessonHeight(const Ui& ui, float width, bool with_cards, bool with_titles);
/// Along the foot of a class room's picture: the card's few words, large.
void classCard(const Panel& panel, const Layout& layout, const LessonCard& card);
/// At the right, while a lesson is on: the step in full, where the water goes, what can be done wrong.
void lessonSheet(const Panel& panel, const Layout& layout);
/// The layers, each to be shown or hidden.
void layersPanel(const Panel& panel, const Layout& layout);
/// Where the plane cuts: its axis, its place, and the side that is taken away.
void cutPanel(const Panel& panel, const Layout& layout);
/// All keys, over the drawing.
void keysPage(const Page& page, ImVec2 size);
/// Why the job could not be read: each error with its line of the file.
void errorPage(const Page& page, ImVec2 size, const std::filesystem::path& path, const std::vector<base::Error>& errors,
               const std::vector<std::string>& lines);
/// The same beside the last good job, which stays on the screen.
void errorsBeside(const Panel& panel, const Layout& layout, const std::vector<base::Error>& errors,
                  const std::vector<std::string>& lines);

/// All that was done since the job was read, to be gone back to.
void historyPanel(const Panel& panel, const Layout& layout);
/// What the page of jobs gets: it is there without a job too.
struct JobsPanel : Page {
  const document::JobChoices& choices;
  std::string practice;  ///< Whose rules a new job follows.
  bool with_job = false;
  std::function<ImTextureID(const std::filesystem::path& job)> picture;  ///< 0: there is none of it.
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
void endPage(const Page& page, const Wish& close);
/// What would be lost, and whether it is to be. `found`: what edits that may be recovered change.
void askPage(const Panel& panel, ImVec2 size, const std::string& found);

/// A sentence above the foot: what went wrong, or what was done. `file`: that was written, to be opened; empty: none.
void noticePlate(const Page& page, const Layout& layout, const std::string& words, bool stops,
                 const std::filesystem::path& file);
/// What is being worked at, and how much of it is done; below 0: that isn't known.
void workPlate(const Ui& ui, const Layout& layout, const std::string& words, float share);
/// Draws a card beside what it explains, wholly inside the window.
void drawCard(const Ui& ui, const Card& card, ImVec2 size);

}  // namespace sillwright::view
