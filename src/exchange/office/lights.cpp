// How units are divided, in an office's words.
#include <algorithm>
#include <iterator>
#include <sstream>

#include "base/words.h"
#include "exchange/office/schedule_terms.h"

namespace sillwright::exchange {
namespace {

using Texts = std::vector<std::string>;

Texts splitAt(std::string_view text, std::string_view mark) {
  Texts parts;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t to = std::min(text.find(mark, from), text.size());
    parts.emplace_back(text.substr(from, to - from));
    from = to + mark.size();
  }
  return parts;
}

/// "ox", "llr": letters of panels; "2l1r": the same by their number. Empty: neither.
std::string lettersIn(const std::string& word) {
  std::string letters;
  const bool folds = word.size() > 1 && word.find_first_not_of("lr") == std::string::npos;
  if (folds || word.find_first_not_of("xo") == std::string::npos) {
    for (const char c : word) letters += static_cast<char>(c - 'a' + 'A');
    return letters;
  }
  for (std::size_t i = 0; i < word.size(); i += 2) {
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
  const auto* light = std::find(std::begin(job::kLightWords), std::end(job::kLightWords), word);
  if (!alone && light != std::end(job::kLightWords))
    return static_cast<job::Light>(light - std::begin(job::kLightWords));
  const auto* kind = std::find(std::begin(job::kKindWords), std::end(job::kKindWords), ourWord(word, kindTerms()));
  if (kind == std::end(job::kKindWords)) return std::nullopt;
  return static_cast<job::Light>(kind - std::begin(job::kKindWords));
}

/// What names one light; its panels go into `said`.
std::string namedIn(const std::string& piece, LightsSaid& said) {
  std::istringstream in(plainWords(piece));
  const Texts words{std::istream_iterator<std::string>(in), {}};
  std::string name, letters;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
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
  for (const char* mark : {"/", "+", "-", ",", " and ", " with ", " "}) {
    const Texts parts = splitAt(text, mark);
    Texts names;
    for (const std::string& part : parts) {
      if (const auto light = lightOf(plainWords(part), false))
        names.emplace_back(job::kLightWords[static_cast<std::size_t>(*light)]);
    }
    if (names.size() < 2 || names.size() != parts.size()) continue;
    return "side by side (" + base::joined(names, " | ") + ") or one over the other (" + base::joined(names, " over ") +
           ")?";
  }
  return {};
}

}  // namespace

LightsSaid lightsIn(std::string_view text) {
  LightsSaid said;
  std::string lower(text);
  for (char& c : lower) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  lower = base::joined(splitAt(lower, " above "), " over ");
  const Texts rows = splitAt(lower, " over ");
  const std::size_t columns = splitAt(rows.front(), "|").size();
  const bool alone = rows.size() == 1 && columns == 1;
  for (const std::string& row : rows) {
    const Texts pieces = splitAt(row, "|");
    if (pieces.size() != columns) said.asks = "its rows have unlike numbers of lights (\"joined\": one with its left)";
    for (const std::string& piece : pieces) {
      const std::string name = namedIn(piece, said);
      if (alone && name.empty() && (!said.configuration.empty() || said.panels)) return said;
      const auto light = lightOf(name, alone);
      if (!light) {
        said.asks = alone ? whichWay(lower) : std::string{};
        if (said.asks.empty()) said.asks = base::quote(saidIn(piece)) + " is no light that is known";
        return said;
      }
      said.lights.push_back(*light);
      if (*light == job::Light::Joined) continue;
      if (said.kind.value_or(job::UnitKind::FixedWindow) == job::UnitKind::FixedWindow)
        said.kind = static_cast<job::UnitKind>(*light);
    }
  }
  said.rows = rows.size();
  if (alone) said.lights.clear();
  return said;
}

}  // namespace sillwright::exchange
