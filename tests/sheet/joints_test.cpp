// Which joints of a unit have a section of their own.

#include "plan/settle.h"
#include "sheet/drawing/section.h"
#include "support/catch.h"
#include "support/demo_jobs.h"

using namespace sillwright;

TEST_CASE("each joint of a unit that differs from the others has its section, once") {
  const auto demo = testing::demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/every-kind.toml");
  const auto namesOf = [&](const std::string& opening) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i < demo.job.openings.size(); ++i) {
      if (demo.job.openings[i].name != opening) continue;
      for (const auto& joint : sheet::jointsOf(demo.plan.openings[i].unit)) names.push_back(joint.name);
    }
    return names;
  };
  using Names = std::vector<std::string>;
  CHECK(namesOf("W1") == Names{});
  CHECK(namesOf("W11") == Names{"Coupling: double hung | double hung", "Meeting rails: double hung"});
  CHECK(namesOf("W12") == Names{"Transom: louvre over fixed"});
  CHECK(namesOf("D2") == Names{"Transom: fixed over stacking door", "Meeting stiles: stacking door"});
  CHECK(namesOf("D3") == Names{"Stiles of leaves: folding door"});
  CHECK(namesOf("D5") == Names{"Meeting edges: double doors"});
  CHECK(namesOf("D7") == Names{"Meeting stiles: sliding door", "Meeting edges: sliding door"});
  CHECK(namesOf("W10").size() == 6);
}
