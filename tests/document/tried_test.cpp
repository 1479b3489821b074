// The step that tries a unit: what opens stands part open, hinged where it is.

#include <algorithm>
#include <filesystem>
#include <map>

#include "document/document.h"
#include "document/step_view.h"
#include "plan/panes.h"
#include "support/catch.h"

using namespace sillwright;

namespace {

using Corners = std::map<std::int32_t, std::vector<glm::vec3>>;  // of each sash, in its wall's axes

Corners cornersIn(const scene::Scene& scene, const document::Document& document, std::size_t opening) {
  const auto& wall = scene.walls[document.job.openings[opening].wall];
  Corners corners;
  for (const auto& solid : scene.solids) {
    const auto& part = scene.parts[solid.part];
    if (part.layer != scene::Layer::Unit || part.opening != static_cast<std::int32_t>(opening) || part.item < 0)
      continue;
    for (const auto& corner : solid.corner) corners[part.item].push_back(wall.toLocal(corner));
  }
  return corners;
}

/// As the opening's unit is tried.
Corners triedCorners(const document::Document& document, std::size_t opening) {
  document::Lesson lesson;
  lesson.opening = static_cast<std::int32_t>(opening);
  lesson.place = static_cast<int>(plan::kStepKinds);
  const auto taught = document::teach(document, lesson);
  const auto card = std::find(taught.cards.begin(), taught.cards.end(), plan::StepKind::TryOpening);
  REQUIRE(card != taught.cards.end());
  const auto view = document::stepView(document, taught, opening, static_cast<int>(card - taught.cards.begin()) + 1);
  return cornersIn(view.scene, document, opening);
}

float between(const std::vector<glm::vec3>& a, const std::vector<glm::vec3>& b) {
  float least = 1e9F;
  for (const auto& one : a) {
    for (const auto& other : b) least = std::min(least, glm::distance(one, other));
  }
  return least;
}

}  // namespace

TEST_CASE("folding leaves stand out of the wall and hold together: sliding panels stay in their tracks") {
  const auto loaded =
      document::load(std::filesystem::path(SILLWRIGHT_ASSETS_DIR) / "jobs/every-kind.toml", SILLWRIGHT_ASSETS_DIR);
  REQUIRE(loaded.ok());
  const document::Document& document = *loaded.value;
  for (std::size_t i = 0; i < document.job.openings.size(); ++i) {
    const job::Opening& opening = document.job.openings[i];
    const auto& unit = document.plan.openings[i].unit;
    CAPTURE(opening.name);
    if (!plan::anyOpens(unit)) continue;
    const auto corners = triedCorners(document, i);
    for (const auto& [sash, all] : corners) {
      const auto box = scene::boxRound(all);
      const auto motion = plan::partsOf(unit).sash[static_cast<std::size_t>(sash)].motion;
      const auto front = static_cast<float>(unit.stands), back = static_cast<float>(unit.stands + unit.frame.depth);
      const bool in_frame = box.low.y > front - 1 && box.high.y < back + 1;
      const bool slides = motion >= plan::Motion::SlidesLeft && motion <= plan::Motion::SlidesDown;
      CHECK(in_frame == (slides || motion == plan::Motion::Stays));
      if (motion == plan::Motion::Folds) CHECK(box.low.y < front - 300);
    }
    if (opening.name != "D3") continue;
    // Two go to the left, hinged to each other; the third to the right.
    CHECK(between(corners.at(0), corners.at(1)) < 60);
    CHECK(between(corners.at(1), corners.at(2)) > 400);
  }
}

TEST_CASE("no edge of a sash goes further than its restrictor lets it") {
  auto loaded =
      document::load(std::filesystem::path(SILLWRIGHT_ASSETS_DIR) / "jobs/every-kind.toml", SILLWRIGHT_ASSETS_DIR);
  REQUIRE(loaded.ok());
  document::Document& document = *loaded.value;
  for (job::Opening& opening : document.job.openings) opening.unit.restrictor = 90;
  document::rebuild(document);
  for (std::size_t i = 0; i < document.job.openings.size(); ++i) {
    CAPTURE(document.job.openings[i].name);
    const auto& unit = document.plan.openings[i].unit;
    if (!plan::anyOpens(unit)) continue;
    const auto shut = cornersIn(document.scene, document, i);
    for (const auto& [sash, all] : triedCorners(document, i)) {
      const auto motion = plan::partsOf(unit).sash[static_cast<std::size_t>(sash)].motion;
      REQUIRE(all.size() == shut.at(sash).size());
      float furthest = 0.0F;
      for (std::size_t k = 0; k < all.size(); ++k)
        furthest = std::max(furthest, glm::distance(all[k], shut.at(sash)[k]));
      // A corner of the section's back goes a little further than the edge itself; a leaf slides as it folds.
      CHECK(furthest < (motion == plan::Motion::Folds ? 120 : 93));
      if (motion == plan::Motion::HungAside) CHECK(furthest > 88);
    }
  }
}
