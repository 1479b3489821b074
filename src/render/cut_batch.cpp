#include "render/cut_batch.h"

#include "render/batches.h"

namespace sillwright::render {
namespace {

/// Four numbers a texel, this many texels a face: 8 corners, middle + half width, thin + inked edges, grain + seed,
/// owner. As in cut.vert.
constexpr std::size_t kTexels = 12;

glm::vec3 middleOf(const scene::CutFace& face) {
  glm::vec3 sum{0.0F};
  for (std::size_t i = 0; i < face.count; ++i) sum += face.corner[i];
  return sum / static_cast<float>(face.count);
}

void addTexels(std::vector<glm::vec4>& texels, const scene::CutFace& face, const scene::Part& part, PartKey key) {
  for (const glm::vec3& corner : face.corner) texels.emplace_back(corner, static_cast<float>(face.count));
  texels.emplace_back(middleOf(face), face.narrow * 0.5F);
  texels.emplace_back(face.thin, static_cast<float>(face.inked));
  texels.emplace_back(face.grain, seedOf(key));
  texels.push_back(ownerOf(part, key, face.across_grain ? 1 : 0));
}

}  // namespace

CutBatch::CutBatch() : faces_(GL_RGBA32F), triangles_(GL_R32UI), array_(makeVertexArray()) {}

void CutBatch::upload(const scene::Scene& scene, const Sent& sent, const std::vector<scene::CutFace>& faces) {
  std::vector<glm::vec4> texels;
  std::vector<std::uint32_t> triangles;
  texels.reserve(faces.size() * kTexels);
  triangles.reserve(faces.size() * 4);
  for (std::size_t i = 0; i < faces.size(); ++i) {
    const scene::CutFace& face = faces[i];
    addTexels(texels, face, scene.parts.at(face.part), sent.keyOf(face.part));
    // From the middle to each edge: each triangle then has the edges that its ink can come from beside it.
    for (std::uint32_t edge = 0; edge < face.count; ++edge) {
      triangles.push_back(static_cast<std::uint32_t>(i) << 3U | edge);
    }
  }
  corners_ = static_cast<GLsizei>(triangles.size() * 3);
  if (triangles.empty()) return;
  faces_.send(texels.data(), texels.size() * sizeof(glm::vec4), GL_DYNAMIC_DRAW);
  triangles_.send(triangles.data(), triangles.size() * sizeof(std::uint32_t), GL_DYNAMIC_DRAW);
}

int CutBatch::draw() {
  if (corners_ == 0) return 0;
  glBindVertexArray(array_.id());
  triangles_.bind(kFacesUnit);
  faces_.bind(kSolidsUnit);
  glEnable(GL_STENCIL_TEST);
  glStencilMask(0xFF);
  glStencilFunc(GL_EQUAL, 0, 0xFF);
  glStencilOp(GL_KEEP, GL_KEEP, GL_INCR);
  glDrawArrays(GL_TRIANGLES, 0, corners_);
  glDisable(GL_STENCIL_TEST);
  return 1;
}

}  // namespace sillwright::render
