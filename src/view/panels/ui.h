/// What every panel is made of: things that can be picked, text, rules and marks, on one scale.
///
/// Everything a person can act on is an `item`. Items have a name and a place, are reached by the pointer and by Tab
/// in the order they are drawn, and are worked by Enter or Space: one rule for the hand and the keyboard. Sizes are
/// given in pixels at scale 1 and multiplied here.
#pragma once

#include <imgui.h>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "check/finding.h"
#include "view/panels/fonts.h"
#include "view/panels/palette.h"
#include "view/session/typing.h"

namespace sillwright::view {

/// One thing that could be picked in a frame, for the keyboard and for tests.
struct Item {
  ImGuiID id = 0;
  std::string name;
  ImVec2 low;
  ImVec2 high;
  std::optional<FieldOf> field;  ///< What it sets, where it is a field to type in.
};

/// Which item the keyboard is on.
struct Focus {
  ImGuiID at = 0;           ///< 0: none; keys then belong to the drawing.
  bool activate = false;    ///< Enter or Space went down in this frame.
  bool arrived = false;     ///< Moved in this frame: the item brings itself into sight.
  std::vector<Item> items;  ///< Of the last frame, in the order of Tab.
  std::vector<Item> now;    ///< Gathered in this frame.

  /// Moves to the next item, or the one before; round the end to none.
  void step(bool backwards);
  /// Ends a frame's gathering. A focus whose item is gone is dropped.
  void endFrame();
  [[nodiscard]] const Item* find(std::string_view name) const;
};

/// A place on the screen.
struct Rect {
  ImVec2 low;
  ImVec2 high;
};

[[nodiscard]] inline bool overlap(const Rect& a, const Rect& b) {
  return a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
}

struct Ui {
  float scale = 1.0F;
  const Palette* colours = nullptr;
  Fonts fonts;
  Focus* focus = nullptr;
  std::vector<Rect>* panels = nullptr;  ///< Those of the frame under way, as they are begun: nothing is written below.

  [[nodiscard]] float px(float at_scale_one) const { return at_scale_one * scale; }
};

[[nodiscard]] ImU32 toU32(Colour colour, float alpha = 1.0F);
[[nodiscard]] ImVec4 toVec4(Colour colour);
[[nodiscard]] inline ImVec2 operator+(ImVec2 a, ImVec2 b) {
  return {a.x + b.x, a.y + b.y};
}
[[nodiscard]] inline ImVec2 operator-(ImVec2 a, ImVec2 b) {
  return {a.x - b.x, a.y - b.y};
}

/// Gives the panel library this program's look for a scale and a palette.
void applyStyle(float scale, const Palette& colours);

/// Begins a panel that stays where it is put. Always pair with ImGui::End().
void beginPanel(const Ui& ui, const char* name, ImVec2 at, ImVec2 size, bool scrolls = true);
/// Begins a panel as high as what is in it, up to `most_height`, and scrolls beyond that.
void beginFittedPanel(const Ui& ui, const char* name, ImVec2 at, float width, float most_height);

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
bool wordItem(const Ui& ui, std::string_view word, std::string_view key, bool picked = false);
/// Size of a wordItem.
[[nodiscard]] ImVec2 wordItemSize(const Ui& ui, std::string_view word, std::string_view key);

[[nodiscard]] ImVec2 textSize(const ImFont* font, std::string_view text, float wrap_width = 0.0F);
/// Text of a colour, wrapped at the panel's right edge.
void text(ImFont* font, Colour colour, std::string_view words);
/// Text at a place of a draw list.
void drawText(ImDrawList& list, ImFont* font, ImVec2 at, Colour colour, std::string_view words,
              float wrap_width = 0.0F);

/// A thin line across the panel, with room above and below.
void rule(const Ui& ui);
/// A group's heading, with room above.
void groupHeading(const Ui& ui, std::string_view words);
/// Empty room of a height at scale 1.
void room(const Ui& ui, float height);

/// A verdict's mark, `radius` pixels, round `centre`: ready a disc, attend a triangle with an ink outline, stop a
/// square, unread a ring.
void drawMark(ImDrawList& list, ImVec2 centre, float radius, check::Verdict verdict, const Palette& colours);
/// A finding's mark: as the verdict that it leads to; a note is a short ink bar.
void drawMark(ImDrawList& list, ImVec2 centre, float radius, check::Severity severity, const Palette& colours);
/// Room for a mark and then words on the same line.
void markedText(const Ui& ui, check::Verdict verdict, ImFont* font, std::string_view words);

}  // namespace sillwright::view
