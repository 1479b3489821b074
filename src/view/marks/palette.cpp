#include "view/marks/palette.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace sillwright::view {
namespace {

constexpr Palette kDay{
    .ground = {0xF4, 0xF0, 0xE6},
    .paper = {0xFC, 0xFA, 0xF4},
    .hovered = {0xF1, 0xEA, 0xDA},
    .picked = {0xE8, 0xDD, 0xC4},
    .rule = {0xD8, 0xD0, 0xBE},
    .ink = {0x22, 0x26, 0x2B},
    .quiet = {0x5C, 0x5B, 0x55},
    .timber = {0xE3, 0xC0, 0x8A},
    .unit = {0xBF, 0xD9, 0xD5},
    .packer = {0x8A, 0x6F, 0xB0},
};

constexpr Palette kEvening{
    .ground = {0x20, 0x24, 0x2A},
    .paper = {0x2A, 0x2E, 0x35},
    .hovered = {0x37, 0x3C, 0x44},
    .picked = {0x45, 0x49, 0x4F},
    .rule = {0x4A, 0x50, 0x58},
    .ink = {0xF0, 0xEB, 0xDF},
    .quiet = {0xC2, 0xBD, 0xB1},
    .timber = {0x9A, 0x7E, 0x54},
    .unit = {0x47, 0x60, 0x5F},
    .packer = {0xA9, 0x8F, 0xCE},
};

/// WCAG 2.1: a channel of sRGB made linear.
double linear(std::uint8_t channel) {
  const double value = channel / 255.0;
  return value <= 0.04045 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

double luminance(Colour colour) {
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

}  // namespace

const Palette& palette(bool dark) {
  return dark ? kEvening : kDay;
}

Colour colourOf(check::Verdict verdict) {
  constexpr std::array<Colour, 3> kColours{{{0x00, 0x9E, 0x73}, {0xE6, 0x9F, 0x00}, {0xD5, 0x5E, 0x00}}};
  return kColours[static_cast<std::size_t>(verdict)];
}

double contrast(Colour a, Colour b) {
  const double first = luminance(a);
  const double second = luminance(b);
  return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

}  // namespace sillwright::view
