#include "view/window/film.h"

#include <utility>

#include "view/window/frame.h"

namespace sillwright::view {

void drawFilm(document::Document document, std::size_t opening, const FilmOptions& options,
              const std::function<bool(const render::Image& picture, int step, int steps)>& take) {
  App app;
  app.document = std::move(document);
  app.shown.opening = static_cast<std::int32_t>(opening);
  app.shown.look.dark = options.dark;
  app.eye.placed = true;
  Stage stage;
  stage.hurried = false;
  const Screen screen{options.width, options.height, 1.0F};
  const float tick = 1.0F / static_cast<float>(options.a_second);
  app.layout.canvas = {.width = static_cast<float>(screen.width), .height = static_cast<float>(screen.height)};
  app.eye.instant = true;  // it begins where its first card is seen from
  grant(app, LessonWish{LessonAct::ClassRoom, 0, {}});
  grant(app, LessonWish{LessonAct::Go, options.first, {}});
  while (isUnsettled(app, stage)) frame(app, stage, screen, tick);
  app.eye.instant = false;
  app.lesson.coming = 0.0F;
  document::Lesson& lesson = app.shown.lesson;
  lesson.pace = options.pace;
  lesson.playing = true;
  const int steps = static_cast<int>(app.lesson.taught->cards.size());
  render::Image picture{options.width, options.height, stage.target().read()};
  while (lesson.playing && lesson.place <= options.last) {
    if (!take(picture, lesson.place, steps)) return;
    if (isUnsettled(app, stage) || isLessonMoving(lesson, app.lesson)) {
      frame(app, stage, screen, tick);
      picture.rgb = stage.target().read();
    } else {
      letLessonGoOn(app, tick);
    }
  }
}

}  // namespace sillwright::view
