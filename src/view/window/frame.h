/// One frame of the viewer: input in, panels and marks drawn, wishes granted, a picture out.
///
/// The window calls it when `wantsFrame`; tests call it with events of their own, an off-screen context and a fixed
/// time step.
#pragma once

#include "view/session/app.h"
#include "view/window/stage.h"

namespace sillwright::view {

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
/// One frame of `seconds` since the last. The picture is then in stage.target().
void frame(App& app, Stage& stage, const Screen& screen, float seconds);

}  // namespace sillwright::view
