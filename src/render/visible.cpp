#include "render/visible.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

namespace sillwright::render {
namespace {

/// For each face and each of its edges: the bit in Solid::edges, and the face on the other side.
struct Beyond {
  std::uint8_t bit = 0;
  std::uint8_t face = 0;
};
using Neighbours = std::array<std::array<Beyond, 4>, 6>;

Neighbours makeNeighbours() {
  Neighbours all{};
  const auto joins = [](const std::array<std::uint8_t, 2>& pair, std::uint8_t a, std::uint8_t b) {
    return (pair[0] == a && pair[1] == b) || (pair[0] == b && pair[1] == a);
  };
  for (std::size_t f = 0; f < 6; ++f) {
    for (std::size_t k = 0; k < 4; ++k) {
      const std::uint8_t a = scene::kFaces[f][k];
      const std::uint8_t b = scene::kFaces[f][(k + 1) % 4];
      for (std::size_t e = 0; e < 12; ++e) {
        if (joins(scene::kEdges[e], a, b)) all[f][k].bit = static_cast<std::uint8_t>(e);
      }
      for (std::size_t g = 0; g < 6; ++g) {
        const auto& face = scene::kFaces[g];
        const bool shares = std::find(face.begin(), face.end(), a) != face.end() &&
                            std::find(face.begin(), face.end(), b) != face.end();
        if (g != f && shares) all[f][k].face = static_cast<std::uint8_t>(g);
      }
    }
  }
  return all;
}

/// The four sides of the view, as planes through the eye (or side by side, in parallel), pointing in.
struct Sides {
  std::array<glm::vec4, 4> plane{};
  Sides(const Camera& camera, float aspect) {
    const glm::vec3 r = camera.right();
    const glm::vec3 u = camera.up();
    const float tall = camera.halfHeight();
    const float wide = tall * aspect;
    const auto side = [&](glm::vec3 inward, float half) {
      const glm::vec3 n = camera.parallel ? inward : glm::normalize(inward * camera.distance + camera.forward() * half);
      const glm::vec3 through = camera.parallel ? camera.target - inward * half : camera.eye();
      return glm::vec4(n, -glm::dot(n, through));
    };
    plane = {side(r, wide), side(-r, wide), side(u, tall), side(-u, tall)};
  }
  [[nodiscard]] bool touches(glm::vec3 centre, float radius) const {
    return std::all_of(plane.begin(), plane.end(),
                       [&](const glm::vec4& p) { return glm::dot(glm::vec3(p), centre) + p.w > -radius; });
  }
};

/// Bit a face that is turned to the eye.
std::uint32_t facing(const Seen& solid, glm::vec3 eye, glm::vec3 forward, bool parallel) {
  std::uint32_t bits = 0;
  for (std::size_t f = 0; f < 6; ++f) {
    const glm::vec4& p = solid.plane[f];
    const glm::vec3 n(p);
    const float toward = parallel ? -glm::dot(n, forward) : glm::dot(n, eye) + p.w;
    if (toward > 1e-4F) bits |= 1U << f;
  }
  return bits;
}

void addFaces(std::vector<std::uint32_t>& out, std::size_t index, const Seen& solid, std::uint32_t front,
              const Neighbours& neighbours) {
  for (std::size_t f = 0; f < 6; ++f) {
    if ((front >> f & 1U) == 0) continue;
    std::uint32_t inked = 0;
    std::uint32_t outline = 0;
    for (std::size_t k = 0; k < 4; ++k) {
      const Beyond& beyond = neighbours[f][k];
      inked |= (std::uint32_t{solid.edges} >> beyond.bit & 1U) << k;
      outline |= (~front >> beyond.face & 1U) << k;
    }
    out.push_back(packFace(index, f, inked, outline));
  }
}

/// Whether all of a solid, moved by `moved`, is taken away by the cut.
bool isAway(const Seen& solid, glm::vec3 moved, const std::optional<scene::Cut>& cut) {
  if (!cut || cut->beyond(solid.centre + moved) < -solid.radius) return false;
  return std::all_of(solid.corner.begin(), solid.corner.end(),
                     [&](const glm::vec3& corner) { return cut->beyond(corner + moved) > -scene::kCutTouch; });
}

/// Sorts by depth through the bits of a positive float, which rise with it.
struct Ranked {
  std::uint32_t depth = 0;
  std::uint32_t solid = 0;
  std::uint32_t front = 0;
};

}  // namespace

// From its diagonals, so that a corner pulled onto its neighbour still leaves a plane.
glm::vec4 planeOf(const scene::Solid& solid, const std::array<std::uint8_t, 4>& face) {
  const glm::vec3 a = solid.corner[face[0]];
  const glm::vec3 b = solid.corner[face[1]];
  const glm::vec3 c = solid.corner[face[2]];
  const glm::vec3 d = solid.corner[face[3]];
  const glm::vec3 n = glm::cross(c - a, d - b);
  const float length = glm::length(n);
  constexpr float kLeastArea = 1e-4F;  // mm²; below it a face is a seam and has no direction.
  if (length < kLeastArea) return glm::vec4(0.0F);
  const glm::vec3 unit = n / length;
  return {unit, -glm::dot(unit, (a + b + c + d) * 0.25F)};
}

bool isShown(scene::Layer layer, std::uint8_t step, const Look& look) {
  return scene::isShown(layer, step, look.hidden_layers, look.hidden_steps);
}

std::vector<Seen> makeSeen(const scene::Scene& scene) {
  std::vector<Seen> all;
  all.reserve(scene.solids.size());
  for (const scene::Solid& solid : scene.solids) {
    const scene::Part& part = scene.parts.at(solid.part);
    Seen s;
    s.corner = solid.corner;
    for (std::size_t f = 0; f < 6; ++f) s.plane[f] = planeOf(solid, scene::kFaces[f]);
    for (const glm::vec3& corner : solid.corner) s.centre += corner * 0.125F;
    for (const glm::vec3& corner : solid.corner) s.radius = std::max(s.radius, glm::length(corner - s.centre));
    if (part.wall >= 0) s.inward = scene.walls.at(static_cast<std::size_t>(part.wall)).inward;
    s.layer = part.layer;
    s.step = part.step;
    s.edges = solid.edges;
    s.glass = part.material == scene::Material::Glass;
    all.push_back(s);
  }
  return all;
}

void listVisible(Visible& out, const std::vector<Seen>& seen, const Camera& camera, const Look& look, float aspect) {
  static const Neighbours neighbours = makeNeighbours();
  const Sides sides(camera, aspect);
  const glm::vec3 eye = camera.eye();
  const glm::vec3 forward = camera.forward();

  std::vector<Ranked> opaque;
  std::vector<Ranked> glass;
  opaque.reserve(seen.size());
  out.near_depth = std::numeric_limits<float>::max();
  out.far_depth = std::numeric_limits<float>::lowest();
  for (std::size_t i = 0; i < seen.size(); ++i) {
    const Seen& solid = seen[i];
    if (!isShown(solid.layer, solid.step, look)) continue;
    const glm::vec3 moved = solid.inward * spreadOffset(solid.layer, look.spread);
    if (!sides.touches(solid.centre + moved, solid.radius) || isAway(solid, moved, look.cut)) continue;
    const std::uint32_t front = facing(solid, eye - moved, forward, camera.parallel);
    if (front == 0) continue;
    const glm::vec3 from = eye - moved;
    for (const glm::vec3& corner : solid.corner) {
      const float depth = glm::dot(corner - from, forward);
      out.near_depth = std::min(out.near_depth, depth);
      out.far_depth = std::max(out.far_depth, depth);
    }
    const glm::vec3 to = solid.centre - from;
    const float rank = camera.parallel ? std::max(glm::dot(to, forward) + 1e6F, 0.0F) : glm::dot(to, to);
    (solid.glass ? glass : opaque)
        .push_back({std::bit_cast<std::uint32_t>(rank), static_cast<std::uint32_t>(i), front});
  }
  const auto nearer = [](const Ranked& a, const Ranked& b) {
    return a.depth != b.depth ? a.depth < b.depth : a.solid < b.solid;
  };
  std::sort(opaque.begin(), opaque.end(), nearer);
  std::sort(glass.rbegin(), glass.rend(), nearer);

  out.solids = opaque.size() + glass.size();
  out.opaque.clear();
  out.glass.clear();
  for (const Ranked& r : opaque) addFaces(out.opaque, r.solid, seen[r.solid], r.front, neighbours);
  for (const Ranked& r : glass) addFaces(out.glass, r.solid, seen[r.solid], r.front, neighbours);
}

}  // namespace sillwright::render
