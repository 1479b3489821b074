/// Where walls meet, and how far each layer of a wall runs past its frame or stops short of it there.
///
/// Only right-angled corners are closed: the outer one (a house's corner) and the inner one (of an L on plan). One of
/// the two walls runs past the other, the one whose layers would otherwise leave the other's stud ends bare. An end
/// that meets no wall is cut flush.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "job/job.h"
#include "plan/plan.h"

namespace sillwright::scene {

/// One end of a wall.
struct WallEnd {
  std::int32_t other = -1;  ///< The wall it meets; -1: none.
  double to_corner = 0;     ///< From the end of the frame to the other wall's outside face of studs, + is past the end.
  bool outer = true;        ///< An outer corner; false: an inner one.
  bool passes = false;      ///< This wall's outside layers run past the other's.
  bool operator==(const WallEnd&) const = default;
};

/// Left and right end.
using WallEnds = std::array<WallEnd, 2>;

[[nodiscard]] std::vector<WallEnds> findEnds(const job::Job& job, const plan::Plan& plan);

/// How far a layer outside the studs runs past the end of the frame (− stops short). `back` and `front` are how far the
/// other wall's same layer stands off its studs at its back and its front.
[[nodiscard]] double outsideEnd(const WallEnd& end, double back, double front);

/// The same for the lining, which stands on the inside.
[[nodiscard]] double liningEnd(const WallEnd& end, const plan::WallSpec& other);

}  // namespace sillwright::scene
