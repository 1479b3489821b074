/// Writing into a picture: where the world lands on it, what room is taken, lines and plates that stay readable.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "document/document.h"
#include "scene/pick.h"
#include "view/marks/drawing.h"
#include "view/session/shown.h"

namespace sillwright::view {

/// A plate that was written: what it is about, its words, where. For tests, which can't read pixels.
struct Written {
  std::string about;
  std::string words;
  Rect at;
};

/// One picture's lettering: what is taken, and how the world lands on it.
struct Lettering {
  const Ui& ui;
  ImDrawList& list;
  const document::Document& document;
  const Shown& shown;
  const Canvas& canvas;
  std::vector<Rect> taken;
  std::vector<Written> written;
  ImVec2 origin{0.0F, 0.0F};  ///< Where the picture's upper left corner lies.
  render::Projection projection{shown.camera, canvas.width, canvas.height};
  mutable std::optional<scene::Rays> rays{};  ///< Made for the first one that is asked for.

  [[nodiscard]] std::optional<ImVec2> project(glm::vec3 world) const;
  /// The ends of a line, of which what is cut away is left out; empty where all of it is, or where an end is not seen.
  [[nodiscard]] std::optional<std::array<ImVec2, 2>> projectLine(glm::vec3 a, glm::vec3 b) const;
  /// Whether the cut has taken a place away; what lies in the plane is there.
  [[nodiscard]] bool isCutAway(glm::vec3 world) const {
    constexpr float kInPlane = 1.0F;  // mm
    return shown.look.cut && shown.look.cut->beyond(world) > kInPlane;
  }
  [[nodiscard]] bool isInPicture(ImVec2 at) const;
  /// Whether a part is among what is shown.
  [[nodiscard]] bool isShown(const scene::Part& part) const;
  /// How far a part is moved where layers are pulled apart.
  [[nodiscard]] glm::vec3 shiftOf(const scene::Part& part) const {
    return render::shownUnder(shown.look).shiftOf(document.scene, part);
  }
  /// What a ray through the pixel meets first.
  [[nodiscard]] std::optional<scene::Hit> hitAt(ImVec2 at) const;
  /// Whether another wall stands before a place of a wall that is seen at a pixel.
  [[nodiscard]] bool isBehindOther(std::size_t wall, glm::vec3 place, ImVec2 at) const;
  /// Notes what is written, and keeps its place free from then on.
  void write(std::string about, std::string words, const Rect& at);
  /// Whether there is room for a plate, and no panel covers it.
  [[nodiscard]] bool isFree(const Rect& plate) const;
};

[[nodiscard]] float length(ImVec2 v);
[[nodiscard]] ImVec2 times(ImVec2 v, float factor);

/// A line in dashes of `dash` pixels with `gap` between them.
void drawDashes(ImDrawList& list, ImVec2 from, ImVec2 to, float dash, float gap, ImU32 ink, float thick = 1.0F);
/// A line with an ink of its own over a wider one of paper: readable over timber as over the ground.
void drawInkLine(Lettering& on, ImVec2 a, ImVec2 b);

/// A dimension from a to b, moved `aside` (a direction in the world) by a constant distance on the picture, further out
/// in a further row. One that is seen nearly end on tells nothing and is left out.
void drawDimension(Lettering& on, glm::vec3 a, glm::vec3 b, glm::vec3 aside, const std::string& words, int row = 0);

}  // namespace sillwright::view
