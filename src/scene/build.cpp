#include "scene/build.h"

#include <algorithm>
#include <cmath>

#include "scene/corners.h"
#include "scene/unit_parts.h"
#include "scene/wall_parts.h"
#include "scene/weather_parts.h"

namespace sillwright::scene {
namespace {

Line topOf(const plan::WallSpec& spec) {
  Line line;
  line.reserve(spec.top.size());
  for (const job::TopPoint& point : spec.top) line.emplace_back(point.x, point.z);
  if (line.size() < 2) line = {{0, line.empty() ? 0.0 : line[0].y}, {spec.length, line.empty() ? 0.0 : line[0].y}};
  return line;
}

std::vector<CutOut> cutsOf(const job::Job& job, const plan::Plan& plan, const plan::WallPlan& wall) {
  std::vector<CutOut> cuts;
  cuts.reserve(wall.openings.size());
  for (const std::int32_t index : wall.openings) {
    const job::Opening& opening = job.openings[static_cast<std::size_t>(index)];
    const plan::OpeningPlan& planned = plan.openings[static_cast<std::size_t>(index)];
    const Rect framed{opening.left, opening.sill, opening.left + opening.width, opening.sill + opening.height};
    const Rect fin = unitOutside(opening, planned).inset(-planned.unit.fin);
    cuts.push_back({index, framed, fin, membraneCuts(opening, planned), claddingCuts(opening, planned),
                    battenCuts(opening, planned)});
  }
  return cuts;
}

std::vector<WallStage> stagesOf(Scene& scene, const job::Job& job, const practice::Practice& practice,
                                const plan::Plan& plan) {
  const std::vector<WallEnds> ends = findEnds(job, plan);
  std::vector<WallStage> stages(job.walls.size());
  for (std::size_t i = 0; i < stages.size(); ++i) {
    const job::Wall& wall = job.walls[i];
    WallStage& stage = stages[i];
    stage.bench = makeBench(scene, wall.at_x, wall.at_y, wall.turn_degrees, static_cast<std::int32_t>(i));
    stage.wall = &wall;
    stage.planned = &plan.walls[i];
    stage.plan = &plan;
    stage.run_lap = std::clamp(practice.weather.membrane.lap.usual.value, 0.0, kMostRunLap);
    stage.ends = ends[i];
    for (const std::size_t side : {0U, 1U}) {
      if (ends[i][side].other < 0) continue;
      const auto other = static_cast<std::size_t>(ends[i][side].other);
      stage.other[side] = &plan.walls[other].spec;
      if (job.walls[other].eave) stage.other_eave[side] = &*job.walls[other].eave;
    }
    stage.top = topOf(plan.walls[i].spec);
    stage.cuts = cutsOf(job, plan, plan.walls[i]);
  }
  return stages;
}

WallFrame frameOf(const WallStage& stage) {
  const plan::WallSpec& spec = stage.planned->spec;
  WallFrame frame;
  frame.origin = glm::vec3(stage.bench.origin);
  frame.along = glm::vec3(stage.bench.along);
  frame.inward = glm::vec3(stage.bench.inward);
  frame.length = static_cast<float>(spec.length);
  double height = 0;
  for (const glm::dvec2& point : stage.top) height = std::max(height, point.y);
  frame.height = static_cast<float>(height);
  frame.depth = static_cast<float>(spec.stud.depth);
  return frame;
}

OpeningFrame openingFrame(const job::Opening& opening, const WallStage& stage, const check::Findings& findings,
                          std::size_t index) {
  OpeningFrame frame;
  frame.wall = static_cast<std::uint32_t>(opening.wall);
  frame.centre = stage.bench.toWorld(
      {opening.left + opening.width / 2, stage.planned->spec.stud.depth / 2, opening.sill + opening.height / 2});
  frame.width = static_cast<float>(opening.width);
  frame.height = static_cast<float>(opening.height);
  if (index < findings.verdicts.size()) frame.verdict = findings.verdicts[index];
  return frame;
}

/// Grows a box that may still be empty.
struct Growing {
  Box box;
  bool empty = true;

  void add(const glm::vec3& point) {
    box.low = empty ? point : glm::min(box.low, point);
    box.high = empty ? point : glm::max(box.high, point);
    empty = false;
  }
};

Box boundsOf(const Scene& scene) {
  Growing all;
  for (const Solid& solid : scene.solids) {
    if (scene.parts[solid.part].layer == Layer::Ground) continue;
    for (const glm::vec3& corner : solid.corner) all.add(corner);
  }
  std::vector<Box> meshes;
  meshes.reserve(scene.meshes.size());
  for (const Mesh& mesh : scene.meshes) meshes.push_back(boundsOf(mesh));
  for (const MeshUse& use : scene.uses) {
    const Box& box = meshes[use.mesh];
    for (unsigned corner = 0; corner < 8; ++corner) {
      const glm::vec3 local{(corner & 1U) != 0 ? box.high.x : box.low.x, (corner & 2U) != 0 ? box.high.y : box.low.y,
                            (corner & 4U) != 0 ? box.high.z : box.low.z};
      all.add(use.place * glm::vec4(local, 1.0F));
    }
  }
  return all.box;
}

void reserve(Scene& scene, const plan::Plan& plan) {
  // Measured on the demo jobs: about so many parts and solids a member and an opening.
  std::size_t members = 0;
  for (const plan::WallPlan& wall : plan.walls) members += wall.frame.members.size();
  scene.parts.reserve(2 * members + 60 * plan.openings.size() + 32 * plan.walls.size());
  scene.solids.reserve(3 * members + 90 * plan.openings.size() + 64 * plan.walls.size());
  scene.uses.reserve(10 * plan.openings.size());
}

}  // namespace

Scene build(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
            const check::Findings& findings, const MeshLibrary& library) {
  return build(job, practice, plan, plan.openings, findings, library);
}

Scene build(const job::Job& job, const practice::Practice& practice, const plan::Plan& plan,
            const std::vector<plan::OpeningPlan>& drawn, const check::Findings& findings, const MeshLibrary& library) {
  Scene scene;
  reserve(scene, plan);
  const std::vector<WallStage> stages = stagesOf(scene, job, practice, plan);
  scene.walls.reserve(stages.size());
  for (const WallStage& stage : stages) {
    scene.walls.push_back(frameOf(stage));
    addMembers(stage);
    addLining(stage);
    addMembrane(stage);
    addCladding(stage);
    addBattens(stage);
    addEave(stage);
  }
  addFloors(scene, stages);

  MeshShelf shelf;
  shelf.library = &library;
  scene.openings.reserve(job.openings.size());
  for (std::size_t i = 0; i < job.openings.size(); ++i) {
    const job::Opening& opening = job.openings[i];
    const WallStage& stage = stages[opening.wall];
    Bench bench = stage.bench;
    bench.opening = static_cast<std::int32_t>(i);
    scene.openings.push_back(openingFrame(opening, stage, findings, i));
    addWeather(bench, opening, plan.openings[i], stage.planned->spec);
    addUnit(bench, opening, drawn[i], shelf);
    addPackers(bench, opening, drawn[i]);
    addFixings(bench, opening, drawn[i], shelf);
  }
  scene.bounds = boundsOf(scene);
  return scene;
}

}  // namespace sillwright::scene
