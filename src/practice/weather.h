/// Flashings, membrane and cladding: what a practice says about keeping water out of one opening.
///
/// A Measure gives what is cut and drawn (`usual`) and, where the practice names one, the least a check holds it to.
/// Lengths along the wall are past the framed opening, each side. Millimetres, degrees.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "practice/figure.h"

namespace sillwright::practice {

enum class Comparison : std::uint8_t { AtLeast, MoreThan };

/// A head may go without flashing where the eave's reach compares with `ratio` times the drop from soffit to head.
struct EaveRule {
  Rule ratio;  ///< Empty: the practice names none; every head is flashed.
  Comparison comparison = Comparison::AtLeast;

  /// Whether the eave keeps the rain off. Without a ratio nothing is sheltered. `drop` may be negative (the soffit is
  /// below the head): sheltered, wherever there is a rule and an eave.
  [[nodiscard]] bool shelters(double reach, double drop) const;
  bool operator==(const EaveRule&) const = default;
};

struct Flashings {
  Measure sill_past;           ///< Sill flashing past the opening at each end.
  Measure jamb_past;           ///< Jamb flashing past the opening's head.
  Measure head_past;           ///< Head flashing past the opening at each end.
  Measure jamb_over_sill;      ///< Lap of a jamb flashing's foot over the sill flashing, below the opening's sill.
  Measure head_over_jamb;      ///< Lap of the head flashing over the jamb flashings' tops.
  Measure sill_down;           ///< Sill flashing down the wall face.
  Measure jamb_out;            ///< Jamb flashing on to the wall face.
  Measure sill_upstand;        ///< Inner edge of the sill flashing turned up behind the unit.
  Measure sill_end_upstand;    ///< Its ends turned up the studs.
  Measure head_upstand;        ///< On the wall, behind the membrane's flap.
  Measure head_slope;          ///< Fall outwards, degrees.
  Measure head_turn_down;      ///< Over the fin.
  Measure head_stop_end;       ///< Height of the stop ends.
  Measure head_reach;          ///< Outwards from the wall face to the turn-down.
  ByClass head_upstand_extra;  ///< Added to head_upstand's least.
  std::vector<std::string> head_sealed_in;  ///< Wind classes in which the head flashing is sealed to the fin.
  EaveRule eave;
  bool operator==(const Flashings&) const = default;
};

struct Membrane {
  Measure lap;             ///< A run over the one below.
  Measure end_lap;         ///< End over end, on a stud.
  Measure flap_over_head;  ///< The head flap over the head flashing's upstand.
  Measure corner_tape;     ///< Tape both ways from each corner of the opening.
  Rule fixing_spacing_most;
  Rule corners_taped;         ///< 1: the bare triangle that each 45° cut leaves is taped.
  Rule support_spacing_most;  ///< Battens or tape behind it at no more than this …
  Rule support_from_studs;    ///< … where studs stand further apart than this.
  bool operator==(const Membrane&) const = default;
};

struct CladdingRules {
  Measure head_gap;  ///< End of the cladding above to the head flashing.
  Rule board_lap_least;
  Rule over_upstand_least;  ///< Cladding over the head flashing's upstand.
  Rule under_sill_least;    ///< Sill flange or flashing over the cladding below.
  Rule jamb_cover_least;    ///< Jamb flange over the cladding's edge.
  Rule ground_clearance;
  std::vector<std::string> direct_fix_not_in;  ///< Wind classes that want a cavity.
  bool operator==(const CladdingRules&) const = default;
};

/// Sealing between unit and frame.
struct Sealing {
  Rule backing_from;  ///< A gap wider than this wants a backing strip.
  Rule sealant_depth_least;
  Rule cover_strip_from;  ///< A joint wider than this wants a cover strip.
  bool operator==(const Sealing&) const = default;
};

struct Weather {
  Flashings flashing;
  Membrane membrane;
  CladdingRules cladding;
  Sealing sealing;
  ByClass door_upstand;  ///< Turn-up of the membrane at a door's sill.
  bool operator==(const Weather&) const = default;
};

}  // namespace sillwright::practice
