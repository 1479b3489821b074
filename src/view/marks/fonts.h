/// The typefaces on screen: found on the machine at run time, drawn into the panel library's atlas.
#pragma once

struct ImFont;
struct ImFontAtlas;

namespace sillwright::view {

struct Fonts {
  ImFont* body = nullptr;
  ImFont* strong = nullptr;   ///< As body, heavier: headings and what is picked.
  ImFont* small = nullptr;    ///< Figures in drawings, sources.
  ImFont* heading = nullptr;  ///< Names of openings.
};

/// Height of body text at scale 1, pixels.
inline constexpr float kBodyText = 15.0F;

/// Fills the atlas for a scale (text scale times the screen's). Earlier fonts of the atlas are gone afterwards.
Fonts buildFonts(ImFontAtlas& atlas, float scale);

}  // namespace sillwright::view
