#include "render/palette.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "render/renderer.h"

namespace sillwright::render {

namespace {

constexpr glm::vec3 hex(unsigned int rgb) {
  return {static_cast<float>((rgb >> 16U) & 255U) / 255.0F, static_cast<float>((rgb >> 8U) & 255U) / 255.0F,
          static_cast<float>(rgb & 255U) / 255.0F};
}

/// Sawn timber: streaks that run two metres before they come again, growth rings where it is cut.
Paint timber(scene::Material material, unsigned int streak, unsigned int cut, unsigned int ring, float vary) {
  return {.face = {hex(scene::faceColour(material)), hex(streak), Pattern::Timber, {2100.0F, 150.0F}, vary},
          .end = {hex(cut), hex(ring), Pattern::EndGrain, {420.0F, 420.0F}, vary * 0.5F}};
}

Paint plain(scene::Material material, unsigned int streak, Pattern pattern, glm::vec2 tile, float vary = 0.0F) {
  const Finish finish{hex(scene::faceColour(material)), hex(streak), pattern, tile, vary};
  return {.face = finish, .end = finish, .alpha = scene::opacityOf(material)};
}

/// A tile on which strokes lie `apart` mm from one another: at 45°, an edge has √2 of that. See strokes.
constexpr float tileOf(float apart) { return apart * 1.41421356F * static_cast<float>(kStrokes); }

/// Cut timber: the drawn grain along it, its rings across it, both in a harder hand than on the face beyond.
void cutTimber(Paint& paint, unsigned int along, unsigned int streak, unsigned int across, unsigned int ring) {
  paint.cut = {hex(along), hex(streak), Pattern::Timber, {1400.0F, 90.0F}, 0.05F};
  paint.cut_across = {hex(across), hex(ring), Pattern::EndGrain, {360.0F, 360.0F}, 0.05F};
}

void cutAs(Paint& paint, unsigned int colour, unsigned int streak, Pattern pattern = Pattern::Mottle,
           glm::vec2 tile = {300.0F, 300.0F}) {
  paint.cut = {hex(colour), hex(streak), pattern, tile, 0.0F};
  paint.cut_across = paint.cut;
}

/// Cut faces as the sheets have them: rough timber by its grain, fine timber hatched, metal as a hollow profile, board
/// crossed, packers close the other way, sheets as heavy lines.
std::array<Paint, scene::kMaterials> paints() {
  std::array<Paint, scene::kMaterials> all;
  const auto at = [&all](scene::Material material) -> Paint& { return all[static_cast<std::size_t>(material)]; };
  using enum scene::Material;
  at(Pine) = timber(Pine, 0xCFA468, 0xDDB57C, 0xB98C54, 0.09F);
  at(LintelTimber) = timber(LintelTimber, 0xC08E50, 0xD0A266, 0xA97A42, 0.05F);
  at(RevealTimber) = timber(RevealTimber, 0xDCC197, 0xE4CA9E, 0xC5A472, 0.03F);
  at(Batten) = timber(Batten, 0xBF9F6C, 0xD3B27E, 0xAD8A5A, 0.09F);
  at(Membrane) = plain(Membrane, 0xBCCCCE, Pattern::Weave, {128.0F, 128.0F});
  at(FlexibleFlashing) = plain(FlexibleFlashing, 0x26282B, Pattern::Mottle, {300.0F, 300.0F});
  at(FoldedMetal) = plain(FoldedMetal, 0x8F989E, Pattern::Brushed, {900.0F, 260.0F});
  at(Aluminium) = plain(Aluminium, 0xC0C6C9, Pattern::Brushed, {1600.0F, 400.0F});
  at(Glass) = plain(Glass, 0xE9F4F2, Pattern::Sheen, {1500.0F, 1500.0F});
  at(Lining) = plain(Lining, 0xE9E6DF, Pattern::Mottle, {1400.0F, 1400.0F});
  at(Cladding) = plain(Cladding, 0xD2D5CA, Pattern::Brushed, {2400.0F, 400.0F}, 0.035F);
  at(Packer) = plain(Packer, 0x7D65A4, Pattern::Mottle, {200.0F, 200.0F});
  at(Screw) = plain(Screw, 0x545B61, Pattern::Brushed, {60.0F, 20.0F});
  at(Soffit) = plain(Soffit, 0xDAD4C6, Pattern::Mottle, {1400.0F, 1400.0F});
  at(Floor) = plain(Floor, 0xE0D9CA, Pattern::Mottle, {2600.0F, 2600.0F});
  at(Rubber) = plain(Rubber, 0x303336, Pattern::Mottle, {200.0F, 200.0F});
  at(Brick) = plain(Brick, 0xB6755B, Pattern::Mottle, {420.0F, 420.0F}, 0.06F);
  at(Mortar) = plain(Mortar, 0xD0C9BA, Pattern::Mottle, {500.0F, 500.0F});
  cutTimber(at(Pine), 0xEBCB93, 0xB98442, 0xE9C78D, 0x97642A);
  cutTimber(at(LintelTimber), 0xDDB173, 0xA0692E, 0xDBAF70, 0x85541F);
  cutTimber(at(Batten), 0xE0C593, 0xAC8445, 0xDDC18E, 0x8C6731);
  cutAs(at(RevealTimber), 0xF3E0BA, 0xA67A3E, Pattern::Strokes, glm::vec2(tileOf(5.0F)));
  cutAs(at(Membrane), 0x3F7480, 0x39697A);
  cutAs(at(FlexibleFlashing), 0x17191C, 0x17191C);
  cutAs(at(FoldedMetal), 0x55626B, 0x4E5A62);
  cutAs(at(Aluminium), 0x6C7982, 0xE2E7E9);
  cutAs(at(Glass), 0xA9D2CB, 0x5C978E, Pattern::Strokes, glm::vec2(tileOf(3.0F)));
  cutAs(at(Lining), 0xF7F4EE, 0x9A9488, Pattern::Crossed, {tileOf(4.5F), tileOf(4.5F) * 1.7F});
  cutAs(at(Cladding), 0xE3E5DB, 0x838A7C, Pattern::Strokes, {-tileOf(4.5F) * 1.7F, tileOf(4.5F)});
  cutAs(at(Packer), 0xA48FC6, 0x57407F, Pattern::Strokes, {-tileOf(2.6F), tileOf(2.6F)});
  cutAs(at(Screw), 0x3A4046, 0x343A40);
  cutAs(at(Soffit), 0xF1ECE0, 0x9C9484, Pattern::Crossed, {tileOf(4.5F), tileOf(4.5F) * 1.7F});
  cutAs(at(Floor), 0xE0D9C9, 0x857B68, Pattern::Stipple, {190.0F, 190.0F});
  cutAs(at(Rubber), 0x202225, 0x202225);
  cutAs(at(Brick), 0xD9A78E, 0x9A5D45, Pattern::Strokes, glm::vec2(tileOf(9.0F)));
  cutAs(at(Mortar), 0xE3DED2, 0x9C9484, Pattern::Stipple, {120.0F, 120.0F});
  return all;
}

void stepDarker(Finish& finish) {
  // The evening keeps every hue and takes a sixth of its light, a little more of the red.
  const glm::vec3 evening{0.84F, 0.845F, 0.87F};
  finish.colour *= evening;
  finish.streak *= evening;
}

constexpr float kTurn = 2.0F * std::numbers::pi_v<float>;

/// 0…1 from a place on an integer lattice. Integers only, so that every machine paints the same.
float chance(int x, int y, std::uint32_t seed) {
  std::uint32_t h = static_cast<std::uint32_t>(x) * 0x9E3779B1U + static_cast<std::uint32_t>(y) * 0x85EBCA77U + seed;
  h ^= h >> 15U;
  h *= 0x2C1B3C6DU;  // this number, the next and the shifts are of hash-prospector's 32-bit functions
  h ^= h >> 12U;
  h *= 0x297A2D39U;
  h ^= h >> 15U;
  return static_cast<float>(h >> 8U) / 16777216.0F;  // a float holds 24 bits exactly
}

/// Smooth noise 0…1 on the tile (x, y in 0…1), `across` and `down` cells each way; repeats with the tile.
float noise(float x, float y, int across, int down, std::uint32_t seed) {
  const float fx = x * static_cast<float>(across);
  const float fy = y * static_cast<float>(down);
  const int ix = static_cast<int>(fx);
  const int iy = static_cast<int>(fy);
  float tx = fx - static_cast<float>(ix);
  float ty = fy - static_cast<float>(iy);
  tx = tx * tx * (3.0F - 2.0F * tx);  // it is flat at the cells' borders, where a crease would show
  ty = ty * ty * (3.0F - 2.0F * ty);
  const auto at = [&](int dx, int dy) { return chance((ix + dx) % across, (iy + dy) % down, seed); };
  return std::lerp(std::lerp(at(0, 0), at(1, 0), tx), std::lerp(at(0, 1), at(1, 1), tx), ty);
}

/// A growth ring's tone over its width 0…1: pale early wood, darkening slowly and ending sharply.
float ring(float phase) {
  const float t = phase - std::floor(phase);
  return t < 0.86F ? std::pow(t / 0.86F, 3.0F) : (1.0F - t) / 0.14F;
}

float timber(float x, float y) {  // as all below: a tone of about 0 to 1, of a place from 0 to 1
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

float mottle(float x, float y) {  // spots of three sizes
  return 0.35F * noise(x, y, 5, 5, 41U) + 0.35F * noise(x, y, 23, 23, 42U) + 0.30F * noise(x, y, 96, 96, 43U);
}

float brushed(float x, float y) {  // its scratches are long along x and fine across it
  return 0.45F * noise(x, y, 3, 128, 51U) + 0.35F * noise(x, y, 6, 24, 52U) + 0.20F * noise(x, y, 2, 3, 53U);
}

float sheen(float x, float y) {
  // Two soft bands aslant, the way panes are shown in pencil.
  const float along = x + y;  // one period a tile each way, so that it repeats
  const float broad = std::max(0.0F, std::cos(kTurn * along));
  const float narrow = std::max(0.0F, std::cos(kTurn * (along - 0.22F)));
  return std::pow(broad, 6.0F) * 0.8F + std::pow(narrow, 40.0F) * 0.6F;
}

/// A stroke's tone by how far a place is through one period: a pen's line with soft sides, about a fifth of the period.
float stroke(float phase) {
  const float off = std::abs(phase - std::floor(phase) - 0.5F);
  return std::clamp((0.14F - off) / 0.06F, 0.0F, 1.0F);
}

float strokes(float x, float y) { return stroke((x - y) * static_cast<float>(kStrokes)); }

float crossed(float x, float y) { return std::max(strokes(x, y), stroke((x + y) * static_cast<float>(kStrokes))); }

/// Dots of unlike sizes, one in each cell and off its middle.
float stipple(float x, float y) {
  constexpr int kCells = 22;
  const float fx = x * static_cast<float>(kCells);
  const float fy = y * static_cast<float>(kCells);
  const int ix = static_cast<int>(fx);
  const int iy = static_cast<int>(fy);
  const float dx = fx - static_cast<float>(ix) - 0.3F - 0.4F * chance(ix, iy, 61U);
  const float dy = fy - static_cast<float>(iy) - 0.3F - 0.4F * chance(ix, iy, 62U);
  const float radius = 0.05F + 0.14F * chance(ix, iy, 63U);  // with its soft edge 0.23 at most: a dot stays in its cell
  return std::clamp((radius - std::sqrt(dx * dx + dy * dy)) / 0.08F + 0.5F, 0.0F, 1.0F);
}

/// As Pattern.
constexpr std::array<float (*)(float, float), kPatterns> kTones{timber, endGrain, weave,   mottle, brushed,
                                                                sheen,  strokes,  crossed, stipple};

}  // namespace

Palette palette(bool dark) {
  Palette p;
  p.paint = paints();
  p.ground = hex(0xF4F0E6);
  p.ink = hex(0x22262B);
  p.accent = hex(0x3A55C8);
  p.glow = hex(0xFFF3C4);
  p.light = {1.05F, 1.045F, 1.03F};
  p.shade = {0.80F, 0.79F, 0.795F};
  p.shadow = glm::vec4(hex(0x54483A), 0.62F);
  if (!dark) return p;

  for (Paint& paint : p.paint) {
    for (Finish* each : {&paint.face, &paint.end, &paint.cut, &paint.cut_across}) stepDarker(*each);
  }
  for (const scene::Material black : {scene::Material::FlexibleFlashing, scene::Material::Rubber}) {
    Paint& paint = p.paint[static_cast<std::size_t>(black)];  // or it would be lost on the ground
    for (Finish* each : {&paint.face, &paint.end, &paint.cut, &paint.cut_across}) each->colour += glm::vec3(0.14F);
  }
  p.ground = hex(0x20242A);
  p.ink = hex(0x0E1013);
  p.accent = hex(0x9DB2FF);
  p.glow = hex(0xFFE9AE);
  p.light = {1.0F, 0.99F, 0.97F};
  p.shade = {0.68F, 0.685F, 0.73F};
  p.shadow = glm::vec4(hex(0x07080A), 0.6F);
  return p;
}

glm::vec3 groundColour(bool dark) { return palette(dark).ground; }

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
