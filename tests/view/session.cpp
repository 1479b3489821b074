#include "session.h"

#include <chrono>
#include <stdexcept>
#include <thread>

#include "scene/pick.h"
#include "support/assets.h"

namespace sillwright::tests {

std::filesystem::path demoJob(const std::string& name) {
  return std::filesystem::path(assets()) / "jobs" / (name + ".toml");
}

Session::Session(const std::filesystem::path& job, int width, int height, float text_scale)
    : app(view::open(job, assets())), screen{width, height, 1.0F} {
  app.eye.instant = true;
  app.shown.text_scale = text_scale;
  settle();
}

int Session::settle() {
  constexpr int kTooMany = 200;
  int frames = 0;
  while (view::isUnsettled(app, stage)) {
    if (view::isOnlyWorking(app, stage)) {  // as the window does: it waits a little, and draws how far it has come
      std::this_thread::sleep_for(std::chrono::milliseconds(5));
      view::frame(app, stage, screen, 0.005F);
      continue;
    }
    view::frame(app, stage, screen, 1.0F / 60.0F);
    if (++frames > kTooMany) throw std::runtime_error("the viewer does not come to rest");
    view::keepInTime(app, !view::isUnsettled(app, stage));
  }
  return frames;
}

void Session::click(float x, float y) {
  move(x, y);
  press(view::Button::Left);
  release(view::Button::Left);
  settle();
}

void Session::drag(view::Button button, ImVec2 from, ImVec2 to, view::Modifiers held) {
  constexpr int kSteps = 7;
  move(from.x, from.y);
  press(button, held);
  for (int i = 1; i <= kSteps; ++i) {
    const float t = static_cast<float>(i) / static_cast<float>(kSteps);
    move(from.x + (to.x - from.x) * t, from.y + (to.y - from.y) * t);
    view::frame(app, stage, screen, 1.0F / 60.0F);
  }
  settle();
  release(button);
  settle();
}

void Session::key(view::Key key, view::Modifiers held) {
  app.input.push(view::KeyChanged{key, true, held});
  app.input.push(view::KeyChanged{key, false, held});
  settle();
}

void Session::write(const std::string& text) {
  for (const char c : text) type(static_cast<char32_t>(c));
  settle();
}

const view::Item* Session::item(std::string_view name) const {
  const auto& items = app.focus.items;
  const auto found = std::find_if(items.begin(), items.end(), [&](const view::Item& one) { return one.name == name; });
  return found == items.end() ? nullptr : &*found;
}

bool Session::clickItem(std::string_view name) {
  const view::Item* item = this->item(name);
  if (item == nullptr) return false;
  click((item->low.x + item->high.x) * 0.5F, (item->low.y + item->high.y) * 0.5F);
  return true;
}

render::Image Session::picture() { return {screen.width, screen.height, stage.target().read()}; }

std::int32_t Session::opening(std::string_view name) const {
  const auto& openings = app.document->job.openings;
  for (std::size_t i = 0; i < openings.size(); ++i) {
    if (openings[i].name == name) return static_cast<std::int32_t>(i);
  }
  throw std::runtime_error("no such opening in the demo job");
}

std::optional<scene::Hit> Session::hit(ImVec2 pixel) const {
  const render::Ray ray = render::rayThrough(app.shown.camera, pixel.x, pixel.y, static_cast<float>(screen.width),
                                             static_cast<float>(screen.height));
  return scene::Rays(view::seenScene(app), render::shownUnder(app.shown.look)).pick(ray.from, ray.direction);
}

ImVec2 Session::pixelOn(scene::PartKind kind) const {
  const view::Canvas& canvas = app.layout.canvas;
  for (float y = canvas.top + 5.0F; y < canvas.height - canvas.bottom; y += 7.0F) {
    for (float x = canvas.left + 5.0F; x < canvas.width - canvas.right; x += 7.0F) {
      const auto found = hit({x, y});
      if (found && app.document->scene.parts[found->part].kind == kind) return {x, y};
    }
  }
  throw std::runtime_error("no part of that kind in sight");
}

ImVec2 Session::project(glm::vec3 world) const {
  const glm::vec3 seen =
      render::project(app.shown.camera, world, static_cast<float>(screen.width), static_cast<float>(screen.height));
  return {seen.x, seen.y};
}

}  // namespace sillwright::tests
