/// What is drawn over the scene, one function a kind of mark: names and dimensions, the picked opening's own marks, the
/// cutting plane, what an edit changed, handles, a step's parts, water. Figures are always the true ones, at whatever
/// size deviations are drawn.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "document/document.h"
#include "document/lesson.h"
#include "document/step_view.h"
#include "plan/stand/place.h"
#include "render/camera.h"
#include "render/renderer.h"
#include "scene/water_lines.h"
#include "view/marks/drawing.h"
#include "view/session/hand.h"
#include "view/values/camera_control.h"
#include "view/values/dimension.h"

namespace sillwright::view {

/// The cutting plane's outline, its handle, and the figure of the one in hand. `pull`: of the plane; null: it isn't
/// pulled.
void drawCut(const Lettering& on, const CutHandle& cut, const Pull* pull);

/// Handles: small squares and rounds on what can be dragged, and beside the one in hand its figure and what would come
/// of letting it go there. `pull`: what is dragged; null: nothing is.
void drawHandles(const Lettering& on, const std::vector<Handle>& handles, std::optional<std::size_t> hovered,
                 const Pull* pull);
/// What would stop the work at an opening as it now is: the first stop's own words; empty where nothing does.
[[nodiscard]] std::string stopAt(const document::Document& document, std::size_t opening);
/// The same of a wall, else of the first of its openings that something stops, with that one's name.
[[nodiscard]] std::string stopAtWall(const document::Document& document, std::size_t wall);

/// Lights parts up by their edges, as far as they can be seen; `strength`: 0 … 1.
void drawFlash(const Lettering& on, const std::vector<std::uint32_t>& parts, float strength);

/// A step's parts with their names and lines to them, and the lines of tape and level.
void drawStepMarks(Lettering& on, const document::StepView& step);
/// Notes in two columns at the sides of the picture, each with lines to the places that it is about.
void drawNotes(Lettering& on, const std::vector<document::StepNote>& notes);
/// Upper left corners for notes of these sizes, in one column at the left and one at the right of the room (y down),
/// each as near to the place it is about as the others let it be.
[[nodiscard]] std::vector<ImVec2> placeNotes(const std::vector<ImVec2>& about, const std::vector<ImVec2>& sizes,
                                             const Rect& room);

/// drawDimension, of a length in a wall: left out where a cut has taken one of its ends away.
void drawWallDimension(Lettering& on, const scene::WallFrame& wall, glm::vec3 a, glm::vec3 b, glm::vec3 aside,
                       const std::string& words, int row = 0);
/// A picked wall's dimensions, as on a drawing of it. Along its foot the openings' edges in the first row and the whole
/// in the second; its two end heights, and at the right its highest point where that is at neither end. One for which
/// there is no room is left out.
void drawWallDimensions(Lettering& on, std::size_t wall);

/// What of a lesson is drawn.
struct WaterShown {
  const std::vector<scene::WaterLine>* lines = nullptr;
  const document::Taught* taught = nullptr;  ///< Null: no lesson is on, nothing is drawn.
  float seconds = 0.0F;                      ///< For how long the drops have run.
  const document::StepView* step = nullptr;  ///< What the step is shown by; null: the work as it stands, unnamed.
};
/// Lines where the water runs, in full where it is seen and dotted where something covers it; those that end in a leak
/// over all others, with a ring where the water gets behind and a few words; from inside these alone. What gets behind
/// and does no harm has a mark of its own. Drops where `seconds` is above 0, one of them with its way in words.
void drawWater(Lettering& on, const WaterShown& water);

/// Whether the end of an edge is one of those that govern.
[[nodiscard]] bool governs(const plan::Stand& stand, plan::Side side, plan::At at);
/// A filled diamond: the mark of what governs.
void drawGoverningMark(ImDrawList& list, ImVec2 centre, float radius, const Palette& colours);
/// As-built edges with their bow, solid, at the studs' outside and inside faces; the planned opening thin and dashed.
/// The as-built shape only where something was read.
void drawShapeLines(Lettering& on, std::size_t opening);
/// The picked opening's gaps, what governs, packers, screws whose points come out behind the studs.
void drawOpeningMarks(Lettering& on, std::size_t opening);
/// That deviations are drawn larger, or layers apart, where that is so.
void drawChangedNote(Lettering& on);

/// Writes the openings' names with their verdict's mark, and the main dimensions of the picked one, drawn as on paper
/// and always facing the reader, into `list`. Nothing overlaps: what finds no room is left out, dimensions first
/// served, then the picked opening, then the worse verdicts, then the nearer ones. Names hidden behind another wall, or
/// under a panel, are left out too. While a lesson is on, the water is drawn in their place. Where labels are not
/// shown, only a note that deviations are drawn larger is written. `taken`: places that are to be left free. Answers
/// the dimensions, figures and notes that were written.
std::vector<Written> drawLabels(const Ui& ui, ImDrawList& list, const document::Document& document, const Shown& shown,
                                const Canvas& canvas, const WaterShown& water = {}, std::vector<Rect> taken = {});

// The lens: a corner of the picked opening in its true size, in a small picture of its own.
//
// A millimetre takes as much of the screen as a millimetre is, as far as the screen says how large its pixels are. It
// looks square at the wall from the eye's side, past cladding and lining, at what stands in the opening; deviations
// are never drawn larger in it.

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

/// The square on the screen where it lies, whole pixels: in the free part's lower left corner, beside a panel that lies
/// there.
[[nodiscard]] Rect placeLens(const Ui& ui, const Canvas& canvas, const std::vector<Rect>& panels);

/// Dimensions of the two gaps at the corner.
void drawLensGaps(const Ui& ui, ImDrawList& list, const Rect& place, float pixels_per_mm,
                  const document::Document& document, std::size_t opening, plan::Corner corner, bool inside);
/// "gap 9.9 left, 8.1 sill".
[[nodiscard]] std::string lensFigures(const document::Document& document, std::size_t opening, plan::Corner corner);
/// The picture in its frame, with words: "bottom left corner of J2, true size", and the figures.
void drawLensFrame(const Ui& ui, ImDrawList& list, ImTextureID picture, const Rect& place,
                   const document::Document& document, std::size_t opening, plan::Corner corner);

}  // namespace sillwright::view
