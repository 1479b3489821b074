/// A picture of the viewer itself, panels and all, without a window: for manuals and for looking at a screen in a test.
#pragma once

#include <filesystem>

#include "base/error.h"
#include "render/offscreen.h"
#include "view/window/picture.h"

namespace sillwright::view {

/// What the viewer would show of the job at `path` once it has come to rest: `options`' size, opening, view, hidden
/// layers, dark ground and text scale. Makes an off-screen context of its own; throws std::runtime_error where the
/// machine has no OpenGL.
[[nodiscard]] base::Result<render::Image> screenPicture(const std::filesystem::path& path,
                                                        const std::filesystem::path& assets,
                                                        const PictureOptions& options);

}  // namespace sillwright::view
