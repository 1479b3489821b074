/// Input as a queue of events, and how many of them one frame may take.
///
/// A person's press and release can arrive between two frames of a slow machine; a panel library that looks at the
/// state once a frame would miss them or see them in the wrong place. So every event is kept in order, and a frame
/// takes only as many as can't be mixed up (`takeStep`). Nothing here needs a window: tests push events by hand.
///
/// Positions in pixels from the window's top left.
#pragma once

#include <cstdint>
#include <optional>
#include <queue>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace sillwright::view {

/// Keys that have a meaning here; letters and digits for use with Ctrl. Typed text comes as Typed instead, so that it
/// follows the person's keyboard layout. Numbered as the window library numbers a US keyboard, letters and figures by
/// their ASCII capitals; others that are pressed are numbers without a name. Shift and those after it do nothing alone.
// clang-format off
enum class Key : std::uint16_t {
  Space = 32, Minus = 45,
  Digit0 = 48, Digit1, Digit2, Digit3, Digit4, Digit5, Digit6, Digit7, Digit8, Digit9, Plus = 61,
  A = 65, B, C, D, E, F, G, H, I, J, K, L, M, N, O, P, Q, R, S, T, U, V, W, X, Y, Z,
  Escape = 256, Enter, Tab, Backspace, Insert, Delete, Right, Left, Down, Up, PageUp, PageDown,
  F1 = 290, F2, F5 = 294, F9 = 298, F11 = 300, KeypadEnter = 335, Shift = 340, Ctrl, Alt, Super
};
// clang-format on

/// The key under a finger, as the keyboard's layout marks it. `physical` is what stands there on a US keyboard, `mark`
/// what this layout has there (UTF-8; empty where the key types nothing). A letter, a figure, + or − is the key so
/// marked; another ASCII sign is none of ours. A mark beyond ASCII (Cyrillic, Greek, an accent) leaves the physical
/// key, or such a keyboard would have no shortcuts.
[[nodiscard]] std::optional<Key> keyMarked(std::optional<Key> physical, std::string_view mark);

/// Which modifiers were held when an event happened.
struct Modifiers {
  bool ctrl = false;
  bool shift = false;
  bool alt = false;
  bool super = false;
  bool operator==(const Modifiers&) const = default;
};

enum class Button : std::uint8_t { Left, Right, Middle };  ///< As the window's and the panels' libraries count them.

struct Moved {
  float x = 0.0F;
  float y = 0.0F;
};
struct ButtonChanged {
  Button button = Button::Left;
  bool down = false;
  Modifiers held;
};
/// One notch of a usual wheel is 1; y + is away from the hand.
struct Wheeled {
  float x = 0.0F;
  float y = 0.0F;
};
struct KeyChanged {
  Key key = Key::Tab;
  bool down = false;
  Modifiers held;
};
/// A character as the keyboard's layout makes it.
struct Typed {
  char32_t character = 0;
};
struct Focused {
  bool focused = false;
};
/// A file was let go over the window.
struct Dropped {
  std::string file;
};
using Event = std::variant<Moved, ButtonChanged, Wheeled, KeyChanged, Typed, Focused, Dropped>;

/// What one frame takes from the queue.
struct InputStep {
  std::optional<Moved> moved;  ///< The last of the moves.
  std::optional<ButtonChanged> button;
  std::optional<Wheeled> wheel;  ///< The sum of the notches.
  std::vector<KeyChanged> keys;
  std::u32string typed;
  std::optional<Focused> focus;
  std::optional<Dropped> dropped;
  std::optional<Modifiers> held;  ///< Of the last event that tells.

  [[nodiscard]] bool empty() const {
    return !moved && !button && !wheel && keys.empty() && typed.empty() && !focus && !dropped;
  }
  /// Whether either Enter went down.
  [[nodiscard]] bool enter() const { return wentDown(Key::Enter) || wentDown(Key::KeypadEnter); }
  /// Whether what is typed is no text: with Ctrl, Alt or the like.
  [[nodiscard]] bool isControl() const { return held && (held->ctrl || held->alt || held->super); }
  /// Whether the key went down in this step, with the modifiers then held.
  [[nodiscard]] std::optional<Modifiers> wentDown(Key key) const;
};

using InputQueue = std::queue<Event>;

/// Takes the longest run of events that is safe in one frame. It ends before
/// (a) a second change of a button,
/// (b) a button after a move, or a move after a button, the wheel, a key or a character,
/// (c) a second change of one key,
/// (d) a character after a key that changes or leaves a text,
/// and a change of focus, or a dropped file, has a frame of its own. Moves are merged into the last one, notches
/// summed.
[[nodiscard]] InputStep takeStep(InputQueue& events);

}  // namespace sillwright::view
