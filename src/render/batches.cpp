#include "render/batches.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <numeric>
#include <set>
#include <stdexcept>
#include <tuple>
#include <utility>

namespace sillwright::render {
namespace {

/// Four numbers a texel, this many texels a solid: 8 corners, 6 normals, grain + seed, owner, wall. As in solid.vert.
constexpr std::size_t kTexels = 17;

glm::vec3 grainOf(const scene::Solid& solid) {  // a unit vector, from the solid's near end to its far one
  const std::size_t far = std::size_t{1} << std::min<std::uint8_t>(solid.grain, 2);
  glm::vec3 along{0.0F};
  for (std::size_t i = 0; i < 8; ++i) along += (i & far) != 0 ? solid.corner[i] : -solid.corner[i];
  const float length = glm::length(along);
  return length > 1e-4F ? along / length : glm::vec3(1.0F, 0.0F, 0.0F);  // a solid of no length gets any direction
}

const scene::WallFrame* wallOf(const scene::Scene& scene, const scene::Part& part) {  // null: it belongs to none
  return part.wall >= 0 ? &scene.walls.at(static_cast<std::size_t>(part.wall)) : nullptr;
}

template <class Item>
void sendTo(const Buffer& buffer, const std::vector<Item>& items, GLenum usage) {  // leaves the buffer bound
  glBindBuffer(GL_ARRAY_BUFFER, buffer.id());
  glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(items.size() * sizeof(Item)), items.data(), usage);
}

/// Points the bound array's attribute at the bound buffer.
void attribute(GLuint index, GLint numbers, std::size_t stride, std::size_t offset, GLuint divisor) {
  glEnableVertexAttribArray(index);
  glVertexAttribPointer(index, numbers, GL_FLOAT, GL_FALSE, static_cast<GLsizei>(stride),
                        reinterpret_cast<const void*>(offset));
  glVertexAttribDivisor(index, divisor);
}

/// 0…1 from a part's number in its block, the same in every picture of a scene, unlike its neighbours'.
float seedOf(PartKey key) {
  std::uint32_t h = static_cast<std::uint32_t>(key.block) * 0x85EBCA6BU;
  h = (h ^ h >> 13U) + static_cast<std::uint32_t>(key.local) * 0x9E3779B1U + 0x7F4A7C15U;
  h ^= h >> 16U;
  h *= 0x21F0AAADU;
  h ^= h >> 15U;
  return static_cast<float>(h >> 8U) / 16777216.0F;  // a float holds 24 bits exactly
}

void addTexels(std::vector<glm::vec4>& texels, const scene::Scene& scene, const scene::Solid& solid, PartKey key) {
  const scene::Part& part = scene.parts.at(solid.part);
  for (const glm::vec3& corner : solid.corner) texels.emplace_back(corner, 0.0F);
  for (const auto& face : scene::kFaces) texels.push_back(scene::planeOf(solid.corner, face));
  texels.emplace_back(grainOf(solid), seedOf(key));
  texels.push_back(ownerOf(part, key, solid.grain));
  if (const scene::WallFrame* wall = wallOf(scene, part)) {
    const glm::vec2 inward(wall->inward);  // the shader tells from these how deep in its wall a place lies
    texels.emplace_back(inward, glm::dot(inward, glm::vec2(wall->origin)), wall->depth);
  } else {
    texels.emplace_back(0.0F);  // what has no wall isn't moved and has no bays
  }
}

/// Four numbers a texel, this many texels a face: 8 corners, middle + half width, thin + inked edges, grain + seed,
/// owner. As in cut.vert.
constexpr std::size_t kFaceTexels = 12;

void addTexels(std::vector<glm::vec4>& texels, const scene::CutFace& face, const scene::Part& part, PartKey key) {
  for (const glm::vec3& corner : face.corner) texels.emplace_back(corner, static_cast<float>(face.count));
  glm::vec3 sum{0.0F};
  for (std::size_t i = 0; i < face.count; ++i) sum += face.corner[i];
  texels.emplace_back(sum / static_cast<float>(face.count), face.narrow * 0.5F);
  texels.emplace_back(face.thin, static_cast<float>(face.inked));
  texels.emplace_back(face.grain, seedOf(key));
  texels.push_back(ownerOf(part, key, face.across_grain ? 1 : 0));
}

}  // namespace

glm::vec4 ownerOf(const scene::Part& part, PartKey key, std::uint8_t more) {
  const int kind = static_cast<int>(part.material) + 32 * static_cast<int>(part.layer) + 512 * int{more};
  return {static_cast<float>(kind), static_cast<float>(key.local), static_cast<float>(part.opening),
          static_cast<float>(static_cast<int>(part.step) + 32 * key.block)};
}

SolidBatch::SolidBatch()
    : solids_(GL_RGBA32F),
      faces_(GL_R32UI),
      indices_(make<Buffer>(glGenBuffers)),
      array_(make<VertexArray>(glGenVertexArrays)) {}

void SolidBatch::upload(const scene::Scene& scene, const Sent& sent, const std::vector<Stretch>& changed) {
  if (sent.places() != held_) {  // all was laid out anew, and `changed` has all of it
    solids_.send(nullptr, std::max<std::size_t>(sent.places() * kTexels, 1) * sizeof(glm::vec4), GL_DYNAMIC_DRAW);
    held_ = sent.places();
  }
  std::vector<glm::vec4> texels;
  for (const Stretch& each : changed) {
    if (each.solid == kEmpty) continue;  // no face of these places is listed
    texels.clear();
    texels.reserve(each.count * kTexels);
    for (std::size_t i = 0; i < each.count; ++i) {
      const scene::Solid& solid = scene.solids[each.solid + i];
      addTexels(texels, scene, solid, sent.keyOf(solid.part));
    }
    solids_.replace(each.place * kTexels * sizeof(glm::vec4), texels.data(), texels.size() * sizeof(glm::vec4));
  }
}

void SolidBatch::growIndices(std::size_t faces) {
  if (faces <= indexed_faces_) return;                             // the numbers suit every scene
  const std::size_t wanted = std::max(faces, indexed_faces_ * 2);  // doubled, so that growing lists seldom send them
  std::vector<std::uint32_t> index;
  index.reserve(wanted * 6);
  for (std::size_t f = 0; f < wanted; ++f) {
    for (const std::uint32_t corner : {0U, 1U, 2U, 0U, 2U, 3U}) {  // two triangles a face
      index.push_back(static_cast<std::uint32_t>(4 * f) + corner);
    }
  }
  glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, indices_.id());
  glBufferData(GL_ELEMENT_ARRAY_BUFFER, static_cast<GLsizeiptr>(index.size() * sizeof(std::uint32_t)), index.data(),
               GL_STATIC_DRAW);
  indexed_faces_ = wanted;
}

int SolidBatch::draw(const std::vector<std::uint32_t>& faces) {
  if (faces.empty()) return 0;
  glBindVertexArray(array_.id());  // first, as the index buffer is bound in it
  growIndices(faces.size());
  glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, indices_.id());
  faces_.send(faces.data(), faces.size() * sizeof(std::uint32_t), GL_STREAM_DRAW);
  faces_.bind(kFacesUnit);
  solids_.bind(kSolidsUnit);
  glDrawElements(GL_TRIANGLES, static_cast<GLsizei>(faces.size() * 6), GL_UNSIGNED_INT, nullptr);
  return 1;
}

MeshBatch::MeshBatch()
    : vertices_(make<Buffer>(glGenBuffers)),
      instances_(make<Buffer>(glGenBuffers)),
      array_(make<VertexArray>(glGenVertexArrays)) {}

void MeshBatch::addShape(const scene::Mesh& mesh, std::vector<Vertex>& vertices) {
  // A line is inked as an edge of the triangles that have it; ends are matched to a thousandth of a millimetre.
  using Key = std::tuple<long, long, long>;
  const auto key = [](glm::vec3 p) {
    return Key{std::lround(p.x * 1000.0F), std::lround(p.y * 1000.0F), std::lround(p.z * 1000.0F)};
  };
  std::set<std::pair<Key, Key>> lines;
  for (std::size_t i = 0; i + 1 < mesh.line.size(); i += 2) {
    lines.emplace(std::minmax(key(mesh.line[i]), key(mesh.line[i + 1])));  // a line has no direction
  }
  const auto inked = [&](glm::vec3 a, glm::vec3 b) {
    return lines.count(std::pair<Key, Key>(std::minmax(key(a), key(b)))) > 0 ? 1.0F : 0.0F;
  };

  Shape shape;
  shape.first = static_cast<GLint>(vertices.size());
  for (std::size_t i = 0; i + 2 < mesh.corner.size(); i += 3) {
    const glm::vec3 a = mesh.corner[i];
    const glm::vec3 b = mesh.corner[i + 1];
    const glm::vec3 c = mesh.corner[i + 2];
    const float ab = inked(a, b);
    const float bc = inked(b, c);
    const float ca = inked(c, a);
    vertices.push_back({a, b, c, {ab, bc, ca, 0.0F}});  // each corner is the own one of its vertex; w tells which
    vertices.push_back({b, c, a, {bc, ca, ab, 1.0F}});
    vertices.push_back({c, a, b, {ca, ab, bc, 2.0F}});
  }
  shape.count = static_cast<GLsizei>(vertices.size()) - static_cast<GLsizei>(shape.first);
  const scene::Box box = scene::boxRound(mesh.corner);
  shape.centre = (box.low + box.high) * 0.5F;
  std::array<float, 3> extent{box.high.x - box.low.x, box.high.y - box.low.y, box.high.z - box.low.z};
  std::sort(extent.begin(), extent.end());
  shape.radius = glm::length(box.high - box.low) * 0.5F;
  shape.width = extent[1];
  shapes_.push_back(shape);
}

std::vector<Whereabouts> MeshBatch::upload(const scene::Scene& scene, const Sent& sent) {
  const auto same = [](const scene::Mesh& a, const scene::Mesh& b) { return a.corner == b.corner && a.line == b.line; };
  if (!std::equal(scene.meshes.begin(), scene.meshes.end(), meshes_.begin(), meshes_.end(), same)) {
    meshes_ = scene.meshes;
    shapes_.clear();
    std::vector<Vertex> vertices;
    for (const scene::Mesh& mesh : meshes_) addShape(mesh, vertices);
    sendTo(vertices_, vertices, GL_STATIC_DRAW);
    for (Use& use : uses_) use.shape = kEmpty;  // so that each has changed
  }
  // The uses as they are now: whose each is, where it lies, how far it reaches. Sorted, they make the runs.
  const std::vector<Use> before = std::exchange(uses_, {});
  uses_.reserve(scene.uses.size());
  for (const scene::MeshUse& use : scene.uses) {
    const scene::Part& part = scene.parts.at(use.part);
    Use u;
    u.shape = use.mesh;
    if (u.shape >= shapes_.size()) throw std::runtime_error("The scene places a mesh that it doesn't have.");
    u.where.layer = part.layer;
    u.where.step = part.step;
    u.where.glass = part.material == scene::Material::Glass;
    if (const scene::WallFrame* wall = wallOf(scene, part)) u.where.inward = wall->inward;
    const Shape& shape = shapes_[u.shape];
    const glm::mat4 m(use.place);
    u.where.centre = glm::vec3(m * glm::vec4(shape.centre, 1.0F));
    const float scale = std::max({glm::length(m[0]), glm::length(m[1]), glm::length(m[2])});
    u.where.radius = shape.radius * scale;  // a bound
    u.where.narrow = glm::vec3(shape.width * scale);
    const PartKey key = sent.keyOf(use.part);
    u.instance = {use.place, ownerOf(part, key, 0), glm::vec4(glm::vec2(u.where.inward), seedOf(key), 0.0F)};
    uses_.push_back(u);
  }
  order_.resize(uses_.size());
  std::iota(order_.begin(), order_.end(), std::size_t{0});
  const auto pass = [this](std::size_t i) { return std::tuple(uses_[i].where.glass, uses_[i].shape); };  // glass last
  std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) { return pass(a) < pass(b); });
  const auto [was, is] = std::mismatch(before.begin(), before.end(), uses_.begin(), uses_.end());  // alike in front …
  const auto [was_end, is_end] =  // … and at the back has not changed
      std::mismatch(before.rbegin(), std::make_reverse_iterator(was), uses_.rbegin(), std::make_reverse_iterator(is));
  std::vector<Whereabouts> changed;
  const auto add = [&changed](const Use& use) { changed.push_back(use.where); };
  std::for_each(was, was_end.base(), add);
  std::for_each(is, is_end.base(), add);
  return changed;
}

std::vector<Whereabouts> MeshBatch::placesOf(PartKey key) const {
  std::vector<Whereabouts> places;
  for (const Use& use : uses_) {
    const glm::ivec4 whose(use.instance.whose);
    if (whose.w >> 5 == key.block && whose.y == key.local) places.push_back(use.where);  // packed by ownerOf
  }
  return places;
}

std::size_t MeshBatch::list(const Look& look, const Camera& camera, float height, DepthRange& range) {
  shown_.clear();
  const Smallness small(camera, height);
  const glm::vec3 eye = camera.eye();
  const glm::vec3 forward = camera.forward();
  for (const std::size_t i : order_) {
    const Whereabouts& where = uses_[i].where;
    if (!isShown(where.layer, where.step, look) || shapes_[uses_[i].shape].count == 0) continue;
    const glm::vec3 centre = where.centre + where.inward * spreadOffset(where.layer, look.spread);
    const float depth = glm::dot(centre - eye, forward);
    const bool thin = small.isTooNarrow(where.narrow.x, depth - where.radius);
    if (thin || small.isTooSmall(where.radius, depth) || (look.cut && look.cut->beyond(centre) > where.radius))
      continue;
    range.hold(depth, where.radius);
    shown_.push_back(i);
  }
  return shown_.size();
}

void MeshBatch::send(const Within* within) {
  runs_.clear();
  listed_.clear();
  for (const std::size_t i : shown_) {
    const Use& use = uses_[i];
    if (within != nullptr && !within->touches(within->round(use.where))) continue;
    if (runs_.empty() || runs_.back().shape != use.shape || runs_.back().glass != use.where.glass) {
      runs_.push_back({use.shape, use.where.glass, listed_.size(), 0});
    }
    ++runs_.back().count;
    listed_.push_back(use.instance);
  }
  if (!listed_.empty()) sendTo(instances_, listed_, GL_STREAM_DRAW);
}

int MeshBatch::draw(bool glass) {
  int calls = 0;
  glBindVertexArray(array_.id());
  for (const Run& run : runs_) {
    if (run.glass != glass) continue;
    ++calls;
    glBindBuffer(GL_ARRAY_BUFFER, vertices_.id());
    for (GLuint i = 0; i < 3; ++i) attribute(i, 3, sizeof(Vertex), i * sizeof(glm::vec3), 0);
    attribute(3, 4, sizeof(Vertex), offsetof(Vertex, inked), 0);
    glBindBuffer(GL_ARRAY_BUFFER, instances_.id());
    for (GLuint i = 0; i < 6; ++i) {  // 3.3 has no first instance: each run's pointers start at its own
      attribute(4 + i, 4, sizeof(Instance), run.first * sizeof(Instance) + i * sizeof(glm::vec4), 1);
    }
    const Shape& shape = shapes_[run.shape];
    glDrawArraysInstanced(GL_TRIANGLES, shape.first, shape.count, static_cast<GLsizei>(run.count));
  }
  return calls;
}

ShadowBatch::ShadowBatch() : buffer_(make<Buffer>(glGenBuffers)), array_(make<VertexArray>(glGenVertexArrays)) {
  glBindVertexArray(array_.id());
  glBindBuffer(GL_ARRAY_BUFFER, buffer_.id());
  attribute(0, 3, sizeof(ShadowCorner), offsetof(ShadowCorner, place), 0);
  attribute(1, 2, sizeof(ShadowCorner), offsetof(ShadowCorner, spot), 0);
  attribute(2, 2, sizeof(ShadowCorner), offsetof(ShadowCorner, size), 0);
  attribute(3, 4, sizeof(ShadowCorner), offsetof(ShadowCorner, run), 0);
  glBindVertexArray(0);
}

void ShadowBatch::upload(const scene::Scene& scene) {
  shadows_ = layShadows(scene);
  std::vector<ShadowCorner> all = shadows_.laid;
  all.insert(all.end(), shadows_.bare.begin(), shadows_.bare.end());
  sendTo(buffer_, all, GL_STATIC_DRAW);
}

void ShadowBatch::widen(const Camera& camera, DepthRange& range) const {
  for (const ShadowCorner& c : shadows_.laid) range.hold(glm::dot(c.place - camera.eye(), camera.forward()));
}

int ShadowBatch::draw(const Camera& camera, bool floor_hidden) {
  const std::vector<ShadowCorner>& drawn = floor_hidden ? shadows_.bare : shadows_.laid;
  if (drawn.empty()) return 0;
  const bool above = camera.parallel ? camera.forward().z < 0.0F : camera.eye().z > drawn.front().place.z;
  if (!above) return 0;  // nobody sees a shadow from below
  glBindVertexArray(array_.id());
  const std::size_t first = floor_hidden ? shadows_.laid.size() : 0;  // `bare` lies behind `laid` in one buffer
  glDrawArrays(GL_TRIANGLES, static_cast<GLint>(first), static_cast<GLsizei>(drawn.size()));
  return 1;
}

CutBatch::CutBatch() : faces_(GL_RGBA32F), triangles_(GL_R32UI), array_(make<VertexArray>(glGenVertexArrays)) {}

void CutBatch::upload(const scene::Scene& scene, const Sent& sent, const std::vector<scene::CutFace>& faces) {
  std::vector<glm::vec4> texels;
  std::vector<std::uint32_t> triangles;
  texels.reserve(faces.size() * kFaceTexels);
  triangles.reserve(faces.size() * 4);
  for (std::size_t i = 0; i < faces.size(); ++i) {
    const scene::CutFace& face = faces[i];
    addTexels(texels, face, scene.parts.at(face.part), sent.keyOf(face.part));
    // From the middle to each edge: each triangle then has the edges that its ink can come from beside it.
    for (std::uint32_t edge = 0; edge < face.count; ++edge) {
      triangles.push_back(static_cast<std::uint32_t>(i) << 3U | edge);  // 3 bits: a face has kMostCorners, 8, at most
    }
  }
  corners_ = static_cast<GLsizei>(triangles.size() * 3);
  if (triangles.empty()) return;  // draw() then asks for none
  faces_.send(texels.data(), texels.size() * sizeof(glm::vec4), GL_DYNAMIC_DRAW);
  triangles_.send(triangles.data(), triangles.size() * sizeof(std::uint32_t), GL_DYNAMIC_DRAW);
}

int CutBatch::draw() {
  if (corners_ == 0) return 0;
  glBindVertexArray(array_.id());
  triangles_.bind(kFacesUnit);
  faces_.bind(kSolidsUnit);
  glEnable(GL_STENCIL_TEST);  // all faces lie in one plane, where depth tells nothing: the first keeps the pixel
  glStencilMask(0xFF);
  glStencilFunc(GL_EQUAL, 0, 0xFF);
  glStencilOp(GL_KEEP, GL_KEEP, GL_INCR);
  glDrawArrays(GL_TRIANGLES, 0, corners_);
  glDisable(GL_STENCIL_TEST);
  return 1;
}

}  // namespace sillwright::render
