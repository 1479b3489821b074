#include "exchange/office/lights.h"

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

/// "3l1r", "4l": a letter a leaf; empty: it isn't one of those.
std::string foldsIn(const std::string& word) {
  std::string letters;
  for (std::size_t i = 0; i + 1 < word.size(); i += 2) {
    if (word[i] < '1' || word[i] > '8' || (word[i + 1] != 'l' && word[i + 1] != 'r')) return {};
    letters.append(static_cast<std::size_t>(word[i] - '0'), word[i + 1] == 'l' ? 'L' : 'R');
  }
  return word.size() % 2 == 0 ? letters : std::string{};
}

/// The light that words stand for. Letters as offices write them (common practice, no source), and words that name no
/// kind by themselves, are understood beside others only: alone they may be a mark, and "sliding" a window or a door.
std::optional<job::Light> lightOf(const std::string& words, bool alone) {
  static constexpr std::pair<std::string_view, std::string_view> kLetters[] = {
      {"f", "fixed"}, {"a", "awning"}, {"c", "casement"}, {"l", "louvre"}};
  std::string_view word = words;
  for (const auto& [letter, is] : kLetters) word = words == letter && !alone ? is : word;
  const auto* light = std::find(std::begin(job::kLightWords), std::end(job::kLightWords), word);
  if (!alone && light != std::end(job::kLightWords)) return static_cast<job::Light>(light - std::begin(job::kLightWords));
  const auto* kind = std::find(std::begin(job::kKindWords), std::end(job::kKindWords), ourWord(word, kindTerms()));
  if (kind == std::end(job::kKindWords)) return std::nullopt;
  return static_cast<job::Light>(kind - std::begin(job::kKindWords));
}

/// One light: its panels go into `said`, and what is left names it. Empty: nothing is left.
std::string namedIn(const std::string& piece, LightsSaid& said) {
  std::istringstream in(plainWords(piece));
  Texts words{std::istream_iterator<std::string>(in), {}};
  std::string name, letters;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    const bool counts = words.size() == 1 || (i + 1 < words.size() && words[i + 1].starts_with("panel"));
    if (word.find_first_not_of("xo") == std::string::npos) {
      for (const char c : word) letters += c == 'x' ? 'X' : 'O';
    } else if (const std::string folds = foldsIn(word); !folds.empty()) {
      letters += folds;
    } else if (counts && word.size() == 1 && word[0] >= '2' && word[0] <= '8') {
      said.panels = word[0] - '0';
    } else if (word != "of" && !word.starts_with("panel")) {
      name += (name.empty() ? "" : " ") + word;
    }
  }
  if (!letters.empty()) said.configuration = letters;
  return name;
}

LightsSaid asking(const std::string& what) {
  LightsSaid said;
  said.asks = what;
  return said;
}

/// "F/A", "fixed + awning", "A-F-A": which way they are divided isn't told.
std::string whichWay(std::string_view text) {
  for (const char* mark : {"/", "+", "-", ",", " and ", " with ", " "}) {
    std::vector<std::string_view> names;
    for (const std::string& part : splitAt(text, mark)) {
      const auto light = lightOf(plainWords(part), false);
      if (!light) break;
      names.push_back(job::kLightWords[static_cast<std::size_t>(*light)]);
    }
    if (names.size() < 2 || names.size() != splitAt(text, mark).size()) continue;
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
  for (auto at = lower.find(" above "); at != std::string::npos; at = lower.find(" above ")) lower.replace(at, 7, " over ");
  const Texts rows = splitAt(lower, " over ");
  std::size_t columns = 0;
  for (const std::string& row : rows) {
    const Texts pieces = splitAt(row, "|");
    if (columns != 0 && pieces.size() != columns) return asking("its rows have unlike numbers of lights: say \"joined\" for one with its left");
    columns = pieces.size();
    for (const std::string& piece : pieces) {
      const std::string name = namedIn(piece, said);
      const bool alone = rows.size() == 1 && columns == 1;
      const auto light = lightOf(name, alone);
      if (!light && alone && name.empty() && (!said.configuration.empty() || said.panels)) return said;
      if (!light) {
        const std::string ways = alone ? whichWay(lower) : std::string{};
        return asking(ways.empty() ? base::quote(saidIn(piece)) + " is no light that is known" : ways);
      }
      said.lights.push_back(*light);
      const auto kind = static_cast<job::UnitKind>(*light);
      const bool opens = *light != job::Light::Joined && kind != job::UnitKind::FixedWindow;
      if (opens && said.kind.value_or(job::UnitKind::FixedWindow) == job::UnitKind::FixedWindow) said.kind = kind;
      if (!said.kind) said.kind = job::UnitKind::FixedWindow;
    }
  }
  said.rows = rows.size();
  if (said.lights.size() == 1) said.lights.clear();
  return said;
}

}  // namespace sillwright::exchange
