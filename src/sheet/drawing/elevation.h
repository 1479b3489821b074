/// Inside the room: elevations, seen from outside, of an opening and of a wall.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "plan/frame/frame.h"
#include "sheet/paper/page.h"

namespace sillwright::sheet {

/// Draws an opening as built, the unit in it with its fin and cladding off, into the room from its top on. The unit is
/// to scale. Everything off it (gaps, packers, out of true, bow) is drawn larger by a whole number, which the drawing
/// states; the figures are true. Answers where it ends.
double drawAsBuilt(Book& book, std::size_t opening, const Box& room, const Scale& scale);

/// The largest scale for the room.
[[nodiscard]] Scale asBuiltScale(const Subject& subject, std::size_t opening, const Box& room);

/// The lines of a unit's frame and leaves, its outside corner at the view's (0, 0), with how it opens.
void drawUnit(Painter& painter, const View& view, const plan::UnitSpec& unit);

// A wall, or a stretch of a long one, as its elevation shows it: timber, openings, set-out.

/// Room that dimensions take round an elevation, mm of paper.
inline constexpr double kLeftDims = 21, kRightDims = 27, kAboveDims = 13, kBelowDims = 37;

struct WallDrawing {
  Book& book;
  const Subject& subject;
  Painter& painter;
  std::size_t index;
  const job::Wall& wall;
  const plan::WallPlan& planned;
  std::vector<plan::MemberGroup> groups{};
  std::vector<std::string> marks{};
  double x0 = 0, x1 = 0, z1 = 0;  ///< Extent of what is drawn, mm of the wall.
  bool whole = true;              ///< False: a stretch, cut off at x0 or x1.
  View view{};

  [[nodiscard]] std::string figure(double mm) const { return subject.figure(mm); }
  [[nodiscard]] const job::Opening& opening(std::int32_t i) const {
    return subject.job.openings[static_cast<std::size_t>(i)];
  }
  [[nodiscard]] Vec at(double x, double z) const { return view.at(x, z); }
  /// Whether what has its middle there is of this stretch.
  [[nodiscard]] bool shows(double middle) const { return whole || (middle >= x0 && middle < x1); }
  [[nodiscard]] bool shows(const job::Opening& of) const { return shows(of.left + of.width / 2); }
};

/// Draws it at a scale into the middle of the room, with its dimensions and a scale bar.
void drawElevation(WallDrawing& drawing, const Scale& scale, const Box& room);

}  // namespace sillwright::sheet
