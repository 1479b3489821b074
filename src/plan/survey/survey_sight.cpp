#include "plan/survey/survey_sight.h"

namespace sillwright::plan {
namespace {

/// Index of a corner's x among the unknowns; its z follows. BL is the origin and comes after them.
constexpr Eigen::Index kBR = 0, kTR = 2, kTL = 4, kOrigin = 6;

/// Corners that a distance is read between. Its derivative is its direction, + at `to`, − at `from`.
struct Span {
  Eigen::Index from, to;
};
constexpr std::array<Span, kDistances> kSpans = {
    {{kOrigin, kBR}, {kTL, kTR}, {kOrigin, kTL}, {kBR, kTR}, {kOrigin, kTR}, {kTL, kBR}}};

constexpr auto kFall = static_cast<Eigen::Index>(Reading::OutOfLevel);
constexpr auto kLeft = static_cast<Eigen::Index>(Reading::OutOfPlumbLeft);
constexpr auto kRight = static_cast<Eigen::Index>(Reading::OutOfPlumbRight);

/// A side no longer than this is that of a triangle's corner, and is read plumb, mm.
constexpr double kNoSide = 1;

}  // namespace

std::array<double, kReadings> nineReadings(const OpeningShape& shape) {
  const auto& [bl, br, tr, tl] = shape.corner;
  const Vector6 corners{{br.x - bl.x, br.z - bl.z, tr.x - bl.x, tr.z - bl.z, tl.x - bl.x, tl.z - bl.z}};
  std::array<double, kReadings> readings{};
  Eigen::Map<Vector9>(readings.data()) = sightOf(corners).value;
  return readings;
}

Sight sightOf(const Vector6& corners) {
  Eigen::Matrix<double, kUnknowns + 2, 1> x;
  x << corners, 0, 0;
  Eigen::Matrix<double, kReadings, kUnknowns + 2> rows = decltype(rows)::Zero();
  Sight sight;
  for (std::size_t d = 0; d < kDistances; ++d) {
    const auto row = static_cast<Eigen::Index>(d);
    const auto [from, to] = kSpans[d];
    const Eigen::Vector2d apart = x.segment<2>(to) - x.segment<2>(from);
    const double length = apart.norm();
    const bool is_corner = length < kNoSide;
    const Eigen::Vector2d along = is_corner ? Eigen::Vector2d::UnitY().eval() : (apart / length).eval();
    sight.value[row] = is_corner ? apart.y() : length;
    rows.block<1, 2>(row, to) = along.transpose();
    rows.block<1, 2>(row, from) = -along.transpose();
  }
  rows(kFall, kBR + 1) = rows(kLeft, kTL) = rows(kRight, kTR) = 1;
  rows(kRight, kBR) = -1;
  sight.value.tail<3>() = rows.bottomRows<3>() * x;
  sight.rows = rows.leftCols<kUnknowns>();
  return sight;
}

}  // namespace sillwright::plan
