// Typing into a field of the sheet, by keys alone.

#include <algorithm>
#include <utility>

#include "view/app.h"
#include "view/words.h"

namespace sillwright::view {
namespace {

std::optional<TapeReading> fieldInFocus(const Focus& focus) {
  if (focus.at == 0) return std::nullopt;
  const auto here =
      std::find_if(focus.items.begin(), focus.items.end(), [&](const Item& item) { return item.id == focus.at; });
  if (here == focus.items.end() || here->field < 0) return std::nullopt;
  return static_cast<TapeReading>(here->field);
}

/// The text that editing starts from: the figure as it is shown.
std::string shownText(const App& app, TapeReading reading) {
  const auto opening = static_cast<std::size_t>(app.shown.opening);
  const auto value = valueOf(app.document->job.openings[opening].measured, reading);
  return value ? figure(*value, app.document->practice->display) : std::string{};
}

/// The field's text, begun where there is none.
std::string& textOf(App& app, TapeReading reading, const std::string& first) {
  const auto opening = static_cast<std::size_t>(app.shown.opening);
  if (!app.typing.field || app.typing.field->reading != reading || app.typing.field->opening != opening) {
    app.typing.field = Typing::Field{opening, reading, first};
  }
  app.typing.refusal.reset();
  return app.typing.field->text;
}

void dropLast(std::string& text) {
  while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0U) == 0x80U) text.pop_back();
  if (!text.empty()) text.pop_back();
}

void typeInto(App& app, TapeReading reading, const InputStep& step) {
  constexpr std::size_t kLongest = 24;
  for (const char32_t character : step.typed) {
    if (!isReadingCharacter(character)) continue;
    std::string& text = textOf(app, reading, "");
    if (text.size() < kLongest) text += character == U'−' ? '-' : static_cast<char>(character);
  }
  if (step.wentDown(Key::Backspace)) dropLast(textOf(app, reading, shownText(app, reading)));
  if (step.wentDown(Key::Delete)) textOf(app, reading, "").clear();
}

/// −1: back, 1: on, 0: stay. Where to go once the text is taken in.
int wayOut(const InputStep& step, bool typing) {
  if (const auto held = step.wentDown(Key::Tab)) return held->shift ? -1 : 1;
  if (step.wentDown(Key::Enter) || step.wentDown(Key::KeypadEnter) || step.wentDown(Key::Down)) return 1;
  if (step.wentDown(Key::Up)) return -1;
  if (typing) return 0;  // the arrows across belong to the text while there is one
  if (step.wentDown(Key::Right)) return 1;
  return step.wentDown(Key::Left) ? -1 : 0;
}

}  // namespace

bool takeField(App& app) {
  if (!app.typing.field) return true;
  const Typing::Field field = *app.typing.field;
  const ParsedReading parsed = parseReading(field.reading, field.text);
  if (!parsed.good) {
    app.typing.refusal = Typing::Refusal{field.opening, field.reading, parsed.refusal};
    return false;
  }
  app.typing.field.reset();
  app.typing.refusal.reset();
  if (valueOf(app.document->job.openings[field.opening].measured, field.reading) != parsed.value) {
    grant(app, TypeReading{field.opening, field.reading, parsed.value});
  }
  return true;
}

bool followField(App& app, const InputStep& step) {
  if (!app.document || app.shown.opening < 0) return false;
  const auto reading = fieldInFocus(app.focus);
  if (!reading) return false;
  const bool with_control = step.held && (step.held->ctrl || step.held->alt || step.held->super);
  if (step.wentDown(Key::Escape) && app.typing.field) {
    app.typing.field.reset();
    app.typing.refusal.reset();
    return true;
  }
  if (step.wentDown(Key::Escape)) return false;
  if (!with_control) typeInto(app, *reading, step);
  const int way = wayOut(step, app.typing.field.has_value());
  if (way != 0 && takeField(app)) app.focus.step(way < 0);
  return true;
}

void leaveField(App& app) {
  if (!app.typing.field) return;
  const bool same = app.shown.opening == static_cast<std::int32_t>(app.typing.field->opening) &&
                    fieldInFocus(app.focus) == app.typing.field->reading;
  if (same || takeField(app)) return;
  app.typing.field.reset();  // refused: the reading stays what it was, and the reason is shown
}

}  // namespace sillwright::view
