#include "sheet/paper/typesetter.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "base/error.h"
#include "words/text.h"

namespace sillwright::sheet {
namespace {

/// Number of texts that are remembered: those of a few hundred pages, some 20 MB.
constexpr std::size_t kMostKnown = 8192;

using Description = std::unique_ptr<PangoFontDescription, Release<pango_font_description_free>>;
using Attributes = std::unique_ptr<PangoAttrList, Release<pango_attr_list_unref>>;

/// Pango looks for fonts in threads of its own, and ends the program where it gets none.
PangoFontMap* newFonts() {
  constexpr std::size_t kRoom = 256;  // MiB, for its threads and their memory: more than twice what it took
  constexpr unsigned kThreads = 4;
  base::needRoom(kRoom, kThreads);
  return pango_cairo_font_map_new();
}

Description descriptionOf(double capitals, Weight weight) {
  Description description{pango_font_description_new()};
  pango_font_description_set_family_static(description.get(), kTypefaces);
  pango_font_description_set_weight(description.get(),
                                    weight == Weight::Bold ? PANGO_WEIGHT_SEMIBOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(description.get(), capitals / kCapitals * PANGO_SCALE);
  return description;
}

/// Changes each kNoBreak to a plain space, and forbids to break there and after hyphens and strokes: a word that is
/// broken at one isn't found by a search.
Attributes keepTogether(std::string& words) {
  Attributes attributes{pango_attr_list_new()};
  // No letters are changed for others: Inter makes a sign of "8x75".
  pango_attr_list_insert(attributes.get(), pango_attr_font_features_new("calt=0"));
  const auto keep = [&](std::size_t from) {
    PangoAttribute* attribute = pango_attr_allow_breaks_new(FALSE);
    attribute->start_index = static_cast<guint>(from);
    attribute->end_index = static_cast<guint>(from + 2);  // with the letter after it: no line ends between the two
    pango_attr_list_insert(attributes.get(), attribute);
  };
  for (std::size_t at = 0; at < words.size(); ++at) {
    if (words.compare(at, kNoBreak.size(), kNoBreak) == 0) {
      words.replace(at, kNoBreak.size(), " ");
      keep(at);
    } else if ((words[at] == '-' || words[at] == '/') && at + 1 < words.size() && words[at + 1] != ' ') {
      keep(at);
    }
  }
  return attributes;
}

SetLine lineOf(PangoLayoutLine* letters, const std::string& words) {  // Pango counts in bytes of `words`
  PangoRectangle extents;
  pango_layout_line_get_extents(letters, nullptr, &extents);
  std::string text =
      words.substr(static_cast<std::size_t>(letters->start_index), static_cast<std::size_t>(letters->length));
  text.erase(text.find_last_not_of(' ') + 1);  // Pango leaves them where a line is broken
  return {std::move(text), static_cast<double>(extents.width) / PANGO_SCALE, letters};
}

/// Pango sets a flag beside the code point of a letter that no typeface has.
void addMissing(std::set<char32_t>& missing, const PangoLayoutLine& line) {
  for (const GSList* at = line.runs; at != nullptr; at = at->next) {
    const PangoGlyphString& glyphs = *static_cast<const PangoLayoutRun*>(at->data)->glyphs;
    for (int i = 0; i < glyphs.num_glyphs; ++i) {
      const PangoGlyph glyph = glyphs.glyphs[i].glyph;
      if ((glyph & PANGO_GLYPH_UNKNOWN_FLAG) != 0 && glyph != PANGO_GLYPH_INVALID_INPUT) {
        missing.insert(static_cast<char32_t>(glyph & ~PANGO_GLYPH_UNKNOWN_FLAG));
      }
    }
  }
}

std::vector<SetLine> linesOf(PangoLayout* layout, const std::string& words) {
  std::vector<SetLine> lines;
  for (const GSList* at = pango_layout_get_lines_readonly(layout); at != nullptr; at = at->next) {
    lines.push_back(lineOf(static_cast<PangoLayoutLine*>(at->data), words));
  }
  return lines;
}

/// Whether a line ends between two letters of a word written in Latin ones.
bool breaksWord(const std::vector<SetLine>& lines, const std::string& words) {
  const auto latin = [&](std::size_t at) {
    const unsigned char letter = at < words.size() ? static_cast<unsigned char>(words[at]) : 0;
    return letter > ' ' && letter < 0x80;
  };
  return std::any_of(lines.begin(), lines.end(), [&](const SetLine& line) {
    const auto end = static_cast<std::size_t>(line.letters->start_index + line.letters->length);
    return end > 0 && latin(end - 1) && latin(end);
  });
}

SetText setAnew(PangoContext* context, std::string words, double capitals, Weight weight, double width,
                PangoWrapMode breaks) {
  SetText text{Object<PangoLayout>(pango_layout_new(context)), {}, {}};
  if (words.empty()) return text;  // nothing is drawn of it
  PangoLayout* layout = text.layout.get();
  // The sheets' own words are English: a sentence that begins with an Arabic name still reads from the left.
  pango_layout_set_auto_dir(layout, FALSE);
  pango_layout_set_font_description(layout, descriptionOf(capitals, weight).get());
  pango_layout_set_attributes(layout, keepTogether(words).get());
  pango_layout_set_text(layout, words.data(), static_cast<int>(words.size()));
  if (width < 0) {
    pango_layout_set_single_paragraph_mode(layout, TRUE);  // a line end in the words begins no line
  } else {
    pango_layout_set_wrap(layout, breaks);
    pango_layout_set_width(layout, static_cast<int>(width * PANGO_SCALE));
  }
  text.lines = linesOf(layout, words);
  if (width >= 0 && breaks == PANGO_WRAP_WORD_CHAR && breaksWord(text.lines, words)) {
    // What is wider than a line is broken at its spaces, which are plain ones by now, sooner than in a word.
    pango_layout_set_attributes(layout, keepTogether(words).get());
    text.lines = linesOf(layout, words);
  }
  if (pango_layout_get_unknown_glyphs_count(layout) > 0) {  // else, as usual, no letter need be looked at
    for (const SetLine& line : text.lines) addMissing(text.missing, *line.letters);
  }
  return text;
}

}  // namespace

Typesetter::Typesetter() : fonts_(newFonts()), context_(pango_font_map_create_context(fonts_.get())) {
  // Text takes the same room whatever it is drawn on.
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context_.get(), options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(context_.get(), FALSE);
  // The same on every machine, whatever its language.
  pango_context_set_language(context_.get(), pango_language_from_string("en"));
  const Object<PangoFont> font{pango_context_load_font(context_.get(), descriptionOf(1, Weight::Regular).get())};
  if (!font) throw std::runtime_error("no typeface is installed: sheets need fonts-inter or fonts-dejavu-core");
}

const SetText& Typesetter::set(std::string_view words, double capitals, Weight weight, double width,
                               PangoWrapMode breaks) {
  const std::array<double, 4> how{capitals, weight == Weight::Bold ? 1.0 : 0.0, width, static_cast<double>(breaks)};
  std::string key{words};
  key.append(reinterpret_cast<const char*>(how.data()), sizeof how);  // as bytes: whatever differs is another text
  if (const auto found = known_.find(key); found != known_.end()) return found->second;
  if (known_.size() >= kMostKnown) known_.clear();  // what is wanted again is set again
  return known_
      .emplace(std::move(key),
               setAnew(context_.get(), words::unbroken(std::string(words)), capitals, weight, width, breaks))
      .first->second;
}

}  // namespace sillwright::sheet
