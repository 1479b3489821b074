/// Inside the room: walks a scene's groups, so that a search skips those whose boxes can't hold what it looks for.
#pragma once

#include <cstddef>
#include <vector>

#include "scene/scene.h"

namespace sillwright::scene {

/// Solids and uses that follow one another.
struct Run {
  std::size_t solid = 0;
  std::size_t solids = 0;
  std::size_t use = 0;
  std::size_t uses = 0;
};

/// An outer group: what one wall, the floors or one opening add to a scene, in this order.
struct Outer {
  std::size_t group = 0;  ///< Index in Scene::groups.
  Run run;
};

/// Empty where the groups don't make up all of the scene: a scene that was put together by hand.
[[nodiscard]] inline std::vector<Outer> outerGroups(const Scene& scene) {
  std::vector<Outer> outers;
  Run at;
  for (std::size_t i = 0; i < scene.groups.size(); i += 1 + scene.groups[i].inner) {
    const Group& group = scene.groups[i];
    at.solids = group.solids;
    at.uses = group.uses;
    outers.push_back({i, at});
    at.solid += group.solids;
    at.use += group.uses;
  }
  if (at.solid != scene.solids.size() || at.use != scene.uses.size()) outers.clear();
  return outers;
}

/// Calls `look` with the run of each inner group of `outer` whose box passes `may`; of the outer group itself where it
/// has no inner ones.
template <class May, class Look>
void eachRun(const Scene& scene, const Outer& outer, const May& may, const Look& look) {
  const std::size_t inner = scene.groups[outer.group].inner;
  const std::size_t first = inner > 0 ? outer.group + 1 : outer.group;
  Run at = outer.run;
  for (std::size_t i = first; i < first + (inner > 0 ? inner : 1); ++i) {
    const Group& group = scene.groups[i];
    at.solids = group.solids;
    at.uses = group.uses;
    if (group.box && may(*group.box)) look(at);
    at.solid += group.solids;
    at.use += group.uses;
  }
}

[[nodiscard]] inline Box grown(const Box& box, float by) { return {box.low - glm::vec3(by), box.high + glm::vec3(by)}; }

}  // namespace sillwright::scene
