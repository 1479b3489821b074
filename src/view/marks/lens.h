/// The lens: a corner of the picked opening in its true size, in a small picture of its own.
///
/// A millimetre takes as much of the screen as a millimetre is, as far as the screen says how large its pixels are. It
/// looks square at the wall from the eye's side, past cladding and lining, at what stands in the opening; deviations
/// are never drawn larger in it.
#pragma once

#include <string>

#include "document/document.h"
#include "render/camera.h"
#include "render/renderer.h"
#include "view/marks/drawing.h"
#include "view/values/camera_control.h"

namespace sillwright::view {

/// Pixels that a millimetre takes on a screen of this scale: 96 pixels an inch at 1 (CSS Values and Units 4, 5.2).
[[nodiscard]] float pixelsPerMm(float screen_scale);

/// What the lens shows, and from where.
struct LensView {
  scene::Scene scene;  ///< What of the wall lies about the corner.
  render::Camera camera;
  render::Look look;
};

/// `inside`: looked at from the room. `mm`: height and width of what it shows.
[[nodiscard]] LensView lensOn(const document::Document& document, std::size_t opening, plan::Corner corner, bool inside,
                              bool dark, double mm);

/// "lower left corner of J2, in its true size", and "gap 9.9 left, 8.1 sill".
[[nodiscard]] std::string lensTitle(const document::Document& document, std::size_t opening, plan::Corner corner);
[[nodiscard]] std::string lensFigures(const document::Document& document, std::size_t opening, plan::Corner corner);

/// Where it lies on the screen, whole pixels: in the free part's lower left corner, beside a panel that lies there.
struct LensPlace {
  ImVec2 at;
  float side = 0.0F;
};
[[nodiscard]] LensPlace placeLens(const Ui& ui, const Canvas& canvas, const std::vector<Rect>& panels);

/// The picture in its frame, with words and a scale bar of 10 mm.
void drawLensFrame(const Ui& ui, ImDrawList& list, ImTextureID picture, const LensPlace& place, float pixels_per_mm,
                   const std::string& title, const std::string& figures);

}  // namespace sillwright::view
