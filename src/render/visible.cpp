#include "render/visible.h"

#include <algorithm>
#include <bit>
#include <utility>

#include "base/in_parallel.h"

namespace sillwright::render {
namespace {

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

/// One bit for each face that is turned to the camera.
std::uint32_t facing(const Shape& solid, glm::vec3 eye, glm::vec3 forward, bool parallel) {
  std::uint32_t bits = 0;
  for (std::size_t f = 0; f < 6; ++f) {
    const glm::vec4& p = solid.plane[f];
    const glm::vec3 n(p);
    const float toward = parallel ? -glm::dot(n, forward) : glm::dot(n, eye) + p.w;
    if (toward > 1e-4F) bits |= 1U << f;  // a face on edge covers no pixel
  }
  return bits;
}

/// Outlines of a face (bit k: its edge k) where these faces are turned to the eye: edges with one that is turned away.
using Outlines = std::array<std::array<std::uint8_t, 6>, 64>;

Outlines makeOutlines() {  // once for all 64 sets, as each face of each picture is looked up
  Outlines all{};
  const auto faceBeyond = [](std::size_t f, std::uint8_t edge) {
    for (std::size_t g = 0; g < 6; ++g) {
      const auto& edges = scene::kFaceEdges[g];
      if (g != f && std::count(edges.begin(), edges.end(), edge) > 0) return g;
    }
    return f;  // this isn't reached: every edge is of two faces
  };
  for (std::uint32_t front = 0; front < 64; ++front) {
    for (std::size_t f = 0; f < 6; ++f) {
      for (std::size_t k = 0; k < 4; ++k) {
        all[front][f] |= static_cast<std::uint8_t>((~front >> faceBeyond(f, scene::kFaceEdges[f][k]) & 1U) << k);
      }
    }
  }
  return all;
}

/// Shape::inked of a solid with these edges.
std::uint32_t inkedFaces(std::uint16_t edges) {
  std::uint32_t inked = 0;
  for (std::uint32_t f = 0; f < 6; ++f) {
    for (std::uint32_t k = 0; k < 4; ++k) {
      inked |= (std::uint32_t{edges} >> scene::kFaceEdges[f][k] & 1U) << (4 * f + k);
    }
  }
  return inked;
}

/// The faces to draw of those turned to the camera, one bit each.
std::uint32_t drawnOf(std::uint32_t front, std::uint32_t narrow_axes) {
  for (std::uint32_t axis = 0; axis < 3; ++axis) {
    if ((narrow_axes >> axis & 1U) != 0) front &= ~(3U << 2U * axis);  // kFaces has both of an axis in a row
  }
  return front;
}

void addFaces(std::vector<std::uint32_t>& out, const Ranked& solid) {
  static const Outlines kOutlines = makeOutlines();
  const std::uint32_t front = solid.faces & 63U;
  const std::uint32_t number = solid.solid & (kMostSolids - 1);
  for (std::uint32_t left = drawnOf(front, solid.solid >> kSolidBits); left != 0; left &= left - 1) {  // bit by bit
    const auto f = static_cast<std::uint32_t>(std::countr_zero(left));
    out.push_back(packFace(number, f, solid.faces >> (6U + 4U * f) & 15U, kOutlines[front][f]));
  }
}

/// Whether all of a solid, moved by `moved`, is taken away by the cut.
bool isAway(const Whereabouts& where, const std::array<glm::vec3, 8>& corners, glm::vec3 moved,
            const std::optional<scene::Cut>& cut) {
  if (!cut || cut->beyond(where.centre + moved) < -where.radius) return false;  // it stays
  return std::all_of(corners.begin(), corners.end(),  // one that only touches the plane from beyond is away too
                     [&](const glm::vec3& corner) { return cut->beyond(corner + moved) > -scene::kCutTouch; });
}

/// The longest edges along u, v and w.
glm::vec3 extentOf(const scene::Solid& solid) {
  glm::vec3 extent{0.0F};
  for (std::size_t i = 0; i < 8; ++i) {
    for (std::size_t axis = 0; axis < 3; ++axis) {
      const std::size_t far = i | std::size_t{1} << axis;
      const auto at = static_cast<glm::length_t>(axis);
      if (far != i) extent[at] = std::max(extent[at], glm::distance(solid.corner[i], solid.corner[far]));
    }
  }
  return extent;
}

Shape shapeOf(const scene::Solid& solid) {
  Shape shape;
  shape.inked = inkedFaces(solid.edges);
  for (std::size_t f = 0; f < 6; ++f) shape.plane[f] = scene::planeOf(solid.corner, scene::kFaces[f]);
  return shape;
}

Whereabouts whereaboutsOf(const scene::Scene& scene, const scene::Solid& solid) {
  const scene::Part& part = scene.parts.at(solid.part);
  Whereabouts where;
  where.radius = 0.0F;
  for (const glm::vec3& corner : solid.corner) where.centre += corner * 0.125F;
  for (const glm::vec3& corner : solid.corner) {
    where.radius = std::max(where.radius, glm::length(corner - where.centre));
  }
  const glm::vec3 extent = extentOf(solid);  // a face across u is v by w, and so on
  where.narrow = glm::min(glm::vec3(extent.y, extent.z, extent.x), glm::vec3(extent.z, extent.x, extent.y));
  if (part.wall >= 0) where.inward = scene.walls.at(static_cast<std::size_t>(part.wall)).inward;
  where.layer = part.layer;
  where.step = part.step;
  where.glass = part.material == scene::Material::Glass;
  return where;
}

/// One bit for each axis whose faces are too narrow to be drawn at this depth.
std::uint32_t narrowAxes(glm::vec3 narrow, const Smallness& small, float depth) {
  std::uint32_t bits = 0;
  for (std::uint32_t axis = 0; axis < 3; ++axis) {
    if (small.isTooNarrow(narrow[static_cast<glm::length_t>(axis)], depth)) bits |= 1U << axis;
  }
  return bits;
}

/// Grows the range to hold a solid's corners, which are only looked at where they can matter.
void holdCorners(DepthRange& out, const std::array<glm::vec3, 8>& corners, float depth, float radius, glm::vec3 from,
                 glm::vec3 forward) {
  const float slack = radius * 1e-3F + 1.0F;  // of a rounded radius
  if (depth - radius - slack >= out.near_depth && depth + radius + slack <= out.far_depth) return;
  for (const glm::vec3& corner : corners) out.hold(glm::dot(corner - from, forward));
}

/// Tests solids against the camera and the look of one picture.
struct View {
  const Seen& seen;
  const Camera& camera;
  const Look& look;
  glm::vec2 size;
  Sides sides{camera, size.x / size.y};
  Smallness small{camera, size.y};
  glm::vec3 eye = camera.eye();
  glm::vec3 forward = camera.forward();

  /// The solid as it is to be drawn; no faces where it isn't.
  [[nodiscard]] Ranked rank(std::size_t i, DepthRange& depths) const {
    Ranked unseen{0, static_cast<std::uint32_t>(i), 0};
    const Whereabouts& where = seen.where[i];
    if (where.radius < 0.0F || !isShown(where.layer, where.step, look)) return unseen;
    const glm::vec3 moved = where.inward * spreadOffset(where.layer, look.spread);
    const glm::vec3 from = eye - moved;  // moving the eye back leaves corners and planes as they are
    const glm::vec3 to = where.centre - from;
    const float depth = glm::dot(to, forward);
    if (small.isTooSmall(where.radius, depth) || !sides.touches(where.centre + moved, where.radius)) return unseen;
    if (isAway(where, seen.corner[i], moved, look.cut)) return unseen;
    const std::uint32_t front = facing(seen.shape[i], from, forward, camera.parallel);
    const std::uint32_t narrow = narrowAxes(where.narrow, small, depth - where.radius);  // where it is nearest
    if (drawnOf(front, narrow) == 0) return unseen;
    holdCorners(depths, seen.corner[i], depth, where.radius, from, forward);
    const float far = camera.parallel ? std::max(depth + 1e6F, 0.0F) : glm::dot(to, to);  // bits rise from 0 on
    return {std::bit_cast<std::uint32_t>(far), unseen.solid | narrow << kSolidBits, seen.shape[i].inked << 6U | front};
  }
};

void listPatch(Patch& patch, const View& view, std::size_t first, std::size_t last) {
  patch.listed = true;
  patch.opaque.solids.clear();
  patch.glass.clear();
  patch.depths = {};
  for (std::size_t i = first; i < last; ++i) {
    const Ranked solid = view.rank(i, patch.depths);
    if (solid.faces != 0) (view.seen.where[i].glass ? patch.glass : patch.opaque.solids).push_back(solid);
  }
  sortByDepth(patch.opaque.solids, patch.spare);
  patch.opaque.listFaces();
}

}  // namespace

void DepthRange::hold(float depth, float radius) {
  near_depth = std::min(near_depth, depth - radius);
  far_depth = std::max(far_depth, depth + radius);
}

void DepthRange::join(const DepthRange& other) {
  near_depth = std::min(near_depth, other.near_depth);
  far_depth = std::max(far_depth, other.far_depth);
}

PixelBox joined(const PixelBox& a, const PixelBox& b) {
  return {glm::min(a.x, b.x), glm::min(a.y, b.y), glm::max(a.z, b.z), glm::max(a.w, b.w)};
}

PixelBox common(const PixelBox& a, const PixelBox& b) {
  return {glm::max(a.x, b.x), glm::max(a.y, b.y), glm::min(a.z, b.z), glm::min(a.w, b.w)};
}

float areaOf(const PixelBox& box) { return std::max(box.z - box.x, 0.0F) * std::max(box.w - box.y, 0.0F); }

void addBox(std::vector<PixelBox>& boxes, PixelBox box) {
  constexpr float kCostOfABox = 40'000.0F;  // pixels: a software driver waits for one box before the next
  for (std::size_t i = 0; i < boxes.size();) {
    const PixelBox both = joined(boxes[i], box);
    const float covered = areaOf(boxes[i]) + areaOf(box) - areaOf(common(boxes[i], box));
    if (areaOf(both) > covered + kCostOfABox) {
      ++i;
      continue;
    }
    box = both;
    boxes.erase(boxes.begin() + static_cast<std::ptrdiff_t>(i));
    i = 0;  // larger than it was: all are asked again
  }
  if (areaOf(box) > 0.0F) boxes.push_back(box);
}

/// Puts the pieces of a box that lie over none of the others from `first` on to them.
static void addApart(std::vector<PixelBox>& boxes, const PixelBox& box, std::size_t first) {
  if (areaOf(box) <= 0.0F) return;
  for (std::size_t i = first; i < boxes.size(); ++i) {
    const PixelBox in = common(boxes[i], box);
    if (areaOf(in) <= 0.0F) continue;
    addApart(boxes, {box.x, box.y, box.z, in.y}, i + 1);       // the piece above,
    addApart(boxes, {box.x, in.w, box.z, box.w}, i + 1);       // the one below,
    addApart(boxes, {box.x, in.y, in.x, in.w}, i + 1);         // at the left
    return addApart(boxes, {in.z, in.y, box.z, in.w}, i + 1);  // and at the right
  }
  boxes.push_back(box);
}

std::vector<PixelBox> apart(const std::vector<PixelBox>& boxes, glm::vec2 size) {
  std::vector<PixelBox> out;
  for (const PixelBox& box : boxes) {  // grown to whole pixels, so that none that it touches is left out
    const PixelBox whole{glm::floor(glm::vec2(box)), glm::ceil(glm::vec2(box.z, box.w))};
    addApart(out, common(whole, {0.0F, 0.0F, size}), 0);
  }
  return out;
}

PixelBox Within::round(const Whereabouts& where) const {
  const glm::vec3 middle = seen(where.centre + where.inward * spreadOffset(where.layer, spread));
  const float reach = seen.reach(middle, where.radius) + 1.0F;
  return {middle.x - reach, middle.y - reach, middle.x + reach, middle.y + reach};
}

PixelBox Within::round(const Whereabouts& where, const std::array<glm::vec3, 8>& corners) const {
  const glm::vec3 moved = where.inward * spreadOffset(where.layer, spread);
  PixelBox out = kNowhere;
  for (const glm::vec3& corner : corners) {
    const glm::vec3 at = seen(corner + moved);
    if (at.z <= 0.0F) return kEverywhere;
    out = joined(out, {at.x - 1.0F, at.y - 1.0F, at.x + 1.0F, at.y + 1.0F});
  }
  return out;
}

void Listed::listFaces() {
  faces.clear();
  boxes.clear();
  around = kNowhere;
  for (const Ranked& solid : solids) addFaces(faces, solid);
}

std::vector<std::uint32_t> Listed::facesIn(const Seen& seen, const Within* within, std::vector<std::uint32_t> all) {
  constexpr float kFewPixels = 2'500.0F;  // that a solid may have without being asked for its corners
  if (within == nullptr) {
    all.insert(all.end(), faces.begin(), faces.end());
    return all;
  }
  for (std::size_t i = boxes.size(); i < solids.size(); ++i) {
    const std::size_t number = solids[i].solid & (kMostSolids - 1);
    const PixelBox ball = within->round(seen.where[number]);
    boxes.push_back(areaOf(ball) < kFewPixels ? ball : within->round(seen.where[number], seen.corner[number]));
    around = joined(around, boxes.back());
  }
  if (!within->touches(around)) return all;  // most of a large site lies elsewhere
  for (std::size_t i = 0; i < solids.size(); ++i) {
    if (within->touches(boxes[i])) addFaces(all, solids[i]);
  }
  return all;
}

std::vector<std::uint32_t> Visible::opaqueFaces(const Seen& seen, const Within* within) {
  std::vector<Listed*> order;
  for (Patch& patch : patches) {
    if (!patch.opaque.solids.empty()) order.push_back(&patch.opaque);
  }
  std::sort(order.begin(), order.end(),
            [](const Listed* a, const Listed* b) { return a->solids.front().depth < b->solids.front().depth; });
  std::vector<std::uint32_t> all;
  for (Listed* each : order) all = each->facesIn(seen, within, std::move(all));
  return all;
}

void Visible::forget(const std::vector<std::size_t>& places) {
  for (const std::size_t place : places) {
    if (place / kPatch < patches.size()) patches[place / kPatch].listed = false;
  }
}

Smallness::Smallness(const Camera& camera, float height)
    : least_mm(kLeastRadius * 2.0F * camera.halfHeight() / height),
      distance(camera.distance),
      parallel(camera.parallel) {}

void sortByDepth(std::vector<Ranked>& list, std::vector<Ranked>& spare) {
  if (list.empty()) return;
  const auto [nearest, farthest] =
      std::minmax_element(list.begin(), list.end(), [](const Ranked& a, const Ranked& b) { return a.depth < b.depth; });
  // The bits of a float rise about as its logarithm does; below a 65,536th of the farthest all is of one step (of a
  // distance a 256th: with an eye, its square is listed).
  constexpr std::uint32_t kSpan = 16U << 23U;
  const std::uint32_t from = std::max(nearest->depth, farthest->depth - std::min(farthest->depth, kSpan));
  const double steps =  // a float has fewer digits than the span's 27 bits
      static_cast<double>(kDepthSteps - 1) / std::max(1.0, static_cast<double>(farthest->depth - from));
  const auto step = [&](const Ranked& each) {
    return static_cast<std::size_t>(static_cast<double>(std::max(each.depth, from) - from) * steps);
  };
  std::array<std::uint32_t, kDepthSteps> first{};  // 64 KiB of the stack
  for (const Ranked& each : list) ++first[step(each)];
  std::uint32_t before = 0;
  for (std::uint32_t& count : first) before += std::exchange(count, before);  // counts become the first places
  spare.resize(list.size());
  for (const Ranked& each : list) spare[first[step(each)]++] = each;
  list.swap(spare);
}

bool isShown(scene::Layer layer, scene::PartStep step, const Look& look) {
  return scene::isShown(layer, step, look.hidden_layers, look.hidden_steps);
}

void renew(Seen& seen, const scene::Scene& scene, std::size_t places, const std::vector<Stretch>& changed) {
  seen.where.resize(places);
  seen.shape.resize(places);
  seen.corner.resize(places);
  for (const Stretch& each : changed) {
    for (std::size_t i = 0; i < each.count; ++i) {
      const std::size_t place = each.place + i;
      if (each.solid == kEmpty) {
        seen.where[place] = {};  // its radius below 0 says that the rest isn't read
        continue;
      }
      const scene::Solid& solid = scene.solids[each.solid + i];
      seen.shape[place] = shapeOf(solid);
      seen.corner[place] = solid.corner;
      seen.where[place] = whereaboutsOf(scene, solid);
    }
  }
}

void listVisible(Visible& out, const Seen& seen, const Camera& camera, const Look& look, glm::vec2 size, bool again) {
  const View view{seen, camera, look, size};
  const std::size_t count = seen.where.size();
  out.patches.resize((count + kPatch - 1) / kPatch);
  base::inParallel(out.patches.size(), 1, {}, [&](std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i) {
      if (!again || !out.patches[i].listed)
        listPatch(out.patches[i], view, i * kPatch, std::min((i + 1) * kPatch, count));
    }
  });
  out.depths = {};
  out.solids = 0;
  std::vector<Ranked>& glass = out.glass.solids;
  glass.clear();
  for (const Patch& patch : out.patches) {
    out.depths.join(patch.depths);
    out.solids += patch.opaque.solids.size() + patch.glass.size();
    glass.insert(glass.end(), patch.glass.begin(), patch.glass.end());
  }
  sortByDepth(glass, out.spare);
  std::reverse(glass.begin(), glass.end());  // the farthest comes first: each lets it through
  out.glass.listFaces();
}

}  // namespace sillwright::render
