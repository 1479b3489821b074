/// Inside the room: a wall, or a stretch of a long one, as its elevation shows it: timber, openings, set-out.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "plan/frame/frame.h"
#include "sheet/paper/page.h"
#include "sheet/words.h"

namespace sillwright::sheet {

/// Room that dimensions take round an elevation, mm of paper.
inline constexpr double kLeftDims = 21, kRightDims = 27, kAboveDims = 13, kBelowDims = 37;

struct WallDrawing {
  Book& book;
  Painter& painter;
  std::size_t index;
  const job::Wall& wall;
  const plan::WallPlan& planned;
  std::vector<plan::MemberGroup> groups{};
  std::vector<std::string> marks{};
  double x0 = 0, x1 = 0, z1 = 0;  ///< Extent of what is drawn, mm of the wall.
  bool whole = true;              ///< False: a stretch, cut off at x0 or x1.
  View view{};

  [[nodiscard]] practice::Display display() const { return book.subject.practice.display; }
  [[nodiscard]] std::string figure(double mm) const { return sheet::figure(mm, display()); }
  [[nodiscard]] const job::Opening& opening(std::int32_t i) const {
    return book.subject.job.openings[static_cast<std::size_t>(i)];
  }
  /// Whether an opening is of this stretch.
  [[nodiscard]] bool shows(const job::Opening& of) const {
    const double middle = of.left + of.width / 2;
    return whole || (middle >= x0 && middle < x1);
  }
};

/// Widens the extent from the wall itself to openings that run past it.
void measureExtent(WallDrawing& drawing);

/// Draws an opening with its heights; false where its name had no room in it.
[[nodiscard]] bool drawOpeningIn(WallDrawing& drawing, std::int32_t index);

/// The name of an opening that is too small for it, over the wall on a leader, where no other text stands yet.
void drawNameOver(WallDrawing& drawing, std::int32_t index);

/// Draws it at a scale into the middle of the room, with its dimensions and a scale bar.
void drawElevation(WallDrawing& drawing, const Scale& scale, const Box& room);

}  // namespace sillwright::sheet
