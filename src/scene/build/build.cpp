#include "scene/build/build.h"

#include <utility>

#include "plan/stand/place.h"
#include "scene/build/magnify.h"
#include "scene/build/wall_parts.h"

namespace sillwright::scene {

namespace {

/// More changed blocks than one in so many, and building everything is no dearer than putting them in one by one.
constexpr std::size_t kWorthBuildingAll = 3;

Line topOf(const plan::WallSpec& spec) {
  Line line;
  line.reserve(spec.top.size());
  for (const job::TopPoint& point : spec.top) line.emplace_back(point.x, point.z);
  if (line.size() < 2) line = {{0, line.empty() ? 0.0 : line[0].y}, {spec.length, line.empty() ? 0.0 : line[0].y}};
  return line;
}

std::vector<CutOut> cutsOf(const job::Job& job, const plan::Plan& plan, const plan::WallPlan& wall,
                           const practice::Practice& practice) {
  std::vector<CutOut> cuts;
  cuts.reserve(wall.openings.size());
  for (const std::int32_t index : wall.openings) {
    const job::Opening& opening = job.openings[static_cast<std::size_t>(index)];
    const plan::OpeningPlan& planned = plan.openings[static_cast<std::size_t>(index)];
    const Rect framed{opening.left, opening.sill, opening.left + opening.width, opening.sill + opening.height};
    const Rect fin = unitOutside(opening, planned).inset(-planned.unit.fin);
    const plan::Skin& skin = planned.weather.skin;
    const plan::HeadLine head = plan::headLineOf(opening);
    std::vector<Strip> hole = stripsOf(head.under({0, 0, opening.width, opening.height}), opening.left, opening.sill);
    std::vector<Strip> membrane = head.level() ? bareOf(plan::SheetKind::MembraneRun, opening, skin) : hole;
    std::vector<Strip> battens = battenCuts(opening, planned);
    if (const practice::Rule closer = plan::cavityCloser(wall.spec, practice)) {
      battens.push_back(stripOf(framed.inset(-closer->value)));  // battens butt against it
    }
    std::vector<Strip> clad = bareOf(plan::SheetKind::Cladding, opening, skin);
    for (const Rect& weep : weepholes(opening, planned, wall.spec, practice.weather.cladding)) {
      clad.push_back(stripOf(weep));
    }
    cuts.push_back({index, framed, head, planned.isFlashed(), fin, std::move(hole), std::move(membrane),
                    std::move(clad), std::move(battens)});
  }
  return cuts;
}

/// All but the cut-outs, which only a wall that is built wants.
std::vector<WallStage> stagesOf(Scene& scene, const Sources& from, const std::vector<WallEnds>& ends) {
  std::vector<WallStage> stages(from.job.walls.size());
  for (std::size_t i = 0; i < stages.size(); ++i) {
    const job::Wall& wall = from.job.walls[i];
    WallStage& stage = stages[i];
    const auto number = static_cast<std::int32_t>(i);
    stage.bench = makeBench(scene, wall.at_x, wall.at_y, wall.turn_degrees, number, wall.level.value_or(0));
    stage.wall = &wall;
    stage.plan = &from.plan;
    stage.practice = &from.practice;
    stage.finished = plan::isFinished(from.job, from.plan.walls[i]);
    stage.planned = &from.plan.walls[i];
    stage.ends = ends[i];
    for (const std::size_t side : {0U, 1U}) {  // 0: the left end
      if (ends[i][side].other < 0) continue;
      const auto other = static_cast<std::size_t>(ends[i][side].other);
      stage.other[side] = &from.plan.walls[other].spec;
      if (from.job.walls[other].eave) stage.other_eave[side] = &*from.job.walls[other].eave;
    }
    stage.top = topOf(from.plan.walls[i].spec);
  }
  return stages;
}

WallFrame frameOf(const WallStage& stage) {
  const plan::WallSpec& spec = stage.planned->spec;
  const Bench& bench = stage.bench;
  const auto length = static_cast<float>(spec.length), depth = static_cast<float>(spec.frameDepth());
  return {bench.origin, bench.along, bench.inward, length, static_cast<float>(std::max(highest(stage.top), 0.0)),
          depth};
}

OpeningFrame openingFrame(const job::Opening& opening, const WallStage& stage) {
  return {static_cast<std::uint32_t>(opening.wall),
          stage.bench.toWorld({opening.left + opening.width / 2, stage.planned->spec.frameDepth() / 2,
                               opening.sill + opening.height / 2}),
          static_cast<float>(opening.width), static_cast<float>(opening.height)};
}

/// Grows a box that may still be empty.
void grow(std::optional<Box>& box, const glm::vec3& point) {
  if (!box) box = Box{point, point};
  box->hold(point);
}

/// Overwrites as far as both reach, and makes or takes away room for the rest.
template <class Thing>
void replace(std::vector<Thing>& list, std::size_t at, std::size_t count, const std::vector<Thing>& with) {
  const auto place = [](auto& of, std::size_t i) { return of.begin() + static_cast<std::ptrdiff_t>(i); };
  const std::size_t both = std::min(count, with.size());
  std::copy_n(with.begin(), both, place(list, at));
  list.erase(place(list, at + both), place(list, at + count));
  list.insert(place(list, at + both), place(with, both), with.end());
}

/// Things from `first` on belong to a part so many further on; `shift` may wrap round below zero.
template <class Thing>
void shiftParts(std::vector<Thing>& list, std::size_t first, std::size_t last, std::uint32_t shift) {
  if (shift == 0) return;
  for (std::size_t i = first; i < last; ++i) list[i].part += shift;
}

/// How much there is in a scene's lists up to some place.
struct Extent {
  std::size_t parts = 0, solids = 0, uses = 0;
};

Extent extentOf(const Scene& scene) { return {scene.parts.size(), scene.solids.size(), scene.uses.size()}; }

/// Takes what lies past a place off a scene's lists.
void cutBack(Scene& scene, const Extent& to) {
  scene.parts.resize(to.parts);
  scene.solids.resize(to.solids);
  scene.uses.resize(to.uses);
}

/// All that the scene has from `first` on as a block, made up of groups small enough to lie together.
Block blockFrom(const Scene& scene, const Extent& first, const std::vector<Mesh>& meshes) {
  constexpr std::size_t kMostSolids = 32;  // a small box is passed over by most rays and planes
  Block groups{{scene.solids.size() - first.solids, scene.uses.size() - first.uses, {}}};
  groups.front().parts = scene.parts.size() - first.parts;
  for (std::size_t i = first.solids; i < scene.solids.size(); ++i) {
    if (groups.size() == 1 || groups.back().solids >= kMostSolids) {  // the first is the outer one
      groups.emplace_back().first_solid = i - first.solids;
    }
    ++groups.back().solids;
    for (const glm::vec3& corner : scene.solids[i].corner) grow(groups.back().box, corner);
  }
  if (first.uses < scene.uses.size()) {  // meshes are few: one group
    Group uses{0, scene.uses.size() - first.uses, {}, 0};
    for (std::size_t i = first.uses; i < scene.uses.size(); ++i) {
      const MeshUse& use = scene.uses[i];
      for (const glm::vec3& corner : meshes[use.mesh].box.corners())
        grow(uses.box, use.place * glm::vec4(corner, 1.0F));
    }
    groups.push_back(uses);
  }
  Group& outer = groups.front();
  outer.inner = groups.size() - 1;
  for (std::size_t i = 1; i < groups.size(); ++i) {
    grow(outer.box, groups[i].box->low);
    grow(outer.box, groups[i].box->high);
  }
  return groups;
}

/// The box round all blocks but the floors', which are the ground; zero where they are empty.
Box boundsOf(const std::vector<Block>& blocks, std::size_t floors) {
  std::optional<Box> all;
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const std::optional<Box>& box = blocks[i].front().box;
    if (i == floors || !box) continue;
    grow(all, box->low);
    grow(all, box->high);
  }
  return all.value_or(Box{});
}

/// Puts all that `fresh` has in the place of the block that begins at `at`.
void splice(Scene& scene, const Extent& at, const Group& block, const Scene& fresh) {
  replace(scene.parts, at.parts, block.parts, fresh.parts);
  replace(scene.solids, at.solids, block.solids, fresh.solids);
  replace(scene.uses, at.uses, block.uses, fresh.uses);
  // Parts of the fresh ones are counted from 0, of those that follow by the old block's length.
  const std::size_t solids_end = at.solids + fresh.solids.size();
  const std::size_t uses_end = at.uses + fresh.uses.size();
  const auto here = static_cast<std::uint32_t>(at.parts);
  shiftParts(scene.solids, at.solids, solids_end, here);
  shiftParts(scene.uses, at.uses, uses_end, here);
  const auto grown = static_cast<std::uint32_t>(fresh.parts.size()) - static_cast<std::uint32_t>(block.parts);
  shiftParts(scene.solids, solids_end, scene.solids.size(), grown);
  shiftParts(scene.uses, uses_end, scene.uses.size(), grown);
}

/// Builds blocks by their number: first the walls, then the floors, then the openings.
class Builder {
 public:
  /// `meshes`: those of the scene that all is for.
  Builder(const Sources& from, const std::vector<WallEnds>& ends, Scene& into, const std::vector<Mesh>& meshes)
      : from_(from), into_(into), stages_(stagesOf(into, from, ends)), meshes_(meshes) {}

  /// Appends the block to the scene.
  Block add(std::size_t number) {
    const Extent before = extentOf(into_);
    if (number < stages_.size()) {
      addWall(stages_[number]);
    } else if (number == stages_.size()) {
      addFloors(into_, stages_);
    } else {
      addOpening(number - stages_.size() - 1);
    }
    return blockFrom(into_, before, meshes_);
  }

  void setFrames(Scene& scene) const {
    scene.walls.clear();
    scene.openings.clear();
    for (const WallStage& stage : stages_) scene.walls.push_back(frameOf(stage));
    for (const job::Opening& opening : from_.job.openings) {
      scene.openings.push_back(openingFrame(opening, stages_[opening.wall]));
    }
  }

 private:
  void addWall(WallStage& stage) {
    stage.cuts = cutsOf(from_.job, from_.plan, *stage.planned, from_.practice);
    addMembers(stage);
    addLining(stage);
    if (!stage.wall->isInside()) {
      addMembrane(stage);
      addCladding(stage);
      addBattens(stage);
    }
    addEave(stage);
  }

  void addOpening(std::size_t index) {
    const plan::OpeningPlan& planned = from_.plan.openings[index];
    const Extent before = extentOf(into_);
    addOpeningAs(planned, index);
    if (from_.times == 1) return;
    // Built once as it is for the parts' true sizes, which they keep, and again as it is drawn.
    const std::vector<Part> truth(into_.parts.begin() + static_cast<std::ptrdiff_t>(before.parts), into_.parts.end());
    cutBack(into_, before);
    addOpeningAs(magnified(planned, from_.job.openings[index], from_.times), index);
    if (into_.parts.size() - before.parts != truth.size()) return;  // they don't pair: sizes as drawn
    for (std::size_t i = 0; i < truth.size(); ++i) into_.parts[before.parts + i].size = truth[i].size;
  }

  void addOpeningAs(const plan::OpeningPlan& drawn, std::size_t index) {
    const job::Opening& opening = from_.job.openings[index];
    const WallStage& stage = stages_[opening.wall];
    Bench bench = stage.bench;
    bench.opening = static_cast<std::int32_t>(index);
    const plan::OpeningPlan& planned = from_.plan.openings[index];
    if (!planned.inside) {  // an inside wall has no skin
      const std::size_t before = into_.solids.size();
      // As planned, not as drawn: the skin lies on the wall, which is not magnified.
      addWeather(bench, opening, planned, stage.planned->spec, from_.practice);
      const Rect unit = unitOutside(opening, planned);
      followHead(bench, before, plan::headLineOf(planned.unit), {unit.x0, unit.z0});
    }
    addUnit(bench, opening, drawn, from_.library);
    addPackers(bench, opening, drawn, stage.planned->spec.stud.depth);
    addSillSupport(bench, opening, drawn, stage.planned->spec, from_.practice);
    addFixings(bench, opening, drawn, from_.library);
  }

  const Sources& from_;
  Scene& into_;
  std::vector<WallStage> stages_;
  const std::vector<Mesh>& meshes_;
};

void reserve(Scene& scene, const plan::Plan& plan) {
  // Measured on the demo jobs: about so many parts and solids a member and an opening.
  std::size_t members = 0;
  for (const plan::WallPlan& wall : plan.walls) members += wall.frame.members.size();
  scene.parts.reserve(2 * members + 60 * plan.openings.size() + 32 * plan.walls.size());
  scene.solids.reserve(3 * members + 90 * plan.openings.size() + 64 * plan.walls.size());
  scene.uses.reserve(10 * plan.openings.size());
}

std::size_t countBlocks(const Sources& from) { return from.job.walls.size() + 1 + from.job.openings.size(); }

void finish(Scene& scene, const Blocks& blocks, const Builder& builder) {
  builder.setFrames(scene);
  scene.groups.clear();
  Extent at;
  for (const Block& block : blocks.blocks) {
    for (Group group : block) {
      group.first_solid += at.solids;
      group.first_use += at.uses;
      scene.groups.push_back(group);
    }
    at = {0, at.solids + block.front().solids, at.uses + block.front().uses};  // groups hold no parts
  }
  scene.bounds = boundsOf(blocks.blocks, scene.walls.size());
}

void buildAll(Scene& scene, Blocks& blocks, const Sources& from, std::vector<WallEnds> ends) {
  cutBack(scene, {});  // keeps the memory of the last scene
  scene.meshes.clear();
  for (const auto& [key, mesh] : from.library.mesh) scene.meshes.push_back(mesh);
  reserve(scene, from.plan);
  blocks = {{}, std::move(ends), from.times};
  Builder builder(from, blocks.ends, scene, scene.meshes);
  for (std::size_t i = 0; i < countBlocks(from); ++i) blocks.blocks.push_back(builder.add(i));
  finish(scene, blocks, builder);
}

/// The floors are always built: they follow all walls' places, and are little.
std::vector<std::size_t> changedBlocks(const Sources& from, const Blocks& blocks, const std::vector<WallEnds>& ends,
                                       const plan::Changes& changes) {
  std::vector<std::size_t> changed;
  const std::size_t walls = ends.size();
  for (std::size_t i = 0; i < walls; ++i) {
    const auto moved = [&](const WallEnd& end) {  // its layers end at the wall that it meets
      return end.other >= 0 && changes.walls[static_cast<std::size_t>(end.other)] != 0;
    };
    if (changes.frames[i] != 0 || ends[i] != blocks.ends[i] || moved(ends[i][0]) || moved(ends[i][1])) {
      changed.push_back(i);
    }
  }
  changed.push_back(walls);  // the floors
  for (std::size_t i = 0; i < from.job.openings.size(); ++i) {
    if (changes.openings[i] != 0) changed.push_back(walls + 1 + i);
  }
  return changed;
}

void buildSome(Scene& scene, Blocks& blocks, const Sources& from, const std::vector<std::size_t>& changed) {
  // Each changed block is built in a scene of its own and put in the old one's place: nothing else is built.
  Scene fresh;
  Builder builder(from, blocks.ends, fresh, scene.meshes);
  Extent at;
  std::size_t number = 0;
  for (const std::size_t next : changed) {
    for (; number < next; ++number) {
      const Group& passed = blocks.blocks[number].front();  // one built just now with its new length
      at = {at.parts + passed.parts, at.solids + passed.solids, at.uses + passed.uses};
    }
    cutBack(fresh, {});
    Block block = builder.add(number);
    splice(scene, at, blocks.blocks[number].front(), fresh);
    blocks.blocks[number] = std::move(block);
  }
  finish(scene, blocks, builder);
}

}  // namespace

void rebuild(Scene& scene, Blocks& blocks, const Sources& from, const plan::Changes& changes) {
  std::vector<WallEnds> ends = findEnds(from.job, from.plan);
  // Without the same blocks, scale and meshes there is nothing to keep: every use has the number of its mesh.
  const bool known = blocks.blocks.size() == countBlocks(from) && blocks.times == from.times &&
                     scene.meshes.size() == from.library.mesh.size();
  if (!changes.all && known) {
    const std::vector<std::size_t> changed = changedBlocks(from, blocks, ends, changes);
    if (changed.size() * kWorthBuildingAll <= countBlocks(from) + kWorthBuildingAll) {  // the floors are always in
      blocks.ends = std::move(ends);
      return buildSome(scene, blocks, from, changed);
    }
  }
  buildAll(scene, blocks, from, std::move(ends));
}

Scene build(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan, const MeshLibrary& library,
            double times) {
  Scene scene;
  Blocks blocks;
  rebuild(scene, blocks, {job, practice, plan, library, std::clamp(times, 1.0, mostDeviation(job, plan))}, {});
  return scene;
}

}  // namespace sillwright::scene
