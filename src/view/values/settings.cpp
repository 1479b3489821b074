#include "view/values/settings.h"

#include <algorithm>
#include <utility>

#include "exchange/office/figures.h"
#include "view/values/readings.h"
#include "words/length.h"

namespace sillwright::view {
namespace {

using job::Form;

bool isList(Form form) {
  return form == Form::Numbers || form == Form::Texts || form == Form::Words || form == Form::Pair ||
         form == Form::Outline;
}

bool isText(Form form) {
  return form == Form::Text || form == Form::Word || form == Form::Texts || form == Form::Words;
}

/// The pieces between commas, without blanks round them.
std::vector<std::string> piecesOf(const std::string& text) {
  std::vector<std::string> pieces;
  for (std::size_t from = 0; from <= text.size();) {
    const std::size_t to = std::min(text.find(',', from), text.size());
    pieces.push_back(exchange::saidIn(text.substr(from, to - from)));
    from = to + 1;
  }
  return pieces;
}

/// One value without its quotes, a length in the unit that is shown.
std::string shownPiece(const job::Holds& holds, const std::string& spelled, practice::Display display) {
  if (isText(holds.form) && spelled.starts_with('"')) return spelled.substr(1, spelled.size() - 2);
  if (holds.form == Form::Truth) return spelled == "true" ? "yes" : "no";
  const auto number = exchange::numberIn(spelled, false);
  return number && holds.unit == "mm" ? words::figure(*number, display) : spelled;
}

std::string spelledPiece(const job::Holds& holds, const std::string& typed, practice::Display display) {
  if (holds.form == Form::Truth) {
    const auto said = exchange::yesOrNoIn(typed);
    return said ? (*said ? "true" : "false") : typed;
  }
  if (isText(holds.form) && !typed.starts_with('{')) {
    std::string quoted = "\"";
    for (const char c : typed) quoted += c == '"' || c == '\\' ? std::string{'\\', c} : std::string{c};
    return quoted + "\"";
  }
  if (holds.unit != "mm") return typed;
  const ParsedReading parsed = parseLength({}, {.form = Form::Number, .from = -1e9, .to = 1e9}, typed, display);
  return parsed.value ? job::toText(*parsed.value) : typed;
}

}  // namespace

std::string labelOf(const job::KeyPlace& place, const practice::Words& words) {
  if (place.table == job::TableKind::Measured) return "measured with";
  std::string label = place.key;
  for (const auto& [key, own] : {std::pair("reveal", words.reveal), std::pair("fin", words.fin),
                                 std::pair("lintel", words.lintel), std::pair("cladding", words.cladding)}) {
    if (label == key && !own.empty()) label = own;
  }
  if (!place.inner.empty()) label += ", " + place.inner;
  std::replace(label.begin(), label.end(), '_', ' ');
  return label;
}

std::string shownText(const job::KeyText& key, practice::Display display) {
  const job::Holds& holds = key.rule->holds;
  if (!isList(holds.form) || !key.text.starts_with('[')) return shownPiece(holds, key.text, display);
  std::string shown;
  for (const std::string& each : piecesOf(key.text.substr(1, key.text.size() - 2))) {
    shown += (shown.empty() ? "" : ", ") + shownPiece(holds, each, display);
  }
  return shown;
}

std::string spelledText(const job::KeyRule& rule, const std::string& typed, practice::Display display) {
  if (exchange::saidIn(typed).empty()) return {};
  if (!isList(rule.holds.form) || typed.starts_with('[')) return spelledPiece(rule.holds, typed, display);
  std::string list;
  for (const std::string& each : piecesOf(typed)) {
    list += (list.empty() ? "[" : ", ") + spelledPiece(rule.holds, each, display);
  }
  return list + "]";
}

job::KeyText keyAt(const job::Job& job, const job::KeyPlace& place) {
  const std::vector<job::KeyText> all = job::keysOf(job, place.table, place.of);
  return *std::find_if(all.begin(), all.end(), [&](const job::KeyText& each) { return each.place == place; });
}

std::vector<std::string> choicesOf(const document::Document& document, const job::KeyText& key) {
  std::vector<std::string> choices(key.rule->holds.words.begin(), key.rule->holds.words.end());
  if (key.rule->holds.form == Form::Truth) choices = {"yes", "no"};
  if (key.rule->holds.form != Form::Word && key.rule->holds.form != Form::Truth) choices.clear();
  if (key.place.key == "wind") {
    for (const auto& each : document.practice->strength.wind.classes) choices.push_back(each.name);
  }
  if (key.place.key == "timber" && key.place.table == job::TableKind::Wall) {
    for (const auto& each : document.practice->strength.timber.grades) choices.push_back(each.name);
  }
  return choices;
}

job::Job settledAt(const document::Document& document, job::TableKind table, std::size_t of) {
  job::Job settled = document.job;
  if (table == job::TableKind::Wall) {
    const plan::WallSpec& spec = document.plan.walls[of].spec;
    job::Wall& wall = settled.walls[of];
    wall.stud = spec.stud;
    wall.spacing = spec.spacing;
    wall.plates = spec.plates;
    wall.lining = spec.lining;
    wall.cladding = spec.cladding;
  }
  if (table == job::TableKind::Opening) settled.openings[of].lintel = document.plan.openings[of].lintel;
  if (table != job::TableKind::Unit) return settled;
  const plan::UnitSpec& spec = document.plan.openings[of].unit;
  job::Unit& unit = settled.openings[of].unit;
  unit.frame = spec.frame;
  unit.stands = spec.stands;
  unit.fin = spec.fin;
  unit.glass = spec.glass;
  unit.hand = spec.hand;
  return settled;
}

job::Job begunAt(const document::Document& document, const job::KeyPlace& place) {
  constexpr double kBoard = 18;      // these three: common practice, no source
  constexpr double kBelowTop = 150;  // of a soffit
  constexpr double kOverhang = 450;
  job::Job begun = settledAt(document, place.table, place.of);
  if (place.table == job::TableKind::Unit) {
    const plan::WallSpec& wall = document.plan.walls[begun.openings[place.of].wall].spec;
    if (!begun.openings[place.of].unit.reveal) begun.openings[place.of].unit.reveal = job::Reveal{kBoard, wall.depth()};
  }
  if (place.table == job::TableKind::Wall && !begun.walls[place.of].eave)
    begun.walls[place.of].eave = job::Eave{begun.walls[place.of].top.front().z - kBelowTop, kOverhang};
  return begun;
}

}  // namespace sillwright::view
