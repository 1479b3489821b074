#include "view/values/readings.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/words.h"
#include "exchange/office/figures.h"

namespace sillwright::view {

namespace {

/// Millimetres of a text: where it names no unit, of the unit that figures are shown in.
std::optional<double> lengthOf(std::string_view text, practice::Display display) {
  const bool inches = display == practice::Display::InchFractions;
  const std::size_t sign = text.find_first_not_of(' ');
  if (sign != std::string_view::npos && text[sign] == '+') {
    text.remove_prefix(sign + 1);
    if (text.starts_with('-')) return std::nullopt;  // "+-5" is no figure
  }
  return exchange::lengthIn(text, {inches ? exchange::LengthUnit::Inches : exchange::LengthUnit::Millimetres});
}

using job::Form;

bool isList(Form form) {  // spelt in square brackets
  return form == Form::Numbers || form == Form::Texts || form == Form::Words || form == Form::Pair ||
         form == Form::Outline;
}

bool isText(Form form) {  // spelt in quotes
  return form == Form::Text || form == Form::Word || form == Form::Texts || form == Form::Words;
}

/// One value without its quotes, a length in the unit that is shown.
std::string shownPiece(const job::Holds& holds, const std::string& spelled, practice::Display display) {
  if (isText(holds.form) && spelled.starts_with('"')) {
    std::string shown;  // a backslash makes the next character a plain one
    for (std::size_t i = 1; i + 1 < spelled.size(); ++i) shown += spelled[spelled[i] == '\\' ? ++i : i];
    return shown;
  }
  if (holds.form == Form::Truth) return spelled == "true" ? "yes" : "no";
  const auto number = exchange::numberIn(spelled, false);
  return number && holds.unit == "mm" ? words::figure(*number, display) : spelled;
}

std::string spelledPiece(const job::Holds& holds, const std::string& typed, practice::Display display) {
  if (holds.form == Form::Truth) {
    const auto said = exchange::yesOrNoIn(typed);
    return said ? (*said ? "true" : "false") : typed;
  }
  if (isText(holds.form) && !typed.starts_with('{')) {  // a table in braces is typed as the file has it
    std::string quoted = "\"";
    for (const char c : typed) quoted += c == '"' || c == '\\' ? std::string{'\\', c} : std::string{c};
    return quoted + "\"";
  }
  if (holds.unit != "mm") return typed;  // a number that has no unit, or another's
  const ParsedReading parsed = parseLength({}, {.form = Form::Number, .from = -1e9, .to = 1e9}, typed, display);
  return parsed.value ? job::toText(*parsed.value) : typed;  // bounds and what can't be told are the reader's to refuse
}

}  // namespace

void moveCorner(job::Measured& measured, const plan::OpeningShape& shape, plan::Corner corner, plan::Point by) {
  plan::OpeningShape moved = shape;  // what two shapes read tells how each reading follows
  plan::Point& at = moved.corner[static_cast<std::size_t>(corner)];
  at = {at.x + by.x, at.z + by.z};
  const auto before = plan::nineReadings(shape);
  const auto after = plan::nineReadings(moved);
  const auto change = [&](plan::Reading reading) {
    const auto index = static_cast<std::size_t>(reading);
    return after[index] - before[index];
  };
  const auto follow = [&](TapeReading reading, double by_mm) {
    std::optional<double>& value = placeOf(measured, reading);
    if (!value || by_mm == 0) return;  // one that the corner has no part in keeps its digits
    const job::Holds& bounds = boundsOf(reading);
    value = std::clamp(std::round((*value + by_mm) * 10) / 10, bounds.from, bounds.to);
  };
  using R = plan::Reading;
  for (std::size_t i = 0; i < plan::kReadings; ++i) {
    const auto reading = static_cast<R>(i);
    follow(plan::tapeReadingOf(reading), change(reading));
  }
  follow(TapeReading::WidthMiddle, (change(R::WidthBottom) + change(R::WidthTop)) / 2);
  follow(TapeReading::HeightMiddle, (change(R::HeightLeft) + change(R::HeightRight)) / 2);
}

ParsedReading parseReading(TapeReading reading, std::string_view text, practice::Display display) {
  return parseLength(infoOf(reading).name, boundsOf(reading), text, display);
}

ParsedReading parseLength(std::string_view length, const job::Holds& bounds, std::string_view text,
                          practice::Display display) {
  if (text.find_first_not_of(' ') == std::string_view::npos) return {true, {}, {}};
  const std::string name{length};
  const auto value = lengthOf(text, display);
  if (!value) return {false, {}, "\"" + std::string(text) + "\" is no length: type " + name + " " + howToType(display)};
  if (*value < bounds.from || *value > bounds.to)
    return {false, {}, name + " must be " + boundsWords(bounds, display) + ", not " + words::length(*value, display)};
  // Inches in binary have more digits than they mean: 48 5/8 would be written as 1235.0749999999998.
  return {true, std::round(*value * 1e4) / 1e4, {}};
}

std::string boundsWords(const job::Holds& bounds, practice::Display display) {
  return "from " + words::figure(bounds.from, display) + " to " + words::length(bounds.to, display);
}

const char* howToType(practice::Display display) {
  return display == practice::Display::Millimetres ? "in mm, or in inches with \"" : "in inches (60 1/4), or with mm";
}

bool isReadingCharacter(char32_t character) {
  return std::u32string_view(U"0123456789.,-−+/\"'m ").find(character) != std::u32string_view::npos;
}

bool typeFigure(std::string& figure, const InputStep& step) {
  constexpr std::size_t kLongest = 24;  // longer than any length is written
  bool typed = false;
  for (const char32_t character : step.typed) {
    if (step.isControl() || !isReadingCharacter(character) || figure.size() >= kLongest) continue;
    figure += character == U'−' ? '-' : static_cast<char>(character);
    typed = true;
  }
  if (step.wentDown(Key::Backspace) && !figure.empty()) {
    figure.pop_back();
    typed = true;
  }
  return typed;
}

std::string figure(double mm, practice::Display display) { return withMinus(words::bareLength(mm, display)); }

std::string withMinus(std::string number) {
  if (number.starts_with('-')) number.replace(0, 1, "−");
  return number;
}

std::string sentenceFor(check::Verdict verdict, check::Basis basis, const std::vector<check::Finding>& findings) {
  if (verdict == check::Verdict::Ready) {
    return basis == check::Basis::Planned ? "nothing against it so far: measure before it is set"
                                          : "nothing against setting it";
  }
  const bool stops = verdict == check::Verdict::Stop;
  const check::Severity severity = stops ? check::Severity::Stop : check::Severity::Attend;
  const auto counts = [&](const check::Finding& finding) { return finding.severity == severity; };
  return words::count(std::count_if(findings.begin(), findings.end(), counts), "thing") +
         (stops ? " to put right before it can be set" : " to see to before it is set");
}

std::vector<const check::Finding*> troublesOf(const std::vector<check::Finding>& findings) {
  std::vector<const check::Finding*> troubles;
  for (const check::Severity severity : {check::Severity::Stop, check::Severity::Attend}) {
    for (const check::Finding& each : findings) {
      if (each.severity == severity) troubles.push_back(&each);
    }
  }
  return troubles;
}

std::string wordFor(scene::Layer layer, const practice::Words& words) {
  using practice::Words;
  struct Word {
    const char* plain;
    std::string Words::*own = nullptr;  ///< The practice's, where it has one.
    const char* after = "";
  };
  constexpr std::array<Word, scene::kLayers> kWords{{{"eave"},
                                                     {"cladding", &Words::cladding},
                                                     {"battens"},
                                                     {"units"},
                                                     {"flashings", &Words::flashing, "s"},
                                                     {"membrane", &Words::membrane},
                                                     {"screws"},
                                                     {"packers", &Words::packer, "s"},
                                                     {"timber frame"},
                                                     {"lining", &Words::lining},
                                                     {"floor"}}};
  const Word& word = kWords[static_cast<std::size_t>(layer)];
  const bool plain = word.own == nullptr || (words.*word.own).empty();
  return plain ? word.plain : words.*word.own + word.after;
}

static_assert(kLayerKeys.size() == scene::kLayers);

std::string labelOf(const job::KeyPlace& place, const practice::Words& words) {
  if (place.table == job::TableKind::Measured) return "measured with";  // its field is among the readings
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
  const std::string_view inner = std::string_view(key.text).substr(1, key.text.size() - 2);  // without its brackets
  const auto shown = [&](std::string_view each) { return shownPiece(holds, exchange::saidIn(each), display); };
  const std::vector<std::string_view> pieces = exchange::splitAt(inner, ",");
  const auto torn = [](std::string_view piece) { return std::count(piece.begin(), piece.end(), '"') % 2 != 0; };
  if (std::any_of(pieces.begin(), pieces.end(), torn)) return key.text;  // a comma within a name: as the file says it
  return base::joined(pieces, ", ", shown);
}

std::string spelledText(const job::KeyRule& rule, const std::string& typed, practice::Display display) {
  if (exchange::saidIn(typed).empty()) return {};  // nothing typed leaves the key out
  if (!isList(rule.holds.form) || typed.starts_with('[')) return spelledPiece(rule.holds, typed, display);
  const auto spelled = [&](std::string_view each) { return spelledPiece(rule.holds, exchange::saidIn(each), display); };
  return "[" + base::joined(exchange::splitAt(typed, ","), ", ", spelled) + "]";
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
