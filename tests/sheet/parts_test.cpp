#include "plan/frame/frame.h"
#include "sheet/sheets.h"

#include <set>

#include "drawn.h"

using namespace sillwright;

TEST_CASE("marks leave out the letters that read as figures") {
  CHECK(plan::markFor(0) == "A");
  CHECK(plan::markFor(7) == "H");
  CHECK(plan::markFor(8) == "J");
  CHECK(plan::markFor(13) == "P");
  CHECK(plan::markFor(23) == "Z");
  CHECK(plan::markFor(24) == "AA");
  std::set<std::string> seen;
  for (std::size_t i = 0; i < 2000; ++i) CHECK(seen.insert(plan::markFor(i)).second);
}

TEST_CASE("every member stands in the schedule once") {
  for (const auto& demo : testing::demoJobs()) {
    for (const auto& wall : demo.plan.walls) {
      const auto groups = plan::groupsOf(wall.frame, demo.practice->display);
      std::size_t count = 0;
      double length = 0;
      for (const auto& group : groups) {
        count += group.members.size();
        length += group.length * static_cast<double>(group.members.size());
      }
      CHECK(count == wall.frame.members.size());
      double all = 0;
      for (const auto& member : wall.frame.members) all += member.length;
      CHECK(length == Approx(all).margin(1.0 * static_cast<double>(count)));
      for (const auto& mark : plan::marksOf(groups, wall.frame.members.size())) CHECK_FALSE(mark.empty());
    }
  }
}

TEST_CASE("every mark of a demo wall's schedule stands on its elevation") {
  for (const auto& demo : testing::demoJobs()) {
    const auto made = testing::drawn(demo);
    for (std::size_t i = 0; i < demo.plan.walls.size(); ++i) {
      sheet::Wanted wanted;
      wanted.wall = i;
      const auto pages = sheet::layOut(made.subject(), wanted);  // a long wall is drawn on two
      const auto& frame = demo.plan.walls[i].frame;
      for (const auto& group : plan::groupsOf(frame, demo.practice->display)) {
        // A nogging shorter than its mark has none.
        if (group.part == plan::MemberPart::Nogging && group.length < 150 * static_cast<double>(group.mark.size())) {
          continue;
        }
        CAPTURE(demo.job.title, demo.job.walls[i].name, group.mark);
        const auto marks = [&](const auto& label) {
          const auto at = label.text.rfind(group.mark);
          if (at == std::string::npos) return false;
          const auto end = at + group.mark.size();
          const bool begins = at == 0 || label.text[at - 1] == ' ' || label.text[at - 1] == '/';
          return begins && (end == label.text.size() || label.text[end] == '/');
        };
        // Once more where the schedule is on the same page.
        const bool drawn_there = std::any_of(pages.begin(), pages.end(), [&](const auto& page) {
          return std::count_if(page.labels.begin(), page.labels.end(), marks) >
                 (testing::says(page, "section") ? 1 : 0);
        });
        CHECK(drawn_there);
      }
    }
  }
}

TEST_CASE("a stack is written from its thickest piece") {
  plan::PackingPoint point;
  CHECK(plan::stackWords(point, practice::Display::Millimetres) == "none");
  point.stack.piece = {10, 1.5};
  point.stack.pieces = 2;
  CHECK(plan::stackWords(point, practice::Display::Millimetres) == "10 + 1.5");
  point.backing = 20;
  CHECK(plan::stackWords(point, practice::Display::Millimetres) == "timber 20 + 10 + 1.5");
}
