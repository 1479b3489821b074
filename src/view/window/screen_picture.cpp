// A picture of the viewer itself, panels and all.

#include "view/window/frame.h"
#include "view/window/picture.h"

namespace sillwright::view {
namespace {

/// Draws until nothing changes any more; panels take a few frames to find their sizes.
void comeToRest(App& app, Stage& stage, const Screen& screen) {
  constexpr int kMostFrames = 60;
  for (int i = 0; i < kMostFrames && isUnsettled(app, stage); ++i) frame(app, stage, screen, 1.0F / 60.0F);
}

}  // namespace

base::Result<render::Image> screenPicture(const std::filesystem::path& path, const std::filesystem::path& assets,
                                          const PictureOptions& options) {
  const render::Offscreen context;
  base::Result<render::Image> result;
  App app = open(path, assets);
  if (!app.document) {
    result.errors = app.file.errors;
    return result;
  }
  app.eye.instant = true;
  app.shown.text_scale = options.text_scale;
  app.shown.look.dark = options.dark;
  app.shown.look.hidden_layers = options.hidden_layers;
  app.shown.labels = options.labels;
  Stage stage;
  const Screen screen{options.width, options.height, 1.0F};
  comeToRest(app, stage, screen);
  if (options.opening) {
    const auto index = document::indexOf(app.document->job.openings, *options.opening);
    if (index < 0) {
      result.errors.push_back(
          {app.file.path.string(), {}, "opening", "there is no opening '" + *options.opening + "'"});
      return result;
    }
    grant(app, PickOpening{index, true});
  }
  app.shown.look.spread = options.spread;
  if (options.step || options.water || !options.what_ifs.empty()) {
    grant(app, LessonWish{LessonAct::OpenOrClose, 0, {}});
    if (options.step) grant(app, LessonWish{LessonAct::Go, *options.step, {}});
    for (const plan::WhatIf& each : options.what_ifs) grant(app, LessonWish{LessonAct::Try, 0, each});
    if (!options.what_ifs.empty()) grant(app, LessonWish{LessonAct::Choose, 0, {}});
    comeToRest(app, stage, screen);
  }
  if (options.magnify != 1) grant(app, Magnify{options.magnify});
  grant(app, Stand{options.view.value_or(StandingView::House)});
  if (options.cut) {
    comeToRest(app, stage, screen);
    app.shown.cutting = cutFrom(app.document->scene, *options.cut, app.shown.wall, app.shown.opening, app.shown.camera);
    grant(app, Stand{options.view.value_or(StandingView::House)});  // close-ups turn to the cut
  }
  disturb(app);
  comeToRest(app, stage, screen);
  result.value = render::Image{options.width, options.height, stage.target().read()};
  return result;
}

}  // namespace sillwright::view
