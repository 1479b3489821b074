/// A viewer without a window for tests: events in, frames of a sixtieth of a second, pictures out.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>

#include "render/offscreen.h"
#include "scene/pick.h"
#include "view/window/frame.h"

namespace sillwright::tests {

/// `name` of the demo jobs, without folder and ending.
[[nodiscard]] std::filesystem::path demoJob(const std::string& name);

class Session {
 public:
  explicit Session(const std::filesystem::path& job, int width = 1280, int height = 800, float text_scale = 1.0F);

  /// Draws for as long as there is anything to draw, as the window does. Answers the number of frames.
  int settle();

  void move(float x, float y) { app.input.push(view::Moved{x, y}); }
  void press(view::Button button, view::Modifiers held = {}) {
    app.input.push(view::ButtonChanged{button, true, held});
  }
  void release(view::Button button) { app.input.push(view::ButtonChanged{button, false, {}}); }
  void click(float x, float y);
  void drag(view::Button button, ImVec2 from, ImVec2 to, view::Modifiers held = {});
  void wheel(float notches) { app.input.push(view::Wheeled{0.0F, notches}); }
  void key(view::Key key, view::Modifiers held = {});
  void type(char32_t character) { app.input.push(view::Typed{character}); }
  /// Types a text of ASCII, and draws what comes of it.
  void write(const std::string& text);
  /// The item of that name in the last frame; null where there is none.
  [[nodiscard]] const view::Item* item(std::string_view name) const;
  /// Clicks the middle of the item of that name; false where there is none.
  bool clickItem(std::string_view name);

  [[nodiscard]] render::Image picture();
  [[nodiscard]] std::int32_t opening(std::string_view name) const;
  /// A pixel under which the first visible thing is of that kind; throws where there is none.
  [[nodiscard]] ImVec2 pixelOn(scene::PartKind kind) const;
  [[nodiscard]] std::optional<scene::Hit> hit(ImVec2 pixel) const;
  /// Where a point of the world is in the picture.
  [[nodiscard]] ImVec2 project(glm::vec3 world) const;

 private:
  render::Offscreen context_;

 public:
  view::App app;
  view::Stage stage;
  view::Screen screen;
};

}  // namespace sillwright::tests
