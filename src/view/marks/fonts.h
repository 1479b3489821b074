/// The typefaces on screen: found on the machine at run time, drawn into the panel library's atlas.
#pragma once

#include <string>

struct ImFont;
struct ImFontAtlas;

namespace sillwright::view {

/// A font file, and which of its faces.
struct FontFile {
  std::string path;
  int face = 0;
};

/// The machine's best file for a family and a style ("Regular", "Semi Bold"). Where the family is missing the answer is
/// whatever the machine puts in its place. An empty path: the machine has no fonts at all.
[[nodiscard]] FontFile findFont(const std::string& family, const std::string& style);

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
