#include "view/values/input.h"
#include "view/window/frame.h"

#include <imgui.h>

#include <algorithm>
#include <random>
#include <vector>

#include "support/catch.h"

using namespace sillwright::view;

namespace {

std::vector<InputStep> stepsOf(const std::vector<Event>& events) {
  InputQueue queue;
  for (const Event& event : events) queue.push(event);
  std::vector<InputStep> steps;
  while (!queue.empty()) steps.push_back(takeStep(queue));
  return steps;
}

constexpr ButtonChanged kPress{Button::Left, true, {}};
constexpr ButtonChanged kRelease{Button::Left, false, {}};

/// A context of the panel library without anything to draw on.
class BareContext {
 public:
  BareContext() : context_(ImGui::CreateContext()) {
    ImGui::SetCurrentContext(context_);
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = ImVec2(400.0F, 300.0F);
    unsigned char* pixels = nullptr;
    int width = 0;
    int height = 0;
    io.Fonts->GetTexDataAsRGBA32(&pixels, &width, &height);
    prepare(io);
  }
  ~BareContext() { ImGui::DestroyContext(context_); }
  BareContext(const BareContext&) = delete;
  BareContext& operator=(const BareContext&) = delete;

 private:
  ImGuiContext* context_;
};

/// One frame with one button at (20, 20) … (120, 60).
bool buttonFrame(const InputStep& step) {
  ImGuiIO& io = ImGui::GetIO();
  io.DeltaTime = 1.0F / 60.0F;
  apply(step, io);
  ImGui::NewFrame();
  ImGui::SetNextWindowPos({0.0F, 0.0F});
  ImGui::SetNextWindowSize({400.0F, 300.0F});
  ImGui::Begin("page", nullptr, ImGuiWindowFlags_NoDecoration);
  ImGui::SetCursorScreenPos({20.0F, 20.0F});
  const bool pressed = ImGui::InvisibleButton("it", {100.0F, 40.0F});
  ImGui::End();
  ImGui::Render();
  return pressed;
}

}  // namespace

TEST_CASE("a press and its release never share a frame") {
  const auto steps = stepsOf({kPress, kRelease});
  REQUIRE(steps.size() == 2);
  CHECK(steps[0].button->down);
  CHECK_FALSE(steps[1].button->down);
}

TEST_CASE("a button after a move waits for the next frame") {
  const auto steps = stepsOf({Moved{10.0F, 10.0F}, kPress});
  REQUIRE(steps.size() == 2);
  CHECK(steps[0].moved);
  CHECK_FALSE(steps[0].button);
  CHECK(steps[1].button);
}

TEST_CASE("a move after a button, a wheel, a key or a character waits for the next frame") {
  const Event before =
      GENERATE(Event{kPress}, Event{Wheeled{0.0F, 1.0F}}, Event{KeyChanged{Key::Tab, true, {}}}, Event{Typed{U'o'}});
  const auto steps = stepsOf({before, Moved{1.0F, 2.0F}});
  REQUIRE(steps.size() == 2);
  CHECK_FALSE(steps[0].moved);
  CHECK(steps[1].moved);
}

TEST_CASE("a second change of one key waits, another key does not") {
  const auto one = stepsOf({KeyChanged{Key::A, true, {}}, KeyChanged{Key::A, false, {}}});
  CHECK(one.size() == 2);
  const auto two = stepsOf({KeyChanged{Key::A, true, {}}, KeyChanged{Key::B, true, {}}});
  REQUIRE(two.size() == 1);
  CHECK(two[0].keys.size() == 2);
}

TEST_CASE("moves are merged into the last and notches are summed") {
  const auto moves = stepsOf({Moved{1.0F, 1.0F}, Moved{5.0F, 6.0F}, Moved{9.0F, 2.0F}});
  REQUIRE(moves.size() == 1);
  CHECK(moves[0].moved->x == 9.0F);
  CHECK(moves[0].moved->y == 2.0F);
  const auto notches = stepsOf({Wheeled{0.0F, 1.0F}, Wheeled{0.0F, 1.0F}, Wheeled{0.5F, -0.5F}});
  REQUIRE(notches.size() == 1);
  CHECK(notches[0].wheel->x == 0.5F);
  CHECK(notches[0].wheel->y == 1.5F);
}

TEST_CASE("a change of focus has a frame of its own") {
  const auto steps = stepsOf({KeyChanged{Key::A, true, {}}, Focused{false}, Moved{1.0F, 1.0F}});
  REQUIRE(steps.size() == 3);
  CHECK(steps[1].focus);
  CHECK(steps[1].keys.empty());
}

TEST_CASE("an empty queue gives an empty step") {
  InputQueue queue;
  CHECK(takeStep(queue).empty());
}

TEST_CASE("modifiers are those of the last event that tells them") {
  const auto steps = stepsOf(
      {KeyChanged{Key::Ctrl, true, Modifiers{.ctrl = true}}, KeyChanged{Key::Q, true, Modifiers{.ctrl = true}}});
  REQUIRE(steps.size() == 1);
  CHECK(steps[0].held->ctrl);
  CHECK(steps[0].wentDown(Key::Q)->ctrl);
  CHECK_FALSE(steps[0].wentDown(Key::A));
}

TEST_CASE("any run of events keeps its order and its buttons, keys and characters") {
  std::mt19937_64 random(20260301);
  const auto below = [&](std::uint64_t limit) { return random() % limit; };
  int buttons_seen = 0;
  for (int round = 0; round < 300; ++round) {
    std::vector<Event> events;
    std::vector<bool> buttons;
    std::vector<bool> keys;
    std::u32string typed;
    for (std::uint64_t i = 0; i < 1 + below(40); ++i) {
      switch (below(5)) {
        case 0:
          events.push_back(Moved{static_cast<float>(below(100)), 0.0F});
          break;
        case 1:
          buttons.push_back(below(2) == 0);
          events.push_back(ButtonChanged{Button::Left, buttons.back(), {}});
          break;
        case 2:
          keys.push_back(below(2) == 0);
          events.push_back(KeyChanged{Key::A, keys.back(), {}});
          break;
        case 3:
          typed.push_back(static_cast<char32_t>(U'a' + below(26)));
          events.push_back(Typed{typed.back()});
          break;
        default:
          events.push_back(Wheeled{0.0F, 1.0F});
      }
    }
    std::vector<bool> buttons_out;
    std::vector<bool> keys_out;
    std::u32string typed_out;
    for (const InputStep& step : stepsOf(events)) {
      REQUIRE_FALSE(step.empty());
      const bool joined = step.moved && step.button;
      CHECK_FALSE(joined);
      if (step.button) buttons_out.push_back(step.button->down);
      for (const KeyChanged& change : step.keys) keys_out.push_back(change.down);
      CHECK(step.keys.size() <= 1);
      typed_out += step.typed;
    }
    CHECK(buttons_out == buttons);
    CHECK(keys_out == keys);
    CHECK(typed_out == typed);
    buttons_seen += static_cast<int>(buttons_out.size());
  }
  CHECK(buttons_seen > 300);
}

TEST_CASE("three clicks that arrive at once are three clicks") {
  const BareContext context;
  InputQueue queue;
  queue.push(Moved{60.0F, 40.0F});
  for (int i = 0; i < 3; ++i) {
    queue.push(kPress);
    queue.push(kRelease);
  }
  int clicks = 0;
  buttonFrame({});
  while (!queue.empty()) clicks += buttonFrame(takeStep(queue)) ? 1 : 0;
  CHECK(clicks == 3);
}

TEST_CASE("the same three clicks are lost where they are handed over at once") {
  // What the queue is for: without its rule the panel library sees only the last state.
  const BareContext context;
  buttonFrame({});
  InputStep all;
  all.moved = Moved{60.0F, 40.0F};
  buttonFrame(all);
  InputStep last;
  last.button = kRelease;
  CHECK_FALSE(buttonFrame(last));
}

TEST_CASE("letters with Ctrl follow the keyboard's layout") {
  const auto on = [](Key physical, const char* mark) { return keyMarked(physical, mark); };
  SECTION("QWERTZ: Z and Y have changed places") {
    CHECK(on(Key::Y, "z") == Key::Z);
    CHECK(on(Key::Z, "y") == Key::Y);
    CHECK(on(Key::Minus, "ß") == Key::Minus);
    CHECK(keyMarked(std::nullopt, "+") == Key::Plus);   // right of Ü
    CHECK(keyMarked(std::nullopt, "-") == Key::Minus);  // right of the full stop
    CHECK(on(Key::S, "s") == Key::S);
  }
  SECTION("AZERTY: A and Q, Z and W have changed places; figures lie above accents") {
    CHECK(on(Key::Q, "a") == Key::A);
    CHECK(on(Key::A, "q") == Key::Q);
    CHECK(on(Key::W, "z") == Key::Z);
    CHECK(on(Key::Z, "w") == Key::W);
    CHECK(on(Key::Digit0, "à") == Key::Digit0);
    CHECK(on(Key::Digit6, "-") == Key::Minus);
    CHECK_FALSE(on(Key::M, ","));
  }
  SECTION("a Cyrillic keyboard keeps the physical keys, and keys that type nothing are themselves") {
    CHECK(on(Key::Z, "я") == Key::Z);
    CHECK(on(Key::Escape, "") == Key::Escape);
    CHECK_FALSE(keyMarked(std::nullopt, ""));
  }
}
