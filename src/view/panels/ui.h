/// What every panel is made of: things that can be picked, text, rules and marks, on one scale.
///
/// Everything a person can act on is an `item`. Items have a name and a place, are reached by the pointer and by Tab
/// in the order they are drawn, and are worked by Enter or Space: one rule for the hand and the keyboard. Sizes are
/// given in pixels at scale 1.
#pragma once

#include <string_view>

#include "view/marks/drawing.h"

namespace sillwright::view {

/// Gives the panel library this program's look for a scale and a palette.
void applyStyle(float scale, const Palette& colours);

/// Begins a panel that stays where it is put. Always pair with ImGui::End().
void beginPanel(const Ui& ui, const char* name, ImVec2 at, ImVec2 size, bool scrolls = true);
/// Begins a panel as high as what is in it, up to `most_height`, and scrolls beyond that.
void beginFittedPanel(const Ui& ui, const char* name, ImVec2 at, float width, float most_height);

/// Begins a page that lies over everything, `size` being the window's: in its middle, `top` pixels below its upper
/// edge, no wider than `widest` at scale 1. Tab doesn't get to what lies behind it. Answers its width. Pair with
/// endPage, or ImGui::End() where it isn't closed by a word.
float beginPage(const Ui& ui, const char* name, ImVec2 size, float widest, float top);
inline float beginPage(const Ui& ui, const char* name, ImVec2 size, float widest) {
  return beginPage(ui, name, size, widest, ui.px(24.0F));
}

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

/// Text of a colour, wrapped at the panel's right edge.
void text(ImFont* font, Colour colour, std::string_view words);

/// A thin line across the panel, with room above and below.
void rule(const Ui& ui);
/// A group's heading, with room above.
void groupHeading(const Ui& ui, std::string_view words);
/// Empty room of a height at scale 1.
void room(const Ui& ui, float height);

/// Room for a mark and then words on the same line.
void markedText(const Ui& ui, check::Verdict verdict, ImFont* font, std::string_view words,
                check::Basis basis = check::Basis::Measured);

}  // namespace sillwright::view
