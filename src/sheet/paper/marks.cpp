#include "sheet/paper/marks.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

namespace sillwright::sheet {

namespace {

// The colour-blind-safe set of Okabe and Ito; each sign is told apart by its shape alone.
constexpr Ink kReady{0.0, 0.62, 0.45}, kAttend{0.90, 0.62, 0.0}, kStop{0.84, 0.37, 0.0}, kPlanned{0.34, 0.71, 0.91};

void drawTriangle(Painter& painter, Vec left, double size, const Ink& ink) {
  const std::array<Vec, 3> corners{Vec{left.x, left.y + size / 2}, Vec{left.x + size, left.y + size / 2},
                                   Vec{left.x + size / 2, left.y - size / 2}};
  painter.shape(corners, ink, {pen::kMedium});
}

void drawHead(Painter& painter, Vec from, Vec to) {
  constexpr double kLong = 2.0, kHalf = 0.55;
  const double run = length(to - from);
  if (run < 1e-9) return;
  const Vec along = (to - from) * (1 / run);
  const Vec across{-along.y, along.x};
  const Vec back = to - along * kLong;
  const std::array<Vec, 3> head{to, back + across * kHalf, back - across * kHalf};
  painter.fill(head, kBlack);
}

}  // namespace

void drawVerdict(Painter& painter, Vec left, double size, check::Verdict verdict, check::Basis basis) {
  const Vec middle{left.x + size / 2, left.y};
  if (basis == check::Basis::Planned) {
    painter.circle(middle, size / 2, {size / 8, Dash::Solid, kPlanned});
    const double inner = size * 0.55;
    drawVerdict(painter, {middle.x - inner / 2, left.y}, inner, verdict);
    return;
  }
  const Box square{left.x, left.y - size / 2, left.x + size, left.y + size / 2};
  switch (verdict) {
    case check::Verdict::Ready:
      painter.disc(middle, size / 2, kReady);
      painter.circle(middle, size / 2, {pen::kMedium});
      break;
    case check::Verdict::Attend:
      drawTriangle(painter, left, size, kAttend);
      break;
    case check::Verdict::Stop:
      painter.shape(square, kStop, {pen::kMedium});
      break;
  }
}

void drawSeverity(Painter& painter, Vec left, double size, check::Severity severity) {
  if (severity == check::Severity::Note) {
    painter.disc({left.x + size / 2, left.y}, size / 6, kBlack);
    return;
  }
  const bool stop = severity == check::Severity::Stop;
  drawVerdict(painter, left, size, stop ? check::Verdict::Stop : check::Verdict::Attend);
}

void drawTickBox(Painter& painter, Vec upper_left, double size) {
  painter.box({upper_left.x, upper_left.y, upper_left.x + size, upper_left.y + size}, {pen::kMedium});
}

void drawBalloon(Painter& painter, Vec middle, const std::string& text, double radius) {
  painter.disc(middle, radius, kWhite);
  painter.circle(middle, radius, {pen::kFine});
  const Lettering how{.weight = Weight::Bold, .align = Align::Centre};
  painter.text({middle.x, middle.y + how.capitals / 2}, text, how);
}

void drawBreak(Painter& painter, Vec from, Vec to) {
  const Vec run = to - from;
  const double whole = length(run);
  if (whole < 1e-9) return;
  const Vec along = run * (1 / whole);
  const Vec across{-along.y, along.x};
  const Vec middle = (from + to) * 0.5;
  const std::array<Vec, 6> line{from - along * 1.0,
                                middle - along * 0.9,
                                middle - along * 0.4 + across * 1.2,
                                middle + along * 0.4 - across * 1.2,
                                middle + along * 0.9,
                                to + along * 1.0};
  painter.path(line, {pen::kFine});
}

void drawArrow(Painter& painter, Vec from, Vec to, const Stroke& stroke) {
  painter.line(from, to, stroke);
  drawHead(painter, from, to);
}

void drawDoubleArrow(Painter& painter, Vec from, Vec to, const Stroke& stroke) {
  painter.line(from, to, stroke);
  drawHead(painter, from, to);
  drawHead(painter, to, from);
}

std::vector<std::array<Vec, 2>> hatchLines(std::span<const Vec> polygon, double degrees, double spacing) {
  std::vector<std::array<Vec, 2>> lines;
  if (polygon.size() < 3 || !(spacing > 0)) return lines;
  const double angle = degrees * std::numbers::pi / 180;
  const Vec along{std::cos(angle), -std::sin(angle)};
  const Vec across{-along.y, along.x};
  const auto dot = [](Vec a, Vec b) { return a.x * b.x + a.y * b.y; };
  double low = std::numeric_limits<double>::infinity();
  double high = -low;
  for (const Vec& corner : polygon) {
    low = std::min(low, dot(corner, across));
    high = std::max(high, dot(corner, across));
  }
  std::vector<double> crossings;
  for (double k = std::ceil(low / spacing); k * spacing < high; ++k) {
    const double at = k * spacing;
    crossings.clear();
    for (std::size_t i = 0; i < polygon.size(); ++i) {
      const Vec a = polygon[i];
      const Vec b = polygon[(i + 1) % polygon.size()];
      const double da = dot(a, across) - at;
      const double db = dot(b, across) - at;
      // Half-open: a corner that lies on the line counts for one of its two edges only.
      if ((da < 0) == (db < 0)) continue;
      const double t = da / (da - db);
      crossings.push_back(dot(a + (b - a) * t, along));
    }
    std::sort(crossings.begin(), crossings.end());
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
      if (crossings[i + 1] - crossings[i] < 1e-9) continue;
      lines.push_back({along * crossings[i] + across * at, along * crossings[i + 1] + across * at});
    }
  }
  return lines;
}

}  // namespace sillwright::sheet
