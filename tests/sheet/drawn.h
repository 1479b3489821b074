/// Jobs with everything that sheets are drawn from, and the questions every page is asked.
#pragma once

#include <algorithm>
#include <iterator>
#include <memory>
#include <string>
#include <vector>

#include "check/judge.h"
#include "scene/build/build.h"
#include "sheet/sheets.h"
#include "support/demo_jobs.h"

namespace sillwright::testing {

struct Drawn {
  DemoJob demo;
  check::Findings findings;
  scene::Scene scene;

  [[nodiscard]] sheet::Subject subject() const { return {demo.job, *demo.practice, demo.plan, findings, scene}; }
};

inline Drawn drawn(DemoJob demo) {
  Drawn made;
  made.demo = std::move(demo);
  made.findings = check::judge(made.demo.job, *made.demo.practice, made.demo.plan);
  made.scene = scene::build(made.demo.job, *made.demo.practice, made.demo.plan, {});
  return made;
}

inline Drawn drawnFile(const std::string& name) {
  return drawn(demoJob(std::string(SILLWRIGHT_ASSETS_DIR) + "/jobs/" + name));
}

/// A job of one's own, with a practice of the program's.
inline Drawn drawnJob(job::Job job) {
  DemoJob demo;
  demo.job = std::move(job);
  auto loaded = practice::load(demo.job.practice, SILLWRIGHT_ASSETS_DIR, SILLWRIGHT_ASSETS_DIR);
  REQUIRE(loaded.ok());
  demo.practice = std::make_shared<const practice::Practice>(std::move(*loaded.value));
  demo.plan = plan::makePlan(demo.job, *demo.practice);
  return drawn(std::move(demo));
}

/// Texts overlap by less than this where their boxes touch: rounding of their advances.
inline constexpr double kTouch = 0.05;

/// What is wrong with a page's lettering, one line each: on top of each other, past the frame, too small to read.
inline std::vector<std::string> faultsOf(const sheet::PageLog& page) {
  std::vector<std::string> faults;
  const auto where = [](const sheet::Label& label) {
    return " '" + label.text + "' at " + std::to_string(label.box.x0) + ", " + std::to_string(label.box.y0);
  };
  for (std::size_t i = 0; i < page.labels.size(); ++i) {
    const sheet::Label& label = page.labels[i];
    if (!page.frame.holds(label.box)) faults.push_back(page.title + ": past the frame:" + where(label));
    // Under a heading of a list that goes on there is something of it.
    if (label.text == "Findings, continued") {
      const bool bare = i + 1 == page.labels.size() || page.labels[i + 1].box.y0 < label.box.y1 ||
                        page.labels[i + 1].box.y0 > label.box.y1 + 5;
      if (bare) faults.push_back(page.title + ": nothing under it:" + where(label));
    }
    if (label.text.ends_with("…") && label.text.size() < 8) faults.push_back(page.title + ": cut:" + where(label));
    if (label.capitals < 2.2) faults.push_back(page.title + ": too small:" + where(label));
    for (std::size_t k = i + 1; k < page.labels.size(); ++k) {
      if (label.box.grown(-kTouch).meets(page.labels[k].box.grown(-kTouch))) {
        faults.push_back(page.title + ": overlapping:" + where(label) + " and" + where(page.labels[k]));
      }
    }
  }
  return faults;
}

inline bool says(const sheet::PageLog& page, const std::string& words) {
  for (const auto& label : page.labels) {
    if (label.text.find(words) != std::string::npos) return true;
  }
  return false;
}

/// All that is lettered on pages, line after line.
inline std::string textOf(const std::vector<sheet::PageLog>& pages) {
  std::string text;
  for (const auto& page : pages) {
    for (const auto& label : page.labels) text += label.text + ' ';
  }
  return text;
}

/// What is found of every opening is on the pages: nothing is left off for want of room.
inline void checkAllIsSaid(const Drawn& made, const std::vector<sheet::PageLog>& pages) {
  for (std::size_t i = 0; i < made.demo.job.openings.size(); ++i) {
    const std::string& name = made.demo.job.openings[i].name;
    std::vector<sheet::PageLog> own;
    std::copy_if(pages.begin(), pages.end(), std::back_inserter(own),
                 [&](const auto& page) { return page.title.rfind(name + ":", 0) == 0; });
    const std::string text = textOf(own);
    const auto said = [&](const std::string& words) {
      CAPTURE(made.demo.job.title, name, words);
      CHECK(text.find(words) != std::string::npos);
    };
    for (const auto& finding : made.findings.openings[i]) {
      said(finding.say);
      if (finding.severity != check::Severity::Note) {
        said(finding.remedy);
        said(finding.caution);
      }
    }
  }
}

}  // namespace sillwright::testing
