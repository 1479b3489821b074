/// One frame of the viewer: input in, panels and marks drawn, wishes granted, a picture out.
///
/// The window calls it when `wantsFrame`; tests call it with events of their own, an off-screen context and a fixed
/// time step.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "render/renderer.h"
#include "scene/scene.h"
#include "view/marks/drawing.h"
#include "view/marks/marks.h"
#include "view/panels/panels.h"
#include "view/session/app.h"
#include "view/session/shown.h"
#include "view/values/input.h"

struct ImGuiContext;
struct ImGuiIO;

namespace sillwright::view {

// What the viewer draws with: the panels' context, the renderer and the pictures it draws into.
//
// A picture at rest has four samples a pixel. Where that is too slow to follow a hand, a moving one has one, and is
// drawn again with four as soon as it rests. A scene that has not changed is not drawn again under changed panels.

// The panel library's context: one per window or picture, with this program's look and typefaces.
//
// Needs a current OpenGL context for its whole life.

/// Has the panel library take each step whole. Once, after its context is made.
void prepare(ImGuiIO& io);
/// Hands pointer and modifiers of a step to the panel library, for its next frame. Keys and text stay with this program
/// (Focus, field.cpp): the library has no field to type in.
void apply(const InputStep& step, ImGuiIO& io);

class Gui {
 public:
  Gui();
  ~Gui();
  Gui(const Gui&) = delete;
  Gui& operator=(const Gui&) = delete;

  /// Makes this context the current one, takes in the step, and begins a frame of `width` × `height` pixels. Typefaces
  /// and style are made again where scale or ground have changed.
  void begin(float width, float height, float seconds, float scale, bool dark, const InputStep& step);
  /// The panel's means for the frame that was begun.
  [[nodiscard]] Ui ui(Focus& focus, std::vector<Rect>* panels = nullptr) const;
  /// Ends the frame and draws it into the buffer that is bound.
  void end();

 private:
  ImGuiContext* context_ = nullptr;
  Fonts fonts_;
  float scale_ = 0.0F;
  bool dark_ = false;
  bool has_texture_ = false;
};

/// What the corner detail is of: another key is another picture.
struct LensKey {
  std::uint64_t version = 0;  ///< Of the scene.
  std::size_t opening = 0;
  plan::Corner corner = plan::Corner::BL;
  bool inside = false;  ///< Looked at from the room.
  bool dark = false;
  float mm = 0.0F;        ///< Height and width of what it shows.
  render::Camera from{};  ///< Of what is no corner.
  render::Look look{};    ///< Likewise.
  bool operator==(const LensKey&) const = default;
};

/// What the last frame wrote over the drawing, for tests, which can't read pixels.
struct Seen {
  std::optional<Card> card;
  std::vector<Written> written;  ///< In the drawing.
  std::vector<Rect> panels;      ///< Over the drawing, as they are begun.
};

/// One list of what the panel library drew.
struct ListDrawn {
  std::vector<ImDrawVert> corners;
  std::vector<render::PixelBox> clips;
};

class Stage {
 public:
  Seen seen;
  bool hurried = true;                                                     ///< A moving picture may be a quick one.
  std::map<std::filesystem::path, std::unique_ptr<render::Target>> small;  ///< What smallPicture keeps.

  Stage();  ///< Needs a current OpenGL 3.3 context, for its whole life. Throws as render::Renderer.
  ~Stage();
  Stage(const Stage&) = delete;
  Stage& operator=(const Stage&) = delete;

  [[nodiscard]] Gui& gui() { return gui_; }

  /// Draws a scene (or the bare ground, where there is none). `version` is unlike for unlike scenes.
  void draw(const scene::Scene* scene, std::uint64_t version, const Shown& shown, int width, int height, bool moving);
  /// The corner detail, or another small picture, `side` pixels square; made anew where `key` is another.
  [[nodiscard]] ImTextureID drawLens(const LensKey& key, int side, const std::function<LensView()>& shows);
  /// What the corner detail shows; empty: none was drawn yet.
  [[nodiscard]] const std::optional<LensView>& lens() const { return lens_; }
  /// What that was made for.
  [[nodiscard]] const LensKey& lensKey() const { return lens_key_; }
  /// Ends the panels' frame and draws it over the scene: only the boxes round what of the two has changed.
  void finish();
  /// How much of the picture those boxes were the last time, of 1.
  [[nodiscard]] float shareRepainted() const { return share_repainted_; }
  /// A small picture from disk; 0: there is none.
  [[nodiscard]] ImTextureID smallPicture(const std::filesystem::path& file);
  /// The picture with its panels, after finish().
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
    bool operator==(const Drawn&) const = default;
  };
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
  std::optional<LensView> lens_;
  LensKey lens_key_;
  double took_seconds_ = 1.0;  ///< The last still picture that was measured; none was at first.
  int unmeasured_ = 0;         ///< Still pictures since then.
  bool quick_ = false;
  const render::Target* kept_ = nullptr;  ///< Holds what renderer_ drew last.
  std::vector<render::PixelBox> stale_;   ///< What was drawn since the panels were.
  std::vector<ListDrawn> lists_;          ///< What the panel library drew last.
  float share_repainted_ = 0.0F;
  int scenes_drawn_ = 0;
  render::DrawCounts counts_;
};

/// Of small pictures, which are kept as bytes of red, green and blue, the top row first.
inline constexpr int kSmallWidth = 288;
inline constexpr int kSmallHeight = 180;

struct Screen {
  int width = 0;  ///< Pixels.
  int height = 0;
  float scale = 1.0F;  ///< Of the screen: 1 where 96 pixels are an inch.
};

/// Whether there is anything to draw or to take in.
[[nodiscard]] bool wantsFrame(const App& app, const Stage& stage);
/// The same but for what a lesson plays: once this is false, nothing else is to come.
[[nodiscard]] bool isUnsettled(const App& app, const Stage& stage);
/// Whether nothing is to come but the end of work beside the window.
[[nodiscard]] bool isOnlyWorking(const App& app, const Stage& stage);
/// What plays goes on by so many seconds, without a picture.
void letLessonGoOn(App& app, float seconds);
/// Draws the small picture of the job by which it is known again where jobs are listed, if its file is newer. Takes a
/// moment: for when nobody waits.
void keepPicture(App& app);
/// One frame of `seconds` since the last. The picture is then in stage.target().
void frame(App& app, Stage& stage, const Screen& screen, float seconds);

}  // namespace sillwright::view
