/// The panel library's context: one per window or picture, with this program's look and typefaces.
///
/// Needs a current OpenGL context for its whole life.
#pragma once

#include "view/marks/drawing.h"
#include "view/values/input.h"

struct ImGuiContext;
struct ImGuiIO;

namespace sillwright::view {

/// Tells the panel library which of its keys are ours. Once, after its context is made.
void mapKeys(ImGuiIO& io);
/// Hands a step to the panel library, for its next frame.
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

  /// Where text is cut to and pasted from, told by the window. `user` is handed on.
  void setClipboard(const char* (*read)(void*), void (*write)(void*, const char*), void* user);

 private:
  ImGuiContext* context_ = nullptr;
  Fonts fonts_;
  float scale_ = 0.0F;
  bool dark_ = false;
  bool has_texture_ = false;
};

}  // namespace sillwright::view
