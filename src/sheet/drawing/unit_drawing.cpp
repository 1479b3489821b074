// A unit's frame and leaves in elevation, and the signs of how it opens.
#include <array>

#include "sheet/drawing/elevation.h"
#include "sheet/paper/marks.h"

namespace sillwright::sheet {
namespace {

constexpr double kSash = 40;  // face of a sash where nothing names it: common practice, no source
constexpr Stroke kHinge{pen::kFine, Dash::Dashed};

struct Area {
  double x0, z0, x1, z1;
  [[nodiscard]] Area inset(double by) const { return {x0 + by, z0 + by, x1 - by, z1 - by}; }
  [[nodiscard]] double width() const { return x1 - x0; }
  [[nodiscard]] double height() const { return z1 - z0; }
};

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
  void sash(const Area& area) const {
    rectangle(area, pen::kMedium);
    const Area glass = area.inset(std::min(kSash, area.width() / 5));
    rectangle(glass, pen::kFine);
    // Two short strokes across a corner: glass.
    const double run = std::min(glass.width(), glass.height()) * 0.22;
    line(glass.x0 + run * 0.4, glass.z1 - run * 1.2, glass.x0 + run * 1.2, glass.z1 - run * 0.4, {pen::kHair});
    line(glass.x0 + run * 0.4, glass.z1 - run * 1.7, glass.x0 + run * 1.7, glass.z1 - run * 0.4, {pen::kHair});
  }
};

void drawSliding(const Sheet& sheet, const Area& clear, bool slides_left) {
  const double half = (clear.width() + kSash) / 2;
  const Area left{clear.x0, clear.z0, clear.x0 + half, clear.z1};
  const Area right{clear.x1 - half, clear.z0, clear.x1, clear.z1};
  sheet.sash(slides_left ? left : right);
  sheet.sash(slides_left ? right : left);
  const Area& moves = slides_left ? left : right;
  const double middle = (moves.x0 + moves.x1) / 2;
  const double run = moves.width() * 0.16 * (slides_left ? 1 : -1);
  const double z = clear.z0 + clear.height() * 0.62;
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
  const Area outside{0, 0, unit.width, unit.height};
  const double reveal = unit.reveal ? unit.reveal->thickness : 0.0;
  const Area frame = outside.inset(reveal);
  const Area clear = frame.inset(std::min(unit.frame.face, std::min(frame.width(), frame.height()) / 5));
  if (reveal > 0) sheet.rectangle(frame, pen::kFine);
  sheet.rectangle(clear, pen::kFine);
  for (const auto& [ax, az, bx, bz] :
       {std::array{frame.x0, frame.z0, clear.x0, clear.z0}, std::array{frame.x1, frame.z0, clear.x1, clear.z0},
        std::array{frame.x1, frame.z1, clear.x1, clear.z1}, std::array{frame.x0, frame.z1, clear.x0, clear.z1}}) {
    sheet.line(ax, az, bx, bz, {pen::kHair});
  }
  const bool left = unit.hand == job::Hand::Left;
  switch (unit.kind) {
    case job::UnitKind::SlidingWindow:
    case job::UnitKind::SlidingDoor:
      drawSliding(sheet, clear, left);
      break;
    case job::UnitKind::AwningWindow:
      sheet.sash(clear);
      drawHung(sheet, clear, 0, 0, 1, 0, 0.5, 1);
      break;
    case job::UnitKind::CasementWindow:
    case job::UnitKind::HingedDoor:
      sheet.sash(clear);
      drawHung(sheet, clear, left ? 1 : 0, 0, left ? 1 : 0, 1, left ? 0 : 1, 0.5);
      break;
    case job::UnitKind::FixedWindow:
      sheet.sash(clear);
      break;
  }
  sheet.rectangle(outside, pen::kBold);
}

}  // namespace sillwright::sheet
