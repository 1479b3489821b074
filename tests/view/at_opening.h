/// A viewer that stands before a picked opening, with its handles.
#pragma once

#include <stdexcept>
#include <string>

#include "session.h"

namespace sillwright::tests {

/// The panel library takes the pointer on whole pixels; one is about so many millimetres here.
inline constexpr double kPixel = 2.6;

struct AtOpening : Session {
  explicit AtOpening(const std::string& job = "boatshed", const std::string& name = "J2")
      : Session(demoJob(job)), index(static_cast<std::size_t>(opening(name))) {
    view::grant(app, view::PickOpening{static_cast<std::int32_t>(index), true});
    view::disturb(app);
    settle();
  }
  std::size_t index;

  [[nodiscard]] const job::Opening& at() const { return app.document->job.openings[index]; }
  [[nodiscard]] ImVec2 handle(view::DimensionKind kind) const {
    for (const view::Handle& each : app.pointed.handles) {
      if (!each.corner && each.dimensions.front().kind == kind) return project(each.at);
    }
    throw std::runtime_error("no such handle");
  }
  /// Pixels that so many millimetres along the wall, and up it, make at a handle.
  [[nodiscard]] ImVec2 pixels(view::DimensionKind kind, float along, float up) const {
    for (const view::Handle& each : app.pointed.handles) {
      if (each.corner || each.dimensions.front().kind != kind) continue;
      const auto& wall = app.document->scene.walls[at().wall];
      const ImVec2 from = project(each.at);
      const ImVec2 to = project(each.at + wall.along * along + glm::vec3(0, 0, up));
      return {to.x - from.x, to.y - from.y};
    }
    throw std::runtime_error("no such handle");
  }
  void pull(view::DimensionKind kind, float along, float up, view::Modifiers held = {}) {
    const ImVec2 from = handle(kind);
    const ImVec2 by = pixels(kind, along, up);
    drag(view::Button::Left, from, {from.x + by.x, from.y + by.y}, held);
  }
};

}  // namespace sillwright::tests
