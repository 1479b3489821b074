/// Drawing text and marks into a picture or a panel, on one scale.
///
/// Sizes are given in pixels at scale 1 and multiplied here.
#pragma once

#include <imgui.h>
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "check/finding.h"
#include "document/document.h"
#include "scene/pick.h"
#include "view/session/field.h"
#include "view/session/shown.h"
#include "view/values/camera_control.h"

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
  ImVec2 pad{};
  float wrap = 0.0F;  ///< Width at which a line is broken; 0: nowhere.
  Colour frame{};
  std::vector<PlateLine> lines{};
  float weight = 1.0F;  ///< Of the frame.
  float foot = 0.0F;    ///< More room below the last line.
};
[[nodiscard]] ImVec2 sizeOf(const Ui& ui, const Plate& plate);
/// Draws a plate whose upper left corner is `low`.
void drawPlate(const Ui& ui, ImDrawList& list, ImVec2 low, const Plate& plate);
/// Its lines alone, from `at` on.
void drawLines(const Ui& ui, ImDrawList& list, ImVec2 at, const Plate& plate);
/// The ground and the frame of a plate alone.
void drawGround(const Ui& ui, ImDrawList& list, ImVec2 low, ImVec2 high, Colour frame, float weight = 1.0F);

// Writing into a picture: where the world lands on it, what room is taken, lines and plates that stay readable.

/// A plate that was written: what it is about, its words, where. For tests, which can't read pixels.
struct Written {
  std::string about;
  std::string words;
  Rect at;
};

/// One picture's lettering: what is taken, and how the world lands on it.
struct Lettering {
  const Ui& ui;
  ImDrawList& list;
  const document::Document& document;
  const Shown& shown;
  const Canvas& canvas;
  std::vector<Rect> taken;
  std::vector<Written> written;
  ImVec2 origin{0.0F, 0.0F};  ///< Where the picture's upper left corner lies.
  render::Projection projection{shown.camera, canvas.width, canvas.height};
  practice::Display display = document.practice->display;
  mutable std::optional<scene::Rays> rays{};  ///< Made for the first one that is asked for.

  [[nodiscard]] std::optional<ImVec2> project(glm::vec3 world) const;
  /// The ends of a line, of which what is cut away is left out; empty where all of it is, or where an end is not seen.
  [[nodiscard]] std::optional<std::array<ImVec2, 2>> projectLine(glm::vec3 a, glm::vec3 b) const;
  /// Whether the cut has taken a place away; what lies in the plane is there.
  [[nodiscard]] bool isCutAway(glm::vec3 world) const {
    constexpr float kInPlane = 1.0F;  // mm
    return shown.look.cut && shown.look.cut->beyond(world) > kInPlane;
  }
  [[nodiscard]] bool isInPicture(ImVec2 at) const;
  /// Whether a part is among what is shown.
  [[nodiscard]] bool isShown(const scene::Part& part) const;
  /// How far a part is moved where layers are pulled apart.
  [[nodiscard]] glm::vec3 shiftOf(const scene::Part& part) const {
    return render::shownUnder(shown.look).shiftOf(document.scene, part);
  }
  /// What a ray through the pixel meets first.
  [[nodiscard]] std::optional<scene::Hit> hitAt(ImVec2 at) const;
  /// Through a pixel; `rays` are then there.
  [[nodiscard]] render::Ray rayAt(ImVec2 at) const;
  /// Whether another wall stands before a place of a wall that is seen at a pixel.
  [[nodiscard]] bool isBehindOther(std::size_t wall, glm::vec3 place, ImVec2 at) const;
  /// Notes what is written, and keeps its place free from then on.
  void write(std::string about, std::string words, const Rect& at);
  /// Draws a plate, whole pixels, and notes its first line.
  void write(std::string about, const Plate& plate, ImVec2 low);
  /// Whether there is room for a plate, and no panel covers it.
  [[nodiscard]] bool isFree(const Rect& plate) const;
};

/// A line in dashes of `dash` pixels with `gap` between them.
void drawDashes(ImDrawList& list, ImVec2 from, ImVec2 to, float dash, float gap, ImU32 ink, float thick = 1.0F);
/// The short slanted stroke at a dimension's end, so far to each side at scale 1.
void drawTick(const Ui& ui, ImDrawList& list, ImVec2 at, float half);
/// A line with an ink of its own over a wider one of paper: readable over timber as over the ground.
void drawInkLine(const Lettering& on, ImVec2 a, ImVec2 b);

/// A dimension from a to b, moved `aside` (a direction in the world) by a constant distance on the picture, further out
/// in a further row. One that is seen nearly end on tells nothing and is left out.
void drawDimension(Lettering& on, glm::vec3 a, glm::vec3 b, glm::vec3 aside, const std::string& words, int row = 0);

}  // namespace sillwright::view
