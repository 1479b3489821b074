/// What the viewer draws with: the panels' context, the renderer and the pictures it draws into.
///
/// A picture at rest has four samples a pixel. Where that is too slow to follow a hand, a moving one has one, and is
/// drawn again with four as soon as it rests. A scene that has not changed is not drawn again under changed panels.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>

#include "render/renderer.h"
#include "scene/build/build.h"
#include "view/marks/lens.h"
#include "view/session/shown.h"
#include "view/window/gui.h"

namespace sillwright::view {

class Stage {
 public:
  Stage();  ///< Needs a current OpenGL 3.3 context, for its whole life. Throws as render::Renderer.
  ~Stage();
  Stage(const Stage&) = delete;
  Stage& operator=(const Stage&) = delete;

  [[nodiscard]] Gui& gui() { return gui_; }

  /// Draws a scene (or the bare ground, where there is none) and leaves it ready for the panels. `version` is unlike
  /// for unlike scenes.
  void draw(const scene::Scene* scene, std::uint64_t version, const Shown& shown, int width, int height, bool moving);
  /// A small picture of another scene, for panels to show: `key` is unlike for unlike ones. Leaves the picture that
  /// `draw` made bound, for the panels.
  [[nodiscard]] ImTextureID drawLens(const LensView& lens, std::uint64_t key, int side);
  /// The picture with its panels, after Gui::end().
  [[nodiscard]] render::Target& target() { return *target_; }
  /// Whether the last picture was a quick one and a better one is due.
  [[nodiscard]] bool wantsRefining() const { return quick_; }
  /// How often a scene (not only its panels) was drawn.
  [[nodiscard]] int scenesDrawn() const { return scenes_drawn_; }
  /// Of the scene that was drawn last.
  [[nodiscard]] const render::DrawCounts& counts() const { return counts_; }

 private:
  /// Everything that decides what the scene's picture looks like.
  struct Drawn {
    std::uint64_t version = 0;
    render::Camera camera;
    render::Look look;
    int width = 0;
    int height = 0;
    bool quick = false;
  };
  [[nodiscard]] bool isDrawn(const Drawn& wanted) const;
  void drawScene(const scene::Scene* scene, const Drawn& wanted);

  Gui gui_;
  render::Renderer renderer_;
  std::unique_ptr<render::Target> still_;
  std::unique_ptr<render::Target> quick_target_;
  render::Target* target_ = nullptr;
  std::optional<Drawn> drawn_;
  std::uint64_t uploaded_ = 0;
  std::unique_ptr<render::Renderer> lens_renderer_;
  std::unique_ptr<render::Target> lens_target_;
  std::uint64_t lens_drawn_ = 0;
  double took_seconds_ = 1.0;  ///< The last still picture that was measured; none was at first.
  int unmeasured_ = 0;         ///< Still pictures since then.
  bool quick_ = false;
  int scenes_drawn_ = 0;
  render::DrawCounts counts_;
};

/// Whether two cameras see the same.
[[nodiscard]] bool sameView(const render::Camera& a, const render::Camera& b);

}  // namespace sillwright::view
