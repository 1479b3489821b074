#include "plan/weather/what_if.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <optional>

#include "base/words.h"
#include "job/rule.h"
#include "words/text.h"

namespace sillwright::plan {
namespace {

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

/// Takes `word` and a blank off the front.
bool takeWord(std::string_view& text, std::string_view word) {
  if (text.substr(0, word.size()) != word) return false;
  if (text.size() > word.size() && text[word.size()] != ' ') return false;
  text = trimmed(text.substr(word.size()));
  return true;
}

template <class T>
base::Result<T> refuse(std::string say) {
  base::Result<T> result;
  result.errors.push_back({{}, {}, "what if", std::move(say)});
  return result;
}

constexpr const char* kForms =
    "say 'swap A, B', 'without A', 'without step S' or 'shorten A 40', with the names of sheets";

/// The trailing figure of "sill flashing 40 mm".
std::optional<double> takeLength(std::string_view& text) {
  if (text.size() > 3 && text.substr(text.size() - 3) == " mm") text = trimmed(text.substr(0, text.size() - 3));
  const auto blank = text.rfind(' ');
  if (blank == std::string_view::npos) return std::nullopt;
  const std::string_view digits = text.substr(blank + 1);
  double value = 0;
  const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (read.ec != std::errc{} || read.ptr != digits.data() + digits.size()) return std::nullopt;
  if (!(value > 0 && value < 1e6)) return std::nullopt;  // no lap is a kilometre long
  text = trimmed(text.substr(0, blank));
  return value;
}

bool contains(const std::string& name, std::string_view part) { return name.find(part) != std::string::npos; }

/// Indices of the sheets that a name means: the one of that very name, else all that have it in theirs.
std::vector<std::size_t> sheetsNamed(const Skin& skin, std::string_view name) {
  std::vector<std::size_t> exact, partly;
  std::string_view singular = name;
  if (singular.size() > 1 && singular.back() == 's') singular.remove_suffix(1);  // "jamb flashings" are both
  for (std::size_t i = 0; i < skin.sheets.size(); ++i) {
    const auto& has = skin.sheets[i].name;
    if (has == name) exact.push_back(i);
    if (!name.empty() && (contains(has, name) || contains(has, singular))) partly.push_back(i);
  }
  return exact.empty() ? partly : exact;
}

std::string noSuchSheet(const Skin& skin, const std::string& name) {
  std::vector<std::string> names;
  for (const auto& sheet : skin.sheets) {
    if (std::find(names.begin(), names.end(), sheet.name) == names.end()) names.push_back(sheet.name);
  }
  return "no sheet is called '" + base::oneLine(name) + "'; there are " + words::listed(names);
}

/// Orders as small whole numbers again; sheets stay in their places.
void compact(std::vector<Sheet>& sheets) {
  std::vector<int> orders;
  for (const auto& sheet : sheets) orders.push_back(sheet.order);
  std::sort(orders.begin(), orders.end());
  orders.erase(std::unique(orders.begin(), orders.end()), orders.end());
  for (auto& sheet : sheets) {
    sheet.order = 1 + static_cast<int>(std::lower_bound(orders.begin(), orders.end(), sheet.order) - orders.begin());
  }
}

/// The same, sheets in rising order.
void renumber(Skin& skin) {
  compact(skin.sheets);
  std::stable_sort(skin.sheets.begin(), skin.sheets.end(),
                   [](const Sheet& a, const Sheet& b) { return a.order < b.order; });
}

/// How many sheets whose depth is between the two lie on `moved`: laps that its move would turn as well.
std::ptrdiff_t lapsBetween(const std::vector<Sheet>& sheets, const Sheet& moved, int low, int high) {
  return std::count_if(sheets.begin(), sheets.end(), [&](const Sheet& sheet) {
    return &sheet != &moved && sheet.order > low && sheet.order < high && overlapOf(sheet, moved).any;
  });
}

/// Puts two sheets the other way round: the outer one in just under the inner, or the inner one out just over the
/// outer, whichever turns fewer other laps. The tape goes with its flap.
void turnLap(std::vector<Sheet>& sheets, std::size_t a, std::size_t b) {
  if (sheets[a].order == sheets[b].order) return;  // neither lies on the other
  const std::size_t outer = sheets[a].order > sheets[b].order ? a : b;
  const std::size_t inner = outer == a ? b : a;
  const int low = sheets[inner].order;
  const int high = sheets[outer].order;
  const bool lift = lapsBetween(sheets, sheets[inner], low, high) < lapsBetween(sheets, sheets[outer], low, high);
  constexpr int kRoom = 4;  // between two neighbours for a sheet and its tape
  for (auto& sheet : sheets) sheet.order *= kRoom;
  const std::size_t moved = lift ? inner : outer;
  const int to = lift ? high * kRoom + 1 : low * kRoom - 2;  // 2: its tape goes between it and the inner one
  if (sheets[moved].kind == SheetKind::HeadFlap) {
    for (auto& sheet : sheets) {
      if (sheet.kind == SheetKind::HeadTape) sheet.order = to + 1;
    }
  }
  sheets[moved].order = to;
  compact(sheets);  // a word that means many sheets turns many laps
}

base::Result<Skin> apply(Skin skin, const SwapSheets& swap) {
  const auto first = sheetsNamed(skin, swap.first);
  const auto second = sheetsNamed(skin, swap.second);
  if (first.empty()) return refuse<Skin>(noSuchSheet(skin, swap.first));
  if (second.empty()) return refuse<Skin>(noSuchSheet(skin, swap.second));
  const auto before = skin.sheets;  // swaps change the orders that the next pair asks for
  for (const std::size_t a : first) {
    for (const std::size_t b : second) {
      if (a == b)
        return refuse<Skin>("'" + base::oneLine(swap.first) + "' and '" + base::oneLine(swap.second) +
                            "' mean the same sheet");
      // Both ends of a pair move by what lay outside at first, so that two jambs both come under one sill.
      if ((before[a].order > before[b].order) == (skin.sheets[a].order > skin.sheets[b].order)) {
        turnLap(skin.sheets, a, b);
      }
    }
  }
  renumber(skin);
  return {std::move(skin), {}};
}

base::Result<Skin> apply(Skin skin, const LeaveOutSheet& without) {
  const auto gone = sheetsNamed(skin, without.sheet);
  if (gone.empty()) return refuse<Skin>(noSuchSheet(skin, without.sheet));
  for (auto i = gone.rbegin(); i != gone.rend(); ++i) {  // from behind: the places before it stay
    skin.sheets.erase(skin.sheets.begin() + static_cast<std::ptrdiff_t>(*i));
  }
  return {std::move(skin), {}};
}

base::Result<Skin> apply(Skin skin, const LeaveOutStep& without) {
  if (std::erase_if(skin.sheets, [&](const Sheet& sheet) { return sheet.step == without.step; }) == 0) {
    return refuse<Skin>(std::string("the step '") + toWord(without.step) + "' puts nothing on this wall's face");
  }
  return {std::move(skin), {}};
}

/// Lifts the lowest edges of a sheet; false where the sheet is not that long there.
bool lift(Sheet& sheet, double by) {
  // A corner between the old edge and the new would be passed, and the outline cross itself.
  const double low = boxOf(sheet).z0;
  for (const Point point : sheet.outline) {
    if (point.z > low && point.z <= low + by) return false;
  }
  for (Point& point : sheet.outline) {
    if (point.z == low) point.z += by;
  }
  return true;
}

base::Result<Skin> apply(Skin skin, const ShortenLap& shorter) {
  const auto which = sheetsNamed(skin, shorter.sheet);
  if (which.empty()) return refuse<Skin>(noSuchSheet(skin, shorter.sheet));
  if (!(shorter.by > 0)) return refuse<Skin>("a lap is shortened by more than 0 mm");
  for (const std::size_t i : which) {
    if (lift(skin.sheets[i], shorter.by)) continue;
    return refuse<Skin>("the " + skin.sheets[i].name + " is not long enough for " + words::number(shorter.by) +
                        " mm to be cut off its lower edge");
  }
  return {std::move(skin), {}};
}

struct Rule {
  SheetKind inner, outer;
  const char* why;
};

/// "A sheet above always laps outside the sheet below it", kind by kind.
constexpr std::array<Rule, 9> kRules{{
    {SheetKind::MembraneRun, SheetKind::MembraneRun, "A run of the membrane lies over the run below it."},
    {SheetKind::MembraneRun, SheetKind::SillFlashing, "The sill's flashing lies over the membrane."},
    {SheetKind::Cladding, SheetKind::SillFlashing, "The board below the sill tucks up under the sill's flashing."},
    {SheetKind::SillFlashing, SheetKind::SillFlashing, "The pan's front lies over the strip below it."},
    {SheetKind::SillFlashing, SheetKind::JambFlashing, "A jamb's foot lies over the sill's flashing."},
    {SheetKind::SillFlashing, SheetKind::Fin, "The unit's fin lies over the sill's flashing."},
    {SheetKind::Fin, SheetKind::HeadFlashing, "The head flashing turns down over the fin."},
    {SheetKind::HeadFlashing, SheetKind::HeadFlap, "The membrane's flap comes down over the upstand."},
    {SheetKind::Cladding, SheetKind::Cladding, "Each board laps the one below."},
}};

/// Whether a board can be slipped under `over` in the new pile: over all that it lay on before.
bool tucksUnder(const Skin& before, const std::vector<Sheet>& now, std::size_t board, std::size_t over) {
  for (std::size_t i = 0; i < now.size(); ++i) {
    if (i == board || before.sheets[i].order >= before.sheets[board].order) continue;
    if (now[i].order >= now[over].order && overlapOf(before.sheets[i], before.sheets[board]).any) return false;
  }
  return true;
}

/// Whether a sheet of the inner one's kind lies between the two and on both: the lap over that one is the one to keep.
/// A sill's pan parts the strip below it from the fin.
bool isParted(const Skin& skin, const Sheet& inner, const Sheet& outer) {
  if (inner.kind != SheetKind::SillFlashing) return false;
  return std::any_of(skin.sheets.begin(), skin.sheets.end(), [&](const Sheet& between) {
    return between.kind == SheetKind::SillFlashing && between.order > inner.order && between.order < outer.order &&
           overlapOf(between, inner).any && overlapOf(between, outer).any;
  });
}

}  // namespace

std::string toText(const WhatIf& what_if) {
  if (const auto* swap = std::get_if<SwapSheets>(&what_if)) return "swap " + swap->first + ", " + swap->second;
  if (const auto* without = std::get_if<LeaveOutSheet>(&what_if)) return "without " + without->sheet;
  if (const auto* without = std::get_if<LeaveOutStep>(&what_if)) {
    return std::string("without step ") + toWord(without->step);
  }
  const auto& shorter = std::get<ShortenLap>(what_if);
  return "shorten " + shorter.sheet + " " + job::toText(shorter.by);
}

base::Result<WhatIf> parseWhatIf(std::string_view text) {
  std::string_view rest = trimmed(text);
  const std::string whole(rest);
  if (takeWord(rest, "swap")) {
    const auto comma = rest.find(',');
    if (comma == std::string_view::npos) return refuse<WhatIf>("'swap' takes two sheets with a comma between them");
    SwapSheets swap{std::string(trimmed(rest.substr(0, comma))), std::string(trimmed(rest.substr(comma + 1)))};
    if (swap.first.empty() || swap.second.empty()) return refuse<WhatIf>("'swap' takes two sheets");
    return {WhatIf{std::move(swap)}, {}};
  }
  if (takeWord(rest, "without")) {
    if (takeWord(rest, "step")) {
      const auto step = stepNamed(rest);
      if (!step)
        return refuse<WhatIf>("no step is called '" + base::oneLine(rest) + "'; there are " + base::joined(kStepWords));
      return {WhatIf{LeaveOutStep{*step}}, {}};
    }
    if (rest.empty()) return refuse<WhatIf>("'without' takes a sheet, or 'step' and a step");
    return {WhatIf{LeaveOutSheet{std::string(rest)}}, {}};
  }
  if (takeWord(rest, "shorten")) {
    const auto by = takeLength(rest);
    if (!by || rest.empty()) return refuse<WhatIf>("'shorten' takes a sheet and a number of millimetres");
    return {WhatIf{ShortenLap{std::string(rest), *by}}, {}};
  }
  return refuse<WhatIf>("'" + base::oneLine(whole) + "' is not understood: " + kForms);
}

base::Result<std::vector<WhatIf>> parseWhatIfs(std::string_view text) {
  base::Result<std::vector<WhatIf>> result;
  std::vector<WhatIf> all;
  while (!trimmed(text).empty()) {
    const auto end = std::min(text.find(';'), text.size());
    auto one = parseWhatIf(text.substr(0, end));
    if (one.ok()) all.push_back(std::move(*one.value));
    result.errors.insert(result.errors.end(), one.errors.begin(), one.errors.end());
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  if (result.errors.empty()) result.value = std::move(all);
  return result;
}

base::Result<Skin> applyWhatIf(const Skin& skin, const WhatIf& what_if) {
  return std::visit([&](const auto& change) { return apply(skin, change); }, what_if);
}

base::Result<Skin> applyWhatIf(const Skin& skin, std::span<const WhatIf> what_ifs) {
  base::Result<Skin> result{skin, {}};
  for (const WhatIf& what_if : what_ifs) {
    if (result.ok()) result = applyWhatIf(*result.value, what_if);  // the first that can't be made ends it
  }
  return result;
}

std::string explain(const WaterFaults& water, const Skin& skin) {
  if (!water.leaks.empty()) {
    // What gets into the opening is told before what wets the timber beside it.
    const auto worst = std::find_if(water.leaks.begin(), water.leaks.end(),
                                    [](const Leak& leak) { return leak.end == WaterEnd::IntoOpening; });
    return (worst == water.leaks.end() ? water.leaks.front() : *worst).say;
  }
  if (!water.behind_cladding.empty()) return water.behind_cladding.front().say;
  if (!water.held.empty()) return water.held.front().say;
  if (skin.frame_drains.empty())
    return "What is traced is shed outside; the door's threshold and its pan are not traced.";
  return "All water is shed outside.";
}

Skin skinInOrder(const Skin& skin, std::span<const StepKind> order) {
  Skin changed = skin;
  constexpr int kApart = 1024;  // more than any order of a skin: what is tucked under a sheet has room before it
  constexpr int kRoom = kApart * kApart;  // so that the step decides
  for (std::size_t i = 0; i < changed.sheets.size(); ++i) {
    changed.sheets[i].order = stepNumber(order, skin.sheets[i].step) * kRoom + kApart * skin.sheets[i].order;
  }
  // What was put on later and yet lies further in was tucked up under: it still is, where it can be.
  for (std::size_t board = 0; board < skin.sheets.size(); ++board) {
    for (std::size_t over = skin.sheets.size(); over-- > 0;) {
      const Sheet& a = skin.sheets[board];
      const Sheet& b = skin.sheets[over];
      const bool tucked = a.step > b.step && a.order < b.order && overlapOf(a, b).any;
      if (!tucked || changed.sheets[board].order < changed.sheets[over].order) continue;
      if (!tucksUnder(skin, changed.sheets, board, over)) continue;
      // As far before it as it lay: several that are tucked under one sheet stay in their own order.
      changed.sheets[board].order = changed.sheets[over].order - (b.order - a.order);
    }
  }
  // Last, for the loop above reads both skins by one index.
  std::erase_if(changed.sheets, [&](const Sheet& sheet) { return stepNumber(order, sheet.step) == 0; });
  renumber(changed);
  return changed;
}

std::vector<ForbiddenSwap> forbiddenSwaps(const Skin& skin) {
  std::vector<ForbiddenSwap> all;
  for (std::size_t outer = 0; outer < skin.sheets.size(); ++outer) {
    for (std::size_t inner = 0; inner < outer; ++inner) {  // sheets rise by order: it lies further in
      const Sheet& in = skin.sheets[inner];
      const Sheet& out = skin.sheets[outer];
      const auto rule = std::find_if(kRules.begin(), kRules.end(),
                                     [&](const Rule& each) { return each.inner == in.kind && each.outer == out.kind; });
      if (rule == kRules.end() || in.order == out.order) continue;
      // A door's pan takes what comes in at the threshold, where no drop is traced: turning it would show nothing.
      const bool pan = in.kind == SheetKind::SillFlashing || out.kind == SheetKind::SillFlashing;
      if (pan && skin.frame_drains.empty()) continue;
      const Overlap lap = overlapOf(in, out);
      if (!lap.any || !lap.has_top || isParted(skin, in, out)) continue;  // water gets behind an upper edge alone
      all.push_back({{in.name, out.name}, rule->why, lap.box.x0, lap.box.x1, lap.top});
    }
  }
  return all;
}

}  // namespace sillwright::plan
