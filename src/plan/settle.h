/// Settling what the job left out: the job's own values, else the practice's, and which ones those were.
///
/// The rooms above work on a WallSpec and a UnitSpec, in which every size is there. Each size that came from the
/// practice stands in `assumed`, so that the person is told; none is ever filled in without a word.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "practice/practice.h"

namespace sillwright::plan {

/// A size the job left out and the practice gave. The figure lives in the practice, which must outlive this.
struct Assumption {
  const char* key = "";  ///< As the job file would name it: "spacing", "unit.fin".
  const practice::Figure* figure = nullptr;
};

struct WallSpec {
  double length = 0;
  std::vector<job::TopPoint> top;
  job::StudSection stud;
  double spacing = 0;
  job::PlateCount plates;
  double lining = 0;
  job::Cladding cladding;
  std::vector<Assumption> assumed;

  /// Frame plus lining: how deep a reveal has to be.
  [[nodiscard]] double depth() const { return stud.depth + lining; }
};

struct UnitSpec {
  job::UnitKind kind = job::UnitKind::FixedWindow;
  double width = 0;
  double height = 0;
  job::FrameSection frame;
  std::optional<job::Reveal> reveal;
  double fin = 0;
  job::Glass glass;
  job::Hand hand = job::Hand::Left;
  std::vector<Assumption> assumed;

  [[nodiscard]] bool isDoor() const { return kind == job::UnitKind::SlidingDoor || kind == job::UnitKind::HingedDoor; }
};

[[nodiscard]] WallSpec settleWall(const job::Wall& wall, const practice::Practice& practice);
[[nodiscard]] UnitSpec settleUnit(const job::Unit& unit, const practice::Practice& practice);

/// The lintel over an opening: the job's, else the practice's for its width (with the assumption noted in `assumed`).
/// Empty where neither names one.
[[nodiscard]] std::optional<job::Lintel> settleLintel(const job::Opening& opening, const practice::Practice& practice,
                                                      std::vector<Assumption>& assumed);

}  // namespace sillwright::plan
