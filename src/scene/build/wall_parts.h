/// The parts of one wall, and what its layers share: where it stands, its corners, its top line, its cut-outs.
///
/// Sheets are drawn 1 mm thick, which is thicker than they are, so that a close-up can tell them apart. Room for them
/// is taken from the back of what lies outside them (the cladding's back, the fin): outer faces and sizes given stay
/// true.
#pragma once

#include <array>
#include <vector>

#include "job/job.h"
#include "plan/panes.h"
#include "plan/plan.h"
#include "plan/weather/weather_skin.h"
#include "scene/build/corners.h"
#include "scene/build/strips.h"
#include "scene/mesh/mesh.h"
#include "scene/solids.h"

namespace sillwright::scene {

inline constexpr double kSheet = 1.0;         ///< Drawn thickness of a membrane.
inline constexpr double kMembraneFace = 2.3;  ///< Outermost face of the membrane with its laps, before the studs.
inline constexpr double kFinBack = 4.2;       ///< Back of fin and boards: room for flashings over the membrane.
inline constexpr double kFinThickness = 3.0;
inline constexpr double kBoardCover = 180.0;  ///< Visible height of a cladding board.

/// What one opening takes out of a wall's layers, in the wall's axes.
struct CutOut {
  std::int32_t opening = -1;
  Rect framed;                ///< The framed opening, as high as its highest corner.
  plan::HeadLine head{0, 0};  ///< Of the framed opening, from its lower left corner.
  bool flashed = true;        ///< The membrane is folded into it.
  Rect fin;                   ///< Outside of the fin: boards that run over it make room for it.
  std::vector<Strip> lining, membrane, clad, battens;  ///< What each layer leaves out.
};

/// Everything that the layers of a wall are made from. The plan must outlive it.
struct WallStage {
  Bench bench;
  const job::Wall* wall = nullptr;
  const plan::WallPlan* planned = nullptr;
  WallEnds ends;
  std::array<const plan::WallSpec*, 2> other{};  ///< The walls met at each end; null where there is none.
  std::array<const job::Eave*, 2> other_eave{};
  Line top;                  ///< The top of the plate, over the frame's length.
  std::vector<CutOut> cuts;  ///< Left to right.
  const plan::Plan* plan = nullptr;
  const practice::Practice* practice = nullptr;
  bool finished = false;  ///< Cladding, membrane and lining are there from the start.
};

/// How far a wall's cladding stands off its studs, at its back and its front, as drawn.
struct CladdingDepth {
  double back = 0, front = 0;
};
[[nodiscard]] CladdingDepth claddingDepth(const plan::WallSpec& spec);

/// The unit's outside, in its wall's axes, at its planned stand.
[[nodiscard]] Rect unitOutside(const job::Opening& opening, const plan::OpeningPlan& planned);

void addMembers(const WallStage& stage);
void addLining(const WallStage& stage);
void addMembrane(const WallStage& stage);
void addCladding(const WallStage& stage);
void addBattens(const WallStage& stage);
void addEave(const WallStage& stage);

/// The floor: one slab under each ring of walls that closes, a strip along every other wall.
void addFloors(Scene& scene, const std::vector<WallStage>& stages);

// The parts of one unit: reveal, frame, sashes, glass, fin, hardware; and the packers that hold it.
//
// A unit is drawn from its sizes alone. Sizes that the job gives are true (outside, frame, reveal, fin, glass); those
// that it doesn't ask for (a sash's section, the place of a handle) are usual ones and named where they are set.

/// `bench.opening` names the opening.
void addUnit(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned,
             const MeshLibrary& library);

/// The packers of a unit, and the timber behind them, between it and the studs.
void addPackers(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned, double stud_depth);

/// What carries a unit's sill across the cavity, where the practice asks for it.
void addSillSupport(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned,
                    const plan::WallSpec& wall, const practice::Practice& practice);

/// Screws with their heads sunk in the reveal (or on the frame, or on the fin) and their points in the studs.
void addFixings(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned,
                const MeshLibrary& library);

// What keeps the water out of one opening, as parts: made from the skin that the water is traced on.
//
// Each sheet of the skin is drawn where its outline is, and as far out as the sheets that it lies on ask for: so a lap
// that is put the wrong way round in the skin is seen the wrong way round. What the skin does not show, the strip
// under the unit and the tapes in the opening's depth, comes from the pieces.

/// Where the sheets of a kind leave the wall bare, in the wall's axes: upright trapezoids, none wider than need be.
[[nodiscard]] std::vector<Strip> bareOf(plan::SheetKind kind, const job::Opening& opening, const plan::Skin& skin);

/// Open joints in the course over an opening's head flashing, where its wall is brick.
[[nodiscard]] std::vector<Rect> weepholes(const job::Opening& opening, const plan::OpeningPlan& planned,
                                          const plan::WallSpec& wall, const practice::CladdingRules& rules);

/// What an opening takes out of the battens.
[[nodiscard]] std::vector<Strip> battenCuts(const job::Opening& opening, const plan::OpeningPlan& planned);

/// Flashings, head flap and tapes. `bench.opening` names the opening.
void addWeather(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned,
                const plan::WallSpec& wall, const practice::Practice& practice);

/// What a kind of sheet is drawn as.
struct DrawnSheet {
  PartKind kind = PartKind::Membrane;
  Material material = Material::Membrane;
  Layer layer = Layer::Membrane;
  bool own = true;  ///< A part of the opening; else of its wall.
};
/// As plan::SheetKind.
inline constexpr std::array<DrawnSheet, 10> kDrawnSheets{{
    {PartKind::Membrane, Material::Membrane, Layer::Membrane, false},
    {PartKind::MembraneFold, Material::Membrane, Layer::Membrane},
    {PartKind::SillFlashing, Material::FlexibleFlashing, Layer::Flashing},
    {PartKind::JambFlashing, Material::FlexibleFlashing, Layer::Flashing},
    {PartKind::HeadFlashing, Material::FoldedMetal, Layer::Flashing},
    {PartKind::Tape, Material::FlexibleFlashing, Layer::Flashing},
    {PartKind::Fin, Material::Aluminium, Layer::Unit},
    {PartKind::FaceSeal, Material::Rubber, Layer::Cladding},
    {PartKind::GlassPane, Material::Glass, Layer::Unit},
    {PartKind::CladdingBoard, Material::Cladding, Layer::Cladding, false},
}};
static_assert(kDrawnSheets.size() == static_cast<std::size_t>(plan::SheetKind::Cladding) + 1);
[[nodiscard]] constexpr const DrawnSheet& drawnAs(plan::SheetKind kind) {
  return kDrawnSheets[static_cast<std::size_t>(kind)];
}

}  // namespace sillwright::scene
