/// The parts of one unit: reveal, frame, sashes, glass, fin, hardware; and the packers that hold it.
///
/// A unit is drawn from its sizes alone. Sizes that the job gives are true (outside, frame, reveal, fin, glass); those
/// that it doesn't ask for (a sash's section, the place of a handle) are usual ones and named where they are set.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "plan/panes.h"
#include "plan/plan.h"
#include "scene/build/wall_parts.h"
#include "scene/mesh/library.h"

namespace sillwright::scene {

/// The meshes that have been put into the scene so far.
struct MeshShelf {
  const MeshLibrary* library = nullptr;
  std::map<std::string, std::uint32_t, std::less<>> index;
  std::vector<std::uint32_t>
      asked;  ///< For which ones, in the order of first asking; whoever wants to know empties it.
};

/// Index in Scene::meshes, or nullopt where the library has no such mesh. Brings it into the scene on first use.
[[nodiscard]] std::optional<std::uint32_t> useMesh(Scene& scene, MeshShelf& shelf, std::string_view key);

/// `bench.opening` names the opening.
void addUnit(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned, MeshShelf& shelf);

/// The packers of a unit, and the timber behind them, between it and the studs.
void addPackers(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned, double stud_depth);

/// Screws with their heads sunk in the reveal (or on the frame, or on the fin) and their points in the studs.
void addFixings(const Bench& bench, const job::Opening& opening, const plan::OpeningPlan& planned, MeshShelf& shelf);

}  // namespace sillwright::scene
