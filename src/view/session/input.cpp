#include "view/session/input.h"

#include <imgui.h>

#include <algorithm>
#include <array>
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

/// Our keys that the panel library has names for.
struct KeyName {
  Key ours;
  ImGuiKey theirs;
};
#if IMGUI_VERSION_NUM >= 18700
constexpr ImGuiKey kTheirKeypadEnter = ImGuiKey_KeypadEnter;
#else
constexpr ImGuiKey kTheirKeypadEnter = ImGuiKey_KeyPadEnter;
#endif
constexpr std::array kKeyNames{
    KeyName{Key::Tab, ImGuiKey_Tab},
    KeyName{Key::Left, ImGuiKey_LeftArrow},
    KeyName{Key::Right, ImGuiKey_RightArrow},
    KeyName{Key::Up, ImGuiKey_UpArrow},
    KeyName{Key::Down, ImGuiKey_DownArrow},
    KeyName{Key::PageUp, ImGuiKey_PageUp},
    KeyName{Key::PageDown, ImGuiKey_PageDown},
    KeyName{Key::Home, ImGuiKey_Home},
    KeyName{Key::End, ImGuiKey_End},
    KeyName{Key::Insert, ImGuiKey_Insert},
    KeyName{Key::Delete, ImGuiKey_Delete},
    KeyName{Key::Backspace, ImGuiKey_Backspace},
    KeyName{Key::Space, ImGuiKey_Space},
    KeyName{Key::Enter, ImGuiKey_Enter},
    KeyName{Key::Escape, ImGuiKey_Escape},
    KeyName{Key::KeypadEnter, kTheirKeypadEnter},
    KeyName{Key::A, ImGuiKey_A},
    KeyName{Key::C, ImGuiKey_C},
    KeyName{Key::V, ImGuiKey_V},
    KeyName{Key::X, ImGuiKey_X},
    KeyName{Key::Y, ImGuiKey_Y},
    KeyName{Key::Z, ImGuiKey_Z},
};

int indexOf(Button button) {
  constexpr std::array kIndex{0, 1, 2};  // left, right, middle: the panel library counts them so
  return kIndex[static_cast<std::size_t>(button)];
}

}  // namespace

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

#if IMGUI_VERSION_NUM >= 18700

void mapKeys(ImGuiIO& io) {
  io.ConfigInputTrickleEventQueue = false;
}  // our own rule is the stricter one

void apply(const InputStep& step, ImGuiIO& io) {
  if (step.held) {
    io.AddKeyEvent(ImGuiMod_Ctrl, step.held->ctrl);
    io.AddKeyEvent(ImGuiMod_Shift, step.held->shift);
    io.AddKeyEvent(ImGuiMod_Alt, step.held->alt);
    io.AddKeyEvent(ImGuiMod_Super, step.held->super);
  }
  if (step.moved) io.AddMousePosEvent(step.moved->x, step.moved->y);
  if (step.button) io.AddMouseButtonEvent(indexOf(step.button->button), step.button->down);
  if (step.wheel) io.AddMouseWheelEvent(step.wheel->x, step.wheel->y);
  for (const KeyChanged& change : step.keys) {
    const auto name = std::find_if(kKeyNames.begin(), kKeyNames.end(),
                                   [&](const KeyName& known) { return known.ours == change.key; });
    if (name != kKeyNames.end()) io.AddKeyEvent(name->theirs, change.down);
  }
  for (const char32_t character : step.typed) io.AddInputCharacter(static_cast<unsigned>(character));
  if (step.focus) io.AddFocusEvent(step.focus->focused);
}

#else

void mapKeys(ImGuiIO& io) {
  for (const KeyName& name : kKeyNames) io.KeyMap[name.theirs] = static_cast<int>(name.ours);
}

void apply(const InputStep& step, ImGuiIO& io) {
  if (step.held) {
    io.KeyCtrl = step.held->ctrl;
    io.KeyShift = step.held->shift;
    io.KeyAlt = step.held->alt;
    io.KeySuper = step.held->super;
  }
  if (step.moved) io.MousePos = ImVec2(step.moved->x, step.moved->y);
  if (step.button) io.MouseDown[indexOf(step.button->button)] = step.button->down;
  io.MouseWheel = step.wheel ? step.wheel->y : 0.0F;
  io.MouseWheelH = step.wheel ? step.wheel->x : 0.0F;
  for (const KeyChanged& change : step.keys) io.KeysDown[static_cast<std::size_t>(change.key)] = change.down;
  for (const char32_t character : step.typed) io.AddInputCharacter(static_cast<unsigned>(character));
  if (step.focus) io.AddFocusEvent(step.focus->focused);
}

#endif

}  // namespace sillwright::view
