#include "exchange/office/schedule_terms.h"

#include <algorithm>
#include <iterator>
#include <sstream>
#include <vector>

#include "base/words.h"
#include "takeoff/order.h"

namespace sillwright::exchange {

namespace {

namespace order = takeoff::column;

constexpr std::string_view kWhichSize = "the unit's, or the framed opening's?";
constexpr std::string_view kWhichOrder = "width x height or height x width, of the unit or of the framed opening?";
constexpr std::string_view kWhichKind = "a window or a door?";

constexpr std::string_view kIdleWords[] = {"window", "windows", "unit",  "aluminium", "aluminum",
                                           "alum",   "alu",     "frame", "the",       "main"};

bool isIn(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// The words without those that tell nothing and without a number at the end.
std::string essence(std::string_view words) {
  std::istringstream in{std::string(words)};
  std::string out;
  for (std::string word; in >> word;) {
    const bool idle = std::find(std::begin(kIdleWords), std::end(kIdleWords), word) != std::end(kIdleWords);
    if (idle || word.find_first_not_of("0123456789") == std::string::npos) continue;
    out += (out.empty() ? "" : " ") + word;
  }
  return out;
}

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
  const auto light = oneOf<job::Light>(job::kLightWords, word);
  return light && !alone ? light : oneOf<job::Light>(job::kKindWords, ourWord(word, kindTerms()));
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

Terms scheduleTerms() {
  static constexpr Term kTerms[] = {
      {order::kOpening,
       "opening no, opening name, opening mark, mark, window mark, door mark, type mark, id, window id, door id, no, "
       "window no, door no, unit no, window, window door, ref, reference, window ref, item, item no, tag, window tag, "
       "name"},
      {order::kWall, "elevation, facade, wall name, side of house"},
      {order::kRoom, "location, room name, space"},
      {order::kLeft, "from left, offset, distance from left, offset from left, position from left"},
      {order::kSill, "sill height, height of sill, sill level, height above floor, sill height above floor"},
      {column::kHead, "head height, height of head, head level, head height above floor"},
      {order::kFramedWidth,
       "opening width, rough opening width, structural opening width, stud opening width, hole width, frame opening "
       "width, trimmed opening width, width of opening, rough width"},
      {order::kFramedHeight,
       "opening height, rough opening height, structural opening height, stud opening height, hole height, frame "
       "opening height, trimmed opening height, height of opening, rough height"},
      {column::kFramedSize,
       "opening width x height, rough opening width x height, structural opening width x height, stud opening width x "
       "height"},
      {column::kFramedSizeTurned,
       "opening height x width, rough opening height x width, structural opening height x width, stud opening height x "
       "width"},
      {order::kUnitWidth,
       "window width, door width, frame width, overall width, overall frame width, frame overall width, width of unit, "
       "window frame width, "
       "product width"},
      {order::kUnitHeight,
       "window height, door height, frame height, overall height, overall frame height, frame overall height, height "
       "of unit, window frame "
       "height, product height"},
      {column::kUnitSize, "window width x height, frame width x height, overall width x height"},
      {column::kUnitSizeTurned, "window height x width, frame height x width, overall height x width"},
      {"width", "nominal width", kWhichSize},
      {"height", "nominal height", kWhichSize},
      {"width x height",
       "size, dimensions, height x width, nominal width x height, nominal height x width, unit size, window size, door "
       "size, frame size, opening size, rough opening "
       "size, rough opening, structural opening size, structural opening, nominal size",
       kWhichOrder},
      {order::kKind,
       "type, window type, door type, unit type, operation, operation type, op type, style, window style, description, "
       "product, product type, family, family and type"},
      {order::kLights,
       "light, configuration, lights configuration, light configuration, sash configuration, panel configuration, "
       "panels, no of panels, layout, division, f a, lites"},
      {order::kColumns, "column widths, widths of lights"},
      {order::kRows, "row heights, heights of lights"},
      {order::kOpens, "opens in out, opening direction, in or out"},
      {order::kCoupledTo, "coupled, coupled with, joined to"},
      {order::kHand, "handing, hinged, hinge side"},
      {order::kQuantity, "count, no off, off, quantity required, pcs, total quantity"},
      {order::kFrameDepth, "frame section depth"},
      {order::kFrameFace, {}},
      {order::kRevealThickness, {}},
      {order::kRevealDepth, "reveal width, jamb depth, jamb width, reveals"},
      {order::kFin, "nail fin, flange"},
      {order::kGlass, "glass, glazing, glass type, glazing type, glass spec, glass specification"},
      {order::kPanes, "panes, no of panes"},
      {order::kSafetyGlass, "safety, toughened, tempered"},
      {order::kObscure, "obscure, obscured"},
      {order::kFlashing, {}},
      {order::kColour, "frame colour, finish, frame finish"},
      {order::kScreens, "screen, flyscreen, fly screen, flyscreens, fly screens, insect screen"},
      {order::kNotes, "note, remarks, remark, comments, comment"},
      {order::kMass, "weight, mass, weight each"},
  };
  static const std::vector<Term> kAll = [] {
    std::vector<Term> all(std::begin(kTerms), std::end(kTerms));
    for (const std::string_view name : kPassedOver) all.push_back({name});
    return all;
  }();
  return kAll;
}

Terms kindTerms() {
  static constexpr Term kTerms[] = {
      {"sliding window", "slider window, sw, horizontal sliding window, horizontal slider"},
      {"awning window", "awning, awn, aw, top hung, top hung window"},
      {"casement window", "casement, csmt, casmt, cw, side hung, side hung window"},
      {"fixed window", "fixed, fix, fx, fw, picture, picture window, fixed lite, fixed light"},
      {"sliding door", "slider door, sd, sgd, sliding glass door, glass sliding door, patio door"},
      {"hinged door", "hd, swing door, side hung door, hinged single door"},
      {"hopper window", "hopper, bottom hung, bottom hung window"},
      {"tilt and turn window", "tilt and turn, tilt turn"},
      {"louvre window", "louvre, louver, louver window, jalousie"},
      {"single hung window", "single hung, sh, shw"},
      {"double hung window", "double hung, dh, dhw, vertical sliding window, vertical slider, sash window"},
      {"stacking door", "stacker, stacker door, stacking sliding door, multi slide door"},
      {"folding door", "folding, bifold, bi fold, bifold door, bi fold door"},
      {"double doors", "double door, pair of doors, french doors, french door, double hinged door"},
      {"sliding", "slider", kWhichKind}};
  return kTerms;
}

Terms handTerms() {
  static constexpr Term kTerms[] = {{"left", "l, lh, left hand, left hung"},
                                    {"right", "r, rh, right hand, right hung"}};
  return kTerms;
}

Terms roomTerms() {
  // Wet areas: baths, showers, laundries and toilets (the building codes' definition, from memory).
  static constexpr Term kTerms[] = {
      {"bedroom", "bed, br, master, master bedroom, master bed, bedrm, guest bedroom"},
      {"living", "living room, lounge, family, family room, dining, dining room, sitting room"},
      {"wet area", "bath, bathroom, ensuite, en suite, ens, laundry, ldry, wc, toilet, powder room, pdr"},
      {"shower", "shower room"},
      {"stair", "stairs, stairwell, staircase"},
      {"kitchen", {}},
      {"other", {}}};
  return kTerms;
}

std::vector<std::string> namesIn(const std::string& text, std::size_t count) {
  if (count == 1) return {text};
  std::string parted = text;
  for (char& c : parted) c = c == '/' || c == '&' || c == ';' ? ',' : c;
  Texts names = splitAt(parted, ",");
  const bool as_many = names.size() == count;
  names.resize(count);
  for (std::size_t i = 0; i < count; ++i) names[i] = as_many ? saidIn(names[i]) : text + "-" + std::to_string(i + 1);
  return names;
}

std::string_view ourWord(std::string_view said, Terms terms) {
  const std::string words = plainWords(said);
  const Term* term = termOf(words, terms);
  if (term == nullptr) term = termOf(essence(words), terms);
  return term != nullptr && term->asks.empty() ? term->ours : std::string_view{};
}

GlassWords glassIn(std::string_view said, bool decimal_comma) {
  GlassWords glass;
  std::string figures{said};
  for (char& c : figures) {
    const bool of_number = (c >= '0' && c <= '9') || c == '.' || c == ',';
    if (!of_number) c = ' ';
  }
  std::vector<double> numbers;
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
    if (isIn(word, {"double", "dg", "dgu", "igu", "dglazed"})) glass.panes = 2;
    if (isIn(word, {"triple", "tgu"})) glass.panes = 3;
    if (isIn(word, {"single", "sg"})) glass.panes = 1;
    if (isIn(word, {"toughened", "tough", "tgh", "tempered", "laminated", "lam", "lami", "safety"}))
      glass.safety = true;
    if (isIn(word, {"obscure", "obs", "frosted", "patterned", "translucent"})) glass.obscure = true;
  }
  return glass;
}

// How units are divided, in an office's words.

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
