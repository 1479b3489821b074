// A unit's frame and leaves in elevation, and the signs of how it opens.
#include <array>

#include "plan/hold/panes.h"
#include "sheet/drawing/elevation.h"
#include "sheet/paper/marks.h"

namespace sillwright::sheet {
namespace {

constexpr Stroke kHinge{pen::kFine, Dash::Dashed};

using Area = plan::UnitRect;

struct Sheet {
  Painter& painter;
  const View& view;

  void rectangle(const Area& area, double weight) const {
    const Vec low = view.at(area.x0, area.z0);
    const Vec high = view.at(area.x1, area.z1);
    painter.box({low.x, high.y, high.x, low.y}, {weight});
  }
  void line(double ax, double az, double bx, double bz, const Stroke& stroke) const {
    painter.line(view.at(ax, az), view.at(bx, bz), stroke);
  }
  /// Frame and glass of a sash.
  void sash(const Area& outside, const Area& glass) const {
    rectangle(outside, pen::kMedium);
    rectangle(glass, pen::kFine);
    // Two short strokes across a corner: glass.
    const double run = std::min(glass.width(), glass.height()) * 0.22;
    line(glass.x0 + run * 0.4, glass.z1 - run * 1.2, glass.x0 + run * 1.2, glass.z1 - run * 0.4, {pen::kHair});
    line(glass.x0 + run * 0.4, glass.z1 - run * 1.7, glass.x0 + run * 1.7, glass.z1 - run * 0.4, {pen::kHair});
  }
};

/// An arrow over the sash that slides, the way it goes.
void drawSlide(const Sheet& sheet, const Area& sash, bool to_right) {
  const double middle = (sash.x0 + sash.x1) / 2;
  const double run = sash.width() * 0.16 * (to_right ? 1 : -1);
  const double z = sash.z0 + sash.height() * 0.62;
  drawArrow(sheet.painter, sheet.view.at(middle - run, z), sheet.view.at(middle + run, z), {pen::kMedium});
}

/// The two lines of a hung leaf meet at the side it is hung at.
void drawHung(const Sheet& sheet, const Area& leaf, double ax, double az, double bx, double bz, double tip_x,
              double tip_z) {
  const auto x = [&](double share) { return leaf.x0 + share * leaf.width(); };
  const auto z = [&](double share) { return leaf.z0 + share * leaf.height(); };
  sheet.line(x(ax), z(az), x(tip_x), z(tip_z), kHinge);
  sheet.line(x(bx), z(bz), x(tip_x), z(tip_z), kHinge);
}

}  // namespace

void drawUnit(Painter& painter, const View& view, const plan::UnitSpec& unit) {
  const Sheet sheet{painter, view};
  const plan::UnitParts parts = plan::partsOf(unit);
  const Area& frame = parts.frame;
  const Area& clear = parts.clear;
  if (unit.reveal) sheet.rectangle(frame, pen::kFine);
  sheet.rectangle(clear, pen::kFine);
  for (const auto& [ax, az, bx, bz] :
       {std::array{frame.x0, frame.z0, clear.x0, clear.z0}, std::array{frame.x1, frame.z0, clear.x1, clear.z0},
        std::array{frame.x1, frame.z1, clear.x1, clear.z1}, std::array{frame.x0, frame.z1, clear.x0, clear.z1}}) {
    sheet.line(ax, az, bx, bz, {pen::kHair});
  }
  const bool left = unit.hand == job::Hand::Left;
  const Area& leaf = parts.sash[0].outside;
  switch (unit.kind) {
    case job::UnitKind::SlidingWindow:
    case job::UnitKind::SlidingDoor:
      // The sash that slides runs in the inner track: behind the other one.
      for (const std::size_t i : {left ? 0U : 1U, left ? 1U : 0U}) sheet.sash(parts.sash[i].outside, parts.pane[i]);
      drawSlide(sheet, parts.sash[left ? 0 : 1].outside, left);
      break;
    case job::UnitKind::AwningWindow:
      sheet.sash(leaf, parts.pane[0]);
      drawHung(sheet, leaf, 0, 0, 1, 0, 0.5, 1);
      break;
    case job::UnitKind::CasementWindow:
    case job::UnitKind::HingedDoor:
      sheet.sash(leaf, parts.pane[0]);
      drawHung(sheet, leaf, left ? 1 : 0, 0, left ? 1 : 0, 1, left ? 0 : 1, 0.5);
      break;
    case job::UnitKind::FixedWindow:
      sheet.sash(clear, parts.pane[0]);
      break;
  }
  const Area outside{0, 0, unit.width, unit.height};
  sheet.rectangle(outside, pen::kBold);
}

}  // namespace sillwright::sheet
