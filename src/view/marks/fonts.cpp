#include <fontconfig/fontconfig.h>
#include <imgui_freetype.h>

#include <array>
#include <cmath>
#include <memory>
#include <string>

#include "view/marks/drawing.h"

namespace sillwright::view {
namespace {

constexpr float kBodyText = 15.0F;  // pixels at scale 1

struct PatternDeleter {
  void operator()(FcPattern* pattern) const { FcPatternDestroy(pattern); }
};
using Pattern = std::unique_ptr<FcPattern, PatternDeleter>;

/// A font file, and which of its faces.
struct FontFile {
  std::string path;
  int face = 0;
};

/// The machine's best file for a family and a style ("Regular", "Semi Bold"). Where the family is missing the answer is
/// whatever the machine puts in its place. An empty path: the machine has no fonts at all.
FontFile findFont(const char* family, const char* style) {
  const Pattern wanted{FcPatternCreate()};
  FcPatternAddString(wanted.get(), FC_FAMILY, reinterpret_cast<const FcChar8*>(family));
  FcPatternAddString(wanted.get(), FC_STYLE, reinterpret_cast<const FcChar8*>(style));
  FcConfigSubstitute(nullptr, wanted.get(), FcMatchPattern);
  FcDefaultSubstitute(wanted.get());
  FcResult result = FcResultNoMatch;
  const Pattern found{FcFontMatch(nullptr, wanted.get(), &result)};
  FontFile font;
  FcChar8* path = nullptr;
  if (!found || FcPatternGetString(found.get(), FC_FILE, 0, &path) != FcResultMatch) return font;
  font.path = reinterpret_cast<const char*>(path);
  FcPatternGetInteger(found.get(), FC_INDEX, 0, &font.face);
  return font;
}

/// What job files are written with in Europe, and the signs of this trade's figures: dashes and quotes, feet and
/// inches, fractions, arrows, mathematics.
constexpr std::array<ImWchar, 19> kRanges{0x0020, 0x024F, 0x0370, 0x03FF, 0x0400, 0x04FF, 0x2010,
                                          0x2027, 0x2030, 0x203A, 0x2044, 0x2044, 0x2150, 0x215E,
                                          0x2190, 0x21FF, 0x2200, 0x22FF, 0};

ImFont* add(ImFontAtlas& atlas, const FontFile& file, float pixels) {
  if (file.path.empty()) return atlas.AddFontDefault();
  ImFontConfig config;
  config.FontNo = file.face & 0xffff;  // the high half of fontconfig's number is a variable font's instance
  config.FontBuilderFlags = ImGuiFreeTypeBuilderFlags_LightHinting;
  ImFont* font = atlas.AddFontFromFileTTF(file.path.c_str(), std::round(pixels), &config, kRanges.data());
  return font != nullptr ? font : atlas.AddFontDefault();
}

}  // namespace

Fonts buildFonts(ImFontAtlas& atlas, float scale) {
  static const FontFile regular = findFont("Inter", "Regular");
  static const FontFile semi_bold = findFont("Inter", "Semi Bold");
  atlas.Clear();
  atlas.FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
  Fonts fonts;
  fonts.body = add(atlas, regular, kBodyText * scale);
  fonts.strong = add(atlas, semi_bold, kBodyText * scale);
  fonts.small = add(atlas, regular, 12.5F * scale);
  fonts.heading = add(atlas, semi_bold, 22.0F * scale);
  atlas.Build();
  return fonts;
}

}  // namespace sillwright::view
