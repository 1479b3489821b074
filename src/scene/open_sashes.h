/// An opening's sashes and leaves as they stand part open: for a step's picture, where the unit is tried.
#pragma once

#include "plan/panes.h"
#include "scene/scene.h"

namespace sillwright::scene {

/// Moves all that is of a sash (Part::item) from where it is when shut: sashes slide, swing, tilt; leaves fold. The
/// scene's solids and uses are those of the unit as it is built.
void openSashes(Scene& scene, const plan::UnitParts& parts, std::size_t opening);

}  // namespace sillwright::scene
