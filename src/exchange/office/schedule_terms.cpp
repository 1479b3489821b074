#include "exchange/office/schedule_terms.h"

#include <iterator>
#include <sstream>
#include <stdexcept>

#include "base/words.h"
#include "base/write_file.h"
#include "document/assets.h"
#include "job/toml_table.h"

namespace sillwright::exchange {

namespace {

/// The words without those that tell nothing and without a number at the end.
std::string essence(std::string_view words) {
  std::vector<std::string_view> told = splitAt(words, " ");  // "bed 2" is left as "bed"
  std::erase_if(told, [](std::string_view word) {
    return isListed(word, officeWords().idle) || word.find_first_not_of("0123456789") == std::string_view::npos;
  });
  return base::joined(told, " ");
}

/// "ox", "llr": letters of panels; "2l1r": the same by their number. Empty: neither.
std::string lettersIn(const std::string& word) {
  std::string letters;
  const bool folds = word.size() > 1 && word.find_first_not_of("lr") == std::string::npos;  // alone they are hands
  if (folds || word.find_first_not_of("xo") == std::string::npos) {
    for (const char c : word) letters += static_cast<char>(c - 'a' + 'A');
    return letters;
  }
  for (std::size_t i = 0; i < word.size(); i += 2) {  // "2l1r" has a figure and a side in turn
    const char side = i + 1 < word.size() ? word[i + 1] : ' ';
    if (word[i] < '1' || word[i] > '8' || (side != 'l' && side != 'r')) return {};
    letters.append(static_cast<std::size_t>(word[i] - '0'), side == 'l' ? 'L' : 'R');
  }
  return letters;
}

/// The light that words stand for. Letters as offices write them (common practice, no source), and words that name no
/// kind by themselves, are understood beside others only: alone they may be a mark, and "sliding" a window or a door.
std::optional<job::Light> lightOf(const std::string& words, bool alone) {
  static constexpr std::pair<std::string_view, std::string_view> kLetters[] = {
      {"f", "fixed"}, {"a", "awning"}, {"c", "casement"}, {"l", "louvre"}};
  std::string_view word = words;
  for (const auto& [letter, is] : kLetters) word = words == letter && !alone ? is : word;
  const auto light = oneOf<job::Light>(job::kLightWords, word);
  return light && !alone ? light : oneOf<job::Light>(job::kKindWords, ourWord(word, officeWords().kinds));
}

/// What names one light; its panels go into `said`.
std::string namedIn(std::string_view piece, LightsSaid& said) {
  std::istringstream in(plainWords(piece));
  const std::vector<std::string> words{std::istream_iterator<std::string>(in), {}};
  std::string name, letters;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];  // a figure counts panels where it is alone or "panel" follows
    const bool counts = words.size() == 1 || (i + 1 < words.size() && words[i + 1].starts_with("panel"));
    const std::string of_word = lettersIn(word);
    letters += of_word;
    if (counts && word.size() == 1 && word[0] >= '2' && word[0] <= '8') {
      said.panels = word[0] - '0';
    } else if (of_word.empty() && word != "of" && !word.starts_with("panel")) {
      name += (name.empty() ? "" : " ") + word;
    }
  }
  if (!letters.empty()) said.configuration = letters;
  return name;
}

/// "F/A", "fixed + awning", "A-F-A": which way they are divided isn't told.
std::string whichWay(std::string_view text) {
  for (const char* mark : {"/", "+", "-", ",", " and ", " with ", " "}) {  // blanks come last, for names may have them
    const auto parts = splitAt(text, mark);
    std::vector<std::string_view> names;
    for (const std::string_view part : parts) {
      if (const auto light = lightOf(plainWords(part), false))
        names.push_back(job::kLightWords[static_cast<std::size_t>(*light)]);
    }
    if (names.size() < 2 || names.size() != parts.size()) continue;  // each part must be a light
    return "side by side (" + base::joined(names, " | ") + ") or one over the other (" + base::joined(names, " over ") +
           ")?";
  }
  return {};
}

}  // namespace

const OfficeWords& officeWords() {
  static const OfficeWords kWords = [] {
    const auto file = document::assetsFolder() / "schedule" / "words.toml";
    const auto text = base::loadText(file);
    auto words = text.ok() ? job::readDescribed<OfficeWords>(*text.value, file.string())
                           : base::Result<OfficeWords>{{}, text.errors};
    if (!words.ok()) throw std::runtime_error(base::joined(words.errors, "\n", base::toLine));
    for (const auto name : splitAt(words.value->passed_over, ", ")) words.value->columns.push_back({std::string(name)});
    return std::move(*words.value);
  }();
  return kWords;
}

std::vector<std::string> namesIn(const std::string& text, std::size_t count) {
  if (count == 1) return {text};
  std::string parted = text;
  for (char& c : parted) c = c == '/' || c == '&' || c == ';' ? ',' : c;
  const auto parts = splitAt(parted, ",");
  std::vector<std::string> names(count);
  for (std::size_t i = 0; i < count; ++i)
    names[i] = parts.size() == count ? saidIn(parts[i]) : text + "-" + std::to_string(i + 1);
  return names;
}

std::string_view ourWord(std::string_view said, Terms terms) {
  const std::string words = plainWords(said);
  const Term* term = termOf(words, terms);
  if (term == nullptr) term = termOf(essence(words), terms);  // idle words first count: they may be part of a term
  return term != nullptr && term->asks.empty() ? std::string_view(term->ours) : std::string_view{};
}

GlassWords glassIn(std::string_view said, bool decimal_comma) {
  GlassWords glass;
  std::string figures{said};
  for (char& c : figures) {
    const bool of_number = (c >= '0' && c <= '9') || c == '.' || c == ',';
    if (!of_number) c = ' ';
  }
  std::vector<double> numbers;  // one alone is a thickness and says nothing of panes
  std::istringstream in(figures);
  for (std::string word; in >> word;) {
    if (const auto number = numberIn(word, decimal_comma)) numbers.push_back(*number);
  }
  // Pane, gap, pane (4/12/4), and twice so.
  if (numbers.size() == 1 || numbers.size() == 3 || numbers.size() == 5) {
    for (std::size_t i = 0; i < numbers.size(); i += 2)
      glass.thickness = std::max(glass.thickness.value_or(0), numbers[i]);
  }
  if (numbers.size() == 3 || numbers.size() == 5) glass.panes = static_cast<int>(numbers.size() / 2 + 1);
  std::istringstream words(plainWords(said));
  for (std::string word; words >> word;) {
    const std::string_view is = sameWord(word, officeWords().glass);
    if (is == "single") glass.panes = 1;
    if (is == "double") glass.panes = 2;
    if (is == "triple") glass.panes = 3;
    glass.safety |= is == "safety";
    glass.obscure |= is == "obscure";
  }
  return glass;
}

// How units are divided, in an office's words.

LightsSaid lightsIn(std::string_view text) {
  LightsSaid said;
  std::string lower(text);
  for (char& c : lower) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  lower = base::joined(splitAt(lower, " above "), " over ");
  const auto rows = splitAt(lower, " over ");
  const std::size_t columns = splitAt(rows.front(), "|").size();
  const bool alone = rows.size() == 1 && columns == 1;
  for (const std::string_view row : rows) {
    const auto pieces = splitAt(row, "|");  // a piece that isn't known is told in place of unlike numbers
    if (pieces.size() != columns) said.asks = "its rows have unlike numbers of lights (\"joined\": one with its left)";
    for (const std::string_view piece : pieces) {
      const std::string name = namedIn(piece, said);  // "OXXO" names no light: its kind has a column of its own
      if (alone && name.empty() && (!said.configuration.empty() || said.panels)) return said;
      const auto light = lightOf(name, alone);
      if (!light) {
        said.asks = alone ? whichWay(lower) : std::string{};
        if (said.asks.empty()) said.asks = base::quote(saidIn(piece)) + " is no light that is known";
        return said;
      }
      said.lights.push_back(*light);
      if (*light == job::Light::Joined) continue;  // it opens with the light at its left
      if (said.kind.value_or(job::UnitKind::FixedWindow) == job::UnitKind::FixedWindow)
        said.kind = static_cast<job::UnitKind>(*light);
    }
  }
  said.rows = rows.size();
  if (alone) said.lights.clear();  // a job gives no lights to a unit that isn't divided
  return said;
}

}  // namespace sillwright::exchange
