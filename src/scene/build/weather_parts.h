/// What keeps the water out of one opening, as parts: made from the skin that the water is traced on.
///
/// Each sheet of the skin is drawn where its outline is, and as far out as the sheets that it lies on ask for: so a lap
/// that is put the wrong way round in the skin is seen the wrong way round. What the skin does not show, the strip
/// under the unit and the tapes in the opening's depth, comes from the pieces.
#pragma once

#include <array>
#include <vector>

#include "job/job.h"
#include "plan/plan.h"
#include "scene/build/strips.h"
#include "scene/solids.h"

namespace sillwright::scene {

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
