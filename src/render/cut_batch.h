/// What the card holds of a section: the faces that a plane cuts of the parts, in the order in which they have the
/// place.
///
/// All of them lie in one plane, so depth can't tell which one is seen where parts lie in one another. The first one
/// drawn marks its samples and later ones leave them alone: no flicker, one draw call. Inside this room only.
#pragma once

#include <cstdint>
#include <vector>

#include "render/gl.h"
#include "render/sent.h"
#include "scene/section/section.h"

namespace sillwright::render {

class CutBatch {
 public:
  CutBatch();
  void upload(const scene::Scene& scene, const Sent& sent, const std::vector<scene::CutFace>& faces);
  /// Draws with the program in use; changes the stencil test and puts it back. Returns the number of draw calls: 0
  /// or 1.
  int draw();

 private:
  BufferTexture faces_;
  BufferTexture triangles_;
  VertexArray array_;
  GLsizei corners_ = 0;
};

}  // namespace sillwright::render
