/// Where water runs on a skin, exactly.
///
/// Three sources are traced and told apart: rain on the outermost face, seepage on the face behind the cladding, and
/// drainage out of the unit's frame. Water runs straight down the outer face of a sheet; off its lower edge it drops to
/// the outermost sheet behind; meeting the open top edge of a sheet further out it goes behind that sheet; meeting a
/// sealed or turned edge it is carried on to that sheet's outer face.
///
/// The width is cut into strips at every vertex and at every crossing of a sloped edge; within a strip the order of
/// surfaces from top to bottom does not change, so one path from the top of each exposed face covers every drop that
/// falls on it. No tolerance and no step size.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "plan/weather/skin.h"

namespace sillwright::plan {

enum class WaterSource : std::uint8_t { Rain, Seepage, FrameDrainage };
enum class WaterEnd : std::uint8_t {
  Outside,         ///< Off the foot of the wall on its outermost face.
  BehindCladding,  ///< Off the foot of the wall behind the cladding: the second line held.
  Timber,          ///< On to bare timber: a leak.
  IntoOpening      ///< Into the opening: a leak.
};

/// One stretch of a path: down the outer face of a sheet. At the middle of the strip.
struct WaterLeg {
  std::int32_t sheet = -1;  ///< Index in Skin::sheets; −1: bare timber.
  double z_from = 0;
  double z_to = 0;
};

struct WaterPath {
  WaterSource source = WaterSource::Rain;
  WaterEnd end = WaterEnd::Outside;
  double x_low = 0;  ///< The strip.
  double x_high = 0;
  std::uint32_t first_leg = 0;  ///< In Water::legs, from where it starts to where it ends.
  std::uint32_t legs = 0;
  /// The lap at fault if it ends badly: the first sheet that it got behind at an open top edge while the sheet that it
  /// ran down ends behind there; where none ends, the last one that it got behind. −1: none.
  std::int32_t went_behind = -1;
  std::int32_t came_from = -1;    ///< The sheet it ran down when it did; without one, the sheet that let it fall.
  std::int32_t then_behind = -1;  ///< What it got behind after that; −1: nothing.
  double z_behind = 0;            ///< Where it got behind, or fell off; else where it starts.
  bool lap_ended = false;         ///< It has left a lap behind it that was the wrong way round.
};

/// A fault, neighbouring strips gathered, in words.
struct Leak {
  WaterSource source = WaterSource::Rain;
  WaterEnd end = WaterEnd::Timber;
  double x_low = 0;
  double x_high = 0;
  double z = 0;             ///< Where it gets behind, or where the last sheet lets it fall.
  std::int32_t upper = -1;  ///< The sheets of the lap at fault; −1: there is none.
  std::int32_t lower = -1;
  std::string say;
};

/// What all paths come to.
struct WaterFaults {
  int strips = 0;
  std::size_t traced = 0;             ///< Paths.
  std::vector<Leak> leaks;            ///< Ends on timber or in the opening.
  std::vector<Leak> behind_cladding;  ///< Rain that got behind the cladding and leaves at the wall's foot.
  /// A lap the wrong way round whose water comes out again: it holds as yet.
  std::vector<Leak> held;
};

struct Water : WaterFaults {
  std::vector<WaterPath> paths;
  std::vector<WaterLeg> legs;
};

[[nodiscard]] Water traceWater(const Skin& skin);
/// The same faults without the paths, which are most of it: what a plan keeps. Takes a third of the time.
[[nodiscard]] WaterFaults waterFaults(const Skin& skin);

/// Height of water that a pressure holds up: h = p / (ρ g) with ρ = 1000 kg/m³ and g = 9.81 m/s²; mm for kPa.
[[nodiscard]] double headOfWater(double pressure_kpa);

/// "rain", "seepage", "frame drainage".
[[nodiscard]] const char* toWord(WaterSource source);

}  // namespace sillwright::plan
