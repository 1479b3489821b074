/// The panel library's context: one per window or picture, with this program's look and typefaces.
///
/// Needs a current OpenGL context for its whole life.
#pragma once

#include "view/marks/drawing.h"
#include "view/values/input.h"

struct ImGuiContext;
struct ImGuiIO;

namespace sillwright::view {

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

}  // namespace sillwright::view
