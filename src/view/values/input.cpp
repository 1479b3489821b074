#include "view/values/input.h"

#include <algorithm>
#include <utility>

namespace sillwright::view {
namespace {

/// Keys that change a text or leave it: what is typed after them is for the next frame.
bool endsTyping(Key key) {
  return key == Key::Tab || key == Key::Enter || key == Key::KeypadEnter || key == Key::Escape ||
         key == Key::Backspace || key == Key::Delete || key == Key::Up || key == Key::Down;
}

/// Adds events to a step for as long as the rules allow. Each `take` answers false where the event must wait.
class StepBuilder {
 public:
  bool take(const Moved& event) {
    if (step_.button || step_.wheel || !step_.keys.empty() || !step_.typed.empty()) return false;
    step_.moved = event;
    return true;
  }
  bool take(const ButtonChanged& event) {
    if (step_.button || step_.moved) return false;
    step_.button = event;
    step_.held = event.held;
    return true;
  }
  bool take(const Wheeled& event) {
    if (!step_.wheel) step_.wheel = Wheeled{};
    step_.wheel->x += event.x;
    step_.wheel->y += event.y;
    step_.wheel->held = event.held;
    step_.held = event.held;
    return true;
  }
  bool take(const KeyChanged& event) {
    const bool changed = std::any_of(step_.keys.begin(), step_.keys.end(),
                                     [&](const KeyChanged& earlier) { return earlier.key == event.key; });
    if (changed) return false;
    step_.keys.push_back(event);
    step_.held = event.held;
    return true;
  }
  bool take(const Typed& event) {
    const bool too_late = std::any_of(step_.keys.begin(), step_.keys.end(), [](const KeyChanged& earlier) {
      return earlier.down && endsTyping(earlier.key);
    });
    if (too_late) return false;
    step_.typed.push_back(event.character);
    return true;
  }
  bool take(const Focused& event) {
    if (!step_.empty()) return false;
    step_.focus = event;
    return true;
  }
  bool take(const Dropped& event) {
    if (!step_.empty()) return false;
    step_.dropped = event;
    return true;
  }

  [[nodiscard]] bool full() const { return step_.focus.has_value() || step_.dropped.has_value(); }
  [[nodiscard]] InputStep done() { return std::move(step_); }

 private:
  InputStep step_;
};

}  // namespace

std::optional<Key> keyMarked(std::optional<Key> physical, std::string_view mark) {
  if (mark.empty() || static_cast<unsigned char>(mark.front()) >= 0x80) return physical;
  const auto from = [](Key first, int steps) { return static_cast<Key>(static_cast<int>(first) + steps); };
  const char sign = mark.front();
  if (sign >= 'a' && sign <= 'z') return from(Key::A, sign - 'a');
  if (sign >= 'A' && sign <= 'Z') return from(Key::A, sign - 'A');
  if (sign >= '0' && sign <= '9') return from(Key::Digit0, sign - '0');
  if (sign == '-') return Key::Minus;
  if (sign == '+' || sign == '=') return Key::Plus;
  return std::nullopt;
}

std::optional<Modifiers> InputStep::wentDown(Key key) const {
  for (const KeyChanged& change : keys) {
    if (change.key == key && change.down) return change.held;
  }
  return std::nullopt;
}

InputStep InputQueue::takeStep() {
  StepBuilder builder;
  while (!events_.empty() && !builder.full()) {
    if (!std::visit([&](const auto& event) { return builder.take(event); }, events_.front())) break;
    events_.pop_front();
  }
  return builder.done();
}

}  // namespace sillwright::view
