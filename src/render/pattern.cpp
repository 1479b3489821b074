#include "render/pattern.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace sillwright::render {
namespace {

constexpr float kTurn = 2.0F * std::numbers::pi_v<float>;

/// 0…1 from a place on an integer lattice. Integers only, so that every machine paints the same.
float chance(int x, int y, std::uint32_t seed) {
  std::uint32_t h = static_cast<std::uint32_t>(x) * 0x9E3779B1U + static_cast<std::uint32_t>(y) * 0x85EBCA77U + seed;
  h ^= h >> 15U;
  h *= 0x2C1B3C6DU;
  h ^= h >> 12U;
  h *= 0x297A2D39U;
  h ^= h >> 15U;
  return static_cast<float>(h >> 8U) / 16777216.0F;
}

/// Smooth noise 0…1 on the tile (x, y in 0…1), `across` and `down` cells each way; repeats with the tile.
float noise(float x, float y, int across, int down, std::uint32_t seed) {
  const float fx = x * static_cast<float>(across);
  const float fy = y * static_cast<float>(down);
  const int ix = static_cast<int>(fx);
  const int iy = static_cast<int>(fy);
  float tx = fx - static_cast<float>(ix);
  float ty = fy - static_cast<float>(iy);
  tx = tx * tx * (3.0F - 2.0F * tx);
  ty = ty * ty * (3.0F - 2.0F * ty);
  const auto at = [&](int dx, int dy) { return chance((ix + dx) % across, (iy + dy) % down, seed); };
  return std::lerp(std::lerp(at(0, 0), at(1, 0), tx), std::lerp(at(0, 1), at(1, 1), tx), ty);
}

/// A growth ring's tone over its width 0…1: pale early wood, darkening slowly and ending sharply.
float ring(float phase) {
  const float t = phase - std::floor(phase);
  return t < 0.86F ? std::pow(t / 0.86F, 3.0F) : (1.0F - t) / 0.14F;
}

float timber(float x, float y) {
  // Rings cut almost along their length: bands that wander, with fine fibres and broad paler and darker zones over
  // them.
  const float wander = noise(x, y, 3, 2, 11U) * 1.7F + noise(x, y, 9, 5, 12U) * 0.35F;
  const float bands = ring(y * 9.0F + wander);
  const float fibre = noise(x, y, 10, 128, 13U) * 0.6F + noise(x, y, 40, 64, 14U) * 0.4F;
  const float zone = noise(x, y, 4, 7, 15U);
  return bands * (0.30F + 0.35F * zone) + 0.22F * fibre + 0.26F * zone - 0.04F;
}

float endGrain(float x, float y) {
  // The pith lies off the tile's corner, as in most sawn sticks.
  const float dx = x + 0.09F;
  const float dy = y + 0.16F;
  const float radius = std::sqrt(dx * dx + dy * dy) + 0.010F * noise(x, y, 7, 7, 21U);
  return 0.15F + 0.60F * ring(radius * 46.0F) + 0.20F * noise(x, y, 96, 96, 22U);
}

float weave(float x, float y) {
  // Threads over and under: one way's crests are the other's troughs.
  const float across = std::sin(kTurn * 32.0F * x);
  const float down = std::sin(kTurn * 32.0F * y);
  return 0.45F + 0.30F * across * down + 0.10F * across * across + 0.12F * (noise(x, y, 64, 64, 31U) - 0.5F);
}

float mottle(float x, float y) {
  return 0.35F * noise(x, y, 5, 5, 41U) + 0.35F * noise(x, y, 23, 23, 42U) + 0.30F * noise(x, y, 96, 96, 43U);
}

float brushed(float x, float y) {
  return 0.45F * noise(x, y, 3, 128, 51U) + 0.35F * noise(x, y, 6, 24, 52U) + 0.20F * noise(x, y, 2, 3, 53U);
}

float sheen(float x, float y) {
  // Two soft bands aslant, the way panes are shown in pencil.
  const float along = x + y;
  const float broad = std::max(0.0F, std::cos(kTurn * along));
  const float narrow = std::max(0.0F, std::cos(kTurn * (along - 0.22F)));
  return std::pow(broad, 6.0F) * 0.8F + std::pow(narrow, 40.0F) * 0.6F;
}

/// A stroke's tone by how far a place is through one period: a pen's line with soft sides, about a fifth of the period.
float stroke(float phase) {
  const float off = std::abs(phase - std::floor(phase) - 0.5F);
  return std::clamp((0.14F - off) / 0.06F, 0.0F, 1.0F);
}

float strokes(float x, float y) {
  return stroke((x - y) * static_cast<float>(kStrokes));
}

float crossed(float x, float y) {
  return std::max(strokes(x, y), stroke((x + y) * static_cast<float>(kStrokes)));
}

/// Dots of unlike size, one to a cell and off its middle.
float stipple(float x, float y) {
  constexpr int kCells = 22;
  const float fx = x * static_cast<float>(kCells);
  const float fy = y * static_cast<float>(kCells);
  const int ix = static_cast<int>(fx);
  const int iy = static_cast<int>(fy);
  const float dx = fx - static_cast<float>(ix) - 0.3F - 0.4F * chance(ix, iy, 61U);
  const float dy = fy - static_cast<float>(iy) - 0.3F - 0.4F * chance(ix, iy, 62U);
  const float radius = 0.05F + 0.14F * chance(ix, iy, 63U);
  return std::clamp((radius - std::sqrt(dx * dx + dy * dy)) / 0.08F + 0.5F, 0.0F, 1.0F);
}

/// As Pattern.
constexpr std::array<float (*)(float, float), kPatterns> kTones{timber, endGrain, weave,   mottle, brushed,
                                                                sheen,  strokes,  crossed, stipple};

}  // namespace

std::vector<std::uint8_t> paintTile(Pattern pattern) {
  const auto tone = kTones[static_cast<std::size_t>(pattern)];
  std::vector<std::uint8_t> tile(static_cast<std::size_t>(kTile) * kTile);
  for (int y = 0; y < kTile; ++y) {
    for (int x = 0; x < kTile; ++x) {
      const float t = tone(static_cast<float>(x) / kTile, static_cast<float>(y) / kTile);
      tile[static_cast<std::size_t>(y) * kTile + static_cast<std::size_t>(x)] =
          static_cast<std::uint8_t>(std::lround(std::clamp(t, 0.0F, 1.0F) * 255.0F));
    }
  }
  return tile;
}

}  // namespace sillwright::render
