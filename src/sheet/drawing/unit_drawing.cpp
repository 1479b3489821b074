// A unit's frame and leaves in elevation, and the signs of how it opens.

#include <algorithm>

#include "plan/panes.h"
#include "scene/describe.h"
#include "sheet/drawing/elevation.h"

namespace sillwright::sheet {

namespace {

constexpr Stroke kHinge{pen::kFine, Dash::Dashed};

using plan::Rect;

struct Sheet {
  Painter& painter;
  const View& view;
  const plan::UnitParts& parts;

  /// But for what a head that follows the roof cuts off, so far inside the unit's outside.
  void rectangle(const Rect& area, double inside, double weight) const {
    if (parts.head.level()) return painter.box(view.box(area.x0, area.z0, area.x1, area.z1), {weight});
    painter.path(view.at(parts.within(area, inside)), {weight}, true);
  }
  void line(double ax, double az, double bx, double bz, const Stroke& stroke) const {
    painter.line(view.at(ax, az), view.at(bx, bz), stroke);
  }
  /// Frame and glass of a sash.
  void sash(const Rect& outside, const Rect& glass) const {
    rectangle(outside, parts.clear.x0, pen::kMedium);
    rectangle(glass, parts.clear.x0, pen::kFine);
    // Two short strokes across a corner: glass.
    const double run = std::min(glass.width(), glass.height()) * 0.22;  // keeps the strokes in their corner
    if (!parts.head.level() && glass.z1 > parts.head.lowest(glass.x0, glass.x1)) return;  // the corner may be cut off
    line(glass.x0 + run * 0.4, glass.z1 - run * 1.2, glass.x0 + run * 1.2, glass.z1 - run * 0.4, {pen::kHair});
    line(glass.x0 + run * 0.4, glass.z1 - run * 1.7, glass.x0 + run * 1.7, glass.z1 - run * 0.4, {pen::kHair});
  }
};

/// An arrow over a sash that slides, the way it goes.
void drawSlide(const Sheet& sheet, const Rect& sash, plan::Motion motion) {
  const Vec middle{(sash.x0 + sash.x1) / 2, sash.z0 + sash.height() * 0.62};
  const double run = std::min(sash.width(), sash.height()) * 0.16;
  const Vec way = motion == plan::Motion::SlidesRight  ? Vec{run, 0}
                  : motion == plan::Motion::SlidesLeft ? Vec{-run, 0}
                  : motion == plan::Motion::SlidesUp   ? Vec{0, run}
                                                       : Vec{0, -run};
  drawArrow(sheet.painter, sheet.view.at(middle.x - way.x, middle.y - way.y),
            sheet.view.at(middle.x + way.x, middle.y + way.y), {pen::kMedium});
}

/// The two lines of a hung leaf meet at the side it is hung at; `x`, `z` of that side's middle, as shares of the leaf.
void drawHung(const Sheet& sheet, const Rect& leaf, double x, double z) {
  const auto line = [&](double ax, double az) {
    sheet.line(leaf.x0 + ax * leaf.width(), leaf.z0 + az * leaf.height(), leaf.x0 + x * leaf.width(),
               leaf.z0 + z * leaf.height(), kHinge);
  };
  const bool aside = z == 0.5;
  line(aside ? 1 - x : 0, aside ? 0 : 1 - z);  // both lines begin at the corners over against that side
  line(aside ? 1 - x : 1, aside ? 1 : 1 - z);
}

void drawMotion(const Sheet& sheet, const plan::Sash& sash) {
  using M = plan::Motion;
  const bool slides = sash.motion >= M::SlidesLeft && sash.motion <= M::SlidesDown;
  if (slides) drawSlide(sheet, sash.outside, sash.motion);
  if (sash.motion == M::HungAbove) drawHung(sheet, sash.outside, 0.5, 1);
  if (sash.motion == M::HungBelow || sash.motion == M::TiltsAndTurns) drawHung(sheet, sash.outside, 0.5, 0);
  if (plan::hangsAside(sash.motion)) drawHung(sheet, sash.outside, sash.heldLeft() ? 0 : 1, 0.5);
  if (sash.motion == M::Folds) drawSlide(sheet, sash.outside, sash.left ? M::SlidesLeft : M::SlidesRight);
}

/// Sashes and panes of one light; those of an inner track are behind the others.
void drawLight(const Sheet& sheet, const plan::UnitParts& parts, const plan::LightParts& light) {
  if (light.sashes == 0) {
    for (const Rect& pane : parts.panesOf(light)) sheet.sash(pane, pane);
    return;
  }
  const auto sashes = parts.sashesOf(light);
  std::vector<plan::Sash> order(sashes.begin(), sashes.end());
  std::ranges::stable_sort(order, std::ranges::greater{}, &plan::Sash::track);  // what is further out is drawn over it
  for (const plan::Sash& sash : order) sheet.sash(sash.outside, parts.pane[sash.pane]);
  for (const plan::Sash& sash : sashes) drawMotion(sheet, sash);  // the signs lie over all sashes
}

}  // namespace

void drawUnit(Painter& painter, const View& view, const plan::UnitSpec& unit) {
  const Group group = painter.group(scene::nameOf(scene::Layer::Unit));
  const plan::UnitParts parts = plan::partsOf(unit);
  const Sheet sheet{painter, view, parts};
  const Rect& frame = parts.frame;
  const Rect& clear = parts.clear;
  if (unit.reveal) sheet.rectangle(parts.in_reveal, frame.x0, pen::kFine);
  if (unit.sub_sill) sheet.line(frame.x0, frame.z0, frame.x1, frame.z0, {pen::kFine});
  for (const Rect& part : parts.made) {
    const Rect inside = part.inset(clear.x0 - frame.x0);  // the frame is as wide all round
    sheet.rectangle(inside, clear.x0, pen::kFine);
    const std::vector<plan::Point> outer = parts.within(part, frame.x0);
    const std::vector<plan::Point> inner = parts.within(inside, clear.x0);
    for (std::size_t i = 0; i < std::min(outer.size(), inner.size()); ++i) {  // mitres; a head may cut off a corner
      sheet.line(outer[i].x, outer[i].z, inner[i].x, inner[i].z, {pen::kHair});
    }
    if (parts.made.size() > 1) sheet.rectangle(part, frame.x0, pen::kMedium);
  }
  for (const Rect& bar : parts.bar) {
    if (!parts.isOfJoint(bar)) sheet.rectangle(bar, clear.x0, pen::kFine);  // the frames that meet there are drawn
  }
  for (const plan::LightParts& light : parts.light) drawLight(sheet, parts, light);
  sheet.rectangle({0, 0, unit.width, unit.height}, 0, pen::kBold);  // the outline lies over all that meets it
}

}  // namespace sillwright::sheet
