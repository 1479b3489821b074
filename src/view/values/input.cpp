#include "view/values/input.h"

#include <algorithm>
#include <cctype>

namespace sillwright::view {
namespace {

/// Keys that change a text or leave it: what is typed after them is for the next frame.
bool endsTyping(Key key) {
  return key == Key::Tab || key == Key::Enter || key == Key::KeypadEnter || key == Key::Escape ||
         key == Key::Backspace || key == Key::Delete || key == Key::Up || key == Key::Down;
}

// Each `take` adds an event to a step for as long as the rules allow; false: the event must wait.

bool take(InputStep& step, const Moved& event) {
  if (step.button || step.wheel || !step.keys.empty() || !step.typed.empty()) return false;  // rule (b) of takeStep
  step.moved = event;
  return true;
}

bool take(InputStep& step, const ButtonChanged& event) {
  if (step.button || step.moved) return false;  // (a) and (b)
  step.button = event;
  step.held = event.held;
  return true;
}

bool take(InputStep& step, const Wheeled& event) {
  const Wheeled before = step.wheel.value_or(Wheeled{});
  step.wheel = Wheeled{before.x + event.x, before.y + event.y};
  return true;
}

bool take(InputStep& step, const KeyChanged& event) {
  const auto isSame = [&](const KeyChanged& earlier) { return earlier.key == event.key; };
  if (std::any_of(step.keys.begin(), step.keys.end(), isSame)) return false;  // (c)
  step.keys.push_back(event);
  step.held = event.held;
  return true;
}

bool take(InputStep& step, const Typed& event) {
  const auto ends = [](const KeyChanged& earlier) { return earlier.down && endsTyping(earlier.key); };
  if (std::any_of(step.keys.begin(), step.keys.end(), ends)) return false;  // (d)
  step.typed.push_back(event.character);
  return true;
}

/// A change of focus and a dropped file are alone in their step.
template <class Alone>
bool takeAlone(const InputStep& step, std::optional<Alone>& place, const Alone& event) {
  if (step.empty()) place = event;  // else it waits
  return place.has_value();
}
bool take(InputStep& step, const Focused& event) { return takeAlone(step, step.focus, event); }
bool take(InputStep& step, const Dropped& event) { return takeAlone(step, step.dropped, event); }

}  // namespace

std::optional<Key> keyMarked(std::optional<Key> physical, std::string_view mark) {
  const auto sign = static_cast<unsigned char>(mark.empty() ? '\x80' : mark.front());
  if (sign >= 0x80) return physical;  // a mark beyond ASCII, or none
  if (std::isalnum(sign) != 0) return static_cast<Key>(std::toupper(sign));
  if (sign == '-') return Key::Minus;
  if (sign == '+' || sign == '=') return Key::Plus;  // on a US keyboard they are one key
  return std::nullopt;
}

std::optional<Modifiers> InputStep::wentDown(Key key) const {
  for (const KeyChanged& change : keys) {
    if (change.key == key && change.down) return change.held;
  }
  return std::nullopt;
}

InputStep takeStep(InputQueue& events) {
  InputStep step;
  const auto taken = [&](const auto& event) { return take(step, event); };
  while (!events.empty() && !step.focus && !step.dropped && std::visit(taken, events.front())) events.pop();
  return step;
}

}  // namespace sillwright::view
