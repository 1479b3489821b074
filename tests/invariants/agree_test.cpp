// What is told of one thing in several places: the plan, the drawing, the lists, the steps and the report agree.

#include <rapidcheck.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <string>

#include "invariants/random_jobs.h"
#include "plan/work/order_of_work.h"
#include "scene/build/build.h"
#include "scene/mesh/mesh.h"
#include "support/catch.h"
#include "takeoff/takeoff.h"

namespace sillwright::testing {
namespace {

/// Screws by name.
using Counts = std::map<std::string, int>;

Counts plannedScrews(const plan::OpeningPlan& planned) {
  Counts counts;
  for (const auto& fixing : planned.fixings.points) {
    if (fixing.screw >= 0) ++counts[planned.fixings.screws[static_cast<std::size_t>(fixing.screw)].name];
  }
  return counts;
}

/// Of the steps' parts: "4 screws 8g x 75 at …".
Counts screwsInSteps(const std::vector<plan::Step>& steps) {
  Counts counts;
  for (const auto& step : steps) {
    for (const std::string& part : step.parts) {
      const auto word = part.find(" screw");
      const auto at = part.find(" at ");
      if (word == std::string::npos || at == std::string::npos || part.find_first_not_of("0123456789") != word)
        continue;
      const auto name = part.find(' ', word + 1) + 1;
      counts[part.substr(name, at - name)] += std::stoi(part);
    }
  }
  return counts;
}

int partsOf(const scene::Scene& scene, std::size_t opening, scene::PartKind kind, scene::Material material) {
  return static_cast<int>(std::count_if(scene.parts.begin(), scene.parts.end(), [&](const scene::Part& part) {
    return part.opening == static_cast<std::int32_t>(opening) && part.kind == kind && part.material == material;
  }));
}

int total(const Counts& counts) {
  return std::accumulate(counts.begin(), counts.end(), 0, [](int sum, const auto& each) { return sum + each.second; });
}

std::size_t times(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++count;
  return count;
}

}  // namespace

TEST_CASE("screws and packers are as many in the plan, the drawing, the steps, the lists and the report") {
  scene::MeshLibrary meshes;
  meshes.mesh[scene::kScrewMesh] = scene::Mesh{{{0, 0, 0}, {0, 1, 0}, {1, 0, 0}}, {}, {{0, 0, 0}, {1, 1, 0}}};
  REQUIRE(holdsForJobs("counts agree", [&](const job::Job& job, const practice::Practice& practice, Draw&) {
    const Answer answer = answerTo(job, practice);
    const scene::Scene scene = scene::build(job, practice, answer.plan, meshes);
    Counts all;
    std::map<double, int> packers;
    for (std::size_t i = 0; i < job.openings.size(); ++i) {
      const plan::OpeningPlan& planned = answer.plan.openings[i];
      const Counts screws = plannedScrews(planned);
      RC_ASSERT(screwsInSteps(plan::orderOfWork(job, answer.plan, i, practice)) == screws);
      RC_ASSERT(partsOf(scene, i, scene::PartKind::Screw, scene::Material::Screw) == total(screws));
      RC_ASSERT(times(openingReport(job, practice, answer, i), "\"past_stud\"") ==
                static_cast<std::size_t>(total(screws)));
      int pieces = 0;
      for (const auto& point : planned.packing.points) {
        pieces += point.stack.pieces;
        for (int k = 0; k < point.stack.pieces; ++k) ++packers[point.stack.piece[static_cast<std::size_t>(k)]];
      }
      RC_ASSERT(partsOf(scene, i, scene::PartKind::Packer, scene::Material::Packer) == pieces);
      for (const auto& [name, count] : screws) all[name] += count;
    }
    const takeoff::Takeoff taken = takeoff::takeOff(job, practice, answer.plan);
    RC_ASSERT(taken.screws == all);
    std::map<double, int> counted;
    for (const auto& packer : taken.packers) counted[packer.thickness] = packer.count;
    RC_ASSERT(counted == packers);
  }));
}

}  // namespace sillwright::testing
