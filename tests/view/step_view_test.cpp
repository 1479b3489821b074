// Where each step of the order of work is seen from, what is in sight there, and what is written beside it.

#include "document/step_view.h"

#include <algorithm>

#include "scene/water_lines.h"
#include "support/catch.h"
#include "view/marks/marks.h"
#include "view/values/camera_control.h"

using namespace sillwright;

namespace {

constexpr view::Canvas kCanvas{.width = 1200.0F, .height = 800.0F};

/// Walls and units of all kinds; a job each.
std::vector<document::Document> demos() {
  std::vector<document::Document> all;
  for (const char* name : {"boatshed", "raking-studio", "garage-header", "brick-no-fin"}) {
    auto loaded = document::load(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/" + name + ".toml", SILLWRIGHT_ASSETS_DIR);
    REQUIRE(loaded.ok());
    all.push_back(std::move(*loaded.value));
  }
  return all;
}

/// Calls `look` with every step of every opening of every demo job, as it is seen.
template <class Look>
void eachStep(const Look& look) {
  for (const document::Document& document : demos()) {
    for (std::size_t i = 0; i < document.job.openings.size(); ++i) {
      document::Lesson lesson;
      lesson.opening = static_cast<std::int32_t>(i);
      const auto kinds = plan::stepsAt(document.plan.openings[i]);
      for (lesson.place = 1; lesson.place <= static_cast<int>(kinds.size()); ++lesson.place) {
        const plan::StepKind kind = kinds[static_cast<std::size_t>(lesson.place - 1)];
        CAPTURE(document.job.title, document.job.openings[i].name, plan::toWord(kind));
        const document::Taught taught = document::teach(document, lesson);
        look(document, i, kind, document::stepView(document, taught, i, lesson.place));
      }
    }
  }
}

bool isInPicture(const render::Camera& camera, glm::vec3 place) {
  const glm::vec3 at = render::project(camera, place, kCanvas.width, kCanvas.height);
  return at.z > 0 && at.x >= 0 && at.y >= 0 && at.x <= kCanvas.width && at.y <= kCanvas.height;
}

bool hasNew(const document::StepView& view, std::uint32_t part) { return view.scene.parts[part].step == view.lit; }

/// All that it is about lies in the picture, and fills much of it.
void checkFramed(const document::StepView& view) {
  const render::Camera camera = view::standAt(view, kCanvas);
  REQUIRE_FALSE(view.focus.empty());
  glm::vec2 low(1e9F);
  glm::vec2 high(-1e9F);
  bool in_picture = true;
  for (const glm::vec3& place : view.focus) {
    in_picture = in_picture && isInPicture(camera, place);
    const glm::vec2 at(render::project(camera, place, kCanvas.width, kCanvas.height));
    low = glm::min(low, at);
    high = glm::max(high, at);
  }
  CHECK(in_picture);
  CHECK(std::max((high.x - low.x) / kCanvas.width, (high.y - low.y) / kCanvas.height) > 0.7F);
  for (const document::StepNote& note : view.notes) {
    for (const glm::vec3& place : note.at) CHECK(isInPicture(camera, place));
  }
}

/// Its own wall and opening alone are there.
void checkAlone(const document::Document& document, std::size_t index, const document::StepView& view) {
  const auto wall = static_cast<std::int32_t>(document.job.openings[index].wall);
  REQUIRE_FALSE(view.scene.solids.empty());
  const auto other = std::count_if(view.scene.solids.begin(), view.scene.solids.end(), [&](const scene::Solid& solid) {
    const scene::Part& part = view.scene.parts[solid.part];
    const bool own = part.opening < 0 || part.opening == static_cast<std::int32_t>(index);
    return part.wall >= 0 && (part.wall != wall || !own);
  });
  CHECK(other == 0);
}

/// Parts that are new, a tape's lines, or where to seal. A unit that doesn't fit has no packers.
void checkShowsSomething(const document::Document& document, std::size_t index, const document::StepView& view) {
  if (document.findings.verdicts[index] == check::Verdict::Stop) return;
  const bool lit = std::any_of(view.scene.solids.begin(), view.scene.solids.end(),
                               [&](const scene::Solid& solid) { return hasNew(view, solid.part); }) ||
                   std::any_of(view.scene.uses.begin(), view.scene.uses.end(),
                               [&](const scene::MeshUse& use) { return hasNew(view, use.part); });
  CHECK((lit || !view.lines.empty() || !view.notes.empty()));
}

}  // namespace

TEST_CASE("each step is about something, all of it in its picture and large, and no other opening is there") {
  eachStep([](const document::Document& document, std::size_t index, plan::StepKind, const document::StepView& view) {
    checkFramed(view);
    checkAlone(document, index, view);
    checkShowsSomething(document, index, view);
  });
}

TEST_CASE("a unit on its way in stands before the wall, and in it when it has arrived") {
  const document::Document document = std::move(demos().front());
  document::Lesson lesson;
  lesson.opening = 0;
  lesson.place = plan::stepNumber(plan::stepsAt(document.plan.openings[0]), plan::StepKind::LiftIn);
  const document::Taught taught = document::teach(document, lesson);
  const auto outermost = [&](float way) {
    const auto view = document::stepView(document, taught, 0, lesson.place, way);
    const scene::WallFrame& wall = view.scene.walls[document.job.openings[0].wall];
    float least = 1e9F;
    for (const scene::Solid& solid : view.scene.solids) {
      if (hasNew(view, solid.part)) least = std::min(least, wall.toLocal(solid.corner[0]).y);
    }
    return least;
  };
  CHECK(outermost(0.0F) < outermost(0.5F) - 300.0F);
  CHECK(outermost(0.5F) < outermost(1.0F) - 300.0F);
}

TEST_CASE(
    "a membrane's flaps lie flat in the face of the wall before they are folded in, and all has come at the end") {
  eachStep(
      [](const document::Document& document, std::size_t index, plan::StepKind kind, const document::StepView& view) {
        const scene::WallFrame& wall = view.scene.walls[document.job.openings[index].wall];
        const scene::Scene there = document::onTheWay(view, wall, 1.0F);
        for (std::size_t i = 0; i < there.solids.size(); ++i) {
          for (std::size_t k = 0; k < 8; ++k) {
            if (glm::distance(there.solids[i].corner[k], view.scene.solids[i].corner[k]) > 0.01F)
              FAIL("not in its place");
          }
        }
        if (kind != plan::StepKind::Membrane) return;
        int flaps = 0;
        const scene::Scene before = document::onTheWay(view, wall, 0.6F);
        for (const scene::Solid& solid : before.solids) {
          if (before.parts[solid.part].kind != scene::PartKind::MembraneFold) continue;
          ++flaps;
          glm::vec2 y(1e9F, -1e9F);
          for (const glm::vec3& corner : solid.corner) {
            y = {std::min(y.x, wall.toLocal(corner).y), std::max(y.y, wall.toLocal(corner).y)};
            // In the hole, and not over the wall beside it.
            const glm::vec3 from = wall.toLocal(corner) - wall.toLocal(view.scene.openings[index].centre);
            CHECK(std::abs(from.x) < view.scene.openings[index].width * 0.5F + 2.0F);
          }
          CHECK(y.y - y.x < 2.0F);
        }
        CHECK(flaps >= 2);
      });
}

TEST_CASE("notes don't lie on each other, nor past their room") {
  std::vector<ImVec2> about;
  const std::vector<ImVec2> sizes(8, {20.0F, 6.0F});
  for (int i = 0; i < 8; ++i) about.push_back({i % 2 == 0 ? 10.0F : 90.0F, i < 6 ? 99.0F : 1.0F});
  const auto places = view::placeNotes(about, sizes, {{0, 0}, {100, 60}});
  for (std::size_t i = 0; i < places.size(); ++i) {
    CHECK(places[i].y >= 0.0F);
    CHECK(places[i].y + 6.0F <= 60.01F);
    for (std::size_t k = 0; k < i; ++k) {
      if ((about[i].x > 50) == (about[k].x > 50)) CHECK(std::abs(places[i].y - places[k].y) > 6.0F);
    }
  }
}
