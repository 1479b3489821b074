/// Drawing text and marks into a picture or a panel, on one scale.
///
/// Sizes are given in pixels at scale 1 and multiplied here.
#pragma once

#include <imgui.h>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "check/finding.h"
#include "view/session/focus.h"
#include "view/values/screen_place.h"

namespace sillwright::view {

// The colours of panels, labels and marks.
//
// Two grounds: paper by day, slate in the evening. Colours of the drawing itself are the renderer's; these are for
// what is written on and beside it. Values only, no panel library.

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
  bool operator==(const Colour&) const = default;
};

struct Palette {
  Colour ground;   ///< Behind the drawing; the renderer's own.
  Colour paper;    ///< Panels and label plates.
  Colour hovered;  ///< Under what the pointer or the keyboard is on.
  Colour picked;   ///< Under what is picked.
  Colour rule;     ///< Thin lines between groups and round panels. Never the only sign of anything.
  Colour ink;      ///< Text and drawn lines.
  Colour quiet;    ///< Less important text: still a text colour, with its full contrast.
  Colour timber;   ///< Framing in small drawings.
  Colour unit;     ///< Units in small drawings.
  Colour packer;   ///< Packers in small drawings.
};

[[nodiscard]] const Palette& palette(bool dark);

/// The colour of a verdict's mark, from Okabe and Ito's set that the colour-blind can tell apart. Always shown with the
/// mark's own shape and the word.
[[nodiscard]] Colour colourOf(check::Verdict verdict);
/// The ring round the mark of a verdict on planned sizes, and the mark of a measurement to take again.
inline constexpr Colour kPlannedRing{0x56, 0xB4, 0xE9};

/// The typefaces on screen: found on the machine at run time, drawn into the panel library's atlas.
struct Fonts {
  ImFont* body = nullptr;
  ImFont* strong = nullptr;   ///< As body, heavier: headings and what is picked.
  ImFont* small = nullptr;    ///< Figures in drawings, sources.
  ImFont* heading = nullptr;  ///< Names of openings.
};
/// Fills the atlas for a scale (text scale times the screen's). Earlier fonts of the atlas are gone afterwards.
Fonts buildFonts(ImFontAtlas& atlas, float scale);

struct Ui {
  float scale = 1.0F;
  const Palette* colours = nullptr;
  Fonts fonts;
  Focus* focus = nullptr;
  std::vector<Rect>* panels = nullptr;  ///< Those of the frame under way, as they are begun: nothing is written below.

  [[nodiscard]] float px(float at_scale_one) const { return at_scale_one * scale; }
};

/// The words in lines no wider than `width`; 0: as they are. The library alone would break a line after any stop or
/// quotation mark, within a figure too. It is left to break single words that are too wide.
[[nodiscard]] std::string inLines(const ImFont* font, std::string_view words, float width);

[[nodiscard]] ImU32 toU32(Colour colour, float alpha = 1.0F);
[[nodiscard]] ImVec4 toVec4(Colour colour);
[[nodiscard]] ImVec2 textSize(const ImFont* font, std::string_view text, float wrap_width = 0.0F);
/// Text at a place of a draw list.
void drawText(ImDrawList& list, ImFont* font, ImVec2 at, Colour colour, std::string_view words,
              float wrap_width = 0.0F);

/// A verdict's mark, `radius` pixels, round `centre`: ready a disc, attend a triangle with an ink outline, stop a
/// square; a ring round it where nothing is measured.
void drawMark(ImDrawList& list, ImVec2 centre, float radius, check::Verdict verdict, const Palette& colours,
              check::Basis basis = check::Basis::Measured);
/// Of a measurement to take again.
void drawRing(ImDrawList& list, ImVec2 centre, float radius);
/// A finding's mark: as the verdict that it leads to; a note is a short ink bar.
void drawMark(ImDrawList& list, ImVec2 centre, float radius, check::Severity severity, const Palette& colours);

/// A line of words on a plate, in several where it is wider than that.
struct PlateLine {
  ImFont* font = nullptr;
  Colour colour;
  std::string words;
  bool stop = false;   ///< With the mark of stop before it.
  float above = 0.0F;  ///< Room above it, pixels, where it isn't the first.
};
/// Words on a ground of paper within a frame. Pixels.
struct Plate {
  ImVec2 pad;
  float wrap = 0.0F;  ///< Width at which a line is broken; 0: nowhere.
  Colour frame;
  std::vector<PlateLine> lines{};
  float weight = 1.0F;  ///< Of the frame.
  float foot = 0.0F;    ///< More room below the last line.
};
[[nodiscard]] ImVec2 sizeOf(const Ui& ui, const Plate& plate);
/// Draws a plate whose upper left corner is `low`.
void drawPlate(const Ui& ui, ImDrawList& list, ImVec2 low, const Plate& plate);
/// The ground and the frame of a plate alone.
void drawGround(const Ui& ui, ImDrawList& list, ImVec2 low, ImVec2 high, Colour frame, float weight = 1.0F);

}  // namespace sillwright::view
