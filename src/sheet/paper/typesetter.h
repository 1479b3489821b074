/// Inside the room: text set by Pango. It shapes and joins the letters of every script, puts them in reading order,
/// takes letters that Inter lacks from other typefaces, and breaks lines.
///
/// Lengths are millimetres of paper.
#pragma once

#include <pango/pangocairo.h>

#include <memory>
#include <set>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace sillwright::sheet {

enum class Weight { Regular, Bold };

inline constexpr const char* kTypefaces = "Inter, DejaVu Sans";
/// Height of their capitals as a share of the type's size, in both within a hundredth.
inline constexpr double kCapitals = 0.727;

/// The space at which no line is broken. It is printed as a plain one, so that a search finds the words.
inline constexpr std::string_view kNoBreak = "\u00A0";

/// A line of a text as it was set.
struct SetLine {
  std::string text;  ///< Without the spaces at its end.
  double width = 0;
  PangoLayoutLine* letters = nullptr;  ///< Owned by its SetText.
};

/// Owns what a library of C made, to be let go by its function.
template <auto kRelease>
struct Release {
  void operator()(auto* object) const { kRelease(object); }
};
template <class T>
using Object = std::unique_ptr<T, Release<g_object_unref>>;

struct SetText {
  Object<PangoLayout> layout;
  std::vector<SetLine> lines;
  std::set<char32_t> missing;  ///< Letters that no typeface of this machine has.
};

/// Sets texts and remembers them: pages are drawn several times, and each text is measured before it is drawn.
/// Throws std::runtime_error where no typeface is installed.
class Typesetter {
 public:
  Typesetter();

  /// A text in capitals of this height, in lines no wider than `width`; in one line where that is below 0. Lines are
  /// broken at spaces, in scripts without spaces where their rules allow, and within a word that is wider than a line;
  /// or between any two letters. The answer holds until the next call.
  [[nodiscard]] const SetText& set(std::string_view words, double capitals, Weight weight, double width = -1,
                                   PangoWrapMode breaks = PANGO_WRAP_WORD_CHAR);

 private:
  Object<PangoFontMap> fonts_;
  Object<PangoContext> context_;
  std::unordered_map<std::string, SetText> known_;
};

}  // namespace sillwright::sheet
