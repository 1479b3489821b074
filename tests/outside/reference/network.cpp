#include "outside/reference/network.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cassert>
#include <cmath>
#include <utility>

namespace sillwright::outside {
namespace {

constexpr int kMostIterations = 100;
/// Stops when no coordinate moves by more than this share of the network's extent: near the rounding of doubles.
constexpr double kStill = 1e-12;
/// An eigenvalue of the normal matrix below this share of the largest is a direction that nothing observes. Rounding
/// leaves about 1e-16; an observed direction this weak would be known 100 000 times worse than the best.
constexpr double kUnseen = 1e-10;

using Columns = std::vector<Eigen::Index>;  ///< Of each point's x among the unknowns; -1: fixed.

Columns numberUnknowns(const std::vector<NetworkPoint>& points) {
  Columns columns;
  Eigen::Index next = 0;
  for (const NetworkPoint& point : points) {
    columns.push_back(point.fixed ? -1 : next);
    if (!point.fixed) next += 2;
  }
  return columns;
}

Eigen::Index countUnknowns(const std::vector<NetworkPoint>& points) {
  Eigen::Index count = 0;
  for (const NetworkPoint& point : points) count += point.fixed ? 0 : 2;
  return count;
}

/// Observations at a shape, each divided by its standard error: derivative, and observed less computed.
struct Linear {
  Eigen::MatrixXd design;
  Eigen::VectorXd missing;
};

Linear linearise(const std::vector<Point>& points, const Columns& columns, Eigen::Index unknowns,
                 const std::vector<Observation>& observations) {
  const auto rows = static_cast<Eigen::Index>(observations.size());
  Linear linear{Eigen::MatrixXd::Zero(rows, unknowns), Eigen::VectorXd::Zero(rows)};
  for (Eigen::Index row = 0; row < rows; ++row) {
    const Observation& seen = observations[static_cast<std::size_t>(row)];
    assert(seen.from < points.size() && seen.to < points.size() && seen.from != seen.to && seen.sigma > 0);
    const double dx = points[seen.to].x - points[seen.from].x;
    const double dz = points[seen.to].z - points[seen.from].z;
    const double length = std::hypot(dx, dz);
    const bool distance = seen.kind == Observed::Distance;
    const double computed = distance ? length : seen.kind == Observed::AcrossX ? dx : dz;
    const double by_x = distance ? (length > 0 ? dx / length : 0) : seen.kind == Observed::AcrossX ? 1 : 0;
    const double by_z = distance ? (length > 0 ? dz / length : 0) : seen.kind == Observed::UpZ ? 1 : 0;
    linear.missing(row) = (seen.value - computed) / seen.sigma;
    for (const auto& [point, sign] : {std::pair(seen.to, 1.0), std::pair(seen.from, -1.0)}) {
      if (columns[point] < 0) continue;
      linear.design(row, columns[point]) = sign * by_x / seen.sigma;
      linear.design(row, columns[point] + 1) = sign * by_z / seen.sigma;
    }
  }
  return linear;
}

/// The pseudo-inverse of the normal matrix, and the directions it leaves out.
struct Inverse {
  Eigen::MatrixXd covariance;
  Eigen::MatrixXd unseen;  ///< Orthonormal columns.
};

Inverse invert(const Eigen::MatrixXd& design) {
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(design.transpose() * design);
  const Eigen::VectorXd& values = solver.eigenvalues();  // rising
  const Eigen::Index size = values.size();
  Eigen::Index defect = 0;
  while (defect < size && !(values(defect) > kUnseen * values(size - 1))) ++defect;
  const Eigen::MatrixXd seen = solver.eigenvectors().rightCols(size - defect);
  const Eigen::VectorXd inverse = values.tail(size - defect).cwiseInverse();
  return {seen * inverse.asDiagonal() * seen.transpose(), solver.eigenvectors().leftCols(defect)};
}

/// How far the free points have moved from where they were put.
Eigen::VectorXd movement(const std::vector<Point>& now, const std::vector<NetworkPoint>& put, const Columns& columns,
                         Eigen::Index unknowns) {
  Eigen::VectorXd moved = Eigen::VectorXd::Zero(unknowns);
  for (std::size_t i = 0; i < put.size(); ++i) {
    if (columns[i] < 0) continue;
    moved(columns[i]) = now[i].x - put[i].at.x;
    moved(columns[i] + 1) = now[i].z - put[i].at.z;
  }
  return moved;
}

double extentOf(const std::vector<NetworkPoint>& points) {
  double extent = 0;
  for (const NetworkPoint& point : points) {
    extent = std::max({extent, std::abs(point.at.x - points[0].at.x), std::abs(point.at.z - points[0].at.z)});
  }
  return extent;
}

void report(const Linear& linear, const Inverse& inverse, const Columns& columns,
            const std::vector<Observation>& observations, NetworkResult& result) {
  result.defect = static_cast<int>(inverse.unseen.cols());
  result.freedom = static_cast<int>(linear.design.rows() - linear.design.cols()) + result.defect;
  result.chi_square = linear.missing.squaredNorm();
  const Eigen::MatrixXd explained = linear.design * inverse.covariance;
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const auto row = static_cast<Eigen::Index>(i);
    AdjustedObservation adjusted;
    adjusted.residual = -linear.missing(row) * observations[i].sigma;
    adjusted.redundancy = std::clamp(1 - explained.row(row).dot(linear.design.row(row)), 0.0, 1.0);
    if (adjusted.redundancy > kUnseen) {
      adjusted.standardised = std::abs(linear.missing(row)) / std::sqrt(adjusted.redundancy);
    }
    result.observations.push_back(adjusted);
  }
  const std::size_t size = 2 * columns.size();
  result.covariance.assign(size * size, 0.0);
  const auto columnOf = [&columns](std::size_t coordinate) {
    const Eigen::Index column = columns[coordinate / 2];
    return column < 0 ? column : column + static_cast<Eigen::Index>(coordinate % 2);
  };
  for (std::size_t i = 0; i < size; ++i) {
    for (std::size_t j = 0; j < size; ++j) {
      if (columnOf(i) < 0 || columnOf(j) < 0) continue;
      result.covariance[i * size + j] = inverse.covariance(columnOf(i), columnOf(j));
    }
  }
}

}  // namespace

double NetworkResult::sigmaZero() const { return freedom > 0 ? std::sqrt(chi_square / freedom) : 0; }

std::array<double, 2> NetworkResult::sigmaOf(std::size_t point) const {
  const std::size_t size = 2 * points.size();
  const auto at = [&](std::size_t i) { return std::sqrt(std::max(0.0, covariance[i * size + i])); };
  return {at(2 * point), at(2 * point + 1)};
}

NetworkResult adjustNetwork(const std::vector<NetworkPoint>& points, const std::vector<Observation>& observations) {
  NetworkResult result;
  for (const NetworkPoint& point : points) result.points.push_back(point.at);
  const Columns columns = numberUnknowns(points);
  const Eigen::Index unknowns = countUnknowns(points);
  if (unknowns == 0 || observations.empty()) return result;

  const double still = kStill * extentOf(points);
  double moved = 0;
  for (; result.iterations < kMostIterations; ++result.iterations) {
    const Linear linear = linearise(result.points, columns, unknowns, observations);
    const Inverse inverse = invert(linear.design);
    if (result.iterations > 0 && moved <= still) {
      result.converged = true;
      report(linear, inverse, columns, observations, result);
      return result;
    }
    // The pseudo-inverse gives the step of least length; taking back what has been moved along the unseen directions
    // makes the whole movement, not each step alone, the least.
    const Eigen::VectorXd strayed =
        inverse.unseen * (inverse.unseen.transpose() * movement(result.points, points, columns, unknowns));
    const Eigen::VectorXd step = inverse.covariance * (linear.design.transpose() * linear.missing) - strayed;
    if (!step.allFinite()) return result;
    moved = step.cwiseAbs().maxCoeff();
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (columns[i] < 0) continue;
      result.points[i].x += step(columns[i]);
      result.points[i].z += step(columns[i] + 1);
    }
  }
  return result;
}

}  // namespace sillwright::outside
