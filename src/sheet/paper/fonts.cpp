#include "sheet/paper/fonts.h"

#include <cairo-ft.h>
#include <fontconfig/fontconfig.h>

#include <stdexcept>

namespace sillwright::sheet {
namespace {

struct PatternDeleter {
  void operator()(FcPattern* pattern) const { FcPatternDestroy(pattern); }
};
using Pattern = std::unique_ptr<FcPattern, PatternDeleter>;

const FcChar8* letters(const char* text) {
  return reinterpret_cast<const FcChar8*>(text);
}

cairo_font_face_t* faceFor(const char* family, const char* style) {
  const Pattern wanted{FcPatternCreate()};
  FcPatternAddString(wanted.get(), FC_FAMILY, letters(family));
  FcPatternAddString(wanted.get(), FC_STYLE, letters(style));
  FcConfigSubstitute(nullptr, wanted.get(), FcMatchPattern);
  FcDefaultSubstitute(wanted.get());
  FcResult result = FcResultNoMatch;
  const Pattern found{FcFontMatch(nullptr, wanted.get(), &result)};
  FcChar8* path = nullptr;
  int index = 0;
  if (!found || FcPatternGetString(found.get(), FC_FILE, 0, &path) != FcResultMatch) {
    throw std::runtime_error("no typeface is installed: sheets need fonts-inter or fonts-dejavu-core");
  }
  FcPatternGetInteger(found.get(), FC_INDEX, 0, &index);
  // By file and nothing else: asked for by family, another weight may be taken.
  const Pattern file{FcPatternCreate()};
  FcPatternAddString(file.get(), FC_FILE, path);
  FcPatternAddInteger(file.get(), FC_INDEX, index);
  return cairo_ft_font_face_create_for_pattern(file.get());
}

std::size_t lengthOfLetter(std::string_view text, std::size_t at) {
  std::size_t next = at + 1;
  while (next < text.size() && (static_cast<unsigned char>(text[next]) & 0xC0U) == 0x80U) ++next;
  return next - at;
}

}  // namespace

Fonts::Fonts()
    : face_{Face{faceFor("Inter", "Regular")}, Face{faceFor("Inter", "Semi Bold")},
            Face{faceFor("DejaVu Sans", "Book")}, Face{faceFor("DejaVu Sans", "Bold")}} {
  FcFini();  // gives back what the look-up holds, so that leak checks see only our own
}

bool Fonts::has(std::size_t face, const std::string& letter) {
  const auto key = std::make_pair(face, letter);
  if (const auto found = known_.find(key); found != known_.end()) return found->second;
  cairo_matrix_t size;
  cairo_matrix_init_scale(&size, 10, 10);
  cairo_matrix_t same;
  cairo_matrix_init_identity(&same);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_scaled_font_t* scaled = cairo_scaled_font_create(face_[face].get(), &size, &same, options);
  cairo_font_options_destroy(options);
  cairo_glyph_t* glyphs = nullptr;
  int count = 0;
  const auto status = cairo_scaled_font_text_to_glyphs(scaled, 0, 0, letter.data(), static_cast<int>(letter.size()),
                                                       &glyphs, &count, nullptr, nullptr, nullptr);
  const bool drawn = status == CAIRO_STATUS_SUCCESS && count > 0 && glyphs[0].index != 0;
  cairo_glyph_free(glyphs);
  cairo_scaled_font_destroy(scaled);
  known_.emplace(key, drawn);
  return drawn;
}

std::vector<FontRun> Fonts::runs(std::string_view text, Weight weight) {
  const std::size_t first = weight == Weight::Bold ? 1 : 0;
  std::vector<FontRun> runs;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t size = lengthOfLetter(text, at);
    const std::string letter{text.substr(at, size)};
    const bool plain = size == 1 && letter[0] >= ' ' && letter[0] != 0x7F;
    const std::size_t face = plain || has(first, letter) || !has(first + 2, letter) ? first : first + 2;
    if (runs.empty() || runs.back().face != face_[face].get()) runs.push_back({face_[face].get(), {}});
    runs.back().text += letter;
    at += size;
  }
  return runs;
}

}  // namespace sillwright::sheet
