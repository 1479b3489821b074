/// The order of work at an opening as a film: what a class room is shown while it plays, picture by picture.
#pragma once

#include <functional>

#include "document/document.h"
#include "render/offscreen.h"

namespace sillwright::view {

struct FilmOptions {
  int width = 1280;
  int height = 720;
  int a_second = 25;  ///< Pictures.
  float pace = 1.0F;  ///< 2: twice as fast as the cards are read.
  int first = 0;      ///< Steps, from 1; 0: the bare frame too.
  int last = static_cast<int>(plan::kStepKinds);
  bool dark = false;
};

/// Gives every picture, in order, with the number of the step that it shows and how many there are; the same one again
/// where nothing has moved, which is not drawn again. False from `take` ends the film. Needs a current context.
void drawFilm(document::Document document, std::size_t opening, const FilmOptions& options,
              const std::function<bool(const render::Image& picture, int step, int steps)>& take);

}  // namespace sillwright::view
