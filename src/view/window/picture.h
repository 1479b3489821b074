/// Pictures of a job without a window: the same renderer, camera and lettering as the viewer's, and no panels.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "base/error.h"
#include "document/document.h"
#include "render/offscreen.h"
#include "view/session/shown.h"
#include "view/values/camera_control.h"

namespace sillwright::view {

struct WaterShown;

struct PictureOptions {
  int width = 1280;
  int height = 800;
  std::optional<StandingView> view;    ///< Empty: a step's own where one is pictured, else the house.
  std::optional<std::string> opening;  ///< By name; needed by head, sill, jamb and corner.
  std::uint32_t hidden_layers = 0;     ///< Bit per scene::Layer.
  std::optional<int> step;  ///< Number of a step of the opening's order of work: parts of later ones are left out.
  std::vector<plan::WhatIf> what_ifs;  ///< Done wrong at the opening; the water is drawn where it then runs.
  bool water = false;                  ///< The water is drawn.
  float spread = 0.0F;                 ///< As render::Look.
  double magnify = 1;                  ///< How many times as large as they are deviations are drawn.
  std::optional<Cutting> cut;          ///< In the axes of the opening's wall, else the plan's.
  bool dark = false;
  bool labels = true;   ///< Names, dimensions, caption, title and scale bar.
  bool caption = true;  ///< What the step is, title and scale bar.
  float text_scale = 1.0F;
};

/// The layer of a plain word ("cladding", "lining", …), or of the practice's own word for it, as the panels have it.
/// Empty: none such.
[[nodiscard]] std::optional<scene::Layer> layerNamed(std::string_view word, const practice::Words& words = {});
/// Those words, as a message lists them.
[[nodiscard]] std::string layerWords();

/// A still picture shows the drops as they are after so many seconds.
inline constexpr float kPictureDrops = 0.35F;

/// Draws a picture. Options that don't fit the job (no such opening, a close-up without one, a size out of bounds) are
/// errors. Makes an off-screen context of its own; throws std::runtime_error where the machine has no OpenGL.
[[nodiscard]] base::Result<render::Image> picture(const document::Document& document, const PictureOptions& options);

/// A picture of the viewer itself, panels and all: what it would show of the job at `path` once it has come to rest, by
/// the options that the viewer has too. Throws as `picture`.
[[nodiscard]] base::Result<render::Image> screenPicture(const std::filesystem::path& path,
                                                        const std::filesystem::path& assets,
                                                        const PictureOptions& options);

/// A view as it is shown, without panels and pointer, in the context that is current. `title`: empty, or drawn with a
/// scale bar in the lower left corner.
[[nodiscard]] render::Image drawView(const document::Document& document, const Shown& shown, const WaterShown& water,
                                     const PictureOptions& options, const std::string& title);

/// The same as `picture` in the context that is current.
[[nodiscard]] base::Result<render::Image> drawPicture(const document::Document& document,
                                                      const PictureOptions& options);

// The order of work at an opening as a film: what a class room is shown while it plays, picture by picture.

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
