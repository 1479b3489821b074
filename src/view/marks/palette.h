/// The colours of panels, labels and marks.
///
/// Two grounds: paper by day, slate in the evening. Colours of the drawing itself are the renderer's; these are for
/// what is written on and beside it. Values only, no panel library.
#pragma once

#include <cstdint>

#include "check/finding.h"

namespace sillwright::view {

struct Colour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
  bool operator==(const Colour&) const = default;
};

struct Palette {
  Colour ground;   ///< Behind the drawing; the renderer's own.
  Colour paper;    ///< Panels and label plates.
  Colour hovered;  ///< Under what the pointer or the keyboard is on.
  Colour picked;   ///< Under what is picked.
  Colour rule;     ///< Thin lines between groups and round panels. Never the only sign of anything.
  Colour ink;      ///< Text and drawn lines.
  Colour quiet;    ///< Less important text: still a text colour, with its full contrast.
  Colour timber;   ///< Framing in small drawings.
  Colour unit;     ///< Units in small drawings.
  Colour packer;   ///< Packers in small drawings.
};

[[nodiscard]] const Palette& palette(bool dark);

/// The colour of a verdict's mark, from Okabe and Ito's set that the colour-blind can tell apart. Always shown with the
/// mark's own shape and the word.
[[nodiscard]] Colour colourOf(check::Verdict verdict);
/// The ring round the mark of a verdict on planned sizes, and the mark of a measurement to take again.
inline constexpr Colour kPlannedRing{0x56, 0xB4, 0xE9};

}  // namespace sillwright::view
